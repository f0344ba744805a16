"""How large the top is, whichever way the project says it."""

from finishcalc.intake.building.cover import covers
from finishcalc.intake.building.pieced import pieced_top
from finishcalc.intake.layers import Layers
from finishcalc.intake.positions import Path
from finishcalc.measures.length import Length

GIVEN = ("width", "length", "diameter", "measured")
"""The keys of the top that give its size outright."""
PARTS = ("covers", "blocks", "sashing", "borders", "centre", "piecing")
"""The keys of the top from which its size follows."""
SIZES: tuple[Path, ...] = tuple(("top", key) for key in (*GIVEN, "shape", *PARTS))
"""Everything by which a project says how large its top is, and in what shape."""

Sides = tuple[Length | None, Length | None]


def size_of(layers: Layers, units: str) -> Sides:
    """The width and length that are given, or that a pieced top or a cover comes to; None for what is not known."""
    told = layers.once(pieced_top, units) or layers.once(covers)
    return told.size if told else (layers.get("top", "width"), layers.get("top", "length"))
