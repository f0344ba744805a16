"""A tally as a page: a row a project, the totals of each currency, and what to know about them.

A terminal and a sheet have room for what a season is planned by; Markdown has all columns.
"""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Money
from finishcalc.rendering.pages.page import Format, Group, Head, Page, Paragraph, Table, sentences
from finishcalc.rendering.tables.tally import TallyRow, sums_by_currency
from finishcalc.rendering.writing import SAMPLE_MARK, sample_note
from finishcalc.tallying import Sums
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.words import counted, in_words

MOST_NAMED = 10
"""The most names of one note; the others are counted."""


class _Column(NamedTuple):
    """A column: its head, its side, its cell in a row, and its cell in the totals."""

    head: str
    align: str
    cell: Callable[[TallyRow], str]
    sum: Callable[[Sums], str] = lambda sums: ""


def tally_page(rows: Sequence[TallyRow], left_out: Sequence[str], notation: Notation, *, whole: bool = False) -> Page:
    """Make the page of the projects that could be worked out; `left_out` are the files that could not. The `whole`
    table has every column."""
    sums = sums_by_currency(rows)
    columns = list(_columns(notation, len(sums) == 1, sums[0].currency.code))
    if not whole:
        columns = [column for column in columns if column.head.partition(",")[0] in SEASON]
    groups: list[Group] = [
        (_table(columns, rows, sums),),
        *[(Paragraph(sample_note("sample rates", "studio"), small=True),)] * any(row.sampled for row in rows),
        (sentences("Hours", [_hours_words(each, notation, len(sums) > 1) for each in sums]),),
        (sentences("Price", [_price_words(each, notation) for each in sums]),),
        (sentences("Cost", ["materials, what is passed on and the other costs of the hours, without any wage"]),),
        (sentences("Please note", list(_notes(rows, left_out))),),
    ]
    return Page(
        Head("", f"Tally of {counted(len(rows), 'project')}"), tuple(groups), Format(rows[0].paper, landscape=True)
    )


SEASON = ("Project", "Due", "Size", "Hours", "Cost", "Earned an hour", "Total")
"""The columns that a terminal and a sheet have room for."""


def _columns(notation: Notation, one_currency: bool, code: str) -> Iterator[_Column]:
    def amount(money: Money | None) -> str:
        return "" if money is None else notation.bare_money(money)

    def in_full(money: Money) -> str:
        return amount(money) + ("" if one_currency else f"{NO_BREAK}{money.currency.code}")

    def hours(number: Fraction) -> str:
        return notation.price(number)

    def marked(row: TallyRow) -> str:
        return in_full(row.sums.total) + (f"{NO_BREAK}{SAMPLE_MARK}" if row.sampled else "")

    yield _Column("Project", "l", lambda row: row.title, lambda sums: counted(sums.projects, "project"))
    yield _Column("Number", "l", lambda row: row.number)
    yield _Column("Customer", "l", lambda row: row.customer)
    yield _Column("Date", "l", lambda row: row.date)
    yield _Column("Due", "l", lambda row: row.due)
    yield _Column(f"Size, {notation.units}", "l", lambda row: row.size)
    area = notation.quantity
    yield _Column(f"Area, sq {notation.units}", "r", lambda row: area(row.sums.area), lambda sums: area(sums.area))
    yield _Column("Backing", "l", lambda row: row.backing)
    yield _Column("Batting", "l", lambda row: row.batting)
    yield _Column("Binding", "l", lambda row: row.binding)
    yield _Column("Least hours", "r", lambda row: hours(row.sums.low), lambda sums: hours(sums.low))
    yield _Column("Hours", "r", lambda row: hours(row.sums.planned), lambda sums: hours(sums.planned))
    yield _Column("Most hours", "r", lambda row: hours(row.sums.high), lambda sums: hours(sums.high))
    yield _Column("Cost", "r", lambda row: amount(row.sums.cost), lambda sums: amount(sums.cost))
    yield _Column("Price", "r", lambda row: amount(row.sums.price), lambda sums: amount(sums.price))
    yield _Column("Earned an hour", "r", lambda row: amount(row.hourly), lambda sums: amount(sums.hourly))
    yield _Column(f"Total, {code}" if one_currency else "Total", "r", marked, lambda sums: in_full(sums.total))


def _table(columns: Sequence[_Column], rows: Sequence[TallyRow], sums: Sequence[Sums]) -> Table:
    """Set the rows, and under them the totals, which in a list of one project would only say it again."""
    cells = [[column.cell(row) for column in columns] for row in rows]
    totals = [[column.sum(each) for column in columns] for each in sums] if len(rows) > 1 else []
    head, align = [column.head for column in columns], "".join(column.align for column in columns)
    return Table(head, align, cells + totals, summed=len(totals) == 1, cut_in=(0,))


def _hours_words(sums: Sums, notation: Notation, several: bool) -> str:
    low, planned, high = (f"{notation.price(each)}{NO_BREAK}h" for each in (sums.low, sums.planned, sums.high))
    of_whom = f" of the {counted(sums.projects, 'project')} in {sums.currency.code}" if several else ""
    return f"{planned} planned{of_whom}, from {low} to {high}"


def _price_words(sums: Sums, notation: Notation) -> str:
    code = sums.currency.code
    price, net = (f"{notation.bare_money(each)}{NO_BREAK}{code}" for each in (sums.price, sums.net))
    rest = f"; {net} without any tax, and without what has no known time or cost" if net != price else ""
    return f"{price} before tax that is added{rest}"


def _notes(rows: Sequence[TallyRow], left_out: Sequence[str]) -> Iterator[str]:
    if provisional := [row.title for row in rows if row.provisional]:
        yield f"Provisional, because it cannot be made as specified: {_named(provisional)}."
    if left_out:
        yield f"Left out of every total, because of the problems told below: {_named(list(map(plain, left_out)))}."


def _named(names: list[str]) -> str:
    others = len(names) - MOST_NAMED
    return in_words([*names[:MOST_NAMED], counted(others, "other")] if others > 0 else names)
