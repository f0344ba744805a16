"""The frame: the depth that a throat leaves, the frame and the throat told apart, and rows that come out even."""

import json
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_document
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up
from finishcalc.pipeline import Finishing, finish
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.quilting.rows import Pattern, rows_a_pass, uneven_rows
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Covering
from tests.builders import CM_TOP, TOP, in_shop, inches, page, quilting_of, quote_text, quoted, sample_project, tried
from tests.strategies import examples

ROWS_OF_12 = "style = 'medium-pantograph'"
"""Rows 12 apart of a pattern that is 11 high."""


def sheet(text: str, shop: Path | None = None, width: int = 80) -> str:
    """The studio's page as one line."""
    return " ".join(page(text, "studio", shop=shop, width=width).split())


def words(plan: QuiltingPlan, code: str) -> str:
    """The caution of that code, in inches."""
    (sentence,) = (told.sentence for told in plan.cautions if told.code == code)
    return Notation("in", ruler=True).write(sentence).replace(NO_BREAK, " ")


def tried_throat(text: str, throat: int) -> Finishing:
    """A result with a throat in place of the sample's."""
    (trial,) = trials([f"frame.throat={throat}"])
    return finish(resolve(Source("t.toml", text), change=trial.change))


# --- the depth that is stitched ------------------------------------------------------------------------------


def test_a_throat_by_its_name_leaves_what_the_roll_and_the_margin_do_not_take():
    """22 - 3 - 1 = 18 in; 56 - 7.5 - 2.5 = 46 cm: 18 is one studio's "quiltable throat space" (SEEN, terms)."""
    assert sample_project().frame.depth == inches(18)
    assert quoted(CM_TOP).resolved.project.frame.depth == Length.parse("46 cm")
    explained = " ".join(page(TOP, "studio", explain=True).split())
    assert "Depth stitched in a pass: 22 in throat - 3 in take-up - 1 in margin = 18 in" in explained


def test_custom_work_on_88_takes_a_pass_more_than_its_nominal_throat_says():
    """88 / 22 would be exactly 4; 88 / 18 = 4.9: 5 passes (derived)."""
    text = "[top]\nwidth = 88\nlength = 88\n[quilting]\nstyle = 'custom'\n"
    assert quoted(text).plans.quilting.passes == 5
    assert "Passes, upright: 88 in / 18 in depth, rounded up: 5" in " ".join(page(text, "studio", explain=True).split())


@pytest.mark.parametrize(
    ("frame", "each"),
    [
        ({"throat": 22, "take_up": 4, "margin": 0}, 1),  # 18: one row of 12
        ({"throat": 22, "take_up": 4, "margin": 0, "pitch": 9}, 2),  # 18 / 9
        ({"throat": 22, "take_up": 5, "margin": 0, "pitch": 9}, 1),  # 17
        ({"throat": 18, "take_up": 0, "margin": 0, "pitch": 9}, 2),  # as a throat once was read
        ({"throat": 18, "take_up": 0, "margin": 1, "pitch": 9}, 1),
    ],
)
def test_rows_that_a_depth_holds(frame: dict[str, int], each: int):
    """A pass holds floor(depth / pitch) rows, and 96 / 12 = 8 rows one at a time are 8 passes, 96 / 9 -> 11 rows two at
    a time 6 (derived: the check in a trade handout on frames)."""
    pitch = inches(frame.get("pitch", 12))
    told = {key: inches(value) for key, value in frame.items() if key != "pitch"}
    plan = quilting_of(60, 96, row_pitch=pitch, pattern_height=pitch, frame=told)
    assert plan.loading
    assert (plan.loading.rows_each, plan.passes) == (each, up(Fraction(up(inches(96) / pitch), each)))


@examples(60)
@given(st.integers(24, 110), st.integers(10, 30), st.integers(0, 4), st.integers(0, 4), st.integers(1, 12))
def test_less_depth_never_takes_fewer_passes(length: int, throat: int, take_up: int, more: int, pitch: int):
    def passes(taken: int) -> int:
        frame = {"throat": inches(throat), "take_up": inches(taken), "margin": inches(1)}
        return quilting_of(60, length, row_pitch=inches(pitch), pattern_height=inches(pitch), frame=frame).passes or 0

    assert passes(take_up) <= passes(take_up + more)


# --- a shop file from before -----------------------------------------------------------------------------------

OLD_SHOP = "units = 'in'\n[frame]\nthroat = 18\n"
NOTE = "counts as the throat that the machine's maker gives, not the depth that you stitch"


def test_a_throat_without_take_up_is_told_to_the_studio_once(tmp_path: Path):
    """18 - 3 - 1 = 14."""
    in_shop(tmp_path, OLD_SHOP)
    told = sheet(TOP, tmp_path / "shop.toml")
    assert told.count(NOTE) == 1
    assert "less take_up, 3 in, and margin, 1 in, it leaves 14 in." in told
    assert "write take_up = 0 and margin = 0" in told
    assert "frame.throat" not in page(TOP, shop=tmp_path / "shop.toml")


@pytest.mark.parametrize(
    ("shop", "depth"),
    [
        (OLD_SHOP + "take_up = 0\nmargin = 0\n", 18),
        (OLD_SHOP + "take_up = 3\n", 14),
        ("units = 'in'\n[frame]\nwidest = 138\n", 18),
        ("units = 'in'\n", 18),
    ],
)
def test_nothing_is_told_once_the_shop_file_says_its_take_up(tmp_path: Path, shop: str, depth: int):
    result = in_shop(tmp_path, shop)
    assert result.resolved.project.frame.depth == inches(depth)
    assert "throat-is-nominal" not in {told.code for told in result.cautions}


def test_a_throat_is_told_only_where_it_matters(tmp_path: Path):
    """Neither off the frame, nor of a throat that is tried and stands in no file."""
    off = in_shop(tmp_path, OLD_SHOP, f"{TOP}[quilting]\nmethod = 'hand-quilted'\n")
    (path := tmp_path / "top.toml").write_text(TOP)
    (trial,) = tried(path, "frame.throat=20")
    for result in (off, trial):
        assert "throat-is-nominal" not in {told.code for told in result.cautions}


# --- the frame and the throat, told apart ----------------------------------------------------------------------


def test_a_pattern_that_the_throat_does_not_reach_over_is_no_matter_of_the_frame():
    """A throat of 8 leaves 8 - 3 - 1 = 4 for a pattern of 11: 4 / 11 = 36.4 %, or a throat of 11 + 3 + 1 (derived)."""
    frame = {"throat": inches(8), "take_up": inches(3), "margin": inches(1)}
    plan = quilting_of(60, 80, pattern_height=inches(11), row_pitch=inches(12), frame=frame)
    assert plan.loading
    assert (plan.fits, plan.loading.holds, plan.loading.reaches) == (False, True, False)
    assert [told.code for told in plan.cautions] == ["pattern-too-high"]
    assert words(plan, "pattern-too-high") == (
        "The pattern, 11 in high, is too high for the throat: of its 8 in, 4 in are stitched in a pass. Choose a "
        "pattern that is no higher, scale a digital one to 36 %, use a throat of 15 in, or quilt it off the frame."
    )
    told = {"throat": inches(15), "take_up": inches(3), "margin": inches(1)}
    assert quilting_of(60, 80, pattern_height=inches(11), frame=told).fits


@pytest.mark.parametrize(
    ("frame", "fault"),
    [
        ("throat = 8", "rollers{} - the throat does not reach over the pattern;"),
        ("widest = 60", "rollers{} - it does not fit this frame;"),
        (
            "throat = 8\nwidest = 60",
            "rollers{} - it does not fit this frame, and the throat does not reach over the pattern;",
        ),
    ],
)
def test_the_work_order_says_which_of_them_does_not_do(tmp_path: Path, frame: str, fault: str):
    """60 + 8 = 68 and 80 + 8 = 88 along the rollers; 11 high in 8 - 3 - 1 = 4 (derived)."""
    text = f"{TOP}[quilting]\n{ROWS_OF_12}\n"
    in_shop(tmp_path, f"units = 'in'\n[frame]\ntake_up = 3\n{frame}\n")
    told = sheet(text, tmp_path / "shop.toml")
    assert re.search(fault.format("(; its seams run [a-z ]+ the rollers)?"), told)
    record = json.loads(quote_document(quoted(text, tmp_path / "shop.toml")))["quilting"]["loaded"]
    assert (record["fits"], record["fits_frame"]) == (False, "widest" not in frame)
    assert record["fits_throat"] is ("throat" not in frame)


def test_both_are_told_where_both_hold():
    frame = {"throat": inches(8), "take_up": inches(3), "margin": inches(1), "widest": inches(60)}
    plan = quilting_of(60, 80, pattern_height=inches(11), may_turn=True, frame=frame)
    assert [told.code for told in plan.cautions] == ["frame-too-narrow", "pattern-too-high"]
    assert "throat" not in words(plan, "frame-too-narrow")
    assert "frame," not in words(plan, "pattern-too-high")


# --- turning ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("style", ["custom", "tiny-fill"])
def test_custom_work_is_turned_where_only_that_fits(style: str, tmp_path: Path):
    """112 x 96 with 4 on every side is 120 x 104, on a frame that takes 116: turned. It is drawn the way it will hang,
    so that the customer need not know (a longarmer's case)."""
    text = f"[top]\nwidth = 112\nlength = 96\n[backing]\noverage = 4\n[quilting]\nstyle = '{style}'\n"
    result = in_shop(tmp_path, "units = 'in'\n[frame]\nwidest = 116\n", text)
    loading = result.plans.quilting.loading
    assert loading
    assert (loading.way, loading.along, loading.fits) == ("sideways", inches(104), True)
    told = "The quilt is loaded sideways because its width does not fit the frame."
    assert told in " ".join(quote_text(result, "studio").split())
    assert "sideways" not in quote_text(result, "customer")


def test_a_directional_pattern_is_not_turned_and_the_choices_are_named():
    """126 + 8 = 134 of the frame's 130, and 96 + 8 = 104, which would fit (derived)."""
    text = "[top]\nwidth = 126\nlength = 96\n[quilting]\nstyle = 'directional-pantograph'\n"
    result = quoted(text)
    loading = result.plans.quilting.loading
    assert loading
    assert (loading.way, loading.holds) == ("upright", False)
    customer, studio = (" ".join(page(text, reader).split()) for reader in ("customer", "studio"))
    head = (
        "The backing, 134 in x 104 in, is too wide for the frame, which takes 130 in. Turned it would fit, but "
        "directional pantograph may not turn: let it turn all the same, choose a pattern that may, use a frame for "
        "134 in, or quilt it off the frame."
    )
    assert head in customer
    assert head in studio
    assert "To load it sideways, set may_turn = true in the style of directional pantograph." in studio
    assert "may_turn" not in customer
    turned = text.replace("'directional-pantograph'", "{ preset = 'directional-pantograph', may_turn = true }")
    assert quoted(turned).plans.quilting.fits


def test_turning_is_not_offered_where_it_would_not_help():
    """134 x 132 fits a frame of 130 neither way, whatever the pattern may do (derived)."""
    for may_turn, need in ((False, "134 in"), (True, "132 in")):
        told = words(quilting_of(126, 124, may_turn=may_turn), "frame-too-narrow")
        assert "Turned it would fit" not in told
        assert f"use a frame for {need}" in told


# --- whole rows ------------------------------------------------------------------------------------------------


def test_both_pitches_that_make_rows_even_and_the_scale_for_each():
    """42 1/2 in rows of 12, 11 high: 3 rows at 42 1/2 / 3 = 14.17, 118.06 % of 12, so 119 % to cover, or 14.17 - 11 =
    3.17 between rows on paper, 3 1/4 by a ruler; 4 rows at 10 5/8, 88.5 %, so 89 %, where rows of 11 run into each
    other (derived)."""
    told = sheet(f"[top]\nwidth = 42\nlength = '42 1/2'\n[quilting]\n{ROWS_OF_12}\n")
    for said in (
        "4 rows in 4 passes, 42 1/2 in down; partial row at the bottom: 6 1/2 in of 12 in; ",
        "a pitch of 14.17 in makes 3 whole rows in 3 passes: a digital pattern at 119 %, a paper one with 3 1/4 in "
        "between its rows; ",
        "a pitch of 10 5/8 in makes 4 whole rows in 4 passes: a digital pattern at 89 %, but no paper one, because "
        "its rows would overlap",
    ):
        assert said in told, said


def test_rows_of_a_paper_pattern_may_touch():
    """110 in rows of 12, 11 high: 10 rows at 11 leave 11 - 11 = 0 between them (derived)."""
    told = sheet(f"[top]\nwidth = 100\nlength = 110\n[quilting]\n{ROWS_OF_12}\n")
    assert "a paper one with rows that touch" in told


def test_the_arithmetic_of_whole_rows():
    text = f"[top]\nwidth = 42\nlength = '42 1/2'\n[quilting]\n{ROWS_OF_12}\n"
    explained = " ".join(page(text, "studio", explain=True).split())
    for said in (
        "Last row: 42 1/2 in - 3 x 12 in = 6 1/2 in",
        "Whole rows, pitch up: 42 1/2 in / 3 = 14.17 in; scale: 14.17 in / 12 in, rounded up: 119 %",
        "Between rows on paper: 14.17 in - 11 in high = 3.17 in",
        "Whole rows, pitch down: 42 1/2 in / 4 = 10 5/8 in; scale: 10 5/8 in / 12 in, rounded up: 89 %",
    ):
        assert said in explained, said
    record = json.loads(quote_document(quoted(text)))["quilting"]["partial_row"]
    assert record["pitch_up"] == {
        "rows": 3, "pitch": 14.167, "scale_percent": 119, "passes": 3, "paper_gap": 3.167, "paper_passes": 3,
    }  # fmt: skip
    assert record["pitch_down"]["paper_gap"] is None
    assert (record["pitch_down"]["rows"], record["pitch_down"]["scale_percent"]) == (4, 89)


def test_a_pattern_that_would_be_scaled_above_the_throat_keeps_its_size():
    """23 in rows of 12, 11 high: one row at 23 is 192 %, 21.1 high, more than 18 (derived)."""
    told = sheet(f"[top]\nwidth = 60\nlength = 23\n[quilting]\n{ROWS_OF_12}\n")
    said = "a pitch of 23 in makes 1 whole row in 1 pass: a digital pattern at 192 % would be too high for the throat"
    assert said in told


def test_one_row_goes_down_only():
    """8 in of a row of 12: no row fewer; one of 8, 66.7 %, so 67 %."""
    uneven = uneven_rows(Pattern(inches(12), inches(11)), 1, inches(8), inches(18))
    assert uneven
    assert (uneven.pitch_up, uneven.pitch_down.scale, uneven.nearest) == (None, 67, None)


def test_rows_that_reach_into_each_other_still_do():
    """87 in rows of 10, 14 high, in a depth of 18: 8 rows of 10.875 reach 14 - 10.875 = 3.125 into each other; 9 of
    9.67 would reach in further than the pattern is made for (derived)."""
    uneven = uneven_rows(Pattern(inches(10), inches(14)), 9, inches(87), inches(18))
    assert uneven
    assert uneven.pitch_up
    assert uneven.pitch_up.gap == inches("-3 1/8")
    assert uneven.pitch_down.gap is None
    style = "{ preset = 'medium-pantograph', row_pitch = 10, pattern_height = 14, may_turn = false }"
    told = sheet(f"[top]\nwidth = 60\nlength = 87\n[quilting]\nstyle = {style}\n")
    assert "a paper one with rows that overlap by 3 1/8 in" in told


def test_a_scaled_pattern_may_take_other_passes_than_a_paper_one():
    """63 1/2 in rows of 8, 12 high, in a depth of 22: 7 rows at 9.07. On paper two are 9.07 + 12 = 21.07, 4 passes;
    scaled to 114 % they are 9.12 + 13.68 = 22.8, one a pass. At 100 % its 8 rows run off a little (derived)."""
    uneven = uneven_rows(Pattern(inches(8), inches(12)), 8, inches("63 1/2"), inches(22))
    assert uneven
    assert uneven.pitch_up
    assert (uneven.pitch_up.scale, uneven.pitch_up.passes, uneven.pitch_up.paper_passes) == (114, 7, 4)
    assert (uneven.pitch_down.scale, uneven.pitch_down.passes, uneven.pitch_down.paper_passes) == (100, 4, None)
    style = "{ preset = 'medium-pantograph', row_pitch = 8, pattern_height = 12, may_turn = false }"
    text = f"[top]\nwidth = 63\nlength = '63 1/2'\n[quilting]\nstyle = {style}\n"
    told = " ".join(quote_text(tried_throat(text, 26), "studio").split())
    assert (
        "a pitch of 9.08 in makes 7 whole rows: a digital pattern at 114 % (7 passes), a paper one with rows that "
        "overlap by 2.93 in (4 passes)"
    ) in told


EIGHTHS = st.integers(1, 8 * 30).map(lambda eighths: inches(Fraction(eighths, 8)))


@examples(200)
@given(EIGHTHS, EIGHTHS, st.integers(8, 8 * 130), st.integers(1, 40))
def test_whole_rows_are_never_short(pitch: Length, height: Length, eighths: int, deep: int):
    """Rows x pitch is the length, and rows x scaled pitch covers it; the rows of a pass lie within the depth, and the
    passes hold all rows."""
    down, depth, pattern = inches(Fraction(eighths, 8)), inches(deep), Pattern(pitch, height)
    rows = up(down / pitch)
    uneven = uneven_rows(pattern, rows, down, depth)
    assume(uneven)
    assert uneven
    assert [way.rows for way in uneven.ways] == ([rows - 1, rows] if rows > 1 else [rows])
    for way in uneven.ways:
        digital, paper = pattern.scaled(way.scale), Pattern(way.pitch, height)
        assert paper.pitch * way.rows == down
        assert digital.pitch * way.rows >= down
        assert pattern.scaled(way.scale - 1).pitch * way.rows < down
        for passes, sewn in ((way.passes, digital), (way.paper_passes, paper)):
            if passes:
                each = rows_a_pass(sewn, depth)
                assert passes * each >= way.rows
                assert sewn.pitch * (each - 1) + sewn.height <= depth
        assert (way.gap is None) == (way.pitch < min(pitch, height))


@examples(60)
@given(st.integers(20, 120), st.integers(4, 16), st.sampled_from(["in", "cm"]))
def test_whole_rows_cover_as_they_are_printed(length: int, pitch: int, units: str):
    """The printed pitch, times the printed rows, is no less than the length."""
    style = f"{{ preset = 'medium-pantograph', row_pitch = {pitch}, pattern_height = {pitch}, may_turn = false }}"
    text = f"units = '{units}'\n[top]\nwidth = 60\nlength = {length}\n[quilting]\nstyle = {style}\n"
    told = quote_text(quoted(text), "studio").replace("\n", " ")
    found = re.findall(r"a pitch of ([\d /.,]+) (?:in|cm) makes (\d+) whole", " ".join(told.split()))
    assert bool(found) == bool(length % pitch)
    for written, rows in found:
        assert Length.parse(written.replace(",", "."), "in").to("in") * int(rows) >= length


@pytest.mark.parametrize(
    ("units", "length", "written"),
    [
        ("in", inches("10 5/8"), "10 5/8 in"),
        ("in", inches(Fraction(110, 9)), "12.23 in"),  # 12.222...: 9 x 12.22 would be short of 110
        ("in", inches(Fraction(1, 3)), "0.34 in"),
        ("cm", Length.of(Fraction(100, 3), "cm"), "33.34 cm"),
        ("cm", Length.parse("12.5 cm"), "12.5 cm"),
        ("in", ZERO, "0 in"),
    ],
)
def test_a_setting_is_written_so_that_it_covers(units: str, length: Length, written: str):
    assert Notation(units, ruler=True).show(Covering(length)).replace(NO_BREAK, " ") == written
