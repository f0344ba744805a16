"""The shelf: what is on hand by project files, shop files and files of their own, read and written."""

import os
from collections.abc import Callable, Iterable
from itertools import islice
from typing import NamedTuple

from finishcalc.intake.checking import check
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.source import Source, read
from finishcalc.measures.length import Length
from finishcalc.model.files import OnHandFile
from finishcalc.model.on_hand import MOST_OF_A_ROW, MOST_ROWS, OnHandPieces
from finishcalc.problems import ProblemCode, ProblemsFound

ON_HAND: KeyPath = ("on_hand",)
"""The key under which every file says what is on hand."""

HEAD = "Cloth and batting on hand, washed, as it can be cut; a piece as wide as its cloth is sold is unwashed."
"""The first line of a file that is written."""


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


def on_hand_toml(rows: Iterable[OnHandPieces], units: str) -> str:
    """Write a file of what is on hand: read again, it gives the same pieces, to the last fraction. The largest come
    first, and stand alone where there are more than a file holds."""
    import tomlkit  # most runs write nothing

    document = tomlkit.document()
    document.add(tomlkit.comment(HEAD))
    document.add("units", tomlkit.item(units))
    by_size = sorted(rows, key=lambda row: (row.width * row.length).mm2, reverse=True)
    numbered = ((row, number) for row in by_size for number in _in_rows(row.count))
    tables = tomlkit.aot()
    for row, number in islice(numbered, MOST_ROWS):
        table = tomlkit.table()
        table.update({"kind": row.kind, "name": row.name})
        table.update({"width": _written(row.width, units), "length": _written(row.length, units), "number": number})
        tables.append(table)
    document["on_hand"] = tables if len(tables) else tomlkit.array()
    return tomlkit.dumps(document).rstrip("\n") + "\n"


def _in_rows(number: int) -> list[int]:
    """Share out alike pieces to rows of no more than a row holds."""
    full, rest = divmod(number, MOST_OF_A_ROW)
    return [MOST_OF_A_ROW] * full + [rest] * bool(rest)


def _written(length: Length, units: str) -> str:
    """Write a length in the unit of the file where that takes no long fraction, and else as its exact text does."""
    if units == "cm" and length.mm.denominator == 1:
        whole, tenth = divmod(int(length.mm), 10)
        return f"{whole}.{tenth} cm" if tenth else f"{whole} cm"
    return str(length)
