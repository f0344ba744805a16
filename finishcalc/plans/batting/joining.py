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
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Size


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


class Region(NamedTuple):
    """A rectangle that is still open."""

    x: Length
    y: Length
    width: Length
    length: Length


class Joined(NamedTuple):
    """A batting joined of `pieces`. A `missing` piece would fill what they leave open."""

    pieces: tuple[Placed, ...]
    seam_length: Length = ZERO
    missing: Region | None = None

    @property
    def seams(self) -> int:
        """The number of its seams: one for each piece after the first."""
        return len(self.pieces) - 1


class _Rest(NamedTuple):
    """A part of a piece that is still to be had, in that piece's own measures."""

    source: int
    x: Length
    y: Length
    width: Length
    length: Length


class _Search(NamedTuple):
    """What is to be covered yet, and with what: at most `left` pieces more, none narrower than `least`. What is left of
    a piece may be `cut_up` for another place; else one piece `may_miss`."""

    regions: tuple[Region, ...]
    stock: tuple[_Rest, ...]
    left: int
    least: Length
    cut_up: bool = True
    may_miss: bool = False


def join(size: Size, stock: Sequence[Size], most_seams: int, least: Length) -> Joined | None:
    """Cover a size with the fewest pieces, and of those with the shortest seams; None where the stock does not make it
    up. No piece is narrower than `least`, because a sliver holds no seam."""
    for pieces in range(1, most_seams + 2):
        found = _fill(_start(size, stock, pieces, least))
        if best := min(found, key=lambda joined: joined.seam_length, default=None):
            return best
    return None


def least_missing(size: Size, stock: Sequence[Size], most_seams: int, least: Length) -> Size | None:
    """Give the smallest piece with which the stock would make up a size, as it is; None where it takes one for the
    whole."""
    search = _start(size, stock, most_seams + 1, least)._replace(cut_up=False, may_miss=True)
    pieces = [joined.missing for joined in _fill(search) if joined.pieces and joined.missing]
    best = min(pieces, key=lambda piece: (piece.width * piece.length).mm2, default=None)
    return Size(best.width, best.length) if best else None


def _start(size: Size, stock: Sequence[Size], pieces: int, least: Length) -> _Search:
    rests = tuple(_Rest(number, ZERO, ZERO, *each) for number, each in enumerate(stock))
    return _Search((Region(ZERO, ZERO, *size),), rests, pieces, least)


def _fill(search: _Search) -> Iterator[Joined]:
    """Fill the first open region from its corner in every way, then the others."""
    if not search.regions:
        yield Joined(())
    if not search.regions or search.left < len(search.regions):
        return
    region, *others = search.regions
    if search.may_miss:
        without = search._replace(regions=tuple(others), left=search.left - 1, may_miss=False)
        yield from (joined._replace(missing=region) for joined in _fill(without))
    for number, rest in enumerate(search.stock):
        if any(rest[3:] == earlier[3:] for earlier in search.stock[:number]):
            continue
        for turned in (False, True):
            yield from _with_piece(search, rest, turned=turned)


def _with_piece(search: _Search, rest: _Rest, *, turned: bool) -> Iterator[Joined]:
    """Lay a piece into the corner of the first region, and fill what it leaves open."""
    region, *others = search.regions
    across, along = (rest.length, rest.width) if turned else (rest.width, rest.length)
    width, length = _reach(across, region.width, search.least), _reach(along, region.length, search.least)
    if width is None or length is None:
        return
    piece = Placed(region.x, region.y, width, length, rest.source, rest.x, rest.y, turned)
    for still_open, seam_length in _still_open(region, piece):
        regions = (*still_open, *others)
        for offcuts in _offcuts(rest, piece) if regions and search.cut_up else [()]:
            kept = tuple(each for each in offcuts if min(each.width, each.length) >= search.least)
            stock = (*(each for each in search.stock if each is not rest), *kept)
            for joined in _fill(search._replace(regions=regions, stock=stock, left=search.left - 1)):
                yield joined._replace(pieces=(piece, *joined.pieces), seam_length=joined.seam_length + seam_length)


def _reach(piece: Length, region: Length, least: Length) -> Length | None:
    """Give how far a piece reaches along a region, so that what it leaves is not too narrow; None for too little."""
    if piece >= region:
        return region
    reach = min(piece, region - least)
    return reach if reach >= least and reach > ZERO else None


def _still_open(region: Region, piece: Placed) -> Iterator[tuple[tuple[Region, ...], Length]]:
    """Give what a piece in the corner leaves open, each way to part it, with the length of the seams there."""
    right, below = piece.x + piece.width, piece.y + piece.length
    beside, under = region.width - piece.width, region.length - piece.length
    if beside and under:
        short = Region(right, region.y, beside, piece.length)
        yield (short, Region(region.x, below, region.width, under)), piece.length + region.width
        narrow = Region(region.x, below, piece.width, under)
        yield (Region(right, region.y, beside, region.length), narrow), piece.width + region.length
    elif beside:
        yield (Region(right, region.y, beside, region.length),), region.length
    elif under:
        yield (Region(region.x, below, region.width, under),), region.width
    else:
        yield (), ZERO


def _offcuts(rest: _Rest, piece: Placed) -> Iterator[tuple[_Rest, ...]]:
    """Part what is left of a piece, one way or the other."""
    width, length = (piece.length, piece.width) if piece.turned else (piece.width, piece.length)
    right, below = rest.x + width, rest.y + length
    beside, under = rest.width - width, rest.length - length
    source = rest.source
    yield _Rest(source, right, rest.y, beside, rest.length), _Rest(source, rest.x, below, width, under)
    yield _Rest(source, right, rest.y, beside, length), _Rest(source, rest.x, below, rest.width, under)


def side_by_side(size: Size, width: Length, pieces: int) -> Joined:
    """Join so many lengths of one width beside each other; the last is cut as narrow as the size needs it."""
    last = size.width - width * (pieces - 1)
    placed = tuple(
        Placed(width * number, ZERO, width if number < pieces - 1 else last, size.length, number, ZERO, ZERO, False)
        for number in range(pieces)
    )
    return Joined(placed, size.length * (pieces - 1))
