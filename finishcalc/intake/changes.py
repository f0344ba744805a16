"""Changes that are tried on a project file: what it gives is taken out, and other values are put in.

The changed file goes the same way as any: the same tables check it and the same rules. Only its problems are told
under the name of the change, and `rewriting.py` writes the very same change into the file's own text.
"""

from collections.abc import Iterable
from copy import deepcopy
from typing import Any, NamedTuple

from finishcalc.intake.positions import Path
from finishcalc.intake.reading import Source, dotted
from finishcalc.problems import Problem, ProblemsFound


class Change(NamedTuple):
    """What is tried: first the values at `drops` are taken out, then each of `puts` is put at its key path, and each of
    `shop_puts` over what the shop says. `name` is what its problems are told under."""

    name: str
    drops: tuple[Path, ...] = ()
    puts: tuple[tuple[Path, Any], ...] = ()
    shop_puts: tuple[tuple[Path, Any], ...] = ()

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


NAMED = frozenset(("fabric", "corner_fabric", "wider", "product", "style", "method", "bed", "table"))
"""The keys of what is named: a name on its own stands for the table that names it."""


def changed(data: dict[str, Any], change: Change) -> dict[str, Any]:
    """A file's table with the change made; `data` stays as it is.

    Raises ProblemsFound for a path that leads nowhere.
    """
    result = deepcopy(data)
    for path in change.drops:
        holder = _holder(result, path)
        if isinstance(holder, dict):
            holder.pop(path[-1], None)
    put_all(result, change.puts, change.name)
    return result


def put_all(table: dict[str, Any], puts: Iterable[tuple[Path, Any]], name: str) -> None:
    """Put each value at its path. Raises ProblemsFound with every path that leads nowhere, under `name`."""
    problems = []
    for path, value in puts:
        try:
            put(table, path, deepcopy(value))
        except (TypeError, LookupError, AttributeError):
            hint = "items count from 1, and only tables and lists hold others"
            problems.append(Problem(name, 0, 0, dotted(path), "leads to nothing that the file has", hint))
    if problems:
        raise ProblemsFound(problems)


def put(table: Any, path: Path, value: Any) -> None:
    """Put a value at a path of tables and lists, with the tables on the way that are not there. A material that is
    only named becomes the table that its name stands for."""
    holder: Any = table
    for step in path[:-1]:
        if isinstance(step, str) and isinstance(holder, dict):
            inner = holder.get(step)
            if inner is None or (isinstance(inner, str) and step in NAMED):
                holder[step] = {} if inner is None else {"preset": inner}
        holder = holder[step]
    if not isinstance(holder, dict if isinstance(path[-1], str) else list):
        raise TypeError("neither a table nor a list")
    last: Any = path[-1]
    holder[last] = value


def _holder(data: Any, path: Path) -> Any:
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

    def problem(self, path: Path, message: str, hint: str = "") -> Problem:
        """A problem with a key: of the change, or of the file."""
        if self._is_changed(path):
            return Problem(self.change.name, 0, 0, dotted(path), message, hint)
        return super().problem(path, message, hint)

    def line_of(self, path: Path) -> int:
        """The line of a key of the file; 0 for what was changed."""
        return 0 if self._is_changed(path) else super().line_of(path)

    def holds(self, path: Path) -> bool:
        """Whether the file or the change gives this very key."""
        return path in self._put() or (not self._is_changed(path) and super().holds(path))

    def _is_changed(self, path: Path) -> bool:
        return any(path[: len(put)] == put for put in self._put())

    def _put(self) -> Iterable[Path]:
        return [path for path, _ in self.change.puts + self.change.shop_puts]
