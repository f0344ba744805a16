"""Sizes by cloths: the sizes of a comparison, each with its backing of several cloths."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from finishcalc.comparing.design import Design
from finishcalc.comparing.sizes import Comparison, Row, compare_sizes
from finishcalc.intake.changes.change import Change
from finishcalc.model.section import given
from finishcalc.pipeline import Finishing, finish
from finishcalc.problems import Problem, ProblemCode, ProblemsFound


class Cell(NamedTuple):
    """A size with its backing of one cloth; it is `cheapest` where no quote with another cloth comes to less, and some
    to more."""

    cloth: str
    result: Finishing
    cheapest: bool


class ClothComparison(NamedTuple):
    """The sizes of a comparison, each with its backing of every cloth."""

    comparison: Comparison
    cells: tuple[tuple[Cell, ...], ...]


def compare_cloths(design: Design, sizes: Iterable[str], cloths: Iterable[str] | None = None) -> ClothComparison:
    """Work out each size with its backing of each cloth. The cloths are named by their presets; where none are, the
    project's own is taken, and the wider ones that its shop compares with. Raises ProblemsFound."""
    names = list(dict.fromkeys(map(design.cloth_named, cloths) if cloths else _usual_cloths(design)))
    _refuse_unknown(design, names)
    comparison = compare_sizes(design, sizes)
    return ClothComparison(comparison, tuple(tuple(_cells(design, row, names)) for row in comparison.rows))


def _usual_cloths(design: Design) -> list[str]:
    named = [_own_cloth(design), *(wider.preset for wider in design.unchanged.tables.cloth.wider)]
    cloths = [name for name in dict.fromkeys(named) if name not in (None, "none")]
    if not cloths:
        message, hint = "neither the project nor its shop names a cloth", "name one: --cloth cotton-44"
        raise ProblemsFound([Problem(ProblemCode.CHART_WITHOUT_CLOTH, "--grid", 0, 0, "", message, hint)])
    return cloths


def _own_cloth(design: Design) -> str | None:
    """Give the name of the preset of the project's own cloth, or else its own name."""
    fabric = design.unchanged.tables.backing.fabric
    return fabric.preset or given(fabric.name)


def _refuse_unknown(design: Design, cloths: list[str]) -> None:
    problems: list[Problem] = []
    for cloth in cloths:
        if cloth == "none":
            message, hint = "a comparison of cloths needs a cloth", "name a preset: cotton-44"
            problems.append(Problem(ProblemCode.CHART_WITHOUT_CLOTH, '--cloth "none"', 0, 0, "", message, hint))
        try:
            design.changed(_cloth_change(f'--cloth "{cloth}"', cloth, design).over(design.tried))
        except ProblemsFound as error:
            problems += error.problems
    if problems:
        raise ProblemsFound(problems)


def _cells(design: Design, row: Row, cloths: list[str]) -> Iterator[Cell]:
    change = row.change or design.tried
    results = [finish(design.changed(_cloth_change(change.name, cloth, design).over(change))) for cloth in cloths]
    totals = [result.quote.total.minor for result in results]
    for cloth, result, total in zip(cloths, results, totals, strict=True):
        yield Cell(cloth, result, min(totals) == total < max(totals))


def _cloth_change(name: str, cloth: str, design: Design) -> Change:
    """Give the backing another cloth. The project's own cloth keeps the project's changes to it; the backing that the
    customer supplies is left out here."""
    customer_supplied = (("backing", "have"), ("backing", "sewn"))
    if cloth == _own_cloth(design):
        return Change(name, customer_supplied)
    return Change(name, customer_supplied, ((("backing", "fabric"), cloth),))
