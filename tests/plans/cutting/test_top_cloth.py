"""The cloth of a top: what lies on one length of it, which way long pieces are cut, and what is bought.

Figures without a source are common practice; what follows from arithmetic says so beside it.
"""

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length
from finishcalc.pipeline import Finishing, finish, finish_file
from finishcalc.plans.cutting.layout import LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from tests.builders import PROJECTS, cut_text, inches, quote_text, yards
from tests.plans.pieced.test_pieced import BORDERS, ONE_CLOTH, SASHED

ON_POINT = '[top.blocks]\nacross = 3\ndown = 4\nsize = 10\nsetting = "on-point"\n'


def made(text: str) -> Finishing:
    return finish(resolve(Source("top.toml", text)))


def cloths_of(text: str) -> list[Purchase]:
    """The purchases that parts of the top are cut from."""
    return [purchase for purchase in made(text).plans.cloth if purchase.weighed]


def the_cloth(text: str) -> Purchase:
    (purchase,) = cloths_of(text)
    return purchase


def pieces(purchase: Purchase) -> list[LaidPiece]:
    return [placed.piece for layout in purchase.layouts for placed in layout.placed]


def sizes(purchase: Purchase, use: str) -> Counter[tuple[Length, Length]]:
    """How many pieces of a part lie so far across and so far along the cloth."""
    return Counter((piece.across, piece.along) for piece in pieces(purchase) if piece.use == use)


def one_border(width: int, length: int, cut: str, more: str = "") -> Purchase:
    return the_cloth(f'[top.centre]\nwidth = {width}\nlength = {length}\n[[top.borders]]\ncut = "{cut}"\n{more}')


def test_squares_lie_beside_long_strips():
    """3 x 4 on point of 10 in a mitred border cut 6: strips of 71 1/8 and 57 lie side by side in 24 of 40, and in the
    16 beside them the 3 squares of 15 1/2 and the 2 of 8 for the triangles: 3 x 15 1/2 + 8 = 54 1/2 of 71 1/8. So the
    strips alone say what is cut, and with 1 in to square it 2 1/8 yd are bought (derived)."""
    cloth = the_cloth(ON_POINT + ONE_CLOTH + '[[top.borders]]\ncut = 6\ncorners = "mitred"\n')
    assert (cloth.cut_length, cloth.amount) == (inches("71 1/8"), yards("2 1/8"))
    assert sizes(cloth, "triangles") == {(inches("15 1/2"),) * 2: 3, (inches(8),) * 2: 2}


def test_short_strips_lie_down_what_is_left_beside_long_ones():
    """A border cut 8 of four strips along 40 leaves 8: the strips of 12 1/2 for the sashing are too long across it, so
    they lie down it, and all of one length is cut (derived)."""
    cloth = the_cloth(SASHED.format(across=3, down=4) + ONE_CLOTH + "[[top.borders]]\ncut = 8\n")
    beside = [column for column in cloth.layouts[0].bands[0].columns if column.width == inches("3 1/2")]
    assert len(beside) == 2
    assert all(
        piece.along == inches("12 1/2") for column in beside for piece in column.pieces if piece.use == "sashing"
    )


def test_what_must_lie_across_is_not_turned():
    free = SASHED.format(across=3, down=4) + ONE_CLOTH + "[[top.borders]]\ncut = 8\n"
    held = free.replace("[top.sashing]\n", '[top.sashing]\nstrips = "crosswise"\n')
    assert any(along > across for across, along in sizes(the_cloth(free), "sashing"))
    assert all(across > along for across, along in sizes(the_cloth(held), "sashing"))


def test_what_must_lie_along_is_not_turned():
    text = SASHED.format(across=2, down=3) + ONE_CLOTH + 'strips = "lengthwise"\n[[top.borders]]\ncut = 8\n'
    assert all(along > across for across, along in sizes(the_cloth(text), "sashing"))


@pytest.mark.parametrize("cut", ["1 1/2", "2", "2 1/2"])
@pytest.mark.parametrize("size", [(30, 60), (40, 66), (44, 70)])
def test_what_is_joined_keeps_its_grain(size: tuple[int, int], cut: str):
    """A border cut along the cloth leaves room beside it for what is left of the next one's strips; but the whole
    strips they are sewn to lie across."""
    text = "[top.centre]\nwidth = {}\nlength = {}\n[[top.borders]]\ncut = 7\nstrips = 'lengthwise'\n".format(*size)
    cloth = the_cloth(text + f"[[top.borders]]\ncut = '{cut}'\nstrips = 'crosswise'\n" + ONE_CLOTH)
    joined = [piece for piece in pieces(cloth) if piece.wanted.joined]
    assert joined
    assert all(piece.along == piece.wanted.width for piece in joined)


def test_strips_across_are_joined_and_the_joins_counted():
    """50 x 60, cut 3 1/2, sides first: pairs of 60 and 56 from 40, a diagonal join takes 3 1/2: 60 is 40 + 23 1/2 and
    56 is 40 + 19 1/2. Four whole strips; 23 1/2 and 19 1/2 do not go on one of 40, two of 19 1/2 do: 7 strips,
    24 1/2 in of cloth, 4 joins. Along the cloth it would take 60."""
    cloth = one_border(50, 60, "3 1/2")
    assert cloth.weighed
    assert (len(cloth.layouts[0].bands), cloth.cut_length, cloth.weighed.lead.joins) == (7, inches("24 1/2"), 4)


def test_a_straight_join_takes_two_seam_allowances():
    """78 in sides from 40: 40 + 38 1/2 joined straight, one join; on the diagonal 40 + 40 - 3 1/2 falls short, so each
    takes a third strip, and none is shorter than 8 in."""
    straight, diagonal = (
        one_border(70, 78, "3 1/2", f"join = '{join}'\nstrips = 'crosswise'\n") for join in ("straight", "diagonal")
    )
    assert sizes(straight, "border 1")[inches("38 1/2"), inches("3 1/2")] == 2
    assert sizes(diagonal, "border 1")[inches(8), inches("3 1/2")] == 2


def test_a_thin_border_of_a_bed_quilt_is_joined():
    """80 x 96 with a border cut 2 1/2: along the cloth 96 + 1 to square are 2 3/4 yd. Across it the sides are 40 + 40 +
    21 and the ends, 80 + 4 = 84, 40 + 40 + 9 (two joins take 5): 8 whole strips, 21 and 9 twice on two strips of 40,
    25 + 1 in, 3/4 yd with 8 joins. 2 yd at 9.50 and 40 % are 26.60; 8 joins of 3 minutes at 30 an hour are 12.00, and
    half a yard is 6.65: the joined way wins by 14.60, which is more (derived)."""
    cloth = one_border(80, 96, "2 1/2")
    assert cloth.weighed
    assert (cloth.amount, cloth.weighed.lead.joins) == (yards("3/4"), 8)
    assert cloth.weighed.other
    assert (cloth.weighed.other.amount, cloth.weighed.other.joins) == (yards("2 3/4"), 0)


def test_along_the_cloth_where_it_buys_less():
    """40 x 60 with a border cut 8: across it is 8 strips of 8, 64 in; along, 4 x 8 = 32 wide, 60 in."""
    assert one_border(40, 60, "8").cut_length == inches(60)


def test_borders_of_one_cloth_share_its_width():
    """Four strips of 8 and four of 2 lie side by side on 40 in: the narrow ones cost nothing (60 + 2 x 1 1/2 long)."""
    text = "[top.centre]\nwidth = 40\nlength = 60\n[[top.borders]]\ncut = 2\n[[top.borders]]\ncut = 8\n"
    cloth = the_cloth(text + ONE_CLOTH)
    assert cloth.weighed
    assert (cloth.cut_length, cloth.weighed.lead.joins) == (inches(63), 0)


@pytest.mark.parametrize(("most", "joins"), [(0, 0), (1, 0), (2, 8)])
def test_a_shop_says_how_many_joins_a_side_may_have(most: int, joins: int):
    """Borders cut 2 1/2 round 100 x 100 need two joins a side across 40 in of cloth: 40 + 2 x 37 1/2 = 115, one join
    gives 77 1/2 (derived)."""
    top = "[top.centre]\nwidth = 100\nlength = 100\n[[top.borders]]\ncut = '2 1/2'\n"
    cloth = the_cloth(f"{top}[top.piecing]\nmost_joins = {most}\n")
    assert cloth.weighed
    assert cloth.weighed.lead.joins == joins


def test_parts_of_one_cloth_and_the_binding_are_bought_as_one_length():
    cream = "fabric = { preset = 'cotton-44', name = 'cream' }\n"
    layers = f"[backing]\n{cream}[binding]\n{cream}"
    bought = made(SASHED.format(across=2, down=2) + BORDERS + layers).plans.cloth
    assert [each.uses for each in bought] == [
        (
            "sashing",
            "cornerstones",
            "border 1",
            "border 2",
            "border 3",
            "border 4",
            "border 4's cornerstones",
            "backing",
            "binding",
        )
    ]
    laid = {placed.piece.use for layout in bought[0].layouts for placed in layout.placed}
    assert laid == set(bought[0].uses)


def test_each_part_is_a_cloth_of_its_own_unless_it_is_named():
    """Cornerstones are of their part's cloth, and the preset that all parts fall back on is no name of hers."""
    text = SASHED.format(across=2, down=2) + BORDERS.replace(ONE_CLOTH, "[top.piecing]\n")
    assert [cloth.uses for cloth in cloths_of(text)] == [
        ("sashing", "cornerstones"), ("border 1",), ("border 2",), ("border 3",),
        ("border 4", "border 4's cornerstones"),
    ]  # fmt: skip
    own = "[[top.borders]]\ncut = 4\ncorners = 'cornerstones'\ncorner_fabric = 'cotton-44'\n"
    assert [cloth.uses for cloth in cloths_of(SASHED.format(across=2, down=2) + own)] == [
        ("sashing", "cornerstones"), ("border 1",), ("border 1's cornerstones",),
    ]  # fmt: skip


def test_five_uses_without_a_name_are_five_cloths_to_buy():
    """4 x 5 blocks of 10 with sashing of 2 and borders cut 2 and 5 are 46 1/2 x 58 1/2, 49 1/2 x 61 1/2 and 58 1/2 x
    70 1/2. The binding needs 258 + 10: 8 strips of 2 1/2 from 40, and 21 in squared are 5/8 yd (derived)."""
    text = "[top.blocks]\nacross = 4\ndown = 5\nsize = 10\n[top.sashing]\nwidth = 2\n"
    bought = made(text + "[[top.borders]]\ncut = 2\n[[top.borders]]\ncut = 5\n").plans.cloth
    assert [each.uses for each in bought] == [("sashing",), ("border 1",), ("border 2",), ("backing",), ("binding",)]
    assert bought[-1].amount.to("yd") == Fraction(5, 8)


def test_cloth_at_hand_is_not_bought():
    assert cloths_of(SASHED.format(across=2, down=2) + 'fabric = "none"\n') == []


@pytest.mark.parametrize("project", PROJECTS, ids=lambda path: path.stem)
def test_every_piece_lies_on_the_cloth_that_is_bought(project: Path):
    """Strips of a binding among them, which come after what is cut for the top."""
    for purchase in finish_file(str(project)).plans.cloth:
        for layout, washed in zip(purchase.layouts, purchase.washed_lengths, strict=True):
            for piece, x, y in layout.placed:
                assert x + piece.across <= layout.usable, (purchase.fabric.name, piece)
                assert y + piece.along <= washed, (purchase.fabric.name, piece)


def test_squares_that_no_cloth_holds_are_a_caution():
    """30 in blocks on point take squares of 42.43 + 1 1/4, up: 43 3/4 in, from 40 in of cloth. Those for the corners,
    21.21 + 7/8, up: 22 1/8, are still bought."""
    result = made('[top.blocks]\nacross = 2\ndown = 2\nsize = 30\nsetting = "on-point"\n')
    assert "squares-too-wide" in [each.code for each in result.cautions]
    assert "43 3/4" in cut_text(result).split("Please note")[1]
    (cloth,) = [purchase for purchase in result.plans.cloth if purchase.weighed]
    assert sizes(cloth, "triangles") == {(inches("22 1/8"),) * 2: 2}


def test_strips_finer_than_an_eighth_are_joined_long_enough():
    """A side of over 100 in from 40 in cloth loses 3 1/16 in at each of two joins, not 3 1/8 rounded up: 100 + 6 1/8 -
    80 = 26 1/8 is left; the ends, 20 + 2 x (3 1/16 - 1/2), up, are 25 1/8 (derived)."""
    text = "[top.centre]\nwidth = 20\nlength = 100\n[[top.borders]]\ncut = '3 1/16'\nstrips = 'crosswise'\n"
    assert sizes(the_cloth(text), "border 1") == {
        (inches(40), inches("3 1/16")): 4,
        (inches("26 1/8"), inches("3 1/16")): 2,
        (inches("25 1/8"), inches("3 1/16")): 2,
    }


def test_cloth_for_corners_or_along_need_not_hold_a_join():
    squares = (
        "corners = 'cornerstones'\ncorner_fabric = { preset = 'cotton-44', name = 'remnant', width = 9, selvage = 0 }\n"
    )
    along = "strips = 'lengthwise'\nfabric = { preset = 'cotton-44', name = 'narrow', width = 12, selvage = 1 }\n"
    for more in (squares, along):
        bought = cloths_of(f"[top.centre]\nwidth = 60\nlength = 60\n[[top.borders]]\ncut = 8\n{more}")
        assert sum(len(pieces(each)) for each in bought) >= 4


THIN = (
    "[top.centre]\nwidth = 72\nlength = 84\n"
    "[[top.borders]]\ncut = 1\nfabric = { preset = 'cotton-44', name = 'black' }\n"
)
WIDE = "[[top.borders]]\ncut = 5\nfabric = { preset = 'cotton-44', name = 'plum', price = 11 }\n"


def test_the_other_way_to_cut_a_border_is_an_option_that_can_be_taken_to_the_cent():
    """Of black, 9 strips of 1 in with 6 joins are 3/8 yd; along the cloth 84 in are 2 3/8 yd. Of plum, cut 5, 1 1/2 yd
    would be joined and 2 1/2 yd are not: a yard at 11 and 40 % is 15.40, the joins of 3 minutes at 30 an hour and half
    a yard at 7.70 are more (derived)."""
    result = made(THIN + WIDE)
    black, plum = (purchase for purchase in result.plans.cloth if purchase.weighed)
    assert (black.amount, plum.amount) == (yards("3/8"), yards("2 1/2"))
    others = {other.fabric.name: other for other in alternatives_of(result).cuttings}
    assert (others["black"].amount, others["black"].joins) == (yards("2 3/8"), 0)
    assert others["plum"].amount < plum.amount
    assert others["plum"].joins > 0
    for other in others.values():
        ((key, strips),) = other.take.items()
        part = THIN if key == "top.borders[1].strips" else WIDE
        taken = made((THIN + WIDE).replace(part, f"{part}strips = '{strips}'\n"))
        assert taken.quote.total == other.total
        assert other.total - result.quote.total == other.adds


def test_a_border_whose_way_is_given_has_no_other():
    assert alternatives_of(made(THIN + "strips = 'crosswise'\n" + WIDE + "strips = 'lengthwise'\n")).cuttings == ()


def test_the_studio_reads_why_a_border_is_not_joined():
    """Of plum 90 in are bought without joins. Joined it is 54, 8 joins of 3 minutes at 30 an hour are 12.00, at 15.40 a
    yard 28.05 in of it, and half a yard is 18: together 100.05, which is more (derived)."""
    result = made(WIDE.join(["[top.centre]\nwidth = 73\nlength = 85\n", ""]))
    page = " ".join(quote_text(result, "studio", explain=True).split())
    assert "90 in without joins; 54 in joined, + 8 joins x 3 min at the wage, worth 28.05 in of this cloth" in page
    assert "+ 18 in that joining must save = 100.05 in" in page
    assert "joining must save" not in quote_text(result, "customer", explain=True)
