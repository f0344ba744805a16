"""Tax: added to the prices or included in them, rounded once for the invoice or for each item."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Currency, Money, share_out, total
from finishcalc.model.prices import Tax
from finishcalc.model.section import Figure
from finishcalc.pricing.line import Line


class TaxAmount(NamedTuple):
    """A tax on `base`, the sum of the lines it is on. An included tax is part of the total already; `included_shares`
    are then the sums of all taxes in the prices of its classes: with one tax alone, its own share."""

    label: str
    percent: Fraction
    included: bool
    by: str
    base: Money
    amount: Money
    included_shares: frozenset[Fraction] = frozenset()
    rests_on_sample: bool = False


def taxes_on(lines: list[Line], taxes: Figure[tuple[Tax, ...]], currency: Currency) -> tuple[TaxAmount, ...]:
    """Work out each tax on the lines of its classes."""
    included = included_shares(taxes.value)
    return tuple(_tax(tax, lines, included, currency)._replace(rests_on_sample=taxes.sample) for tax in taxes.value)


def added(taxes: Iterable[TaxAmount], currency: Currency) -> Money:
    """Add up the taxes that are put on top of the lines."""
    return total((tax.amount for tax in taxes if not tax.included), currency)


def included_shares(taxes: tuple[Tax, ...]) -> dict[str, Fraction]:
    """Add up, for each class of lines, the taxes that are included in its prices."""
    shares: dict[str, Fraction] = {}
    for tax in taxes:
        for line_class in tax.classes if tax.included else ():
            shares[line_class] = shares.get(line_class, Fraction(0)) + tax.percent
    return shares


def included_tax(gross: Fraction, percent: Fraction, included_share: Fraction) -> Fraction:
    """Give gross x r / (1 + i): the part of a price that is a tax of share r, where all taxes in it have share i."""
    return gross * percent / (1 + included_share)


def _tax(tax: Tax, lines: list[Line], included: dict[str, Fraction], currency: Currency) -> TaxAmount:
    """Work out one tax, rounded for each item or once for the invoice."""
    taxed = [line for line in lines if line.line_class in tax.classes]
    if tax.by == "item":
        items = [(name, item) for name in tax.classes for _, item in items_with_changes(taxed, name, currency)]
        amount = total((currency.round(_exact(tax, name, item, included)) for name, item in items), currency)
    else:
        exact = (_exact(tax, line.line_class, line.amount, included) for line in taxed)
        amount = currency.round(sum(exact, Fraction(0)))
    return TaxAmount(
        label=tax.label,
        percent=tax.percent,
        included=tax.included,
        by=tax.by,
        base=total((line.amount for line in taxed), currency),
        amount=amount,
        included_shares=frozenset(included[line.line_class] for line in taxed) if tax.included else frozenset(),
    )


def _exact(tax: Tax, line_class: str, gross: Money, included: dict[str, Fraction]) -> Fraction:
    if tax.included:
        return included_tax(gross.major, tax.percent, included[line_class])
    return gross.major * tax.percent


def items_with_changes(lines: Sequence[Line], line_class: str, currency: Currency) -> list[tuple[Line, Money]]:
    """Give the items of a class, each with its amount and its share of the class's rush and discount."""
    items = [line for line in lines if line.line_class == line_class and line.kind == "item"]
    changes = [line.amount for line in lines if line.line_class == line_class and line.kind != "item"]
    shared = [share_out(change, [item.amount.minor for item in items]) for change in changes]
    return [(item, total((item.amount, *(shares[n] for shares in shared)), currency)) for n, item in enumerate(items)]
