"""Fills a band of cloth with columns, in whole steps of a grid.

A column is stacked tallest piece first, as many as its length holds (first-fit decreasing). Columns are then chosen one
after another by a rule, because which rule wastes least depends on the pieces: the search tries them all.
"""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.plans.cutting.layout import Wanted
from finishcalc.plans.grid import Grid

Rule = Literal["dense", "wide", "large"]
RULES: tuple[Rule, ...] = ("dense", "wide", "large")
"""The column that wastes least of its own length, the widest, or the one with most cloth in its pieces."""
Counts = tuple[int, ...]
"""So many pieces of each kind are still to be laid."""


class Turn(NamedTuple):
    """A kind of piece as it may lie: its size across the cloth and along it, in steps of the grid."""

    across: int
    along: int
    kind: int


class Stack(NamedTuple):
    """A column: its width, the pieces of it from the first cut on, and how many alike columns lie side by side."""

    width: int
    pieces: tuple[tuple[Turn, int], ...]
    times: int = 1

    @property
    def length(self) -> int:
        """The length that its pieces take."""
        return sum(turn.along * number for turn, number in self.pieces)


class Pieces:
    """The kinds of pieces that one cloth is cut into, on a grid that holds every length exactly. With the two sides of
    the cloth `swapped`, `usable` is its length."""

    def __init__(
        self, usable: Length, wanted: Sequence[Wanted], others: Sequence[Length] = (), swapped: bool = False
    ) -> None:
        sides = (side for each in wanted for side in (each.width, each.length))
        self.grid = Grid.of(usable, *others, *sides, grain=1)
        self.usable = self.grid.whole(usable)
        self.wanted, self.swapped = wanted, swapped
        self.counts: Counts = tuple(each.number for each in wanted)
        self.turns = [tuple(self._turns(kind, each)) for kind, each in enumerate(wanted)]
        self.shortest = [
            (min((turn.along for turn in turns), default=0), all(turn.across * 2 > self.usable for turn in turns))
            for turns in self.turns
        ]
        """The least length of each kind of piece along the cloth, and if it is too wide for two to lie side by side."""
        self.areas = [self.grid.whole(each.width) * self.grid.whole(each.length) for each in wanted]
        by_width: dict[int, list[Turn]] = {}
        for turn in sorted((turn for turns in self.turns for turn in turns), key=lambda turn: -turn.along):
            by_width.setdefault(turn.across, []).append(turn)
        self.by_width = {across: by_width[across] for across in sorted(by_width, reverse=True)}

    def area(self, counts: Counts) -> int:
        """Add up the cloth in so many pieces, in square steps."""
        return sum(area * count for area, count in zip(self.areas, counts, strict=True))

    def _turns(self, kind: int, wanted: Wanted) -> Iterator[Turn]:
        width, length = self.grid.whole(wanted.width), self.grid.whole(wanted.length)
        along, across = (wanted.across, wanted.along) if self.swapped else (wanted.along, wanted.across)
        if along and width <= self.usable:
            yield Turn(width, length, kind)
        if across and length <= self.usable and not (along and width == length):
            yield Turn(length, width, kind)


def fill(pieces: Pieces, counts: list[int], width: int, length: int, rule: Rule) -> list[Stack]:
    """Fill a rectangle with columns by a rule, and take their pieces off the `counts`."""
    filled: list[Stack] = []
    while best := _next_column(pieces, counts, width, length, rule):
        take(counts, best)
        filled.append(best)
        width -= best.width * best.times
    return filled


def stack(pieces: Pieces, counts: Sequence[int], width: int, length: int, first: Turn | None = None) -> Stack:
    """Stack pieces of one width behind each other, the tallest first, with `first` before all others."""
    room, left, stacked = length, list(counts), list[tuple[Turn, int]]()
    for turn in (first, *pieces.by_width[width]) if first else pieces.by_width[width]:
        if number := min(left[turn.kind], room // turn.along):
            stacked.append((turn, number))
            left[turn.kind] -= number
            room -= turn.along * number
    return Stack(width, tuple(stacked))


def take(counts: list[int], columns: Stack) -> None:
    """Take the pieces of columns off the counts."""
    for turn, number in columns.pieces:
        counts[turn.kind] -= number * columns.times


def _next_column(pieces: Pieces, counts: list[int], width: int, length: int, rule: Rule) -> Stack | None:
    """Stack the column that a rule likes best. Widths are tried from the widest on, until no narrower one can be worth
    more than the best so far, even if it is full."""
    best, best_worth = 0, (0, 0)
    for across, turns in pieces.by_width.items():
        if across > width:
            continue
        if best_worth >= _worth(rule, across, length):
            break
        stacked = _stacked_length(turns, counts, length)
        worth = _worth(rule, across, stacked)
        if stacked and worth > best_worth:
            best, best_worth = across, worth
    if not best:
        return None
    column = stack(pieces, counts, best, length)
    return column._replace(times=times(counts, column, width))


def _worth(rule: Rule, across: int, length: int) -> tuple[int, int]:
    """Compare columns by a rule; no two widths are worth the same."""
    if rule == "dense":
        return length, across
    return (across, length) if rule == "wide" else (length * across, across)


def _stacked_length(turns: Sequence[Turn], counts: Sequence[int], length: int) -> int:
    """Give the length of the pieces that `stack` would put into a column. A kind of piece has one turn of a width."""
    room = length
    for _, along, kind in turns:
        if counts[kind] and along <= room:
            room -= along * min(counts[kind], room // along)
    return length - room


def times(counts: Sequence[int], column: Stack, width: int) -> int:
    """Count how often a column may stand side by side within a width, with the pieces that are there."""
    used: dict[int, int] = {}
    for turn, number in column.pieces:
        used[turn.kind] = used.get(turn.kind, 0) + number
    return min(width // column.width, *(counts[kind] // number for kind, number in used.items()))
