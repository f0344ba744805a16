"""Sashing of blocks on point, built anew from its definition with shapely: squares that stand on their points, a strip
wherever two of them face each other or all round each, and triangles in what is left of the rectangle."""

import math
from itertools import product
from typing import Any, NamedTuple

import pytest

from finishcalc.measures.length import Length
from finishcalc.plans.pieced.layout import top_layout
from finishcalc.plans.pieced.plan import PiecedPlan
from tests.builders import quoted

shapely = pytest.importorskip("shapely")

SIZE, WIDE, SEAM = 10.0, 2.0, 0.25
PITCH = SIZE + WIDE
HALF = PITCH / math.sqrt(2)
NEAR = 1e-6
DESIGNS = list(product([(1, 1), (1, 3), (2, 2), (3, 2), (2, 3), (2, 5), (4, 4), (6, 3)], [True, False], [True, False]))
DESIGNS = [(counts, outer, stones) for counts, outer, stones in DESIGNS if outer or 1 not in counts]


def inch(length: Length) -> float:
    return float(length.to("in"))


def square(x: float, y: float, side: float) -> Any:
    """A square that stands on its point."""
    reach = side / math.sqrt(2)
    return shapely.Polygon([(x - reach, y), (x, y - reach), (x + reach, y), (x, y + reach)])


class Built(NamedTuple):
    """The pieces of a centre as they show, and the rectangle. `rows` lists the strips between diagonal rows by the
    number of the row below them."""

    blocks: list[Any]
    within: list[Any]
    rows: dict[int, Any]
    strips: int
    stones: list[Any]
    triangles: list[Any]
    edge: Any


def build(across: int, down: int, outer: bool) -> Built:
    """Blocks stand where two numbers of half diagonals are odd both, or even both. Strips fill the gaps between two
    that face each other; all round, also those to where a block would be."""
    places = [(x, y) for x in range(1, 2 * across) for y in range(1, 2 * down) if x % 2 == y % 2]
    at = {place: square(place[0] * HALF, place[1] * HALF, SIZE) for place in places}
    strips: dict[tuple[float, float], Any] = {}
    for (x, y), (aside, below) in product(places, product((-1, 1), repeat=2)):
        if outer or (x + aside, y + below) in at:
            other = square((x + aside) * HALF, (y + below) * HALF, SIZE)
            gap = at[x, y].union(other).convex_hull.difference(at[x, y]).difference(other)
            strips[x + aside / 2, y + below / 2] = gap
    corners = [(x, y) for x in range(2 * across + 1) for y in range(2 * down + 1) if x % 2 != y % 2]
    stones = {place: square(place[0] * HALF, place[1] * HALF, WIDE) for place in corners}
    if not outer:
        stones = {
            place: stone
            for place, stone in stones.items()
            if sum(
                strip.distance(stone) < NEAR and strip.buffer(NEAR).intersection(stone).area > NEAR
                for strip in strips.values()
            )
            == 4
        }
    blocks = shapely.unary_union(list(at.values()))
    edge = shapely.box(0, 0, 2 * across * HALF, 2 * down * HALF) if outer else shapely.box(*blocks.bounds)
    within = [strip for (x, y), strip in strips.items() if (x - y) % 2]
    between = {}
    for row in range(across + down + 1):
        line = [strip for (x, y), strip in strips.items() if x + y == 2 * row + 1]
        line += [stone for (x, y), stone in stones.items() if x + y == 2 * row + 1]
        if line:
            between[row] = shapely.unary_union([piece.buffer(NEAR / 10, join_style="mitre") for piece in line])
    sewn = shapely.unary_union(
        [blocks, *(each.buffer(NEAR / 10, join_style="mitre") for each in (*strips.values(), *stones.values()))]
    )
    triangles = [part for part in shapely.get_parts(edge.difference(sewn)) if part.area > 1e-3]
    return Built(list(at.values()), within, between, len(strips), list(stones.values()), triangles, edge)


def planned(across: int, down: int, outer: bool, cornerstones: bool) -> PiecedPlan:
    found = quoted(
        f"[top.blocks]\nacross = {across}\ndown = {down}\nsize = 10\nsetting = 'on-point'\n"
        f"[top.sashing]\nwidth = 2\nouter = {str(outer).lower()}\ncornerstones = {str(cornerstones).lower()}\n"
    ).plans.pieced
    assert found
    return found


@pytest.mark.parametrize(("counts", "outer", "cornerstones"), DESIGNS)
def test_the_pieces_of_the_definition_are_those_of_the_plan(counts: tuple[int, int], outer: bool, cornerstones: bool):
    built, plan = build(*counts, outer), planned(*counts, outer, cornerstones)
    left, upper, right, lower = built.edge.bounds
    assert inch(plan.centre.width) == pytest.approx(right - left + 2 * SEAM, abs=NEAR)
    assert inch(plan.centre.length) == pytest.approx(lower - upper + 2 * SEAM, abs=NEAR)
    assert plan.top.blocks
    assert plan.top.blocks.number == len(built.blocks)
    strips = [(inch(each.length), each.number) for each in plan.pieces.sashing]
    if cornerstones:
        assert strips == [(SIZE + 2 * SEAM, built.strips)]
        assert (plan.pieces.cornerstones.number if plan.pieces.cornerstones else 0) == len(built.stones)
        return
    needed = [SIZE + 2 * SEAM] * len(built.within) + [raw_length(line, built, outer) for line in built.rows.values()]
    cut = sorted(length for length, number in strips for _ in range(number))
    assert cut == pytest.approx(sorted(needed), abs=1e-4)


def raw_length(line: Any, built: Built, outer: bool) -> float:
    """The length of cloth that a strip between rows covers: its sewn length and two seams; all round, all that lies
    within the raw edges, of a band as wide as the strip is cut."""
    if not outer:
        return along(line)[1] - along(line)[0] + 2 * SEAM
    start, end = along(line)
    x, y = line.centroid.x, line.centroid.y
    band = shapely.LineString([(x - 1000, y + 1000), (x + 1000, y - 1000)]).buffer(WIDE / 2 + SEAM, cap_style="flat")
    start, end = along(band.intersection(built.edge.buffer(SEAM, join_style="mitre")))
    return end - start


def along(shape: Any) -> tuple[float, float]:
    """Where it starts and ends along a diagonal row, up to the right."""
    ends = [(x - y) / math.sqrt(2) for x, y in shapely.get_coordinates(shape)]
    return min(ends), max(ends)


@pytest.mark.parametrize(("counts", "outer", "cornerstones"), DESIGNS)
def test_triangles_fill_what_is_left_and_their_squares_cover_them(
    counts: tuple[int, int], outer: bool, cornerstones: bool
):
    """A triangle with its seam allowance has to lie in the quarter or the half of its square, and an eighth less would
    not do."""
    built, plan = build(*counts, outer), planned(*counts, outer, cornerstones)
    corners = {(x, y) for x in built.edge.bounds[::2] for y in built.edge.bounds[1::2]}
    is_corner = [any(part.distance(shapely.Point(at)) < NEAR for at in corners) for part in built.triangles]
    squares = {each.use: each for each in plan.pieces.triangles}
    for use, shapes in (
        ("corner", [part for part, at in zip(built.triangles, is_corner, strict=True) if at]),
        ("side", [part for part, at in zip(built.triangles, is_corner, strict=True) if not at]),
    ):
        assert len(shapes) == (squares[use].number if use in squares else 0)
        for shape in shapes:
            assert shape.convex_hull.area == pytest.approx(shape.area, abs=1e-3)
            raw = shape.buffer(SEAM, join_style="mitre", mitre_limit=10)
            legs = math.sqrt(2 * raw.area)
            needed = legs * math.sqrt(2) if use == "side" else legs
            assert needed - 1e-4 <= inch(squares[use].square) < needed + 0.25


@pytest.mark.parametrize(("counts", "outer", "cornerstones"), DESIGNS)
def test_the_seams_of_the_picture_part_the_centre_into_its_pieces(
    counts: tuple[int, int], outer: bool, cornerstones: bool
):
    """Every face between the seams is one piece, all of them have its area, and they cover the centre."""
    built, plan = build(*counts, outer), planned(*counts, outer, cornerstones)
    lines = [[(inch(each.x), inch(each.y)), (inch(each.to_x), inch(each.to_y))] for each in top_layout(plan.top).slants]
    across, down = inch(plan.centre.width), inch(plan.centre.length)
    centre = shapely.box(SEAM, SEAM, across - SEAM, down - SEAM)
    # the seams are drawn a hair inside the edges: on a coarse grid they meet them
    grid = shapely.unary_union([centre.exterior, *map(shapely.LineString, lines)], grid_size=1e-4)
    faces = [face for face in shapely.get_parts(shapely.polygonize(shapely.get_parts(grid))) if face.area > 0.05]
    if cornerstones:
        strips, stones = built.strips, len(built.stones)
    else:
        strips, stones = len(built.within) + len(built.rows), 0
    assert len(faces) == len(built.blocks) + strips + stones + len(built.triangles)
    assert sum(face.area for face in faces) == pytest.approx(centre.area, abs=0.05)
    assert sum(abs(face.area - SIZE**2) < 0.01 for face in faces) == len(built.blocks)
