"""The rows of a pattern's size chart, a column a size: in words for the page and for Markdown, and the same in figures
for documents and spreadsheets."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.comparing.charts import ChartCloth, SizeChart
from finishcalc.measures.length import METRIC, Length, Size
from finishcalc.measures.rounding import unit_to_print, up_to_step
from finishcalc.pipeline import Finishing
from finishcalc.plans.cloth import uses_words
from finishcalc.rendering.documents.writing import number
from finishcalc.rendering.pages.batting import batting_cell
from finishcalc.rendering.tables.compare import backing_cell, binding_cell, total_cell
from finishcalc.rendering.writing import Contents, hours_words, notation_for
from finishcalc.wording.notation import NO_BREAK, Notation, plain_blanks
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import capital, in_words

Figure = int | float | str | None

SOLD_BY = {"yd": Length.of(Fraction(1, 8), "yd"), "m": Length.of(Fraction(1, 10), "m")}
"""The step up to which an amount goes in the other unit, so that it is never short."""
SETTINGS = {"straight": "side by side", "on-point": "on point"}
NONE = "none"
"""The cell of a size that takes none of what its row has."""


class Figures(NamedTuple):
    """Figures of all sizes in one unit, None where a size has none."""

    name: str
    unit: str
    cells: tuple[Figure, ...]

    @property
    def title(self) -> str:
        """The name with plain blanks, because no lines are wrapped in documents."""
        return plain_blanks(self.name)


class ChartRow(NamedTuple):
    """A row of a size chart: its name and its cells in words, and the figures that these hold. `kind` is a word for the
    sort of row, whatever its name."""

    kind: str
    name: str
    cells: tuple[str, ...]
    figures: tuple[Figures, ...]


def chart_rows(chart: SizeChart, contents: Contents) -> list[ChartRow]:
    """Give the rows of a chart: sizes, blocks, cloth and batting to buy, hours for the studio, and totals."""
    results = [row.result for row in chart.comparison.rows]
    both, notation = contents.both_units, notation_for(results[0], contents)
    named = list(zip(chart.cloths, cloth_names(chart, notation), strict=True))
    binding_alone = [each for each in named if each[0].uses == ("binding",)]
    others = [each for each in named if each not in binding_alone]
    used = {use for cloth in chart.cloths for use in cloth.uses}
    rows = [
        *_size_rows(results, both, notation),
        *_block_rows(results, both, notation),
        *_border_rows(results, both, notation),
        *(_cloth_row(cloth, name, both, notation) for cloth, name in others),
        *([] if "backing" in used else _words_row("backing", [backing_cell(each, notation) for each in results])),
        *_words_row("batting", [_batting_words(each, both, notation) for each in results]),
        *(_cloth_row(cloth, name, both, notation) for cloth, name in binding_alone),
        *([] if "binding" in used else _words_row("binding", [binding_cell(each, notation) for each in results])),
    ]
    rows += [_planned_row(results)] if contents.reader == "studio" else []
    return rows + ([_total_row(results, notation)] if contents.prices else [])


def _size_rows(results: Sequence[Finishing], both: bool, notation: Notation) -> Iterator[ChartRow]:
    """Give the unfinished size as a ruler shows it, and the finished one to the nearest whole, because nobody can
    foretell it closer; in the other units both are to the nearest."""
    shapes = [result.plans.top.shape for result in results]
    tops = [Size(shape.width, shape.length) for shape in shapes]
    finished = [result.plans.quilting.quilted for result in results]
    names, other = [shape.name for shape in shapes], other_units(notation)
    for kind, name, exact, shown in (
        ("top", "Top, unfinished", tops, [_by_ruler(size, notation) for size in tops]),
        ("finished", "Finished size, about", finished, [_nearest(size, notation) for size in finished]),
    ):
        written = [[_size_words(*each, notation) for each in zip(names, shown, strict=True)]]
        figures = list(_side_figures(name, shown, notation))
        if both:
            nearest = [_nearest(size, other) for size in exact]
            written.append([f"({_size_words(*each, other)})" for each in zip(names, nearest, strict=True)])
            figures += _side_figures(name, nearest, other)
        yield ChartRow(kind, name, tuple(map(" ".join, zip(*written, strict=True))), tuple(figures))


def _side_figures(name: str, sizes: list[Size], notation: Notation) -> Iterator[Figures]:
    units = notation.units
    yield Figures(f"{name}: width", units, tuple(number(size.width.to(units)) for size in sizes))
    yield Figures(f"{name}: length", units, tuple(number(size.length.to(units)) for size in sizes))


def _size_words(shape: str, size: Size, notation: Notation) -> str:
    if shape == "round":
        return f"{notation.show(size.width)}{NO_BREAK}across"
    return (f"oval{NO_BREAK}" if shape == "oval" else "") + notation.size(*size)


def _by_ruler(size: Size, notation: Notation) -> Size:
    return Size(_ruled(size.width, notation), _ruled(size.length, notation))


def _ruled(length: Length, notation: Notation) -> Length:
    """Give a length as it is written: up to the next step where a ruler does not show it."""
    return length if notation.show(length) == notation.exactly().show(length) else notation.measurable(length)


def _nearest(size: Size, notation: Notation) -> Size:
    return Size(notation.nearest(size.width), notation.nearest(size.length))


def other_units(notation: Notation) -> Notation:
    """Write in centimetres in place of inches, or the other way round."""
    return notation._replace(units="in" if notation.units in METRIC else "cm")


def _block_rows(results: Sequence[Finishing], both: bool, notation: Notation) -> Iterator[ChartRow]:
    tops = [result.plans.pieced.top for result in results if result.plans.pieced]
    blocks = [top.blocks for top in tops if top.blocks]
    if not blocks:
        return
    size, other = blocks[0].size, other_units(notation)
    finished = notation.show(size) + (f" ({other.show(other.measurable(size))})" if both else "")
    name = f"Blocks, {finished} finished, {SETTINGS[blocks[0].setting]}"
    yield ChartRow(
        "blocks",
        name,
        tuple(
            f"{each.across}{NO_BREAK}x{NO_BREAK}{each.down}, {each.number}{NO_BREAK}in{NO_BREAK}all" for each in blocks
        ),
        (
            Figures(f"{name}: across", "", tuple(each.across for each in blocks)),
            Figures(f"{name}: down", "", tuple(each.down for each in blocks)),
            Figures(f"{name}: in all", "", tuple(each.number for each in blocks)),
        ),
    )


def _border_rows(results: Sequence[Finishing], both: bool, notation: Notation) -> Iterator[ChartRow]:
    """Give the width of each border that is not cut alike in all sizes."""
    tops = [result.plans.pieced.top for result in results if result.plans.pieced]
    other = other_units(notation)
    for n in range(len(tops[0].borders) if tops else 0):
        cuts, name = [top.borders[n].cut for top in tops], f"Border {n + 1}, cut"
        if len(set(cuts)) == 1:
            continue
        ruled, others = [_ruled(cut, notation) for cut in cuts], [other.measurable(cut) for cut in cuts]
        written = [notation.show(cut) for cut in ruled]
        figures = [Figures(name, notation.units, tuple(number(cut.to(notation.units)) for cut in ruled))]
        if both:
            written = [f"{cell} ({other.show(cut)})" for cell, cut in zip(written, others, strict=True)]
            figures.append(Figures(name, other.units, tuple(number(cut.to(other.units)) for cut in others)))
        yield ChartRow("border", name, tuple(written), tuple(figures))


def cloth_names(chart: SizeChart, notation: Notation) -> list[str]:
    """Name the row of each cloth; those that would be alike have their uses in the top behind them."""
    names = [_cloth_name(cloth, notation) for cloth in chart.cloths]
    return [
        f"{name}, {uses_words(cloth.top_uses)}" if names.count(name) > 1 and cloth.top_uses else name
        for cloth, name in zip(chart.cloths, names, strict=True)
    ]


def _cloth_name(cloth: ChartCloth, notation: Notation) -> str:
    """Name the row of a cloth: a cloth of the top by its name, or its uses where it has none, and those of the layers
    that share it; any other by its layers and its name."""
    layers = uses_words(cloth.layers).removeprefix("the ")
    if cloth.top_uses:
        shared = in_words([f"the {layer}" for layer in cloth.layers])
        text = notation.show(cloth.name) or uses_words(cloth.top_uses).removeprefix("the ")
        text += f", with {shared}" if shared else ""
    else:
        text = f"{layers}, {notation.show(cloth.name)}" if cloth.name else layers
    return capital(text) + (", which you supply" if cloth.supplied_by == "customer" else "")


def _cloth_row(cloth: ChartCloth, name: str, both: bool, notation: Notation) -> ChartRow:
    unit = unit_to_print(cloth.fabric.step, cloth.fabric.per)
    kind = "cloth" if cloth.top_uses else cloth.layers[0]
    amounts = [purchase.amount if purchase else None for purchase in cloth.purchases]
    figures = [Figures(name, unit, tuple(number(each.to(unit)) if each else None for each in amounts))]
    if both:
        other, in_other = other_unit(unit), [_in_other(each, unit) if each else None for each in amounts]
        figures.append(Figures(name, other, tuple(number(each.to(other)) if each else None for each in in_other)))
    return ChartRow(kind, name, tuple(_amount_words(each, unit, both, notation) for each in amounts), tuple(figures))


def _amount_words(amount: Length | None, unit: str, both: bool, notation: Notation) -> str:
    """Write an amount in the unit it is sold in, and in the other system's after it."""
    if not amount:
        return NONE
    shown = notation.show(InUnit(amount, unit))
    return f"{shown} ({notation.show(InUnit(_in_other(amount, unit), other_unit(unit)))})" if both else shown


def other_unit(unit: str) -> str:
    """Give the unit in which the other system's shops sell cloth."""
    return "yd" if unit in METRIC else "m"


def _in_other(amount: Length, unit: str) -> Length:
    """Round an amount up to the step in which the other system's shops sell."""
    return up_to_step(amount, SOLD_BY[other_unit(unit)])


def _batting_words(result: Finishing, both: bool, notation: Notation) -> str:
    """Write the batting; a length off a roll in both units, and the roll's width to the nearest."""
    chosen = result.plans.batting.chosen if result.plans.batting else None
    if not both or not chosen or chosen.form == "packaged":
        return batting_cell(result.plans.batting, notation)
    other = other_units(notation)
    wide = f"{notation.show(chosen.width)} ({other.show(other.nearest(chosen.width))})"
    return f"{_amount_words(chosen.length, chosen.length_unit, both, notation)} of {wide} roll"


def _words_row(kind: str, cells: list[str]) -> list[ChartRow]:
    """Make a row that has no figures, unless every size says "none"."""
    if set(cells) == {NONE}:
        return []
    return [ChartRow(kind, capital(kind), tuple(cells), (Figures(capital(kind), "", tuple(map(plain_blanks, cells))),))]


def _planned_row(results: Sequence[Finishing]) -> ChartRow:
    minutes, name = [result.hours.planned for result in results], "Planned"
    hours = tuple(number(each / 60) for each in minutes)
    return ChartRow("planned", name, tuple(map(hours_words, minutes)), (Figures(name, "hour", hours),))


def _total_row(results: Sequence[Finishing], notation: Notation) -> ChartRow:
    currency = results[0].quote.currency.code
    name = f"Total, {currency}"
    return ChartRow(
        "total",
        name,
        tuple(total_cell(result, notation) for result in results),
        (
            Figures("Total", currency, tuple(str(result.quote.total) for result in results)),
            Figures("Total rests on samples", "", tuple("yes" if each.priced_on_samples else "no" for each in results)),
        ),
    )
