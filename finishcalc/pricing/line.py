"""One line of a quote. It is rounded when it is made; all later figures add what is printed."""

from fractions import Fraction
from typing import Any, Literal, NamedTuple

from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import printed
from finishcalc.model.section import Figure
from finishcalc.wording.said import Said

Subject = Literal["quilting", "batting", "binding made", "edge finished", "other"]
"""What a line is about, whatever its label says: the lines of two quotes are compared by it."""


class Line(NamedTuple):
    """One line of a quote: quantity (at its printed step) x rate = amount, half up to the minor unit.

    `rates` are the figures it used. For the studio, `cost` is what the materials cost the shop and
    `minutes` what someone stands by the work, None where nobody knows; `apart` says that the plans do not count them.
    `said` is how its quantity came about, where that is not plain. A material sold at cost and markup has
    its `markup`. A rush or discount line has the sum of its class as quantity, and a share as rate.
    """

    label: Said
    line_class: str
    quantity: Fraction
    unit: str
    rate: Fraction
    amount: Money
    rates: tuple[Figure[Any], ...] = ()
    cost: Money | None = None
    kind: Literal["item", "rush", "discount"] = "item"
    minutes: Fraction | None = None
    apart: bool = False
    said: Said | None = None
    about: Subject = "other"
    markup: Fraction | None = None

    @property
    def rests_on_sample(self) -> bool:
        """Tell a line that used a rate which is not the studio's own."""
        return any(rate.sample for rate in self.rates)


def priced(
    label: Said,
    line_class: str,
    quantity: Fraction,
    unit: str,
    rate: Fraction,
    currency: Currency,
    rates: tuple[Figure[Any], ...],
    cost: Money | None = None,
    minutes: Fraction | None = None,
) -> Line:
    """A line of work or material: the quantity goes to its printed step first, so that paper gives the same."""
    shown = printed(quantity, unit)
    return Line(label, line_class, shown, unit, rate, currency.round(shown * rate), rates, cost, minutes=minutes)
