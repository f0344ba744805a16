"""A backing that the customer brings already sewn, held against what the quilt needs."""

from finishcalc.measures.length import Length, Overage
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.project import Backing, Sewn
from finishcalc.model.shop import Sewing
from finishcalc.plans.backing.supplied import ExtensionStrip, SuppliedCloth
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import Sentence, Value, say

WITHOUT_BACKING = "The price excludes the backing."


def check_supplied_backing(shape: Shape, sewn: Sewn, spec: Backing, sewing: Sewing, finest: Length) -> SuppliedCloth:
    """Accept a sewn backing from `least_overage` on every side; extend it by a strip each way that it is short, up to
    the overage that is wanted; refuse it where the cloth is too narrow for a strip."""
    least = sewing.cloth.least_overage
    across, down = (sewn.width - shape.width) / 2, (sewn.length - shape.length) / 2
    size: dict[str, Value] = {"w": sewn.width, "l": sewn.length}
    if min(across, down) >= least:
        text = "The backing supplied, {w} x {l}, has {across} to spare at each side and {down} at top and bottom: good."
        to_spare = {"across": _down_to_step(across, finest), "down": _down_to_step(down, finest)}
        return SuppliedCloth("accepted", say(text, **to_spare, **size))
    overage = Overage(max(spec.overage.sides, least), max(spec.overage.ends, least))
    wanted, extended = shape.with_overage(overage), (sewn.width, sewn.length)
    strips: list[ExtensionStrip] = []
    shorts: list[Length] = []
    working: list[Sentence] = []
    for at_a_side, is_short in ((True, across < least), (False, down < least)):
        if not is_short:
            continue
        short = wanted.width - sewn.width if at_a_side else wanted.length - sewn.length
        to_edge = overage.sides if at_a_side else overage.ends
        width = _strip_width(short, to_edge, spec, sewing, finest)
        if width > usable_width_of(spec.fabric):
            return _refused(short, finest, size)
        strip = _extension(width, extended, at_a_side, spec)
        extended = strip.extend(extended)
        strips.append(strip)
        shorts.append(short)
        working.append(_width_working(strip, short, to_edge, sewing))
    return SuppliedCloth("strip", _to_add(strips, shorts, finest, size), tuple(strips), tuple(working))


def _down_to_step(length: Length, step: Length) -> Length:
    return step * (length // step)


def _refused(short: Length, finest: Length, size: dict[str, Value]) -> SuppliedCloth:
    text = "The backing supplied, {w} x {l}, is {short} short, more than a strip of the cloth can add: make another. "
    return SuppliedCloth("refused", say(text + WITHOUT_BACKING, short=up_to_step(short, finest), **size))


def _to_add(strips: list[ExtensionStrip], shorts: list[Length], finest: Length, size: dict[str, Value]) -> Sentence:
    """Say how much is short and which strips to add."""
    missing = [up_to_step(short, finest) for short in shorts]
    if len(strips) == 1:
        where = "a side" if strips[0].at_a_side else "the top or bottom"
        text = "The backing supplied, {w} x {l}, is {short} short one way: add a strip cut {cut} wide at " + where + "."
        return say(text, short=missing[0], cut=strips[0].width, **size)
    text = (
        "The backing supplied, {w} x {l}, is {across} short in width and {down} in length: add a strip cut {side} wide "
        "at a side, then one cut {end} wide at the top or bottom."
    )
    return say(text, across=missing[0], down=missing[1], side=strips[0].width, end=strips[1].width, **size)


def _strip_width(short: Length, to_edge: Length, spec: Backing, sewing: Sewing, finest: Length) -> Length:
    """Give the width to cut. The seam takes an allowance of the strip and one of the backing, and keeps clear of the
    trimmed edge, which lies `to_edge` inside the strip's outer edge."""
    width = max(short + spec.seam_allowance, to_edge + sewing.cloth.clear_edge) + spec.seam_allowance
    return up_to_step(width, finest)


def _extension(width: Length, size: tuple[Length, Length], at_a_side: bool, spec: Backing) -> ExtensionStrip:
    """Cut a strip across the cloth, from as many pieces as reach along the backing of this size."""
    usable_width, seam_allowance = usable_width_of(spec.fabric), spec.seam_allowance
    along = size[1] if at_a_side else size[0]
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


def _width_working(strip: ExtensionStrip, short: Length, to_edge: Length, sewing: Sewing) -> Sentence:
    """Write out why a strip is as wide as it is."""
    clear, allowance = sewing.cloth.clear_edge, strip.seam_allowance
    where = "a side" if strip.at_a_side else "the top or bottom"
    values: dict[str, Value] = {"s": allowance, "width": strip.width}
    if short + allowance > to_edge + clear:
        text = "Strip at " + where + ": {short} short + 2 x {s} in the seam = {width} wide"
        return say(text, short=short, **values)
    text = (
        "Strip at " + where + ": {overage} overage + {clear} so that its seam keeps clear of the trimmed edge + {s} "
        "seam allowance = {width} wide; the {short} short and the seam alone would take {alone}"
    )
    alone = short + allowance * 2
    return say(text, overage=to_edge, clear=clear, short=short, alone=alone, **values)
