"""Binding from an offcut of its cloth that is at hand: on the bias round one rectangle, or in straight strips."""

from collections.abc import Iterator

from finishcalc.measures.bounds import ROOT_2_DOWN, ROOT_2_UP
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.project import Binding, Offcut
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.edge.strips import (
    BindingStrips,
    Rectangle,
    bias_rounds,
    lengthwise_strips,
    strip_width,
    strips_from_offcuts_first,
)
from finishcalc.plans.joined_strips import join_allowance
from finishcalc.wording.sentence import ROOT_2, Spare, Value


def bias_from_offcut(
    needed: Length, spec: Binding, offcut: Offcut, step: Length, shortest: Length
) -> BindingStrips | None:
    """Cut a bias binding round and round as little of the offcut as is long enough: a rectangle as high as its shorter
    side. None where the whole offcut is too small, or lower than `shortest`, because a low one is all joins."""
    width, seam_allowance = strip_width(spec), spec.seam_allowance
    height, longest = sorted((offcut.width, offcut.length))
    if height < shortest or bias_rounds(height, longest, width, seam_allowance)[1] < needed:
        return None
    rounds = up(needed / ((height - seam_allowance * 2) * ROOT_2_DOWN))
    least = up_to_step(width * (rounds * ROOT_2_UP) + seam_allowance * 2, step)
    taken = min(max(least, height), longest)
    rounds, yields = bias_rounds(height, taken, width, seam_allowance)
    return BindingStrips(
        number=0,
        length=yields,
        join_allowance=ZERO,
        yields=yields,
        cut_length=ZERO,
        rectangle=Rectangle(taken, height, rounds, 1),
    )


def straight_from_offcut(
    needed: Length, spec: Binding, offcut: Offcut, shortest: Length, either_grain: bool
) -> BindingStrips | None:
    """Take strips from the offcut, and the rest from new cloth, so that the least of that is cut, and of equal ways the
    one with fewest joins. The strips lie in the offcut as in new cloth, or in `either_grain`. None where the offcut
    saves no cloth."""
    ways = [_strips(needed, spec, (), shortest)]
    for length, most in _strips_of(spec, offcut, shortest, either_grain):
        ways += [_strips(needed, spec, (length,) * count, shortest) for count in range(1, most + 1)]
    best = min(ways, key=lambda way: (way.cut_length, way.number + len(way.offcuts)))
    return best if best.offcuts else None


def _strips_of(spec: Binding, offcut: Offcut, shortest: Length, either_grain: bool) -> Iterator[tuple[Length, int]]:
    """Give the length and the number of the strips that the offcut holds, across and along it."""
    sides = {"crosswise": (offcut.width, offcut.length), "lengthwise": (offcut.length, offcut.width)}
    join = join_allowance(spec.join, strip_width(spec), spec.seam_allowance)
    for grain, (length, beside) in sides.items():
        if (either_grain or grain == spec.cut) and length >= shortest and length > join:
            yield length, beside // strip_width(spec)


def _strips(needed: Length, spec: Binding, offcuts: tuple[Length, ...], shortest: Length) -> BindingStrips:
    width, usable_width = strip_width(spec), usable_width_of(spec.fabric)
    join = join_allowance(spec.join, width, spec.seam_allowance)
    first = strips_from_offcuts_first(needed, width, usable_width, join, offcuts)
    if spec.cut == "crosswise" or (offcuts and not first.number):
        return first
    joined = sum(first.offcuts, ZERO) - join * len(first.offcuts)
    rest = lengthwise_strips(needed - joined, width, usable_width, join, shortest)
    return rest._replace(yields=joined + rest.yields, offcuts=first.offcuts)


def not_used(needed: Length, spec: Binding, offcut: Offcut, shortest: Length, either_grain: bool) -> Caution:
    """Say by its arithmetic why a binding is not cut from the offcut."""
    text = "The offcut of {w} x {l} is not used for the binding: "
    values: dict[str, Value] = {"w": offcut.width, "l": offcut.length, "shortest": shortest, "wide": strip_width(spec)}
    height, longest = sorted((offcut.width, offcut.length))
    if spec.cut == "bias" and height < shortest:
        text += "a bias strip of pieces under {shortest} is all joins."
    elif spec.cut == "bias":
        rounds, yields = bias_rounds(height, longest, strip_width(spec), spec.seam_allowance)
        values |= {"rounds": rounds, "height": height, "seams": spec.seam_allowance * 2, "root": ROOT_2}
        values |= {"yields": Spare(yields), "needed": needed}
        text += "{rounds} rounds x ({height} - {seams}) x {root} = {yields} of the {needed} needed."
    elif strips := [each for each in _strips_of(spec, offcut, shortest, either_grain) if each[1]]:
        values["length"], values["count"] = max(strips, key=lambda each: each[0] * each[1])
        text += "{count} x {length} from it leave as many strips to be cut across the cloth as there are without."
    else:
        text += "no strip {wide} wide and {shortest} long fits on it."
    return caution("offcut-not-used", text, **values)
