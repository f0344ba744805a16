"""The size chart of a pattern as a page: a table with a column a size, its notes, and the same as Markdown."""

from typing import NamedTuple

from finishcalc.comparing.charts import SizeChart
from finishcalc.plans.cloth import usable_width_of
from finishcalc.rendering.tables.chart import (
    METRIC,
    SOLD_BY,
    ChartRow,
    chart_rows,
    cloth_names,
    other_unit,
    other_units,
)
from finishcalc.rendering.tables.compare import sample_notes, size_notes
from finishcalc.rendering.tables.cuts import chart_cuts
from finishcalc.rendering.wrapping import wrap
from finishcalc.rendering.writers.text import Note, Table, column_blocks, note_blocks
from finishcalc.rendering.writing import Contents, joined, notation_for
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import InUnit, NoLess


class ChartPage(NamedTuple):
    """A title, tables under their headings, and notes. The first table is the chart, and has no heading."""

    title: str
    tables: list[tuple[str, Table]]
    notes: list[Note]


def chart_page(chart: SizeChart, contents: Contents) -> ChartPage:
    """Lay out a size chart."""
    first = chart.comparison.rows[0].result
    notation = notation_for(first, contents)
    head = ["", *(notation.show(row.name) for row in chart.comparison.rows)]
    notes = [
        Note("", sample_notes(chart.comparison, contents)),
        Note("Cloth", _cloth_notes(chart, contents, notation)),
        *size_notes(chart.comparison, contents, notation),
    ]
    title = f"Size chart of {plain(first.resolved.project.title)}"
    tables = [("", _table(head, chart_rows(chart, contents)))]
    tables += [(f"Cuts: {cuts.cloth}", _table(head, cuts.rows)) for cuts in chart_cuts(chart, contents)]
    return ChartPage(title, tables, notes)


def _table(head: list[str], rows: list[ChartRow]) -> Table:
    return Table(head, "l" * len(head), [[row.name, *row.cells] for row in rows])


def _cloth_notes(chart: SizeChart, contents: Contents, notation: Notation) -> list[str]:
    """Say the usable width that the cloth must have, and how amounts in the other units are rounded."""
    names: dict[str, list[str]] = {}
    for cloth, name in zip(chart.cloths, cloth_names(chart, notation), strict=True):
        usable = usable_width_of(cloth.fabric)
        other = f" ({other_units(notation).show(NoLess(usable))})" if contents.both_units else ""
        names.setdefault(notation.show(usable) + other, []).append(name)
    width = "needs {} of usable width"
    if len(names) == 1:
        notes = [width.format(next(iter(names)))]
    else:
        notes = [f"{'; '.join(cloths)}: {width.format(usable)}" for usable, cloths in names.items()]
    return notes + ([_rounding(notation)] if contents.both_units else [])


def _rounding(notation: Notation) -> str:
    """Say how sizes and amounts in the other units are rounded."""
    metric = notation.units in METRIC
    nearest, finest, amounts = ("inch", "eighth", "yards") if metric else ("centimetre", "millimetre", "metres")
    step = notation.show(InUnit(SOLD_BY[other_unit(notation.units)], other_unit(notation.units)))
    text = f"sizes are to the nearest {nearest}, cuts up to the next {finest}"
    return f"{text}; {amounts} go up to the next {step}, so that none is short"


def chart_text(chart: SizeChart, contents: Contents, width: int) -> str:
    """Write a size chart as text that ends with a line feed, no line wider than `width` columns."""
    page = chart_page(chart, contents)
    blocks = [wrap(page.title, width)]
    for heading, table in page.tables:
        blocks += [wrap(heading, width)] if heading else []
        blocks += column_blocks(table, width)
    return joined([*blocks, *note_blocks(page.notes, width)])


def chart_markdown(chart: SizeChart, contents: Contents) -> str:
    """Write a size chart as Markdown."""
    from finishcalc.rendering.tables.markdown import document

    page = chart_page(chart, contents)
    return document(page.tables, page.title, page.notes)
