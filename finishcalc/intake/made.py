"""Makes one record of the contracts from the values under a key path."""

from typing import Any, TypeVar

from finishcalc.intake.layers import Layers

Made = TypeVar("Made")


def made(record: type[Made], layers: Layers, *path: str | int, **known: Any) -> Made:
    """One record from the values under a path; `known` are those that need more than to be copied."""
    found = {}
    for name in record._fields:  # type: ignore[attr-defined]
        found[name] = known[name] if name in known else layers.get(*path, name)
    return record(**found)
