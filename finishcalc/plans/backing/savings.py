"""Savings: small changes that would save much cloth. They are said, never made."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.project import Backing
from finishcalc.model.section import Figure
from finishcalc.plans.backing.options import BackingOption, best_options, choose
from finishcalc.plans.backing.plan import BackingInputs, BackingPlan
from finishcalc.wording.sentence import InUnit, Sentence, Value, say_in_house


class Saving(NamedTuple):
    """A change, and the cloth and the cost to the studio that it would save; `option` is the backing it leads to, and
    `rates` are the prices that only this change rests on."""

    sentence: Sentence
    option: BackingOption
    rates: tuple[Figure[Fraction], ...] = ()


def plan_savings(plan: BackingPlan) -> tuple[Saving, ...]:
    """Plan the backing again with the least overage, in wider goods, with one seam more and with turned pieces.

    A change is kept where it saves as much of the shop's cloth as the shop finds worth saying, or with the sewing as
    much as that costs.
    """
    inputs, chosen, options = plan.inputs, plan.chosen, plan.options
    if not chosen or inputs.spec.supplied_by == "customer":
        return ()
    return (*_less_overage(inputs, chosen), *_wider_goods(inputs, chosen), *_other_piecing(inputs, chosen, options))


def _less_overage(inputs: BackingInputs, chosen: BackingOption) -> Iterator[Saving]:
    least, overage = inputs.sewing.cloth.least_overage, inputs.spec.overage
    if overage > least:
        other = _best(inputs, inputs.spec.replace(overage=least))
        text = "with {least} instead of {overage} on every side"
        yield from _saving(inputs, text, chosen, other, least=least, overage=overage)


def _wider_goods(inputs: BackingInputs, chosen: BackingOption) -> Iterator[Saving]:
    wider = inputs.sewing.cloth.wider.wanted
    if wider and wider.width > inputs.spec.fabric.width:
        other = _best(inputs, inputs.spec.replace(fabric=wider))
        if other.total_cost < chosen.total_cost:
            text = "in {fabric}, {amount} with {seams}"
            seams = _seams(other) if other.layout.seams else "no seam"
            amount = InUnit(other.amount, wider.per)
            for saving in _saving(inputs, text, chosen, other, fabric=wider.name, amount=amount, seams=seams):
                yield saving._replace(rates=(wider.price,))


def _other_piecing(
    inputs: BackingInputs, chosen: BackingOption, options: tuple[BackingOption, ...]
) -> Iterator[Saving]:
    """Try one seam more, and turned pieces where they are not chosen."""
    more = [o for o in options if o.layout.seams == chosen.layout.seams + 1 and not o.layout.turned]
    if more:
        yield from _saving(inputs, "with one more seam", chosen, min(more, key=_amount))
    turned = [option for option in options if option.layout.turned]
    if turned and not chosen.layout.turned:
        best = min(turned, key=_amount)
        yield from _saving(inputs, "with turned pieces and {seams}", chosen, best, seams=_seams(best))


def _seams(option: BackingOption) -> str:
    return "1 seam" if option.layout.seams == 1 else f"{option.layout.seams} seams"


def _amount(option: BackingOption) -> tuple[Length, int]:
    return option.amount, option.layout.seams


def _best(inputs: BackingInputs, spec: Backing) -> BackingOption:
    needed = inputs.shape.with_overage(spec.overage)
    return choose(best_options(*needed, spec, inputs.sewing, inputs.currency), inputs.sewing)


def _saving(
    inputs: BackingInputs, text: str, chosen: BackingOption, other: BackingOption, **values: Value
) -> Iterator[Saving]:
    """A saving, if it saves as much cloth as is worth saying or, with the sewing, what that costs."""
    saved, unit = chosen.amount - other.amount, chosen.fabric.per
    money = chosen.total_cost - other.total_cost
    worth = inputs.sewing.cloth.worth_saying
    dear = money.minor > 0 and money.major >= worth.to(unit) * chosen.fabric.price.value
    if saved <= ZERO or (saved < worth and not dear):
        return
    values["saved"] = InUnit(saved, unit)
    dearer = money.minor < 0
    whole = text + ": {saved} less cloth, " + ("{money} more" if dearer else "{money} less") + " with the seams"
    yield Saving(say_in_house(whole, money=-money if dearer else money, **values), other)
