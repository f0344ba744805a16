"""Cloth: its usable width, and the length to buy.

Plans are made in washed cloth. The length to buy covers that cloth before it shrinks, with the end squared:
bought >= cut / (1 - shrink_along) + straighten.
"""

from collections.abc import Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.materials import Fabric
from finishcalc.wording.sentence import InUnit, Sentence, Share, Value, say
from finishcalc.wording.words import in_words

USE_WORDS = {"strip": "the backing strip", "triangles": "the triangles"}
"""The uses of cloth that need more than their name in a sentence."""
CORNERSTONES = "cornerstones"
"""The use of the squares where strips of sashing meet, and the end of the use of a border's: "border 4's ..."."""
LAYERS = ("backing", "strip", "binding")
"""The uses of cloth in the layers and at the edge."""
TOP_USES = ("blocks", "plain blocks", "setting blocks", "triangles", "sashing", CORNERSTONES)
"""The uses of cloth in a top, beside those of its borders."""


class CutLength(NamedTuple):
    """A length of washed cloth that cannot be cut apart. At the start of another bolt it takes `length_on_new_bolt`: a
    print that must meet may begin anywhere there, and up to a whole repeat is lost finding its place."""

    length: Length
    length_on_new_bolt: Length


def unmatched_cut_lengths(*lengths: Length) -> tuple[CutLength, ...]:
    """Make cut lengths without a print that must meet: they take no more at the start of a bolt than elsewhere."""
    return tuple(CutLength(length, length) for length in lengths)


def usable_width_of(fabric: Fabric) -> Length:
    """Give the width between the selvages, after the first wash."""
    unwashed = fabric.width - fabric.selvage * 2
    return unwashed * (1 - fabric.shrink_across) if fabric.shrink_across else unwashed


def before_washing(fabric: Fabric, cut_length: Length) -> Length:
    """Give the unwashed length that a length of washed cloth takes, with its end squared."""
    unwashed = cut_length / (1 - fabric.shrink_along) if fabric.shrink_along else cut_length
    return unwashed + fabric.straighten


def length_to_buy(fabric: Fabric, cut_length: Length) -> Length:
    """Give the length to buy for a length of washed cloth, up to the step in which it is sold."""
    return up_to_step(before_washing(fabric, cut_length), fabric.step)


def fill_lengths(fabric: Fabric, cut_lengths: Sequence[CutLength]) -> list[list[int]]:
    """Share cut lengths out, by number, among lengths to buy: all from one, or where a bolt is shorter than that from
    several, filled in turn (next fit), because their order on the cloth is the order of the cut list. A cut length
    longer than a bolt stays whole."""
    lengths: list[list[int]] = [[]]
    taken = ZERO
    for number, cut in enumerate(cut_lengths):
        joined = taken + cut.length
        if fabric.bolt and lengths[-1] and length_to_buy(fabric, joined) > fabric.bolt:
            lengths.append([])
            joined = cut.length_on_new_bolt
        lengths[-1].append(number)
        taken = joined
    return lengths


def lengths_to_buy(fabric: Fabric, cut_lengths: Sequence[CutLength]) -> tuple[Length, ...]:
    """Give each length to buy for cut lengths of washed cloth."""
    return tuple(
        length_to_buy(fabric, sum_of_cuts(cut_lengths, numbers, later=bolt > 0))
        for bolt, numbers in enumerate(fill_lengths(fabric, cut_lengths))
    )


def sum_of_cuts(cut_lengths: Sequence[CutLength], numbers: Sequence[int], later: bool) -> Length:
    """Add up some cut lengths; on a later bolt the first takes its `length_on_new_bolt`."""
    first, *others = (cut_lengths[number] for number in numbers)
    return sum((cut.length for cut in others), first.length_on_new_bolt if later else first.length)


def washed_length(fabric: Fabric, bought: Length) -> Length:
    """Give the length that is left of a bought length once its end is squared and it is washed."""
    return max((bought - fabric.straighten) * (1 - fabric.shrink_along), ZERO)


def cost_of(fabric: Fabric, bought: Length, currency: Currency) -> Money:
    """Give the cost of a bought length, half up to the minor unit."""
    return currency.round(bought.to(fabric.per) * fabric.price.value)


def is_of_top(use: str) -> bool:
    """Tell a use of cloth in the top."""
    return use in TOP_USES or use.startswith("border ")


def use_of_extra(name: str) -> str:
    """Name the cloth of an extra as a use: by the extra's name, as far as that is words, and never as a part of the
    quilt."""
    words = " ".join("".join(char if char.isalnum() else " " for char in name).split()) or "extra"
    return f"extra {words}" if words in LAYERS or is_of_top(words) else words


def uses_words(uses: Sequence[str]) -> str:
    """Name the uses of a cloth: "backing, sashing and borders 1 and 3"."""
    borders = [use.removeprefix("border ") for use in uses if use.startswith("border ") and CORNERSTONES not in use]
    together = f"border{'s' if len(borders) > 1 else ''} {in_words(borders)}" if borders else ""
    stones = _cornerstones(uses)
    words = [
        stones if CORNERSTONES in use else together if use.startswith("border ") else USE_WORDS.get(use, use)
        for use in uses
    ]
    return in_words([word for word in dict.fromkeys(words) if word])


def _cornerstones(uses: Sequence[str]) -> str:
    """Name all cornerstones together; those of a border that is of the same cloth go without saying."""
    owners = [use.removesuffix(CORNERSTONES).rstrip() for use in uses if use.endswith(CORNERSTONES)]
    owners = [owner for owner in owners if owner.removesuffix("'s") not in uses]
    if len(owners) > 1:
        owners = [owner or "the sashing's" for owner in owners]
    return f"{in_words(owners)} {CORNERSTONES}".strip() if owners else ""


def buying_lengths(fabric: Fabric, cut_length: Length, lengths: tuple[Length, ...]) -> tuple[Sentence, ...]:
    """Write out the arithmetic for one length; for several, the length from each bolt."""
    if len(lengths) == 1:
        return (buying(fabric, cut_length, lengths[0]),)
    text = "Buy: {cut} from bolts of {bolt}: " + " + ".join(f"{{length{n}}}" for n in range(len(lengths)))
    values: dict[str, Value] = {f"length{n}": InUnit(length, fabric.per) for n, length in enumerate(lengths)}
    return (say(text, cut=cut_length, bolt=InUnit(fabric.bolt, fabric.per), **values),)


def buying(fabric: Fabric, cut_length: Length, amount: Length) -> Sentence:
    """Write out the arithmetic from the cut length to the length to buy."""
    exact = before_washing(fabric, cut_length)
    text = "Buy: {cut}"
    if fabric.shrink_along:
        text += " / (1 - {shrink} shrinkage)"
    if fabric.straighten:
        text += " + {straighten} to square the end"
    if fabric.shrink_along or fabric.straighten:
        text += " = {exact}"
    return say(
        text + ", sold by {step}: {amount}",
        cut=cut_length,
        shrink=Share(fabric.shrink_along),
        straighten=fabric.straighten,
        exact=exact,
        step=InUnit(fabric.step, fabric.per),
        amount=InUnit(amount, fabric.per),
    )


def usable_working(fabric: Fabric, usable: Length) -> Sentence:
    """Write out the arithmetic of the usable width."""
    text = "Usable width: {width} - 2 x {selvage} selvage"
    if fabric.shrink_across:
        text = "Usable width: ({width} - 2 x {selvage} selvage) x (1 - {shrink} shrinkage)"
    return say(
        text + " = {usable}",
        width=fabric.width,
        selvage=fabric.selvage,
        shrink=Share(fabric.shrink_across),
        usable=usable,
    )
