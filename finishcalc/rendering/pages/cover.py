"""A cover in words: the bed or table under it, and how far it hangs."""

from finishcalc.measures.length import ZERO, Size
from finishcalc.measures.rounding import FINEST, nearest_step
from finishcalc.model.cover import Bed, Cover, Table
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Share


def cover_words(covers: Cover, square: bool, notation: Notation) -> list[str]:
    """Say how the top hangs on a bed or a table; `square` is True where its corners are."""
    hangs = hang_words(covers, notation)
    if covers.shape == "rectangle" and square and (covers.drop or covers.foot_drop):
        hangs += f"; a square corner hangs {notation.show(covers.corner_hang(ZERO))}"
    sentences = [f"covers: {covered_words(covers.what, notation)}; {hangs}"]
    if covers.draw_up:
        sentences.append(f"made larger because quilting draws it up by {notation.show(Share(covers.draw_up))}")
    return sentences


def hang_words(covers: Cover, notation: Notation) -> str:
    """Say how far it hangs over each side, to the nearest step that a tape shows."""
    side, foot = (notation.show(nearest_step(drop, FINEST[notation.units])) for drop in (covers.drop, covers.foot_drop))
    if isinstance(covers.what, Bed):
        foot_too = " and the foot" if side == foot else f", {foot} at the foot"
        hangs = f"hangs {side} at the sides{foot_too}" if covers.drop or covers.foot_drop else "has no drop"
        return hangs + (f", with {notation.show(covers.pillow_tuck)} for the pillows" if covers.pillow_tuck else "")
    return f"hangs {side} all round" if side == foot else f"hangs {side} at the sides, {foot} at the ends"


def finished_hang(covers: Cover | None, plan: QuiltingPlan, size: Size, notation: Notation) -> str:
    """Say how far it hangs once quilting has drawn it up, where the top was not made larger for that;
    nothing where it has no drop."""
    if not covers or covers.draw_up or not plan.draw_up or not (covers.drop or covers.foot_drop):
        return ""
    hangs = covers.drawn_up(plan.draw_up, size)
    side, foot = (notation.show(notation.nearest(drop)) for drop in (hangs.drop, hangs.foot_drop))
    if side == foot:
        return f"once finished about {side}"
    return f"once finished about {side} at the sides and {foot} at the {_end(covers)}"


def _end(covers: Cover) -> str:
    return "foot" if isinstance(covers.what, Bed) else "ends"


def target_words(covers: Cover, finished: str, notation: Notation) -> str:
    """Say in one line how a size hangs on its bed or table, and the share that quilting draws up."""
    drawn = f", drawn up {notation.show(Share(covers.draw_up))} by quilting" if covers.draw_up else ""
    return "; ".join(filter(None, (hang_words(covers, notation) + drawn, finished)))


def covered_words(what: Bed | Table, notation: Notation) -> str:
    """Name a bed or a table, with its size."""
    across = isinstance(what, Table) and what.shape == "round"
    size = f"{notation.show(what.width)} across" if across else notation.size(what.width, what.length)
    kind = "bed" if isinstance(what, Bed) else f"{what.shape} table" if what.shape != "rectangle" else "table"
    return f"{notation.show(what.name or kind)}, {size}"
