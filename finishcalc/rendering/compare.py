"""A comparison, or a size chart, in whichever way it is asked for; and the files that go with it."""

import re
from pathlib import PurePath
from typing import Literal

from finishcalc.comparing import Comparison, SizeChart
from finishcalc.intake.reading import STANDARD_INPUT
from finishcalc.measures.said import Audience
from finishcalc.rendering.bars import bars, bars_svg
from finishcalc.rendering.compare_text import chart_text, compare_text
from finishcalc.rendering.project_toml import project_toml
from finishcalc.rendering.quote_text import notation_of

Found = Comparison | SizeChart
Way = Literal["text", "json", "csv", "markdown"]


def compared(found: Found, way: Way, audience: Audience, width: int) -> str:
    """The whole result as one document. What is not asked for is not loaded."""
    if way == "json":
        from finishcalc.rendering.compare_json import chart_json, compare_json

        return chart_json(found) if isinstance(found, SizeChart) else compare_json(found)
    if way == "csv":
        from finishcalc.rendering.spreadsheet import chart_csv, compare_csv

        return chart_csv(found, audience) if isinstance(found, SizeChart) else compare_csv(found, audience)
    if way == "markdown":
        from finishcalc.rendering.markdown import chart_markdown, compare_markdown

        return chart_markdown(found, audience) if isinstance(found, SizeChart) else compare_markdown(found, audience)
    if isinstance(found, SizeChart):
        return chart_text(found, audience, width)
    return compare_text(found, audience, width)


def _sizes(found: Found) -> Comparison:
    return found.comparison if isinstance(found, SizeChart) else found


def size_pictures(found: Found) -> dict[str, str]:
    """The bars as an SVG document, by file name."""
    comparison = _sizes(found)
    return {"sizes.svg": bars_svg(bars(comparison, notation_of(comparison.rows[0].result)))}


def size_projects(found: Found) -> dict[str, str]:
    """Each size as a project file of its own, by file name; the design as it is has one already."""
    comparison = _sizes(found)
    name = comparison.source.name
    stem = "quilt-top" if name == STANDARD_INPUT else PurePath(name).stem
    texts: dict[str, str] = {}
    for row in comparison.rows:
        if row.change:
            texts[_unused(f"{stem}-{_in_a_name(row.name)}", texts)] = project_toml(comparison.source, row.change)
    return texts


def _in_a_name(text: str) -> str:
    """A size as part of a file's name."""
    return re.sub(r"[^a-z0-9.]+", "-", text.lower()).strip("-.") or "size"


def _unused(stem: str, taken: dict[str, str]) -> str:
    names = (f"{stem}.toml", *(f"{stem}-{number}.toml" for number in range(2, len(taken) + 3)))
    return next(name for name in names if name not in taken)
