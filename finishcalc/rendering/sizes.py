"""Sizes to cut: up to what a person can measure, where all still fits on the cloth so."""

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.backing.layout import CutPiece
from finishcalc.plans.backing.options import BoughtLength
from finishcalc.wording.notation import Notation


def size_to_cut(cut: CutPiece, bought: BoughtLength, usable: Length, notation: Notation) -> tuple[Length, Length]:
    """A piece's width and length, each rounded up where the pieces beside it, or the rows along the cloth, still fit
    once all are."""
    beside = sum((notation.measurable(other.width) for other in bought.cuts if other.y == cut.y), ZERO)
    rows = {other.y: notation.measurable(other.length) for other in bought.cuts}
    gaps = sum((left.length for left in bought.leftover if not left.x and left.y + left.length < bought.length), ZERO)
    width = notation.measurable(cut.width) if beside <= usable else cut.width
    length = notation.measurable(cut.length) if sum(rows.values(), gaps) <= bought.length else cut.length
    return width, length
