"""Binding on the bias and along the cloth, single and double, hems and facings."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.bounds import ROOT_2_DOWN
from finishcalc.measures.length import ZERO, Length
from finishcalc.pipeline import Finishing
from finishcalc.plans.edge.strips import (
    Rectangle,
    bias_join,
    bias_rectangle,
    bias_rounds,
    bias_square,
    bias_strips,
    strip_width,
)
from finishcalc.wording.notation import Notation
from tests.builders import (
    Amount,
    binding_of,
    cloth,
    cut_text,
    inches,
    quote_text,
    quoted,
    sample_project,
    with_top,
    yards,
)
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


# --- rectangles as wide as the cloth ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("needed", "width", "usable", "height", "rounds", "yields"),
    [
        ("301.48", "2 1/4", 40, "18 1/2", 12, "305.47"),  # 39.5 / 3.1820 = 12.4; 1/2 + 301.48 / 16.9706 = 18.265
        ("290.55", "2 1/2", 40, "19 1/4", 11, "291.68"),  # 39.5 / 3.5355 = 11.2; 1/2 + 290.55 / 15.5563 = 19.177
        (274, "2 1/2", 40, "18 1/4", 11, "276.13"),  # 1/2 + 17.613
        ("436.55", "2 1/4", 40, "26 1/4", 12, "436.99"),  # 1/2 + 25.724
        (370, "2 1/4", 40, "22 1/2", 12, "373.35"),  # 1/2 + 21.802
        (310, "2 1/2", 40, "20 1/2", 11, "311.13"),  # 1/2 + 19.928
        (560, "2 1/2", 40, "36 1/2", 11, "560.03"),  # 1/2 + 35.998
        (600, "2 1/2", 40, "39 1/4", 11, "602.81"),  # 1/2 + 38.570
        (150, "1 1/2", 20, "12 1/2", 9, "152.73"),  # 19.5 / 2.1213 = 9.2; 1/2 + 150 / 12.7279 = 12.285
        (100, "2 1/2", 40, 8, 11, "116.67"),  # 1/2 + 6.428, but 8 is the lowest: 11 x 7.5 x 1.41421
        ("261.07", "2 1/2", 106, 8, 29, "307.59"),  # 105.5 / 3.5355 = 29.8; 1/2 + 6.366, but 8 is the lowest
        (614, "2 1/2", 40, 40, 11, "614.48"),  # 1/2 + 39.469: a square as wide as the cloth
    ],
)
def test_the_rectangle_and_its_whole_rounds(
    needed: Amount, width: str, usable: int, height: Amount, rounds: int, yields: str
):
    """One 45-degree end sewn to the other: N = floor((W - 1/2) / (c root 2)) rounds of (H - 1/2) root 2 (derived)."""
    most = Fraction(str(needed)) if isinstance(needed, str) else needed
    found = bias_rectangle(inches(most), inches(width), SEAM, inches(usable), inches("1/4"), inches(8))
    assert found.rectangle == Rectangle(inches(usable), inches(height), rounds, 1)
    assert abs(found.yields.to("in") - Fraction(yields)) <= Fraction(1, 100)
    assert found.yields >= inches(most)
    assert found.cut_length == inches(height)


def test_more_than_one_rectangle_holds_is_joined_from_two():
    """One of 40 gives at most 614.48 in. For 700 each of two gives (700 + 2 1/2) / 2 = 351.25: 1/2 + 22.580 is 23 1/4,
    and 2 x 11 x 22.75 x 1.41421 - 2 1/2 = 705.31."""
    found = bias_rectangle(inches(700), inches("2 1/2"), SEAM, inches(40), inches("1/4"), inches(8))
    assert (found.rectangle.height, found.rectangle.pieces) == (inches("23 1/4"), 2)
    assert found.cut_length == inches("46 1/2")
    assert abs(found.yields.to("in") - Fraction("705.31")) <= Fraction(1, 100)


def test_cloth_too_narrow_for_a_round_has_no_rectangle():
    assert bias_rectangle(inches(100), inches("2 1/2"), SEAM, inches(4), inches("1/4"), inches(8)) is None


PUBLISHED = [
    # width, height, strip; the length that the rule of area promises; whole rounds, and what they give
    (20, 20, 2, 200, 6, "165.46"),  # 400 / 2; 19.5 / 2.8284 = 6.9
    (23, 23, 2, 250, 7, "222.74"),  # root 500 is 22.4; 22.5 / 2.8284 = 7.95
    (32, 32, "2 1/4", 450, 9, "400.93"),  # 1,024 / 2.25 = 455.1; 31.5 / 3.1820 = 9.9
    (38, 17, "2 1/4", 275, 11, "256.68"),  # 646 / 2.25 = 287.1; 37.5 / 3.1820 = 11.8
    (22, 22, 3, 157, 5, "152.03"),  # (21 3/4)^2 / 3 = 157.7; 21.5 / 4.2426 = 5.1
]


@pytest.mark.parametrize(("across", "height", "strip", "promised", "rounds", "yields"), PUBLISHED)
def test_published_rules_of_area_are_short(
    across: int, height: int, strip: Amount, promised: int, rounds: int, yields: str
):
    """Sewing lessons and pattern books divide the area by the strip; the part of a round that is left is no strip."""
    found, length = bias_rounds(inches(across), inches(height), inches(strip), SEAM)
    assert found == rounds
    assert abs(length.to("in") - Fraction(yields)) <= Fraction(1, 100)
    assert length < inches(promised)
    ours = bias_rectangle(inches(promised), inches(strip), SEAM, inches(across), inches("1/4"), inches(1))
    assert ours.yields >= inches(promised)
    assert square(promised, strip).yields >= inches(promised)


def test_an_offcut_is_cut_with_its_long_side_as_the_tube():
    """23 x 106 at 2 1/2: 105.5 / 3.5355 = 29 rounds of 22.5 x 1.41421 = 31.82 in."""
    rounds, length = bias_rounds(inches(23), inches(106), inches("2 1/2"), SEAM)
    assert rounds == 29
    assert abs(length.to("in") - Fraction("922.77")) <= Fraction(1, 100)
    assert bias_rounds(inches("1/2"), inches(106), inches("2 1/2"), SEAM)[1] == ZERO


@pytest.mark.parametrize(("side", "count"), [(20, 2), (13, 3), (10, 4), (28, 3)])
def test_squares_side_by_side_give_no_more_than_their_rectangle(side: int, count: int):
    """Two of 20: 2 x 5 x 19.5 x 1.41421 = 275.77, less one join of 2 1/2; the 40 x 20 they make up has 11 rounds."""
    strip = inches("2 1/2")
    of_each = bias_rounds(inches(side), inches(side), strip, SEAM)[1]
    joined = of_each * count - bias_join(strip, SEAM) * (count - 1)
    assert joined <= bias_rounds(inches(side * count), inches(side), strip, SEAM)[1]
    if (side, count) == (20, 2):
        assert abs(joined.to("in") - Fraction("273.27")) <= Fraction(1, 100)


def test_strips_on_the_bias():
    """Off 40 usable a strip is 40 root 2 = 56.57 long and a join takes 2 x 1/4 x root 2 = 0.707: 700 in take
    ceil(699.293 / 55.862) = 13, and 40 + 13 x 2 1/2 x root 2 = 85.96 in of cloth (derived)."""
    found = bias_strips(inches(700), inches("2 1/2"), SEAM, inches(40))
    assert found.number == 13
    assert abs(found.cut_length.to("in") - Fraction("85.962")) < Fraction(1, 100)
    assert found.yields >= inches(700)


@pytest.mark.parametrize(
    ("usable", "side", "way", "cut"),
    [
        # 310 in: a square of 29, a rectangle 20 1/2 high (11 rounds of 20 x 1.41421), or strips of 40 + 6 x 3.54 = 61.
        (40, 75, "rectangle", "20 1/2"),
        # 690 in: no square; two rectangles of (690 + 2 1/2) / 2 / 15.5563 + 1/2 = 22.76; or strips of 86.
        (40, 170, "rectangle", 46),
        # 604 in: one rectangle of 604 / 15.5563 + 1/2 = 39.3 is 39 1/2; a square of 40 gives 614.48.
        (40, "148 1/2", "rectangle", "39 1/2"),
        # 17 in from 8: a square of 7 has 6.5 / 3.5355 = 1 round, 9.19 in; one of 8, 2 rounds, 21.2. The lowest
        # rectangle is as high.
        (8, "1 3/4", "square", 8),
    ],
)
def test_the_way_that_takes_least_cloth_is_taken(usable: int, side: Amount, way: str, cut: Amount):
    plan = binding_of(side, side, cut="bias", join="straight", fabric=cloth(usable))
    assert [name for name in ("square", "rectangle") if getattr(plan, name)] == [way]
    assert plan.cut_length == inches(cut)
    assert plan.yields >= plan.needed_length


def worked(result: Finishing) -> str:
    return " ".join(Notation("in").write(said) for said in result.plans.binding.working).replace("\u00a0", " ")


def test_the_edge_of_a_round_cloth_is_bought_by_the_rectangle():
    """92.78 across: pi x 92.78 + 10 = 301.48 in at 2 1/4 takes 18 1/2 in of cloth and 1 to square it, 5/8 yd, where a
    square of 28 took 7/8; page, cutting list and arithmetic say so."""
    text = "[top]\nuse = 'tablecloth'\ndiameter = '92.78'\n[batting]\nproduct = 'none'\n"
    text += "[binding]\nstrip_width = '2 1/4'\n"
    result = quoted(text)
    assert result.plans.binding.amount == yards("5/8")
    page = " ".join(quote_text(result, "studio").split())
    assert "bias 2 1/4 in wide, cut in 12 rounds from a rectangle of 40 x 18 1/2 in" in page
    assert "(40 in - 1/2 in) / (2 1/4 in x 1.41421), rounded down: 12 rounds" in worked(result)
    cutting = " ".join(cut_text(result).split())
    assert "1 rectangle 18 1/2 in high and as wide as the cloth" in cutting
    assert "cut off one end at 45 degrees, and sew it to the other end" in cutting


def test_two_rectangles_are_told_with_their_join():
    result = quoted("[top]\nwidth = 170\nlength = 170\n[binding]\ncut = 'bias'\n")
    page = " ".join(quote_text(result, "studio").split())
    assert "cut in 11 rounds from each of 2 rectangles of 40 x 23 in" in page
    # 2 x 11 x (23 - 1/2) x 1.41421 = 700.04, less 2 1/2
    assert "2 x 11 x (23 in - 1/2 in) x 1.41421 - 1 joins x 2 1/2 in = 697.54 in, enough for 690 in" in worked(result)
    assert "Cut: 2 x 23 in = 46 in" in worked(result)
    assert "11 rounds of each, the strips joined" in " ".join(cut_text(result).split())


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
    plan = binding_of(170, 170, cut="bias", fabric=cloth(4))
    assert any("on the bias" in said.text for said in plan.working)
    assert plan.cut_lengths == (plan.cut_length,)
    assert isinstance(plan.cut_length, Length)
