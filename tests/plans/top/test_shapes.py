"""Tops as they are: round, oval, rounded, scalloped, measured by tape. Outlines are bounded from outside."""

import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.bounds import (
    ROOT_2_UP,
    down,
    ellipse_up,
    root_down,
)
from finishcalc.measures.length import Length
from finishcalc.pipeline import Finishing
from finishcalc.plans.top.outline import Shape, circle, oval, rectangle, rounded, scalloped
from finishcalc.rendering.pages.cut import picture_files
from finishcalc.wording.notation import plain_blanks
from tests.builders import Amount, cut_text, in_shop, inches, line, quote_text, quoted, with_top
from tests.strategies import examples

SIDES = st.integers(8, 8 * 240).map(lambda eighths: inches(Fraction(eighths, 8)))
HUNDREDTH = inches(Fraction(1, 100))


def near(length: Length, amount: str) -> bool:
    """Within a hundredth of an inch above the figure, which is itself rounded to thousandths."""
    return -Fraction(1, 1000) <= length.to("in") - inches(amount).to("in") <= Fraction(1, 100)


# --- trade rows --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("diameter", "edge"), [(80, "251.327"), (90, "282.743"), (120, "376.991")])
def test_round_covers(diameter: Amount, edge: str):
    """A round 60 with a drop of 10, 15 and 30: pi x d is 251.33, 282.74 and 376.99 (derived)."""
    assert near(circle(inches(diameter)).perimeter, edge)


def test_an_oval_cloth():
    """42x72 with a drop of 10 is an oval of 62 x 92; its edge is 244.203 (complete elliptic integral; derived)."""
    assert near(oval(inches(62), inches(92)).perimeter, "244.203")


@pytest.mark.parametrize(("size", "edge"), [((62, 92), 308), ((60, 84), 288)])
def test_rectangular_cloths(size: tuple[int, int], edge: int):
    """42x72 at a drop of 10, 36x60 at 12 (derived)."""
    assert rectangle(inches(size[0]), inches(size[1])).perimeter == inches(edge)


def test_rounded_corners():
    """60 x 84 with corners of 6: 2 x 144 - 48 + 12 pi = 277.699; area 5040 - 144 + 36 pi = 5009.097 (derived)."""
    shape = rounded(inches(60), inches(84), inches(6))
    assert near(shape.perimeter, "277.699")
    assert abs(shape.area.to("sq in") - Fraction("5009.0973")) < Fraction(1, 100)


def test_scallops():
    """A chord of 6, 1 deep: radius (9 + 1) / 2 = 5, angle 2 x asin(3/5) = 1.287002, arc 6.435011. On 38 x 62, inside
    36 x 60 holds 6 + 10 arcs twice: 32 x 6.435011 = 205.920 (derived)."""
    assert near(scalloped(inches(38), inches(62), inches(6), inches(1)).perimeter, "205.920")


@pytest.mark.parametrize(
    ("size", "chord", "depth", "area"),
    [
        # Inside 36 x 60 = 2,160; radius 5, half angle asin(3/5) = 0.6435011, segment 25 x that - 3 x 4 = 4.0875277;
        # 2 x (6 + 10) of them are 130.801.
        ((38, 62), 6, 1, "2290.801"),
        # Half circles of radius 2 on 40 x 60 = 2,400: 2 x (10 + 15) x 2 pi = 314.159.
        ((44, 64), 4, 2, "2714.159"),
        # Inside 92 x 102 = 9,384; 18 segments over 92 / 9 = 10.2222, each 14.03833, and 20 over 10.2, each 14.00955.
        ((96, 106), 10, 2, "9916.881"),
    ],
)
def test_a_scalloped_top_has_the_area_within_its_arcs(size: tuple[int, int], chord: int, depth: int, area: str):
    width, length = (inches(side) for side in size)
    found = scalloped(width, length, inches(chord), inches(depth)).area.to("sq in")
    assert 0 <= found - Fraction(area) + Fraction(1, 1000) <= Fraction(1, 100)


@pytest.mark.parametrize(("shaped", "billed"), [("bounding", 10176), ("area", 9917)])
def test_a_scalloped_top_is_billed_as_the_shop_says(shaped: str, billed: int, tmp_path: Path):
    """By its rectangle, 96 x 106, or by its own area."""
    top = "[top]\nwidth = 96\nlength = 106\nscallop = { chord = 10, depth = 2 }\n"
    result = in_shop(tmp_path, f"[rates]\nshaped = '{shaped}'\n", top)
    assert line(result, "Quilting")[0] == billed
    said = next(said for said in result.plans.top.working if said.text.startswith("Area:"))
    assert (said.values["count"], said.values["across"], said.values["down"]) == (38, 9, 10)


# --- properties --------------------------------------------------------------------------------------------------


@examples(150)
@given(SIDES)
def test_an_oval_with_equal_axes_is_a_circle_to_the_last_digit(side: Length):
    assert oval(side, side)._replace(name="round") == circle(side)


@examples(150)
@given(SIDES, SIDES)
def test_an_oval_lies_between_its_rectangle_and_its_rhomb(width: Length, length: Length):
    """The rhomb on the axes has an edge of 2 x root(w^2 + l^2)."""
    shape = oval(width, length)
    rhomb = 2 * root_down(width.mm**2 + length.mm**2)
    assert rhomb <= shape.perimeter.mm <= rectangle(width, length).perimeter.mm
    assert shape.area < rectangle(width, length).area


@examples(100)
@given(SIDES, SIDES, st.integers(0, 100), st.integers(0, 100))
def test_more_radius_never_needs_more_binding(width: Length, length: Length, one: int, other: int):
    half = min(width, length) / 2
    small, large = (half * Fraction(part, 100) for part in sorted((one, other)))
    assert rounded(width, length, large).perimeter <= rounded(width, length, small).perimeter + HUNDREDTH
    assert rounded(width, length, large).perimeter <= rectangle(width, length).perimeter + HUNDREDTH


@examples(25)
@given(st.integers(20, 110))
def test_a_round_top_lies_between_its_two_squares_in_every_material(diameter: int):
    """The square inside it is d / root 2 a side, the one outside d."""
    inner = str(down(Fraction(diameter) / ROOT_2_UP).limit_denominator(1000) - Fraction(1, 100)).strip()
    sizes = (
        f"width = '{inner}'\nlength = '{inner}'",
        f"diameter = {diameter}",
        f"width = {diameter}\nlength = {diameter}",
    )
    edge = "[binding]\ncut = 'bias'\n"
    inside, middle, outside = (with_top(size, edge).plans for size in sizes)
    for small, large in ((inside, middle), (middle, outside)):
        assert small.backing.chosen.cloth_cost <= large.backing.chosen.cloth_cost
        assert (small.batting.width, small.batting.length) <= (large.batting.width, large.batting.length)
        assert small.binding.needed_length <= large.binding.needed_length
        assert small.binding.amount <= large.binding.amount
        assert small.quilting.stitched_length <= large.quilting.stitched_length


# --- in a quote --------------------------------------------------------------------------------------------------


def test_backing_and_batting_cover_the_bounding_rectangle_and_it_is_billed():
    plans = with_top("diameter = '79 1/2'").plans
    assert (plans.backing.width, plans.batting.length) == (inches("87 1/2"), inches("87 1/2"))
    assert plans.top.billed.area == inches(80) * inches(80)


def test_a_rectangle_is_billed_up_to_whole_inches_all_the_same(tmp_path):
    """60 1/2 x 84 is billed as 61 x 84 = 5,124 sq in (derived)."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[rates]\nshaped = 'area'\n")
    result = quoted("[top]\nwidth = '60 1/2'\nlength = 84\n", shop)
    assert result.quote.lines[0].quantity == 5124


def test_a_shop_may_bill_a_shaped_top_by_its_area(tmp_path):
    """80 across: 1600 pi = 5026.5 sq in instead of 6400 (derived)."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[rates]\nshaped = 'area'\n")
    for path, quantity in ((None, 6400), (str(shop), 5027)):
        result = quoted("[top]\ndiameter = 80\n", path)
        assert result.quote.lines[0].quantity == quantity
    square = quoted("[top]\nwidth = 60\nlength = 80\n", shop)
    assert square.quote.lines[0].quantity == 4800


MEASURED = "measured = {{ widths = {w}, lengths = {l}, diagonals = {d} }}"


def taped(widths: str, lengths: str, diagonals: str = "[]") -> Finishing:
    text = MEASURED.format(w=widths, l=lengths, d=diagonals).replace(", diagonals = []", "")
    return with_top(text)


def test_the_largest_measure_counts():
    """Studios bill the largest width x the largest length, each up to the whole inch (common practice)."""
    top = taped("[60, '60 1/4', '60 3/8']", "['81 1/2', 81]").plans.top
    assert (top.shape.width, top.shape.length) == (inches("60 3/8"), inches("81 1/2"))
    assert (top.billed.width, top.billed.length) == (inches(61), inches(82))
    assert top.shape.perimeter == inches("283 3/4")


def test_a_shop_may_bill_the_mean(tmp_path):
    """The mean of 60, 61 and 62 is 61, of 80 and 81 is 80 1/2, up to 81 (derived)."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[measuring]\nbill = 'mean'\n")
    text = "[top]\nmeasured = { widths = [60, 61, 62], lengths = [80, 81] }\n"
    top = quoted(text, shop).plans.top
    assert (top.billed.width, top.billed.length) == (inches(61), inches(81))
    assert (top.shape.width, top.shape.length) == (inches(62), inches(81))


@pytest.mark.parametrize(
    ("widths", "lengths", "diagonals", "codes"),
    [
        ("[50, '50 1/2']", "[60]", "[]", set()),  # 1/2 is allowed up to 60 (common practice)
        ("[50, '50 5/8']", "[60]", "[]", {"borders-wave"}),
        ("[60, '60 1/2']", "[80, 81]", "[]", set()),  # 1 above 60
        ("[60]", "[80, '81 1/8']", "[]", {"borders-wave"}),
        ("[84]", "[92]", "['124 1/2', '125 1/2']", set()),  # 1 is allowed
        ("[84]", "[92]", "[124, '125 1/8']", {"skewed"}),
    ],
)
def test_a_top_that_is_not_true_is_told(widths: str, lengths: str, diagonals: str, codes: set[str]):
    told = taped(widths, lengths, diagonals).cautions
    assert {each.code for each in told} & {"borders-wave", "skewed"} == codes


def test_the_square_diagonal_is_named():
    """84 x 92 square has 124.58 (derived)."""
    (told,) = (each for each in taped("[84]", "[92]", "[122, 126]").cautions if each.code == "skewed")
    square = told.sentence.values["square"]
    assert isinstance(square, Length)
    assert round(square.to("in"), 2) == Fraction("124.58")


def test_working_names_each_measure():
    told = [said.text for said in taped("[60, 61]", "[80]").plans.top.working]
    assert any("largest of" in text for text in told)


@pytest.mark.parametrize(
    ("top", "curved"),
    [
        ("width = 60\nlength = 80", False),
        ("diameter = 60", True),
        ("shape = 'oval'\nwidth = 60\nlength = 80", True),
        ("width = 60\nlength = 80\ncorner_radius = 5", True),
        ("width = 60\nlength = 80\nscallop = { chord = 6, depth = 1 }", True),
    ],
)
def test_a_curved_edge_takes_bias_and_a_straight_one_does_not(top: str, curved: bool):
    plan = with_top(top).plans.binding
    assert plan.cut == ("bias" if curved else "crosswise")
    assert any("curved edge" in said.text for said in plan.working) == curved


def test_the_largest_and_the_smallest_oval_are_found_quickly_and_right():
    """A flat oval 1 x 240: its edge is a little over 2 x 240, and less than the rectangle's 482."""
    assert 480 < ellipse_up(Fraction(1), Fraction(240)) < 482


def test_a_shape_is_worth_what_it_says() -> None:
    shape: Shape = circle(inches(80))
    assert (shape.width, shape.length, shape.curved) == (inches(80), inches(80), True)


# --- scallops on paper ---------------------------------------------------------------------------------------

QUEEN_SCALLOPS = "[top]\nwidth = 96\nlength = 106\nscallop = { chord = 10, depth = 2 }\n"
"""Between points 2 in inside: 92 / 10 = 9.2, so 9 of 92 / 9 = 10.22; 102 / 10 = 10.2, so 10 of 10.2 (a hand check)."""


def test_scallops_are_counted_with_their_true_chord_wherever_they_are_marked():
    result = quoted(QUEEN_SCALLOPS)
    pages = quote_text(result, "studio", explain=True), cut_text(result)
    for each in (" ".join(plain_blanks(text).split()) for text in pages):
        assert "9 scallops across, each 10.22 in of the 92 in between the corners, and 10 scallops down, each" in each
        assert "each 10.2 in of the 102 in between the corners, 2 in deep" in each
        assert "at a corner two scallops meet in a point 2 in from both sides" in each
        assert "one larger lobe round the corner" in each
    working = " ".join(plain_blanks(pages[0]).split())
    assert "Scallops across: 92 in between the corners / 9 = 10.22 in each" in working
    assert "scallop" not in quote_text(quoted("[top]\nwidth = 96\nlength = 106\n"), "studio")


@pytest.mark.parametrize("top", [QUEEN_SCALLOPS, f"{QUEEN_SCALLOPS}[backing]\nfabric = 'none'\n"])
def test_the_scallops_are_drawn_to_scale(top: str):
    """2 x (9 + 10) arcs from the inner corner round and back. 106 in are 1,000 units, and the radius of an arc is
    10.222^2 / (8 x 2) + 2 / 2 = 7.531 in = 71.05 units, or 10.2^2 / 16 + 1 = 7.5025 in = 70.78."""
    drawn = picture_files(quoted(top))
    path = re.search(r'<path class="trimmed"[^>]*? d="([^"]*)"', drawn["top.svg"])
    assert path
    start, *arcs = re.split(" ?A", path[1])
    assert start == "M18.87 18.87"  # 2 in
    assert len(arcs) == 38
    assert [arc.split()[0] for arc in arcs] == ["71.05"] * 9 + ["70.78"] * 10 + ["71.05"] * 9 + ["70.78"] * 10
    assert arcs[-1].endswith(" 0 0 1 18.87 18.87")
    assert arcs[8].endswith(" 886.79 18.87")  # 94 in across, 2 in down
    assert ("backing.svg" in drawn) == ("none" not in top)


def test_a_terminal_says_that_scallops_are_not_drawn():
    assert "The scallops of the edge are not drawn here" in plain_blanks(cut_text(quoted(QUEEN_SCALLOPS), 300))
