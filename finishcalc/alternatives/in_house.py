"""The studio's own view of a result: its profit, every backing worth telling, and the samples it rests on."""

from typing import Any, NamedTuple

from finishcalc.alternatives.backings import worth_telling
from finishcalc.alternatives.styles import in_other_styles
from finishcalc.choosing import WeighedBacking
from finishcalc.model.section import Figure
from finishcalc.pipeline import Finishing
from finishcalc.pricing.profit import Profitability, profitability_of
from finishcalc.pricing.samples import samples_in_use


class InHouse(NamedTuple):
    """The studio's own view of a result: the profit of the quote, the backings that were weighed, without those that
    another of their kind betters, and the key paths of the sample figures that plans and quote rest on."""

    profit: Profitability
    backings: tuple[WeighedBacking, ...]
    samples: frozenset[str]


def in_house(result: Finishing) -> InHouse:
    """Work out the profit, the backings and the samples, for the studio."""
    return InHouse(profit_of(result), worth_telling(result), samples_of(result))


def profit_of(result: Finishing) -> Profitability:
    """Work out the profit of the quote, and of the same top in other styles."""
    resolved = result.resolved
    return profitability_of(resolved.project, resolved.shop, result.plans, result.quote, in_other_styles(result))


def samples_of(result: Finishing) -> frozenset[str]:
    """Give the key paths of the sample figures that plans and quote, and the choice between options, rest on."""
    project, others = result.resolved.project, list[Figure[Any]]()
    if len(result.backings) > 1:
        others.append(project.sewing.cloth.worth_a_seam)
    if any(purchase.weighed and purchase.weighed.other for purchase in result.plans.cloth):
        others += [project.sewing.piecing.join_minutes, project.sewing.wage]
    others += result.dates.figures if result.dates else ()
    return samples_in_use(project, result.resolved.shop, result.plans, result.quote, others)
