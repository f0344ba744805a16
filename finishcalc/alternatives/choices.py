"""The choices that a customer has: things more to order, other backings and other cuts.

Nothing here is worked out until it is asked for: the command line asks once for everything its reader is to see, and
hands it to rendering as plain records.
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.alternatives.backings import OtherBacking, other_backings
from finishcalc.choosing import plan_and_price
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Money
from finishcalc.model.materials import Fabric
from finishcalc.pipeline import Finishing
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.together import binding_from_leftover, with_binding, with_extras
from finishcalc.pricing.offers import Offer, OfferedProject, differs_by_sample, offered_projects, worth_offering
from finishcalc.pricing.quote import make_quote
from finishcalc.taking import Take, take_project, take_strips


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


def alternatives_of(result: Finishing) -> Alternatives:
    """Work out every choice that the customer has."""
    cuttings = tuple(_other_cuttings(result))
    return Alternatives(offers_of(result), tuple(other_backings(result)), _other_binding(result), cuttings)


def offers_of(result: Finishing) -> tuple[Offer, ...]:
    """Price each thing more that could be ordered, and keep what is worth offering."""
    offered = offered_projects(result.resolved.project, result.resolved.shop)
    return tuple(worth_offering([(each, _offer(result, each)) for each in offered], result.plans))


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
