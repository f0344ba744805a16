"""The alternatives to a result: other orders, other cuts, other styles.

Each is planned and priced as a quote of its own, less the quote as it is. Nothing here is worked out until it is asked
for: the command line asks once for everything its reader is to see, and hands it to rendering as plain records.
"""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from typing import Any, NamedTuple

from finishcalc.choosing import WeighedBacking, plan_and_price
from finishcalc.intake.changes.change import Change
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Money
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Project
from finishcalc.model.section import Figure
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.together import binding_from_leftover, make_plans, with_binding, with_extras
from finishcalc.pricing.offers import Offer, OfferedProject, differs_by_sample, offered_projects, worth_offering
from finishcalc.pricing.profit import Profitability, QuoteInStyle, profitability_of
from finishcalc.pricing.quote import make_quote
from finishcalc.pricing.samples import samples_in_use
from finishcalc.problems import ProblemsFound
from finishcalc.taking import Take, take_backing, take_project, take_strips


class OtherBacking(NamedTuple):
    """Another way to piece the backing: the `total` of the quote with it, the amount that this adds, the amount that it
    adds to the studio's own cost for cloth and seams, and what to write to take it."""

    option: BackingOption
    total: Money
    adds: Money
    adds_to_cost: Money
    take: Take


class OtherBinding(NamedTuple):
    """The binding cut from beside the backing's pieces, with the cloth it saves, the `total` of the quote with it, the
    amount that this adds, and what to write to take it."""

    plan: BindingPlan
    saved: Length
    total: Money
    adds: Money
    take: Take


class OtherCutting(NamedTuple):
    """A cloth of the top with its long strips cut the other way: joined across the cloth, or in one piece along it.
    `parts` are joined in one of the two. It buys `amount` and takes so many `joins`; the `total` of the quote with it,
    the amount that this adds, and what to write to take it."""

    fabric: Fabric
    parts: tuple[str, ...]
    amount: Length
    joins: int
    total: Money
    adds: Money
    take: Take


class Alternatives(NamedTuple):
    """The choices that a customer has: things to order beside or instead, backings that cost less or have fewer seams,
    the binding from beside the backing's pieces where that takes less cloth, and the cloths of the top whose strips may
    be cut the other way."""

    offers: tuple[Offer, ...]
    backings: tuple[OtherBacking, ...]
    binding: OtherBinding | None
    cuttings: tuple[OtherCutting, ...] = ()


class InHouse(NamedTuple):
    """The studio's own view of a result: the profit of the quote, the backings that were weighed, without those that
    another of their kind betters, and the key paths of the sample figures that plans and quote rest on."""

    profit: Profitability
    backings: tuple[WeighedBacking, ...]
    samples: frozenset[str]


def alternatives_of(result: Finishing) -> Alternatives:
    """Work out every choice that the customer has."""
    cuttings = tuple(_other_cuttings(result))
    return Alternatives(offers_of(result), tuple(_other_backings(result)), _other_binding(result), cuttings)


def in_house(result: Finishing) -> InHouse:
    """Work out the profit, the backings and the samples, for the studio."""
    chosen, weighed = _chosen(result), result.backings
    backings = tuple(each for each in weighed if each.option is chosen or not _is_bettered(each, weighed))
    return InHouse(profit_of(result), backings, samples_of(result))


def offers_of(result: Finishing) -> tuple[Offer, ...]:
    """Price each thing more that could be ordered, and keep what is worth offering."""
    offered = offered_projects(result.resolved.project, result.resolved.shop)
    return tuple(worth_offering([(each, _offer(result, each)) for each in offered], result.plans))


def profit_of(result: Finishing) -> Profitability:
    """Work out the profit of the quote, and of the same top in other styles."""
    resolved = result.resolved
    return profitability_of(resolved.project, resolved.shop, result.plans, result.quote, _in_other_styles(result))


def samples_of(result: Finishing) -> frozenset[str]:
    """Give the key paths of the sample figures that plans and quote, and the choice between options, rest on."""
    project, others = result.resolved.project, list[Figure[Any]]()
    if len(result.backings) > 1:
        others.append(project.sewing.cloth.worth_a_seam)
    if any(purchase.weighed and purchase.weighed.other for purchase in result.plans.cloth):
        others += [project.sewing.piecing.join_minutes, project.sewing.wage]
    others += result.dates.figures if result.dates else ()
    return samples_in_use(project, result.resolved.shop, result.plans, result.quote, others)


def _offer(result: Finishing, offered: OfferedProject) -> Offer:
    """Price one offer; more than the cloth of extras is planned again only where it changes more than these, or where
    the binding is cut from the same offcuts."""
    project, shop, plans = result.resolved.project, result.resolved.shop, result.plans
    others_stay = offered.project._replace(charges=project.charges, extra_cuts=project.extra_cuts) == project
    if others_stay and not (plans.binding and plans.binding.offcuts):
        plans = with_extras(offered.project, plans)
        quote = make_quote(offered.project, shop, plans)
    else:
        plans, quote, _ = plan_and_price(offered.project, shop, plans)
    return Offer(
        label=offered.label,
        plans=plans,
        total=quote.total,
        adds=quote.total - result.quote.total,
        rests_on_sample=differs_by_sample(quote, result.quote),
        take=take_project(project, offered.project, result.resolved.layers),
    )


def _other_backings(result: Finishing) -> Iterator[OtherBacking]:
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


def _other_binding(result: Finishing) -> OtherBinding | None:
    """Price the binding cut from beside the backing's pieces, where the chosen one is cut in another way and takes more
    cloth."""
    project, plans = result.resolved.project, result.plans
    backing, binding = plans.backing, plans.binding
    if not binding or binding.cut == "leftover" or (backing and backing.customer_supplied):
        return None
    leftover_binding = binding_from_leftover(project, plans)
    if not leftover_binding:
        return None
    other_plans = with_binding(project, plans, leftover_binding)
    saved = _length_bought(plans.cloth) - _length_bought(other_plans.cloth)
    if saved <= ZERO:
        return None
    total = make_quote(project, result.resolved.shop, other_plans).total
    adds = total - result.quote.total
    without_offcut: Take = {"binding.offcut": None} if project.binding and project.binding.offcut else {}
    return OtherBinding(leftover_binding, saved, total, adds, {"binding.cut": "leftover", **without_offcut})


def _other_cuttings(result: Finishing) -> Iterator[OtherCutting]:
    """Price each cloth of the top with its long strips cut the other way, where that buys less or takes fewer joins."""
    project, shop = result.resolved.project, result.resolved.shop
    for purchase in result.plans.cloth:
        if not purchase.weighed or not purchase.weighed.other or not project.top.pieced:
            continue
        strips = {way.part: way.strips for way in purchase.weighed.other.ways if way.is_one_of_two}
        top = project.top._replace(pieced=project.top.pieced.with_strips(strips))
        plans, quote, _ = plan_and_price(project._replace(top=top), shop)
        other = next(each for each in plans.cloth if each.is_of_same_cloth(purchase))
        joins = other.weighed.lead.joins if other.weighed else 0
        if other.amount < purchase.amount or joins < purchase.weighed.lead.joins:
            adds = quote.total - result.quote.total
            take = take_strips(strips)
            parts = _joined_parts(other if joins else purchase)
            yield OtherCutting(other.fabric, parts, other.amount, joins, quote.total, adds, take)


def _joined_parts(purchase: Purchase) -> tuple[str, ...]:
    ways = purchase.weighed.lead.ways if purchase.weighed else ()
    return tuple(dict.fromkeys(way.part for way in ways if way.joins))


def _length_bought(cloth: tuple[Purchase, ...]) -> Length:
    return sum((purchase.amount for purchase in cloth), ZERO)


def _in_other_styles(result: Finishing) -> Iterator[QuoteInStyle]:
    """Plan and price the same top in a style of each other class of rates, where one style stitches the whole of it.

    A style changes neither the backing nor the binding, so these are not chosen again, unless it needs another overage.
    """
    resolved, quilting = result.resolved, result.plans.quilting
    if len(quilting.areas) > 1 or quilting.ties or quilting.method.rate_class:
        return
    for rate_class, name in resolved.styles_by_class.items():
        if rate_class != quilting.style.rate_class:
            with suppress(ProblemsFound):
                project = resolved.changed(Change("", (), ((("quilting", "style"), name),))).project
                yield _in_style(project, result)


def _in_style(project: Project, result: Finishing) -> QuoteInStyle:
    shop, before = result.resolved.shop, result.plans
    if project.backing != result.resolved.project.backing:
        plans, quote, _ = plan_and_price(project, shop)
    else:
        plans = make_plans(project, before, instead=before.backing)
        plans = with_binding(project, plans, before.binding) if before.binding else plans
        quote = make_quote(project, shop, plans)
    return QuoteInStyle(plans.quilting.style.name, plans, quote)
