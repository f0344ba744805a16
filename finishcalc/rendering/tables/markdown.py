"""Tables in Markdown."""

import re

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.sizes import Comparison
from finishcalc.rendering.pages.page import Table
from finishcalc.rendering.tables.compare import (
    caution_notes,
    chart_key,
    chart_table,
    compare_table,
    cover_notes,
    refit_notes,
)
from finishcalc.rendering.writing import notation_of, sample_note
from finishcalc.wording.notation import plain_blanks
from finishcalc.wording.plain import plain
from finishcalc.wording.said import Audience


def compare_markdown(comparison: Comparison, audience: Audience) -> str:
    """A comparison as a heading, a table, and its notes as a list."""
    table = compare_table(comparison, audience, notation_of(comparison.rows[0].result))
    marked = any(row.result.priced_on_samples for row in comparison.rows)
    return _page("Sizes of", comparison, table, [sample_note("sample rates")] if marked else [], audience)


def chart_markdown(chart: SizeChart, audience: Audience) -> str:
    """A size chart as a heading, a table, and its notes as a list."""
    table = chart_table(chart, audience, notation_of(chart.comparison.rows[0].result))
    marked = any(cell.result.priced_on_samples for cells in chart.cells for cell in cells)
    notes = [chart_key(chart), *([sample_note("sample rates")] if marked else [])]
    return _page("Sizes and cloths for", chart.comparison, table, notes, audience)


def _page(title: str, comparison: Comparison, table: Table, notes: list[str], audience: Audience) -> str:
    first = comparison.rows[0].result
    notation = notation_of(first)
    told = (
        notes
        + cover_notes(comparison, notation)
        + refit_notes(comparison, notation)
        + caution_notes(comparison, audience, notation)
    )
    lines = [f"## {title} {escaped(plain(first.asked.project.title))}", "", *markdown_table(table)]
    lines += [""] * bool(told) + [f"- {escaped(note)}" for note in told]
    return plain_blanks("\n".join(lines)) + "\n"


def markdown_table(table: Table) -> list[str]:
    """The table's lines; figures stand at the right."""
    rule = ["---:" if side == "r" else "---" for side in table.align]
    rows = [table.head, rule, *table.rows]
    return ["| " + " | ".join(cell if row is rule else escaped(cell) for cell in row) + " |" for row in rows]


def escaped(text: str) -> str:
    """Text that Markdown prints as it is."""
    return re.sub(r"([\\`*_{}\[\]<>|#~&])", r"\\\1", text)
