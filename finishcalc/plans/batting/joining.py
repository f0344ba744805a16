"""Battings joined edge to edge: pieces that together cover a size, without overlap.

Edges are butted and zigzagged, whip-stitched or taped, so that a seam takes nothing of the width. Pieces are cut from
corner to edge, and what is left of one may fill another place:

    +-----------+---+
    |           |   |
    |   first   | 2 |    a corner is filled first; it leaves a rectangle open beside it,
    |           |   |    below it, or both, parted one way or the other
    +-----------+---+
    |   third       |
    +---------------+
"""

from collections.abc import Iterator, Sequence
from itertools import chain, count
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.plans.grid import Grid

MOST_TRIED = 5_000
"""The most pieces that are laid while one number of them is tried: few battings bring it to a hundred."""


class Placed(NamedTuple):
    """A piece of a joined batting: its corner, width and length there, and the corner from which it is cut in the
    piece of this number; `turned` where its width runs along that one's length."""

    x: Length
    y: Length
    width: Length
    length: Length
    source: int
    from_x: Length
    from_y: Length
    turned: bool


class Joined(NamedTuple):
    """A batting joined of `pieces`, with the length of all its seams together."""

    pieces: tuple[Placed, ...]
    seam_length: Length

    @property
    def seams(self) -> int:
        """The number of its seams: one for each piece after the first."""
        return len(self.pieces) - 1


class _Region(NamedTuple):
    """A rectangle that is still open, in steps of the grid, as everything in the search."""

    x: int
    y: int
    width: int
    length: int


class _Rest(NamedTuple):
    """A part of a piece that is still to be had, in that piece's own measures."""

    source: int
    x: int
    y: int
    width: int
    length: int


def _area(part: _Region | _Rest) -> int:
    """Give the area of a part, in squares of the grid."""
    return part.width * part.length


class _Cut(NamedTuple):
    """A piece cut from a rest, `width` by `length` steps of the grid, as it lies in the batting."""

    width: int
    length: int
    rest: _Rest
    turned: bool
    region: _Region


class _Filled(NamedTuple):
    """The cuts that fill what was open, but for a `missing` piece."""

    cuts: tuple[_Cut, ...] = ()
    seam_length: int = 0
    missing: _Region | None = None


class _Search(NamedTuple):
    """The regions to be covered yet, and the stock for them: at most `left` pieces more, none narrower than `least`
    steps. The rest of a piece may be `cut_up` for another place; else one piece `may_miss`. `tries` counts the
    pieces laid."""

    regions: tuple[_Region, ...]
    stock: tuple[_Rest, ...]
    left: int
    least: int
    tries: Iterator[int]
    cut_up: bool = True
    may_miss: bool = False

    @property
    def is_hopeless(self) -> bool:
        """Tell a search for which the largest pieces that may be taken have not the area of what is open."""
        if self.left < len(self.regions):
            return True
        areas = sorted(map(_area, self.stock), reverse=True)
        return not self.may_miss and sum(areas[: self.left]) < sum(map(_area, self.regions))


def join(size: Size, stock: Sequence[Size], most_seams: int, least: Length) -> Joined | None:
    """Cover a size with the fewest pieces, and of those with the shortest seams; None where the stock does not make it
    up. No piece is narrower than `least`, because a sliver holds no seam."""
    grid = _grid(size, stock, least)
    for pieces in range(1, most_seams + 2):
        start = _start(grid, size, stock, pieces, least)
        # whole pieces once more, because the tries may be used up on what is left of the first ones
        found = chain(_fill(start), _fill(start._replace(cut_up=False, tries=count())))
        if best := min(found, key=lambda filled: filled.seam_length, default=None):
            placed = tuple(_placed(cut, grid) for cut in best.cuts)
            return Joined(placed, grid.length(best.seam_length))
    return None


def least_missing(size: Size, stock: Sequence[Size], most_seams: int, least: Length) -> Size | None:
    """Give the smallest piece with which the stock would make up a size, as it is; None where it takes one for the
    whole."""
    grid = _grid(size, stock, least)
    search = _start(grid, size, stock, most_seams + 1, least)._replace(cut_up=False, may_miss=True)
    pieces = [filled.missing for filled in _fill(search) if filled.cuts and filled.missing]
    best = min(pieces, key=_area, default=None)
    return Size(grid.length(best.width), grid.length(best.length)) if best else None


def _grid(size: Size, stock: Sequence[Size], least: Length) -> Grid:
    return Grid.of(*size, least, *(side for piece in stock for side in piece), grain=1)


def _start(grid: Grid, size: Size, stock: Sequence[Size], pieces: int, least: Length) -> _Search:
    rests = tuple(
        _Rest(number, 0, 0, grid.whole(piece.width), grid.whole(piece.length)) for number, piece in enumerate(stock)
    )
    region = _Region(0, 0, grid.whole(size.width), grid.whole(size.length))
    return _Search((region,), rests, pieces, grid.whole(least), count())


def _placed(cut: _Cut, grid: Grid) -> Placed:
    region, rest = cut.region, cut.rest
    x, y, width, length = map(grid.length, (region.x, region.y, cut.width, cut.length))
    return Placed(x, y, width, length, rest.source, grid.length(rest.x), grid.length(rest.y), cut.turned)


def _fill(search: _Search) -> Iterator[_Filled]:
    """Fill the first open region from its corner in every way, then the others."""
    if not search.regions:
        yield _Filled()
    if not search.regions or search.is_hopeless:
        return
    region, *others = search.regions
    if search.may_miss:
        without = search._replace(regions=tuple(others), left=search.left - 1, may_miss=False)
        yield from (filled._replace(missing=region) for filled in _fill(without))
    for number, rest in enumerate(search.stock):
        if any(rest[3:] == earlier[3:] for earlier in search.stock[:number]):
            continue
        for turned in (False, True):
            yield from _with_piece(search, rest, turned=turned)


def _with_piece(search: _Search, rest: _Rest, *, turned: bool) -> Iterator[_Filled]:
    """Lay a piece into the corner of the first region, and fill what it leaves open."""
    region, *others = search.regions
    across, along = (rest.length, rest.width) if turned else (rest.width, rest.length)
    width, length = _reach(across, region.width, search.least), _reach(along, region.length, search.least)
    if not width or not length or next(search.tries) > MOST_TRIED:
        return
    cut = _Cut(width, length, rest, turned, region)
    for still_open, seam_length in _still_open(cut):
        regions = (*still_open, *others)
        for offcuts in _offcuts(cut) if regions and search.cut_up else [()]:
            kept = tuple(each for each in offcuts if min(each.width, each.length) >= search.least)
            stock = (*(each for each in search.stock if each is not rest), *kept)
            for filled in _fill(search._replace(regions=regions, stock=stock, left=search.left - 1)):
                yield filled._replace(cuts=(cut, *filled.cuts), seam_length=filled.seam_length + seam_length)


def _reach(piece: int, region: int, least: int) -> int:
    """Give how far a piece reaches along a region, so that what it leaves is not too narrow; 0 for too little."""
    if piece >= region:
        return region
    reach = min(piece, region - least)
    return reach if reach >= least else 0


def _still_open(cut: _Cut) -> Iterator[tuple[tuple[_Region, ...], int]]:
    """Give what a piece in the corner leaves open, each way to part it, with the length of the seams there."""
    region = cut.region
    right, below = region.x + cut.width, region.y + cut.length
    beside, under = region.width - cut.width, region.length - cut.length
    tall = _Region(right, region.y, beside, region.length)
    wide = _Region(region.x, below, region.width, under)
    if beside and under:
        yield (_Region(right, region.y, beside, cut.length), wide), cut.length + region.width
        yield (tall, _Region(region.x, below, cut.width, under)), cut.width + region.length
    elif beside:
        yield (tall,), region.length
    elif under:
        yield (wide,), region.width
    else:
        yield (), 0


def _offcuts(cut: _Cut) -> Iterator[tuple[_Rest, ...]]:
    """Part what is left of a piece, one way or the other."""
    source, x, y, *_ = rest = cut.rest
    width, length = (cut.length, cut.width) if cut.turned else (cut.width, cut.length)
    beside, under = rest.width - width, rest.length - length
    yield _Rest(source, x + width, y, beside, rest.length), _Rest(source, x, y + length, width, under)
    yield _Rest(source, x + width, y, beside, length), _Rest(source, x, y + length, rest.width, under)


def side_by_side(size: Size, width: Length, pieces: int) -> Joined:
    """Join so many lengths of one width beside each other; the last is cut as narrow as the size needs it."""
    last = size.width - width * (pieces - 1)
    placed = tuple(
        Placed(width * number, ZERO, width if number < pieces - 1 else last, size.length, number, ZERO, ZERO, False)
        for number in range(pieces)
    )
    return Joined(placed, size.length * (pieces - 1))
