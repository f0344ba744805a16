"""Cloth: its usable width, the length to buy, and one purchase for each cloth.

Plans are made in washed cloth. The length to buy covers that cloth before it shrinks, with the end squared:
bought >= cut / (1 - shrink_along) + straighten.
"""

from collections.abc import Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import BoughtFabric, Fabric
from finishcalc.plans.cautions import Caution, blocking_caution, caution
from finishcalc.plans.on_hand import OnHand, left_to_buy, on_hand
from finishcalc.wording.sentence import InUnit, Sentence, Share, Value, say
from finishcalc.wording.words import capital, in_words

USE_WORDS = {"strip": "the backing strip", "triangles": "the triangles"}
"""The uses of cloth that need more than their name in a sentence."""


class Purchase(NamedTuple):
    """One purchase of one cloth for the parts in `uses`, which take `cut_length` of it washed; less where some of it is
    `on_hand`. `fabrics` holds the cloth once for each key of the project that gives it."""

    fabrics: tuple[Fabric, ...]
    uses: tuple[str, ...]
    supplied_by: Supplier
    cut_length: Length
    lengths: tuple[Length, ...]
    amount: Length
    cost: Money
    on_hand: OnHand | None
    working: tuple[Sentence, ...]

    @property
    def fabric(self) -> Fabric:
        """The cloth."""
        return self.fabrics[0]

    @property
    def is_all_on_hand(self) -> bool:
        """Tell a purchase of nothing."""
        return self.on_hand is not None and not self.lengths


class CutLength(NamedTuple):
    """A length of washed cloth that cannot be cut apart. At the start of another bolt it takes `length_on_new_bolt`: a
    print that must meet may begin anywhere there, and up to a whole repeat is lost finding its place."""

    length: Length
    length_on_new_bolt: Length


class Need(NamedTuple):
    """The cloth that a part of the quilt, or parts cut together, need, cut length by cut length. `fabrics` holds the
    cloth once for each key of the project that gives it. It is a purchase `apart` where more of a cloth that is there
    already must be had."""

    uses: tuple[str, ...]
    fabrics: tuple[Fabric, ...]
    supplied_by: Supplier
    cut_lengths: tuple[CutLength, ...]
    apart: bool = False

    @property
    def cut_length(self) -> Length:
        """The sum of its cut lengths."""
        return sum((cut.length for cut in self.cut_lengths), ZERO)


def unmatched_cut_lengths(*lengths: Length) -> tuple[CutLength, ...]:
    """Make cut lengths without a print that must meet: they take no more at the start of a bolt than elsewhere."""
    return tuple(CutLength(length, length) for length in lengths)


def usable_width_of(fabric: Fabric) -> Length:
    """Give the width between the selvages, after the first wash."""
    return (fabric.width - fabric.selvage * 2) * (1 - fabric.shrink_across)


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


def plan_cloth(needs: list[Need], currency: Currency) -> tuple[Purchase, ...]:
    """Make one purchase for each cloth and supplier: parts of the same cloth are bought as one length, but for those
    that are bought apart."""
    groups: dict[tuple[Fabric, Supplier, bool], list[Need]] = {}
    for need in needs:
        groups.setdefault((need.fabrics[0], need.supplied_by, need.apart), []).append(need)
    first_of = {key[0]: key for key in reversed(list(groups))}
    return tuple(
        _purchase(*key[:2], group, currency, uses_on_hand=first_of[key[0]] == key) for key, group in groups.items()
    )


def _purchase(
    fabric: Fabric, supplied_by: Supplier, needs: list[Need], currency: Currency, uses_on_hand: bool
) -> Purchase:
    """Buy what the needs of one cloth take; the first purchase of it uses what is at hand."""
    cut_length = sum((need.cut_length for need in needs), ZERO)
    cuts = [cut for need in needs for cut in need.cut_lengths]
    at_hand, cuts = _less_on_hand(fabric, cuts) if uses_on_hand else (None, cuts)
    lengths = lengths_to_buy(fabric, cuts) if cuts or not at_hand else ()
    amount = sum(lengths, ZERO)
    total_working = (_total_working(needs, cut_length),) if len(needs) > 1 else ()
    return Purchase(
        fabrics=tuple(fabric for need in needs for fabric in need.fabrics),
        uses=tuple(use for need in needs for use in need.uses),
        supplied_by=supplied_by,
        cut_length=cut_length,
        lengths=lengths,
        amount=amount,
        cost=cost_of(fabric, amount, currency),
        on_hand=at_hand,
        working=(
            *total_working,
            *((at_hand.sentence,) if at_hand else ()),
            *(buying_lengths(fabric, sum((cut.length for cut in cuts), ZERO), lengths) if lengths else ()),
        ),
    )


def _less_on_hand(fabric: Fabric, cuts: list[CutLength]) -> tuple[OnHand | None, list[CutLength]]:
    """Take from the cut lengths of a cloth those that its lengths at hand hold. Where they part a print that must meet,
    each takes as much as on a new bolt."""
    lengths = fabric.has if isinstance(fabric, BoughtFabric) else ()
    if not lengths or not cuts:
        return None, cuts
    apart = [max(cut.length, cut.length_on_new_bolt) for cut in cuts]
    rooms = [washed_length(fabric, each.length) for each in lengths]
    left = left_to_buy(sum((cut.length for cut in cuts), ZERO), apart, rooms)
    needed = InUnit(sum(lengths_to_buy(fabric, cuts), ZERO), fabric.per)
    told = on_hand(lengths, needed, [cut.length for cut in cuts], left)
    if len(left) < len(cuts):
        cuts = [CutLength(apart[number], apart[number]) for number in left]
    return told, cuts


def bolt_cautions(purchases: tuple[Purchase, ...]) -> list[Caution]:
    """Warn of a cloth that comes from more than one bolt, or that no bolt is long enough for."""
    cautions = []
    for purchase in purchases:
        fabric, count = purchase.fabric, len(purchase.lengths)
        bolt = InUnit(fabric.bolt, fabric.per)
        if count > 1:
            text = "{fabric} comes in bolts of {bolt}, and {count} lengths are needed: ask for the same dye lot."
            cautions.append(caution("second-length", text, fabric=capital(fabric.name), bolt=bolt, count=count))
        if fabric.bolt and max(purchase.lengths, default=ZERO) > fabric.bolt:
            text = "No bolt of {bolt} holds a length of {length}: use another cloth, or run the seams the other way."
            longest = InUnit(max(purchase.lengths), fabric.per)
            cautions.append(blocking_caution("bolt-too-short", text, bolt=bolt, length=longest))
    return cautions


def _total_working(needs: list[Need], cut_length: Length) -> Sentence:
    parts = " + ".join(f"{{n{n}}} for {uses_words(need.uses)}" for n, need in enumerate(needs))
    values = {f"n{n}": need.cut_length for n, need in enumerate(needs)}
    return say(f"Cloth: {parts} = {{cut}}", cut=cut_length, **values)


def uses_words(uses: Sequence[str]) -> str:
    """Name the uses of a cloth: "backing, sashing and borders 1 and 3"."""
    borders = [use.removeprefix("border ") for use in uses if use.startswith("border ")]
    together = f"border{'s' if len(borders) > 1 else ''} {in_words(borders)}" if borders else ""
    words = [together if use.startswith("border ") else USE_WORDS.get(use, use) for use in uses]
    return in_words(list(dict.fromkeys(words)))


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
