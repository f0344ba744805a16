"""The size chart of a pattern as a page: a table with a column a size, and its notes."""

from finishcalc.comparing.charts import SizeChart
from finishcalc.measures.length import METRIC
from finishcalc.plans.cloth import usable_width_of
from finishcalc.rendering.pages.page import Group, Head, Heading, Page, Table, sentences
from finishcalc.rendering.tables.chart import (
    SOLD_BY,
    ChartRow,
    chart_rows,
    cloth_names,
    other_unit,
    other_units,
)
from finishcalc.rendering.tables.compare import sample_notes, size_notes
from finishcalc.rendering.tables.cuts import chart_cuts
from finishcalc.rendering.writing import Contents, notation_for
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import InUnit, NoLess


def chart_page(chart: SizeChart, contents: Contents) -> Page:
    """Make the page of a size chart: the chart, the cuts of each cloth where they are asked for, and notes."""
    first = chart.comparison.rows[0].result
    notation = notation_for(first, contents)
    head = ["", *(notation.show(row.name) for row in chart.comparison.rows)]
    groups: list[Group] = [(_table(head, chart_rows(chart, contents)),)]
    for cuts in chart_cuts(chart, contents):
        groups += [(Heading(f"Cuts: {cuts.cloth}"),), (_table(head, cuts.rows),)]
    groups += [
        *sample_notes(chart.comparison, contents),
        (sentences("Cloth", _cloth_notes(chart, contents, notation)),),
        *size_notes(chart.comparison, contents, notation),
    ]
    title = f"Size chart of {plain(first.resolved.project.title)}"
    return Page(Head("", title), tuple(groups), made=first.resolved.project.job.date)


def _table(head: list[str], rows: list[ChartRow]) -> Table:
    return Table(head, "l" * len(head), [[row.name, *row.cells] for row in rows], by_columns=True)


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
