"""The answers that a question may have, each with its meaning and its figures."""

from collections.abc import Callable
from fractions import Fraction
from functools import cache

from finishcalc.intake.listing import Known, listed
from finishcalc.intake.named_materials import ALWAYS
from finishcalc.intake.presets import sample_shop
from finishcalc.intake.questions.defaults import default_of
from finishcalc.intake.questions.question import Kind, Question
from finishcalc.intake.questions.seen import Seen, a_unit
from finishcalc.intake.questions.writing import entries_of
from finishcalc.intake.shop_layers import checked_shop
from finishcalc.model.asked import Choice
from finishcalc.model.listed import ListedPreset

LEFT_OUT = ("Work", "Stitch", "Rate class", "Lines", "On the frame")
"""The figures of presets that say nothing to one who chooses."""


def choices_of(question: Question, seen: Seen) -> list[Choice]:
    """List the answers that a question may have, or for a figure the sample and where it comes from. A question for
    any text has none."""
    if question.kind in BY_KIND:
        return BY_KIND[question.kind](question, seen)
    if question.sample:
        default = default_of(question, seen)
        return [Choice(default.shown, _source(question, seen))] if default.shown else []
    edge = question.name == "edge" and seen.charges
    return [Choice(word, meaning, _edge_price(word, seen) if edge else {}) for word, meaning in question.told.items()]


def _presets(question: Question, seen: Seen) -> list[Choice]:
    """The shop's own materials, and the presets of the project's units."""
    named = ALWAYS[question.path]
    in_use, units = seen.resolved.shop_file, seen.units
    source = in_use.source if in_use else None
    known = Known(units, checked_shop(source, units)[0] if source else None, source)
    choices = [Choice(each.name, each.label, _figures(each, seen)) for each in listed(named.kind, known)]
    return [*choices, Choice("none", f"no {question.label.lower()}")] if named.may_be_none else choices


def _figures(preset: ListedPreset, seen: Seen) -> dict[str, str]:
    """The key figures of a preset; those of a style with its price."""
    rate = seen.resolved.tables.rates.quilting.get(preset.figures.get("Rate class", "")) if seen.charges else None
    price = {"Price": _price(rate.price.value, rate.price.per, seen)} if rate and rate.price else {}
    told = {name: text for name, text in preset.figures.items() if name not in LEFT_OUT and text not in preset.label}
    return {name: "" if text == "yes" else text for name, text in told.items() if text} | price


def _parts(question: Question, seen: Seen) -> list[Choice]:
    return [Choice(word, told) for word, told in question.told.items() if word in ("nothing", *seen.parts)]


BY_KIND: dict[Kind, Callable[[Question, Seen], list[Choice]]] = {"preset": _presets, "parts": _parts}
"""The choices of the sorts of answers that depend on what is there."""


def _edge_price(work: str, seen: Seen) -> dict[str, str]:
    """The price of an edge, with making its binding where it has one."""
    rates = seen.resolved.tables.rates
    if work == "none":
        return {}
    making = Fraction(0) if work in ("faced", "hem") else rates.binding.make.value
    return {"Price": _price(getattr(rates.binding, work).value + making, rates.binding_per, seen)}


def _price(price: Fraction, unit: str, seen: Seen) -> str:
    return f"{seen.notation.price(price)} {seen.resolved.tables.money.currency} {a_unit(unit)}"


def _source(question: Question, seen: Seen) -> str:
    """The comment of the sample shop on a figure."""
    comment = _comments(seen.units).get(question.path, "").removeprefix("a sample").removeprefix("sample").lstrip(", :")
    return f"the sample's figure: {comment}" if comment and question.kind != "cloth price" else "the sample's figure"


@cache
def _comments(units: str) -> dict[tuple[str | int, ...], str]:
    return {entry.path: entry.comment for entry in entries_of(sample_shop(units)[1].text)}
