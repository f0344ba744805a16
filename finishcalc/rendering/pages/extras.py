"""Extras that are cut from cloth, in words."""

from finishcalc.plans.extras import ExtraPlan, ExtraPlans
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import capital, counted


def pieces_words(extra: ExtraPlan, notation: Notation) -> str:
    """Say what is cut: "1 piece 8 1/2 x 58 in of red cotton"."""
    if extra.width == extra.length:
        pieces = f"{counted(extra.number, 'square')} {notation.show(extra.width)}"
    else:
        pieces = f"{counted(extra.number, 'piece')} {notation.size(extra.width, extra.length)}"
    return f"{pieces} of {notation.show(extra.fabric.name)}"


def extras_words(extras: ExtraPlans, notation: Notation) -> list[str]:
    """Say what is cut for each extra."""
    return [f"{capital(extra.use)}: {pieces_words(extra, notation)}" for extra in extras.cut]
