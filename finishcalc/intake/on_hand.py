"""The shelf: what is on hand by project files, shop files and files of their own, each file's counted once."""

import os
from collections.abc import Callable, Iterable
from typing import NamedTuple

from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.source import Source, read
from finishcalc.model.files import OnHandFile
from finishcalc.model.on_hand import OnHandPieces
from finishcalc.problems import ProblemCode, ProblemsFound

ON_HAND: KeyPath = ("on_hand",)
"""The key under which every file says what is on hand."""


class OnHandFrom(NamedTuple):
    """The rows of one file, by its name."""

    file: str
    rows: tuple[OnHandPieces, ...]


def on_hand_of(layers: LayeredValues) -> OnHandFrom:
    """Give the rows of the latest layer that has any."""
    sourced = layers.values[ON_HAND]
    return OnHandFrom(sourced.origin.source.name, tuple(sourced.value))


def read_on_hand(name: str, units: str = "in", reader: Callable[[str], Source] = read) -> OnHandFrom:
    """Read a file of what is on hand, in its own units or else in these. Raises ProblemsFound with all its problems."""
    source = reader(name)
    data = dict(source.table)
    given = data.get("units")
    own = given if isinstance(given, str) and given in ("in", "cm") else units
    if "on_hand" not in data:
        hint = "give each piece as a table [[on_hand]], with its kind, name, width and length"
        raise ProblemsFound([source.problem(ProblemCode.MISSING_KEY, ON_HAND, "is missing", hint)])
    values, problems, _ = check(OnHandFile, data, source, own)
    if problems:
        raise ProblemsFound(problems)
    return OnHandFrom(source.name, values.on_hand)


def all_on_hand(shelves: Iterable[OnHandFrom]) -> tuple[OnHandPieces, ...]:
    """Put the rows of all files together; those of a file that several projects use, or that is named twice, once."""
    by_file = {os.path.realpath(each.file): each.rows for each in shelves}
    return tuple(row for rows in by_file.values() for row in rows)
