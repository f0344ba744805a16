"""Pieced tops: size, pieces and cloth, against worked examples, the trade's tables and the definition of a cutting.

Figures without a source are common practice; what follows from geometry says so beside it.
"""

import json
import math
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import Resolved, resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import FINEST
from finishcalc.model.materials import Fabric
from finishcalc.pipeline import finish
from finishcalc.plans.pieced.layout import top_layout
from finishcalc.plans.pieced.pieces import Pieces
from finishcalc.plans.pieced.plan import PiecedPlan, plan_pieced
from finishcalc.rendering.pages.cut import picture_files
from tests.builders import cut_text, inches, quote_text
from tests.strategies import examples

SASHED = """
[top.blocks]
across = {across}
down = {down}
size = 12
[top.sashing]
width = 3
outer = true
cornerstones = true
"""
ONE_CLOTH = "[top.piecing]\nfabric = { preset = 'cotton-44', name = 'cream' }\n"
BORDERS = f"""
{ONE_CLOTH}first = "top-and-bottom"
[[top.borders]]
cut = 1
[[top.borders]]
cut = "2 1/2"
[[top.borders]]
cut = 1
[[top.borders]]
cut = "3 1/2"
corners = "cornerstones"
"""


def read(text: str) -> Resolved:
    return resolve(Source("pieced", text))


def plan(text: str) -> PiecedPlan:
    """The plan of the top alone, as all plans hold it; its cloth is laid in other tests."""
    project = read(text).project
    assert project.top.pieced
    return plan_pieced(project.top.pieced, FINEST[project.units], project.sewing.cloth.shortest_piece)


def numbers(pieces: tuple[Pieces, ...]) -> list[tuple[Length, Length, int]]:
    return [(each.width, each.length, each.number) for each in pieces]


def strips(found: PiecedPlan) -> list[list[tuple[int, Length]]]:
    return [[(pair.number, pair.length) for pair in each.strips] for each in found.pieces.rounds]


# --- worked examples, common practice ---------------------------------------------------------------------------


def test_two_by_two_with_sashing_between_and_around_and_four_borders():
    """2 x 12 + 3 x 3 + 1/2 = 33 1/2; 4 blocks with 4 sides each, 4 of them shared: 12 strips; 3 x 3 cornerstones."""
    found = plan(SASHED.format(across=2, down=2) + BORDERS)
    assert found.centre == (inches("33 1/2"), inches("33 1/2"))
    assert numbers(found.pieces.sashing) == [(inches("3 1/2"), inches("12 1/2"), 12)]
    assert found.pieces.cornerstones == (inches("3 1/2"), inches("3 1/2"), 9, "any")
    assert strips(found) == [
        [(2, inches("33 1/2")), (2, inches("34 1/2"))],
        [(2, inches("34 1/2")), (2, inches("38 1/2"))],
        [(2, inches("38 1/2")), (2, inches("39 1/2"))],
        [(2, inches("39 1/2")), (2, inches("39 1/2"))],
    ]
    last = found.pieces.rounds[-1]
    assert last.corner_squares + found.pieces.cornerstones.number == 13
    assert last.after == (inches("45 1/2"), inches("45 1/2")) == found.top.size


def test_two_by_three_by_hand():
    """33 1/2 wide; 3 x 12 + 4 x 3 + 1/2 = 48 1/2 long. Strips: 3 x 3 beside the blocks + 2 x 4 between rows = 17, and
    3 x 4 = 12 cornerstones. Borders, top and bottom first, add 1, 4, 1 and 6: pairs 33 1/2 and 49 1/2, 34 1/2 and
    53 1/2, 38 1/2 and 54 1/2, then with cornerstones sides of 54 1/2 and ends of 39 1/2: 45 1/2 x 60 1/2."""
    found = plan(SASHED.format(across=2, down=3) + BORDERS)
    assert found.centre == (inches("33 1/2"), inches("48 1/2"))
    assert numbers(found.pieces.sashing) == [(inches("3 1/2"), inches("12 1/2"), 17)]
    assert found.pieces.cornerstones
    assert found.pieces.cornerstones.number == 12
    assert strips(found) == [
        [(2, inches("33 1/2")), (2, inches("49 1/2"))],
        [(2, inches("34 1/2")), (2, inches("53 1/2"))],
        [(2, inches("38 1/2")), (2, inches("54 1/2"))],
        [(2, inches("54 1/2")), (2, inches("39 1/2"))],
    ]
    assert found.top.size == (inches("45 1/2"), inches("60 1/2"))


def test_sashing_between_the_blocks_only_without_cornerstones():
    """3 x 4 of 10 with 2 between: 2 strips in each of 4 rows, 3 long ones of 3 x 10 + 2 x 2 + 1/2 = 34 1/2."""
    found = plan("[top.blocks]\nacross = 3\ndown = 4\nsize = 10\n[top.sashing]\nwidth = 2\n")
    assert numbers(found.pieces.sashing) == [
        (inches("2 1/2"), inches("10 1/2"), 8),
        (inches("2 1/2"), inches("34 1/2"), 3),
    ]
    assert found.pieces.cornerstones is None
    assert found.top.size == (inches("34 1/2"), inches("46 1/2"))


@pytest.mark.parametrize(
    ("size", "side", "corner"), [(12, "18 1/4", "9 3/8"), (10, "15 1/2", "8")], ids=["12 in", "10 in"]
)
def test_squares_for_setting_triangles(size, side, corner):
    """B x root 2 + 1 1/4 and B / root 2 + 7/8, up to the next eighth (derived; a table of the trade)."""
    found = plan(f'[top.blocks]\nacross = 4\ndown = 5\nsize = {size}\nsetting = "on-point"\n')
    squares = {each.use: each for each in found.pieces.triangles}
    assert (squares["side"].square, squares["corner"].square) == (inches(side), inches(corner))


def test_four_by_five_on_point():
    """12 in blocks: 4 x 16.97 = 67.88 by 5 x 16.97 = 84.85 finished; 20 + 12 blocks; 2 x 3 + 2 x 4 = 14 side
    triangles, four from a square: 4 squares; 4 corners from 2 (derived; a table of the trade)."""
    found = plan('[top.blocks]\nacross = 4\ndown = 5\nsize = 12\nsetting = "on-point"\n')
    finished = [float((side - inches("1/2")).to("in")) for side in found.centre]
    assert finished == pytest.approx([67.88, 84.85], abs=0.005)
    assert found.top.blocks
    assert found.top.blocks.number == 32
    assert [(each.use, each.squares, each.number) for each in found.pieces.triangles] == [
        ("side", 4, 14),
        ("corner", 2, 4),
    ]


def test_a_square_cut_nine_and_framed():
    """Triangles from 7 in squares cut once, two for each block; trimmed to 12 1/2, a quarter inch beyond each point:
    (12 1/2 - 8 1/2 x 1.41421) / 2 = 0.24."""
    found = plan("[top.blocks]\nacross = 2\ndown = 2\ninner = 9\n")
    (triangles,) = found.pieces.triangles
    assert (triangles.square, triangles.squares, triangles.number, triangles.cuts) == (inches(7), 8, 16, 1)
    assert found.pieces.block == inches("12 1/2")
    said = next(said for said in found.working if said.text.startswith("Trimmed"))
    assert float(said.values["past"].to("in")) == pytest.approx(0.24, abs=0.005)  # type: ignore[union-attr]


def test_borders_round_something_measured():
    """85 3/4 x 61, cut 6 1/2, sides first: 61 + 6 each side. Mitred, twice the width and 2 in more to hold."""
    text = "[top.centre]\nwidth = 61\nlength = '85 3/4'\n[[top.borders]]\ncut = '6 1/2'\n"
    assert strips(plan(text)) == [[(2, inches("85 3/4")), (2, inches(73))]]
    assert strips(plan(text + "corners = 'mitred'\n")) == [[(2, inches("100 3/4")), (2, inches(76))]]
    assert plan(text).top.size == plan(text + "corners = 'mitred'\n").top.size == (inches(73), inches("97 3/4"))


def test_border_strips_with_four_corners_come_to_338():
    """A border strip round 70 x 86 with four 6 1/2 in corners comes to 2 x (70 + 86) + 4 x 6 1/2 = 338
    (classroom lesson on quilt yardage)."""
    found = plan("[top.centre]\nwidth = 70\nlength = 86\n[[top.borders]]\ncut = '6 1/2'\ncorners = 'cornerstones'\n")
    (last,) = found.pieces.rounds
    strip = sum((pair.length * pair.number for pair in last.strips), ZERO)
    assert strip + last.border.cut * last.corner_squares == inches(338)


def test_on_point_with_sashing_counts_every_strip_once():
    """2 x 2 on point is 5 blocks of 4 sides; the one in the middle shares all 4 of its own: 16 strips. Corners of the
    diamonds: 3 x 2 + 2 x 3 = 12 cornerstones. Width: 2 x (10 + 2) x root 2."""
    sashing = "[top.sashing]\nwidth = 2\nouter = true\ncornerstones = true\n"
    found = plan('[top.blocks]\nacross = 2\ndown = 2\nsize = 10\nsetting = "on-point"\n' + sashing)
    assert numbers(found.pieces.sashing) == [(inches("2 1/2"), inches("10 1/2"), 16)]
    assert found.pieces.cornerstones
    assert found.pieces.cornerstones.number == 12
    assert float(found.centre.width.to("in")) == pytest.approx(24 * math.sqrt(2) + 0.5, abs=1e-9)


def test_metric_pieces_keep_metric_seams():
    """30 cm blocks with 0.75 cm seams: 2 x 30 + 1.5 = 61.5; a border cut 9.5 adds 2 x (9.5 - 1.5) = 16."""
    found = plan('units = "cm"\n[top.blocks]\nacross = 2\ndown = 2\nsize = 30\n[[top.borders]]\ncut = 9.5\n')
    assert [side.to("cm") for side in found.top.size] == [Fraction("77.5")] * 2
    assert [pair.length.to("cm") for pair in found.pieces.rounds[0].strips] == [Fraction("61.5"), Fraction("77.5")]


SIZES = st.sampled_from(["4", "6", "8 1/2", "9", "12"])
CUTS = st.sampled_from(["1", "1 1/4", "2 1/2", "3 1/2", "5", "8"])
CORNERS = st.sampled_from(["butted", "cornerstones", "mitred"])


@st.composite
def tops(draw: st.DrawFn) -> str:
    """A pieced top as a file would say it."""
    on_point = draw(st.booleans())
    across, down = draw(st.integers(1, 6)), draw(st.integers(1, 6))
    text = f'[top.blocks]\nacross = {across}\ndown = {down}\nsize = "{draw(SIZES)}"\n'
    text += 'setting = "on-point"\n' * on_point
    text += ONE_CLOTH if draw(st.booleans()) else "[top.piecing]\n"
    text += f'strips = "{draw(st.sampled_from(["any", "crosswise", "lengthwise"]))}"\n'
    text += f'join = "{draw(st.sampled_from(["diagonal", "straight"]))}"\n'
    if draw(st.booleans()):
        chosen = [key for key in ("outer", "cornerstones") if on_point or draw(st.booleans())]
        flags = "".join(f"{key} = true\n" for key in chosen)
        text += f"[top.sashing]\nwidth = {draw(st.integers(1, 3))}\n{flags}"
    for _ in range(draw(st.integers(0, 4))):
        text += f'[[top.borders]]\ncut = "{draw(CUTS)}"\ncorners = "{draw(CORNERS)}"\n'
    return text


@pytest.mark.parametrize(
    ("corners", "cloth", "warns"),
    [
        ("mitred", "directional = true", True),
        ("mitred", "repeat = 12", True),
        ("mitred", "repeat = 12, directional = true", True),
        ("mitred", "directional = false", False),
        ("butted", "directional = true", False),
        ("cornerstones", "directional = true", False),
    ],
)
def test_a_mitred_border_of_a_stripe_is_a_caution(corners: str, cloth: str, warns: bool):
    """Common practice: stripes meet in a mitre where the strips on both sides of it are cut alike."""
    result = finish(
        read(
            "[top.centre]\nwidth = 20\nlength = 30\n[[top.borders]]\ncut = 2\n[[top.borders]]\ncut = 3\n"
            f"corners = '{corners}'\nfabric = {{ preset = 'cotton-44', name = 'awning stripe', {cloth} }}\n"
        )
    )
    text = "Border 2 is mitred in awning stripe"
    found = [each.code for each in result.cautions if each.code in ("print-in-the-mitres", "border-repeat")]
    assert len(found) == warns
    pages = " ".join(" ".join(each.split()) for each in (cut_text(result), quote_text(result, "studio")))
    assert pages.count(text) == 2 * warns


def test_a_mitred_strip_is_cut_longer_than_the_tape_says():
    result = finish(read("[top.centre]\nwidth = 60\nlength = 99\n[[top.borders]]\ncut = 5\ncorners = 'mitred'\n"))
    assert "a mitred strip longer by twice its width and 2 in" in " ".join(cut_text(result).split())


@pytest.mark.parametrize("sashing", ["", "[top.sashing]\nwidth = 2\nouter = true\n"])
def test_one_block_has_no_rows_to_press_against(sashing):
    told = cut_text(finish(read(f"[top.blocks]\nacross = 1\ndown = 1\nsize = 12\n{sashing}")))
    assert "1 blocks" not in told
    assert "other way" not in told
    assert "between them" not in told


# --- properties -------------------------------------------------------------------------------------------------


@examples(40)
@given(text=tops())
def test_each_round_adds_what_it_must(text):
    """Two widths and less four seam allowances, on both sides, whatever the corners."""
    found = plan(text)
    for each in found.pieces.rounds:
        added = each.border.cut * 2 - found.top.seam * 4
        assert each.after == (each.before.width + added, each.before.length + added)


@examples(40)
@given(text=tops(), first=st.sampled_from(["sides", "top-and-bottom"]))
def test_butted_strips_sewn_in_order_give_the_size(text, first):
    """Sewing a strip on adds its width less two seam allowances; it must be as long as the side it goes on."""
    found = plan(text.replace("[top.piecing]\n", f'[top.piecing]\nfirst = "{first}"\n'))
    for each in (each for each in found.pieces.rounds if each.border.corners == "butted"):
        width, length = each.before
        for on_sides, pair in zip((first == "sides", first != "sides"), each.strips, strict=True):
            grown = pair.width * 2 - found.top.seam * 4
            assert pair.length == (length if on_sides else width)
            width, length = (width + grown, length) if on_sides else (width, length + grown)
        assert (width, length) == each.after


@examples(30)
@given(text=tops())
def test_corners_do_not_change_the_size(text):
    sizes = {
        plan(
            text.replace('"butted"', f'"{way}"').replace('"mitred"', f'"{way}"').replace('"cornerstones"', f'"{way}"')
        ).top.size
        for way in ("butted", "cornerstones", "mitred")
    }
    assert len(sizes) == 1


@examples(30)
@given(text=tops())
def test_swapping_across_and_down_swaps_width_and_length(text):
    swapped = text.replace("across =", "x =").replace("down =", "across =").replace("x =", "down =")
    width, length = plan(text).top.size
    assert plan(swapped).top.size == (length, width)


@examples(40)
@given(text=tops())
def test_a_mitred_strip_is_never_short(text):
    """Its outer edge is as long as the round's side, and the mitre's seam takes root 2 of its allowance at each end."""
    found = plan(text)
    for each in (each for each in found.pieces.rounds if each.border.corners == "mitred"):
        ends, sides = each.after
        for pair, side in zip(each.strips, (sides, ends), strict=True):
            assert float(pair.length.to("in")) >= float(side.to("in")) + 2 * math.sqrt(2) * float(
                found.top.seam.to("in")
            )


@examples(40)
@given(text=tops())
def test_the_pieces_of_the_picture_cover_the_top_once(text):
    """Every named piece, every mitred ring less what lies within it, and the centre on point make the whole top."""
    found = plan(text)
    layout, size, seam = top_layout(found.top), found.top.size, found.top.seam
    areas = sum((each.width * each.length).mm2 for each in layout.pieces)
    mitred = [each for each in found.pieces.rounds if each.border.corners == "mitred"]
    within = sum((each.before.width - seam * 2).mm * (each.before.length - seam * 2).mm for each in mitred)
    assert areas - within == (size.width * size.length).mm2
    for piece in layout.pieces:
        assert piece.x >= ZERO
        assert piece.x + piece.width <= size.width
        assert piece.y >= ZERO
        assert piece.y + piece.length <= size.length


def test_the_order_of_sewing_and_why_a_mitre_is_longer():
    text = SASHED.format(across=2, down=2) + "[[top.borders]]\ncut = 4\ncorners = 'mitred'\n[[top.borders]]\ncut = 2\n"
    result = finish(read(text))
    told = " ".join(cut_text(result).split())
    steps = ("1. sew 2 rows", "2. sew 3 rows", "border 1, cut 4 in", "border 2, cut 2 in")
    places = [told.index(words) for words in steps]
    assert places == sorted(places)
    assert told.count("press towards the sashing") == 2
    assert told.count("press towards the border") == 2
    shown = " ".join(quote_text(result, "customer", explain=True).split())
    assert "Border 1, mitred: 33 1/2 in + 2 x 4 in + 2 in = 43 1/2 in; each end runs the border's width past" in shown


def test_the_picture_of_the_top_is_drawn_as_text_and_as_svg():
    """3 x 4 on point, mitred: seven seams rise and seven fall across the centre, four mitres at the corners."""
    text = '[top.blocks]\nacross = 3\ndown = 4\nsize = 10\nsetting = "on-point"\n[[top.borders]]\ncut = 6\n'
    result = finish(read(text + 'corners = "mitred"\n'))
    drawing = ElementTree.fromstring(picture_files(result)["top.svg"])
    seams = [each for each in drawing.iter() if each.get("class") == "seam"]
    assert len(seams) == 7 + 7 + 4
    told = cut_text(result)
    assert "The top: 18 blocks of 10 in, 54 x 68 1/8 in, unfinished size" in told
    assert told.count("╳") >= 3 * 2


def test_the_result_as_json():
    found = json.loads(quote_document(finish(read(SASHED.format(across=2, down=2) + BORDERS))))["top"]["pieced"]
    assert found["centre"] == {"width": 33.5, "length": 33.5}
    assert found["blocks"] == {"count": 4, "cut": 12.5, "plain": 0, "cloth_listed": "none", "patches": []}
    assert found["sashing"] == [{"width": 3.5, "length": 12.5, "count": 12, "run": "any"}]
    assert found["cornerstones"] == [{"size": 3.5, "count": 9}]
    assert found["borders"][3] == {
        "cut": 3.5,
        "corners": "cornerstones",
        "corner_squares": 4,
        "width": 45.5,
        "length": 45.5,
        "strips": [{"length": 39.5, "count": 2, "run": "any"}] * 2,
    }


def test_what_a_border_says_stands_over_what_is_said_for_all():
    text = "[top.centre]\nwidth = 40\nlength = 50\n[top.piecing]\ncorners = 'mitred'\nfabric = 'linen-60'\n"
    text += "[[top.borders]]\ncut = 3\n[[top.borders]]\ncut = 4\ncorners = 'butted'\nfabric = 'cotton-44'\n"
    top = plan(text).top
    assert [border.corners for border in top.borders] == ["mitred", "butted"]
    names = [border.cloth.fabric.name for border in top.borders if isinstance(border.cloth.fabric, Fabric)]
    assert names == ["table linen, 60 in wide", "quilting cotton, 44 in wide"]


@pytest.mark.parametrize(
    ("blocks", "stones"),
    [
        ("across = 1\ndown = 3\n", False),  # two strips, one above the other, which nothing crosses
        ("across = 2\ndown = 2\n", True),
        # the block in the middle has a strip at each of its sides, each of which ends at two side triangles
        ("across = 2\ndown = 2\nsetting = 'on-point'\n", False),
        ("across = 3\ndown = 2\nsetting = 'on-point'\n", True),
    ],
)
def test_cornerstones_are_told_of_only_where_there_are_some(blocks: str, stones: bool):
    result = finish(read(f"[top.blocks]\n{blocks}size = 12\n[top.sashing]\nwidth = 2\ncornerstones = true\n"))
    assert result.plans.pieced
    assert bool(result.plans.pieced.pieces.cornerstones) is stones
    for text in (cut_text(result), quote_text(result, "studio"), quote_text(result, "customer")):
        assert ("cornerstone" in text) is stones
