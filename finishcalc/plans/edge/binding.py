"""The binding: strips across the cloth, along it, or on the bias, joined end to end, folded double or single."""

from collections import Counter
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.bounds import ROOT_2_DOWN, ROOT_2_UP, root_down
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up
from finishcalc.model.materials import Fabric
from finishcalc.model.project import BindingWishes
from finishcalc.plans.cloth import buying, cost_of, length_to_buy, usable_said, usable_width_of
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import ROOT_2, Said, Value, say

MOST_LENGTHWISE = 4
"""Strips along the cloth: one for each side, where the cloth is wide enough for so many."""


class Square(NamedTuple):
    """A square of cloth that is sewn into a tube and cut round and round on the bias."""

    side: Length
    rounds: int


class EdgeStrips(NamedTuple):
    """Strips before they are joined: `cloth` is what they take along the washed cloth. A square has no strips of
    its own. Those of `beside`, by their lengths, come from beside the backing and take none."""

    number: int
    length: Length
    lost: Length
    yields: Length
    cloth: Length
    square: Square | None = None
    beside: tuple[Length, ...] = ()


class BindingPlan(NamedTuple):
    """The binding. `needed_length` is the perimeter and the binding extra; `yields` is what the joined strips
    come to; `cut_length` is along the washed cloth; `amount` is bought for the binding alone. Those of `beside`, by
    their lengths, come from beside the pieces of the backing."""

    needed_length: Length
    strips: int
    strip_width: Length
    strip_length: Length
    yields: Length
    square: Square | None
    cut: str
    join: str
    fold: str
    attach: str
    fabric: Fabric
    cut_length: Length
    cut_lengths: tuple[Length, ...]
    amount: Length
    cost: Money
    beside: tuple[Length, ...]
    working: tuple[Said, ...]


def plan_binding(
    shape: Shape, wishes: BindingWishes, currency: Currency, whole: Length, beside: tuple[Length, ...] = ()
) -> BindingPlan:
    """Plan the strips. The closing join is part of the binding extra; a square's side is in steps of `whole`. Where it
    is cut from leftovers, `beside` are the strips to be had from beside the backing, the longest first."""
    needed = shape.perimeter + wishes.extra
    width, usable = strip_width(wishes), usable_width_of(wishes.fabric)
    strips = _strips(needed, width, usable, wishes, whole, beside)
    amount = length_to_buy(wishes.fabric, strips.cloth) if strips.cloth else ZERO
    cut_lengths = (width,) * strips.number if wishes.cut in ("crosswise", "leftover") else (strips.cloth,)
    return BindingPlan(
        needed, strips.number, width, strips.length, strips.yields, strips.square, wishes.cut, wishes.join, wishes.fold,
        wishes.attach, wishes.fabric, strips.cloth, cut_lengths, amount, cost_of(wishes.fabric, amount, currency),
        strips.beside,
        (
            *_width_said(wishes, width),
            say("Needed: {edge} perimeter + {extra} extra = {needed}", edge=shape.perimeter, extra=wishes.extra,
                needed=needed),
            usable_said(wishes.fabric, usable),
            *_strips_said(strips, needed, width, usable, wishes),
            *([say("A curved edge takes bias, which gives round the curve; ease it on and do not stretch it.")]
              if shape.curved else []),
            *([buying(wishes.fabric, strips.cloth, amount)] if strips.cloth else []),
        ),
    )  # fmt: skip


def strip_width(wishes: BindingWishes) -> Length:
    """The width to cut: as asked; or for a finished width w and a loft t, 2 x (3w + t) folded double and 4w folded
    single, and no less than anyone cuts (derived; general encyclopedia, 'Bias tape')."""
    if wishes.finished is None:
        return wishes.strip_width or wishes.least_strip
    exact = wishes.finished * 4 if wishes.fold == "single" else (wishes.finished * 3 + wishes.loft) * 2
    return max(exact, wishes.least_strip)


def join_loss(wishes: BindingWishes, width: Length) -> Length:
    """What a join takes: the strip's width on the diagonal, two seam allowances straight (derived)."""
    return width if wishes.join == "diagonal" else wishes.seam_allowance * 2


def strips_needed(needed: Length, usable: Length, lost: Length) -> int:
    """The fewest strips n with n x usable - (n - 1) x lost >= needed."""
    return max(1, up((needed - lost) / (usable - lost)))


def bias_square(needed: Length, width: Length, seam: Length, most: Length, whole: Length) -> EdgeStrips | None:
    """The least square, in steps of `whole` and at most `most` a side, whose whole rounds are long enough.

    A side S with two seams gives N = floor((S - 2 seams) / (c x root 2)) whole rounds of (S - 2 seams) x root 2; a
    part of a round is waste (derived).
    """
    least = root_down((needed * width).mm2)
    side = whole * max(1, int(least / whole.mm))
    while side <= most:
        inner = side - seam * 2
        rounds = int(inner.mm / (width.mm * ROOT_2_UP)) if inner > ZERO else 0
        yields = inner * (rounds * ROOT_2_DOWN)
        if yields >= needed:
            return EdgeStrips(0, yields, ZERO, yields, side, Square(side, rounds))
        side += whole
    return None


def bias_strips(needed: Length, width: Length, seam: Length, usable: Length) -> EdgeStrips:
    """Strips from selvage to selvage at 45 degrees, joined along the grain: n of them take usable + n x c x root 2 of
    cloth, and each join takes two seams on the slant (derived)."""
    long, lost = usable * ROOT_2_DOWN, seam * (2 * ROOT_2_UP)
    count = strips_needed(needed, long, lost)
    return EdgeStrips(count, long, lost, long * count - lost * (count - 1), usable + width * (count * ROOT_2_UP))


def strips_beside(
    needed: Length, width: Length, usable: Length, lost: Length, beside: tuple[Length, ...]
) -> EdgeStrips:
    """As many of the strips from beside the backing as are needed, and across the cloth what these do not give."""
    taken, joined = list[Length](), ZERO
    for long in beside:
        if joined >= needed:
            break
        joined += long - lost if taken else long
        taken.append(long)
    more = max(0, up((needed - joined) / (usable - lost))) if taken else strips_needed(needed, usable, lost)
    yields = joined + (usable - lost) * more + (ZERO if taken else lost)
    return EdgeStrips(more, usable, lost, yields, width * more, None, tuple(taken))


def _strips(
    needed: Length, width: Length, usable: Length, wishes: BindingWishes, whole: Length, beside: tuple[Length, ...]
) -> EdgeStrips:
    lost = join_loss(wishes, width)
    if wishes.cut == "bias":
        strips = bias_strips(needed, width, wishes.seam_allowance, usable)
        square = bias_square(needed, width, wishes.seam_allowance, usable, whole)
        fabric = wishes.fabric
        if square and length_to_buy(fabric, square.cloth) <= length_to_buy(fabric, strips.cloth):
            return square
        return strips
    if wishes.cut == "lengthwise":
        count = max(1, min(MOST_LENGTHWISE, int(usable / width)))
        long = (needed + lost * (count - 1)) / count
        return EdgeStrips(count, long, lost, needed, long)
    return strips_beside(needed, width, usable, lost, beside)


def _beside_said(strips: EdgeStrips, needed: Length, width: Length) -> tuple[Said, ...]:
    groups = [*Counter(strips.beside).items(), *([(strips.length, strips.number)] if strips.number else [])]
    values: dict[str, Value] = {}
    for n, (long, count) in enumerate(groups):
        values |= {f"n{n}": count, f"long{n}": long}
    joins = len(strips.beside) + strips.number - 1
    text = " + ".join(f"{{n{n}}} x {{long{n}}}" for n in range(len(groups)))
    text += " - {joins} joins x {lost} = {yields}, enough for {needed}"
    joined = say(
        f"Strips, first from beside the backing: {text}",
        joins=joins, lost=strips.lost, yields=strips.yields, needed=needed, **values,
    )  # fmt: skip
    if not strips.number:
        return (joined,)
    return joined, say("Cut: {n} x {wide} = {cut}", n=strips.number, wide=width, cut=strips.cloth)


def _width_said(wishes: BindingWishes, width: Length) -> tuple[Said, ...]:
    if wishes.finished is None:
        return ()
    if wishes.fold == "single":
        text = "Strip width: 4 x {w} finished, and at least {least} = {width}"
    else:
        text = "Strip width: 2 x (3 x {w} finished + {loft} loft), and at least {least} = {width}"
    return (say(text, w=wishes.finished, loft=wishes.loft, least=wishes.least_strip, width=width),)


def _strips_said(
    strips: EdgeStrips, needed: Length, width: Length, usable: Length, wishes: BindingWishes
) -> tuple[Said, ...]:
    if strips.square:
        seams = wishes.seam_allowance * 2
        return (
            say(
                "Square: ({side} - {seams}) / ({wide} x {root}), down: {rounds} rounds",
                side=strips.square.side, seams=seams, wide=width, rounds=strips.square.rounds, root=ROOT_2,
            ),
            say(
                "Yields: {rounds} x ({side} - {seams}) x {root} = {yields}, enough for {needed}",
                rounds=strips.square.rounds, side=strips.square.side, seams=seams, yields=strips.yields,
                needed=needed, root=ROOT_2,
            ),
        )  # fmt: skip
    if strips.beside:
        return _beside_said(strips, needed, width)
    joined = say(
        "Strips: {n} x {long} - {joins} joins x {lost} = {yields}, enough for {needed}",
        n=strips.number, long=strips.length, joins=strips.number - 1, lost=strips.lost, yields=strips.yields,
        needed=needed,
    )  # fmt: skip
    if wishes.cut == "bias":
        text = "Cut: {usable} + {n} x {wide} x {root} on the bias = {cut}"
        return joined, say(text, usable=usable, n=Fraction(strips.number), wide=width, cut=strips.cloth, root=ROOT_2)
    if wishes.cut == "lengthwise":
        return joined, say("Cut: side by side along the cloth, {cut}", cut=strips.cloth)
    return joined, say("Cut: {n} x {wide} = {cut}", n=strips.number, wide=width, cut=strips.cloth)
