"""What is charged by the measures of the top where no quantity is given, and quantities that add up on paper."""

from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.choices import offers_of
from finishcalc.measures.rounding import shared_out
from finishcalc.problems import ProblemsFound
from finishcalc.wording.notation import Notation
from tests.builders import in_shop, line, quoted

TWIN = "[top]\nwidth = 72\nlength = 90\n"
"""72 x 90 = 6,480 sq in, 2 x (72 + 90) = 324 in round."""

EXTRA = "[extras.prep]\nlabel = 'Prep'\nline_class = 'labour'\n"
ORDERED = "[charges]\nextras = ['prep']\n"


@pytest.mark.parametrize(
    ("sold", "quantity", "unit", "amount"),
    [
        ("price = '0.004'\nper = 'sq in'", 6480, "sq in", "25.92"),  # 6,480 x 0.004
        ("price = '0.50'\nper = 'sq ft'", 45, "sq ft", "22.50"),  # 6,480 / 144
        ("price = '0.10'\nper = 'in'", 324, "in", "32.40"),
        ("price = 2\nper = 'yd'", 9, "yd", "18.00"),  # 324 / 36
        ("price = '0.10'\nper = 'in'\nof = 'perimeter'", 324, "in", "32.40"),
        ("price = '0.10'\nper = 'in'\nof = 'width'", 72, "in", "7.20"),
        ("price = 3\nper = 'ft'\nof = 'length'", Fraction("7.5"), "ft", "22.50"),  # 90 / 12
        ("price = 12\nper = 'each'", 1, "each", "12.00"),
        ("price = 30\nper = 'hour'\nminutes = 45", Fraction("0.75"), "hour", "22.50"),
        (
            "price = 30\nper = 'hour'\nminutes = { low = 30, likely = 45, high = 120 }",
            Fraction("0.92"),
            "hour",
            "27.60",
        ),
        ("price = 30\nper = 'hour'\nminutes = 2\nminutes_per = 'sq ft'", Fraction("1.5"), "hour", "45.00"),  # 2 x 45
        ("price = 30\nper = 'hour'\nminutes = 1\nminutes_per = 'ft'", Fraction("0.45"), "hour", "13.50"),  # 324 / 12
        ("price = 30\nper = 'hour'\nminutes = 2\nminutes_per = 'ft'\nof = 'length'", Fraction("0.25"), "hour", "7.50"),
        ("price = 4\nper = 'seam'", 1, "seam", "4.00"),
    ],
)
def test_an_extra_without_a_quantity_is_of_the_whole_top(
    sold: str, quantity: object, unit: str, amount: str, tmp_path: Path
):
    result = in_shop(tmp_path, f"{EXTRA}{sold}\n", TWIN + ORDERED)
    assert line(result, "Prep") == (quantity, unit, amount)


def test_what_has_no_measure_of_its_own_is_not_one_hour(tmp_path: Path):
    """An hour is none of the quilt's measures: hours are ordered, or follow from the minutes."""
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, EXTRA + "price = 30\nper = 'hour'\n", TWIN + ORDERED)
    (problem,) = found.value.problems
    assert (problem.code, problem.path, problem.line) == ("hours-not-said", "charges.extras[1]", 5)


def test_a_backing_without_seams_has_none_to_charge(tmp_path: Path):
    result = in_shop(tmp_path, EXTRA + "price = 4\nper = 'seam'\n", TWIN + "[backing]\nfabric = 'none'\n" + ORDERED)
    assert line(result, "Prep") == (0, "seam", "0.00")


def test_a_quantity_that_is_given_stands(tmp_path: Path):
    shop = EXTRA + "price = '0.10'\nper = 'in'\nof = 'width'\n"
    result = in_shop(tmp_path, shop, TWIN + "[charges]\nextras = [{ name = 'prep', quantity = 10 }]\n")
    assert line(result, "Prep") == (10, "in", "1.00")


def test_a_size_between_whole_inches_is_taken_as_it_is_billed(tmp_path: Path):
    """71 1/2 x 89 1/4 is billed 72 x 90."""
    shop = EXTRA + "price = '0.10'\nper = 'in'\n"
    result = in_shop(tmp_path, shop, "[top]\nwidth = '71 1/2'\nlength = '89 1/4'\n" + ORDERED)
    assert line(result, "Prep") == (324, "in", "32.40")


@pytest.mark.parametrize(("shaped", "quantity"), [("bounding", 3600), ("area", 2827)])
def test_a_round_top_goes_by_what_is_billed(shaped: str, quantity: int, tmp_path: Path):
    """60 in: 60 x 60, or pi x 30 x 30 = 2,827.43."""
    shop = f"[rates]\nshaped = '{shaped}'\n{EXTRA}price = '0.01'\nper = 'sq in'\n"
    result = in_shop(tmp_path, shop, "[top]\ndiameter = 60\n" + ORDERED)
    assert line(result, "Prep")[0] == quantity


@pytest.mark.parametrize(
    ("sold", "quantity", "unit", "amount"),
    [
        ("per = 'sq in'\nprice = '0.004'", 6480, "sq in", "25.92"),
        ("per = 'in'\nprice = '0.10'", 324, "in", "32.40"),
        ("per = 'in'\nprice = '0.10'\nof = 'width'", 72, "in", "7.20"),
        ("per = 'in'\nprice = '0.10'\nquantity = 5", 5, "in", "0.50"),
        ("price = 12", 1, "each", "12.00"),
    ],
)
def test_a_line_of_its_own_goes_by_the_top_too(sold: str, quantity: int, unit: str, amount: str):
    result = quoted(f"{TWIN}[[charges.lines]]\nlabel = 'Taped'\n{sold}\n")
    assert line(result, "Taped") == (quantity, unit, amount)


def test_the_arithmetic_says_the_measure(tmp_path: Path):
    result = in_shop(tmp_path, EXTRA + "price = '0.10'\nper = 'in'\nof = 'width'\n", TWIN + ORDERED)
    written = [Notation("in").write(sentence).replace("\u00a0", " ") for sentence in result.quote.working]
    assert "Prep: the width of the billed top, 72 in" in written


def test_an_offer_is_of_the_whole_top_too(tmp_path: Path):
    """25.92 and no tax on labour; what it takes is the name alone."""
    shop = (
        "[taxing]\nclasses = ['material']\n[offers]\nextras = ['prep']\n" + EXTRA + "price = '0.004'\nper = 'sq in'\n"
    )
    result = in_shop(tmp_path, shop, TWIN)
    offer = next(offer for offer in offers_of(result) if offer.label.values.get("label") == "Prep")
    assert str(offer.adds) == "25.92"
    assert offer.label.text == "{label}"
    assert offer.take == {"charges.extras": ["prep"]}


def test_an_extra_by_area_has_no_side_to_go_by(tmp_path: Path):
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, EXTRA + "price = 1\nper = 'sq in'\nof = 'width'\n", TWIN)
    (problem,) = found.value.problems
    assert (problem.code, problem.path, problem.line) == ("measure-of-nothing", "extras.prep.of", 6)


# --- parts of one area -----------------------------------------------------------------------------------------------


def test_areas_add_up_to_the_billed_area():
    """88 x 88 = 7,744. 15 % is 1,161.6, 20 % is 1,548.8, 65 % is 5,033.6. Cut off they are 1,161 + 1,548 + 5,033 =
    7,742; of the two that are left one goes to .8, and one to the first .6."""
    areas = "[[quilting.areas]]\nstyle = 'tiny-fill'\nshare = '15 %'\n"
    areas += "[[quilting.areas]]\nstyle = 'crosshatch-2'\nshare = '20 %'\n"
    result = quoted("[top]\nwidth = 88\nlength = 88\n[quilting]\nstyle = 'custom'\n" + areas)
    quantities = [each.quantity for each in result.quote.lines if each.unit == "sq in"]
    assert sorted(quantities) == [1162, 1549, 5033]
    assert sum(quantities) == 7744


@pytest.mark.parametrize(
    ("quantities", "unit", "printed"),
    [
        (["0.5", "0.5"], "sq in", [1, 0]),
        (["1.4", "1.4", "1.2"], "sq in", [2, 1, 1]),  # 4 less 3: the first .4
        (["0.333", "0.333", "0.334"], "sq ft", ["0.33", "0.33", "0.34"]),
        (["7.2"], "sq in", [7]),
        ([], "sq in", []),
    ],
)
def test_parts_are_printed_so_that_they_add_up(quantities: list[str], unit: str, printed: list[object]):
    shared = shared_out([Fraction(quantity) for quantity in quantities], unit)
    assert shared == [Fraction(str(quantity)) for quantity in printed]


# --- batting off the roll --------------------------------------------------------------------------------------------


ROLL = """[rates]
markup = '60 %'
[battings.cotton-blend]
packages = []
rolls = [{ width = 124, price = '14.40', per = 'yd', step = 'STEP' }]
"""


@pytest.mark.parametrize(
    ("width", "bought", "amount"),
    [(108, 116, "74.24"), (40, 48, "30.72")],  # width + 2 x 4, x 23.04 / 36
)
def test_batting_is_charged_in_the_step_it_is_cut_by(width: int, bought: int, amount: str, tmp_path: Path):
    shop = ROLL.replace("STEP", "1 in")
    result = in_shop(tmp_path, shop, f"[top]\nwidth = {width}\nlength = 115\n[batting]\noverage = 4\n")
    assert line(result, "Batting") == (bought, "in", amount)
    batting = next(each for each in result.quote.lines if each.about == "batting")
    assert batting.rate == Fraction("0.64")  # 14.40 x 1.6 / 36
    assert str(batting.cost) == str(result.quote.currency.round(Fraction(bought) * Fraction("0.4")))


def test_a_step_that_no_unit_writes_exactly_is_refused(tmp_path: Path):
    """A third of a yard is 12 in; a seventh is 5.142857 in, and 13.062857 cm."""
    assert line(in_shop(tmp_path, ROLL.replace("STEP", "1/3 yd"), TWIN), "Batting")[1] == "in"
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, ROLL.replace("STEP", "1/7 yd"), TWIN)
    (problem,) = found.value.problems
    assert (problem.code, problem.line) == ("step-not-writable", 5)


def test_batting_by_the_eighth_of_a_yard_stays_in_yards(tmp_path: Path):
    """116 in is 3.22 yd: 3 1/4 yd x 23.04 = 74.88."""
    shop = ROLL.replace("STEP", "1/8 yd")
    result = in_shop(tmp_path, shop, "[top]\nwidth = 108\nlength = 115\n[batting]\noverage = 4\n")
    assert line(result, "Batting") == (Fraction("3.25"), "yd", "74.88")
