"""Rows of a cloth that a sheet of paper holds. A row ends between two bands, unless one band is too long for a row."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up
from finishcalc.rendering.pictures.cutting import CuttingPicture

LENGTHS = (Fraction(13, 5), Fraction(17, 5), Fraction(5), Fraction(7), Fraction(9), Fraction(12))
"""The lengths of a row that are tried, in widths of the cloth: the first whose rows a sheet holds."""
LEAST_OF_FULL = 0.7
"""The share of the paper's width that a row takes at least."""


class Room(NamedTuple):
    """The room on paper: the width of a row, the most that the width of the cloth takes, and the height that all rows
    have, of which some is `between` them. In `sheets`, each has a height of its own."""

    wide: float
    tallest: float
    high: float
    between: float
    sheets: bool = False


class ClothRow(NamedTuple):
    """A stretch of the cloth, from `start` to `end` along it. At a `torn` end the cloth runs on within a band."""

    start: Length
    end: Length
    torn_before: bool
    torn_after: bool

    @property
    def length(self) -> Length:
        """The length of cloth in the row."""
        return self.end - self.start


def cloth_rows(picture: CuttingPicture, room: Room) -> tuple[list[ClothRow], float]:
    """Break the cloth into rows that have room, and give their scale: units of the drawing for 1 mm."""
    high = float(picture.usable.mm)
    for most in LENGTHS:
        rows = list(_rows(picture, picture.usable * most))
        full = min(room.wide / float(max(row.length for row in rows).mm), room.tallest / high)
        scale = full if room.sheets else min(full, (room.high / len(rows) - room.between) / high)
        if scale >= full * LEAST_OF_FULL and not _breaks_early(rows, most):
            break
    return rows, max(scale, full * LEAST_OF_FULL)


def _breaks_early(rows: list[ClothRow], most: Fraction) -> bool:
    """True where a band is broken that a row a little longer would hold whole."""
    return most == LENGTHS[0] and any(row.torn_after for row in rows)


def _rows(picture: CuttingPicture, most: Length) -> Iterator[ClothRow]:
    """Fill each row with the bands that it has room for; a longer stretch is divided evenly."""
    ends = sorted({picture.length, *(band.x + band.length for band in picture.bands)})
    start, end, torn = ZERO, ZERO, False
    for stop in ends:
        if stop - start > most and end > start:
            yield ClothRow(start, end, torn, torn_after=False)
            start, torn = end, False
        parts = up((stop - start) / most)
        step = (stop - start) / max(parts, 1)
        for _ in range(parts - 1):
            yield ClothRow(start, start + step, torn, torn_after=True)
            start, torn = start + step, True
        end = stop
    if end > start:
        yield ClothRow(start, end, torn, torn_after=False)
