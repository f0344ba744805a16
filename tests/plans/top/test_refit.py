"""A pieced design in other sizes: the block stays, the number of blocks comes as near as it can."""

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Cover
from finishcalc.model.keys import MOST_BLOCKS
from finishcalc.model.pieced import PiecedTop
from finishcalc.plans.pieced.refit import Fit, covering_first, fits, refitted
from tests.builders import inches, mattress, quoted, table_top
from tests.strategies import examples

EIGHTH = FINEST["in"]
WIDE = inches(36)


def design(lines: str) -> PiecedTop:
    found = quoted(lines).resolved.project.top.pieced
    assert found
    return found


def size(width: int | str, length: int | str) -> Size:
    return Size(inches(width), inches(length))


PLAIN = design("[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n[[top.borders]]\ncut = '4 1/2'\n")
"""12 in blocks and a border that adds 2 x (4 1/2 - 1/2) = 8: n blocks make 12 n + 8 1/2."""


def test_the_design_is_as_large_as_its_parts():
    assert PLAIN.size == size("56 1/2", "68 1/2")


def test_from_below_from_above_and_between_by_hand():
    """For 84 x 92: 12 x 6 + 8.5 = 80.5 and 12 x 7 + 8.5 = 92.5 both ways. From below it misses by 3.5 + 11.5 = 15, from
    above by 8.5 + 0.5 = 9, and 6 x 7 by 3.5 + 0.5 = 4: the nearest comes first."""
    found = fits(PLAIN, size(84, 92), EIGHTH, ZERO)
    assert [(fit.rounding, fit.across, fit.down, fit.size) for fit in found] == [
        ("between", 6, 7, size("80 1/2", "92 1/2")),
        ("from above", 7, 7, size("92 1/2", "92 1/2")),
        ("from below", 6, 6, size("80 1/2", "80 1/2")),
        ("between", 7, 6, size("92 1/2", "80 1/2")),
    ]


def test_a_design_that_all_but_fits_is_left_as_it_is():
    """On point, 3 x 4 blocks of 10 come to 53.93 x 68.07: 54 x 68 is missed by a hair, one more and one less."""
    top = design("[top.blocks]\nacross = 3\ndown = 4\nsize = 10\nsetting = 'on-point'\n[[top.borders]]\ncut = 6\n")
    best = fits(top, size(54, 68), EIGHTH, WIDE)[0]
    assert (best.rounding, best.across, best.down) == ("between", 3, 4)


def test_the_last_border_makes_up_the_rest_all_round():
    """3.5 in are left across and 11.5 down: the border may be 1 3/4 wider, which adds 3 1/2 to both sides."""
    found = fits(PLAIN, size(84, 92), EIGHTH, WIDE)
    wider = next(fit for fit in found if fit.wider)
    assert wider == Fit("from below", 6, 6, inches("1 3/4"), size(84, 84))
    assert refitted(PLAIN, wider).borders[-1].cut == inches("6 1/4")


def test_a_border_is_widened_by_what_a_person_can_measure():
    """3.7 in are left: half is 1.85, of which 1 3/4 can be measured in eighths."""
    found = fits(PLAIN, Size(inches("84.2"), inches(92)), EIGHTH, WIDE)
    assert next(fit.wider for fit in found if fit.wider) == inches("1 3/4")


def test_a_size_that_is_met_exactly_has_one_way():
    found = fits(PLAIN, size("80 1/2", "92 1/2"), EIGHTH, WIDE)
    assert [(fit.rounding, fit.across, fit.down, fit.wider) for fit in found] == [("from below", 6, 7, ZERO)]


def test_a_border_is_cut_no_wider_than_it_may_be():
    """11 1/2 in are left and 3 1/2: 1 3/4 all round, of which 1 may be taken where 5 1/2 is the widest."""
    found = fits(PLAIN, size(84, 92), EIGHTH, inches("5 1/2"))
    assert next(fit.wider for fit in found if fit.wider) == inches(1)


def test_without_a_border_nothing_is_widened():
    top = design("[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n")
    assert all(not fit.wider for fit in fits(top, size(84, 92), EIGHTH, WIDE))


def test_on_point_a_block_takes_its_diagonal():
    """10 in blocks take 14.1421 each (x 1.41421): 5 make 70.71 + 1/2, 6 make 84.85 + 1/2."""
    top = design("[top.blocks]\nacross = 2\ndown = 2\nsize = 10\nsetting = 'on-point'\n")
    found = {fit.rounding: (fit.across, fit.down) for fit in fits(top, size(80, 92), EIGHTH, ZERO)}
    assert (found["from below"], found["from above"]) == ((5, 6), (6, 7))


def test_smaller_than_one_block_is_met_from_above_only():
    found = fits(PLAIN, size(15, 80), EIGHTH, WIDE)
    assert {(fit.rounding, fit.across, fit.down) for fit in found} == {("between", 1, 5), ("from above", 1, 6)}


def test_larger_than_the_most_blocks_is_met_from_below_only():
    top = design("[top.blocks]\nacross = 2\ndown = 2\nsize = 1\n")
    assert [(fit.rounding, fit.across) for fit in fits(top, size(200, 200), EIGHTH, ZERO)] == [
        ("from below", MOST_BLOCKS)
    ]


@pytest.mark.parametrize(
    ("width", "length", "way", "wider"),
    [(80, 90, "from below", "2 1/4"), (60, 70, "from above", 0), (80, 70, "between", 0)],
)
def test_a_centre_stays_and_only_its_last_border_changes(width: int, length: int, way: str, wider: int | str):
    """60 x 70 with a border that adds 15 1/2 - 1/2 - 1/2: 75 1/2 x 85 1/2. To 80 x 90 both sides lack 4 1/2."""
    top = design("[top.centre]\nwidth = 60\nlength = 70\n[[top.borders]]\ncut = '8 1/4'\n")
    assert top.size == size("75 1/2", "85 1/2")
    best = fits(top, size(width, length), EIGHTH, WIDE)[0]
    assert (best.rounding, best.across, best.wider) == (way, None, inches(wider))


# --- whatever the design and the size ------------------------------------------------------------------------

SIDE = st.fractions(Fraction(5), Fraction(200), max_denominator=8).map(lambda side: Length.of(side, "in"))


@st.composite
def designs(draw: st.DrawFn) -> PiecedTop:
    setting = draw(st.sampled_from(["straight", "on-point"]))
    sash = draw(st.sampled_from([None, 1, "2 1/2"]))
    lines = f"[top.blocks]\nacross = 2\ndown = 3\nsize = {draw(st.integers(2, 15))}\nsetting = '{setting}'\n"
    if sash:
        outer = "true" if setting == "on-point" else draw(st.sampled_from(["true", "false"]))
        lines += f"[top.sashing]\nwidth = '{sash}'\nouter = {outer}\ncornerstones = {outer}\n"
    for _ in range(draw(st.integers(0, 2))):
        corners = draw(st.sampled_from(["butted", "mitred", "cornerstones"]))
        lines += f"[[top.borders]]\ncut = {draw(st.integers(1, 6))}\ncorners = '{corners}'\n"
    return design(lines)


@examples(150)
@given(designs(), SIDE, SIDE, st.booleans())
def test_below_is_never_larger_and_above_never_smaller(top: PiecedTop, wide: Length, long: Length, widen: bool):
    target = Size(wide, long)
    found = fits(top, target, EIGHTH, WIDE if widen else ZERO)
    assert found
    for fit in found:
        assert fit.size == refitted(top, fit).size
        if fit.rounding == "from below":
            assert fit.size.width <= wide
            assert fit.size.length <= long
        elif fit.rounding == "from above":
            assert fit.size.width >= wide
            assert fit.size.length >= long
        else:
            assert (fit.size.width > wide) != (fit.size.length > long)
    assert [fit.off(target) for fit in found] == sorted(fit.off(target) for fit in found)


@examples(100)
@given(designs(), SIDE, SIDE, st.booleans())
def test_one_block_more_or_less_would_not_come_nearer(top: PiecedTop, wide: Length, long: Length, widen: bool):
    """From below, one more block would be too large; from above, one fewer too small: as near as it can."""
    assert top.blocks
    for fit in fits(top, Size(wide, long), EIGHTH, WIDE if widen else ZERO):
        if fit.wider or fit.rounding == "between" or not fit.across or not fit.down:
            continue
        step = 1 if fit.rounding == "from below" else -1
        for across, down, side in ((step, 0, "width"), (0, step, "length")):
            counts = fit.across + across, fit.down + down
            if not all(1 <= count <= MOST_BLOCKS for count in counts):
                continue
            other = top._replace(blocks=top.blocks.replace(across=counts[0], down=counts[1])).size
            goal = {"width": wide, "length": long}[side]
            beyond = getattr(other, side) > goal if step > 0 else getattr(other, side) < goal
            assert beyond


@examples(100)
@given(designs(), SIDE, SIDE, st.booleans())
def test_refitting_never_changes_the_block(top: PiecedTop, wide: Length, long: Length, widen: bool):
    """Nor the sashing, nor any border but the last, and of that only its width."""
    assume(top.blocks)
    for fit in fits(top, Size(wide, long), EIGHTH, WIDE if widen else ZERO):
        new = refitted(top, fit)
        assert new.blocks
        assert top.blocks
        assert new.blocks.replace(across=top.blocks.across, down=top.blocks.down) == top.blocks
        assert new.sashing == top.sashing
        assert new.borders[:-1] == top.borders[:-1]
        assert [border.corners for border in new.borders] == [border.corners for border in top.borders]
        assert not fit.wider or new.borders[-1] == top.borders[-1].replace(cut=top.borders[-1].cut + fit.wider)


def test_how_a_design_hangs_on_what_it_covers():
    """On a table 36 x 72 a top of 55 x 90 hangs 9 1/2 and 9; on a bed 60 x 80 with 10 for the pillows one of 84 x 101
    hangs 12 and 11 (derived). Of a top that quilting draws up by a tenth, 54 x 90 hangs 6 3/10 and 4 1/2."""
    on_table = Cover(table_top(36, 72), inches(10), inches(10), inches(0), Fraction(0))
    hangs = on_table.hanging(size(55, 90))
    assert (hangs.drop, hangs.foot_drop) == (inches("9 1/2"), inches(9))
    on_bed = Cover(mattress(60, 80), inches(12), inches(12), inches(10), Fraction(0))
    hangs = on_bed.hanging(size(84, 101))
    assert (hangs.drop, hangs.foot_drop) == (inches(12), inches(11))
    drawn = on_table.drawn_up(Fraction(1, 10), size(54, 90))
    assert (drawn.drop, drawn.foot_drop) == (inches("6 3/10"), inches("4 1/2"))


def test_of_two_as_near_the_larger_comes_first():
    """12 n + 8 1/2: 86 1/2 square lies as far above 80 1/2 as below 92 1/2."""
    found = fits(PLAIN, size("86 1/2", "86 1/2"), EIGHTH, ZERO)
    assert (found[0].rounding, found[0].across, found[0].down) == ("from above", 7, 7)


def test_on_a_bed_rather_more_than_less():
    """12 n + 8 1/2: for 84 x 92 on a queen bed, 10 deep, 80 1/2 x 92 1/2 hangs 10 1/4 and 12 1/2, which will do. On
    one 11 deep it will not: 92 1/2 square hangs 16 1/4 and 12 1/2."""
    found = fits(PLAIN, size(84, 92), EIGHTH, ZERO)
    for deep, across, down in ((10, 6, 7), (11, 7, 7)):
        bed = mattress(60, 80).replace(depth=inches(deep))
        first = covering_first(found, Cover(bed, inches(12), inches(12), ZERO, Fraction(0)))[0]
        assert (first.across, first.down) == (across, down)


@pytest.mark.parametrize(
    "covers",
    [
        None,
        Cover(table_top(60, 68), inches(12), inches(12), ZERO, Fraction(0)),
        Cover(mattress(60, 80), inches(12), inches(12), ZERO, Fraction(0)),  # its depth is not known
        Cover(
            mattress(60, 80).replace(depth=inches(13)), inches(12), inches(12), ZERO, Fraction(0)
        ),  # it shows as asked
    ],
)
def test_else_the_nearest_comes_first(covers: Cover | None):
    found = fits(PLAIN, size(84, 92), EIGHTH, ZERO)
    assert covering_first(found, covers) == found
