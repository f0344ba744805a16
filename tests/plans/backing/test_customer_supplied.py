"""What the customer brings: a backing that is sewn already, and cloth where it changes the quote."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import InUnit
from tests.builders import Amount, backing_of, cloth, inches, quote_text, quoted, yards
from tests.strategies import examples

LEAST = {"least_overage": inches(3), "clear_edge": inches(2)}
INCHES = Notation("in")
PLAIN = {"fabric": cloth(nap=True)}
"""Cloth with a nap takes full panels only, so that the sums below are theirs."""


def sewn(width: Amount, length: Amount) -> dict[str, object]:
    """A backing that is made already, in inches."""
    sample = resolve(Source("t", "[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width = 1, length = 1 }\n"))
    made = sample.project.backing
    assert made
    assert made.sewn
    return {"sewn": made.sewn.replace(width=inches(width), length=inches(length))}


def test_the_studio_reads_by_which_rule_a_backing_leads():
    """Five for a seam and a yard of cloth for turned pieces are the sample shop's; cloth with a nap has none turned."""
    top = "[top]\nwidth = 60\nlength = 80\n[backing]\n"
    plain = quote_text(quoted(top + "fabric = { preset = 'cotton-44', nap = true }\n"), "studio")
    assert "across the grain" not in plain
    every = " ".join(quote_text(quoted(top + "overage = 4\n"), "studio").split())
    assert "the least total leads, with $5.00 more for each seam and the price of 1 yd for pieces cut across" in every
    assert "at most 3 seams; the overage is stated, so none with a smaller one leads" in every
    hers = " ".join(quote_text(quoted(top + "have = '9 yd'\n"), "studio").split())
    assert "supplied cloth is pieced with as few seams as it allows" in hers


@pytest.mark.parametrize(("size", "blocking"), [((64, 88), False), ((30, 30), True)])
def test_a_backing_that_is_mended_blocks_nothing(size: tuple[int, int], blocking: bool):
    (told,) = backing_of(60, 80, LEAST, **sewn(*size)).cautions
    assert told.blocking is blocking


def test_a_seam_off_the_middle_takes_nothing_of_cloth_that_is_there():
    codes = [told.code for told in backing_of(105, 70, LEAST, centre="panel").cautions]
    assert codes == ["centre-panel"]
    assert backing_of(105, 70, LEAST, have=yards(20), centre="panel").cautions == ()


@pytest.mark.parametrize(
    ("size", "verdict"),
    [
        ((68, 88), "accepted"),  # 4 on every side
        ((66, 86), "accepted"),  # 3, the least a frame takes
        (("65 7/8", 86), "strip"),  # a hair under 3 at the sides
        ((68, 85), "strip"),  # 2 1/2 at top and bottom
        ((64, 84), "strip"),  # 2 on every side
        ((20, 84), "refused"),  # a strip at an end would do, but 48 are short at the sides
        ((20, 88), "refused"),  # 48 short: no strip of the cloth is that wide
    ],
)
def test_a_sewn_backing_is_accepted_mended_or_refused(size: tuple[Amount, Amount], verdict: str):
    """60x80 with 4 a side wants 68x88; 3 a side is the least (quilting textbooks, from memory; sums derived)."""
    plan = backing_of(60, 80, LEAST, **sewn(*size))
    assert plan.customer_supplied.verdict == verdict
    assert plan.chosen is None
    assert bool(plan.cautions) == (verdict != "accepted")


def test_the_strip_to_add():
    """64x88 for 60x80 is 4 short across. The strip's seam must lie 4 + 2 in from the edge, so it shows 6 and is cut
    6 1/2; 88 long off 40 usable takes 3 pieces (3 x 40 - 2 = 118), 19 1/2 in of cloth; the long seam is 88 and two
    joins of 6 each: 100 in (derived)."""
    strip = backing_of(60, 80, LEAST, **sewn(64, 88)).customer_supplied.strips[0]
    assert (strip.width, strip.pieces, strip.cut_length) == (inches("6 1/2"), 3, inches("19 1/2"))
    assert (strip.seams, strip.seam_length) == (3, inches(100))


def strips_for_the_throw():
    """A top of 64 1/2 x 80 1/4 with a backing of 69 x 86: 2 1/4 in over at a side and 2 7/8 at an end, both under 3."""
    return backing_of("64 1/2", "80 1/4", LEAST, **sewn(69, 86))


def test_a_backing_that_is_small_both_ways_gets_two_strips():
    """Both seams lie 4 + 2 in from the edge, so both strips are cut 6 1/2. At the side 86 of length takes 3 pieces of
    40 (118 joined): a seam of 86 and two joins of 6. That makes it 69 + 6 1/2 - 1 = 74 1/2 wide, which takes 2 pieces
    (79 joined): a seam of 74 1/2 and a join of 6 (derived)."""
    plan = strips_for_the_throw()
    side, end = plan.strips
    assert (side.at_a_side, side.width, side.pieces, side.seam_length) == (True, inches("6 1/2"), 3, inches(98))
    assert (end.at_a_side, end.width, end.pieces, end.seam_length) == (False, inches("6 1/2"), 2, inches("80 1/2"))
    assert plan.on_frame == (inches("74 1/2"), inches("91 1/2"))
    assert [told.blocking for told in plan.cautions] == [False]
    said = INCHES.write(plan.customer_supplied.sentence).replace(NO_BREAK, " ")
    assert "is 3 1/2 in short in width and 2 1/4 in in length" in said


def test_two_strips_are_bought_sewn_and_priced():
    """5 pieces of 6 1/2 are 32 1/2 in, and 1 to square: 33 1/2, sold as 1 yd; 3 + 2 seams (derived)."""
    top = "[top]\nwidth='64 1/2'\nlength='80 1/4'\n[backing]\nsewn={ width=69, length=86 }\n[binding]\nattach='none'\n"
    result = quoted(top)
    assert [(cloth.uses, cloth.cut_length, cloth.amount) for cloth in result.plans.cloth] == [
        (("strip",), inches("32 1/2"), yards(1))
    ]
    seams = next(line for line in result.quote.lines if line.label.text == "Seams of the backing strips")
    assert seams.quantity == Fraction(5)


def test_the_working_says_why_a_strip_is_so_wide():
    """4 overage + 2 clear + 1/2 = 6 1/2, where 3 1/2 short and two allowances would take 4 1/2; but of a backing 12
    short, 12 + 2 x 1/2 = 13 (derived)."""
    _, side, _ = (INCHES.write(line).replace(NO_BREAK, " ") for line in strips_for_the_throw().working)
    assert (
        "4 in overage + 2 in so that its seam keeps clear of the trimmed edge + 1/2 in seam allowance = 6 1/2" in side
    )
    assert "3 1/2 in short and the seam alone would take 4 1/2 in" in side
    wide = INCHES.write(backing_of(60, 80, LEAST, **sewn(56, 88)).working[1]).replace(NO_BREAK, " ")
    assert "12 in short + 2 x 1/2 in in the seam = 13 in wide" in wide


def test_a_wide_strip_keeps_its_own_width():
    """56x88 is 12 short, and its seam takes 1/2 of the backing and 1/2 of the strip: cut 13, for 56 - 1/2 + 13 - 1/2
    is 68 (derived)."""
    assert backing_of(60, 80, LEAST, **sewn(56, 88)).customer_supplied.strips[0].width == inches(13)


def test_an_accepted_backing_is_neither_bought_nor_seamed():
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=68, length=88 }\n[binding]\nattach='none'\n")
    labels = [line.label.text for line in result.quote.lines]
    assert result.plans.cloth == ()
    assert not any("seam" in label for label in labels)
    assert result.plans.quilting.fits


def test_a_strip_is_bought_sewn_and_priced():
    """Its cloth is bought with the binding's where both are the same, and its seams are on the quote."""
    same = "[binding]\nfabric='backing'\nsupplied_by='shop'\n"
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=64, length=88 }\n" + same)
    assert [purchase.uses for purchase in result.plans.cloth] == [("strip", "binding")]
    seams = next(line for line in result.quote.lines if line.label.text == "Seams of the backing strip")
    assert seams.quantity == Fraction(3)


def test_what_is_needed_is_said_beside_what_is_supplied():
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=64, length=88 }\n")
    text = " ".join(quote_text(result, "studio").split())
    assert "68 x 88 in needed, 4 in over on every side The backing supplied, 64 in x 88 in" in text


def test_what_the_customer_brings_is_not_on_the_quote():
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nhave='9 yd'\n[binding]\nattach='none'\n")
    assert [purchase.supplied_by for purchase in result.plans.cloth] == ["customer"]
    assert not any(line.cost and "cotton, 44" in str(line.label.values) for line in result.quote.lines)


# --- what a reviewer found ---------------------------------------------------------------------------------------


@examples(200)
@given(
    st.integers(20, 110),
    st.integers(20, 110),
    st.integers(0, 40),
    st.integers(0, 40),
    st.integers(0, 6),
    st.integers(0, 8),
)
def test_a_mended_backing_is_never_short(
    width: int, length: int, short_across: int, short_down: int, overage: int, eighths: int
):
    """A side that gets a strip reaches the overage that is wanted, one that gets none the least; every seam took two
    allowances, and every strip reaches along the backing as it is by then."""
    wanted = max(overage, 3)
    across, down = width + 2 * wanted, length + 2 * wanted
    size = (across - short_across, down - short_down)
    if min(size) < 1:
        return
    seam = inches(Fraction(eighths, 8))
    plan = backing_of(width, length, LEAST, **sewn(*size), overage=inches(overage), seam_allowance=seam)
    if plan.customer_supplied.verdict == "refused":
        return
    mended = [inches(side) for side in size]
    for strip in plan.strips:
        place = 0 if strip.at_a_side else 1
        assert inches(40) * strip.pieces - seam * (2 * (strip.pieces - 1)) >= mended[1 - place]
        mended[place] = mended[place] - seam + (strip.width - seam)
        assert strip.width <= inches(40)
        assert strip.width - seam >= inches(wanted + 2)
        assert mended[place] >= inches((across, down)[place])
    assert plan.on_frame == tuple(mended)
    assert all(side >= inches(top + 6) for side, top in zip(mended, (width, length), strict=True))


def test_nothing_is_short_below_the_least_overage_where_less_is_asked_for():
    """Overage 0 asked for, 3 the frame's least: 62 for a top of 60 is 66 - 62 = 4 short (derived)."""
    supplied = backing_of(60, 80, LEAST, overage=inches(0), **sewn(62, 88)).customer_supplied
    assert (supplied.verdict, supplied.sentence.values["short"]) == ("strip", inches(4))


def test_needed_is_what_would_be_made_and_on_the_frame_goes_what_is_supplied():
    plan = backing_of(60, 80, LEAST, **sewn(64, 88))
    assert (plan.width, plan.length) == (inches(68), inches(88))
    # 64 - 1/2 + 6 1/2 - 1/2
    assert plan.on_frame == (inches("69 1/2"), inches(88))


def test_a_refused_backing_says_the_price_is_without_one():
    plan = backing_of(60, 80, LEAST, **sewn(30, 30))
    assert plan.customer_supplied.sentence.text.endswith("The price excludes the backing.")


def test_the_strip_s_minutes_are_counted():
    """3 seams x 6 min + 100 in x 0.08 = 26 min (derived)."""
    minutes = {"minutes_each": Fraction(6), "minutes_along": Fraction(8, 100), "per": "in"}
    assert backing_of(60, 80, LEAST | minutes, **sewn(64, 88)).seam_minutes == 26


def test_a_project_s_own_cloth_stands_over_what_a_shop_usually_gets(tmp_path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[usual.backing]\nsewn = { width = 70, length = 90 }\n")
    project = Source("t", "[top]\nwidth=60\nlength=80\n[backing]\nhave='9 yd'\n")
    spec = resolve(project, str(shop)).project.backing
    assert spec
    assert (spec.sewn, spec.have) == (None, (InUnit(yards(9), "yd"),))
