"""Cloth: what of it can be used, what must be bought, and one length for each cloth.

Plans are made in washed cloth. What is bought covers what is needed after shrinkage, with the end squared:
bought >= cut / (1 - shrink_along) + straighten.
"""

from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up_to_step
from finishcalc.measures.said import InUnit, Said, Share, Value, say
from finishcalc.project import Fabric, Supplier

USE_WORDS = {"backing": "backing", "binding": "binding", "strip": "the strip at the backing"}
"""What cloth is for, as it is said."""


class Purchase(NamedTuple):
    """One length of one cloth: `uses` are the parts it is for, `cut_length` what they take in washed cloth."""

    fabric: Fabric
    uses: tuple[str, ...]
    supplied_by: Supplier
    cut_length: Length
    lengths: tuple[Length, ...]
    amount: Length
    cost: Money
    working: tuple[Said, ...]


class Need(NamedTuple):
    """What one part of the quilt takes of a cloth: stretches of its length that cannot be cut apart."""

    use: str
    fabric: Fabric
    supplied_by: Supplier
    stretches: tuple[Length, ...]

    @property
    def cut_length(self) -> Length:
        """All of its stretches."""
        return sum(self.stretches, ZERO)


def usable_width(fabric: Fabric) -> Length:
    """The width between the selvages, after the first wash."""
    return (fabric.width - fabric.selvage * 2) * (1 - fabric.shrink_across)


def length_to_buy(fabric: Fabric, cut_length: Length) -> Length:
    """What to buy for a length of washed cloth, up to the step in which it is sold."""
    return up_to_step(cut_length / (1 - fabric.shrink_along) + fabric.straighten, fabric.step)


def lengths_to_buy(fabric: Fabric, stretches: list[Length]) -> tuple[Length, ...]:
    """What to buy for stretches of washed cloth that cannot be cut apart: one length, or where a bolt is shorter
    than that, one from each bolt, filled in turn. A stretch longer than a bolt stays whole."""
    if not fabric.bolt:
        return (length_to_buy(fabric, sum(stretches, ZERO)),)
    lengths: list[Length] = []
    for stretch in stretches:
        joined = lengths[-1] + stretch if lengths else stretch
        if lengths and length_to_buy(fabric, joined) <= fabric.bolt:
            lengths[-1] = joined
        else:
            lengths.append(stretch)
    return tuple(length_to_buy(fabric, length) for length in lengths)


def washed_length(fabric: Fabric, bought: Length) -> Length:
    """What is left of a bought length once its end is squared and it is washed."""
    return max((bought - fabric.straighten) * (1 - fabric.shrink_along), ZERO)


def cost_of(fabric: Fabric, bought: Length, currency: Currency) -> Money:
    """What a bought length costs, half up to the minor unit."""
    return currency.round(bought.to(fabric.per) * fabric.price)


def plan_cloth(needs: list[Need], currency: Currency) -> tuple[Purchase, ...]:
    """One purchase for each cloth and supplier: parts of the same cloth are bought as one length."""
    groups: dict[tuple[Fabric, Supplier], list[Need]] = {}
    for need in needs:
        groups.setdefault((need.fabric, need.supplied_by), []).append(need)
    return tuple(_purchase(fabric, by, group, currency) for (fabric, by), group in groups.items())


def _purchase(fabric: Fabric, supplied_by: Supplier, needs: list[Need], currency: Currency) -> Purchase:
    cut_length = sum((need.cut_length for need in needs), ZERO)
    lengths = lengths_to_buy(fabric, [stretch for need in needs for stretch in need.stretches])
    amount = sum(lengths, ZERO)
    working = (_adding(needs, cut_length),) if len(needs) > 1 else ()
    return Purchase(
        fabric,
        tuple(need.use for need in needs),
        supplied_by,
        cut_length,
        lengths,
        amount,
        cost_of(fabric, amount, currency),
        (*working, *buying_lengths(fabric, cut_length, lengths)),
    )


def _adding(needs: list[Need], cut_length: Length) -> Said:
    parts = " + ".join(f"{{{need.use}}} for the {need.use}" for need in needs)
    return say(f"Cloth: {parts} = {{cut}}", cut=cut_length, **{need.use: need.cut_length for need in needs})


def buying_lengths(fabric: Fabric, cut_length: Length, lengths: tuple[Length, ...]) -> tuple[Said, ...]:
    """The arithmetic for one length; for several, what each bolt gives."""
    if len(lengths) == 1:
        return (buying(fabric, cut_length, lengths[0]),)
    text = "Buy: {cut} from bolts of {bolt}: " + " + ".join(f"{{length{n}}}" for n in range(len(lengths)))
    values: dict[str, Value] = {f"length{n}": InUnit(length, fabric.per) for n, length in enumerate(lengths)}
    return (say(text, cut=cut_length, bolt=InUnit(fabric.bolt, fabric.per), **values),)


def buying(fabric: Fabric, cut_length: Length, amount: Length) -> Said:
    """The arithmetic from the cut length to what is bought."""
    exact = cut_length / (1 - fabric.shrink_along) + fabric.straighten
    text = "Buy: {cut}"
    if fabric.shrink_along:
        text += " / (1 - {shrink} shrinkage)"
    if fabric.straighten:
        text += " + {straighten} to square the end"
    if fabric.shrink_along or fabric.straighten:
        text += " = {exact}"
    return say(
        text + ", sold by {step}: {amount}",
        cut=cut_length, shrink=Share(fabric.shrink_along), straighten=fabric.straighten, exact=exact,
        step=InUnit(fabric.step, fabric.per), amount=InUnit(amount, fabric.per),
    )  # fmt: skip


def usable_said(fabric: Fabric, usable: Length) -> Said:
    """The arithmetic of the usable width."""
    text = "Usable width: {width} - 2 x {selvage} selvage"
    if fabric.shrink_across:
        text = "Usable width: ({width} - 2 x {selvage} selvage) x (1 - {shrink} shrinkage)"
    return say(
        text + " = {usable}",
        width=fabric.width, selvage=fabric.selvage, shrink=Share(fabric.shrink_across), usable=usable,
    )  # fmt: skip
