"""Tables for a spreadsheet: CSV by RFC 4180, with numbers as numbers and no text that a spreadsheet would run."""

import csv
import io
from collections.abc import Iterable

from finishcalc.comparing.charts import SizeChart
from finishcalc.comparing.cloths import ClothComparison
from finishcalc.comparing.sizes import Comparison, Row
from finishcalc.measures.length import Length
from finishcalc.rendering.documents.writing import PRICE_KEYS, exact_decimal, number
from finishcalc.rendering.pages.batting import batting_cell
from finishcalc.rendering.tables.chart import Figure
from finishcalc.rendering.tables.compare import chosen_backing
from finishcalc.rendering.tables.cuts import all_rows
from finishcalc.rendering.writing import Contents, notation_of
from finishcalc.wording.notation import plain_blanks
from finishcalc.wording.plain import plain

DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""A spreadsheet takes a cell that begins so for a formula, some in the signs' full width too (OWASP, CSV Injection)."""


def text_cell(text: str) -> str:
    """Put a quote before a text that a spreadsheet would run as a formula, also where it drops blanks before it."""
    return f"'{text}" if text.lstrip(" \u00a0\u3000").startswith(DANGEROUS) else text


def csv_text(rows: list[dict[str, Figure]]) -> str:
    """Write rows that have the same keys, each line ended with CR LF (RFC 4180); hidden characters are shown."""
    return csv_lines([list(rows[0]), *(list(row.values()) for row in rows)])


def csv_lines(rows: Iterable[Iterable[Figure]]) -> str:
    """Write the cells of rows in the same way."""
    sheet = io.StringIO(newline="")
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerows([plain(cell) if isinstance(cell, str) else cell for cell in row] for row in rows)
    return sheet.getvalue()


def compare_csv(comparison: Comparison, contents: Contents) -> str:
    """Write a row for each size, all figures without units or signs."""
    return csv_text(_told([_row(comparison, row, contents) for row in comparison.rows], contents))


def _told(rows: list[dict[str, Figure]], contents: Contents) -> list[dict[str, Figure]]:
    """Leave out all that is of prices where they are not wanted."""
    return [{key: row[key] for key in row if contents.prices or key not in PRICE_KEYS} for row in rows]


def _row(comparison: Comparison, row: Row, contents: Contents) -> dict[str, Figure]:
    result = row.result
    option, binding, quote = chosen_backing(result), result.plans.binding, result.quote
    hours = {"planned_hours": number(result.hours.planned / 60)} if contents.reader == "studio" else {}
    return {
        **_size(row),
        "backing": _amount(option.amount, option.fabric.per) if option else None,
        "backing_unit": option.fabric.per if option else None,
        "backing_seams": option.layout.seams if option else None,
        "batting": _batting(row),
        "binding": _amount(binding.amount, binding.fabric.per) if binding else None,
        "binding_unit": binding.fabric.per if binding else None,
        **hours,
        "total": str(quote.total),
        "differs": str(comparison.difference(row)),
        "currency": quote.currency.code,
        "rests_on_samples": "yes" if result.priced_on_samples else "no",
    }


def _size(row: Row) -> dict[str, Figure]:
    """Give the name of a size, its outline, and the changes to a pieced design."""
    shape, units = row.result.plans.top.shape, row.result.resolved.project.units
    pieced, fit = row.result.resolved.project.top.pieced, row.refit.taken if row.refit else None
    blocks = pieced.blocks if pieced else None
    finished, other = row.result.plans.quilting.quilted, row.refit.next_best if row.refit else None
    return {
        "as": text_cell(row.name),
        "shape": shape.name,
        "width": number(shape.width.to(units)),
        "length": number(shape.length.to(units)),
        "finished_width": number(finished.width.to(units)),
        "finished_length": number(finished.length.to(units)),
        "units": units,
        "way": text_cell(fit.rounding) if fit else None,
        "blocks_across": blocks.across if blocks else None,
        "blocks_down": blocks.down if blocks else None,
        "last_border_wider": number(fit.wider.to(units)) if fit else None,
        "next_best_across": other.across if other else None,
        "next_best_down": other.down if other else None,
    }


def _batting(row: Row) -> str:
    return text_cell(plain_blanks(batting_cell(row.result.plans.batting, notation_of(row.result))))


def cloths_csv(cloths: ClothComparison, contents: Contents) -> str:
    """Write a row for each size and cloth."""
    rows = []
    for row, cells in zip(cloths.comparison.rows, cloths.cells, strict=True):
        for cell in cells:
            option = chosen_backing(cell.result)
            cost = {"cost": str(option.total_cost) if option else None} if contents.reader == "studio" else {}
            rows.append(
                {
                    **_size(row),
                    "cloth": text_cell(cell.cloth),
                    "backing": _amount(option.amount, option.fabric.per) if option else None,
                    "backing_unit": option.fabric.per if option else None,
                    "backing_seams": option.layout.seams if option else None,
                    **cost,
                    "total": str(cell.result.quote.total),
                    "cheapest": "yes" if cell.cheapest else "no",
                    "rests_on_samples": "yes" if cell.result.priced_on_samples else "no",
                }
            )
    return csv_text(_told(rows, contents))


def chart_csv(chart: SizeChart, contents: Contents) -> str:
    """Write a row for each row of figures in a size chart, a column for each size."""
    names = [plain(text_cell(row.name)) for row in chart.comparison.rows]
    rows = []
    for row in all_rows(chart, contents):
        for each in row.figures:
            cells = [text_cell(cell) if isinstance(cell, str) else cell for cell in each.cells]
            start: dict[str, Figure] = {"kind": row.kind, "row": text_cell(each.title), "unit": each.unit}
            rows.append(start | dict(zip(names, cells, strict=True)))
    return csv_text(rows)


def _amount(length: Length, unit: str) -> str:
    return exact_decimal(length.to(unit))
