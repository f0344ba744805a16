"""Values that are tried over the shop's."""

from finishcalc.intake.changes.change import Change, TriedSource, put_all
from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import KeyPath, TomlTable, value_at
from finishcalc.model.files import ShopFile
from finishcalc.model.section import KeySpec, Section, table_spec, within
from finishcalc.problems import Problem


def shop_values(change: Change, below: list[TomlTable], units: str) -> tuple[ShopFile, list[Problem]]:
    """The values that a change puts over the shop's keys, checked like a shop file, with the problems.

    A list, or a table that is taken whole, is changed in the first of the tables `below` that holds it.
    """
    given: TomlTable = {}
    for path, _ in change.shop_puts:
        whole = _whole(path)
        held = next((found for table in below if (found := value_at(table, whole)) is not None), None)
        if len(whole) < len(path) and held is not None and value_at(given, whole) is None:
            put_all(given, [(whole, held)], change.name, ShopFile)
    problems = put_all(given, change.shop_puts, change.name, ShopFile)
    values, found, _ = check(ShopFile, given, TriedSource(change.name, ""), units)
    return values, problems + found


def _whole(path: KeyPath) -> KeyPath:
    """The part of a path that leads to a thing that a file gives whole: a value, a list, a table of which all is
    needed."""
    for place, spec in enumerate(_specs(ShopFile, path)[1:], start=1):
        if spec is None or spec.kind in ("value", "entries", "rows") or _is_whole(spec):
            return path[:place]
    return path


def _is_whole(spec: KeySpec) -> bool:
    return spec.kind == "table" and bool(spec.section and spec.section.must_give)


def spec_at(section: type[Section], path: KeyPath) -> KeySpec | None:
    """What the model says of a key, by its path through tables, names and lists; None for no key that is known."""
    return _specs(section, path)[-1]


def is_in_house(section: type[Section], path: KeyPath, value: object) -> bool:
    """Tell a value under a path that is the studio's alone: the key is, or a table that it stands in, or a key within
    the value."""
    *around, spec = _specs(section, path)
    return any(map(_hidden, around)) or _tells(spec, value)


def _specs(section: type[Section], path: KeyPath) -> list[KeySpec | None]:
    """The tables that a path leads through, the last its key; None from where no key is known."""
    found: list[KeySpec | None] = [table_spec(section)]
    for step in path:
        found.append(within(found[-1], step))
    return found


def _hidden(spec: KeySpec | None) -> bool:
    return spec is not None and spec.in_house


def _tells(spec: KeySpec | None, value: object) -> bool:
    if _hidden(spec):
        return True
    if isinstance(value, dict):
        return any(_tells(within(spec, name), each) for name, each in value.items())
    return isinstance(value, list) and any(_tells(within(spec, 0), each) for each in value)
