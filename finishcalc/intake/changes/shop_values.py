"""Values that are tried over what the shop says."""

from copy import deepcopy
from typing import Any

from finishcalc.intake.changes.change import Change, TriedSource, put_all
from finishcalc.intake.checking import check
from finishcalc.intake.layers import Values
from finishcalc.intake.positions import Path
from finishcalc.intake.shop_file import SHOP_FILE
from finishcalc.intake.table import Key, Kind, ListOf, Rows, Table, within
from finishcalc.problems import Problem


def shop_values(change: Change, below: list[dict[str, Any]], units: str) -> tuple[Values, list[Problem]]:
    """What a change puts over the shop's keys, checked like a shop file, with the problems.

    A list, or a table that is taken whole, is changed in the first of the tables `below` that holds it.
    """
    given: dict[str, Any] = {}
    for path, _ in change.shop_puts:
        whole = _whole(path)
        held = next((found for table in below if (found := _at(table, whole)) is not None), None)
        if len(whole) < len(path) and held is not None and _at(given, whole) is None:
            put_all(given, [(whole, deepcopy(held))], change.name, SHOP_FILE)
    problems = put_all(given, change.shop_puts, change.name, SHOP_FILE)
    values, found, _ = check(SHOP_FILE, given, TriedSource(change.name, ""), units)
    return values, problems + found


def _whole(path: Path) -> Path:
    """The part of a path that leads to what a file gives whole: a value, a list, a table of which all is needed."""
    kind: Kind | None = SHOP_FILE
    for place, step in enumerate(path):
        kind = within(kind, step)
        if kind is None or isinstance(kind, (Key, ListOf, Rows)) or (isinstance(kind, Table) and kind.whole):
            return path[: place + 1]
    return path


def _at(table: Any, path: Path) -> Any:
    """The value at a path of tables, or None."""
    for step in path:
        table = table.get(step) if isinstance(table, dict) else None
    return table


def kind_at(table: Table, path: Path) -> Kind | None:
    """What a key is, by its path through tables, names and lists; None for no key that is known."""
    return _kinds(table, path)[-1]


def is_in_house(table: Table, path: Path, value: Any) -> bool:
    """Whether a value under a path tells of anything that is the studio's alone: the key, one it stands in, or one
    within the value."""
    *around, kind = _kinds(table, path)
    return any(map(_hidden, around)) or _tells(kind, value)


def _kinds(table: Table, path: Path) -> list[Kind | None]:
    """The kinds that a path leads through, the last that of its key; None from where no key is known."""
    kinds: list[Kind | None] = [table]
    for step in path:
        kinds.append(within(kinds[-1], step))
    return kinds


def _hidden(kind: Kind | None) -> bool:
    return isinstance(kind, (Key, ListOf)) and kind.in_house


def _tells(kind: Kind | None, value: Any) -> bool:
    if _hidden(kind):
        return True
    if isinstance(value, dict):
        return any(_tells(within(kind, name), each) for name, each in value.items())
    return isinstance(value, list) and any(_tells(within(kind, 0), each) for each in value)
