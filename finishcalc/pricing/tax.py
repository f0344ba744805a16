"""Tax: added to the prices or included in them, rounded once for the invoice or for each item."""

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Currency, Money, share_out, total
from finishcalc.model.prices import Tax
from finishcalc.model.section import Figure
from finishcalc.pricing.line import Line


class TaxAmount(NamedTuple):
    """A tax on `base`, the sum of the lines it is on. An included tax is part of the total already; `held` are then
    the shares that the prices of its classes hold in all: with one tax alone, its own."""

    label: str
    percent: Fraction
    included: bool
    by: str
    base: Money
    amount: Money
    held: frozenset[Fraction] = frozenset()
    rests_on_sample: bool = False


def taxes_on(lines: list[Line], taxes: Figure[tuple[Tax, ...]], currency: Currency) -> tuple[TaxAmount, ...]:
    """Each tax on the lines of its classes. By item, rush and discount are first shared out over the items."""
    held = included_rates(taxes.value)
    return tuple(_tax(tax, lines, held, currency)._replace(rests_on_sample=taxes.sample) for tax in taxes.value)


def added(taxes: Iterable[TaxAmount], currency: Currency) -> Money:
    """What the taxes put on top of the lines."""
    return total((tax.amount for tax in taxes if not tax.included), currency)


def included_rates(taxes: tuple[Tax, ...]) -> dict[str, Fraction]:
    """For each class of lines, the sum of the taxes that its prices hold."""
    rates: dict[str, Fraction] = {}
    for tax in taxes:
        for line_class in tax.classes if tax.included else ():
            rates[line_class] = rates.get(line_class, Fraction(0)) + tax.percent
    return rates


def _tax(tax: Tax, lines: list[Line], held: dict[str, Fraction], currency: Currency) -> TaxAmount:
    taxed = [line for line in lines if line.line_class in tax.classes]
    base = total((line.amount for line in taxed), currency)
    if tax.by == "item":
        bases = [(line_class, amount) for line_class in tax.classes for amount in _items(taxed, line_class, currency)]
        amount = total((currency.round(_exact(tax, name, item.major, held)) for name, item in bases), currency)
    else:
        sums = [
            (name, total((line.amount for line in taxed if line.line_class == name), currency)) for name in tax.classes
        ]
        amount = currency.round(sum((_exact(tax, name, item.major, held) for name, item in sums), Fraction(0)))
    shares = frozenset(held[line.line_class] for line in taxed) if tax.included else frozenset()
    return TaxAmount(tax.label, tax.percent, tax.included, tax.by, base, amount, shares)


def _exact(tax: Tax, line_class: str, gross: Fraction, held: dict[str, Fraction]) -> Fraction:
    """gross x r, or gross x r / (1 + r) where the price holds it (r in the divisor: all that it holds)."""
    return gross * tax.percent / (1 + held[line_class]) if tax.included else gross * tax.percent


def _items(lines: list[Line], line_class: str, currency: Currency) -> list[Money]:
    """The items of a class, each with its share of the class's rush and discount."""
    items = [line.amount for line in lines if line.line_class == line_class and line.kind == "item"]
    changes = [line.amount for line in lines if line.line_class == line_class and line.kind != "item"]
    shared = [share_out(change, [item.minor for item in items]) for change in changes]
    return [total((item, *(shares[n] for shares in shared)), currency) for n, item in enumerate(items)]
