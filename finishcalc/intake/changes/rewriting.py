"""A changed project as a file of its own: the text that was there, comments and all, with the change written in."""

import tomllib
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import InlineTable

from finishcalc.intake.changes.change import Change, changed, put
from finishcalc.intake.changes.comments import with_comments
from finishcalc.intake.positions import KeyPath
from finishcalc.intake.source import Source
from finishcalc.model.files import ProjectFile

Make = Callable[[], Any]


def project_toml(source: Source, change: Change) -> str:
    """The text of the project with the change in it. Read again, it says what the change made of it.

    A table goes under a header of its own, or within braces where the file's layout has no place for one. What no
    layout holds is written anew. Comments are kept, whatever is taken away around them.
    """
    text = source.text if source.text.endswith("\n") else source.text + "\n"
    return _changed_text(text, change).replace("\n", source.line_end)


def _changed_text(text: str, change: Change) -> str:
    wanted, _ = changed(_read(text), change)
    written = (_rewritten(text, change, make) for make in (tomlkit.table, tomlkit.inline_table))
    found = next((each for each in written if each and _says(each, wanted)), None) or tomlkit.dumps(_plain(wanted))
    commented = with_comments(text, found)
    return commented if _says(commented, wanted) else found


def _read(text: str) -> dict[str, Any]:
    return tomllib.loads(text, parse_float=Decimal)


def _says(text: str, wanted: dict[str, Any]) -> bool:
    """Whether a text is TOML and says just this; tables with nothing in them do not matter."""
    try:
        return _full(_read(text)) == _full(wanted)
    except tomllib.TOMLDecodeError:
        return False


def _full(table: dict[str, Any]) -> dict[str, Any]:
    filled = {key: _full(value) if isinstance(value, dict) else value for key, value in table.items()}
    return {key: value for key, value in filled.items() if value != {}}


def _plain(value: Any) -> Any:
    """Numbers as a file holds them: exact decimals in quotes, which say the same."""
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_plain(item) for item in value]
    return str(value) if isinstance(value, Decimal) else value


def _rewritten(text: str, change: Change, make: Make) -> str:
    """The text with the change, or nothing where its layout does not take it."""
    document = tomlkit.parse(text)
    try:
        for path in change.drops:
            _drop(document, path)
        for path, value in change.puts:
            put(document, path, _item(document, path, value, make), ProjectFile, make)
    except (TOMLKitError, ValueError):
        return ""
    return tomlkit.dumps(document)


def _around(document: Any, path: KeyPath) -> Any:
    """The table in which a key stands, or None where there is none."""
    around = document
    for step in path[:-1]:
        around = around.get(step) if isinstance(around, dict) else None
    return around


def _drop(document: Any, path: KeyPath) -> None:
    """Take a key out, with the comment on its line."""
    holder = _around(document, path)
    if isinstance(holder, dict):
        holder.pop(str(path[-1]), None)


def _item(document: Any, path: KeyPath, value: Any, make: Make) -> Any:
    """A table as one of its own, or within braces where the table around it is so."""
    if not isinstance(value, dict):
        return value
    table = tomlkit.inline_table() if isinstance(_around(document, path), InlineTable) else make()
    for key, item in value.items():
        table.add(key, _item(table, (key,), item, make))
    if not isinstance(table, InlineTable):
        table.add(tomlkit.nl())
    return table
