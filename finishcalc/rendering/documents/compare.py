"""A comparison and a size chart as JSON documents with stable keys."""

from typing import Any

from finishcalc.comparing.charts import Cell, SizeChart
from finishcalc.comparing.sizes import Comparison, Row
from finishcalc.model.pieced import Size
from finishcalc.pipeline import Finishing
from finishcalc.plans.cautions import for_reader
from finishcalc.plans.pieced.refit import Fit
from finishcalc.rendering.documents.customer import without_the_studio_s
from finishcalc.rendering.documents.writing import caution_records, number, safe_json
from finishcalc.rendering.tables.compare import chosen_backing
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import Notation
from finishcalc.wording.said import Audience

Record = dict[str, Any]
SCHEMA_VERSION = 1


def compare_json(comparison: Comparison, audience: Audience = "studio") -> str:
    """One JSON document that ends with a line feed; the customer's holds nothing that is the studio's alone."""
    return _document(comparison, [_row(comparison, row, audience) for row in comparison.rows], audience)


def chart_json(chart: SizeChart, audience: Audience = "studio") -> str:
    """The same, each row with the backings of every cloth."""
    rows = [
        _row(chart.comparison, row, audience) | {"cloths": [_cell(cell) for cell in cells]}
        for row, cells in zip(chart.comparison.rows, chart.cells, strict=True)
    ]
    return _document(chart.comparison, rows, audience)


def _document(comparison: Comparison, rows: list[Record], audience: Audience) -> str:
    first = comparison.rows[0].result
    head = {
        "schema_version": SCHEMA_VERSION,
        "for": audience,
        "title": first.asked.project.title,
        "units": first.asked.project.units,
        "currency": first.quote.currency.code,
    }
    document = head | {"rows": rows}
    return safe_json(document if audience == "studio" else without_the_studio_s(document))


def _row(comparison: Comparison, row: Row, audience: Audience) -> Record:
    result, notation = row.result, notation_of(row.result)
    shape, plans = result.plans.top.shape, result.plans
    return {
        "as": row.name,
        "top": {"shape": shape.name, **_size(Size(shape.width, shape.length), notation)},
        "finished": _size(plans.quilting.quilted, notation),
        "refit": _refit(row, notation) if row.refit else None,
        "backing": _backing(result),
        "batting": {
            "form": plans.batting.chosen.form,
            "size": plans.batting.chosen.size,
            **_size(Size(plans.batting.chosen.width, plans.batting.chosen.length), notation),
        }
        if plans.batting and plans.batting.chosen
        else None,
        "binding": {
            "amount": number(plans.binding.amount.to(plans.binding.fabric.per)),
            "unit": plans.binding.fabric.per,
        }
        if plans.binding
        else None,
        "planned_minutes": number(plans.hours.planned),
        "fits": plans.quilting.fits,
        "total": str(result.quote.total),
        "differs": str(comparison.difference(row)),
        "rests_on_samples": result.priced_on_samples,
        "samples": sorted(result.samples),
        "cautions": caution_records(for_reader(row.cautions, audience), notation),
    }


def _backing(result: Finishing) -> Record | None:
    option = chosen_backing(result)
    if option is None:
        return None
    return {
        "amount": number(option.amount.to(option.fabric.per)),
        "unit": option.fabric.per,
        "seams": option.layout.seams,
        "total_cost": str(option.total_cost),
    }


def _total(result: Finishing) -> Record:
    return {"total": str(result.quote.total), "rests_on_samples": result.priced_on_samples}


def _cell(cell: Cell) -> Record:
    return {"cloth": cell.cloth, **(_backing(cell.result) or {}), **_total(cell.result), "cheapest": cell.cheapest}


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
        "way": fit.way,
        "across": fit.across,
        "down": fit.down,
        "last_border_wider": number(fit.wider.to(notation.units)),
        **_size(fit.size, notation),
    }


def _size(size: Size, notation: Notation) -> Record:
    return {"width": number(size.width.to(notation.units)), "length": number(size.length.to(notation.units))}
