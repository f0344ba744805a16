"""The edge of a quilt in words: its binding, facing or hem, and the cloth of it."""

from collections import Counter

from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.hem import HemPlan
from finishcalc.rendering.pages.layers import by_itself
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import counted

OTHERS = {"backing": "the backing", "top": "the top", "backing and top": "backing and top"}
"""The parts whose cloth a binding is cut beside."""
EDGES = {
    "front": "sewn to the front; the back is left to finish",
    "machine": "sewn on by machine",
    "hand": "sewn to the front by machine, the back by hand",
    "faced": "the edge is faced: sewn to the front, turned and sewn down on the back",
}
"""The finish of an edge that has a strip of cloth on it."""


def binding_words(plan: BindingPlan, bought: tuple[Purchase, ...], notation: Notation) -> list[str]:
    """Say its strips, how they are joined and attached, and its cloth among all that is `bought`."""
    attached = EDGES[plan.attach]
    folded = "" if plan.attach == "faced" else f", folded {plan.fold}"
    return [
        f"{notation.show(plan.needed_length)} needed; {attached}",
        strips_words(plan, notation) + folded,
        _binding_cloth(plan, bought, notation),
    ]


def _binding_cloth(plan: BindingPlan, bought: tuple[Purchase, ...], notation: Notation) -> str:
    name = notation.show(plan.fabric.name)
    if plan.cut_length:
        amount = notation.show(InUnit(plan.amount, plan.fabric.per))
        return f"needs {amount} of {name}{by_itself('binding', bought)}"
    if plan.at_hand:
        return f"needs no new cloth: the offcut of {name} is enough"
    return f"needs no more of {name} than {OTHERS[plan.beside]}"


def strips_words(plan: BindingPlan, notation: Notation) -> str:
    """Say how the strips are cut: across the cloth, along it, on the bias, or round and round a square or a
    rectangle, as wide as the cloth or out of an offcut."""
    wide = notation.show(plan.strip_width)
    if plan.square:
        side = notation.show(plan.square.side)
        return f"one bias strip {wide} wide, cut round a square of {side} in {counted(plan.square.rounds, 'round')}"
    if piece := plan.rectangle:
        size, each = notation.measured(piece.width, piece.height), f"each of {piece.pieces} rectangles"
        each = "a rectangle" if piece.pieces == 1 else each
        of_what = f" out of {_source(plan, notation)}" if plan.at_hand else ""
        return f"bias {wide} wide, cut in {counted(piece.rounds, 'round')} from {each} of {size}{of_what}"
    where = {"lengthwise": "along the cloth", "bias": "on the bias"}.get(plan.cut, "across the cloth")
    joined = "joined on the diagonal" if plan.join == "diagonal" or plan.cut == "bias" else "joined straight"
    if plan.offcuts:
        more = f", and {counted(plan.strips, 'strip')} {where}" if plan.strips else ""
        return f"{offcut_words(plan, notation)}{more}, {joined}"
    return f"{counted(plan.strips, 'strip')} {wide} wide {where}, {joined}"


def offcut_words(plan: BindingPlan, notation: Notation) -> str:
    """Say which strips are cut from beside other pieces, or from the offcut that is at hand."""
    groups, source = list(Counter(plan.offcuts).items()), _source(plan, notation)
    strips = f"{counted(len(plan.offcuts), 'strip')} {notation.show(plan.strip_width)} wide"
    if len(groups) == 1:
        return f"{strips} and {notation.show(groups[0][0])} long from {source}"
    lengths = " and ".join(f"{number} of {notation.show(long)}" for long, number in groups)
    return f"{strips} from {source}, {lengths}"


def beside_words(plan: BindingPlan) -> str:
    """Name the pieces that the strips of a binding are cut from beside."""
    return {
        "backing": "beside the backing's pieces",
        "top": "beside the top's pieces",
        "backing and top": "beside the pieces of backing and top",
    }[plan.beside]


def _source(plan: BindingPlan, notation: Notation) -> str:
    if not plan.at_hand:
        return beside_words(plan)
    return f"the offcut of {notation.size(plan.at_hand.width, plan.at_hand.length)}"


def hem_words(plan: HemPlan, notation: Notation) -> list[str]:
    """Say the turned edge and the size that is left."""
    left = notation.size(plan.width, plan.length)
    return [f"a hem of {notation.show(plan.allowance)} turned to the back on every side, which leaves {left}"]
