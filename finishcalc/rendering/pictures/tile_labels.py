"""The labels of pieces in a sewn picture on paper: the first that has room is written."""

from collections.abc import Iterator

from finishcalc.rendering.pictures.paper import Box, Label, Paper, Span
from finishcalc.rendering.pictures.picture import Tile
from finishcalc.rendering.pictures.size import DrawingSize
from finishcalc.wording.notation import plain_blanks

ARROWS = {"across": "\u2194", "down": "\u2195", "down only": "\u2193", "": ""}
TURNED_ARROWS = {"across": "\u2195", "down": "\u2194", "down only": "\u2190", "": ""}
"""The arrows of a label that is written upwards: turned with it, they point the right way."""
LETTER = 2
"""A name of more characters, such as "border 1", is written like a size."""


def label_of(tile: Tile, box: Box, paper: Paper) -> Label | None:
    """Give the label of a piece that has the place `box`: its name with the grain and its size upright, else smaller,
    else upwards, else without the size; None where not even its letter has room."""
    if not tile.name:
        return None
    if label := paper.fitting(_labels(tile, paper.size), box):
        return label
    letters = (Span(tile.name, *font) for font in _fonts(tile, paper.size))
    return next((Label(((letter,),)) for letter in letters if paper.has_room(letter, box)), None)


def _fonts(tile: Tile, size: DrawingSize) -> list[tuple[float, str]]:
    """Give the letters for the name, the larger ones first, with their weight."""
    if len(tile.name) <= LETTER:
        return [(size.letters, size.weight), (size.least_letters, size.weight)]
    return [(size.sizes, ""), (min(size.sizes, size.words), "")]


def _labels(tile: Tile, size: DrawingSize) -> Iterator[Label]:
    fonts = _fonts(tile, size)
    if tile.size:
        for upwards in (False, True):
            for font in fonts:
                for lines in _with_size(tile, font, min(font[0], size.sizes), upwards):
                    yield Label(lines, upwards)
    for upwards in (False, True):
        for font in fonts:
            yield Label(((Span(_named(tile, upwards), *font),),), upwards)


def _with_size(
    tile: Tile, font: tuple[float, str], small: float, upwards: bool
) -> Iterator[tuple[tuple[Span, ...], ...]]:
    """Give the lines of a name and a size: one below the other, or side by side."""
    name, size = Span(_named(tile, upwards), *font), Span(plain_blanks(tile.size), small)
    yield (name,), (size,)
    if name[1:] == size[1:]:
        between = " " if tile.grain else ", "
        yield ((Span(f"{name.text}{between}{size.text}", small),),)
    else:
        yield ((name, size),)


def _named(tile: Tile, upwards: bool) -> str:
    return f"{tile.name} {(TURNED_ARROWS if upwards else ARROWS)[tile.grain]}".rstrip()
