"""Binding on the bias and along the cloth, single and double, hems and facings."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.bounds import ROOT_2_DOWN
from finishcalc.measures.length import Length
from finishcalc.plans.edge.strips import bias_square, bias_strips, strip_width
from tests.builders import Amount, binding_of, cloth, inches, sample_project, with_top, yards
from tests.strategies import examples

INCH = inches(1)
SEAM = inches("1/4")


def square(needed: Amount, width: Amount, most: Amount = 40):
    return bias_square(inches(needed), inches(width), SEAM, inches(most), INCH)


@pytest.mark.parametrize(
    ("needed", "width", "side", "yields"),
    [
        (370, "2 1/4", 30, "375.47"),  # 9 rounds of 29 1/2 x 1.41421
        (310, "2 1/2", 29, "322.44"),
        (290, "2 1/4", 27, "299.81"),
        (362, "2 1/2", 33, "413.66"),  # 32 gives only 356.38
    ],
)
def test_the_square_and_its_whole_rounds(needed: int, width: str, side: int, yields: str):
    """N = floor((S - 1/2) / (c root 2)) whole rounds yield N (S - 1/2) root 2 (derived)."""
    found = square(needed, width)
    assert found.square.side == inches(side)
    assert abs(found.yields.to("in") - Fraction(yields)) <= Fraction(1, 100)
    assert found.yields >= inches(needed)


def test_nine_rounds_of_a_square_of_thirty():
    assert square(370, "2 1/4").square.rounds == 9


def test_the_handbook_s_area_rule_would_be_short():
    """(S - 1/2)^2 / c says 31 for 362 in at 2 1/2: 30 1/2 squared is 930.25, by 2 1/2 is 372.1. But whole rounds are
    floor(30.5 / 3.5355) = 8, and 8 x 30.5 x 1.41421 = 345.07: short (derived)."""
    assert Fraction("30.5") ** 2 / Fraction("2.5") >= 362
    assert square(362, "2 1/2", most=31) is None
    rounds = int(Fraction("30.5") / (Fraction("2.5") * ROOT_2_DOWN))
    assert rounds * Fraction("30.5") * ROOT_2_DOWN < 362


def test_a_square_wider_than_the_cloth_is_no_square():
    assert square(700, "2 1/2", most=40) is None


def test_strips_on_the_bias():
    """Off 40 usable a strip is 40 root 2 = 56.57 long and a join takes 2 x 1/4 x root 2 = 0.707: 700 in take
    ceil(699.293 / 55.862) = 13, and 40 + 13 x 2 1/2 x root 2 = 85.96 in of cloth (derived)."""
    found = bias_strips(inches(700), inches("2 1/2"), SEAM, inches(40))
    assert found.number == 13
    assert abs(found.cut_length.to("in") - Fraction("85.962")) < Fraction(1, 100)
    assert found.yields >= inches(700)


def test_whichever_buys_less_is_taken():
    """310 in: a square of 29 in against strips of 40 + 6 x 3.54 = 61 in. 690 in: no square fits in 40."""
    short, long = (binding_of(side, side, cut="bias", join="straight") for side in (75, 170))
    assert (short.square.side, short.amount) == (inches(29), yards("7/8"))
    assert long.square is None
    assert long.strips > 0
    assert long.yields >= long.needed_length


@examples(60)
@given(
    st.integers(10, 200),
    st.integers(10, 200),
    st.integers(16, 40),
    st.sampled_from(["crosswise", "lengthwise", "bias", "leftover"]),
)
def test_no_binding_is_short(width: int, length: int, eighths: int, cut: str):
    plan = binding_of(width, length, cut=cut, strip_width=inches(Fraction(eighths, 8)))
    assert plan.yields >= plan.needed_length
    assert plan.amount >= plan.cut_length
    if plan.square:
        assert plan.square.side <= inches(40)


def test_strips_along_the_cloth_are_one_for_each_side():
    """63x87: 310 in from four strips joined on the diagonal: (310 + 3 x 2 1/2) / 4 = 79 3/8 in of cloth (derived)."""
    plan = binding_of(63, 87, cut="lengthwise")
    assert (plan.strips, plan.cut_length) == (4, inches("79 3/8"))


def spec(**changes: object):
    sample = sample_project().binding
    assert sample
    usual = {"strip_width": None, "finished": inches("3/8"), "loft": inches("1/8"), "least_strip": inches(2)}
    return sample.replace(**(usual | changes))


@pytest.mark.parametrize(
    ("changes", "width"),
    [
        ({}, "2 1/2"),  # 2 x (3 x 3/8 + 1/8) (derived)
        ({"finished": inches("1/4"), "loft": inches("1/8")}, 2),  # 1 3/4, but 2 is the least anyone cuts (practice)
        ({"finished": inches("1/4"), "loft": inches("3/8")}, "2 1/4"),
        ({"fold": "single", "finished": inches("1/2")}, 2),  # folded width is a quarter of the strip (encyclopedia)
        ({"fold": "single", "finished": inches(1)}, 4),
        ({"finished": None, "strip_width": inches("2 1/4")}, "2 1/4"),
    ],
)
def test_the_strip_for_a_finished_width(changes: dict[str, object], width: Amount):
    assert strip_width(spec(**changes)) == inches(width)


def test_a_finished_width_stands_over_the_usual_strip_and_the_strip_over_it():
    finished_width = with_top("width = 60\nlength = 80", "[binding]\nfinished = '1/2'\n").plans.binding
    assert finished_width.strip_width == inches("3 1/4")  # 2 x (3 x 1/2 + 1/8)
    assert any("Strip width" in said.text for said in finished_width.working)
    assert with_top("width = 60\nlength = 80").plans.binding.strip_width == inches("2 1/2")


def test_a_hem_leaves_less_and_takes_no_cloth():
    """60x80 with a hem of 1 is 58x78; its edge is billed by the perimeter, 280 in (derived)."""
    result = with_top("width = 60\nlength = 80", "[binding]\nattach = 'hem'\n")
    hem = result.plans.hem
    assert (hem.width, hem.length) == (inches(58), inches(78))
    assert result.plans.binding is None
    assert [purchase.uses for purchase in result.plans.cloth] == [("backing",)]
    (line,) = (line for line in result.quote.lines if line.label.text == "Edge hemmed")
    assert line.quantity == 280


def test_a_hem_on_a_curve_is_cautioned():
    codes = [told.code for told in with_top("diameter = 80", "[binding]\nattach = 'hem'\n").cautions]
    assert "hem-on-a-curve" in codes


def test_a_faced_edge_has_strips_and_a_price_of_its_own():
    result = with_top("width = 60\nlength = 80", "[binding]\nattach = 'faced'\n")
    assert result.plans.binding.strips > 0
    labels = [line.label.text for line in result.quote.lines]
    assert "Edge faced" in labels
    assert "Binding made" not in labels


def test_nothing_at_all_is_done_to_an_edge_that_wants_nothing():
    result = with_top("width = 60\nlength = 80", "[binding]\nattach = 'none'\n")
    assert (result.plans.binding, result.plans.hem) == (None, None)
    assert not any("inding" in line.label.text or "Edge" in line.label.text for line in result.quote.lines)


def test_bias_strips_cut_and_worked():
    """All three cuts say how they are cut; a yard of cloth is bought where a square takes it."""
    plan = binding_of(170, 170, cut="bias", fabric=cloth(40))
    assert any("on the bias" in said.text for said in plan.working)
    assert plan.cut_lengths == (plan.cut_length,)
    assert isinstance(plan.cut_length, Length)
