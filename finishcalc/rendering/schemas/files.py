"""The JSON Schema of a file that people write, made from the model: a table's class, a key's line, its sentence.

It takes every file that we take, and refuses unknown keys, wrong types and wrong choices. Rules between keys are left
to the reader.
"""

from collections.abc import Iterable, Mapping, Sequence
from inspect import get_annotations
from typing import NamedTuple

from finishcalc.model.files import MATERIALS
from finishcalc.model.section import KeySpec, Section, specs
from finishcalc.rendering.schemas.values import DIALECT, Schema, joined, pattern_schemas, unit_of, value_schema


class Words(NamedTuple):
    """The words that stand in no model: the `sentences` of keys, by the module and the class that declare them, and the
    names of `presets` by their kind, which an editor may propose."""

    sentences: Mapping[str, Mapping[str, Mapping[str, str]]]
    presets: Mapping[str, Sequence[str]]


def file_schema(file: type[Section], title: str, identifier: str, words: Words) -> Schema:
    """Make the schema of a file: its own keys, and below them every table that it may hold."""
    tables = {_name(table): _table_schema(table, words) for table in tables_of(file) if table is not file}
    own = _table_schema(file, words)
    return {
        "$schema": DIALECT,
        "$id": identifier,
        "title": title,
        **own,
        "$defs": pattern_schemas() | dict(sorted(tables.items())),
    }


def tables_of(file: type[Section]) -> list[type[Section]]:
    """Give the classes of a file and of every table in it, each once."""
    found: dict[type[Section], None] = {}
    waiting = [file]
    while waiting:
        table = waiting.pop()
        if table not in found:
            found[table] = None
            waiting += [spec.section for spec in specs(table).values() if spec.section]
    return list(found)


def home_of(table: type[Section], key: str) -> tuple[str, str]:
    """Name the module and the class that declare a key."""
    home = next(base for base in table.__mro__ if key in get_annotations(base))
    return home.__module__.rpartition(".")[2], home.__name__


def _table_schema(table: type[Section], words: Words) -> Schema:
    keys = {key: _key_schema(table, key, spec, words) for key, spec in specs(table).items()}
    required = [key for key in keys if key in table.must_give and key not in table.filled]
    needs = {"required": required} if required else {}
    whole: Schema = {"type": "object", "properties": keys, **needs, "additionalProperties": False}
    described = {"description": _paragraph(table)}
    if not table.short:
        return described | whole
    return described | joined(_of_short(table), whole) | _proposed(table, words)


def _proposed(table: type[Section], words: Words) -> Schema:
    """The names of presets that may stand for a table; a shop may have names of its own."""
    names = next((words.presets[kind] for kind, model in MATERIALS.items() if issubclass(table, model)), ())
    return {"examples": list(names)} if names else {}


def _of_short(table: type[Section]) -> Schema:
    """The schema of a plain value that stands for a table."""
    key = specs(table)[table.short].key
    if key is None:
        raise AssertionError(f"{table.__name__}.{table.short} is no plain value")
    return value_schema(key.form)


def _key_schema(table: type[Section], key: str, spec: KeySpec, words: Words) -> Schema:
    module, home = home_of(table, key)
    return {"description": " ".join(_description(words.sentences[module][home][key], spec)), **_shape(spec)}


def _description(sentence: str, spec: KeySpec) -> Iterable[str]:
    """The sentence of a key, then its unit, and that it is the studio's alone."""
    yield sentence
    if spec.key and (unit := unit_of(spec.key.form)):
        per = (
            f", for each `{spec.per.keys[-1]}`"
            if spec.per and spec.key.form.of_one.kind in ("price", "minutes")
            else ""
        )
        yield f"{unit}{per}."
    if spec.in_house:
        yield "The studio's alone: no customer sees it."


def _shape(spec: KeySpec) -> Schema:
    """The schema of a key's value: a choice, a plain value, a table, a list, or tables by name."""
    if spec.choices:
        return {"type": "string", "enum": list(spec.choices)}
    if spec.section is None:
        return _plain(spec)
    inner: Schema = {"$ref": f"#/$defs/{_name(spec.section)}"}
    if spec.kind == "table":
        return inner
    if spec.kind == "named":
        return {"type": "object", "additionalProperties": inner, "maxProperties": spec.most}
    several: Schema = {"type": "array", "items": inner, "maxItems": spec.most}
    return {"anyOf": [inner, several]} if spec.one_or_several else several


def _plain(spec: KeySpec) -> Schema:
    if spec.key is None:
        raise AssertionError("a key without a table or choices has a form")
    one = value_schema(spec.key.form)
    return {"type": "array", "items": one, "maxItems": spec.most} if spec.most else one


def _name(table: type[Section]) -> str:
    return f"{table.__module__.rpartition('.')[2]}.{table.__name__}"


def _paragraph(table: type[Section]) -> str:
    """The first paragraph of a table's docstring, on one line."""
    return " ".join((table.__doc__ or "").split("\n\n")[0].split())
