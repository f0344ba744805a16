"""The arithmetic of each figure, for `--explain`, and the place of each default, for `--defaults`."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from finishcalc.intake.layers import Sourced
from finishcalc.intake.resolve import Resolved
from finishcalc.intake.source import dotted
from finishcalc.measures.length import Overage
from finishcalc.model.days import ClosedDays, Lead
from finishcalc.model.keys import Span
from finishcalc.model.section import Section, specs
from finishcalc.pipeline import Finishing
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.pricing.profit import Profitability
from finishcalc.rendering.pages.layers import overage_words
from finishcalc.rendering.pages.page import Table
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Audience, Sentence, Share


class Default(NamedTuple):
    """A value that the project file does not give, and the place it comes from instead."""

    key: str
    value: str
    layer: str
    file: str
    line: int


class Arithmetic(NamedTuple):
    """The sentences of one part's arithmetic: its `key` in the document, its `heading` on the page."""

    key: str
    heading: str
    sentences: list[Sentence]


def arithmetic(result: Finishing, profit: Profitability | None) -> list[Arithmetic]:
    """Give every part's arithmetic that this reader may see, empty for a part that is not wanted.

    The page and the document both read this list, so that neither can forget a part. `profit` is None where the reader
    is the customer, who sees neither the hours nor the profit.
    """
    plans, quote = result.plans, result.quote
    reader: Audience = "studio" if profit else "customer"
    parts: list[tuple[str, str, Iterable[Sentence]]] = [(part.key, part.heading, part.working) for part in plans.parts]
    parts += [
        ("buy", "To buy", _together(each for each in plans.cloth if each.supplied_by == "shop")),
        ("buy", "You supply", _together(each for each in plans.cloth if each.supplied_by == "customer")),
    ]
    if profit:
        parts += [("hours", "Minutes", result.hours.working)]
    parts += [("quote", "Price", quote.working)]
    if profit:
        parts += [("studio", "Earnings", profit.working)]
    return [
        Arithmetic(key, heading, [each for each in sentences if each.is_for(reader)])
        for key, heading, sentences in parts
    ]


def _together(cloth: Iterable[Purchase]) -> Iterator[Sentence]:
    """Give the arithmetic of cloth that is planned as a whole; that of a single part ends with its own."""
    return (each for purchase in cloth if purchase.tells_its_working for each in purchase.working)


def defaults(asked: Resolved, notation: Notation, audience: Audience) -> list[Default]:
    """List by key every value behind the result that the project file does not give, as far as this reader may see."""
    listed = []
    for path, sourced in asked.defaults():
        if audience == "studio" or sourced.audience == "customer":
            origin, value = sourced.origin, written(sourced, notation)
            listed.append(Default(dotted(path), value, origin.layer, origin.source.name, origin.line))
    return listed


def written(sourced: Sourced, notation: Notation) -> str:
    """Write a value in the project's notation, a share in per cent."""
    key = sourced.spec.key
    return _written(Share(sourced.value) if key and key.per_cent else sourced.value, notation.exactly())


def default_table(listed: list[Default]) -> Table:
    """Set the defaults as a table, each with the file and the line it comes from."""
    rows = [
        [default.key, default.value, f"{default.file}:{default.line}" if default.line else default.file]
        for default in listed
    ]
    return Table(["Key", "Value", "Source"], "lll", rows, cut_in=(1,))


def _written(value: Any, notation: Notation) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, ClosedDays):
        return " to ".join(dict.fromkeys(map(notation.show, value)))
    if isinstance(value, Lead):
        return str(value)
    if isinstance(value, Span):
        return " / ".join(dict.fromkeys(_written(minutes, notation) for minutes in value))
    if isinstance(value, Overage):
        sides, ends = (_written(length, notation) for length in value)
        return sides if sides == ends else f"{sides} at the sides, {ends} at the ends"
    if type(value) in (tuple, list):
        return ", ".join(_written(item, notation) for item in value) or "none"
    if isinstance(value, Overage):
        return notation.show(value.sides) if value.is_all_round else overage_words(value, notation)
    if isinstance(value, Section):
        return _written(next(getattr(value, name) for name in specs(type(value))), notation)
    if value is None or value == "":
        return "none"
    return notation.price(value, 0) if isinstance(value, Fraction) else notation.show(value)
