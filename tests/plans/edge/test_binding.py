"""Bindings: how many strips, how they join, and what cloth they take.

A diagonal join costs the strip's width c: n strips of u yield n x u - (n - 1) x c (derived). Strips 2 1/2 wide and
10 extra, the narrower ends of 2 1/4 to 2 1/2 and 10 to 12 (from memory), unless a test says otherwise.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.plans.top.outline import rectangle
from tests.builders import Amount, binding_of, cloth, inches, yards
from tests.strategies import examples

# Top, usable width, length needed, strips with their joins counted, yards. 60x80 for one: 280 round and 10 extra
# are 290; 7 strips of 42 yield 294 - 15 = 279 and 8 yield 336 - 17.5 = 318.5; 8 x 2 1/2 = 20 in = 0.56 yd, so 5/8.
ROWS = [
    (36, 52, 40, 186, 5, "3/8"),
    (50, 65, 40, 240, 7, "1/2"),
    (60, 80, 42, 290, 8, "5/8"),
    (63, 87, 40, 310, 9, "5/8"),
    (84, 92, 40, 362, 10, "3/4"),
    (100, 92, 40, 394, 11, "7/8"),
]


@pytest.mark.parametrize(("width", "length", "usable", "needs", "strips", "amount"), ROWS)
def test_strips_with_joins_counted(width: int, length: int, usable: int, needs: int, strips: int, amount: str):
    """The strips and yards of the trade's table, the joins not forgotten (derived)."""
    plan = binding_of(width, length, fabric=cloth(usable))
    assert (plan.needed_length, plan.strips, plan.amount) == (inches(needs), strips, yards(amount))


@pytest.mark.parametrize(("width", "length", "perimeter"), [(70, 86, 312), (63, 87, 300)])
def test_perimeter(width: int, length: int, perimeter: int):
    """The perimeter of 70x86 is 312 and of 63x87 is 300 (classroom lesson on quilt yardage)."""
    assert rectangle(inches(width), inches(length)).perimeter == inches(perimeter)
    assert binding_of(width, length, extra=inches(0)).needed_length == inches(perimeter)


def test_a_near_tie():
    """50x65 off 42 usable at 2 1/4: six strips yield 252 - 5 x 2 1/4 = 240 3/4, just over the 240 needed (derived)."""
    plan = binding_of(50, 65, fabric=cloth(42), strip_width=inches("2 1/4"))
    assert (plan.needed_length, plan.strips, plan.yields) == (inches(240), 6, inches("240 3/4"))


def test_just_past_the_near_tie():
    """An inch more of extra and six strips fall a quarter inch short: seven (derived)."""
    plan = binding_of(50, 65, fabric=cloth(42), strip_width=inches("2 1/4"), extra=inches(11))
    assert plan.strips == 7


def test_exactly_enough_is_enough():
    """Six strips that yield 240 3/4 do where 240 3/4 is needed (derived)."""
    plan = binding_of(50, 65, fabric=cloth(42), strip_width=inches("2 1/4"), extra=inches("10 3/4"))
    assert plan.strips == 6


def test_straight_joins_take_less():
    """63x87 with straight joins of two 1/4 seams: 8 x 40 - 7 x 1/2 = 316 1/2 covers 310, where diagonal takes 9."""
    # 8 x 2 1/2 = 20 in = 0.56 yd, so 5/8 (derived)
    plan = binding_of(63, 87, join="straight", seam_allowance=inches("1/4"))
    assert (plan.strips, plan.yields, plan.amount) == (8, inches("316 1/2"), yards("5/8"))


def test_seam_allowance_is_of_straight_joins_only():
    """A diagonal join costs the strip's width whatever the seam allowance (derived)."""
    assert binding_of(63, 87, seam_allowance=inches(1)).yields == inches(340)  # 9 x 40 - 8 x 2 1/2


def test_squaring_the_end_can_take_a_step_more():
    """63x87 takes 22 1/2 in, all of 5/8 yd; with 1 in to square the end it takes 3/4 (derived)."""
    assert binding_of(63, 87).cut_length == inches("22 1/2")
    assert binding_of(63, 87, fabric=cloth(straighten=inches(1))).amount == yards("3/4")


def test_shrinkage_both_ways():
    """At 5 % each way, 44 less two selvages of 2 leaves 38; 9 strips take 22 1/2 / 0.95 in of cloth (derived)."""
    # 9 x 38 - 8 x 2 1/2 = 322 covers 310, 8 strips yield 286 1/2. 22.5 / 0.95 = 23.68 in, over 5/8 yd, so 3/4.
    lost = {"shrink_across": Fraction(5, 100), "shrink_along": Fraction(5, 100)}
    plan = binding_of(63, 87, fabric=cloth(44, selvage=inches(2), **lost))
    assert (plan.strip_length, plan.strips, plan.amount) == (inches(38), 9, yards("3/4"))


def test_one_strip_needs_no_join():
    """A tiny mat is bound with one strip: 4 x 4 round and 10 extra are 26, within 40 (derived)."""
    plan = binding_of(4, 4)
    assert (plan.strips, plan.yields) == (1, inches(40))


def test_what_the_binding_costs():
    """5/8 yd at 10 a yard is 6.25 (derived)."""
    assert binding_of(63, 87).cost.minor == 625


SIDES = st.integers(8, 8 * 200).map(lambda eighths: Fraction(eighths, 8))


@examples(100)
@given(
    SIDES, SIDES, st.integers(20, 60), st.integers(8, 32), st.integers(0, 12), st.integers(0, 8),
    st.sampled_from(["diagonal", "straight"]),
)  # fmt: skip
def test_strips_cover_and_one_fewer_would_not(
    width: Fraction, length: Fraction, usable: Amount, eighths: int, extra: int, sixteenths: int, join: str
):
    """Joined end to end the strips reach round, and one strip fewer does not."""
    strip, seam = Fraction(eighths, 8), Fraction(sixteenths, 16)
    plan = binding_of(
        width, length, fabric=cloth(usable), strip_width=inches(strip), extra=inches(extra), join=join,
        seam_allowance=inches(seam),
    )  # fmt: skip
    lost = strip if join == "diagonal" else 2 * seam
    needed = 2 * (width + length) + extra
    reach = plan.strips * usable - (plan.strips - 1) * lost
    assert plan.needed_length == inches(needed)
    assert plan.yields == inches(reach)
    assert reach >= needed
    assert plan.strips == 1 or reach - usable + lost < needed
    assert plan.amount >= inches(strip * plan.strips)
