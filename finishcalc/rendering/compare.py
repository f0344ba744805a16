"""A comparison of sizes or of cloths in the format that is asked for, and its picture."""

from collections.abc import Sequence
from typing import Literal

from finishcalc.comparing.cloths import ClothComparison
from finishcalc.comparing.sizes import Comparison, Row
from finishcalc.rendering.pages.page import page_blocks, wrap
from finishcalc.rendering.pictures.outlines import outlines_svg, outlines_text, size_outlines
from finishcalc.rendering.tables.compare import cloths_page, comparison_page
from finishcalc.rendering.writing import joined, notation_of
from finishcalc.wording.sentence import Audience

Compared = Comparison | ClothComparison
Format = Literal["text", "json", "csv", "markdown"]


def compared(result: Compared, form: Format, audience: Audience, width: int, samples: Sequence[frozenset[str]]) -> str:
    """Write the whole result as one document. A format that is not asked for is not loaded; `samples` are those of each
    row for the studio's JSON."""
    if form == "json":
        from finishcalc.rendering.documents.compare import cloths_json, compare_json

        return cloths_json(result, samples) if isinstance(result, ClothComparison) else compare_json(result, samples)
    if form == "csv":
        from finishcalc.rendering.tables.csv_text import cloths_csv, compare_csv

        return cloths_csv(result, audience) if isinstance(result, ClothComparison) else compare_csv(result, audience)
    page = cloths_page(result, audience) if isinstance(result, ClothComparison) else comparison_page(result, audience)
    if form == "markdown":
        from finishcalc.rendering.tables.markdown import page_markdown

        return page_markdown(page)
    drawn = [] if isinstance(result, ClothComparison) else _drawn(result, width)
    return joined([*page_blocks(page, width), drawn])


def rows_of(result: Compared) -> tuple[Row, ...]:
    """Give the rows, a size each."""
    return _comparison(result).rows


def _comparison(result: Compared) -> Comparison:
    return result.comparison if isinstance(result, ClothComparison) else result


def _drawn(comparison: Comparison, width: int) -> list[str]:
    notation = notation_of(comparison.rows[0].result)
    drawn = outlines_text(size_outlines(comparison, notation), width)
    return [*wrap("To one scale, from one corner:", width), *drawn] if drawn else []


def size_pictures(result: Compared) -> dict[str, str]:
    """Draw the outlines of the sizes as an SVG document, by file name."""
    comparison = _comparison(result)
    return {"sizes.svg": outlines_svg(size_outlines(comparison, notation_of(comparison.rows[0].result)))}
