"""Drawings as HTML sets them: one for every screen, and for the cutting table others on paper, as large as it holds."""

from typing import NamedTuple

from finishcalc.rendering.pages.page import Format
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.drawn import DrawingWords, drawing_svg, drawing_svgs, drawing_words
from finishcalc.rendering.pictures.size import SCREEN, on_bench

BENCH = {"letter": (235, 135), "A4": (252, 130)}
"""The room for a drawing on a sheet for the cutting table, across and down in millimetres, with its words above it."""


class SetDrawing(NamedTuple):
    """A drawing for the `screen`, which is printed too where there are none for `paper`; on paper its `words` stand
    above each."""

    screen: str
    words: DrawingWords
    paper: tuple[str, ...] = ()


def set_drawing(drawing: Drawing, made: Format, number: int) -> SetDrawing:
    """Draw a picture as whole SVG documents. Their ids begin with its number in the page, and so are unique there."""
    screen = drawing_svg(drawing._replace(name=f"drawing-{number}"), SCREEN)
    sheets = drawing_svgs(drawing._replace(name=f"sheet-{number}"), on_bench(*BENCH[made.paper])) if made.bench else ()
    return SetDrawing(screen, drawing_words(drawing), tuple(sheets))
