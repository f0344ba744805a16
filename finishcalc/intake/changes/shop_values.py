"""Values that are tried in place of the shop's."""

from itertools import pairwise

from finishcalc.intake.changes.change import Change, TriedSource, put_all
from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import KeyPath, TomlTable, value_at
from finishcalc.model.files import ShopFile
from finishcalc.model.section import KeySpec, Section, table_spec, within
from finishcalc.problems import Problem


def shop_values(change: Change, below: list[TomlTable], units: str) -> tuple[ShopFile, list[Problem]]:
    """The values that a change puts over the shop's keys, checked like a shop file, with the problems.

    A list, or a table that must be complete, is first copied from the first of the tables `below` that holds it.
    """
    given: TomlTable = {}
    for path, _ in change.shop_puts:
        unit = _unit_of(path)
        own = next((value for table in below if (value := value_at(table, unit)) is not None), None)
        if len(unit) < len(path) and own is not None and value_at(given, unit) is None:
            put_all(given, [(unit, own)], change.name, ShopFile)
    problems = put_all(given, change.shop_puts, change.name, ShopFile)
    values, more, _ = check(ShopFile, given, TriedSource(change.name, ""), units)
    return values, problems + more


def _unit_of(path: KeyPath) -> KeyPath:
    """The part of a path that leads to the smallest unit a file can give: a value, a list, or a table that must be
    complete or that replaces the one below it."""
    for depth, (around, spec) in enumerate(pairwise(_specs(ShopFile, path)), start=1):
        if spec is None or spec.kind in ("value", "entries", "rows") or _must_be_complete(spec):
            return path[:depth]
        if around and around.section and path[depth - 1] in around.section.takes_away.get(str(path[depth - 1]), ()):
            return path[:depth]
    return path


def _must_be_complete(spec: KeySpec) -> bool:
    return spec.kind == "table" and bool(spec.section and spec.section.must_give)


def spec_at(section: type[Section], path: KeyPath) -> KeySpec | None:
    """The spec of a key, by its path through tables, names and lists; None for an unknown key."""
    return _specs(section, path)[-1]


def is_in_house(section: type[Section], path: KeyPath, value: object) -> bool:
    """Tell a value that is the studio's alone, because its key, a table around it or a key within it is in
    house."""
    *tables, spec = _specs(section, path)
    return any(map(_hidden, tables)) or _gives_away(spec, value)


def _specs(section: type[Section], path: KeyPath) -> list[KeySpec | None]:
    """The specs of the tables that a path leads through, and of its key; None from an unknown key on."""
    specs: list[KeySpec | None] = [table_spec(section)]
    for step in path:
        specs.append(within(specs[-1], step))
    return specs


def _hidden(spec: KeySpec | None) -> bool:
    return spec is not None and spec.in_house


def _gives_away(spec: KeySpec | None, value: object) -> bool:
    if _hidden(spec):
        return True
    if isinstance(value, dict):
        return any(_gives_away(within(spec, name), item) for name, item in value.items())
    return isinstance(value, list) and any(_gives_away(within(spec, 0), item) for item in value)
