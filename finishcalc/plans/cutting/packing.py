"""Lays all pieces of one cloth together, so that it takes as little of it as a careful cutter would use.

The pieces are packed into bands by a beam search. Each step opens the next band with a piece that needs a long one, and
fills it by one of three rules; the most promising beginnings are kept. It stops as soon as the length bought is the
least that any layout could buy, by the area of the pieces and by those too wide to lie side by side. Cloth is sold in
steps, so that is soon, and a top has few enough kinds of pieces for the search to be short where it is not.
"""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.cloth import length_to_buy, usable_width_of, washed_length
from finishcalc.plans.cutting.filling import RULES, Counts, Pieces, Rule, Stack, Turn, fill, stack, take, times
from finishcalc.plans.cutting.layout import Band, ClothLayout, Column, LaidPiece, Wanted

WIDTHS_OF_SEARCH = (1, 6)
"""The beginnings that are kept: one at a time in the first search, and several where that buys more than the least."""
OPENERS = 3
"""The kinds of pieces that a band is opened with: those that need the longest ones."""


MOST_BEHIND = 2
"""The most alike pieces behind each other that a band is opened with: it may be as long as two corner squares."""


class _Row(NamedTuple):
    """A band in steps of the grid, so many `times` over; `given` counts the band that it is laid in, where that lies
    there already."""

    length: int
    stacks: tuple[Stack, ...]
    times: int = 1


class _Beginning(NamedTuple):
    """The bands laid so far: those that were given, filled, and `rows` after them, which take `length`."""

    left: Counts
    length: int
    filled: tuple[tuple[Stack, ...], ...]
    rows: tuple[_Row, ...] = ()


@lru_cache(maxsize=512)
def lay_out(
    fabric: Fabric,
    wanted: tuple[Wanted, ...],
    bands: tuple[Band, ...] = (),
    after: Length = ZERO,
    may_turn: bool = True,
) -> ClothLayout:
    """Lay pieces on one cloth: first in what is free beside the `bands` that lie there, then in bands of their own, the
    longest first. So much is bought `after` them too. Every piece must fit the usable width one way round that it may
    lie. The first cut runs along the cloth only where it `may_turn`."""
    usable = usable_width_of(fabric)
    if not wanted:
        return ClothLayout(usable, bands)
    pieces = _pieces(usable, wanted, bands)
    given = ClothLayout(usable, bands).length + after

    def bought(steps: int) -> Length:
        return length_to_buy(fabric, given + pieces.grid.length(steps))

    goal = bought(_least(pieces, pieces.counts, _free_area(pieces, bands)))
    best = _search(pieces, bands, lambda steps: bought(steps) <= goal)
    amount = bought(best.length)
    # strips that come after are parted from the rest by a cut across the cloth: with one along it next, two more cuts
    # are left to the rest, and these are the columns and pieces of a band
    if may_turn and amount > goal and not bands and not after:
        return _along_first(fabric, wanted, goal, amount) or _laid(usable, bands, best, pieces)
    return _laid(usable, bands, best, pieces)


def _laid(usable: Length, bands: Sequence[Band], best: "_Beginning", pieces: Pieces) -> ClothLayout:
    return ClothLayout(usable, (*_with(bands, best.filled, pieces), *_new_bands(best.rows, pieces)))


def _along_first(fabric: Fabric, wanted: tuple[Wanted, ...], least: Length, most: Length) -> ClothLayout | None:
    """Lay pieces with the first cut along the cloth, on the shortest length from `least` up that holds them and is less
    than `most`. The search is the same with the two sides of the cloth swapped: its bands must fit the width."""
    usable, amount = usable_width_of(fabric), least
    while amount < most:
        length = washed_length(fabric, amount)
        pieces = Pieces(length, wanted, [usable], swapped=True)
        if all(pieces.turns):
            width = pieces.grid.whole(usable)
            found = _search(pieces, (), width.__ge__)
            if found.length <= width:
                return ClothLayout(usable, tuple(_new_bands(found.rows, pieces)), turned=True)
        amount += fabric.step
    return None


def least_length(fabric: Fabric, wanted: tuple[Wanted, ...], bands: tuple[Band, ...] = ()) -> Length:
    """Give a length that the bands and any layout of the pieces beside and behind them take at least."""
    usable = usable_width_of(fabric)
    given = ClothLayout(usable, bands).length
    if not wanted:
        return given
    pieces = _pieces(usable, wanted, bands)
    return given + pieces.grid.length(_least(pieces, pieces.counts, _free_area(pieces, bands)))


@lru_cache(maxsize=512)
def lay_on_piece(width: Length, length: Length, wanted: tuple[Wanted, ...]) -> ClothLayout:
    """Lay on one piece of washed cloth as many of the pieces as it holds: all of them, or else those that cover most of
    it, band by band. The first cut runs across the piece or along it, whichever leaves the larger rest."""

    def worth(layout: ClothLayout) -> tuple[Fraction, Fraction]:
        covered = sum(((each.across * each.along).mm2 for each, *_ in layout.placed), Fraction(0))
        banded = sum((band.length for band in layout.bands), ZERO) * (length if layout.turned else width)
        return covered, -banded.mm2

    return max((_on_piece(width, length, wanted, turned) for turned in (False, True)), key=worth)


def _on_piece(width: Length, length: Length, wanted: tuple[Wanted, ...], turned: bool) -> ClothLayout:
    across, along = (length, width) if turned else (width, length)
    pieces = Pieces(across, wanted, [along], swapped=turned)
    room = pieces.grid.whole(along)
    if all(pieces.turns) and pieces.area(pieces.counts) <= pieces.usable * room:
        found = _search(pieces, (), room.__ge__)
        if found.length <= room:
            return ClothLayout(width, tuple(_new_bands(found.rows, pieces)), turned)
    laid = _Beginning(pieces.counts, 0, ())
    while opened := _densest(pieces, laid, room - laid.length):
        laid = opened
    return ClothLayout(width, tuple(_new_bands(laid.rows, pieces)), turned)


def _densest(pieces: Pieces, laid: _Beginning, room: int) -> _Beginning | None:
    """Open the band, no longer than the room that is left, of which the pieces cover most; None where none fits."""
    best, most = None, Fraction(0)
    for turn in (turn for turns in pieces.turns for turn in turns if laid.left[turn.kind] and turn.along <= room):
        for rule in RULES:
            opened = _opened(pieces, laid, turn, turn.along, rule, most_times=1)
            cut = pieces.area(laid.left) - pieces.area(opened.left)
            if (covers := Fraction(cut, turn.along)) > most:
                best, most = opened, covers
    return best


def _pieces(usable: Length, wanted: Sequence[Wanted], bands: Sequence[Band]) -> Pieces:
    return Pieces(usable, wanted, [side for band in bands for side in (band.width, band.length)])


def _search(pieces: Pieces, bands: Sequence[Band], is_enough: Callable[[int], bool]) -> _Beginning:
    """Search for a short layout, more widely where the first is not short enough."""
    starts = list(dict.fromkeys(_fill_given(pieces, bands, rule) for rule in RULES)) if bands else []
    starts = starts or [_Beginning(pieces.counts, 0, ())]
    best: _Beginning | None = None
    for width in WIDTHS_OF_SEARCH:
        found = _beam(pieces, starts, width, best.length if best else None)
        best = found if not best or (found and found.length < best.length) else best
        if best and is_enough(best.length):
            break
    if not best:
        raise AssertionError("no layout: a piece does not fit its cloth")
    return best


def _beam(pieces: Pieces, starts: Sequence[_Beginning], width: int, most: int | None) -> _Beginning | None:
    """Lay band after band, and keep the `width` beginnings whose least total length is the shortest. Gives the shortest
    layout that is shorter than `most`."""
    best: _Beginning | None = None
    kept = list(starts)
    while kept:
        after: dict[Counts, tuple[int, _Beginning]] = {}
        for beginning in kept:
            if not any(beginning.left):
                if not best or beginning.length < best.length:
                    best = beginning
                continue
            for further in _further(pieces, beginning, width):
                least = further.length + _least(pieces, further.left, 0)
                limit = best.length if best else most
                known = after.get(further.left)
                if (limit is None or least < limit) and (not known or further.length < known[1].length):
                    after[further.left] = least, further
        kept = [each for _, each in sorted(after.values(), key=lambda pair: (pair[0], -pair[1].length))[:width]]
    return best


def _further(pieces: Pieces, beginning: _Beginning, width: int) -> Iterator[_Beginning]:
    """Open one more band in every way that is weighed."""
    kinds, behind = (1, 1) if width == 1 else (OPENERS, MOST_BEHIND)
    for turn in _openers(pieces, beginning.left, kinds):
        for number in range(1, min(behind, beginning.left[turn.kind]) + 1):
            for rule in RULES:
                yield _opened(pieces, beginning, turn, turn.along * number, rule)


def _openers(pieces: Pieces, left: Counts, most: int) -> Iterator[Turn]:
    """Give the turns of the kinds of pieces that need the longest bands, of equal ones the largest; then the turns of
    others that are longer than these, because short pieces that could lie across may be what a long band is for."""
    kinds = [kind for kind, count in enumerate(left) if count]
    kinds.sort(key=lambda kind: (min(turn.along for turn in pieces.turns[kind]), pieces.areas[kind]), reverse=True)
    opening = [turn for kind in kinds[:most] for turn in pieces.turns[kind]]
    yield from opening
    if most > 1:
        longest = max(turn.along for turn in opening)
        others = (turn for kind in kinds[most:] for turn in pieces.turns[kind] if turn.along > longest)
        yield from sorted(others, key=lambda turn: -turn.along)[:most]


def _opened(
    pieces: Pieces, beginning: _Beginning, turn: Turn, length: int, rule: Rule, most_times: int | None = None
) -> _Beginning:
    """Lay a band of a length that is opened by a piece turned this way, as often as there are pieces for it, or at most
    so many times."""
    counts = list(beginning.left)
    first = stack(pieces, counts, turn.across, length, turn)
    first = first._replace(times=times(counts, first, pieces.usable) if rule != "wide" else 1)
    take(counts, first)
    filled = fill(pieces, counts, pieces.usable - first.width * first.times, length, rule)
    stacks = (first, *filled)
    used = [before - after for before, after in zip(beginning.left, counts, strict=True)]
    often = min(before // number for before, number in zip(beginning.left, used, strict=True) if number)
    often = often if most_times is None else min(often, most_times)
    left = tuple(before - number * often for before, number in zip(beginning.left, used, strict=True))
    row = _Row(length, stacks, often)
    return beginning._replace(left=left, length=beginning.length + length * often, rows=(*beginning.rows, row))


def _least(pieces: Pieces, left: Counts, free_area: int) -> int:
    """Give a length that any bands for the pieces left take at least: their area over the width, the sum of those that
    are wider than half of it, or the longest."""
    area = max(0, pieces.area(left) - free_area)
    by_area = -(-area // pieces.usable)
    if free_area:
        return by_area
    wide = longest = 0
    for count, (shortest, is_wide) in zip(left, pieces.shortest, strict=True):
        if count:
            longest = max(longest, shortest)
            if is_wide:
                wide += shortest * count
    return max(by_area, wide, longest)


def _free_area(pieces: Pieces, bands: Sequence[Band]) -> int:
    return sum((pieces.usable - pieces.grid.whole(band.width)) * pieces.grid.whole(band.length) for band in bands)


def _fill_given(pieces: Pieces, bands: Sequence[Band], rule: Rule) -> _Beginning:
    """Fill what is free beside the columns of bands that lie on the cloth already."""
    counts = list(pieces.counts)
    filled = [
        tuple(fill(pieces, counts, pieces.usable - pieces.grid.whole(band.width), pieces.grid.whole(band.length), rule))
        for band in bands
    ]
    return _Beginning(tuple(counts), 0, tuple(filled))


def _with(bands: Sequence[Band], filled: Sequence[Sequence[Stack]], pieces: Pieces) -> Iterator[Band]:
    for band, stacks in zip(bands, filled or [()] * len(bands), strict=True):
        yield band._replace(columns=(*band.columns, *_columns(stacks, pieces)))


def _new_bands(rows: Sequence[_Row], pieces: Pieces) -> Iterator[Band]:
    """Make bands of the rows, the longest first, so that long pieces are cut while the cloth is long."""
    for row in sorted(rows, key=lambda row: -row.length):
        yield from [Band(pieces.grid.length(row.length), tuple(_columns(row.stacks, pieces)))] * row.times


def _columns(stacks: Sequence[Stack], pieces: Pieces) -> Iterator[Column]:
    for each in stacks:
        laid = [_laid_piece(pieces, turn) for turn, number in each.pieces for _ in range(number)]
        yield from [Column(pieces.grid.length(each.width), tuple(laid))] * each.times


def _laid_piece(pieces: Pieces, turn: Turn) -> LaidPiece:
    sides = pieces.grid.length(turn.across), pieces.grid.length(turn.along)
    return LaidPiece(pieces.wanted[turn.kind], *(reversed(sides) if pieces.swapped else sides))
