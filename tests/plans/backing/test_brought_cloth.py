"""The customer's own cloth, in one length or several: enough or short, and what to bring besides."""

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import Overage
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.backing.supplied import SuppliedCloth
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import InUnit
from tests.builders import Amount, backing_of, cloth, inches, quote_text, quoted, yards
from tests.strategies import examples

SHOP = {"least_overage": inches(3), "clear_edge": inches(2), "most_seams": 3}
PANELS = {"fabric": cloth(nap=True)}
"""Cloth with a nap takes full panels only, so that the sums below are theirs."""


def brought(width: Amount, length: Amount, have: Any, sewing: dict[str, Any] | None = None, **spec: Any) -> BackingPlan:
    """The backing of cloth that is brought: one length or a list of them."""
    return backing_of(width, length, SHOP | (sewing or {}), have=have, supplied_by="customer", **spec)


def verdict(plan: BackingPlan) -> SuppliedCloth:
    """The verdict on the cloth."""
    assert plan.customer_supplied
    return plan.customer_supplied


def said(plan: BackingPlan | None) -> str:
    """The sentence of the verdict, in inches."""
    assert plan
    return Notation("in").write(verdict(plan).sentence).replace(NO_BREAK, " ")


def quote(top: str, backing: str, binding: str = "") -> Finishing:
    """A quote in the sample shop: cotton of 40 in usable, and 1 in to square."""
    return quoted(f"[top]\n{top}\n[backing]\nsupplied_by='customer'\n{backing}\n[binding]\n{binding}\n")


def of(result: Finishing) -> BackingPlan:
    """The backing of a quote."""
    assert result.plans.backing
    return result.plans.backing


# --- enough from the least overage -----------------------------------------------------------------------------------


def test_a_king_on_wide_cloth_takes_3_in_at_the_sides():
    """100 x 108 on cloth of 106 usable: 3 1/2 yd are 126 in, 6 to square leaves 120; 106 x 116 in one piece has 3 in at
    the sides and 4 at the ends, and takes 116 of them: 4 left (derived)."""
    result = quote("width=100\nlength=108", "fabric='cotton-wide-108'\nhave='3 1/2 yd'")
    plan = of(result)
    assert (plan.width, plan.length, plan.seams) == (inches(106), inches(116), 0)
    assert (
        said(plan)
        == "The 3 1/2 yd supplied is enough, with 3 in at the sides instead of 4 in: good; 4 in will be left."
    )
    assert not any(caution.blocking for caution in result.cautions)


def test_a_twin_takes_two_panels_and_one_seam():
    """72 x 90: two panels of 40 show 79, 3 1/2 in at the sides; 2 x 98 + 1 = 197 in of 198, 5 1/2 yd (derived)."""
    plan = of(quote("width=72\nlength=90", "have='5 1/2 yd'"))
    assert (plan.overage, plan.seams) == (Overage(inches("3 1/2"), inches(4)), 1)
    assert [(cut.width, cut.length) for cut in plan.chosen.layout.cuts] == [(inches(40), inches(98))] * 2
    assert said(plan).endswith("with 3 1/2 in at the sides instead of 4 in: good; 1 in will be left.")


def test_a_baby_quilt_takes_two_seams_and_turned_pieces():
    """40 x 52 needs 48 x 60: a panel of 60 shows 39 1/2, and a band of 9 in takes two turned pieces: 60 + 2 x 9 + 1 =
    79 of the 81 in of 2 1/4 yd (derived)."""
    plan = of(quote("width=40\nlength=52", "have='2 1/4 yd'"))
    assert (verdict(plan).verdict, plan.seams, plan.chosen.layout.turned) == ("enough", 2, True)
    assert said(plan) == "The 2 1/4 yd supplied is enough: 2 in will be left."


def test_it_may_be_that_only_the_length_is_short():
    """60 x 80: two panels of 88 take 176 in, of 86 with 3 in at the ends 172 (derived)."""
    plan = brought(60, 80, inches(172), **PANELS)
    assert (plan.overage, plan.length) == (Overage(inches(4), inches(3)), inches(86))
    assert said(plan).endswith("with 3 in at the ends instead of 4 in: good; nothing will be left.")
    assert verdict(brought(60, 80, inches("171 7/8"), **PANELS)).verdict == "short"


def test_the_overage_that_is_wanted_leads_where_the_cloth_is_enough_for_it():
    plan = brought(60, 80, inches(176), **PANELS)
    assert (plan.overage, said(plan)) == (
        Overage.all_round(inches(4)),
        "The 176 in supplied is enough: nothing will be left.",
    )


def test_saving_cloth_gains_nothing():
    """60 x 90: two panels of 98 take 196 in and one seam; a band beside a panel takes less and more seams. 7 yd are
    enough for the first (derived); of cloth to buy, sewing at no wage, the least is taken."""
    bought = backing_of(60, 90, SHOP | {"wage": Fraction(0)})
    plan = brought(60, 90, yards(7), {"wage": Fraction(0)})
    assert bought.seams > 1
    assert (plan.seams, plan.chosen.layout.cut_length) == (1, inches(196))


def test_pieces_of_a_one_way_print_are_not_turned():
    """60 x 90 in 5 yd: pieces may be turned for two seams, but not those of a one-way print."""
    assert brought(60, 90, yards(5)).chosen.layout.turned
    assert not brought(60, 90, yards(5), fabric=cloth(directional=True)).chosen.layout.turned


def test_cloth_is_held_against_what_it_loses_in_the_wash():
    """172 in at 4 % are 179 1/6 in unwashed (derived): 179 1/4 are enough, 179 1/8 are 1/24 short, said as 1/8."""
    fabric = cloth(nap=True, shrink_along=Fraction(4, 100))
    assert verdict(brought(60, 80, inches("179 1/4"), fabric=fabric)).verdict == "enough"
    short = brought(60, 80, inches("179 1/8"), fabric=fabric)
    assert verdict(short).short == inches(Fraction(1, 24))
    assert "is 1/8 in short of the least that will do" in said(short)


# --- several lengths -------------------------------------------------------------------------------------------------


def test_each_piece_lies_whole_within_one_length():
    """60 x 80 takes two panels of 86 in at least. Two lengths of 87 hold one each with 1 to square; of 2 x 86 + 2 = 174
    in as 100 and 74, one holds none (derived)."""
    fabric = cloth(nap=True, straighten=inches(1))
    enough = brought(60, 80, [inches(87), inches(87)], fabric=fabric)
    assert said(enough).endswith("instead of 4 in: good; nothing will be left.")
    assert verdict(brought(60, 80, [inches(100), inches(74)], fabric=fabric)).verdict == "short"
    assert verdict(brought(60, 80, [inches(87), inches("86 7/8")], fabric=fabric)).verdict == "short"


def test_what_is_left_of_each_length_is_named():
    """Two panels of 88: 100 - 88 = 12 and 90 - 88 = 2; the third length is left whole (derived)."""
    plan = brought(60, 80, [inches(100), inches(20), inches(90)], **PANELS)
    assert said(plan) == "The 100 in, 20 in and 90 in supplied are enough: 12 in, 20 in and 2 in will be left."


def test_a_panel_whose_print_must_meet_may_lose_a_repeat_at_the_start_of_another_length():
    """Panels of 86 in with a repeat of 24: in one length the second starts at 96, 96 + 86 = 182. At the start of
    another length it may lose a whole repeat: 24 + 86 = 110 (derived)."""
    fabric = cloth(repeat=inches(24))
    assert verdict(brought(60, 80, inches(182), fabric=fabric, seams="lengthwise")).verdict == "enough"
    two = [
        verdict(brought(60, 80, [inches(86), inches(have)], fabric=fabric, seams="lengthwise")).verdict
        for have in (110, "109 7/8")
    ]
    assert two == ["enough", "short"]


def test_a_length_is_written_in_the_unit_it_was_written_in():
    page = " ".join(quote_text(quote("width=60\nlength=80", "have=['3 yd', '100 in', '3 m']"), "customer").split())
    assert "The 3 yd, 100 in and 3 m supplied are enough" in page.replace(NO_BREAK, " ")
    assert of(quote("width=60\nlength=80", "have=250")).inputs.spec.have == (InUnit(inches(250), "in"),)
    assert of(quote("width=60\nlength=80", "have='6 yd 2 ft'")).inputs.spec.have == (InUnit(yards("6 2/3"), "ft"),)


# --- short -----------------------------------------------------------------------------------------------------------


def test_the_shortage_is_to_the_least_that_will_do():
    """40 x 52 with 3 in over is 46 x 58. A panel of 46 across shows 39 1/2, so a band of 18 1/2 + 1/2 = 19 is joined of
    two pieces of 23 1/2, which lie side by side: 46 + 23 1/2 + 1 = 70 1/2 in, and 1 3/4 yd are 63: 7 1/2 short. The
    panel is there; the band's 23 1/2 + 1 = 24 1/2 in are sold as 3/4 yd. A panel of 60 down the quilt, 3 in over at the
    sides, wants a band of 46 - 39 1/2 + 1/2 = 7 of two turned pieces: 2 x 7 + 1 = 15 in, sold as 1/2 yd (derived)."""
    result = quote("width=40\nlength=52", "have='1 3/4 yd'")
    supplied = verdict(of(result))
    assert (supplied.verdict, supplied.short, supplied.bring) == ("short", inches("7 1/2"), yards("1/2"))
    assert said(of(result)) == (
        "The 1 3/4 yd supplied is 7 1/2 in short of the least that will do, with 2 seams, 3 in on every side instead "
        "of 4 in: 3/4 yd more of the same is needed, or a strip of another print, cut 19 in wide. With 2 seams and "
        "pieces cut across the grain, 3 in at the sides instead of 4 in: 1/2 yd more of the same is needed, or a strip "
        "of another print, cut 7 in wide."
    )
    assert [(caution.code, caution.blocking) for caution in of(result).cautions] == [("backing-short", True)]


def test_a_king_needs_a_strip_and_not_a_fresh_length():
    """108 x 110 on 106 usable, 3 in over: 114 x 116. A panel of 116 shows 105 1/2, so a band shows 8 1/2 and is cut 9.
    The panel is in the 120 in that 3 1/2 yd leave squared; the band is a turned piece and two strips of 8 beside each
    other: 9 + 8 + 6 to square = 23 in, sold as 3/4 yd (derived)."""
    plan = of(quote("width=108\nlength=110", "fabric='cotton-wide-108'\nhave='3 1/2 yd'"))
    assert verdict(plan).bring == yards("3/4")
    assert said(plan).endswith("3/4 yd more of the same is needed, or a strip of another print, cut 9 in wide.")


def test_a_smaller_piece_is_named_where_another_plan_needs_one():
    """60 x 72 with 3 1/2 yd: two crosswise panels of 66, 132 + 1 in, are 7 more than 126, but want a panel of 66 + 1
    in, 1 7/8 yd. A panel of 80 and a band of 68 - 39 1/2 + 1/2 = 29 in, of two turned pieces, has one of these in the
    125 - 80: the other, 29 + 1 in, is sold as 7/8 yd (derived)."""
    plan = of(quote("width=60\nlength=72", "have='3 1/2 yd'"))
    assert (verdict(plan).short, verdict(plan).bring) == (inches(7), yards("7/8"))
    assert "1 7/8 yd more of the same is needed. With 2 seams and pieces cut across the grain: 7/8 yd more" in said(
        plan
    )


def test_one_length_is_asked_for_where_nothing_that_is_brought_is_of_use():
    """A panel of 86 does not come from 80 in: 2 x 86 = 172, sold as 4 7/8 yd = 175 1/2 in (derived)."""
    assert "92 in short" in said(brought(60, 80, inches(80), **PANELS))
    assert said(brought(60, 80, inches(80), **PANELS)).endswith("4 7/8 yd in one length is needed.")


def test_a_panel_to_bring_whose_print_must_meet_has_its_repeat():
    """Panels of 86 in with a repeat of 24: 100 in hold one; the other wants 24 + 86 = 110, sold as 3 1/8 yd."""
    plan = brought(60, 80, inches(100), fabric=cloth(repeat=inches(24)), seams="lengthwise")
    assert verdict(plan).bring == yards("3 1/8")


def test_two_pieces_to_bring_are_not_named_for_plans_that_read_alike():
    """64 1/2 x 80 1/4 of 2 yd: the least plan and the one that needs the smallest piece both have 3 seams, turned
    pieces and 3 in on every side, so that the smaller piece alone is named."""
    plan = of(quote("width='64 1/2'\nlength='80 1/4'", "have='2 yd'"))
    assert said(plan).count("with 3 seams and pieces cut across the grain") == 1
    assert said(plan).count("more of the same") == 1


FABRICS = st.sampled_from(
    [cloth(), cloth(straighten=inches(1)), cloth(nap=True), cloth(directional=True), cloth(repeat=inches(12))]
)
SIDES = st.integers(20, 110)


@examples(40)
@given(SIDES, SIDES, st.integers(1, 300), st.integers(1, 400), FABRICS)
def test_the_shortage_shrinks_by_exactly_what_is_added(width: int, length: int, have: int, eighths: int, fabric: Any):
    """And what is enough once it is that much longer was short by no more."""
    more = inches(Fraction(eighths, 8))
    before = verdict(brought(width, length, inches(have), fabric=fabric))
    after = verdict(brought(width, length, inches(have) + more, fabric=fabric))
    if before.short is None:
        assert (before.verdict, after.verdict) == ("enough", "enough")
    elif more < before.short:
        assert after.short == before.short - more
    else:
        assert after.verdict == "enough"


@examples(40)
@given(SIDES, SIDES, st.integers(1, 300), FABRICS)
def test_what_is_to_be_brought_makes_it_enough(width: int, length: int, have: int, fabric: Any):
    supplied = verdict(brought(width, length, inches(have), fabric=fabric))
    if supplied.bring:
        both = brought(width, length, [inches(have), supplied.bring], fabric=fabric)
        assert verdict(both).verdict == "enough"


# --- the binding of it -----------------------------------------------------------------------------------------------


LEFTOVER = "supplied_by='customer'\ncut='leftover'"


def test_the_binding_from_beside_the_panels_counts():
    """44 x 56: two crosswise panels of 52 x (64 + 1) / 2 = 32 1/2 take 104 in + 1, and beside each lie 7 1/2 in of the
    40: six strips of 52, of which five, 5 x 52 - 4 x 2 1/2 = 250, are enough for 210. 3 yd are 108 in (derived)."""
    result = quote("width=44\nlength=56", "have='3 yd'", LEFTOVER)
    assert result.plans.binding
    assert (of(result).seams, result.plans.binding.offcuts) == (1, (inches(52),) * 5)
    assert said(of(result)) == "The 3 yd supplied is enough, binding and all: 3 in will be left."
    assert result.plans.binding.cut_length == inches(0)


def test_cloth_that_makes_the_backing_alone_says_what_the_binding_wants():
    """2 1/2 yd are 90 in: a panel of 62 with 3 in at the ends, and a band of 52 - 39 1/2 + 1/2 = 13 of two turned
    pieces: 62 + 26 + 1 = 89. The binding's six strips of 2 1/2 and 1 to square are 16 in, sold as 1/2 yd (derived)."""
    result = quote("width=44\nlength=56", "have='2 1/2 yd'", LEFTOVER)
    assert verdict(of(result)).bring == yards("1/2")
    assert said(of(result)) == (
        "The 2 1/2 yd supplied makes the backing, with 2 seams and pieces cut across the grain, 3 in at the ends "
        "instead of 4 in, but not the binding: 1/2 yd is to be bought or brought for it."
    )
    assert [(each.uses, each.amount) for each in result.plans.cloth] == [
        (("backing",), yards("2 1/2")),
        (("binding",), yards("1/2")),
    ]
    assert [(caution.code, caution.blocking) for caution in result.cautions if "backing" in caution.code] == [
        ("backing-without-binding", False)
    ]
    assert "no-leftover" not in {caution.code for caution in result.cautions}


def test_a_binding_asked_for_from_her_cloth_is_cut_of_its_rest():
    """52 x 66 of 4 yd, 144 - 1 = 143 in: two crosswise panels of 60 leave 23, and 2 1/2 in beside each. Two strips of
    60 and four of 40 are 280 less five joins of 2 1/2 = 267 1/2, enough for 236 + 10; 143 - 120 - 4 x 2 1/2 = 13 in are
    left, and nothing is bought (derived)."""
    result = quote("width=52\nlength=66", "have='4 yd'", "cut='leftover'")
    assert said(of(result)) == "The 4 yd supplied is enough, binding and all: 13 in will be left."
    assert {each.supplied_by for each in result.plans.cloth} == {"customer"}


def test_the_shop_s_binding_costs_her_cloth_no_seam():
    """52 x 66 of 121 in: two panels of 60 take all of it; the binding is the shop's, all of it, and that is said."""
    result = quote("width=52\nlength=66", "have='121 in'", "cut='leftover'\nsupplied_by='shop'")
    assert result.plans.binding
    assert (of(result).seams, result.plans.binding.offcuts) == (1, ())
    assert [each.uses for each in result.plans.cloth if each.supplied_by == "shop"] == [("binding",)]
    assert "no-leftover" in {caution.code for caution in result.cautions}


@pytest.mark.parametrize(("have", "expected"), [("193 in", "enough"), ("192 7/8 in", "without-binding")])
def test_her_own_binding_across_the_cloth_must_fit_too(have: str, expected: str):
    """60 x 80 in panels of a print that must meet within 1/8 in, with 3 in at the ends: 2 x 86 + 8 x 2 1/2 + 1 = 193 in
    (derived)."""
    fabric = "fabric={ preset='cotton-44', name='hers', repeat='1/8' }"
    result = quote(
        "width=60\nlength=80", f"have='{have}'\nseams='lengthwise'\n{fabric}", f"{fabric}\nsupplied_by='customer'"
    )
    assert verdict(of(result)).verdict == expected


def test_her_own_binding_leads_over_a_seam():
    """44 x 56 of 104 in: two crosswise panels of 50, 100 + 1 in, make the backing with one seam; with the binding's six
    strips of 2 1/2 they would be 116. A panel of 62 and a band of 50 - 39 1/2 + 1/2 = 11 of two turned pieces, 84 + 15
    + 1 = 100 in, are two seams (derived)."""
    alone = quote("width=44\nlength=56", "have='104 in'")
    result = quote("width=44\nlength=56", "have='104 in'", "fabric='backing'\ncut='crosswise'")
    assert (of(alone).seams, of(result).seams) == (1, 2)
    assert "is enough, binding and all" in said(of(result))
