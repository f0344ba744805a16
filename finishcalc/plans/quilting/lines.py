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
    """Measure lines that run at 0 degrees (side to side) or 90 (top to bottom), spaced from the edge."""
    across = shape.width if degrees == 90 else shape.length
    half, step = across.mm / 2, distance.mm
    offsets = (step * n - half for n in range(1, up(across.mm / step)))
    return _rounded_up(sum((_chord(shape, offset, degrees) for offset in offsets), Fraction(0)))


def parallels(shape: Shape, distance: Length, degrees: int) -> Length:
    """Measure lines at any angle to the side-to-side direction, one of them through the middle and none on the edge.
    The outline is the same on both sides of the middle, so one side is counted twice."""
    cosine, sine = direction(degrees)
    reach = _reach(shape, cosine, sine)
    outer = (_chord(shape, distance.mm * n, degrees) for n in range(1, up(reach / distance.mm)))
    return _rounded_up(_chord(shape, Fraction(0), degrees) + 2 * sum(outer, Fraction(0)))


def echoes(shape: Shape, distance: Length) -> Length:
    """Measure outlines within the outline, as many as there is room for."""
    room = min(shape.width, shape.length).mm / 2
    insets = (distance.mm * n for n in range(1, up(room / distance.mm)))
    return _rounded_up(sum((_inner(shape, inset) for inset in insets), Fraction(0)))


def ties(shape: Shape, distance: Length) -> int:
    """Count the crossings within the outline of a grid that starts at the upper left corner, the edges not tied."""
    across, down = (up(side / distance) - 1 for side in (shape.width, shape.length))
    if shape.name == "rectangle" and not shape.corner:
        return across * down
    return sum(_ties_in_row(shape, distance.mm, distance.mm * row, across) for row in range(1, down + 1))


def _ties_in_row(shape: Shape, distance: Fraction, y: Fraction, across: int) -> int:
    """Count the ties of a row that lie within the outline. They are one run about the middle, because the outline is
    convex, and its two ends are found by bisection."""
    half = shape.width.mm / 2
    left, right = int(half / distance), int(half / distance) + 1

    def is_past(count: int, start: int, step: int) -> bool:
        return not _is_inside(shape, distance * (start + step * count), y)

    to_left = bisect_left(range(left), 1, key=lambda n: is_past(n, left, -1))
    to_right = bisect_left(range(max(across - right + 1, 0)), 1, key=lambda n: is_past(n, right, 1))
    return to_left + to_right


def _rounded_up(total: Fraction) -> Length:
    return Length(Fraction(up(total * PARTS_OF_A_MM), PARTS_OF_A_MM))


def _reach(shape: Shape, cosine: Fraction, sine: Fraction) -> Fraction:
    """Find how far from the middle a line of this direction still meets the rectangle around the shape."""
    return shape.width.mm / 2 * abs(sine) + shape.length.mm / 2 * abs(cosine)


def _chord(shape: Shape, offset: Fraction, degrees: int) -> Fraction:
    """Measure the line at `offset` from the middle within the shape, or a hair more."""
    cosine, sine = direction(degrees)
    if shape.name != "rectangle":
        return _ellipse_chord(shape.width.mm / 2, shape.length.mm / 2, offset, cosine, sine)
    crossed = [interval for interval in _crossings(shape, offset, cosine, sine) if interval]
    return max(end for _, end in crossed) - min(start for start, _ in crossed) if crossed else Fraction(0)


def _ellipse_chord(a: Fraction, b: Fraction, offset: Fraction, cosine: Fraction, sine: Fraction) -> Fraction:
    """2ab root(h^2 - c^2) / h^2, with c the offset and h^2 = a^2 sin^2 + b^2 cos^2."""
    square = a * a * sine * sine + b * b * cosine * cosine
    rest = square - offset * offset
    return 2 * a * b * root_up(rest) / square if rest > 0 else Fraction(0)


def _crossings(shape: Shape, offset: Fraction, cosine: Fraction, sine: Fraction) -> Iterator[Interval | None]:
    """Cross the line with the parts of a rectangle whose corners may be rounded: two rectangles that cross, and a
    circle in each corner. Together they are convex, so what the line has in them is one interval::

          +-----------+
        o |           | o     o: a circle of the corner's radius
        +-+-----------+-+
        | |           | |
        +-+-----------+-+
        o |           | o
          +-----------+
    """
    a, b, radius = shape.width.mm / 2, shape.length.mm / 2, shape.corner.mm
    for wide, long in ((a, b),) if not radius else ((a - radius, b), (a, b - radius)):
        yield _within(wide, long, offset, cosine, sine)
    for x, y in ((1, 1), (1, -1), (-1, 1), (-1, -1)) if radius else ():
        yield _circle(x * (a - radius), y * (b - radius), radius, offset, cosine, sine)


def _within(a: Fraction, b: Fraction, offset: Fraction, cosine: Fraction, sine: Fraction) -> Interval | None:
    """Find the interval of the line within a rectangle, by distance along it from its point nearest the middle."""
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
    """Find the interval of the line within a circle round a point: half the chord is root(radius^2 - distance^2)."""
    far = offset - (y * cosine - x * sine)
    rest = radius * radius - far * far
    if rest <= 0:
        return None
    middle, half = x * cosine + y * sine, root_up(rest)
    return middle - half, middle + half


def _inner(shape: Shape, inset: Fraction) -> Fraction:
    """Measure the outline that lies `inset` within the shape's."""
    width, length = shape.width.mm - 2 * inset, shape.length.mm - 2 * inset
    if shape.name == "round":
        return PI_UP * width
    if shape.name == "oval":
        a, b = max(shape.width, shape.length).mm / 2, min(shape.width, shape.length).mm / 2
        return PI_UP * width if a == b else 4 * _quarter_inside_ellipse(a, b, inset)
    radius = max(shape.corner.mm - inset, Fraction(0))
    return 2 * (width + length) - 8 * radius + 2 * PI_UP * radius


SCALE = 1 << 48
"""Within an echo in an oval figures are whole numbers of this part of a millimetre, or of 1: fractions would grow with
every root, and a float is not exact."""


def _quarter_inside_ellipse(a: Fraction, b: Fraction, inset: Fraction) -> Fraction:
    """Bound a quarter of the curve that lies `inset` within an ellipse with half axes a > b, from above (derived).

    A point of the ellipse is (a cos u, b sin u), and its outward normal (b cos u, a sin u) / N, where
    N = root(b^2 cos^2 u + a^2 sin^2 u). The inner curve lies `inset` back along that normal, so that on it
    x = cos u (a - inset b / N) and y = sin u (b - inset a / N)::

        b +--.__
          |     `-. ellipse       normal and tangent at (x, y) are those of the
          |--._    `.             ellipse at the same u
          |    `.    |
          |inner |   |
          +------+---+
                     a

    Where the inset is more than b^2 / a, the ellipse's least radius of curvature, y is below 0 while u is small: the
    ends of the inner curve cross on the long axis and fall away. What is left begins at y = 0, where N = inset a / b,
    and so sin^2 u = (inset^2 a^2 / b^2 - b^2) / (a^2 - b^2).

    The parameter is h = tan(u / 2), from which cos u and sin u follow without a series; h goes in equal steps from its
    first value to 1. Between two points the curve turns one way, by the angle t between their normals (m, n) and
    (m', n'), where cos t = m m' + n n'. It is then no longer than the two tangents from its ends to where they meet,
    and these are longest over a chord where they are equal: chord / cos(t / 2) = chord x root(2 / (1 + cos t)).
    """
    square = max((inset * inset * a * a / (b * b) - b * b) / (a * a - b * b), Fraction(0))
    first = root_up(square) / (1 + root_up(1 - square)) if square else Fraction(0)
    half_width, half_length, depth = (int(side * SCALE) for side in (a, b, inset))
    tangents = (int((first + (1 - first) * Fraction(n, STEPS)) * SCALE) for n in range(STEPS + 1))
    points = [_inset_point(half_width, half_length, depth, tangent) for tangent in tangents]
    total = 0
    for (x, y, m, n), (next_x, next_y, next_m, next_n) in pairwise(points):
        chord = isqrt((x - next_x) ** 2 + (y - next_y) ** 2) + 1
        cosine_of_turn = (m * next_m + n * next_n) // SCALE
        # root(2 / (1 + cos t)) in parts of SCALE is root(2 SCALE^3 / (SCALE + cosine_of_turn)).
        total += chord * isqrt(2 * SCALE**3 // (SCALE + cosine_of_turn)) // SCALE + 1
    return Fraction(total, SCALE)


def _inset_point(a: int, b: int, inset: int, tangent: int) -> tuple[int, int, int, int]:
    """Find the inner point (x, y) where tan(u / 2) is `tangent`, and the normal (m, n) there.

    All are whole numbers of SCALE. With h the tangent, cos u = (1 - h^2) / (1 + h^2) and sin u = 2h / (1 + h^2).
    """
    denominator = SCALE * SCALE + tangent * tangent
    cosine = (SCALE * SCALE - tangent * tangent) * SCALE // denominator
    sine = 2 * tangent * SCALE * SCALE // denominator
    normal = isqrt((b * cosine // SCALE) ** 2 + (a * sine // SCALE) ** 2)
    m, n = b * cosine // normal, a * sine // normal
    return (a * cosine - inset * m) // SCALE, (b * sine - inset * n) // SCALE, m, n


def _is_inside(shape: Shape, x: Fraction, y: Fraction) -> bool:
    """Test if a point, measured from the upper left of the rectangle around the shape, lies within the outline."""
    a, b = shape.width.mm / 2, shape.length.mm / 2
    if shape.name != "rectangle":
        return ((x - a) / a) ** 2 + ((y - b) / b) ** 2 < 1
    radius = shape.corner.mm
    into_x, into_y = abs(x - a) - (a - radius), abs(y - b) - (b - radius)
    return into_x <= 0 or into_y <= 0 or into_x**2 + into_y**2 < radius**2
