"""Tables and columns as text, wrapped so that they fit a terminal."""

from itertools import zip_longest

from finishcalc.rendering.pages.page import PriceRow, Prices, Table
from finishcalc.rendering.wrapping import display_width, wrap
from finishcalc.rendering.writing import SAMPLE_MARK

NARROW = 56
"""Below this width a label stands above its block instead of beside it, and columns are written as lists."""
NARROWEST = 6
"""A table is written row by row where a column would be narrower than this, or narrower than a word in it."""
CUT = 12
"""The least width of a column whose words may be cut."""
ROW_NAMES = 22
"""The names of rows are wrapped to this width before a column is put off to another block."""


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
    """Give the least width of each column, that of the longest word in it unless words may be cut."""
    rows = [table.head, *table.rows]
    longest = [max(NARROWEST, *(_longest_word(row[n]) for row in rows)) for n in range(len(table.head))]
    return [min(least, CUT) if n in table.cut_in else least for n, least in enumerate(longest)]


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


PRICE_HEAD = ["", "Qty", "Unit", "Rate", "", "Amount"]


def price_lines(prices: Prices, width: int) -> list[str]:
    """Write the price with labels wrapped to the room beside the figures; where that is too little, each label has a
    line of its own."""
    rows = [price_cells(row) for row in prices.rows]
    figures = [max(display_width(row[column]) for row in [PRICE_HEAD, *rows]) for column in range(1, 6)]
    room = width - sum(figures) - 2 * len(figures)
    if room < 16:
        return _stacked(rows, width)
    cut = [[_hanging(row[0], room), *([text] for text in row[1:])] for row in [PRICE_HEAD, *rows]]
    return columns(cut, "lrlrlr")


def _hanging(label: str, room: int) -> list[str]:
    first, *more = wrap(label, room - 1)
    return [first, *(f" {line}" for line in more)]


def _stacked(rows: list[list[str]], width: int) -> list[str]:
    """Write for a narrow terminal: the label, and under it the arithmetic with the amount at the right."""
    lines = []
    for label, quantity, unit, rate, mark, amount in rows:
        if quantity:
            lines += wrap(label, width)
            lines += _at_both_ends(f"  {quantity} {unit} x {rate}{mark}", amount, width)
        else:
            *before, last = wrap(
                " ".join(part for part in (label, rate, mark) if part), width - display_width(amount) - 1
            )
            lines += [*before, *_at_both_ends(last, amount, width)]
    return lines


def _at_both_ends(left: str, right: str, width: int) -> list[str]:
    """Set two texts at the ends of one line, or on two lines where one is too short."""
    room = width - display_width(right)
    if display_width(left) < room:
        return [left + " " * (room - display_width(left)) + right]
    return [*wrap(left, width), " " * room + right]


def price_cells(row: PriceRow) -> list[str]:
    """Give the texts of a row of the price, column by column."""
    return [row.label, row.quantity, row.unit, row.rate, SAMPLE_MARK if row.marked else "", row.amount]
