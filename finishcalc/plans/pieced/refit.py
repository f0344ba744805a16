"""A pieced design in another size: its block, sashing and borders stay, the number of blocks changes.

Rounded down, the design comes as near to a target as it can without being larger on either side; rounded up, without
being smaller; between the two, one side is larger and the other smaller. The last border may be cut wider to make up
what is left where a design is rounded down.
"""

from bisect import bisect_right
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.model.cover import Cover
from finishcalc.model.keys import MOST_BLOCKS
from finishcalc.model.pieced import PiecedTop

COUNTS = range(1, MOST_BLOCKS + 1)
Rounding = Literal["from below", "from above", "between"]


class Fit(NamedTuple):
    """A design near a target: `across` x `down` blocks (None for a design round a centre), its last border cut `wider`
    than designed, which makes a top of `size`."""

    rounding: Rounding
    across: int | None
    down: int | None
    wider: Length
    size: Size

    def off(self, target: Size) -> Fraction:
        """Add up by how much its two sides miss the target, in millimetres."""
        return abs((self.size.width - target.width).mm) + abs((self.size.length - target.length).mm)


def fits(top: PiecedTop, target: Size, finest: Length, widest: Length) -> list[Fit]:
    """List every way to make the design about as large as the target, the nearest first, the larger first of two as
    near. The last border is cut at most `widest`, which is nothing for one that stays as it is."""
    counts = _counts_near(top, target) if top.blocks else [(None, None)]
    found = [_fit(top, target, across, down, ZERO) for across, down in counts]
    found += [wider for fit in found if (wider := _widened(top, fit, target, finest, widest))]
    return sorted(found, key=lambda fit: (fit.off(target), -fit.size.width.mm - fit.size.length.mm))


def covering_first(found: list[Fit], covers: Cover | None) -> list[Fit]:
    """Put the ways that let the mattress of a bed show last, each sort in its order: on a bed, rather more than less.
    Where the cover that is asked for lets it show already, or covers a table, the order stays."""
    if not covers or covers.mattress_shows:
        return found
    return sorted(found, key=lambda fit: covers.hanging(fit.size).mattress_shows)


def refitted(top: PiecedTop, fit: Fit) -> PiecedTop:
    """Give the design the fit's blocks and last border."""
    borders = top.borders
    if fit.wider:
        borders = (*borders[:-1], borders[-1].replace(cut=borders[-1].cut + fit.wider))
    blocks = top.blocks
    if blocks and fit.across and fit.down:
        blocks = blocks.replace(across=fit.across, down=fit.down)
    return top._replace(blocks=blocks, borders=borders)


def _counts_near(top: PiecedTop, target: Size) -> list[tuple[int | None, int | None]]:
    """Pair the counts of blocks on each side that come next to the target from below and from above. The blocks must
    fill the target less what the borders add, which is always the same."""
    whole, centre = top.size, top.centre_size
    across = _counts_around(top, target.width - (whole.width - centre.width))
    down = _counts_around(top, target.length - (whole.length - centre.length))
    return [(one, other) for one in sorted(across) for other in sorted(down) if one in COUNTS and other in COUNTS]


def _counts_around(top: PiecedTop, side: Length) -> set[int]:
    """Find the most blocks that are no longer than a side, and the fewest that are no shorter."""
    below = bisect_right(COUNTS, side, key=top.centre_side)
    return {below} if below and top.centre_side(below) == side else {below, below + 1}


def _fit(top: PiecedTop, target: Size, across: int | None, down: int | None, wider: Length) -> Fit:
    """Change the design so, and say from which side its size comes to the target."""
    fit = Fit("between", across, down, wider, top.size)
    size = refitted(top, fit).size
    if size.width <= target.width and size.length <= target.length:
        return fit._replace(rounding="from below", size=size)
    if size.width >= target.width and size.length >= target.length:
        return fit._replace(rounding="from above", size=size)
    return fit._replace(size=size)


def _widened(top: PiecedTop, fit: Fit, target: Size, finest: Length, widest: Length) -> Fit | None:
    """Widen the last border by as many of the finest steps as fit all round; None where not one does."""
    if fit.rounding != "from below" or not top.borders:
        return None
    rest = min(target.width - fit.size.width, target.length - fit.size.length) / 2
    steps = min(rest, widest - top.borders[-1].cut) // finest
    return _fit(top, target, fit.across, fit.down, finest * steps) if steps >= 1 else None
