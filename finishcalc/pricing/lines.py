"""The lines of a quote: quilting, materials, seams, the edge, handling of what the customer supplies, extras."""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import Any

from finishcalc.measures.money import Currency, Money
from finishcalc.model.materials import Charge
from finishcalc.model.prices import Rates, Shop
from finishcalc.model.project import Project
from finishcalc.model.section import Figure
from finishcalc.model.shop import EdgeWork
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.pricing.ordered import extra_line, one_off_line
from finishcalc.pricing.piecing import piecing_lines
from finishcalc.pricing.postage import postage_lines
from finishcalc.pricing.quilting import quilting_lines
from finishcalc.pricing.seams import SewnSeams, seam_lines
from finishcalc.pricing.thread import thread_lines
from finishcalc.wording.sentence import Sentence, say
from finishcalc.wording.words import capital

LinesByPart = tuple[tuple[Line, ...], ...]
"""The lines of each of PRICED_PARTS."""


def lines_by_part(project: Project, shop: Shop, plans: Plans, before: LinesByPart = ()) -> LinesByPart:
    """Price work and material, in the order they are spoken of at a counter. Work that the shop does not charge for
    has no line; an extra that was ordered has one even so.

    Lines `before` are those of plans that differ in cloth and seams alone: nothing else is priced anew.
    """
    return tuple(
        before[number] if before and price_part not in CLOTH_AND_SEAMS else _lines(price_part(project, shop, plans))
        for number, price_part in enumerate(PRICED_PARTS)
    )


def _lines(priced_lines: Iterable[Line]) -> tuple[Line, ...]:
    return tuple(line for line in priced_lines if line.rate or line.cost is not None or line.ordered)


def _quilting(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    yield from quilting_lines(plans, shop.rates, project.currency)


def _thread(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    yield from thread_lines(plans, shop.rates, project.currency)


def _piecing(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    yield from piecing_lines(project, shop, plans)


def _materials(_project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    """Price the materials that the shop supplies: each cloth as one length, and the batting."""
    for purchase in plans.cloth:
        if purchase.supplied_by == "shop" and not purchase.is_all_on_hand:
            yield _cloth(purchase, shop.rates)
    if plans.batting and (batting := plans.batting.supply("shop")):
        yield _batting(plans.batting, batting, shop.rates)


def _seams(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    backing = plans.backing
    if backing and backing.seams:
        strips = "Seams of the backing strips" if len(backing.strips) > 1 else "Seams of the backing strip"
        sewn = SewnSeams(backing.seams, backing.seam_length, backing.seam_minutes)
        label = strips if backing.strips else "Backing seams sewn"
        yield from seam_lines(label, sewn, shop.rates.seam, project.currency)
    batting = plans.batting
    if batting and batting.joined:
        sewn = SewnSeams(batting.seams, batting.joined.seam_length, batting.seam_minutes)
        yield from seam_lines("Batting joined", sewn, shop.rates.batting_seam, project.currency)


def _cloth(purchase: Purchase, rates: Rates) -> Line:
    fabric = purchase.fabric
    label = say("{fabric}, for " + uses_words(purchase.uses), fabric=capital(fabric.name))
    quantity = purchase.amount.to(fabric.per)
    selling = [fabric.selling for fabric in purchase.fabrics if fabric.selling]
    if fabric.selling:
        return _at_own_price(label, quantity, fabric.per, fabric.selling.value, purchase.cost, selling)
    prices = [fabric.price for fabric in purchase.fabrics]
    return _at_markup(label, quantity, fabric.per, fabric.price.value, purchase.cost, prices, rates)


def _batting(plan: BattingPlan, chosen: BattingOption, rates: Rates) -> Line:
    what = "{size}" if chosen.form == "packaged" else CHARGED[chosen.charge]
    label = say("Batting, {name}, " + what, name=plan.product.name, size=chosen.size, wide=chosen.width)
    used, quantity = [chosen.priced_by], chosen.quantity
    if chosen.selling is None:
        line = _at_markup(label, quantity, chosen.unit, chosen.price, chosen.cost, used, rates)
    else:
        line = _at_own_price(label, quantity, chosen.unit, chosen.selling, chosen.cost, used)
    return line._replace(about="batting")


CHARGED: dict[Charge, str] = {
    "whole-width": "{wide} wide",
    "half-width": "half the width of {wide}",
    "area": "by the area",
}
"""The end of the label of a batting off a roll, by the share of it that is charged."""


def _at_own_price(
    label: Sentence, quantity: Fraction, unit: str, price: Fraction, cost: Money, prices: list[Figure[Any]]
) -> Line:
    """Price a material at the shop's selling price."""
    return priced(label, "material", quantity, unit, price, cost.currency, tuple(prices), cost)


def _at_markup(
    label: Sentence,
    quantity: Fraction,
    unit: str,
    cost_price: Fraction,
    cost: Money,
    prices: list[Figure[Any]],
    rates: Rates,
) -> Line:
    """Price a material at its cost and the markup, exactly: only the amount of the line is rounded."""
    markup = rates.markup.value
    rate, used = cost_price * (1 + markup), (*prices, rates.markup)
    return priced(label, "material", quantity, unit, rate, cost.currency, used, cost)._replace(markup=markup)


SEWN_ON: dict[str, tuple[str, EdgeWork]] = {
    "front": ("Binding sewn to the front", "front"),
    "machine": ("Binding sewn on by machine", "machine"),
    "hand": ("Binding sewn on, the back by hand", "hand"),
}
"""The label of a binding sewn on, and the work its rate is for, by the way it is attached."""


def _edge(project: Project, shop: Shop, plans: Plans) -> list[Line]:
    """Bill making and attaching by the perimeter, not by the strips (common practice)."""
    rates, currency = shop.rates, project.currency
    if plans.hem:
        return [_edge_line("Edge hemmed", "hem", ("hem",), plans, rates, currency)]
    if plans.binding is None:
        return []
    if plans.binding.attach == "faced":
        return [_edge_line("Edge faced", "faced", ("faced",), plans, rates, currency)]
    label, work = SEWN_ON[plans.binding.attach]
    attaching = tuple(name for name in plans.edge_times if name != "make")
    made = _edge_line("Binding made", "make", ("make",), plans, rates, currency)
    return [made._replace(about="binding made"), _edge_line(label, work, attaching, plans, rates, currency)]


def _edge_line(
    label: str, work: EdgeWork, stages: tuple[EdgeWork, ...], plans: Plans, rates: Rates, currency: Currency
) -> Line:
    """Price one kind of work along the edge, with the minutes of its stages."""
    edge = plans.top.shape.perimeter.to(rates.binding_per)
    minutes = sum((stage.attended for stage in plans.edge if stage.work in stages), Fraction(0))
    rate, unit = rates.binding.of_work(work), rates.binding_per
    line = priced(say(label), "labour", edge, unit, rate.value, currency, (rate,), minutes=minutes)
    return line._replace(about="edge finished")


def _handling(project: Project, shop: Shop, _plans: Plans) -> Iterator[Line]:
    """Charge for pressing, squaring and keeping apart each thing that the customer supplies, at a rate of its own."""
    top, handling = project.top.pieced, shop.rates.handling
    supplied_parts = (
        ("cloth for the top", top and top.supplied_by, handling.top),
        ("backing", project.backing and project.backing.supplied_by, handling.backing),
        ("batting", project.batting and project.batting.supplied_by, handling.batting),
        ("binding", project.binding and project.binding.supplied_by, handling.binding),
    )
    for part, supplier, rate in supplied_parts:
        if supplier == "customer":
            label = say(f"Preparing your {part}")
            yield priced(label, "labour", Fraction(1), "each", rate.value, project.currency, (rate,))


def _ordered(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    charges = project.charges
    yield from (extra_line(ordered, shop, plans) for ordered in charges.extras)
    yield from (one_off_line(one_off, charges.lines, shop, plans) for one_off in charges.lines.value)


PRICED_PARTS: tuple[Callable[[Project, Shop, Plans], Iterable[Line]], ...] = (
    _piecing,
    _quilting,
    _thread,
    _materials,
    _seams,
    _edge,
    _handling,
    _ordered,
    postage_lines,
)
"""The functions that price each part of the work, in the order of a quote."""
CLOTH_AND_SEAMS = (_materials, _seams)
