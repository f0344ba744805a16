"""What the customer brings: enough cloth or too little, or a backing that is sewn already."""

from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up
from finishcalc.measures.said import InUnit, Said, say
from finishcalc.plans.cloth import usable_width
from finishcalc.plans.options import BackingOption
from finishcalc.plans.shape import Shape
from finishcalc.project import BackingWishes, Sewing, Sewn


class Strip(NamedTuple):
    """A strip that makes a brought backing large enough, cut `width` wide across the cloth from `pieces` pieces:
    `cut_length` of cloth, and so many seams of so much length."""

    width: Length
    pieces: int
    cut_length: Length
    seams: int
    seam_length: Length


class Brought(NamedTuple):
    """What is to be said of what the customer brings. `strip` is what must be added to a sewn backing."""

    verdict: Literal["enough", "short", "accepted", "strip", "refused"]
    said: Said
    strip: Strip | None = None


def cloth_brought(
    have: Length, wishes: BackingWishes, chosen: BackingOption, options: tuple[BackingOption, ...]
) -> Brought:
    """Whether the cloth is enough for the chosen way; where it is short, which way would fit.

    Held against what is needed, not against what would be bought: the cloth is there already.
    """
    unit = wishes.fabric.per
    left = have - needed_length(wishes, chosen)
    if left >= ZERO:
        said = say("The {have} brought are enough: {left} will be left.", have=InUnit(have, unit), left=left)
        return Brought("enough", said)
    short = ZERO - left
    fitting = [option for option in options if needed_length(wishes, option) <= have]
    if not fitting:
        text = "The {have} brought are {short} short, and no other way to piece it fits."
        return Brought("short", say(text, have=InUnit(have, unit), short=short))
    best = min(fitting, key=lambda option: (option.layout.seams, option.layout.turned, option.amount))
    turned = " and turned pieces" if best.layout.turned else ""
    text = "The {have} brought are {short} short; pieced with {seams} seams" + turned + " they would do."
    return Brought("short", say(text, have=InUnit(have, unit), short=short, seams=best.layout.seams))


def needed_length(wishes: BackingWishes, option: BackingOption) -> Length:
    """What an option takes of the cloth as it is, before any step of a shop."""
    return option.layout.cut_length / (1 - wishes.fabric.shrink_along) + wishes.fabric.straighten


def sewn_brought(shape: Shape, sewn: Sewn, wishes: BackingWishes, sewing: Sewing) -> Brought:
    """Whether a sewn backing is large enough: accepted from `least_overage` on every side; where it is short one
    way only, the strip to add; else refused, with the reason."""
    across, down = (sewn.width - shape.width) / 2, (sewn.length - shape.length) / 2
    size = {"w": sewn.width, "l": sewn.length}
    if min(across, down) >= sewing.least_overage:
        text = "The backing brought, {w} x {l}, has {across} to spare at each side and {down} at top and bottom: good."
        return Brought("accepted", say(text, across=across, down=down, **size))
    if max(across, down) < sewing.least_overage:
        text = "The backing brought, {w} x {l}, is too small both ways: {nw} x {nl} is needed, so make another."
        return Brought("refused", say(text, nw=_wanted(shape.width, wishes), nl=_wanted(shape.length, wishes), **size))
    if across < down:
        strip = _strip(_wanted(shape.width, wishes) - sewn.width, sewn.length, wishes, sewing)
        where = "a side"
    else:
        strip = _strip(_wanted(shape.length, wishes) - sewn.length, sewn.width, wishes, sewing)
        where = "the top or bottom"
    short = _wanted(shape.width, wishes) - sewn.width if across < down else _wanted(shape.length, wishes) - sewn.length
    if strip is None:
        text = "The backing brought, {w} x {l}, is {short} short, more than a strip of the cloth can add: make another."
        return Brought("refused", say(text, short=short, **size))
    text = "The backing brought, {w} x {l}, is {short} short one way: add a strip cut {cut} wide at " + where + "."
    return Brought("strip", say(text, short=short, cut=strip.width, **size), strip)


def _wanted(side: Length, wishes: BackingWishes) -> Length:
    return side + wishes.overage * 2


def _strip(short: Length, along: Length, wishes: BackingWishes, sewing: Sewing) -> Strip | None:
    """A strip across the cloth, pieced as long as it must be; its seam keeps clear of the trimmed edge."""
    usable, seam = usable_width(wishes.fabric), wishes.seam_allowance
    width = max(short, wishes.overage + sewing.clear_edge) + seam
    if width > usable:
        return None
    pieces = max(1, up((along - seam * 2) / (usable - seam * 2)))
    return Strip(width, pieces, width * pieces, pieces, along + (width - seam) * (pieces - 1))
