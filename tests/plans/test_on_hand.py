"""Cloth at hand: what it holds of the cut lengths, what is left to buy, and how the pages tell of it."""

import json

import pytest

from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.pipeline import Finishing, finish
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.on_hand import held_at_hand
from tests.builders import cut_text, inches, quote_text, yards

TOP = "[top.centre]\nwidth = 30\nlength = 30\n[[top.borders]]\ncut = 5\nstrips = 'crosswise'\n"
"""2 strips of 30 and 2 of 39 in, each from a strip 5 in wide across 40 in: 20 in."""


def worked_out(text: str) -> Finishing:
    return finish(resolve(Source("pieced", text)))


def red(have: str, key: str = "fabric") -> str:
    return f"{key} = {{ preset = 'cotton-44', name = 'red', have = {have} }}\n"


def bought(result: Finishing, name: str = "red") -> Purchase:
    (found,) = (each for each in result.plans.cloth if each.fabric.name == name)
    return found


def page(text: str) -> str:
    return " ".join(text.replace("\N{NO-BREAK SPACE}", " ").split())


@pytest.mark.parametrize(
    ("whole", "sizes", "at_hand", "left"),
    [
        (20, [5, 5, 5, 5], [20], ()),
        (20, [5, 5, 5, 5], [19], (3,)),
        (20, [5, 5, 5, 5], [9, 9], (2, 3)),
        (20, [5, 5, 5, 5], [10, 10], ()),
        (20, [5, 5, 5, 5], [4, 4, 4, 4, 4], (0, 1, 2, 3)),
        (22, [12, 6, 4], [12, 4], (1,)),
        (22, [4, 6, 12], [10, 12], ()),
        (20, [6, 6], [20], ()),
    ],
)
def test_the_longest_are_laid_first_each_into_the_first_length_that_holds_it(whole, sizes, at_hand, left):
    """Two lengths of 9 hold one strip of 5 each, not the three that 18 in would; a length of the whole holds all."""
    held = held_at_hand(inches(whole), [inches(each) for each in sizes], [inches(each) for each in at_hand])
    laid = {number for numbers in held for number in numbers}
    assert tuple(number for number in range(len(sizes)) if number not in laid) == left


def test_a_length_of_the_whole_with_its_squaring_is_enough():
    """20 in and 1 to square the end; of 20 1/2 in, 19 1/2 are left: three strips, and the fourth is bought, 6 in."""
    assert bought(worked_out(TOP + red('"21"'))).amount == yards(0)
    short = bought(worked_out(TOP + red('"20 1/2"')))
    assert short.on_hand
    assert (short.on_hand.hold, short.on_hand.short, short.amount) == (inches(15), inches(5), yards("1/4"))


def test_every_length_at_hand_is_squared_for_itself():
    """11 in hold 10, two strips; 10 1/2 hold one."""
    assert bought(worked_out(TOP + red('["11", "11"]'))).amount == yards(0)
    assert bought(worked_out(TOP + red('["11", "10 1/2"]'))).amount == yards("1/4")


def test_cloth_at_hand_shrinks_as_bought_cloth_does():
    """A tenth shrinks: (22 - 1) x 9/10 = 18.9, three strips; (24 - 1) x 9/10 = 20.7 hold all four."""
    enough, short = (bought(worked_out(TOP + red(f'"{have}", shrink_along = "10 %"'))) for have in (24, 22))
    assert enough.on_hand
    assert short.on_hand
    assert (enough.on_hand.short, short.on_hand.short) == (inches(0), inches(5))


def test_what_one_use_says_holds_for_all_of_the_cloth():
    """20 in of the border and 8 strips of 2 1/2 for the binding share 41 in at hand: 40 in and 1 to square."""
    binding = "[binding]\nfabric = { preset = 'cotton-44', name = 'red' }\n"
    together = bought(worked_out(TOP + red('"3 yd"') + binding))
    assert together.uses == ("border 1", "binding")
    assert together.amount == yards(0)


def test_cloth_that_the_customer_and_the_shop_supply_is_not_at_hand_twice():
    text = TOP + red('"21"') + "[top.piecing]\nsupplied_by = 'customer'\n"
    text += "[binding]\nfabric = { preset = 'cotton-44', name = 'red' }\n"
    both = [each for each in worked_out(text).plans.cloth if each.fabric.name == "red"]
    assert [each.on_hand is not None for each in both] == [True, False]
    assert both[1].amount > yards(0)


def test_a_fat_quarter_is_a_cloth_of_its_width_with_lengths():
    """Squares of 5 in from 18 x 22: 22 - 2 x 2 of selvage = 18 in, three a strip, three strips in 17 in; 12 squares are
    4 strips, 20 in: two quarters are enough and one is not: 5 in and 1 to square are bought."""
    text = "[top.blocks]\nacross = 3\ndown = 4\nsize = 12\n[[top.blocks.patches]]\nnumber = 1\nwidth = 5\n"
    quarter = "fabric = {{ preset = 'cotton-44', name = 'red', width = 22, have = {} }}\n"
    assert bought(worked_out(text + quarter.format("[18, 18]"))).amount == yards(0)
    assert bought(worked_out(text + quarter.format("18"))).amount == yards("1/4")


def test_the_pages_say_what_is_needed_and_whether_it_is_there():
    enough, short = (worked_out(TOP + red(have)) for have in ('"1 yd"', '"12 in"'))
    assert "no red, for border 1; 5/8 yd needed in all, for which the 1 yd at hand will do" in page(cut_text(enough))
    said = "3/8 yd of red, for border 1; 5/8 yd needed in all; the 12 in at hand will do for all but 10 in of it"
    assert said in page(cut_text(short))
    assert said in page(quote_text(short, "studio"))
    nothing = worked_out(TOP + red('"4 in"'))
    assert "5/8 yd needed in all; the 4 in at hand will not do for any of it" in page(cut_text(nothing))


def test_cloth_at_hand_is_not_charged():
    enough, short = (worked_out(TOP + red(have)) for have in ('"1 yd"', '"12 in"'))
    assert "Red" not in quote_text(enough, "customer")
    assert "Red, for border 1 3/8 yd" in page(quote_text(short, "customer"))
    purchases = json.loads(quote_document(short, "studio"))["buy"]
    (written,) = (each["on_hand"] for each in purchases if each["fabric"] == "red")
    assert written == {"lengths": [12], "needed": 0.625, "enough": False, "short": 10}
