"""The pieces of a picture drawn by their edges alone."""

from itertools import combinations

import pytest

from finishcalc.measures.length import ZERO, Length
from finishcalc.rendering.pictures.edges import Edge, edges_of
from finishcalc.rendering.pictures.picture import Picture, Tile, top_picture
from finishcalc.wording.notation import Notation
from tests.builders import inches, with_top

BLOCKS = "[top.blocks]\nacross = 4\ndown = 3\nsize = 6\n"
SASHED = f"{BLOCKS}[top.sashing]\nwidth = 1\ncornerstones = true\nouter = true\n"


def picture(*boxes: tuple[int, int, int, int]) -> Picture:
    """A picture of boxes, each by its place and its sides in inches."""
    tiles = tuple(Tile(*map(inches, box), "", "", "") for box in boxes)
    right, below = max(tile.x + tile.width for tile in tiles), max(tile.y + tile.length for tile in tiles)
    return Picture("", "", right, below, tiles, None)


def edge(place: int, start: int, end: int) -> Edge:
    return Edge(inches(place), inches(start), inches(end))


def test_edges_in_one_line_are_drawn_as_one():
    """Two boxes of 2 x 3 side by side: three lines down, and one along each end."""
    found = edges_of(picture((0, 0, 2, 3), (2, 0, 2, 3)))
    assert found.down == (edge(0, 0, 3), edge(2, 0, 3), edge(4, 0, 3))
    assert found.across == (edge(0, 0, 4), edge(3, 0, 4))


def test_edges_with_a_gap_between_them_are_two():
    """Boxes of 1 x 1 at both ends of a row of 3."""
    assert edges_of(picture((0, 0, 1, 1), (2, 0, 1, 1))).across == (
        edge(0, 0, 1), edge(0, 2, 3), edge(1, 0, 1), edge(1, 2, 3),
    )  # fmt: skip


@pytest.mark.parametrize(
    "top",
    [
        BLOCKS,
        SASHED,
        SASHED + "[[top.borders]]\ncut = 3\ncorners = 'mitred'\n[[top.borders]]\ncut = 2\n",
        SASHED + "[[top.borders]]\ncut = 3\ncorners = 'cornerstones'\n[[top.borders]]\ncut = 2\nfirst = 'sides'\n",
        BLOCKS.replace("size = 6", "inner = 4"),
        f"{BLOCKS}setting = 'on-point'\n[[top.borders]]\ncut = 3\n",
        "[top.centre]\nwidth = 20\nlength = 30\n[[top.borders]]\ncut = 3\n",
    ],
)
def test_no_piece_of_a_top_lies_over_an_edge_of_one_beneath_it(top: str):
    """So the edges alone show the same lines as the pieces, the lower ones of which are drawn first."""
    result = with_top("use = 'throw'", top)
    assert result.plans.pieced
    tiles = top_picture(result.plans.pieced, result.plans.top.shape, Notation("in")).tiles
    assert len(tiles) > 4
    for below, above in combinations(tiles, 2):
        for start, side, along, length in (("x", "width", "y", "length"), ("y", "length", "x", "width")):
            edges = (getattr(below, start), getattr(below, start) + getattr(below, side))
            first, last = getattr(above, start), getattr(above, start) + getattr(above, side)
            covered = [each for each in edges if first < each < last]
            assert not covered or not _overlap(below, above, along, length), (below, above)


def _overlap(one: Tile, other: Tile, start: str, side: str) -> bool:
    begin: Length = max(getattr(one, start), getattr(other, start))
    end: Length = min(getattr(each, start) + getattr(each, side) for each in (one, other))
    return end - begin > ZERO
