"""The size of a quilt once it is washed: a range, unless its cloth was washed before."""

import json
from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.commandline.views import quote_document
from finishcalc.plans.washing import Washed
from tests.builders import in_shop, page, quoted

QUILT = "[top]\nwidth = 100\nlength = 100\n"
PREWASHED = "prewashed = true\n"
WASHED_BACK = "[backing]\nfabric = { preset = 'cotton-44', prewashed = true }\n"


def washed(text: str) -> Washed:
    return quoted(text).plans.quilting.washed


def shares(text: str) -> tuple[Fraction, Fraction]:
    """The least and the most in per cent."""
    found = washed(text)
    return found.least * 100, found.most * 100


def test_unwashed_cloth_takes_from_three_to_eight():
    """100 in at 2 % of draw-up is 98; less 3 % is 95.06, less 8 % is 90.16 (washed quilts, measured; derived)."""
    found = washed(QUILT)
    assert (found.largest.width.to("in"), found.smallest.width.to("in")) == (Fraction("95.06"), Fraction("90.16"))


@pytest.mark.parametrize(
    ("batting", "range_"),
    [("cotton-blend", (3, 8)), ("cotton", (4, 8)), ("polyester-high-loft", (3, 8)), ("none", (2, 5))],
)
def test_the_batting_s_label_is_the_least_that_a_quilt_loses(batting: str, range_: tuple[int, int]):
    """The labels say 3, 4 and 0 %; cloth without batting loses 2-5 % (laundering leaflets)."""
    assert shares(QUILT + f"[batting]\nproduct = '{batting}'\n") == range_


def test_a_batting_that_shrinks_more_than_the_cloth_sets_the_most_too():
    assert shares(QUILT + "[batting]\nproduct = { preset = 'cotton', shrink = '10 %' }\n") == (10, 10)


def test_prewashed_cloth_leaves_one_size_by_the_label():
    assert shares(QUILT + PREWASHED + WASHED_BACK) == (3, 3)
    assert "finished about 98 x 98 in, washed about 95 x 95 in" in flat(QUILT + PREWASHED + WASHED_BACK)


@pytest.mark.parametrize("text", [QUILT + PREWASHED, QUILT + WASHED_BACK])
def test_one_layer_of_unwashed_cloth_is_enough_for_a_range(text: str):
    assert shares(text) == (3, 8)


def test_cloth_that_is_planned_to_be_washed_first_is_prewashed():
    """Flannel is cut once it is washed, as its cut list says; plush does not shrink."""
    for cloth in ("flannel-44", "plush-60"):
        assert shares(QUILT + PREWASHED + f"[backing]\nfabric = '{cloth}'\n") == (3, 3)


def test_a_pieced_top_is_prewashed_where_all_its_cloth_is():
    linen = "[top.piecing]\nfabric = 'linen-60'\n"
    text = "[top.blocks]\nacross = 5\ndown = 5\nsize = 10\nplain = '{}'\n" + linen + WASHED_BACK
    assert shares(text.replace("{}", "all")) == (3, 3)
    assert shares(text.replace("{}", "alternate")) == (3, 8)  # nobody knows the cloth of the pieced ones


def test_a_whole_shop_may_wash_its_cloth_first(tmp_path: Path):
    shop = "[cloth]\nprewashed = true\n[fabrics.cotton-44]\nprewashed = true\n[usual.top]\nprewashed = true\n"
    found = in_shop(tmp_path, shop, QUILT).plans.quilting.washed
    assert found.least == found.most == Fraction(3, 100)


def test_no_batting_and_washed_cloth_leave_nothing_to_say():
    assert "washed about" not in flat(QUILT + PREWASHED + WASHED_BACK + "[batting]\nproduct = 'none'\n")


def flat(text: str) -> str:
    return " ".join(page(text).split())


def test_the_page_has_a_range_of_each_side():
    """100 x 120 at 2 %: 98 x 117.6; at 3 % 95 x 114, at 8 % 90 x 108."""
    assert "finished about 98 x 118 in, washed about 90-95 x 108-114 in" in flat(
        QUILT.replace("length = 100", "length = 120")
    )


def test_a_round_top_has_one_range():
    """70 in at 2 % is 68.6; without batting 2 % is 67.2 and 5 % is 65.2."""
    text = "[top]\ndiameter = 70\n[batting]\nproduct = 'none'\n"
    assert "finished about 69 in across, washed about 65-67 in across" in flat(text)


def test_centimetres():
    """200 cm at 2 % is 196; 3 % leaves 190, 8 % 180."""
    text = "units = 'cm'\n[top]\nwidth = 200\nlength = 200\n"
    assert "finished about 196 x 196 cm, washed about 180-190 x 180-190 cm" in flat(text)


def test_the_document_has_the_largest_and_the_smallest():
    document = json.loads(quote_document(quoted(QUILT)))["quilting"]
    assert document["washed"] == {"width": 95.06, "length": 95.06}
    assert document["washed_smallest"] == {"width": 90.16, "length": 90.16}
