"""What the customer brings: enough cloth or too little, or a backing that is sewn already."""

from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.project import Backing, Sewn
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cloth import before_washing, usable_width
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import InUnit, Said, Value, say


class Strip(NamedTuple):
    """A strip that makes a brought backing large enough, cut `width` wide across the cloth from `pieces` pieces:
    `cut_length` of cloth, and so many seams of so much length."""

    width: Length
    pieces: int
    cut_length: Length
    seams: int
    seam_length: Length
    at_a_side: bool
    seam_allowance: Length

    def adds_to(self, sewn: Sewn) -> tuple[Length, Length]:
        """The width and length of a brought backing once the strip is on."""
        more = self.width - self.seam_allowance * 2
        return (sewn.width + more, sewn.length) if self.at_a_side else (sewn.width, sewn.length + more)


WITHOUT_BACKING = "The price is without a backing."


class Brought(NamedTuple):
    """What is to be said of what the customer brings. `strip` is what must be added to a sewn backing."""

    verdict: Literal["enough", "short", "accepted", "strip", "refused"]
    said: Said
    strip: Strip | None = None


def cloth_brought(
    have: Length, wishes: Backing, chosen: BackingOption, options: tuple[BackingOption, ...], beside: Length
) -> Brought:
    """Whether the cloth is enough for the chosen way; where it is short, which way would fit.

    `beside` is what the binding takes of the same cloth, where the customer brings that too. Held against what is
    needed, not against what would be bought: the cloth is there already.
    """
    unit = wishes.fabric.per
    told = "The {have} brought are {short} short" + (" with the binding" if beside else "")
    told += ": {whole} in one length are needed"
    needed = needed_length(wishes, chosen, beside)
    left = have - needed
    if left >= ZERO:
        text = "The {have} brought are enough" + (", binding and all" if beside else "") + ": {left} will be left."
        return Brought("enough", say(text, have=InUnit(have, unit), left=left))
    whole = InUnit(up_to_step(needed, wishes.fabric.step), unit)
    values: dict[str, Value] = {"have": InUnit(have, unit), "short": ZERO - left, "whole": whole}
    fitting = [option for option in options if needed_length(wishes, option, beside) <= have]
    if not fitting:
        text = told + ", for no other way to piece the backing fits."
        return Brought("short", say(text, **values))
    best = min(fitting, key=lambda option: (option.layout.seams, option.layout.turned, option.amount))
    turned = " and turned pieces" if best.layout.turned else ""
    text = told + ", or have it pieced with {seams} seams" + turned + ", for which they would do."
    return Brought("short", say(text, **values, seams=best.layout.seams))


def from_what_is_brought(
    have: Length, options: tuple[BackingOption, ...], wishes: Backing, sewing: Sewing, beside: Length
) -> BackingOption | None:
    """The way with the fewest seams, no more than the shop likes to sew, for which the customer's cloth is enough in
    whole pieces; seams clear of the edge come first. None where it is enough for no such way: what would be bought
    does not matter, for the cloth is there."""
    enough = [
        option
        for option in options
        if option.layout.seams <= sewing.cloth.most_seams
        and not option.layout.turned
        and needed_length(wishes, option, beside) <= have
    ]
    return min(enough, key=lambda each: (not each.clear, each.layout.seams, each.layout.seam_length), default=None)


def needed_length(wishes: Backing, option: BackingOption, beside: Length = ZERO) -> Length:
    """What an option takes of the cloth as it is, before any step of a shop."""
    return before_washing(wishes.fabric, option.layout.cut_length + beside)


def sewn_brought(shape: Shape, sewn: Sewn, wishes: Backing, sewing: Sewing) -> Brought:
    """Whether a sewn backing is large enough: accepted from `least_overage` on every side; where it is short one
    way only, the strip to add; else refused, with the reason."""
    across, down = (sewn.width - shape.width) / 2, (sewn.length - shape.length) / 2
    size = {"w": sewn.width, "l": sewn.length}
    wanted = max(wishes.overage, sewing.cloth.least_overage) * 2
    if min(across, down) >= sewing.cloth.least_overage:
        text = "The backing brought, {w} x {l}, has {across} to spare at each side and {down} at top and bottom: good."
        return Brought("accepted", say(text, across=across, down=down, **size))
    if max(across, down) < sewing.cloth.least_overage:
        text = "The backing brought, {w} x {l}, is too small both ways: {nw} x {nl} is needed, so make another. "
        text += WITHOUT_BACKING
        return Brought("refused", say(text, nw=shape.width + wanted, nl=shape.length + wanted, **size))
    narrow = across < down
    short = shape.width + wanted - sewn.width if narrow else shape.length + wanted - sewn.length
    strip = _strip(short, sewn.length if narrow else sewn.width, narrow, wishes, sewing)
    if strip is None:
        text = (
            "The backing brought, {w} x {l}, is {short} short, more than a strip of the cloth can add: make another. "
        )
        return Brought("refused", say(text + WITHOUT_BACKING, short=short, **size))
    where = "a side" if narrow else "the top or bottom"
    text = "The backing brought, {w} x {l}, is {short} short one way: add a strip cut {cut} wide at " + where + "."
    return Brought("strip", say(text, short=short, cut=strip.width, **size), strip)


def _strip(short: Length, along: Length, narrow: bool, wishes: Backing, sewing: Sewing) -> Strip | None:
    """A strip across the cloth, pieced as long as it must be. Its seam takes an allowance of the strip and one of
    the backing that is brought, and keeps clear of the trimmed edge."""
    usable, seam = usable_width(wishes.fabric), wishes.seam_allowance
    edge = max(wishes.overage, sewing.cloth.least_overage) + sewing.cloth.clear_edge
    width = max(short + seam, edge) + seam
    if width > usable:
        return None
    pieces = max(1, up((along - seam * 2) / (usable - seam * 2)))
    return Strip(width, pieces, width * pieces, pieces, along + (width - seam) * (pieces - 1), narrow, seam)
