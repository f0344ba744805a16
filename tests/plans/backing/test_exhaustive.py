"""The planner held against an exhaustive search of the same family, and against examples worked by hand.

In the examples the cloth is 40 usable and sold by the 1/8 yd (4 1/2 in), the overage 4, the seam allowance 1/2, and a
seam keeps 2 from the trimmed edge, so that a piece at the edge shows at least 4 + 2 = 6. A panel shows 39 1/2 with
one sewn edge and 39 with two. A piece joined end to end is cut at least max(8, 6 + 1/2) = 8.
"""

from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import Length
from finishcalc.plans.backing.layout import VisiblePiece
from finishcalc.plans.backing.plan import BackingPlan
from tests.backing_checker import Terms, complaints
from tests.builders import Amount, backing_of, cloth, inches, yards
from tests.exhaustive import (
    KEYS,
    Ask,
    Key,
    bought,
    least,
    least_full_panels,
    least_planned,
    odd_tops,
    plan_of,
    search,
    usual_tops,
)
from tests.strategies import examples

SEWING = {"clear_edge": inches(2), "shortest_piece": inches(8), "wage": Fraction(0), "most_seams": 3}


# --- against the search -------------------------------------------------------------------------------------------


@cache
def compared() -> list[tuple[Ask, dict[Key, Fraction], dict[Key, Fraction]]]:
    """Many tops, each with the least that the planner and that the search buys."""
    return [(ask, least_planned(plan_of(ask)), least(ask)) for ask in odd_tops()]


def test_the_planner_buys_no_more_than_the_search():
    """With so many seams at the most, without turned pieces and with, the search finds nothing that buys less."""
    worse = [
        (ask, key, planned.get(key), found[key])
        for ask, planned, found in compared()
        for key in found
        if key not in planned or planned[key] > found[key]
    ]
    assert worse == []


def test_the_planner_buys_no_less_than_the_search():
    """Both know the same family and keep the same rules, so the planner cannot buy less."""
    better = [
        (ask, key, planned[key], found.get(key))
        for ask, planned, found in compared()
        for key in planned
        if key not in found or planned[key] < found[key]
    ]
    assert better == []


def test_no_option_undercuts_its_own_number_of_seams():
    """An option of exactly so many seams buys no less than the search's layouts of exactly so many."""
    for ask in odd_tops():
        ways = [(way.seams, way.turned > 0, bought(ask, way.cut)) for way in search(ask)]
        for option in plan_of(ask).options:
            key = (option.layout.seams, option.layout.turned)
            assert option.amount.to("in") >= min(buys for *alike, buys in ways if tuple(alike) == key), (ask, key)


def test_the_tops_are_of_every_kind():
    """There are tops where each number of seams, turned pieces or not, buys less than one fewer does."""
    gains = {
        (most, may_turn)
        for _, _, found in compared()
        for most, may_turn in KEYS
        if (most - 1, may_turn) in found and found[most, may_turn] < found[most - 1, may_turn]
    }
    assert gains >= {(2, False), (2, True), (3, False), (3, True), (4, False), (4, True)}
    assert any(ask.one_way for ask, _, _ in compared())


@pytest.mark.parametrize(("most", "reach"), [(3, "0.936"), (4, "0.912")])
def test_cloth_saved_over_plain_panels(most: int, reach: str):
    """Over 200 tops the cloth is so much of what full panels take, with so many seams at the most."""
    means = {may_turn: _mean_share(most, may_turn) for may_turn in (False, True)}
    print(f"{most} seams: {float(means[True]):.4f} of full panels, without turned pieces {float(means[False]):.4f}")
    assert means[True] <= Fraction(reach)
    assert means[True] < means[False] < 1


def _mean_share(most: int, may_turn: bool) -> Fraction:
    return sum(planned[most, may_turn] / full_panels for planned, full_panels in _shares()) / len(_shares())


@cache
def _shares() -> list[tuple[dict[Key, Fraction], Fraction]]:
    return [(least_planned(plan_of(ask)), least_full_panels(ask)) for ask in usual_tops()]


# --- by hand ------------------------------------------------------------------------------------------------------


def example(backing: str, centre: str = "any", usable: Amount = 40, **fabric: Any) -> BackingPlan:
    """The plan of a backing of this size, overage included, on cloth as at the head of this file."""
    width, length = (inches(side).to("in") for side in backing.split("x"))
    usual = {"overage": inches(4), "seam_allowance": inches("1/2"), "centre": centre}
    return backing_of(width - 8, length - 8, SEWING, fabric=cloth(usable, **fabric), **usual)


def table(plan: BackingPlan) -> dict[tuple[int, bool], tuple[Length, Length]]:
    """What the best option of each number of seams, without turned pieces and with, cuts and buys."""
    found: dict[tuple[int, bool], tuple[Length, Length]] = {}
    for option in plan.options:
        key = (option.layout.seams, option.layout.turned)
        amounts = (option.layout.cut_length, option.amount)
        found[key] = min(amounts, found.get(key, amounts), key=lambda pair: (pair[1], pair[0]))
    return found


def rows(*told: tuple[int, str, Amount, Amount]) -> dict[tuple[int, bool], tuple[Length, Length]]:
    """A table from seams, "turned" or "straight", inches cut and yards bought."""
    return {(seams, grain == "turned"): (inches(cut), yards(buy)) for seams, grain, cut, buy in told}


def test_a_backing_of_44_by_60():
    """44x60: two panels across take one seam; a band at the side saves more with every join (derived)."""
    assert table(example("44x60")) == rows(
        # across, 2 panels of 44 (they join to 79): 88 in = 2.44 yd
        (1, "straight", 88, "2 1/2"),
        # down, a panel of 60; 44 - 39 1/2 = 4 1/2 is too little at the edge, so the band shows 6 and is cut 6 1/2:
        # 2 strips of (60 + 1) / 2 = 30 1/2: 90 1/2 in = 2.51 yd
        (2, "straight", "90 1/2", "2 5/8"),
        # across, a panel of 44 and a band of 60 - 39 1/2 = 20 1/2, cut 21; 44 + 1 = 45 is 37 turned and the least
        # strip of 8: 44 + 21 + 8 = 73 in = 2.03 yd. So do 2 turned pieces down: 60 + 2 x 6 1/2 = 73.
        (2, "turned", 73, "2 1/8"),
        # 3 strips of (60 + 2) / 3 = 20 2/3: 80 2/3 in = 2.24 yd
        (3, "straight", Fraction(242, 3), "2 1/4"),
        # 62 is 40 turned and 2 strips of 11: 60 + 6 1/2 + 11 = 77 1/2 in = 2.15 yd
        (3, "turned", "77 1/2", "2 1/4"),
        # 4 strips of (60 + 3) / 4 = 15 3/4: 75 3/4 in = 2.10 yd
        (4, "straight", "75 3/4", "2 1/8"),
        # 63 is 39 turned and 3 strips of 8: 60 + 6 1/2 + 8 = 74 1/2 in = 2.07 yd
        (4, "turned", "74 1/2", "2 1/8"),
    )


def test_a_backing_of_68_by_88():
    """68x88: a band between two panels across, or one beside a panel down (derived)."""
    assert table(example("68x88")) == rows(
        # down, 2 panels of 88 (79 wide): 176 in = 4.89 yd
        (1, "straight", 176, 5),
        # across, 3 panels of 68 (118): 204 in = 5.67 yd
        (2, "straight", 204, "5 3/4"),
        # down, a panel of 88 and a band of 68 - 39 1/2 = 28 1/2, cut 29; 88 + 1 = 89 is 40 turned and a strip of 49:
        # 88 + 29 + 49 = 166 in = 4.61 yd
        (2, "turned", 166, "4 5/8"),
        # across, 2 panels join to 79, and 88 - 79 = 9 between them is cut 10: 2 strips of (68 + 1) / 2 = 34 1/2:
        # 136 + 34 1/2 = 170 1/2 in = 4.74 yd
        (3, "straight", "170 1/2", "4 3/4"),
        # down, 90 is 2 x 40 turned and a strip of 10: 88 + 2 x 29 + 10 = 156 in = 4.33 yd.
        # So do 2 turned pieces across: 136 + 2 x 10.
        (3, "turned", 156, "4 3/8"),
        # across, 3 strips of (68 + 2) / 3 = 23 1/3: 159 1/3 in = 4.43 yd
        (4, "straight", Fraction(478, 3), "4 1/2"),
        # across, 70 is 40 turned and 2 strips of 15: 136 + 10 + 15 = 161 in = 4.47 yd
        (4, "turned", 161, "4 1/2"),
    )


def test_a_backing_of_92_by_100():
    """92x100: three panels, or two and a band between them (derived)."""
    assert table(example("92x100")) == rows(
        # across, 3 panels of 92 (118): 276 in = 7.67 yd
        (2, "straight", 276, "7 3/4"),
        # down, 2 panels join to 79, and 92 - 79 = 13 between them is cut 14: 2 strips of (100 + 1) / 2 = 50 1/2:
        # 200 + 50 1/2 = 250 1/2 in = 6.96 yd. A third strip would not fit: 3 x 14 = 42.
        (3, "straight", "250 1/2", 7),
        # down, a panel of 100 and a band of 92 - 39 1/2 = 52 1/2, cut 53, of 3 turned pieces of (100 + 2) / 3 = 34:
        # 100 + 3 x 53 = 259 in = 7.19 yd. So does across: 184 + 22 turned + a strip of 93 - 40 = 53.
        (3, "turned", 259, "7 1/4"),
        # down, 3 turned pieces of (100 + 2) / 3 = 34 between panels: 200 + 3 x 14 = 242 in = 6.72 yd
        (4, "turned", 242, "6 3/4"),
    )


def test_directional_cloth():
    """Cloth with a direction gets no turned piece and no panel across (derived)."""
    assert table(example("44x60", directional=True)) == rows(
        # 2 panels of 60: 120 in = 3.33 yd; then strips as in the example of 44x60
        (1, "straight", 120, "3 3/8"),
        (2, "straight", "90 1/2", "2 5/8"),
        (3, "straight", Fraction(242, 3), "2 1/4"),
        (4, "straight", "75 3/4", "2 1/8"),
    )
    # a band down 68x88 is cut 29, and two strips of it do not lie side by side
    assert table(example("68x88", directional=True)) == rows((1, "straight", 176, 5))


def test_a_print_that_must_meet():
    """A repeat of 24 gets full panels only, each on a repeat (derived)."""
    assert table(example("68x88", repeat=inches(24))) == rows(
        # down, the second panel starts at 96: 96 + 88 = 184 in = 5.11 yd
        (1, "straight", 184, "5 1/8"),
        # across, panels start at 0, 72 and 144: 144 + 68 = 212 in = 5.89 yd
        (2, "straight", 212, 6),
    )


def test_plush():
    """Plush gets no turned piece, and its panels and strips run down (derived)."""
    assert table(example("44x60", nap=True)) == rows(
        (1, "straight", 120, "3 3/8"),
        # a band that shows 6 in strips of 6 1/2 side by side: 60 + (60 + 1) / 2 = 90 1/2 in = 2.51 yd
        (2, "straight", "90 1/2", "2 5/8"),
        # 60 + (60 + 2) / 3 = 80 2/3 in = 2.24 yd
        (3, "straight", "80 2/3", "2 1/4"),
        # 60 + (60 + 3) / 4 = 75 3/4 in = 2.10 yd
        (4, "straight", "75 3/4", "2 1/8"),
    )


def test_shrinkage_both_ways():
    """(44 - 2 x 2) x 0.95 = 38 are usable, and c in of washed cloth are c / 0.96 + 1 to square (derived)."""
    washes = {"shrink_across": Fraction(5, 100), "shrink_along": Fraction(4, 100)}
    assert table(example("68x88", usable=44, selvage=inches(2), straighten=inches(1), **washes)) == rows(
        # down, 2 panels of 88 (they join to 75): 176 / 0.96 + 1 = 184.33 in = 5.12 yd
        (1, "straight", 176, "5 1/8"),
        # across, 3 panels of 68 (112): 204 / 0.96 + 1 = 213.5 in = 5.93 yd
        (2, "straight", 204, 6),
        # down, a band of 68 - 37 1/2 = 30 1/2, cut 31; 89 is 38 turned and a strip of 51: 88 + 31 + 51 = 170,
        # 170 / 0.96 + 1 = 178.08 in = 4.95 yd
        (2, "turned", 170, 5),
        # across, 88 - 75 = 13 between panels is cut 14: 2 strips of 34 1/2: 170.5 / 0.96 + 1 = 178.60 in = 4.96 yd
        (3, "straight", "170 1/2", 5),
        # down, 90 is 2 x 38 turned and a strip of 14: 88 + 62 + 14 = 164, 164 / 0.96 + 1 = 171.83 in = 4.77 yd.
        # So do 2 turned pieces across: 136 + 2 x 14 = 164.
        (3, "turned", 164, "4 7/8"),
        # across, 70 is 38 turned and 2 strips of 16: 136 + 14 + 16 = 166, 166 / 0.96 + 1 = 173.92 in = 4.83 yd;
        # 3 strips do not fit: 3 x 14 = 42
        (4, "turned", 166, "4 7/8"),
    )


@pytest.mark.parametrize(
    ("wide", "panel", "band"),
    [
        # 44 - 39 1/2 = 4 1/2 puts the seam 1/2 in from the trimmed edge, so the band shows 4 + 2 = 6
        (44, 38, 6),
        # 45 3/8 - 39 1/2 = 5 7/8, an eighth too little
        ("45 3/8", "39 3/8", 6),
        # 45 1/2 - 39 1/2 = 6 is just enough; more is left as it is
        ("45 1/2", "39 1/2", 6),
        (48, "39 1/2", "8 1/2"),
    ],
)
def test_a_band_at_the_edge_is_made_wider(wide: Amount, panel: Amount, band: Amount):
    """A band beside a lone panel shows enough that its seam is 2 from the trimmed edge (derived)."""
    option = next(
        option
        for option in example(f"{inches(wide).to('in')}x60", directional=True).options
        if option.layout.seams == 2
    )
    shown = option.layout.assembly
    assert option.clear
    assert [piece.width for piece in shown] == [inches(panel), inches(band), inches(band)]


CENTRED = [
    # even: 2 panels become one of 39 in the middle and halves of (68 - 39) / 2 = 14 1/2, cut 15: 2 lengths of 88 in
    # = 4.89 yd
    ("68x88", ["14 1/2", 39, "14 1/2"], 176, "5"),
    # halves of (78 - 39) / 2 = 19 1/2, cut 20, just share a length
    ("78x88", ["19 1/2", 39, "19 1/2"], 176, "5"),
    # halves of 20 cut 20 1/2 do not, so one more panel: 3 x 88 = 264 in = 7.33 yd
    ("79x88", [20, 39, 20], 264, "7 3/8"),
    # halves of (50 - 39) / 2 = 5 1/2 would be near the trimmed edge, so one more panel
    ("50x88", ["5 1/2", 39, "5 1/2"], 264, "7 3/8"),
    # 51: halves of 6 are clear of it
    ("51x88", [6, 39, 6], 176, "5"),
    # odd: 3 panels have one in the middle, (100 - 39) / 2 = 30 1/2; 3 x 100 = 300 in = 8.33 yd
    ("100x100", ["30 1/2", 39, "30 1/2"], 300, "8 3/8"),
    # 4 panels become 3 and halves of (136 - 3 x 39) / 2 = 9 1/2: 4 x 136 = 544 in = 15.11 yd
    ("136x136", ["9 1/2", 39, 39, 39, "9 1/2"], 544, "15 1/8"),
]


@pytest.mark.parametrize(("backing", "shown", "cut", "buys"), CENTRED)
def test_a_panel_in_the_middle(backing: str, shown: list[Amount], cut: Amount, buys: Amount):
    """With a panel in the middle, full and halved panels show and take this; a nap tells them from bands (derived)."""
    options = example(backing, centre="panel", nap=True).options
    best = min((option for option in options if not option.breaks_pile), key=lambda option: option.amount)
    assert [piece.width for piece in best.layout.assembly] == list(map(inches, shown))
    assert (best.layout.cut_length, best.amount) == (inches(cut), yards(buys))


@pytest.mark.parametrize(
    ("bolt", "seams", "lengths"),
    [
        # 2 panels of 88: 176 in = 4.89 yd as one length
        (5, 1, ["5"]),
        # from bolts of 4 yd each panel is a length: 88 in = 2.44 yd
        (4, 1, ["2 1/2", "2 1/2"]),
        # across, 2 panels of 68 are 136 in = 3.78 yd, and the strips of 34 1/2 in = 0.96 yd come from the next bolt
        (4, 3, ["3 7/8", "1"]),
        # from bolts of 3 yd: a panel of 68 in = 1.89 yd, then a panel and the strips, 102 1/2 in = 2.85 yd
        (3, 3, ["2", "2 7/8"]),
    ],
)
def test_bolts(bolt: Amount, seams: int, lengths: list[Amount]):
    """68x88 from short bolts takes two lengths, neither longer than the bolt (derived)."""
    straight = [option for option in example("68x88", bolt=yards(bolt)).options if not option.layout.turned]
    option = next(option for option in straight if option.layout.seams == seams)
    assert list(option.lengths) == list(map(yards, lengths))


def test_bolts_tell_between_ways_that_cut_alike():
    """71x93 from bolts of 3 yd (108 in): of two ways that cut 179 in with a turned piece, the one that buys less."""
    # down: a panel of 93 in, then a band of 71 - 39 1/2 = 31 1/2, cut 32 turned and 94 - 40 = 54 straight:
    # 93 in = 2.58 yd and 32 + 54 = 86 in = 2.39 yd are 2 5/8 + 2 1/2 = 5 1/8 yd
    # across: a panel of 71 in, then 2 turned pieces of a band of 93 - 39 1/2 = 53 1/2, cut 54:
    # 71 in = 1.97 yd and 2 x 54 = 108 in are 2 + 3 = 5 yd
    assert table(example("71x93", bolt=yards(3)))[2, True] == (inches(179), yards(5))


@pytest.mark.parametrize(
    ("backing", "others"),
    [
        # 2 panels join to 79; a band of 82 7/8 - 79 = 3 7/8 between them has its seams 1 15/16 from the middle
        ("82 7/8x100", ()),
        # one of 4 has them 2 from it: cut 5, 2 strips of 50 1/2 are 250 1/2 in = 6.96 yd, 3 of 34 are 234 in = 6.5 yd
        ("83x100", ((3, "straight", "250 1/2", 7), (4, "straight", 234, "6 1/2"))),
    ],
)
def test_no_band_in_the_middle(backing: str, others: tuple[tuple[int, str, Amount, Amount], ...]):
    """With a panel in the middle, a band between panels keeps its seams 2 from the middle line (derived)."""
    # 3 panels of 100: 300 in = 8.33 yd
    plan = example(backing, centre="panel", directional=True)
    assert table(plan) == rows((2, "straight", 300, "8 3/8"), *others)


def test_no_strips_that_meet_in_the_middle():
    """With a panel in the middle, two strips joined end to end half-way down are no option (derived)."""
    # of 20x68, 2 strips of (68 + 1) / 2 = 34 1/2 lie side by side, 2 x 20 = 40; they meet 34 in down, half of 68
    plan = example("20x68", centre="panel", directional=True)
    middles = [(side, side / 2) for side in (plan.width.mm, plan.length.mm)]
    for option in plan.options:
        assert not end_to_end(option.layout.assembly, plan) & set(middles), option.layout.name


# --- a panel in the middle ----------------------------------------------------------------------------------------

EIGHTHS = st.integers(8 * 8, 8 * 130).map(lambda eighths: Fraction(eighths, 8))


@st.composite
def centred(draw: st.DrawFn) -> tuple[BackingPlan, Terms]:
    """A backing that is to have a panel in the middle, with the terms it must keep to."""
    width, length, one_way = draw(EIGHTHS), draw(EIGHTHS), draw(st.booleans())
    usable = Fraction(draw(st.integers(20 * 8, 60 * 8)), 8)
    overage, seam = inches(Fraction(draw(st.integers(4, 48)), 8)), inches(Fraction(draw(st.integers(2, 8)), 8))
    clear = inches(draw(st.integers(0, 4)))
    fabric = cloth(usable, directional=one_way)
    sewing = SEWING | {"clear_edge": clear}
    plan = backing_of(width, length, sewing, fabric=fabric, overage=overage, seam_allowance=seam, centre="panel")
    terms = Terms(plan.width, plan.length, overage, seam, clear, inches(usable), inches(0), Fraction(0), one_way)
    return plan, terms


@examples(150)
@given(centred())
def test_no_long_seam_in_the_middle(found: tuple[BackingPlan, Terms]):
    """With a panel in the middle no seam that runs from end to end lies near the middle line, and all is proved."""
    plan, terms = found
    for option in plan.options:
        assert complaints(option.layout, option.amount, option.clear, terms) == []
        for side, at in end_to_end(option.layout.assembly, plan):
            assert abs(at - side / 2) >= terms.clear_edge.mm, (option.layout.name, option.layout.seams)


def end_to_end(shown: tuple[VisiblePiece, ...], plan: BackingPlan) -> set[tuple[Fraction, Fraction]]:
    """Every straight seam from one edge of the backing to the other: the side it divides, and where, in mm."""
    across = [(piece.x.mm, piece.width.mm, piece.length.mm) for piece in shown]
    down = [(piece.y.mm, piece.length.mm, piece.width.mm) for piece in shown]
    return {
        (side.mm, at)
        for pieces, side, whole in ((across, plan.width, plan.length), (down, plan.length, plan.width))
        for at in {start for start, _, _ in pieces} - {0}
        if sum(long for start, _, long in pieces if start == at) == whole.mm
    }
