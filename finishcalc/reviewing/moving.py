"""Moves a figure by a share of itself, and writes it as a file would: exactly, so that whoever writes it gets the same.

A list of tables, as the packages of a batting are, moves by the money or the minutes in each of its rows, or by their
shares where they have neither.
"""

from fractions import Fraction
from typing import Any

from finishcalc.intake.keypaths import value_at
from finishcalc.intake.layers import Sourced
from finishcalc.measures.length import MM_PER, Length
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.rounding import half_up
from finishcalc.measures.weight import AreaWeight, Weight
from finishcalc.model.reading import Form
from finishcalc.model.section import Figure, KeySpec, Section, specs
from finishcalc.wording.notation import rounded

MOVABLE = ("number", "price", "minutes", "share", "length", "weight", "area weight")
"""The kinds of values that may be a tenth off; a count or a day may not."""
IN_ROWS = (("price", "minutes"), ("share",))
"""The kinds of values that move in the rows of a list: the first of these that a row has."""
DECIMALS = {"price": 6, "share": 3}
"""The most decimals that a file may give; a value that would have more goes to the nearest that has not."""
DIGITS = 9
"""The most decimals that a number is written with; any other is written as a fraction."""


def moves(sourced: Sourced, units: str = "in") -> bool:
    """Tell a value that may be some per cent off: one that holds a number, and more than nothing."""
    double = Fraction(2)
    return as_written(sourced, units) is not None and moved(sourced, double, units) != as_written(sourced, units)


def as_written(sourced: Sourced, units: str = "in") -> object:
    """The value of a key as a file writes it; None for one that does not move. A length is in the unit it stands in;
    `units` are those of a file that says none."""
    return moved(sourced, Fraction(1), units)


def moved(sourced: Sourced, factor: Fraction, units: str = "in") -> object:
    """The value of a key times a factor, as `as_written` writes it."""
    value, spec, said = sourced.value, sourced.spec, sourced.origin.source.table.get("units")
    units = said if isinstance(said, str) and said in MM_PER else units
    if spec.kind == "entries" and spec.section:
        return [_row(row, factor, units) for row in value]
    if spec.key is None or spec.most:
        return None
    return _of_form(value, spec.key.form, factor, _unit(sourced, units))


def _unit(sourced: Sourced, units: str) -> str:
    """The unit in which the file writes the value, where it is a length."""
    raw = value_at(sourced.origin.source.table, sourced.origin.at)
    try:
        return Length.unit_of(raw, units)
    except MeasureError:
        return units


def _row(row: Section, factor: Fraction, units: str) -> dict[str, object]:
    """A row of a list with its money or minutes moved. What is quicker takes less time: speeds move the other way."""
    given = {name: spec for name, spec in specs(type(row)).items() if getattr(row, name) is not None}
    kinds = next((kinds for kinds in IN_ROWS if any(_kind(spec) in kinds for spec in given.values())), ())
    if getattr(row, "speed", None) is not None:
        factor = 1 / factor
    return {
        name: _in_file(getattr(row, name), spec, factor if _kind(spec) in kinds else Fraction(1), units)
        for name, spec in given.items()
        if name in row.model_fields_set
    }


def _kind(spec: KeySpec) -> str:
    return spec.key.form.of_one.kind if spec.key else ""


def _in_file(value: Any, spec: KeySpec, factor: Fraction, units: str) -> object:
    """The value of a key in a row as a file writes it, moved or as it is."""
    bare = value.value if isinstance(value, Figure) else value
    if isinstance(bare, tuple) and spec.key and spec.key.form.kind == "words":
        return list(bare)
    number = _of_form(bare, spec.key.form, factor, units) if spec.key else None
    return bare if number is None else number


def _of_form(value: Any, form: Form, factor: Fraction, units: str) -> object:
    if form.kind == "one or parts" and form.item:
        parts = {name: _of_form(part, form.item, factor, units) for name, part in zip(form.words, value, strict=True)}
        first, *others = parts.values()
        return first if all(other == first for other in others) else parts
    if form.kind not in MOVABLE:
        return None
    return written(_times(value, factor), form.kind, units)


def _times(value: Any, factor: Fraction) -> Any:
    if isinstance(value, AreaWeight):
        return AreaWeight(value.grams_a_sq_m * factor)
    return Weight(value.grams * factor) if isinstance(value, Weight) else value * factor


def written(value: Any, kind: str, units: str) -> str:
    """Write a value of a kind as a file does, a measure with its unit."""
    if isinstance(value, (Length, Weight, AreaWeight)):
        candidates = {"length": (units, "mm"), "weight": ("oz", "g"), "area weight": ("oz/sq yd", "g/sq m")}[kind]
        unit = next((unit for unit in candidates if _ends(value.to(unit))), candidates[0])
        return f"{_number(value.to(unit))} {unit}"
    if kind == "share":
        return f"{_number(_nearest(value * 100, kind))} %"
    return _number(_nearest(value, kind) if kind in DECIMALS else value)


def _nearest(amount: Fraction, kind: str) -> Fraction:
    return Fraction(half_up(amount * 10 ** DECIMALS[kind]), 10 ** DECIMALS[kind])


def _ends(amount: Fraction) -> bool:
    scaled: Fraction = amount * 10**DIGITS
    return scaled.denominator == 1


def _number(amount: Fraction) -> str:
    """A number with all its decimals; as a fraction where they do not end."""
    if not _ends(amount):
        return f"{amount.numerator}/{amount.denominator}"
    text = rounded(amount, DIGITS)
    return text.rstrip("0").rstrip(".")
