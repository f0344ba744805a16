"""The customer's documents: the whole ones without cost, margin, wage and minutes."""

from typing import Any

STUDIO_ONLY = frozenset(
    (
        "cost", "seam_cost", "seam_minutes", "total_cost", "minutes", "total_minutes", "hours", "options", "defaults",
        "samples", "studio", "nudges", "planned_minutes",
    )
)  # fmt: skip
"""The keys that only the studio's document has, wherever they stand."""


def without_the_studio_s(value: Any) -> Any:
    """A document without the keys that only the studio's has."""
    if isinstance(value, dict):
        return {key: without_the_studio_s(item) for key, item in value.items() if key not in STUDIO_ONLY}
    return [without_the_studio_s(item) for item in value] if isinstance(value, list) else value
