"""Money, the three places where figures are rounded, and how values are written."""

import operator
import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from iso4217 import Currency as Reference

from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import resolve
from finishcalc.measures.length import AREA_UNITS, MM_PER, Length
from finishcalc.measures.money import Currency, Money, share_out, total
from finishcalc.measures.notation import NO_BREAK, Notation, rounded
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.rounding import PRINTED_STEP, half_up, printed, up, up_to_step
from finishcalc.measures.said import InUnit, Price, Said, Share, say, say_in_house
from tests.builders import quoted

USD, JPY, KWD = Currency.of("USD"), Currency.of("JPY"), Currency.of("KWD")
INCHES = Notation("in", symbol="$")
CENTIMETRES = Notation("cm", ",", ".", "€", "after")

WITHOUT_MINOR_UNIT = {"XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX"}
"""ISO 4217 gives these "N.A." for a minor unit: metals, bond units, drawing rights, testing, no currency."""


def inches(text: str) -> Length:
    return Length.of(Fraction(text), "in")


def on_paper(text: str) -> str:
    """As it is printed: blanks that hold a figure and its unit together become plain ones."""
    return text.replace(NO_BREAK, " ")


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


# ---- the three rounding places ------------------------------------------------------------------------------

# Halves away from zero on both sides: the third decimal counts up when it is over 4, Streamlined Sales Tax rule,
# R.I. Gen. Laws 44-18.1-25; the mirror below zero is this project's own rule.
HALVES = [("0.5", 1), ("-0.5", -1), ("1.5", 2), ("-1.5", -2), ("2.5", 3), ("-2.5", -3), ("2.4999", 2), ("-2.4999", -2),
          ("2.5001", 3), ("-2.5001", -3), ("0", 0), ("0.4999", 0), ("-0.4999", 0), ("7", 7), ("-7", -7)]  # fmt: skip


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
    assert set(PRINTED_STEP) == set(MM_PER) | set(AREA_UNITS) | {"hour", "each", "tie"}


@pytest.mark.parametrize(
    ("quantity", "unit", "shown"),
    [("4.125", "yd", "4.125"), ("2.7432", "m", "2.743"), ("300.25", "in", "300.3"), ("-300.25", "in", "-300.3"),
     ("5480.5", "sq in", "5481"), ("1.125", "hour", "1.13"), ("1", "each", "1"), ("3.535", "sq m", "3.54")],
)  # fmt: skip
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


# ---- writing ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "text"),
    [("60.5", "60 1/2 in"), ("60", "60 in"), ("0.0625", "1/16 in"), ("60.03125", "60.03 in"), ("-0.5", "-1/2 in"),
     ("1200.5", "1,200 1/2 in"), ("-1200.5", "-1,200 1/2 in"), ("999.5", "999 1/2 in"), ("0", "0 in"),
     ("16.9705", "16.97 in"), ("-0.001", "-0.001 in"), ("-0.0001", "0 in"), ("1000", "1,000 in")],
)  # fmt: skip
def test_lengths_in_inches_are_fractions_down_to_sixteenths(length, text):
    """60 1/32 is finer than a ruler shows: 60.03; below one there are three decimals, as for a thickness."""
    assert on_paper(INCHES.show(inches(length))) == text


@pytest.mark.parametrize(
    ("length", "text"),
    [("1 in", "2,54 cm"), ("108 in", "274,32 cm"), ("152 cm", "152 cm"), ("1.5 mm", "0,15 cm"), ("20 m", "2.000 cm"),
     ("1/16 in", "0,159 cm"), ("11.5875 mm", "1,16 cm"), ("1/3 mm", "0,033 cm")],
)  # fmt: skip
def test_lengths_in_centimetres_are_decimals_with_the_shop_s_signs(length, text):
    """1 in = 2.54 cm, 108 in = 274.32 cm: NIST SP 811 App. B.8; 1/16 in = 0.15875 cm: derived.

    Below one, three decimals.
    """
    assert on_paper(CENTIMETRES.show(Length.parse(length))) == text


@pytest.mark.parametrize(
    ("amount", "unit", "text"),
    [
        ("4 1/8 yd", "yd", "4 1/8 yd"),
        ("108 in", "m", "2,743 m"),
        ("1/3 ft", "ft", "0,333 ft"),
        ("12.5 mm", "mm", "12,5 mm"),
    ],
)
def test_what_is_sold_in_a_unit_is_written_in_it(amount, unit, text):
    assert on_paper(CENTIMETRES.show(InUnit(Length.parse(amount), unit))) == text


@pytest.mark.parametrize(
    "value",
    [inches("60.5"), inches("1200.5"), InUnit(inches("36"), "yd"), Share(Fraction(1, 4)), inches("1") * inches("1"),
     Money(123456, USD)],
    ids=lambda value: type(value).__name__,
)  # fmt: skip
def test_a_figure_and_its_unit_stay_on_one_line(value):
    """No place at which a line may be broken."""
    assert " " not in INCHES.show(value)
    assert " " not in CENTIMETRES.show(value)


def test_a_size_names_its_unit_once():
    assert on_paper(INCHES.size(inches("60.5"), inches("84"))) == "60 1/2 x 84 in"
    assert on_paper(CENTIMETRES.size(Length.parse("152.4 cm"), Length.parse("2 m"))) == "152,4 x 200 cm"


def test_areas_are_written_to_their_printed_step():
    """1 sq yd = 1296 sq in = 8361.2736 sq cm: NIST SP 811 App. B.8, derived."""
    square_yard = Length.of(1, "yd") * Length.of(1, "yd")
    assert on_paper(INCHES.show(square_yard)) == "1,296 sq in"
    assert on_paper(CENTIMETRES.show(square_yard)) == "8.361 sq cm"


MONEY = [
    (Notation("in", symbol="$"), Money(123456, USD), "$1,234.56"),
    (Notation("in", symbol="$"), Money(-3530, USD), "-$35.30"),
    (Notation("in"), Money(3530, USD), "USD 35.30"),
    (Notation("in"), Money(-3530, USD), "-USD 35.30"),
    (Notation("in", symbol="kr"), Money(3530, Currency.of("SEK")), "kr 35.30"),
    (Notation("in", symbol="R$"), Money(3530, Currency.of("BRL")), "R$35.30"),
    (Notation("cm", ",", ".", "€", "after"), Money(123456789, Currency.of("EUR")), "1.234.567,89 €"),
    (Notation("cm", ",", ".", "€", "after"), Money(-3530, Currency.of("EUR")), "-35,30 €"),
    (Notation("cm", ",", ".", "", "after"), Money(3530, Currency.of("EUR")), "35,30 EUR"),
    (Notation("cm", ".", "'", "CHF"), Money(123456, Currency.of("CHF")), "CHF 1'234.56"),
    (Notation("cm", ",", "\u202f", "€", "after"), Money(123456, Currency.of("EUR")), "1\u202f234,56 €"),
    (Notation("cm", ".", "", "¥"), Money(1234567, JPY), "¥1234567"),
    (Notation("cm", ".", ",", "¥"), Money(1234567, JPY), "¥1,234,567"),
    (Notation("cm", ".", ",", "KD"), Money(1234567, KWD), "KD 1,234.567"),
    (Notation("in", symbol="$"), Money(99999, USD), "$999.99"),
    (Notation("in", symbol="$"), Money(100000, USD), "$1,000.00"),
    (Notation("in", symbol="$"), Money(-100000, USD), "-$1,000.00"),
    (Notation("in", symbol="$"), Money(0, USD), "$0.00"),
]


@pytest.mark.parametrize(("notation", "amount", "text"), MONEY)
def test_money_is_written_with_the_shop_s_signs(notation, amount, text):
    assert on_paper(notation.show(amount)) == text


def test_a_column_that_names_the_currency_once_has_bare_money():
    assert CENTIMETRES.bare_money(Money(-123456, USD)) == "-1.234,56"


@pytest.mark.parametrize(
    ("part", "text"),
    [("0.25", "25 %"), ("0.0825", "8,25 %"), ("1", "100 %"), ("0", "0 %"), ("1/3", "33,333 %"), ("-0.1", "-10 %"),
     ("0.00125", "0,125 %"), ("10", "1.000 %")],
)  # fmt: skip
def test_shares_are_written_in_per_cent(part, text):
    assert on_paper(CENTIMETRES.show(Share(Fraction(part)))) == text


@pytest.mark.parametrize(
    ("major", "text"),
    [("0.03", "0.03"), ("0.045", "0.045"), ("15.4", "15.40"), ("20", "20.00"), ("0", "0.00"), ("1234.5", "1,234.50"),
     ("0.0083", "0.0083"), ("1/3", "0.333333333333"), ("0.123456789", "0.123456789")],
)  # fmt: skip
def test_a_price_keeps_every_decimal_it_has(major, text):
    """A rate must be readable off the page: 0.045 is not 0.05."""
    assert on_paper(INCHES.show(Price(Fraction(major)))) == text


@given(st.decimals(0, 10**6, places=9))
def test_the_price_on_paper_is_the_price(major):
    assert Fraction(Notation("in", group="").price(Fraction(major))) == Fraction(major)


@pytest.mark.parametrize(
    ("value", "text"), [(1234567, "1.234.567"), (0, "0"), (Fraction(1, 3), "0,333"), (Fraction(-1, 10**6), "0")]
)
def test_plain_numbers_have_no_trailing_zeros_and_no_negative_nought(value, text):
    assert on_paper(CENTIMETRES.show(value)) == text


@given(st.fractions(-(10**12), 10**12), st.integers(0, 9))
def test_a_rounded_number_is_half_up_with_exactly_its_places(amount, places):
    text = rounded(amount, places)
    assert Fraction(text) == Fraction(half_up(amount * 10**places), 10**places)
    assert len(text.partition(".")[2]) == places


@given(st.integers(-(10**15), 10**15))
def test_grouping_only_adds_signs(minor):
    text = Notation("in", ".", ",").bare_money(Money(minor, USD))
    assert text.replace(",", "") == str(Money(minor, USD))
    groups = text.lstrip("-").partition(".")[0].split(",")
    assert all(len(group) == 3 for group in groups[1:])
    assert 1 <= len(groups[0]) <= 3


def test_a_sentence_is_written_in_anyone_s_units():
    said = say("{width} at {rate}, {share}: {amount}", width=inches("60.5"), rate=Price(Fraction(3, 100)),
               share=Share(Fraction(1, 4)), amount=Money(123456, USD))  # fmt: skip
    assert on_paper(INCHES.say(said)) == "60 1/2 in at 0.03, 25 %: $1,234.56"
    assert on_paper(CENTIMETRES.say(said)) == "153,67 cm at 0,03, 25 %: 1.234,56 €"


def test_a_name_with_braces_is_not_filled_in():
    assert on_paper(INCHES.say(say("{name}", name="{width}"))) == "{width}"


def test_a_sentence_says_who_may_read_it():
    assert say("a").audience == "customer"
    assert say_in_house("a") == Said("a", {}, "studio")


# ---- writing, from a file to the page -----------------------------------------------------------------------


def test_the_working_is_written_in_the_project_s_own_units():
    """Centimetres asked, centimetres told: no length slips through in the unit it is kept in."""
    result = quoted('units = "cm"\n[top]\nwidth = 160\nlength = 220\n')
    told = [on_paper(CENTIMETRES.say(said)) for said in result.quote.working]
    assert told
    assert [text for text in told if re.search(r"[0-9] (mm|in|yd)\b", text)] == []


def test_a_shop_in_another_currency_does_not_write_the_sample_shop_s_symbol(tmp_path):
    """Pounds with a dollar sign are a wrong price on the customer's sheet."""
    shop = tmp_path / "shop.toml"
    shop.write_text('[money]\ncurrency = "GBP"\n', encoding="utf-8")
    money = resolve(Source("a top", "[top]\nwidth = 60\nlength = 80\n"), str(shop)).shop.money
    assert (money.currency.code, money.symbol == "$") == ("GBP", False)
