"""Offers: things that a customer could still order, each as a project to be priced and not added."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Money
from finishcalc.model.charges import OrderedExtra
from finishcalc.model.materials import Fabric
from finishcalc.model.ordering import cut_extras
from finishcalc.model.prices import Shop
from finishcalc.model.project import Backing, Project
from finishcalc.plans.together import Plans
from finishcalc.pricing.quote import Quote
from finishcalc.wording.sentence import Sentence, say


class Offer(NamedTuple):
    """One thing more that could be ordered, with the plans and the `total` of the quote with it. It `adds` so much to
    the total, tax and all, and is marked where that rests on a sample; `take` is what to write to take it."""

    label: Sentence
    plans: Plans
    total: Money
    adds: Money
    rests_on_sample: bool
    take: Mapping[str, object]


class OfferedProject(NamedTuple):
    """The project as it would be with an offer taken, which may be the backing in a wider cloth."""

    label: Sentence
    project: Project
    in_wider_cloth: bool = False


def worth_offering(offers: list[tuple[OfferedProject, Offer]], plans: Plans) -> Iterator[Offer]:
    """Keep the offers that change the total; of the wider cloths, those that no other betters, and where the shop
    supplies the backing anyway, those that are cheaper than its own cloth or have fewer seams."""
    brought = plans.backing is not None and plans.backing.customer_supplied is not None
    wider = [offer for offered, offer in offers if offered.in_wider_cloth]
    for offered, offer in offers:
        is_better = brought or offer.adds.minor < 0 or _seams(offer.plans) < _seams(plans)
        if offered.in_wider_cloth and (not is_better or any(_betters(other, offer) for other in wider)):
            continue
        if offer.adds.minor:
            yield offer


def _betters(other: Offer, offer: Offer) -> bool:
    """Tell a cloth that costs less than another with no more seams."""
    return other.total < offer.total and _seams(other.plans) <= _seams(offer.plans)


def _seams(plans: Plans) -> int:
    return plans.backing.seams if plans.backing else 0


def differs_by_sample(quote: Quote, current: Quote) -> bool:
    """Decide if a sample figure makes a quote differ from the current one. A line that is only called otherwise, as
    cloth with one use more, does not."""
    known = {(line.quantity, line.amount, line.rates) for line in current.lines}
    others = (line for line in quote.lines if (line.quantity, line.amount, line.rates) not in known)
    lines = any(line.rests_on_sample for line in others)
    return lines or (quote.taxes != current.taxes and any(tax.rests_on_sample for tax in quote.taxes))


def offered_projects(project: Project, shop: Shop) -> Iterator[OfferedProject]:
    """Add to the project, one at a time, each thing that the shop offers and that it does not have. The shop does not
    sell cloth without a price."""
    backing, binding, offers = project.backing, project.binding, shop.offers
    if offers.backing and backing:
        yield from _our_backings(project, backing)
    if offers.by_hand and binding and binding.attach in ("front", "machine"):
        by_hand = project._replace(binding=binding.replace(attach="hand"))
        yield OfferedProject(say("The binding finished by hand"), by_hand)
    yield from _with_extras(project, shop)


def _with_extras(project: Project, shop: Shop) -> Iterator[OfferedProject]:
    """Add each extra that the shop offers for the use of the top."""
    names = {extra.name for extra in project.charges.extras}
    for offered in shop.offers.extras:
        if offered.name not in names and project.top.use in offered.uses:
            extra = shop.extras[offered.name]
            for_one_hour = extra.per == "hour" and not extra.minutes
            ordered = OrderedExtra.new(name=offered.name, quantity=Fraction(1) if for_one_hour else None)
            extras = (*project.charges.extras, ordered)
            label = say("{label}" + ", for 1 {unit}" * for_one_hour, label=extra.label, unit=extra.per)
            cut = tuple(cut_extras(extras, shop.extras, shop.extra_cloths))
            charges, cuts = project.charges.replace(extras=extras), project.extra_cuts._replace(ordered=cut)
            yield OfferedProject(label, project._replace(charges=charges, extra_cuts=cuts))


def _our_backings(project: Project, backing: Backing) -> Iterator[OfferedProject]:
    """Put the shop's own length of the same cloth in place of the customer's, and each of the shop's wider cloths in
    place of either."""
    customer_supplied = backing.supplied_by == "customer"
    ours = backing.replace(supplied_by="shop", have=None, sewn=None)
    if customer_supplied and backing.fabric.price.value:
        label = say("Our backing, {fabric}", fabric=backing.fabric.name)
        yield OfferedProject(label, project._replace(backing=ours))
    for wider in dict.fromkeys(named.wanted for named in project.sewing.cloth.wider):
        if wider and wider != Fabric.of(backing.fabric):
            text = "Our backing, {fabric}" if customer_supplied else "The backing in {fabric}"
            label = say(text, fabric=wider.name)
            binding = project.binding
            if binding and project.binding_is_of_backing:
                binding = binding.replace(fabric=wider)
            in_wider = project._replace(backing=ours.replace(fabric=wider), binding=binding)
            yield OfferedProject(label, in_wider, in_wider_cloth=True)
