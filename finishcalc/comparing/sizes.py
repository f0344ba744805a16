"""The story of a comparison: one design in many sizes, each of them a project like any other.

A row is the quote of a changed file: the same file, with a change laid over it.
"""

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from finishcalc.comparing.design import Design
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.sizes import RequestedSize, requested_size
from finishcalc.intake.keypaths import KeyPath
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
from finishcalc.plans.pieced.refit import Fit, covering_first, fits, refitted
from finishcalc.plans.together import hang_cautions
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

AS_IT_IS = "as it is"
UNPIECED = Change("", (("quilting", "areas"), ("charges", "piecing")))
"""Takes away the keys, beside those of the size, that name parts of a pieced top."""


class Refit(NamedTuple):
    """A pieced design made to fit a target: the fit that was chosen, and the next best. Where the target covers
    something, `hangs` is that cover with the drops of the fitted design."""

    target: Size
    taken: Fit
    next_best: Fit | None
    hangs: Cover | None


class Row(NamedTuple):
    """A size with its result. The design as it is has no change; `keys` is the part of the change that gives the size:
    neither the values to try nor the title."""

    name: str
    change: Change | None
    refit: Refit | None
    result: Finishing
    keys: Change

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """The cautions of the result, and those of a refitted design that does not hang as far as was asked."""
        hangs = self.refit.hangs if self.refit else None
        table = self.result.resolved.project.measuring.table_height
        return self.result.cautions + (tuple(hang_cautions(hangs, self.result.plans, table)) if hangs else ())


class Comparison(NamedTuple):
    """A design as it is, and in each size that was asked for."""

    source: Source
    rows: tuple[Row, ...]

    def difference(self, row: Row) -> Money:
        """Subtract the first row's total from a row's."""
        return row.result.quote.total - self.rows[0].result.quote.total


def compare_sizes(design: Design, sizes: Iterable[str]) -> Comparison:
    """Work out the design as it is, then in each size. Raises ProblemsFound with the problems of all sizes."""
    first = Row(AS_IT_IS, None, None, finish(design.unchanged), Change(""))
    problems: list[Problem] = []
    rows = [first]
    for text in dict.fromkeys(sizes):
        try:
            rows.append(row_of(design, text))
        except ProblemsFound as error:
            problems += [_problem_of_size(problem, text) for problem in error.problems]
    if problems:
        raise ProblemsFound(dict.fromkeys(problems))
    return Comparison(design.source, tuple(rows))


def _problem_of_size(problem: Problem, text: str) -> Problem:
    """Name the size in a problem, because the file is right on its own and only does not go with that size."""
    name = f'--as "{text}"'
    return problem if problem.file == name else problem._replace(message=f"{problem.message}, for {name}")


def row_of(design: Design, text: str) -> Row:
    """Work out the design in one size. Raises ProblemsFound."""
    size = size_of(design, text)
    title = Change(size.change.name, (), ((("title",), _title(design.unchanged.project.title, size.text)),))
    pieced = design.unchanged.project.top.pieced
    if pieced is None:
        change = size.change.over(design.tried).and_also(title)
        return Row(size.text, change, None, finish(design.changed(change)), size.change)
    return _refitted_row(design, pieced, size.text, title, target_of(design, size))


def size_of(design: Design, text: str) -> RequestedSize:
    """Read a size that is asked for. Raises ProblemsFound."""
    try:
        return requested_size(text, design.known)
    except MeasureError as error:
        raise ProblemsFound([Problem(error.code, f'--as "{text}"', 0, 0, "", str(error), error.hint)]) from None


def target_of(design: Design, size: RequestedSize) -> Resolved:
    """Resolve the project with a plain top of a size. Raises ProblemsFound."""
    change = size.change.over(design.tried)
    return design.changed(change if design.unchanged.project.top.pieced is None else UNPIECED.over(change))


def _title(title: str, text: str) -> str:
    """Put the size after the title, no longer than a title may be."""
    return f"{plain(title)[: LONGEST_LINE - len(text) - 2]}, {text}"


def _refitted_row(design: Design, pieced: PiecedTop, text: str, title: Change, target: Resolved) -> Row:
    """Take the nearest fit that the rest of the project allows, because a border may become too wide for its cloth; on
    a bed, one that covers the mattress before one that does not."""
    top = target.project.top
    if top.shape != "rectangle":
        message = f"blocks and borders make a rectangle, not {top.shape}"
        hint = "ask for a size or a table with square corners"
        raise _refused(ProblemCode.PIECED_IS_A_RECTANGLE, title, message, hint)
    size = Size(top.width, top.length)
    widest = _widest(pieced) if design.widen else ZERO
    candidates = fits(pieced, size, FINEST[target.project.units], widest)
    best = next(_allowed(design, pieced, covering_first(candidates, top.covers), title, top.use), None)
    if best is None:
        message, hint = "no number of blocks comes near it", "ask for a larger size, or make the block smaller"
        raise _refused(ProblemCode.NO_BLOCKS_FIT, title, message, hint)
    taken, keys, change, resolved = best
    others = [fit for fit in candidates if (fit.across, fit.down) != (taken.across, taken.down)]
    others = others or [fit for fit in candidates if fit != taken]
    next_best = next((fit for fit, *_ in _allowed(design, pieced, others, title, top.use)), None)
    hangs = top.covers.hanging(taken.size) if top.covers else None
    return Row(text, change, Refit(size, taken, next_best, hangs), finish(resolved), keys)


def _refused(code: ProblemCode, size: Change, message: str, hint: str) -> ProblemsFound:
    return ProblemsFound([Problem(code, size.name, 0, 0, "", message, hint)])


def _widest(pieced: PiecedTop) -> Length:
    """Give the widest cut of the last border: across the cloth, two strips must fit side by side for a join."""
    most = Length.parse(MOST_STRIP)
    cloth = pieced.borders[-1].cloth if pieced.borders else None
    if not cloth or not cloth.fabric:
        return most
    usable = usable_width_of(cloth.fabric)
    return min(usable if cloth.strips == "lengthwise" else usable / 2, most)


def _allowed(
    design: Design, pieced: PiecedTop, candidates: list[Fit], title: Change, use: str
) -> Iterator[tuple[Fit, Change, Change, Resolved]]:
    """Give the fits that the rest of the project allows, the nearest first: each with its keys, and in a change with
    those of the title and of the values to try."""
    for fit in candidates:
        keys = _fit_change(design, pieced, fit, use)
        change = title.and_also(keys).over(design.tried)
        try:
            yield fit, keys, change, design.changed(change)
        except ProblemsFound:
            continue


def _fit_change(design: Design, pieced: PiecedTop, fit: Fit, use: str) -> Change:
    """Set the keys that turn the design into the fit."""
    units, puts = design.unchanged.project.units, list[tuple[KeyPath, Any]]()
    if design.unchanged.project.top.use != use:
        puts.append((("top", "use"), use))
    counts = (("across", fit.across), ("down", fit.down))
    puts += [(("top", "blocks", side), count) for side, count in counts if count is not None]
    if fit.wider:
        last = len(pieced.borders) - 1
        puts.append((("top", "borders", last, "cut"), written(refitted(pieced, fit).borders[-1].cut, units)))
    return Change("", (), tuple(puts))


def written(length: Length, units: str) -> int | str:
    """Write a length as a file of these units does: read again, it is the same."""
    number = length.to(units)
    if number.denominator == 1:
        return int(number)
    return str(length).removesuffix(" in") if units == "in" else f"{mixed(length.mm)} mm"
