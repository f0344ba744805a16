"""Binding from an offcut of its cloth that is at hand. Strips 2 1/2 wide and 10 extra unless a test says otherwise."""

from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.bounds import ROOT_2_DOWN
from finishcalc.measures.length import ZERO, Length, Overage
from finishcalc.model.project import Offcut
from finishcalc.plans.edge.binding import BindingPlan
from tests.builders import Amount, binding_of, cloth, everything, inches, page, quoted, section
from tests.strategies import examples

OVAL = '[top]\nshape = "oval"\nwidth = 62\nlength = 96\n[batting]\nproduct = "none"\n'
LAP = "[top]\nwidth = 60\nlength = 80\n"


def piece(width: Amount, length: Amount) -> Offcut:
    return section(Offcut, width=inches(width), length=inches(length))


def bound_from(width: Amount, length: Amount, cut: str = "crosswise", **more: Amount) -> BindingPlan:
    """The binding of a top of 60 x 80, which needs 290 in, with an offcut of some size."""
    return binding_of(60, 80, fabric=cloth(), cut=cut, offcut=piece(width, length), **more)


def of_oval(offcut: str) -> str:
    return OVAL + f'[binding]\nfabric = "cotton-44"\noffcut = {offcut}\n'


def never_short(plan: BindingPlan, offcut: Offcut, usable: Length) -> None:
    """Cut the plan's strips again: they fit on the offcut and the new cloth, and are long enough once joined."""
    wide, sides = plan.strip_width, {offcut.width, offcut.length}
    if plan.rectangle and plan.at_hand:
        across, high = plan.rectangle.width, plan.rectangle.height
        assert high <= across <= max(sides)
        assert high <= min(sides)
        seams = inches("1/2")
        assert wide * (plan.rectangle.rounds * ROOT_2_DOWN) <= across - seams
        assert (high - seams) * (plan.rectangle.rounds * (ROOT_2_DOWN + Fraction(1, 10**9))) >= plan.needed_length
        return
    if plan.offcuts:
        (strip,) = set(plan.offcuts)
        other = offcut.length if strip == offcut.width else offcut.width
        assert strip in sides
        assert wide * len(plan.offcuts) <= other
    new = [plan.strip_length] * plan.strips
    assert not new or (plan.strip_length if plan.cut == "crosswise" else wide * plan.strips) <= usable
    assert plan.cut_length == (wide * plan.strips if plan.cut == "crosswise" else plan.strip_length * bool(new))
    lengths = [*plan.offcuts, *new]
    assert sum(lengths, ZERO) - wide * (len(lengths) - 1) >= plan.needed_length


# --- on the bias -----------------------------------------------------------------------------------------------------


def test_the_rest_beside_a_backing_of_an_oval_is_enough():
    """The oval of 62 x 96 needs 261.07 in. Of 23 x 106 a round is 22 1/2 x 1.41421 = 31.82 in, so 9 rounds are 286.38;
    they take 9 x 2 1/2 x 1.41421 + 1/2 = 32.32 in of the length, 32 1/2 in quarters (derived)."""
    found = quoted(of_oval("{ width = 23, length = 106 }")).plans
    plan = found.binding
    assert plan.rectangle
    assert plan.needed_length <= inches("261.07")
    assert (plan.rectangle.width, plan.rectangle.height, plan.rectangle.rounds) == (inches("32 1/2"), inches(23), 9)
    assert inches("286.37") < plan.yields < inches("286.39")
    assert [purchase.uses for purchase in found.cloth] == [("backing",)]
    assert plan.amount == ZERO


def test_a_bias_offcut_lies_either_way():
    """The end is cut off at 45 degrees from the longer side, whichever way the cloth's length runs (derived)."""
    one, other = (
        quoted(of_oval(f"{{ width = {w}, length = {long} }}")).plans.binding for w, long in ((23, 106), (106, 23))
    )
    assert one.rectangle == other.rectangle


def test_one_round_too_few_is_bought_and_told_with_its_arithmetic():
    """8 rounds take 28.78 in and 9 take 32.32, so 23 x 32 holds 8: 8 x 31.82 = 254.55 in of 261.07 (derived)."""
    text = of_oval("{ width = 23, length = 32 }")
    result, without = quoted(text), quoted(OVAL + '[binding]\nfabric = "cotton-44"\n')
    assert result.plans.binding.at_hand is None
    assert result.quote == without.quote
    told = "The offcut of 23 in x 32 in is not used for the binding: 8 rounds x (23 in - 1/2 in) x 1.41421 = 254 1/2 in"
    assert told + " of the 261 1/8 in needed." in " ".join(page(text).split())
    assert quoted(of_oval('{ width = 23, length = "32 1/2" }')).plans.binding.at_hand


def test_a_bias_strip_is_not_pieced_from_a_ribbon():
    """An offcut of 6 x 300 holds enough, and a join every 7.8 in; no piece is under 8 in (the shop's shortest)."""
    result = quoted(of_oval("{ width = 6, length = 300 }"))
    assert result.plans.binding.at_hand is None
    assert any("all joins" in caution.sentence.text for caution in result.cautions)


# --- in straight strips ----------------------------------------------------------------------------------------------


def test_a_straight_binding_that_an_offcut_holds_buys_nothing():
    """5 strips of 60 are 300, less 4 joins of 2 1/2: 290, just the 290 needed (derived)."""
    plan = bound_from(23, 60)
    assert (plan.offcuts, plan.strips, plan.cut_length) == ((inches(60),) * 5, 0, ZERO)
    assert plan.yields == plan.needed_length == inches(290)


def test_only_the_rest_is_bought():
    """8 strips of 40 without; 4 of 23 from the offcut are 84 1/2 joined, and the 205 1/2 left take 6 strips of which
    37 1/2 count: 6 x 2 1/2 = 15 in instead of 20 (derived)."""
    plan = bound_from(23, 10)
    assert (plan.offcuts, plan.strips, plan.cut_length) == ((inches(23),) * 4, 6, inches(15))


def test_no_strip_is_taken_that_saves_nothing():
    """Of the 4 strips that 30 x 10 holds, three are 85 joined, and 205 left take 6; all four are 112 1/2, and 177 1/2
    take 5. Of 14 x 10, four are 48 1/2, and 241 1/2 take 7; three are 37 and 253 take 7 too (derived)."""
    assert (len(bound_from(30, 10).offcuts), bound_from(30, 10).strips) == (4, 5)
    assert (len(bound_from(14, 10).offcuts), bound_from(14, 10).strips) == (3, 7)


def test_a_lengthwise_binding_takes_strips_along_the_offcut():
    """4 strips of 2 1/2 lie side by side in 10: along it 23 long, 82 joined with the next. The 208 left, in 4 strips
    along new cloth with 3 joins of 2 1/2, are 215 1/2 / 4 = 53 7/8 each (derived)."""
    plan = bound_from(10, 23, cut="lengthwise")
    assert (plan.offcuts, plan.strips, plan.strip_length) == ((inches(23),) * 4, 4, inches("53 7/8"))
    assert plan.cut_length == inches("53 7/8")


def test_strips_that_the_project_cuts_across_the_cloth_are_cut_across_the_offcut():
    """23 wide and 60 long: across it lie strips of 23; along it, strips of 60, unless the project says crosswise."""
    binding = '[binding]\nfabric = "cotton-44"\noffcut = { width = 23, length = 60 }\n'
    free, stated = (quoted(LAP + binding + more).plans.binding for more in ("", 'cut = "crosswise"\n'))
    assert (set(free.offcuts), set(stated.offcuts)) == ({inches(60)}, {inches(23)})


@pytest.mark.parametrize(("width", "length", "words"), [(7, 6, "no strip"), (12, "2 1/2", "as many strips to be cut")])
def test_an_offcut_that_saves_no_cloth_is_told_and_not_used(width: int, length: Amount, words: str):
    """No strip is under 8 in. One of 12 in leaves 280 1/2 in, for which 8 strips are cut as before (derived)."""
    plan = bound_from(width, length)
    assert (plan.at_hand, plan.strips) == (None, 8)
    assert words in plan.cautions[0].sentence.text


def test_the_customer_s_cloth_need_not_hold_a_binding_that_an_offcut_holds():
    """4 3/4 yd are 171 in. Two lengths of 83 and an inch to square them leave 4, which is no binding; without it, the
    usual 4 in over every side do not fit (derived)."""
    text = LAP + '[backing]\nfabric = "cotton-44"\nhave = "4 3/4 yd"\n[binding]\nfabric = "backing"\n'
    without, with_piece = (quoted(text + more).plans for more in ("", "offcut = { width = 23, length = 60 }\n"))
    assert "binding" in [use for purchase in without.cloth for use in purchase.uses]
    assert without.backing.overage == Overage.all_round(inches(3))
    assert with_piece.backing.overage == Overage.all_round(inches(4))
    assert all("binding" not in purchase.uses for purchase in with_piece.cloth)


Cut = Literal["crosswise", "lengthwise", "bias"]
SIDES = st.integers(8, 480).map(lambda quarters: Fraction(quarters, 4))


@given(st.integers(8, 100), st.integers(8, 100), SIDES, SIDES, st.sampled_from(["crosswise", "lengthwise", "bias"]))
@examples(400)
def test_no_binding_from_an_offcut_is_short_nor_takes_more_cloth(
    width: int, length: int, across: Fraction, along: Fraction, cut: Cut
):
    offcut = piece(across, along)
    plan = binding_of(width, length, fabric=cloth(), cut=cut, offcut=offcut)
    without = binding_of(width, length, fabric=cloth(), cut=cut)
    never_short(plan, offcut, inches(40)) if plan.at_hand else None
    assert plan.cut_length < without.cut_length if plan.at_hand else plan.cut_length == without.cut_length
    assert bool(plan.cautions) is (plan.at_hand is None)


# --- on paper --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text", [of_oval("{ width = 23, length = 106 }"), LAP + "[binding]\noffcut = { width = 23, length = 10 }\n"]
)
def test_every_page_names_the_offcut(text: str):
    result = quoted(text)
    for written in everything(result)[:-1]:  # the pictures are of the backing
        assert "offcut" in written
