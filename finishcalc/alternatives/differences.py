"""The difference that each value of a choice makes to the total."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from typing import TypeVar

from finishcalc.choosing import plan_and_price
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.resolve import Resolved
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing
from finishcalc.plans.together import Plans
from finishcalc.problems import ProblemsFound

Value = TypeVar("Value")


def differences_of(result: Finishing, path: KeyPath, values: Iterable[Value]) -> Iterator[tuple[Value, Money | None]]:
    """Give each value of a key with the change that it makes to the total; None with which the project does not work
    out. Each is worked out when it is asked for, so that whoever no longer needs the rest may stop."""
    for value in values:
        total = None
        with suppress(ProblemsFound):
            total = total_with(result, result.resolved.changed(Change("", (), ((path, value),))))
        yield value, None if total is None else total - result.quote.total


def total_with(result: Finishing, resolved: Resolved) -> Money:
    """The total of a changed file; that of the file itself where nothing that plans and prices are made from is
    changed."""
    if (resolved.project, resolved.shop) == (result.resolved.project, result.resolved.shop):
        return result.quote.total
    return plan_and_price(resolved.project, resolved.shop, _same_top(result, resolved)).quote.total


def _same_top(result: Finishing, resolved: Resolved) -> Plans | None:
    """The plans from which those of the top may be taken: none where anything that they are made from is changed."""
    before, now = result.resolved.project, resolved.project
    made_from = [(each.top, each.measuring, each.units, each.sewing) for each in (before, now)]
    return result.plans if made_from[0] == made_from[1] else None
