"""Values that are put at the keys of a project, and what several such puts come to.

The result of `together` may be made in any order: no key lies within another, but for one inside a key that is first
taken out, or inside a word that stands for a table.
"""

import re
from collections.abc import Mapping
from copy import deepcopy
from functools import lru_cache
from typing import Any

from finishcalc.intake.keypaths import KeyPath

Puts = Mapping[str, Any]
"""JSON values by dotted key, as in `top.borders[2].cut`; text as it was typed, None for a key that is taken out."""

_STEPS = re.compile(r'"([^"]*)"|\[([1-9][0-9]{0,3})\]|([^."\[\]]+)')


def together(*puts: Puts) -> dict[str, Any]:
    """The puts that come to the same as all of these, one after another."""
    result = _Together()
    for each in puts:
        for key, value in each.items():
            result.put(key, value)
    return dict(result.values.values())


class _Together:
    """Values by the paths of their keys, each with its key; `around` are the paths that may have others within them."""

    def __init__(self) -> None:
        self.values: dict[KeyPath, tuple[str, Any]] = {}
        self._around = set[KeyPath]()

    def put(self, key: str, value: Any) -> None:
        """Put one value after the others. It takes the place of all that was put within it."""
        path, *around = _paths(key)
        if path in self._around:
            self.values = {other: put for other, put in self.values.items() if other[: len(path)] != path}
        self.values.pop(path, None)
        holder = next((other for other in around if self._is_filled(other)), None)
        if holder is not None:
            name, inner = self.values[holder]
            inner = deepcopy(inner)
            if _put_inside(inner, path[len(holder) :], value):
                self.values[holder] = name, inner
                return
            if value is None:
                return
        self.values[path] = key, value
        self._around.update(around)

    def _is_filled(self, path: KeyPath) -> bool:
        """Tell a path at which a table or list was put."""
        return path in self.values and isinstance(self.values[path][1], dict | list)


@lru_cache(maxsize=4096)
def _paths(key: str) -> tuple[KeyPath, ...]:
    """The path of a dotted key, with items counted from 0, and those of all around it."""
    steps = tuple(int(number) - 1 if number else quoted or bare for quoted, number, bare in _STEPS.findall(key))
    return steps, *(steps[:length] for length in range(1, len(steps)))


def _put_inside(holder: Any, path: KeyPath, value: Any) -> bool:
    """Put a value within a table or list that was put itself. Gives false where there is no such place in it."""
    last: Any
    *steps, last = path
    try:
        for step in steps:
            holder = holder[step]
        if value is None:
            del holder[last]
        elif isinstance(holder, list) and last == len(holder):
            holder.append(value)
        elif isinstance(holder, dict | list):
            holder[last] = value
    except (LookupError, TypeError):
        return False
    return isinstance(holder, dict | list)
