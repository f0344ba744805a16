"""A comparison and a size chart as pages of text."""

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.sizes import Comparison
from finishcalc.rendering.pages.page import WIDEST, block, table_lines, wrap
from finishcalc.rendering.pictures.bars import bars, bars_text
from finishcalc.rendering.tables.compare import (
    caution_notes,
    chart_key,
    chart_table,
    compare_table,
    cover_notes,
    refit_notes,
)
from finishcalc.rendering.writing import joined, notation_of, sample_note
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.said import Audience


def compare_text(comparison: Comparison, audience: Audience, width: int = WIDEST) -> str:
    """The table, what was made to fit, the bars, and what to be careful of."""
    first = comparison.rows[0].result
    notation = notation_of(first)
    marked = any(row.result.priced_on_samples for row in comparison.rows)
    parts = [
        wrap(f"Sizes of {plain(first.asked.project.title)}", width),
        table_lines(compare_table(comparison, audience, notation), width),
        wrap(sample_note("sample rates"), width) if marked else [],
        *_notes(comparison, audience, notation, width),
        [*wrap("To one scale:", width), *bars_text(bars(comparison, notation), width)],
    ]
    return joined(parts)


def chart_text(chart: SizeChart, audience: Audience, width: int = WIDEST) -> str:
    """The size chart, what was made to fit, and what to be careful of."""
    first = chart.comparison.rows[0].result
    notation = notation_of(first)
    marked = any(cell.result.priced_on_samples for cells in chart.cells for cell in cells)
    parts = [
        wrap(f"Sizes and cloths for {plain(first.asked.project.title)}", width),
        table_lines(chart_table(chart, audience, notation), width),
        wrap(chart_key(chart), width),
        wrap(sample_note("sample rates"), width) if marked else [],
        *_notes(chart.comparison, audience, notation, width),
    ]
    return joined(parts)


def _notes(comparison: Comparison, audience: Audience, notation: Notation, width: int) -> list[list[str]]:
    return [
        block("Covers", cover_notes(comparison, notation), width),
        block("Refitted", refit_notes(comparison, notation), width),
        block("Careful", caution_notes(comparison, audience, notation), width),
    ]
