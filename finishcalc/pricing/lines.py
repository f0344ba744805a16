"""The lines of a quote. A line is rounded when it is made; all later figures add what is printed."""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.materials import Method
from finishcalc.measures.length import Area
from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import printed
from finishcalc.measures.said import Said, Share, say
from finishcalc.plans.batting import BattingOption, BattingPlan
from finishcalc.plans.cloth import Purchase, capital, uses_words
from finishcalc.plans.finishing import Plans
from finishcalc.plans.stitching import Part
from finishcalc.project import ExtraWish, Project
from finishcalc.shop import Rates, Shop

LineClass = Literal["labour", "material"]


class Line(NamedTuple):
    """One line of a quote: quantity (at its printed step) x rate = amount, half up to the minor unit.

    `figures` are the key paths of the rates it used; `cost` is what the materials cost the shop, for the studio.
    A rush or discount line has the sum of its class as quantity, and a share as rate.
    """

    label: Said
    line_class: str
    quantity: Fraction
    unit: str
    rate: Fraction
    amount: Money
    figures: tuple[str, ...] = ()
    cost: Money | None = None
    kind: Literal["item", "rush", "discount"] = "item"


def priced(
    label: Said,
    line_class: str,
    quantity: Fraction,
    unit: str,
    rate: Fraction,
    currency: Currency,
    figures: tuple[str, ...],
    cost: Money | None = None,
) -> Line:
    """A line of work or material: the quantity goes to its printed step first, so that paper gives the same."""
    shown = printed(quantity, unit)
    return Line(label, line_class, shown, unit, rate, currency.round(shown * rate), figures, cost)  # fmt: skip


def item_lines(project: Project, shop: Shop, plans: Plans) -> list[Line]:
    """Work and material, in the order they are spoken of at a counter."""
    currency = project.currency
    lines = [*quilting_lines(plans, shop.rates, currency), *_materials(project, shop.rates, plans)]
    if plans.backing and plans.backing.seams:
        seams = plans.backing.seams
        lines.append(
            priced(
                say("Strip sewn to the backing" if plans.backing.strip else "Backing seams sewn"),
                "labour",
                Fraction(seams),
                "each",
                shop.rates.seam,
                currency,
                ("rates.seam",),
            )
        )
    return lines + _binding_work(plans, shop.rates, currency) + _extras(project.charges.extras, shop)


def quilting_lines(plans: Plans, rates: Rates, currency: Currency) -> list[Line]:
    """By the billed area, each style at its rate class, or all at the method's; where they come to less than the
    minimum, the minimum itself."""
    area = _billed_area(plans, rates).to(rates.quilting_per)
    lines = [_quilted(part, area, plans.quilting.method, rates, currency) for part in plans.quilting.parts]
    if total((line.amount for line in lines), currency) < rates.minimum:
        name = plans.quilting.style.name if len(lines) == 1 else "all styles"
        figures = ("rates.minimum", *(path for line in lines for path in line.figures))
        label = say("Quilting, {style}, minimum charge", style=name)
        return [priced(label, "labour", Fraction(1), "each", rates.minimum.major, currency, figures)]
    return lines


def _quilted(part: Part, area: Fraction, method: Method, rates: Rates, currency: Currency) -> Line:
    rate_class = method.rate_class or part.style.rate_class
    label = say("Quilting, {style}", style=part.style.name)
    if part.share != 1:
        label = say("Quilting, {style}, {share} of the top", style=part.style.name, share=Share(part.share))
    return priced(
        label, "labour", area * part.share, rates.quilting_per, rates.quilting[rate_class], currency,
        (f"rates.quilting.{rate_class}",),
    )  # fmt: skip


def _billed_area(plans: Plans, rates: Rates) -> Area:
    """The billed rectangle's; for a shaped top its own, where the shop says so."""
    by_area = rates.shaped == "area" and plans.top.shape.curved
    return plans.top.shape.area if by_area else plans.top.billed.area


def _materials(project: Project, rates: Rates, plans: Plans) -> list[Line]:
    """What the shop supplies: each cloth as one length, and the batting."""
    lines = [_cloth(purchase, rates) for purchase in plans.cloth if purchase.supplied_by == "shop"]
    if plans.batting and plans.batting.chosen and project.batting and project.batting.supplied_by == "shop":
        lines.append(_batting(plans.batting, plans.batting.chosen, rates))
    return lines


def _cloth(purchase: Purchase, rates: Rates) -> Line:
    fabric = purchase.fabric
    label = say("{fabric}, for " + uses_words(purchase.uses), fabric=capital(fabric.name))
    quantity = purchase.amount.to(fabric.per)
    return _sold(label, quantity, fabric.per, fabric.price, rates, purchase.cost, purchase.priced_at)


def _batting(plan: BattingPlan, chosen: BattingOption, rates: Rates) -> Line:
    if chosen.form == "packaged":
        label = say("Batting, {name}, {size}", name=plan.product.name, size=chosen.size)
        figures = ("batting.product.packages",)
        return _sold(label, Fraction(1), "each", chosen.price, rates, chosen.cost, figures)
    label = say("Batting, {name}, {wide} wide", name=plan.product.name, wide=chosen.width)
    quantity, figures = chosen.length.to(chosen.unit), ("batting.product.rolls",)
    return _sold(label, quantity, chosen.unit, chosen.price, rates, chosen.cost, figures)


def _sold(
    label: Said,
    quantity: Fraction,
    unit: str,
    price: Fraction,
    rates: Rates,
    cost: Money,
    figures: tuple[str, ...],
) -> Line:
    """A material at its selling price: what it costs and the markup, exact, for only the line itself is rounded."""
    selling = price * (1 + rates.markup)
    return priced(label, "material", quantity, unit, selling, cost.currency, (*figures, "rates.markup"), cost)


def _binding_work(plans: Plans, rates: Rates, currency: Currency) -> list[Line]:
    """Making and attaching are billed by the perimeter, not by the strips (common practice)."""
    edge = plans.top.shape.perimeter.to(rates.binding_per)
    per = rates.binding_per
    if plans.hem:
        return [priced(say("Edge hemmed"), "labour", edge, per, rates.binding["hem"], currency, ("rates.binding.hem",))]
    if plans.binding is None:
        return []
    if plans.binding.attach == "faced":
        figures = ("rates.binding.faced",)
        return [priced(say("Edge faced"), "labour", edge, per, rates.binding["faced"], currency, figures)]
    attach = {
        "front": "Binding sewn to the front",
        "machine": "Binding sewn on by machine",
        "hand": "Binding sewn on, the back by hand",
    }[plans.binding.attach]
    return [
        priced(
            say(label),
            "labour",
            edge,
            rates.binding_per,
            rates.binding[name],
            currency,
            (f"rates.binding.{name}",),
        )
        for label, name in (("Binding made", "make"), (attach, plans.binding.attach))
    ]


def _extras(wishes: tuple[ExtraWish, ...], shop: Shop) -> list[Line]:
    lines = []
    for wish in wishes:
        extra = shop.extras[wish.name]
        lines.append(
            priced(
                say("{label}", label=extra.label), extra.line_class, wish.quantity, extra.per, extra.price,
                shop.money.currency, (f"extras.{wish.name}.price",),
            )
        )  # fmt: skip
    return lines
