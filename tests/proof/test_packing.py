"""A constraint solver from outside looks for a shorter way to lay out the pieces of a backing.

Pieces keep their grain, so none is rotated. Any packing can be pushed together until every place is a sum of sizes of
pieces, so no packing is lost on the grid of their greatest common divisors, and a step of it less is the next cut
length that there could be.
"""

import math
import random
from fractions import Fraction
from functools import cache
from typing import NamedTuple

import pytest

from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from tests.builders import backing_of, cloth, inches

cp_model = pytest.importorskip("ortools.sat.python.cp_model")

CASES = 30
SECONDS = 20


class Pieces(NamedTuple):
    """The pieces of an option as whole numbers, `sizes` across the cloth and along it, and the cloth they take."""

    sizes: tuple[tuple[int, int], ...]
    across: int
    along: int

    @classmethod
    def of(cls, option: BackingOption) -> "Pieces":
        """Each way on a grid of its own."""
        widths = [cut.width.to("in") for cut in option.layout.cuts]
        lengths = [cut.length.to("in") for cut in option.layout.cuts]
        wide, long = _divisor(widths), _divisor(lengths)
        sizes = zip((int(each / wide) for each in widths), (int(each / long) for each in lengths), strict=True)
        usable = option.layout.usable_width
        return cls(tuple(sizes), usable.to("in") // wide, option.layout.cut_length.to("in") // long)


def _divisor(sizes: list[Fraction]) -> Fraction:
    """The greatest length of which all are multiples."""
    scale = math.lcm(*(size.denominator for size in sizes))
    return Fraction(math.gcd(*(int(size * scale) for size in sizes)), scale)


def packs(pieces: Pieces, along: int) -> bool | None:
    """Whether the pieces can lie on so much cloth; None where that is not proved in time."""
    model = cp_model.CpModel()
    sides = list(zip(*pieces.sizes, strict=True))
    if max(sides[0]) > pieces.across or max(sides[1]) > along:
        return False
    intervals = [
        [model.new_fixed_size_interval_var(model.new_int_var(0, room - size, ""), size, "") for size in sizes]
        for sizes, room in zip(sides, (pieces.across, along), strict=True)
    ]
    model.add_no_overlap_2d(*intervals)
    # what any line over the cloth crosses is no wider than the cloth: this follows, and helps the proof
    model.add_cumulative(intervals[1], list(sides[0]), pieces.across)
    model.add_cumulative(intervals[0], list(sides[1]), along)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = SECONDS
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    return {cp_model.OPTIMAL: True, cp_model.FEASIBLE: True, cp_model.INFEASIBLE: False}.get(status)


# --- the pieces as they are ---------------------------------------------------------------------------------------


@cache
def cases() -> list[tuple[str, BackingPlan]]:
    """Random tops on some cloths; in every other case turned pieces need not save much to be chosen."""
    chance = random.Random(20260202)
    return [_case(chance, worth=36 * (number % 2)) for number in range(CASES)]


def _case(chance: random.Random, worth: int) -> tuple[str, BackingPlan]:
    width = Fraction(chance.randint(36 * 8, 100 * 8), 8)
    length = width + Fraction(chance.randint(0, 20 * 8), 8)
    usable, seams = chance.choice([38, 40, 42, 54]), chance.choice([3, 4])
    sewing = {"wage": Fraction(0), "most_seams": seams, "worth_turning": inches(worth)}
    plan = backing_of(width, length, sewing, fabric=cloth(usable))
    return f"{width} x {length} on {usable}, {seams} seams", plan


@pytest.mark.parametrize("number", range(CASES))
def test_no_shorter_packing_of_the_pieces(number: int):
    """The solver proves that the pieces of each option, the chosen one first, fit on no cloth that is shorter."""
    name, plan = cases()[number]
    for option in (plan.chosen, *plan.options):
        pieces = Pieces.of(option)
        assert packs(pieces, pieces.along) is True, (name, option.layout.seams)
        assert packs(pieces, pieces.along - 1) is False, (name, option.layout.seams)


def test_the_chosen_are_of_every_kind():
    """Among the cases are panels alone, bands of strips, and turned pieces with strips and without."""
    kinds = {_kind(plan.chosen) for _, plan in cases()}
    assert kinds == {"panels", "strips", "turned", "turned and strips"}


def _kind(option: BackingOption) -> str:
    band = option.layout.band
    if band is None:
        return "panels"
    if not band.turned:
        return "strips"
    return "turned" if band.turned == len(band.visible_lengths) else "turned and strips"


def test_the_solver_finds_a_shorter_packing_where_there_is_one():
    """Two pieces of 20 x 30 lie side by side on 40, so 31 is too much and 30 is not (derived)."""
    pieces = Pieces(((20, 30), (20, 30)), across=40, along=31)
    assert packs(pieces, 30) is True
    assert packs(pieces, 29) is False
