"""The blocks of a pieced top in words, their patches, the cloth that is not listed, and the direction of strips."""

from collections.abc import Sequence

from finishcalc.model.charges import Charges
from finishcalc.model.pieced import Blocks, PieceCloth
from finishcalc.plans.pieced.pieces import Patches, Pieces
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import counted


def block_sizes(blocks: Blocks, size: str) -> str:
    """Say the blocks to make, and the plain ones to cut."""
    pieced, plain = blocks.pieced_number, blocks.plain_number
    if not plain:
        return f"{counted(pieced, 'block')} cut or trimmed to {size}"
    kind = "setting block" if blocks.plain == "setting" else "plain block"
    cut = f"{counted(plain, kind)} cut {size}"
    return f"{counted(pieced, 'pieced block')} trimmed to {size}, and {cut}" if pieced else cut


def unlisted_words(plan: PiecedPlan, notation: Notation) -> list[str]:
    """Say which cloth of the pieced blocks is not on the list to buy; nothing where all of it is."""
    unlisted = plan.patched.unlisted if plan.patched else None
    return [notation.write(unlisted)] if unlisted else []


def unpriced_piecing(charges: Charges) -> list[str]:
    """Say that the piecing is not in the price, unless it is charged or a line of the project may be for it."""
    priced = charges.piecing or charges.lines.value
    return [] if priced else ["cutting and sewing the top is not in this price"]


def patches_words(plan: PiecedPlan, notation: Notation) -> list[str]:
    """Say the patches of all pieced blocks, and the squares that triangles come from."""
    return [_patches(patches, notation) for patches in plan.pieces.patches]


def _patches(patches: Patches, notation: Notation) -> str:
    patch, pieces = patches.patch, patches.pieces
    fabric = patch.fabric.wanted
    of = f", of {notation.show(fabric.name)}" if fabric else ""
    if not patch.triangles:
        kind = "patch" if patches.number == 1 else "patches"
        return f"{patches.number} {kind} of {notation.size(*patch.size)}, {patch.number} in a block{of}"
    squares = f"{counted(pieces.number, 'square')} of {notation.show(patch.width)}"
    each = f"{counted(patches.number, 'triangle')}, {patch.number} in a block"
    return f"{each}, from {squares}, cut {patch.triangles} corner to corner{of}"


def direction_words(plan: PiecedPlan) -> list[str]:
    """Say which way strips of a cloth with a direction run on it."""
    pieces, sashing = plan.pieces, plan.top.sashing
    lines = [_directed("sashing", pieces.sashing, sashing.cloth)] if sashing else []
    for number, each in enumerate(pieces.rounds, start=1):
        lines.append(_directed(f"border {number}", each.strips, each.border.cloth))
    return [line for line in lines if line]


def _directed(name: str, strips: Sequence[Pieces], cloth: PieceCloth) -> str:
    runs = {each.run for each in strips} - {"any"}
    if not runs or not cloth.fabric:
        return ""
    if runs == {"along"}:
        return f"{name}: the {'pile' if cloth.fabric.nap else 'print'} runs along the strips, all cut along the cloth"
    direction = "the pile runs down" if cloth.fabric.nap else "the print stands upright"
    return f"{name}: {direction}; upright strips are cut along the cloth, level ones across it"
