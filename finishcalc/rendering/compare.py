"""A comparison, or a size chart, in whichever way it is asked for; and the picture that goes with it."""

from typing import Literal

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.sizes import Comparison
from finishcalc.rendering.pages.compare import chart_text, compare_text
from finishcalc.rendering.pictures.bars import bars, bars_svg
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.said import Audience

Found = Comparison | SizeChart
Way = Literal["text", "json", "csv", "markdown"]


def compared(found: Found, way: Way, audience: Audience, width: int) -> str:
    """The whole result as one document. What is not asked for is not loaded."""
    if way == "json":
        from finishcalc.rendering.documents.compare import chart_json, compare_json

        return chart_json(found, audience) if isinstance(found, SizeChart) else compare_json(found, audience)
    if way == "csv":
        from finishcalc.rendering.tables.csv_text import chart_csv, compare_csv

        return chart_csv(found, audience) if isinstance(found, SizeChart) else compare_csv(found, audience)
    if way == "markdown":
        from finishcalc.rendering.tables.markdown import chart_markdown, compare_markdown

        return chart_markdown(found, audience) if isinstance(found, SizeChart) else compare_markdown(found, audience)
    if isinstance(found, SizeChart):
        return chart_text(found, audience, width)
    return compare_text(found, audience, width)


def _comparison(found: Found) -> Comparison:
    return found.comparison if isinstance(found, SizeChart) else found


def size_pictures(found: Found) -> dict[str, str]:
    """The bars as an SVG document, by file name."""
    comparison = _comparison(found)
    return {"sizes.svg": bars_svg(bars(comparison, notation_of(comparison.rows[0].result)))}
