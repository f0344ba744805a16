"""The lines of a quote: quilting, materials, seams, the edge, what the customer brings, extras."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.measures.money import Currency, Money
from finishcalc.model.project import ExtraWish, OneOff, Project
from finishcalc.model.shop import Rates, Shop
from finishcalc.plans.batting import BattingOption, BattingPlan
from finishcalc.plans.cloth import Purchase, capital, uses_words
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.pricing.quilting import quilting_lines
from finishcalc.wording.said import Said, say


def item_lines(project: Project, shop: Shop, plans: Plans) -> list[Line]:
    """Work and material, in the order they are spoken of at a counter. Work that the shop takes nothing for has no
    line; what was ordered has one even so."""
    currency = project.currency
    lines = [*quilting_lines(plans, shop.rates, currency), *_materials(shop.rates, plans)]
    if plans.backing and plans.backing.seams:
        seams = plans.backing.seams
        lines.append(
            priced(
                say("Seams of the strip at the backing" if plans.backing.strip else "Backing seams sewn"),
                "labour",
                Fraction(seams),
                "each",
                shop.rates.seam,
                currency,
                ("rates.seam",),
                minutes=plans.backing.seam_minutes,
            )
        )
    lines += _binding_work(plans, shop.rates, currency)
    lines += _handled(project, shop.rates, currency)
    charged = [line for line in lines if line.rate or line.cost is not None]
    one_offs = [_one_off(each, currency) for each in project.charges.lines]
    return charged + _extras(project.charges.extras, shop) + one_offs


def _materials(rates: Rates, plans: Plans) -> list[Line]:
    """What the shop supplies: each cloth as one length, and the batting."""
    lines = [_cloth(purchase, rates) for purchase in plans.cloth if purchase.supplied_by == "shop"]
    if plans.batting and (batting := plans.batting.supply("shop")):
        lines.append(_batting(plans.batting, batting, rates))
    return lines


def _cloth(purchase: Purchase, rates: Rates) -> Line:
    fabric = purchase.fabric
    label = say("{fabric}, for " + uses_words(purchase.uses), fabric=capital(fabric.name))
    quantity = purchase.amount.to(fabric.per)
    price = (fabric.price, fabric.selling)
    return _sold(label, quantity, fabric.per, price, rates, purchase.cost, purchase.priced_at)


def _batting(plan: BattingPlan, chosen: BattingOption, rates: Rates) -> Line:
    if chosen.form == "packaged":
        label = say("Batting, {name}, {size}", name=plan.product.name, size=chosen.size)
        figures = ("batting.product.packages",)
        return _sold(label, Fraction(1), "each", (chosen.price, chosen.selling), rates, chosen.cost, figures)
    label = say("Batting, {name}, {wide} wide", name=plan.product.name, wide=chosen.width)
    quantity, figures = chosen.length.to(chosen.unit), ("batting.product.rolls",)
    return _sold(label, quantity, chosen.unit, (chosen.price, chosen.selling), rates, chosen.cost, figures)


def _sold(
    label: Said,
    quantity: Fraction,
    unit: str,
    price: tuple[Fraction, Fraction | None],
    rates: Rates,
    cost: Money,
    figures: tuple[str, ...],
) -> Line:
    """A material at its selling price, or at what it costs and the markup, exact: only the line itself is rounded."""
    bought, selling = price
    if selling is not None:
        own = tuple(path.replace(".price", ".selling") for path in figures)
        return priced(label, "material", quantity, unit, selling, cost.currency, own, cost)
    rate = bought * (1 + rates.markup)
    return priced(label, "material", quantity, unit, rate, cost.currency, (*figures, "rates.markup"), cost)


def _binding_work(plans: Plans, rates: Rates, currency: Currency) -> list[Line]:
    """Making and attaching are billed by the perimeter, not by the strips (common practice)."""
    if plans.hem:
        return [_edge_line("Edge hemmed", "hem", ("hem",), plans, rates, currency)]
    if plans.binding is None:
        return []
    if plans.binding.attach == "faced":
        return [_edge_line("Edge faced", "faced", ("faced",), plans, rates, currency)]
    attach = {
        "front": "Binding sewn to the front",
        "machine": "Binding sewn on by machine",
        "hand": "Binding sewn on, the back by hand",
    }[plans.binding.attach]
    sewn = tuple(name for name in plans.edge_times if name != "make")
    return [
        _edge_line("Binding made", "make", ("make",), plans, rates, currency),
        _edge_line(attach, plans.binding.attach, sewn, plans, rates, currency),
    ]


def _edge_line(label: str, name: str, stages: tuple[str, ...], plans: Plans, rates: Rates, currency: Currency) -> Line:
    """A kind of work along the edge, with the minutes of the stages that it is."""
    edge = plans.top.shape.perimeter.to(rates.binding_per)
    minutes = sum((stage.attended for stage in plans.hours.stages if stage.work in stages), Fraction(0))
    return priced(
        say(label), "labour", edge, rates.binding_per, rates.binding[name], currency, (f"rates.binding.{name}",),
        minutes=minutes,
    )  # fmt: skip


def _handled(project: Project, rates: Rates, currency: Currency) -> Iterator[Line]:
    """What the customer brings is pressed, squared and kept apart, at a rate of its own."""
    parts = {
        "top": project.top.pieced, "backing": project.backing, "batting": project.batting, "binding": project.binding,
    }  # fmt: skip
    for name, wishes in parts.items():
        if wishes and wishes.supplied_by == "customer":
            what = "cloth for the top" if name == "top" else name
            label, figures = say(f"Your {what}, handled"), (f"rates.handling.{name}",)
            yield priced(label, "labour", Fraction(1), "each", rates.handling[name], currency, figures)


def _one_off(wish: OneOff, currency: Currency) -> Line:
    label = say("{label}", label=wish.label)
    return priced(
        label, wish.line_class, wish.quantity, wish.per, wish.price, currency, ("charges.lines",),
        minutes=_hourly(wish.per, wish.quantity),
    )._replace(apart=True)  # fmt: skip


def _hourly(per: str, quantity: Fraction) -> Fraction | None:
    """The minutes of work that is sold by the hour; of all other extras nobody knows them."""
    return quantity * 60 if per == "hour" else None


def _extras(wishes: tuple[ExtraWish, ...], shop: Shop) -> list[Line]:
    lines = []
    for wish in wishes:
        extra = shop.extras[wish.name]
        lines.append(
            priced(
                say("{label}", label=extra.label), extra.line_class, wish.quantity, extra.per, extra.price,
                shop.money.currency, (f"extras.{wish.name}.price",), minutes=_hourly(extra.per, wish.quantity),
            )._replace(apart=True)
        )  # fmt: skip
    return lines
