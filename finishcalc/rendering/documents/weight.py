"""The weight of the quilt as a record of the whole document."""

from finishcalc.measures.weight import Weight
from finishcalc.plans.weight import WeightPlan
from finishcalc.rendering.documents.writing import Record, number
from finishcalc.wording.notation import LIGHT_UNIT


def weight_record(plan: WeightPlan, units: str) -> Record:
    """Write the weight in ounces or grams, and of each part; null where it is not known, and of which materials."""
    unit = LIGHT_UNIT[units][0]

    def amount(weight: Weight | None) -> int | float | None:
        return number(weight.to(unit)) if weight else None

    return {
        "unit": unit,
        "total": amount(plan.total),
        "parts": {name: amount(weight) for name, weight in plan.parts.items()},
        "not_known": list(plan.not_known),
    }
