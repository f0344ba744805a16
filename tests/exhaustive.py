"""Every backing of the family, tried one by one from the rules alone; it shares no code with the planner.

Panels of the cloth's usable width `u` lie side by side, and across the rest lies one band of `turned` pieces (their
length is the cloth's width) and `strips` (cut side by side from one length of the cloth), joined end to end. Each
join takes two seam allowances `s`. Everything here is a Fraction of an inch. It is slow, and plain.
"""

import math
import random
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations, product
from typing import NamedTuple

from finishcalc.plans.backing.plan import BackingPlan
from tests.builders import backing_of, cloth, inches

Key = tuple[int, bool]
"""So many seams at the most; whether pieces may be turned."""

KEYS: list[Key] = list(product(range(5), (False, True)))
MOST_PANELS, MOST_PIECES, MOST_SEAMS = 4, 5, 4
YARD_EIGHTH = Fraction(9, 2)


class Ask(NamedTuple):
    """A backing to be made: its size with the overage, and the terms, all in inches."""

    width: Fraction
    length: Fraction
    usable: Fraction = Fraction(40)
    seam: Fraction = Fraction(1, 2)
    overage: Fraction = Fraction(4)
    clear: Fraction = Fraction(2)
    shortest: Fraction = Fraction(8)
    step: Fraction = YARD_EIGHTH
    one_way: bool = False

    @property
    def edge(self) -> Fraction:
        """The least an outer piece shows, for its seam to keep clear of the trimmed edge."""
        return self.overage + self.clear

    @property
    def end(self) -> Fraction:
        """The least a piece that is joined end to end is cut long."""
        return max(self.shortest, self.edge + self.seam)

    @property
    def area_bound(self) -> Fraction:
        """Cloth that no way to make it can be under: the area of the backing, without a seam."""
        return self.width * self.length / self.usable


class FamilyLayout(NamedTuple):
    """A layout: what it is made of, its seams, and how much of the cloth its pieces take."""

    crosswise: bool
    panels: int
    turned: int
    strips: int
    seams: int
    cut: Fraction

    @property
    def full_panels(self) -> bool:
        """True for full panels alone."""
        return not self.turned and not self.strips


@cache
def search(ask: Ask) -> list[FamilyLayout]:
    """Every layout of the family, each with its least cloth, that has at most MOST_SEAMS."""
    ways = []
    for crosswise in [False] if ask.one_way else [False, True]:
        across, along = (ask.length, ask.width) if crosswise else (ask.width, ask.length)
        ways += _either_way(ask, crosswise, across, along)
    return ways


def least(ask: Ask) -> dict[Key, Fraction]:
    """Give the least that is bought with so many seams at the most, without turned pieces and with."""
    return _least((way.seams, way.turned > 0, bought(ask, way.cut)) for way in search(ask))


def least_planned(plan: BackingPlan) -> dict[Key, Fraction]:
    """Give the same for the planner's options."""
    return _least((option.layout.seams, option.layout.turned, option.amount.to("in")) for option in plan.options)


def least_full_panels(ask: Ask) -> Fraction:
    """Give the amount that full panels alone buy, the better of the two directions."""
    return min(bought(ask, way.cut) for way in search(ask) if way.full_panels)


def _least(made: Iterable[tuple[int, bool, Fraction]]) -> dict[Key, Fraction]:
    ways = list(made)
    found = {}
    for most, may_turn in KEYS:
        fitting = [amount for seams, turned, amount in ways if seams <= most and turned <= may_turn]
        if fitting:
            found[most, may_turn] = min(fitting)
    return found


def bought(ask: Ask, cut: Fraction) -> Fraction:
    """Give the amount bought for a cut length of cloth that loses nothing: up to the step."""
    return math.ceil(cut / ask.step) * ask.step


def _either_way(ask: Ask, crosswise: bool, across: Fraction, along: Fraction) -> Iterator[FamilyLayout]:
    for panels in range(1, MOST_PANELS + 1):
        if panels_cover(ask, across, panels):
            yield FamilyLayout(crosswise, panels, 0, 0, panels - 1, panels * along)
            break
    for panels, turned, strips in product(range(MOST_PANELS + 1), range(MOST_PIECES + 1), range(MOST_PIECES + 1)):
        # turned pieces without a panel or a strip are the full panels of the other direction
        no_band = turned + strips == 0 or (panels == 0 and strips == 0)
        seams = panels + turned + strips - 1
        if no_band or seams > MOST_SEAMS or (turned and ask.one_way) or panels_cover(ask, across, panels):
            continue
        width = band_cut(ask, across, panels)
        cloth_taken = width and band_cloth(ask, along, width, turned, strips)
        if cloth_taken:
            joins = turned + strips - 1
            yield FamilyLayout(crosswise, panels, turned, strips, panels + joins, panels * along + cloth_taken)


def panels_cover(ask: Ask, across: Fraction, panels: int) -> bool:
    """Check that so many full panels are wide enough: each of their joins takes two allowances."""
    return panels > 0 and panels * ask.usable - 2 * ask.seam * (panels - 1) >= across


def band_cut(ask: Ask, across: Fraction, panels: int) -> Fraction | None:
    """Give the cut width of the band beside or between so many panels; None where a seam would lie near the edge."""
    if panels == 0:
        return across
    if panels == 1:
        # one join hides an allowance of the panel and one of the band
        shown = max(across - (ask.usable - ask.seam), ask.edge)
        return shown + ask.seam if across - shown >= ask.edge else None
    # each panel shows its width less its allowances: all but the two outer edges are sewn
    shown = max(across - (panels * ask.usable - 2 * ask.seam * (panels - 1)), ask.clear)
    inside = (panels - 2) * (ask.usable - 2 * ask.seam)
    return shown + 2 * ask.seam if (across - shown - inside) / 2 >= ask.edge else None


def band_cloth(ask: Ask, along: Fraction, width: Fraction, turned: int, strips: int) -> Fraction | None:
    """The least cloth for a band of this cut width from so many pieces; None where they cannot make it."""
    long = along + 2 * ask.seam * (turned + strips - 1)
    if strips * width > ask.usable:
        return None
    fitting = [
        turned * width + (strip if strips else 0)
        for strip in _strip_lengths(ask, long, turned, strips)
        if _makes(ask, long, turned, strips, strip)
    ]
    return min(fitting, default=None)


def _strip_lengths(ask: Ask, long: Fraction, turned: int, strips: int) -> list[Fraction]:
    """Every length at which a strip meets one of its limits, and some between them."""
    if not strips:
        return [Fraction(0)]
    turned_whole, turned_least = (long - turned * ask.usable) / strips, (long - turned * ask.end) / strips
    limits = [ask.end, turned_whole, turned_least, long / strips]
    return [*limits, *((one + other) / 2 for one, other in combinations(limits, 2))]


def _makes(ask: Ask, long: Fraction, turned: int, strips: int, strip: Fraction) -> bool:
    """Check that strips of this length, with turned pieces alike for the rest, make the band to the rules."""
    each = (long - strips * strip) / turned if turned else Fraction(0)
    if not turned and strips * strip != long:
        return False
    lengths = [each] * (turned > 0) + [strip] * (strips > 0)
    least_length = ask.end if turned + strips > 1 else 0
    return each <= ask.usable and all(length > 0 and length >= least_length for length in lengths)


@cache
def plan_of(ask: Ask) -> BackingPlan:
    """The planner's answer to the same ask, where seams cost nothing."""
    return backing_of(
        ask.width - 2 * ask.overage,
        ask.length - 2 * ask.overage,
        {"clear_edge": inches(ask.clear), "shortest_piece": inches(ask.shortest), "wage": Fraction(0)},
        fabric=cloth(ask.usable, step=inches(ask.step), directional=ask.one_way),
        overage=inches(ask.overage),
        seam_allowance=inches(ask.seam),
    )


def usual_tops(count: int = 200) -> list[Ask]:
    """Random tops in whole inches, overage 4 and seam allowance 1/2 on cloth 40 wide: what means are taken over."""
    return [Ask(width + 8, length + 8) for width, length in _sizes(random.Random(20260117), count, parts=1)]


def odd_tops(count: int = 200) -> list[Ask]:
    """Random tops in eighths of an inch on many cloths, some bought by the 1/64 in so that no cut is hidden."""
    chance = random.Random(20260118)
    return [_odd(chance, width, length) for width, length in _sizes(chance, count, parts=8)]


def _odd(chance: random.Random, width: Fraction, length: Fraction) -> Ask:
    overage = Fraction(chance.choice([6, 8, 11]), 2)
    return Ask(
        width + 2 * overage,
        length + 2 * overage,
        Fraction(chance.choice([288, 320, 336, 349, 432]), 8),
        Fraction(chance.choice([2, 3, 4, 8]), 8),
        overage,
        Fraction(chance.choice([1, 2, 3])),
        Fraction(chance.choice([6, 8, 12])),
        chance.choice([YARD_EIGHTH, Fraction(1, 64)]),
        chance.random() < 0.25,
    )


def _sizes(chance: random.Random, count: int, parts: int) -> list[tuple[Fraction, Fraction]]:
    """36 to 108 wide, from as long as wide to half as much again or 120, in so many parts of an inch."""
    found = []
    for _ in range(count):
        width = chance.randint(36 * parts, 108 * parts)
        length = chance.randint(width, min(120 * parts, width * 3 // 2))
        found.append((Fraction(width, parts), Fraction(length, parts)))
    return found
