"""The cut list and its pictures: what is drawn is what is planned, with its dimensions, in a narrow terminal too."""

import re
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest

from finishcalc.measures.numbers import from_text
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.cut import picture_files, pictures
from finishcalc.rendering.pictures.box import box
from finishcalc.rendering.pictures.picture import side_ruler, top_ruler
from finishcalc.wording.notation import Notation
from tests.builders import cut_text, quoted, run

SVG = "{http://www.w3.org/2000/svg}"
INCHES = Notation("in")

# Each kind of layout there is, with what makes it.
KINDS = {
    "one-piece": "width = 60\nlength = 80\n[backing]\nfabric = 'cotton-wide-108'\n",
    "panels": "width = 60\nlength = 80\n",
    "panels-and-halves": "width = 60\nlength = 80\n[backing]\ncentre = 'panel'\nseams = 'lengthwise'\n"
    "fabric = { preset = 'cotton-44', directional = true }\n",
    "panels-and-band": "width = 50\nlength = 116\n",
    "strips": "width = 11\nlength = 60\n[backing]\nseam_count = 1\n"
    "fabric = { preset = 'cotton-44', directional = true }\n",
    "repeat": "width = 60\nlength = 80\n[backing]\nfabric = { preset = 'cotton-44', repeat = 24 }\n",
    "plush": "width = 60\nlength = 80\n[backing]\nfabric = 'plush-60'\n",
}


def made(top: str) -> Finishing:
    return quoted(f"title = 'Two <&> one'\n[top]\n{top}")


@pytest.fixture(params=KINDS, ids=list(KINDS))
def result(request: pytest.FixtureRequest) -> Finishing:
    return made(KINDS[request.param])


@pytest.mark.parametrize("kind", ["one-piece", "panels", "panels-and-halves", "panels-and-band", "strips"])
def test_each_kind_is_what_it_says(kind: str):
    """So that the tests below really see every kind of layout."""
    plan = made(KINDS[kind]).plans.backing
    assert plan
    assert plan.chosen
    assert plan.chosen.layout.name == kind


@pytest.mark.parametrize("width", [80, 56, 40])
def test_no_line_is_wider_than_the_terminal(result: Finishing, width: int):
    for line in cut_text(result, width).splitlines():
        assert len(line) <= width, line


def test_every_piece_is_listed_once_and_measurable(result: Finishing):
    """The list holds each piece with a size in whole eighths of an inch, never under what is planned."""
    assert result.plans.backing
    assert result.plans.backing.chosen
    listed = " ".join(cut_text(result).split("Batting")[0].split())
    for cut in result.plans.backing.chosen.layout.cuts:
        (shown,) = re.findall(rf"\b{cut.piece} \(backing, ([0-9 /]+?) x ([0-9 /]+?) in\)", listed)
        for text, side in zip(shown, (cut.width, cut.length), strict=True):
            size = from_text(text)
            assert side.to("in") <= size < side.to("in") + Fraction(1, 8)
            assert (size * 8).denominator == 1


def test_the_rulers_measure_the_whole_picture(result: Finishing):
    """Above, the tiles along the upper edge; beside, those along the right one: end to end they are the size."""
    for picture in pictures(result).values():
        for marks, whole in (
            (top_ruler(picture, INCHES), picture.width),
            (side_ruler(picture, INCHES), picture.length),
        ):
            assert marks[0].start.mm == 0
            assert marks[-1].end == whole
            assert all(one.end == other.start for one, other in pairwise(marks))


def test_the_box_shows_names_and_dimensions(result: Finishing):
    picture = pictures(result)["backing"]
    drawn = "\n".join(box(picture, INCHES, 78))
    assert all(re.search(rf"\b{tile.name} [↔↕↓]", drawn) for tile in picture.tiles)
    for mark in side_ruler(picture, INCHES):
        assert mark.text.replace("\u00a0", " ") in drawn


def test_junctions_join_what_lines_they_meet():
    """A panel beside two pieces: the long seam meets the short one in a T, and the frame is closed."""
    drawn = box(pictures(made(KINDS["panels-and-band"]))["backing"], INCHES, 60)
    text = "\n".join(drawn)
    assert text.count("┌") == text.count("┐") == text.count("└") == text.count("┘") == 1
    assert "┬" in text
    assert "┴" in text
    assert "┼" not in text  # no four seams meet


def test_svg_is_well_formed_and_says_what_it_shows(result: Finishing):
    assert result.plans.backing
    assert result.plans.backing.chosen
    files = picture_files(result)
    assert list(files) == ["cloth-1.svg", "cloth-2.svg", "backing.svg"]
    for text in files.values():
        root = ElementTree.fromstring(text)
        assert root.tag == f"{SVG}svg"
        assert root.get("viewBox")
        assert root.findtext(f"{SVG}title")
        assert root.findtext(f"{SVG}desc")
        assert "\u00a0" not in text
    pieces = ElementTree.fromstring(files["cloth-1.svg"]).findall(f".//{SVG}rect[@class='piece']")
    assert len(pieces) == len(result.plans.backing.chosen.layout.cuts)


def test_svg_is_black_and_white(result: Finishing):
    """Whatever a printer makes of it, nothing depends on colour."""
    for text in picture_files(result).values():
        assert set(re.findall(r"#[0-9a-f]+\b", re.sub(r"url\(#\w+\)", "", text))) <= {"#000", "#fff"}


def test_svg_keeps_the_proportions(result: Finishing):
    files = picture_files(result)
    for name, picture in pictures(result).items():
        rects = ElementTree.fromstring(files[f"{name}.svg"]).findall(f"{SVG}rect")
        right = max(float(rect.get("x", 0)) + float(rect.get("width", 0)) for rect in rects)
        bottom = max(float(rect.get("y", 0)) + float(rect.get("height", 0)) for rect in rects)
        assert right / bottom == pytest.approx(float(picture.width / picture.length), rel=1e-3)


def test_what_must_run_down_is_marked_so():
    assert "↓" in cut_text(made(KINDS["plush"]))
    assert "↓" not in cut_text(made(KINDS["panels"]))


def test_washing_squaring_and_selvages_are_said():
    text = " ".join(cut_text(made("width = 60\nlength = 80\n[backing]\nfabric = 'flannel-44'\n")).split())
    assert "wash and dry the cloth first" in text
    assert "square the end" in text
    assert "trim the selvages; planned on 38 7/8 in of usable width" in text  # 44 in, less 2 at each side and 3 %: 38.8
    assert "each side" not in text


def test_the_cutter_s_caution_comes_with_the_list():
    """Close the blade, cut away from the body (4-H safety guide)."""
    assert "close the blade" in cut_text(made(KINDS["panels"])).replace("\n             ", " ")


def test_nothing_to_cut_says_so():
    nothing = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
    assert "Nothing to cut" in cut_text(made(f"width = 60\nlength = 80\n{nothing}"))


def test_a_brought_backing_gets_its_strip_cut():
    result = made("width = 60\nlength = 80\n[backing]\nsewn = { width = 64, length = 88 }\n")
    text = " ".join(cut_text(result).split())
    assert "cut 3 across the cloth, 6 1/2 in wide each" in text
    assert "cut 3 strips 6 1/2 in x width of cloth; they are A (the backing strip, 6 1/2 x 40 in)" in text
    assert list(picture_files(result)) == ["cloth-1.svg", "cloth-2.svg"]


def test_a_metric_list_is_in_centimetres_alone():
    text = cut_text(quoted("units = 'cm'\n[top]\nwidth = 152\nlength = 203\n"))
    assert " cm" in text
    assert not re.search(r"\d (in|yd)\b", text)


def test_the_command_writes_whole_files_and_never_over_others(tmp_path: Path):
    project = tmp_path / "t.toml"
    project.write_text("[top]\nwidth = 60\nlength = 80\n")
    cut = ("cut", str(project), "--svg", str(tmp_path / "out"))
    first = run(*cut)
    assert first.exit_code == 0
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "backing.svg",
        "cloth-1.svg",
        "cloth-2.svg",
    ]
    again = run(*cut)
    assert again.exit_code == 1
    assert "already exists" in again.stderr
    assert again.stdout == ""
    assert run(*cut, "--force").exit_code == 0


def test_cloth_that_is_bought_in_one_length_is_not_cut_apart_first():
    """A list that said 5 1/4 yd for the backing would have her cut off 5 1/4 yd of the 5 3/4 that both take."""
    text = cut_text(made("width = '60 1/2'\nlength = 84\n[binding]\nfabric = 'backing'\ncut = 'crosswise'\n"))
    assert text.index("Cloth ") < text.index("Backing ") < text.index("Binding ")
    assert "5 3/4 yd of quilting cotton, 44 in wide, for backing and binding, in one length" in " ".join(text.split())
    assert "cut them in turn, without dividing it first" in " ".join(text.split())
    assert "5 1/4 yd" not in text
    assert "apart" not in cut_text(made("width = 60\nlength = 84\n[binding]\nattach = 'none'\n"))


def test_pictures_may_stand_together_inside_a_page():
    """No style sheet, which would reach the page, and every id begins with the name of its picture."""
    files = picture_files(made("width = 60\nlength = 80\n"))
    assert {"cloth-1.svg", "backing.svg"} <= files.keys()
    for name, text in files.items():
        assert "<style" not in text
        ids = [each.get("id") for each in ElementTree.fromstring(text).iter() if each.get("id")]
        assert ids
        assert all(each.startswith(name.removesuffix(".svg") + "-") for each in ids)
