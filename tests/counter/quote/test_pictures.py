"""The pictures of a live page: their colours are its style sheet's to set, and they stay small."""

import re
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest

from finishcalc.counter.quote.pictures import MOST_PIECES, customer_pictures
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pictures.drawn import drawing_svg
from finishcalc.rendering.pictures.size import PAGE
from tests.builders import PROJECTS, ROOT, finished, quoted, with_top

COLOURS = {"#000", "#fff"}
SHEET = ROOT / "finishcalc" / "counter" / "pages" / "static" / "counter.css"
CHECKED = '[top.blocks]\nacross = {n}\ndown = {n}\nsize = 3\n[top.sashing]\nwidth = "1/2"\ncornerstones = true\n'


def drawn(result: Finishing) -> dict[str, str]:
    return {each.name: drawing_svg(each, PAGE, bare=True) for each in customer_pictures(result)}


def elements(svg: str) -> list[Element]:
    return list(fromstring(svg).iter())


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_colour_is_an_attribute_that_the_page_s_style_sheet_overrides(path: Path):
    """A rule for each of the four colours there are: fill and stroke, black and white."""
    for svg in drawn(finished(path)).values():
        for element in elements(svg):
            assert element.tag != "style"
            assert "style" not in element.attrib
            fill, stroke = element.get("fill", "none"), element.get("stroke", "none")
            assert fill in {*COLOURS, "none"} or re.fullmatch(r"url\(#picture-[a-z0-9-]+-hatch\)", fill)
            assert stroke in {*COLOURS, "none"}
    sheet = SHEET.read_text(encoding="utf-8")
    for name in ("fill", "stroke"):
        for colour in COLOURS:
            assert re.search(rf'\.pic \[{name}="{colour}"\] {{ {name}: var\(--(ink|paper)\); }}', sheet)


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_no_id_stands_twice_in_a_page_and_each_begins_with_its_picture(path: Path):
    pictures = drawn(finished(path))
    ids = [element.get("id") for svg in pictures.values() for element in elements(svg) if element.get("id")]
    assert len(ids) == len(set(ids)) == 3 * len(pictures)
    for name, svg in pictures.items():
        assert {element.get("id") for element in elements(svg)} - {None} == {
            f"{name}-{part}" for part in ("title", "description", "hatch")
        }


@pytest.mark.parametrize(
    ("top", "said", "shape"),
    [
        ("width = '60 1/2'\nlength = 84", "60 1/2 x 84 in, unfinished size", "rect"),
        ("diameter = 70", "round, 70 in across, unfinished size", "ellipse"),
        ("shape = 'oval'\nwidth = 60\nlength = 90", "oval, 60 x 90 in, unfinished size", "ellipse"),
        ("width = 60\nlength = 84\ncorner_radius = 8", "60 x 84 in, unfinished size", "rect"),
    ],
)
def test_a_plain_top_is_drawn_in_its_own_outline(top: str, said: str, shape: str):
    picture = customer_pictures(with_top(top))[0]
    svg = drawing_svg(picture, PAGE, bare=True)
    found = [each for each in elements(svg) if each.get("class") in ("piece", "trimmed")]
    assert picture.picture.description.replace("\u00a0", " ") == said  # type: ignore[union-attr]
    assert [each.tag.rpartition("}")[2] for each in found] == [shape]
    assert ("rx" in found[0].attrib) is (shape == "ellipse" or "corner" in top)


def test_a_backing_that_is_none_and_a_top_alone_make_one_picture():
    result = quoted("[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = 'none'\n[binding]\nattach = 'none'\n")
    assert list(drawn(result)) == ["picture-top"]


def test_a_top_of_thousands_of_pieces_is_a_small_picture():
    """30 x 30 blocks, 2 x 30 x 29 sashing strips and 29 x 29 cornerstones: 3,481 pieces."""
    pictures = drawn(quoted(CHECKED.format(n=30)))
    assert len(pictures["picture-top"]) < 10_000
    assert all(len(svg) < 60_000 for svg in pictures.values())


def test_a_cloth_of_more_pieces_than_can_be_told_apart_is_left_out():
    """The cloth of the top is the first: 17 x 17 = 289 blocks and more, against 5 x 5 with 40 strips and 16 posts."""
    assert 25 + 40 + 16 < MOST_PIECES < 17 * 17
    assert "picture-cloth-1" in drawn(quoted(CHECKED.format(n=5)))
    assert "picture-cloth-1" not in drawn(quoted(CHECKED.format(n=17)))
