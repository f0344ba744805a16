"""The record of what a quote is worth, in the studio's document."""

from collections.abc import Callable

from finishcalc.measures.money import Money
from finishcalc.pricing.profit import Profitability
from finishcalc.rendering.documents.writing import Record, number
from finishcalc.wording.sentence import Sentence


def profitability_record(profit: Profitability, write: Callable[[Sentence], str]) -> Record:
    """Money as strings, hours as numbers; null where nobody knows."""
    return {
        "lines": [
            {"label": write(each.line.label), "amount": str(each.line.amount), "cost": _known(each.cost),
             "margin": _known(each.margin)}
            for each in profit.lines
        ],
        "net": str(profit.earned.net),
        "materials": str(profit.earned.materials),
        "other_costs": str(profit.earned.other_costs),
        "attended_hours": number(profit.earned.hours),
        "frame_hours": number(profit.frame_hours),
        "earned_an_attended_hour": _known(profit.hourly),
        "earned_a_frame_hour": _known(profit.frame_hourly),
        "wage": str(profit.wage),
        "break_even": str(profit.break_even),
        "meets_the_wage": str(profit.price_at_wage),
        "others": [
            {"label": write(other.label), "total": str(other.total), "earned_an_attended_hour": _known(other.hourly)}
            for other in profit.others
        ],
    }  # fmt: skip


def _known(amount: Money | None) -> str | None:
    return None if amount is None else str(amount)
