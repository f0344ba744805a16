"""What else a customer could order: the project with one wish more, to be priced and not added."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.money import Money
from finishcalc.model.project import BackingWishes, ExtraWish, Project
from finishcalc.model.shop import Shop
from finishcalc.pricing.quote import Quote
from finishcalc.wording.said import Said, say


class Offer(NamedTuple):
    """One thing more, and what it would add to the total, tax and all; `figures` are the key paths of the rates that
    it would then rest on."""

    label: Said
    adds: Money
    figures: frozenset[str]


class Wish(NamedTuple):
    """The project with one thing more. Where it takes another price for what is there, that stands at the key path
    `brings` in place of `instead`."""

    label: Said
    project: Project
    brings: str = ""
    instead: str = ""

    def rests_on(self, quote: Quote, now: Quote) -> frozenset[str]:
        """The key paths of the rates by which its quote differs from the one as it is."""
        lines = {path for line in quote.lines if line not in now.lines for path in line.figures}
        taxed = {"tax"} if quote.taxes != now.taxes else set()
        return frozenset(self.brings if path == self.instead else path for path in lines | taxed)


def other_wishes(project: Project, shop: Shop) -> Iterator[Wish]:
    """The project with each thing that the shop offers and that it does not have. Cloth without a price is none of the
    shop's."""
    backing, binding, offers = project.backing, project.binding, shop.offers
    if offers.backing and backing:
        yield from _our_backings(project, backing)
    if offers.by_hand and binding and binding.attach in ("front", "machine"):
        by_hand = project._replace(binding=binding._replace(attach="hand"))
        yield Wish(say("The binding finished by hand"), by_hand)
    ordered = {wish.name for wish in project.charges.extras}
    for offered in offers.extras:
        if offered.name not in ordered and project.top.use in offered.uses:
            extras = (*project.charges.extras, ExtraWish(offered.name, Fraction(1)))
            extra = shop.extras[offered.name]
            unit = "" if extra.per == "each" else ", for 1 {unit}"
            label = say("{label}" + unit, label=extra.label, unit=extra.per)
            yield Wish(label, project._replace(charges=project.charges._replace(extras=extras)))


def _our_backings(project: Project, backing: BackingWishes) -> Iterator[Wish]:
    """In place of what the customer brings, the same cloth of the shop's; in place of either, its wider one."""
    brought = backing.supplied_by == "customer"
    ours = backing._replace(supplied_by="shop", have=None, sewn=None)
    if brought and backing.fabric.price:
        yield Wish(say("Our backing, {fabric}", fabric=backing.fabric.name), project._replace(backing=ours))
    if backing.wider not in (None, backing.fabric):
        text = "Our backing, {fabric}" if brought else "The backing in {fabric}"
        wider = project._replace(backing=ours._replace(fabric=backing.wider))
        yield Wish(say(text, fabric=backing.wider.name), wider, "cloth.wider.price", "backing.fabric.price")
