"""The text of a project's file as a customer may read it: what is the studio's alone is left out."""

from finishcalc.counter.form.values import at
from finishcalc.intake.changes.shop_values import is_in_house
from finishcalc.intake.keypaths import KeyPath, TomlTable
from finishcalc.intake.source import Source
from finishcalc.model.files import ProjectFile
from finishcalc.wording.plain import plain

LEFT_OUT = "(the studio's own)"
"""Stands in place of a value that only the studio reads."""


def shown_lines(source: Source) -> list[str]:
    """Give the lines of a file that is TOML, with the values left out that the studio keeps to itself."""
    places = sorted({source.line_of(path): path for path in _paths(source.table, ())}.items())
    lines, shown, hides = source.text.rstrip("\n").split("\n"), list[str](), False
    starts = dict(places)
    for number, line in enumerate(lines, start=1):
        if number in starts:
            hides = is_in_house(ProjectFile, starts[number], at(source.table, starts[number]))
            shown.append(f"{line.partition('=')[0].rstrip()} = {LEFT_OUT}" if hides else line)
        elif not hides or not line.strip() or line.lstrip().startswith(("#", "[")):
            shown.append(line)
    return [plain(line) for line in shown]


def _paths(table: TomlTable, path: KeyPath) -> list[KeyPath]:
    """Give the path of every value that has a place of its own, those of tables before what is in them."""
    paths: list[KeyPath] = []
    for key, value in table.items():
        rows = value if isinstance(value, list) and any(isinstance(row, dict) for row in value) else [value]
        for number, row in enumerate(rows):
            inner: KeyPath = (*path, key) if rows is not value else (*path, key, number)
            paths += _paths(row, inner) if isinstance(row, dict) else [inner]
    return paths
