"""One design in many sizes: each row is the quote of the project that is written for it."""

import json
import re
import shlex
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.in_house import samples_of
from finishcalc.comparing.design import Design
from finishcalc.comparing.projects import project_files
from finishcalc.comparing.sizes import Comparison, compare_sizes, written
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import ZERO, Length
from finishcalc.pipeline import finish
from finishcalc.problems import ProblemsFound
from tests.builders import CLOTH, EACH_PROJECT, PIECED, PROJECTS, in_file, inches, quoted, run, sample, sized
from tests.strategies import examples

SIZES = ("twin", "queen drop 14 tuck 10", "60x84", "table 36x72 drop 10", "throw 50 x 65 1/2")


def mistakes(path: Path, *sizes: str) -> list[str]:
    with pytest.raises(ProblemsFound) as found:
        sized(path, *sizes)
    told = [f"{each.file}: {each.path}: {each.message}: {each.hint}" for each in found.value.problems]
    return [each.replace("\u00a0", " ") for each in told]


# --- what a size says ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "shape", "width", "length", "use"),
    [
        ("twin", "rectangle", 63, 87, "bed"),  # a classroom lesson: 12 drop, no tuck
        ("Queen", "rectangle", 84, 92, "bed"),
        ("bed queen", "rectangle", 84, 92, "bed"),
        ("queen drop 14 tuck 10", "rectangle", 88, 104, "bed"),  # derived, as in the covers' own tests
        ("king drop 14 tuck 10", "rectangle", 104, 104, "bed"),
        ("queen drop 14 foot 18", "rectangle", 88, 98, "bed"),
        ("queen drop 1 foot", "rectangle", 84, 92, "bed"),
        ("queen\tdrop\u00a014", "rectangle", 88, 94, "bed"),
        ("5 foot x 7 foot", "rectangle", 60, 84, "tablecloth"),
        ("bed 60x80 drop 12", "rectangle", 84, 92, "bed"),
        ("crib", "rectangle", 28, "52 3/8", "crib"),  # a crib takes no drop
        ("bed 28x52", "rectangle", 28, 52, "crib"),
        ("crib drop 6", "rectangle", 40, "58 3/8", "crib"),
        ("60x84", "rectangle", 60, 84, "tablecloth"),
        ("60 1/2 x 84", "rectangle", "60 1/2", 84, "tablecloth"),
        ("60½×84", "rectangle", "60 1/2", 84, "tablecloth"),
        ("60 1/2 by 84", "rectangle", "60 1/2", 84, "tablecloth"),
        ("queen bed drop 12", "rectangle", 84, 92, "bed"),
        ("5 ft x 7 ft", "rectangle", 60, 84, "tablecloth"),
        ("152.4x254 cm", "rectangle", 60, 100, "tablecloth"),  # at 2.54 cm an inch: one unit is that of both sides
        ("oval 1.27 x 2.54m", "oval", 50, 100, "tablecloth"),
        ("60 x 7 ft", "rectangle", 60, 84, "tablecloth"),  # feet and inches go together
        ("round 70", "round", 70, 70, "tablecloth"),
        ("oval 60x84", "oval", 60, 84, "tablecloth"),
        ("throw 50x65", "rectangle", 50, 65, "throw"),
        ("wall round 40", "round", 40, 40, "wall"),
        ("table 36x72 drop 10", "rectangle", 56, 92, "tablecloth"),
        ("table round 60 drop 15", "round", 90, 90, "tablecloth"),
        ("table oval 42x72 drop 10", "oval", 62, 92, "tablecloth"),
        ("trestle-6ft drop 12", "rectangle", 54, 96, "tablecloth"),
        ("round-6 drop 10", "round", 80, 80, "tablecloth"),
        ("queen drop 14 tuck 10 draw-up 4 %", "rectangle", "91 2/3", "108 1/3", "bed"),  # 88 / 0.96, 104 / 0.96
    ],
)
def test_a_size_is_what_it_says(said: str, shape: str, width: int | str, length: int | str, use: str):
    top = sized(CLOTH, said).rows[1].result.plans.top
    assert (top.shape.name, top.shape.width, top.shape.length) == (shape, inches(width), inches(length))
    assert top.use == use


@pytest.mark.parametrize(
    ("bed", "said", "width", "length"),
    [
        ("queen", "crib", 28, "52 3/8"),
        ("queen", "bed 28x52", 28, 52),
        ("queen", "twin", 67, 89),  # 39 + 2 x 14, 75 + 14
        ("crib", "twin", 63, 87),  # the shop's usual 12
        ("crib", "small-crib", 52, 52),  # 24 + 2 x 14, 38 + 14: it is asked for on a crib
    ],
)
def test_a_crib_takes_no_drop_from_a_larger_bed(bed: str, said: str, width: int, length: int | str, tmp_path: Path):
    path = in_file(f"[top.covers]\nbed = '{bed}'\ndrop = 14\n", tmp_path)
    shape = sized(path, said).rows[1].result.plans.top.shape
    assert (shape.width, shape.length) == (inches(width), inches(length))


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("quen", 'did you mean "queen"?'),
        ("trestl6ft", 'did you mean "trestle-6ft"?'),
        ("double", "double may be: full or uk-double"),
        ("bed quen", 'did you mean "queen"?'),
        ("tabel 36x72", 'did you mean "table"?'),
        ("banana", "give a bed or table by its name"),
        ("60", "give a bed or table by its name"),
        ("round", "round-6"),
        ("throw", 'a throw has no size of its own: write it as in "throw 50x65"'),
        ("lap", 'a throw has no size of its own: write it as in "throw 50x65"'),
        ("60x84 drop 5", "only the cover of a bed or table has a drop"),
        ("queen drop", "gives no amount for drop"),
        ("queen drop 12 drop 14", "gives one word twice"),
        ("queen drop abc", '"abc" is not a length'),
        ("60 x abc", '"abc" is not a length'),
        ("bed round 60", "a bed is a rectangle"),
        ("queen drop 200", "200 in is out of bounds"),
        ("table 36x72 tuck 5", "only a bed has a foot and pillows"),
        ("300x300", "300 in is out of bounds"),
        ("queen draw-up 3", "is not a percentage"),
        ("", "give a bed or table by its name"),
        ("queen drop-in 3", "is not a known bed, table or size"),
        ("table drop-leaf 10", "is not a known bed, table or size"),
        ("\x1b[31mqueen", "is not a known bed, table or size"),
    ],
)
def test_what_fits_nothing_suggests_the_nearest(said: str, words: str):
    told = mistakes(CLOTH, said)
    assert any(words in each for each in told)
    assert all(each.startswith(f'--as "{said}"') for each in told)


def test_all_sizes_that_are_wrong_are_told_at_once():
    assert len(mistakes(CLOTH, "quen", "twin", "tuin", "60x84 drop 5")) == 3


def test_a_mistake_of_the_file_itself_is_told_of_the_file(tmp_path: Path):
    path = in_file("[top]\nwidth = 60\n", tmp_path)
    assert mistakes(path, "queen")[0].startswith(f"{path}: top.length: is missing")


def test_every_description_of_a_size_gives_way(tmp_path: Path):
    for lines in (
        "width = 60\nlength = 80", "diameter = 70", "shape = 'oval'\nwidth = 60\nlength = 80",
        "measured = { widths = [60], lengths = [80] }", "covers = { bed = 'queen', drop = 14 }",
        "covers = { table = 'round-6' }", "width = 60\nlength = 80\ncorner_radius = 5",
        "width = 60\nlength = 80\nscallop = { chord = 6, depth = 1 }",
    ):  # fmt: skip
        path = in_file(f"[top]\n{lines}\n", tmp_path)
        found = sized(path, "60x84", "round 70", "table 36x72 drop 10", "twin drop 12").rows
        sizes = [(row.result.plans.top.shape.width, row.result.plans.top.shape.length) for row in found[1:]]
        assert sizes == [(inches(wide), inches(long)) for wide, long in ((60, 84), (70, 70), (56, 92), (63, 87))], lines


def test_a_cut_on_the_straight_grain_gives_way_on_a_curve(tmp_path: Path):
    path = in_file("[top]\nwidth = 60\nlength = 80\n[binding]\ncut = 'lengthwise'\n", tmp_path)
    rows = sized(path, "round 70", "50x65").rows
    assert [row.result.plans.binding and row.result.plans.binding.cut for row in rows] == [
        "lengthwise", "bias", "lengthwise",
    ]  # fmt: skip


@pytest.mark.parametrize("own", ["shape = 'oval'\nwidth = 60\nlength = 80", "covers = { table = 'oval-6' }"])
def test_an_oval_stays_oval_where_one_is_asked_for(own: str, tmp_path: Path):
    shapes = [
        row.result.plans.top.shape.name
        for row in sized(in_file(f"[top]\n{own}\n", tmp_path), "oval 60x70", "60x70").rows
    ]
    assert shapes == ["oval", "oval", "rectangle"]


@pytest.mark.parametrize("usual", ["oval", "round", "rectangle"])
def test_a_shop_s_usual_shape_gives_way(usual: str, tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text(f"[usual.top]\nshape = '{usual}'\n")
    path = in_file("[top.covers]\ntable = 'card'\n", tmp_path)
    design = Design.of_file(str(path), str(shop))
    comparison = compare_sizes(design, ("queen", "round 50", "94x50", "oval 60x70", "table 36x72 drop 10"))
    shapes = [row.result.plans.top.shape.name for row in comparison.rows[1:]]
    assert shapes == ["rectangle", "round", "rectangle", "oval", "rectangle"]
    same_as_written(comparison, str(shop))


def test_a_shop_that_knows_the_size_of_its_tops_compares_too(tmp_path: Path):
    (tmp_path / "s.toml").write_text("[usual.top.covers]\nbed = 'queen'\n")
    assert sized(in_file("shop = 's.toml'\n", tmp_path)).rows[0].result.plans.top.shape.width == inches(84)


def test_what_the_project_says_of_its_cover_holds_for_another_of_its_kind(tmp_path: Path):
    lines = "[top.covers]\nbed = 'queen'\ndrop = 14\npillow_tuck = 10\ndraw_up = '4 %'\n"
    rows = sized(in_file(lines, tmp_path), "twin", "twin drop 9", "card").rows
    quilted = [row.result.plans.top.covers and row.result.plans.top.covers.quilted for row in rows]
    assert quilted == [
        (inches(88), inches(104)), (inches(67), inches(99)), (inches(57), inches(94)),
        (inches(58), inches(58)),  # a table has the shop's usual drop of 12, and is drawn up as well
    ]  # fmt: skip
    assert all(row.result.plans.top.shape.width * 1 == quilted_size.width / (1 - row.result.plans.top.covers.draw_up)
               for row, quilted_size in zip(rows, quilted, strict=True))  # fmt: skip


def test_the_use_of_a_cover_stays_when_a_size_takes_its_place():
    """A round cloth in place of one for a long table is still a cloth near candles."""
    row = sized(sample("orchard-long-table.toml"), "round 70").rows[1]
    assert row.result.plans.top.use == "tablecloth"
    assert "candles" in {each.code for each in row.result.cautions}


# --- a row is the quote of the written project ---------------------------------------------------------------


def same_as_written(comparison: Comparison, shop: str | None = None, folder: Path | None = None) -> None:
    for row in comparison.rows[1:]:
        assert row.change
        text = project_toml(comparison.source, row.change)
        again = finish(resolve(Source("written.toml", text), shop, folder))
        assert again.plans == row.result.plans
        assert again.quote == row.result.quote
        assert again.cautions == row.result.cautions
        assert samples_of(again) == samples_of(row.result)


@pytest.mark.no_cover
@pytest.mark.parametrize("path", EACH_PROJECT, ids=lambda path: path.stem)
@pytest.mark.parametrize("widen", [True, False])
def test_each_sample_s_rows_are_the_quotes_of_what_is_written(path: Path, widen: bool):
    same_as_written(sized(path, *SIZES, widen=widen))


@examples(40)
@given(st.integers(30, 110), st.integers(30, 120), st.sampled_from(["", "round ", "oval ", "bed ", "table "]),
       st.sampled_from([CLOTH, sample("oval-cloth-cm.toml"), PIECED]))  # fmt: skip
def test_any_row_is_the_quote_of_what_is_written(width: int, length: int, kind: str, path: Path):
    """To the minor unit and to the last length."""
    if path == PIECED and kind in ("round ", "oval "):
        kind = ""
    size = f"{width}" if kind == "round " else f"{width}x{length}"
    same_as_written(sized(path, kind + size))


@examples(20)
@given(st.permutations(SIZES), st.sampled_from([CLOTH, PIECED]))
def test_the_order_of_the_sizes_does_not_matter_to_a_row(sizes: list[str], path: Path):
    usual = {row.name: row for row in sized(path, *SIZES).rows}
    for row in sized(path, *sizes).rows:
        assert row.result.plans == usual[row.name].result.plans
        assert row.result.quote == usual[row.name].result.quote
        assert row.refit == usual[row.name].refit


def test_the_first_row_is_the_file_as_it_is():
    first = sized(CLOTH, "twin").rows[0]
    result = quoted(CLOTH.read_text())
    assert first.name == "as it is"
    assert (first.result.plans, first.result.quote) == (result.plans, result.quote)


def test_the_difference_is_to_the_first():
    found = sized(CLOTH, "twin", "throw 40x50")
    totals = [row.result.quote.total.minor for row in found.rows]
    assert [found.difference(row).minor for row in found.rows] == [total - totals[0] for total in totals]
    assert totals[1] > totals[0] > totals[2]


# --- pieced designs ------------------------------------------------------------------------------------------


def test_a_pieced_design_is_refitted_and_says_how():
    """Blocks of 10, sashing of 2 and the borders: 12 n + 17 1/2; for 63 x 87, 3 and 5 make 53 1/2 x 77 1/2, which leave
    9 1/2 each: 4 3/4 on each side."""
    row = sized(PIECED, "twin").rows[1]
    assert row.refit
    assert row.refit.target == (inches(63), inches(87))
    assert (row.refit.taken.across, row.refit.taken.down, row.refit.taken.wider) == (3, 5, inches("4 3/4"))
    assert row.refit.next_best
    assert (row.refit.next_best.rounding, row.refit.next_best.across, row.refit.next_best.down) == ("from above", 4, 6)
    assert row.refit.hangs
    assert (row.refit.hangs.drop, row.refit.hangs.foot_drop) == (inches(12), inches(12))
    words = " ".join(run("compare", str(PIECED), "--as", "twin").stdout.split())
    assert (
        "twin: 63 x 87 in asked; rounded down to 3 x 5 blocks with the last border cut 4 3/4 in wider: 63 x 87 in, as "
        "asked; hangs 12 in at the sides and the foot; once finished about 11 in at the sides and 9 in at the foot; "
        "next best rounded up to 4 x 6 blocks: 65 1/2 x 89 1/2 in, 2 1/2 in more across and 2 1/2 in more down"
    ) in words


def test_a_border_may_be_left_as_it_is():
    """53 1/2 x 77 1/2 misses by 19 in all, 65 1/2 x 89 1/2 by 5: from above is nearer."""
    row = sized(PIECED, "twin", widen=False).rows[1]
    assert row.refit
    assert (row.refit.taken.rounding, row.refit.taken.across, row.refit.taken.wider.mm) == ("from above", 4, 0)
    assert run("compare", str(PIECED), "--as", "twin", "--keep-borders").stdout.count("wider") == 0


def test_the_use_of_a_refitted_design_is_that_of_the_size():
    tops = [row.result.plans.top for row in sized(PIECED, "twin", "crib", "40x60").rows]
    assert [top.use for top in tops] == ["tablecloth", "bed", "crib", "tablecloth"]


def test_a_bed_is_covered_rather_with_more_than_with_less(tmp_path: Path):
    """6 x 5 blocks of 12 with sashing of 2 in a border of 6 1/2 are 98 1/2 by 84 1/2. For 100 x 92 that is nearer with
    the border 3/4 wider, 100 by 86, off by 6 in all, than 6 x 6 blocks, 98 1/2 square, off by 8. But 86 - 80 = 6 at the
    foot lets a mattress 10 deep show. On a table of that size nothing shows, and the nearer one is taken."""
    (tmp_path / "shop.toml").write_text("[beds.king]\ndepth = 10\n")
    path = in_file("shop = 'shop.toml'\n" + sample("lighthouse-bed-quilt.toml").read_text(), tmp_path)
    bed, table = sized(path, "king", "table 76x68 drop 12").rows[1:]
    assert bed.refit
    assert (bed.refit.taken.across, bed.refit.taken.down, bed.refit.taken.wider) == (6, 6, ZERO)
    assert bed.refit.next_best
    assert bed.refit.next_best.size == (inches(100), inches(86))
    assert table.refit
    assert table.refit.taken.size == (inches(100), inches(86))


def test_a_refitted_design_that_lets_the_mattress_show_says_so():
    """Where the drop that is asked for lets it show, 6 of 10 in, the nearest is taken."""
    row = sized(sample("lighthouse-bed-quilt.toml"), "king drop 12 foot 6").rows[1]
    assert row.refit
    assert row.refit.taken.size == (inches(100), inches(86))
    assert row.refit.hangs
    assert row.refit.hangs.foot_drop == inches(6)
    assert "mattress-shows" in {each.code for each in row.cautions}


def test_a_mistake_that_comes_of_a_size_names_it(tmp_path: Path):
    path = in_file("[top]\nwidth = 60\nlength = 80\ncorner_radius = 6\n", tmp_path)
    assert mistakes(path, "10x10") == [
        f'{path}: top.corner_radius: is more than half the shorter side, for --as "10x10": give a smaller radius'
    ]


def test_a_file_in_one_line_is_written_in_one_line(tmp_path: Path):
    path = in_file("top = { width = 60, length = 80 }\n", tmp_path)
    comparison = sized(path, "king", "table 36x72 drop 10", "60x90")
    same_as_written(comparison)
    assert "covers = {bed" in project_files(comparison)["top-king.toml"].replace("{ ", "{")


def test_the_page_says_how_each_cover_hangs(tmp_path: Path):
    path = in_file("[top.covers]\nbed = 'queen'\ndrop = 14\ndraw_up = '3 %'\n", tmp_path)
    page = " ".join(run("compare", str(path), "--as", "round-6", "--as", "king").stdout.split())
    both = "as it is (queen bed, 60 x 80 in), king (king bed, 76 x 80 in)"
    assert f"{both}: hangs 14 in at the sides and the foot, drawn up 3 %" in page
    assert "round-6 (round table for six, 60 in across): hangs 12 in all round, drawn up 3 % by quilting" in page


def test_what_is_said_of_two_sizes_is_said_once():
    """Two beds of one drop hang alike, and one mattress is as deep as the other."""
    page = " ".join(run("compare", str(CLOTH), "--as", "queen", "--as", "king").stdout.split())
    covers = page[page.index("Covers ") : page.index("To one scale")]
    assert covers.count("hangs 12 in") == 1
    assert covers.count("The mattress is 12 in deep") == 1
    assert "queen, king: The mattress" in covers


def test_areas_of_a_pieced_design_stay_with_it(tmp_path: Path):
    text = PIECED.read_text() + "\n[[quilting.areas]]\nstyle = 'channels-3'\npart = 'borders'\n"
    comparison = sized(in_file(text, tmp_path), "queen", "60x84")
    same_as_written(comparison)
    assert [len(row.result.plans.quilting.areas) for row in comparison.rows] == [2, 2, 2]


def test_blocks_make_no_round_cloth():
    told = mistakes(PIECED, "round 70", "round-6")
    assert [each.split(": ")[2] for each in told] == ["blocks and borders make a rectangle, not round"] * 2


def test_a_border_is_not_widened_beyond_its_cloth(tmp_path: Path):
    """One block of 40 in a border that adds 19: 59 1/2. To 82 the border would be cut 10 + 11 1/4 = 21 1/4, of which
    two for a join do not fit on 40 usable; so it is cut 20, which makes 40 + 1/2 + 2 x 19 1/2 = 79 1/2."""
    text = "[top.blocks]\nacross = 1\ndown = 1\nsize = 40\n[[top.borders]]\ncut = 10\n"
    row = sized(in_file(text, tmp_path), "82x82").rows[1]
    assert row.refit
    assert (row.refit.taken.across, row.refit.taken.wider) == (1, inches(10))
    assert row.result.plans.top.shape.width == inches("79 1/2")


@given(st.fractions(0, 40, max_denominator=64))
def test_a_length_is_written_so_that_it_is_read_again(number):
    for units in ("in", "cm"):
        length = Length.of(number, units)
        assert Length.take(written(length, units), units) == length


LAYOUTS = [
    'top.diameter = 86\nunits = "cm"\n',
    'top.covers.table = "card"\nunits = "in"\n',
    'binding.cut = "bias"\n[top]\nwidth = 60\nlength = 80\n',
    "top.width = 60\ntop.length = 80",
    "[top]\nwidth = 60\nlength = 80\n[backing]\noverage = 3.5",
    "[top.covers]\nbed = 'queen'\ndrop = 14.1\n",
    "top = { width = 60, length = 80, use = 'bed' }\r\n[backing]\r\noverage = 3\r\n",
    "[top.covers]\nbed = 'queen'\n[backing]\noverage = 3\n[top]\nuse = 'bed'\n",
    "\ufefftitle = 'a'\n[top]\nwidth = 60\nlength = 80\n",
]


@pytest.mark.parametrize("text", LAYOUTS)
def test_every_layout_of_a_file_is_written_again(text: str, tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_bytes(text.encode())
    same_as_written(sized(path, "queen", "round 50", "60x84", "twin drop 12.5"))


@pytest.mark.parametrize(
    "text",
    [
        "top.blocks.down = 1\ntop.blocks.size = 7\ntop.blocks.across = 2",
        "top = { blocks = { across = 2, down = 3, size = 10 }, borders = [{ cut = 3 }] }",
        "[top.blocks]\nacross = 2\ndown = 3\nsize = 10\n[backing]\noverage = 3\n[[top.borders]]\ncut = 3.5\n",
    ],
)
def test_every_layout_of_a_pieced_file_is_written_again(text: str, tmp_path: Path):
    same_as_written(sized(in_file(text, tmp_path), "67x45", "queen"))


COMMENTED = [
    """# Head of the file
title = "Aunt's quilt"  # hers

[top.covers]
bed = "queen"  # she measured
drop = 14   # the bride asked for 14
# --- backing: aunt's cloth, wash first ---
[backing]
overage = 4  # "as always" # twice

# the end
""",
    "# head\ntop.blocks.down = 1 # one\ntop.blocks.size = 7 # finished\ntop.blocks.across = 2\n# tail",
    "top = { width = 60, length = 80, use = 'bed' }  # on one line\r\n# next\r\n[backing]\r\noverage = 3 # three\r\n",
    "[top.blocks] # the design\nacross = 2\ndown = 3\nsize = 10\n# round it\n[[top.borders]] # one\ncut = 3.5 # wide\n",
    "title = '# none'\n[top]\nwidth = 60 # w\n# between\nlength = 80 # l\n# after\n",
    '[job]\nnotes = """\n# none\n""" # said\n[top]\ndiameter = 60 # across\n',
]


@pytest.mark.parametrize("text", COMMENTED)
@pytest.mark.parametrize("size", ["king", "60x84", "king drop 13"])
def test_no_comment_is_lost_whatever_is_taken_away(text: str, size: str, tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_bytes(text.encode())
    if "notes" in text:
        text = text.replace("\n# none\n", "")  # within a text it is none
    said = re.findall(r"#[^\r\n]*", text.replace("'# none'", ""))
    (written,) = project_files(sized(path, size)).values()
    assert all(comment.strip() in written for comment in said), written
    same_as_written(sized(path, size))


def test_a_comment_stays_where_it_belongs(tmp_path: Path):
    (written,) = project_files(sized(in_file(COMMENTED[0], tmp_path), "king")).values()
    assert 'bed = "king"  # she measured\ndrop = 14  # the bride asked for 14\n' in written
    assert "# --- backing: aunt's cloth, wash first ---\n[backing]\n" in written
    (plain,) = project_files(sized(in_file(COMMENTED[0], tmp_path), "60x84")).values()
    assert "# drop = 14   # the bride asked for 14\n" in plain
    (pieced,) = project_files(sized(in_file(COMMENTED[1], tmp_path), "king")).values()
    assert re.search(r"^top\.blocks\.down = \d+ +# one$", pieced, re.M)
    assert pieced.index("# head") < pieced.index("down =")


def test_the_next_best_is_another_count_of_blocks():
    row = sized(PIECED, "twin").rows[1]
    assert row.refit
    assert row.refit.next_best
    assert (row.refit.next_best.across, row.refit.next_best.down) != (row.refit.taken.across, row.refit.taken.down)


@pytest.mark.parametrize(("way", "wider", "taken"), [("crosswise", "17", 2), ("lengthwise", "24 1/4", 1)])
def test_a_border_cut_along_the_cloth_may_be_wider(way: str, wider: str, taken: int, tmp_path: Path):
    """One block of 50 and a border cut 3 make 55 1/2; for 104 the border would be 24 1/4 wider. Across 40 of
    usable width two strips lie side by side, so it is cut 20 at the most, 17 wider; two blocks, 105 1/2, are nearer."""
    design = f"[top.blocks]\nacross = 1\ndown = 1\nsize = 50\n[[top.borders]]\ncut = 3\nstrips = '{way}'\n"
    refit = sized(in_file(design, tmp_path), "104x104").rows[1].refit
    assert refit
    assert refit.taken.across == taken
    assert inches(wider) in (refit.taken.wider, refit.next_best.wider if refit.next_best else None)


SAMPLE_COMMANDS = [
    (path, line.removeprefix("# finishcalc "))
    for path in PROJECTS
    for line in path.read_text(encoding="utf-8").splitlines()
    if line.startswith("# finishcalc ")
]


@pytest.mark.parametrize(("path", "command"), SAMPLE_COMMANDS, ids=lambda each: getattr(each, "stem", None))
def test_the_commands_of_the_samples_run(path: Path, command: str):
    words = [str(path) if word == path.name else word for word in shlex.split(command)]
    found = run(*words)
    assert found.exit_code == 0, found.stderr
    drawn = found.stdout.partition("from one corner:")[2]
    labels = re.findall(r"^[A-Z]  (.*):", drawn, re.M)
    assert sum(1 + names.count(", ") for names in labels) == 1 + words.count("--as")


# --- files ---------------------------------------------------------------------------------------------------


def test_each_size_is_written_as_a_project_with_its_comments(tmp_path: Path):
    result = run("compare", str(CLOTH), "--as", "twin", "--as", "table 36x72 drop 10", "--write", str(tmp_path / "new"))
    assert result.exit_code == 0
    names = sorted(path.name for path in (tmp_path / "new").iterdir())
    assert names == ["boathouse-supper-cloth-table-36x72-drop-10.toml", "boathouse-supper-cloth-twin.toml"]
    text = (tmp_path / "new" / names[1]).read_text()
    assert "# A quilted tablecloth that a studio quotes to a customer" in text
    assert 'product = "none"                # a cloth lies flatter without' in text
    assert tomllib.loads(text)["title"] == "Supper cloth for the boathouse, twin"
    total = re.search(r"^Total, USD +([\d.]+)", run("quote", str(tmp_path / "new" / names[1])).stdout, re.M)
    assert total
    assert f" {total[1]} *" in result.stdout
    assert f"wrote {tmp_path / 'new' / names[1]}" in result.stdout


def test_nothing_is_written_over_nor_half(tmp_path: Path):
    (tmp_path / "boathouse-supper-cloth-twin.toml").write_text("hers")
    arguments = ("compare", str(CLOTH), "--as", "queen", "--as", "twin", "--write", str(tmp_path), "--svg",
                 str(tmp_path / "pictures"))  # fmt: skip
    result = run(*arguments)
    assert (result.exit_code, result.stdout) == (1, "")
    assert "already exists" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["boathouse-supper-cloth-twin.toml"]
    assert run(*arguments, "--force").exit_code == 0
    assert len(list(tmp_path.iterdir())) == 3


def test_the_shop_that_the_project_names_goes_along(tmp_path: Path):
    (tmp_path / "rates").mkdir()
    (tmp_path / "rates" / "shop.toml").write_text("[rates]\nseam = 1\n")
    path = in_file("shop = 'rates/shop.toml'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    result = run("compare", str(path), "--as", "twin", "--write", str(tmp_path / "new"))
    assert result.exit_code == 0
    assert (tmp_path / "new" / "rates" / "shop.toml").read_text() == "[rates]\nseam = 1\n"
    again = run("quote", str(tmp_path / "new" / "top-twin.toml"), "--json")
    assert json.loads(again.stdout)["quote"]["total"] == str(sized(path, "twin").rows[1].result.quote.total)
    assert run("compare", str(path), "--as", "queen", "--write", str(tmp_path / "new")).exit_code == 0
    assert run("compare", str(path), "--as", "queen", "--write", str(tmp_path)).exit_code == 0


@pytest.mark.parametrize("name", ["top-twin.toml", "./top-twin.toml"])
def test_a_shop_with_the_name_of_a_size_takes_nothing_from_it(name: str, tmp_path: Path):
    (tmp_path / "top-twin.toml").write_text("[rates]\nseam = 1\n")
    path = in_file(f"shop = '{name}'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    assert run("compare", str(path), "--as", "twin", "--write", str(tmp_path / "new")).exit_code == 0
    assert sorted(each.name for each in (tmp_path / "new").iterdir()) == ["top-twin-2.toml", "top-twin.toml"]
    assert run("quote", str(tmp_path / "new" / "top-twin-2.toml")).exit_code == 0


def test_the_project_s_own_shop_goes_along_under_another(tmp_path: Path):
    (tmp_path / "own.toml").write_text("[rates]\nseam = 1\n")
    (tmp_path / "other.toml").write_text("[rates]\nseam = 2\n")
    path = in_file("shop = 'own.toml'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    arguments = ("--shop", str(tmp_path / "other.toml"))
    assert run("compare", str(path), "--as", "twin", "--write", str(tmp_path / "new"), *arguments).exit_code == 0
    assert run("quote", str(tmp_path / "new" / "top-twin.toml")).exit_code == 0
    assert run("quote", str(tmp_path / "new" / "top-twin.toml"), *arguments).exit_code == 0


def test_a_long_title_is_shortened_and_a_strange_one_is_shown(tmp_path: Path):
    path = in_file(f"title = '{'x' * 200}'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    title = sized(path, "twin").rows[1].result.resolved.project.title
    assert (len(title), title[-6:]) == (200, ", twin")
    strange = tmp_path / "\udcff.toml"
    strange.write_text("[top]\nwidth = 60\nlength = 80\n")
    assert run("compare", str(strange), "--as", "twin", "--write", str(tmp_path / "new")).exit_code in (0, 1)
    assert not list((tmp_path / "new").glob(".*")) if (tmp_path / "new").exists() else True


def test_two_sizes_with_one_name_for_a_file_have_two_files():
    names = list(project_files(sized(CLOTH, "queen", "Queen", "60 x 84", "60x84")))
    assert len(set(names)) == 4
    assert names[1] == "boathouse-supper-cloth-queen-2.toml"


def test_standard_input_is_compared_too(tmp_path: Path):
    result = run("compare", "-", "--as", "twin", "--write", str(tmp_path), stdin="[top]\nwidth = 60\nlength = 80\n")
    assert result.exit_code == 0
    assert (tmp_path / "quilt-top-twin.toml").is_file()
