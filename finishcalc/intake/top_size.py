"""How large the top is, whichever way the project says it."""

from finishcalc.intake.covers import covers
from finishcalc.intake.layers import Layers
from finishcalc.intake.pieced import pieced_top
from finishcalc.measures.length import Length

Sides = tuple[Length | None, Length | None]


def size_of(layers: Layers, units: str) -> Sides:
    """The width and length that are given, or that a pieced top or a cover comes to; None for what is not known."""
    told = pieced_top(layers, units) or covers(layers)
    return told.size if told else (layers.get("top", "width"), layers.get("top", "length"))
