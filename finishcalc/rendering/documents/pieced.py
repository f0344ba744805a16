"""A pieced top as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.plans.pieced.pieces import Round
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.rendering.documents.writing import Record

Written = Callable[[Length], int | float]


def pieced_record(plan: PiecedPlan, length: Written) -> Record:
    """The pieces of a top; `length` writes a length in the document's units."""
    pieces, blocks = plan.pieces, plan.top.blocks
    return {
        "centre": _size(*plan.centre, length),
        "blocks": {"count": blocks.number, "cut": length(pieces.block)} if blocks and pieces.block else None,
        "sashing": [{**_size(each.width, each.length, length), "count": each.number} for each in pieces.sashing],
        "cornerstones": [{"size": length(each.width), "count": each.number} for each in [pieces.cornerstones] if each],
        "triangles": [
            {
                "for": each.use,
                "square": length(each.square),
                "squares": each.squares,
                "cuts": each.cuts,
                "count": each.number,
            }
            for each in pieces.triangles
        ],
        "borders": [_round(each, length) for each in pieces.rounds],
    }


def _round(each: Round, length: Written) -> Record:
    return {
        "cut": length(each.border.cut),
        "corners": each.border.corners,
        "strips": [{"length": length(pair.length), "count": pair.number} for pair in each.strips],
        "corner_squares": each.corner_squares,
        **_size(*each.after, length),
    }


def _size(width: Length, long: Length, length: Written) -> Record:
    return {"width": length(width), "length": length(long)}
