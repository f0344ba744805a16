"""The checker bites: right layouts pass, and each way of being wrong is complained of."""

from fractions import Fraction
from typing import NamedTuple

import pytest

from finishcalc.measures.length import Length
from finishcalc.plans.backing.layout import CutPiece, VisiblePiece
from tests.backing_checker import Terms, complaints
from tests.builders import inches, replace, yards

PieceFigures = tuple[str, str | int, str | int, str | int, str | int]

TERMS = Terms(
    width=inches(44), length=inches(60), overage=inches(4), allowance=inches("1/2"), clear_edge=inches(2),
    usable=inches(40), straighten=inches(0), shrink_along=Fraction(0), one_way=False,
)  # fmt: skip
WIDER = replace(TERMS, width=inches(54))


def cuts(*figures: PieceFigures) -> tuple[CutPiece, ...]:
    """Cuts from (name, x, y, width, length) in inches."""
    return tuple(CutPiece(name, *(inches(amount) for amount in amounts)) for name, *amounts in figures)


def shows(*figures: PieceFigures, turned: str = "") -> tuple[VisiblePiece, ...]:
    """VisiblePiece areas from (name, x, y, width, length) in inches; the pieces named in `turned` are turned."""
    return tuple(
        VisiblePiece(name, *(inches(amount) for amount in amounts), name in turned) for name, *amounts in figures
    )


class ByHand(NamedTuple):
    """What someone says of a backing."""

    seams: int
    seam_length: Length
    cut_length: Length
    cuts: tuple[CutPiece, ...]
    assembly: tuple[VisiblePiece, ...]


def layout(
    cut_length: str | int,
    seams: int,
    seam_length: str | int,
    cut: tuple[CutPiece, ...],
    shown: tuple[VisiblePiece, ...],
) -> ByHand:
    """A claim in inches."""
    return ByHand(seams, inches(seam_length), inches(cut_length), cut, shown)


# 44 x 60 of two panels that show 22: each is cut 22 1/2, for one edge of it is sewn. 2 x 60 = 120 in of cloth.
PANELS = layout(
    120, 1, 60,
    cuts(("A", 0, 0, "22 1/2", 60), ("B", 0, 60, "22 1/2", 60)),
    shows(("A", 0, 0, 22, 60), ("B", 22, 0, 22, 60)),
)  # fmt: skip

# 54 x 60 of a panel that shows 39 1/2 and a band of 14 1/2 in two pieces of 30, which lie side by side on the
# cloth. The band's pieces are cut 15 x 30 1/2: one long edge and one end of each is sewn. Seams: 60 + 14 1/2.
BAND = layout(
    "90 1/2", 2, "74 1/2",
    cuts(("A", 0, 0, 40, 60), ("B", 0, 60, 15, "30 1/2"), ("C", 15, 60, 15, "30 1/2")),
    shows(("A", 0, 0, "39 1/2", 60), ("B", "39 1/2", 0, "14 1/2", 30), ("C", "39 1/2", 30, "14 1/2", 30)),
)  # fmt: skip

# The same with the band's pieces turned: 30 1/2 across the cloth, 15 along it. 60 + 2 x 15 = 90 in of cloth.
TURNED_BAND = layout(
    90, 2, "74 1/2",
    cuts(("A", 0, 0, 40, 60), ("B", 0, 60, "30 1/2", 15), ("C", 0, 75, "30 1/2", 15)),
    shows(("A", 0, 0, "39 1/2", 60), ("B", "39 1/2", 0, "14 1/2", 30), ("C", "39 1/2", 30, "14 1/2", 30), turned="BC"),
)  # fmt: skip

# 44 x 60 of four pieces of 22 x 30, whose corners all lie on one point. 4 x 30 1/2 = 122 in of cloth.
CROSS = layout(
    122, 2, 104,
    cuts(*((name, 0, f"{number * 61}/2", "22 1/2", "30 1/2") for number, name in enumerate("ABCD"))),
    shows(("A", 0, 0, 22, 30), ("B", 22, 0, 22, 30), ("C", 0, 30, 22, 30), ("D", 22, 30, 22, 30)),
)  # fmt: skip

# 44 x 60 with the seam 5 in from the side, 1 in inside the trimmed edge.
NEAR = layout(
    120, 1, 60,
    cuts(("A", 0, 0, "5 1/2", 60), ("B", 0, 60, "39 1/2", 60)),
    shows(("A", 0, 0, 5, 60), ("B", 5, 0, 39, 60)),
)  # fmt: skip


@pytest.mark.parametrize(("right", "terms"), [(PANELS, TERMS), (BAND, WIDER), (TURNED_BAND, WIDER)])
def test_right_layouts_pass(right: ByHand, terms: Terms):
    """Plain panels, a band pieced end to end and a band of turned pieces are proved."""
    assert complaints(right, right.cut_length, True, terms) == []


def test_one_piece_passes():
    """A piece that nothing is sewn to has no allowance and no seam."""
    one = layout(60, 0, 0, cuts(("A", 0, 0, 40, 60)), shows(("A", 0, 0, 40, 60)))
    assert complaints(one, one.cut_length, True, replace(TERMS, width=inches(40))) == []


WRONG = {
    "overlap on the cloth": (
        "A and B overlap on the cloth",
        replace(PANELS, cuts=cuts(("A", 0, 0, "22 1/2", 60), ("B", 0, 59, "22 1/2", 60))),
    ),
    "off the side of the cloth": (
        "B lies off the cloth",
        replace(PANELS, cuts=cuts(("A", 0, 0, "22 1/2", 60), ("B", 18, 60, "22 1/2", 60))),
    ),
    "off the end of the cloth": ("B lies off the cloth", replace(PANELS, cut_length=inches("119 1/2"))),
    "before the start of the cloth": (
        "A lies off the cloth",
        replace(PANELS, cuts=cuts(("A", 0, -1, "22 1/2", 60), ("B", 0, 60, "22 1/2", 60))),
    ),
    "no allowance": (
        "A is cut 22 in x 60 in, not 22 1/2 in x 60 in",
        replace(PANELS, cuts=cuts(("A", 0, 0, 22, 60), ("B", 0, 60, "22 1/2", 60))),
    ),
    "an allowance on an edge that is not sewn": (
        "A is cut 23 in x 60 in, not 22 1/2 in x 60 in",
        replace(PANELS, cuts=cuts(("A", 0, 0, 23, 60), ("B", 0, 60, "22 1/2", 60))),
    ),
    "a gap": (
        "the pieces leave a gap or overlap",
        replace(PANELS, assembly=shows(("A", 0, 0, 22, 60), ("B", 22, 1, 22, 59))),
    ),
    "overlap in the backing": (
        "A and B overlap in the backing",
        replace(PANELS, assembly=shows(("A", 0, 0, 22, 60), ("B", 21, 0, 23, 60))),
    ),
    "smaller than needed": (
        "the backing is smaller than needed",
        replace(PANELS, assembly=shows(("A", 0, 0, 22, 60), ("B", 22, 0, 21, 60))),
    ),
    "shorter than needed": (
        "the backing is smaller than needed",
        replace(PANELS, assembly=shows(("A", 0, 0, 22, 59), ("B", 22, 0, 22, 59))),
    ),
    "out of its corner": (
        "the backing does not start in its corner",
        replace(PANELS, assembly=shows(("A", 1, 0, 22, 60), ("B", 23, 0, 22, 60))),
    ),
    "shown twice": (
        "A is shown 2 times",
        replace(PANELS, assembly=shows(("A", 0, 0, 22, 60), ("A", 22, 0, 22, 60))),
    ),
    "cut twice": (
        "A is cut 2 times",
        replace(PANELS, cuts=cuts(("A", 0, 0, "22 1/2", 60), ("A", 0, 60, "22 1/2", 60))),
    ),
    "never cut": ("B is shown and not cut", replace(PANELS, cuts=cuts(("A", 0, 0, "22 1/2", 60)))),
    "never shown": ("B is cut and not shown", replace(PANELS, assembly=shows(("A", 0, 0, 44, 60)))),
    "seams miscounted": ("2 seams are said, 1 are sewn", replace(PANELS, seams=2)),
    "seams mismeasured": ("seams of 59 in are said, 60 in are sewn", replace(PANELS, seam_length=inches(59))),
    "four at a point": ("A, B, C, D meet at one point", CROSS),
    "seam near the edge": ("a seam at x = 5 in lies near the trimmed edge, and it is said to be clear", NEAR),
}


@pytest.mark.parametrize(("complaint", "wrong"), WRONG.values(), ids=WRONG.keys())
def test_wrong_layouts_are_complained_of(complaint: str, wrong: ByHand):
    """Each layout, wrong in one way, draws the complaint that says so."""
    assert complaint in complaints(wrong, inches(126), True, TERMS)


def test_only_what_is_wrong_is_complained_of():
    """A layout that is right but for one thing draws that one complaint and no other."""
    for alone in ("four at a point", "seam near the edge", "seams miscounted", "seams mismeasured", "no allowance"):
        complaint, wrong = WRONG[alone]
        assert complaints(wrong, inches(126), True, TERMS) == [complaint]


def test_end_joins_of_a_band_count():
    """A band's end-to-end join is a seam of its own, and adds its own length."""
    careless = replace(BAND, seams=1, seam_length=inches(60))
    assert complaints(careless, inches(99), True, WIDER) == [
        "1 seams are said, 2 are sewn",
        "seams of 60 in are said, 74 1/2 in are sewn",
    ]


def test_a_turned_piece_is_cut_turned():
    """A piece said to be turned must be cut with its length across the top."""
    unturned = tuple(replace(piece, turned=False) for piece in TURNED_BAND.assembly)
    found = complaints(replace(TURNED_BAND, assembly=unturned), inches(99), True, WIDER)
    assert "B is cut 30 1/2 in x 15 in, not 15 in x 30 1/2 in" in found


def test_a_seam_near_the_edge_passes_where_it_is_owned_up_to():
    """A seam near the edge is allowed where the option says so, and only there."""
    assert complaints(NEAR, inches(126), False, TERMS) == []
    assert complaints(PANELS, inches(126), False, TERMS) == [
        "no seam lies near the trimmed edge, and it is said not to be clear"
    ]


def test_a_seam_at_the_clear_distance_is_clear():
    """Two inches from the trimmed edge is not within two inches of it."""
    at_two = replace(
        NEAR,
        cuts=cuts(("A", 0, 0, "6 1/2", 60), ("B", 0, 60, "38 1/2", 60)),
        assembly=shows(("A", 0, 0, 6, 60), ("B", 6, 0, 38, 60)),
    )
    assert complaints(at_two, inches(126), True, TERMS) == []


@pytest.mark.parametrize(
    ("straighten", "shrink", "enough", "short"),
    [
        (0, 0, 120, "119 7/8"),
        (1, 0, 121, "120 7/8"),
        # 120 / (1 - 0.04) = 125, and 1 to square the end
        (1, 4, 126, "125 7/8"),
    ],
)
def test_bought_short_is_complained_of(straighten: int, shrink: int, enough: int, short: str):
    """What is bought must cover the cut after shrinkage, with the end squared."""
    terms = replace(TERMS, straighten=inches(straighten), shrink_along=Fraction(shrink, 100))
    assert complaints(PANELS, inches(enough), True, terms) == []
    assert complaints(PANELS, inches(short), True, terms) == [f"{short} in is bought, short of {enough} in"]


def test_turned_pieces_of_one_way_cloth_are_complained_of():
    """A nap or a direction runs down the quilt."""
    one_way = replace(WIDER, one_way=True)
    assert complaints(BAND, yards(3), True, one_way) == []
    assert complaints(TURNED_BAND, yards(3), True, one_way) == [
        "B is turned, and the cloth runs one way",
        "C is turned, and the cloth runs one way",
    ]
