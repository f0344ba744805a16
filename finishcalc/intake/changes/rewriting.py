"""Writes a change into the text of a project, and keeps its layout and comments."""

import tomllib
from collections.abc import Callable
from decimal import Decimal
from typing import Any, NamedTuple

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Array, InlineTable, Table

from finishcalc.intake.changes.change import Change, changed
from finishcalc.intake.changes.comments import with_comments, with_keys_back
from finishcalc.intake.changes.headers import set_apart, with_comments_above, without_comments_above
from finishcalc.intake.keypaths import KeyPath, TomlTable, put_at, take_out, value_at
from finishcalc.intake.source import Source
from finishcalc.model.files import ProjectFile
from finishcalc.model.section import Section


class Layout(NamedTuple):
    """A layout of what is new: it makes a table, and a list of tables."""

    table: Callable[[], Table | InlineTable]
    list_of_tables: Callable[[], list[Any]]


UNDER_HEADERS = Layout(tomlkit.table, tomlkit.aot)
WITHIN_BRACES = Layout(tomlkit.inline_table, tomlkit.array)


def project_toml(source: Source, change: Change, keys: type[Section] = ProjectFile) -> str:
    """The text of a project, or of another file of these `keys`, with the change in it. Read again, it gives the
    changed project.

    A table goes under a header of its own, or within braces where the file's layout has no place for one. The
    whole project is written anew where neither holds the change. Comments always stay, and a key that was kept as a
    comment when it was taken out comes back on its own line.
    """
    text = source.text if source.text.endswith("\n") else source.text + "\n"
    return _changed_text(text, change, keys).replace("\n", source.line_end)


def _changed_text(text: str, change: Change, keys: type[Section]) -> str:
    wanted, _ = changed(_read(text), change, keys)
    text = with_keys_back(text, change.puts)
    bare, above = without_comments_above(text)
    written = (_rewritten(bare, change, layout, keys) for layout in (UNDER_HEADERS, WITHIN_BRACES))
    result = next((text for text in written if text and _says(text, wanted)), None) or _written_anew(wanted)
    commented = set_apart(text, with_comments(text, with_comments_above(result, above)))
    return commented if _says(commented, wanted) else result


def _read(text: str) -> TomlTable:
    return tomllib.loads(text, parse_float=Decimal)


def _says(text: str, wanted: TomlTable) -> bool:
    """Tell a text that is TOML and gives just this table, apart from empty tables."""
    try:
        return _without_empty_tables(_read(text)) == _without_empty_tables(wanted)
    except tomllib.TOMLDecodeError:
        return False


def _without_empty_tables(table: TomlTable) -> TomlTable:
    filled = {key: _without_empty_tables(value) if isinstance(value, dict) else value for key, value in table.items()}
    return {key: value for key, value in filled.items() if value != {}}


def _written_anew(table: TomlTable) -> str:
    return tomlkit.dumps({key: _decimals_quoted(value) for key, value in table.items()})


def _decimals_quoted(value: object) -> object:
    """The value with its exact decimals in quotes, as a file holds them."""
    if isinstance(value, dict):
        return {key: _decimals_quoted(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_decimals_quoted(item) for item in value]
    return str(value) if isinstance(value, Decimal) else value


def _rewritten(text: str, change: Change, layout: Layout, keys: type[Section]) -> str:
    """The text with the change; empty where its layout has no place for it."""
    document = tomlkit.parse(text)
    try:
        for path in change.drops:
            take_out(document, path)
        for path, value in change.puts:
            put_at(document, path, _item(document, path, value, layout), keys, *layout)
    except (TOMLKitError, ValueError, TypeError):
        return ""
    return tomlkit.dumps(document)


def _item(document: object, path: KeyPath, value: object, layout: Layout) -> object:
    """A value as the document takes it: a table under its own header, or within braces inside another in braces or in a
    row of a list; a list of tables in the layout of the one in its place, a new one under headers."""
    in_row = len(path) > 1 and isinstance(path[-2], int)
    within_braces = in_row or isinstance(value_at(document, path[:-1]), InlineTable)
    if isinstance(value, list) and value and all(isinstance(item, dict) for item in value):
        rows_in = WITHIN_BRACES if within_braces or isinstance(value_at(document, path), Array) else layout
        rows = rows_in.list_of_tables()
        rows.extend(_item(rows, (number,), row, rows_in) for number, row in enumerate(value))
        return rows
    if not isinstance(value, dict):
        return value
    table = tomlkit.inline_table() if within_braces else layout.table()
    inner = WITHIN_BRACES if isinstance(path[-1], int) else layout
    for key, item in value.items():
        table.add(key, _item(table, (key,), item, inner))
    return table
