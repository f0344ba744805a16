"""The cuts of each cloth of a size chart, a column a size: in words, and the same in figures."""

from collections import Counter
from typing import NamedTuple

from finishcalc.comparing.charts import ChartCloth, SizeChart
from finishcalc.comparing.cuts import KINDS, Cut, Cuts
from finishcalc.measures.length import Length, Size
from finishcalc.measures.rounding import FINEST
from finishcalc.plans.cloth import uses_words
from finishcalc.rendering.tables.chart import ChartRow, Figures, chart_rows, cloth_names, other_units
from finishcalc.rendering.writing import Contents, notation_for
from finishcalc.wording.notation import NO_BREAK, Notation, plain_blanks
from finishcalc.wording.words import capital


class ClothCuts(NamedTuple):
    """The rows of the cuts of one cloth, under its name."""

    cloth: str
    rows: list[ChartRow]


def chart_cuts(chart: SizeChart, contents: Contents) -> list[ClothCuts]:
    """Give the cuts of every cloth, where the chart is to tell them."""
    notation = notation_for(chart.comparison.rows[0].result, contents)
    if not contents.cuts:
        return []
    named = zip(chart.cloths, cloth_names(chart, notation), strict=True)
    return [_cloth_cuts(cloth, name, contents.both_units, notation) for cloth, name in named]


def all_rows(chart: SizeChart, contents: Contents) -> list[ChartRow]:
    """Give the rows of a chart and then those of its cuts."""
    cuts = chart_cuts(chart, contents)
    return [*chart_rows(chart, contents), *(row for cloth in cuts for row in cloth.rows)]


def _cloth_cuts(cloth: ChartCloth, name: str, both: bool, notation: Notation) -> ClothCuts:
    """Go through the cuts part by part, of each the strips first, and the wider before the narrower. The cell of a size
    that has none of them is empty."""
    finest = FINEST[notation.units]
    sizes = cloth.cuts(finest)

    def place(cut: Cut) -> tuple[int, int, Length, Length]:
        return cloth.uses.index(cut.uses[0]), KINDS.index(cut.kind), -cut.width, -cut.length

    rows = [
        _row(cut, sizes, name, both, notation) for cut in sorted({cut for cuts in sizes for cut in cuts}, key=place)
    ]
    return ClothCuts(name, rows)


def _row(cut: Cut, sizes: list[Cuts], cloth: str, both: bool, notation: Notation) -> ChartRow:
    name = capital(uses_words(cut.uses).removeprefix("the ")) + f": {_cut_words(cut, both, notation)}"
    counts = [cuts.get(cut, Counter()) for cuts in sizes]
    if cut.kind == "pieces":
        cells = [_pieces_words(count, both, notation) for count in counts]
        figures = tuple(plain_blanks(cell) or None for cell in cells)
        return ChartRow("cut", name, tuple(cells), (Figures(f"{cloth}; {name}", "", figures),))
    numbers = [count.total() or None for count in counts]
    cells = [notation.show(number) if number else "" for number in numbers]
    return ChartRow("cut", name, tuple(cells), (Figures(f"{cloth}; {name}", "", tuple(numbers)),))


def _cut_words(cut: Cut, both: bool, notation: Notation) -> str:
    if cut.kind == "pieces":
        return "pieces"
    if cut.kind == "rectangles":
        return _size_words(Size(cut.width, cut.length), both, notation)
    wide = _length_words(cut.width, both, notation)
    return f"squares {wide}" if cut.kind == "squares" else f"strips {wide} x width of cloth"


def _pieces_words(counts: Counter[Size], both: bool, notation: Notation) -> str:
    """Write pieces by their sizes, the longest first: "2 of 4 x 46 1/2 in, 2 of 4 x 34 1/2 in"."""
    longest_first = sorted(counts.items(), key=lambda each: (-each[0].length, -each[0].width))
    words = [f"{number}{NO_BREAK}of{NO_BREAK}{_size_words(size, both, notation)}" for size, number in longest_first]
    return ", ".join(words)


def _length_words(length: Length, both: bool, notation: Notation) -> str:
    other = other_units(notation)
    return notation.show(length) + (f" ({other.measured_length(length)})" if both else "")


def _size_words(size: Size, both: bool, notation: Notation) -> str:
    return notation.size(*size) + (f" ({other_units(notation).measured(*size)})" if both else "")
