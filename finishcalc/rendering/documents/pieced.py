"""A pieced top as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.model.pieced import Blocks
from finishcalc.plans.pieced.pieces import Patches, Round
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.pieced.strips import StripGroup, StripPiece
from finishcalc.rendering.documents.writing import Record

Written = Callable[[Length], int | float]


def pieced_record(plan: PiecedPlan, length: Written) -> Record:
    """The pieces of a top and how its cloths are cut; `length` writes a length in the document's units."""
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
        "cloth": [
            {
                "fabric": each.fabric.name,
                "for": list(each.uses),
                "along": [
                    {
                        "length": length(along.length),
                        "pieces": [{"for": use, **_size(wide, long, length)} for use, wide, long in along.pieces],
                        "beside": [
                            {"way": beside.grain, "length": length(beside.length), **_strips(beside.cut, length)}
                            for beside in along.offcut_strips
                        ],
                    }
                    for along in each.lengthwise
                ],
                "across": [_strips(across, length) for across in each.crosswise],
                "joins": each.joins,
                "cut_length": length(each.cut_length),
            }
            for each in plan.cloths
        ],
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


def _strips(cut: StripGroup, length: Written) -> Record:
    return {"width": length(cut.width), "strips": [[_bit(bit, length) for bit in strip] for strip in cut.strips]}


def _bit(bit: StripPiece, length: Written) -> Record:
    return {"for": bit.use, "length": length(bit.length), "of": length(bit.piece_length)}


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
