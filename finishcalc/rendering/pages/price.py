"""The price lines as a table with the sums under it. The printed figures add up as they stand."""

from fractions import Fraction

from finishcalc.measures.money import Money
from finishcalc.pricing.line import Line
from finishcalc.pricing.quote import Quote
from finishcalc.pricing.tax import TaxAmount
from finishcalc.rendering.wrapping import display_width, wrap
from finishcalc.rendering.writers.text import columns
from finishcalc.rendering.writing import SAMPLE_MARK
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Share

HEAD = ["", "Qty", "Unit", "Rate", "", "Amount"]


def price_lines(quote: Quote, provisional: bool, notation: Notation, width: int) -> list[str]:
    """Write the price table. A rate that rests on a sample has a mark; a tax of nothing has no row."""
    marked = ", provisional" if provisional else ""
    rows = [_row(line, notation, quote.currency.digits) for line in quote.lines]
    rows += [_sum("Subtotal", quote.subtotal, notation)]
    rows += [_tax(tax, notation) for tax in quote.taxes if tax.amount.minor and not tax.included]
    if quote.cash_rounding:
        rows.append(_sum("Rounded for cash", quote.cash_rounding, notation))
    rows.append(_sum(f"Total, {quote.currency.code}{marked}", quote.total, notation))
    rows += [_included_tax(tax, notation) for tax in quote.taxes if tax.amount.minor and tax.included]
    if quote.deposit:
        rows.append(_deposit(quote, marked, notation))
        rows.append(_sum("Balance", quote.balance, notation))
    return _table(rows, width)


def has_mark(quote: Quote) -> bool:
    """Return True where any row of the table has a mark."""
    return quote.rests_on_sample or bool(quote.deposit and quote.deposit_rests_on_sample)


def _row(line: Line, notation: Notation, digits: int) -> list[str]:
    amount = notation.bare_money(line.amount)
    if line.is_share:
        base = notation.bare_money(line.amount.currency.round(line.quantity))
        return [notation.write(line.label), base, line.unit, notation.show(Share(line.rate)), "", amount]
    mark = _mark(line.rests_on_sample)
    quantity = quantity_words(line.quantity, line.unit, notation)
    return [notation.write(line.label), quantity, line.unit, notation.price(line.rate, digits), mark, amount]


def quantity_words(quantity: Fraction, unit: str, notation: Notation) -> str:
    """Write a quantity at its printed step: yards in fractions, as they are spoken; all else with decimals."""
    if unit == "yd" and 16 % quantity.denominator == 0:
        return notation.number(quantity, unit)
    return notation.quantity(quantity)


def _sum(label: str, amount: Money, notation: Notation, mark: str = "") -> list[str]:
    return [label, "", "", "", mark, notation.bare_money(amount)]


def _deposit(quote: Quote, marked: str, notation: Notation) -> list[str]:
    """Write the deposit's row, with its share only where that is a share of the total above."""
    share = notation.show(Share(quote.deposit_share)) if quote.deposit_share is not None else ""
    mark = _mark(quote.deposit_rests_on_sample)
    label = notation.write(quote.deposit_label) + marked
    return [label, "", "", share, mark, notation.bare_money(quote.deposit)]


def _tax(tax: TaxAmount, notation: Notation) -> list[str]:
    by = ", item by item" if tax.by == "item" else ""
    label = f"{notation.show(tax.label)}{by}"
    base = notation.bare_money(tax.base)
    share = notation.show(Share(tax.percent))
    return [label, base, tax.base.currency.code, share, _mark(tax.rests_on_sample), notation.bare_money(tax.amount)]


def _included_tax(tax: TaxAmount, notation: Notation) -> list[str]:
    """Write the row of a tax that the total includes."""
    row = _tax(tax, notation)
    return [f"of which {row[0]}", *row[1:]]


def _mark(rests_on_sample: bool) -> str:
    return SAMPLE_MARK if rests_on_sample else ""


def _table(rows: list[list[str]], width: int) -> list[str]:
    """Wrap labels to the room beside the figures; where that is too little, each label has a line of its own."""
    figures = [max(display_width(row[column]) for row in [HEAD, *rows]) for column in range(1, 6)]
    room = width - sum(figures) - 2 * len(figures)
    if room < 16:
        return _stacked(rows, width)
    cut = [[_hanging(row[0], room), *([text] for text in row[1:])] for row in [HEAD, *rows]]
    return columns(cut, "lrlrlr")


def _hanging(label: str, room: int) -> list[str]:
    first, *more = wrap(label, room - 1)
    return [first, *(f" {line}" for line in more)]


def _stacked(rows: list[list[str]], width: int) -> list[str]:
    """Write for a narrow terminal: the label, and under it the arithmetic with the amount at the right."""
    lines = []
    for label, quantity, unit, rate, mark, amount in rows:
        if quantity:
            lines += wrap(label, width)
            lines += _at_both_ends(f"  {quantity} {unit} x {rate}{mark}", amount, width)
        else:
            *before, last = wrap(
                " ".join(part for part in (label, rate, mark) if part), width - display_width(amount) - 1
            )
            lines += [*before, *_at_both_ends(last, amount, width)]
    return lines


def _at_both_ends(left: str, right: str, width: int) -> list[str]:
    """Set two texts at the ends of one line, or on two lines where one is too short."""
    room = width - display_width(right)
    if display_width(left) < room:
        return [left + " " * (room - display_width(left)) + right]
    return [*wrap(left, width), " " * room + right]
