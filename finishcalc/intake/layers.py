"""Layers of values, each with its origin: what a later layer gives stands over what an earlier one gave.

One flat table from key path to value. That is the one mechanism behind defaults, `--explain`, samples and
every problem's line.
"""

from collections.abc import Callable, Iterator
from typing import Any, Literal, NamedTuple, TypeVar

from finishcalc.intake.positions import Path
from finishcalc.intake.source import Source
from finishcalc.intake.table import Key, ListOf, Named, Rows, Table
from finishcalc.wording.said import Audience, Share

Made = TypeVar("Made")
LayerName = Literal["preset", "sample shop", "shop file", "project file"]
Values = dict[str, Any]
"""A table's values after the check: only the keys that the file gives."""

SAMPLE_LAYERS = ("preset", "sample shop")
RANKS: dict[LayerName, int] = {"preset": 0, "sample shop": 1, "shop file": 2, "project file": 3}
"""What stands over what: a layer of a higher rank over one of a lower."""


class Origin(NamedTuple):
    """Where a value came from: the layer, the text, and the key path in that text."""

    layer: LayerName
    source: Source
    at: Path

    @property
    def line(self) -> int:
        """The line of the key, from 1."""
        return self.source.line_of(self.at)


class Laid(NamedTuple):
    """A value with its origin; `figure` says that it is a price, a share or minutes."""

    value: Any
    origin: Origin
    audience: Audience
    figure: bool


class Layers:
    """Values by key path. Later calls of `lay` stand over earlier ones; `fill` only fills what is missing.

    What stands below each path, and what was made of it all, is noted when it is first asked for, and forgotten when
    it may no longer hold.
    """

    def __init__(self, values: dict[Path, Laid] | None = None) -> None:
        self.values: dict[Path, Laid] = dict(values or {})
        self._below: dict[Path, dict[str | int, None]] = {}
        self._made: dict[tuple[Any, ...], Any] = {}

    def put(self, path: Path, laid: Laid) -> None:
        """Let a value stand at a path, over what stood there."""
        self.values[path] = laid
        self._made.clear()
        if self._below:
            self._note(path)

    def _note(self, path: Path) -> None:
        for depth in range(len(path)):
            self._below.setdefault(path[:depth], {})[path[depth]] = None

    def lay(
        self, table: Table, given: Values, layer: LayerName, source: Source, at: Path = (), path: Path = ()
    ) -> None:
        """Lay the keys that a file gives over what is there. A material that is named replaces the one below."""
        if "preset" in table.keys and given.keys() & {"preset", "name"}:
            self._take_away({(*path, key) for key in table.keys})
        for key in given.keys() & table.takes_away.keys():
            for void in table.takes_away[key]:
                self._drop((*path, void))
        for key in given.keys() & table.keys.keys():
            if isinstance(table.keys[key], Rows):
                self._drop((*path, key))
        for steps, kind, item in _entries(table, given):
            home = () if steps[0] in table.at_root else path + steps
            if isinstance(kind, Table):
                self.lay(kind, item, layer, source, at + steps, home)
            else:
                self.put(home, _laid(kind, item, Origin(layer, source, at + steps)))

    def fill(self, table: Table, given: Values, layer: LayerName, source: Source, at: Path, path: Path) -> None:
        """Give the keys of one table to those that nothing stands on yet."""
        for steps, kind, item in _entries(table, given):
            if path + steps not in self.values and not isinstance(kind, Table):
                self.put(path + steps, _laid(kind, item, Origin(layer, source, at + steps)))

    def _drop(self, path: Path) -> None:
        """Take away a value, or all the values of a table."""
        self._take_away({key for key in self.values if key[: len(path)] == path})

    def _take_away(self, paths: set[Path]) -> None:
        for path in paths & self.values.keys():
            del self.values[path]
            self._below.clear()
            self._made.clear()

    def get(self, *path: str | int) -> Any:
        """The value at a path, a share as its Fraction, or None where no layer gives one."""
        laid = self.values.get(path)
        return bare(laid.value) if laid else None

    def once(self, make: Callable[..., Made], *given: Any) -> Made:
        """What a function makes of the layers and of what it is `given` besides; asked again, the same."""
        key = (make, *given)
        if key not in self._made:
            self._made[key] = make(self, *given)
        made: Made = self._made[key]
        return made

    def names(self, *path: str | int) -> list[str]:
        """The names of the tables under a path, in the order they were first given."""
        return [str(name) for name in self._under(path)]

    def rows(self, *path: str) -> list[Path]:
        """The paths of the tables of a list, in their order."""
        places = [place for place in self._under(path) if isinstance(place, int)]
        return [(*path, place) for place in sorted(places)]

    def _under(self, path: Path) -> dict[str | int, None]:
        """The next steps of all paths that begin like this one."""
        if not self._below:
            for each in self.values:
                self._note(each)
        return self._below.get(path, {})


def bare(value: Any) -> Any:
    """A share as its Fraction; everything else as it is."""
    return value.part if isinstance(value, Share) else value


def _entries(table: Table, given: Values) -> Iterator[tuple[Path, Key | ListOf | Table, Any]]:
    """Each key that is given, with its steps, its kind, and its value or table."""
    for key, kind in table.keys.items():
        if key not in given:
            continue
        if isinstance(kind, Named):
            for name, item in given[key].items():
                yield (key, name), kind.each, item
        elif isinstance(kind, Rows):
            for place, item in enumerate(given[key]):
                yield (key, place), kind.each, item
        else:
            yield (key,), kind, given[key]


def _laid(kind: Key | ListOf, value: Any, origin: Origin) -> Laid:
    return Laid(value, origin, "studio" if kind.in_house else "customer", kind.figure)
