"""Drawings as HTML sets them: one for every screen, and for the cutting table others on paper, as large as it holds."""

from typing import NamedTuple

from finishcalc.rendering.pages.page import Format
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.cutting_svg import cutting_svgs
from finishcalc.rendering.pictures.drawing import Drawing, drawing_svg
from finishcalc.rendering.pictures.picture import Picture
from finishcalc.rendering.pictures.size import SCREEN, DrawingSize, on_bench

BENCH = {"letter": (235, 135), "A4": (252, 130)}
"""The room for a drawing on a sheet for the cutting table, across and down in millimetres, with its words above it."""


class SetDrawing(NamedTuple):
    """A drawing for the `screen`, which is printed too where there are none for `paper`. On paper the `words` stand
    above them."""

    screen: str
    paper: tuple[str, ...] = ()
    words: tuple[str, ...] = ()


def set_drawing(drawing: Drawing, made: Format, number: int) -> SetDrawing:
    """Draw a picture as whole SVG documents. Their ids begin with its number in the page, and so are unique there."""
    screen = drawing_svg(drawing._replace(name=f"drawing-{number}"), SCREEN)
    if not made.bench:
        return SetDrawing(screen)
    size = on_bench(*BENCH[made.paper])
    return SetDrawing(screen, _sheets(drawing._replace(name=f"sheet-{number}"), size), tuple(_words(drawing)))


def _sheets(drawing: Drawing, size: DrawingSize) -> tuple[str, ...]:
    """Draw a picture without words; a long cloth on as many sheets as it needs."""
    if isinstance(drawing.picture, CuttingPicture):
        return tuple(cutting_svgs(drawing.picture, drawing.notation, drawing.name, size))
    return (drawing_svg(drawing, size, bare=True),)


def _words(drawing: Drawing) -> list[str]:
    """Give the words that belong to a picture without any."""
    picture = drawing.picture
    if isinstance(picture, CuttingPicture):
        way = (
            "left to right: from the first cut to the end of the bolt"
            if picture.one_way
            else "left to right: the grain"
        )
        hatched = [f"hatched: {picture.rest_words}"] if picture.has_rest else []
        return [picture.title, "; ".join(picture.facts), *picture.key, "; ".join([way, *hatched])]
    return [f"{picture.title}: {picture.description}", *picture.legend] if isinstance(picture, Picture) else []
