"""The table of a project as the form leaves it, and the change that makes it out of the file's own."""

from collections.abc import Iterable, Iterator, Mapping
from copy import deepcopy

from finishcalc.counter.form.values import with_puts
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import KeyPath, TomlTable

NAME = "the form"
"""The name under which problems with values of the form are reported."""


def table_after(base: TomlTable, steps: Iterable[Mapping[str, object]]) -> TomlTable:
    """Give the table after the puts of some steps, one after another; `base` and the puts stay as they are."""
    table = deepcopy(base)
    for puts in steps:
        with_puts(table, deepcopy(dict(puts)).items())
    return table


def change_between(base: TomlTable, table: TomlTable) -> Change:
    """Give the change that makes a table out of the file's, and touches nothing that is the same in both."""
    drops, puts = list[KeyPath](), list[tuple[KeyPath, object]]()
    _compare_tables(base, table, (), drops, puts)
    return Change(NAME, tuple(drops), tuple(puts))


def _compare_tables(
    base: TomlTable, table: TomlTable, path: KeyPath, drops: list[KeyPath], puts: list[tuple[KeyPath, object]]
) -> None:
    drops += [(*path, key) for key in base if key not in table]
    for key, value in table.items():
        is_new_table = not path and key not in base and isinstance(value, dict) and value != {}
        old = {} if is_new_table else base.get(key)  # key by key, so that a later change may take one of them out
        _compare(old, value, (*path, key), drops, puts)


def _compare(old: object, new: object, path: KeyPath, drops: list[KeyPath], puts: list[tuple[KeyPath, object]]) -> None:
    """Compare two values at a path; tables key by key, lists of tables row by row."""
    if type(old) is type(new) and old == new:
        return
    if isinstance(old, dict) and isinstance(new, dict):
        _compare_tables(old, new, path, drops, puts)
    elif _are_rows(old) and _are_rows(new):
        _compare_rows(old, new, path, drops, puts)  # type: ignore[arg-type]
    else:
        puts.append((path, new))


def _are_rows(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(row, dict) for row in value)


def _compare_rows(
    old: list[TomlTable], new: list[TomlTable], path: KeyPath, drops: list[KeyPath], puts: list[tuple[KeyPath, object]]
) -> None:
    """Compare two lists of tables. Rows that were only taken out are dropped, the last first, so that numbers hold."""
    if len(new) < len(old):
        gone = list(_taken_out(old, new))
        if len(old) - len(gone) == len(new):
            drops += [(*path, number) for number in reversed(gone)]
        else:
            puts.append((path, new))
        return
    for number, row in enumerate(new):
        if number < len(old):
            _compare_tables(old[number], row, (*path, number), drops, puts)
        else:
            puts.append(((*path, number), row))


def _taken_out(old: list[TomlTable], new: list[TomlTable]) -> Iterator[int]:
    """Give the numbers of old rows that are not among the new, in their order."""
    kept = iter(new)
    following = next(kept, None)
    for number, row in enumerate(old):
        if row == following:
            following = next(kept, None)
        else:
            yield number
