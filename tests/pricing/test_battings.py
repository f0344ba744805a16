"""Two worked quotes of joined battings, recomputed by hand at the head of their files."""

import pytest

from finishcalc.pipeline import Finishing, finish_file
from tests.builders import GOLDEN, labels


def worked(name: str) -> Finishing:
    return finish_file(str(GOLDEN / f"{name}.toml"))


def amounts(result: Finishing) -> dict[str, str]:
    return dict(zip(labels(result), [str(line.amount) for line in result.quote.lines], strict=True))


@pytest.mark.parametrize(
    ("name", "batting", "seam", "along", "tax", "total"),
    [
        ("pieced-batting", None, "8.00", "4.60", [], "259.44"),
        ("wide-batting", "88.50", "8.00", "5.90", ["7.08"], "508.88"),
    ],
)
def test_the_money(name: str, batting: str | None, seam: str, along: str, tax: list[str], total: str):
    result = worked(name)
    lines = amounts(result)
    assert lines.get("Batting, {name}, half the width of {wide}") == batting
    assert (lines["Batting joined"], lines["Batting joined, along its length"]) == (seam, along)
    assert [str(each.amount) for each in result.quote.taxes if each.amount.minor] == tax
    assert str(result.quote.total) == total


@pytest.mark.parametrize(("name", "handled"), [("pieced-batting", True), ("wide-batting", False)])
def test_what_is_brought_is_prepared(name: str, handled: bool):
    assert ("Preparing your batting" in amounts(worked(name))) is handled


@pytest.mark.parametrize(("name", "minutes"), [("pieced-batting", 14.2), ("wide-batting", 16.8)])
def test_the_time_of_the_seam(name: str, minutes: float):
    (stage,) = (each for each in worked(name).plans.hours.stages if each.name == "join the batting")
    assert float(stage.attended) == minutes


def test_what_is_bought_and_what_is_charged_of_it():
    """236 in come off the roll, and 354 in of half its width are charged; the studio keeps what is over."""
    chosen = worked("wide-batting").plans.batting.chosen
    assert chosen
    assert [float(chosen.length.to("in")), float(chosen.quantity), str(chosen.cost)] == [236, 354, "59.00"]
    assert chosen.offcut
    assert [float(side.to("in")) for side in chosen.offcut] == [66, 118]
    assert chosen.studio_keeps_offcut
