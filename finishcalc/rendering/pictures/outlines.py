"""The sizes of a comparison as outlines one within the other, to one scale, and as boxes in a terminal.

All share their upper left corner, so that two sizes lie as far apart as they differ::

    +----------+--+
    |          |  |
    +----------A  |
    |             |
    +-------------B
"""

from collections.abc import Sequence
from itertools import groupby
from string import ascii_letters
from typing import NamedTuple

from finishcalc.comparing.sizes import Comparison
from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.pictures.box import nested_boxes
from finishcalc.rendering.pictures.picture import Picture, Tile
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation, plain_blanks


class SizeOutline(NamedTuple):
    """The outline of one size, and the names of all sizes that have it."""

    names: tuple[str, ...]
    shape: Shape
    size: str

    @property
    def label(self) -> str:
        """Names and size in words: "queen, 84 x 92 in"."""
        return f"{', '.join(self.names)}: {self.size}"


def size_outlines(comparison: Comparison, notation: Notation) -> list[SizeOutline]:
    """Give each outline once, the shortest first and of one length the narrowest."""

    def key(shape: Shape) -> tuple[Length, Length, str, Length]:
        return shape.length, shape.width, shape.name, shape.corner

    named = sorted(
        ((row.result.plans.top.shape, notation.show(row.name)) for row in comparison.rows),
        key=lambda each: key(each[0]),
    )
    outlines = []
    for _, alike in groupby(named, lambda each: key(each[0])):
        shapes, names = zip(*alike, strict=True)
        outlines.append(SizeOutline(names, shapes[0], _size(shapes[0], notation)))
    return outlines


def _size(shape: Shape, notation: Notation) -> str:
    if shape.name == "round":
        return f"round, {notation.show(shape.width)} across"
    return ("oval, " if shape.name == "oval" else "") + notation.size(shape.width, shape.length)


def outlines_text(outlines: Sequence[SizeOutline], width: int) -> list[str]:
    """Draw boxes at most `width` columns wide with a letter for each, and what the letters stand for. A curved outline
    is a box too, and that is said. Nothing is drawn where the letters do not go round."""
    if len(outlines) > len(ascii_letters):
        return []
    named = list(zip(ascii_letters[26:] + ascii_letters[:26], outlines, strict=False))
    tiles = tuple(Tile(ZERO, ZERO, each.shape.width, each.shape.length, letter, "", "") for letter, each in named)
    lines = [*nested_boxes(_picture(tiles), width), ""]
    for letter, each in named:
        drawn_as = "" if each.shape.name == "rectangle" else ", drawn as a box"
        first, *more = wrap(each.label + drawn_as, width - 3)
        lines += [f"{letter}  {first}", *(f"     {line}" for text in more for line in wrap(text, width - 5))]
    return [plain_blanks(line) for line in lines]


def _picture(tiles: tuple[Tile, ...]) -> Picture:
    widest, longest = max(tile.width for tile in tiles), max(tile.length for tile in tiles)
    return Picture("The sizes", "", widest, longest, tiles, None)
