"""The views of a result. Each works out once the alternatives that its reader is to see, and rendering writes it."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from finishcalc.alternatives import alternatives_of, in_house, profit_of, samples_of
from finishcalc.intake.changes.settings import Trial
from finishcalc.pipeline import Finishing
from finishcalc.wording.sentence import Audience

if TYPE_CHECKING:
    from finishcalc.rendering.compare import Compared, Format
    from finishcalc.rendering.pages.page import Page
    from finishcalc.rendering.writing import Contents

Tried = list[tuple[Trial, Finishing]]
PAPERS: tuple["Format", ...] = ("html", "pdf")
"""The formats in which a page is a sheet to hand over."""


class More(NamedTuple):
    """The parts that a page of one quote may have besides: the arithmetic, and the list of defaults."""

    explain: bool = False
    defaults: bool = False


# --- one view in the format that is asked for --------------------------------------------------------------------


def quote_view(result: Finishing, reader: Audience, form: "Format", width: int, more: More) -> str | bytes:
    """Give a quote; on paper it is the customer's sheet or the studio's work order."""
    if form == "json":
        return quote_document(result, reader)
    page = quote_sheet(result, reader) if form in PAPERS else _quote_page(result, reader, more)
    return written([page], form, width)


def choices_view(tried: Tried, reader: Audience, form: "Format", width: int) -> str | bytes:
    """Give several choices side by side."""
    if form == "json":
        return choices_document(tried, reader)
    return written([choices_sheet(tried, reader)], form, width)


def cut_view(results: list[Finishing], form: "Format", width: int) -> str | bytes:
    """Give the cut lists of several projects, on paper each on sheets of its own."""
    from finishcalc.rendering.pages.cut import cut_page, cut_sheet

    return written(map(cut_sheet if form in PAPERS else cut_page, results), form, width)


def comparison_view(result: "Compared", form: "Format", contents: "Contents", width: int) -> str | bytes:
    """Give a comparison of sizes or of cloths, or a size chart; only the studio's JSON names samples."""
    from finishcalc.rendering.compare import compared, comparison_sheet, rows_of

    if form in PAPERS:
        return written([comparison_sheet(result, contents)], form, width)
    names_samples = form == "json" and contents.reader == "studio" and contents.prices
    samples = [samples_of(row.result) if names_samples else frozenset() for row in rows_of(result)]
    return compared(result, form, contents, width, samples)


def written(pages: "Iterable[Page]", form: "Format", width: int = 80) -> str | bytes:
    """Write pages as one document. A writer that is not asked for is not loaded. Raises ProblemsFound where there is
    none for PDF."""
    if form == "html":
        from finishcalc.rendering.writers.html import pages_html

        return pages_html(list(pages))
    if form == "pdf":
        from finishcalc.rendering.writers.typst import pages_pdf

        return pages_pdf(list(pages))
    if form == "markdown":
        from finishcalc.rendering.writers.markdown import pages_markdown

        return pages_markdown(pages)
    return _text(pages, width)


# --- pages -------------------------------------------------------------------------------------------------------


def quote_sheet(result: Finishing, reader: Audience) -> "Page":
    """Make the customer's sheet, or for the studio the work order."""
    if reader == "studio":
        from finishcalc.rendering.pages.work_order import work_order_sheet

        return work_order_sheet(result)
    from finishcalc.rendering.pages.customer_sheet import customer_sheet

    return customer_sheet(result, alternatives_of(result))


def choices_sheet(tried: Tried, reader: Audience) -> "Page":
    """Make the page of several choices side by side."""
    from finishcalc.rendering.pages.choices import choices_page
    from finishcalc.rendering.pages.page import Format as PageFormat

    profits = [profit_of(result) for _, result in tried] if reader == "studio" else []
    paper = tried[0][1].resolved.shop.studio.paper
    return choices_page(tried, profits)._replace(format=PageFormat(paper, landscape=True))


def _quote_page(result: Finishing, reader: Audience, more: More) -> "Page":
    from finishcalc.rendering.pages.quote import quote_page

    house = in_house(result) if reader == "studio" else None
    return quote_page(result, alternatives_of(result), house, more.explain, sources=more.defaults)


# --- text and JSON -----------------------------------------------------------------------------------------------


def quote_text(
    result: Finishing, reader: Audience, explain: bool = False, width: int = 80, *, defaults: bool = False
) -> str:
    """Give a quote as text, with the arithmetic and the list of defaults where they are asked for."""
    return _text([_quote_page(result, reader, More(explain, defaults))], width)


def cut_text(result: Finishing, width: int = 80) -> str:
    """Give the cut list as text."""
    from finishcalc.rendering.pages.cut import cut_page

    return _text([cut_page(result)], width)


def _text(pages: "Iterable[Page]", width: int) -> str:
    from finishcalc.rendering.writers.text import pages_text

    return pages_text(pages, width)


def quote_document(result: Finishing, reader: Audience = "studio") -> str:
    """Give the JSON document of a quote."""
    from finishcalc.rendering.documents.quote import quote_json

    return quote_json(result, alternatives_of(result), in_house(result) if reader == "studio" else None)


def choices_document(tried: Tried, reader: Audience) -> str:
    """Give the JSON document of several choices."""
    from finishcalc.rendering.pages.choices import choices_json

    alternatives = [(alternatives_of(result), in_house(result) if reader == "studio" else None) for _, result in tried]
    return choices_json(tried, alternatives, reader)
