"""Drawings as box drawing in a terminal, or as SVG for a file, a page or paper, and what they show in words."""

from itertools import groupby
from typing import NamedTuple

from finishcalc.rendering.pictures.box import box
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.cutting_box import cutting_box
from finishcalc.rendering.pictures.cutting_svg import cutting_svg, cutting_svgs
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.outlines import outlines_text
from finishcalc.rendering.pictures.outlines_svg import outlines_svg
from finishcalc.rendering.pictures.picture import Picture, Tile
from finishcalc.rendering.pictures.sewn_svg import sewn_svg
from finishcalc.rendering.pictures.size import FILE, DrawingSize
from finishcalc.rendering.pictures.svg import svg
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import plain_blanks


class DrawingWords(NamedTuple):
    """The title of a drawing, sentences about it, and the lines that explain its letters and lines."""

    title: str
    facts: tuple[str, ...]
    key: tuple[str, ...]


def drawing_svg(drawing: Drawing, size: DrawingSize | None = None, bare: bool = False) -> str:
    """Draw it as a whole SVG document that ends with a line feed: with letters of a `size` on paper, or without one for
    a file. A `bare` one has no words beside the picture, because the page has them."""
    picture, notation, name = drawing.picture, drawing.notation, drawing.name
    if isinstance(picture, CuttingPicture):
        return cutting_svg(picture, notation, name, size or FILE, bare)
    if isinstance(picture, Picture):
        return sewn_svg(picture, notation, name, size, bare) if size else svg(picture, notation, name)
    return outlines_svg(picture, name, size)


def drawing_svgs(drawing: Drawing, size: DrawingSize) -> list[str]:
    """Draw it bare, a cloth on as many sheets as its rows need so that none is higher than its `size` lets it be."""
    if isinstance(drawing.picture, CuttingPicture):
        return cutting_svgs(drawing.picture, drawing.notation, drawing.name, size)
    return [drawing_svg(drawing, size, bare=True)]


def drawing_words(drawing: Drawing) -> DrawingWords:
    """Give the words that a bare drawing leaves to its page."""
    picture = drawing.picture
    if isinstance(picture, CuttingPicture):
        rest = (f"hatched: {picture.rest_words}",) if picture.has_rest else ()
        return DrawingWords(picture.title, (*picture.facts, picture.grain_words), (*picture.key, *rest))
    if isinstance(picture, Picture):
        return DrawingWords(picture.title, (picture.description,), picture.legend)
    return DrawingWords("To one scale, from one corner", (), ())


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
