"""The views of a result. Each works out once the alternatives that its reader is to see, and makes the page that is
written in the format asked for: a page for the terminal and for messages, a sheet for paper and browsers."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.alternatives.in_house import in_house, profit_of, samples_of
from finishcalc.intake.changes.settings import Trial
from finishcalc.pipeline import Finishing
from finishcalc.wording.sentence import Audience

if TYPE_CHECKING:
    from finishcalc.plans.shopping.together import ShoppingList
    from finishcalc.rendering.compare import Compared, Format
    from finishcalc.rendering.pages.page import Page
    from finishcalc.rendering.writing import Contents
    from finishcalc.reviewing.review import Review
    from finishcalc.wording.notation import Notation

Tried = list[tuple[Trial, Finishing]]
SHEETS: tuple["Format", ...] = ("html", "pdf")
"""The formats that are set as sheets, with fields to fill in by hand."""


class More(NamedTuple):
    """The parts that a page of one quote may have besides: the arithmetic, and the list of defaults."""

    explain: bool = False
    defaults: bool = False


def written(pages: "Sequence[Page]", form: "Format", width: int = 80) -> str | bytes:
    """Write pages as one document. A writer that is not asked for is not loaded."""
    if form == "html":
        from finishcalc.rendering.writers.html import pages_html

        return pages_html(pages)
    if form == "pdf":
        from finishcalc.rendering.writers.typst import pages_pdf

        return pages_pdf(pages)
    if form == "markdown":
        from finishcalc.rendering.writers.markdown import pages_markdown

        return pages_markdown(pages)
    from finishcalc.rendering.writers.text import pages_text

    return pages_text(pages, width)


def quote_view(result: Finishing, reader: Audience, form: "Format", width: int, more: More) -> str | bytes:
    """Give a quote in the format that is asked for."""
    if form == "json":
        return quote_document(result, reader)
    if form in SHEETS:
        return written([quote_sheet(result, reader)], form)
    from finishcalc.rendering.pages.quote import quote_page

    house = in_house(result) if reader == "studio" else None
    page = quote_page(result, alternatives_of(result), house, more.explain, sources=more.defaults)
    return written([page], form, width)


def quote_sheet(result: Finishing, reader: Audience) -> "Page":
    """Give the customer's sheet, or for the studio the work order."""
    if reader == "studio":
        from finishcalc.rendering.pages.work_order import work_order_sheet

        return work_order_sheet(result)
    from finishcalc.rendering.pages.customer_sheet import customer_sheet

    return customer_sheet(result, alternatives_of(result))


def quote_document(result: Finishing, reader: Audience = "studio") -> str:
    """Give the JSON document of a quote."""
    from finishcalc.rendering.documents.quote import quote_json

    return quote_json(result, alternatives_of(result), in_house(result) if reader == "studio" else None)


def choices_view(tried: Tried, reader: Audience, form: "Format", width: int) -> str | bytes:
    """Give several choices side by side in the format that is asked for."""
    from finishcalc.rendering.pages.choices import choices_json, choices_page
    from finishcalc.rendering.pages.page import Format as PageFormat

    if form == "json":
        house = [in_house(result) if reader == "studio" else None for _, result in tried]
        alternatives = [alternatives_of(result) for _, result in tried]
        return choices_json(tried, list(zip(alternatives, house, strict=True)), reader)
    profits = [profit_of(result) for _, result in tried] if reader == "studio" else []
    page = choices_page(tried, profits)
    paper = tried[0][1].resolved.shop.studio.paper
    return written([page._replace(format=PageFormat(paper, landscape=True))], form, width)


def cut_view(results: Iterable[Finishing], form: "Format", width: int) -> str | bytes:
    """Give the cut lists of several projects, each on sheets of its own, in the format that is asked for."""
    from finishcalc.rendering.pages.cut import cut_page, cut_sheet

    return written([cut_sheet(each) if form in SHEETS else cut_page(each) for each in results], form, width)


def comparison_view(result: "Compared", form: "Format", contents: "Contents", width: int) -> str | bytes:
    """Give a comparison of sizes or of cloths, or a size chart, in the format that is asked for; only the studio's JSON
    names samples."""
    from finishcalc.rendering.compare import comparison_page, comparison_rows, comparison_sheet, rows_of

    if form in ("json", "csv"):
        names_samples = form == "json" and contents.reader == "studio" and contents.prices
        samples = [samples_of(row.result) if names_samples else frozenset() for row in rows_of(result)]
        return comparison_rows(result, form, contents, samples)
    page = comparison_sheet(result, contents) if form in SHEETS else comparison_page(result, contents)
    return written([page], form, width)


def shopping_view(
    shopping: "ShoppingList",
    results: Sequence[Finishing],
    notation: "Notation",
    form: "Format",
    width: int,
    prices: bool,
) -> str | bytes:
    """Give a shopping list in the format that is asked for."""
    if form == "json":
        from finishcalc.rendering.documents.shopping import shopping_json

        return shopping_json(shopping, notation, prices=prices)
    if form == "csv":
        from finishcalc.rendering.tables.shopping import shopping_csv

        return shopping_csv(shopping, notation.units, prices=prices)
    from finishcalc.rendering.pages.shopping import shopping_page

    page = shopping_page(shopping, notation, results[0].resolved.shop.studio.paper, prices=prices)
    return written([page], form, width)


def schema_text(name: str) -> str:
    """Give a schema as a JSON document."""
    from finishcalc.intake.presets import SYSTEMS, key_sentences, names
    from finishcalc.model.files import MATERIALS
    from finishcalc.rendering.schemas.files import Words
    from finishcalc.rendering.schemas.known import schema_json

    presets = {kind: names(kind, next(iter(SYSTEMS))) for kind in MATERIALS}
    return schema_json(name, Words(key_sentences(), presets))


def check_view(reviews: "list[Review]", form: "Format", width: int) -> "str | bytes":
    """Give the reviews of files as pages, one after another, or as one JSON document."""
    if form == "json":
        from finishcalc.rendering.documents.check import check_json

        return check_json(reviews)
    from finishcalc.rendering.pages.check import check_page

    return written([check_page(review) for review in reviews], form, width)
