"""A table of words: wrapped to the width of the terminal, or told row by row where that is too narrow."""

from typing import NamedTuple

from finishcalc.rendering.pages.page import cells, columns, wrap

NARROWEST = 6
"""A column that would have to be narrower, or narrower than a word in it, is told line by line instead."""


class Table(NamedTuple):
    """A head and rows of cells; `align` has an l or an r for each column."""

    head: list[str]
    align: str
    rows: list[list[str]]


def table_lines(table: Table, width: int) -> list[str]:
    """The table, its words wrapped so that it fits; where the terminal is too narrow, row by row."""
    rows = [table.head, *table.rows]
    wide = [max(cells(row[n]) for row in rows) for n in range(len(table.head))]
    least = [max(NARROWEST, *(_longest_word(row[n]) for row in rows)) for n in range(len(table.head))]
    room = width - 2 * (len(wide) - 1)
    while sum(wide) > room:
        widest = max(range(len(wide)), key=lambda n: (wide[n] > least[n], wide[n]))
        if wide[widest] <= least[widest]:
            return _by_row(table, width)
        wide[widest] -= 1
    return columns([[wrap(cell, wide[n]) for n, cell in enumerate(row)] for row in rows], table.align)


def _longest_word(cell: str) -> int:
    return max(cells(word) for word in cell.split(" "))


def _by_row(table: Table, width: int) -> list[str]:
    """Each row as a block, a line for every column; what the columns are the values of comes first."""
    lines = wrap(f"{table.head[0]}:", width) if table.head[0] else []
    for name, *rest in table.rows:
        told = [f"{head}: {cell}" for head, cell in zip(table.head[1:], rest, strict=True) if cell]
        lines += [*wrap(name, width), *(f"  {line}" for each in told for line in wrap(each, width - 2))]
    return lines
