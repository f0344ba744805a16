"""An outside renderer draws every diagram of every sample, as wide as a telephone and as a sheet of paper.

It measures each text with a real font, so that a text that runs into another, or off the paper, is found.
"""

from functools import cache
from io import BytesIO
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest

from finishcalc.pipeline import finish_file
from finishcalc.rendering.pages.cut import picture_files
from tests.builders import PROJECTS

resvg_py = pytest.importorskip("resvg_py")
image = pytest.importorskip("PIL.Image")

SVG = "{http://www.w3.org/2000/svg}"
TELEPHONE = 390
"""Dots across a telephone in CSS pixels."""
SHEET = int(7.5 * 150)
"""Dots across a Letter sheet without its margins, at 150 to the inch."""

DIAGRAMS = [
    pytest.param(text, id=f"{project.stem}-{name}")
    for project in PROJECTS
    for name, text in picture_files(finish_file(str(project))).items()
    if name.startswith("cloth")
]


def rendered(svg: str, width: int) -> Any:
    """Draw an SVG on white, so many dots wide, in shades of grey."""
    png = resvg_py.svg_to_bytes(
        svg_string=svg, width=width, background="#ffffff", dpi=96, sans_serif_family="DejaVu Sans"
    )
    return image.open(BytesIO(png)).convert("L")


@pytest.mark.parametrize("width", [TELEPHONE, SHEET])
@pytest.mark.parametrize("text", DIAGRAMS)
def test_a_diagram_is_drawn_at_its_width(text: str, width: int):
    """It has the shape that it says, and between one dot in two hundred and one in two is dark."""
    root = ElementTree.fromstring(text)
    _, _, box_wide, box_high = (float(number) for number in root.get("viewBox", "").split())
    drawing = rendered(text, width)
    assert drawing.width == width
    assert drawing.height == pytest.approx(width * box_high / box_wide, abs=2)
    dark = sum(drawing.histogram()[:128])
    assert 0.005 < dark / (drawing.width * drawing.height) < 0.5


@pytest.mark.parametrize("text", DIAGRAMS)
def test_no_text_runs_into_another_or_off_the_paper(text: str):
    root = ElementTree.fromstring(text)
    _, _, wide, high = (float(number) for number in root.get("viewBox", "").split())
    boxes = [(element.text or "", box_of(element)) for element in root.iter(f"{SVG}text")]
    assert boxes
    for words, (left, top, right, bottom) in boxes:
        assert left >= 0, words
        assert top >= 0, words
        assert right <= wide, words
        assert bottom <= high, words
    for (one, (left, top, right, bottom)), (other, (x, y, to_x, to_y)) in combinations(boxes, 2):
        assert right <= x or to_x <= left or bottom <= y or to_y <= top, (one, other)


def box_of(element: ElementTree.Element) -> tuple[float, float, float, float]:
    """The rectangle of a text on paper: its width as a font has it, from the top of its letters to its base line."""
    size = float(element.get("font-size", "15"))
    wide, tall = width_of(element.text or "", size, element.get("font-weight", "")), size * 0.73
    x, y = float(element.get("x", "0")), float(element.get("y", "0"))
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "start")]
    if element.get("transform"):
        return x - tall, y - wide + before, x, y + before
    return x - before, y - tall, x - before + wide, y


@cache
def width_of(text: str, size: float, weight: str) -> float:
    """Draw a text by itself, and measure it."""
    root = ElementTree.fromstring(
        '<svg xmlns="http://www.w3.org/2000/svg" width="1000" height="60"><text x="10" y="40" '
        f'font-family="sans-serif" font-size="{size}" font-weight="{weight or "normal"}"></text></svg>'
    )
    root[0].text = text
    ink = rendered(ElementTree.tostring(root, encoding="unicode"), 1000).point(lambda grey: 255 - grey).getbbox()
    assert ink, f"no font has {text}"
    return float(ink[2] - 10)
