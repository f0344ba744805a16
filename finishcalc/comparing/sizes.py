"""The story of a comparison: one design in many sizes, each of them a project like any other.

A row is what a quote of the changed file would be: the same file, with a change laid over it.
"""

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from finishcalc.comparing.design import Design
from finishcalc.intake.asked import asked
from finishcalc.intake.changes import Change
from finishcalc.intake.positions import Path
from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import Resolved
from finishcalc.measures.length import Length, mixed
from finishcalc.measures.money import Money
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.rounding import FINEST
from finishcalc.pieced_top import PiecedTop, Size
from finishcalc.pipeline import Finishing, finish
from finishcalc.plans.refit import Fit, fits, refitted
from finishcalc.problems import Problem, ProblemsFound

AS_IT_IS = "as it is"


class Refit(NamedTuple):
    """How a pieced design was made to fit a target: the way that was taken, and the next best."""

    target: Size
    taken: Fit
    next_best: Fit | None


class Row(NamedTuple):
    """A size with all that comes of it. The design as it is has no change."""

    name: str
    change: Change | None
    refit: Refit | None
    result: Finishing


class Comparison(NamedTuple):
    """A design, as it is and in the sizes asked for, in their order."""

    source: Source
    rows: tuple[Row, ...]

    def difference(self, row: Row) -> Money:
        """What a row's total is more than the first one's, or less."""
        return row.result.quote.total - self.rows[0].result.quote.total


def compare_sizes(design: Design, sizes: Iterable[str]) -> Comparison:
    """The design as it is, then in each size. Raises ProblemsFound with the problems of all sizes."""
    first = Row(AS_IT_IS, None, None, finish(design.as_it_is))
    problems: list[Problem] = []
    rows = [first]
    for text in sizes:
        try:
            rows.append(_row(design, text))
        except ProblemsFound as found:
            problems += found.problems
    if problems:
        raise ProblemsFound(dict.fromkeys(problems))
    return Comparison(design.source, tuple(rows))


def _row(design: Design, text: str) -> Row:
    try:
        wish = asked(text, design.known)
    except MeasureError as error:
        raise ProblemsFound([Problem(f'--as "{text}"', 0, 0, "", str(error), error.hint)]) from None
    title = Change(wish.change.name, (), ((("title",), f"{design.as_it_is.project.title}, {wish.text}"),))
    change = wish.change.and_also(title)
    target = design.changed(change)
    pieced = design.as_it_is.project.top.pieced
    if pieced is None:
        return Row(wish.text, change, None, finish(target))
    return _refitted(design, pieced, wish.text, title, target)


def _refitted(design: Design, pieced: PiecedTop, text: str, title: Change, target: Resolved) -> Row:
    """The first way that the project's other wishes allow: a border may become too wide for its cloth."""
    top, units = target.project.top, target.project.units
    if top.shape != "rectangle":
        hint = "ask for a size or a table with square corners"
        raise ProblemsFound(
            [Problem(title.name, 0, 0, "", f"blocks and borders make a rectangle, not {top.shape}", hint)]
        )
    size, use = Size(top.width, top.length), top.use
    found = fits(pieced, size, FINEST[units], design.widen)
    ways = _allowed(design, pieced, found, title, use)
    first = next(ways, None)
    if first is None:
        hint = "ask for a larger size, or make the block smaller"
        raise ProblemsFound([Problem(title.name, 0, 0, "", "no number of blocks comes near it", hint)])
    taken, change, resolved = first
    other = [fit for fit in found if fit.way != taken.way] or [fit for fit in found if fit != taken]
    next_best = next((fit for fit, *_ in _allowed(design, pieced, other, title, use)), None)
    return Row(text, change, Refit(size, taken, next_best), finish(resolved))


def _allowed(
    design: Design, pieced: PiecedTop, found: list[Fit], title: Change, use: str
) -> Iterator[tuple[Fit, Change, Resolved]]:
    """The ways to fit that the rest of the project goes with, the nearest first."""
    for fit in found:
        change = title.and_also(_fit_change(design, pieced, fit, use))
        try:
            yield fit, change, design.changed(change)
        except ProblemsFound:
            continue


def _fit_change(design: Design, pieced: PiecedTop, fit: Fit, use: str) -> Change:
    """The keys by which the design becomes the fit."""
    units, puts = design.as_it_is.project.units, list[tuple[Path, Any]]()
    if design.as_it_is.project.top.use != use:
        puts.append((("top", "use"), use))
    counts = (("across", fit.across), ("down", fit.down))
    puts += [(("top", "blocks", side), count) for side, count in counts if count is not None]
    if fit.wider:
        last = len(pieced.borders) - 1
        puts.append((("top", "borders", last, "cut"), written(refitted(pieced, fit).borders[-1].cut, units)))
    return Change("", (), tuple(puts))


def written(length: Length, units: str) -> int | str:
    """A length as a file of these units says it: read again, it is the same."""
    number = length.to(units)
    if number.denominator == 1:
        return int(number)
    return str(length).removesuffix(" in") if units == "in" else f"{mixed(length.mm)} mm"
