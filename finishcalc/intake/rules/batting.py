"""The rules about the batting: the pieces that are brought, the least that will do, and the charge for a roll."""

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.named_materials import BATTING
from finishcalc.intake.rules.check import Check
from finishcalc.measures.length import AREA_UNITS
from finishcalc.model.section import given
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation

HAVE: KeyPath = ("batting", "have")


def batting_is_brought_for_a_quilt(check: Check) -> None:
    """Pieces are brought for a quilt that has a batting, and the shop does not supply what she brings."""
    if not check.tables.batting.have:
        return
    if check.is_none(BATTING):
        message, hint = 'a batting is supplied, but product = "none" means no batting', "keep one of them"
        check.wrong(ProblemCode.BROUGHT_FOR_NO_BATTING, [HAVE], message, hint)
    if check.tables.batting.supplied_by == "shop" and check.by_the_project("batting", "supplied_by"):
        message, places = "the customer supplies it, so the shop does not", [("batting", "supplied_by")]
        check.wrong(ProblemCode.BATTING_BROUGHT_AND_SUPPLIED, list[KeyPath](places), message, "leave it out")


def least_batting_is_the_least(check: Check) -> None:
    """The least overage that will do is no more than the one that is wanted. A project that states a smaller overage
    alone has that as its least."""
    batting = check.tables.batting
    if None in (given(batting.least_overage), given(batting.overage)) or batting.least_overage <= batting.overage:
        return
    if check.by_the_project("batting", "overage") and not check.by_the_project("batting", "least_overage"):
        return
    show = Notation(check.units).show
    message = f"the least overage, {show(batting.least_overage)}, is above the overage, {show(batting.overage)}"
    hint = f"give a least of at most {show(batting.overage)}, or a larger batting.overage"
    check.wrong(ProblemCode.LEAST_ABOVE_OVERAGE, [("batting", "least_overage")], message, hint)


def rolls_are_charged_by_their_unit(check: Check) -> None:
    """A roll that is charged by the area has a price by area, and any other a price by length."""
    rolls = given(check.tables.batting.product.rolls)
    for number, roll in enumerate(rolls.value if rolls and not check.is_none(BATTING) else ()):
        by_area = roll.per in AREA_UNITS
        if (roll.charged == "area") == by_area:
            continue
        if by_area:
            message, hint = "is charged by its width", f'give a price by length: per = "{roll.length_unit}"'
        else:
            area = Notation(check.units).quantity(roll.width.to(roll.per))
            message = "is charged by the area"
            hint = f'give a price by area, per = "sq {roll.per}": 1 {roll.per} off this roll is {area} sq {roll.per}'
        message += f', but its price is for each "{roll.per}"'
        check.wrong(ProblemCode.CHARGE_AGAINST_UNIT, [(*BATTING, "rolls")], message, hint, within=(number, "charge"))
