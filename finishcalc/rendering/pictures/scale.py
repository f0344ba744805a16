"""The cells of a picture drawn with characters: along each side of it, a cell for every edge of a tile.

Cells are to scale, but every stretch between two edges gets the cells that it needs to be seen::

             |strip|      block       |strip|      block       |strip|
    inches   0     2                  14    16                 28    30
    cells    0     1                   4     5                  8     9      a block needs 3, a strip 1
"""

from bisect import bisect_right
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.pieced.slants import Slant
from finishcalc.rendering.pictures.picture import Picture

TALLEST = 24
"""The rows of a picture, unless a top needs more for its blocks."""
MOST_ROWS = 64
"""The rows of a top. One that needs more is drawn in part."""
SLANTING = Fraction(7, 2)
"""The columns across a slanting strip of sashing with which its two seams are told apart."""
BLOCK, FRAMED, MITRE = (3, 2), (7, 4), (3, 2)
"""The columns and rows that a block needs, one with a square on its point inside, and the corner of a mitred border."""

Stretch = tuple[Length, Length]


class Scale(NamedTuple):
    """The cell of each edge along one side of a picture, both in rising order."""

    edges: tuple[Length, ...]
    cells: tuple[int, ...]

    def cell(self, at: Length) -> Fraction:
        """Give the place of a length in cells, between those of the edges on both sides of it."""
        n = min(max(bisect_right(self.edges, at) - 1, 0), len(self.edges) - 2)
        share = (at - self.edges[n]) / (self.edges[n + 1] - self.edges[n])
        return self.cells[n] + share * (self.cells[n + 1] - self.cells[n])

    def at(self, cell: int) -> Length:
        """Give the length at a cell."""
        n = min(max(bisect_right(self.cells, cell) - 1, 0), len(self.cells) - 2)
        share = Fraction(cell - self.cells[n], self.cells[n + 1] - self.cells[n])
        return self.edges[n] + (self.edges[n + 1] - self.edges[n]) * share

    @property
    def is_true(self) -> bool:
        """True where no edge lies more than a cell off its place."""
        whole = self.edges[-1]
        places = (edge / whole * self.cells[-1] for edge in self.edges)
        return all(abs(place - cell) <= 1 for place, cell in zip(places, self.cells, strict=True))


def scale(stretches: list[Stretch], side: Length, most: int, needs: dict[Stretch, int]) -> Scale:
    """Give every edge a cell of its own, to scale, and each stretch between two edges the cells that it needs, or 1.
    Where that takes more cells than there are, only the ends of the side have theirs."""
    edges = tuple(_edges(stretches, side))
    least = [needs.get(stretch, 1) for stretch in pairwise(edges)]
    if sum(least) > most:
        return Scale((ZERO, side), (0, most))
    cells, left = [0], sum(least)
    for edge, gap in zip(edges[1:], least, strict=True):
        left -= gap
        cells.append(min(max(round(edge / side * most), cells[-1] + gap), most - left))
    return Scale(edges, tuple(cells))


class Needs(NamedTuple):
    """The cells that stretches across and down a picture need, where that is more than 1."""

    across: dict[Stretch, int]
    down: dict[Stretch, int]

    def cells(self, picture: Picture) -> tuple[int, int]:
        """Add up the columns and the rows that a picture needs at least."""
        tiles = picture.tiles
        columns = _edges([(tile.x, tile.x + tile.width) for tile in tiles], picture.width)
        rows = _edges([(tile.y, tile.y + tile.length) for tile in tiles], picture.length)
        return _least(columns, self.across), _least(rows, self.down)


def _edges(stretches: list[Stretch], side: Length) -> list[Length]:
    return sorted({ZERO, side, *(edge for stretch in stretches for edge in stretch)})


def _least(edges: list[Length], needs: dict[Stretch, int]) -> int:
    return sum(needs.get(stretch, 1) for stretch in pairwise(edges))


def needs_of(picture: Picture) -> Needs:
    """Give each block of a top, and each stretch that a seam slants across, the cells in which it can be seen."""
    across: dict[Stretch, int] = {}
    down: dict[Stretch, int] = {}
    if not picture.of_top:
        return Needs(across, down)
    tiles = picture.tiles
    edges_across = _edges([(tile.x, tile.x + tile.width) for tile in tiles], picture.width)
    edges_down = _edges([(tile.y, tile.y + tile.length) for tile in tiles], picture.length)
    for tile in tiles:
        if tile.name in ("block", "plain"):
            _need(across, [(tile.x, tile.x + tile.width)], BLOCK[0])
            _need(down, [(tile.y, tile.y + tile.length)], BLOCK[1])
    for slant in picture.slants:
        _need(across, *_crossed(edges_across, (slant.x, slant.to_x), 0))
        _need(down, *_crossed(edges_down, (slant.y, slant.to_y), 1))
    return Needs(across, down)


def _crossed(edges: list[Length], ends: Stretch, side: int) -> tuple[list[Stretch], int]:
    """The stretches that a slanting seam crosses: the corner of a framed block is half of one, a mitre nearly all."""
    start, end = sorted(ends)
    crossed = [each for each in pairwise(edges) if each[0] < end and each[1] > start]
    half = len(crossed) == 1 and (end - start) * 3 < (crossed[0][1] - crossed[0][0]) * 2
    return crossed, (FRAMED if half else MITRE)[side]


def _need(needs: dict[Stretch, int], stretches: list[Stretch], cells: int) -> None:
    for stretch in stretches:
        needs[stretch] = max(needs.get(stretch, 1), cells)


def corner_of(picture: Picture, columns: int) -> Picture:
    """Draw the whole of a top where it can be read in so many columns, else its upper left corner, by halves."""
    share = Fraction(1)
    part = picture
    while share > Fraction(1, 16) and not _is_readable(part, columns):
        share /= 2
        part = _upper_left(part, picture.width * share, picture.length * share)
    return part


def _is_readable(picture: Picture, columns: int) -> bool:
    """Tell a picture of which each block, and each slanting strip, is seen in so many columns. Too many blocks are
    counted first, which is quick."""
    blocks = [tile for tile in picture.tiles if tile.name in ("block", "plain")]
    if len({tile.x for tile in blocks}) * BLOCK[0] > columns or len({tile.y for tile in blocks}) * BLOCK[1] > MOST_ROWS:
        return False
    least_columns, least_rows = needs_of(picture).cells(picture)
    if least_columns > columns or least_rows > MOST_ROWS:
        return False
    rows = columns * picture.length / picture.width / 2
    return not picture.narrowest or (rows <= MOST_ROWS and picture.narrowest / picture.width * columns >= SLANTING)


def _upper_left(picture: Picture, width: Length, length: Length) -> Picture:
    tiles = tuple(
        tile._replace(width=min(tile.width, width - tile.x), length=min(tile.length, length - tile.y))
        for tile in picture.tiles
        if tile.x < width and tile.y < length
    )
    slants = tuple(each for each in picture.slants if _reaches(each, width, length))
    return picture._replace(width=width, length=length, tiles=tiles, slants=slants)


def _reaches(slant: Slant, width: Length, length: Length) -> bool:
    return min(slant.x, slant.to_x) < width and min(slant.y, slant.to_y) < length
