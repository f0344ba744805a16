"""The backing: how big, from which pieces, with which seams, and which way costs least."""

from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.measures.said import InUnit, Said
from finishcalc.plans.backing_working import working_of
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.options import BackingOption, cheapest, front
from finishcalc.plans.shape import Shape
from finishcalc.project import BackingWishes, Fabric, Sewing


class BackingPlan(NamedTuple):
    """The backing. `options` are those of `front`, cheapest first; `chosen` is one of them."""

    width: Length
    length: Length
    fabric: Fabric
    chosen: BackingOption
    options: tuple[BackingOption, ...]
    working: tuple[Said, ...]
    cautions: tuple[Caution, ...]


def plan_backing(shape: Shape, wishes: BackingWishes, sewing: Sewing, currency: Currency) -> BackingPlan:
    """Plan a backing that covers the shape with its overage on every side.

    Chosen is the least total cost (cloth and seams) among those with at most `most_seams`; turned pieces only
    where they save `worth_turning` of cloth against the best without. Where even the fewest seams are too many,
    the fewest, with a caution.
    """
    width, length = shape.width + wishes.overage * 2, shape.length + wishes.overage * 2
    options = front(width, length, wishes, sewing, currency)
    chosen = choose(options, sewing)
    return BackingPlan(
        width, length, wishes.fabric, chosen, options,
        working_of(shape, wishes, chosen, sewing),
        tuple(_cautions(chosen, wishes, sewing)),
    )  # fmt: skip


def choose(options: tuple[BackingOption, ...], sewing: Sewing) -> BackingOption:
    """The option to make: see `plan_backing`."""
    allowed = [option for option in options if option.layout.seams <= sewing.most_seams]
    whole = [option for option in allowed if not option.layout.turned]
    if not whole:
        return min(options, key=lambda option: (option.layout.seams, option.layout.turned, option.total_cost.minor))
    best = min([option for option in whole if option.clear] or whole, key=cheapest)
    worth = [
        option
        for option in allowed
        if option.layout.turned and option.clear and best.amount - option.amount >= sewing.worth_turning
    ]
    return min([best, *worth], key=cheapest)


def _cautions(chosen: BackingOption, wishes: BackingWishes, sewing: Sewing) -> list[Caution]:
    found = []
    if wishes.overage < sewing.least_overage:
        found.append(
            caution(
                "small-overage",
                "{overage} on each side is less than the {least} that the frame needs.",
                overage=wishes.overage, least=sewing.least_overage,
            )
        )  # fmt: skip
    if wishes.fabric.nap or wishes.fabric.directional:
        what = "nap strokes" if wishes.fabric.nap else "print runs"
        found.append(caution("one-way", f"The {what} one way: lay every piece of the backing with it down the quilt."))
    if wishes.fabric.nap:
        found.append(caution("no-iron", "Plush: keep the iron off the pile, and follow the maker's label."))
    if len(chosen.lengths) > 1:
        found.append(
            caution(
                "second-length",
                "The cloth comes in bolts of {bolt}: the backing takes {count} lengths, so ask for the same dye lot.",
                bolt=InUnit(wishes.fabric.bolt, wishes.fabric.per), count=len(chosen.lengths),
            )
        )  # fmt: skip
    if chosen.layout.seams > sewing.most_seams:
        found.append(
            caution(
                "many-seams",
                "The backing takes {seams} seams, more than the {most} the shop likes to sew: think of a wider cloth.",
                seams=chosen.layout.seams, most=sewing.most_seams,
            )
        )  # fmt: skip
    if not chosen.clear:
        found.append(
            caution(
                "seam-near-edge",
                "A backing seam lies within {clear} of the trimmed edge, where clamps and binding want none.",
                clear=sewing.clear_edge,
            )
        )
    return found
