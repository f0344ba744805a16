"""What a price is worth to the studio: cost and margin of each line, what an hour earns, and what would pay.

A price must cover materials at replacement cost, a fair wage for the time, and the other costs of the business
(University of Missouri Extension MP598). Taxes are not the studio's, whether added or held in the price.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import printed
from finishcalc.model.prices import QuiltingRate, Rates, Shop
from finishcalc.model.project import Project
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line
from finishcalc.pricing.quilting import billed_area, rate_class
from finishcalc.pricing.quote import Quote, make_quote
from finishcalc.pricing.tax import included_rates
from finishcalc.wording.said import Price, Said, say, say_in_house


class LineWorth(NamedTuple):
    """A line with its cost, of material or of time, and what is left of it without tax; None for work of which nobody
    knows the time."""

    line: Line
    cost: Money | None
    margin: Money | None


class Earned(NamedTuple):
    """What is left of a price: `net` is the price without tax, `hours` those that someone stands by."""

    net: Money
    materials: Money
    other_costs: Money
    hours: Fraction

    @property
    def left(self) -> Money:
        """What is left after materials and other costs."""
        return self.net - self.materials - self.other_costs

    def an_hour(self, hours: Fraction) -> Money | None:
        """What an hour earns; None where there is none."""
        return self.net.currency.round(self.left.major / hours) if hours else None


class InStyle(NamedTuple):
    """The same top in another style, planned and priced."""

    name: str
    plans: Plans
    quote: Quote


class Other(NamedTuple):
    """The next size class or style: what the total would be, and what an attended hour would earn."""

    label: Said
    total: Money
    hourly: Money | None


class Worth(NamedTuple):
    """The studio's own view. The hours earned in hold those of work sold by the hour, which are `hours_apart`; `hourly`
    and `frame_hourly` are what an attended hour and one on the frame earn; `break_even` covers materials and other
    costs, `fair` the wage as well. `taxed` says that the prices of the lines hold a tax, which is no part of a
    margin."""

    lines: tuple[LineWorth, ...]
    earned: Earned
    taxed: bool
    hours_apart: Fraction
    frame_hours: Fraction
    hourly: Money | None
    frame_hourly: Money | None
    wage: Money
    break_even: Money
    fair: Money
    others: tuple[Other, ...]
    working: tuple[Said, ...]

    @property
    def known(self) -> tuple[Money, Money, Money]:
        """Amount, cost and margin of the lines of which the cost is known, in all."""
        known = [
            (each.line.amount, each.cost, each.margin)
            for each in self.lines
            if each.cost is not None and each.margin is not None
        ]
        amounts, costs, margins = zip(*known, strict=True) if known else ((), (), ())
        currency = self.earned.net.currency
        return total(amounts, currency), total(costs, currency), total(margins, currency)


def worth_of(project: Project, shop: Shop, plans: Plans, quote: Quote, styles: Iterable[InStyle] = ()) -> Worth:
    """What the quote is worth, and what the next size class or the next dearer of some styles would do."""
    currency, rates = project.currency, shop.rates
    earned = _earned(quote, rates, plans)
    break_even = earned.materials + earned.other_costs
    frame = printed(plans.hours.frame / 60, "hour")
    others = tuple(_others(project, shop, plans, quote.total, styles))
    worth = Worth(
        tuple(_line(line, shop, currency) for line in quote.lines), earned,
        any(tax.included for tax in quote.taxes), printed(_apart(quote) / 60, "hour"), frame,
        earned.an_hour(earned.hours), earned.an_hour(frame), currency.round(rates.wage.value), break_even,
        break_even + currency.round(rates.wage.value * earned.hours), others, (),
    )  # fmt: skip
    return worth._replace(working=tuple(_working(worth, rates)))


def _earned(quote: Quote, rates: Rates, plans: Plans) -> Earned:
    materials = total((line.cost for line in quote.lines if line.cost is not None), quote.currency)
    hours = _hours(plans, quote)
    return Earned(_net(quote), materials, quote.currency.round(rates.overhead.value * hours), hours)


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
        cost = currency.round((rates.wage.value + rates.overhead.value) * line.minutes / 60)
    held = included_rates(shop.taxes.value).get(line.line_class, Fraction(0))
    net = line.amount - currency.round(line.amount.major * held / (1 + held))
    return LineWorth(line, cost, None if cost is None else net - cost)


def _others(project: Project, shop: Shop, plans: Plans, now: Money, styles: Iterable[InStyle]) -> Iterator[Other]:
    """The next dearer style that it could be quilted in, and the next size class."""
    found = (_other(say("in {name}", name=each.name), each.quote, shop.rates, each.plans) for each in styles)
    yield from sorted((other for other in found if other.total > now), key=lambda other: other.total)[:1]
    used = {rate_class(area, plans) for area in plans.quilting.areas}
    own = used.pop() if len(used) == 1 else ""
    larger = _next_size(shop.rates.quilting[own], plans, shop.rates) if own else None
    if larger and larger.steps:
        rates = shop.rates.replace(quilting={**shop.rates.quilting, own: larger})
        quote = make_quote(project, shop._replace(rates=rates), plans)
        yield _other(say("at the size class {name}", name=larger.steps.value[0].name), quote, rates, plans)


def _next_size(rate: QuiltingRate, plans: Plans, rates: Rates) -> QuiltingRate | None:
    """The rate without the size classes up to the one that the top is in, or None where there is no larger one."""
    area = billed_area(plans, rates).to(rates.quilting_per)
    steps = rate.steps.value if rate.steps else ()
    larger = [step for step in steps if area <= step.up_to][1:]
    return rate.replace(steps=replace(rate.steps, value=tuple(larger))) if rate.steps and larger else None


def _other(label: Said, quote: Quote, rates: Rates, plans: Plans) -> Other:
    earned = _earned(quote, rates, plans)
    return Other(label, quote.total, earned.an_hour(earned.hours))


def _working(worth: Worth, rates: Rates) -> Iterator[Said]:
    earned = worth.earned
    yield say_in_house(
        "Other costs: {hours} h x {rate} an hour = {costs}, rounded",
        hours=earned.hours, rate=Price(rates.overhead.value), costs=earned.other_costs,
    )  # fmt: skip
    if worth.hourly is not None:
        yield say_in_house(
            "Earned an attended hour: ({net} - {materials} - {costs}) / {hours} h = {hourly}, rounded",
            net=earned.net, materials=earned.materials, costs=earned.other_costs, hours=earned.hours,
            hourly=worth.hourly,
        )  # fmt: skip
    yield say_in_house(
        "Break-even: {materials} + {costs} = {even}; with {hours} h x {wage} wage: {fair}, all before tax",
        materials=earned.materials, costs=earned.other_costs, even=worth.break_even, hours=earned.hours,
        wage=Price(rates.wage.value), fair=worth.fair,
    )  # fmt: skip
