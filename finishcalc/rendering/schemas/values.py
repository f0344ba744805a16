"""The form of a key's value as a JSON Schema: the types that TOML has for it, its limits, and the pattern of a text."""

from collections.abc import Callable
from fractions import Fraction
from math import ceil, floor
from typing import Any

from finishcalc.measures.length import Length
from finishcalc.measures.numbers import NUMBER
from finishcalc.measures.weight import OWN_UNIT, AreaWeight
from finishcalc.model.reading import Form

Schema = dict[str, Any]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""The dialect that all schemas are written in."""

_LENGTH_UNIT = r"(?:in|inch|inches|ft|foot|feet|yd|yds|yard|yards|mm|cm|m|[\"'″′])"
_AREA_WEIGHT_UNIT = r"(?:oz/sq yd|oz/yd2|oz/yd²|g/sq m|g/m2|g/m²|gsm)"
_DAY = r"[0-9]{4}-[0-9]{2}-[0-9]{2}"
PATTERNS = {
    "number": rf"^\s*{NUMBER}\s*$",
    "share": rf"^\s*{NUMBER}\s*%\s*$",
    "length": rf"^\s*{NUMBER}(?:\s*{_LENGTH_UNIT}(?:\s+{NUMBER}\s*{_LENGTH_UNIT})*)?\s*$",
    "weight": rf"^\s*{NUMBER}\s*(?:kg|g|oz|lbs?)(?:\s+{NUMBER}\s*(?:kg|g|oz|lbs?))*\s*$",
    "area weight": rf"^\s*{NUMBER}\s*{_AREA_WEIGHT_UNIT}?\s*$",
    "lead": r"^\s*[0-9]{1,3} *(?:day|week)s?\s*$",
    "closed days": rf"^\s*{_DAY}\s*(?:\.\.\s*{_DAY}\s*)?$",
}
"""The patterns of texts, by the kind of the value. They take all that is read, and some that only a reader refuses,
such as a fraction that divides by zero."""

UNITS = {
    "price": "Money, in the currency of `[money]`",
    "minutes": "Minutes",
    "share": 'A share, written as "25 %"',
    "length": "A length; a bare number is in the file's `units`",
    "weight": 'A weight with its unit, such as "2 lb" or "1.5 kg"',
    "area weight": "A weight by area; a bare number is in ounces a square yard, or in grams a square metre where "
    'the file\'s `units` are "cm"',
    "day": "A date, such as 2026-05-04",
    "lead": "Days or weeks",
}
"""The unit of each kind of value, in words."""


def value_schema(form: Form) -> Schema:
    """Make the schema of one value, or of several in a list or a table."""
    return _SCHEMAS.get(form.kind, _text)(form)


def written_as(kind: str) -> Schema:
    """Refer to the pattern of a kind of text, which stands in the schema once."""
    return {"$ref": f"#/$defs/{kind.replace(' ', '-')}"}


def pattern_schemas() -> Schema:
    """Make the schemas that `written_as` refers to."""
    return {kind.replace(" ", "-"): {"pattern": pattern} for kind, pattern in PATTERNS.items()}


def unit_of(form: Form) -> str:
    """Say the unit of a value, or of each of several; nothing for one without."""
    return UNITS.get(form.of_one.kind, "")


def _numeric(form: Form) -> Schema:
    """A number, or one in quotes, as "60 1/2" is."""
    limits = {"minimum": _at_least(Fraction(form.least)), "maximum": _at_most(Fraction(form.most))}
    return {"type": ["number", "string"], **limits, **written_as("number")}


def _length(form: Form) -> Schema:
    """A bare number is in inches or centimetres, so that its limits are those of either."""
    low, high = (Length.parse(limit) for limit in (form.least, form.most))
    return _measure(form.kind, [low.to(unit) for unit in ("in", "cm")], [high.to(unit) for unit in ("in", "cm")])


def _area_weight(form: Form) -> Schema:
    low, high = (AreaWeight.take(limit, "in") for limit in (form.least, form.most))
    units = OWN_UNIT.values()
    return _measure(form.kind, [low.to(unit) for unit in units], [high.to(unit) for unit in units])


def _measure(kind: str, least: list[Fraction], most: list[Fraction]) -> Schema:
    limits = {"minimum": _at_least(min(least)), "maximum": _at_most(max(most))}
    return {"type": ["number", "string"], **limits, **written_as(kind)}


def _count(form: Form) -> Schema:
    return _numeric(form) | {"type": ["integer", "string"]}


def _text(form: Form) -> Schema:
    """A text with the pattern of its kind, or of so many characters on one line."""
    if form.kind in PATTERNS:
        return {"type": "string", **written_as(form.kind)}
    return {"type": "string", "maxLength": int(form.most), "pattern": r"^[^\r\n]*$"}


def _notes(form: Form) -> Schema:
    return {"type": "string", "maxLength": int(form.most)}


def _flag(_: Form) -> Schema:
    return {"type": "boolean"}


def _day(_: Form) -> Schema:
    return {"type": "string", "format": "date"}


def _closed_days(form: Form) -> Schema:
    return {"anyOf": [_day(form), _text(form)]}


def _words(form: Form) -> Schema:
    return {"type": "array", "items": {"type": "string", "enum": list(form.words)}, "uniqueItems": True}


def _list(form: Form) -> Schema:
    return {"type": "array", "items": _item(form), "minItems": int(form.least), "maxItems": int(form.most)}


def _one_or_several(form: Form) -> Schema:
    return joined(_item(form), _list(form))


def _one_or_parts(form: Form) -> Schema:
    """One value, or a table of several."""
    parts = dict.fromkeys(form.words, _item(form))
    table = {"type": "object", "properties": parts, "required": [*parts], "additionalProperties": False}
    return joined(_item(form), table)


def joined(*schemas: Schema) -> Schema:
    """Join schemas of different types into one: each keyword speaks only of values of its own type, so that what is
    wrong is found where it stands, and not in a choice that fails as a whole."""
    types = [
        name
        for schema in schemas
        for name in (schema["type"] if isinstance(schema["type"], list) else [schema["type"]])
    ]
    merged = {key: value for schema in schemas for key, value in schema.items()}
    return {**merged, "type": types}


def _item(form: Form) -> Schema:
    if not form.item:
        raise AssertionError("a form of several has the form of each")
    return value_schema(form.item)


def _at_least(limit: Fraction) -> int | float:
    """A limit as JSON writes it, down to a ten-thousandth, so that nothing is refused that is right."""
    return _written(Fraction(floor(limit * 10_000), 10_000))


def _at_most(limit: Fraction) -> int | float:
    return _written(Fraction(ceil(limit * 10_000), 10_000))


def _written(limit: Fraction) -> int | float:
    return int(limit) if limit.denominator == 1 else float(limit)


_SCHEMAS: dict[str, Callable[[Form], Schema]] = {
    "number": _numeric,
    "price": _numeric,
    "minutes": _numeric,
    "count": _count,
    "length": _length,
    "area weight": _area_weight,
    "notes": _notes,
    "flag": _flag,
    "day": _day,
    "closed days": _closed_days,
    "words": _words,
    "list": _list,
    "one or several": _one_or_several,
    "one or parts": _one_or_parts,
}
