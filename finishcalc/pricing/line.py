"""One line of a quote. It is rounded when it is made; all later figures add what is printed."""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import printed
from finishcalc.wording.said import Said

LineClass = Literal["labour", "material"]


class Line(NamedTuple):
    """One line of a quote: quantity (at its printed step) x rate = amount, half up to the minor unit.

    `figures` are the key paths of the rates it used. For the studio, `cost` is what the materials cost the shop and
    `minutes` what someone stands by the work, None where nobody knows; `apart` says that the plans do not count them.
    `said` is how its quantity came about, where that is not plain. A rush or discount line has the sum of its class as
    quantity, and a share as rate.
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
    minutes: Fraction | None = None
    apart: bool = False
    said: Said | None = None


def priced(
    label: Said,
    line_class: str,
    quantity: Fraction,
    unit: str,
    rate: Fraction,
    currency: Currency,
    figures: tuple[str, ...],
    cost: Money | None = None,
    minutes: Fraction | None = None,
) -> Line:
    """A line of work or material: the quantity goes to its printed step first, so that paper gives the same."""
    shown = printed(quantity, unit)
    return Line(label, line_class, shown, unit, rate, currency.round(shown * rate), figures, cost, minutes=minutes)
