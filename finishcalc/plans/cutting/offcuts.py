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

    What is free beside the columns of a band is cut whichever way gives more length.
    """
    found = (
        strip
        for number, band in enumerate(layout.bands)
        for strip in _of_band(layout.usable - band.width, number, band, width, shortest, along_only)
    )
    return sorted(found, key=lambda strip: strip.length, reverse=True)


def _of_band(
    free: Length, number: int, band: Band, width: Length, shortest: Length, along_only: bool
) -> Iterator[OffcutStrip]:
    along = free // width if band.length >= shortest else 0
    across = band.length // width if free >= shortest and not along_only else 0
    if band.length * along >= free * across:
        yield from [OffcutStrip(band.length, number, True, None)] * along
    else:
        yield from [OffcutStrip(free, number, False, None)] * across
    for place, column in enumerate(band.columns):
        if column.width >= shortest and not along_only:
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
