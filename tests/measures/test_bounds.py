"""Bounds of roots, pi and ellipses: below, above, and near each other."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.bounds import (
    PI_DOWN,
    PI_UP,
    ROOT_2_DOWN,
    ROOT_2_UP,
    arc_up,
    atan_up,
    down,
    root_down,
    root_up,
    up,
)


def test_pi_and_root_2_are_bounded_from_both_sides():
    """Pi to 20 decimals is 3.14159265358979323846, root 2 is 1.41421356237309504880 (Abramowitz and Stegun, 1.1)."""
    tail = Fraction(1, 10**20)
    for low, high, known in (
        (PI_DOWN, PI_UP, Fraction(314159265358979323846, 10**20)),
        (ROOT_2_DOWN, ROOT_2_UP, Fraction(141421356237309504880, 10**20)),
    ):
        assert known - tail <= low < high <= known + tail
    assert ROOT_2_DOWN**2 < 2 < ROOT_2_UP**2


@given(st.fractions(0, 10**6))
def test_roots_bound_what_they_are_roots_of(value: Fraction):
    assert root_down(value) ** 2 <= value < root_up(value) ** 2


@given(st.fractions(-1000, 1000))
def test_the_grid_lies_outside(value: Fraction):
    assert down(value) <= value <= up(value)
    assert up(value) - down(value) <= Fraction(1, 10**12)


def test_the_angle_of_a_half_square_is_a_quarter_of_pi():
    assert PI_DOWN / 4 <= atan_up(Fraction(1)) <= PI_UP / 4 + Fraction(1, 10**9)


def test_half_a_circle_is_an_arc():
    """A chord of 2 and a depth of 1 are half a circle: pi (derived)."""
    assert PI_DOWN <= arc_up(Fraction(2), Fraction(1)) <= PI_UP + Fraction(1, 10**8)
