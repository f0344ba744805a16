"""A project of a tally as a row: in words for pages, in figures for a spreadsheet, and what it adds to the totals."""

from collections.abc import Iterable
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import printed
from finishcalc.pipeline import Finishing
from finishcalc.rendering.documents.tally import tally_record
from finishcalc.rendering.documents.writing import exact_decimal, number
from finishcalc.rendering.pages.batting import batting_cell
from finishcalc.rendering.tables.chart import Figure
from finishcalc.rendering.tables.compare import backing_cell, binding_cell, chosen_backing, size_words
from finishcalc.rendering.tables.csv_text import csv_lines, text_cell
from finishcalc.rendering.writing import is_provisional, notation_of
from finishcalc.tallying import Project
from finishcalc.wording.notation import Notation, plain_blanks


class Sums(NamedTuple):
    """The printed figures of some projects in one currency, added up: their number; the area in square `units` of the
    list; hours; and money. `net` is the price without tax; `cost` is what that must cover besides a wage."""

    currency: Currency
    projects: int
    area: Fraction
    low: Fraction
    planned: Fraction
    high: Fraction
    attended: Fraction
    cost: Money
    price: Money
    net: Money
    total: Money

    @property
    def hourly(self) -> Money | None:
        """The earnings of an attended hour over all of them, from the printed figures; None without such hours."""
        left = self.net - self.cost
        return self.currency.round(left.major / self.attended) if self.attended else None


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
        sums=_sums(project, notation.units),
        files=tuple(result.resolved.files),
        paper=result.resolved.shop.studio.paper,
    )


def _sums(project: Project, units: str) -> Sums:
    result, earned = project.result, project.earned
    unit = f"sq {units}"
    return Sums(
        currency=result.quote.currency,
        projects=1,
        area=printed(result.plans.top.shape.area.to(unit), unit),
        low=_hours(result.hours.low),
        planned=_hours(result.hours.planned),
        high=_hours(result.hours.high),
        attended=earned.hours,
        cost=earned.break_even,
        price=result.quote.subtotal,
        net=earned.net,
        total=result.quote.total,
    )


def _hours(minutes: Fraction) -> Fraction:
    return printed(minutes / 60, "hour")


def sums_by_currency(rows: Iterable[TallyRow]) -> list[Sums]:
    """Add up the printed figures of rows, each currency for itself, in the order in which they come."""
    by_currency: dict[Currency, list[Sums]] = {}
    for row in rows:
        by_currency.setdefault(row.sums.currency, []).append(row.sums)
    return [_added(currency, sums) for currency, sums in by_currency.items()]


def _added(currency: Currency, sums: list[Sums]) -> Sums:
    zero = Fraction(0)
    return Sums(
        currency=currency,
        projects=len(sums),
        area=sum((each.area for each in sums), zero),
        low=sum((each.low for each in sums), zero),
        planned=sum((each.planned for each in sums), zero),
        high=sum((each.high for each in sums), zero),
        attended=sum((each.attended for each in sums), zero),
        cost=total((each.cost for each in sums), currency),
        price=total((each.price for each in sums), currency),
        net=total((each.net for each in sums), currency),
        total=total((each.total for each in sums), currency),
    )


CSV_COLUMNS = (
    "file", "title", "number", "customer", "date", "due", "shape", "width", "length", "area", "units",
    "backing", "backing_unit", "backing_seams", "batting", "binding", "binding_unit",
    "hours_low", "hours_planned", "hours_high", "attended_hours",
    "currency", "cost", "price", "net", "earned_an_hour", "total", "provisional", "rests_on_samples",
)  # fmt: skip
"""The head of the spreadsheet. Every amount is a bare figure; its unit or its currency has a column of its own."""


def tally_csv(project: Project, notation: Notation) -> str:
    """Write a project as one line for a spreadsheet."""
    return csv_lines([_cells(project, notation)])


def csv_head() -> str:
    """Write the head of the spreadsheet."""
    return csv_lines([CSV_COLUMNS])


def _cells(project: Project, notation: Notation) -> list[Figure]:
    result, record = project.result, tally_record(project, notation)
    job, top, quote, studio = record["job"], record["top"], record["quote"], record["studio"]
    option, binding, sums = chosen_backing(result), result.plans.binding, _sums(project, notation.units)
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
