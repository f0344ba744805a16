"""The binding: strips across the cloth, joined end to end, folded double."""

from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up
from finishcalc.measures.said import Said, say
from finishcalc.plans.cloth import buying, cost_of, length_to_buy, usable_said, usable_width
from finishcalc.plans.shape import Shape
from finishcalc.project import BindingWishes, Fabric


class BindingPlan(NamedTuple):
    """The binding. `needed_length` is the perimeter and the binding extra; `yields` is what the joined strips
    come to; `cut_length` is along the washed cloth; `amount` is bought for the binding alone."""

    needed_length: Length
    strips: int
    strip_width: Length
    strip_length: Length
    yields: Length
    join: str
    attach: str
    fabric: Fabric
    cut_length: Length
    amount: Length
    cost: Money
    working: tuple[Said, ...]


def plan_binding(shape: Shape, wishes: BindingWishes, currency: Currency) -> BindingPlan:
    """Plan strips cut across the cloth. The closing join is part of the binding extra."""
    needed = shape.perimeter + wishes.extra
    usable = usable_width(wishes.fabric)
    lost = join_loss(wishes)
    strips = strips_needed(needed, usable, lost)
    cut_length = wishes.strip_width * strips
    amount = length_to_buy(wishes.fabric, cut_length)
    yields = usable * strips - lost * (strips - 1)
    return BindingPlan(
        needed, strips, wishes.strip_width, usable, yields, wishes.join, wishes.attach, wishes.fabric,
        cut_length, amount, cost_of(wishes.fabric, amount, currency),
        (
            say("Needed: {edge} perimeter + {extra} extra = {needed}", edge=shape.perimeter, extra=wishes.extra,
                needed=needed),
            usable_said(wishes.fabric, usable),
            say("Strips: {n} x {u} - {joins} joins x {lost} = {yields}, enough for {needed}", n=strips, u=usable,
                joins=strips - 1, lost=lost, yields=yields, needed=needed),
            say("Cut: {n} x {wide} = {cut}", n=strips, wide=wishes.strip_width, cut=cut_length),
            buying(wishes.fabric, cut_length, amount),
        ),
    )  # fmt: skip


def join_loss(wishes: BindingWishes) -> Length:
    """What a join takes: the strip's width on the diagonal, two seam allowances straight (derived)."""
    return wishes.strip_width if wishes.join == "diagonal" else wishes.seam_allowance * 2


def strips_needed(needed: Length, usable: Length, lost: Length) -> int:
    """The fewest strips n with n x usable - (n - 1) x lost >= needed."""
    return max(1, up((needed - lost) / (usable - lost)))
