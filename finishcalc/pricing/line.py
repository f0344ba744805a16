"""One line of a quote: rounded when it is made, because all later figures add what is printed."""

from fractions import Fraction
from typing import Any, Literal, NamedTuple

from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import printed
from finishcalc.model.section import Figure
from finishcalc.plans.hours import StageTime
from finishcalc.wording.sentence import Sentence

Subject = Literal["quilting", "batting", "binding made", "edge finished", "thread", "postage", "other"]
"""The subject of a line, whatever its label says: the lines of two quotes are compared by it."""


class Line(NamedTuple):
    """One line of a quote: quantity (at its printed step) x rate = amount, half up to the minor unit.

    `rates` are the figures it used. `cost` (of materials) and `minutes` (attended) are the studio's, None where nobody
    knows them. What is `ordered` by name or by a line of its own has a `stage` that is not among those of the plans,
    where its time is known. `working` is the arithmetic of a quantity that is not plain. A material sold at cost and
    markup has its `markup`. A rush or discount line has the sum of its class as quantity, and a share as rate;
    a discount by amount is one of that amount.
    """

    label: Sentence
    line_class: str
    quantity: Fraction
    unit: str
    rate: Fraction
    amount: Money
    rates: tuple[Figure[Any], ...] = ()
    cost: Money | None = None
    kind: Literal["item", "rush", "discount"] = "item"
    minutes: Fraction | None = None
    ordered: bool = False
    stage: StageTime | None = None
    working: Sentence | None = None
    about: Subject = "other"
    markup: Fraction | None = None

    @property
    def is_share(self) -> bool:
        """True for a rush or a discount that is a share of its class."""
        return self.kind != "item" and self.unit == self.amount.currency.code

    @property
    def rests_on_sample(self) -> bool:
        """True where the line used a rate that is not the studio's own."""
        return any(rate.sample for rate in self.rates)


def priced(
    label: Sentence,
    line_class: str,
    quantity: Fraction,
    unit: str,
    rate: Fraction,
    currency: Currency,
    rates: tuple[Figure[Any], ...],
    cost: Money | None = None,
    minutes: Fraction | None = None,
) -> Line:
    """Price work or material: the quantity goes to its printed step first, so that paper gives the same amount."""
    shown = printed(quantity, unit)
    return Line(
        label=label,
        line_class=line_class,
        quantity=shown,
        unit=unit,
        rate=rate,
        amount=currency.round(shown * rate),
        rates=rates,
        cost=cost,
        minutes=minutes,
    )
