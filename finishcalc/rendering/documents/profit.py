"""What a quote is worth, as a record of the studio's document."""

from collections.abc import Callable

from finishcalc.measures.money import Money
from finishcalc.pricing.profit import Profitability
from finishcalc.rendering.documents.writing import Record, number
from finishcalc.wording.sentence import Sentence


def worth_record(worth: Profitability, write: Callable[[Sentence], str]) -> Record:
    """Money as strings, hours as numbers; null where nobody knows."""
    return {
        "lines": [
            {"label": write(each.line.label), "amount": str(each.line.amount), "cost": _known(each.cost),
             "margin": _known(each.margin)}
            for each in worth.lines
        ],
        "net": str(worth.earned.net),
        "materials": str(worth.earned.materials),
        "other_costs": str(worth.earned.other_costs),
        "attended_hours": number(worth.earned.hours),
        "frame_hours": number(worth.frame_hours),
        "earned_an_attended_hour": _known(worth.hourly),
        "earned_a_frame_hour": _known(worth.frame_hourly),
        "wage": str(worth.wage),
        "break_even": str(worth.break_even),
        "meets_the_wage": str(worth.price_at_wage),
        "others": [
            {"label": write(other.label), "total": str(other.total), "earned_an_attended_hour": _known(other.hourly)}
            for other in worth.others
        ],
    }  # fmt: skip


def _known(amount: Money | None) -> str | None:
    return None if amount is None else str(amount)
