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
from finishcalc.pricing.earnings import Earnings, earnings_of, is_known
from finishcalc.pricing.line import Line
from finishcalc.pricing.quilting import billed_area, rate_class
from finishcalc.pricing.quote import Quote, make_quote
from finishcalc.pricing.tax import included_shares, included_tax
from finishcalc.wording.sentence import Price, Sentence, say, say_in_house


class LineProfit(NamedTuple):
    """A line with its cost, of material or of time, and its margin without tax; None for work whose time nobody knows,
    and for goods whose cost nobody does."""

    line: Line
    cost: Money | None
    margin: Money | None


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
    """The profit of a quote. The hours of `earned` include `hours_ordered`, those of work that is ordered besides;
    `hourly` and `frame_hourly` are the earnings of an attended hour and of one on the frame, `hourly_at_best` and
    `hourly_at_worst` those of an attended hour if the work takes its least and its most minutes; `break_even` covers
    materials, what is passed on and other costs, `price_at_wage` the wage as well. `taxed` marks prices that include a
    tax, which is no part of a margin."""

    lines: tuple[LineProfit, ...]
    earned: Earnings
    taxed: bool
    hours_ordered: Fraction
    frame_hours: Fraction
    hourly: Money | None
    hourly_at_best: Money | None
    hourly_at_worst: Money | None
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
    earned, frame = earnings_of(quote, shop, plans), plans.hours.frame
    break_even = earned.break_even
    profit = Profitability(
        lines=tuple(_line_profit(line, shop, currency) for line in quote.lines),
        earned=earned,
        taxed=any(tax.included for tax in quote.taxes),
        hours_ordered=printed((earned.minutes - plans.hours.attended) / 60, "hour"),
        frame_hours=printed(frame / 60, "hour"),
        hourly=earned.an_hour(earned.minutes),
        hourly_at_best=earned.an_hour(earned.low),
        hourly_at_worst=earned.an_hour(earned.high),
        frame_hourly=currency.round(earned.left.major * 60 / frame) if frame else None,
        wage=currency.round(rates.wage.value),
        break_even=break_even,
        price_at_wage=break_even + currency.round(rates.wage.value * earned.minutes / 60),
        others=tuple(_other_prices(project, shop, plans, quote.total, styles)),
        working=(),
    )
    return profit._replace(working=tuple(_working(profit, rates)))


def _line_profit(line: Line, shop: Shop, currency: Currency) -> LineProfit:
    """Cost a material at its price to the shop, and work at the wage and the other costs of its hours; rush and
    discount cost nothing, and what is passed through costs what it brings. A tax that the price includes is no part of
    the margin."""
    share = included_shares(shop.taxes.value).get(line.line_class, Fraction(0))
    net = line.amount - currency.round(included_tax(line.amount.major, share, share))
    cost = _line_cost(line, net, shop.rates) if is_known(line) else None
    return LineProfit(line, cost, None if cost is None else net - cost)


def _line_cost(line: Line, net: Money, rates: Rates) -> Money:
    zero = net.currency.zero
    if line.kind != "item":
        return zero
    of_time = net.currency.round((rates.wage.value + rates.overhead.value) * (line.minutes or 0) / 60)
    if line.cost is None and line.line_class == "pass-through":
        return net + of_time
    return (line.cost or zero) + of_time


def _other_prices(
    project: Project, shop: Shop, plans: Plans, current: Money, styles: Iterable[QuoteInStyle]
) -> Iterator[OtherPrice]:
    """Price the next dearer style that it could be quilted in, and the next size class."""
    in_styles = (_other_price(say("in {name}", name=style.name), style.quote, shop, style.plans) for style in styles)
    yield from sorted((other for other in in_styles if other.total > current), key=lambda other: other.total)[:1]
    classes = {rate_class(area, plans) for area in plans.quilting.areas}
    own = classes.pop() if len(classes) == 1 else ""
    larger = _next_size(shop.rates.quilting[own], plans, shop.rates) if own else None
    if larger and larger.steps:
        rates = shop.rates.replace(quilting={**shop.rates.quilting, own: larger})
        at_larger = shop._replace(rates=rates)
        quote = make_quote(project, at_larger, plans)
        yield _other_price(say("at the size class {name}", name=larger.steps.value[0].name), quote, at_larger, plans)


def _next_size(rate: QuiltingRate, plans: Plans, rates: Rates) -> QuiltingRate | None:
    """Leave out of the rate the size classes up to the top's own; None where there is no larger one."""
    area = billed_area(plans, rates).to(rates.quilting_per)
    steps = rate.steps.value if rate.steps else ()
    larger = [step for step in steps if area <= step.up_to][1:]
    return rate.replace(steps=replace(rate.steps, value=tuple(larger))) if rate.steps and larger else None


def _other_price(label: Sentence, quote: Quote, shop: Shop, plans: Plans) -> OtherPrice:
    earned = earnings_of(quote, shop, plans)
    return OtherPrice(label, quote.total, earned.an_hour(earned.minutes))


def _working(profit: Profitability, rates: Rates) -> Iterator[Sentence]:
    earned = profit.earned
    minutes, wage, costs = earned.minutes, Price(rates.wage.value), earned.other_costs
    text = "Other costs: {minutes} min / 60 x {rate} an hour = {costs}, rounded"
    yield say_in_house(text, minutes=minutes, rate=Price(rates.overhead.value), costs=costs)
    amounts = {"net": earned.net, "materials": earned.materials, "passed": earned.passed_on, "costs": costs}
    passed_off, passed_on = (" - {passed}", " + {passed}") if earned.passed_on else ("", "")
    if profit.hourly is not None:
        text = f"Earned an attended hour: ({{net}} - {{materials}}{passed_off} - {{costs}}) / {{minutes}} min x 60"
        yield say_in_house(text + " = {hourly}, rounded", **amounts, minutes=minutes, hourly=profit.hourly)
    even, fair = profit.break_even, profit.price_at_wage
    text = f"Break-even: {{materials}}{passed_on} + {{costs}} = {{even}}; with {{minutes}} min / 60 x {{wage}} wage:"
    yield say_in_house(text + " {fair}, all before tax", **amounts, even=even, minutes=minutes, wage=wage, fair=fair)
