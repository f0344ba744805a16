"""The price lines as a table with the sums under it. The printed figures add up as they stand."""

from fractions import Fraction

from finishcalc.measures.money import Money
from finishcalc.pricing.line import Line
from finishcalc.pricing.quote import Quote
from finishcalc.pricing.tax import TaxAmount
from finishcalc.rendering.pages.page import PriceRow, Prices
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Share


def prices(quote: Quote, provisional: bool, notation: Notation) -> Prices:
    """Set the price as a table. A rate that rests on a sample has a mark; a tax of nothing has no row."""
    marked = ", provisional" if provisional else ""
    rows = [_row(line, notation, quote.currency.digits) for line in quote.lines]
    rows += [_sum("Subtotal", quote.subtotal, notation)]
    rows += [_tax(tax, notation) for tax in quote.taxes if tax.amount.minor and not tax.included]
    if quote.cash_rounding:
        rows.append(_sum("Rounded for cash", quote.cash_rounding, notation))
    rows.append(_sum(f"Total, {quote.currency.code}{marked}", quote.total, notation)._replace(kind="total"))
    rows += [_included_tax(tax, notation) for tax in quote.taxes if tax.amount.minor and tax.included]
    if quote.deposit:
        rows.append(_deposit(quote, marked, notation))
        rows.append(_sum("Balance", quote.balance, notation))
    return Prices(tuple(rows), quote.currency.code, notation.decimal)


def has_mark(quote: Quote) -> bool:
    """Return True where any row of the table has a mark."""
    return quote.rests_on_sample or bool(quote.deposit and quote.deposit_rests_on_sample)


def _row(line: Line, notation: Notation, digits: int) -> PriceRow:
    label, amount = notation.write(line.label), notation.bare_money(line.amount)
    if line.is_share:
        base = notation.bare_money(line.amount.currency.round(line.quantity))
        return PriceRow(label, base, line.unit, notation.show(Share(line.rate)), False, amount)
    quantity = quantity_words(line.quantity, line.unit, notation)
    return PriceRow(label, quantity, line.unit, notation.price(line.rate, digits), line.rests_on_sample, amount)


def quantity_words(quantity: Fraction, unit: str, notation: Notation) -> str:
    """Write a quantity at its printed step: yards in fractions, as they are spoken; all else with decimals."""
    if unit == "yd" and 16 % quantity.denominator == 0:
        return notation.number(quantity, unit)
    return notation.quantity(quantity)


def _sum(label: str, amount: Money, notation: Notation) -> PriceRow:
    return PriceRow(label, "", "", "", False, notation.bare_money(amount), "sum")


def _deposit(quote: Quote, marked: str, notation: Notation) -> PriceRow:
    """Write the deposit's row, with its share only where that is a share of the total above."""
    share = notation.show(Share(quote.deposit_share)) if quote.deposit_share is not None else ""
    label, amount = notation.write(quote.deposit_label) + marked, notation.bare_money(quote.deposit)
    return PriceRow(label, "", "", share, quote.deposit_rests_on_sample, amount, "sum")


def _tax(tax: TaxAmount, notation: Notation) -> PriceRow:
    by = ", item by item" if tax.by == "item" else ""
    label = f"{notation.show(tax.label)}{by}"
    base = notation.bare_money(tax.base)
    share, amount = notation.show(Share(tax.percent)), notation.bare_money(tax.amount)
    return PriceRow(label, base, tax.base.currency.code, share, tax.rests_on_sample, amount, "sum")


def _included_tax(tax: TaxAmount, notation: Notation) -> PriceRow:
    """Write the row of a tax that the total includes."""
    row = _tax(tax, notation)
    return row._replace(label=f"of which {row.label}")
