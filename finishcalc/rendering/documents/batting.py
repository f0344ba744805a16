"""The records of the batting."""

from finishcalc.plans.batting.brought import BroughtBatting
from finishcalc.plans.batting.joining import Joined
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.rendering.documents.writing import Record, UnitWriter, number


def batting_option_record(option: BattingOption, plan: BattingPlan, write: UnitWriter) -> Record:
    """Write packages, or a length off a roll: what is cut off and what is charged of it, and whose the offcut is."""
    keeps = option.studio_keeps_offcut and plan.supplied_by == "shop"
    offcut = {**write.size(*option.offcut), "whose": "studio" if keeps else "customer"} if option.offcut else None
    return {
        "product": plan.product.name,
        "form": option.form,
        "size": option.size,
        **write.size(option.width, option.length),
        "number": option.number,
        "charged": {"by": option.charge, "quantity": number(option.quantity), "unit": option.unit},
        "offcut": offcut,
        "seams": option.joined.seams if option.joined else 0,
    }


def brought_batting_record(brought: BroughtBatting, write: UnitWriter) -> Record:
    """Write the pieces that the customer brings, with the verdict on them."""
    return {
        "verdict": brought.verdict,
        "text": write.sentence(brought.sentence),
        "pieces": [write.size(*piece) for piece in brought.pieces],
        "least": write.size(*brought.least),
        "short": write.size(*brought.short) if brought.short else None,
        "bring": write.size(*brought.bring) if brought.bring else None,
    }


def joined_record(joined: Joined, write: UnitWriter) -> Record:
    """Write the pieces of a joined batting as they lie, each from the piece of that number."""
    return {
        "seams": joined.seams,
        "seam_length": write.length(joined.seam_length),
        "pieces": [{"from": piece.source + 1, **write.rectangle(piece)} for piece in joined.pieces],
    }
