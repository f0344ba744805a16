"""The sizes of a comparison as outlines one within the other, to one scale, for the terminal and as SVG.

All share their upper left corner, so that two sizes lie as far apart as they differ::

    +----------+--+
    |          |  |
    +----------A  |
    |             |
    +-------------B
"""

from collections.abc import Sequence
from html import escape
from itertools import groupby
from math import sqrt
from string import ascii_letters
from typing import NamedTuple

from finishcalc.comparing.sizes import Comparison
from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.pictures.box import nested_boxes
from finishcalc.rendering.pictures.picture import Picture, Tile
from finishcalc.rendering.pictures.svg import FONT
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation, plain_blanks, rounded


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


LONGER = 1000
"""The longer side of the picture in the units of its viewBox."""
LINE, GAP, LABEL = FONT * 1.4, 40, 40
"""The height of a line of text, the gap between the picture and its labels, and the most characters in a line."""
OUTLINE = 'class="outline" fill="none" stroke="#000" stroke-width="3"'
LEADER = 'class="leader" stroke="#000" stroke-width="1.5" stroke-dasharray="5 5"'


def outlines_svg(outlines: Sequence[SizeOutline], name: str = "sizes") -> str:
    """Draw the outlines as a whole SVG document that ends with a line feed, each with a line to its label. Its ids
    begin with its `name`."""
    longer = max(max(each.shape.width, each.shape.length) for each in outlines)
    wide, high = (
        _scaled(max(sides), longer)
        for sides in zip(*((each.shape.width, each.shape.length) for each in outlines), strict=True)
    )
    body, down, longest_line = [_outline(each.shape, longer) for each in outlines], LINE, 0
    for each in outlines:
        lines = wrap(plain_blanks(each.label), LABEL)
        body += [_leader(each.shape, down, wide + GAP, longer)]
        body += [_text(line, wide + GAP, down + LINE * number) for number, line in enumerate(lines)]
        down += LINE * len(lines)
        longest_line = max(longest_line, *map(len, lines))
    right = wide + GAP + longest_line * FONT * 0.62
    box = f"-10 -10 {right + 20:g} {max(high, down) + 20:g}"
    description = escape(plain_blanks("; ".join(each.label for each in outlines)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" font-family="sans-serif" font-size="{FONT}" '
        f'role="img" aria-labelledby="{name}-title {name}-description">\n'
        f'<title id="{name}-title">The sizes to one scale</title>\n<desc id="{name}-description">{description}</desc>\n'
        + "\n".join(body)
        + "\n</svg>\n"
    )


def _scaled(length: Length, longer: Length) -> float:
    return float(rounded(length / longer * LONGER, 2))


def _outline(shape: Shape, longer: Length) -> str:
    wide, high = _scaled(shape.width, longer), _scaled(shape.length, longer)
    if shape.name != "rectangle":
        return f'<ellipse {OUTLINE} cx="{wide / 2:g}" cy="{high / 2:g}" rx="{wide / 2:g}" ry="{high / 2:g}"/>'
    corner = f' rx="{_scaled(shape.corner, longer):g}"' if shape.corner else ""
    return f'<rect {OUTLINE} x="0" y="0" width="{wide:g}" height="{high:g}"{corner}/>'


def _leader(shape: Shape, down: float, right: float, longer: Length) -> str:
    """Draw the line from the outline's right side to its label."""
    wide, high = _scaled(shape.width, longer), _scaled(shape.length, longer)
    x, y = wide, min(down, high * 0.9)
    if shape.name != "rectangle":
        x = wide / 2 * (1 + sqrt(max(1 - (2 * y / high - 1) ** 2, 0)))
    path = f'<path {LEADER} d="M{x:.2f} {y:.2f}L{right - 8:g} {down:g}"/>'
    return f'{path}<circle cx="{x:.2f}" cy="{y:.2f}" r="5"/>'


def _text(line: str, right: float, down: float) -> str:
    return f'<text x="{right:g}" y="{down + FONT * 0.35:.2f}">{escape(line)}</text>'
