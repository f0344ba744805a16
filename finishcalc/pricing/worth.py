"""What a price is worth to the studio: cost and margin of each line, what an hour earns, and what would pay.

A price must cover materials at replacement cost, a fair wage for the time, and the other costs of the business
(University of Missouri Extension MP598). Taxes are not the studio's, whether added or held in the price.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import printed
from finishcalc.measures.said import Price, Said, say, say_in_house
from finishcalc.plans.finishing import Plans
from finishcalc.pricing.line import Line
from finishcalc.pricing.quilting import billed_area, rate_class
from finishcalc.pricing.quote import Quote, make_quote
from finishcalc.pricing.tax import included_rates
from finishcalc.project import Project
from finishcalc.shop import QuiltingRate, Rates, Shop


class LineWorth(NamedTuple):
    """A line with its cost, of material or of time, and what is left of it without tax; None for work of which nobody
    knows the time."""

    line: Line
    cost: Money | None
    margin: Money | None


class Other(NamedTuple):
    """The next size class or rate: what the total would be, and what an attended hour would earn."""

    label: Said
    total: Money
    hourly: Money | None


class Worth(NamedTuple):
    """The studio's own view. `hours` are attended, with those of work sold by the hour, which are `hours_apart`; `net`
    is the price without tax; an hour earns what is left after materials and other costs; `break_even` covers these,
    `fair` the wage as well."""

    lines: tuple[LineWorth, ...]
    net: Money
    materials: Money
    other_costs: Money
    hours: Fraction
    hours_apart: Fraction
    frame_hours: Fraction
    hourly: Money | None
    frame_hourly: Money | None
    wage: Money
    break_even: Money
    fair: Money
    others: tuple[Other, ...]
    working: tuple[Said, ...]


def worth_of(project: Project, shop: Shop, plans: Plans, quote: Quote) -> Worth:
    """What the quote is worth, and what the next size class or the next dearer rate would do."""
    currency, rates = project.currency, shop.rates
    net = _net(quote)
    materials = total((line.cost for line in quote.lines if line.cost is not None), currency)
    hours = _hours(plans, quote)
    other_costs = currency.round(rates.overhead * hours)
    earned = net - materials - other_costs
    break_even = materials + other_costs
    fair = break_even + currency.round(rates.wage * hours)
    frame = printed(plans.hours.frame / 60, "hour")
    worth = Worth(
        tuple(_line(line, shop, currency) for line in quote.lines), net, materials, other_costs, hours,
        printed(_apart(quote) / 60, "hour"), frame,
        _an_hour(earned, hours), _an_hour(earned, frame), currency.round(rates.wage), break_even, fair,
        tuple(_others(project, shop, plans)), (),
    )  # fmt: skip
    return worth._replace(working=tuple(_working(worth, rates)))


def _net(quote: Quote) -> Money:
    held = total((tax.amount for tax in quote.taxes if tax.included), quote.currency)
    return quote.subtotal - held + quote.cash_rounding


def _hours(plans: Plans, quote: Quote) -> Fraction:
    """The planned hours that someone stands by, and those of extras that are sold by the hour, as they are printed."""
    return printed((plans.hours.attended + _apart(quote)) / 60, "hour")


def _apart(quote: Quote) -> Fraction:
    """The minutes of work that the plans do not count."""
    return sum((line.minutes or Fraction(0) for line in quote.lines if line.apart), Fraction(0))


def _line(line: Line, shop: Shop, currency: Currency) -> LineWorth:
    """A material at what it cost, work at the wage and the other costs of its hours; rush and discount cost nothing. A
    tax that the price holds is no part of the margin."""
    rates, cost = shop.rates, line.cost
    if line.kind != "item":
        cost = currency.zero
    elif cost is None and line.minutes is not None:
        cost = currency.round((rates.wage + rates.overhead) * line.minutes / 60)
    held = included_rates(shop.taxes).get(line.line_class, Fraction(0))
    net = line.amount - currency.round(line.amount.major * held / (1 + held))
    return LineWorth(line, cost, None if cost is None else net - cost)


def _an_hour(earned: Money, hours: Fraction) -> Money | None:
    return earned.currency.round(earned.major / hours) if hours else None


def _others(project: Project, shop: Shop, plans: Plans) -> Iterator[Other]:
    """The next dearer rate that the quilting could be charged at, and the next size class."""
    used = {rate_class(part, plans) for part in plans.quilting.parts}
    if len(used) != 1:
        return
    (own,) = used
    rates = shop.rates.quilting
    if not rates[own].price and not rates[own].steps:
        return
    now = make_quote(project, shop, plans).total
    others = [
        _other(say("at the rate for {name}", name=name), rate, own, project, shop, plans)
        for name, rate in rates.items()
        if name != own and name in shop.style_classes and _suits(rate, plans)
    ]
    yield from sorted((other for other in others if other.total > now), key=lambda other: other.total)[:1]
    if larger := _next_size(rates[own], plans, shop.rates):
        yield _other(say("at the size class {name}", name=larger.steps[0].name), larger, own, project, shop, plans)


def _suits(rate: QuiltingRate, plans: Plans) -> bool:
    """Whether the work could be charged so: what is for a whole top goes with no areas, and ties are counted where
    there are some."""
    parts = plans.quilting.parts
    return all(part.ties for part in parts) if rate.per == "tie" else len(parts) == 1 or not rate.for_whole_top


def _next_size(rate: QuiltingRate, plans: Plans, rates: Rates) -> QuiltingRate | None:
    """The rate without the size classes up to the one that the top is in, or None where there is no larger one."""
    area = billed_area(plans, rates).to(rates.quilting_per)
    larger = [step for step in rate.steps if area <= step.up_to][1:]
    return rate._replace(steps=tuple(larger)) if larger else None


def _other(label: Said, rate: QuiltingRate, own: str, project: Project, shop: Shop, plans: Plans) -> Other:
    rates = shop.rates._replace(quilting={**shop.rates.quilting, own: rate})
    quote = make_quote(project, shop._replace(rates=rates), plans)
    materials = total((line.cost for line in quote.lines if line.cost is not None), quote.currency)
    hours = _hours(plans, quote)
    earned = _net(quote) - materials - quote.currency.round(rates.overhead * hours)
    return Other(label, quote.total, _an_hour(earned, hours))


def _working(worth: Worth, rates: Rates) -> Iterator[Said]:
    hours = worth.hours
    yield say_in_house(
        "Other costs: {hours} h x {rate} an hour = {costs}, rounded",
        hours=hours, rate=Price(rates.overhead), costs=worth.other_costs,
    )  # fmt: skip
    if worth.hourly is not None:
        yield say_in_house(
            "Earned an attended hour: ({net} - {materials} - {costs}) / {hours} h = {hourly}, rounded",
            net=worth.net, materials=worth.materials, costs=worth.other_costs, hours=hours, hourly=worth.hourly,
        )  # fmt: skip
    yield say_in_house(
        "Break-even: {materials} + {costs} = {even}; with {hours} h x {wage} wage: {fair}, all before tax",
        materials=worth.materials, costs=worth.other_costs, even=worth.break_even, hours=hours,
        wage=Price(rates.wage), fair=worth.fair,
    )  # fmt: skip
