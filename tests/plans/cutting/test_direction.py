"""Cloth with a direction on the cutting table: which way strips lie on it, and what that takes more."""

import re

import pytest

from tests.builders import cut_text, inches, quote_text, yards
from tests.plans.cutting.test_top_cloth import made, sizes, the_cloth

TOP = "[top.centre]\nwidth = 60\nlength = 70\n[[top.borders]]\ncut = 6\nprint = '{}'\n"
WILLOW = "fabric = {{ preset = 'cotton-44', name = 'willow', {} = {} }}\n"
UPRIGHT = TOP.format("up") + WILLOW.format("directional", "true")


def page(text: str) -> str:
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


def test_an_upright_print_puts_sides_along_the_cloth_and_top_and_bottom_across():
    """Sides of 70 in; top and bottom of 60 + 2 x 5 1/2 = 71 from 40, a diagonal join takes 6: 40 + 37."""
    assert sizes(the_cloth(UPRIGHT), "border 1") == {
        (inches(6), inches(70)): 2,
        (inches(40), inches(6)): 2,
        (inches(37), inches(6)): 2,
    }


def test_a_direction_is_said_to_take_what_it_takes_more():
    """70 along and 4 strips of 6 across are 94, and 1 to square: 2 3/4 yd. Four strips along, 71 and 1, are 2 yd."""
    cloth = the_cloth(UPRIGHT)
    assert (cloth.amount, cloth.for_direction) == (yards("2 3/4"), yards("3/4"))
    said = "willow: the print's direction takes 3/4 yd more"
    assert said in page(cut_text(made(UPRIGHT)))
    assert said in page(quote_text(made(UPRIGHT), "studio"))
    assert "direction takes" not in quote_text(made(UPRIGHT), "customer")
    assert "the pile's direction takes 3/4 yd more" in page(cut_text(made(UPRIGHT.replace("directional", "nap"))))


@pytest.mark.parametrize(("way", "directional"), [("along", "true"), ("up", "false")])
def test_a_direction_that_takes_no_more_is_not_said_to(way: str, directional: str):
    """Along the strips the print needs the 71 in that they take anyway."""
    text = TOP.format(way) + WILLOW.format("directional", directional)
    assert the_cloth(text).amount == yards(2)
    assert "direction takes" not in cut_text(made(text))


def test_cloth_at_hand_has_its_diagram_and_its_cuts():
    """11 in at hand hold 10, two of the four strips of 5; two more, 10 and 1 to square, are 3/8 yd."""
    top = "[top.centre]\nwidth = 30\nlength = 30\n[[top.borders]]\ncut = 5\nstrips = 'crosswise'\n"
    text = top + WILLOW.format("have", '"11"')
    cloth = the_cloth(text)
    assert [layout.length for layout in cloth.layouts] == [inches(10), inches(10)]
    assert [cloth.is_at_hand(number) for number in (0, 1)] == [True, False]
    assert "from length 1, 11 in at hand" in page(cut_text(made(text)))


def test_letters_tell_upright_strips_from_level_ones_of_the_same_size():
    """3 x 3 blocks with sashing all round: 12 strips stand upright and 12 lie level, each 2 1/2 x 9 1/2 in."""
    top = "[top.blocks]\nacross = 3\ndown = 3\nsize = 9\n[top.sashing]\nwidth = 2\nouter = true\ncornerstones = true\n"
    one_way = page(cut_text(made(top + WILLOW.format("directional", "true"))))
    assert "12 for sashing, 2 1/2 x 9 1/2 in, along the cloth" in one_way
    assert "12 for sashing, 2 1/2 x 9 1/2 in, across the cloth" in one_way
    assert re.search(r"[A-Z] \(sashing, 2 1/2 x 9 1/2 in, across the cloth\)", one_way)
    assert "24 for sashing, 2 1/2 x 9 1/2 in " in page(cut_text(made(top + WILLOW.format("directional", "false"))))
