"""Battings joined edge to edge: worked cases, and properties of whatever is joined."""

from itertools import combinations
from typing import NamedTuple

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.plans.batting.joining import Joined, join, least_missing
from tests.builders import inches
from tests.strategies import examples

LEAST = inches(6)


def size(width: int, length: int) -> Size:
    return Size(inches(width), inches(length))


def made_of(joined: Joined | None) -> tuple[int, Length] | None:
    return (joined.seams, joined.seam_length) if joined else None


@pytest.mark.parametrize(
    ("wanted", "stock", "expected"),
    [
        (size(72, 96), [size(72, 96)], (0, 0)),
        (size(72, 96), [size(96, 72)], (0, 0)),  # turned
        (size(72, 96), [size(72, 90)], None),  # 72 x 90 = 6,480 sq in for 6,912
        # 72 x 90 and 6 x 72 of the other, at the end: a seam as long as the batting is wide
        (size(72, 96), [size(72, 90), size(45, 80)], (1, 72)),
        # 3 in short: the first is cut to 87, because a piece of 3 in would be too narrow, and 9 would be missing of 8
        (size(72, 93), [size(72, 90), size(8, 72)], (1, 72)),
        # two crib battings, 45 x 60 each, for 60 x 84: 45 + 39 in length
        (size(60, 84), [size(45, 60), size(45, 60)], (1, 60)),
        # its own strip: laid with 100 across and 80 down, the 30 at its side go to the end, where 22 are wanted
        (size(70, 102), [size(100, 80)], (1, 70)),
        # one corner open both ways takes two: beside it 12 x 84, below 84 x 12
        (size(84, 96), [size(72, 84), size(12, 84), size(84, 12)], (2, 84 + 84)),
    ],
)
def test_worked(wanted: Size, stock: list[Size], expected: tuple[int, int] | None):
    """The fewest pieces, and the shortest seams of those (derived)."""
    joined = join(wanted, stock, 2, LEAST)
    assert made_of(joined) == (expected and (expected[0], inches(expected[1])))


def test_no_more_seams_than_the_shop_sews():
    three = [size(30, 90)] * 3
    assert made_of(join(size(90, 90), three, 2, LEAST)) == (2, inches(180))
    assert join(size(90, 90), three, 1, LEAST) is None


@pytest.mark.parametrize(
    ("stock", "missing"),
    [
        ([size(69, 87)], size(69, 6)),  # 6 short in length
        ([size(69, 91)], size(69, 6)),  # 2 short, and nothing narrower than 6 is joined
        ([size(60, 93)], size(9, 93)),
        ([size(60, 80)], size(69, 33)),  # turned, 80 across
        ([size(60, 60)], None),  # short both ways: no one piece would do
        ([size(40, 93), size(20, 93)], size(9, 93)),
        # 45 x 60 over 45 x 33 of the other, turned, lack 24 x 93; beside each other they would lack more, 69 x 33
        ([size(40, 60), size(45, 60)], size(24, 93)),
    ],
)
def test_the_piece_that_is_missing(stock: list[Size], missing: Size | None):
    """For 69 x 93, with at most 2 seams (derived)."""
    assert least_missing(size(69, 93), stock, 2, LEAST) == missing


SIDES = st.integers(6, 60)
SIZES = st.builds(size, SIDES, SIDES)


class Rectangle(NamedTuple):
    x: Length
    y: Length
    width: Length
    length: Length


def overlap(one: Rectangle, other: Rectangle) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    return across and one.y < other.y + other.length and other.y < one.y + one.length


@examples(300)
@given(SIZES, st.lists(SIZES, min_size=1, max_size=4), st.integers(0, 2))
def test_what_is_joined_covers_without_overlap_and_is_there(wanted: Size, stock: list[Size], most_seams: int):
    """The pieces tile the size, and the cuts lie apart on what they are cut from. Every seam is an edge of two pieces,
    so that the seams are half of what the pieces' edges come to beyond the batting's own."""
    joined = join(wanted, stock, most_seams, LEAST)
    assume(joined)
    assert joined
    placed = [Rectangle(piece.x, piece.y, piece.width, piece.length) for piece in joined.pieces]
    whole = wanted.width * wanted.length
    assert sum(((each.width * each.length).mm2 for each in placed), start=ZERO.mm) == whole.mm2
    for each in placed:
        assert ZERO <= each.x <= each.x + each.width <= wanted.width
        assert ZERO <= each.y <= each.y + each.length <= wanted.length
        assert min(each.width, each.length) >= LEAST
    assert not any(overlap(one, other) for one, other in combinations(placed, 2))
    for number, source in enumerate(stock):
        cuts = [
            Rectangle(piece.from_x, piece.from_y, *(piece[3:1:-1] if piece.turned else piece[2:4]))
            for piece in joined.pieces
            if piece.source == number
        ]
        assert all(cut.x + cut.width <= source.width and cut.y + cut.length <= source.length for cut in cuts)
        assert not any(overlap(one, other) for one, other in combinations(cuts, 2))
    edges = sum((each.width + each.length for each in placed), ZERO) - (wanted.width + wanted.length)
    assert (joined.seams, joined.seam_length) == (len(placed) - 1, edges)
    assert joined.seams <= most_seams


@examples(200)
@given(SIZES, SIZES, SIZES)
def test_two_pieces_that_reach_side_by_side_are_found(wanted: Size, one: Size, other: Size):
    """Whatever covers alone, or beside the other one way round, takes at most one seam."""
    turns = [(Size(*first), Size(*second)) for first in (one, one[::-1]) for second in (other, other[::-1])]
    sides = [wanted, Size(*wanted[::-1])]
    reach = any(
        first.width + second.width >= goal.width and min(first.length, second.length) >= goal.length
        for first, second in turns
        for goal in sides
    )
    assume(reach and min(wanted) >= LEAST * 2)
    assert join(wanted, [one, other], 1, LEAST)


@examples(100)
@given(SIZES, st.lists(SIZES, min_size=1, max_size=3))
def test_a_piece_that_is_missing_is_all_that_is_missing(wanted: Size, stock: list[Size]):
    missing = least_missing(wanted, stock, 2, LEAST)
    assume(missing)
    assert missing
    assert join(wanted, [*stock, missing], 2, LEAST)


def test_a_piece_that_is_asked_for_is_enough_however_many_pieces_there_are():
    """Of 99 x 96 the piece of 87 x 90 leaves 12 beside it and 6 below, and what is cut off must not use up the search
    (derived): 99 - 67 = 32 by 96 - 90 = 6 is what three whole pieces lack."""
    wanted = size(99, 96)
    stock = [size(87, 90), size(84, 49), size(67, 48), size(26, 74)]
    missing = least_missing(wanted, stock, 3, LEAST)
    assert missing == size(32, 6)
    assert join(wanted, [*stock, missing], 3, LEAST)
