"""Offers: things that a customer could still order, each as a project to be priced and not added."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Money
from finishcalc.model.materials import Fabric
from finishcalc.model.prices import Shop
from finishcalc.model.project import Backing, OrderedExtra, Project
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
    """The project as it would be with an offer taken."""

    label: Sentence
    project: Project


def differs_by_sample(quote: Quote, current: Quote) -> bool:
    """Decide if a sample figure makes a quote differ from the current one."""
    lines = any(line.rests_on_sample for line in quote.lines if line not in current.lines)
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
            yield OfferedProject(label, project._replace(charges=project.charges.replace(extras=extras)))


def _our_backings(project: Project, backing: Backing) -> Iterator[OfferedProject]:
    """Put the shop's own length of the same cloth in place of the customer's, and the shop's wider cloth in place of
    either."""
    customer_supplied = backing.supplied_by == "customer"
    ours = backing.replace(supplied_by="shop", have=None, sewn=None)
    if customer_supplied and backing.fabric.price.value:
        label = say("Our backing, {fabric}", fabric=backing.fabric.name)
        yield OfferedProject(label, project._replace(backing=ours))
    wider = project.sewing.cloth.wider.wanted
    if wider and wider != Fabric.of(backing.fabric):
        text = "Our backing, {fabric}" if customer_supplied else "The backing in {fabric}"
        label = say(text, fabric=wider.name)
        binding = project.binding
        if binding and project.binding_is_of_backing:
            binding = binding.replace(fabric=wider)
        yield OfferedProject(label, project._replace(backing=ours.replace(fabric=wider), binding=binding))
