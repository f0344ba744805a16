"""Layers of values, each with its origin: what a later layer gives stands over what an earlier one gave.

One flat table from key path to value. That is the one mechanism behind defaults, `--explain`, samples and
every problem's line.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

from finishcalc.intake.fields import Sparse
from finishcalc.intake.materials import Material
from finishcalc.intake.positions import Path
from finishcalc.intake.reading import Source
from finishcalc.measures.said import Audience, Share

LayerName = Literal["preset", "sample shop", "shop file", "project file"]
SAMPLE_LAYERS = ("preset", "sample shop")


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a value came from: the layer, the text, and the key path in that text."""

    layer: LayerName
    source: Source
    at: Path

    @property
    def line(self) -> int:
        """The line of the key, from 1."""
        return self.source.line_of(self.at)


@dataclass(frozen=True, slots=True)
class Laid:
    """A value with its origin; `figure` says that it is a price, a share or minutes."""

    value: Any
    origin: Origin
    audience: Audience
    figure: bool


class Layers:
    """Values by key path. Later calls of `lay` stand over earlier ones; `fill` only fills what is missing."""

    def __init__(self, values: dict[Path, Laid] | None = None) -> None:
        self.values: dict[Path, Laid] = dict(values or {})

    def lay(self, model: Sparse, layer: LayerName, source: Source, at: Path = (), path: Path = ()) -> None:
        """Lay the keys that `model` gives over what is there. A material that is named replaces the one below."""
        if isinstance(model, Material) and model.model_fields_set & {"preset", "name"}:
            self._clear(path)
        for key in model.model_fields_set & model.takes_away.keys():
            for void in model.takes_away[key]:
                self.values.pop((*path, void), None)
        for steps, home, item in _leaves(model, path):
            if isinstance(item, Sparse):
                self.lay(item, layer, source, at + steps, home)
            else:
                self.values[home] = _laid(model, item, Origin(layer, source, at + steps))

    def fill(self, model: Sparse, layer: LayerName, source: Source, at: Path, path: Path) -> None:
        """Give the keys of `model` to those that nothing stands on yet."""
        for steps, home, item in _leaves(model, path):
            if home not in self.values:
                self.values[home] = _laid(model, item, Origin(layer, source, at + steps))

    def get(self, *path: str) -> Any:
        """The value at a path, a share as its Fraction, or None where no layer gives one."""
        laid = self.values.get(path)
        return bare(laid.value) if laid else None

    def names(self, *path: str) -> list[str]:
        """The names of the tables under a path, in the order they were first given."""
        depth = len(path)
        found = {key[depth]: None for key in self.values if len(key) > depth and key[:depth] == path}
        return [str(name) for name in found]

    def _clear(self, path: Path) -> None:
        for key in [key for key in self.values if key[: len(path)] == path]:
            del self.values[key]


def bare(value: Any) -> Any:
    """A share as its Fraction; everything else as it is."""
    return value.part if isinstance(value, Share) else value


def _leaves(model: Sparse, path: Path) -> Iterator[tuple[Path, Path, Any]]:
    """Each key that the model gives: its steps in the file, the path it is laid at, and its value or table."""
    for key in type(model).model_fields:
        if key in model.model_fields_set:
            value = getattr(model, key)
            for name, item in value.items() if isinstance(value, dict) else [(None, value)]:
                steps = (key,) if name is None else (key, name)
                yield steps, () if key in model.at_root else path + steps, item


def _laid(model: Sparse, value: Any, origin: Origin) -> Laid:
    key = next(step for step in reversed(origin.at) if step in type(model).model_fields)
    return Laid(value, origin, "studio" if key in model.studio_only else "customer", key in model.figures)
