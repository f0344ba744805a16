"""Drawings at their sizes: on a sheet, across a cutting table and on a telephone. Letters are as large as they are
asked for, nothing covers anything else, and every drawing has its dimensions."""

import re
from collections import Counter
from functools import cache
from itertools import combinations

import pytest

from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.cut import cutting_diagrams, picture_files, pictures
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.drawn import (
    drawing_description,
    drawing_lines,
    drawing_svg,
    drawing_svgs,
    drawing_words,
)
from finishcalc.rendering.pictures.outlines import size_outlines
from finishcalc.rendering.pictures.passes import passes_files, passes_picture
from finishcalc.rendering.pictures.picture import Picture
from finishcalc.rendering.pictures.size import SCREEN, on_bench, on_paper
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import NO_BREAK, plain_blanks
from tests.builders import PROJECTS, cut_text, finished, quoted, sized
from tests.rendering.pictures.parsed import Parsed
from tests.rendering.test_cutting_diagram import INCHES, SASHES, drawn, piece, strip, strip_along
from tests.rendering.test_top_pictures import MEDALLION

pytestmark = pytest.mark.slow

MM = 72 / 25.4
SIZES = {
    "work order": on_paper(66, 100),
    "half a sheet": on_paper(100, 110),
    "sheet": on_paper(170, 200),
    "bench": on_bench(238, 150),
    "telephone": SCREEN,
}
CUTTING = ("sheet", "bench", "telephone")
"""A cloth is drawn across the whole sheet."""

SASHED = """[top.blocks]
across = 12
down = 14
size = 6
[top.sashing]
width = 1
outer = true
cornerstones = true
[[top.borders]]
cut = 2
"""
ON_POINT = """[top.blocks]
across = 5
down = 6
size = 9
setting = "on-point"
[top.sashing]
width = 2
outer = true
cornerstones = true
[[top.borders]]
cut = 5
"""
SCALLOPED = "[top]\nwidth = 60\nlength = 90\nscallop = { chord = 6, depth = 1 }\n[backing]\nfabric = 'cotton-44'\n"
RUNNER = "[top]\nwidth = 12\nlength = 118\n[backing]\nfabric = 'cotton-44'\n"
LARGE = "[top]\nwidth = 112\nlength = 116\n[backing]\nfabric = 'cotton-44'\n"
MADE_UP = {
    "sashed": SASHED,
    "medallion": MEDALLION,
    "on-point": ON_POINT,
    "scalloped": SCALLOPED,
    "runner": RUNNER,
    "large": LARGE,
}


def drawings_of(result: Finishing) -> list[Drawing]:
    """Every drawing of a quote."""
    notation = notation_of(result)
    named: dict[str, Picture | CuttingPicture] = {**pictures(result), **cutting_diagrams(result)}
    if passes := passes_picture(result.plans, notation):
        named["passes"] = passes
    return [Drawing(name, picture, notation) for name, picture in named.items()]


@cache
def result_of(name: str) -> Finishing:
    return quoted(MADE_UP[name]) if name in MADE_UP else finished(next(p for p in PROJECTS if p.stem == name))


@cache
def drawings(name: str) -> list[Drawing]:
    return drawings_of(result_of(name))


@cache
def sizes_drawing() -> Drawing:
    project = next(each for each in PROJECTS if each.stem == "boathouse-supper-cloth")
    comparison = sized(project, "twin", "queen", "king", "round 70", "table 36x72 drop 10")
    notation = notation_of(comparison.rows[0].result)
    return Drawing("sizes", tuple(size_outlines(comparison, notation)), notation)


NAMES = [*(project.stem for project in PROJECTS), *MADE_UP]


def each_drawing(name: str, size: str) -> list[Drawing]:
    """The drawings that are shown at a size."""
    return [each for each in drawings(name) if size in CUTTING or not isinstance(each.picture, CuttingPicture)]


@cache
def read(name: str, drawing_name: str, size: str, bare: bool = True) -> Parsed:
    """Read one drawing of a quote at a size."""
    (drawing,) = (each for each in drawings(name) if each.name == drawing_name)
    return Parsed(drawing_svg(drawing, SIZES[size], bare))


@cache
def read_sheets(name: str, drawing_name: str, size: str) -> list[Parsed]:
    """Read the sheets of one drawing of a quote."""
    (drawing,) = (each for each in drawings(name) if each.name == drawing_name)
    return [Parsed(svg) for svg in drawing_svgs(drawing, SIZES[size])]


every_one = pytest.mark.parametrize("name", NAMES)
at_each_size = pytest.mark.parametrize("size", SIZES)


@at_each_size
@every_one
def test_no_text_meets_another_or_leaves_the_sheet(name: str, size: str):
    for drawing in each_drawing(name, size):
        for bare in (False, True):
            parsed = read(name, drawing.name, size, bare)
            for one, other in combinations(parsed.texts, 2):
                assert not one.place.meets(other.place), (drawing.name, one, other)
            for each in parsed.texts:
                assert each.place.is_within(parsed.sheet), (drawing.name, each)


@at_each_size
def test_sizes_are_written_as_large_as_they_are_asked_for_and_meet_nothing(size: str):
    parsed, asked = Parsed(drawing_svg(sizes_drawing(), SIZES[size])), SIZES[size]
    assert {each.size for each in parsed.texts} == {asked.sizes}
    assert parsed.sheet.bottom - parsed.sheet.top <= asked.high + 0.1
    assert all(not one.place.meets(other.place) for one, other in combinations(parsed.texts, 2))
    assert all(each.place.is_within(parsed.sheet) for each in parsed.texts)


@at_each_size
@every_one
def test_a_drawing_has_the_width_that_is_asked_for_and_is_not_higher(name: str, size: str):
    """Its units are points, so that letters are as large on paper as they are written."""
    asked = SIZES[size]
    for drawing in each_drawing(name, size):
        parsed = read(name, drawing.name, size)
        sheet = parsed.sheet
        assert sheet.right - sheet.left == pytest.approx(asked.wide, abs=0.1)
        assert sheet.bottom - sheet.top <= asked.high + 0.1, drawing.name
        wide, high = f"{asked.wide:g}pt", f"{sheet.bottom - sheet.top:.1f}pt"
        assert parsed.sides == ((None, None) if size == "telephone" else (wide, high))


@at_each_size
@every_one
def test_letters_are_as_large_as_they_are_asked_for(name: str, size: str):
    asked = SIZES[size]
    for drawing in each_drawing(name, size):
        for each in read(name, drawing.name, size).texts:
            assert each.size in {asked.letters, asked.least_letters, asked.sizes, asked.ruler, asked.words}, each


def test_sheets_and_the_bench_have_letters_that_can_be_read_there():
    """At arm's length 8 1/2 points are the least; from a metre a letter is three times as large, and figures twice."""
    sheet, bench = on_paper(170, 200), on_bench(238, 150)
    assert min(sheet.letters, sheet.least_letters, sheet.sizes, sheet.ruler, sheet.words) == 8.5
    assert (bench.letters, bench.least_letters, bench.sizes, bench.ruler) == (34, 24, 20, 20)
    assert (sheet.wide, bench.wide) == (pytest.approx(170 * MM), pytest.approx(238 * MM))


def in_labels(words: list[str]) -> Counter[str]:
    """Count the letters of pieces in labels, where "3 x A" stands for three."""
    letters = Counter[str]()
    for text in words:
        if named := re.fullmatch(r"(?:(\d+) x )?([A-Z]\d*)(?:[: ].*)?", text):
            letters[named[2]] += int(named[1] or 1)
    return letters


@pytest.mark.parametrize("size", CUTTING)
@every_one
def test_every_piece_of_a_cloth_has_its_letter(name: str, size: str):
    """A piece that is torn between two rows has one in each."""
    for drawing in drawings(name):
        if isinstance(drawing.picture, CuttingPicture):
            pieces = Counter(piece.letter for piece in drawing.picture.pieces)
            for sheets in ([read(name, drawing.name, size)], read_sheets(name, drawing.name, size)):
                words = [text for sheet in sheets for text in sheet.words]
                assert in_labels(words) >= pieces, (drawing.name, words)


@at_each_size
@every_one
def test_every_piece_of_a_backing_has_its_letter(name: str, size: str):
    for drawing in drawings(name):
        if drawing.name == "backing" and isinstance(drawing.picture, Picture):
            words = read(name, drawing.name, size).words
            assert in_labels(words) == Counter(tile.name for tile in drawing.picture.tiles)


@at_each_size
@every_one
def test_every_drawing_has_its_dimensions(name: str, size: str):
    """A sewn one its width and its length, a cloth the width between its selvages and the ends of its rows."""
    for drawing in each_drawing(name, size):
        picture, show = drawing.picture, drawing.notation.show
        words = read(name, drawing.name, size).words
        if isinstance(picture, Picture):
            dimensions = [show(picture.width), show(picture.length)]
        else:
            assert isinstance(picture, CuttingPicture)
            dimensions = [show(picture.usable), show(picture.length)]
        for each in dimensions:
            assert any(plain_blanks(each) in text for text in words), (drawing.name, each, words)


@every_one
def test_a_long_cloth_takes_several_sheets_and_none_is_too_high(name: str):
    for drawing in drawings(name):
        for parsed in read_sheets(name, drawing.name, "bench"):
            assert parsed.sheet.bottom - parsed.sheet.top <= 150 * MM + 0.1
            assert all(not one.place.meets(other.place) for one, other in combinations(parsed.texts, 2))
            assert all(each.place.is_within(parsed.sheet) for each in parsed.texts)


def test_rows_of_a_long_cloth_follow_each_other_on_the_sheets():
    """Three panels of 120 in and half an inch: each is a row of its own, and the third holds what is left."""
    cloth = Drawing("cloth", drawn(*map(strip_along, "ABC")), INCHES)
    sheets = [Parsed(svg) for svg in drawing_svgs(cloth, SIZES["bench"])]
    assert len(sheets) > 1
    assert [text for sheet in sheets for text in sheet.words if " to " in text] == [
        "0 in to 120 in",
        "120 in to 240 in",
        "240 in to 360 1/2 in",
    ]
    pieces = [piece for sheet in sheets for piece in sheet.pieces]
    assert len({round(piece.right - piece.left, 1) for piece in pieces}) == 1  # to one scale


def test_a_cloth_that_would_be_too_high_at_full_width_is_drawn_smaller():
    """18 in of a cloth 40 in wide would be more than twice as high as the sheet is wide."""
    short = Drawing("cloth", drawn(strip(piece("border 1", "17 1/2", "40"))), INCHES)
    asked = on_paper(170, 60)
    sheet = Parsed(drawing_svg(short, asked, bare=True)).sheet
    assert 50 * MM < sheet.bottom - sheet.top <= 60 * MM + 0.1


def test_a_piece_too_small_for_its_letter_at_the_bench_has_a_leader():
    """A letter of 24 points is a third of an inch high; a strip of 2 1/2 in takes 2 1/2 / 40 of at most 5.9 in."""
    strips = Drawing("cloth", drawn(*[strip(piece("border 1", "2 1/2", "40"))] * 6, SASHES), INCHES)
    (svg,) = drawing_svgs(strips, on_bench(120, 90))
    labels = [each for each in Parsed(svg).texts if in_labels([each.text])]
    assert {each.text: each.size for each in labels}["6 x A"] == 24


def test_a_top_of_many_blocks_names_each_kind_once():
    """168 blocks, far too small for a word each, with sashing, cornerstones and a border."""
    top = next(each for each in drawings("sashed") if each.name == "top")
    words = Parsed(drawing_svg(top, SIZES["work order"], bare=True)).words
    assert [words.count(name) for name in ("block", "sashing", "corner", "border 1")] == [1, 1, 1, 1]
    lines = [each for each in Parsed(drawing_svg(top, SIZES["work order"])).root.iter() if each.get("class") == "piece"]
    assert {float(each.get("stroke-width", "0")) < 1 for each in lines} == {True}


def test_a_label_lies_within_the_line_to_trim_to():
    """The backing of a long table, 18 1/2 in wide beside its seam: 4 in of that are trimmed off."""
    backing = next(each for each in drawings("orchard-long-table") if each.name == "backing")
    parsed = Parsed(drawing_svg(backing, SIZES["half a sheet"], bare=True))
    (trimmed,) = (each for each in parsed.root.iter() if each.get("class") == "trimmed")
    right = float(trimmed.get("x", "0")) + float(trimmed.get("width", "0"))
    labels = [each for each in parsed.texts if each.text[0] in "ABC" or "x" in each.text]
    assert labels
    assert all(each.place.right <= right for each in labels)


def test_many_passes_that_are_too_low_for_words_have_theirs_at_the_left():
    passes = next(each for each in drawings("large") if each.name == "passes")
    assert isinstance(passes.picture, Picture)
    low = Parsed(drawing_svg(passes, on_paper(66, 35), bare=True))
    named = [each for each in low.texts if each.text.startswith("pass ")]
    assert 1 < len(named) < len(passes.picture.tiles)
    assert all(each.place.right < 0 for each in named)


@every_one
def test_without_a_size_a_drawing_is_the_one_in_a_file(name: str):
    result = result_of(name)
    files = picture_files(result) | passes_files(result.plans, notation_of(result))
    assert {f"{each.name}.svg": drawing_svg(each) for each in drawings(name)} == files


@every_one
def test_the_words_of_a_bare_drawing_are_left_to_its_page(name: str):
    for drawing in drawings(name):
        words = drawing_words(drawing)
        bare, whole = (" ".join(read(name, drawing.name, "sheet", bare).words) for bare in (True, False))
        facts = [plain_blanks(fact) for fact in words.facts[:1]]
        assert all(fact.split(" ")[0] in whole for fact in facts)
        assert all(fact not in bare for fact in facts)
        assert len(bare) < len(whole)


def test_the_words_of_a_cloth_are_its_name_its_length_its_grain_and_its_key():
    words = drawing_words(Drawing("cloth", drawn(SASHES, name="red"), INCHES))
    assert words.title == "red"
    assert words.facts[0].replace(NO_BREAK, " ") == "3 in to buy, for sashing"  # 2 1/2 + 1/2
    assert "grain" in words.facts[-1]
    assert [line.replace(NO_BREAK, " ") for line in words.key] == [
        "A: 3 for sashing, 2 1/2 x 12 1/2 in",
        "hatched: left over",
    ]
    one_way = drawing_words(Drawing("cloth", drawn(SASHES, nap=True), INCHES))
    assert "first cut" in one_way.facts[-1]
    assert "one way" in one_way.facts[-1]


@pytest.mark.parametrize("width", [40, 80])
@every_one
def test_a_terminal_has_the_drawings_of_its_page(name: str, width: int):
    page = plain_blanks(cut_text(result_of(name), width))
    for drawing in drawings(name):
        lines = drawing_lines(drawing, width)
        assert max(map(len, lines)) <= width
        if drawing.name != "passes" and not (drawing.name == "top" and name == "scalloped"):
            assert plain_blanks("\n".join(lines)) in page


@every_one
def test_a_description_says_what_is_drawn_with_its_dimensions(name: str):
    for drawing in drawings(name):
        words, picture, notation = drawing_description(drawing), drawing.picture, drawing.notation
        assert NO_BREAK not in words
        if isinstance(picture, Picture):
            assert plain_blanks(notation.size(picture.width, picture.length)) in words
        else:
            assert isinstance(picture, CuttingPicture)
            assert plain_blanks(notation.show(picture.usable)) in words
            assert all(plain_blanks(line) in words for line in picture.key)


def test_the_description_of_sizes_has_every_size():
    assert "queen: 84 x 92 in" in drawing_description(sizes_drawing())
