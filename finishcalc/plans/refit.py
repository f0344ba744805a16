"""A pieced design in another size: its block, sashing and borders stay, the number of blocks changes.

From below it comes as near to a target as it can without being larger on either side, from above without being
smaller. The last border may be cut wider to make up what is left from below.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.pieced_top import MOST_BLOCKS, PiecedTop, Size

COUNTS = range(1, MOST_BLOCKS + 1)


class Fit(NamedTuple):
    """A design as it comes: `across` x `down` blocks (None for a design round a centre), its last border cut `wider`
    than designed, which makes a top of `size`. A centre that is larger one way and smaller the other fits neither."""

    way: Literal["from below", "from above", "neither"]
    across: int | None
    down: int | None
    wider: Length
    size: Size

    def off(self, target: Size) -> Fraction:
        """By how much its two sides miss the target together, in millimetres."""
        return abs((self.size.width - target.width).mm) + abs((self.size.length - target.length).mm)


def fits(top: PiecedTop, target: Size, finest: Length, widen: bool) -> list[Fit]:
    """Every way to make the design about as large as the target, the nearest first; of two as near, the larger."""
    found = list(_counted(top, target) if top.blocks else _as_it_is(top, target))
    if widen:
        found += [wider for fit in found if (wider := _widened(top, fit, target, finest))]
    return sorted(found, key=lambda fit: (fit.off(target), -fit.size.width.mm - fit.size.length.mm))


def refitted(top: PiecedTop, fit: Fit) -> PiecedTop:
    """The design with the fit's blocks and last border."""
    borders = top.borders
    if fit.wider:
        borders = (*borders[:-1], borders[-1]._replace(cut=borders[-1].cut + fit.wider))
    blocks = top.blocks
    if blocks and fit.across and fit.down:
        blocks = blocks._replace(across=fit.across, down=fit.down)
    return top._replace(blocks=blocks, borders=borders)


def _counted(top: PiecedTop, target: Size) -> Iterator[Fit]:
    """The most blocks that are not too many, and the fewest that are enough: what borders add is always the same."""
    whole, centre = top.size, top.centre_size
    sides = (target.width - whole.width + centre.width, target.length - whole.length + centre.length)
    below = [bisect_right(COUNTS, side, key=top.centre_side) for side in sides]
    above = [bisect_left(COUNTS, side, key=top.centre_side) + 1 for side in sides]
    if min(below) >= 1:
        yield _fit(top, "from below", *below)
    if max(above) <= MOST_BLOCKS and above != below:
        yield _fit(top, "from above", *above)


def _fit(top: PiecedTop, way: Literal["from below", "from above"], across: int, down: int) -> Fit:
    fit = Fit(way, across, down, ZERO, top.size)
    return fit._replace(size=refitted(top, fit).size)


def _as_it_is(top: PiecedTop, target: Size) -> Iterator[Fit]:
    """A design round a centre has one size only, and what the last border adds."""
    width, length = top.size
    if width <= target.width and length <= target.length:
        yield Fit("from below", None, None, ZERO, top.size)
    elif width >= target.width and length >= target.length:
        yield Fit("from above", None, None, ZERO, top.size)
    else:
        yield Fit("neither", None, None, ZERO, top.size)


def _widened(top: PiecedTop, fit: Fit, target: Size, finest: Length) -> Fit | None:
    """The same with the last border wider, by as many of the finest steps as fit all round, or None for none."""
    rest = min(target.width - fit.size.width, target.length - fit.size.length)
    steps = int(rest / 2 / finest)
    if fit.way != "from below" or not top.borders or steps < 1:
        return None
    wider = fit._replace(wider=finest * steps)
    return wider._replace(size=refitted(top, wider).size)
