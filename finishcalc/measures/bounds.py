"""Bounds of roots, of pi, and of curves that need them, in whole-number arithmetic, rounded outward to a fine grid.

A caller gets one Fraction that is surely not below, or not above, the true value: never an interval, never a
float. Lengths go in and come out as Fractions of a unit that is the caller's.
"""

from fractions import Fraction
from functools import cache
from math import isqrt

GRID = 10**12
"""Bounds are rounded outward to one part in GRID of the unit."""
_FINE = 10**40
_PI_DIGITS = 31415926535897932384626433832795028841971
"""Pi, cut off after 40 decimals (Abramowitz and Stegun, table 1.1)."""

PI_DOWN = Fraction(_PI_DIGITS, _FINE)
PI_UP = Fraction(_PI_DIGITS + 1, _FINE)


def up(value: Fraction) -> Fraction:
    """The least point of the grid that is not below `value`."""
    return Fraction(-(-value.numerator * GRID // value.denominator), GRID)


def down(value: Fraction) -> Fraction:
    """The greatest point of the grid that is not above `value`."""
    return Fraction(value.numerator * GRID // value.denominator, GRID)


def root_down(value: Fraction) -> Fraction:
    """The square root of a value that is not negative, or a hair less."""
    return Fraction(isqrt(value.numerator * _FINE * _FINE // value.denominator), _FINE)


def root_up(value: Fraction) -> Fraction:
    """The square root of a value that is not negative, or a hair more."""
    return Fraction(isqrt(-(-value.numerator * _FINE * _FINE // value.denominator)) + 1, _FINE)


ROOT_2_DOWN = root_down(Fraction(2))
ROOT_2_UP = root_up(Fraction(2))


def circle_up(diameter: Fraction) -> Fraction:
    """The circumference of a circle."""
    return up(PI_UP * diameter)


def ellipse_up(width: Fraction, length: Fraction) -> Fraction:
    """The perimeter of an ellipse with these axes, both above 0.

    The complete elliptic integral by the arithmetic-geometric mean: with a and b the half axes, c(0)^2 = a^2 - b^2
    and c(n+1) = (a(n) - b(n)) / 2, the perimeter is 2 pi (a^2 - sum of 2^(n-1) c(n)^2) / AGM(a, b)
    (Abramowitz and Stegun 17.6.3-4). Every term left out makes it smaller, and b(n) <= AGM, so it is never short.
    """
    if width == length:
        return circle_up(width)
    a, b = max(width, length) / 2, min(width, length) / 2
    dropped = (a * a - b * b) / 2
    a_low, a_high = _in_finest(a), _in_finest(a) + 1
    b_low, b_high = _in_finest(b), _in_finest(b) + 1
    for power in range(8):
        gap = max(a_low - b_high, 0)
        dropped += Fraction(2**power * gap * gap, 4 * _FINE * _FINE)
        a_low, a_high, b_low, b_high = (
            (a_low + b_low) // 2,
            (a_high + b_high) // 2 + 1,
            isqrt(a_low * b_low),
            isqrt(a_high * b_high) + 1,
        )
    return up(2 * PI_UP * (a * a - dropped) * _FINE / b_low)


def _in_finest(value: Fraction) -> int:
    """Count the finest steps in a value, cut off."""
    return value.numerator * _FINE // value.denominator


def atan_up(tangent: Fraction) -> Fraction:
    """The angle, in radians, whose tangent is from 0 to 1.

    Halved three times by tan(x / 2) = t / (1 + root(1 + t^2)), then the alternating series, which ends on a term
    that is added and so is never short.
    """
    for _ in range(3):
        tangent = up(tangent / (1 + root_down(1 + tangent * tangent)))
    square, power, angle = tangent * tangent, tangent, Fraction(0)
    for term in range(9):
        angle += power / (2 * term + 1) * (-1) ** term
        power = up(power * square) if term % 2 else power * square
    return up(8 * angle)


def arc_up(chord: Fraction, depth: Fraction) -> Fraction:
    """The length of the circular arc over a chord, `depth` high in the middle: at most half the chord, above 0."""
    return up(4 * _arc_radius(chord, depth) * atan_up(2 * depth / chord))


def segment_up(chord: Fraction, depth: Fraction) -> Fraction:
    """The area between that arc and its chord: the sector, half the radius times the arc, less the triangle from the
    chord to the centre, which is the radius less `depth` away."""
    radius = _arc_radius(chord, depth)
    return up((radius * arc_up(chord, depth) - chord * (radius - depth)) / 2)


def _arc_radius(chord: Fraction, depth: Fraction) -> Fraction:
    return (chord * chord / 4 + depth * depth) / (2 * depth)


TURN_GRID = 10**15
"""Sines and cosines are taken to the nearest part of this."""


@cache
def direction(degrees: int) -> tuple[Fraction, Fraction]:
    """The cosine and the sine of a whole number of degrees, to the nearest part of TURN_GRID; exact where they are
    rational (0, 90, and the halves of 30, 60 and so on)."""
    quarter, rest = divmod(degrees % 360, 90)
    sine, cosine = _sine(rest), _sine(90 - rest)
    for _ in range(quarter):
        cosine, sine = -sine, cosine
    return cosine, sine


def _sine(degrees: int) -> Fraction:
    """The sine of 0 to 90 degrees: from the series, the cosine's for the steeper half."""
    angle = PI_DOWN * min(degrees, 90 - degrees) / 180
    term, total, power = (angle, angle, 1) if degrees <= 45 else (Fraction(1), Fraction(1), 0)
    while abs(term) * _FINE > 1:
        term = -Fraction(term.numerator * _FINE // term.denominator, _FINE) * angle * angle / (power + 1) / (power + 2)
        total, power = total + term, power + 2
    return Fraction(round(total * TURN_GRID), TURN_GRID)
