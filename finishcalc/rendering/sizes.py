"""Sizes to cut: up to what a person can measure, where all still fits on the cloth so."""

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.notation import Notation
from finishcalc.plans.layout import Cut
from finishcalc.plans.options import Cloth


def fits_measured(cut: Cut, cloth: Cloth, usable: Length, notation: Notation) -> bool:
    """Whether the pieces beside a piece, and the rows on its length, still fit once each is rounded up."""
    beside = sum((notation.measurable(other.width) for other in cloth.cuts if other.y == cut.y), ZERO)
    rows = {other.y: notation.measurable(other.length) for other in cloth.cuts}
    gaps = sum((left.length for left in cloth.leftover if not left.x and left.y + left.length < cloth.length), ZERO)
    return beside <= usable and sum(rows.values(), gaps) <= cloth.length
