"""What the customer brings: her cloth, or a backing that is sewn already."""

from fractions import Fraction

import pytest

from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import resolve
from finishcalc.pipeline import Finishing, finish
from tests.builders import Amount, backing_of, cloth, inches, yards

LEAST = {"least_overage": inches(3), "clear_edge": inches(2)}
PLAIN = {"fabric": cloth(nap=True)}
"""Cloth with a nap takes full panels only, so that the sums below are those of plain panels."""


def finished(text: str) -> Finishing:
    return finish(resolve(Source("brought.toml", text)))


def sewn(width: Amount, length: Amount) -> dict[str, object]:
    """A backing that is made already, in inches."""
    sample = resolve(Source("t", "[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width = 1, length = 1 }\n"))
    made = sample.project.backing
    assert made
    assert made.sewn
    return {"sewn": made.sewn._replace(width=inches(width), length=inches(length))}


def test_enough_cloth_tells_what_is_left():
    """60x80 takes 2 panels of 88 in = 176; 5 yd are 180 in, so 4 in are left (derived)."""
    brought = backing_of(60, 80, LEAST, have=yards(5), **PLAIN).brought
    assert brought
    assert brought.verdict == "enough"
    assert brought.said.values["left"] == inches(4)


def test_cloth_is_held_against_what_is_needed_and_not_against_the_step():
    """176 in are 4 8/9 yd, sold as 5: a customer who has exactly 176 in has enough (derived)."""
    assert backing_of(60, 80, LEAST, have=inches(176), **PLAIN).brought.verdict == "enough"
    short = backing_of(60, 80, LEAST, have=inches("175 7/8"), **PLAIN).brought
    assert (short.verdict, short.said.values["short"]) == ("short", inches("1/8"))


def test_short_cloth_names_the_way_that_fits():
    """60x80 off 40 usable: with plain panels 176 in; a panel of 88, a band of 2 turned pieces of 29 and a strip of 10
    takes 88 + 2 x 29 + 10 = 156 (derived). 4 1/2 yd are 162 in: 14 short for the first, enough for the other."""
    plan = backing_of(60, 80, LEAST | {"most_seams": 1}, have=yards("4 1/2"))
    assert plan.chosen.layout.cut_length == inches(176)
    assert plan.brought.verdict == "short"
    assert plan.brought.said.values["short"] == inches(14)
    assert plan.brought.said.values["seams"] == 3
    assert [told.code for told in plan.cautions] == ["backing-short"]


def test_far_too_little_cloth_fits_no_way():
    brought = backing_of(60, 80, LEAST, have=yards(2)).brought
    assert brought.verdict == "short"
    assert "no other way" in brought.said.text


@pytest.mark.parametrize(
    ("size", "verdict"),
    [
        ((68, 88), "accepted"),  # 4 on every side
        ((66, 86), "accepted"),  # 3, the least a frame takes
        (("65 7/8", 86), "strip"),  # a hair under 3 at the sides
        ((68, 85), "strip"),  # 2 1/2 at top and bottom
        ((64, 84), "refused"),  # 2 on every side
        ((20, 88), "refused"),  # 48 short: no strip of the cloth is that wide
    ],
)
def test_a_sewn_backing_is_accepted_mended_or_refused(size: tuple[Amount, Amount], verdict: str):
    """60x80 with 4 a side wants 68x88; 3 a side is the least (quilting textbooks, from memory; sums derived)."""
    plan = backing_of(60, 80, LEAST, **sewn(*size))
    assert plan.brought.verdict == verdict
    assert plan.chosen is None
    assert bool(plan.cautions) == (verdict != "accepted")


def test_the_strip_to_add():
    """64x88 for 60x80 is 4 short across. The strip's seam must lie 4 + 2 in from the edge, so it shows 6 and is cut
    6 1/2; 88 long off 40 usable takes 3 pieces (3 x 40 - 2 = 118), 19 1/2 in of cloth; the long seam is 88 and two
    joins of 6 each: 100 in (derived)."""
    strip = backing_of(60, 80, LEAST, **sewn(64, 88)).brought.strip
    assert (strip.width, strip.pieces, strip.cut_length) == (inches("6 1/2"), 3, inches("19 1/2"))
    assert (strip.seams, strip.seam_length) == (3, inches(100))


def test_a_wide_strip_keeps_its_own_width():
    """56x88 is 12 short: the strip shows 12 and is cut 12 1/2 (derived)."""
    assert backing_of(60, 80, LEAST, **sewn(56, 88)).brought.strip.width == inches("12 1/2")


def test_an_accepted_backing_is_neither_bought_nor_seamed():
    result = finished("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=68, length=88 }\n[binding]\nattach='none'\n")
    labels = [line.label.text for line in result.quote.lines]
    assert result.plans.cloth == ()
    assert not any("seam" in label for label in labels)
    assert result.plans.quilting.fits


def test_a_strip_is_bought_sewn_and_priced():
    """Its cloth is bought with the binding's where both are the same, and its seams are on the quote."""
    result = finished("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=64, length=88 }\n")
    assert [purchase.uses for purchase in result.plans.cloth] == [("strip", "binding")]
    seams = next(line for line in result.quote.lines if "seams" in line.label.text)
    assert seams.quantity == Fraction(3)


def test_what_the_customer_brings_is_not_on_the_quote():
    result = finished("[top]\nwidth=60\nlength=80\n[backing]\nhave='9 yd'\n[binding]\nattach='none'\n")
    assert [purchase.supplied_by for purchase in result.plans.cloth] == ["customer"]
    assert not any(line.cost and "cotton, 44" in str(line.label.values) for line in result.quote.lines)
