"""A pieced top as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.model.pieced import Blocks
from finishcalc.plans.pieced.pieces import Patches, Round
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.rendering.documents.writing import Record

Written = Callable[[Length], int | float]


def pieced_record(plan: PiecedPlan, length: Written) -> Record:
    """The pieces of a top; `length` writes a length in the document's units."""
    pieces, blocks = plan.pieces, plan.top.blocks
    return {
        "centre": _size(*plan.centre, length),
        "blocks": _blocks(plan, blocks, length) if blocks else None,
        "sashing": [
            {**_size(each.width, each.length, length), "count": each.number, "run": each.run} for each in pieces.sashing
        ],
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


def _blocks(plan: PiecedPlan, blocks: Blocks, length: Written) -> Record:
    return {
        "count": blocks.number,
        "cut": length(blocks.size + plan.top.seam * 2),
        "plain": blocks.plain_number,
        "cloth_listed": plan.patched.listed if plan.patched else "all",
        "patches": [_patches(patches, length) for patches in plan.pieces.patches],
    }


def _patches(patches: Patches, length: Written) -> Record:
    patch, fabric = patches.patch, patches.patch.fabric.wanted
    return {
        "fabric": fabric.name if fabric else None,
        **_size(*patch.size, length),
        "in_a_block": patch.number,
        "count": patches.number,
        "pieces": patches.pieces.number,
        "cuts": {None: 0, "once": 1, "twice": 2}[patch.triangles],
    }


def _round(each: Round, length: Written) -> Record:
    return {
        "cut": length(each.border.cut),
        "corners": each.border.corners,
        "strips": [{"length": length(pair.length), "count": pair.number, "run": pair.run} for pair in each.strips],
        "corner_squares": each.corner_squares,
        **_size(*each.after, length),
    }


def _size(width: Length, long: Length, length: Written) -> Record:
    return {"width": length(width), "length": length(long)}
