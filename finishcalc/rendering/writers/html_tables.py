"""Tables as HTML sets them: parted where a sheet is too narrow, and marked where a telephone writes them as lists."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.rendering.pages.page import Prices, Table
from finishcalc.rendering.wrapping import display_width
from finishcalc.rendering.writing import SAMPLE_MARK

SHEET = 84
"""The columns of letters that a sheet of paper or a tablet has room for."""
TELEPHONE = 32
"""The same of a telephone. A wider table is written there as a list of each row."""
LONG_WORD = 20
"""A word with more letters may break anywhere, because nothing has room for it."""
SHORT = 24
"""A text with so few letters stays on one line of a table of prices."""
BETWEEN = 2
MOST_ROOM = 9
"""The style sheet has widths for rests of figures with at most so many signs."""


class Cell(NamedTuple):
    """A cell's text, its look (names of classes), and the head of its column."""

    text: str
    look: str
    head: str = ""


class Row(NamedTuple):
    """A row of a table; `sums` tells the row of its totals."""

    cells: tuple[Cell, ...]
    sums: bool


class SetTable(NamedTuple):
    """A table with cells as they are set. Without a caption it is known by its `name`."""

    look: str
    caption: str
    name: str
    head: tuple[Cell, ...]
    rows: tuple[Row, ...]


class Figure(NamedTuple):
    """A figure in two: its whole part ends, and its `rest` begins, on one line down the column. `room` names the class
    of the width that the longest rest of the column takes."""

    whole: str
    rest: str
    room: str
    look: str


class SetPrice(NamedTuple):
    """A row of the price with its cells as they are set."""

    kind: str
    label: Cell
    quantity: Figure
    unit: Cell
    rate: Figure
    mark: str
    amount: Cell


def set_tables(table: Table, name: str) -> Iterator[SetTable]:
    """Set a table; one whose columns are compared becomes several where a sheet has no room for all of them."""
    head = [*table.head, *table.fill_in]
    align = table.align + "l" * len(table.fill_in)
    rows = [[*row, *[""] * len(table.fill_in)] for row in table.rows]
    least = [max(_least(row[column]) for row in [head, *rows]) for column in range(len(head))]

    def cell(row: list[str], n: int) -> Cell:
        return _cell(row[n], align[n], head[n], opens=n >= len(table.head), cut=n in table.cut_in)

    for part, columns in enumerate(_blocks(least) if table.by_columns else [list(range(len(head)))]):
        wide = sum(least[column] for column in columns) + BETWEEN * (len(columns) - 1)
        yield SetTable(
            look=" ".join(
                filter(None, ("stacks" if wide - len(columns) > TELEPHONE else "", "long" if wide > SHEET else ""))
            ),
            caption="" if part else table.caption,
            name=f"{table.caption or name}, continued" if part else name,
            head=tuple(cell(head, n) for n in columns),
            rows=tuple(
                Row(tuple(cell(row, n) for n in columns), table.summed and number == len(rows))
                for number, row in enumerate(rows, start=1)
            ),
        )


def _blocks(least: list[int]) -> list[list[int]]:
    """Part columns into blocks that a sheet has room for, each with the first, which names the rows."""
    blocks, taken = [], [0]
    for column in range(1, len(least)):
        if len(taken) > 1 and sum(least[n] + BETWEEN for n in (*taken, column)) > SHEET + BETWEEN:
            blocks.append(taken)
            taken = [0]
        taken = [*taken, column]
    return [*blocks, taken]


def _least(text: str) -> int:
    """Give the columns of letters that a text needs at least, those of its longest word."""
    return max(min(display_width(word), LONG_WORD) for word in text.split(" "))


def _cell(text: str, side: str = "l", head: str = "", opens: bool = False, cut: bool = False) -> Cell:
    """Make a cell; one that `opens` is empty, and to be written in. Words of a `cut` one may break anywhere."""
    long = cut or any(display_width(word) > LONG_WORD for word in text.split())
    looks = ("r" if side == "r" else "", "long" if long else "", "open" if opens else "")
    return Cell(text, " ".join(filter(None, looks)), head)


def set_prices(prices: Prices) -> Iterator[SetPrice]:
    """Set the rows of the price, their figures under each other."""
    quantities = _figures([row.quantity for row in prices.rows], prices.decimal)
    rates = _figures([row.rate for row in prices.rows], prices.decimal)
    for row, quantity, rate in zip(prices.rows, quantities, rates, strict=True):
        mark = SAMPLE_MARK if row.marked else ""
        yield SetPrice(row.kind, _cell(row.label), quantity, _short(row.unit), rate, mark, _short(row.amount))


def _short(text: str) -> Cell:
    return Cell(text, "short") if len(text) <= SHORT else _cell(text)


def _figures(texts: list[str], decimal: str) -> list[Figure]:
    """Part each figure of a column before its fraction, its decimals or its sign of per cent."""
    rest_of = re.compile(rf"(?:(?:^|[ \u00a0])[0-9]+/[0-9]+|{re.escape(decimal)}[0-9]+)?(?:[ \u00a0]?%)?$")
    matches = [rest_of.search(text) for text in texts]
    wholes = [text[: match.start()] if match else text for text, match in zip(texts, matches, strict=True)]
    rests = [text[len(whole) :] for text, whole in zip(texts, wholes, strict=True)]
    room = max(map(len, rests), default=0)
    return [
        Figure(whole, rest, f"room-{room}" if room <= MOST_ROOM else "", _short(whole + rest).look)
        for whole, rest in zip(wholes, rests, strict=True)
    ]
