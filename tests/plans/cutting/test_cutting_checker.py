"""The checker of layouts sees what is wrong with one, and nothing wrong with one that can be cut."""

from fractions import Fraction

import pytest

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.cutting.layout import Band, ClothLayout, Column, LaidPiece, Wanted
from tests.builders import inches, yards
from tests.cutting_checker import Cloth, Needed, complaints, make_strips

CLOTH = Cloth(inches(40), Fraction(0), inches(1), inches(8))


def needed(use: str, width: int, length: int, number: int, grain: str = "any", join: int | None = None) -> Needed:
    lost = None if join is None else inches(join)
    along, across = grain != "crosswise", grain != "lengthwise"
    return Needed(use, inches(width), inches(length), number, along, across, lost)


def piece(use: str, across: int, along: int, strip: tuple[int, int] | None = None) -> LaidPiece:
    """A piece as it lies; its strip is as wide as its shorter side and as long as the other, if not told."""
    width, length = strip or (min(across, along), max(across, along))
    own = along if across == width else across
    return LaidPiece(
        Wanted(use, inches(width), inches(own), 1, True, True, inches(length)), inches(across), inches(along)
    )


def column(*pieces: LaidPiece) -> Column:
    return Column(max((each.across for each in pieces), key=lambda across: across.mm), pieces)


def band(length: int, *columns: Column) -> Band:
    return Band(inches(length), columns)


def wrong(bands: list[Band], needs: list[Needed], bought: Length | None = None, cloth: Cloth = CLOTH) -> list[str]:
    return complaints([ClothLayout(inches(40), tuple(bands))], [bought or yards(3)], needs, cloth)


SQUARES = [needed("cornerstones", 5, 5, 5)]
LAID = band(
    10, *[column(piece("cornerstones", 5, 5), piece("cornerstones", 5, 5))] * 2, column(piece("cornerstones", 5, 5))
)


def test_nothing_is_wrong_with_squares_in_columns():
    """Two columns of two and one of one: 3 x 5 of 40 across, 10 along; 10 + 1 to square is 11 of the 13 1/2 bought."""
    assert wrong([LAID], SQUARES, yards("3/8")) == []


def test_a_strip_across_may_lie_beside_the_end_of_another():
    """A border strip of 60 from 40 in: 40 + 24 - 4 = 60; the parts of 24 lie in a band with squares beside them."""
    long = [band(4, column(piece("border 1", 40, 4, (4, 60))))] * 2
    ends = [
        band(4, column(piece("border 1", 24, 4, (4, 60))), column(piece("cornerstones", 4, 4))),
        band(4, column(piece("border 1", 24, 4, (4, 60))), column(piece("cornerstones", 4, 4))),
    ]
    needs = [needed("border 1", 4, 60, 2, "crosswise", join=4), needed("cornerstones", 4, 4, 2)]
    assert wrong([*long, *ends], needs) == []


@pytest.mark.parametrize(
    ("bands", "why"),
    [
        ([band(10, *LAID.columns[:2])], "4 are cut, 5 needed"),
        ([LAID, band(5, column(piece("cornerstones", 5, 5)))], "6 and 0 parts are cut, 5 needed"),
        ([LAID, band(5, column(piece("sashing", 5, 5)))], "sashing 5 in x 5 in is not needed"),
        ([LAID._replace(length=inches(9))], "lies off the cloth"),
        ([band(10, *LAID.columns[:2], Column(inches(6), LAID.columns[2].pieces))], "not as wide as its column"),
        ([band(5, *[column(piece("cornerstones", 9, 9))] * 5)], "lies off the cloth"),
    ],
)
def test_squares_are_counted_and_inside_columns_as_wide_as_they(bands: list[Band], why: str):
    assert any(why in each for each in wrong(bands, SQUARES))


def test_a_fourth_cut_is_seen():
    """A square of 4 on one of 5 in one column needs a cut along it, the fourth."""
    needs = [needed("cornerstones", 5, 5, 1), needed("border 1", 4, 4, 1)]
    beside = column(piece("sashing", 3, 9))
    mixed = [band(9, column(piece("cornerstones", 5, 5), piece("border 1", 4, 4)), beside)]
    assert any("fourth cut" in each for each in wrong(mixed, [*needs, needed("sashing", 3, 9, 1)]))


def test_pieces_that_overlap_are_seen():
    """A column that is said to be narrower than its piece lets the next lie on it; so does a band that is too short."""
    narrow = Column(inches(3), (piece("cornerstones", 5, 5),))
    assert wrong([band(5, narrow, narrow)], [needed("cornerstones", 5, 5, 2)]) != []
    short = band(3, column(piece("cornerstones", 5, 5)))
    assert wrong([short, LAID], [needed("cornerstones", 5, 5, 6)]) != []


@pytest.mark.parametrize(("grain", "across", "along"), [("lengthwise", 30, 5), ("crosswise", 5, 30)])
def test_a_strip_against_its_grain_is_seen(grain: str, across: int, along: int):
    laid = [band(along, column(piece("border 1", across, along)))]
    needs = [needed("border 1", 5, 30, 1, grain)]
    assert any("must not" in each for each in wrong(laid, needs))
    assert wrong(laid, [needed("border 1", 5, 30, 1)]) == []


@pytest.mark.parametrize(
    ("second", "join", "why"),
    [
        (24, 4, ""),
        (23, 4, "do not make 1 strips"),  # 40 + 23 - 4 = 59
        (7, 0, "shorter than 8 in"),
        (24, None, "may not be joined"),
    ],
)
def test_parts_must_reach_the_strip(second: int, join: int | None, why: str):
    """A strip of 60 from 40 and another part, less the join."""
    laid = [band(4, column(piece("border 1", long, 4, (4, 60)))) for long in (40, second)]
    found = wrong(laid, [needed("border 1", 4, 60, 1, "crosswise", join)])
    assert any(why in each for each in found) if why else found == []


def test_parts_of_a_strip_lie_one_way():
    laid = [band(4, column(piece("border 1", 40, 4, (4, 60)))), band(24, column(piece("border 1", 4, 24, (4, 60))))]
    assert any("along and across" in each for each in wrong(laid, [needed("border 1", 4, 60, 1, "any", join=4)]))


def test_as_many_pieces_lie_each_way_as_the_direction_of_the_cloth_asks():
    """Of sashing of 2 x 12, one stands upright along a pile and one lies level across it; on other cloth both may."""
    upright, level = needed("sashing", 2, 12, 1, "lengthwise"), needed("sashing", 2, 12, 1, "crosswise")
    one_each = [band(12, column(piece("sashing", 2, 12)), column(piece("sashing", 12, 2)))]
    assert wrong(one_each, [upright, level]) == []
    assert wrong(one_each, [needed("sashing", 2, 12, 2)]) == []
    both_along = [band(12, column(piece("sashing", 2, 12)), column(piece("sashing", 2, 12)))]
    assert any("too many lie along" in each for each in wrong(both_along, [upright, level]))


@pytest.mark.parametrize(
    ("parts", "strips", "reach"),
    [
        ([40, 40, 24, 24], 2, True),  # 40 + 24 - 4 = 60, twice
        ([40, 40, 30, 18], 2, False),  # 40 + 18 - 4 = 54; 40 + 40 - 4 leaves 30 + 18 - 4 = 44
        ([40, 40, 40, 12, 12], 2, True),  # 40 + 40 - 4 = 76, 40 + 12 + 12 - 8 = 56: short; see below
        ([60], 1, True),
        ([], 1, False),
    ],
)
def test_parts_are_shared_out_to_strips(parts: list[int], strips: int, reach: bool):
    """Strips of 60, a join takes 4; of the third, of 56."""
    length = 56 if parts.count(12) else 60
    assert make_strips([Fraction(part) for part in parts], strips, Fraction(length), Fraction(4)) is reach


@pytest.mark.parametrize(("bought", "enough"), [("3/8", True), ("1/4", False)])
def test_the_cloth_bought_covers_squaring_and_shrinkage(bought: str, enough: bool):
    """10 / (1 - 1/10) + 1 = 12 1/9 in, of 13 1/2 and 9 in."""
    shrinking = CLOTH._replace(shrink_along=Fraction(1, 10))
    found = wrong([LAID], SQUARES, yards(bought), shrinking)
    assert (found == []) is enough


def test_a_length_without_a_layout_is_seen():
    found = complaints([ClothLayout(inches(40), (LAID,))], [yards(1), yards(1)], SQUARES, CLOTH)
    assert found == ["1 layouts for 2 lengths"]


def test_a_layout_that_says_another_width_is_seen():
    found = complaints([ClothLayout(inches(41), (LAID,))], [yards(1)], SQUARES, CLOTH)
    assert found == ["laid on 41 in, and 40 in is usable"]


def test_a_gap_takes_cloth():
    """5 in before the band so that a print meets: 15 and 1 to square are more than 3/8 yd, 13 1/2."""
    assert wrong([LAID._replace(gap=inches(5))], SQUARES, yards("3/8")) != []
    assert wrong([LAID._replace(gap=ZERO)], SQUARES, yards("3/8")) == []


# --- the first cut along the cloth ------------------------------------------------------------------------------------


def turned(*bands: Band) -> list[str]:
    """A border of 60 x 9 along the cloth, beside it one of 50 x 9 and two squares of 9 across its end."""
    needs = [needed("border 1", 9, 60, 1), needed("border 2", 18, 50, 1), needed("cornerstones", 9, 9, 2)]
    return complaints([ClothLayout(inches(40), bands, turned=True)], [yards(2)], needs, CLOTH)


LONG = Band(inches(9), (Column(inches(60), (piece("border 1", 9, 60),)),))
SHORT = Column(inches(50), (piece("border 2", 18, 50),))
ENDS = Column(inches(9), (piece("cornerstones", 9, 9), piece("cornerstones", 9, 9)))


def test_a_layout_may_begin_along_the_cloth():
    """Along it: 9 and 18 of 40 wide, 60 and 50 + 9 long."""
    assert turned(LONG, Band(inches(18), (SHORT, ENDS))) == []


@pytest.mark.parametrize(
    ("bands", "why"),
    [
        ((LONG, Band(inches(9), (SHORT, ENDS)), LONG), "2 and 0 parts are cut, 1 needed"),
        ((LONG, Band(inches(9), (SHORT,)), Band(inches(9), (ENDS,))), "fourth cut"),
        ((LONG, Band(inches(18), (SHORT, ENDS._replace(width=inches(10))))), "not as wide as its column"),
        ((LONG._replace(length=inches(23)), Band(inches(18), (SHORT, ENDS))), "off the cloth"),
        ((LONG, Band(inches(18), (SHORT,))), "0 are cut"),
    ],
)
def test_what_is_wrong_along_the_cloth_is_seen(bands: tuple[Band, ...], why: str):
    assert any(why in each for each in turned(*bands))
