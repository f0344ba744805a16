"""Values that are put at the keys of a project, and what several such puts come to.

The result of `together` may be made in any order: no key lies within another, but for one inside a key that is first
taken out, or inside a word that stands for a table.
"""

import re
from collections.abc import Mapping
from copy import deepcopy
from functools import lru_cache
from typing import Any

Puts = Mapping[str, Any]
"""JSON values by dotted key, as in `top.borders[2].cut`; text as it was typed, None for a key that is taken out."""

_STEPS = re.compile(r'"([^"]*)"|\[([1-9][0-9]{0,3})\]|([^."\[\]]+)')


@lru_cache(maxsize=4096)
def _path(key: str) -> tuple[str | int, ...]:
    """The steps of a dotted key; items are counted from 0 in them."""
    return tuple(int(number) - 1 if number else quoted or bare for quoted, number, bare in _STEPS.findall(key))


def together(*puts: Puts) -> dict[str, Any]:
    """The puts that come to the same as all of these, one after another."""
    result: dict[str, Any] = {}
    for each in puts:
        for key, value in each.items():
            _put(result, key, value)
    return result


def _put(puts: dict[str, Any], key: str, value: Any) -> None:
    """Put one value after the others. It takes the place of all that was put within it."""
    path = _path(key)
    for other in [other for other in puts if _path(other)[: len(path)] == path]:
        del puts[other]
    around = next(
        (other for other in puts if _is_filled(puts[other]) and path[: len(_path(other))] == _path(other)), None
    )
    if around is None:
        puts[key] = value
        return
    inner = deepcopy(puts[around])
    if _put_inside(inner, path[len(_path(around)) :], value):
        puts[around] = inner
    elif value is not None:
        puts[key] = value


def _is_filled(value: Any) -> bool:
    return isinstance(value, dict | list)


def _put_inside(holder: Any, path: tuple[str | int, ...], value: Any) -> bool:
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
    return _is_filled(holder)
