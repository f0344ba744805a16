"""A picture with what it takes to draw it: as box drawing in a terminal, or as SVG for a file, a page or paper."""

from itertools import groupby
from typing import NamedTuple

from finishcalc.rendering.pictures.box import box
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.cutting_box import cutting_box
from finishcalc.rendering.pictures.cutting_svg import cutting_svg
from finishcalc.rendering.pictures.outlines import SizeOutline, outlines_svg, outlines_text
from finishcalc.rendering.pictures.picture import Picture, Tile
from finishcalc.rendering.pictures.size import FILE, DrawingSize
from finishcalc.rendering.pictures.svg import svg
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation, plain_blanks


class Drawing(NamedTuple):
    """A picture of a page, with its `name`, which is unique there, and the signs to write its sizes with."""

    name: str
    picture: Picture | CuttingPicture | tuple[SizeOutline, ...]
    notation: Notation


def drawing_svg(drawing: Drawing, size: DrawingSize | None = None, bare: bool = False) -> str:
    """Draw it as a whole SVG document that ends with a line feed: with letters of a `size` on paper, or without one for
    a file. A `bare` one has no words beside the picture, because the page has them."""
    picture, notation, name = drawing.picture, drawing.notation, drawing.name
    if isinstance(picture, CuttingPicture):
        return cutting_svg(picture, notation, name, size or FILE, bare)
    if isinstance(picture, Picture):
        return svg(picture, notation, name)
    return outlines_svg(picture, name)


def drawing_lines(drawing: Drawing, width: int) -> list[str]:
    """Draw it with characters under its title, at most `width` columns wide."""
    picture, notation = drawing.picture, drawing.notation
    if isinstance(picture, CuttingPicture):
        return cutting_box(picture, notation, width)
    if isinstance(picture, Picture):
        return [*wrap(f"{picture.title}: {picture.description}", width), *box(picture, notation, width)]
    drawn = outlines_text(picture, width)
    return [*wrap("To one scale, from one corner:", width), *drawn] if drawn else []


def drawing_description(drawing: Drawing) -> str:
    """Say what the picture shows, with its dimensions, for those who cannot see it."""
    picture = drawing.picture
    if isinstance(picture, CuttingPicture):
        parts = [picture.title, *picture.facts, *picture.key]
    elif isinstance(picture, Picture):
        whole = drawing.notation.size(picture.width, picture.length)
        whole = "" if whole in picture.description else whole
        pieces = picture.legend if picture.of_top else _pieces(picture.tiles)
        parts = [f"{picture.title}: {picture.description}", whole, *pieces]
    else:
        parts = ["The sizes to one scale, from one corner", *(each.label for each in picture)]
    return plain_blanks("; ".join(filter(None, parts)))


def _pieces(tiles: tuple[Tile, ...]) -> list[str]:
    """Name the pieces, those of one size that follow each other together: "A and B, 42 x 108 in"."""
    named = (tile for tile in tiles if tile.name)
    return [
        ", ".join([*(tile.name for tile in alike), size]) if size else ", ".join(tile.name for tile in alike)
        for size, alike in groupby(named, key=lambda tile: tile.size)
    ]
