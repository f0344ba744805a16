"""Strips from the offcuts of a layout: along the cloth beside the columns of a band, or across it behind them."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.plans.cutting.layout import Band, ClothLayout, Column, LaidPiece, Wanted


class OffcutStrip(NamedTuple):
    """A strip that an offcut gives. It lies in the band of that number: in a column of its own `along` the cloth, or
    `across` it behind the pieces of the column of that number, or behind each other in a new column where that is None.
    """

    length: Length
    band: int
    along: bool
    column: int | None


def offcut_strips(layout: ClothLayout, width: Length, shortest: Length, along_only: bool) -> list[OffcutStrip]:
    """List the strips of one width that the offcuts of a layout give: the longest first, none shorter than `shortest`.
    One whose first cut runs along the cloth gives none.

    What is free beside the columns of a band is cut along the cloth where that gives a strip, because it is longer.
    """
    if layout.turned:
        return []
    found = (
        strip
        for number in range(len(layout.bands))
        for strip in _of_band(layout, number, width, shortest)
        if strip.along or not along_only
    )
    return sorted(found, key=lambda strip: strip.length, reverse=True)


def _of_band(layout: ClothLayout, number: int, width: Length, shortest: Length) -> Iterator[OffcutStrip]:
    """Cut strips from a band's offcuts. Those across the cloth are no shorter than half its width, because many of them
    are no saving."""
    band = layout.bands[number]
    free, across = layout.usable - band.width, max(shortest, layout.usable / 2)
    along = free // width if band.length >= shortest else 0
    yield from [OffcutStrip(band.length, number, True, None)] * along
    if not along and free >= across:
        yield from [OffcutStrip(free, number, False, None)] * (band.length // width)
    for place, column in enumerate(band.columns):
        if column.width >= across:
            behind = (band.length - column.length) // width
            yield from [OffcutStrip(column.width, number, False, place)] * behind


def with_offcut_strips(layout: ClothLayout, use: str, width: Length, strips: Iterable[OffcutStrip]) -> ClothLayout:
    """Lay strips that the offcuts of a layout give."""
    bands = list(layout.bands)
    for strip in strips:
        bands[strip.band] = _with_strip(bands[strip.band], strip, use, width, layout.bands[strip.band])
    return layout._replace(bands=tuple(bands))


def _with_strip(band: Band, strip: OffcutStrip, use: str, width: Length, before: Band) -> Band:
    wanted = Wanted(use, width, strip.length, 1, strip.along, not strip.along, strip.length)
    if strip.along:
        return band._replace(columns=(*band.columns, Column(width, (LaidPiece(wanted, width, strip.length),))))
    piece, columns = LaidPiece(wanted, strip.length, width), list(band.columns)
    place = len(before.columns) if strip.column is None else strip.column
    if place == len(columns):
        columns.append(Column(strip.length, ()))
    columns[place] = columns[place]._replace(pieces=(*columns[place].pieces, piece))
    return band._replace(columns=tuple(columns))
