"""What a top covers, in words."""

from finishcalc.covers import Bed, Covers, TableTop
from finishcalc.measures.notation import Notation
from finishcalc.measures.said import Share


def cover_words(covers: Covers, notation: Notation) -> list[str]:
    """What the top covers and how it hangs."""
    show, what = notation.show, covers.what
    if isinstance(what, Bed):
        hangs = f"hangs {show(covers.drop)} at the sides, {show(covers.foot_drop)} at the foot"
        hangs += f", with {show(covers.pillow_tuck)} for the pillows" if covers.pillow_tuck else ""
    else:
        hangs = f"hangs {show(covers.drop)} all round"
    if covers.shape == "rectangle":
        hangs += f"; a square corner hangs {show(covers.corner_hang)}"
    found = [f"covers: {_covered(what, notation)}; {hangs}"]
    if covers.draw_up:
        size = notation.size(*covers.quilted)
        found.append(f"quilting draws it up by {show(Share(covers.draw_up))}: {size} once quilted")
    return found


def _covered(what: Bed | TableTop, notation: Notation) -> str:
    across = isinstance(what, TableTop) and what.shape == "round"
    size = f"{notation.show(what.width)} across" if across else notation.size(what.width, what.length)
    kind = "bed" if isinstance(what, Bed) else f"{what.shape} table" if what.shape != "rectangle" else "table"
    return f"{notation.show(what.name or kind)}, {size}"
