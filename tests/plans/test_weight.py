"""The weight of a quilt: the trade's worked checks, quilts that were weighed, and what holds for every quilt."""

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_document
from finishcalc.measures.weight import Weight
from finishcalc.plans.weight import WeightPlan
from tests.builders import CM_TOP, page, quoted, with_top
from tests.strategies import examples


def weight_of(text: str) -> WeightPlan:
    return quoted(text).plans.weight


def ounces(weight: Weight | None, places: int = 1) -> float:
    assert weight
    return float(round(weight.to("oz"), places))


# --- worked checks and quilts that were weighed ---------------------------------------------------------------------


@pytest.mark.parametrize(("patch", "total"), [(6, 95.9), (2, 107.5)])
def test_a_queen_size_quilt_by_its_patches(patch: int, total: float):
    """90 x 100 is 6.9444 sq yd. With 6 in patches 6.9444 x (4.3 x 1.1736 + 4.3 + 4) = 92.7, with 2 in patches 4.3 x
    1.5625 makes it 104.3; the binding is 390 x 2.5 = 0.752 sq yd x 4.3 = 3.2 oz (trade notes, derived)."""
    assert ounces(weight_of(f"[top]\nwidth = 90\nlength = 100\npatch = {patch}\n").total) == total


@pytest.mark.parametrize(
    ("patch", "share"), [(2, "1.5625"), (3, "1.3611"), (4, "1.2656"), (6, "1.1736"), (9, "1.1142"), (12, "1.0851")]
)
def test_the_cloth_in_a_top_by_its_patches(patch: int, share: str):
    """(f + 1/2)^2 / f^2, the rule of 1/4 in seams, to four places (derived)."""
    found = with_top(f"width = 90\nlength = 100\npatch = {patch}").plans
    assert round(found.weight.layers[0].area.mm2 / found.top.shape.area.mm2, 4) == Fraction(share)


WEIGHED = """[top]
width = 88
length = 100
weight = "{denim} g/sq m"
[backing]
fabric = {{ name = "fleece", width = 60, price = 9, per = "yd", weight = "{fleece} g/sq m" }}
[batting]
product = {{ preset = "cotton", weight = {cotton} }}
"""


def test_a_denim_quilt_that_was_weighed():
    """9.4 lb for 88 x 100 with cotton batting and a fleece back (log, 2010). Denim is 200-400 g/sq m and fleece 260-360
    (a mill's chart), cotton batting 2-6 oz/sq yd (a guide): the ends lie about it, their middles within a tenth."""
    low, middle, high = (
        ounces(weight_of(WEIGHED.format(denim=denim, fleece=fleece, cotton=cotton)).total) / 16
        for denim, fleece, cotton in ((200, 260, 2), (300, 310, 4), (400, 360, 6))
    )
    assert low < 9.4 < high
    assert abs(middle - 9.4) < 0.94


def test_a_top_that_was_weighed_alone():
    """3.5 lb, 56 oz, for 88 x 88 appliqued, "about twice the cloth" (log): (f + 1/2)^2 / f^2 is 2 for patches of
    1.207 in. Quilting cotton is 4-5 oz/sq yd: 5.975 sq yd x 2 x 4 = 48 to x 5 = 60."""
    top = "[top]\nwidth = 88\nlength = 88\npatch = '1.207'\nweight = {}\n"
    low, high = (ounces(weight_of(top.format(by_area)).parts["top"], 0) for by_area in (4, 5))
    assert (low, high) == (48, 60)
    assert low < 56 < high


def test_a_metric_quilt():
    """152 x 203 cm is 3.0856 sq m; patches of 15 cm with 7.5 mm seams carry (16.5 / 15)^2 = 1.21: 3.0856 x (146 x
    1.21 + 146 + 136) = 1,415.2 g; the binding (2 x (152 + 203) + 25) x 6.5 cm = 0.47775 sq m x 146 = 69.8 g."""
    found = weight_of(CM_TOP).total
    assert found
    assert round(found.grams, 1) == Fraction("1485.0")
    assert "about 1,48 kg: top 545 g, backing 450 g, batting 420 g, binding 70 g" in flat(CM_TOP)


def flat(text: str) -> str:
    return " ".join(page(text, "studio").split())


# --- pieced tops ------------------------------------------------------------------------------------------------------

BLOCKS = "[top.blocks]\nacross = 10\ndown = 12\nsize = {}\n"


def test_plain_blocks_are_patches_of_their_size():
    """120 squares cut 6 1/2: the rule for f = 6 on 60 x 72 (derived)."""
    layer = weight_of(BLOCKS.format(6) + "plain = 'all'\n").layers[0]
    assert layer.area.to("sq in") == 120 * Fraction("6.5") ** 2 == 60 * 72 * Fraction("6.5") ** 2 / 36


def test_patches_that_are_named_count_as_they_are_cut():
    """A four-patch of 6 in: four squares cut 3 1/2, in each of 120 blocks."""
    patches = "[[top.blocks.patches]]\nnumber = 4\nwidth = '3 1/2'\n"
    assert weight_of(BLOCKS.format(6) + patches).layers[0].area.to("sq in") == 120 * 4 * Fraction("3.5") ** 2


def test_blocks_without_named_patches_go_by_the_usual_patch():
    """Blocks of 12 have patches of 6: 144 x (6.5 / 6)^2 = 169 each; blocks of 4 cannot: 16 x (4.5 / 4)^2 = 20.25."""
    for size, area in ((12, 169), (4, "20.25")):
        assert weight_of(BLOCKS.format(size)).layers[0].area.to("sq in") == 120 * Fraction(area)


def test_the_rest_of_a_block_goes_by_the_usual_patch():
    """One square of 6 1/2 is named in a block of 12: 144 - 36 = 108 sq in are left, x (6.5 / 6)^2 = 126.75."""
    patches = "[[top.blocks.patches]]\nnumber = 1\nwidth = '6 1/2'\n"
    rest, named = weight_of(BLOCKS.format(12) + patches).layers[:2]
    assert rest.area.to("sq in") == 120 * Fraction("126.75")
    assert named.area.to("sq in") == 120 * Fraction("42.25")


def test_each_cloth_of_a_top_weighs_its_own():
    """A centre of 40 x 40 with a denim border cut 6 1/2: 2 x 40 x 6.5 and 2 x (40 + 12) x 6.5 = 1,196 sq in."""
    denim = "fabric = { name = 'denim', width = 60, price = 9, per = 'yd', weight = 9 }\n"
    text = "[top.centre]\nwidth = 40\nlength = 40\n[[top.borders]]\ncut = '6 1/2'\n" + denim
    centre, border = weight_of(text).layers[:2]
    assert (border.material, border.area.to("sq in")) == ("denim", 1196)
    assert border.weight == Weight.of(Fraction(1196, 1296) * 9, "oz")
    assert centre.area.to("sq in") == 1600 * Fraction("6.5") ** 2 / 36


@pytest.mark.parametrize("corners", ["butted", "mitred"])
def test_mitred_strips_count_without_the_ends_that_are_trimmed(corners: str):
    text = f"[top.centre]\nwidth = 40\nlength = 40\n[[top.borders]]\ncut = '6 1/2'\ncorners = '{corners}'\n"
    assert weight_of(text).layers[1].area.to("sq in") == 1196


def test_a_weight_that_the_project_states_is_that_of_all_the_top():
    found = weight_of(BLOCKS.format(6) + "plain = 'all'\n[top]\nweight = 10\n")
    assert found.parts["top"] == Weight.of(Fraction(120 * Fraction("42.25"), 1296) * 10, "oz")


# --- what nobody knows ------------------------------------------------------------------------------------------------

FLEECE = "[backing]\nfabric = { name = 'fleece', width = 60, price = 9, per = 'yd' }\n"


def test_a_cloth_without_a_weight_leaves_the_quilt_without_one():
    found = weight_of("[top]\nwidth = 60\nlength = 80\n" + FLEECE)
    assert (found.total, found.not_known, found.parts["backing"]) == (None, ("fleece",), None)
    said = flat("[top]\nwidth = 60\nlength = 80\n" + FLEECE)
    assert "Weight not known, because no weight by area is given for fleece; top 18.7 oz, batting 14.8 oz" in said


def test_a_batting_without_a_weight_is_named():
    batting = "[batting.product]\nname = 'hemp'\nrolls = []\npackages = []\n"
    assert weight_of("[top]\nwidth = 60\nlength = 80\n" + batting).not_known == ("hemp",)


def test_what_is_not_in_the_quilt_weighs_nothing():
    bare = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
    assert list(weight_of("[top]\nwidth = 60\nlength = 80\n" + bare).parts) == ["top"]


def test_the_document_has_the_weight_in_ounces():
    document = json.loads(quote_document(with_top("width = 90\nlength = 100")))["weight"]
    assert (document["unit"], document["total"], document["not_known"]) == ("oz", 95.919, [])
    assert list(document["parts"]) == ["top", "backing", "batting", "binding"]


def test_the_customer_s_page_says_nothing_of_it():
    assert "Weight" not in page("[top]\nwidth = 90\nlength = 100\n")


# --- what holds for every quilt --------------------------------------------------------------------------------------


@given(width=st.integers(20, 110), length=st.integers(20, 110), more=st.integers(1, 8), longer=st.booleans())
@examples(40)
def test_a_bigger_quilt_is_never_lighter(width: int, length: int, more: int, longer: bool):
    sizes = (width, length), (width, length + more) if longer else (width + more, length)
    small, large = (with_top(f"width = {across}\nlength = {down}").plans.weight.total for across, down in sizes)
    assert small
    assert large
    assert small < large


@given(width=st.integers(20, 60), length=st.integers(20, 60), times=st.integers(2, 3))
@examples(30)
def test_the_layers_weigh_by_their_area(width: int, length: int, times: int):
    """Everything but the binding, which goes by the edge."""
    small, large = (with_top(f"width = {n * width}\nlength = {n * length}").plans.weight for n in (1, times))
    for name in ("top", "backing", "batting"):
        part = small.parts[name]
        assert part
        assert large.parts[name] == Weight(part.grams * times**2)


@given(across=st.integers(2, 8), down=st.integers(2, 8), setting=st.sampled_from(["straight", "on-point"]))
@examples(20)
def test_a_top_of_more_blocks_is_heavier(across: int, down: int, setting: str):
    text = "[top.blocks]\nacross = {}\ndown = {}\nsize = 9\nsetting = '{}'\n"
    less, more = (weight_of(text.format(across, rows, setting)).total for rows in (down, down + 1))
    assert less
    assert more
    assert less < more
