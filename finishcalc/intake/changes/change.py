"""Changes that are tried on a project file: what it gives is taken out, and other values are put in.

The changed file goes the same way as any: the same tables check it and the same rules. Only its problems are told
under the name of the change, and `rewriting.py` writes the very same change into the file's own text.
"""

from collections.abc import Callable, Iterable
from copy import deepcopy
from typing import Any, NamedTuple

from finishcalc.intake.positions import KeyPath
from finishcalc.intake.source import Source, dotted
from finishcalc.model.files import ProjectFile
from finishcalc.model.section import KeySpec, Section, table_spec, within
from finishcalc.problems import Problem, ProblemCode


class Change(NamedTuple):
    """What is tried: first the values at `drops` are taken out, then each of `puts` is put at its key path, and each of
    `shop_puts` over what the shop says. `name` is what its problems are told under."""

    name: str
    drops: tuple[KeyPath, ...] = ()
    puts: tuple[tuple[KeyPath, Any], ...] = ()
    shop_puts: tuple[tuple[KeyPath, Any], ...] = ()

    def over(self, below: "Change") -> "Change":
        """This change on what `below` made of the file: what this takes out, `below` need not put in."""
        puts = tuple(
            (path, value) for path, value in below.puts if not any(path[: len(drop)] == drop for drop in self.drops)
        )
        return Change(self.name, below.drops + self.drops, puts + self.puts, below.shop_puts + self.shop_puts)

    def and_also(self, other: "Change") -> "Change":
        """Both changes, the other one after this."""
        puts, shop_puts = self.puts + other.puts, self.shop_puts + other.shop_puts
        return Change(self.name or other.name, self.drops + other.drops, puts, shop_puts)


def changed(data: dict[str, Any], change: Change) -> tuple[dict[str, Any], list[Problem]]:
    """A file's table with the change made, and a problem for every path that leads nowhere; `data` stays as it is."""
    result = deepcopy(data)
    for path in change.drops:
        holder = _holder(result, path)
        if isinstance(holder, dict):
            holder.pop(path[-1], None)
    return result, put_all(result, change.puts, change.name, ProjectFile)


def put_all(
    table: dict[str, Any], puts: Iterable[tuple[KeyPath, Any]], name: str, keys: type[Section]
) -> list[Problem]:
    """Put each value at its path in a table of these `keys`. Gives a problem, told under `name`, for every path that
    leads nowhere."""
    problems = []
    for path, value in puts:
        try:
            put(table, path, deepcopy(value), keys)
        except (TypeError, LookupError, AttributeError):
            hint = "items count from 1, and only tables and lists hold others"
            problems.append(Problem(ProblemCode.NO_SUCH_PLACE, name, 0, 0, dotted(path), "is not in the file", hint))
    return problems


def put(table: Any, path: KeyPath, value: Any, keys: type[Section], make: Callable[[], Any] = dict) -> None:
    """Put a value at a path of tables and lists, with the tables on the way that are not there, which `make` makes; the
    next item of a list is added to it. What stands for a table, as a name does, becomes that table."""
    holder: Any = table
    spec: KeySpec | None = table_spec(keys)
    for place, step in enumerate(path[:-1]):
        spec, inner = within(spec, step), _inner(holder, step)
        if inner is None:
            table_here = dict if isinstance(holder, list) else make
            _set(holder, step, table_here() if isinstance(path[place + 1], str) else [])
        elif spec and spec.kind == "table" and spec.section and not isinstance(inner, dict):
            _set(holder, step, spec.section.shorthand(inner))
        holder = holder[step]  # a document keeps a table of its own making, not the one that was put in
    _set(holder, path[-1], value)


def _inner(holder: Any, step: str | int) -> Any:
    """What stands at a step, or None where that may be added. Raises TypeError and LookupError for what may not."""
    if isinstance(holder, list) and step == len(holder):
        return None
    return holder.get(step) if isinstance(holder, dict) else holder[step]


def _set(holder: Any, step: Any, value: Any) -> None:
    if not isinstance(holder, dict if isinstance(step, str) else list):
        raise TypeError("neither a table nor a list")
    if isinstance(holder, list) and step == len(holder):
        holder.append(value)
    else:
        _inner(holder, step)
        holder[step] = value


def _holder(data: Any, path: KeyPath) -> Any:
    for step in path[:-1]:
        if not isinstance(data, dict):
            return None
        data = data.get(step)
    return data


class ChangedSource(Source):
    """A project file with a change: what was changed has no line, and its problems bear the name of the change."""

    def __init__(self, source: Source, change: Change) -> None:
        super().__init__(source.name, source.text)
        self.change = change

    def problem(self, code: ProblemCode, path: KeyPath, message: str, hint: str = "") -> Problem:
        """A problem with a key: of the change, or of the file."""
        if self._is_changed(path):
            return Problem(code, self.change.name, 0, 0, dotted(path), message, hint)
        return super().problem(code, path, message, hint)

    def line_of(self, path: KeyPath) -> int:
        """The line of a key of the file; 0 for what was changed."""
        return 0 if self._is_changed(path) else super().line_of(path)

    def where(self, path: KeyPath) -> str:
        """The place of a key, in words."""
        return f"in {self.change.name}" if self._is_changed(path) else super().where(path)

    def holds(self, path: KeyPath) -> bool:
        """Whether the file or the change gives this very key."""
        return path in self._put() or (not self._is_changed(path) and super().holds(path))

    def _is_changed(self, path: KeyPath) -> bool:
        """Whether a path leads into what was changed, to a list of which an item was, or to a table that only the
        change gives."""
        return any(path[: len(put)] == put or self._holds_only(path, put) for put in self._put())

    def _holds_only(self, path: KeyPath, put: KeyPath) -> bool:
        """Whether a path leads to a list or table around what was put, which the file itself does not have."""
        around = put[: len(path)] == path
        return around and (isinstance(put[len(path)], int) or not super().holds(path))

    def _put(self) -> Iterable[KeyPath]:
        return [path for path, _ in self.change.puts]


class TriedSource(Source):
    """Values that stand in no file: their problems bear the name of the change."""

    def problem(self, code: ProblemCode, path: KeyPath, message: str, hint: str = "") -> Problem:
        """A problem with a key, without a line."""
        return Problem(code, self.name, 0, 0, dotted(path), message, hint)

    def line_of(self, path: KeyPath) -> int:
        """No line."""
        return 0

    def where(self, path: KeyPath) -> str:
        """The place of a key, in words."""
        return f"in {self.name}"

    def holds(self, path: KeyPath) -> bool:
        """Whatever is asked for was given."""
        return True
