"""The three places where anything is rounded."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import AREA_UNITS, MM_PER, Length
from finishcalc.measures.money import Currency
from finishcalc.measures.rounding import PRINTED_STEP, half_up, printed, up, up_to_step
from tests.builders import inches

USD, JPY, KWD = Currency.of("USD"), Currency.of("JPY"), Currency.of("KWD")


# Halves away from zero on both sides: the third decimal counts up when it is over 4, Streamlined Sales Tax rule,
# R.I. Gen. Laws 44-18.1-25; the mirror below zero is this project's own rule.
HALVES = [
    ("0.5", 1),
    ("-0.5", -1),
    ("1.5", 2),
    ("-1.5", -2),
    ("2.5", 3),
    ("-2.5", -3),
    ("2.4999", 2),
    ("-2.4999", -2),
    ("2.5001", 3),
    ("-2.5001", -3),
    ("0", 0),
    ("0.4999", 0),
    ("-0.4999", 0),
    ("7", 7),
    ("-7", -7),
]


@pytest.mark.parametrize(("value", "expected"), HALVES)
def test_halves_go_away_from_zero(value, expected):
    assert half_up(Fraction(value)) == expected


@given(st.fractions())
def test_a_discount_is_the_mirror_of_what_it_takes_off(value):
    assert half_up(-value) == -half_up(value)
    assert abs(half_up(value) - value) <= Fraction(1, 2)


@pytest.mark.parametrize(
    ("currency", "major", "text"),
    [
        (USD, "0.625", "0.63"),
        (USD, "0.6249", "0.62"),
        (USD, "-0.625", "-0.63"),
        (USD, "10.184625", "10.18"),
        (JPY, "123.5", "124"),
        (JPY, "123.4", "123"),
        (KWD, "0.6175", "0.618"),
        (KWD, "0.61725", "0.617"),
    ],
)
def test_money_is_rounded_once_to_its_minor_unit(currency, major, text):
    """Each by hand; 10.184625 rounded twice (10.185, 10.19) would be wrong."""
    assert str(currency.round(Fraction(major))) == text


def test_every_unit_of_a_price_has_a_printed_step():
    assert set(PRINTED_STEP) == set(MM_PER) | set(AREA_UNITS) | {"hour", "each", "tie"} | {
        *("seam", "block", "bobbin", "cone", "colour")
    }


@pytest.mark.parametrize(
    ("quantity", "unit", "shown"),
    [
        ("4.125", "yd", "4.125"),
        ("2.7432", "m", "2.743"),
        ("300.25", "in", "300.3"),
        ("-300.25", "in", "-300.3"),
        ("5480.5", "sq in", "5481"),
        ("1.125", "hour", "1.13"),
        ("1", "each", "1"),
        ("3.535", "sq m", "3.54"),
    ],
)
def test_a_quantity_is_printed_half_up_to_its_step(quantity, unit, shown):
    """By hand, from the step of each unit."""
    assert printed(Fraction(quantity), unit) == Fraction(shown)


@given(st.fractions(-(10**6), 10**6), st.sampled_from(sorted(PRINTED_STEP)))
def test_a_printed_quantity_is_the_nearest_step_and_stays_so(quantity, unit):
    shown, step = printed(quantity, unit), PRINTED_STEP[unit]
    assert (shown / step).denominator == 1
    assert abs(shown - quantity) <= step / 2
    assert printed(shown, unit) == shown


@given(st.integers(0, 8000))
def test_no_eighth_of_a_yard_is_lost_in_print(eighths):
    assert printed(Fraction(eighths, 8), "yd") == Fraction(eighths, 8)


@given(st.fractions())
def test_up_is_the_least_whole_number_that_is_not_short(value):
    assert 0 <= up(value) - value < 1


lengths = st.fractions(0, 10**5, max_denominator=1000).map(Length)
steps = st.fractions(Fraction(1, 100), 1000, max_denominator=1000).map(Length)


@given(lengths, steps)
def test_what_is_bought_is_the_least_number_of_steps_that_is_not_short(length, step):
    bought = up_to_step(length, step)
    assert (bought / step).denominator == 1
    assert length <= bought < length + step
    assert up_to_step(bought, step) == bought


@pytest.mark.parametrize(
    ("needed", "step", "bought"),
    [("117", "4.5", "117"), ("117.001", "4.5", "121.5"), ("0", "4.5", "0"), ("22.5", "4.5", "22.5")],
)
def test_an_exact_number_of_steps_is_enough(needed, step, bought):
    """26 x 4.5 = 117 and 5 x 4.5 = 22.5: derived, the eighth of a yard."""
    assert up_to_step(inches(needed), inches(step)) == inches(bought)
