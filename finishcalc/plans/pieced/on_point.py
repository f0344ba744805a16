"""The geometry of sashing between blocks on point: diagonal rows of blocks, and the strips within and between them.

Turned by 45 degrees, so that the diagonal rows lie level, 2 x 2 blocks of a finished side a with strips of a finished
width w look like this. Without cornerstones the strips within a row are short, those between two rows are long::

    not all round                            all round
            \\ corner /                           /===============\\        long strip 0
         side\\  a   /side                     side |w|  a  |w| side      row 1
    row 1  \\  |block|  /                     /=========================\\  long strip 1
    strip   \\ |=====| /                      |w|  a  |w|  a  |w|  a  |w|  row 2
    row 2   | a |w| a |w| a |                \\=========================/  long strip 2
    strip   / |=====| \\                        side |w|  a  |w| side      row 3
    row 3  /  |block|  \\                          \\===============/        long strip 3

Not all round, no strip lies where a block faces a triangle. A strip between rows is as long as the blocks they have
side by side, and ends at two side triangles. The short sides of a side triangle lie along a block and the end of a
strip, so each is a + w. The top ends at the points of its blocks.

All round, a strip between rows runs through to both edges, which cross its middle line in the middle of the
cornerstones that would lie there. A side triangle's short sides are a. An edge crosses the strip at 45 degrees: at the
strip's raw side, half a width and a seam allowance s off its middle, it is so much further out; and its raw edge is
s root 2 further along the strip. So past n blocks the strip is n (a + w) + 2 (w / 2 + s + s root 2) long (derived).
"""

from collections import Counter
from itertools import pairwise
from typing import NamedTuple

from finishcalc.measures.bounds import ROOT_2_UP, up
from finishcalc.measures.length import Length
from finishcalc.model.pieced import Blocks, Sashing


class LongStrips(NamedTuple):
    """Strips between diagonal rows that pass `blocks` of them, cut `length` long."""

    blocks: int
    length: Length
    number: int


def diagonal_rows(blocks: Blocks) -> list[range]:
    """List the rows from the upper left corner on, each the places of its blocks along it, up to the right. Blocks at
    one place of two rows lie side by side; the first block of all is at place 0."""
    across, down = blocks.across, blocks.down
    return [
        range(max(1, 2 * (number - down) + 1) - number, min(2 * across, 2 * number) - number)
        for number in range(1, across + down)
    ]


def places_between(blocks: Blocks, outer: bool) -> list[range]:
    """List the places that the strips between rows pass: those where both rows have a block, or all round where either
    has one, with a strip before the first row and after the last."""
    rows = diagonal_rows(blocks)
    if not outer:
        return [range(max(one.start, two.start), min(one.stop, two.stop)) for one, two in pairwise(rows)]
    each_end_twice = pairwise([rows[0], *rows, rows[-1]])
    return [range(min(one.start, two.start), max(one.stop, two.stop)) for one, two in each_end_twice]


def short_strips(blocks: Blocks, outer: bool) -> int:
    """Count the strips between the blocks of the rows, and all round those at the ends of the rows."""
    return sum(len(row) + (1 if outer else -1) for row in diagonal_rows(blocks))


def long_strips(blocks: Blocks, sashing: Sashing, seam: Length) -> list[LongStrips]:
    """List the strips between the rows where there are no cornerstones, the shortest first; never short."""
    counts = Counter(len(places) for places in places_between(blocks, sashing.outer))
    past = sashing.width + seam * (2 + 2 * ROOT_2_UP) if sashing.outer else seam * 2 - sashing.width
    pitch = blocks.size + sashing.width
    return [LongStrips(count, Length(up((pitch * count + past).mm)), counts[count]) for count in sorted(counts)]
