"""The length of straight lines and echoes on a shape, and the number of ties: exact but for roots, rounded up.

Channels and grids are measured from the edge: the first line lies one distance in from it, and the edge itself is not
stitched. Parallel lines and crosshatches have one line through the middle. Echoes follow the outline, the first one
distance in from the edge. A scalloped edge counts as the rectangle around it.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from finishcalc.measures.bounds import PI_UP, direction, root_up
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up
from finishcalc.plans.shape import Shape

FINE = 1000
"""A sum is rounded up to this part of a millimetre."""
STEPS = 32
"""An echo in an oval is taken as so many short arcs in each quarter."""

Interval = tuple[Fraction, Fraction]


def channels(shape: Shape, distance: Length, degrees: int) -> Length:
    """Lines that run at 0 degrees (side to side) or 90 (top to bottom), measured from the edge."""
    across = shape.width if degrees == 90 else shape.length
    half, step = across.mm / 2, distance.mm
    offsets = (step * n - half for n in range(1, up(across.mm / step)))
    return _whole(sum((_chord(shape, offset, degrees) for offset in offsets), Fraction(0)))


def parallels(shape: Shape, distance: Length, degrees: int) -> Length:
    """Lines at any angle to the side-to-side direction, one of them through the middle. The outline is the same on
    both sides of the middle, so one side is counted twice."""
    cosine, sine = direction(degrees)
    reach = _reach(shape, cosine, sine)
    outer = (_chord(shape, distance.mm * n, degrees) for n in range(1, int(reach / distance.mm) + 1))
    return _whole(_chord(shape, Fraction(0), degrees) + 2 * sum(outer, Fraction(0)))


def echoes(shape: Shape, distance: Length) -> Length:
    """Outlines within the outline, as many as there is room for."""
    room = min(shape.width, shape.length).mm / 2
    insets = (distance.mm * n for n in range(1, up(room / distance.mm)))
    return _whole(sum((_inner(shape, inset) for inset in insets), Fraction(0)))


def ties(shape: Shape, distance: Length) -> int:
    """Crossings of a grid measured from the upper left corner, the edges not tied, that lie within the outline."""
    across, down = (up(side / distance) - 1 for side in (shape.width, shape.length))
    if shape.name == "rectangle" and not shape.corner:
        return across * down
    places = ((distance * column, distance * row) for row in range(1, down + 1) for column in range(1, across + 1))
    return sum(1 for x, y in places if _is_inside(shape, x.mm, y.mm))


def _whole(total: Fraction) -> Length:
    return Length(Fraction(up(total * FINE), FINE))


def _reach(shape: Shape, cosine: Fraction, sine: Fraction) -> Fraction:
    """How far from the middle a line of this direction still meets the rectangle around the shape."""
    return shape.width.mm / 2 * abs(sine) + shape.length.mm / 2 * abs(cosine)


def _chord(shape: Shape, offset: Fraction, degrees: int) -> Fraction:
    """The length within the shape of the line at `offset` from the middle, or a hair more."""
    cosine, sine = direction(degrees)
    if shape.name != "rectangle":
        return _ellipse_chord(shape.width.mm / 2, shape.length.mm / 2, offset, cosine, sine)
    found = [each for each in _crossings(shape, offset, cosine, sine) if each]
    return max(end for _, end in found) - min(start for start, _ in found) if found else Fraction(0)


def _ellipse_chord(a: Fraction, b: Fraction, offset: Fraction, cosine: Fraction, sine: Fraction) -> Fraction:
    """2ab root(h^2 - c^2) / h^2, with c the offset and h^2 = a^2 sin^2 + b^2 cos^2."""
    square = a * a * sine * sine + b * b * cosine * cosine
    rest = square - offset * offset
    return 2 * a * b * root_up(rest) / square if rest > 0 else Fraction(0)


def _crossings(shape: Shape, offset: Fraction, cosine: Fraction, sine: Fraction) -> Iterator[Interval | None]:
    """Where the line crosses the parts of a rectangle with corners that may be rounded: two rectangles that cross, and
    a circle in each corner. Together they are convex, so the line's part in them is one stretch."""
    a, b, radius = shape.width.mm / 2, shape.length.mm / 2, shape.corner.mm
    for wide, long in ((a, b),) if not radius else ((a - radius, b), (a, b - radius)):
        yield _within(wide, long, offset, cosine, sine)
    for x, y in ((1, 1), (1, -1), (-1, 1), (-1, -1)) if radius else ():
        yield _circle(x * (a - radius), y * (b - radius), radius, offset, cosine, sine)


def _within(a: Fraction, b: Fraction, offset: Fraction, cosine: Fraction, sine: Fraction) -> Interval | None:
    """The stretch of the line that lies within a rectangle, by its distance along the line."""
    start, end = None, None
    for half, way, aside in ((a, cosine, -offset * sine), (b, sine, offset * cosine)):
        if not way:
            if abs(aside) > half:
                return None
            continue
        one, other = sorted(((-half - aside) / way, (half - aside) / way))
        start = one if start is None else max(start, one)
        end = other if end is None else min(end, other)
    return (start, end) if start is not None and end is not None and start < end else None


def _circle(
    x: Fraction, y: Fraction, radius: Fraction, offset: Fraction, cosine: Fraction, sine: Fraction
) -> Interval | None:
    far = offset - (y * cosine - x * sine)
    rest = radius * radius - far * far
    if rest <= 0:
        return None
    middle, half = x * cosine + y * sine, root_up(rest)
    return middle - half, middle + half


def _inner(shape: Shape, inset: Fraction) -> Fraction:
    """The length of the outline that lies `inset` within the shape's."""
    width, length = shape.width.mm - 2 * inset, shape.length.mm - 2 * inset
    if shape.name == "round":
        return PI_UP * width
    if shape.name == "oval":
        a, b = max(shape.width, shape.length).mm / 2, min(shape.width, shape.length).mm / 2
        return PI_UP * width if a == b else 4 * _quarter(a, b, inset)
    radius = max(shape.corner.mm - inset, Fraction(0))
    return 2 * (width + length) - 8 * radius + 2 * PI_UP * radius


def _quarter(a: Fraction, b: Fraction, inset: Fraction) -> Fraction:
    """A quarter of what lies `inset` within an ellipse with half axes a > b.

    Deeper than the least radius of curvature, b^2 / a, the ends of the inner curve cross on the long axis and fall
    away: what is left begins where sin^2 u = (inset^2 a^2 / b^2 - b^2) / (a^2 - b^2) (derived). Each
    short arc is at most its chord over the cosine of half its turn.
    """
    square = max((inset * inset * a * a / (b * b) - b * b) / (a * a - b * b), Fraction(0))
    first = root_up(square) / (1 + root_up(1 - square)) if square else Fraction(0)
    halves = [first + (1 - first) * Fraction(n, STEPS) for n in range(STEPS + 1)]
    places = [_inset_point(a, b, inset, _short(half)) for half in halves]
    total = Fraction(0)
    for (x, y, m, n), (next_x, next_y, next_m, next_n) in pairwise(places):
        chord = root_up(_short((x - next_x) ** 2 + (y - next_y) ** 2))
        total += chord * root_up(_short(2 / (1 + m * next_m + n * next_n)))
    return total


def _inset_point(
    a: Fraction, b: Fraction, inset: Fraction, half: Fraction
) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """The inner point at a parameter with tangent `half` of half its angle, and the direction of its normal."""
    cosine, sine = (1 - half * half) / (1 + half * half), 2 * half / (1 + half * half)
    normal = root_up(b * b * cosine * cosine + a * a * sine * sine)
    m, n = _short(b * cosine / normal), _short(a * sine / normal)
    return _short(a * cosine - inset * m), _short(b * sine - inset * n), m, n


def _short(value: Fraction) -> Fraction:
    """The value cut to a binary fraction, so that figures stay small."""
    return Fraction((value.numerator << 50) // value.denominator, 1 << 50)


def _is_inside(shape: Shape, x: Fraction, y: Fraction) -> bool:
    """Whether a point, measured from the upper left of the rectangle around the shape, lies within the outline."""
    a, b = shape.width.mm / 2, shape.length.mm / 2
    if shape.name != "rectangle":
        return ((x - a) / a) ** 2 + ((y - b) / b) ** 2 < 1
    radius = shape.corner.mm
    into_x, into_y = abs(x - a) - (a - radius), abs(y - b) - (b - radius)
    return into_x <= 0 or into_y <= 0 or into_x**2 + into_y**2 < radius**2
