"""The sample figures that a result rests on, so that the studio can put its own in their place."""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Any

from finishcalc.model.prices import Shop
from finishcalc.model.project import Project
from finishcalc.model.section import Figure
from finishcalc.model.shop import BattingSeam
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.quilting.stitching import wound
from finishcalc.plans.together import Plans
from finishcalc.pricing.deposit import deposit_figures
from finishcalc.pricing.quote import Quote


def samples_in_use(
    project: Project, shop: Shop, plans: Plans, quote: Quote, others: Iterable[Figure[Any]] = ()
) -> frozenset[str]:
    """Give the key paths of the samples among the figures that the plans and the quote used, and among `others`."""
    figures = chain(_used_figures(project, shop, plans, quote), others)
    return frozenset(figure.key for figure in figures if figure.sample)


def _used_figures(project: Project, shop: Shop, plans: Plans, quote: Quote) -> Iterator[Figure[Any]]:
    """Give every price, share and time that the plans and the quote used."""
    for line in quote.lines:
        yield from line.rates
    if (thread := shop.rates.thread).cost and any(thread.price in line.rates for line in quote.lines):
        yield thread.cost
    if project.charges.piecing:
        yield project.sewing.piecing.block_minutes
    for ordered in project.charges.extras:
        extra = shop.extras[ordered.name]
        yield from (figure for figure in (extra.minutes, extra.cost) if figure)
    if quote.taxes:
        yield shop.taxes
    yield from deposit_figures(shop.deposit)
    yield from (shop.rates.wage, shop.rates.overhead)
    yield from (project.quilting.method.stages, wound(project.quilting.method, project.thread), project.thread.cone)
    if plans.quilting.ties:
        yield project.thread.tie
    yield from (project.edge_time.of_work(work) for work in plans.edge_times)
    if plans.backing:
        yield plans.backing.fabric.price
        yield from (project.sewing.seaming.minutes_each, project.sewing.seaming.minutes_along)
    if plans.batting:
        yield from _figures_of_batting(plans.batting, project.sewing.batting_seam)


def _figures_of_batting(batting: BattingPlan, seam: BattingSeam) -> Iterator[Figure[Any]]:
    """Give the prices of a batting that is bought, and the times of one that is joined."""
    if not batting.brought:
        yield from (batting.product.packages, batting.product.rolls)
    if batting.seams:
        yield from (seam.minutes_each, seam.minutes_along)
