"""The extras of a shop that a project orders, with the pieces that are cut for them."""

from collections.abc import Iterable, Iterator, Mapping

from finishcalc.measures.rounding import up
from finishcalc.model.charges import OrderedExtra
from finishcalc.model.extra_cuts import QUILT_CLOTHS, CutExtra, QuiltCloth
from finishcalc.model.materials import Fabric
from finishcalc.model.prices import Extra


def cut_extras(
    ordered: Iterable[OrderedExtra], extras: Mapping[str, Extra], cloths: Mapping[str, Fabric]
) -> Iterator[CutExtra]:
    """Give each ordered extra that is cut from cloth, as many pieces as are sold by number. `cloths` has those of
    extras with a cloth of their own."""
    for order in ordered:
        extra = extras[order.name]
        if not extra.cut or order.fabric == "none":
            continue
        of_quilt = of_quilt_cloths(order, extra)
        own = None if of_quilt else cloths.get(order.name)
        number = up(order.quantity) if order.quantity is not None and extra.per == "each" else 1
        if number and (of_quilt or own):
            yield CutExtra(order.name, extra.label, number, extra.cut, of_quilt, own)


def of_quilt_cloths(order: OrderedExtra, extra: Extra) -> tuple[QuiltCloth, ...]:
    """Give the cloths of the quilt that an extra may be cut from, the first choice first: the one that the order names,
    or those of the shop's choice; none for an extra of a cloth of its own."""
    if order.fabric == "backing" or order.fabric == "binding":
        return (order.fabric,)
    preset = extra.cut.fabric.preset if extra.cut else None
    if preset not in QUILT_CLOTHS:
        return ()
    return QUILT_CLOTHS if preset == "backing" else ("binding", "backing")
