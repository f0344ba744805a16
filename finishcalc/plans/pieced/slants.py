"""The slanting seams of blocks on point, as they show within the borders: x across the top, y down."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.bounds import ROOT_2_DOWN
from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.model.pieced import Blocks, Sashing
from finishcalc.plans.pieced.on_point import diagonal_rows, places_between

HALF_ROOT_2 = ROOT_2_DOWN / 2


class Slant(NamedTuple):
    """A seam that is not along the grain of the page, from one point to another."""

    x: Length
    y: Length
    to_x: Length
    to_y: Length


class Band(NamedTuple):
    """A diagonal row, or the strip between two: `depth` deep from `start` on, from `seams[0]` to `seams[-1]` along the
    rows, with seams across it. All are finished lengths, from the upper left end of the first block's row."""

    start: Length
    depth: Length
    seams: tuple[Length, ...]
    sides: bool


def seams_on_point(blocks: Blocks, sashing: Sashing | None, centre: Size) -> Iterator[Slant]:
    """Draw the seams between blocks, strips and triangles on a finished centre."""
    if not sashing or (sashing.outer and sashing.cornerstones):
        yield from _lattice(blocks, sashing.width if sashing else ZERO, *centre)
        return
    aside = sashing.width * HALF_ROOT_2 if sashing.outer else ZERO
    corner = Size(aside, aside + blocks.size * HALF_ROOT_2)
    for band in _bands(blocks, sashing):
        yield from _band_seams(band, corner)
    if sashing.outer:
        yield from _running_through(blocks, sashing.width, corner, centre)


def _bands(blocks: Blocks, sashing: Sashing) -> Iterator[Band]:
    """Lay out the rows, and the strips between them where these do not run through to the edges."""
    size, wide, outer = blocks.size, sashing.width, sashing.outer
    pitch = size + wide
    for number, row in enumerate(diagonal_rows(blocks)):
        ends = [row.start * pitch - wide, (row.stop - 1) * pitch + size + wide] if outer else []
        yield Band(pitch * number, size, (*ends[:1], *_block_seams(row, size, pitch), *ends[1:]), not outer)
    for number, places in enumerate(() if outer else places_between(blocks, outer)):
        seams = _block_seams(places, size, pitch)
        yield Band(pitch * number + size, wide, seams if sashing.cornerstones else (seams[0], seams[-1]), True)


def _block_seams(places: range, size: Length, pitch: Length) -> tuple[Length, ...]:
    """List where blocks at these places start and end."""
    return tuple(at for place in places for at in (pitch * place, pitch * place + size))


def _band_seams(band: Band, corner: Size) -> Iterator[Slant]:
    """Draw the seams across a band, and along its sides."""
    end = band.start + band.depth
    yield from (_turned(corner, band.start, at, end, at) for at in band.seams)
    if band.sides:
        yield from (_turned(corner, at, band.seams[0], at, band.seams[-1]) for at in (band.start, end))


def _turned(corner: Size, down: Length, along: Length, to_down: Length, to_along: Length) -> Slant:
    """Turn a seam by 45 degrees: rows go down to the right, and along them is up to the right. The left point of the
    first block lies at `corner`."""
    x, y = corner
    return Slant(
        x + (down + along) * HALF_ROOT_2,
        y + (down - along) * HALF_ROOT_2,
        x + (to_down + to_along) * HALF_ROOT_2,
        y + (to_down - to_along) * HALF_ROOT_2,
    )


def _running_through(blocks: Blocks, wide: Length, corner: Size, centre: Size) -> Iterator[Slant]:
    """Draw the strips between rows that run from edge to edge."""
    for number in range(blocks.across + blocks.down):
        end = (blocks.size + wide) * number
        for side in (end - wide, end):
            yield from _rising(corner.width + corner.length + side * ROOT_2_DOWN, *centre)


def _lattice(blocks: Blocks, sashing: Length, width: Length, length: Length) -> Iterator[Slant]:
    """Draw the seams of blocks on point, which run through from edge to edge, two for each strip of sashing.

    Seams rise and fall at 45 degrees, and each meets the upper edge at half a diagonal of a block with its sashing, or
    a whole number of diagonals further: at half x (2n + 1), where n is below 0 for those that start at the left edge.
    """
    half = (blocks.size + sashing) * HALF_ROOT_2
    aside = sashing * HALF_ROOT_2
    shifts = (ZERO - aside, aside) if sashing else (ZERO,)
    for n in range(blocks.across + blocks.down):
        for shift in shifts:
            falls = half * (2 * n + 1) + shift
            yield from _rising(falls, width, length)
            yield from _falling(half * (2 * (n - blocks.down) + 1) + shift, width, length)


def _rising(total: Length, width: Length, length: Length) -> Iterator[Slant]:
    """Draw the line x + y = total within the rectangle."""
    start, end = max(ZERO, total - length), min(width, total)
    if start < end:
        yield Slant(start, total - start, end, total - end)


def _falling(apart: Length, width: Length, length: Length) -> Iterator[Slant]:
    """Draw the line x - y = apart within the rectangle."""
    start, end = max(ZERO, apart), min(width, length + apart)
    if start < end:
        yield Slant(start, start - apart, end, end - apart)
