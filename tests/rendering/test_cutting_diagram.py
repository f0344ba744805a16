"""The cutting diagram of a cloth: nothing on it is lost, and its letters and sizes are those of the list."""

import re
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Money
from finishcalc.plans.cutting.layout import Band, ClothLayout, Column, LaidPiece, Wanted
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.pieced.pieces import TopPieces, Triangles
from finishcalc.rendering.pages.cloth_cuts import ClothCuts
from finishcalc.rendering.pages.page import Line
from finishcalc.rendering.pictures.cutting import CuttingPicture, cutting_picture
from finishcalc.rendering.pictures.cutting_box import cutting_box
from finishcalc.rendering.pictures.cutting_svg import cutting_svg
from finishcalc.rendering.writers.text import line_words
from finishcalc.wording.notation import Notation
from tests.builders import cloth, inches, quoted

SVG = "{http://www.w3.org/2000/svg}"
INCHES = Notation("in", ruler=True)
USABLE = inches(40)


def piece(use: str, width: str, length: str, along: bool = False, joined_to: str = "", name: str = "") -> LaidPiece:
    """A piece `width` by `length`, its length across the cloth, or along it."""
    wide, long = inches(width), inches(length)
    wanted = Wanted(use, wide, long, 1, along, not along, inches(joined_to) if joined_to else long, name)
    return LaidPiece(wanted, wide, long) if along else LaidPiece(wanted, long, wide)


def strip(*pieces: LaidPiece) -> Band:
    """A strip across the cloth, cut into pieces."""
    return Band(pieces[0].along, tuple(Column(each.across, (each,)) for each in pieces))


def bought(*bands: Band, turned: bool = False, **fabric: object) -> Purchase:
    """Half an inch more than the bands take."""
    layout = ClothLayout(USABLE, bands, turned)
    length = layout.length + inches("1/2")
    of = cloth(**fabric)
    uses = tuple(dict.fromkeys(placed.piece.use for placed in layout.placed))
    cost = Money(0, quoted("[top]\nwidth=20\nlength=20\n").resolved.project.currency)
    return Purchase(
        fabrics=(of,),
        uses=uses,
        supplied_by="shop",
        cut_length=layout.length,
        lengths=(length,),
        amount=length,
        cost=cost,
        layouts=(layout,),
        weighed=None,
        on_hand=None,
        for_direction=ZERO,
        working=(),
    )


def drawn(*bands: Band, turned: bool = False, **fabric: object) -> CuttingPicture:
    return cutting_picture(bought(*bands, turned=turned, **fabric), 0, INCHES)


def texts(picture: CuttingPicture) -> list[str]:
    root = ElementTree.fromstring(cutting_svg(picture, INCHES, "one"))
    return [element.text or "" for element in root.iter(f"{SVG}text")]


SASHING = piece("sashing", "2 1/2", "12 1/2")
SASHES = strip(SASHING, SASHING, SASHING)
BORDER = strip(piece("border 1", "1", "40", joined_to="84 1/2"))


def test_pieces_and_what_is_left_cover_the_cloth_once():
    """3 x 12 1/2 of 40 in: 2 1/2 x 2 1/2 are left beside them, and 1/2 x 40 behind."""
    picture = drawn(SASHES)
    left = [(rest.along, rest.across) for rest in (*picture.bands[0].rests, *picture.rests)]
    assert left == [(inches("2 1/2"), inches("2 1/2")), (inches("1/2"), inches(40))]
    assert [(each.x, each.y) for each in picture.pieces] == [(ZERO, inches(n)) for n in ("0", "12 1/2", "25")]


def test_bands_that_run_along_the_cloth_lie_side_by_side():
    """A border of 60 in, and beside it three squares of 15 in, one of them above two of 7 in: each where it is cut."""
    border = piece("border 1", "5", "60", along=True)
    squares = [piece("triangles", "15", "15")] * 2
    small = piece("triangles", "7", "7")
    band = Band(inches(15), (*(Column(inches(15), (one,)) for one in squares), Column(inches(7), (small, small))))
    picture = drawn(Band(inches(5), (Column(inches(60), (border,)),)), band, turned=True)
    places = [(each.letter, each.x.to("in"), each.y.to("in")) for each in picture.pieces]
    assert places == [("A", 0, 0), ("B", 0, 5), ("B", 15, 5), ("C", 30, 5), ("C", 30, 12)]
    area = sum((rest.along * rest.across).mm2 for band in picture.bands for rest in band.rests)
    # 60 x 40 less 5 x 60, 2 of 15 x 15 and 2 of 7 x 7
    assert area == Fraction(60 * 40 - 300 - 450 - 98) * Fraction(254, 10) ** 2
    (step,) = (line for line in ClothCuts(bought(*picture_bands(border, band), turned=True), None, INCHES).steps())
    assert "cut a length of 60" in listed([step])
    assert "a strip 15 in wide along the cloth: 2 B" in listed([step])


def picture_bands(border: LaidPiece, band: Band) -> tuple[Band, Band]:
    return Band(inches(5), (Column(inches(60), (border,)),)), band


@pytest.mark.parametrize("width", [40, 60, 80])
def test_the_terminal_never_loses_a_strip(width: int):
    """Thirty strips would take more than forty lines: one is drawn, and how often it is cut stands beside it."""
    lines = cutting_box(drawn(*[BORDER] * 30, SASHES), INCHES, width)
    assert max(map(len, lines)) <= width
    assert any(line.endswith("│ 30 x 1 in") for line in lines)
    assert "not to scale" in " ".join(lines)
    few = cutting_box(drawn(*[BORDER] * 5, SASHES), INCHES, width)
    assert sum(line.endswith("│ 1 in") for line in few) == 5


@pytest.mark.parametrize("width", [40, 80])
def test_many_narrow_columns_become_one_with_their_number(width: int):
    """32 of 1 1/4 in side by side: there are too few columns in a narrow terminal to draw each."""
    narrow = piece("sashing", "1 1/4", "9", along=True)
    band = Band(inches(9), (Column(inches("1 1/4"), (narrow,)),) * 32)
    lines = cutting_box(drawn(band), INCHES, width)
    assert any("32 x A" in line for line in lines) or sum(line.count("A") for line in lines if "│" in line) == 32
    assert any("32 x A" in line for line in lines) == (width == 40)


@given(
    st.lists(
        st.lists(st.tuples(st.integers(1, 24), st.integers(1, 3)), min_size=1, max_size=14), min_size=1, max_size=12
    ),
    st.sampled_from([40, 57, 80]),
)
def test_every_letter_is_found_in_both_drawings(rows: list[list[tuple[int, int]]], width: int):
    """Whatever lies on the cloth: each letter of the key is in the terminal's drawing, and as often as it is cut in the
    other, where a label "3 x A" stands for three."""
    bands = []
    for row in rows:
        columns, room = list[Column](), 40
        for across, times in row:
            if across <= room:
                room -= across
                one = LaidPiece(Wanted("sashing", inches(across), inches(3), 1, True, False, inches(3)), *sides(across))
                columns.append(Column(inches(across), (one,) * times))
        if columns:
            bands.append(Band(inches(9), tuple(columns)))
    picture = drawn(*bands)
    lines = cutting_box(picture, INCHES, width)
    assert max(map(len, lines)) <= width
    box = " ".join(line.rsplit("│", 1)[0] for line in lines if line.startswith("│"))
    letters = Counter(each.letter for each in picture.pieces)
    for letter in letters:
        assert re.search(rf"\b{letter}\b", box), (letter, lines)
    labels = Counter[str]()
    for text in texts(picture):
        if named := re.fullmatch(r"(?:(\d+) x )?([A-Z]\d?)(?:: .*)?", text):
            labels[named[2]] += int(named[1] or 1)
    assert all(labels[letter] - 1 == number or labels[letter] == number for letter, number in letters.items())


def sides(across: int) -> tuple[Length, Length]:
    return inches(across), inches(3)


def test_a_strip_too_narrow_for_its_letter_has_a_leader():
    """At most ten units to the inch are drawn: a strip of 1/2 in takes five, and a letter nine."""
    narrow = [strip(piece("border 1", "1/2", "40"))] * 4
    picture = drawn(*narrow, SASHES)
    assert "4 x A" in texts(picture)
    assert "4 x A" not in texts(drawn(*[strip(piece("border 1", "2", "40"))] * 4))


def test_long_cloth_is_broken_into_rows_of_one_scale():
    """Three panels of 120 in: each row says where it starts, and a sheet of 10 in holds them all."""
    panels = [strip_along(name) for name in "ABC"]
    picture = drawn(*panels)
    assert [text for text in texts(picture) if text.startswith("from ")] == [
        "from 0 in on",
        "from 120 in on",
        "from 240 in on",
    ]
    root = ElementTree.fromstring(cutting_svg(picture, INCHES, "one"))
    assert root.get("width") == "7.5in"
    assert float(root.get("height", "").removesuffix("in")) <= 10
    boxes = [box for box in root.iter(f"{SVG}rect") if box.get("class") == "piece"]
    assert len({(box.get("width"), box.get("height")) for box in boxes}) == 1


def strip_along(name: str) -> Band:
    return Band(inches(120), (Column(inches(36), (piece("backing", "36", "120", along=True, name=name),)),))


def test_a_band_longer_than_a_row_is_torn_and_named_in_each():
    picture = drawn(Band(inches(900), (Column(inches(36), (piece("backing", "36", "900", along=True, name="A"),)),)))
    named = [text for text in texts(picture) if text == "A"]
    assert len(named) == len([text for text in texts(picture) if text.startswith("from ")]) > 1


def test_ids_begin_with_the_prefix_and_there_is_no_style_sheet():
    """So that several stand in one page of HTML."""
    for prefix in ("one", "two"):
        text = cutting_svg(drawn(SASHES), INCHES, prefix)
        assert "<style" not in text
        ids = re.findall(r'\bid="([^"]+)"', text)
        assert ids
        assert all(each.startswith(f"{prefix}-") for each in ids)
        used = re.findall(r"url\(#([^)]+)\)", text) + re.findall(r'aria-labelledby="([^"]+)"', text)[0].split()
        assert set(used) <= set(ids)


@pytest.mark.parametrize(("fabric", "one_way"), [({}, False), ({"directional": True}, True), ({"nap": True}, True)])
def test_cloth_that_runs_one_way_names_its_ends(fabric: dict[str, bool], one_way: bool):
    picture = drawn(SASHES, **fabric)
    words = " ".join(texts(picture))
    assert ("first cut" in words and "end of the bolt" in words) == one_way
    box = " ".join(cutting_box(picture, INCHES, 80))
    assert ("↓ one way, from the first cut to the end of the bolt" in box) == one_way
    assert ("↕ grain" in box) != one_way


def test_a_drawing_says_its_cloth_its_length_and_its_selvages():
    shown = texts(drawn(SASHES, name="red <&> white"))
    assert shown[0] == "red <&> white"
    assert shown[1] == "3 in to buy, for sashing"  # 2 1/2 + 1/2
    assert shown.count("selvage") == 2
    assert "fold" in shown
    assert "A: 3 for sashing, 2 1/2 x 12 1/2 in" in shown
    assert "left over" in shown


# --- the list ----------------------------------------------------------------------------------------------------


def listed(cuts: Sequence[str | Line]) -> str:
    words = [line_words(each) if isinstance(each, Line) else each for each in cuts]
    return " / ".join(words).replace("\u00a0", " ")


def test_strips_are_counted_first_and_cut_with_their_letters():
    """48 sashes, three from a strip: 16 strips, of which the first line says the total."""
    cuts = ClothCuts(bought(*[SASHES] * 16), None, INCHES)
    assert listed(cuts.totals()) == "48 sashing strips 2 1/2 x 12 1/2 in"
    assert listed(cuts.steps()[-1:]) == (
        "1. cut 16 strips 2 1/2 in x width of cloth; from each 3 A (sashing, 2 1/2 x 12 1/2 in)"
    )


def test_small_squares_come_from_the_rest_of_a_wide_strip():
    """Four of 6 1/2 in take 26 of 40; in the 14 x 6 1/2 beside them are five columns of two of 2 1/2."""
    large, small = piece("border 1", "6 1/2", "6 1/2"), piece("cornerstones", "2 1/2", "2 1/2")
    band = Band(
        inches("6 1/2"), (*[Column(inches("6 1/2"), (large,))] * 4, *[Column(inches("2 1/2"), (small,) * 2)] * 5)
    )
    cuts = ClothCuts(bought(band), None, INCHES)
    assert listed(cuts.totals()) == "4 squares 6 1/2 in for border 1 and 10 cornerstones 2 1/2 in"
    assert listed(cuts.steps()[-1:]) == (
        "1. cut 1 strip 6 1/2 in x width of cloth; from it 4 A (border 1, 6 1/2 in square); "
        "beside that, 5 pieces 2 1/2 in wide: 2 B (cornerstones, 2 1/2 in square) from each"
    )


def test_squares_say_how_they_become_triangles():
    """Three squares cut twice are twelve triangles, of which ten are needed; two cut once are four."""
    side, corner = piece("triangles", "14", "14"), piece("triangles", "7 1/4", "7 1/4")
    triangles = (Triangles("side", inches(14), 3, 10), Triangles("corner", inches("7 1/4"), 2, 4))
    pieces = TopPieces(None, None, (), (), None, triangles, ())
    cuts = ClothCuts(bought(strip(side, side), strip(side), strip(corner, corner)), pieces, INCHES)
    assert listed(cuts.triangles()) == (
        "A: cut the 3 twice corner to corner: 12 triangles, 10 needed as side triangles / "
        "B: cut the 2 once corner to corner: 4 triangles, 4 needed as corner triangles"
    )


def test_joined_strips_say_what_they_make():
    """Two of 40 and one of 8 in make 84 1/2 in, twice over; a binding's strips are joined elsewhere."""
    from finishcalc.plans.pieced.pieces import Pieces

    whole, part = (piece("sashing", "1", length, joined_to="84 1/2") for length in ("40", "8"))
    pieces = TopPieces(None, None, (), (Pieces(inches(1), inches("84 1/2"), 2),), None, (), ())
    binding = strip(piece("binding", "2 1/2", "40"))
    cuts = ClothCuts(bought(*[strip(whole)] * 4, strip(part, part), binding), pieces, INCHES)
    assert listed(cuts.joins()) == "for sashing, join 2 A and 1 B end to end to make 1 x 84 1/2 in; make 2 of these"
    assert listed(cuts.totals()) == "2 sashing strips 1 x 84 1/2 in, joined and 1 binding strip 2 1/2 x 40 in"


def test_strips_that_are_joined_to_different_lengths_are_cut_together():
    """Four of 40 in, two for each of two sides: they are cut alike, and only the joins tell them apart."""
    long, short = (strip(piece("border 1", "1", "40", joined_to=joined)) for joined in ("84 1/2", "73 1/2"))
    part = strip(piece("border 1", "1", "8", joined_to="84 1/2"))
    steps = ClothCuts(bought(long, long, short, short, part), None, INCHES).steps()
    assert listed(steps) == (
        "1. cut 5 strips 1 in x width of cloth; 4 of them are A (border 1, 1 x 40 in); "
        "from one of them 1 B (border 1, 1 x 8 in)"
    )


def test_pieces_of_the_backing_keep_their_letters_and_others_take_the_next():
    """A and B are named in the picture of the backing, so a strip beside A is C, though it is cut before B."""
    panels = [piece("backing", "36", "60", along=True, name=name) for name in "AB"]
    beside = piece("binding", "2 1/2", "60", along=True)
    first = Band(inches(60), (Column(inches(36), (panels[0],)), Column(inches("2 1/2"), (beside,))))
    picture = drawn(first, Band(inches(60), (Column(inches(36), (panels[1],)),)))
    assert [each.letter for each in picture.pieces] == ["A", "C", "B"]
    assert [line.replace("\u00a0", " ") for line in picture.key] == [
        "A, B: 2 for backing, 36 x 60 in",
        "C: 1 for binding, 2 1/2 x 60 in",
    ]


def test_metric_sizes_are_in_millimetres():
    cuts = ClothCuts(bought(SASHES), None, Notation("cm", decimal=",", ruler=True))
    assert "6,4 x 31,8 cm" in listed(cuts.steps())  # 63.5 x 317.5 mm, up to the next
