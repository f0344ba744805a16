"""Puts: values at keys of a project, made one after another, and the fewer that surely come to the same."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import islice
from typing import Any

Puts = Mapping[str, Any]
"""JSON values by dotted key, as in `top.borders[2].cut`, in the order to make them: text as it was typed, None for a
key that is taken out."""


def condensed(puts: Iterable[Puts]) -> list[Puts]:
    """The same puts without those that a later one of the same key makes useless. A put stays where one in between may
    have read it, because it is about a table around that key, a value within it, or the material that it belongs to."""
    kept: list[tuple[str, Any]] = []
    for each in puts:
        for key, value in each.items():
            while (place := _last(kept, key)) is not None and _is_useless(kept, place, value):
                del kept[place]
            kept.append((key, value))
    return _in_groups(kept)


def _last(kept: Sequence[tuple[str, Any]], key: str) -> int | None:
    """The place of the last put of a key; None where it has none."""
    return next((place for place in reversed(range(len(kept))) if kept[place][0] == key), None)


def _is_useless(kept: Sequence[tuple[str, Any]], place: int, later: Any) -> bool:
    """Tell a put that may be left out before a later one of its key. Where a row is taken out, all stay, because the
    rows behind it have other numbers then; and a material that is taken out leaves no name for the next one."""
    key, value = kept[place]
    if "[" in key and (value is None or later is None):
        return False
    if key.endswith(".preset") and value is None and later is not None:
        return False
    return not any(_meets(key, other, put) for other, put in islice(kept, place + 1, None))


def _meets(key: str, other: str, value: Any) -> bool:
    """Tell a put in between that another key depends on."""
    is_row_taken_out = value is None and "[" in other
    if is_row_taken_out or _is_within(key, other) or _is_within(other, key) or _is_other_row(key, other):
        return True
    material, _, name = other.rpartition(".")
    return name == "preset" and _is_within(key, material)


def _is_within(key: str, other: str) -> bool:
    return key.startswith((f"{other}.", f"{other}["))


def _is_other_row(key: str, other: str) -> bool:
    """Tell another row of one list, which can only be made behind this one."""
    (rows, sign, inner), (other_rows, _, other_inner) = key.partition("["), other.partition("[")
    return bool(sign) and rows == other_rows and inner.partition("]")[0] != other_inner.partition("]")[0]


def _in_groups(puts: Iterable[tuple[str, Any]]) -> list[Puts]:
    """Put single puts into as few mappings as keep their order."""
    groups: list[dict[str, Any]] = [{}]
    for key, value in puts:
        if key in groups[-1]:
            groups.append({})
        groups[-1][key] = value
    return [group for group in groups if group]
