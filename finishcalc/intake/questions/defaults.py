"""The answer that Enter gives: the shop's usual value, a sample figure, or what follows from another answer."""

from collections.abc import Callable, Mapping
from pathlib import PurePath
from types import MappingProxyType
from typing import NamedTuple

from finishcalc.intake import presets
from finishcalc.intake.keypaths import KeyPath, value_at
from finishcalc.intake.questions.question import Kind, Question
from finishcalc.intake.questions.reading import ALL_CLASSES, cloth_of, read, whole_or_text
from finishcalc.intake.questions.seen import Puts, Seen
from finishcalc.intake.source import STANDARD_INPUT


class Default(NamedTuple):
    """The answer of Enter as it is `shown`, empty for none; the values it puts, which are only a comment of the file
    where they are `kept` as they are in the layers below; and whether it is a sample figure."""

    shown: str
    puts: Mapping[KeyPath, object] = MappingProxyType({})
    kept: bool = False
    sample: bool = False


NO_DEFAULT = Default("")


def default_of(question: Question, seen: Seen) -> Default:
    """Give the default of a question; NO_DEFAULT for one that has to be answered or may be left out."""
    by_name = BY_NAME.get(question.name)
    if by_name:
        return by_name(question, seen)
    return BY_KIND[question.kind](question, seen) if question.kind in BY_KIND else NO_DEFAULT


def _units(question: Question, seen: Seen) -> Default:
    """The units of the shop file in use, else of a file that does not say its units."""
    shop = seen.resolved.shop_file
    given = shop.source.table.get("units") if shop and shop.source else None
    units = str(given) if given in presets.SYSTEMS else seen.units
    return Default(units, {question.path: units})


def _usual_word(question: Question, seen: Seen) -> Default:
    sourced = seen.sourced(question.path)
    return Default(str(sourced.value), {question.path: str(sourced.value)}) if sourced else NO_DEFAULT


def _currency(question: Question, seen: Seen) -> Default:
    """The sample's currency, as if it were typed."""
    code = str(seen.samples_currency)
    return Default(code, read(question, code, seen).puts)


def _usual_preset(question: Question, seen: Seen) -> Default:
    """The usual material. Where the shop has changed figures of it for its usual projects, the file leaves it to the
    shop, because to name it would bring the preset's own figures back."""
    path = (*question.path, "preset")
    sourced, values = seen.sourced(path), seen.resolved.layers.values
    if sourced is None:
        return NO_DEFAULT
    origins = [values[each].origin for each in seen.resolved.layers.paths(question.path) if each != path]
    is_changed = any(origin.layer == "shop file" and origin.at[0] == "usual" for origin in origins)
    return Default(str(sourced.value), {question.path: str(sourced.value)}, kept=is_changed)


def _drop(question: Question, seen: Seen) -> Default:
    shown = seen.length(question.path)
    number, _, unit = shown.rpartition(" ")
    return (
        Default(shown, {question.path: whole_or_text(number if unit == seen.units else shown)}) if shown else NO_DEFAULT
    )


def _parts(question: Question, seen: Seen) -> Default:
    tables = seen.resolved.tables
    brought = [part for part in seen.parts if getattr(tables, part).supplied_by == "customer"]
    puts: Puts = {(part, "supplied_by"): "customer" if part in brought else "shop" for part in seen.parts}
    return Default(", ".join(brought) or "nothing", puts)


def _title(question: Question, seen: Seen) -> Default:
    stem = PurePath(seen.file).stem if seen.file != STANDARD_INPUT else ""
    title = stem.replace("-", " ").replace("_", " ").strip()
    title = title[:1].upper() + title[1:]
    return Default(title, {question.path: title}) if title else NO_DEFAULT


def _charges(question: Question, seen: Seen) -> Default:
    return Default("yes")


def _quilting_by(question: Question, seen: Seen) -> Default:
    return Default(str(seen.resolved.tables.rates.quilting_per))


def _flag(question: Question, seen: Seen) -> Default:
    sourced = seen.sourced(question.path)
    return Default("yes" if sourced and sourced.value else "no", {question.path: bool(sourced and sourced.value)})


def _taxed(question: Question, seen: Seen) -> Default:
    classes = list(seen.resolved.tables.taxing.classes)
    word = next((word for word, stands_for in ALL_CLASSES.items() if stands_for == classes), "material")
    return Default(word, {question.path: ALL_CLASSES[word]})


def _sample(question: Question, seen: Seen) -> Default:
    """The sample's figure, which stays the sample's. None for the edge in another unit, whose samples mean nothing."""
    value = seen.as_given(question.path)
    if question.path[:2] == ("rates", "binding") and seen.edge_unit != seen.samples_edge_unit:
        return NO_DEFAULT
    return Default(str(value), {question.path: value}, kept=True, sample=True)


def _sample_rate(question: Question, seen: Seen) -> Default:
    value = seen.as_given((*question.path, "price"))
    shown = f"{value}/{seen.resolved.tables.rates.quilting_per}"
    return Default(shown, {question.path: value}, kept=True, sample=True)


def _sample_tax(question: Question, seen: Seen) -> Default:
    taxes = seen.as_given(question.path)
    shown = str(value_at(taxes[0], ("percent",))) if isinstance(taxes, list) and taxes else "0 %"
    return Default(shown, {question.path: taxes}, kept=True, sample=True)


def _sample_cloth(question: Question, seen: Seen) -> Default:
    cloth = cloth_of(question, seen)
    if cloth is None:
        return NO_DEFAULT
    path, name = cloth
    priced: KeyPath = (*path, "price")
    value = seen.as_given(priced)
    return Default(str(value), {("fabrics", name, "price"): value}, kept=True, sample=True)


BY_NAME: dict[str, Callable[[Question, Seen], Default]] = {
    "units": _units,
    "drop": _drop,
    "title": _title,
    "charges": _charges,
    "quilting-by": _quilting_by,
    "taxed": _taxed,
    "name": _sample,
}
"""The defaults of questions that have one of their own."""
BY_KIND: dict[Kind, Callable[[Question, Seen], Default]] = {
    "choice": _usual_word,
    "preset": _usual_preset,
    "parts": _parts,
    "flag": _flag,
    "currency": _currency,
    "price": _sample,
    "share": _sample,
    "rate": _sample_rate,
    "tax": _sample_tax,
    "cloth price": _sample_cloth,
}
"""The defaults of other questions, by the sort of their answers."""
