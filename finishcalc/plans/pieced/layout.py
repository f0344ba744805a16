"""The layout of a pieced top once it is sewn: rectangles from raw edge to raw edge, and slanting seams.

Pieces are named for the picture's key, and laid from the outermost border inwards::

    border 1, butted, its ends first        border 1 with cornerstones
    +-----------------+                     +--+-----------+--+
    |     border      |                     |co|  border   |co|
    +--+-----------+--+                     +--+-----------+--+
    |bo|  centre   |bo|                     |bo|  centre   |bo|
    +--+-----------+--+                     +--+-----------+--+
    |     border      |                     |co|  border   |co|
    +-----------------+                     +--+-----------+--+
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.bounds import ROOT_2_DOWN
from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.model.pieced import Blocks, PiecedTop, Sashing
from finishcalc.plans.pieced.slants import Slant, seams_on_point

MIDDLE = Fraction(1, 2)


class PlacedPiece(NamedTuple):
    """A piece as it shows: x across the top, y down. An outer piece shows its seam allowance at the raw edge. A piece
    that lies beneath others, as a ring of mitred strips does, has no name."""

    name: str
    x: Length
    y: Length
    width: Length
    length: Length


class TopLayout(NamedTuple):
    """The pieces, those beneath others first, and the seams drawn over them. Slanting seams are drawn, not measured;
    `narrowest` is the width of a slanting strip of sashing, measured across the page."""

    pieces: tuple[PlacedPiece, ...]
    slants: tuple[Slant, ...]
    narrowest: Length | None


def top_layout(top: PiecedTop) -> TopLayout:
    """Lay out the pieces and slanting seams, the outermost border first."""
    whole, seam = top.size, top.seam
    far = Size(whole.width - seam, whole.length - seam)
    pieces: list[PlacedPiece] = []
    slants: list[Slant] = []
    for number, (border, before, after) in reversed(list(enumerate(top.rounds, start=1))):
        outer, inner = _place(whole, after, seam), _place(whole, before, seam)
        name = f"border {number}"
        if border.corners == "mitred":
            pieces.append(_edged(PlacedPiece("", *outer), whole, seam, far))
            slants += _mitres(outer, inner)
        else:
            ring = _ring(name, outer, inner, border.corners == "cornerstones", border.first == "sides")
            pieces += [_edged(piece, whole, seam, far) for piece in ring]
    x, y, width, length = _place(whole, top.centre_size, seam)
    inside, over = _centre(top, width, length)
    pieces += [_edged(piece._replace(x=piece.x + x, y=piece.y + y), whole, seam, far) for piece in inside]
    slants += [Slant(each.x + x, each.y + y, each.to_x + x, each.to_y + y) for each in over]
    slanting = top.sashing if top.blocks and top.blocks.setting == "on-point" else None
    return TopLayout(tuple(pieces), tuple(slants), slanting.width * ROOT_2_DOWN if slanting else None)


Place = tuple[Length, Length, Length, Length]
"""The x, y, width and length of a part of the top."""


def _place(whole: Size, part: Size, seam: Length) -> Place:
    """Place a finished part in the middle of the top."""
    width, length = part.width - seam * 2, part.length - seam * 2
    return (whole.width - width) * MIDDLE, (whole.length - length) * MIDDLE, width, length


def _edged(piece: PlacedPiece, whole: Size, seam: Length, far: Size) -> PlacedPiece:
    """Extend a piece at the finished edge of the top, at a `seam` from 0 or at its `far` sides, to its raw edge."""
    right, bottom = piece.x + piece.width, piece.y + piece.length
    if piece.x != seam and piece.y != seam and right != far.width and bottom != far.length:
        return piece
    left, top = (ZERO if at == seam else at for at in (piece.x, piece.y))
    right = whole.width if right == far.width else right
    bottom = whole.length if bottom == far.length else bottom
    return PlacedPiece(piece.name, left, top, right - left, bottom - top)


def _ring(name: str, outer: Place, inner: Place, cornerstones: bool, sides_first: bool) -> Iterator[PlacedPiece]:
    """Lay four strips round the inner part: with squares at the corners, or one pair between the ends of the other."""
    x, y, width, length = outer
    inner_x, inner_y, inner_width, inner_length = inner
    wide = inner_x - x
    right, bottom = inner_x + inner_width, inner_y + inner_length
    long_x, long_width = (x, width) if sides_first and not cornerstones else (inner_x, inner_width)
    long_y, long_length = (inner_y, inner_length) if sides_first or cornerstones else (y, length)
    for at in (y, bottom):
        yield PlacedPiece(name, long_x, at, long_width, wide)
    for at in (x, right):
        yield PlacedPiece(name, at, long_y, wide, long_length)
    if cornerstones:
        yield from (PlacedPiece("corner", left, top, wide, wide) for left in (x, right) for top in (y, bottom))


def _mitres(outer: Place, inner: Place) -> Iterator[Slant]:
    """Draw a seam from each corner of the outer part to that of the inner."""
    x, y, width, length = outer
    inner_x, inner_y, inner_width, inner_length = inner
    for left, inner_left in ((x, inner_x), (x + width, inner_x + inner_width)):
        for top, inner_top in ((y, inner_y), (y + length, inner_y + inner_length)):
            yield Slant(left, top, inner_left, inner_top)


def _centre(top: PiecedTop, width: Length, length: Length) -> tuple[list[PlacedPiece], list[Slant]]:
    """Lay out the part within the borders, its upper left corner at 0."""
    blocks = top.blocks
    if blocks is None:
        return [PlacedPiece("centre", ZERO, ZERO, width, length)], []
    if blocks.setting == "on-point":
        return [PlacedPiece("", ZERO, ZERO, width, length)], list(
            seams_on_point(blocks, top.sashing, Size(width, length))
        )
    pieces = list(_straight(blocks, top.sashing, width))
    framed = [each for each in pieces if each.name == "block"] if blocks.inner else []
    return pieces, [slant for each in framed for slant in _diamond(each)]


def _straight(blocks: Blocks, sashing: Sashing | None, width: Length) -> Iterator[PlacedPiece]:
    """Lay out blocks side by side, with the sashing between them."""
    wide = sashing.width if sashing else ZERO
    start, pitch = (wide if sashing and sashing.outer else ZERO), blocks.size + wide
    columns = [start + pitch * n for n in range(blocks.across)]
    rows = [start + pitch * n for n in range(blocks.down)]
    for down, y in enumerate(rows):
        yield from (
            PlacedPiece(_block_name(blocks, across + down), x, y, blocks.size, blocks.size)
            for across, x in enumerate(columns)
        )
    if not sashing:
        return
    beside, between = (_strip_starts(starts, blocks.size, wide, sashing.outer) for starts in (columns, rows))
    yield from (PlacedPiece("sashing", x, y, wide, blocks.size) for y in rows for x in beside)
    if not sashing.cornerstones:
        yield from (PlacedPiece("sashing", ZERO, y, width, wide) for y in between)
        return
    yield from (PlacedPiece("sashing", x, y, blocks.size, wide) for y in between for x in columns)
    yield from (PlacedPiece("corner", x, y, wide, wide) for y in between for x in beside)


def _block_name(blocks: Blocks, place: int) -> str:
    """Name a block by its place, counted across and down: of blocks by turns, the one in the first corner is pieced."""
    is_plain = blocks.plain == "all" or (blocks.plain == "alternate" and place % 2)
    return "plain" if is_plain else "block"


def _strip_starts(blocks: list[Length], size: Length, wide: Length, outer: bool) -> list[Length]:
    """List where strips start between blocks that start here, and outside them too if the sashing goes all round."""
    between = [at - wide for at in blocks[1:]]
    return [blocks[0] - wide, *between, blocks[-1] + size] if outer else between


def _diamond(block: PlacedPiece) -> Iterator[Slant]:
    """Draw the inner square of a framed block, its points at the middle of the block's sides."""
    x, y, middle = block.x, block.y, block.width * MIDDLE
    points = [(x + middle, y), (x + block.width, y + middle), (x + middle, y + block.length), (x, y + middle)]
    for (at_x, at_y), (to_x, to_y) in zip(points, [*points[1:], points[0]], strict=True):
        yield Slant(at_x, at_y, to_x, to_y)
