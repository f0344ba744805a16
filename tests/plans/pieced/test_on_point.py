"""Sashing of blocks on point, all round or not, with cornerstones or without, by hand.

Diagonal rows of 2 x 2 blocks hold 1, 3 and 1 blocks, those of 3 x 2 hold 1, 3, 3 and 1. Root 2 is 1.414214.
"""

import pytest

from finishcalc.measures.length import Length
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.rendering.pages.pieced import top_sewing
from finishcalc.wording.notation import Notation, plain_blanks
from tests.builders import inches, quoted

ALL_ROUND, BETWEEN = True, False
STONES, PLAIN = True, False


def plan(across: int, down: int, outer: bool, cornerstones: bool) -> PiecedPlan:
    found = quoted(
        f"[top.blocks]\nacross = {across}\ndown = {down}\nsize = 12\nsetting = 'on-point'\n"
        f"[top.sashing]\nwidth = 3\nouter = {str(outer).lower()}\ncornerstones = {str(cornerstones).lower()}\n"
    ).plans.pieced
    assert found
    return found


def cut(found: PiecedPlan) -> dict[str, int]:
    """The strips by their length, and the cornerstones, each with their number."""
    strips = {near(each.length): each.number for each in found.pieces.sashing}
    assert len(strips) == len(found.pieces.sashing)
    stones = found.pieces.cornerstones
    return strips | ({"cornerstones": stones.number} if stones else {})


def near(length: Length) -> str:
    return f"{float(length.to('in')):.3f}"


# With sashing all round, a strip past n blocks is n x 15 + 3 + 1/2 + 1/2 x root 2 = n x 15 + 4.207 long; else
# n x 12 + (n - 1) x 3 + 1/2, and past 1 block that is 12.5, as short as a strip within a row.
STRIPS = [
    # 5 blocks with 4 sides each, 4 of them shared: 16; a cornerstone at each of their 4 + 4 + 4 points
    ((2, 2, ALL_ROUND, STONES), {"12.500": 16, "cornerstones": 12}),
    # within the rows 2 + 4 + 2; before, between and after them past 1, 3, 3 and 1 blocks
    ((2, 2, ALL_ROUND, PLAIN), {"12.500": 8, "19.207": 2, "49.207": 2}),
    # the block in the middle has 4 neighbours; no four strips meet
    ((2, 2, BETWEEN, STONES), {"12.500": 4}),
    ((2, 2, BETWEEN, PLAIN), {"12.500": 4}),
    ((3, 2, ALL_ROUND, STONES), {"12.500": 24, "cornerstones": 17}),
    # within the rows 2 + 4 + 4 + 2; past 1, 3, 4, 3 and 1 blocks
    ((3, 2, ALL_ROUND, PLAIN), {"12.500": 12, "19.207": 2, "49.207": 2, "64.207": 1}),
    # two blocks in the middle with 4 neighbours each; one point where four strips meet, between those two
    ((3, 2, BETWEEN, STONES), {"12.500": 8, "cornerstones": 1}),
    # within the rows 0 + 2 + 2 + 0; between them past 1, 2 and 1 blocks: 2 x 12 + 3 + 1/2 = 27 1/2
    ((3, 2, BETWEEN, PLAIN), {"12.500": 6, "27.500": 1}),
]


@pytest.mark.parametrize(("design", "pieces"), STRIPS)
def test_strips_and_cornerstones_by_hand(design: tuple[int, int, bool, bool], pieces: dict[str, int]):
    assert cut(plan(*design)) == pieces


@pytest.mark.parametrize("cornerstones", [STONES, PLAIN])
@pytest.mark.parametrize(
    ("outer", "width", "length", "side"),
    [
        # (3 x 15) root 2 + 1/2 = 64.140 by (2 x 15) root 2 + 1/2 = 42.926; 12 root 2 + 1 1/4 = 18.22
        (ALL_ROUND, "64.140", "42.926", "18 1/4"),
        # (3 x 12 + 2 x 3) root 2 + 1/2 = 59.897 by (2 x 12 + 3) root 2 + 1/2 = 38.684; 15 root 2 + 1 1/4 = 22.46
        (BETWEEN, "59.897", "38.684", "22 1/2"),
    ],
)
def test_the_centre_and_the_squares_for_its_triangles(
    outer: bool, cornerstones: bool, width: str, length: str, side: str
):
    found = plan(3, 2, outer, cornerstones)
    assert tuple(map(near, found.centre)) == (width, length)
    squares = {each.use: (each.square, each.squares, each.number) for each in found.pieces.triangles}
    # 2 x 2 + 2 x 1 side triangles, four from a square; corner triangles 12 / root 2 + 7/8 = 9.36
    assert squares == {"side": (inches(side), 2, 6), "corner": (inches("9 3/8"), 2, 4)}


def test_one_column_has_sashing_all_round_only():
    """1 x 3 blocks in rows of one: 2 short strips at the ends of each, 4 strips past 1, 2, 2 and 1 blocks: between two
    rows the strip passes the one and then the other, 2 x 15 + 4.207."""
    assert cut(plan(1, 3, ALL_ROUND, PLAIN)) == {"12.500": 6, "19.207": 2, "34.207": 2}


def test_the_working_tells_the_length_of_each_strip_between_rows():
    working = "\n".join(each.text for each in plan(3, 2, ALL_ROUND, PLAIN).working)
    assert "Sashing past {n} blocks: {n} x ({size} + {wide}) + {wide} + (2 + 2 x {root}) x {seam} = {length}" in working
    working = "\n".join(each.text for each in plan(3, 2, BETWEEN, PLAIN).working)
    assert "Sashing past 1 block: {n} x {size} + {between} x {wide} + 2 x {seam} = {length}" in working


@pytest.mark.parametrize(
    ("design", "steps"),
    [
        (
            (3, 2, BETWEEN, PLAIN),
            ["sew a long strip to each row", "1 triangle is left: set it in", "trim 1/4 in beyond the points"],
        ),
        ((2, 2, BETWEEN, PLAIN), ["on the side of the longer row next to it; press"]),
        # 3 / root 2 + 1/4 = 2.371, up to 2 3/8
        ((2, 2, ALL_ROUND, PLAIN), ["one before the first row and after the last", "trim 2 3/8 in beyond the points"]),
        ((2, 2, ALL_ROUND, STONES), ["trim 1/4 in beyond the middle of the outer cornerstones"]),
    ],
)
def test_the_order_of_sewing(design: tuple[int, int, bool, bool], steps: list[str]):
    text = plain_blanks("\n".join(top_sewing(plan(*design), Notation("in", ruler=True))))
    assert all(step in text for step in steps)
    assert ("set it in" in text) == (design[:2] == (3, 2))
