"""The views of a result. Each works out once the alternatives that its reader is to see, and rendering writes both."""

from collections.abc import Sequence
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


class More(NamedTuple):
    """The parts that a page of one quote may have besides: the arithmetic, and the list of defaults."""

    explain: bool = False
    defaults: bool = False


def quote_view(result: Finishing, reader: Audience, form: "Format", width: int, more: More) -> str | bytes:
    """Give a quote in the format that is asked for."""
    if form == "json":
        return quote_document(result, reader)
    if form == "text":
        return quote_page(result, reader, more.explain, width, defaults=more.defaults)
    return _written([quote_sheet(result, reader)], form)


def choices_view(tried: Tried, reader: Audience, form: "Format", width: int) -> str | bytes:
    """Give several choices side by side in the format that is asked for."""
    if form == "json":
        return choices_document(tried, reader)
    if form == "text":
        return choices_page(tried, reader, width)
    return _written([choices_sheet(tried, reader)], form)


def cut_view(results: list[Finishing], form: "Format", width: int) -> str | bytes:
    """Give the cut lists of several projects, each on sheets of its own, in the format that is asked for."""
    if form == "text":
        from finishcalc.rendering.pages.cut import cut_texts

        return cut_texts(results, width)
    return _written(cut_sheet(results), form)


def _written(pages: "Sequence[Page]", form: "Format") -> str | bytes:
    """Write pages as one document. A writer that is not asked for is not loaded."""
    if form == "html":
        from finishcalc.rendering.writers.html import pages_html

        return pages_html(pages)
    if form == "pdf":
        from finishcalc.rendering.writers.typst import pages_pdf

        return pages_pdf(pages)
    from finishcalc.rendering.writers.markdown import page_markdown

    return "\n".join(map(page_markdown, pages))


def quote_page(
    result: Finishing, reader: Audience, explain: bool = False, width: int = 80, *, defaults: bool = False
) -> str:
    """Give the page of a quote, with the arithmetic and the list of defaults where they are asked for."""
    from finishcalc.rendering.pages.quote import quote_text

    house = in_house(result) if reader == "studio" else None
    return quote_text(result, alternatives_of(result), house, explain, width, sources=defaults)


def quote_document(result: Finishing, reader: Audience = "studio") -> str:
    """Give the JSON document of a quote."""
    from finishcalc.rendering.documents.quote import quote_json

    return quote_json(result, alternatives_of(result), in_house(result) if reader == "studio" else None)


def choices_page(tried: Tried, reader: Audience, width: int) -> str:
    """Give the page of several choices side by side."""
    from finishcalc.rendering.pages.choices import choices_text

    profits = [profit_of(result) for _, result in tried] if reader == "studio" else []
    return choices_text(tried, profits, width)


def choices_document(tried: Tried, reader: Audience) -> str:
    """Give the JSON document of several choices."""
    from finishcalc.rendering.pages.choices import choices_json

    alternatives = [(alternatives_of(result), in_house(result) if reader == "studio" else None) for _, result in tried]
    return choices_json(tried, alternatives, reader)


def comparison_view(result: "Compared", form: "Format", contents: "Contents", width: int) -> str | bytes:
    """Give a comparison of sizes or of cloths, or a size chart, in the format that is asked for; only the studio's JSON
    names samples."""
    from finishcalc.rendering.compare import compared, rows_of

    if form in ("html", "pdf"):
        return _written([comparison_sheet(result, contents)], form)
    names_samples = form == "json" and contents.reader == "studio" and contents.prices
    samples = [samples_of(row.result) if names_samples else frozenset() for row in rows_of(result)]
    return compared(result, form, contents, width, samples)


def quote_sheet(result: Finishing, reader: Audience) -> "Page":
    """Give the page of a quote, or for the studio the work order."""
    return _stand_in("Quote" if reader == "customer" else "Work order", result)


def choices_sheet(tried: Tried, reader: Audience) -> "Page":
    """Give the page of several choices side by side."""
    return _stand_in("Choices", tried[0][1])


def cut_sheet(results: list[Finishing]) -> "list[Page]":
    """Give the cut lists, a page for each project."""
    return [_stand_in("Cut list", result) for result in results]


def comparison_sheet(result: "Compared", contents: "Contents") -> "Page":
    """Give the page of a comparison or a size chart."""
    from finishcalc.rendering.compare import rows_of

    return _stand_in("Compared", rows_of(result)[0].result)


def _stand_in(kind: str, result: Finishing) -> "Page":
    from finishcalc.rendering.pages.page import Head, Page

    return Page(Head(kind, result.resolved.project.title, logo=result.resolved.logo), ())
