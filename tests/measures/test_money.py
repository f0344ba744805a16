"""Currencies and money, and how money is shared out."""

import operator
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iso4217 import Currency as Reference

from finishcalc.measures.money import Currency, Money, share_out, total
from finishcalc.measures.numbers import MeasureError
from tests.builders import inches

USD, JPY, KWD = Currency.of("USD"), Currency.of("JPY"), Currency.of("KWD")

WITHOUT_MINOR_UNIT = {"XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX"}
"""ISO 4217 gives these "N.A." for a minor unit: metals, bond units, drawing rights, testing, no currency."""


# ---- currencies ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("reference", [found for found in Reference if found.exponent is not None], ids=str)
def test_minor_units_are_those_of_the_standard(reference):
    """Against the `iso4217` package, which carries the standard's list one."""
    assert Currency.of(reference.code).digits == reference.exponent


def test_codes_without_a_minor_unit_in_the_standard_are_refused():
    """The package gives None for them: metals, units of account, tests. No quote is made in them."""
    found = {reference.code for reference in Reference if reference.exponent is None}
    assert found == WITHOUT_MINOR_UNIT
    for code in found:
        with pytest.raises(MeasureError):
            Currency.of(code)


@pytest.mark.parametrize(
    ("codes", "digits"), [("USD EUR GBP CAD AUD", 2), ("JPY KRW ISK", 0), ("KWD BHD JOD OMR TND", 3)]
)
def test_minor_units_that_a_shop_meets(codes, digits):
    """ISO 4217, minor units column."""
    assert {Currency.of(code).digits for code in codes.split()} == {digits}


@pytest.mark.parametrize("code", ["", "US", "USDX", "usd", "Usd", "U5D", "US ", "USD\n", "ÄÖÜ", "ＵＳＤ", "$"])
def test_what_is_not_three_capital_letters_is_no_currency(code):
    with pytest.raises(MeasureError) as refused:
        Currency.of(code)
    assert refused.value.hint


@pytest.mark.parametrize(
    ("currency", "major", "held"),
    [(USD, "0.01", True), (USD, "0.005", False), (JPY, "1", True), (JPY, "0.5", False), (KWD, "0.001", True)],
)
def test_a_currency_knows_what_can_be_paid_in_it(currency, major, held):
    assert currency.holds(Fraction(major)) is held


# ---- money --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("minor", "currency", "text"),
    [
        (17850, USD, "178.50"),
        (5, USD, "0.05"),
        (-5, USD, "-0.05"),
        (0, USD, "0.00"),
        (-17850, USD, "-178.50"),
        (1235, JPY, "1235"),
        (-1, JPY, "-1"),
        (0, JPY, "0"),
        (1250, KWD, "1.250"),
        (-1, KWD, "-0.001"),
        (1, Currency.of("CLF"), "0.0001"),
    ],
)
def test_money_prints_with_the_decimals_of_its_currency(minor, currency, text):
    assert str(Money(minor, currency)) == text
    assert Money(minor, currency).major == Fraction(text)


@given(st.integers(-(10**12), 10**12), st.sampled_from([USD, JPY, KWD]))
def test_printed_money_is_the_exact_amount(minor, currency):
    assert Fraction(str(Money(minor, currency))) == Money(minor, currency).major


def test_money_adds_in_whole_minor_units():
    """0.10 + 0.20 is 0.30 to the cent, which binary floats miss."""
    assert Money(10, USD) + Money(20, USD) == Money(30, USD)
    assert Money(10, USD) - Money(20, USD) == Money(-10, USD) == -Money(10, USD)
    assert total([Money(1, USD)] * 3, USD) == Money(3, USD)
    assert total([], JPY) == JPY.zero
    assert not USD.zero
    assert Money(-1, USD)


@pytest.mark.parametrize("other", [1, 0, Fraction(1), 1.0, Decimal(1), "1.00", None, Money(1, KWD), inches("1")])
@pytest.mark.parametrize("act", [operator.add, operator.sub, operator.lt, operator.le, operator.gt, operator.ge])
def test_money_goes_together_with_its_own_currency_only(act, other):
    with pytest.raises(TypeError):
        act(Money(1, USD), other)
    with pytest.raises(TypeError):
        act(other, Money(1, USD))


@pytest.mark.parametrize("factor", [2, Fraction(2), 2.0])
def test_money_is_not_multiplied_since_that_would_have_to_round(factor):
    with pytest.raises(TypeError):
        Money(1, USD) * factor


def test_a_total_of_two_currencies_is_refused():
    with pytest.raises(TypeError):
        total([Money(1, USD), Money(1, KWD)], USD)


def test_equal_numbers_of_two_currencies_are_not_equal():
    assert Money(1, USD) != Money(1, KWD)
    assert Money(1, USD) != 1


def test_money_is_ordered_by_amount():
    assert Money(-1, USD) < USD.zero < Money(1, USD) <= Money(1, USD)
    assert Money(2, USD) > Money(1, USD) >= Money(1, USD)


def test_money_cannot_be_changed():
    with pytest.raises(AttributeError):
        Money(1, USD).minor = 2


# ---- sharing out --------------------------------------------------------------------------------------------

# By hand: largest remainders first, the earlier of equals first.
SHARED = [
    (100, [1, 1, 1], [34, 33, 33]),
    (-100, [1, 1, 1], [-34, -33, -33]),
    (10, [6, 3, 1], [6, 3, 1]),
    (5, [1, 2], [2, 3]),  # 1.67 and 3.33: one unit left, to the larger remainder
    (4, [1, 2], [1, 3]),  # 1.33 and 2.67
    (1, [1, 1, 1, 1], [1, 0, 0, 0]),
    (0, [3, 4], [0, 0]),
    (7, [0, 1, 0], [0, 7, 0]),
]
weights = st.lists(st.integers(0, 10**6), min_size=1, max_size=12).filter(any)


@pytest.mark.parametrize(("minor", "parts", "expected"), SHARED)
def test_shares_as_worked_out_by_hand(minor, parts, expected):
    assert [share.minor for share in share_out(Money(minor, USD), parts)] == expected


@given(st.integers(-(10**9), 10**9), weights)
def test_shares_add_up_to_the_amount_exactly(minor, parts):
    assert total(share_out(Money(minor, USD), parts), USD) == Money(minor, USD)


@given(st.integers(-(10**9), 10**9), weights)
def test_each_share_is_within_one_minor_unit_of_its_exact_part(minor, parts):
    for share, weight in zip(share_out(Money(minor, USD), parts), parts, strict=True):
        assert abs(share.minor - Fraction(minor * weight, sum(parts))) < 1


@given(st.integers(0, 10**9), weights)
def test_a_larger_weight_never_gets_less_and_of_equals_the_earlier_gets_more(minor, parts):
    shares = [share.minor for share in share_out(Money(minor, USD), parts)]
    ranked = sorted(range(len(parts)), key=lambda place: (-parts[place], place))
    assert [shares[place] for place in ranked] == sorted(shares, reverse=True)


@given(st.integers(-(10**9), 10**9), weights)
def test_a_share_of_a_negative_amount_is_the_mirror(minor, parts):
    assert share_out(Money(-minor, USD), parts) == [-share for share in share_out(Money(minor, USD), parts)]
