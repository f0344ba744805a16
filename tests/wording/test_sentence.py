"""The kinds of value that a sentence may hold."""

from fractions import Fraction
from itertools import combinations

import pytest

from finishcalc.measures.length import Length
from finishcalc.wording.sentence import Factor, InUnit, Long, NoLess, Price, Share

QUARTER, INCH = Fraction(1, 4), Length.of(1, "in")
SAME_NUMBERS = (
    *combinations((Share(QUARTER), Price(QUARTER), Factor(QUARTER)), 2),
    *combinations((NoLess(INCH), Long(INCH), InUnit(INCH, "in")), 2),
)


@pytest.mark.parametrize(("one", "other"), SAME_NUMBERS, ids=repr)
def test_two_kinds_of_value_with_the_same_number_are_not_equal(one, other):
    assert one != other


def test_two_values_of_one_kind_with_the_same_number_are_equal():
    assert Share(QUARTER) == Share(Fraction(2, 8))


@pytest.mark.parametrize("value", [Share(QUARTER), Price(QUARTER), Factor(QUARTER)], ids=repr)
def test_a_value_is_not_its_bare_number(value):
    assert value != QUARTER
    assert value != (QUARTER,)
