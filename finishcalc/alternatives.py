"""The alternatives to a result: other orders, other cuts, small savings, other styles.

Each is planned and priced as a quote of its own, less the quote as it is. Nothing here is worked out until it is asked
for: the command line asks once for everything its reader is to see, and hands it to rendering as plain records.
"""

from collections.abc import Iterator
from contextlib import suppress
from typing import NamedTuple

from finishcalc.intake.changes.change import Change
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.savings import Saving, plan_savings
from finishcalc.plans.cloth import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.leftover import from_leftover
from finishcalc.plans.together import Plans, make_plans, with_binding
from finishcalc.pricing.offers import Offer, OfferedProject, differs_by_sample, offered_projects
from finishcalc.pricing.profit import Profitability, QuoteInStyle, profitability_of
from finishcalc.pricing.quote import make_quote
from finishcalc.pricing.samples import samples_in_use
from finishcalc.problems import ProblemsFound


class OtherBacking(NamedTuple):
    """Another way to piece the backing, and the amount it would add to the total with tax."""

    option: BackingOption
    adds: Money


class OtherBinding(NamedTuple):
    """The binding cut from beside the backing's pieces, with the cloth it saves and the amount it would add to the
    total with tax."""

    plan: BindingPlan
    saved: Length
    adds: Money


class Alternatives(NamedTuple):
    """The choices that a customer has: things to order beside or instead, backings with a seam less or more, and the
    binding from beside the backing's pieces where that takes less cloth."""

    offers: tuple[Offer, ...]
    backings: tuple[OtherBacking, ...]
    binding: OtherBinding | None


class InHouse(NamedTuple):
    """The studio's own view of a result: small savings at the backing, the profit of the quote, and the key paths of
    the sample figures that plans, quote and savings rest on."""

    savings: tuple[Saving, ...]
    profit: Profitability
    samples: frozenset[str]


def alternatives_of(result: Finishing) -> Alternatives:
    """Work out every choice that the customer has."""
    return Alternatives(offers_of(result), tuple(_other_backings(result)), _other_binding(result))


def in_house(result: Finishing) -> InHouse:
    """Work out the savings, the profit and the samples, for the studio."""
    savings = _savings_of(result.plans)
    return InHouse(savings, profit_of(result), _samples_among(result, savings))


def offers_of(result: Finishing) -> tuple[Offer, ...]:
    """Price each thing more that could be ordered; one that does not change the total is no offer."""
    offers = [_offer(result, offered) for offered in offered_projects(result.resolved.project, result.resolved.shop)]
    return tuple(offer for offer in offers if offer.adds.minor)


def profit_of(result: Finishing) -> Profitability:
    """Work out the profit of the quote, and of the same top in other styles."""
    resolved = result.resolved
    return profitability_of(resolved.project, resolved.shop, result.plans, result.quote, _in_other_styles(result))


def samples_of(result: Finishing) -> frozenset[str]:
    """Give the key paths of the sample figures that plans, quote and savings rest on."""
    return _samples_among(result, _savings_of(result.plans))


def _offer(result: Finishing, offered: OfferedProject) -> Offer:
    """Price one offer; the plans are made again only where it changes more than the charges."""
    project, plans = result.resolved.project, result.plans
    same_plans = offered.project._replace(charges=project.charges) == project
    plans = plans if same_plans else make_plans(offered.project, plans)
    quote = make_quote(offered.project, result.resolved.shop, plans)
    return Offer(offered.label, quote.total - result.quote.total, differs_by_sample(quote, result.quote))


def _other_backings(result: Finishing) -> Iterator[OtherBacking]:
    """Price the backings next to the chosen one, with one seam less or more."""
    project, backing = result.resolved.project, result.plans.backing
    if not backing:
        return
    for option in backing.neighbours:
        plans = make_plans(project, result.plans, instead=backing._replace(chosen=option))
        yield OtherBacking(option, _adds(result, plans))


def _other_binding(result: Finishing) -> OtherBinding | None:
    """Price the binding cut from beside the backing's pieces, where the chosen one is cut in another way and takes more
    cloth."""
    project, plans = result.resolved.project, result.plans
    backing, binding = plans.backing, plans.binding
    if not binding or binding.cut == "leftover" or (backing and backing.customer_supplied):
        return None
    leftover_binding = from_leftover(project, plans.top.shape, backing, binding)
    if not leftover_binding:
        return None
    other_plans = with_binding(project, plans, leftover_binding)
    saved = _length_bought(plans.cloth) - _length_bought(other_plans.cloth)
    return OtherBinding(leftover_binding, saved, _adds(result, other_plans)) if saved > ZERO else None


def _length_bought(cloth: tuple[Purchase, ...]) -> Length:
    return sum((purchase.amount for purchase in cloth), ZERO)


def _adds(result: Finishing, plans: Plans) -> Money:
    """Give the amount that other plans of the same project add to the total."""
    return make_quote(result.resolved.project, result.resolved.shop, plans).total - result.quote.total


def _savings_of(plans: Plans) -> tuple[Saving, ...]:
    return plan_savings(plans.backing) if plans.backing else ()


def _samples_among(result: Finishing, savings: tuple[Saving, ...]) -> frozenset[str]:
    rates = [rate for saving in savings for rate in saving.rates]
    return samples_in_use(result.resolved.project, result.resolved.shop, result.plans, result.quote, rates)


def _in_other_styles(result: Finishing) -> Iterator[QuoteInStyle]:
    """Plan and price the same top in a style of each other class of rates, where one style stitches the whole of it.

    No style changes the backing, so it is not searched again.
    """
    resolved, quilting = result.resolved, result.plans.quilting
    if len(quilting.areas) > 1 or quilting.ties or quilting.method.rate_class:
        return
    for rate_class, name in resolved.styles_by_class.items():
        if rate_class != quilting.style.rate_class:
            with suppress(ProblemsFound):
                project = resolved.changed(Change("", (), ((("quilting", "style"), name),))).project
                plans = make_plans(project, result.plans, instead=result.plans.backing)
                yield QuoteInStyle(plans.quilting.style.name, plans, make_quote(project, resolved.shop, plans))
