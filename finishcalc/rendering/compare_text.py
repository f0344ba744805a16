"""A comparison and a size chart as pages of text."""

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.sizes import Comparison
from finishcalc.measures.notation import NO_BREAK, Notation
from finishcalc.measures.said import Audience
from finishcalc.plain import plain
from finishcalc.rendering.bars import bars, bars_text
from finishcalc.rendering.compare_table import (
    Table,
    caution_notes,
    chart_table,
    compare_table,
    cover_notes,
    refit_notes,
)
from finishcalc.rendering.page import WIDEST, block, cells, columns, wrap
from finishcalc.rendering.price_table import SAMPLE_MARK
from finishcalc.rendering.quote_text import notation_of

NARROWEST = 6
"""A column of words that would have to be narrower is told line by line instead."""
SAMPLES = f"{SAMPLE_MARK} rests on sample rates, not on the studio's own: see presets/shops."


def compare_text(comparison: Comparison, audience: Audience, width: int = WIDEST) -> str:
    """The table, what was made to fit, the bars, and what to be careful of."""
    first = comparison.rows[0].result
    notation = notation_of(first)
    parts = [
        wrap(f"Sizes of {plain(first.asked.project.title)}", width),
        table_lines(compare_table(comparison, audience, notation), width),
        wrap(SAMPLES, width) if any(row.result.samples for row in comparison.rows) else [],
        *_notes(comparison, notation, width),
        [*wrap("To one scale:", width), *bars_text(bars(comparison, notation), width)],
    ]
    return _page(parts)


def chart_text(chart: SizeChart, audience: Audience, width: int = WIDEST) -> str:
    """The size chart, what was made to fit, and what to be careful of."""
    first = chart.comparison.rows[0].result
    notation = notation_of(first)
    samples = any(cell.result.samples for cells in chart.cells for cell in cells)
    cheapest = "cheapest: of the cloths compared, sewing counted"
    parts = [
        wrap(f"Sizes and cloths for {plain(first.asked.project.title)}", width),
        table_lines(chart_table(chart, audience, notation), width),
        wrap(f"{cheapest}; by sample rates, not the studio's own" if samples else cheapest, width),
        *_notes(chart.comparison, notation, width),
    ]
    return _page(parts)


def _notes(comparison: Comparison, notation: Notation, width: int) -> list[list[str]]:
    return [
        block("Covers", cover_notes(comparison, notation), width),
        block("Refitted", refit_notes(comparison, notation), width),
        block("Careful", caution_notes(comparison, notation), width),
    ]


def _page(parts: list[list[str]]) -> str:
    text = "\n\n".join("\n".join(part) for part in parts if part) + "\n"
    return text.replace(NO_BREAK, " ")


def table_lines(table: Table, width: int) -> list[str]:
    """The table, its words wrapped so that it fits; where the terminal is too narrow, row by row."""
    rows = [table.head, *table.rows]
    wide = [max(cells(row[n]) for row in rows) for n in range(len(table.head))]
    room = width - 2 * (len(wide) - 1)
    while sum(wide) > room:
        widest = max((n for n, side in enumerate(table.align) if side == "l"), key=lambda n: wide[n])
        if wide[widest] <= NARROWEST:
            return _by_row(table, width)
        wide[widest] -= 1
    cut = [[wrap(cell, wide[n]) for n, cell in enumerate(row)] for row in rows]
    if any(
        _broken(cell, lines) for row, laid in zip(rows, cut, strict=True) for cell, lines in zip(row, laid, strict=True)
    ):
        return _by_row(table, width)
    return columns(cut, table.align)


def _broken(cell: str, lines: list[str]) -> bool:
    """Whether a word had to be cut to fit."""
    return cell.split() != " ".join(lines).split()


def _by_row(table: Table, width: int) -> list[str]:
    """Each row as a block, a line for every column."""
    lines: list[str] = []
    for name, *rest in table.rows:
        told = [f"{head}: {cell}" for head, cell in zip(table.head[1:], rest, strict=True) if cell]
        lines += [*wrap(name, width), *(f"  {line}" for each in told for line in wrap(each, width - 2))]
    return lines
