"""Other backings than the one that leads, of those that were weighed."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from finishcalc.choosing import WeighedBacking
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.taking import Take, take_backing


class OtherBacking(NamedTuple):
    """Another way to piece the backing: the `total` of the quote with it, the amount that this adds, the amount that it
    adds to the studio's own cost for cloth and seams, and what to write to take it."""

    option: BackingOption
    total: Money
    adds: Money
    adds_to_cost: Money
    take: Take


def other_backings(result: Finishing) -> Iterator[OtherBacking]:
    """Give the backings that are cheaper than the one that leads, or have fewer seams, but none that another of its
    kind betters: with no more seams, for less."""
    lead = next((each for each in result.backings if each.option is _chosen(result)), None)
    if not lead:
        return
    for other in result.backings:
        fewer = other.option.layout.seams < lead.option.layout.seams
        if (fewer or other.quote.total < lead.quote.total) and not _is_bettered(other, result.backings):
            yield OtherBacking(
                option=other.option,
                total=other.quote.total,
                adds=other.quote.total - lead.quote.total,
                adds_to_cost=other.option.total_cost - lead.option.total_cost,
                take=take_backing(other.option),
            )


def worth_telling(result: Finishing) -> tuple[WeighedBacking, ...]:
    """Give the backings that were weighed, without those that another of their kind betters; the chosen one stays."""
    chosen, weighed = _chosen(result), result.backings
    return tuple(each for each in weighed if each.option is chosen or not _is_bettered(each, weighed))


def _chosen(result: Finishing) -> BackingOption | None:
    return result.plans.backing.chosen if result.plans.backing else None


def _is_bettered(option: WeighedBacking, weighed: Iterable[WeighedBacking]) -> bool:
    return any(
        (other.option.layout.turned > 0) == (option.option.layout.turned > 0)
        and other.option.breaks_pile <= option.option.breaks_pile
        and other.option.layout.seams <= option.option.layout.seams
        and other.quote.total < option.quote.total
        for other in weighed
    )
