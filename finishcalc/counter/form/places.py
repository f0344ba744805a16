"""The field that a problem or a caution is about."""

from collections.abc import Iterable

from finishcalc.counter.form.field import Field
from finishcalc.counter.form.fields import FIELDS
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.keypaths import KeyPath, starts_with

PATHS: dict[KeyPath, str] = {key_path(key): key for key in FIELDS}
"""The keys of all fields by their paths."""


def field_at(key: str) -> Field | None:
    """Find the field of a key: the one that edits it, else one of a key within it, else one of a key around it. None
    where the form does not ask for it."""
    path = key_path(key)
    found = PATHS.get(path, "") or _first(within for within in PATHS if path and starts_with(within, path))
    for depth in range(len(path), 0, -1):
        found = found or PATHS.get(path[:depth], "") or PATHS.get((*path[:depth], "preset"), "")
    return FIELDS[found] if found else None


def _first(paths: Iterable[KeyPath]) -> str:
    return next((PATHS[path] for path in paths), "")
