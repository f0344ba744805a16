"""Binding from what is left beside the backing's pieces, where both are of one cloth."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.measures.length import ZERO
from finishcalc.measures.rounding import up_to_step
from finishcalc.pipeline import Finishing
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.together import with_binding
from tests.builders import cut_text, inches, quote_text, quoted, yards
from tests.strategies import examples

OF_THE_BACKING = "[binding]\nfabric = 'backing'\n"
LEFTOVER = OF_THE_BACKING + "cut = 'leftover'\n"
TWO_SEAMS = "[backing]\nseam_count = 2\nturned = false\n"
CROSSWISE = OF_THE_BACKING + "cut = 'crosswise'\n"


def top(width: object, length: object, more: str = "") -> str:
    return f"[top]\nwidth = '{width}'\nlength = '{length}'\n{more}"


def binding_of(result: Finishing) -> BindingPlan:
    assert result.plans.binding
    return result.plans.binding


def test_strips_beside_two_panels_are_the_whole_binding():
    """60 1/2 x 84 takes 2 panels of 34 3/4 x 92 from 40: 5 1/4 is left beside each, 2 strips of 2 1/2. Of 299 in needed
    3 strips give 92 + 2 x 89 1/2 = 271, 4 give 360 1/2. With it the cloth is 184 + 1 in, 5 1/4 yd; with 8 strips across
    it would be 184 + 20 + 1 = 205 in, 5 3/4 yd (derived)."""
    result = quoted(top("60 1/2", 84, LEFTOVER))
    plan = binding_of(result)
    assert (plan.offcuts, plan.strips, plan.yields, plan.amount) == ((inches(92),) * 4, 0, inches("360 1/2"), ZERO)
    (bought,) = result.plans.cloth
    assert (bought.uses, bought.amount) == (("backing", "binding"), yards("5 1/4"))
    assert quoted(top("60 1/2", 84, CROSSWISE)).plans.cloth[0].amount == yards("5 3/4")


def test_what_they_do_not_give_is_cut_across():
    """64 x 80 takes 2 panels of 36 1/2 x 88: 3 1/2 is left, one strip beside each, 88 + 85 1/2 = 173 1/2 of 298 in. 4
    across give 4 x 37 1/2 = 150 more; 3 would give 112 1/2 (derived)."""
    plan = binding_of(quoted(top(64, 80, LEFTOVER)))
    assert (plan.offcuts, plan.strips, plan.yields) == ((inches(88),) * 2, 4, inches("323 1/2"))
    assert (plan.cut_length, plan.cut_lengths) == (inches(10), (inches("2 1/2"),) * 4)


def test_a_piece_cut_up_to_an_eighth_leaves_that_much_less():
    """66.06 in are 74.06 with 4 on each side: panels of (74.06 + 1) / 2 = 37.53, cut 37 5/8: 2 3/8 are left, and not
    2.47; of 2 2/5 in wide there is none (derived)."""
    wide = quoted(top("66.06", 80, LEFTOVER + "strip_width = '2.4'\n"))
    assert binding_of(wide).offcuts == ()
    assert binding_of(quoted(top("66.06", 80, LEFTOVER + "strip_width = '2 3/8'\n"))).offcuts == (inches(88),) * 2


def test_no_strip_more_than_is_needed():
    """60 1/2 x 104 in cloth with a nap: two panels of 112, 2 strips beside each. 3 strips make 112 + 2 x 109 1/2 = 331,
    and 329 with 2 extra is just that (derived)."""
    cloth = "fabric = { preset = 'cotton-44', nap = true }\n"
    plan = binding_of(quoted(top("60 1/2", 104, "[backing]\n" + cloth + LEFTOVER + "extra = 2\n")))
    assert (plan.offcuts, plan.yields, plan.needed_length) == ((inches(112),) * 3, inches(331), inches(331))


def test_what_saves_nothing_is_not_said():
    """36 x 48 with two seams: with 2 strips from beside 4 are cut across in place of 5; 2 1/2 in less are not an eighth
    of a yard less of what is bought in one length (derived)."""
    assert binding_of(quoted(top(36, 48, LEFTOVER + TWO_SEAMS))).strips == 4
    across = quoted(top(36, 48, CROSSWISE + TWO_SEAMS))
    assert binding_of(across).strips == 5
    assert alternatives_of(across).binding is None


def test_of_supplied_cloth_nothing_is_saved():
    hers = "[backing]\nhave = '9 yd'\n" + CROSSWISE
    assert alternatives_of(quoted(top("60 1/2", 84, hers))).binding is None


def test_what_is_too_short_for_a_piece_is_no_strip():
    """53 x 75 takes two panels of all 40 and between them two pieces of 31 x 5, with 9 left beside each: strips of 5 in
    would be all joins, and nothing here is cut shorter than 8 (common practice)."""
    result = quoted(top(53, 75, "[backing]\nseam_count = 3\nturned = true\noverage = 4\n" + LEFTOVER))
    assert result.plans.backing
    assert result.plans.backing.chosen
    rows = [cut for cloth in result.plans.backing.chosen.bought_lengths for cut in cloth.cuts if cut.width < inches(40)]
    assert {(cut.width, cut.length) for cut in rows} == {(inches(31), inches(5))}
    assert binding_of(result).offcuts == ()


NOTHING_TO_CUT_FROM = {
    "another cloth": (
        "[binding]\nfabric = 'cotton-44'\ncut = 'leftover'\n", "the backing is of another cloth",
    ),
    "no backing": ("[backing]\nfabric = 'none'\n[binding]\ncut = 'leftover'\n", "there is no backing"),
    "sewn already": (
        "[backing]\nsewn = { width = 80, length = 100 }\n" + LEFTOVER, "the backing is already made",
    ),
    "hers": (
        LEFTOVER + "supplied_by = 'customer'\n",
        "the shop supplies one cloth and the customer the other",
    ),
    # 2 panels of 88 in and 1 to square take all of it
    "supplied": (
        "[backing]\nhave = '177 in'\n" + LEFTOVER + "supplied_by = 'shop'\n",
        "the customer's cloth is not enough for it",
    ),
    # 2 panels of (68 + 8 + 1) / 2 = 38 1/2 leave 1 1/2 of the 40 beside each, and a strip is 2 1/2 wide
    "too narrow": (
        "[backing]\nseams = 'lengthwise'\n" + LEFTOVER, "too little is left beside them for strips 2 1/2 in wide",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("more", "why"), NOTHING_TO_CUT_FROM.values(), ids=NOTHING_TO_CUT_FROM)
def test_where_there_is_nothing_to_cut_it_from_it_is_cut_across_and_said_why(more: str, why: str):
    result = quoted(top(68, 80, more))
    across = quoted(top(68, 80, more.replace("'leftover'", "'crosswise'")))
    assert binding_of(result)._replace(cut="crosswise") == binding_of(across)
    told = f"The binding was to be cut from beside the backing's pieces, but {why}: its strips are cut across the "
    for reader in ("studio", "customer"):
        assert told + "cloth instead." in " ".join(quote_text(result, reader).split())  # type: ignore[arg-type]
    assert [each.code for each in result.cautions].count("no-leftover") == 1
    assert "no-leftover" not in {each.code for each in across.cautions}


@pytest.mark.parametrize("size", [("60 1/2", 84), (64, 80)], ids=["all of it", "some of it"])
def test_where_it_is_cut_from_beside_nothing_is_said_to_the_contrary(size: tuple[object, object]):
    assert "no-leftover" not in {each.code for each in quoted(top(*size, LEFTOVER)).cautions}


def test_an_edge_that_is_not_bound_needs_no_leftover():
    for attach in ("hem", "none"):
        bare = quoted(top(60, 80, LEFTOVER + f"attach = '{attach}'\n[backing]\nfabric = 'none'\n"))
        assert "no-leftover" not in {each.code for each in bare.cautions}


def test_a_curved_edge_stays_on_the_bias():
    result = quoted("[top]\ndiameter = 60\n")
    assert binding_of(result).cut == "bias"
    assert alternatives_of(result).binding is None


def test_it_is_said_what_that_would_save():
    """Half a yard at 11.00 with 40 % on it is 7.70, with 5 % tax 8.09 (derived)."""
    result = quoted(top("60 1/2", 84, CROSSWISE))
    other = alternatives_of(result).binding
    assert other
    assert (other.saved, str(other.adds)) == (yards("1/2"), "-8.09")
    page = " ".join(quote_text(result, "customer").split())
    assert f"from beside the backing's pieces, 1/2 yd less cloth: ${other.total}" in page
    assert alternatives_of(quoted(top("60 1/2", 84, LEFTOVER))).binding is None


def test_the_cut_list_says_where_the_strips_come_from():
    whole = " ".join(cut_text(quoted(top("60 1/2", 84, LEFTOVER))).split())
    assert "A (backing, 34 3/4 x 92 in) and 2 C (binding, 2 1/2 x 92 in)" in whole
    assert "x width of cloth;" not in whole
    some = " ".join(cut_text(quoted(top(64, 80, LEFTOVER))).split())
    assert "1 C (binding, 2 1/2 x 88 in)" in some
    assert "cut 4 strips 2 1/2 in x width of cloth; they are D (binding, 2 1/2 x 40 in)" in some


@examples(60)
@given(st.integers(20 * 8, 120 * 8), st.integers(20 * 8, 120 * 8), st.sampled_from(["2", "2 1/4", "2 1/2", "3"]))
def test_strips_lie_beside_the_pieces_and_are_long_enough(across: int, down: int, wide: str):
    """Row by row of the cloth: the pieces, up to an eighth, and the strips taken beside them fit its width; joined,
    they are no shorter than what is needed, and the longest are taken; it never takes more cloth."""
    size = [str(Fraction(side, 8)) for side in (across, down)]
    result = quoted(top(*size, LEFTOVER + f"strip_width = '{wide}'\n"))
    plan, backing = binding_of(result), result.plans.backing
    assert backing
    assert backing.chosen
    usable, width = inches(40), inches(wide)
    had = []
    for cloth in backing.chosen.bought_lengths:
        for start in {cut.y for cut in cloth.cuts}:
            row = [cut for cut in cloth.cuts if cut.y == start]
            left = usable - sum((up_to_step(cut.width, inches("1/8")) for cut in row), ZERO)
            had += [min(cut.length for cut in row)] * max(0, int(left / width))
    longest = sorted((long for long in had if long >= inches(8)), reverse=True)
    assert list(plan.offcuts) == longest[: len(plan.offcuts)]
    joins = len(plan.offcuts) + plan.strips - 1
    joined = sum(plan.offcuts, ZERO) + usable * plan.strips - width * joins
    assert joined == plan.yields >= plan.needed_length
    across_cloth = binding_of(quoted(top(*size, CROSSWISE + f"strip_width = '{wide}'\n")))
    apart = with_binding(result.resolved.project, result.plans, across_cloth)
    assert sum((each.amount for each in result.plans.cloth), ZERO) <= sum((each.amount for each in apart.cloth), ZERO)


@pytest.mark.parametrize("size", [(60, 80), (64, 80), (41, 53), (73, 90)])
def test_what_it_would_add_is_what_it_adds(size: tuple[int, int]):
    now, then = quoted(top(*size, CROSSWISE)), quoted(top(*size, LEFTOVER))
    saved = now.plans.cloth[0].amount - then.plans.cloth[0].amount
    other = alternatives_of(now).binding
    if saved == ZERO:
        assert other is None
    else:
        assert other
        assert (other.saved, other.adds) == (saved, then.quote.total - now.quote.total)


def test_where_nobody_states_the_cut_the_cheaper_one_is_the_plan():
    """60 1/2 x 84 with 4 strips from beside takes 5 1/4 yd in place of 5 3/4: $8.09 less (worked above)."""
    result, across = quoted(top("60 1/2", 84, OF_THE_BACKING)), quoted(top("60 1/2", 84, CROSSWISE))
    assert (binding_of(result).offcuts, binding_of(result).strips) == ((inches(92),) * 4, 0)
    assert str(result.quote.total - across.quote.total) == "-8.09"
    page = " ".join(quote_text(result, "studio").split())
    assert "4 strips 2 1/2 in wide and 92 in long from beside the backing's pieces" in page
    assert alternatives_of(result).binding is None


def test_where_it_would_cost_no_less_the_strips_lie_across():
    """36 x 48 with two seams: 2 1/2 in less are not an eighth of a yard less (see above)."""
    assert binding_of(quoted(top(36, 48, OF_THE_BACKING + TWO_SEAMS))).offcuts == ()


def test_every_backing_that_is_weighed_has_its_own_cheaper_binding():
    result = quoted(top("60 1/2", 84, OF_THE_BACKING))
    for each in result.backings:
        layout = each.option.layout
        pick = f"[backing]\nseam_count = {layout.seams}\nturned = {str(layout.turned > 0).lower()}\n"
        pick += f"overage = '{each.option.overage.sides}'\n" + (f"seams = '{layout.runs}'\n" if layout.seams else "")
        assert quoted(top("60 1/2", 84, OF_THE_BACKING + pick)).quote.total == each.quote.total


def test_strips_along_the_cloth_come_from_beside_the_backing_first():
    """60 1/2 x 84: the 4 strips beside the panels lie along the cloth as asked; 5 1/4 yd, none of it for them."""
    result = quoted(top("60 1/2", 84, OF_THE_BACKING + "cut = 'lengthwise'\n"))
    assert (binding_of(result).offcuts, binding_of(result).strips) == ((inches(92),) * 4, 0)
    assert [each.amount for each in result.plans.cloth] == [yards("5 1/4")]


def test_strips_along_the_cloth_are_not_pieced_out_with_strips_across():
    """64 x 80 has 2 strips beside its panels, and 4 more would lie across (worked above)."""
    plan = binding_of(quoted(top(64, 80, OF_THE_BACKING + "cut = 'lengthwise'\n")))
    assert (plan.cut, plan.offcuts) == ("lengthwise", ())


def test_beside_a_backing_of_another_cloth_nothing_is_cut():
    assert binding_of(quoted(top("60 1/2", 84))).offcuts == ()
    own = "[backing]\nfabric = {0}\n[binding]\nfabric = {0}\n"
    red = "{ preset = 'cotton-44', name = 'red' }"
    assert binding_of(quoted(top("60 1/2", 84, own.format("'cotton-44'")))).offcuts == ()
    assert binding_of(quoted(top("60 1/2", 84, own.format(red)))).offcuts == (inches(92),) * 4


def test_a_king_bound_along_the_cloth_buys_no_more_than_its_backing():
    covers = "[top]\n[top.covers]\nbed = 'king'\ndrop = 18\npillow_tuck = 12\ndraw_up = '4 %'\n"
    text = covers + "[backing]\nseams = 'lengthwise'\ncentre = 'panel'\n"
    result = quoted(text + OF_THE_BACKING + "cut = 'lengthwise'\n")
    backing, (bought,) = result.plans.backing, result.plans.cloth
    assert backing
    assert backing.chosen
    assert (binding_of(result).strips, bought.amount) == (0, backing.chosen.amount)
