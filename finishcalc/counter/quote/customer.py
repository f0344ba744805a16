"""The customer's quote as a page in the browser shows it: what is paid, what it takes, and what to look out for."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.counter.form.places import field_at
from finishcalc.counter.quote.cautions import key_of_caution
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.layers import layout_words, outline_words
from finishcalc.rendering.pages.page import Paragraph, Part, PriceRow
from finishcalc.rendering.pages.price import prices
from finishcalc.rendering.pages.quote import closing, marks, quote_head, work_parts
from finishcalc.rendering.writing import SAMPLE_MARK, is_provisional, notation_of
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import counted

BY = {"hand": "by hand", "machine": "by machine", "front": "to the front only", "faced": "as a facing"}
"""The ways of the binding in few words."""


class PriceLine(NamedTuple):
    """A line of the price: its label, the arithmetic below it, and the amount."""

    label: str
    working: str
    amount: str
    kind: str


class CustomerQuote(NamedTuple):
    """A quote in words: the total with its sign and its mark, a line that says what it is for, deposit and balance, the
    lines of the price, the parts of the work, cautions of the whole, and the terms."""

    sign: str
    total: str
    marked: str
    saying: str
    parts_of_total: str
    lines: tuple[PriceLine, ...]
    notes: tuple[str, ...]
    takes: tuple[Part, ...]
    unsettled: tuple[str, ...]
    cautions: tuple[str, ...]
    terms: tuple[str, ...]


def customer_quote(result: Finishing) -> CustomerQuote:
    """Put a quote into words for the customer."""
    notation, quote, provisional = notation_of(result), result.quote, is_provisional(result)
    symbol = result.resolved.shop.money.symbol or quote.currency.code
    bare = notation.bare_money
    balance = f"deposit {bare(quote.deposit)}, balance {bare(quote.balance)}" if quote.deposit else ""
    *_, terms = closing(result, "customer", notation)
    return CustomerQuote(
        sign=symbol,
        total=bare(quote.total),
        marked=SAMPLE_MARK if quote.rests_on_sample else "",
        saying=_saying(result),
        parts_of_total=balance,
        lines=tuple(_line(row) for row in prices(quote, provisional, notation).rows),
        notes=tuple(each.text for each in marks(quote, (), "customer") if isinstance(each, Paragraph)),
        takes=tuple(_takes(result)),
        unsettled=quote_head(result, "customer").unsettled,
        cautions=tuple(text for key, text in _cautions(result) if not key),
        terms=tuple(line.text for line in terms.lines) if isinstance(terms, Part) else (),
    )


def _line(row: PriceRow) -> PriceLine:
    """Set the arithmetic of a row below its label: "5 3/4 yd at 15.40 *"."""
    quantity = row.quantity if row.unit == "each" else f"{row.quantity} {row.unit}".strip()
    rate = f"at {row.rate}" if row.rate and quantity else row.rate
    mark = SAMPLE_MARK if row.marked else ""
    return PriceLine(row.label, " ".join(filter(None, (quantity, rate, mark))), row.amount, row.kind)


def _saying(result: Finishing) -> str:
    """Say in a line what the total is for: size, seams, pattern, edge."""
    plans, notation = result.plans, notation_of(result)
    styles = dict.fromkeys(notation.show(area.style.name) for area in plans.quilting.areas)
    said = [outline_words(plans.top.shape, notation)]
    if plans.backing and plans.backing.chosen:
        seams = plans.backing.chosen.layout.seams
        said.append(f"backing with {counted(seams, 'seam')}" if seams else "backing without a seam")
    said += [", ".join(styles), *([f"binding {BY[plans.binding.attach]}"] if plans.binding else [])]
    return ", ".join(filter(None, said))


def _takes(result: Finishing) -> Iterator[Part]:
    """Say each part of the work, what is bought, and what the customer brings."""
    from finishcalc.rendering.pages.brief import supplied_words
    from finishcalc.rendering.pages.page import sentences

    notation = notation_of(result)
    yield from work_parts(result, {}, "customer")
    yield sentences("Wishes", list(quote_head(result, "customer").notes))
    yield sentences("To buy", supplied_words(result, "shop"))
    yield sentences("You bring", [notation.write(each) for each in result.to_bring])


def _cautions(result: Finishing) -> Iterator[tuple[str, str]]:
    """Give the cautions for the customer that block nothing, each with the key of the field that it is about."""
    notation = notation_of(result)
    for caution in result.cautions:
        if caution.sentence.is_for("customer") and not caution.blocking:
            field = field_at(key_of_caution(caution.code))
            yield (field.key if field else ""), notation.write(caution.sentence)


def cautions_by_field(result: Finishing) -> dict[str, list[str]]:
    """Give the cautions that are about a field, by its key. A part that cannot be made is told at its field too."""
    notation = notation_of(result)
    by_key: dict[str, list[str]] = {}
    for key, text in _cautions(result):
        if key:
            by_key.setdefault(key, []).append(text)
    for caution in result.cautions:
        field = field_at(key_of_caution(caution.code))
        if caution.blocking and field:
            by_key.setdefault(field.key, []).append(notation.write(caution.sentence))
    return by_key


def amount_words(result: Finishing) -> str:
    """Say how much cloth the backing takes, with its seams."""
    backing, notation = result.plans.backing, notation_of(result)
    if not backing or not backing.chosen:
        return ""
    return f"{notation.show(InUnit(backing.chosen.amount, backing.fabric.per))}, {layout_words(backing.chosen)}"
