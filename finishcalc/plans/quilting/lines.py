"""The length of straight lines and echoes on a shape, and the number of ties: exact but for roots, rounded up.

Channels and grids are measured from the edge: the first line lies one distance in from it, and the edge itself is not
stitched. Parallel lines and crosshatches have one line through the middle. Echoes follow the outline, the first one
distance in from the edge. A scalloped edge counts as the rectangle around it.
"""

from bisect import bisect_left
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import isqrt

from finishcalc.measures.bounds import PI_UP, direction, root_up
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up
from finishcalc.plans.top.outline import Shape

PARTS_OF_A_MM = 1000
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
    """Lines at any angle to the side-to-side direction, one of them through the middle and none on the edge. The
    outline is the same on both sides of the middle, so one side is counted twice."""
    cosine, sine = direction(degrees)
    reach = _reach(shape, cosine, sine)
    outer = (_chord(shape, distance.mm * n, degrees) for n in range(1, up(reach / distance.mm)))
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
    return sum(_ties_in_row(shape, distance.mm, distance.mm * row, across) for row in range(1, down + 1))


def _ties_in_row(shape: Shape, distance: Fraction, y: Fraction, across: int) -> int:
    """How many of a row's places lie within the outline: a stretch about the middle, as long to one side as to the
    other."""
    half = shape.width.mm / 2
    left, right = int(half / distance), int(half / distance) + 1

    def is_past(count: int, start: int, step: int) -> bool:
        return not _is_inside(shape, distance * (start + step * count), y)

    to_left = bisect_left(range(left), 1, key=lambda n: is_past(n, left, -1))
    to_right = bisect_left(range(max(across - right + 1, 0)), 1, key=lambda n: is_past(n, right, 1))
    return to_left + to_right


def _whole(total: Fraction) -> Length:
    return Length(Fraction(up(total * PARTS_OF_A_MM), PARTS_OF_A_MM))


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


SCALE = 1 << 48
"""Within an echo in an oval figures are whole numbers of this part of a millimetre, or of 1."""


def _quarter(a: Fraction, b: Fraction, inset: Fraction) -> Fraction:
    """A quarter of what lies `inset` within an ellipse with half axes a > b.

    Deeper than the least radius of curvature, b^2 / a, the ends of the inner curve cross on the long axis and fall
    away: what is left begins where sin^2 u = (inset^2 a^2 / b^2 - b^2) / (a^2 - b^2) (derived). Each short arc is at
    most its chord over the cosine of half its turn.
    """
    square = max((inset * inset * a * a / (b * b) - b * b) / (a * a - b * b), Fraction(0))
    first = root_up(square) / (1 + root_up(1 - square)) if square else Fraction(0)
    wide, high, deep = (int(side * SCALE) for side in (a, b, inset))
    halves = (int((first + (1 - first) * Fraction(n, STEPS)) * SCALE) for n in range(STEPS + 1))
    places = [_inset_point(wide, high, deep, half) for half in halves]
    total = 0
    for (x, y, m, n), (next_x, next_y, next_m, next_n) in pairwise(places):
        chord = isqrt((x - next_x) ** 2 + (y - next_y) ** 2) + 1
        turn = (m * next_m + n * next_n) // SCALE
        total += chord * isqrt(2 * SCALE**3 // (SCALE + turn)) // SCALE + 1
    return Fraction(total, SCALE)


def _inset_point(a: int, b: int, inset: int, half: int) -> tuple[int, int, int, int]:
    """The inner point at a parameter with tangent `half` of half its angle, and the direction of its normal."""
    whole = SCALE * SCALE + half * half
    cosine, sine = (SCALE * SCALE - half * half) * SCALE // whole, 2 * half * SCALE * SCALE // whole
    normal = isqrt((b * cosine // SCALE) ** 2 + (a * sine // SCALE) ** 2)
    m, n = b * cosine // normal, a * sine // normal
    return (a * cosine - inset * m) // SCALE, (b * sine - inset * n) // SCALE, m, n


def _is_inside(shape: Shape, x: Fraction, y: Fraction) -> bool:
    """Whether a point, measured from the upper left of the rectangle around the shape, lies within the outline."""
    a, b = shape.width.mm / 2, shape.length.mm / 2
    if shape.name != "rectangle":
        return ((x - a) / a) ** 2 + ((y - b) / b) ** 2 < 1
    radius = shape.corner.mm
    into_x, into_y = abs(x - a) - (a - radius), abs(y - b) - (b - radius)
    return into_x <= 0 or into_y <= 0 or into_x**2 + into_y**2 < radius**2
