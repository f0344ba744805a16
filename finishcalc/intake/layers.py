"""The values of all layers, each with its origin. Later layers override earlier ones.

One flat table from key path to value. That is the one mechanism behind defaults, `--explain`, samples and every
problem's line; `section` reads it as a table of the model, figures with the key that gives them.
"""

from collections.abc import Iterable, Iterator
from typing import Any, Literal, NamedTuple, TypeVar

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.source import Source, dotted
from finishcalc.model.section import Figure, KeySpec, Per, Section, specs
from finishcalc.wording.sentence import Audience

S = TypeVar("S", bound=Section)
Steps = dict[KeyPath, dict[str | int, None]]
"""The next steps of paths, by all that they begin with, in the order they were first given."""
LayerName = Literal["preset", "sample shop", "shop file", "project file"]

SAMPLE_LAYERS = ("preset", "sample shop")
RANKS: dict[LayerName, int] = {"preset": 0, "sample shop": 1, "shop file": 2, "project file": 3}
"""The ranks of the layers: a higher one overrides a lower."""


class Origin(NamedTuple):
    """The place a value came from: the layer, the text, and the key path in that text; and the `word` that stands there
    where it is none of our names, but means the value."""

    layer: LayerName
    source: Source
    at: KeyPath
    word: str = ""

    @property
    def line(self) -> int:
        """The line of the key, from 1."""
        return self.source.line_of(self.at)


class Sourced(NamedTuple):
    """A value with its origin, and what the model says of its key."""

    value: Any
    origin: Origin
    spec: KeySpec

    @property
    def audience(self) -> Audience:
        """The readers who may see it."""
        return "studio" if self.spec.in_house else "customer"

    @property
    def is_sample(self) -> bool:
        """Tell a price, a share or a time that is not the studio's own."""
        return self.spec.figure and self.origin.layer in SAMPLE_LAYERS


class LayeredValues:
    """Values by key path. Later calls of `lay` override earlier ones; `fill` only fills what is missing.

    They may stand over others that never change, such as the sample shop. The steps under each path are kept as values
    come and go. The sections that were read are cached until a value of the same table changes; a table that is as it
    was below is read and cached there, for all that stand over it.
    """

    def __init__(self, below: "LayeredValues | None" = None) -> None:
        self._base = below
        self.values: dict[KeyPath, Sourced] = dict(below.values) if below else {}
        self._changed: dict[str | int, Steps] = {}
        self._sections: dict[str | int | None, dict[tuple[type[Section], KeyPath], Section]] = {}

    def put(self, path: KeyPath, sourced: Sourced) -> None:
        """Set the value at a path."""
        steps = self._steps_to_change(path[0])
        if path not in self.values:
            for depth in range(1, len(path)):
                steps.setdefault(path[:depth], {})[path[depth]] = None
        self.values[path] = sourced

    def _steps_to_change(self, table: str | int) -> Steps:
        """The steps under the paths of a table of which a value changes; what is cached of it is cleared."""
        self._sections.pop(table, None)
        self._sections.pop(None, None)
        if table not in self._changed:
            below = self._base._steps_of(table) if self._base else {}
            self._changed[table] = {path: dict(steps) for path, steps in below.items()}
        return self._changed[table]

    def _steps_of(self, table: str | int) -> Steps:
        """The next steps of the paths of a table, by all that they begin with."""
        if table not in self._changed and self._base:
            return self._base._steps_of(table)
        return self._changed.get(table, {})

    def lay(self, given: Section, layer: LayerName, source: Source, at: KeyPath = (), path: KeyPath = ()) -> None:
        """Lay the keys that a file gives over what is there. A material that is named replaces the one below."""
        self._make_room(given, path)
        for steps, spec, item in _entries(given):
            home = () if spec.at_root else path + steps
            if isinstance(item, Section):
                self.lay(item, layer, source, at + steps, home)
            else:
                self.put(home, Sourced(item, Origin(layer, source, at + steps), spec))

    def _make_room(self, given: Section, path: KeyPath) -> None:
        """Remove the values below that the given keys make void."""
        keys, named = given.model_fields_set, specs(type(given))
        if "preset" in named and keys & {"preset", "name"}:
            self._remove((*path, key) for key in named)
        for key in keys & given.takes_away.keys():
            for void in given.takes_away[key]:
                self._remove_under((*path, void))
        for key in keys:
            if named[key].kind == "rows":
                self._remove_under((*path, key))

    def fill(self, given: Section, layer: LayerName, source: Source, at: KeyPath, path: KeyPath) -> None:
        """Fill in the keys of one table that have no value yet."""
        for steps, spec, item in _entries(given):
            if path + steps not in self.values and not isinstance(item, Section):
                self.put(path + steps, Sourced(item, Origin(layer, source, at + steps), spec))

    def section(self, section: type[S], *path: str | int) -> S:
        """The values under a path as a table of the model; a key that no layer gives reads None."""
        if path and self._base and path[0] not in self._changed:
            return self._base.section(section, *path)
        cached = self._sections.setdefault(path[0] if path else None, {})
        known = cached.get((section, path))
        if known is None:
            known = section.of_values({name: self._read(spec, (*path, name)) for name, spec in specs(section).items()})
            cached[section, path] = known
        return known  # type: ignore[return-value]

    def _read(self, spec: KeySpec, path: KeyPath) -> object:
        if spec.section is None or spec.kind == "entries":
            sourced = self.values.get(path)
            return None if sourced is None else self._valued(spec, sourced, path)
        if spec.kind == "rows":
            return tuple(self.section(spec.section, *row) for row in self.rows(*path))
        if spec.kind == "named":
            return {name: self.section(spec.section, *path, name) for name in self.names(*path)}
        return None if spec.optional and not self._under(path) else self.section(spec.section, *path)

    def _valued(self, spec: KeySpec, sourced: Sourced, path: KeyPath) -> object:
        if not spec.figure:
            return sourced.value
        return Figure(sourced.value, self._unit(spec.per, path), dotted(path), sourced.is_sample)

    def _unit(self, per: Per | None, path: KeyPath) -> str:
        """The unit of a figure, from the first place where one stands; nothing for a figure without a unit."""
        for key in per.keys if per else ():
            sourced = self.values.get((*path[:-1], key) if "." not in key else tuple(key.split(".")))
            if sourced:
                return str(sourced.value)
        return ""

    def is_own(self, *path: str | int) -> bool:
        """Tell a value that the project or the studio's own shop file gives."""
        sourced = self.values.get(path)
        return sourced is not None and sourced.origin.layer not in SAMPLE_LAYERS

    def names(self, *path: str | int) -> list[str]:
        """The names of the tables or values under a path, in the order they were first given."""
        return [str(name) for name in self._under(path)]

    def paths(self, path: KeyPath) -> Iterator[KeyPath]:
        """The key paths at or under a path that have a value, in the order they were first given."""
        if path in self.values:
            yield path
        for step in self._under(path):
            yield from self.paths((*path, step))

    def rows(self, *path: str | int) -> list[KeyPath]:
        """The paths of the tables of a list, in their order."""
        return [(*path, number) for number in sorted(step for step in self._under(path) if isinstance(step, int))]

    def _under(self, path: KeyPath) -> dict[str | int, None]:
        """The next steps of all paths that begin like this one."""
        return self._steps_of(path[0]).get(path, {})

    def _remove_under(self, path: KeyPath) -> None:
        """Remove a value, or all the values of a table."""
        self._remove(list(self.paths(path)))

    def _remove(self, paths: Iterable[KeyPath]) -> None:
        for path in paths:
            if self.values.pop(path, None):
                self._remove_step(self._steps_to_change(path[0]), path)

    def _remove_step(self, steps: Steps, path: KeyPath) -> None:
        """Remove the last step of a path, and each before it that leads nowhere any more."""
        for depth in range(len(path) - 1, 0, -1):
            del steps[path[:depth]][path[depth]]
            if steps[path[:depth]]:
                return
            del steps[path[:depth]]


def _entries(given: Section) -> Iterator[tuple[KeyPath, KeySpec, object]]:
    """Each key that is given: its steps, its spec, and its value or table."""
    for key, spec in specs(type(given)).items():
        if key not in given.model_fields_set:
            continue
        item = getattr(given, key)
        if spec.kind == "named":
            for name, section in item.items():
                yield (key, name), spec, section
        elif spec.kind == "rows":
            for number, row in enumerate(item):
                yield (key, number), spec, row
        else:
            yield (key,), spec, item.value if spec.figure else item
