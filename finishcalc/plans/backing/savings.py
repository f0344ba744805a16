"""Where a small change saves much cloth: said, never done."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency
from finishcalc.model.project import BackingWishes, Sewing
from finishcalc.plans.backing.options import BackingOption, best_options, choose
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import InUnit, Said, Value, say_in_house


class Asked(NamedTuple):
    """What a backing was planned from."""

    shape: Shape
    wishes: BackingWishes
    sewing: Sewing
    currency: Currency


class Nudge(NamedTuple):
    """A change and what it would save, in cloth and in what it costs the studio; `option` is the backing it leads to,
    and `figures` are the key paths of prices that only this change rests on."""

    said: Said
    option: BackingOption
    figures: tuple[str, ...] = ()


def nudges(asked: Asked, chosen: BackingOption, options: tuple[BackingOption, ...]) -> tuple[Nudge, ...]:
    """At the least overage, in wider goods, with one seam more, with turned pieces: what saves as much cloth as the
    shop finds worth saying, or with the sewing as much as that costs."""
    return (*_less_overage(asked, chosen), *_wider_goods(asked, chosen), *_other_piecing(asked, chosen, options))


def _less_overage(asked: Asked, chosen: BackingOption) -> Iterator[Nudge]:
    least, overage = asked.sewing.least_overage, asked.wishes.overage
    if overage > least:
        other = _best(asked, asked.wishes._replace(overage=least))
        text = "with {least} instead of {overage} on every side"
        yield from _saving(asked, text, chosen, other, least=least, overage=overage)


def _wider_goods(asked: Asked, chosen: BackingOption) -> Iterator[Nudge]:
    wider = asked.wishes.wider
    if wider and wider.width > asked.wishes.fabric.width:
        other = _best(asked, asked.wishes._replace(fabric=wider))
        if other.total_cost < chosen.total_cost:
            text = "in {fabric}, {amount} with {seams}"
            seams = _seams(other) if other.layout.seams else "no seam"
            amount = InUnit(other.amount, wider.per)
            for nudge in _saving(asked, text, chosen, other, fabric=wider.name, amount=amount, seams=seams):
                yield nudge._replace(figures=("cloth.wider.price",))


def _other_piecing(asked: Asked, chosen: BackingOption, options: tuple[BackingOption, ...]) -> Iterator[Nudge]:
    """One seam more, and turned pieces, where they are not chosen."""
    more = [o for o in options if o.layout.seams == chosen.layout.seams + 1 and not o.layout.turned]
    if more:
        yield from _saving(asked, "with one seam more", chosen, min(more, key=_amount))
    turned = [option for option in options if option.layout.turned]
    if turned and not chosen.layout.turned:
        best = min(turned, key=_amount)
        yield from _saving(asked, "with turned pieces and {seams}", chosen, best, seams=_seams(best))


def _seams(option: BackingOption) -> str:
    return "1 seam" if option.layout.seams == 1 else f"{option.layout.seams} seams"


def _amount(option: BackingOption) -> tuple[Length, int]:
    return option.amount, option.layout.seams


def _best(asked: Asked, wishes: BackingWishes) -> BackingOption:
    width, length = asked.shape.width + wishes.overage * 2, asked.shape.length + wishes.overage * 2
    return choose(best_options(width, length, wishes, asked.sewing, asked.currency), asked.sewing)


def _saving(asked: Asked, text: str, chosen: BackingOption, other: BackingOption, **values: Value) -> Iterator[Nudge]:
    """A nudge, if it saves as much cloth as is worth saying or, with the sewing, what that costs."""
    saved, unit = chosen.amount - other.amount, chosen.fabric.per
    money = chosen.total_cost - other.total_cost
    worth = asked.sewing.worth_saying
    dear = money.minor > 0 and money.major >= worth.to(unit) * chosen.fabric.price
    if saved <= ZERO or (saved < worth and not dear):
        return
    values["saved"] = InUnit(saved, unit)
    dearer = money.minor < 0
    whole = text + ": {saved} less cloth, " + ("{money} more" if dearer else "{money} less") + " with the seams"
    yield Nudge(say_in_house(whole, money=-money if dearer else money, **values), other)
