"""A project of a tally as a row: in words for pages, in figures for a spreadsheet, and what it adds to the totals."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from finishcalc.measures.money import Currency, Money
from finishcalc.pipeline import Finishing
from finishcalc.rendering.documents.tally import tally_record
from finishcalc.rendering.documents.writing import exact_decimal, number
from finishcalc.rendering.pages.batting import batting_cell
from finishcalc.rendering.tables.chart import Figure
from finishcalc.rendering.tables.compare import backing_cell, binding_cell, chosen_backing, size_words
from finishcalc.rendering.tables.csv_text import csv_lines, text_cell
from finishcalc.rendering.writing import is_provisional, notation_of
from finishcalc.tallying import Project, Sums, added, sums_of
from finishcalc.wording.notation import Notation, plain_blanks


class TallyRow(NamedTuple):
    """A row of a tally's page, in words: what was agreed and what is made of it. `sums` are its figures, `files` those
    it was read from, and `paper` is its studio's."""

    title: str
    number: str
    customer: str
    date: str
    due: str
    size: str
    backing: str
    batting: str
    binding: str
    hourly: Money | None
    sampled: bool
    provisional: bool
    sums: Sums
    files: tuple[str, ...]
    paper: Literal["letter", "A4"]


def list_notation(first: Finishing, units: str | None) -> Notation:
    """Write a list in the units of its first project unless others are asked for, with the signs of its shop. A column
    names the currency, so amounts have no symbol."""
    notation = notation_of(first)
    return notation._replace(units=units or notation.units, symbol="", names={})


def tally_row(project: Project, notation: Notation) -> TallyRow:
    """Make the row of a project for a page."""
    result = project.result
    spec, plans, earned = result.resolved.project, result.plans, project.earned
    return TallyRow(
        title=notation.show(spec.title),
        number=notation.show(spec.job.number),
        customer=notation.show(spec.customer.name),
        date=spec.job.date.isoformat() if spec.job.date else "",
        due=spec.job.due.isoformat() if spec.job.due else "",
        size=size_words(plans.top.shape, notation),
        backing=backing_cell(result, notation),
        batting=batting_cell(plans.batting, notation),
        binding=binding_cell(result, notation),
        hourly=earned.an_hour(earned.minutes),
        sampled=result.priced_on_samples,
        provisional=is_provisional(result),
        sums=sums_of(project, notation.units),
        files=tuple(result.resolved.files),
        paper=result.resolved.shop.studio.paper,
    )


def sums_by_currency(rows: Iterable[TallyRow]) -> list[Sums]:
    """Add up the printed figures of rows, each currency for itself, in the order in which they come."""
    by_currency: dict[Currency, list[Sums]] = {}
    for row in rows:
        by_currency.setdefault(row.sums.currency, []).append(row.sums)
    return [added(currency, sums) for currency, sums in by_currency.items()]


def tally_csv(project: Project, notation: Notation) -> str:
    """Write a project as one line for a spreadsheet."""
    return csv_lines([_cells(project, notation)])


CSV_COLUMNS = (
    "file", "title", "number", "customer", "date", "due", "shape", "width", "length", "area", "units",
    "backing", "backing_unit", "backing_seams", "batting", "binding", "binding_unit",
    "hours_low", "hours_planned", "hours_high", "attended_hours",
    "currency", "cost", "price", "net", "earned_an_hour", "total", "provisional", "rests_on_samples",
)  # fmt: skip
"""The head of the spreadsheet. Every amount is a bare figure; its unit or its currency has a column of its own."""


def csv_head() -> str:
    """Write the head of the spreadsheet."""
    return csv_lines([CSV_COLUMNS])


def _cells(project: Project, notation: Notation) -> list[Figure]:
    result, record = project.result, tally_record(project, notation)
    job, top, quote, studio = record["job"], record["top"], record["quote"], record["studio"]
    option, binding, sums = chosen_backing(result), result.plans.binding, sums_of(project, notation.units)
    texts = (project.file, record["title"], job["number"], record["customer"]["name"])
    return [
        *map(text_cell, texts),
        job["date"],
        job["due"],
        *top.values(),
        notation.units,
        exact_decimal(option.amount.to(option.fabric.per)) if option else None,
        option.fabric.per if option else None,
        option.layout.seams if option else None,
        text_cell(plain_blanks(batting_cell(result.plans.batting, notation))),
        exact_decimal(binding.amount.to(binding.fabric.per)) if binding else None,
        binding.fabric.per if binding else None,
        *(number(hours) for hours in (sums.low, sums.planned, sums.high, sums.attended)),
        quote["currency"],
        studio["break_even"],
        quote["subtotal"],
        studio["net"],
        studio["earned_an_attended_hour"],
        quote["total"],
        "yes" if quote["provisional"] else "no",
        "yes" if record["rests_on_samples"] else "no",
    ]
