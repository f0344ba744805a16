"""What a top covers, and how a pieced design comes to fit, in words."""

from finishcalc.covers import Bed, Covers, TableTop
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.notation import Notation
from finishcalc.measures.said import Share
from finishcalc.pieced_top import Size
from finishcalc.plans.refit import Fit


def cover_words(covers: Covers, square: bool, notation: Notation) -> list[str]:
    """What the top covers and how it hangs. `square` says whether its corners are."""
    hangs = hang_words(covers, notation)
    if covers.shape == "rectangle" and square:
        hangs += f"; a square corner hangs {notation.show(covers.corner_hang(ZERO))}"
    found = [f"covers: {_covered(covers.what, notation)}; {hangs}"]
    if covers.draw_up:
        found.append(f"made larger, for quilting draws it up by {notation.show(Share(covers.draw_up))}")
    return found


def hang_words(covers: Covers, notation: Notation) -> str:
    """How far it hangs over each side."""
    show = notation.show
    if isinstance(covers.what, Bed):
        hangs = f"hangs {show(covers.drop)} at the sides, {show(covers.foot_drop)} at the foot"
        return hangs + (f", with {show(covers.pillow_tuck)} for the pillows" if covers.pillow_tuck else "")
    if covers.drop != covers.foot_drop:
        return f"hangs {show(covers.drop)} at the sides, {show(covers.foot_drop)} at the ends"
    return f"hangs {show(covers.drop)} all round"


def target_words(covers: Covers, notation: Notation) -> str:
    """What a size covers, in one line: how it hangs, and what quilting takes."""
    drawn = f", drawn up {notation.show(Share(covers.draw_up))} by quilting" if covers.draw_up else ""
    return f"{_covered(covers.what, notation)}, {hang_words(covers, notation)}{drawn}"


def _covered(what: Bed | TableTop, notation: Notation) -> str:
    across = isinstance(what, TableTop) and what.shape == "round"
    size = f"{notation.show(what.width)} across" if across else notation.size(what.width, what.length)
    kind = "bed" if isinstance(what, Bed) else f"{what.shape} table" if what.shape != "rectangle" else "table"
    return f"{notation.show(what.name or kind)}, {size}"


def fit_words(taken: Fit, next_best: Fit | None, target: Size, hangs: Covers | None, notation: Notation) -> str:
    """How a pieced design comes to a target: the way that was taken, how it hangs so, and the next best."""
    hanging = f"; {hang_words(hangs, notation)}" if hangs else ""
    other = f"; next best {_fit(next_best, target, notation)}" if next_best else ""
    return f"{notation.size(*target)} asked; {_fit(taken, target, notation)}{hanging}{other}"


def _fit(fit: Fit, target: Size, notation: Notation) -> str:
    way = {"from below": ", smaller", "from above": ", larger", "between": ""}[fit.way]
    blocks = f"{fit.across} x {fit.down} block{'s' if fit.across * (fit.down or 0) > 1 else ''}" if fit.across else ""
    blocks = blocks or "the design as it is"
    comma = "," if way else ""
    wider = f"{comma} with the last border cut {notation.show(fit.wider)} wider" if fit.wider else ""
    return f"{blocks}{way}{wider}: {notation.size(*fit.size)}, {_off(fit, target, notation)}"


def _off(fit: Fit, target: Size, notation: Notation) -> str:
    """How far each side is off: "4 in less across"."""
    sides = ((fit.size.width - target.width, "across"), (fit.size.length - target.length, "down"))
    told = [
        f"{notation.show(Length(abs(over.mm)))} {'more' if over.mm > 0 else 'less'} {side}"
        for over, side in sides
        if over
    ]
    return " and ".join(told) or "as asked"
