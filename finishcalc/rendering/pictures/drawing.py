"""A picture with what it takes to draw it: as box drawing in a terminal, or as SVG for a file, a page or paper."""

from typing import NamedTuple

from finishcalc.rendering.pictures.box import box
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.cutting_box import cutting_box
from finishcalc.rendering.pictures.outlines import SizeOutline, outlines_text
from finishcalc.rendering.pictures.picture import Picture
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation


class Drawing(NamedTuple):
    """A picture of a page, with its `name`, which is unique there, and the signs to write its sizes with."""

    name: str
    picture: Picture | CuttingPicture | tuple[SizeOutline, ...]
    notation: Notation


def drawing_lines(drawing: Drawing, width: int) -> list[str]:
    """Draw the picture with box-drawing characters under its title, at most `width` columns wide."""
    picture, notation = drawing.picture, drawing.notation
    if isinstance(picture, CuttingPicture):
        return cutting_box(picture, notation, width)
    if isinstance(picture, Picture):
        return [*wrap(f"{picture.title}: {picture.description}", width), *box(picture, notation, width)]
    drawn = outlines_text(list(picture), width)
    return [*wrap("To one scale, from one corner:", width), *drawn] if drawn else []
