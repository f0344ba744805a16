"""Numbers and lengths: what the door takes, what it refuses, and that a printed length reads back as itself."""

import string
import unicodedata
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import MM_PER, ZERO, Area, Length, mixed
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.numbers import DIGITS, VULGAR, MeasureError, exact, shorten
from finishcalc.problems import ProblemsFound

INCH = Length.of(1, "in")
FIVE_THOUSAND_DIGITS = "1" * 5000

# Each unit in millimetres. Inch and yard: international yard and pound agreement of 1959, NIST SP 811 (2008)
# App. B.8. Foot: a third of that yard, derived. Metric: SI prefixes.
UNITS = [("in", "25.4"), ("ft", "304.8"), ("yd", "914.4"), ("mm", "1"), ("cm", "10"), ("m", "1000")]

# What a quilter writes, the unit of a bare number, and the millimetres worked out by hand from the inch of 25.4 mm.
WRITTEN = [
    ("1/8 yd", "in", "114.3"),  # 4 1/2 in x 25.4: derived
    ("4 1/2", "in", "114.3"),
    ("108 in", "cm", "2743.2"),  # 108 x 25.4: derived
    ("60", "in", "1524"),
    ("60.5", "in", "1536.7"),  # 60 1/2 x 25.4 = 1524 + 12.7: derived
    ("60 1/2", "in", "1536.7"),
    ("60-1/2", "in", "1536.7"),
    ("60½", "in", "1536.7"),
    ("60 ½", "in", "1536.7"),
    ("60 1⁄2", "in", "1536.7"),
    ("  60 1/2  ", "in", "1536.7"),
    (".5", "in", "12.7"),
    ("½", "in", "12.7"),
    ("121/2", "in", "1536.7"),
    ("1 1/4 yd", "in", "1143"),  # 1.25 x 914.4: derived
    ("152 cm", "in", "1520"),
    ("152", "cm", "1520"),
    ("152", "mm", "152"),
    ("2.5 m", "in", "2500"),
    ("6 ft 2 in", "cm", "1879.6"),  # 74 x 25.4: derived
    ("6' 2\"", "cm", "1879.6"),
    ("6′ 2″", "cm", "1879.6"),
    ("1 yd 4 1/2 in", "cm", "1028.7"),  # 40 1/2 x 25.4: derived
    ("2 yards", "in", "1828.8"),
    ("2 feet 1 inch", "in", "635"),  # 25 x 25.4: derived
    ("5 inches", "cm", "127"),
    ("-1/2", "in", "-12.7"),
    ("0", "in", "0"),
]

REFUSED_TEXT = [
    "",
    "   ",
    "in",
    "1_000",
    "1 000",
    "1,000",
    "60,5",
    "٣",
    "٣ in",
    "１２",
    "३",
    "1/0",
    "1 1/0",
    "60 0/0",
    "0x10",
    "1e3",
    "1e400000",
    "inf",
    "-inf",
    "nan",
    "true",
    "none",
    "+5",
    "--5",
    "5.",
    ".",
    "/",
    "1/2/3",
    "½½",
    "60.5 1/2",
    "60 1/2 1/2",
    "1 2",
    "4 5 in",
    "in 5",
    "5 in in",
    "6 ft 2",
    "1000000000",
    "1.0000000001",
    "60 1/12345",
    "5 cm²",
    "5 \u202ein",
    "5\x00",
    FIVE_THOUSAND_DIGITS,
    f"1/{FIVE_THOUSAND_DIGITS}",
    f"0.{FIVE_THOUSAND_DIGITS}",
]

REFUSED_VALUES = [
    True,
    False,
    None,
    [],
    {},
    (1,),
    b"60",
    60.5,
    float("inf"),
    float("nan"),
    Decimal("inf"),
    Decimal("-inf"),
    Decimal("nan"),
    Decimal("sNaN"),
    Decimal("1e400000"),
    Decimal("-1e400000"),
    Decimal("1e-400000"),
    Decimal("1e9"),
    Decimal("1e-10"),
    Decimal(f"1.{FIVE_THOUSAND_DIGITS}"),
    Decimal(FIVE_THOUSAND_DIGITS),
    10**9,
    -(10**9),
    10**5000,
]


def mm(text: str) -> Length:
    return Length(Fraction(text))


def outcome(take: Callable[[], Any]) -> Any:
    """What is taken, or the refusal; anything else that goes wrong is a crash."""
    try:
        return take()
    except MeasureError as refused:
        return refused


@pytest.mark.parametrize(("unit", "millimetres"), UNITS)
def test_units_are_exactly_as_published(unit, millimetres):
    assert Length.of(1, unit).mm == Fraction(millimetres)


def test_every_unit_of_length_stands_in_the_table_above():
    assert set(MM_PER) == {unit for unit, _ in UNITS}


def test_a_square_yard_is_1296_square_inches_and_a_little_under_a_square_metre():
    """36 x 36 = 1296; 0.9144 x 0.9144 = 0.83612736: NIST SP 811 App. B.8, and derived."""
    area = Length.of(1, "yd") * Length.of(1, "yd")
    assert (area.to("sq in"), area.to("sq m")) == (1296, Fraction("0.83612736"))
    assert area.to("sq cm") == Fraction("8361.2736")
    assert area.to("sq ft") == 9


@pytest.mark.parametrize(("text", "unit", "millimetres"), WRITTEN)
def test_a_length_reads_as_a_quilter_means_it(text, unit, millimetres):
    assert Length.parse(text, unit) == mm(millimetres)


def test_an_eighth_of_a_yard_is_four_and_a_half_inches():
    """36 / 8 = 4.5: derived."""
    assert Length.parse("1/8 yd").to("in") == Fraction("4.5")
    assert Length.parse("108 in").to("yd") == 3


@pytest.mark.parametrize("char", VULGAR)
def test_one_character_fractions_are_what_unicode_says(char):
    """The compatibility decomposition of the Unicode Character Database: ½ is 1⁄2."""
    above, below = unicodedata.normalize("NFKD", char).split("⁄")
    assert exact(char) == Fraction(int(above), int(below))


@pytest.mark.parametrize(
    ("value", "expected"),
    [(60, "60"), (Decimal("60.5"), "60.5"), ("60 1/2", "60.5"), (0, "0"), (-3, "-3"), (Decimal("1e8"), "100000000")],
)
def test_a_bare_number_of_any_kind_is_exact(value, expected):
    assert exact(value) == Fraction(expected)
    assert Length.take(value, "in") == Length.of(Fraction(expected), "in")


def test_a_tenth_is_a_tenth():
    """No binary float comes between: Decimal("0.1") is 1/10."""
    assert exact(Decimal("0.1")) == exact("0.1") == exact("1/10") == Fraction(1, 10)


@pytest.mark.parametrize("text", REFUSED_TEXT)
def test_text_that_is_no_length_is_refused_with_a_mend(text):
    with pytest.raises(MeasureError) as refused:
        Length.parse(text, "in")
    assert str(refused.value)
    assert refused.value.hint
    assert len(str(refused.value)) < 120


@pytest.mark.parametrize("text", REFUSED_TEXT)
def test_text_that_is_no_number_is_refused(text):
    with pytest.raises(MeasureError):
        exact(text)


@pytest.mark.parametrize("value", REFUSED_VALUES, ids=lambda value: shorten(type(value).__name__))
def test_values_that_are_no_number_are_refused_with_a_mend(value):
    with pytest.raises(MeasureError) as refused:
        exact(value)
    assert str(refused.value)
    assert refused.value.hint
    with pytest.raises(MeasureError):
        Length.take(value, "in")


@pytest.mark.parametrize(("value", "word"), [(True, "true"), (Decimal("inf"), "inf"), (Decimal("nan"), "nan")])
def test_the_refusal_names_the_word_in_the_file(value, word):
    with pytest.raises(MeasureError, match=rf"^{word} is not"):
        exact(value)


@pytest.mark.parametrize("text", ["5 furlongs", "5 km", "5 inchs", "6 ft 2 ell"])
def test_an_unknown_unit_is_named(text):
    with pytest.raises(MeasureError, match="is not a unit of length") as refused:
        Length.parse(text)
    assert "in, ft, yd" in refused.value.hint


def test_division_by_zero_is_told_as_that():
    with pytest.raises(MeasureError, match="divides by zero"):
        Length.parse("60 1/0", "in")


@pytest.mark.parametrize("text", ["6 ft -2 in", "60 - 1/2", "60 -- 1/2", "60 -1/2", "-6 ft 2 in"])
def test_a_sign_inside_a_length_is_refused_since_it_has_two_readings(text):
    """70 in or 74 in? 59 1/2 or 60 1/2? A guess may come up short."""
    with pytest.raises(MeasureError):
        Length.parse(text, "in")


def test_no_number_has_more_digits_after_the_point_than_promised():
    """The door says: at most 9 digits before or after the point, for a bare number as for a quoted one."""
    text = "0." + "1" * (DIGITS + 1)
    for value in (text, Decimal(text)):
        with pytest.raises(MeasureError):
            exact(value)


def test_as_many_digits_as_promised_are_taken():
    assert exact("999999999") == exact(999_999_999) == 999_999_999
    assert exact("0.123456789") == exact(Decimal("0.123456789")) == Fraction(123_456_789, 10**9)


@given(st.text(alphabet=string.digits + " -/.½¼inftydcm'\"_eE٣", max_size=30) | st.text(max_size=30))
def test_any_text_is_a_length_or_refused_never_a_crash(text):
    found = outcome(lambda: Length.parse(text, "in"))
    assert found.hint if isinstance(found, MeasureError) else isinstance(found, Length)


@given(st.decimals() | st.integers() | st.floats() | st.text(max_size=20))
def test_any_value_is_an_exact_number_or_refused(value):
    found = outcome(lambda: exact(value))
    assert found.hint if isinstance(found, MeasureError) else type(found) is Fraction


sixty_fourths = st.integers(-64 * 10**6, 64 * 10**6).map(lambda n: Length.of(Fraction(n, 64), "in"))
millimetres = st.fractions(-(10**5), 10**5, max_denominator=9999).map(Length)


@given(sixty_fourths | millimetres)
def test_a_printed_length_reads_back_as_itself(length):
    assert Length.parse(str(length)) == length


@given(
    st.decimals(min_value=0, max_value=10_000, places=5, allow_nan=False, allow_infinity=False),
    st.sampled_from(sorted(MM_PER)),
)
def test_whatever_the_door_takes_can_be_printed_and_read_again(number, unit):
    """Length.parse(str(x)) == x holds for every length that a file may give, not only for short ones."""
    length = Length.take(number, unit)
    assert Length.parse(str(length)) == length


@pytest.mark.parametrize(
    ("inches", "text"),
    [("60", "60 in"), ("60.5", "60 1/2 in"), ("0.5", "1/2 in"), ("-60.5", "-60 1/2 in"), ("0", "0 in")],
)
def test_a_length_prints_as_a_ruler_shows_it(inches, text):
    assert str(Length.of(Fraction(inches), "in")) == text


def test_a_length_that_no_ruler_in_inches_shows_prints_in_millimetres():
    assert str(Length.of(1, "cm")) == "10 mm"
    assert str(mm("1/3")) == "1/3 mm"


@pytest.mark.parametrize(
    ("value", "text"),
    [("121/2", "60 1/2"), ("1/8", "1/8"), ("-1/8", "-1/8"), ("-9/8", "-1 1/8"), ("3", "3"), ("0", "0"), ("-3", "-3")],
)
def test_mixed_numbers_keep_one_sign(value, text):
    assert mixed(Fraction(value)) == text


@pytest.mark.parametrize(
    "other", [1, Fraction(1), 1.0, "1 in", None, Money(100, Currency.of("USD")), Area(Fraction(1))]
)
def test_nothing_but_a_length_is_added_to_a_length(other):
    with pytest.raises(TypeError):
        INCH + other
    with pytest.raises(TypeError):
        other + INCH
    with pytest.raises(TypeError):
        INCH - other
    with pytest.raises(TypeError):
        other - INCH


@pytest.mark.parametrize("factor", [1.5, Decimal("1.5"), "2", None, Money(100, Currency.of("USD"))])
def test_a_length_is_multiplied_and_divided_by_exact_numbers_only(factor):
    with pytest.raises(TypeError):
        INCH * factor
    with pytest.raises(TypeError):
        INCH / factor


@pytest.mark.parametrize("other", [1, Fraction(1), INCH, Money(100, Currency.of("USD"))])
def test_nothing_but_an_area_is_added_to_an_area(other):
    with pytest.raises(TypeError):
        INCH * INCH + other


def test_length_times_length_is_area_and_back():
    """63 x 87 = 5481: derived."""
    width, length = Length.of(63, "in"), Length.of(87, "in")
    area = width * length
    assert isinstance(area, Area)
    assert area.to("sq in") == 5481
    assert area / length == width
    assert area + area == width * (length * 2)


def test_length_over_length_is_a_plain_ratio():
    """87 / 10 in passes of 10: derived."""
    assert Length.of(87, "in") / Length.of(10, "in") == Fraction("8.7")
    assert type(INCH / INCH) is Fraction


def test_arithmetic_of_lengths():
    assert INCH * 3 == 3 * INCH == INCH + INCH + INCH == Length.of(3, "in")
    assert INCH - INCH == ZERO
    assert INCH / 2 * 2 == INCH
    assert not ZERO
    assert INCH


def test_lengths_are_ordered_whatever_the_unit():
    """1 yd = 0.9144 m < 1 m (NIST SP 811 App. B.8)."""
    assert Length.of(1, "cm") < INCH < Length.of(1, "ft") < Length.of(1, "yd") < Length.of(1, "m")
    assert max(Length.of(36, "in"), Length.of(1, "m")) == Length.of(1, "m")
    assert Length.of(36, "in") == Length.of(1, "yd")
    assert hash(Length.of(36, "in")) == hash(Length.of(1, "yd"))


def test_a_length_is_not_compared_with_a_number_or_an_area():
    with pytest.raises(TypeError):
        INCH < 2  # noqa: B015
    with pytest.raises(TypeError):
        INCH < INCH * INCH  # noqa: B015
    assert Fraction("25.4") != INCH


def test_a_length_cannot_be_changed():
    with pytest.raises(AttributeError):
        INCH.mm = Fraction(25)


@pytest.mark.parametrize(
    "key",
    ["backing.overage", "backing.seams", "backing.supplied_by", "charges.rush", "charges.extras", "cloth", "title"],
)
def test_thousands_of_hexadecimal_digits_are_refused_wherever_they_stand(key):
    """TOML reads 0xfff... of any length, and Python refuses to write such a number in decimal."""
    text = f"{key} = 0x{'f' * 6000}\ntop = {{ width = 60, length = 80 }}\n"
    with pytest.raises(ProblemsFound) as refused:
        resolve(Source("a top", text))
    assert refused.value.problems[0].message


def test_long_text_is_cut_where_it_is_repeated():
    assert shorten("x" * 40) == "x" * 40
    assert shorten("x" * 41) == "x" * 37 + "..."
