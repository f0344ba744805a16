"""Postage: the price of the band in which the parcel falls, by the weight of the quilt and of its packing."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.measures.weight import Weight
from finishcalc.model.prices import PostageBand, Shop
from finishcalc.model.project import Project
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.wording.sentence import Heavy, say
from finishcalc.wording.words import in_words


def postage_lines(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    """Price the parcel where the project asks for it; nothing for one past the last band, or of unknown weight."""
    parcel = _parcel(shop, plans)
    band = _band(parcel, shop) if parcel else None
    if not project.charges.postage or not parcel or not band:
        return
    label = say("Postage, a parcel of {parcel}", parcel=Heavy(parcel))
    rates = (shop.postage, shop.packing)
    line = priced(label, "pass-through", Fraction(1), "each", band.price, project.currency, rates)
    working = say(
        "Parcel: {quilt} + {packing} of packing = {parcel}, in the band up to {up_to}",
        quilt=plans.weight.total or parcel,
        packing=shop.packing.value,
        parcel=parcel,
        up_to=Heavy(band.up_to),
    )
    yield line._replace(working=working, about="postage")


def postage_cautions(project: Project, shop: Shop, plans: Plans) -> Iterator[Caution]:
    """Say why postage that was asked for is not in the price."""
    if not project.charges.postage:
        return
    parcel = _parcel(shop, plans)
    if not parcel:
        text = "Postage is not in this price: no weight by area is given for {materials}."
        yield caution("postage-not-known", text, materials=in_words(list(plans.weight.not_known)))
    elif not _band(parcel, shop):
        last = shop.postage.value[-1].up_to
        text = "Postage is not in this price: a parcel of {parcel} is past the last band, {last}. Ask the carrier."
        yield caution("parcel-too-heavy", text, parcel=Heavy(parcel), last=Heavy(last))


def _parcel(shop: Shop, plans: Plans) -> Weight | None:
    return plans.weight.total + shop.packing.value if plans.weight.total else None


def _band(parcel: Weight, shop: Shop) -> PostageBand | None:
    """Find the first band that holds the parcel; None past the last."""
    return next((band for band in shop.postage.value if parcel <= band.up_to), None)
