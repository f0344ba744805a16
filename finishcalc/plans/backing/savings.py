"""Savings: small changes that would save much cloth. They are said, never made."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency
from finishcalc.model.project import BackingWishes, Sewing
from finishcalc.plans.backing.options import BackingOption, best_options, choose
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import InUnit, Said, Value, say_in_house


class BackingInputs(NamedTuple):
    """Everything a backing is planned from."""

    shape: Shape
    wishes: BackingWishes
    sewing: Sewing
    currency: Currency


class Saving(NamedTuple):
    """A change, and the cloth and the cost to the studio that it would save; `option` is the backing it leads to, and
    `figures` are the key paths of prices that only this change rests on."""

    said: Said
    option: BackingOption
    figures: tuple[str, ...] = ()


def savings(inputs: BackingInputs, chosen: BackingOption, options: tuple[BackingOption, ...]) -> tuple[Saving, ...]:
    """Try the least overage, wider goods, one seam more and turned pieces. A change is worth saying where it saves as
    much cloth as the shop says, or with the sewing as much money as that cloth costs."""
    return (*_less_overage(inputs, chosen), *_wider_goods(inputs, chosen), *_other_piecing(inputs, chosen, options))


def _less_overage(inputs: BackingInputs, chosen: BackingOption) -> Iterator[Saving]:
    least, overage = inputs.sewing.least_overage, inputs.wishes.overage
    if overage > least:
        other = _best(inputs, inputs.wishes._replace(overage=least))
        text = "with {least} instead of {overage} on every side"
        yield from _saving(inputs, text, chosen, other, least=least, overage=overage)


def _wider_goods(inputs: BackingInputs, chosen: BackingOption) -> Iterator[Saving]:
    wider = inputs.wishes.wider
    if wider and wider.width > inputs.wishes.fabric.width:
        other = _best(inputs, inputs.wishes._replace(fabric=wider))
        if other.total_cost < chosen.total_cost:
            text = "in {fabric}, {amount} with {seams}"
            seams = _seams(other) if other.layout.seams else "no seam"
            amount = InUnit(other.amount, wider.per)
            for saving in _saving(inputs, text, chosen, other, fabric=wider.name, amount=amount, seams=seams):
                yield saving._replace(figures=("cloth.wider.price",))


def _other_piecing(
    inputs: BackingInputs, chosen: BackingOption, options: tuple[BackingOption, ...]
) -> Iterator[Saving]:
    """Try one seam more, and turned pieces where they are not chosen."""
    more = [o for o in options if o.layout.seams == chosen.layout.seams + 1 and not o.layout.turned]
    if more:
        yield from _saving(inputs, "with one seam more", chosen, min(more, key=_amount))
    turned = [option for option in options if option.layout.turned]
    if turned and not chosen.layout.turned:
        best = min(turned, key=_amount)
        yield from _saving(inputs, "with turned pieces and {seams}", chosen, best, seams=_seams(best))


def _seams(option: BackingOption) -> str:
    return "1 seam" if option.layout.seams == 1 else f"{option.layout.seams} seams"


def _amount(option: BackingOption) -> tuple[Length, int]:
    return option.amount, option.layout.seams


def _best(inputs: BackingInputs, wishes: BackingWishes) -> BackingOption:
    needed = inputs.shape.with_overage(wishes.overage)
    return choose(best_options(*needed, wishes, inputs.sewing, inputs.currency), inputs.sewing)


def _saving(
    inputs: BackingInputs, text: str, chosen: BackingOption, other: BackingOption, **values: Value
) -> Iterator[Saving]:
    """A saving, if it saves as much cloth as is worth saying or, with the sewing, what that costs."""
    saved, unit = chosen.amount - other.amount, chosen.fabric.per
    money = chosen.total_cost - other.total_cost
    worth = inputs.sewing.worth_saying
    dear = money.minor > 0 and money.major >= worth.to(unit) * chosen.fabric.price
    if saved <= ZERO or (saved < worth and not dear):
        return
    values["saved"] = InUnit(saved, unit)
    dearer = money.minor < 0
    whole = text + ": {saved} less cloth, " + ("{money} more" if dearer else "{money} less") + " with the seams"
    yield Saving(say_in_house(whole, money=-money if dearer else money, **values), other)
