"""The record of what a top covers, in the whole document."""

from collections.abc import Callable
from typing import Any

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.cover import Bed, Cover
from finishcalc.rendering.documents.writing import exact_decimal

Write = Callable[[Length], int | float]


def cover_record(covers: Cover, square: bool, length: Write) -> dict[str, Any]:
    """The bed or the table, what hangs over it, and the size it must have once quilted; null for what is not known."""
    what = covers.what
    size = {"name": what.name, "width": length(what.width), "length": length(what.length)}
    if isinstance(what, Bed):
        bed, table = size | {"depth": length(what.depth) if what.depth else None}, None
    else:
        height = length(what.height) if what.height else None
        bed, table = None, {"shape": what.shape, **size, "height": height}
    return {
        "bed": bed,
        "table": table,
        "drop": length(covers.drop),
        "foot_drop": length(covers.foot_drop) if bed else None,
        "pillow_tuck": length(covers.pillow_tuck) if bed else None,
        "draw_up": exact_decimal(covers.draw_up * 100),
        "quilted": {"width": length(covers.quilted.width), "length": length(covers.quilted.length)},
        "corner_hang": length(covers.corner_hang(ZERO)) if covers.shape == "rectangle" and square else None,
    }
