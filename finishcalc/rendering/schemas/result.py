"""The JSON Schemas of the documents of a quote and of a shopping list, made from the tables of their keys."""

from collections.abc import Callable

from finishcalc.rendering.documents.keys import Keys, Row
from finishcalc.rendering.documents.keys_of_quote import CUSTOMER_ALONE, RESULT
from finishcalc.rendering.documents.keys_of_shopping import SHOPPING
from finishcalc.rendering.schemas.values import DIALECT, Schema
from finishcalc.wording.sentence import Audience

_NUMBER: Schema = {"type": "number"}
_DECIMAL: Schema = {"type": "string", "pattern": "^-?[0-9]+(?:\\.[0-9]+)?$"}
_PLAIN: dict[str, Schema] = {
    "text": {"type": "string"},
    "flag": {"type": "boolean"},
    "count": {"type": "integer"},
    "day": {"type": "string", "format": "date"},
    "money": _DECIMAL,
    "amount": _DECIMAL,
    "decimal": _DECIMAL,
    "percent": _DECIMAL,
    "anything by key": {"type": "object"},
}
_UNITS = {
    "length": "In the document's `units`.",
    "area": "In the document's `units`, squared.",
    "minutes": "In minutes.",
    "hours": "In hours.",
    "money": "In the currency of `quote`.",
    "amount": "In the `currency` of its entry.",
    "decimal": "In the currency of `quote`.",
    "percent": "In per cent.",
}


def result_schema(title: str, identifier: str) -> Schema:
    """Make the schema of the document: the customer's, or the studio's, which has more."""
    customer = _table({**RESULT, **CUSTOMER_ALONE}, "customer")
    studio = _table(RESULT, "studio")
    customer["properties"]["for"] |= {"enum": ["customer"]}
    studio["properties"]["for"] |= {"enum": ["studio"]}
    readers = {"customer": customer, "studio": studio}
    one_of = [{"$ref": f"#/$defs/{reader}"} for reader in readers]
    return {"$schema": DIALECT, "$id": identifier, "title": title, "oneOf": one_of, "$defs": readers}


def shopping_schema(title: str, identifier: str) -> Schema:
    """Make the schema of the document of a shopping list with its prices."""
    return {"$schema": DIALECT, "$id": identifier, "title": title, **_table(SHOPPING, "studio")}


def _table(keys: Keys, reader: Audience) -> Schema:
    """The keys that a reader's document has, all of them and no other."""
    properties = {key: _described(row, reader) for key, row in keys.items() if reader == "studio" or not row.studio}
    return {"type": "object", "properties": properties, "required": [*properties], "additionalProperties": False}


def _described(row: Row, reader: Audience) -> Schema:
    """The schema of a key, with its sentence, its unit, and when it is null."""
    kind = row.item.kind if row.item else row.kind
    null = f"Null {row.null}." if row.null else ""
    sentences = " ".join(filter(None, (row.sentence, _UNITS.get(kind, ""), null)))
    return {"description": sentences, **_value(row, reader)}


def _value(row: Row, reader: Audience) -> Schema:
    shape = _SHAPES.get(row.kind, _plain)(row, reader)
    if not row.null:
        return shape
    words = {"enum": [*shape["enum"], None]} if "enum" in shape else {}
    return shape | {"type": [shape["type"], "null"]} | words


def _plain(row: Row, _: Audience) -> Schema:
    return _PLAIN.get(row.kind, _NUMBER)


def _word(row: Row, _: Audience) -> Schema:
    return {"type": "string", "enum": list(row.words)}


def _keys(row: Row, reader: Audience) -> Schema:
    return _table(row.keys or {}, reader)


def _list(row: Row, reader: Audience) -> Schema:
    return {"type": "array", "items": _each(row, reader)}


def _by_name(row: Row, reader: Audience) -> Schema:
    return {"type": "object", "additionalProperties": _each(row, reader)}


def _each(row: Row, reader: Audience) -> Schema:
    return _value(row.item, reader) if row.item else _table(row.keys or {}, reader)


_SHAPES: dict[str, Callable[[Row, Audience], Schema]] = {
    "word": _word,
    "table": _keys,
    "list": _list,
    "by name": _by_name,
}
