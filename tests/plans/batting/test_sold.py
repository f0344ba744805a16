"""Battings: which package covers, which way round, how much off a roll, and what happens where nothing does.

Package sizes and roll widths are common practice; which of them covers is derived.
"""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Area, Length
from finishcalc.model.materials import Package, Roll
from finishcalc.pipeline import Finishing
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.problems import ProblemsFound
from tests.builders import (
    Amount,
    batting,
    batting_of,
    in_shop,
    inches,
    line,
    package,
    page,
    plans,
    quoted,
    replace,
    roll,
    trade_packages,
    yards,
)
from tests.strategies import examples


@pytest.mark.parametrize(
    ("width", "length", "overage", "size"),
    [
        (63, 87, 2, "full"),  # 67x91: the twin of 72x90 fails by 1
        (84, 92, 4, "king"),  # 92x100: the queen of 90x108 fails by 2
        (60, 80, 4, "twin"),  # 68x88
        (36, 52, 4, "crib"),  # 44x60
        (52, 36, 4, "crib"),  # the same the other way round
        (87, 63, 2, "full"),
        (64, 82, 4, "twin"),  # 72x90 exactly
        ("64 1/8", 82, 4, "full"),  # an eighth over
        (112, 112, 4, "king"),  # 120x120 exactly
    ],
)
def test_packages(width: Amount, length: Amount, overage: int, size: str):
    """The smallest package that covers, where larger ones are dearer (derived from the trade's sizes)."""
    chosen = batting_of(width, length, batting(*trade_packages()), overage).chosen
    assert chosen
    assert (chosen.form, chosen.size) == ("packaged", size)


def test_size_needed():
    """63x87 at 2 a side needs 67x91 (derived)."""
    plan = batting_of(63, 87, batting(*trade_packages()), 2)
    assert (plan.width, plan.length) == (inches(67), inches(91))
    assert [option.size for option in plan.options] == ["full", "queen", "king"]


def test_a_package_that_is_written_long_side_first_covers_too():
    """A package covers either way round, however its maker writes it."""
    chosen = batting_of(36, 52, batting(package("crib", 60, 45, 12))).chosen
    assert chosen
    assert chosen.size == "crib"


def test_cheapest_that_covers():
    """A larger package that costs less is the one to take."""
    bargain = package("king on sale", 120, 120, 5)
    chosen = batting_of(36, 52, batting(*trade_packages(), bargain)).chosen
    assert chosen
    assert (chosen.size, chosen.cost.minor) == ("king on sale", 500)


def test_the_smaller_of_two_at_one_price():
    """At the same price less is left over from the smaller."""
    two = [package(str(side), side, side, 9) for side in (120, 90)]
    chosen = batting_of(36, 52, batting(*two)).chosen
    assert chosen
    assert chosen.size == "90"


def test_off_the_roll():
    """84x92 at 4 a side needs 92x100: 100 in off a roll of 96 (derived)."""
    chosen = batting_of(84, 92, batting(rolls=(roll(96, step=inches(1)),))).chosen
    assert chosen
    assert (chosen.form, chosen.width, chosen.length) == ("roll", inches(96), inches(100))


def test_off_the_roll_in_whole_steps():
    """100 in is 2.78 yd: by the eighth 2 7/8, at 13 a yard 37.375, so 37.38 (derived)."""
    chosen = batting_of(84, 92, batting(rolls=(roll(96, 13),))).chosen
    assert chosen
    assert (chosen.length, chosen.cost.minor) == (yards("2 7/8"), 3738)


def test_off_the_roll_the_shorter_way():
    """A roll of 120 holds 92x100 either way, so 92 in are cut off it (derived)."""
    chosen = batting_of(84, 92, batting(rolls=(roll(120, step=inches(1)),))).chosen
    assert chosen
    assert chosen.length == inches(92)


def test_exactly_the_width_of_the_roll():
    """88x92 at 4 a side is 96x100, which a roll of 96 just holds; 88 1/8 it does not hold (derived)."""
    ninety_six = batting(rolls=(roll(96, step=inches(1)),))
    assert batting_of(88, 92, ninety_six).chosen
    assert not any(option.form == "roll" for option in batting_of("88 1/8", 92, ninety_six).options)


def test_a_roll_against_a_package():
    """Whichever costs less is taken: 2 7/8 yd off the roll at 10 is 28.75 (derived)."""
    king = package("king", 120, 120, 30)
    cheap_roll = batting_of(84, 92, batting(king, rolls=(roll(96, 10),))).chosen
    dear_roll = batting_of(84, 92, batting(king, rolls=(roll(96, 11),))).chosen
    assert cheap_roll
    assert dear_roll
    assert (cheap_roll.form, dear_roll.form) == ("roll", "packaged")


def test_nothing_covers():
    """Where no package covers 120 1/8 square, not even joined, none is chosen and a caution says so."""
    plan = batting_of("112 1/8", "112 1/8", batting(*trade_packages()))
    assert plan.chosen is None
    assert plan.options == ()
    assert [told.code for told in plan.cautions] == ["batting-too-small"]


def test_nothing_to_caution_where_one_covers():
    """A batting that covers comes without a caution."""
    assert batting_of(60, 80, batting(*trade_packages())).cautions == ()


@pytest.mark.parametrize(("supplier", "other"), [("shop", "customer"), ("customer", "shop")])
def test_a_batting_is_bought_by_the_one_who_supplies_it(supplier: str, other: str):
    plan = plans(60, 80, batting={"supplied_by": supplier}).batting
    assert plan.chosen
    assert (plan.supply(supplier), plan.supply(other)) == (plan.chosen, None)


def test_nobody_buys_a_batting_that_does_not_cover():
    plan = batting_of("112 1/8", "112 1/8", batting(*trade_packages()))
    assert (plan.supply("shop"), plan.supply("customer")) == (None, None)


# --- charged by the length, half the width or the area ---------------------------------------------------------------

CRIB = '[top]\nuse = "crib"\nwidth = "36 1/2"\nlength = "42 1/2"\n'
"""A crib quilt, with 4 on each side 44 1/2 x 50 1/2."""


def off_roll(charge: str, price: str = "14.40", per: str = "yd", step: str = "1 in", width: int = 124) -> str:
    """A batting that is sold off one roll, at the studio's price and 60 % more."""
    told = f'{{ width = {width}, price = "{price}", per = "{per}", step = "{step}"{charge} }}'
    return f'[batting]\nproduct = {{ preset = "cotton-blend", packages = [], rolls = [{told}] }}\n'


def cost(result: Finishing) -> str:
    return str(result.plans.batting.chosen.cost)


MARKUP = "[rates]\nmarkup = '60 %'\n"


@pytest.fixture
def at_sixty(tmp_path: Path) -> Callable[[str], Finishing]:
    """A result in a shop that adds 60 %."""
    return lambda text: in_shop(tmp_path, MARKUP, text)


@pytest.mark.parametrize(
    ("roll_of", "expected", "own_cost"),
    [
        # 44 1/2 in go up to 45; a yard at 14.40 x 1.6 = 23.04 is 0.64 an inch: 45 x 0.64; 45 x 0.40
        (off_roll(""), (45, "in", "28.80"), "18.00"),
        (off_roll(', charge = "whole-width"'), (45, "in", "28.80"), "18.00"),
        # 50 1/2 lies in 62, half of 124: half of that
        (off_roll(', charge = "half-width"'), (45, "in", "14.40"), "9.00"),
        # half of 96 is 48, in which 44 1/2 lies: 50 1/2, up to 51, at 0.32; the other way round 45 at 0.64 is 28.80
        (off_roll(', charge = "half-width"', width=96), (51, "in", "16.32"), "10.20"),
        # half of 88 is 44: no half will do
        (off_roll(', charge = "half-width"', width=88), (45, "in", "28.80"), "18.00"),
        # 44 1/2 x 50 1/2 = 2,247.25 sq in, printed 2,247, x 0.004 x 1.6 = 0.0064
        (off_roll("", "0.004", "sq in"), (2247, "sq in", "14.38"), "8.99"),
        (off_roll(', charge = "area"', "0.004", "sq in"), (2247, "sq in", "14.38"), "8.99"),
        # 2,247.25 / 1,296 = 1.734 sq yd, printed 1.73, x 4.18 x 1.6 = 6.688
        (off_roll("", "4.18", "sq yd"), (Fraction("1.73"), "sq yd", "11.57"), "7.25"),
    ],
)
def test_the_share_of_a_roll_that_is_charged(
    roll_of: str, expected: tuple[Fraction | int, str, str], own_cost: str, at_sixty: Callable[[str], Finishing]
):
    """44 1/2 x 50 1/2 off a roll, and what of it costs the studio what (derived)."""
    result = at_sixty(CRIB + roll_of)
    assert (line(result, "Batting"), cost(result)) == (expected, own_cost)
    chosen = result.plans.batting.chosen
    assert chosen.length >= inches("44 1/2")


@pytest.mark.parametrize(("width", "length", "amount"), [(108, 112, "74.24"), (40, 44, "30.72")])
def test_inches_off_a_roll_that_is_priced_by_the_yard(
    width: int, length: int, amount: str, at_sixty: Callable[[str], Finishing]
):
    """116 in and 48 in at 23.04 a yard, 0.64 an inch: no thousandth of a yard comes between (derived)."""
    result = at_sixty(f"[top]\nwidth = {width}\nlength = {length}\n" + off_roll(""))
    quantity, unit, price = line(result, "Batting")
    assert (quantity, unit, price) == (width + 8, "in", amount)


@pytest.mark.parametrize(
    ("charge", "words"),
    [
        ("", "45 in of 80/20 cotton blend, off a roll 124 in wide; the offcut is yours"),
        (', charge = "half-width"', "off a roll 124 in wide; charged in half its width: the offcut is the studio's"),
    ],
)
def test_whose_the_offcut_is(charge: str, words: str):
    """She pays the whole width, and it is hers; else it is the studio's. 124 - 50 1/2 = 73 1/2 wide."""
    told = " ".join(page(CRIB + off_roll(charge)).split())
    assert words in told
    offcut = quoted(CRIB + off_roll(charge)).plans.batting.chosen.offcut
    assert offcut == (inches("73 1/2"), inches(45))


def test_an_offcut_that_is_of_no_use_is_not_spoken_of():
    """55 - 50 1/2 = 4 1/2: nothing narrower than 6 is ever joined."""
    assert quoted(CRIB + off_roll("", width=55)).plans.batting.chosen.offcut is None


# --- joined, where nothing is wide enough ----------------------------------------------------------------------------

BIG = "[top]\nwidth = 122\nlength = 124\n"
"""A quilt that wants 130 x 132."""


def test_two_lengths_off_a_roll(at_sixty: Callable[[str], Finishing]):
    """130 along and 132 across: 2 of 96. 2 x 130 = 260 in, at 13.00 / 36 = 93.89, x 1.6 = 150.22. Across the other
    way it is 264. One seam of 130 in: 10.00, and 5 + 130 x 0.1 = 18 min."""
    result = at_sixty(BIG + off_roll("", "13", width=96))
    assert line(result, "Batting, ") == (260, "in", "150.22")
    assert line(result, "Batting joined") == (1, "each", "10.00")
    batting = result.plans.batting
    assert (batting.seams, batting.joined.seam_length, batting.seam_minutes) == (1, inches(130), 18)
    assert [(piece.width, piece.length) for piece in batting.joined.pieces] == [
        (inches(96), inches(130)), (inches(36), inches(130)),
    ]  # fmt: skip
    assert cost(result) == "93.89"
    assert batting.chosen.offcut == (inches(60), inches(130))


def test_three_halves_of_a_roll(at_sixty: Callable[[str], Finishing]):
    """132 in reach into 3 halves of 48: 130 x 3 = 390 in of half a width, at half of 20.80 a yard: 390 x 0.28889."""
    result = at_sixty(BIG + off_roll(', charge = "half-width"', "13", width=96))
    assert line(result, "Batting, ") == (390, "in", "112.67")


def test_by_the_area_of_what_is_joined(at_sixty: Callable[[str], Finishing]):
    """130 x 132 = 17,160 sq in x 0.0064 = 109.824."""
    result = at_sixty(BIG + off_roll("", "0.004", "sq in", width=96))
    assert line(result, "Batting, ") == (17160, "sq in", "109.82")


def test_two_packages():
    """62 x 102 at 4 a side is 70 x 110: of two cribs of 60 x 70, 50 of the second. One seam of 70 (derived)."""
    plan = batting_of(62, 102, batting(package("crib", 60, 70, 12)))
    assert plan.chosen
    assert (plan.chosen.number, plan.chosen.cost.minor, plan.seams) == (2, 2400, 1)
    assert plan.joined
    assert plan.joined.seam_length == inches(70)


def test_one_piece_goes_before_two_that_are_cheaper():
    """The seam is work, and shows: nothing is joined where one piece covers."""
    dear, cheap = package("king", 120, 120, 90), package("crib", 60, 70, 12)
    assert [option.size for option in batting_of(62, 102, batting(dear, cheap)).options] == ["king"]


def test_a_batting_that_does_not_hold_is_not_joined():
    product = replace(batting(package("crib", 60, 70, 12)), joinable=False)
    plan = batting_of(62, 102, product)
    assert plan.chosen is None
    (told,) = plan.cautions
    assert "it cannot be joined, because its edge does not hold" in told.sentence.text


@pytest.mark.parametrize(
    ("roll_of", "code"),
    [
        (off_roll(', charge = "area"'), "charge-against-unit"),
        (off_roll(', charge = "half-width"', "0.004", "sq in"), "charge-against-unit"),
        (off_roll(', charge = "whole-width"', "0.004", "sq in"), "charge-against-unit"),
        (off_roll(', charge = "quarter"'), "not-a-choice"),
        (off_roll("", per="hour"), "not-a-choice"),
        (off_roll("", "0.004", "sq in", step="1/7 in"), "step-not-writable"),
    ],
)
def test_a_charge_that_is_refused(roll_of: str, code: str):
    with pytest.raises(ProblemsFound) as found:
        quoted(CRIB + roll_of)
    assert [problem.code.value for problem in found.value.problems] == [code]
    assert all(problem.line == 6 and problem.hint for problem in found.value.problems)


def test_a_roll_by_the_area_says_what_a_length_of_it_is():
    """A yard of 124 in is 4,464 sq in, 3.444 sq yd."""
    with pytest.raises(ProblemsFound) as found:
        quoted(CRIB + off_roll(', charge = "area"'))
    assert "1 yd off this roll is 3.444 sq yd" in found.value.problems[0].hint


# --- properties ----------------------------------------------------------------------------------------------------

SIDES = st.integers(8, 8 * 140).map(lambda eighths: Fraction(eighths, 8))
PACKAGES = st.lists(
    st.builds(
        lambda width, length, price: package(f"{width}x{length}", width, length, Fraction(price, 100)),
        st.integers(20, 130), st.integers(20, 130), st.integers(0, 9000),
    ),
    max_size=6,
)  # fmt: skip
ROLLS = st.lists(st.builds(roll, st.integers(20, 130), st.integers(0, 40)), max_size=3)


@examples(100)
@given(SIDES, SIDES, st.integers(0, 6), PACKAGES, ROLLS)
def test_what_is_chosen_covers_and_costs_least(
    width: Fraction, length: Fraction, overage: int, packages: list[Package], rolls: list[Roll]
):
    """Every option covers one way round or the other, in one piece where any does, and then the one chosen is the
    cheapest."""
    plan = batting_of(width, length, batting(*packages, rolls=tuple(rolls)), overage)
    needed = inches(width + 2 * overage), inches(length + 2 * overage)
    fitting = [package for package in packages if _fits(package.width, package.length, *needed)]
    in_one_piece = [option for option in plan.options if not option.joined]
    for option in in_one_piece:
        assert _covers(option, *needed)
    assert (plan.chosen is None) == (plan.options == ())
    assert in_one_piece in ([], list(plan.options))
    if plan.chosen and in_one_piece:
        assert plan.chosen.cost.minor == min(option.cost.minor for option in plan.options)
    assert len(fitting) == sum(option.form == "packaged" for option in in_one_piece)


@examples(100)
@given(SIDES, SIDES, PACKAGES, ROLLS, st.sampled_from(["whole-width", "half-width"]))
def test_what_is_joined_covers_and_is_cut_from_what_is_bought(
    width: Fraction, length: Fraction, packages: list[Package], rolls: list[Roll], charge: str
):
    """The pieces lie beside each other and make up what is needed; those off a roll are no wider than it, and their
    lengths together no longer than what is cut off, of which no more than all is charged and no less than is used."""
    charged = tuple(replace(each, charge=charge) for each in rolls)
    plan = batting_of(width, length, batting(*packages, rolls=charged), 4)
    for option in (option for option in plan.options if option.joined):
        assert option.joined
        pieces = option.joined.pieces
        area = sum((piece.width * piece.length).mm2 for piece in pieces)
        assert area == (plan.width * plan.length).mm2
        assert {piece.source for piece in pieces} <= set(range(option.number))
        if option.form == "packaged":
            assert all(_fits(option.width, option.length, piece.width, piece.length) for piece in pieces)
        else:
            assert all(piece.width <= option.width for piece in pieces)
            assert sum((piece.length for piece in pieces), ZERO) <= option.length
            paid = Length.of(option.quantity, option.unit) * option.width
            paid = paid if option.charge == "whole-width" else Area(paid.mm2 / 2)
            assert area <= paid.mm2 <= (option.length * option.width + inches(5) * option.width).mm2


def _covers(option: BattingOption, width: Length, length: Length) -> bool:
    return _fits(option.width, option.length, width, length)


def _fits(across: Length, along: Length, width: Length, length: Length) -> bool:
    return (across >= width and along >= length) or (across >= length and along >= width)
