"""The page of a review: problems, or cautions, samples, defaults, what is still to measure, and whose figures."""

from collections.abc import Iterator

from finishcalc.pipeline import Finishing
from finishcalc.problems import Problem
from finishcalc.rendering.pages.page import Group, Head, Heading, Page, Paragraph, sentences
from finishcalc.rendering.writing import is_provisional, notation_of
from finishcalc.reviewing.measuring import ToMeasure
from finishcalc.reviewing.review import Review
from finishcalc.reviewing.sensitivity import Influence, Tried
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.words import counted


def check_page(review: Review) -> Page:
    """Make the page of a file."""
    return Page(Head("Check", plain(review.file)), tuple(_groups(review)))


def _groups(review: Review) -> Iterator[Group]:
    if review.problems:
        yield (Paragraph(f"{counted(len(review.problems), 'problem')}: it cannot be quoted as it is."),)
        yield _section("Problems", [_problem(each) for each in review.problems])
        return
    if review.result is None:
        yield (Paragraph("No problems."),)
    else:
        yield from _found(review, review.result)
    yield _section("Yours?", list(_yours(review)))


def _found(review: Review, result: Finishing) -> Iterator[Group]:
    notation = notation_of(result)
    total = notation.show(result.quote.total)
    if is_provisional(result):
        yield (
            Paragraph(f"This cannot be made as specified, so the total, {total}, is provisional: see the cautions."),
        )
    else:
        yield (Paragraph(f"No problems: the total is {total}."),)
    yield _section("Cautions", [notation.write(each.sentence) for each in result.cautions])
    yield _section("Sample rates", _influences(review.samples, notation))
    yield _section("Defaults", _influences(review.defaults, notation))
    yield _section("Still to measure", [_measure(each, notation) for each in review.to_measure])


def _section(heading: str, texts: list[str]) -> Group:
    return Heading(heading), sentences("", texts or ["none"])


def _problem(problem: Problem) -> str:
    """A problem with its code first, by which it can be looked up."""
    where = plain(problem.file) + (f":{problem.line}" if problem.line else "")
    path = f"{problem.path}: " if problem.path else ""
    hint = f"; {plain(problem.hint)}" if problem.hint else ""
    return f"{problem.code}: {where}: {path}{plain(problem.message)}{hint}"


def _influences(listed: tuple[Influence, ...], notation: Notation) -> list[str]:
    """Each value that moves the total, then those that do not; of defaults without effect nobody need know."""
    moving = [_influence(each, notation) for each in listed if each.most]
    idle = [each.key for each in listed if not each.most and each.figure]
    rest = [f"a tenth more or less leaves this total as it is: {', '.join(idle)}"] if idle else []
    return moving + rest or ["none that moves the total"]


def _influence(each: Influence, notation: Notation) -> str:
    tried = [(f"10{NO_BREAK}% more", each.more), (f"10{NO_BREAK}% less", each.less)]
    ways = [_way(name, way, notation) for name, way in tried if way and way.adds]
    return f"{each.key} {_said(each.value)}: {'; '.join(ways)}"


def _way(name: str, tried: Tried, notation: Notation) -> str:
    value = f", {_said(tried.value)}," if isinstance(tried.value, str) else ""
    by = notation.bare_money(tried.adds if tried.adds.minor > 0 else -tried.adds)
    more = "more" if tried.adds.minor > 0 else "less"
    return f"{name}{value} makes the total {notation.bare_money(tried.total)}, {by} {more}"


def _measure(each: ToMeasure, notation: Notation) -> str:
    return f"{notation.write(each.what)}: {notation.write(each.why)} ({each.key})"


def _yours(review: Review) -> Iterator[str]:
    """Name the figures of the shop file that are the sample's too, a line each."""
    if review.shop is None:
        yield "there is no shop file, so every rate is the sample's"
    elif not review.yours:
        yield f"no figure of {plain(review.shop)} is the sample's"
    else:
        yield f"these of {plain(review.shop)} are the sample's too: are they yours?"
        yield from (f"line {each.line}: {each.key} {_said(each.value)}" for each in review.yours)


def _said(value: object) -> str:
    """A value as a file writes it; the figures of a table or a list are not said again."""
    if isinstance(value, dict):
        return " / ".join(map(str, value.values()))
    return value.replace(" ", NO_BREAK) if isinstance(value, str) else "with its figures"
