"""What a quote is worth, for the studio: cost and margin line by line, what an hour earns, and what would pay."""

from fractions import Fraction

from finishcalc.measures.money import Money
from finishcalc.pricing.profit import Other, Worth
from finishcalc.rendering.pages.page import Table, block, table_lines
from finishcalc.wording.notation import NO_BREAK, Notation


def worth_lines(worth: Worth, shown: list[str], notation: Notation, width: int) -> list[str]:
    """The table of lines, then the sentences, and the arithmetic that is `shown`."""
    return [*_margins(worth, notation, width), "", *block("Worth", _sentences(worth, notation) + shown, width)]


def _margins(worth: Worth, notation: Notation, width: int) -> list[str]:
    """Each line with what it costs the studio, in material or in time, and what is left."""
    rows = [
        [
            notation.say(each.line.label),
            notation.bare_money(each.line.amount),
            _known(each.cost, notation),
            _known(each.margin, notation),
        ]
        for each in worth.lines
    ]
    rows.append(["in all that is known", *map(notation.bare_money, worth.known)])
    margin = "margin before tax" if worth.taxed else "margin"
    return table_lines(Table(["Line", "amount", "cost", margin], "lrrr", rows), width)


def _known(amount: Money | None, notation: Notation) -> str:
    return "not known" if amount is None else notation.bare_money(amount)


def _sentences(worth: Worth, notation: Notation) -> list[str]:
    show, earned = notation.show, worth.earned
    hours = _hours(earned.hours, notation)
    told = [
        f"before tax {show(earned.net)}, less materials {show(earned.materials)} and other costs "
        f"{show(earned.other_costs)}: {show(earned.left)} earned"
    ]
    if worth.hourly is not None:
        apart = f", {_hours(worth.hours_apart, notation)} of them sold by the hour" if worth.hours_apart else ""
        against = _against(worth.hourly, worth.wage, notation)
        told.append(f"{show(worth.hourly)} an attended hour, of {hours}{apart}: {against}")
    if worth.frame_hourly is not None:
        frame = _hours(worth.frame_hours, notation)
        told.append(f"{show(worth.frame_hourly)} an hour on the frame, of {frame}")
    told.append(f"break-even price, materials and other costs alone: {show(worth.break_even)} before tax")
    told.append(f"the price that would meet the wage: {show(worth.fair)} before tax")
    return told + [_other(other, notation) for other in worth.others]


def _hours(hours: Fraction, notation: Notation) -> str:
    return f"{notation.quantity(hours)}{NO_BREAK}h"


def _against(hourly: Money, wage: Money, notation: Notation) -> str:
    over = hourly - wage
    if not over:
        return f"the wage of {notation.show(wage)}"
    way = "more" if over.minor > 0 else "less"
    return f"{notation.show(over if over.minor > 0 else -over)} {way} than the wage of {notation.show(wage)}"


def _other(other: Other, notation: Notation) -> str:
    hourly = f", {notation.show(other.hourly)} an attended hour" if other.hourly is not None else ""
    return f"{notation.say(other.label)}: a total of {notation.show(other.total)}{hourly}"
