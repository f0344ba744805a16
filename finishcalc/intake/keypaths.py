"""Key paths, and the values at them in tables as TOML gives them."""

from collections.abc import Callable
from datetime import date, datetime, time
from decimal import Decimal
from itertools import pairwise
from typing import Any

from finishcalc.model.section import KeySpec, Section, table_spec, within

KeyPath = tuple[str | int, ...]
"""The names of keys, and the numbers of list items counted from 0, that lead to a value."""
TomlValue = str | int | bool | Decimal | datetime | date | time | list["TomlValue"] | dict[str, "TomlValue"]
TomlTable = dict[str, TomlValue]


def starts_with(path: KeyPath, start: KeyPath) -> bool:
    """Tell a path that leads to another path's value or into it."""
    return path[: len(start)] == start


def value_at(table: object, path: KeyPath) -> object:
    """The value at a path of tables; None where none stands there."""
    for step in path:
        table = table.get(step) if isinstance(table, dict) else None
    return table


def take_out(table: object, path: KeyPath) -> None:
    """Take the value at a path of tables and lists out of what holds it, if there is one; later items of a list move
    up."""
    holder: Any = table
    try:
        for step in path[:-1]:
            holder = holder[step]
        if isinstance(holder, dict | list):
            del holder[path[-1]]  # type: ignore[arg-type]
    except (LookupError, TypeError):
        return


def replace_at(table: object, path: KeyPath, value: object) -> bool:
    """Put another value in place of the one at a path of tables and lists. Gives false where none stands there."""
    holder: Any = table
    try:
        for step in path[:-1]:
            holder = holder[step]
        if not isinstance(holder, dict | list) or holder[path[-1]] == value:  # type: ignore[index]
            return False
        holder[path[-1]] = value  # type: ignore[index]
    except (LookupError, TypeError):
        return False
    return True


def put_at(
    table: TomlTable,
    path: KeyPath,
    value: object,
    keys: type[Section],
    new_table: Callable[[], object] = dict,
    new_list_of_tables: Callable[[], object] = list,
) -> None:
    """Put a value at a path of tables and lists. A missing table on the way is made with `new_table`, a missing list of
    tables with `new_list_of_tables`; the next item of a list is appended; a shorthand, such as a preset's name, becomes
    its table.

    Raises TypeError, LookupError or AttributeError for a path that leads nowhere.
    """
    holder: Any = table
    spec: KeySpec | None = table_spec(keys)
    for depth, (step, next_step) in enumerate(pairwise(path)):
        spec, inner = within(spec, step), _inner(holder, step)
        if inner is None and isinstance(next_step, str):
            _set(holder, step, {} if isinstance(holder, list) else new_table())
        elif inner is None:
            holds_tables = isinstance(path[depth + 2], str) if depth + 2 < len(path) else isinstance(value, dict)
            _set(holder, step, new_list_of_tables() if holds_tables else [])
        elif spec and spec.kind == "table" and spec.section and not isinstance(inner, dict):
            _set(holder, step, spec.section.shorthand(inner))
        holder = holder[step]  # a document keeps a table of its own making, not the one that was put in
    _set(holder, path[-1], value)


def _inner(holder: Any, step: str | int) -> object:
    """The value at a step, or None where one may be added. Raises TypeError and LookupError for any other step."""
    if isinstance(holder, list) and step == len(holder):
        return None
    return holder.get(step) if isinstance(holder, dict) else holder[step]


def _set(holder: Any, step: Any, value: object) -> None:
    if not isinstance(holder, dict if isinstance(step, str) else list):
        raise TypeError("neither a table nor a list")
    if isinstance(holder, list) and step == len(holder):
        holder.append(value)
    else:
        _inner(holder, step)
        holder[step] = value
