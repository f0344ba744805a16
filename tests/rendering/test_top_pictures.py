"""Pictures of tops with characters: nothing is lost, and what is not the whole or not to scale says so."""

import re

import pytest

from finishcalc.plans.pieced.layout import top_layout
from finishcalc.rendering.pages.cut import picture_files
from finishcalc.wording.notation import plain_blanks
from tests.builders import cut_text, quoted

SASHED = """[top.blocks]
across = {across}
down = {down}
size = {size}
[top.sashing]
width = {width}
outer = true
cornerstones = {cornerstones}
[[top.borders]]
cut = {cut}
corners = "{corners}"
"""
MEDALLION = """[top.centre]
width = "24 1/2"
length = "30 1/2"
[[top.borders]]
cut = 1
[[top.borders]]
cut = "3 1/2"
corners = "mitred"
[[top.borders]]
cut = 8
corners = "cornerstones"
"""
FRAMED = "[top.blocks]\nacross = 4\ndown = 4\ninner = 9\n[[top.borders]]\ncut = 5\ncorners = 'mitred'\n"
ON_POINT = """[top.blocks]
across = {}
down = {}
size = 9
setting = "on-point"
[top.sashing]
width = 2
outer = true
cornerstones = true
[[top.borders]]
cut = 5
"""


def drawn(text: str, columns: int) -> list[str]:
    """The picture of the top as lines, and what is said below it."""
    page = plain_blanks(cut_text(quoted(text), columns)).split("\n")
    title = next(n for n, line in enumerate(page) if line.startswith("The top:"))
    first = next(n for n, line in enumerate(page) if n > title and line.startswith("┌"))
    last = next(n for n, line in enumerate(page) if n > first and not line)
    return page[first:last]


def said(lines: list[str]) -> str:
    return " ".join(line for line in lines if line[0] not in "┌│├└")


@pytest.mark.parametrize("columns", [80, 40])
@pytest.mark.parametrize("cornerstones", ["true", "false"])
@pytest.mark.parametrize(
    ("across", "down", "size", "width", "cut"), [(4, 6, 8, "'1 1/2'", "'4 1/2'"), (6, 7, 12, 3, 8), (5, 5, 9, 1, 2)]
)
def test_no_block_is_lost(across: int, down: int, size: int, width: str, cut: str, cornerstones: str, columns: int):
    """A line through a row of blocks crosses both edges of each block, of the two outer strips of sashing, and of the
    two sides of the border: 2 x across + 4 lines. Rows of blocks lie between rows of sashing, so they are parted."""
    text = SASHED.format(
        across=across, down=down, size=size, width=width, cut=cut, corners="butted", cornerstones=cornerstones
    )
    lines = drawn(text, columns)
    through_blocks = [line.count("│") == 2 * across + 4 for line in lines]
    groups = sum(now and not before for now, before in zip(through_blocks, [False, *through_blocks], strict=False))
    assert groups == down
    assert all(len(line) <= columns for line in lines)


@pytest.mark.parametrize("columns", [80, 40])
def test_mitres_are_drawn_at_all_four_corners(columns: int):
    lines = drawn(MEDALLION, columns)
    mitres = [line for line in lines if "╲" in line or "╱" in line]
    upper, lower = mitres[: len(mitres) // 2], mitres[len(mitres) // 2 :]
    assert upper
    assert all(re.search("╲.*╱", line) for line in upper)
    assert all(re.search("╱.*╲", line) for line in lower)
    assert "not to scale: what is narrow is drawn wider" in said(lines)


def test_on_point_with_sashing_one_corner_is_drawn_where_the_whole_cannot_be_read():
    """9 in blocks with 2 in between, 2 across, in a border of 5: 2 x 11 x 1.414 + 9 1/2 = 40.6 in. A strip is 2.83 in
    across the page, and in 3 1/2 columns if the whole has 51; 4 across need 90."""
    small, large = ON_POINT.format(2, 2), ON_POINT.format(4, 4)
    assert "the upper left corner alone" not in said(drawn(small, 80))
    for text, columns in ((small, 40), (large, 80), (large, 40)):
        assert said(drawn(text, columns)) == "the upper left corner alone"


def test_a_top_to_scale_says_nothing():
    text = "[top.blocks]\nacross = 4\ndown = 4\nsize = 12\n[[top.borders]]\ncut = 6\n"
    assert said(drawn(text, 80)) == ""


def test_the_whole_size_of_a_top_is_measured_whatever_its_corners():
    """24 1/2 + 2 x 1/2 + 2 x 3 + 2 x 7 1/2 = 46 1/2 by 52 1/2."""
    result = quoted(MEDALLION)
    svg = plain_blanks(picture_files(result)["top.svg"])
    for text in (plain_blanks(cut_text(result)), svg):
        assert re.search(r"^ +46 1/2 in$|>46 1/2 in</text>", text, re.MULTILINE)
        assert re.search(r"  52 1/2 in$|>52 1/2 in</text>", text, re.MULTILINE)


def test_a_picture_labels_what_a_maker_measures():
    """The centre as it was given; a border as it is cut, 8 less two seams of 1/4 in finished."""
    result = quoted(MEDALLION)
    svg = plain_blanks(picture_files(result)["top.svg"])
    for text in (plain_blanks(cut_text(result)), svg):
        assert "24 1/2 x 30 1/2 in" in text
        assert "24 x 30 in" not in text
        assert "cut 8 in" in text
        assert "7 3/4 in" not in text
    assert "border 3: cut 8 in, 7 1/2 in finished" in svg


def test_a_framed_block_has_no_label_in_its_inner_square():
    result = quoted(FRAMED)
    assert top_layout(result.plans.pieced.top).slants  # type: ignore[union-attr]
    assert "block<" not in picture_files(result)["top.svg"]
    assert not any("block" in line for line in drawn(FRAMED, 80))
    assert "The top: 16 blocks of 12 in" in plain_blanks(cut_text(result))
