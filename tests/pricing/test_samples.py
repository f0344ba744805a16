"""The samples that a result rests on: in the sample shop every figure is one, so that each that is used is listed."""

import pytest

from finishcalc.alternatives.in_house import samples_of
from tests.builders import TOP, quoted

ALWAYS = {
    "rates.wage", "rates.overhead",  # the worth of an hour of the studio's
    "quilting.method.stages", "thread.bobbin", "thread.cone",  # the plan of the quilting
    "deposit.percent", "tax", "rates.quilting.edge-to-edge.price",
}  # fmt: skip
BATTING = {"batting.product.packages", "batting.product.rolls"}
MATERIALS = BATTING | {
    "backing.fabric.price", "rates.markup", "seaming.minutes_each", "seaming.minutes_along", "rates.seam.each",
}  # fmt: skip
BY_HAND = {
    "binding.fabric.price", "rates.binding.make", "rates.binding.hand",
    "edge_time.make", "edge_time.front", "edge_time.hand",
}  # fmt: skip
"""The binding is made, sewn to the front, and its back sewn by hand; the rate by hand is for both seams."""
NO_BINDING = "[binding]\nattach = 'none'\n"
NONE = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n"
SMALL = "[top]\nwidth = 20\nlength = 20\n"

USED = {
    "bare": (TOP + NONE + NO_BINDING, ALWAYS),
    # 20 x 20 = 400 sq in at 0.03 = 12.00, less than the minimum
    "at the minimum": (SMALL + NONE + NO_BINDING, ALWAYS | {"rates.minimum"}),
    "hemmed": (TOP + NONE + "[binding]\nattach = 'hem'\n", ALWAYS | {"rates.binding.hem", "edge_time.hem"}),
    "batting brought": (
        TOP + "[backing]\nfabric = 'none'\n[batting]\nsupplied_by = 'customer'\n" + NO_BINDING,
        ALWAYS | BATTING | {"rates.handling.batting"},
    ),
    "an extra": (
        TOP + NONE + NO_BINDING + "[charges]\nextras = ['label']\n",
        ALWAYS | {f"extras.label.{key}" for key in ("price", "minutes", "cost")},
    ),
}  # fmt: skip


@pytest.mark.parametrize(("text", "used"), USED.values(), ids=USED)
def test_each_sample_that_is_used_is_listed_and_no_other(text: str, used: set[str]):
    assert samples_of(quoted(text)) == used


def test_a_whole_quilt_rests_on_its_materials_and_its_edge():
    """What a seam is worth counts where backings were weighed by it."""
    result = quoted(TOP + "[binding]\nattach = 'hand'\n")
    assert result.plans.backing
    assert len(result.backings) > 1
    assert samples_of(result) == ALWAYS | MATERIALS | BY_HAND | {"cloth.worth_a_seam"}


def test_only_ties_rest_on_the_thread_of_a_tie():
    assert "thread.tie" in samples_of(quoted(TOP + "[quilting]\nstyle = 'ties-4'\nmethod = 'tied'\n"))
    assert "thread.tie" not in samples_of(quoted(TOP))
