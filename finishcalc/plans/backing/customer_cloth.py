"""The customer's own cloth or sewn backing, held against what the quilt needs."""

from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length, Overage
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Backing, Sewn
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cloth import before_washing, usable_width_of
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import InUnit, Sentence, Spare, Value, say

WITHOUT_BACKING = "The price excludes the backing."


class ExtensionStrip(NamedTuple):
    """A strip that makes the customer's sewn backing large enough: cut `width` wide across the cloth from `pieces`
    pieces, it takes `cut_length` of cloth and so many seams of so much length."""

    width: Length
    pieces: int
    cut_length: Length
    seams: int
    seam_length: Length
    at_a_side: bool
    seam_allowance: Length

    def extend(self, sewn: Sewn) -> tuple[Length, Length]:
        """Give the width and length of the backing with the strip sewn on: the seam hides an allowance of each."""
        more = self.width - self.seam_allowance * 2
        return (sewn.width + more, sewn.length) if self.at_a_side else (sewn.width, sewn.length + more)


class SuppliedCloth(NamedTuple):
    """The verdict on what the customer supplies, with its sentence. `strip` must be added to a sewn backing."""

    verdict: Literal["enough", "short", "accepted", "strip", "refused"]
    sentence: Sentence
    strip: ExtensionStrip | None = None


def check_supplied_cloth(
    have: Length,
    spec: Backing,
    chosen: BackingOption,
    options: tuple[BackingOption, ...],
    binding_cut_length: Length,
) -> SuppliedCloth:
    """Say whether the cloth is enough for the chosen option; where it is short, name an option it is enough for.

    `binding_cut_length` is cut for the binding from the same cloth. The cloth is held against what is needed, not
    against what would be bought, because it is there already.
    """
    needed = needed_length(spec, chosen, binding_cut_length)
    left = have - needed
    if left >= ZERO:
        text = "The {have} supplied is enough" + (", binding and all" if binding_cut_length else "")
        return SuppliedCloth(
            "enough", say(text + ": {left} will be left.", have=InUnit(have, spec.fabric.per), left=Spare(left))
        )
    fitting = [option for option in options if needed_length(spec, option, binding_cut_length) <= have]
    return _short_cloth(have, needed, spec.fabric, fitting, with_binding=bool(binding_cut_length))


def _short_cloth(
    have: Length, needed: Length, fabric: Fabric, fitting: list[BackingOption], *, with_binding: bool
) -> SuppliedCloth:
    """Say how much is short, and name the fitting option with the fewest seams where there is one."""
    values: dict[str, Value] = {
        "have": InUnit(have, fabric.per),
        "short": needed - have,
        "whole": InUnit(up_to_step(needed, fabric.step), fabric.per),
    }
    text = "The {have} supplied is {short} short" + (" with the binding" if with_binding else "")
    text += ": {whole} in one length is needed"
    if not fitting:
        return SuppliedCloth("short", say(text + ", because no other layout fits.", **values))
    best = min(fitting, key=lambda option: (option.layout.seams, option.layout.turned, option.amount))
    turned = " and pieces cut across the grain" if best.layout.turned else ""
    seams = "{seams} seam" if best.layout.seams == 1 else "{seams} seams"
    text += f". Pieced with {seams}{turned}, it is enough."
    return SuppliedCloth("short", say(text, **values, seams=best.layout.seams))


def fewest_seams_from_supplied_cloth(
    have: Length,
    options: tuple[BackingOption, ...],
    spec: Backing,
    sewing: Sewing,
    binding_cut_length: Length,
) -> BackingOption | None:
    """Choose the option with the fewest seams that the customer's cloth is enough for, without turned pieces and within
    the shop's most seams; seams clear of the edge come first. None where the cloth is enough for no such option.

    Saving cloth gains nothing here, because the cloth is there already.
    """
    enough = [
        option
        for option in options
        if option.layout.seams <= sewing.cloth.most_seams
        and not option.layout.turned
        and needed_length(spec, option, binding_cut_length) <= have
    ]
    return min(
        enough,
        key=lambda option: (not option.clear, option.layout.seams, option.layout.seam_length),
        default=None,
    )


def needed_length(spec: Backing, option: BackingOption, binding_cut_length: Length = ZERO) -> Length:
    """Give the unwashed cloth that an option takes, not rounded to any step of a shop."""
    return before_washing(spec.fabric, option.layout.cut_length + binding_cut_length)


def check_supplied_backing(shape: Shape, sewn: Sewn, spec: Backing, sewing: Sewing) -> SuppliedCloth:
    """Accept a sewn backing from `least_overage` on every side; where it is short one way only, extend it by a strip;
    else refuse it with the reason."""
    across, down = (sewn.width - shape.width) / 2, (sewn.length - shape.length) / 2
    size = {"w": sewn.width, "l": sewn.length}
    if min(across, down) >= sewing.cloth.least_overage:
        text = "The backing supplied, {w} x {l}, has {across} to spare at each side and {down} at top and bottom: good."
        return SuppliedCloth("accepted", say(text, across=Spare(across), down=Spare(down), **size))
    wanted = shape.with_overage(_at_least(spec.overage, sewing.cloth.least_overage))
    if max(across, down) < sewing.cloth.least_overage:
        text = "The backing supplied, {w} x {l}, is too small both ways: {nw} x {nl} is needed, so make another. "
        return SuppliedCloth("refused", say(text + WITHOUT_BACKING, nw=wanted.width, nl=wanted.length, **size))
    at_a_side = across < down
    short = wanted.width - sewn.width if at_a_side else wanted.length - sewn.length
    strip = _extension(short, sewn, at_a_side, spec, sewing)
    if strip is None:
        text = (
            "The backing supplied, {w} x {l}, is {short} short, more than a strip of the cloth can add: make another. "
        )
        return SuppliedCloth("refused", say(text + WITHOUT_BACKING, short=short, **size))
    where = "a side" if at_a_side else "the top or bottom"
    text = "The backing supplied, {w} x {l}, is {short} short one way: add a strip cut {cut} wide at " + where + "."
    return SuppliedCloth("strip", say(text, short=short, cut=strip.width, **size), strip)


def _at_least(overage: Overage, least: Length) -> Overage:
    return Overage(max(overage.sides, least), max(overage.ends, least))


def _extension(short: Length, sewn: Sewn, at_a_side: bool, spec: Backing, sewing: Sewing) -> ExtensionStrip | None:
    """Cut a strip across the cloth, from as many pieces as it must have; None where the cloth is too narrow for it.

    The seam takes an allowance of the strip and one of the backing, and keeps clear of the trimmed edge.
    """
    usable_width, seam_allowance = usable_width_of(spec.fabric), spec.seam_allowance
    overage = _at_least(spec.overage, sewing.cloth.least_overage)
    seam_to_edge = (overage.sides if at_a_side else overage.ends) + sewing.cloth.clear_edge
    width = max(short + seam_allowance, seam_to_edge) + seam_allowance
    if width > usable_width:
        return None
    along = sewn.length if at_a_side else sewn.width
    pieces = max(1, up((along - seam_allowance * 2) / (usable_width - seam_allowance * 2)))
    return ExtensionStrip(
        width=width,
        pieces=pieces,
        cut_length=width * pieces,
        seams=pieces,
        seam_length=along + (width - seam_allowance) * (pieces - 1),
        at_a_side=at_a_side,
        seam_allowance=seam_allowance,
    )
