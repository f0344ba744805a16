"""The text of a project's file as a customer may read it: what is the studio's alone is left out."""

from collections.abc import Iterator

from finishcalc.counter.form.values import at, is_kept_back
from finishcalc.intake.keypaths import KeyPath, TomlTable
from finishcalc.intake.source import Source
from finishcalc.wording.plain import plain

LEFT_OUT = "(the studio's own)"
"""Stands in place of a value that only the studio reads."""


def shown_lines(source: Source) -> list[str]:
    """Give the lines of a file that is TOML, with the values left out that the studio keeps to itself. What follows one
    up to the next key is left out too, because it may be the rest of it; and so are the words of comments, which may
    say anything."""
    starts, shown, hides = _starts(source), list[str](), False
    for number, line in enumerate(source.text.rstrip("\n").split("\n"), start=1):
        if starts.get(number):
            before, sign, _ = line.partition("=")
            shown.append(f"{before.rstrip()} = {LEFT_OUT}" if sign else LEFT_OUT)
        elif number in starts or not hides:
            shown.append(_without_comment(line))
        hides = starts.get(number, hides)
    return [plain(line) for line in shown]


def _without_comment(line: str) -> str:
    """Give a line without the words of its comment, which begins at the first # outside of quotes."""
    quote = ""
    for place, sign in enumerate(line):
        if sign in "\"'" and quote in ("", sign):
            quote = "" if quote else sign
        elif sign == "#" and not quote:
            return f"{line[:place]}# …"
    return line


def _starts(source: Source) -> dict[int, bool]:
    """Find the lines in which a key or a table begins, and which of them give what is the studio's alone."""
    starts: dict[int, bool] = {}
    for path, is_value in _paths(source.table, ()):
        line = source.line_of(path)
        is_hidden = is_value and is_kept_back(path, at(source.table, path))
        starts[line] = starts.get(line, False) or is_hidden
    return starts


def _paths(table: TomlTable, path: KeyPath) -> Iterator[tuple[KeyPath, bool]]:
    """Give the path of every table, and of every value in it; and tell which is which."""
    yield path, False
    for key, value in table.items():
        rows = value if isinstance(value, list) and any(isinstance(row, dict) for row in value) else [value]
        for number, row in enumerate(rows):
            inner: KeyPath = (*path, key) if rows is not value else (*path, key, number)
            yield from _paths(row, inner) if isinstance(row, dict) else [(inner, True)]
