"""What else a customer could order: the project with one wish more, to be priced and not added."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Money
from finishcalc.model.prices import Shop
from finishcalc.model.project import Backing, OrderedExtra, Project
from finishcalc.pricing.quote import Quote
from finishcalc.wording.said import Said, say


class Offer(NamedTuple):
    """One thing more, and what it would add to the total, tax and all, and whether it would then rest on a
    sample."""

    label: Said
    adds: Money
    rests_on_sample: bool


class Wish(NamedTuple):
    """The project with one thing more."""

    label: Said
    project: Project


def differs_by_sample(quote: Quote, now: Quote) -> bool:
    """Tell a quote that differs by a sample figure from the one as it is."""
    lines = any(line.rests_on_sample for line in quote.lines if line not in now.lines)
    return lines or (quote.taxes != now.taxes and any(tax.rests_on_sample for tax in quote.taxes))


def other_wishes(project: Project, shop: Shop) -> Iterator[Wish]:
    """The project with each thing that the shop offers and that it does not have. Cloth without a price is none of the
    shop's."""
    backing, binding, offers = project.backing, project.binding, shop.offers
    if offers.backing and backing:
        yield from _our_backings(project, backing)
    if offers.by_hand and binding and binding.attach in ("front", "machine"):
        by_hand = project._replace(binding=binding.replace(attach="hand"))
        yield Wish(say("The binding finished by hand"), by_hand)
    ordered = {wish.name for wish in project.charges.extras}
    for offered in offers.extras:
        if offered.name not in ordered and project.top.use in offered.uses:
            extras = (*project.charges.extras, OrderedExtra.new(name=offered.name, quantity=Fraction(1)))
            extra = shop.extras[offered.name]
            unit = "" if extra.per == "each" else ", for 1 {unit}"
            label = say("{label}" + unit, label=extra.label, unit=extra.per)
            yield Wish(label, project._replace(charges=project.charges.replace(extras=extras)))


def _our_backings(project: Project, backing: Backing) -> Iterator[Wish]:
    """In place of what the customer brings, the same cloth of the shop's; in place of either, its wider one."""
    brought = backing.supplied_by == "customer"
    ours = backing.replace(supplied_by="shop", have=None, sewn=None)
    if brought and backing.fabric.price.value:
        yield Wish(say("Our backing, {fabric}", fabric=backing.fabric.name), project._replace(backing=ours))
    cloth = project.sewing.cloth.wider.wanted
    if cloth and cloth != backing.fabric:
        text = "Our backing, {fabric}" if brought else "The backing in {fabric}"
        wider = project._replace(backing=ours.replace(fabric=cloth))
        yield Wish(say(text, fabric=cloth.name), wider)
