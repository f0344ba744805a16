"""The strips of a binding before they are joined: across the cloth, along it, on the bias, or from offcuts."""

from typing import NamedTuple

from finishcalc.measures.bounds import ROOT_2_DOWN, ROOT_2_UP, root_down
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.project import Binding
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.joined_strips import join_allowance, strips_needed

RECTANGLE_STEPS = 4
"""The heights of a rectangle to each side of a square: quarters of an inch, where a square has whole inches."""
MOST_LENGTHWISE = 4
"""The most strips along the cloth: one for each side of the quilt."""


class Square(NamedTuple):
    """A square of cloth that is sewn into a tube and cut round and round on the bias."""

    side: Length
    rounds: int


class Rectangle(NamedTuple):
    """Rectangles of cloth, `width` across it and `height` along it, each sewn into a tube and cut round on the bias;
    the strips of several `pieces` are joined."""

    width: Length
    height: Length
    rounds: int
    pieces: int


class BindingStrips(NamedTuple):
    """Strips before they are joined: `cut_length` is what they take along the washed cloth. A square or a rectangle has
    no strips of its own. Those of `offcuts`, by their lengths, come from beside the backing or from an offcut at hand,
    and take no more cloth."""

    number: int
    length: Length
    join_allowance: Length
    yields: Length
    cut_length: Length
    square: Square | None = None
    rectangle: Rectangle | None = None
    offcuts: tuple[Length, ...] = ()


def strip_width(spec: Binding) -> Length:
    """Give the width to cut: as requested; or for a finished width w and a loft t, 2 x (3w + t) folded double and 4w
    folded single, and no less than anyone cuts (derived; general encyclopedia, 'Bias tape')."""
    if spec.finished is None:
        return spec.strip_width or spec.least_strip
    exact = spec.finished * 4 if spec.fold == "single" else (spec.finished * 3 + spec.loft) * 2
    return max(exact, spec.least_strip)


def binding_strips(
    needed: Length, spec: Binding, square_step: Length, offcuts: tuple[Length, ...], shortest: Length
) -> BindingStrips:
    """Cut the strips as requested: see `plan_binding`."""
    width, usable_width = strip_width(spec), usable_width_of(spec.fabric)
    join = join_allowance(spec.join, width, spec.seam_allowance)
    if spec.cut == "bias":
        return _on_the_bias(needed, width, spec, square_step, shortest)
    if spec.cut == "lengthwise":
        return lengthwise_strips(needed, width, usable_width, join)
    return strips_from_offcuts_first(needed, width, usable_width, join, offcuts)


def _on_the_bias(needed: Length, width: Length, spec: Binding, square_step: Length, shortest: Length) -> BindingStrips:
    """Take a square, rectangles or strips: those that take least cloth, and of equal ones the first, which has fewest
    seams to sew.

    Several squares side by side are not weighed, because the one rectangle that they make up has at least as many
    rounds, and nothing lost at joins.
    """
    seam_allowance, usable_width = spec.seam_allowance, usable_width_of(spec.fabric)
    ways = [
        bias_square(needed, width, seam_allowance, usable_width, square_step),
        bias_rectangle(needed, width, seam_allowance, usable_width, square_step / RECTANGLE_STEPS, shortest),
        bias_strips(needed, width, seam_allowance, usable_width),
    ]
    return min((way for way in ways if way), key=lambda way: way.cut_length)


def lengthwise_strips(
    needed: Length, width: Length, usable_width: Length, join: Length, shortest: Length = ZERO
) -> BindingStrips:
    """Cut equal strips side by side along the cloth, as many as its width holds, no more than MOST_LENGTHWISE, and none
    under `shortest` where there is more than one."""
    most = needed // shortest if shortest else MOST_LENGTHWISE
    count = max(1, min(MOST_LENGTHWISE, most, usable_width // width))
    length = (needed + join * (count - 1)) / count
    return BindingStrips(number=count, length=length, join_allowance=join, yields=needed, cut_length=length)


def bias_square(
    needed: Length, width: Length, seam_allowance: Length, usable_width: Length, step: Length
) -> BindingStrips | None:
    """Find the least square, in steps of `step` and no wider than the cloth, whose whole rounds are long enough.

    A side S with two seams gives N = floor((S - 2 seams) / (c x root 2)) whole rounds of (S - 2 seams) x root 2 each,
    for strips c wide; a part of a round is waste (derived). Their area is at most the square's, so S x S >= needed x c,
    and the search starts at that root.

        +-------+
        |     / |     The square is cut along its diagonal, sewn into a slanted tube, and cut round and round
        |   /   |     on the bias: a round is (S - 2 seams) x root 2 long, and takes c x root 2 of the
        | /     |     S - 2 seams that the tube has.
        +-------+
    """
    least = root_down((needed * width).mm2)
    side = step * max(1, int(least / step.mm))
    while side <= usable_width:
        rounds, yields = bias_rounds(side, side, width, seam_allowance)
        if yields >= needed:
            return BindingStrips(
                number=0,
                length=yields,
                join_allowance=ZERO,
                yields=yields,
                cut_length=side,
                square=Square(side, rounds),
            )
        side += step
    return None


def bias_rounds(one_side: Length, other_side: Length, width: Length, seam_allowance: Length) -> tuple[int, Length]:
    """Count the whole rounds on the bias from one rectangle of cloth, an offcut's too, and give their length, for
    strips of some width.

    The end cut off at 45 degrees takes the height off the length, so the height is the shorter side, however the cloth
    lies. Its seam and the tube's take two seam allowances each: N = floor((length - 2 seams) / (c x root 2)) rounds of
    (height - 2 seams) x root 2, for strips c wide (derived).

        +-------------+        +-------------+
        |           / |       /             /     The end is sewn to the other end; the two long edges, sewn together
        |         /   |  ->  /             /      one strip off, make the tube. A strip is as long as the slant, and
        +-------+-----+     +-------------+       takes c x root 2 of the long edge.
    """
    inner, along = sorted(side - seam_allowance * 2 for side in (one_side, other_side))
    rounds = int(along.mm / (width.mm * ROOT_2_UP)) if inner > ZERO else 0
    return rounds, inner * (rounds * ROOT_2_DOWN)


def bias_join(width: Length, seam_allowance: Length) -> Length:
    """Give the length that a join of two strips on the bias takes, along the grain or on the diagonal."""
    return max(width, seam_allowance * (2 * ROOT_2_UP))


def bias_rectangle(
    needed: Length, width: Length, seam_allowance: Length, usable_width: Length, step: Length, shortest: Length
) -> BindingStrips | None:
    """Find the least rectangle as wide as the cloth, in steps of `step`, whose whole rounds are long enough; where none
    is, the fewest equal ones, joined. None is higher than the cloth is wide, or lower than `shortest`, because a low
    one is all joins."""
    tallest = step * (usable_width // step)
    rounds, most = bias_rounds(usable_width, tallest, width, seam_allowance)
    join = bias_join(width, seam_allowance)
    if most <= join:
        return None
    count = strips_needed(needed, most, join)
    from_each = (needed + join * (count - 1)) / count
    height = up_to_step(max(from_each / (rounds * ROOT_2_DOWN) + seam_allowance * 2, shortest), step)
    if height > tallest:
        return None
    _, yields = bias_rounds(usable_width, height, width, seam_allowance)
    return BindingStrips(
        number=0,
        length=yields,
        join_allowance=join,
        yields=yields * count - join * (count - 1),
        cut_length=height * count,
        rectangle=Rectangle(usable_width, height, rounds, count),
    )


def bias_strips(needed: Length, width: Length, seam_allowance: Length, usable_width: Length) -> BindingStrips:
    """Cut strips from selvage to selvage at 45 degrees, and join them along the grain.

    Each is usable x root 2 long and takes c x root 2 along the selvage, for strips c wide; the corners before the first
    and after the last take one usable width together; a join hides two seams on the slant (derived).

        |<- usable ->|<- n x c x root 2 ->|
        +------------/---/---/---/--------+   the cloth's length runs to the right
        |          /   /   /   /          |
        |        /   /   /   /            |
        +-------/---/---/---/-------------+
    """
    length, join = usable_width * ROOT_2_DOWN, seam_allowance * (2 * ROOT_2_UP)
    count = strips_needed(needed, length, join)
    return BindingStrips(
        number=count,
        length=length,
        join_allowance=join,
        yields=length * count - join * (count - 1),
        cut_length=usable_width + width * (count * ROOT_2_UP),
    )


def strips_from_offcuts_first(
    needed: Length, width: Length, usable_width: Length, join: Length, offcuts: tuple[Length, ...]
) -> BindingStrips:
    """Take as many offcuts as are needed, the longest first, and cut the rest across the cloth."""
    taken, joined = list[Length](), ZERO
    for offcut in offcuts:
        if joined >= needed:
            break
        joined += offcut - join if taken else offcut
        taken.append(offcut)
    more = max(0, up((needed - joined) / (usable_width - join))) if taken else strips_needed(needed, usable_width, join)
    return BindingStrips(
        number=more,
        length=usable_width,
        join_allowance=join,
        yields=joined + (usable_width - join) * more + (ZERO if taken else join),
        cut_length=width * more,
        offcuts=tuple(taken),
    )
