"""Lines, crosshatches and echoes against shapely, a general-purpose geometry library: cut and buffered polygons."""

import math
import random
from collections.abc import Iterable
from functools import cache
from itertools import product

import pytest

shapely = pytest.importorskip("shapely")
from shapely import affinity  # noqa: E402
from shapely.geometry import MultiLineString, Point, Polygon, box  # noqa: E402

from finishcalc.plans.quilting.lines import parallels, ties  # noqa: E402
from finishcalc.plans.quilting.stitching import stitched_length  # noqa: E402
from finishcalc.plans.top.outline import Shape, circle, oval, rectangle, rounded  # noqa: E402
from tests.builders import inches, sample_project  # noqa: E402

FINE = 720
"""Segments of a quarter of a circle in the polygons."""
random.seed(63087)
CASES = [(random.randint(20, 110), random.randint(20, 120), random.choice([1, 2, 3, 5])) for _ in range(12)]


@cache
def polygon(shape: Shape) -> Polygon:
    """The outline about the middle, in inches."""
    width, length = float(shape.width.to("in")), float(shape.length.to("in"))
    if shape.name != "rectangle":
        return affinity.scale(Point(0, 0).buffer(1, quad_segs=FINE), width / 2, length / 2)
    radius = float(shape.corner.to("in"))
    inner = box(-width / 2 + radius, -length / 2 + radius, width / 2 - radius, length / 2 - radius)
    return inner.buffer(radius, quad_segs=FINE) if radius else inner


@cache
def shapes(width: int, length: int) -> list[Shape]:
    w, l = inches(width), inches(length)  # noqa: E741
    return [rectangle(w, l), rounded(w, l, min(w, l) / 6), oval(w, l), circle(w)]


def cut(outline: Polygon, offsets: Iterable[float], degrees: float) -> float:
    """The length within the outline of lines at these offsets from the middle, which do not touch each other."""
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    middles = [(-offset * sine, offset * cosine) for offset in offsets]
    lines = [[(x + way * cosine, y + way * sine) for way in (-500, 500)] for x, y in middles]
    return float(outline.intersection(MultiLineString(lines)).length)


def all_cuts(outline: Polygon, distance: int, degrees: float) -> float:
    """The length within the outline of lines so far apart, one through the middle; the corners are farthest out."""
    most = math.ceil(math.hypot(*outline.bounds[2:]) / distance)
    return cut(outline, [distance * n for n in range(-most, most + 1)], degrees)


def on_the_edge(shape: Shape, distance: int, degrees: int) -> bool:
    """Whether a line falls on a straight edge, where it may count or not."""
    side = {0: shape.length, 90: shape.width}.get(degrees)
    return side is not None and shape.name == "rectangle" and (side.to("in") / 2) % distance == 0


@pytest.mark.parametrize(("width", "length", "distance"), CASES)
@pytest.mark.parametrize("degrees", [0, 22, 45, 60, 90, 151])
def test_lines_at_any_angle(width: int, length: int, distance: int, degrees: int):
    for shape in shapes(width, length):
        outline = polygon(shape)
        expected = all_cuts(outline, distance, degrees)
        found = float(parallels(shape, inches(distance), degrees).to("in"))
        if on_the_edge(shape, distance, degrees):
            continue
        assert found == pytest.approx(expected, rel=2e-4, abs=1e-3)
        assert found >= expected - 1e-6


def stitched(shape: Shape, lines: str, distance: int, angle: int | None = None) -> float:
    """What a style of lines so far apart stitches on a shape, in inches."""
    style = sample_project().quilting.style.replace(lines=lines, line_spacing=inches(distance), angle=angle)
    return float(stitched_length(shape, style, inches(0)).to("in"))


@pytest.mark.parametrize(("width", "length", "distance"), CASES)
@pytest.mark.parametrize("degrees", [45, 30, 67])
def test_crosshatches(width: int, length: int, distance: int, degrees: int):
    for shape in shapes(width, length):
        outline = polygon(shape)
        expected = sum(all_cuts(outline, distance, way) for way in (degrees, -degrees))
        assert stitched(shape, "crosshatch", distance, degrees) == pytest.approx(expected, rel=2e-4, abs=1e-2)


@pytest.mark.parametrize(("width", "length", "distance"), CASES)
def test_channels(width: int, length: int, distance: int):
    for shape in shapes(width, length):
        outline, wide = polygon(shape), float(shape.width.to("in"))
        offsets = [-wide / 2 + distance * n for n in range(1, 200) if distance * n < wide]
        expected = cut(outline, [-offset for offset in offsets], 90)
        assert stitched(shape, "channels", distance, 90) == pytest.approx(expected, rel=2e-4, abs=1e-2)


@pytest.mark.parametrize(("width", "length", "distance"), CASES)
def test_echoes(width: int, length: int, distance: int):
    """Each inner outline is the boundary of the polygon shrunk by so much, square corners staying square."""
    for shape in shapes(width, length):
        outline, expected, inset = polygon(shape), 0.0, distance
        while 2 * inset < min(width, float(shape.length.to("in")), float(shape.width.to("in"))):
            expected += outline.buffer(-inset, join_style="mitre", quad_segs=FINE).length
            inset += distance
        assert stitched(shape, "echo", distance) == pytest.approx(expected, rel=1e-3, abs=1e-2)


@pytest.mark.parametrize(("width", "length", "distance"), CASES)
def test_ties(width: int, length: int, distance: int):
    for shape in shapes(width, length):
        outline, wide, long = polygon(shape), float(shape.width.to("in")), float(shape.length.to("in"))
        across = [x * distance - wide / 2 for x in range(1, 200) if x * distance < wide]
        down = [y * distance - long / 2 for y in range(1, 200) if y * distance < long]
        expected = shapely.contains_xy(outline, *zip(*product(across, down), strict=True)).sum()
        assert abs(ties(shape, inches(distance)) - expected) <= 4  # points on the very edge may fall either way
