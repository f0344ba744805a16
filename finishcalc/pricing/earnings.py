"""The earnings of a quote: what is left of its price for the hours that someone stands by.

Only what is known counts: work with its minutes, goods with their cost. A line of which nobody knows them is left out
with its share of rush and discount, and named. What is passed through earns nothing, unless its own cost is given.
Taxes are not the studio's, whether added or held in the price.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Money, total
from finishcalc.measures.rounding import printed
from finishcalc.model.prices import Shop
from finishcalc.plans.hours import StageTime
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line
from finishcalc.pricing.quote import Quote
from finishcalc.pricing.tax import included_shares, included_tax, items_with_changes
from finishcalc.wording.sentence import Sentence


class LeftOut(NamedTuple):
    """A line that counts in no earnings, because nobody knows its time or its cost; `net` is without tax."""

    label: Sentence
    net: Money


class Earnings(NamedTuple):
    """The earnings of a quote. `net` is its price without tax and without what is `left_out`; from it go materials and
    what is `passed_on`, and for each hour the `overhead`. The `minutes` are the attended ones that are planned, between
    the least, `low`, and the most, `high`."""

    net: Money
    left_out: tuple[LeftOut, ...]
    materials: Money
    passed_on: Money
    overhead: Fraction
    low: Fraction
    minutes: Fraction
    high: Fraction

    @property
    def hours(self) -> Fraction:
        """The attended hours as they are printed."""
        return printed(self.minutes / 60, "hour")

    @property
    def other_costs(self) -> Money:
        """The other costs of the business in the planned hours."""
        return self._other_costs(self.minutes)

    @property
    def break_even(self) -> Money:
        """The price without tax that covers materials, what is passed on and other costs, without any wage."""
        return self.materials + self.passed_on + self.other_costs

    @property
    def left(self) -> Money:
        """The rest after materials and all other costs."""
        return self.before_hours - self.other_costs

    @property
    def before_hours(self) -> Money:
        """The rest before the costs of the hours."""
        return self.net - self.materials - self.passed_on

    def an_hour(self, minutes: Fraction) -> Money | None:
        """Earnings of an attended hour, if the work takes so many minutes; None where it takes none."""
        rest = self.before_hours - self._other_costs(minutes)
        return self.net.currency.round(rest.major * 60 / minutes) if minutes else None

    def _other_costs(self, minutes: Fraction) -> Money:
        return self.net.currency.round(self.overhead * minutes / 60)


def earnings_of(quote: Quote, shop: Shop, plans: Plans) -> Earnings:
    """Set the price without tax against its costs."""
    included = total((tax.amount for tax in quote.taxes if tax.included), quote.currency)
    nets = {id(line): net for line, net in _nets(quote, shop)}
    left_out = tuple(LeftOut(line.label, nets[id(line)]) for line in quote.lines if not is_known(line))
    known = [line for line in quote.lines if is_known(line)]
    passed_on = [_passed_on(line, shop) for line in known if _is_passed_on(line)]
    stages = [*plans.hours.stages, *(line.stage for line in known if line.stage)]
    return Earnings(
        net=quote.subtotal - included + quote.cash_rounding - total((each.net for each in left_out), quote.currency),
        left_out=left_out,
        materials=total((line.cost for line in known if line.cost and not _is_passed_on(line)), quote.currency),
        passed_on=total(passed_on, quote.currency),
        overhead=shop.rates.overhead.value,
        low=_attended(stages, "low"),
        minutes=_attended(stages, "planned"),
        high=_attended(stages, "high"),
    )


def is_known(line: Line) -> bool:
    """Tell a line of which the studio knows what it must: of work the minutes, of goods the cost."""
    if line.kind != "item" or line.line_class == "pass-through":
        return True
    return (line.minutes if line.line_class == "labour" else line.cost) is not None


def _is_passed_on(line: Line) -> bool:
    return line.kind == "item" and line.line_class == "pass-through"


def _passed_on(line: Line, shop: Shop) -> Money:
    """Give the cost of what is passed through: its own where that is given, else its price without tax. A rush or a
    discount on it is the studio's, because whoever is paid with it asks no more and no less."""
    if line.cost is not None:
        return line.cost
    return _without_tax(line.amount, included_shares(shop.taxes.value).get(line.line_class, Fraction(0)))


def _without_tax(gross: Money, share: Fraction) -> Money:
    return gross - gross.currency.round(included_tax(gross.major, share, share))


def _nets(quote: Quote, shop: Shop) -> Iterator[tuple[Line, Money]]:
    """Each item of the quote, with its share of the rush and the discount, without a tax that its price holds."""
    included = included_shares(shop.taxes.value)
    for name in dict.fromkeys(line.line_class for line in quote.lines):
        share = included.get(name, Fraction(0))
        for line, gross in items_with_changes(quote.lines, name, quote.currency):
            yield line, _without_tax(gross, share)


def _attended(stages: list[StageTime], name: str) -> Fraction:
    minutes = (getattr(stage, name) * stage.attended_share for stage in stages)
    return sum(minutes, Fraction(0))
