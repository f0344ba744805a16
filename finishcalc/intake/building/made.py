"""Makes one record of the contracts from the values under a key path, and misses none of them."""

from functools import partial
from typing import Any, TypeVar

from finishcalc.intake.layers import Layers
from finishcalc.intake.source import dotted

Made = TypeVar("Made")


class MissingValue(AssertionError):
    """A value that no file gives though a contract needs it: a mistake of ours, because the sample shops hold every
    key that a project may leave out."""


def given(layers: Layers, *path: str | int) -> Any:
    """The value at a path. Raises MissingValue where no layer gives one."""
    value = layers.get(*path)
    if value is None:
        raise MissingValue(f"no layer gives {dotted(path)}: add it to presets/shops")
    return value


def made(record: type[Made], layers: Layers, *path: str | int, **known: Any) -> Made:
    """One record from the values under a path; `known` are those that need more than to be copied.

    Raises MissingValue for a field without a default that no layer gives.
    """
    found = {}
    for name in record._fields:  # type: ignore[attr-defined]
        if name in known:
            found[name] = known[name]
        else:
            get = layers.get if name in record._field_defaults else partial(given, layers)  # type: ignore[attr-defined]
            found[name] = get(*path, name)
    return record(**found)
