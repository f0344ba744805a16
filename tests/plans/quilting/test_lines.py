"""The length of lines and echoes on a shape, and the number of ties, by hand; the general case is proved elsewhere."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.bounds import TURN_GRID, direction
from finishcalc.measures.length import Length
from finishcalc.plans.quilting.lines import channels, echoes, parallels, ties
from finishcalc.plans.top.outline import Shape, circle, oval, rectangle, rounded
from tests.builders import inches
from tests.strategies import examples

QUILT = rectangle(inches(63), inches(87))


def close(length: Length, expected: float, within: float = 1e-4) -> bool:
    """Never short, and over by less than a part in ten thousand."""
    return -1e-9 <= float(length.to("in")) - expected <= within * expected + 1e-3


def test_channels_of_a_quilt():
    """63 x 87 at 3 apart, edges not stitched: 20 lines, 1,740 in (derived)."""
    assert channels(QUILT, inches(3), 90) == inches(1740)


def test_channels_the_other_way():
    """87 / 3 = 29 spaces, 28 lines of 63 (derived)."""
    assert channels(QUILT, inches(3), 0) == inches(28 * 63)


def test_channels_that_do_not_come_out_even():
    """64 wide: lines at 3, 6 ... 63, the last 1 from the edge: 21 of 87 (derived)."""
    assert channels(rectangle(inches(64), inches(87)), inches(3), 90) == inches(21 * 87)


def test_lines_wider_apart_than_the_quilt_are_none():
    assert channels(QUILT, inches(63), 90) == inches(0)
    assert echoes(QUILT, inches(32)) == inches(0)
    assert ties(QUILT, inches(63)) == 0


def test_parallel_lines_at_right_angles():
    """Top to bottom with one in the middle: at 0 and 30 on both sides of 63 wide, 3 lines of 87 (derived)."""
    assert parallels(QUILT, inches(30), 90) == inches(3 * 87)
    assert parallels(QUILT, inches(30), 0) == inches(3 * 63)


def test_a_diagonal_of_a_square():
    """At 45 degrees through the middle of 40 x 40: 40 root 2; at 10 root 2 to each side half of it (derived)."""
    square = rectangle(inches(40), inches(40))
    assert close(parallels(square, inches(40), 45), 40 * math.sqrt(2))
    assert close(parallels(square, inches(Fraction(14142, 1000)), 45), 40 * math.sqrt(2) * 2, 1e-3)


def test_diagonal_lines_come_to_area_over_distance():
    """Parallel lines d apart over an area A are about A / d (derived): 63 x 87 at 1/2 is 10,962."""
    assert abs(parallels(QUILT, inches("1/2"), 30).to("in") / 10962 - 1) < Fraction(1, 200)


def test_the_chords_of_a_circle():
    """Across 60 at 20 apart through the middle: 60 + 2 x 2 root (30^2 - 20^2) (derived)."""
    expected = 60 + 4 * math.sqrt(30**2 - 20**2)
    for angle in (0, 17, 45, 90, 133):
        assert close(parallels(circle(inches(60)), inches(20), angle), expected)


def test_rounded_corners_take_from_the_lines_near_the_edge_only():
    """At 0 degrees the line 30 from the middle of 63 x 87 meets no corner of radius 6; one at 43 does (derived):
    y = 43 is 5 1/2 above the centres at 37 1/2, so each end is short by 6 - root (36 - 30.25)."""
    shape = rounded(inches(63), inches(87), inches(6))
    assert parallels(shape, inches(30), 0) == inches(3 * 63)
    short = 6 - math.sqrt(36 - 5.5**2)
    assert close(parallels(shape, inches(43), 0), 63 + 2 * (63 - 2 * short))


def test_echoes_of_a_rectangle():
    """40 x 60 at 10: 20 x 40 is one echo, perimeter 2 x (20 + 40) = 120; at 20 nothing is left (derived)."""
    assert echoes(rectangle(inches(40), inches(60)), inches(10)) == inches(120)


def test_echoes_of_a_circle():
    """60 across at 10: circles of 40 and 20, pi x 60 (derived)."""
    assert close(echoes(circle(inches(60)), inches(10)), math.pi * 60)


def test_echoes_of_rounded_corners_grow_square():
    """40 x 60 with corners of 5: at 3 a radius of 2 is left, at 6 none (derived)."""
    shape = rounded(inches(40), inches(60), inches(5))
    one = 2 * (34 + 54) - 8 * 2 + 2 * math.pi * 2
    assert close(echoes(shape, inches(18)), 2 * (4 + 24))
    assert close(echoes(shape, inches(3)), one + sum(2 * (100 - 4 * inset) for inset in (6, 9, 12, 15, 18)))


def test_an_oval_with_equal_axes_echoes_like_a_circle():
    assert close(echoes(oval(inches(60), inches(60)), inches(10)), math.pi * 60)


def test_ties():
    """Every 4 in, edges not tied, 90 x 100: 22 x 24 = 528 (derived)."""
    assert ties(rectangle(inches(90), inches(100)), inches(4)) == 528


def test_ties_on_a_curved_top_lie_within_it():
    """On 8 across at 2 from the corner: of 3 x 3 places all but none lie within 4 of the middle; at 1, 7 x 7 less the
    corners beyond (derived by counting x^2 + y^2 < 16)."""
    assert ties(circle(inches(8)), inches(2)) == sum(1 for x in (-2, 0, 2) for y in (-2, 0, 2) if x * x + y * y < 16)
    inside = sum(1 for x in range(-3, 4) for y in range(-3, 4) if x * x + y * y < 16)
    assert ties(circle(inches(8)), inches(1)) == inside


@pytest.mark.parametrize("degrees", range(-360, 720, 15))
def test_directions(degrees: int):
    """Against the standard library's sine and cosine."""
    cosine, sine = direction(degrees)
    assert math.isclose(cosine, math.cos(math.radians(degrees)), abs_tol=2 / TURN_GRID * 10)
    assert math.isclose(sine, math.sin(math.radians(degrees)), abs_tol=2 / TURN_GRID * 10)


def test_right_angles_and_their_thirds_are_exact():
    assert direction(0) == (1, 0)
    assert direction(90) == (0, 1)
    assert direction(60)[0] == direction(30)[1] == Fraction(1, 2)


SIDES = st.integers(8, 120).map(inches)
SHAPES = st.one_of(
    st.builds(rectangle, SIDES, SIDES),
    st.builds(circle, SIDES),
    st.builds(oval, SIDES, SIDES),
    st.builds(lambda width, length: rounded(width, length, min(width, length) / 5), SIDES, SIDES),
)


def turned(shape: Shape) -> Shape:
    return shape._replace(width=shape.length, length=shape.width)


@examples(60)
@given(SHAPES, st.integers(1, 8).map(inches), st.integers(0, 179))
def test_turning_the_top_and_the_lines_together_changes_nothing(shape: Shape, distance: Length, degrees: int):
    straight = abs(parallels(shape, distance, degrees).mm - parallels(turned(shape), distance, (degrees + 90) % 180).mm)
    assert straight <= Fraction(1, 500)
    assert channels(shape, distance, 90) == channels(turned(shape), distance, 0)
    assert abs(echoes(shape, distance).mm - echoes(turned(shape), distance).mm) <= Fraction(1, 500)
    assert ties(shape, distance) == ties(turned(shape), distance)


@examples(60)
@given(SHAPES, st.integers(1, 12).map(inches), st.integers(2, 4))
def test_lines_and_ties_twice_as_near_are_never_fewer(shape: Shape, distance: Length, times: int):
    """All the lines of the wider spacing are among those of the nearer, so it can only be more."""
    near = distance / times
    assert parallels(shape, near, 30) >= parallels(shape, distance, 30)
    assert channels(shape, near, 90) >= channels(shape, distance, 90)
    assert echoes(shape, near) >= echoes(shape, distance)
    assert ties(shape, near) >= ties(shape, distance)
