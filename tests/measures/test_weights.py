"""Weights and weights by area are exact, and know their unit."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import Area
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.weight import AreaWeight, Weight
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Heavy
from tests.builders import inches


def test_the_pound_is_the_agreement_s():
    """0.45359237 kg exactly (international yard and pound agreement of 1959), and 16 oz."""
    assert Weight.parse("1 lb").grams == Fraction("453.59237")
    assert Weight.parse("16 oz") == Weight.parse("1 lb")


def test_an_ounce_a_square_yard_in_grams():
    """28.349523125 g / 0.9144^2 sq m = 33.906 (the trade's figure, derived)."""
    assert round(AreaWeight.of(1, "oz/sq yd").to("g/sq m"), 3) == Fraction("33.906")


@pytest.mark.parametrize(
    ("text", "ounces"),
    [("2 lb", 32), ("12 oz", 12), ("2 lb 8 oz", 40), ("2 1/2 lbs", 40), ("½ lb", 8), ("1.5 lb", 24), ("2lb", 32)],
)
def test_a_weight_as_it_is_written_on_a_parcel(text: str, ounces: int):
    assert Weight.parse(text).to("oz") == ounces


@pytest.mark.parametrize("text", ["2", "", "lb", "2 stone", "8 oz 2 lb", "2 lb 2 lb", "-2 lb", "2,5 kg", 2, True, None])
def test_what_is_no_weight(text: object):
    with pytest.raises(MeasureError):
        Weight.parse(text)


@pytest.mark.parametrize("text", ["4.3 oz/sq yd", "4.3 oz/yd2", "4 3/10 oz/yd²", "4.3"])
def test_a_weight_by_area_in_inch_files(text: str):
    assert AreaWeight.take(text, "in") == AreaWeight.of(Fraction("4.3"), "oz/sq yd")


@pytest.mark.parametrize("text", ["145 g/sq m", "145 g/m2", "145 gsm", "145 g/m²", 145])
def test_a_weight_by_area_in_metric_files(text: object):
    assert AreaWeight.take(text, "cm") == AreaWeight.of(145, "g/sq m")


@pytest.mark.parametrize("text", ["heavy", "4.3 oz", "4.3 in", "145 g", True, [4], ""])
def test_what_is_no_weight_by_area(text: object):
    with pytest.raises(MeasureError):
        AreaWeight.take(text, "in")


@given(
    hundredths=st.integers(10, 20_000),
    unit=st.sampled_from(["oz/sq yd", "g/sq m"]),
    files=st.sampled_from(["in", "cm"]),
)
def test_it_is_read_as_it_is_written(hundredths: int, unit: str, files: str):
    weight = AreaWeight.of(Fraction(hundredths, 100), unit)
    assert AreaWeight.take(str(weight), files) == weight


def test_area_times_weight_by_area_is_a_weight():
    """A yard square of 4 oz cloth."""
    assert AreaWeight.of(4, "oz/sq yd") * Area((inches(36) * inches(36)).mm2) == Weight.of(4, "oz")


@pytest.mark.parametrize(
    ("notation", "ounces", "shown"),
    [(Notation("in"), 96, "6 lb"), (Notation("in"), 100, "6.3 lb"), (Notation("in"), 12, "12 oz")],
)
def test_a_heavy_thing_is_written_in_pounds(notation: Notation, ounces: int, shown: str):
    """100 / 16 = 6.25, half up."""
    assert notation.show(Heavy(Weight.of(ounces, "oz"))).replace("\u00a0", " ") == shown


def test_a_heavy_thing_is_written_in_kilograms():
    assert Notation("cm").show(Heavy(Weight.of(2646, "g"))).replace("\u00a0", " ") == "2.65 kg"
