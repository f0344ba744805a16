"""Polygons from outside prove the areas of backings, without our own checker."""

import random
from fractions import Fraction
from functools import cache

import pytest

from finishcalc.measures.length import Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.backing.layout import CutPiece, Layout, VisiblePiece
from finishcalc.plans.backing.plan import BackingPlan
from tests.builders import backing_of, cloth, inches

shapely = pytest.importorskip("shapely")

TOPS = 300
NEARLY = 1e-6
"""Square inches: polygons reckon in floating point."""


def random_backing(chance: random.Random) -> tuple[BackingPlan, Fabric]:
    """The backing of some top on some cloth, in eighths of an inch."""
    fabric = cloth(
        _eighths(chance, 16, 118),
        repeat=inches(chance.choice([0, 0, 6, 13, 24])),
        shrink_along=Fraction(chance.randint(0, 8), 100),
        shrink_across=Fraction(chance.randint(0, 8), 100),
        nap=chance.random() < 0.1,
    )
    overage, allowance = inches(_eighths(chance, 0, 8)), inches(Fraction(chance.randint(0, 12), 16))
    size = _eighths(chance, 4, 140), _eighths(chance, 4, 140)
    return backing_of(*size, fabric=fabric, overage=overage, seam_allowance=allowance), fabric


def _eighths(chance: random.Random, least: int, most: int) -> Fraction:
    return Fraction(chance.randint(least * 8, most * 8), 8)


def box(piece: CutPiece | VisiblePiece):
    """A piece as a polygon, in inches."""
    right, bottom = piece.x + piece.width, piece.y + piece.length
    return shapely.box(*(float(side.to("in")) for side in (piece.x, piece.y, right, bottom)))


def sheet(width: Length, length: Length):
    """A rectangle that starts in its corner, as a polygon, in inches."""
    return shapely.box(0, 0, float(width.to("in")), float(length.to("in")))


@cache
def options() -> list[tuple[Layout, BackingPlan, Fabric]]:
    """Every layout of the random tops, with its needed size and its cloth."""
    chance = random.Random(20260504)
    planned = [random_backing(chance) for _ in range(TOPS)]
    return [(option.layout, plan, fabric) for plan, fabric in planned for option in plan.options]


def same(one: float, other: float) -> bool:
    """Whether two areas are alike but for floating point."""
    return abs(one - other) <= NEARLY


def test_there_are_tops_of_every_kind():
    """The random tops give backings of one piece, of two and of many."""
    counts = {len(layout.cuts) for layout, _, _ in options()}
    assert {1, 2, 3, 4} <= counts


def test_cuts_lie_on_the_cloth_without_overlap():
    """The union of the cuts has the area of all of them, and lies on the usable cloth."""
    for layout, _, fabric in options():
        pieces = [box(cut) for cut in layout.cuts]
        union = shapely.union_all(pieces)
        assert same(union.area, sum(piece.area for piece in pieces))
        usable = (fabric.width - fabric.selvage * 2) * (1 - fabric.shrink_across)
        assert union.difference(sheet(usable, layout.cut_length)).area <= NEARLY


def test_shown_areas_are_the_backing():
    """What the pieces show is the needed rectangle, all of it and nothing twice."""
    for layout, plan, _ in options():
        pieces = [box(shown) for shown in layout.assembly]
        union, needed = shapely.union_all(pieces), sheet(plan.width, plan.length)
        assert same(union.area, sum(piece.area for piece in pieces))
        assert union.symmetric_difference(needed).area <= NEARLY


def test_cuts_are_larger_by_their_seams():
    """A piece is cut larger than it shows by an allowance wherever its outline lies inside the backing."""
    for layout, plan, _ in options():
        cut_area = {cut.piece: box(cut).area for cut in layout.cuts}
        needed = sheet(plan.width, plan.length)
        inside = 0.0
        for shown in layout.assembly:
            piece = box(shown)
            assert cut_area[shown.piece] >= piece.area - NEARLY
            inside += piece.exterior.difference(needed.exterior.buffer(NEARLY)).length
        # each seam is part of the outline of the pieces on both of its sides
        assert abs(inside - 2 * float(layout.seam_length.to("in"))) <= 1e-3
