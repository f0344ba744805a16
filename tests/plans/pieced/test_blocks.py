"""The cloth of blocks: plain ones by their setting, and the patches of pieced ones, by hand arithmetic."""

import json
import re

import pytest

from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.pipeline import Finishing, finish
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.pieced.layout import top_layout
from finishcalc.plans.pieced.plan import PiecedPlan
from tests.builders import cut_text, inches, quote_text, yards

CREAM = "plain_fabric = { preset = 'cotton-44', name = 'cream' }\n"


def worked_out(text: str) -> Finishing:
    return finish(resolve(Source("pieced", text)))


def pieced(result: Finishing) -> PiecedPlan:
    assert result.plans.pieced
    return result.plans.pieced


def blocks(across: int, down: int, more: str) -> str:
    return f"[top.blocks]\nacross = {across}\ndown = {down}\nsize = 12\n{more}"


def bought(result: Finishing, name: str) -> Purchase:
    (found,) = (each for each in result.plans.cloth if each.fabric.name == name)
    return found


# --- plain blocks -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("across", "down", "plain"), [(4, 4, 8), (4, 5, 10), (3, 5, 7), (5, 5, 12), (1, 1, 0), (2, 1, 1)]
)
def test_alternate_blocks_are_half_and_the_pieced_ones_one_more_of_an_odd_number(across, down, plain):
    """A board of 3 x 5 = 15 that begins with a pieced block has 8 pieced and 7 plain."""
    found = pieced(worked_out(blocks(across, down, 'plain = "alternate"\n')))
    assert found.top.blocks
    assert found.top.blocks.plain_number == plain
    assert found.top.blocks.pieced_number == across * down - plain
    assert (found.pieces.plain.number if found.pieces.plain else 0) == plain
    assert [each.name for each in top_layout(found.top).pieces].count("plain") == plain


def test_setting_blocks_lie_between_the_pieced_ones_on_point():
    """4 x 5 on point: 20 pieced, and 3 x 4 = 12 between every four, cut 12 + 2 x 1/4."""
    found = pieced(worked_out(blocks(4, 5, 'setting = "on-point"\nplain = "setting"\n')))
    assert found.pieces.plain
    assert found.pieces.plain[:3] == (inches("12 1/2"), inches("12 1/2"), 12)
    assert found.top.blocks
    assert found.top.blocks.pieced_number == 20


def test_plain_blocks_are_bought_of_their_own_cloth():
    """10 of 12 1/2 in, three from each strip across 40 in: 4 strips x 12 1/2 = 50 in and 1 to square: 1 1/2 yd."""
    result = worked_out(blocks(4, 5, 'plain = "alternate"\n' + CREAM))
    cream = bought(result, "cream")
    assert (cream.uses, cream.cut_length, cream.amount) == (("plain blocks",), inches(50), yards("1 1/2"))


def test_setting_blocks_share_the_cloth_of_the_setting_triangles_unless_they_name_their_own():
    text = 'setting = "on-point"\nplain = "setting"\nfabric = { preset = "cotton-44", name = "night" }\n'
    assert bought(worked_out(blocks(3, 3, text)), "night").uses == ("setting blocks", "triangles")
    own = worked_out(blocks(3, 3, text + CREAM))
    assert (bought(own, "cream").uses, bought(own, "night").uses) == (("setting blocks",), ("triangles",))


def test_only_pieced_blocks_are_framed():
    """Of 3 x 3 by turns 5 are framed: 5 x 2 squares for 5 x 4 triangles, and 5 x 4 slants in the picture."""
    found = pieced(worked_out('[top.blocks]\nacross = 3\ndown = 3\ninner = 9\nplain = "alternate"\n'))
    (triangles,) = found.pieces.triangles
    assert (triangles.squares, triangles.number) == (10, 20)
    assert len(top_layout(found.top).slants) == 20


def test_a_top_of_plain_blocks_alone_has_nothing_pieced():
    found = pieced(worked_out(blocks(3, 4, 'plain = "all"\n')))
    assert found.pieces.plain
    assert found.pieces.plain.number == 12
    assert {each.name for each in top_layout(found.top).pieces} == {"plain"}


def test_the_pages_say_which_blocks_are_plain():
    page = cut_text(worked_out(blocks(4, 5, 'plain = "alternate"\n' + CREAM)))
    assert "of cream, for plain blocks" in page
    assert "lay pieced and plain blocks by turns" in page
    document = json.loads(quote_document(worked_out(blocks(4, 5, 'plain = "alternate"\n')), "studio"))
    assert document["top"]["pieced"]["blocks"]["count"] == 20
    assert document["top"]["pieced"]["blocks"]["plain"] == 10


def test_plain_blocks_wider_than_their_cloth_are_cautioned_of_without_a_word_of_triangles():
    result = worked_out('[top.blocks]\nacross = 2\ndown = 2\nsize = 42\nplain = "all"\n')
    (found,) = (each for each in pieced(result).cautions if each.code == "squares-too-wide")
    assert "triangle" not in found.sentence.text


# --- patches ------------------------------------------------------------------------------------------------------


def patch(lines: str, name: str = "red") -> str:
    return f"[[top.blocks.patches]]\n{lines}\nfabric = {{ preset = 'cotton-44', name = '{name}' }}\n"


FOURS = 'number = 4\nwidth = "6 1/2"'
"""Four squares of 6 in finished fill a block of 12 in."""


def test_patches_of_all_pieced_blocks_are_cut_from_their_cloth():
    """3 x 4 by turns is 6 pieced blocks x 4 = 24 squares of 6 1/2 in, six from a strip: 4 x 6 1/2 = 26 in."""
    result = worked_out(blocks(3, 4, 'plain = "alternate"\n' + patch(FOURS)))
    (patches,) = pieced(result).pieces.patches
    assert (patches.number, patches.pieces.number) == (24, 24)
    assert (bought(result, "red").uses, bought(result, "red").cut_length) == (("blocks",), inches(26))


@pytest.mark.parametrize(("triangles", "squares"), [("once", 23), ("twice", 12)])
def test_triangles_come_two_or_four_from_a_square_of_all_blocks_together(triangles, squares):
    """15 blocks of 3 triangles are 45: 22 squares cut once make 44, and 11 cut twice 44 too."""
    text = f'number = 3\nwidth = "3 7/8"\ntriangles = "{triangles}"'
    (patches,) = pieced(worked_out(blocks(3, 5, patch(text)))).pieces.patches
    assert (patches.number, patches.pieces.number) == (45, squares)


def test_a_patch_is_cut_the_same_whichever_side_is_called_its_width():
    either = [patch('number = 2\nwidth = 3\nlength = "6 1/2"'), patch('number = 2\nwidth = "6 1/2"\nlength = 3')]
    lengths = [bought(worked_out(blocks(4, 5, text)), "red").cut_length for text in either]
    assert lengths[0] == lengths[1]


def test_patches_without_a_cloth_are_of_the_blocks_own():
    text = "fabric = { preset = 'cotton-44', name = 'night' }\n[[top.blocks.patches]]\nnumber = 1\nwidth = 4\n"
    assert bought(worked_out(blocks(3, 4, text)), "night").uses == ("blocks",)


def test_patches_at_hand_are_not_bought():
    text = '[[top.blocks.patches]]\nnumber = 1\nwidth = 4\nfabric = "none"\n'
    assert not pieced(worked_out(blocks(3, 4, text))).cuts


def over(result: Finishing) -> list[str]:
    return [each.code for each in result.cautions if each.code == "patches-over-block"]


EXACT = {
    "squares": FOURS,
    "half-square triangles": 'number = 32\nwidth = "3 7/8"\ntriangles = "once"',
    "quarter-square triangles": 'number = 16\nwidth = "7 1/4"\ntriangles = "twice"',
    "rectangles": 'number = 8\nwidth = "3 1/2"\nlength = "6 1/2"',
}
"""12 x 12 in = 144 sq in: 4 x 6 x 6; 32 x 3 x 3 / 2; 16 x 6 x 6 / 4; 8 x 3 x 6."""


@pytest.mark.parametrize("text", EXACT.values(), ids=EXACT)
def test_patches_that_fill_a_block_are_right_and_one_more_is_too_many(text):
    """One more is between 3 % (a triangle of 4 1/2 sq in) and a quarter of the block."""
    number = int(text.split()[2])
    assert not over(worked_out(blocks(3, 4, patch(text))))
    assert over(worked_out(blocks(3, 4, patch(text.replace(str(number), str(number + 1), 1)))))


def test_the_patches_of_a_framed_block_fill_its_inner_square():
    """A square cut 9 in is 8 1/2 finished: one patch of 9 in fills it, and a second is too many."""
    text = "[top.blocks]\nacross = 2\ndown = 2\ninner = 9\n"
    assert not over(worked_out(text + patch("number = 1\nwidth = 9")))
    assert over(worked_out(text + patch("number = 2\nwidth = 9")))


def test_the_pages_say_the_patches_and_the_squares_of_triangles():
    """12 blocks x 8 triangles = 96 from 48 squares."""
    text = blocks(3, 4, patch('number = 8\nwidth = "3 7/8"\ntriangles = "once"'))
    page = " ".join(cut_text(worked_out(text)).replace("\N{NO-BREAK SPACE}", " ").split())
    assert "96 triangles, 8 in a block, from 48 squares of 3 7/8 in, cut once corner to corner, of red" in page
    (written,) = json.loads(quote_document(worked_out(text), "studio"))["top"]["pieced"]["blocks"]["patches"]
    assert (written["count"], written["pieces"], written["cuts"], written["fabric"]) == (96, 48, 1, "red")


def test_metric_patches_keep_metric_seams():
    """Squares cut 11.5 cm with seams of 0.75 are 10 finished: nine fill a block of 30."""
    text = (
        'units = "cm"\n[top.blocks]\nacross = 2\ndown = 2\nsize = 30\n[[top.blocks.patches]]\nwidth = "11.5"\nnumber = '
    )
    assert not over(worked_out(text + "9\n"))
    assert over(worked_out(text + "10\n"))


# --- cloth that is not on the list --------------------------------------------------------------------------------


def told(result: Finishing) -> list[str]:
    """The line on the cut list, and on the quotes for the customer and the studio, where each has it."""
    pages = [cut_text(result), quote_text(result, "customer"), quote_text(result, "studio")]
    texts = (" ".join(page.replace("\N{NO-BREAK SPACE}", " ").split()) for page in pages)
    return [found[0] for page in texts if (found := re.findall(r"[^,.;]{0,70} is not included", page))]


def listed(result: Finishing) -> str:
    return str(json.loads(quote_document(result, "studio"))["top"]["pieced"]["blocks"]["cloth_listed"])


def test_every_page_says_that_the_cloth_of_pieced_blocks_is_not_on_the_list():
    result = worked_out(blocks(3, 4, 'plain = "alternate"\n'))
    assert len(told(result)) == 3
    assert all(line.endswith("cloth for the 6 pieced blocks is not included") for line in told(result))
    assert listed(result) == "none"


def test_patches_that_make_a_part_of_a_block_say_how_much_is_missing():
    """3 x (6 1/2 - 1/2)^2 = 108 of 12 x 12 = 144 sq in."""
    result = worked_out(blocks(3, 4, patch(FOURS.replace("4", "3", 1))))
    assert len(told(result)) == 3
    page = " ".join(cut_text(result).replace("\N{NO-BREAK SPACE}", " ").split())
    said = "the patches named make 108 sq in of the 144 sq in of a block: cloth for the rest is not included"
    assert said in page
    assert listed(result) == "part"


@pytest.mark.parametrize("text", [patch(FOURS), 'plain = "all"\n'], ids=["filled", "plain"])
def test_nothing_is_said_where_all_the_cloth_is_listed(text):
    result = worked_out(blocks(3, 4, text))
    assert not told(result)
    assert listed(result) == "all"


def test_of_framed_blocks_the_inner_squares_are_missing():
    result = worked_out("[top.blocks]\nacross = 2\ndown = 2\ninner = 9\n")
    assert all(line.endswith("inner squares of the 4 blocks is not included") for line in told(result))


def test_a_top_round_a_centre_has_no_blocks_to_speak_of():
    text = "[top.centre]\nwidth = 60\nlength = 70\n[[top.borders]]\ncut = 6\n"
    assert not told(worked_out(text))
