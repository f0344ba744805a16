"""The fields of a project as values that can be compared, and the edit that a posted form makes."""

from collections.abc import Mapping, Sequence
from typing import Any

from finishcalc.counter.form.field import Field
from finishcalc.counter.form.fields import FIELDS
from finishcalc.counter.form.usual import UsualValues
from finishcalc.counter.form.values import YES, at, shown
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.keypaths import TomlTable
from finishcalc.rendering.writers.html import holdable

Form = Mapping[str, Sequence[str]]
"""The fields of a posted form: all values under each name."""
Ordered = dict[str, str]
"""The extras that are ordered, each with its number as it was typed; nothing for the usual number."""
Values = Mapping[str, str]
"""The texts that the fields of a form hold, by their names."""
EXTRAS = "charges.extras"
"""The field of the extras that are ordered."""
PRESETS = [key for key, field in FIELDS.items() if field.sort == "material"]
"""The fields that name a material's preset."""
QUANTITY = "quantity:"
"""Begins the name of the field for the number of an extra."""


def field_value(table: TomlTable, field: Field, usual: UsualValues) -> str:
    """Give what a field holds: nothing where the table says what is usual."""
    value = at(table, key_path(field.key))
    if field.sort == "flag":
        return usual.value(field.key) if value is None else shown(value)
    text = held(field, shown(value))
    if field.sort == "percent":
        return text.removesuffix("%").strip()
    is_word = field.sort in ("choice", "material")
    return "" if is_word and text == usual.value(field.key) else text


def held(field: Field, text: str) -> str:
    """Give a text as a browser's field holds it, so that a file that says it otherwise is not changed by a look: a line
    without line ends, notes with one sort of them, and signs that no page can hold written out."""
    if field.sort == "notes":
        return holdable(text.replace("\r\n", "\n").replace("\r", "\n"))
    return holdable(text.replace("\r", "").replace("\n", "").strip())


def field_values(table: TomlTable, usual: UsualValues) -> Values:
    """Give what the fields of the form hold; what is ordered by name, a line each, and by `quantity:NAME`."""
    values = {key: field_value(table, field, usual) for key, field in FIELDS.items() if field.sort != "extras"}
    extras = ordered(table)
    return values | {EXTRAS: "\n".join(extras)} | {f"{QUANTITY}{name}": number for name, number in extras.items()}


def posted_values(form: Form, before: Values) -> Values:
    """Give what the fields hold by a posted form. A field that was not posted is as it was, but for boxes, which are
    posted only if they are ticked."""
    values = {key: _text(form, field, before.get(key, "")) for key, field in FIELDS.items() if field.sort != "extras"}
    names = form.get(EXTRAS, ())
    numbers = {f"{QUANTITY}{name}": form.get(f"{QUANTITY}{name}", ("",))[0].strip() for name in names}
    return values | {EXTRAS: "\n".join(names)} | numbers


def _text(form: Form, field: Field, before: str) -> str:
    if field.sort == "flag":
        return YES if field.key in form else ""
    if field.key not in form:
        return before
    text = form[field.key][0].replace("\r\n", "\n")
    return text if field.sort == "notes" else text.strip()


def ordered(table: TomlTable) -> Ordered:
    """Give the extras that a table orders."""
    rows = at(table, ("charges", "extras"))
    named = [(_name(row), row) for row in rows] if isinstance(rows, list) else []
    return {name: shown(row.get("quantity")) if isinstance(row, dict) else "" for name, row in named if name}


def _name(row: Any) -> str:
    return shown(row.get("name") if isinstance(row, dict) else row)


def edit_of(before: Values, after: Values, table: TomlTable, usual: UsualValues) -> dict[str, object]:
    """Give the puts that take the fields of a form from one state to another: a text as it is typed, None for a field
    that is left empty. Of an extra of the `table` that stays, all that the form does not ask for stays too."""
    edit: dict[str, object] = {}
    for key, field in FIELDS.items():
        text = after.get(key, "")
        if field.sort == "extras":
            names = text.split("\n") if text else []
            numbers = {name: after.get(f"{QUANTITY}{name}", "") for name in names}
            if numbers != _numbers(before):
                edit[key] = _extras(numbers, table)
        elif held(field, text) != before.get(key, ""):
            is_flag, is_usual = field.sort == "flag", text == usual.value(key)
            edit[key] = (None if is_usual else bool(text)) if is_flag else text or None
    return _with_presets(edit, after, table, usual)


def _with_presets(edit: dict[str, object], after: Values, table: TomlTable, usual: UsualValues) -> dict[str, object]:
    """Name the preset of each material that is called something, because a name alone is another material."""
    named: dict[str, object] = {}
    for key in PRESETS:
        called = f"{key.removesuffix('.preset')}.name"
        if not after.get(called) or after.get(key) or not usual.value(key):
            continue
        if key in edit or (called in edit and at(table, key_path(key)) is None):
            named[key] = usual.value(key)
    return named | {key: value for key, value in edit.items() if key not in named}


def _numbers(values: Values) -> Ordered:
    return {name: values.get(f"{QUANTITY}{name}", "") for name in values.get(EXTRAS, "").split("\n") if name}


def _extras(numbers: Ordered, table: TomlTable) -> list[object] | None:
    rows = at(table, ("charges", "extras"))
    old = {_name(row): row for row in rows} if isinstance(rows, list) else {}
    return [_extra(name, number, old.get(name)) for name, number in numbers.items()] or None


def _extra(name: str, number: str, old: object) -> object:
    """Write an ordered extra: by its name alone where nothing more is said of it."""
    more = (
        {key: value for key, value in old.items() if key not in ("name", "quantity")} if isinstance(old, dict) else {}
    )
    quantity = {"quantity": number} if number else {}
    return {"name": name, **quantity, **more} if quantity or more else name
