"""Battings: which package covers, which way round, how much off a roll, and what happens where nothing does.

Package sizes and roll widths are common practice; which of them covers is derived.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import Length
from finishcalc.model.materials import Package, Roll
from finishcalc.plans.batting import BattingOption
from tests.builders import Amount, batting, batting_of, inches, package, plans, roll, trade_packages, yards
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
    """Where no package covers, none is chosen and a caution says so."""
    plan = batting_of("112 1/8", 60, batting(*trade_packages()))
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
    plan = batting_of("112 1/8", 60, batting(*trade_packages()))
    assert (plan.supply("shop"), plan.supply("customer")) == (None, None)


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
    """Every option covers one way round or the other, and none is cheaper than the one chosen."""
    plan = batting_of(width, length, batting(*packages, rolls=tuple(rolls)), overage)
    needed = inches(width + 2 * overage), inches(length + 2 * overage)
    for option in plan.options:
        if option.form in ("packaged", "roll"):
            assert _covers(option, *needed)
    assert (plan.chosen is None) == (plan.options == ())
    if plan.chosen:
        assert plan.chosen.cost.minor == min(option.cost.minor for option in plan.options)
    fitting = [package for package in packages if _fits(package.width, package.length, *needed)]
    assert len(fitting) == sum(option.form == "packaged" for option in plan.options)


def _covers(option: BattingOption, width: Length, length: Length) -> bool:
    return _fits(option.width, option.length, width, length)


def _fits(across: Length, along: Length, width: Length, length: Length) -> bool:
    return (across >= width and along >= length) or (across >= length and along >= width)
