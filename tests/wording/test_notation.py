"""Amounts and lengths as they are written."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import half_up
from finishcalc.wording.notation import NO_BREAK, Notation, rounded
from finishcalc.wording.sentence import InUnit, Price, Sentence, Share, Spare, Value, say, say_in_house
from tests.builders import inches, quoted

USD, JPY, KWD = Currency.of("USD"), Currency.of("JPY"), Currency.of("KWD")

INCHES = Notation("in", symbol="$")


CENTIMETRES = Notation("cm", ",", ".", "€", "after")


def on_paper(text: str) -> str:
    """As it is printed: blanks that hold a figure and its unit together become plain ones."""
    return text.replace(NO_BREAK, " ")


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
    sentence = say("{width} at {rate}, {share}: {amount}", width=inches("60.5"), rate=Price(Fraction(3, 100)),
               share=Share(Fraction(1, 4)), amount=Money(123456, USD))  # fmt: skip
    assert on_paper(INCHES.write(sentence)) == "60 1/2 in at 0.03, 25 %: $1,234.56"
    assert on_paper(CENTIMETRES.write(sentence)) == "153,67 cm at 0,03, 25 %: 1.234,56 €"


def test_a_name_with_braces_is_not_filled_in():
    assert on_paper(INCHES.write(say("{name}", name="{width}"))) == "{width}"


def test_a_sentence_says_who_may_read_it():
    assert say("a").audience == "customer"
    assert say_in_house("a") == Sentence("a", {}, "studio")


# ---- writing, from a file to the page -----------------------------------------------------------------------


def test_the_working_is_written_in_the_project_s_own_units():
    """Centimetres asked, centimetres told: no length slips through in the unit it is kept in."""
    result = quoted('units = "cm"\n[top]\nwidth = 160\nlength = 220\n')
    told = [on_paper(CENTIMETRES.write(said)) for said in result.quote.working]
    assert told
    assert [text for text in told if re.search(r"[0-9] (mm|in|yd)\b", text)] == []


def test_a_shop_in_another_currency_does_not_write_the_sample_shop_s_symbol(tmp_path):
    """Pounds with a dollar sign are a wrong price on the customer's sheet."""
    shop = tmp_path / "shop.toml"
    shop.write_text('[money]\ncurrency = "GBP"\n', encoding="utf-8")
    money = resolve(Source("a top", "[top]\nwidth = 60\nlength = 80\n"), str(shop)).shop.money
    assert (money.currency, money.symbol == "$") == ("GBP", False)


# ---- by a ruler ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("notation", "value", "text"),
    [
        (INCHES, inches("60.17"), "60 1/4 in"),  # up: cloth must reach
        (INCHES, Spare(inches("60.17")), "60 1/8 in"),  # down: nobody has more
        (INCHES, inches("1/3"), "3/8 in"),
        (INCHES, inches("60 1/16"), "60 1/16 in"),  # a sixteenth that a file has
        (INCHES, InUnit(inches("60"), "yd"), "60 in"),  # 1.667 yd is nothing that a shop cuts
        (INCHES, InUnit(inches("58 1/2"), "yd"), "1 5/8 yd"),
        (CENTIMETRES, Length.parse("1 in"), "2,6 cm"),
        (CENTIMETRES, Spare(Length.parse("1 in")), "2,5 cm"),
    ],
)
def test_by_a_ruler_lengths_have_eighths_or_millimetres(notation: Notation, value: Value, text: str):
    assert on_paper(notation._replace(ruler=True).show(value)) == text


def test_what_a_ruler_writes_is_exact_again_for_arithmetic():
    assert on_paper(INCHES._replace(ruler=True).exactly().show(inches("60.17"))) == "60.17 in"
