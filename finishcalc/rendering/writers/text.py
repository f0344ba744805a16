"""Text that fits a terminal: labelled blocks, columns and tables, all wrapped to its width."""

from itertools import zip_longest
from typing import NamedTuple

from finishcalc.rendering.wrapping import display_width, wrap

WIDEST = 80
NARROW = 56
"""Below this width a label stands above its block instead of beside it."""
LABEL = 12
NARROWEST = 6
"""A table is written row by row where a column would be narrower than this, or narrower than a word in it."""
ROW_NAMES = 22
"""The names of rows are wrapped to this width before a column is put off to another block."""


class Table(NamedTuple):
    """A head and rows of texts; `align` has an l or an r for each column."""

    head: list[str]
    align: str
    rows: list[list[str]]


class Note(NamedTuple):
    """Sentences under a table; those without a label explain it and stand right across the page."""

    label: str
    sentences: list[str]


class Page(NamedTuple):
    """A title, a table and its notes, to be written as text or as Markdown."""

    title: str
    table: Table
    notes: list[Note]


def block(label: str, sentences: list[str], width: int) -> list[str]:
    """Write a label with its sentences beside it, each on lines of its own; later lines go two columns in."""
    beside = width >= NARROW
    indent = " " * (LABEL if beside else 2)
    lines = [] if beside or not sentences else [label]
    for sentence in sentences:
        wrapped = wrap(sentence, width - len(indent) - 2)
        lines += [indent + wrapped[0], *(f"{indent}  {more}" for more in wrapped[1:])]
    if beside and lines:
        lines[0] = label.ljust(LABEL) + lines[0][LABEL:]
    return lines


def columns(rows: list[list[list[str]]], align: str) -> list[str]:
    """Set rows of cells two blanks apart, each cell a list of lines; `align` has an l or an r for each column."""
    widths = [max(display_width(line) for row in rows for line in row[n]) for n in range(len(align))]
    lines = (line for row in rows for line in zip_longest(*row, fillvalue=""))
    return ["  ".join(map(_padded, line, widths, align)).rstrip() for line in lines]


def _padded(text: str, width: int, side: str) -> str:
    blanks = " " * (width - display_width(text))
    return blanks + text if side == "r" else text + blanks


def table_lines(table: Table, width: int) -> list[str]:
    """Write a table with its words wrapped so that it fits; where the terminal is too narrow, row by row."""
    rows = [table.head, *table.rows]
    widths = [max(display_width(row[n]) for row in rows) for n in range(len(table.head))]
    least = _least_widths(table)
    room = width - 2 * (len(widths) - 1)
    while sum(widths) > room:
        widest = max(range(len(widths)), key=lambda n: (widths[n] > least[n], widths[n]))
        if widths[widest] <= least[widest]:
            return _row_by_row(table, width)
        widths[widest] -= 1
    return columns([[wrap(cell, widths[n]) for n, cell in enumerate(row)] for row in rows], table.align)


def _least_widths(table: Table) -> list[int]:
    """Give the least width of each column, that of the longest word in it."""
    rows = [table.head, *table.rows]
    return [max(NARROWEST, *(_longest_word(row[n]) for row in rows)) for n in range(len(table.head))]


def column_blocks(table: Table, width: int) -> list[list[str]]:
    """Write a table whose first column names the rows in blocks, each with as many of the other columns as fit; on a
    narrow terminal as a list of each column."""
    if width < NARROW:
        return [_column_list(table, number, width) for number in range(1, len(table.head))]
    least = _least_widths(table)
    names = min(ROW_NAMES, max(display_width(row[0]) for row in [table.head, *table.rows]))
    blocks, taken = [], list[int]()
    for number in range(1, len(table.head)):
        if taken and max(names, least[0]) + sum(least[n] + 2 for n in (*taken, number)) > width:
            blocks.append(taken)
            taken = []
        taken = [*taken, number]
    return [table_lines(_with_columns(table, [0, *numbers]), width) for numbers in [*blocks, taken]]


def _with_columns(table: Table, numbers: list[int]) -> Table:
    """Take some of a table's columns."""
    rows = [[row[n] for n in numbers] for row in table.rows]
    return Table([table.head[n] for n in numbers], "".join(table.align[n] for n in numbers), rows)


def _column_list(table: Table, number: int, width: int) -> list[str]:
    """Write one column as a list: the name of each row with its cell unless that is empty, later lines two columns
    in."""
    lines = wrap(table.head[number], width)
    for row in (row for row in table.rows if row[number]):
        first, *more = wrap(f"{row[0]}: {row[number]}", width - 4)
        lines += [f"  {first}", *(f"    {line}" for line in more)]
    return lines


def _longest_word(cell: str) -> int:
    return max(display_width(word) for word in cell.split(" "))


def _row_by_row(table: Table, width: int) -> list[str]:
    """Write each row as a block with a line for every column, under the head of the first column."""
    lines = wrap(f"{table.head[0]}:", width) if table.head[0] else []
    for name, *rest in table.rows:
        values = [f"{head}: {cell}" for head, cell in zip(table.head[1:], rest, strict=True) if cell]
        lines += [*wrap(name, width), *(f"  {line}" for value in values for line in wrap(value, width - 2))]
    return lines


def page_blocks(page: Page, width: int) -> list[list[str]]:
    """Write a page's title, table and notes as blocks of lines."""
    return [wrap(page.title, width), table_lines(page.table, width), *note_blocks(page.notes, width)]


def note_blocks(notes: list[Note], width: int) -> list[list[str]]:
    """Write notes as blocks of lines, a label beside its sentences."""
    blocks = []
    for note in notes:
        if note.label:
            blocks.append(block(note.label, note.sentences, width))
        else:
            blocks += [wrap(sentence, width) for sentence in note.sentences]
    return blocks
