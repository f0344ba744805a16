"""A changed project as a file of its own: the text that was there, comments and all, with the change written in."""

import tomllib
from typing import Any, cast

import tomlkit
from tomlkit.items import InlineTable, Table

from finishcalc.intake.changes import Change, changed, put
from finishcalc.intake.positions import Path
from finishcalc.intake.reading import Source


def project_toml(source: Source, change: Change) -> str:
    """The text of the project with the change in it. Read again, it says what the change made of it."""
    document = tomlkit.parse(source.text)
    for path in change.drops:
        _drop(document, path)
    for path, value in change.puts:
        put(document, path, _item(document, path, value))
    text = tomlkit.dumps(document)
    if tomllib.loads(text) != changed(tomllib.loads(source.text), change):
        raise AssertionError(f"{source.name} was not changed as it should be")
    return text


def _drop(document: Any, path: Path) -> None:
    """Take a key out, with the comment on its line."""
    holder = document
    for step in path[:-1]:
        holder = holder.get(step) if isinstance(holder, (dict, Table, InlineTable)) else None
    if isinstance(holder, dict):
        holder.pop(cast(str, path[-1]), None)


def _item(document: Any, path: Path, value: Any) -> Any:
    """A table as one of its own, or within braces where the table around it is so."""
    if not isinstance(value, dict):
        return value
    around = document
    for step in path[:-1]:
        around = around.get(step) if isinstance(around, dict) else None
    table: Any = tomlkit.inline_table() if isinstance(around, InlineTable) else tomlkit.table()
    for key, item in value.items():
        table.add(key, _item(table, (key,), item) if isinstance(item, dict) else item)
    if not isinstance(table, InlineTable):
        table.add(tomlkit.nl())
    return table
