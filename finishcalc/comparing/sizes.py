"""The story of a comparison: one design in many sizes, each of them a project like any other.

A row is what a quote of the changed file would be: the same file, with a change laid over it.
"""

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from finishcalc.comparing.design import Design
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.sizes import asked
from finishcalc.intake.positions import KeyPath
from finishcalc.intake.resolve import Resolved
from finishcalc.intake.source import Source
from finishcalc.measures.length import ZERO, Length, Size, mixed
from finishcalc.measures.money import Money
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Cover
from finishcalc.model.keys import LONGEST_LINE, MOST_STRIP
from finishcalc.model.pieced import PiecedTop
from finishcalc.pipeline import Finishing, finish
from finishcalc.plans.cautions import Caution
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.pieced.refit import Fit, fits, refitted
from finishcalc.plans.together import hang_cautions
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

AS_IT_IS = "as it is"
UNPIECED = Change("", (("quilting", "areas"),))
"""What says something of the parts of a pieced top, beside its size."""


class Refit(NamedTuple):
    """How a pieced design was made to fit a target: the way that was taken, and the next best. Where the target covers
    something, `hangs` says how the design hangs on it as it comes."""

    target: Size
    taken: Fit
    next_best: Fit | None
    hangs: Cover | None


class Row(NamedTuple):
    """A size with all that comes of it. The design as it is has no change."""

    name: str
    change: Change | None
    refit: Refit | None
    result: Finishing

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """What to be careful of, and what shows where a refitted design does not hang as far as was asked."""
        hangs = self.refit.hangs if self.refit else None
        table = self.result.resolved.project.measuring.table_height
        return self.result.cautions + (tuple(hang_cautions(hangs, self.result.plans, table)) if hangs else ())


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
    for text in dict.fromkeys(sizes):
        try:
            rows.append(_row(design, text))
        except ProblemsFound as found:
            problems += [_of_the_size(each, text) for each in found.problems]
    if problems:
        raise ProblemsFound(dict.fromkeys(problems))
    return Comparison(design.source, tuple(rows))


def _of_the_size(problem: Problem, text: str) -> Problem:
    """What the file says is right on its own: it is the size that it does not go with."""
    name = f'--as "{text}"'
    return problem if problem.file == name else problem._replace(message=f"{problem.message}, for {name}")


def _row(design: Design, text: str) -> Row:
    try:
        wish = asked(text, design.known)
    except MeasureError as error:
        raise ProblemsFound([Problem(error.code, f'--as "{text}"', 0, 0, "", str(error), error.hint)]) from None
    title = Change(wish.change.name, (), ((("title",), _title(design.as_it_is.project.title, wish.text)),))
    change = wish.change.over(design.tried).and_also(title)
    pieced = design.as_it_is.project.top.pieced
    target = design.changed(change if pieced is None else change.and_also(UNPIECED))
    if pieced is None:
        return Row(wish.text, change, None, finish(target))
    return _refitted(design, pieced, wish.text, title, target)


def _title(title: str, text: str) -> str:
    """The title with the size after it, no longer than a title may be."""
    return f"{plain(title)[: LONGEST_LINE - len(text) - 2]}, {text}"


def _refitted(design: Design, pieced: PiecedTop, text: str, title: Change, target: Resolved) -> Row:
    """The first way that the project's other wishes allow: a border may become too wide for its cloth."""
    top, units = target.project.top, target.project.units
    if top.shape != "rectangle":
        message = f"blocks and borders make a rectangle, not {top.shape}"
        hint = "ask for a size or a table with square corners"
        raise ProblemsFound([Problem(ProblemCode.PIECED_IS_A_RECTANGLE, title.name, 0, 0, "", message, hint)])
    size, use = Size(top.width, top.length), top.use
    found = fits(pieced, size, FINEST[units], _widest(pieced) if design.widen else ZERO)
    ways = _allowed(design, pieced, found, title, use)
    first = next(ways, None)
    if first is None:
        message, hint = "no number of blocks comes near it", "ask for a larger size, or make the block smaller"
        raise ProblemsFound([Problem(ProblemCode.NO_BLOCKS_FIT, title.name, 0, 0, "", message, hint)])
    taken, change, resolved = first
    counts = (taken.across, taken.down)
    other = [fit for fit in found if (fit.across, fit.down) != counts] or [fit for fit in found if fit != taken]
    next_best = next((fit for fit, *_ in _allowed(design, pieced, other, title, use)), None)
    hangs = top.covers.hanging(taken.size) if top.covers else None
    return Row(text, change, Refit(size, taken, next_best, hangs), finish(resolved))


def _widest(pieced: PiecedTop) -> Length:
    """The widest that the last border may be cut: across the cloth two strips must fit side by side for a join."""
    most = Length.parse(MOST_STRIP)
    if not pieced.borders or not pieced.borders[-1].cloth.fabric:
        return most
    cloth = pieced.borders[-1].cloth
    usable = usable_width_of(pieced.borders[-1].cloth.fabric)
    return min(usable if cloth.strips == "lengthwise" else usable / 2, most)


def _allowed(
    design: Design, pieced: PiecedTop, found: list[Fit], title: Change, use: str
) -> Iterator[tuple[Fit, Change, Resolved]]:
    """The ways to fit that the rest of the project goes with, the nearest first."""
    for fit in found:
        change = title.and_also(_fit_change(design, pieced, fit, use)).over(design.tried)
        try:
            yield fit, change, design.changed(change)
        except ProblemsFound:
            continue


def _fit_change(design: Design, pieced: PiecedTop, fit: Fit, use: str) -> Change:
    """The keys by which the design becomes the fit."""
    units, puts = design.as_it_is.project.units, list[tuple[KeyPath, Any]]()
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
