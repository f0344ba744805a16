"""Backings: worked examples of the trade, and a proof of every option of random ones.

The figures are derived: n panels of a usable width u join to n x u - 2s(n - 1). Overage 4, seam allowance 1/2 and
usable width 40 unless a test says otherwise.
"""

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.backing.layout import CutPiece, Leftover
from finishcalc.plans.backing.plan import BackingOption, BackingPlan
from tests.backing_checker import Terms, complaints
from tests.builders import Amount, backing_of, cloth, inches, replace, sample_project, yards
from tests.strategies import examples

NO_WAGE = {"wage": Fraction(0)}


def full_panels(plan: BackingPlan, runs: str) -> BackingOption:
    """The option of full-length panels that run one way; one piece may lie either way."""
    along = plan.width if runs == "crosswise" else plan.length
    found = [
        option for option in plan.options if all(_is_panel(option, cut, along, runs) for cut in option.layout.cuts)
    ]
    assert len(found) == 1
    return found[0]


def _is_panel(option: BackingOption, cut: CutPiece, along: Length, runs: str) -> bool:
    turned = {shown.piece: shown.turned for shown in option.layout.assembly}
    return cut.length == along and cut.x == ZERO and turned[cut.piece] == (runs == "crosswise")


# Top, then yards with seams lengthwise, crosswise, and the least of the two. 50x65 for one: the backing is 58x73.
# Lengthwise 2 panels (79 wide) of 73 are 146 in = 4.056 yd, so 4 1/8; crosswise 2 of 58 are 116 in = 3.222, so 3 1/4.
ROWS = [
    ("36x52", "3 3/8", "2 1/2", "2 1/2"),
    ("50x65", "4 1/8", "3 1/4", "3 1/4"),
    ("60x80", "5", "5 3/4", "5"),
    ("63x87", "5 3/8", "6", "5 3/8"),
    ("84x92", "8 3/8", "7 3/4", "7 3/4"),
    ("100x92", "8 3/8", "9", "8 3/8"),
    ("96x96", "8 3/4", "8 3/4", "8 3/4"),
]


def size(text: str) -> tuple[int, int]:
    """Width and length from "63x87"."""
    width, length = text.split("x")
    return int(width), int(length)


@pytest.mark.parametrize(("top", "lengthwise", "crosswise", "least"), ROWS)
def test_panels_of_forty(top: str, lengthwise: str, crosswise: str, least: str):
    """Plain full-width panels take the yardage of the trade's table, each way (derived)."""
    plan = backing_of(*size(top), NO_WAGE)
    amounts = full_panels(plan, "lengthwise").amount, full_panels(plan, "crosswise").amount
    assert amounts == (yards(lengthwise), yards(crosswise))
    assert min(amounts) == yards(least)
    assert plan.chosen.amount <= yards(least)


@pytest.mark.parametrize(("top", "lengthwise", "crosswise", "least"), ROWS)
@pytest.mark.parametrize("runs", ["lengthwise", "crosswise"])
def test_seams_run_as_asked(top: str, lengthwise: str, crosswise: str, least: str, runs: str):
    """Seams asked for one way run that way, whatever the other would cost (derived)."""
    plan = backing_of(*size(top), NO_WAGE, seams=runs)
    assert {option.layout.runs for option in plan.options} <= {runs, "none"}
    assert full_panels(plan, runs).amount == yards(lengthwise if runs == "lengthwise" else crosswise)


def test_size_of_the_backing_and_its_pieces():
    """36x52 is backed by 44x60: two panels that show 30 across it, 44 long, with one seam of 44 (derived)."""
    plan = backing_of(36, 52)
    assert (plan.width, plan.length) == (inches(44), inches(60))
    layout = full_panels(plan, "crosswise").layout
    # 60 / 2 = 30 shown, and 1/2 for the one edge that is sewn. 2 x 44 = 88 in of cloth.
    assert [(cut.width, cut.length) for cut in layout.cuts] == [(inches("30 1/2"), inches(44))] * 2
    assert (layout.seams, layout.seam_length, layout.cut_length) == (1, inches(44), inches(88))


@pytest.mark.parametrize(("top", "amount"), [("63x87", "2"), ("84x92", "2 5/8"), ("100x92", "3")])
def test_wide_goods_need_no_seam(top: str, amount: str):
    """Off wide goods with 106 usable, one piece does (derived): 71 in, 92 in and 108 in along the cloth."""
    chosen = backing_of(*size(top), fabric=cloth(106)).chosen
    assert (chosen.amount, chosen.layout.seams, len(chosen.layout.cuts)) == (yards(amount), 0, 1)
    assert (chosen.seam_minutes, chosen.seam_cost.minor) == (0, 0)


def test_exactly_one_width_is_enough():
    """36x52 with 3 a side is 42 wide: one panel of 42, 58 in = 1.61 yd (derived)."""
    chosen = backing_of(36, 52, fabric=cloth(42), overage=inches(3)).chosen
    assert (chosen.amount, chosen.layout.seams) == (yards("1 5/8"), 0)


def test_a_hair_over_one_width_takes_two_panels():
    """An eighth of an inch more than the cloth is wide takes a seam (derived)."""
    plan = backing_of("36 1/8", 52, fabric=cloth(42), overage=inches(3), seams="lengthwise")
    assert full_panels(plan, "lengthwise").layout.seams == 1


def test_exactly_two_widths_less_their_seam_are_enough():
    """Two panels of 40 join to 79: a top of 71 with 4 a side is just covered, 71 1/8 is not (derived)."""
    assert full_panels(backing_of(71, 80, seams="lengthwise"), "lengthwise").layout.seams == 1
    assert full_panels(backing_of("71 1/8", 80, seams="lengthwise"), "lengthwise").layout.seams == 2


@pytest.mark.parametrize(
    ("top", "usable", "squaring", "bare", "squared"),
    [("50x65", 40, 2, "3 1/4", "3 3/8"), ("63x87", 106, 6, "2", "2 1/4"), ("84x92", 106, 6, "2 5/8", "2 3/4")],
)
def test_squaring_the_end(top: str, usable: int, squaring: int, bare: str, squared: str):
    """What squaring the end loses is bought on top (1 in on cotton, 4-6 on wide goods: common practice; derived)."""
    assert _least_full_panels(backing_of(*size(top), fabric=cloth(usable))) == yards(bare)
    fabric = cloth(usable, straighten=inches(squaring))
    assert _least_full_panels(backing_of(*size(top), fabric=fabric)) == yards(squared)


def _least_full_panels(plan: BackingPlan) -> Length:
    return min(full_panels(plan, runs).amount for runs in ("lengthwise", "crosswise"))


def test_cut_for_shrinkage():
    """100 in of washed cloth at 3 % is 100 / 0.97 = 103.0928 in as bought; 100 x 1.03 would come up short (derived)."""
    fine = cloth(shrink_along=Fraction(3, 100), step=inches(Fraction(1, 10000)))
    plan = backing_of(30, 92, fabric=fine, seams="lengthwise")
    assert plan.chosen.layout.cut_length == inches(100)
    assert plan.chosen.amount == inches(Fraction(1030928, 10000))


def test_shrinkage_comes_before_squaring():
    """120 in at 4 % with 1 in to square is 120 / 0.96 + 1 = 126 in (derived)."""
    fabric = cloth(shrink_along=Fraction(4, 100), straighten=inches(1), step=inches(1))
    option = full_panels(backing_of(36, 52, fabric=fabric), "lengthwise")
    assert (option.layout.cut_length, option.amount) == (inches(120), inches(126))


def test_shrinkage_across_narrows_the_cloth():
    """(44 - 2 x 2) x 0.95 = 38 usable: a top of 30 with 4 a side takes it whole, 30 1/8 does not (derived)."""
    fabric = cloth(44, selvage=inches(2), shrink_across=Fraction(5, 100))
    assert full_panels(backing_of(30, 60, fabric=fabric, seams="lengthwise"), "lengthwise").layout.seams == 0
    assert full_panels(backing_of("30 1/8", 60, fabric=fabric, seams="lengthwise"), "lengthwise").layout.seams == 1


def test_a_repeat_is_kept():
    """44x60 lengthwise at a repeat of 24: the second panel starts at 72, 72 + 60 = 132 in = 3 2/3 yd (derived)."""
    option = full_panels(backing_of(36, 52, fabric=cloth(repeat=inches(24))), "lengthwise")
    assert [cut.y for cut in option.layout.cuts] == [inches(0), inches(72)]
    assert (option.layout.cut_length, option.amount) == (inches(132), yards("3 3/4"))


def test_a_repeat_that_fits_costs_nothing():
    """60 is five repeats of 12, so nothing is lost (derived)."""
    option = full_panels(backing_of(36, 52, fabric=cloth(repeat=inches(12))), "lengthwise")
    assert option.layout.cut_length == inches(120)


@pytest.mark.parametrize("way", ["directional", "nap"])
def test_one_way_cloth_runs_down_the_quilt(way: str):
    """Cloth with a direction or a nap is never turned, though turned panels of 36x52 cost less (common practice)."""
    plan = backing_of(36, 52, fabric=cloth(**{way: True}))
    assert not any(shown.turned for option in plan.options for shown in option.layout.assembly)
    assert full_panels(plan, "lengthwise").amount == yards("3 3/8")


def test_what_a_seam_costs():
    """A seam takes 6 min and 0.08 min an inch (common practice): 44 in is 9.52 min, at 30 an hour 4.76 (derived)."""
    sewing = {"minutes_each": Fraction(6), "minutes_along": Fraction(8, 100), "per": "in", "wage": Fraction(30)}
    option = full_panels(backing_of(36, 52, sewing), "crosswise")
    assert (option.seam_minutes, option.seam_cost.minor) == (Fraction(952, 100), 476)
    # 2 1/2 yd at 10 is 25.00
    assert (option.cloth_cost.minor, option.total_cost.minor) == (2500, 2976)


def test_dear_seams_can_outweigh_cloth():
    """70x110 takes an eighth more cloth with one seam than with two: which is chosen depends on the wage (derived)."""
    # The backing is 78x118. Lengthwise 2 panels, 236 in, 6 5/8 yd; crosswise 118 = 3 x 40 - 2, 234 in, 6 1/2 yd.
    # One seam of 118 is 15.44 min, 7.72 at 30 an hour; two of 78 are 24.48 min, 12.24. So 73.97 against 77.24.
    minutes = {"minutes_each": Fraction(6), "minutes_along": Fraction(8, 100), "per": "in"}
    assert backing_of(70, 110, minutes | NO_WAGE).chosen.total_cost.minor <= 6500
    plan = backing_of(70, 110, minutes | {"wage": Fraction(30)})
    costs = [full_panels(plan, runs).total_cost.minor for runs in ("lengthwise", "crosswise")]
    assert costs == [7397, 7724]
    assert plan.chosen.total_cost.minor <= 7397


def test_too_many_seams_are_cautioned():
    """A backing that takes more seams than the shop likes is still planned, with a caution."""
    # 108 across off 40 usable takes 3 panels either way: 2 seams.
    most = {"sewing": {"most_seams": 1}, "seams": "lengthwise"}
    plan = backing_of(100, 92, **most)
    assert plan.chosen.layout.seams == 2
    assert [told.code for told in plan.cautions] == ["many-seams"]
    assert backing_of(100, 92, sewing={"most_seams": 2}, seams="lengthwise").cautions == ()


def test_as_many_seams_as_the_shop_likes_are_allowed():
    """70x110: two seams are the cheaper way where two are liked, and not taken where one is (derived)."""
    # Crosswise 6 1/2 yd with two seams, lengthwise 6 5/8 with one, as above.
    two, one = (backing_of(70, 110, {"most_seams": most} | NO_WAGE) for most in (2, 1))
    assert two.chosen.amount <= yards("6 1/2")
    assert one.chosen.layout.seams == 1
    assert one.cautions == ()


def test_fewest_seams_where_all_are_too_many():
    """Where every way takes too many seams, the fewest are taken, not the cheapest (derived)."""
    # 60x200: the backing is 68x208. Lengthwise 2 panels; crosswise ceil(207 / 39) = 6 panels.
    plan = backing_of(60, 200, sewing={"most_seams": 0} | NO_WAGE)
    assert plan.chosen.layout.seams == min(option.layout.seams for option in plan.options) == 1


def test_a_seam_near_the_trimmed_edge_is_cautioned():
    """A seam within 2 in of the trimmed edge is taken only where there is no other way (common practice)."""
    # 37 x 30 with 19 a side is 75 wide: one seam in the middle at 37 1/2, and the trimmed edge is at 19 and 56.
    assert backing_of(37, 30, overage=inches(19), seams="lengthwise").chosen.clear
    # 2 wide with 19 1/2 a side is 41 wide: the seam is at 20 1/2, an inch from each edge at 19 1/2 and 21 1/2.
    plan = backing_of(2, 30, overage=inches("19 1/2"), seams="lengthwise", fabric=cloth(40))
    assert not plan.chosen.clear
    assert [told.code for told in plan.cautions] == ["seam-near-edge"]


def test_two_inches_from_the_trimmed_edge_is_clear():
    """4 wide with 19 a side is 42: the seam at 21 lies exactly 2 from the trimmed edges at 19 and 23 (derived)."""
    clear = {"sewing": {"clear_edge": inches(2)}, "overage": inches(19), "seams": "lengthwise"}
    assert backing_of(4, 30, **clear).chosen.clear
    assert not backing_of("3 7/8", 30, **clear).chosen.clear


def test_a_clear_way_is_taken_before_a_cheaper_one():
    """The cheaper way has its seams at the trimmed edge, so the dearer one that is clear of it is chosen (derived)."""
    # 13 1/2 x 14 1/2 with 13 a side is 39 1/2 x 40 1/2; off 14 usable, inner panels show 13. Lengthwise 3 panels:
    # the first seam at (39 1/2 - 13) / 2 = 13 1/4, the trimmed edge at 13; 121 1/2 in. Crosswise 4 panels: seams at
    # 7 1/4, 20 1/4, 33 1/4, the trimmed edges at 13 and 27 1/2; 158 in.
    sewing = {"clear_edge": inches(2), "most_seams": 3} | NO_WAGE
    plan = backing_of("13 1/2", "14 1/2", sewing, overage=inches(13), fabric=cloth(14))
    near, clear = full_panels(plan, "lengthwise"), full_panels(plan, "crosswise")
    assert (near.clear, clear.clear) == (False, True)
    assert near.total_cost < clear.total_cost
    assert plan.chosen.clear
    assert plan.chosen.total_cost <= clear.total_cost


def test_leftovers():
    """What is bought and not needed is told of: beside the pieces, between repeats, at the end (derived)."""
    # 44x60 at a repeat of 24: pieces of 22 1/2 at 0 and 72, so 17 1/2 is left beside each, and 12 between them.
    # 132 in is 3.67 yd, so 3 3/4 yd = 135 in are bought and 3 are left at the end.
    option = full_panels(backing_of(36, 52, fabric=cloth(repeat=inches(24))), "lengthwise")
    expected = [("22 1/2", 0, "17 1/2", 60), (0, 60, 40, 12), ("22 1/2", 72, "17 1/2", 60), (0, 132, 40, 3)]
    assert sorted(_figures(left) for left in option.leftover) == sorted(tuple(map(inches, row)) for row in expected)


def _figures(left: Leftover) -> tuple[Length, Length, Length, Length]:
    return left.x, left.y, left.width, left.length


def test_chosen_is_cheapest_of_those_allowed():
    """84x92: crosswise takes 7 3/4 yd against 8 3/8 with as many seams, so it is chosen (derived)."""
    plan = backing_of(84, 92)
    assert (
        plan.chosen.total_cost <= full_panels(plan, "crosswise").total_cost < full_panels(plan, "lengthwise").total_cost
    )


# --- properties ---------------------------------------------------------------------------------------------------

EIGHTHS = st.integers(8, 8 * 150).map(lambda eighths: inches(Fraction(eighths, 8)))
MILLIMETRES = st.integers(26, 4000).map(lambda mm: Length.of(mm, "mm"))
SIDES = st.one_of(EIGHTHS, MILLIMETRES)
SHRINKAGES = st.integers(0, 100).map(lambda tenths: Fraction(tenths, 1000))
STEPS = st.sampled_from([yards("1/8"), yards("1/4"), yards("1/2"), Length.of(10, "cm")])
OVERAGES = st.integers(0, 64).map(lambda eighths: inches(Fraction(eighths, 8)))
ALLOWANCES = st.integers(0, 16).map(lambda sixteenths: inches(Fraction(sixteenths, 16)))
REPEATS = st.one_of(
    st.just(ZERO), st.integers(1, 36).map(inches), st.integers(10, 900).map(lambda mm: Length.of(mm, "mm"))
)


@st.composite
def cloths(draw: st.DrawFn) -> Fabric:
    """Any cloth wide enough for a shortest piece and its seams."""
    return cloth(
        Fraction(draw(st.integers(8 * 14, 8 * 118)), 8),
        selvage=inches(Fraction(draw(st.integers(0, 8)), 8)),
        straighten=inches(draw(st.integers(0, 6))),
        shrink_across=draw(SHRINKAGES),
        shrink_along=draw(SHRINKAGES),
        step=draw(STEPS),
        repeat=draw(REPEATS),
        directional=draw(st.booleans()),
        nap=draw(st.booleans()),
        price=Fraction(draw(st.integers(0, 4000)), 100),
    )


@st.composite
def backings(draw: st.DrawFn) -> tuple[BackingPlan, Terms, Fabric, int]:
    """A backing with the terms it must keep to, its cloth, and the most seams the shop likes."""
    width, length, overage, allowance = draw(SIDES), draw(SIDES), draw(OVERAGES), draw(ALLOWANCES)
    fabric, most = draw(cloths()), draw(st.integers(0, 5))
    one_way = fabric.directional or fabric.nap
    seams = "lengthwise" if one_way else draw(st.sampled_from(["any", "lengthwise", "crosswise"]))
    sewing = {"most_seams": most, "clear_edge": inches(draw(st.integers(0, 3)))}
    plan = backing_of(
        width.to("in"), length.to("in"), sewing, fabric=fabric, overage=overage, seam_allowance=allowance, seams=seams
    )
    usable = (fabric.width - fabric.selvage - fabric.selvage) * (1 - fabric.shrink_across)
    terms = Terms(
        width + overage + overage, length + overage + overage, overage, allowance, sewing["clear_edge"], usable,
        fabric.straighten, fabric.shrink_along, one_way,
    )  # fmt: skip
    return plan, terms, fabric, most


@examples(250)
@given(backings())
def test_every_option_is_proved(found: tuple[BackingPlan, Terms, Fabric, int]):
    """The checker has nothing to complain of in any option of any backing."""
    plan, terms, _, _ = found
    for option in plan.options:
        assert complaints(option.layout, option.amount, option.clear, terms) == []


@examples(100)
@given(backings())
def test_bought_covers_in_whole_steps(found: tuple[BackingPlan, Terms, Fabric, int]):
    """Bought is never short, is a whole number of steps, and a step less would be short."""
    plan, terms, fabric, _ = found
    for option in plan.options:
        needed = option.layout.cut_length / (1 - terms.shrink_along) + terms.straighten
        assert option.amount - fabric.step < needed <= option.amount
        assert (option.amount / fabric.step).denominator == 1


@examples(100)
@given(backings())
def test_later_panels_start_on_a_repeat(found: tuple[BackingPlan, Terms, Fabric, int]):
    """Where the print repeats, every panel lies a whole number of repeats from the first."""
    plan, _, fabric, _ = found
    if not fabric.repeat:
        return
    for runs in {option.layout.runs for option in plan.options} - {"none"}:
        starts = [cut.y / fabric.repeat for cut in full_panels(plan, runs).layout.cuts]
        assert all((start - starts[0]).denominator == 1 for start in starts)


@examples(100)
@given(backings())
def test_leftovers_lie_on_bought_cloth_beside_the_pieces(found: tuple[BackingPlan, Terms, Fabric, int]):
    """Leftovers lie on the cloth once squared and washed, and overlap neither a piece nor one another."""
    plan, terms, _, _ = found
    for option in plan.options:
        washed = (option.amount - terms.straighten) * (1 - terms.shrink_along)
        for left in option.leftover:
            assert left.x.mm >= 0
            assert left.y.mm >= 0
            assert left.x + left.width <= terms.usable
            assert left.y + left.length <= washed
        boxes = [*option.layout.cuts, *option.leftover]
        assert not any(_overlap(one, other) for one, other in combinations(boxes, 2))


def _overlap(one: CutPiece | Leftover, other: CutPiece | Leftover) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    return across and one.y < other.y + other.length and other.y < one.y + one.length


@examples(100)
@given(backings())
def test_chosen_is_the_least_of_those_allowed(found: tuple[BackingPlan, Terms, Fabric, int]):
    """Chosen is an option of the least total among those clear of the edge and not too many seams."""
    plan, _, _, most = found
    assert plan.chosen in plan.options
    assert all(option.total_cost.minor == option.cloth_cost.minor + option.seam_cost.minor for option in plan.options)
    unbroken = [option for option in plan.options if not option.breaks_pile]
    allowed = [option for option in unbroken if option.clear and option.layout.seams <= most]
    few = [option for option in unbroken if option.layout.seams <= most]
    best = allowed or few
    if best:
        assert plan.chosen in best
        unmixed = [option.total_cost.minor for option in best if not option.layout.turned]
        assert plan.chosen.total_cost.minor <= min(unmixed, default=plan.chosen.total_cost.minor)
    else:
        assert plan.chosen.layout.seams == min(option.layout.seams for option in unbroken)


@examples(100)
@given(backings())
def test_options_come_cheapest_first(found: tuple[BackingPlan, Terms, Fabric, int]):
    """Options are told in the order of what they cost."""
    totals = [option.total_cost.minor for option in found[0].options]
    assert totals == sorted(totals)


@examples(100)
@given(SIDES, SIDES, st.integers(0, 400), st.integers(0, 400), cloths(), OVERAGES, ALLOWANCES)
def test_a_larger_top_never_costs_less(
    width: Length, length: Length, wider: int, longer: int, fabric: Fabric, overage: Length, allowance: Length
):
    """With so many seams at the most, for every number both have, the least option of a larger top costs no less."""
    spec = {"fabric": fabric, "overage": overage, "seam_allowance": allowance}
    small = _least(backing_of(width.to("in"), length.to("in"), **spec))
    large = _least(backing_of(width.to("in") + Fraction(wider, 8), length.to("in") + Fraction(longer, 8), **spec))
    for seams in small.keys() & large.keys():
        assert small[seams] <= large[seams]


def _least(plan: BackingPlan) -> dict[int, int]:
    """The least cost of cloth, in minor units, with so many seams at the most: a needless seam is no option."""
    counts = sorted({option.layout.seams for option in plan.options})
    costs = [(option.layout.seams, option.cloth_cost.minor) for option in plan.options]
    return {most: min(cost for seams, cost in costs if seams <= most) for most in counts}


@examples(50)
@given(SIDES, SIDES, cloths())
def test_the_same_wish_twice_is_the_same_plan(width: Length, length: Length, fabric: Fabric):
    """Planning depends on nothing but the spec."""

    def plan() -> BackingPlan:
        return backing_of(width.to("in"), length.to("in"), fabric=replace(fabric))

    assert plan() == plan()


@pytest.mark.parametrize(("width", "length"), [(63, 87), ("60 1/2", "84 3/8")])
def test_sample_cloth_is_never_short(width: Amount, length: Amount):
    """A project read from text, on the sample cloth as it stands, is proved like any other."""
    sample = sample_project().backing
    assert sample
    overage = sample.overage.sides
    plan = backing_of(width, length, fabric=sample.fabric, overage=overage, seam_allowance=sample.seam_allowance)
    usable = sample.fabric.width - sample.fabric.selvage - sample.fabric.selvage
    for option in plan.options:
        terms = Terms(
            inches(width) + overage * 2, inches(length) + overage * 2, overage,
            sample.seam_allowance, sample_project().sewing.cloth.clear_edge, usable * (1 - sample.fabric.shrink_across),
            sample.fabric.straighten, sample.fabric.shrink_along, False,
        )  # fmt: skip
        assert complaints(option.layout, option.amount, option.clear, terms) == []


@pytest.mark.parametrize(("width", "trimmed"), [(71, False), (70, True)])
def test_panels_are_trimmed_where_they_need_less_than_the_cloth_is_wide(width: int, trimmed: bool):
    """71 wide needs 79, which is 2 x 40 less twice the seam allowance of 1/2; 70 needs 78, two panels of 39 1/2."""
    layout = full_panels(backing_of(width, 92), "lengthwise").layout
    assert layout.usable_width == inches(40)
    assert {cut.width for cut in layout.cuts} == {inches("39 1/2") if trimmed else inches(40)}
    assert layout.trimmed == trimmed
