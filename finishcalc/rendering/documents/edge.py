"""The binding as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.strips import Rectangle, Square
from finishcalc.rendering.documents.writing import Record

Written = Callable[[Length], int | float]


def binding_record(plan: BindingPlan, length: Written) -> Record:
    """Write the binding and its strips: those `beside` the backing's pieces, and those of the `offcut` that it is cut
    from, by their lengths; `length` writes a length in the document's units."""
    strips = [length(long) for long in plan.offcuts]
    at_hand = plan.at_hand
    return {
        "needed_length": length(plan.needed_length),
        "strips": plan.strips,
        "beside": [] if at_hand else strips,
        "offcut": {"width": length(at_hand.width), "length": length(at_hand.length), "strips": strips}
        if at_hand
        else None,
        "strip_width": length(plan.strip_width),
        "yields": length(plan.yields),
        "square": _tube(plan.square, length) if plan.square else None,
        "rectangle": _tube(plan.rectangle, length) if plan.rectangle else None,
        "cut": plan.cut,
        "fold": plan.fold,
    }


def _tube(piece: Square | Rectangle, length: Written) -> Record:
    """Write the square or the rectangles that bias strips are cut round."""
    return {name: length(size) if isinstance(size, Length) else size for name, size in piece._asdict().items()}
