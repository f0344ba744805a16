"""Changes that are tried on a project file: values are taken out of it, and others are put in.

The changed file is checked by the same model and the same rules as any. Only its problems bear the name of the
change, and `rewriting.py` writes the very same change into the file's own text.
"""

from collections.abc import Iterable
from copy import deepcopy
from typing import NamedTuple

from finishcalc.intake.keypaths import KeyPath, TomlTable, put_at, starts_with, take_out
from finishcalc.intake.source import Source, dotted
from finishcalc.model.files import ProjectFile
from finishcalc.model.section import Section
from finishcalc.problems import Problem, ProblemCode


class Change(NamedTuple):
    """A change to try: first the values at `drops` are taken out, then each of `puts` is put at its key path; each of
    `shop_puts` replaces the shop's value. Its problems are reported under `name`."""

    name: str
    drops: tuple[KeyPath, ...] = ()
    puts: tuple[tuple[KeyPath, object], ...] = ()
    shop_puts: tuple[tuple[KeyPath, object], ...] = ()

    def over(self, below: "Change") -> "Change":
        """This change made after `below`, without the values of `below` that this one takes out again."""
        puts = tuple(
            (path, value) for path, value in below.puts if not any(starts_with(path, drop) for drop in self.drops)
        )
        return Change(self.name, below.drops + self.drops, puts + self.puts, below.shop_puts + self.shop_puts)

    def and_also(self, other: "Change") -> "Change":
        """Both changes, the other one after this."""
        puts, shop_puts = self.puts + other.puts, self.shop_puts + other.shop_puts
        return Change(self.name or other.name, self.drops + other.drops, puts, shop_puts)


def changed(data: TomlTable, change: Change, keys: type[Section] = ProjectFile) -> tuple[TomlTable, list[Problem]]:
    """The table of a file of these `keys` with the change made, and a problem for every path that leads nowhere; `data`
    stays as it is."""
    result = deepcopy(data)
    for path in change.drops:
        take_out(result, path)
    return result, put_all(result, change.puts, change.name, keys)


def put_all(table: TomlTable, puts: Iterable[tuple[KeyPath, object]], name: str, keys: type[Section]) -> list[Problem]:
    """Put each value at its path in a table of these `keys`. Gives a problem, with `name` for its file, for every
    path that leads nowhere."""
    problems = []
    for path, value in puts:
        try:
            put_at(table, path, deepcopy(value), keys)
        except (TypeError, LookupError, AttributeError):
            hint = "items count from 1, and only tables and lists hold others"
            problems.append(Problem(ProblemCode.NO_SUCH_PLACE, name, 0, 0, dotted(path), "is not in the file", hint))
    return problems


class ChangedSource(Source):
    """A project file with a change: a changed value has no line, and its problems bear the name of the change."""

    def __init__(self, source: Source, change: Change) -> None:
        super().__init__(source.name, source.text)
        self.change = change

    def problem(self, code: ProblemCode, path: KeyPath, message: str, hint: str = "") -> Problem:
        """A problem with a key: of the change, or of the file."""
        if self._is_changed(path):
            return Problem(code, self.change.name, 0, 0, dotted(path), message, hint)
        return super().problem(code, path, message, hint)

    def line_of(self, path: KeyPath) -> int:
        """The line of a key of the file; 0 for a changed value."""
        return 0 if self._is_changed(path) else super().line_of(path)

    def where(self, path: KeyPath) -> str:
        """The place of a key, in words."""
        return f"in {self.change.name}" if self._is_changed(path) else super().where(path)

    def holds(self, path: KeyPath) -> bool:
        """Tell a key that the file or the change itself gives."""
        return path in self._put_paths() or (not self._is_changed(path) and super().holds(path))

    def _is_changed(self, path: KeyPath) -> bool:
        """Tell a path that leads into a changed value, to a list with a changed item, or to a table that only the
        change gives."""
        return any(starts_with(path, put) or self._holds_only(path, put) for put in self._put_paths())

    def _holds_only(self, path: KeyPath, put: KeyPath) -> bool:
        """Tell a path to a list or table around a changed value that the file itself does not have."""
        return starts_with(put, path) and (isinstance(put[len(path)], int) or not super().holds(path))

    def _put_paths(self) -> list[KeyPath]:
        return [path for path, _ in self.change.puts]


class TriedSource(Source):
    """Values that stand in no file: their problems bear the name of the change."""

    def problem(self, code: ProblemCode, path: KeyPath, message: str, hint: str = "") -> Problem:
        """A problem with a key, without a line."""
        return Problem(code, self.name, 0, 0, dotted(path), message, hint)

    def line_of(self, path: KeyPath) -> int:
        """Always 0, because the values stand in no file."""
        return 0

    def where(self, path: KeyPath) -> str:
        """The place of a key, in words."""
        return f"in {self.name}"

    def holds(self, path: KeyPath) -> bool:
        """Always true, because the command line gives every key of these values."""
        return True
