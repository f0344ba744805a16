"""A pieced design in another size: its block, sashing and borders stay, the number of blocks changes.

From below it comes as near to a target as it can without being larger on either side, from above without being
smaller; between the two, one side is larger and the other smaller. The last border may be cut wider to make up what is
left from below.
"""

from bisect import bisect_right
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.model.keys import MOST_BLOCKS
from finishcalc.model.pieced import PiecedTop

COUNTS = range(1, MOST_BLOCKS + 1)


class Fit(NamedTuple):
    """A design as it comes: `across` x `down` blocks (None for a design round a centre), its last border cut `wider`
    than designed, which makes a top of `size`."""

    way: Literal["from below", "from above", "between"]
    across: int | None
    down: int | None
    wider: Length
    size: Size

    def off(self, target: Size) -> Fraction:
        """By how much its two sides miss the target together, in millimetres."""
        return abs((self.size.width - target.width).mm) + abs((self.size.length - target.length).mm)


def fits(top: PiecedTop, target: Size, finest: Length, widest: Length) -> list[Fit]:
    """Every way to make the design about as large as the target, the nearest first; of two as near, the larger. Its
    last border is cut at most `widest`: nothing for one that stays as it is."""
    counts = _counted(top, target) if top.blocks else [(None, None)]
    found = [_fit(top, target, across, down, ZERO) for across, down in counts]
    found += [wider for fit in found if (wider := _widened(top, fit, target, finest, widest))]
    return sorted(found, key=lambda fit: (fit.off(target), -fit.size.width.mm - fit.size.length.mm))


def refitted(top: PiecedTop, fit: Fit) -> PiecedTop:
    """The design with the fit's blocks and last border."""
    borders = top.borders
    if fit.wider:
        borders = (*borders[:-1], borders[-1].replace(cut=borders[-1].cut + fit.wider))
    blocks = top.blocks
    if blocks and fit.across and fit.down:
        blocks = blocks.replace(across=fit.across, down=fit.down)
    return top._replace(blocks=blocks, borders=borders)


def _counted(top: PiecedTop, target: Size) -> list[tuple[int | None, int | None]]:
    """On each side the most blocks that are not too many, and the fewest that are enough: what borders add is always
    the same."""
    whole, centre = top.size, top.centre_size
    across, down = (
        _around(top, side)
        for side in (target.width - whole.width + centre.width, target.length - whole.length + centre.length)
    )
    return [(one, other) for one in sorted(across) for other in sorted(down) if one in COUNTS and other in COUNTS]


def _around(top: PiecedTop, side: Length) -> set[int]:
    """The most blocks that are no longer than a side, and the fewest that are no shorter."""
    below = bisect_right(COUNTS, side, key=top.centre_side)
    return {below} if below and top.centre_side(below) == side else {below, below + 1}


def _fit(top: PiecedTop, target: Size, across: int | None, down: int | None, wider: Length) -> Fit:
    """The design so changed, with its size and the way that this is."""
    size = refitted(top, Fit("between", across, down, wider, top.size)).size
    way: Literal["from below", "from above", "between"] = "between"
    if size.width <= target.width and size.length <= target.length:
        way = "from below"
    elif size.width >= target.width and size.length >= target.length:
        way = "from above"
    return Fit(way, across, down, wider, size)


def _widened(top: PiecedTop, fit: Fit, target: Size, finest: Length, widest: Length) -> Fit | None:
    """The same with the last border wider, by as many of the finest steps as fit all round, or None for none."""
    if fit.way != "from below" or not top.borders:
        return None
    rest = min(target.width - fit.size.width, target.length - fit.size.length) / 2
    steps = int(min(rest, widest - top.borders[-1].cut) / finest)
    return _fit(top, target, fit.across, fit.down, finest * steps) if steps >= 1 else None
