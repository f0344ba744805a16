"""Everything else that could be done about a top: other orders, other cuts, small savings, other styles.

Each is planned and priced as a whole quote of its own, less the quote as it is. Nothing here is worked out until it is
asked for: whoever prints a result asks once for what the reader is to see, and hands it to rendering as plain records.
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
from finishcalc.pricing.offers import Offer, Wish, differs_by_sample, other_wishes
from finishcalc.pricing.profit import InStyle, Worth, worth_of
from finishcalc.pricing.quote import make_quote
from finishcalc.pricing.samples import samples_in_use
from finishcalc.problems import ProblemsFound


class OtherBacking(NamedTuple):
    """Another way to piece the backing, and the amount it would add to the total, tax and all."""

    option: BackingOption
    adds: Money


class OtherBinding(NamedTuple):
    """The binding from beside the backing's pieces, the cloth that saves, and the amount it would add to the total."""

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
    profit: Worth
    samples: frozenset[str]


def alternatives_of(result: Finishing) -> Alternatives:
    """Work out every choice that the customer has."""
    return Alternatives(offers_of(result), tuple(_other_backings(result)), _other_binding(result))


def in_house(result: Finishing) -> InHouse:
    """Work out the studio's own view."""
    savings = _savings_of(result.plans)
    return InHouse(savings, profit_of(result), _samples_among(result, savings))


def offers_of(result: Finishing) -> tuple[Offer, ...]:
    """Price each thing more that could be ordered; one that changes no total is none."""
    offers = [_offer(result, wish) for wish in other_wishes(result.asked.project, result.asked.shop)]
    return tuple(offer for offer in offers if offer.adds.minor)


def profit_of(result: Finishing) -> Worth:
    """Work out the profit of the quote, and of the same top in other styles."""
    asked = result.asked
    return worth_of(asked.project, asked.shop, result.plans, result.quote, _in_other_styles(result))


def samples_of(result: Finishing) -> frozenset[str]:
    """Give the key paths of the sample figures that plans, quote and savings rest on."""
    return _samples_among(result, _savings_of(result.plans))


def _offer(result: Finishing, wish: Wish) -> Offer:
    """Price one wish; the plans are made again only where it changes more than what is charged."""
    project, plans = result.asked.project, result.plans
    same = wish.project._replace(charges=project.charges) == project
    quote = make_quote(wish.project, result.asked.shop, plans if same else make_plans(wish.project, plans))
    return Offer(wish.label, quote.total - result.quote.total, differs_by_sample(quote, result.quote))


def _other_backings(result: Finishing) -> Iterator[OtherBacking]:
    """Price the backings next to the chosen one, with one seam less or more."""
    project, backing = result.asked.project, result.plans.backing
    if not backing:
        return
    for option in backing.neighbours:
        plans = make_plans(project, result.plans, instead=backing._replace(chosen=option))
        yield OtherBacking(option, _adds(result, plans))


def _other_binding(result: Finishing) -> OtherBinding | None:
    """Price the binding from beside the backing's pieces, where it is cut otherwise and would take less cloth so."""
    project, plans = result.asked.project, result.plans
    backing, binding = plans.backing, plans.binding
    if not binding or binding.cut == "leftover" or (backing and backing.customer_supplied):
        return None
    beside = from_leftover(project, plans.top.shape, backing, binding)
    if not beside:
        return None
    other = with_binding(project, plans, beside)
    saved = _amount(plans.cloth) - _amount(other.cloth)
    return OtherBinding(beside, saved, _adds(result, other)) if saved > ZERO else None


def _amount(cloth: tuple[Purchase, ...]) -> Length:
    return sum((purchase.amount for purchase in cloth), ZERO)


def _adds(result: Finishing, plans: Plans) -> Money:
    """The amount that other plans of the same project add to the total."""
    return make_quote(result.asked.project, result.asked.shop, plans).total - result.quote.total


def _savings_of(plans: Plans) -> tuple[Saving, ...]:
    return plan_savings(plans.backing) if plans.backing else ()


def _samples_among(result: Finishing, savings: tuple[Saving, ...]) -> frozenset[str]:
    rates = [rate for saving in savings for rate in saving.rates]
    return samples_in_use(result.asked.project, result.asked.shop, result.plans, result.quote, rates)


def _in_other_styles(result: Finishing) -> Iterator[InStyle]:
    """Plan and price the same top in a style of each other class of rates, where one style stitches the whole of it.

    No style changes the backing, so it is not searched again.
    """
    asked, quilting = result.asked, result.plans.quilting
    if len(quilting.areas) > 1 or quilting.ties or quilting.method.rate_class:
        return
    for rate_class, name in asked.styles_by_class.items():
        if rate_class != quilting.style.rate_class:
            with suppress(ProblemsFound):
                project = asked.changed(Change("", (), ((("quilting", "style"), name),))).project
                plans = make_plans(project, result.plans, instead=result.plans.backing)
                yield InStyle(plans.quilting.style.name, plans, make_quote(project, asked.shop, plans))
