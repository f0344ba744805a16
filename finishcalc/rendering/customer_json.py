"""The customer's documents: the whole ones without cost, margin, wage and minutes."""

from typing import Any

from finishcalc.measures.notation import Notation
from finishcalc.pipeline import Finishing
from finishcalc.plans.cautions import for_reader

Record = dict[str, Any]
STUDIO_ONLY = frozenset(
    (
        "cost", "seam_cost", "seam_minutes", "total_cost", "minutes", "total_minutes", "hours", "options", "defaults",
        "samples", "studio", "nudges", "planned_minutes",
    )
)  # fmt: skip
"""The keys that only the studio's document has, wherever they stand."""


def for_customer(record: Record, result: Finishing, notation: Notation) -> Record:
    """What the customer may see of a document. Whether any figure is a sample is said in a word."""
    seen: Record = without_the_studio_s(record)
    seen["working"] = {
        part: [said for said in working if said["for"] == "customer"] for part, working in seen["working"].items()
    }
    codes = {each.code for each in for_reader(result.cautions, "customer")}
    seen["cautions"] = [caution for caution in seen["cautions"] if caution["code"] in codes]
    return seen | {"for": "customer", "rests_on_samples": result.priced_on_samples}


def without_the_studio_s(value: Any) -> Any:
    """A document without the keys that only the studio's has."""
    if isinstance(value, dict):
        return {key: without_the_studio_s(item) for key, item in value.items() if key not in STUDIO_ONLY}
    return [without_the_studio_s(item) for item in value] if isinstance(value, list) else value
