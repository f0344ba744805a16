"""Cloth of whole tops against the arithmetic that a maker does on paper.

Quilting cotton is usable 40 in wide, sold by the eighth of a yard, 4 1/2 in, and squaring takes 1 in: 1/4 yd holds
8 in, 3/8 yd 12 1/2, 1 1/2 yd 53 and 1 3/4 yd 62. In centimetres it is 102 wide, sold by 10, and
squaring takes 3. Seams are 1/4 in or 0.75 cm, no part that is joined is shorter than 8 in or 20 cm, and joins are
diagonal.
"""

from fractions import Fraction

import pytest

from finishcalc.plans.cutting.purchases import Purchase
from tests.builders import PRESETS, quoted


def dyed(name: str) -> str:
    return f'{{ preset = "cotton-44", name = "{name}" }}'


def bought(text: str, name: str) -> Purchase:
    """The purchase of the cloth of this name."""
    return next(purchase for purchase in quoted(text).plans.cloth if purchase.fabric.name == name)


def yards_bought(text: str, name: str) -> Fraction:
    return bought(text, name).amount.to("yd")


def joins(purchase: Purchase, strips: int) -> int:
    """The joins in so many strips: one fewer in each than it has parts."""
    laid = [placed.piece for layout in purchase.layouts for placed in layout.placed]
    return len(laid) - strips


# --- thin borders round a large top ----------------------------------------------------------------------------------

QUEEN = f"""
[top.blocks]
across = 6
down = 7
size = 12
[[top.borders]]
cut = 1
fabric = {dyed("ink")}
[[top.borders]]
cut = 5
fabric = {dyed("damson")}
"""


def test_a_thin_border_round_a_bed_quilt_is_joined_from_strips_across():
    """72 1/2 x 84 1/2, cut 1: sides of 84 1/2 are 40 + 40 + 8, the ends of 73 1/2 are 40 + 34 1/2. With the joins it is
    2 x (86 1/2 + 74 1/2) = 322 in of strips, over 8 of 40: 9 strips, 9 in of 12 1/2. The joins are 2 + 2 + 1 + 1."""
    purchase = bought(QUEEN, "ink")
    assert purchase.amount.to("yd") == Fraction(3, 8)
    assert joins(purchase, strips=4) == 6


def test_a_wide_border_across_the_cloth_takes_ten_strips():
    """73 1/2 x 85 1/2, cut 5: sides of 85 1/2 are 40 + 40 + 15 1/2, ends of 82 1/2 are 40 + 40 + 12 1/2. 8 whole
    strips, 2 x 15 1/2 on one more and 2 x 12 1/2 on another: 10 x 5 = 50 in of 53. The joins are 4 x 2."""
    purchase = bought(QUEEN + 'strips = "crosswise"\n', "damson")
    assert purchase.amount.to("yd") == Fraction(3, 2)
    assert joins(purchase, strips=4) == 8


@pytest.mark.parametrize("length", ["79", "79 1/2"])
def test_half_an_inch_more_does_not_turn_a_thin_border(length: str):
    """Sides of 79 are 40 + 40 less 1 for the join; of 79 1/2, 40 + 40 + 8. Ends of 61 are 40 + 22. Whole strips 4 + 2,
    or 6 + 2 with what is left of each pair on two more, 22 + 8: 8 in of 8 either way. The next border, cut 1 1/2, has
    sides of 80 or 80 1/2, both 40 + 40 + 8, and ends of 63, 40 + 24 1/2: 8 strips too, 12 in of 12 1/2."""
    text = f'[top.centre]\nwidth = 60\nlength = "{length}"\n[[top.borders]]\ncut = 1\nfabric = {dyed("ink")}\n'
    text += f'[[top.borders]]\ncut = "1 1/2"\nfabric = {dyed("chalk")}\n'
    assert yards_bought(text, "ink") == Fraction(1, 4)
    assert yards_bought(text, "chalk") == Fraction(3, 8)


# --- squares beside wider ones ---------------------------------------------------------------------------------------


def test_cornerstones_of_the_sashing_lie_beside_those_of_the_border():
    """4 of 6 1/2 take 26 of 40; 14 x 6 1/2 beside them hold 5 columns of two 2 1/2: 10, of which 9 are needed.
    6 1/2 in of 8."""
    text = f"""
[top.blocks]
across = 4
down = 4
size = 12
[top.sashing]
width = 2
cornerstones = true
fabric = {dyed("slate")}
corner_fabric = {dyed("brick")}
[[top.borders]]
cut = "6 1/2"
corners = "cornerstones"
fabric = {dyed("slate")}
corner_fabric = {dyed("brick")}
"""
    assert yards_bought(text, "brick") == Fraction(1, 4)


ON_POINT = f"""
[top.blocks]
across = 3
down = 4
size = 9
setting = "on-point"
fabric = {dyed("oat")}
[top.sashing]
width = 2
outer = true
cornerstones = true
fabric = {dyed("pine")}
corner_fabric = {dyed("straw")}
[[top.borders]]
cut = "2 1/2"
fabric = {dyed("pine")}
[[top.borders]]
cut = 5
corners = "cornerstones"
fabric = {dyed("oat")}
corner_fabric = {dyed("straw")}
"""


def test_half_of_the_cornerstones_on_point_lie_beside_those_of_the_border():
    """4 of 5 take 20 of 40; 20 x 5 beside them hold 8 columns of two 2 1/2: 16 of the 4 x 4 + 3 x 5 = 31. The other 15
    lie on one strip, which holds 16: 5 + 2 1/2 = 7 1/2 in of 8."""
    assert yards_bought(ON_POINT, "straw") == Fraction(1, 4)


def test_squares_for_triangles_share_their_strips():
    """Three squares of 14, two to a strip: 28 in, and both of 7 1/4 beside them. The border is 51.17 x 66.73: sides of
    66 3/4 are 40 + 31 3/4, ends of 51 1/4 are 40 + 16 1/4. That is 4 + 3 strips of 5, and 63 in; but the two
    of 16 1/4 lie one behind the other beside the third square, with one of 7 1/4: 6 strips, and 58 in of 62."""
    assert yards_bought(ON_POINT + 'strips = "crosswise"\n', "oat") == Fraction(7, 4)


def test_all_corners_of_three_borders_lie_on_one_strip():
    """4 of 6 take 24; of 3, two columns of 2 take 6; of 2, two columns of 3 take 4: 34 of 40. 6 in of 8."""
    text = "[top.centre]\nwidth = 30\nlength = 40\n" + "".join(
        f'[[top.borders]]\ncut = {cut}\ncorners = "cornerstones"\ncorner_fabric = {dyed("brick")}\n'
        for cut in (6, 2, 3)
    )
    assert yards_bought(text, "brick") == Fraction(1, 4)


def test_corners_and_a_narrow_border_of_one_metric_cloth():
    """4 of 11.5 take 46 of 102; 56 x 11.5 beside them hold 10 columns of two 5.5: 20 of the 35 cornerstones, and a
    strip of 5.5 the other 15. The border, cut 2.5, has sides of 149.5, 102 + 50, and ends of 103.5, 102 + 20: 4 whole
    strips, 50 + 50 on one more and 20 + 20 on another. 11.5 + 5.5 + 6 x 2.5 = 32 cm of 37."""

    def yarn(name: str) -> str:
        return f'{{ preset = "cotton-110", name = "{name}" }}'

    text = f"""
units = "cm"
[top.blocks]
across = 4
down = 6
size = 20
[top.sashing]
width = 4
outer = true
cornerstones = true
fabric = {yarn("Schiefer")}
corner_fabric = {yarn("Ziegel")}
[[top.borders]]
cut = "2.5"
fabric = {yarn("Ziegel")}
[[top.borders]]
cut = "11.5"
corners = "cornerstones"
fabric = {yarn("Schiefer")}
corner_fabric = {yarn("Ziegel")}
"""
    assert bought(text, "Ziegel").amount.to("cm") == 40


# --- one cloth for everything ----------------------------------------------------------------------------------------


def test_border_backing_and_binding_of_one_linen():
    """Usable (150 - 2) x 97 % = 143.56. Mitred strips of 16: two of 150 + 2 x 16 + 5 = 187 and two of 127, 64 wide side
    by side. The backing is 119 + 20 by 179 + 20, one panel of 199. The binding needs 2 x (119 + 179) + 25 = 621: four
    strips of 187 beside the border's make 4 x 187 - 3 x 6 = 730. (187 + 199) / 96 % + 3 = 405.08, 4.1 m."""
    linen = 'fabric = { preset = "linen-150", name = "flax" }\n'
    text = 'units = "cm"\n[top.centre]\nwidth = 90\nlength = 150\n[[top.borders]]\ncut = 16\nstrips = "lengthwise"\n'
    text += f'corners = "mitred"\n{linen}[backing]\n{linen}[batting]\nproduct = "none"\n'
    (purchase,) = quoted(text + f'[binding]\n{linen}cut = "leftover"\nstrip_width = 6\n').plans.cloth
    assert purchase.amount.to("cm") == 410


# --- a binding across the cloth that borders lie along ---------------------------------------------------------------


def test_strips_across_the_cloth_leave_two_cuts_to_all_the_rest():
    """The on-point throw: 7 strips of 2 1/2 in, 17 1/2, are parted by the first cut. 2 1/2 yd are 90 in, 89 squared,
    and leave 71 1/2 in to border strips of 71 1/8: one band, with all the rest side by side in it. Strips of 71 1/8 and
    57 do not lie behind each other, nor squares of 15 1/2 and 8 in one column, which takes a fourth cut: 4 x 6 + 15 1/2
    + 8 = 47 1/2 in, over 40. 2 5/8 yd leave 4 7/8 in more, too little for the 8. So it takes 71 1/8 + 8 + 17 1/2 + 1
    = 97 5/8 in, 2 3/4 yd."""
    text = (PRESETS / "projects" / "on-point-throw.toml").read_text(encoding="utf-8")
    assert yards_bought(text, "night blue cotton") == Fraction(11, 4)
