"""The profit of a quote: cost and margin of each line, earnings an hour, and the price that would meet the wage.

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
from finishcalc.pricing.tax import included_shares, included_tax
from finishcalc.wording.sentence import Price, Sentence, say, say_in_house


class LineProfit(NamedTuple):
    """A line with its cost, of material or of time, and its margin without tax; None for work whose time nobody
    knows."""

    line: Line
    cost: Money | None
    margin: Money | None


class Earnings(NamedTuple):
    """The earnings of a quote: `net` is its price without tax, `hours` are the attended ones."""

    net: Money
    materials: Money
    other_costs: Money
    hours: Fraction

    @property
    def left(self) -> Money:
        """The rest after materials and other costs."""
        return self.net - self.materials - self.other_costs

    def an_hour(self, hours: Fraction) -> Money | None:
        """Divide the rest by some hours; None where there are none."""
        return self.net.currency.round(self.left.major / hours) if hours else None


class QuoteInStyle(NamedTuple):
    """The same top in another style, planned and priced."""

    name: str
    plans: Plans
    quote: Quote


class OtherPrice(NamedTuple):
    """The total at the next size class or in another style, and the earnings of an attended hour then."""

    label: Sentence
    total: Money
    hourly: Money | None


class Profitability(NamedTuple):
    """The profit of a quote. The hours of `earned` include `hours_sold`, those of work sold by the hour;
    `hourly` and `frame_hourly` are the earnings of an attended hour and of one on the frame; `break_even` covers
    materials and other costs, `price_at_wage` the wage as well. `taxed` marks prices that include a tax, which is no
    part of a margin."""

    lines: tuple[LineProfit, ...]
    earned: Earnings
    taxed: bool
    hours_sold: Fraction
    frame_hours: Fraction
    hourly: Money | None
    frame_hourly: Money | None
    wage: Money
    break_even: Money
    price_at_wage: Money
    others: tuple[OtherPrice, ...]
    working: tuple[Sentence, ...]

    @property
    def known_totals(self) -> tuple[Money, Money, Money]:
        """The totals of amount, cost and margin over the lines whose cost is known."""
        known = [
            (entry.line.amount, entry.cost, entry.margin)
            for entry in self.lines
            if entry.cost is not None and entry.margin is not None
        ]
        amounts, costs, margins = zip(*known, strict=True) if known else ((), (), ())
        currency = self.earned.net.currency
        return total(amounts, currency), total(costs, currency), total(margins, currency)


def profitability_of(
    project: Project, shop: Shop, plans: Plans, quote: Quote, styles: Iterable[QuoteInStyle] = ()
) -> Profitability:
    """Work out the profit of a quote, and its total at the next size class and in the next dearer of some styles."""
    currency, rates = project.currency, shop.rates
    earned = _earnings(quote, rates, plans)
    break_even = earned.materials + earned.other_costs
    frame_hours = printed(plans.hours.frame / 60, "hour")
    profit = Profitability(
        lines=tuple(_line_profit(line, shop, currency) for line in quote.lines),
        earned=earned,
        taxed=any(tax.included for tax in quote.taxes),
        hours_sold=printed(_unplanned_minutes(quote) / 60, "hour"),
        frame_hours=frame_hours,
        hourly=earned.an_hour(earned.hours),
        frame_hourly=earned.an_hour(frame_hours),
        wage=currency.round(rates.wage.value),
        break_even=break_even,
        price_at_wage=break_even + currency.round(rates.wage.value * earned.hours),
        others=tuple(_other_prices(project, shop, plans, quote.total, styles)),
        working=(),
    )
    return profit._replace(working=tuple(_working(profit, rates)))


def _earnings(quote: Quote, rates: Rates, plans: Plans) -> Earnings:
    """Set the price without tax against its costs; the hours are rounded as they are printed."""
    included = total((tax.amount for tax in quote.taxes if tax.included), quote.currency)
    hours = printed((plans.hours.attended + _unplanned_minutes(quote)) / 60, "hour")
    return Earnings(
        net=quote.subtotal - included + quote.cash_rounding,
        materials=total((line.cost for line in quote.lines if line.cost is not None), quote.currency),
        other_costs=quote.currency.round(rates.overhead.value * hours),
        hours=hours,
    )


def _unplanned_minutes(quote: Quote) -> Fraction:
    return sum((line.minutes or Fraction(0) for line in quote.lines if line.stage), Fraction(0))


def _line_profit(line: Line, shop: Shop, currency: Currency) -> LineProfit:
    """Cost a material at its price to the shop, and work at the wage and the other costs of its hours; rush and
    discount cost nothing. A tax that the price includes is no part of the margin."""
    rates, cost = shop.rates, line.cost
    if line.kind != "item":
        cost = currency.zero
    elif line.minutes is not None:
        of_time = currency.round((rates.wage.value + rates.overhead.value) * line.minutes / 60)
        cost = of_time if cost is None else cost + of_time
    share = included_shares(shop.taxes.value).get(line.line_class, Fraction(0))
    net = line.amount - currency.round(included_tax(line.amount.major, share, share))
    return LineProfit(line, cost, None if cost is None else net - cost)


def _other_prices(
    project: Project, shop: Shop, plans: Plans, current: Money, styles: Iterable[QuoteInStyle]
) -> Iterator[OtherPrice]:
    """Price the next dearer style that it could be quilted in, and the next size class."""
    in_styles = (
        _other_price(say("in {name}", name=style.name), style.quote, shop.rates, style.plans) for style in styles
    )
    yield from sorted((other for other in in_styles if other.total > current), key=lambda other: other.total)[:1]
    classes = {rate_class(area, plans) for area in plans.quilting.areas}
    own = classes.pop() if len(classes) == 1 else ""
    larger = _next_size(shop.rates.quilting[own], plans, shop.rates) if own else None
    if larger and larger.steps:
        rates = shop.rates.replace(quilting={**shop.rates.quilting, own: larger})
        quote = make_quote(project, shop._replace(rates=rates), plans)
        yield _other_price(say("at the size class {name}", name=larger.steps.value[0].name), quote, rates, plans)


def _next_size(rate: QuiltingRate, plans: Plans, rates: Rates) -> QuiltingRate | None:
    """Leave out of the rate the size classes up to the top's own; None where there is no larger one."""
    area = billed_area(plans, rates).to(rates.quilting_per)
    steps = rate.steps.value if rate.steps else ()
    larger = [step for step in steps if area <= step.up_to][1:]
    return rate.replace(steps=replace(rate.steps, value=tuple(larger))) if rate.steps and larger else None


def _other_price(label: Sentence, quote: Quote, rates: Rates, plans: Plans) -> OtherPrice:
    earned = _earnings(quote, rates, plans)
    return OtherPrice(label, quote.total, earned.an_hour(earned.hours))


def _working(profit: Profitability, rates: Rates) -> Iterator[Sentence]:
    earned = profit.earned
    hours, materials, costs = earned.hours, earned.materials, earned.other_costs
    text = "Other costs: {hours} h x {rate} an hour = {costs}, rounded"
    yield say_in_house(text, hours=hours, rate=Price(rates.overhead.value), costs=costs)
    if profit.hourly is not None:
        yield say_in_house(
            "Earned an attended hour: ({net} - {materials} - {costs}) / {hours} h = {hourly}, rounded",
            net=earned.net,
            materials=materials,
            costs=costs,
            hours=hours,
            hourly=profit.hourly,
        )
    yield say_in_house(
        "Break-even: {materials} + {costs} = {even}; with {hours} h x {wage} wage: {fair}, all before tax",
        materials=materials,
        costs=costs,
        even=profit.break_even,
        hours=hours,
        wage=Price(rates.wage.value),
        fair=profit.price_at_wage,
    )
