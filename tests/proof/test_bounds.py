"""Outlines against outside libraries: never short, and within a hundredth of an inch, on 1,000 random shapes."""

import random
from fractions import Fraction

import pytest

from finishcalc.measures.length import Length
from finishcalc.plans.top.outline import Shape, circle, oval, rounded, scalloped

mpmath = pytest.importorskip("mpmath")
special = pytest.importorskip("scipy.special")
geometry = pytest.importorskip("shapely.geometry")

SEED = 20261125
HUNDREDTH = mpmath.mpf("0.01")


def inches(amount: Fraction) -> Length:
    return Length.of(amount, "in")


def sides(chance: random.Random) -> tuple[Fraction, Fraction]:
    """Two sides from 1 to 240 in, in 64ths."""
    return Fraction(chance.randint(64, 240 * 64), 64), Fraction(chance.randint(64, 240 * 64), 64)


def exact(value: Fraction):
    return mpmath.mpf(value.numerator) / value.denominator


def perimeter(shape: Shape):
    return exact(shape.perimeter.to("in"))


def test_ovals_against_the_elliptic_integral():
    """The perimeter is 4 a E(m) with m = 1 - (b / a)^2: mpmath.ellipe to 40 digits, scipy.special.ellipe beside it."""
    chance = random.Random(SEED)
    with mpmath.workdps(40):
        for _ in range(400):
            width, length = sides(chance)
            a, b = exact(max(width, length) / 2), exact(min(width, length) / 2)
            true = 4 * a * mpmath.ellipe(1 - (b / a) ** 2)
            found = oval(inches(width), inches(length))
            assert 0 <= perimeter(found) - true < HUNDREDTH
            assert 0 <= exact(found.area.to("sq in")) - mpmath.pi * a * b < HUNDREDTH
            assert float(true) == pytest.approx(4 * float(a) * special.ellipe(float(1 - (b / a) ** 2)), rel=1e-9)


def test_circles_against_pi():
    chance = random.Random(SEED + 1)
    with mpmath.workdps(40):
        for _ in range(200):
            diameter, _ = sides(chance)
            found = circle(inches(diameter))
            assert 0 <= perimeter(found) - mpmath.pi * exact(diameter) < HUNDREDTH
            assert 0 <= exact(found.area.to("sq in")) - mpmath.pi * exact(diameter) ** 2 / 4 < HUNDREDTH


def test_rounded_rectangles_against_a_buffered_polygon():
    """A rectangle shrunk by the radius and buffered by it: shapely's many-cornered outline is a hair inside."""
    chance = random.Random(SEED + 2)
    for _ in range(200):
        width, length = sides(chance)
        radius = min(width, length) / 2 * Fraction(chance.randint(1, 99), 100)
        inner = geometry.box(float(radius), float(radius), float(width - radius), float(length - radius))
        outline = inner.buffer(float(radius), quad_segs=2048)
        found = rounded(inches(width), inches(length), inches(radius))
        assert -1e-9 <= float(found.perimeter.to("in")) - outline.length < 0.01
        assert -1e-6 <= float(found.area.to("sq in")) - outline.area < 0.01 * float(width)


def test_scallops_against_the_arc_of_a_circle():
    """Each arc is R x 2 asin(chord / 2R) with R = (chord^2 / 4 + depth^2) / (2 depth); one deeper than half its chord
    is more than half a circle."""
    chance = random.Random(SEED + 3)
    with mpmath.workdps(40):
        for _ in range(200):
            width, length = (side + 20 for side in sides(chance))
            chord = Fraction(chance.randint(16, 96), 8)
            depth = chord * Fraction(chance.randint(2, 48), 100)
            found = scalloped(inches(width), inches(length), inches(chord), inches(depth))
            true, area = mpmath.mpf(0), exact((width - 2 * depth) * (length - 2 * depth))
            for side in (width - 2 * depth, length - 2 * depth):
                count = max(1, int(side / chord + Fraction(1, 2)))
                across, high = exact(side / count), exact(depth)
                radius = (across**2 / 4 + high**2) / (2 * high)
                half = mpmath.asin(across / (2 * radius))
                angle = 2 * (half if 2 * high <= across else mpmath.pi - half)
                true += 2 * count * radius * angle
                area += 2 * count * radius**2 * (angle - mpmath.sin(angle)) / 2
            assert 0 <= perimeter(found) - true < HUNDREDTH
            assert 0 <= exact(found.area.to("sq in")) - area < 1
