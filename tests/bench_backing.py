"""The cloth and the time that planned backings take: `python -m tests.bench_backing`.

Cloth is given as a share of what full panels take, in the better of their two directions, over the same 200 tops as in
the tests. Time is given beside that of a constraint solver which packs the pieces of the chosen option. Nothing here is
asserted in a test.
"""

import importlib.util
import math
import statistics
import time
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache
from itertools import product

from finishcalc.measures.length import Overage
from finishcalc.model.project import Backing
from finishcalc.plans.backing.options import best_options
from finishcalc.plans.backing.plan import BackingPlan, plan_backing
from finishcalc.plans.top.outline import rectangle
from tests.builders import cloth, inches, sample_project
from tests.exhaustive import (
    MOST_SEAMS,
    Ask,
    FamilyLayout,
    band_cut,
    bought,
    least_full_panels,
    least_planned,
    panels_cover,
    plan_of,
    search,
    usual_tops,
)

REACH = {3: "0.936", 4: "0.912"}
"""The mean to reach with so many seams at the most."""

PACKED = 40
"""Tops whose pieces the solver packs."""

BEYOND = ["44x60", "60x72", "68x88", "75x96", "80x81", "92x100", "104x116"]
"""Backings of which is told what piecings beyond the family would take."""


def main() -> None:
    """Print the means, the times, and the ratio to the solver."""
    asks = usual_tops()
    print(f"cloth over that of full panels, the mean of {len(asks)} tops, overage 4 on cloth 40 wide")
    _print_means(asks)
    print("cloth of piecings beyond the family")
    for backing in BEYOND:
        _print_other_pieces(backing)
    print("time to plan a backing")
    _print_time("all options", [_best(lambda ask=ask: _all_options(ask)) for ask in asks])
    planned = [_best(lambda ask=ask: _plan(ask)) for ask in asks]
    _print_time("the whole plan", planned)
    if importlib.util.find_spec("ortools") is None:
        print("  the solver: skipped, ortools is not installed")
        return
    packed = [_packing(_plan(ask)) for ask in asks[:PACKED]]
    _print_time(f"the solver, {PACKED} tops", packed)
    ratios = [one / other for one, other in zip(planned, packed, strict=False)]
    print(f"  plan / solver, median of {PACKED} pairs: {statistics.median(ratios):.3f}")


def _print_means(asks: list[Ask]) -> None:
    full_panels = [least_full_panels(ask) for ask in asks]
    planned = [least_planned(plan_of(ask)) for ask in asks]
    for most, reach in REACH.items():
        mixed, straight = (_mean([found[most, turned] for found in planned], full_panels) for turned in (True, False))
        print(f"  {most} seams at most   {mixed:.4f}   (reach: {reach} or less; without turned pieces {straight:.4f})")
    exact, stepped = (_mean(areas, full_panels) for areas in _area_bounds(asks))
    print(f"  area bound        {exact:.4f}   (up to the step it is sold by: {stepped:.4f})")


def _area_bounds(asks: list[Ask]) -> tuple[list[Fraction], list[Fraction]]:
    """The cloth that no way can be under, exact and as it would be bought."""
    exact = [ask.area_bound for ask in asks]
    return exact, [bought(ask, area) for ask, area in zip(asks, exact, strict=True)]


def _mean(amounts: list[Fraction], full_panels: list[Fraction]) -> float:
    return float(sum(one / other for one, other in zip(amounts, full_panels, strict=True)) / len(full_panels))


def _print_other_pieces(backing: str) -> None:
    ask = Ask(*map(Fraction, backing.split("x")))
    parts = list(_in_two_parts(ask))
    for most in (3, 4):
        _print_how_far(ask, most, parts)


def _print_how_far(ask: Ask, most: int, parts: list[tuple[int, Fraction]]) -> None:
    family = min(way.cut for way in search(ask) if way.seams <= most)
    beside = min(way.cut for way in [*search(ask), *_side_by_side(ask)] if way.seams <= most)
    best = min(beside, min(cut for seams, cut in parts if seams <= most))
    print(
        f"  {ask.width}x{ask.length}, {most} seams: {float(family):.1f} in; "
        f"strips beside turned pieces {float(beside):.1f}; "
        f"in two parts {float(best):.1f}; area {float(ask.area_bound):.1f}"
    )


def _side_by_side(ask: Ask) -> Iterator[FamilyLayout]:
    """Bands of turned pieces, cut short enough that the strips lie beside them on the cloth."""
    for crosswise, panels, turned, strips in product((False, True), range(5), range(1, 5), range(1, 5)):
        across, along = (ask.length, ask.width) if crosswise else (ask.width, ask.length)
        seams = panels + turned + strips - 1
        if seams > MOST_SEAMS or panels_cover(ask, across, panels) or not (width := band_cut(ask, across, panels)):
            continue
        long, room = along + 2 * ask.seam * (turned + strips - 1), ask.usable - strips * width
        strip = max(ask.end, (long - turned * room) / strips)
        if room >= ask.end and long - strips * strip >= turned * ask.end:
            cut = panels * along + max(turned * width, strip)
            yield FamilyLayout(crosswise, panels, turned, strips, seams, cut)


def _in_two_parts(ask: Ask) -> Iterator[tuple[int, Fraction]]:
    """Backings of two parts sewn along one line, each part of the family or with strips beside turned pieces: two
    bands, a band from strips of two widths, and split panels are among them. Gives seams and the cloth."""
    for side, other in ((ask.width, ask.length), (ask.length, ask.width)):
        for first in range(math.ceil(ask.edge), int(side / 2) + 1):
            parts = [_part(ask, shown + ask.seam, other) for shown in (Fraction(first), side - first)]
            yield from ((one + two + 1, parts[0][one] + parts[1][two]) for one, two in product(*parts))


@cache
def _part(ask: Ask, side: Fraction, other: Fraction) -> dict[int, Fraction]:
    """The least cloth of a part, for each number of seams."""
    part = ask._replace(width=side, length=other)
    found: dict[int, Fraction] = {}
    for way in [*search(part), *_side_by_side(part)]:
        found[way.seams] = min(way.cut, found.get(way.seams, way.cut))
    return found


def _spec(ask: Ask) -> Backing:
    backing = sample_project().backing
    assert backing
    overage, seam_allowance = Overage.all_round(inches(ask.overage)), inches(ask.seam)
    return backing.replace(fabric=cloth(ask.usable), overage=overage, seam_allowance=seam_allowance)


def _all_options(ask: Ask) -> object:
    sample = sample_project()
    return best_options(inches(ask.width), inches(ask.length), _spec(ask), sample.sewing, sample.currency)


def _plan(ask: Ask) -> BackingPlan:
    sample, around = sample_project(), 2 * ask.overage
    top = rectangle(inches(ask.width - around), inches(ask.length - around))
    return plan_backing(top, _spec(ask), sample.sewing, sample.currency, inches("1/8"))


def _packing(plan: BackingPlan) -> float:
    """Seconds in which the solver proves that the chosen pieces fit on their cloth and on none that is shorter."""
    from tests.proof.test_packing import Pieces, packs

    pieces = Pieces.of(plan.chosen)
    start = time.perf_counter()
    proved = (packs(pieces, pieces.along), packs(pieces, pieces.along - 1))
    took = time.perf_counter() - start
    if proved != (True, False):
        print(f"  not proved: {plan.width} x {plan.length}")
    return took


def _best(work: Callable[[], object], rounds: int = 3) -> float:
    """The least seconds that a call takes."""
    found = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return min(found)


def _print_time(name: str, seconds: list[float]) -> None:
    print(f"  {name:<20} median {statistics.median(seconds) * 1000:.2f} ms, worst {max(seconds) * 1000:.2f} ms")


if __name__ == "__main__":
    main()
