"""A comparison of sizes or of cloths, or a size chart, in the format that is asked for, and its picture."""

from collections.abc import Sequence
from typing import Literal

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.cloths import ClothComparison
from finishcalc.comparing.sizes import Comparison, Row
from finishcalc.rendering.pages.chart import chart_page
from finishcalc.rendering.pages.page import Format as PageFormat
from finishcalc.rendering.pages.page import Page
from finishcalc.rendering.pictures.outlines import size_outlines
from finishcalc.rendering.pictures.outlines_svg import outlines_svg
from finishcalc.rendering.tables.compare import cloths_page, sizes_page
from finishcalc.rendering.writing import Contents, notation_of

Compared = Comparison | ClothComparison | SizeChart
Format = Literal["text", "json", "csv", "markdown", "html", "pdf"]


def comparison_rows(
    result: Compared, form: Literal["json", "csv"], contents: Contents, samples: Sequence[frozenset[str]]
) -> str:
    """Write the whole result as rows for programs. A format that is not asked for is not loaded; `samples` are those of
    each row for the studio's JSON."""
    return _json(result, contents, samples) if form == "json" else _csv(result, contents)


def comparison_page(result: Compared, contents: Contents) -> Page:
    """Make the page of a comparison of sizes or of cloths, or of a size chart."""
    if isinstance(result, SizeChart):
        return chart_page(result, contents)
    return cloths_page(result, contents) if isinstance(result, ClothComparison) else sizes_page(result, contents)


def comparison_sheet(result: Compared, contents: Contents) -> Page:
    """Make the page of a comparison as a sheet for the wall or a pattern."""
    paper = rows_of(result)[0].result.resolved.shop.studio.paper
    return comparison_page(result, contents)._replace(format=PageFormat(paper, landscape=True))


def _json(result: Compared, contents: Contents, samples: Sequence[frozenset[str]]) -> str:
    from finishcalc.rendering.documents.compare import chart_json, cloths_json, compare_json

    if isinstance(result, SizeChart):
        return chart_json(result, contents)
    if isinstance(result, ClothComparison):
        return cloths_json(result, contents, samples)
    return compare_json(result, contents, samples)


def _csv(result: Compared, contents: Contents) -> str:
    from finishcalc.rendering.tables.csv_text import chart_csv, cloths_csv, compare_csv

    if isinstance(result, SizeChart):
        return chart_csv(result, contents)
    return cloths_csv(result, contents) if isinstance(result, ClothComparison) else compare_csv(result, contents)


def rows_of(result: Compared) -> tuple[Row, ...]:
    """Give the rows, a size each."""
    return comparison_of(result).rows


def comparison_of(result: Compared) -> Comparison:
    """Give the comparison of sizes that the result is, or is made of."""
    return result if isinstance(result, Comparison) else result.comparison


def size_pictures(result: Compared) -> dict[str, str]:
    """Draw the outlines of the sizes as an SVG document, by file name."""
    comparison = comparison_of(result)
    return {"sizes.svg": outlines_svg(size_outlines(comparison, notation_of(comparison.rows[0].result)), "sizes")}
