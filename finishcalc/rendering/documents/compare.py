"""Comparisons of sizes and of cloths, and size charts, as JSON documents with stable keys."""

from collections.abc import Sequence

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.cloths import Cell, ClothComparison
from finishcalc.comparing.sizes import Comparison, Row
from finishcalc.measures.length import Size
from finishcalc.pipeline import Finishing
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.pieced.refit import Fit
from finishcalc.rendering.documents.writing import (
    SCHEMA_VERSION,
    Record,
    caution_records,
    number,
    safe_json,
    with_more,
    without_prices,
)
from finishcalc.rendering.tables.compare import chosen_backing, told_cautions
from finishcalc.rendering.tables.cuts import all_rows
from finishcalc.rendering.writing import Contents, notation_for
from finishcalc.wording.notation import Notation

Samples = Sequence[frozenset[str]]
"""The sample figures that each row of the studio's document rests on; the customer's has none."""


def compare_json(comparison: Comparison, contents: Contents, samples: Samples) -> str:
    """Write one JSON document that ends with a line feed."""
    return _document(comparison, contents, {"rows": _rows(comparison, contents, samples)})


def cloths_json(cloths: ClothComparison, contents: Contents, samples: Samples) -> str:
    """Write the same with the backings of every cloth in each row."""
    write = _studio_s_cell if contents.reader == "studio" else _cell
    rows = [
        row | {"cloths": [write(cell) for cell in cells]}
        for row, cells in zip(_rows(cloths.comparison, contents, samples), cloths.cells, strict=True)
    ]
    return _document(cloths.comparison, contents, {"rows": rows})


def chart_json(chart: SizeChart, contents: Contents) -> str:
    """Write a size chart: its sizes, and its rows with a figure for each of them."""
    rows = [
        {"kind": row.kind, "row": each.title, "unit": each.unit, "figures": list(each.cells)}
        for row in all_rows(chart, contents)
        for each in row.figures
    ]
    sizes = [_chart_size(row, contents) for row in chart.comparison.rows]
    return _document(chart.comparison, contents, {"sizes": sizes, "rows": rows})


def _chart_size(row: Row, contents: Contents) -> Record:
    notation = notation_for(row.result, contents)
    return {
        "as": row.name,
        "shape": row.result.plans.top.shape.name,
        "refit": _refit(row, notation),
        "cautions": caution_records(told_cautions(row, contents), contents.reader, notation),
    }


def _rows(comparison: Comparison, contents: Contents, samples: Samples) -> list[Record]:
    if contents.reader == "customer":
        return [_row(comparison, row, contents) for row in comparison.rows]
    return [_studio_s_row(comparison, row, contents, used) for row, used in zip(comparison.rows, samples, strict=True)]


def _document(comparison: Comparison, contents: Contents, body: Record) -> str:
    first = comparison.rows[0].result
    document = {
        "schema_version": SCHEMA_VERSION,
        "for": contents.reader,
        "title": first.resolved.project.title,
        "units": first.resolved.project.units,
        "currency": first.quote.currency.code,
        **body,
    }
    return safe_json(document if contents.prices else without_prices(document))


def _studio_s_row(comparison: Comparison, row: Row, contents: Contents, samples: frozenset[str]) -> Record:
    """Write the customer's row with cost, minutes and samples."""
    record = _row(comparison, row, contents)
    if record["backing"]:
        record["backing"] |= _cost(row.result)
    minutes = {"planned_minutes": number(row.result.hours.planned)}
    return with_more(record, binding=minutes, rests_on_samples={"samples": sorted(samples)})


def _row(comparison: Comparison, row: Row, contents: Contents) -> Record:
    result, notation = row.result, notation_for(row.result, contents)
    shape, plans = result.plans.top.shape, result.plans
    return {
        "as": row.name,
        "top": {"shape": shape.name, **_size(Size(shape.width, shape.length), notation)},
        "finished": _size(plans.quilting.quilted, notation),
        "refit": _refit(row, notation),
        "backing": _backing(result),
        "batting": _batting(plans.batting, notation) if plans.batting else None,
        "binding": {
            "amount": number(plans.binding.amount.to(plans.binding.fabric.per)),
            "unit": plans.binding.fabric.per,
        }
        if plans.binding
        else None,
        "fits": plans.quilting.fits,
        "total": str(result.quote.total),
        "differs": str(comparison.difference(row)),
        "rests_on_samples": result.priced_on_samples,
        "cautions": caution_records(told_cautions(row, contents), contents.reader, notation),
    }


def _batting(plan: BattingPlan, notation: Notation) -> Record | None:
    """Write the batting that is bought, or the verdict on the one that is brought; nothing where none covers."""
    if plan.brought:
        return {"form": "brought", "verdict": plan.brought.verdict, "seams": plan.seams}
    chosen = plan.chosen
    if not chosen:
        return None
    size = _size(Size(chosen.width, chosen.length), notation)
    return {"form": chosen.form, "size": chosen.size, **size, "number": chosen.number, "seams": plan.seams}


def _backing(result: Finishing) -> Record | None:
    option = chosen_backing(result)
    if option is None:
        return None
    return {
        "amount": number(option.amount.to(option.fabric.per)),
        "unit": option.fabric.per,
        "seams": option.layout.seams,
    }


def _cost(result: Finishing) -> Record:
    option = chosen_backing(result)
    return {"total_cost": str(option.total_cost)} if option else {}


def _total(result: Finishing) -> Record:
    return {"total": str(result.quote.total), "rests_on_samples": result.priced_on_samples}


def _cell(cell: Cell) -> Record:
    return {"cloth": cell.cloth, **(_backing(cell.result) or {}), **_total(cell.result), "cheapest": cell.cheapest}


def _studio_s_cell(cell: Cell) -> Record:
    """Write the customer's cell with what the backing costs."""
    record = _cell(cell)
    return with_more(record, seams=_cost(cell.result)) if "seams" in record else record


def _refit(row: Row, notation: Notation) -> Record | None:
    if not row.refit:
        return None
    other, hangs = row.refit.next_best, row.refit.hangs
    return {
        "asked": _size(row.refit.target, notation),
        "taken": _fit(row.refit.taken, notation),
        "next_best": _fit(other, notation) if other else None,
        "drop": number(hangs.drop.to(notation.units)) if hangs else None,
        "foot_drop": number(hangs.foot_drop.to(notation.units)) if hangs else None,
    }


def _fit(fit: Fit, notation: Notation) -> Record:
    return {
        "way": fit.rounding,
        "across": fit.across,
        "down": fit.down,
        "last_border_wider": number(fit.wider.to(notation.units)),
        **_size(fit.size, notation),
    }


def _size(size: Size, notation: Notation) -> Record:
    return {"width": number(size.width.to(notation.units)), "length": number(size.length.to(notation.units))}
