"""What the customer brings: her cloth, or a backing that is sewn already."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_page
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.wording.notation import NO_BREAK, Notation
from tests.builders import Amount, backing_of, cloth, inches, quoted, yards
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


def test_enough_cloth_tells_what_is_left():
    """60x80 takes 2 panels of 88 in = 176; 5 yd are 180 in, so 4 in are left (derived)."""
    supplied = backing_of(60, 80, LEAST, have=yards(5), **PLAIN).customer_supplied
    assert supplied
    assert supplied.verdict == "enough"
    assert supplied.sentence.values["left"] == inches(4)


def test_cloth_is_held_against_what_is_needed_and_not_against_the_step():
    """176 in are 4 8/9 yd, sold as 5: a customer who has exactly 176 in has enough (derived)."""
    assert backing_of(60, 80, LEAST, have=inches(176), **PLAIN).customer_supplied.verdict == "enough"
    short = backing_of(60, 80, LEAST, have=inches("175 7/8"), **PLAIN).customer_supplied
    assert (short.verdict, short.sentence.values["short"]) == ("short", inches("1/8"))


def test_short_cloth_names_the_way_that_fits():
    """60x80 off 40 usable: with full panels 176 in; a panel of 88, a band of 2 turned pieces of 29 and a strip of 10
    takes 88 + 2 x 29 + 10 = 156 (derived). 4 1/2 yd are 162 in: 14 short for the first, enough for the other."""
    plan = backing_of(60, 80, LEAST | {"most_seams": 1}, have=yards("4 1/2"))
    assert plan.chosen.layout.cut_length == inches(176)
    assert plan.customer_supplied.verdict == "short"
    assert plan.customer_supplied.sentence.values["short"] == inches(14)
    assert plan.customer_supplied.sentence.values["seams"] == 3
    assert [told.code for told in plan.cautions] == ["backing-short"]


def test_far_too_little_cloth_fits_no_way():
    supplied = backing_of(60, 80, LEAST, have=yards(2)).customer_supplied
    assert supplied.verdict == "short"
    assert "because no other layout fits" in supplied.sentence.text


def test_short_cloth_says_what_is_needed_in_one_length():
    """60x80 of cloth with a nap: 2 panels of 88 and 1 to square are 177 in, sold as 5 yd; 100 in are 77 short. What is
    wanting could not be sewn to it, so the whole is named (derived)."""
    supplied = backing_of(
        60, 80, LEAST, have=inches(100), fabric=cloth(nap=True, straighten=inches(1))
    ).customer_supplied
    told = Notation("in").write(supplied.sentence).replace(NO_BREAK, " ")
    assert "is 77 in short: 5 yd in one length is needed" in told


def test_cloth_that_is_there_is_pieced_with_the_fewest_seams():
    """60x90 off 40 usable: lengthwise 2 panels of 98, 196 in and one seam; crosswise 3 lengths of 68, 204 in and two.
    A band beside a panel takes less and more seams. 7 yd are enough for the first, and saving cloth gains nothing
    (derived); of cloth to buy, sewing at no wage, the least is taken."""
    bought = backing_of(60, 90, LEAST | {"wage": Fraction(0)})
    supplied = backing_of(60, 90, LEAST | {"wage": Fraction(0)}, have=yards(7), supplied_by="customer")
    assert bought.chosen.layout.seams > 1
    assert (supplied.chosen.layout.seams, supplied.chosen.layout.cut_length) == (1, inches(196))
    assert supplied.customer_supplied.verdict == "enough"


def test_cloth_that_is_short_for_the_fewest_seams_is_pieced_with_more():
    """60x90: 196 in are wanted for one seam. 5 yd, 180 in, are not enough, so it is pieced with more, if the shop sews
    so many (derived)."""
    pieced = backing_of(60, 90, LEAST | {"most_seams": 3}, have=yards(5))
    assert pieced.customer_supplied.verdict == "enough"
    assert 1 < pieced.chosen.layout.seams <= 3
    assert not pieced.chosen.layout.turned
    assert pieced.chosen.layout.cut_length <= yards(5)
    assert backing_of(60, 90, LEAST | {"most_seams": 1}, have=yards(5)).customer_supplied.verdict == "short"


def test_the_studio_reads_why_a_cheaper_backing_is_not_chosen():
    """Of full panels of cloth with a nap none takes more seams than the shop sews, and none is turned."""
    top = "[top]\nwidth = 60\nlength = 80\n[backing]\n"
    plain = quote_page(quoted(top + "fabric = { preset = 'cotton-44', nap = true }\n"), "studio")
    assert "at most" not in plain
    assert "turned pieces are taken" not in plain
    every = " ".join(quote_page(quoted(top), "studio").split())
    assert "the shop's limit is 3 seams" in every
    assert "turned pieces are used where they save 1 yd or more of cloth" in every
    hers = " ".join(quote_page(quoted(top + "have = '9 yd'\n"), "studio").split())
    assert "supplied cloth is pieced with as few seams as it allows" in hers
    assert "at most" not in hers


def test_pieces_are_turned_only_if_she_says_so():
    """60x80 in whole pieces takes 176 in with one seam and 170 1/2 with three, with turned ones 166 and two. 168 in are
    short; that they would do with turned pieces is said and not done (the options: tests of backings)."""
    plan = backing_of(60, 80, LEAST | {"most_seams": 3}, have=inches(168))
    assert (plan.customer_supplied.verdict, plan.chosen.layout.turned) == ("short", 0)
    assert plan.customer_supplied.sentence.values["seams"] == 2
    assert "2 seams and turned pieces" in INCHES.write(plan.customer_supplied.sentence)


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
        ((64, 84), "refused"),  # 2 on every side
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
    strip = backing_of(60, 80, LEAST, **sewn(64, 88)).customer_supplied.strip
    assert (strip.width, strip.pieces, strip.cut_length) == (inches("6 1/2"), 3, inches("19 1/2"))
    assert (strip.seams, strip.seam_length) == (3, inches(100))


def test_a_wide_strip_keeps_its_own_width():
    """56x88 is 12 short, and its seam takes 1/2 of the backing and 1/2 of the strip: cut 13, for 56 - 1/2 + 13 - 1/2
    is 68 (derived)."""
    assert backing_of(60, 80, LEAST, **sewn(56, 88)).customer_supplied.strip.width == inches(13)


def test_an_accepted_backing_is_neither_bought_nor_seamed():
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=68, length=88 }\n[binding]\nattach='none'\n")
    labels = [line.label.text for line in result.quote.lines]
    assert result.plans.cloth == ()
    assert not any("seam" in label for label in labels)
    assert result.plans.quilting.fits


def test_a_strip_is_bought_sewn_and_priced():
    """Its cloth is bought with the binding's where both are the same, and its seams are on the quote."""
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=64, length=88 }\n")
    assert [purchase.uses for purchase in result.plans.cloth] == [("strip", "binding")]
    seams = next(line for line in result.quote.lines if line.label.text == "Seams of the backing strip")
    assert seams.quantity == Fraction(3)


def test_what_is_needed_is_said_beside_what_is_supplied():
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nsewn={ width=64, length=88 }\n")
    text = " ".join(quote_page(result, "customer").split())
    assert "68 x 88 in needed, 4 in more than the top on every side The backing supplied, 64 in x 88 in" in text


def test_what_the_customer_brings_is_not_on_the_quote():
    result = quoted("[top]\nwidth=60\nlength=80\n[backing]\nhave='9 yd'\n[binding]\nattach='none'\n")
    assert [purchase.supplied_by for purchase in result.plans.cloth] == ["customer"]
    assert not any(line.cost and "cotton, 44" in str(line.label.values) for line in result.quote.lines)


# --- what a reviewer found ---------------------------------------------------------------------------------------


@examples(200)
@given(
    st.integers(20, 110), st.integers(20, 110), st.integers(0, 40), st.integers(0, 6), st.integers(0, 8), st.booleans()
)
def test_a_mended_backing_is_never_short(
    width: int, length: int, short: int, overage: int, eighths: int, at_a_side: bool
):
    """With its strip on, a supplied backing covers what is wanted on both sides; every seam took two allowances."""
    wanted = max(overage, 3)
    across, down = width + 2 * wanted, length + 2 * wanted
    size = (across - short, down) if at_a_side else (across, down - short)
    if min(size) < 1:
        return
    seam = inches(Fraction(eighths, 8))
    spec = sewn(*size) | {"overage": inches(overage), "seam_allowance": seam}
    plan = backing_of(width, length, LEAST, **spec)
    if plan.customer_supplied.verdict == "refused":
        return
    mended = [inches(side) for side in size]
    if strip := plan.customer_supplied.strip:
        place = 0 if strip.at_a_side else 1
        mended[place] = mended[place] - seam + (strip.width - seam)
        joined = inches(40) * strip.pieces - seam * (2 * (strip.pieces - 1))
        assert joined >= mended[1 - place]
        assert strip.width <= inches(40)
        assert strip.width - seam >= inches(wanted + 2)
        assert plan.customer_supplied.sentence.values["short"] > inches(0)
        assert mended[place] >= inches((across, down)[place])
    assert plan.on_frame == tuple(mended)
    least = inches(width + 6), inches(length + 6)
    assert all(side >= enough for side, enough in zip(mended, least, strict=True))


def test_nothing_is_short_below_the_least_overage_where_less_is_asked_for():
    """Overage 0 asked for, 3 the frame's least: 62 for a top of 60 is 66 - 62 = 4 short (derived)."""
    supplied = backing_of(60, 80, LEAST, overage=inches(0), **sewn(62, 88)).customer_supplied
    assert (supplied.verdict, supplied.sentence.values["short"]) == ("strip", inches(4))


def test_her_cloth_must_do_for_the_binding_too():
    """60x80 takes 176 in for the backing and 8 strips of 2 1/2 = 20 for the binding, and 1 to square: 197 in. 5 yd
    are 180, 17 short; 5 1/2 yd are 198 (derived)."""
    text = "[top]\nwidth=60\nlength=80\n[backing]\nhave='{have}'\nseams='lengthwise'\n"
    text += "fabric={{ preset='cotton-44', repeat='1/8' }}\n[binding]\n"
    text += "fabric={{ preset='cotton-44', repeat='1/8' }}\nsupplied_by='{by}'\n"
    short = quoted(text.format(have="5 yd", by="customer")).plans.backing.customer_supplied
    assert (short.verdict, short.sentence.values["short"]) == ("short", inches(17))
    assert quoted(text.format(have="5 1/2 yd", by="customer")).plans.backing.customer_supplied.verdict == "enough"
    assert quoted(text.format(have="5 yd", by="shop")).plans.backing.customer_supplied.verdict == "enough"


def test_her_cloth_is_held_against_what_it_loses_in_the_wash():
    """176 in at 4 % are 183 1/3 in unwashed (derived): 183 3/8 are enough, 183 1/4 are not."""
    fabric = cloth(nap=True, shrink_along=Fraction(4, 100))
    verdicts = [
        backing_of(60, 80, LEAST, have=inches(have), fabric=fabric).customer_supplied.verdict
        for have in ("183 3/8", "183 1/4")
    ]
    assert verdicts == ["enough", "short"]


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
    assert (spec.sewn, spec.have) == (None, (yards(9),))
