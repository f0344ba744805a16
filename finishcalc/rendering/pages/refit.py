"""How a pieced design comes to fit a size, in words."""

from finishcalc.comparing.sizes import Refit
from finishcalc.measures.length import Length, Size
from finishcalc.measures.rounding import FINEST
from finishcalc.plans.pieced.refit import Fit
from finishcalc.rendering.pages.cover import hang_words
from finishcalc.wording.notation import Notation


def fit_words(refit: Refit, finished: str, notation: Notation) -> str:
    """How a pieced design comes to a target: the way that was taken, how it hangs so, and the next best."""
    target = refit.target
    told = [
        f"{notation.size(*target)} asked",
        _fit(refit.taken, target, notation),
        hang_words(refit.hangs, notation) if refit.hangs else "",
        finished,
        f"next best {_fit(refit.next_best, target, notation)}" if refit.next_best else "",
    ]
    return "; ".join(filter(None, told))


def _fit(fit: Fit, target: Size, notation: Notation) -> str:
    way = {"from below": "rounded down to ", "from above": "rounded up to ", "between": ""}[fit.rounding]
    way = way if fit.off(target) or fit.wider else ""
    blocks = f"{fit.across} x {fit.down} block{'s' if fit.across * (fit.down or 0) > 1 else ''}" if fit.across else ""
    made = f"{way}{blocks}" if blocks else "the design as it is"
    wider = f" with the last border cut {notation.show(fit.wider)} wider" if fit.wider else ""
    return f"{made}{wider}: {notation.size(*fit.size)}, {_off(fit, target, notation)}"


def _off(fit: Fit, target: Size, notation: Notation) -> str:
    """How far each side is off by what a person can measure: "4 in less across"."""
    sides = ((fit.size.width - target.width, "across"), (fit.size.length - target.length, "down"))
    told = [
        f"{notation.show(Length(abs(over.mm)))} {'more' if over.mm > 0 else 'less'} {side}"
        for over, side in sides
        if abs(over.mm) >= FINEST[notation.units].mm
    ]
    return " and ".join(told) or "as asked"
