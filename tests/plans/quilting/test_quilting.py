"""Quilting: thread, rows and passes, hours, and what the frame holds."""

import json
import math
import re
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.quilting.stitching import stitched_length, thread_per_length
from finishcalc.plans.together import make_plans
from finishcalc.plans.top.outline import rectangle
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.pictures.passes import passes_picture
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import NO_BREAK, Notation
from tests.builders import TOP, inches, quilting_of, quote_text, quoted, sample_project, yards
from tests.strategies import examples

NO_WASTE = {"waste": Fraction(0), "bobbin": yards(130)}


@pytest.mark.parametrize(
    ("thickness", "each"),
    [
        ("0.01", "2.2"),  # read in the note
        ("0.05", "3.0"),  # a stitched sandwich: derived
        ("0.10", "4.0"),  # a high loft: derived
    ],
)
def test_lockstitch(thickness: str, each: str):
    """C = 2 + 2TS at 10 stitches an inch (type 301 of ISO 4915; textile-engineering teaching note, 2015)."""
    assert thread_per_length(inches(thickness), inches("0.1")) == Fraction(each)


def test_thread_of_a_sandwich():
    """9,000 in through 0.05 take 27,000 in of thread: 375 yd on top and 375 on the bobbin (derived)."""
    plan = quilting_of(90, 100, line_spacing=inches(1), thickness="0.05", thread=NO_WASTE)
    assert plan.stitched_length == inches(9000)
    assert plan.threads.total == yards(375 + 375)
    assert plan.threads.bobbins == 3  # 375 / 130 = 2.88


def test_thread_of_a_high_loft():
    """1,000 in through 0.10 take 4,000 in, 111.11 yd (derived)."""
    plan = quilting_of(25, 40, line_spacing=inches(1), thickness="0.10", thread=NO_WASTE)
    assert plan.threads.total == inches(4000)
    assert round(plan.threads.total.to("yd"), 2) == Fraction(11111, 100)


def test_waste_comes_on_top():
    """At 10 % waste (10-15 %: from memory) 750 yd become 825; 412 1/2 on the bobbin are 4 bobbins (derived)."""
    plan = quilting_of(90, 100, line_spacing=inches(1), thread=NO_WASTE | {"waste": Fraction(10, 100)})
    assert (plan.threads.total, plan.threads.bobbins) == (yards(825), 4)


def test_exactly_full_bobbins():
    """375 yd on the bobbin are three bobbins of 125, not four (derived)."""
    assert quilting_of(90, 100, line_spacing=inches(1), thread=NO_WASTE | {"bobbin": yards(125)}).threads.bobbins == 3


def test_no_batting_takes_less_thread():
    """A cover without batting is stitched at the bare thickness: 0.01, so 2.2 an inch (textile-engineering note)."""
    lines = '[top]\nwidth = 25\nlength = 40\n[batting]\nproduct = "none"\n[quilting.style]\npreset = "custom"\n'
    plan = make_plans(resolve(Source("bare", lines + "line_spacing = 1\n")).project).quilting
    # 1,000 in, no run-off, 10 % waste: 1,000 x 2.2 x 1.1
    assert plan.threads.total == inches(2420)


@pytest.mark.parametrize(
    ("length", "pitch", "throat", "rows", "passes"),
    [
        (87, 10, 18, 9, 9),  # derived: one row of 10 in a throat of 18
        (87, 9, 18, 10, 5),  # two rows to a pass exactly
        (87, 6, 18, 15, 5),  # three rows to a pass
        (90, 10, 18, 9, 9),  # rows that fit the length exactly
        (90, 5, 18, 18, 6),  # three rows of 5, for a row is never split: 6 passes
        (87, 7, 18, 13, 7),  # 13 rows, two to a pass
    ],
)
def test_rows_and_passes(length: int, pitch: int, throat: int, rows: int, passes: int):
    """Rows = ceil(length / pitch); passes = ceil(rows / floor(throat / pitch)): no row is split (derived)."""
    pitches = {"row_pitch": inches(pitch), "pattern_height": inches(pitch)}
    plan = quilting_of(63, length, frame={"throat": inches(throat)}, **pitches)
    assert (plan.rows, plan.passes) == (rows, passes)


def test_rows_that_reach_into_each_other_need_more_of_the_throat():
    """Rows of 14 at a pitch of 9: two reach 9 + 14 = 23, more than a throat of 18; three of 6 at 5
    reach 16 (derived)."""
    frame = {"throat": inches(18)}
    one = quilting_of(60, 72, row_pitch=inches(9), pattern_height=inches(14), frame=frame)
    assert (one.rows, one.passes) == (8, 8)
    three = quilting_of(60, 72, row_pitch=inches(5), pattern_height=inches(6), frame=frame)
    assert (three.rows, three.passes) == (15, 5)


def test_a_pitch_beyond_the_throat_still_takes_a_pass_a_row():
    """Even where a row is deeper than the throat there is one pass a row, never none (derived)."""
    plan = quilting_of(63, 87, row_pitch=inches(20), frame={"throat": inches(18)})
    assert (plan.rows, plan.passes) == (5, 5)


@pytest.mark.parametrize(("length", "throat", "passes"), [(87, 18, 5), (92, 12, 8), (90, 18, 5)])
def test_custom_work_fills_the_throat(length: int, throat: int, passes: int):
    """Custom work takes ceil(length / throat) passes: 87/18 -> 5, 92/12 -> 8, and has no rows (derived)."""
    plan = quilting_of(63, length, row_pitch=None, frame={"throat": inches(throat)})
    assert (plan.rows, plan.passes) == (None, passes)


def test_stitching_runs_off_the_edge():
    """90x100 with an inch of run-off is stitched over 92x102, 4.3 % more (common practice, derived)."""
    inside = quilting_of(90, 100, line_spacing=inches(1))
    off = quilting_of(90, 100, line_spacing=inches(1), run_off=inches(1))
    assert off.stitched_length == inches(92 * 102)
    assert round((off.stitched_length / inside.stitched_length - 1) * 100, 1) == Fraction(43, 10)


def quilted(lines: str, width: int = 63, length: int = 87, more: str = "") -> QuiltingPlan:
    """The quilting of a top, as a project file asks for it."""
    text = f"[top]\nwidth = {width}\nlength = {length}\n{more}\n[quilting]\n{lines}\n"
    return quoted(text).plans.quilting


def test_channels():
    """Channels 3 apart on 63 x 87, edges not stitched: 20 lines, 1,740 in (derived). A pattern of that spacing comes to
    A / d = 1,827 in."""
    assert quilted('style = "channels-3"').stitched_length == inches(1740)
    assert quilting_of(63, 87, line_spacing=inches(3)).stitched_length == inches(1827)


def test_a_grid_is_both():
    """62 / 2 - 1 = 30 lines of 86 and 86 / 2 - 1 = 42 of 62 (derived)."""
    assert quilted('style = "grid-2"', 62, 86).stitched_length == inches(30 * 86 + 42 * 62)


def test_ties():
    """Every 4 in, edges not tied, 90 x 100: 22 x 24 = 528 ties x 0.5 (0.25 / 1.0) min (logs of tied quilts)."""
    plan = quilted('style = "ties-4"\nmethod = "tied"', 90, 100)
    assert plan.ties == 528
    stage = next(stage for stage in plan.hours.stages if stage.name == "tie")
    assert (stage.low, stage.likely, stage.high) == (132, 264, 528)
    # 528 ties x 6 in x 1.1 = 3,484.8 in; nothing is on a bobbin or a frame
    assert plan.threads.total == inches("3484.8")
    assert (plan.threads.bobbins, plan.loading, plan.passes, plan.stitched_length) == (0, None, None, inches(0))


@pytest.mark.parametrize("method", ["domestic-machine", "hand-quilted"])
def test_off_the_frame_nothing_is_loaded(method: str):
    plan = hours_of(method)
    assert (plan.loading, plan.passes, plan.hours.frame, plan.fits) == (None, None, 0, True)


def test_lines_go_at_their_own_speed():
    """By walking foot 16 in a minute, where free motion goes at 28: 1,740 / 16 = 108.75 min for the channels."""
    plan = quilted('style = "channels-3"\nmethod = "domestic-machine"')
    stages = {stage.name: stage.likely for stage in plan.hours.stages}
    assert stages["stitch the lines"] == Fraction("108.75")
    assert "stitch" not in stages
    assert "stitch with rulers" not in {stage.name for stage in quilted('style = "custom"').hours.stages}


def test_a_running_stitch_takes_one_thread():
    """By hand at 8 stitches an inch through 0.05: 1 + 2 x 0.05 x 8 = 1.8 an inch (derived); no bobbin."""
    assert thread_per_length(inches("0.05"), inches("1/8"), "running") == Fraction("1.8")
    plan = quilted('style = "medium-pantograph"\nmethod = "hand-quilted"', 90, 100)
    assert plan.threads.total == inches(Fraction("9384") / Fraction("0.65") * Fraction("1.8") * Fraction("1.1"))
    assert (plan.threads.bobbin, plan.threads.bobbins) == (inches(0), 0)


def test_frame_hours_and_attended_hours():
    """Hand-guided, likely: of 284.4 min 30 + 156.4 + 36 + 9 + 10 + 8 are on the frame, all of it attended; a computer
    stitches 35 % attended."""
    hand, computer = hours_of("longarm-hand-guided").hours, hours_of("longarm-computer-guided").hours
    off = sum(stage.planned for stage in hand.stages if stage.name in ("press and square the back", "trim"))
    assert hand.frame == hand.planned - off
    assert hand.attended == hand.planned
    stitch = next(stage for stage in computer.stages if stage.name == "stitch")
    assert computer.attended == computer.planned - stitch.planned * Fraction(65, 100)


def test_the_whole_work_has_its_seams_and_its_edge():
    """63 x 87: perimeter 300 x (0.11 + 0.22 + 0.90) = 369 min for a binding finished by hand, likely (logs)."""
    plans = quoted("[top]\nwidth = 63\nlength = 87\n[binding]\nattach = 'hand'\n").plans
    edge = [stage for stage in plans.hours.stages if "binding" in stage.name or "back by hand" in stage.name]
    assert [stage.likely for stage in edge] == [33, 66, 270]
    assert plans.backing
    assert plans.hours.planned == (
        plans.quilting.hours.planned + plans.backing.seam_minutes + sum(stage.planned for stage in edge)
    )


@pytest.mark.parametrize(
    ("attach", "stages"),
    [("front", 2), ("machine", 3), ("hand", 3), ("faced", 1), ("hem", 1), ("none", 0)],
)
def test_each_edge_has_its_own_stages(attach: str, stages: int):
    plans = quoted(f"[top]\nwidth = 63\nlength = 87\n[binding]\nattach = '{attach}'\n").plans
    assert len(plans.hours.stages) - len(plans.quilting.hours.stages) - 1 == stages


@pytest.mark.parametrize(
    ("stages", "more", "message"),
    [
        ("[]", "", "there is no stage"),
        (
            '[{ name = "m", each = "motif", low = 1, likely = 2, high = 3, attended = "100 %" }]',
            "",
            "stitching has no stage",
        ),
        (
            '[{ name = "p", each = "pass", low = 1, likely = 2, high = 3, attended = "100 %" }]',
            "frame = false",
            "a quilt that is not on the frame has no passes and no rows",
        ),
        (
            '[{ name = "t", each = "tie", low = 1, likely = 2, high = 3, attended = "100 %" }]',
            "",
            "this method makes no ties",
        ),
    ],
)
def test_a_method_leaves_no_work_without_its_time(stages: str, more: str, message: str):
    with pytest.raises(ProblemsFound) as found:
        quoted(f"[top]\nwidth = 60\nlength = 80\n[quilting.method]\nname = 'own'\nstages = {stages}\n{more}\n")
    assert message in found.value.problems[0].message


def test_stages_of_one_name_are_told_together_in_the_document():
    stage = '{ name = "s", each = "quilt", low = 1, likely = 2, high = 3, attended = "100 %" }'
    record = json.loads(
        quote_document(
            quoted(f"[top]\nwidth = 60\nlength = 80\n[quilting.method]\nname = 'own'\nstages = [{stage}, {stage}]\n")
        )
    )
    assert record["quilting"]["minutes"]["s"] == {"low": 2, "likely": 4, "high": 6}
    assert (
        sum(stage["high"] for stage in record["quilting"]["minutes"].values())
        == record["quilting"]["total_minutes"]["high"]
    )


def test_lines_are_not_held_to_what_their_preset_says_of_its_pattern():
    """Channels 12 apart made of a meander preset: no rows, and too far apart for a batting that holds at 8."""
    plan = quilted("style = { preset = 'open-meander', lines = 'channels', angle = 0, line_spacing = 12 }")
    assert plan.rows is None
    assert "lines-too-far-apart" in codes(plan)


def test_an_echo_of_a_curved_edge_is_no_straight_line():
    plan = quoted("[top]\ndiameter = 70\n[quilting]\nstyle = 'echo-2'\nmethod = 'domestic-machine'\n").plans.quilting
    assert "stitch the lines" not in {stage.name for stage in plan.hours.stages}
    assert plan.areas[0].worked == "edge-to-edge"


def test_nothing_that_falls_on_the_top_is_told():
    assert "nothing-to-stitch" in codes(quilted("style = { preset = 'channels-3', line_spacing = 70 }"))


def test_a_high_pattern_does_not_make_the_backing_too_wide():
    """112 x 72 with a pattern of 20 in a depth of 18: it turns, and only the height is wrong."""
    frame = {"throat": inches(18), "widest": inches(116)}
    plan = quilting_of(112, 72, pattern_height=inches(20), may_turn=True, frame=frame)
    assert plan.loading
    assert (plan.loading.way, plan.loading.holds, plan.fits) == ("sideways", True, False)
    assert set(codes(plan)) == {"loaded-sideways", "pattern-too-high"}


def test_three_shares_of_a_third_are_the_whole():
    areas = "".join(
        f"[[quilting.areas]]\nstyle = '{style}'\nshare = '33.333 %'\n" for style in ("custom", "tiny-fill", "grid-2")
    )
    found = quilted(areas).areas
    assert len(found) == 3
    assert sum(area.share for area in found) == 1


# --- areas, colours, draw-up ---------------------------------------------------------------------------------

AREAS = """style = "open-meander"
[[quilting.areas]]
style = "custom"
share = "30 %"
[[quilting.areas]]
style = "channels-3"
share = "20 %"
"""


def test_areas_of_their_own():
    """On 63 x 87 = 5,481: 30 % / 0.4, 20 % of 1,740 in channels, and the rest / 1.1, none running off (derived)."""
    plan = quilted(AREAS)
    assert [area.stitched for area in plan.areas] == [
        inches(Fraction("4110.75")),
        inches(348),
        inches(Fraction(5481) / 2 / Fraction("1.1")),
    ]
    assert (plan.rows, plan.passes) == (None, 5)  # 87 / 18, up
    assert quilted(AREAS.replace("20 %", "70 %")).areas[-1].style.lines == "channels"


def test_areas_of_a_pieced_top():
    """3 x 3 blocks of 12 with sashing of 2 between them and a border cut 4 1/2: 40 1/2 and 48 1/2 square. Blocks
    9 x 144 = 1,296, sashing 40^2 - 1,296, border 48 1/2^2 - 40^2 (derived; once the border is on, 40 x 40
    of the centre shows, and the seam allowance at the outer edge belongs to the border)."""
    pieced = "[top.blocks]\nacross = 3\ndown = 3\nsize = 12\n[top.sashing]\nwidth = 2\n[[top.borders]]\ncut = '4 1/2'\n"
    areas = "".join(
        f"[[quilting.areas]]\nstyle = '{style}'\npart = '{part}'\n"
        for style, part in (("custom", "blocks"), ("tiny-fill", "sashing"), ("channels-3", "borders"))
    )
    plan = quoted(pieced + areas).plans.quilting
    whole = Fraction("48.5") ** 2
    assert [area.share * whole for area in plan.areas] == [
        1296,
        1600 - 1296,
        whole - 1600,
    ]


def test_each_area_is_charged_at_its_own_rate():
    """63 x 87 = 5,481 sq in: 1,644.3 -> 1,644 x 0.08, 1,096.2 -> 1,096 x 0.03, 2,740.5 -> 2,741 x 0.03."""
    lines = [
        line
        for line in quoted(f"[top]\nwidth = 63\nlength = 87\n[quilting]\n{AREAS}").quote.lines
        if "Quilting," in line.label.text
    ]
    assert [(line.quantity, str(line.amount)) for line in lines] == [(1644, "131.52"), (1096, "32.88"), (2741, "82.23")]


def test_by_hand_is_charged_as_by_hand():
    """The method's own rate class stands over the style's: 5,481 x 0.90."""
    text = "[top]\nwidth = 63\nlength = 87\n[quilting]\nstyle = 'custom'\nmethod = 'hand-quilted'\n"
    assert str(quoted(text).quote.lines[0].amount) == "4932.90"


def test_a_second_colour_adds_changes():
    """Each colour is wound on bobbins of its own: 92 x 102 / 0.65 in x 3 x 1.1 / 2 is 661.7 yd on the bobbin, 6
    of 130; of them 4 are changed because they are empty, and the colour once in each of 9 passes. With three, 6 - 3 and
    2 x 9."""
    one, two = (quilted(f'style = "medium-pantograph"\ncolours = {n}', 90, 100) for n in (1, 2))
    assert (one.threads.bobbins, one.changes) == (6, (5, 0))
    assert (two.threads.bobbins, two.changes) == (6, (4, 9))
    assert two.threads.total == one.threads.total
    three = quilted('style = "medium-pantograph"\ncolours = 3', 90, 100)
    assert (three.threads.bobbins, three.threads.cones, three.changes) == (6, 3, (3, 18))


def test_the_size_that_is_left():
    """60 x 80 at 3 %: 58.2 x 77.6 (practice, derived)."""
    assert quilted('style = "medium-pantograph"', 60, 80).quilted == (inches("58.2"), inches("77.6"))


def test_a_cover_s_own_draw_up_stands_over_the_style_s():
    result = quoted("[top.covers]\nbed = 'queen'\ndraw_up = '4 %'\n")
    assert result.plans.quilting.quilted == (inches(84), inches(92))
    page = " ".join(quote_text(quoted("[top.covers]\nbed = 'queen'\n"), "customer").split())
    # 84 x 0.98 = 82.32, less 60 is 22.32, half of it 11.16; 92 x 0.98 - 80 = 10.16
    assert "once finished about 11 in at the sides and 10 in at the foot" in page


@examples(100)
@given(st.fractions(5, 120, max_denominator=8), st.fractions(5, 120, max_denominator=8))
@example(Fraction("56.25"), Fraction("105.125"))  # 260.00 yd take a second bobbin, which 260 yd would not
def test_thread_comes_out_as_it_is_printed(width: Fraction, length: Fraction):
    page = quote_text(quoted(f"[top]\nwidth = '{width}'\nlength = '{length}'\n"), "studio", explain=True)
    page = " ".join(page.replace(",", "").split())
    thread, stitched, found = (
        re.search(pattern, page)
        for pattern in (
            r"Bobbins: ([\d.]+) yd / 2 / 130 yd on a bobbin rounded up: (\d+)",
            r"Thread: ([\d.]+) yd x \(2 \+ 2 x 0.05 in / 0.1 in a stitch\) x \(1 \+ 10 % waste\) = ([\d.]+) yd",
            r" ([\d.]+) yd of stitching ([\d.]+) yd of thread",
        )
    )
    assert thread
    assert stitched
    assert found
    assert math.ceil(Fraction(thread[1]) / 2 / 130) == int(thread[2])
    assert abs(Fraction(stitched[1]) * 3 * Fraction("1.1") - Fraction(stitched[2])) < Fraction("0.003")
    assert [abs(Fraction(found[n]) - Fraction(stitched[n])) <= Fraction("0.0505") for n in (1, 2)] == [True, True]


# --- batting and lines ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("style", "batting", "too_far"),
    [
        ("channels-3", "wool", False),  # 3 of at most 3
        ("grid-4", "wool", True),  # 4 of at most 3 (wool 3: a teacher's chart)
        ("ties-4", "wool", False),  # 4 of at most 4 (ties 3-6, 4-5 in doubt: a quilting magazine, 2019)
        ("ties-6", "wool", True),
        ("grid-4", "cotton-blend", False),  # 4 of at most 4 (80/20: 2-3 by a teacher's chart, more by the label)
        ("open-meander", "cotton-blend", False),  # 4 of at most 4
        ("open-meander", "cotton", False),  # 4 of at most 8 (on a scrim 8-12: makers)
        ("open-meander", "cotton-needled", False),  # 4 of at most 4 (needled 3-4: a shop's guide)
        ("open-meander", "polyester-high-loft", True),  # 4 of at most 3 (polyester 2-4: a shop's guide)
        ("grid-4", "polyester-high-loft", True),  # the same lines, 4 of at most 3
        ("ties-4", "polyester-high-loft", False),  # made for tying, 4-6: its label
        ("ties-6", "polyester-high-loft", False),
        ("ties-6 1/2", "polyester-high-loft", True),
    ],
)
def test_the_batting_s_limit_against_the_widest_distance(style: str, batting: str, too_far: bool):
    kind, _, distance = style.partition("-")
    method = "tied" if kind == "ties" else "longarm-hand-guided"
    preset = {"grid": "grid-2", "ties": "ties-4"}.get(kind)
    told = f'{{ preset = "{preset}", line_spacing = "{distance}" }}' if preset else f'"{style}"'
    plan = quilted(f'style = {told}\nmethod = "{method}"', more=f'[batting]\nproduct = "{batting}"')
    assert ("lines-too-far-apart" in codes(plan)) is too_far


@pytest.mark.parametrize(("units", "widest"), [("in", {"lines": 3, "ties": 6}), ("cm", {"lines": 8, "ties": 15})])
def test_the_high_loft_made_for_tying_is_tied_wider_than_it_is_quilted(units: str, widest: dict[str, int]):
    """Its label says lines 3-4 in and ties 4-6 in, 8-10 and 10-15 cm."""
    size = {"in": 60, "cm": 150}[units]
    text = f'units = "{units}"\n[top]\nwidth = {size}\nlength = {size}\n[batting]\nproduct = "polyester-high-loft"'
    product = quoted(text).resolved.project.batting.product
    assert (product.widest, product.widest_ties) == tuple(Length.of(widest[what], units) for what in ("lines", "ties"))


def test_a_caution_of_ties_speaks_of_ties():
    style = '{ preset = "ties-4", line_spacing = 6 }'
    text = f'{TOP}[batting]\nproduct = "cotton"\n[quilting]\nstyle = {style}\nmethod = "tied"\n'
    told = " ".join(quote_text(quoted(text), "customer").split())
    assert "Ties are 6 in apart, and needle-punched cotton on a scrim needs ties at most 4 in apart" in told


def test_that_caution_names_both():
    text = '[top]\nwidth = 60\nlength = 80\n[batting]\nproduct = "wool"\n[quilting]\nstyle = "open-meander"\n'
    page = " ".join(quote_text(quoted(text), "customer").split())
    assert "The lines of open meander lie up to 4 in apart, and wool needs lines at most 3 in apart" in page


# --- the frame -----------------------------------------------------------------------------------------------


def test_sideways_where_it_saves_two_passes():
    """63 x 87 with rows of 10, one a pass: upright 9 passes, sideways 7; 71 x 95 of backing fits either way."""
    frame = {"throat": inches(18), "widest": inches(116)}
    plan = quilting_of(63, 87, row_pitch=inches(10), may_turn=True, frame=frame)
    assert (plan.loading and plan.loading.way, plan.passes) == ("sideways", 7)
    assert plan.other
    assert plan.other.passes == 9
    stays = quilting_of(63, 87, row_pitch=inches(10), may_turn=False, frame=frame)
    assert (stays.loading and stays.loading.way, stays.passes) == ("upright", 9)


def test_one_pass_is_not_worth_turning():
    """80 x 87 with rows of 10: 9 passes against 8 (derived)."""
    plan = quilting_of(80, 87, row_pitch=inches(10), may_turn=True, frame={"throat": inches(18)})
    assert (plan.loading and plan.loading.way, plan.passes) == ("upright", 9)


def test_a_shop_says_how_many_passes_turning_must_save():
    """80 x 87 with rows of 10: 9 passes against 8, one fewer; 63 x 87: 9 against 7, two fewer (derived)."""
    frame = {"throat": inches(18), "widest": inches(116)}
    for width, worth, way in ((80, 1, "sideways"), (80, 2, "upright"), (63, 2, "sideways"), (63, 3, "upright")):
        told = frame | {"worth_sideways": worth}
        plan = quilting_of(width, 87, row_pitch=inches(10), may_turn=True, frame=told)
        assert plan.loading
        assert plan.loading.way == way, (width, worth)


def test_a_partial_row_and_the_pitch_that_makes_rows_even():
    """87 in rows of 12: 8 rows, of the last 3; 7 rows of 12.43 come nearer than 8 of 10.88 (derived)."""
    plan = quilting_of(63, 87, row_pitch=inches(12), frame={"throat": inches(18)})
    assert plan.uneven
    assert plan.uneven.nearest
    assert plan.uneven.partial == inches(3)
    assert (plan.uneven.nearest.rows, plan.uneven.nearest.pitch) == (7, inches(Fraction(87, 7)))
    assert quilting_of(63, 84, row_pitch=inches(12), frame={"throat": inches(18)}).uneven is None


def test_the_work_order_says_how_to_load_and_sew():
    text = "[top]\nwidth = 63\nlength = 87\n[quilting]\nstyle = 'medium-pantograph'\n"
    sheet = " ".join(quote_text(quoted(text), "studio").split())
    for words in (
        "1. load it sideways, 95 in of backing along the rollers; its seams run along the rollers",
        "2. 6 rows in 6 passes, 63 in down",
        "run along the rollers; loaded upright it would take 8 passes, 2 more",
        "wind 4 bobbins;",  # 65 x 89 / 0.65 = 8,900 in, 247.2 yd; x 3 x 1.1 / 2 / 130 = 3.14
        "change the bobbin 3 times",
        "stitch medium pantograph all over: 247.2 yd, 0.1 in a stitch",
        "partial row at the bottom: 3 in of 12 in; a pitch of 12.6 in makes 5 whole rows in 5 passes",
    ):
        assert words in sheet, words
    assert "Work order" not in quote_text(quoted(text), "customer")


@pytest.mark.parametrize(
    ("length", "pitch", "height", "throat", "even"),
    [
        # 70 / 12: 6 rows, the last of 10; 5 rows would be 14 apart, 6 are 11 2/3, which is nearer to 12
        (70, 12, 11, 18, (6, "11 2/3", 6)),
        # 64 / 12: 6 rows; 6 at 10 2/3 would run into each other 12 high, so 5 at 12 4/5
        (64, 12, 12, 18, (5, "12 4/5", 5)),
        # rows 14 apart: a throat of 28 reaches over 2 of them, one of 26 only over 2 that are 12 apart
        (70, 12, 12, 28, (5, "14", 3)),
        (70, 12, 12, 26, (5, "14", 5)),
    ],
)
def test_rows_that_come_out_even(length: int, pitch: int, height: int, throat: int, even: tuple[int, str, int]):
    """The pitch nearest to the style's at which whole rows fill the length and none runs into the next (derived)."""
    plan = quilting_of(
        60, length, row_pitch=inches(pitch), pattern_height=inches(height), frame={"throat": inches(throat)}
    )
    assert plan.uneven
    assert plan.uneven.nearest
    rows, at, passes = even
    nearest = plan.uneven.nearest
    assert (nearest.rows, nearest.pitch, nearest.paper_passes) == (rows, inches(at), passes)


@pytest.mark.parametrize(
    ("width", "length", "way", "seams"), [(63, 87, "sideways", "along"), (63, 60, "upright", "square to")]
)
def test_how_the_seams_of_the_backing_lie_on_the_frame(width: int, length: int, way: str, seams: str):
    """Seams that run top to bottom lie along the rollers of a quilt that is loaded sideways (derived)."""
    text = f"[top]\nwidth = {width}\nlength = {length}\n[quilting]\nstyle = 'medium-pantograph'\n"
    result = quoted(text + "[backing]\nseams = 'lengthwise'\n")
    sheet = " ".join(quote_text(result, "studio").split())
    assert f"1. load it {way}, " in sheet
    assert f"its seams run {seams} the rollers" in sheet
    assert f"loaded {way}" in sheet.split("The passes")[1]


def test_a_quilt_that_does_not_fit_is_said_where_it_is_loaded():
    """124 + 8 = 132 and 126 + 8 = 134 are both more than the sample frame's 130 (derived)."""
    sheet = " ".join(quote_text(quoted("[top]\nwidth = 124\nlength = 126\n"), "studio").split())
    assert "- it does not fit this frame" in sheet


def test_thread_on_top_and_below():
    """By lockstitch half and half; by hand all of it is one thread."""
    sheet = " ".join(quote_text(quoted("[top]\nwidth = 63\nlength = 87\n"), "studio").split())
    found = re.search(r"; ([\d.]+) yd of thread on top and ([\d.]+) yd below", sheet)
    assert found
    assert found[1] == found[2]


def test_hours_stood_by_are_said_where_they_are_fewer():
    text = "[top]\nwidth = 63\nlength = 87\n[quilting]\nmethod = 'longarm-computer-guided'\n"
    result = quoted(text)
    hours = result.plans.hours
    told = [
        f"{int(m // 60)} h {int(m % 60)} min" for m in (hours.planned + Fraction(1, 2), hours.attended + Fraction(1, 2))
    ]
    sheet = " ".join(quote_text(result, "studio").split())
    assert f"planned {told[0]}, of which {told[1]} attended" in sheet


def test_the_picture_of_the_passes():
    style = "{ preset = 'medium-pantograph', row_pitch = 8, pattern_height = 8 }"
    text = f"[top]\nwidth = 63\nlength = 87\n[quilting]\nstyle = {style}\n"
    result = quoted(text)
    picture = passes_picture(result.plans, notation_of(result))
    assert picture
    # sideways: 63 / 8 -> 8 rows, two a pass in a throat of 18: 4 bands of 16, the last 63 - 48 = 15
    assert [(tile.name, tile.size) for tile in picture.tiles] == [
        ("pass 1", "rows 1 to 2"),
        ("pass 2", "rows 3 to 4"),
        ("pass 3", "rows 5 to 6"),
        ("pass 4", "rows 7 to 8"),
    ]
    assert [tile.length for tile in picture.tiles] == [inches(16)] * 3 + [inches(15)]
    assert picture.tiles[-1].y + picture.tiles[-1].length == inches(63)
    assert passes_picture(quoted(text + "method = 'hand-quilted'\n").plans, notation_of(result)) is None


def hours_of(method: str) -> QuiltingPlan:
    """90x100 in the medium pantograph preset, on the sample shop's frame."""
    lines = f'[top]\nwidth = 90\nlength = 100\n[quilting]\nstyle = "medium-pantograph"\nmethod = "{method}"\n'
    return make_plans(resolve(Source("hours", lines)).project).quilting


# 90 x 100, 380 round, from the sample minutes. Hand-guided, likely: 92 x 102 / 0.65 = 14,436.9 in at 60 a minute 240.6,
# 9 passes x 3 and 9 rows x 1 = 36, 5 changes x 3 = 15, and (5 + 15.2) + (15 + 24.7) + 10 + 8 + (4 + 11.4) = 93.3 once
# for the quilt: 384.9 min. Computer-guided: 262.5 at 55 a minute, 9 x 4 + 9 x 1, 15, and 93.3 + 15: 430.8 min.
@pytest.mark.parametrize(
    ("method", "low", "likely", "high"),
    [("longarm-hand-guided", "284.2", "384.9", "572.7"), ("longarm-computer-guided", "316.9", "430.8", "646.8")],
)
def test_hours(method: str, low: str, likely: str, high: str):
    hours = hours_of(method).hours
    found = [round(minutes, 1) for minutes in (hours.low, hours.likely, hours.high)]
    assert found == [Fraction(low), Fraction(likely), Fraction(high)]


# 90 x 100, 380 round and 9,000 / 1,296 = 6.94 sq yd, by hand from the sample minutes; likely in every case:
# - domestic: 14,436.9 in at 28 a minute; its thread, x 3 x 1.1 / 2 = 661.7 yd, fills 9 bobbins of 80, 8 changes x 3;
#   5 + 15.2 to press, 30 + 18 x 6.94 to baste, (6.5 + 3) x 6.94 to turn it and clip tails, 10, and 4 + 11.4 to trim.
# - by hand: 14,436.9 at 1.1 a minute, and 20.2 + 60 x 6.94 + (30 + 39 x 6.94) + 15.4.
# - tied every 4 in, none on the edge: 22 x 24 = 528 ties x 0.5, and 20.2 + (15 + 4.5 x 6.94) + 15.4.
STITCHED, YARDS = Fraction(92 * 102 * 100, 65), Fraction(9000, 1296)
EXACT: list[tuple[str, str, Fraction, Fraction, Fraction]] = [
    (
        "domestic-machine",
        "medium-pantograph",
        STITCHED / 40 + (12 + 6) * YARDS + 16 + Fraction("10.6") + 20 + 5 + Fraction("9.6"),
        STITCHED / 28 + (18 + Fraction("9.5")) * YARDS + 24 + Fraction("20.2") + 30 + 10 + Fraction("15.4"),
        STITCHED / 18 + (27 + 30) * YARDS + 64 + Fraction("34.7") + 45 + 25 + 27,
    ),
    (
        "hand-quilted",
        "medium-pantograph",
        STITCHED / Fraction("1.5") + (35 + 30) * YARDS + Fraction("10.6") + 30 + Fraction("9.6"),
        STITCHED / Fraction("1.1") + (60 + 39) * YARDS + Fraction("20.2") + 30 + Fraction("15.4"),
        STITCHED / Fraction("0.6") + (86 + 48) * YARDS + Fraction("34.7") + 30 + 27,
    ),
    (
        "tied",
        "ties-4",
        132 + 3 * YARDS + Fraction("10.6") + 10 + Fraction("9.6"),
        264 + Fraction("4.5") * YARDS + Fraction("20.2") + 15 + Fraction("15.4"),
        528 + 8 * YARDS + Fraction("34.7") + 20 + 27,
    ),
]


@pytest.mark.parametrize(("method", "style", "low", "likely", "high"), EXACT)
def test_hours_off_the_frame_to_the_minute(method: str, style: str, low: Fraction, likely: Fraction, high: Fraction):
    hours = quilted(f"style = '{style}'\nmethod = '{method}'", 90, 100).hours
    assert (hours.low, hours.likely, hours.high) == (low, likely, high)


def test_metric_hours_to_the_minute():
    """200 x 250 cm of open meander, 2.5 beyond every side and 2.8 apart: 205 x 255 / 2.8 = 18,669.6 cm. On a domestic
    machine at 71 a minute; thread x (2 + 2 x 0.13 / 0.25) x 1.1 is 624.3 m, on the bobbins 312.2: 5 of 75, 4 changes
    x 3; 9 m round and 5 sq m: 5 + 1.6 x 9 to press, 30 + 21.5 x 5 to baste, (7.8 + 3.6) x 5 to turn it and clip tails,
    10, and 4 + 1.2 x 9 to trim. A computer-guided machine stitches at 180, 140 and 100, of which someone stands by 35 %
    (common practice)."""
    text = "units = 'cm'\n[top]\nwidth = 200\nlength = 250\n[quilting]\nstyle = 'open-meander'\nmethod = 'METHOD'\n"
    domestic, computer = (
        quoted(text.replace("METHOD", name)).plans.quilting for name in ("domestic-machine", "longarm-computer-guided")
    )
    stitched = Fraction(205 * 255 * 10, 28)
    once = Fraction("19.4") + Fraction("137.5") + 57 + 10 + Fraction("14.8")
    assert domestic.hours.likely == stitched / 71 + 12 + once
    planned = (stitched / 180 + 4 * stitched / 140 + stitched / 100) / 6
    assert computer.hours.planned - computer.hours.attended == planned * Fraction(65, 100)


@pytest.mark.parametrize(
    ("attach", "likely"),
    [("front", "92.4"), ("machine", "154"), ("hand", "344.4"), ("faced", "126"), ("hem", "70")],
)
def test_minutes_at_the_edge(attach: str, likely: str):
    """280 in of edge at so many minutes an inch: made 0.11, sewn to the front 0.22, the back by machine 0.22 or by hand
    0.90 (logs, and machine a sample); faced 0.45, hemmed 0.25 (samples)."""
    plans = quoted(f"[top]\nwidth = 60\nlength = 80\n[binding]\nattach = '{attach}'\n").plans
    edge = [stage for stage in plans.hours.stages if stage.work not in ("quilting", "seams")]
    assert sum(stage.likely for stage in edge) == Fraction(likely)


def test_a_style_of_lines_stitches_what_its_lines_come_to():
    """A crosshatch at 45 degrees on 63 x 87 is twice the parallel lines; an echo 2 in from the edge and on is 59 x 83,
    55 x 79 ... 3 x 27: 15 outlines, 2 x (465 + 825) in (derived)."""
    one = {"lines": "parallel", "line_spacing": inches(2), "angle": 45}
    style = sample_project().quilting.style.replace(**one)
    once = stitched_length(rectangle(inches(63), inches(87)), style, inches(0))
    assert quilted('style = "crosshatch-2"').stitched_length == once * 2
    assert quilted('style = "echo-2"').stitched_length == inches(2 * (465 + 825))


def test_cones_are_of_the_thread_on_top():
    """9,000 in x 3 x 1.1 is 825 yd, half of it on top: one cone of 500 yd, where all of it would take two (derived)."""
    plan = quilting_of(90, 100, line_spacing=inches(1), thread={"cone": yards(500)})
    assert (plan.threads.cones, round(float(plan.threads.top.to("yd")), 1)) == (1, 412.5)
    assert quilting_of(90, 100, line_spacing=inches(1), thread={"cone": yards(400)}).threads.cones == 2


def test_each_colour_has_its_own_cone_and_its_changes():
    """4 bobbins in 6 passes take 3 changes; in two colours 4 bobbins take 2, and the second colour 6 (derived)."""
    one, two = (quilted(f"style = 'medium-pantograph'\ncolours = {number}") for number in (1, 2))
    assert (one.threads.cones, two.threads.cones) == (1, 2)
    assert one.loading
    assert (one.threads.bobbins, two.threads.bobbins, one.loading.passes) == (4, 4, 6)
    assert (one.changes, two.changes) == ((3, 0), (2, 6))
    off = quilted("style = 'medium-pantograph'\ncolours = 2\nmethod = 'domestic-machine'")
    assert off.changes.colours == 1


def test_ties_of_a_share_are_rounded_up():
    """14 x 19 = 266 ties 4 in apart on 60 x 80; a third of them 88.7: 89 (derived)."""
    plan = quoted(
        "[top]\nwidth = 60\nlength = 80\n[quilting]\nstyle = 'ties-4'\nmethod = 'tied'\n"
        "areas = [{ style = 'ties-4', share = '33.333 %' }]\n"
    ).plans.quilting
    assert sorted(area.ties for area in plan.areas) == [89, 178]


def test_areas_draw_up_by_their_shares_and_turn_only_together():
    """Four tenths at 4 % and six at 2 % draw up 2.8 %; a style that may not turn holds the others (derived)."""
    text = "style = { preset = 'open-meander', draw_up = '2 %' }\nareas = [{ style = { preset = 'dense-pantograph'"
    plan = quilted(text + ", draw_up = '4 %' }, share = '40 %' }]", 100, 60)
    assert plan.draw_up == Fraction(28, 1000)
    held = quilted(text + ", may_turn = false }, share = '40 %' }]", 60, 130, "[backing]\noverage = 4\n")
    free = quilted(text + " }, share = '40 %' }]", 60, 130, "[backing]\noverage = 4\n")
    assert held.loading
    assert held.loading.way == "upright"
    assert free.loading


def test_a_hem_is_off_before_quilting_draws_it_up():
    """What quilting takes is taken of the size that the hem leaves."""
    plan = quoted("[top]\nwidth = 60\nlength = 80\n[binding]\nattach = 'hem'\n").plans
    assert plan.hem
    left = 1 - plan.quilting.draw_up
    assert plan.quilting.quilted.width.mm == plan.hem.width.mm * left
    assert plan.quilting.quilted.length.mm == plan.hem.length.mm * left


def test_hours_stood_by():
    """A computer-guided machine needs someone for 4.5 h of 7.5: of 269.5 planned minutes of stitching
    35 % (practice); a hand-guided one all the time."""
    computer, hand = hours_of("longarm-computer-guided"), hours_of("longarm-hand-guided")
    assert round(computer.hours.attended, 1) == Fraction("272.6")
    assert hand.hours.attended == hand.hours.planned


def test_planned_minutes():
    """Planned is (low + 4 likely + high) / 6, of a stage and of them all (common practice)."""
    plan = hours_of("longarm-hand-guided")
    assert plan.hours.planned == (plan.hours.low + 4 * plan.hours.likely + plan.hours.high) / 6
    assert sum(stage.planned for stage in plan.hours.stages) == plan.hours.planned
    loading = next(stage for stage in plan.hours.stages if stage.name == "load the frame")
    assert loading.planned == (29 + 4 * Fraction("39.7") + Fraction("59.2")) / 6


def test_stages_add_up():
    """Stages are not independent, so their lows, likelies and highs add plainly (common practice)."""
    plan = hours_of("longarm-computer-guided")
    for name in ("low", "likely", "high"):
        assert sum(getattr(stage, name) for stage in plan.hours.stages) == getattr(plan.hours, name)


def test_the_first_bobbin_is_not_a_change():
    """Six bobbins are changed five times: 5 x 3 = 15 min (derived)."""
    change = next(stage for stage in hours_of("longarm-hand-guided").hours.stages if stage.name == "change the bobbin")
    assert change.likely == 15


def codes(plan: QuiltingPlan) -> list[str]:
    """The codes of a plan's cautions."""
    return [told.code for told in plan.cautions]


def test_upright_where_it_fits():
    """100x92 is backed by 108x100, which a frame of exactly 108 holds upright (derived)."""
    plan = quilting_of(100, 92, may_turn=True, frame={"widest": inches(108)})
    assert (plan.loading.way, plan.fits, codes(plan)) == ("upright", True, [])


def test_sideways_where_only_that_fits():
    """A frame of 107 holds 108x96 sideways, and says so; 100 / 10 = 10 rows then, not 88 / 10 -> 9 (derived)."""
    frame = {"widest": inches(107), "throat": inches(18)}
    plan = quilting_of(100, 88, may_turn=True, row_pitch=inches(10), pattern_height=inches(10), frame=frame)
    assert (plan.loading.way, plan.fits, codes(plan)) == ("sideways", True, ["loaded-sideways"])
    assert plan.rows == 10


def test_a_pattern_that_must_not_turn_does_not():
    """A pattern that may not turn is left upright, and the frame is too narrow for it."""
    plan = quilting_of(100, 92, may_turn=False, frame={"widest": inches(107)})
    assert (plan.loading.way, plan.fits, codes(plan)) == ("upright", False, ["frame-too-narrow", "may-not-turn"])


def test_a_frame_too_narrow_both_ways():
    """108x100 fits a frame of 99 neither way: it is planned all the same, with a caution (derived)."""
    plan = quilting_of(100, 92, may_turn=True, frame={"widest": inches(99)})
    assert (plan.fits, codes(plan)) == (False, ["frame-too-narrow"])
    assert plan.hours.planned > 0


@pytest.mark.parametrize(("may_turn", "turned", "need"), [(True, ", turned or not", "100"), (False, "", "108")])
def test_the_frame_that_would_do_is_named(may_turn: bool, turned: str, need: str):
    """100 x 92 with 4 on every side is 108 x 100: turned, a frame for 100 would do (derived)."""
    plan = quilting_of(100, 92, may_turn=may_turn, frame={"widest": inches(99)})
    (told,) = (each for each in plan.cautions if each.code == "frame-too-narrow")
    words = Notation("in").write(told.sentence).replace(NO_BREAK, " ")
    assert words == (
        f"The backing, 108 in x 100 in, is too wide for the frame, which takes 99 in{turned}: "
        f"use a frame for {need} in, or quilt it off the frame."
    )


def test_what_cannot_be_made_as_it_stands_says_so_at_the_head():
    wide = quote_text(quoted("[top]\nwidth = 130\nlength = 140\n"), "customer")
    assert "This cannot be made as specified:\n" in wide[: wide.index("Top ")]
    assert "cannot be made" not in quote_text(quoted("[top]\nwidth = 60\nlength = 80\n"), "customer")


def test_a_pattern_higher_than_the_throat():
    """A pattern higher than the throat cannot be sewn (derived)."""
    throat = {"throat": inches(11)}
    just = quilting_of(60, 80, pattern_height=inches(11), frame=throat)
    assert just.fits
    assert "pattern-too-high" not in {each.code for each in just.cautions}
    plan = quilting_of(60, 80, pattern_height=inches("11 1/8"), frame=throat)
    assert (plan.fits, codes(plan)) == (False, ["pattern-too-high"])


SIDES = st.integers(8, 8 * 130).map(lambda eighths: Fraction(eighths, 8))
SPACINGS = st.integers(1, 64).map(lambda sixteenths: inches(Fraction(sixteenths, 16)))


@examples(100)
@given(SIDES, SIDES, SPACINGS, st.integers(1, 20), st.integers(6, 30))
def test_low_is_least_and_high_is_most(width: Fraction, length: Fraction, spacing: Length, pitch: int, throat: int):
    """Low, likely and high come in that order for every stage and for the whole, with the plan between them."""
    plan = quilting_of(width, length, line_spacing=spacing, row_pitch=inches(pitch), frame={"throat": inches(throat)})
    for told in (plan.hours, *plan.hours.stages):
        assert 0 <= told.low <= told.likely <= told.high
        assert told.low <= told.planned <= told.high
    assert 0 <= plan.hours.attended <= plan.hours.planned


@examples(100)
@given(SIDES, SIDES, SPACINGS, SPACINGS)
def test_denser_never_takes_less(width: Fraction, length: Fraction, one: Length, other: Length):
    """Lines nearer together never take less stitching, thread, bobbins or time."""
    dense, open_ = (quilting_of(width, length, line_spacing=spacing) for spacing in sorted((one, other)))
    assert dense.stitched_length >= open_.stitched_length
    assert dense.threads.total >= open_.threads.total
    assert dense.threads.bobbins >= open_.threads.bobbins
    assert dense.hours.planned >= open_.hours.planned
    assert (dense.hours.low, dense.hours.high) >= (open_.hours.low, open_.hours.high)


@examples(100)
@given(SIDES, SIDES, st.integers(1, 160).map(lambda eighths: Fraction(eighths, 8)), st.integers(4, 30))
def test_passes_hold_every_row(width: Fraction, length: Fraction, pitch: Fraction, throat: int):
    """The rows cover the length and the passes hold the rows, with not one of either to spare."""
    pitches = {"row_pitch": inches(pitch), "pattern_height": inches(pitch)}
    plan = quilting_of(width, length, frame={"throat": inches(throat)}, **pitches)
    down = length if plan.loading.way == "upright" else width
    assert plan.rows is not None
    assert (plan.rows - 1) * pitch < down <= plan.rows * pitch
    each = max(1, throat // pitch)
    assert (plan.passes - 1) * each < plan.rows <= plan.passes * each


METHODS = [
    ("tied", "in"),
    ("tied", "cm"),
    ("longarm-hand-guided", "in"),
    ("longarm-computer-guided", "in"),
    ("domestic-machine", "in"),
    ("hand-quilted", "in"),
    ("longarm-hand-guided", "cm"),
    ("longarm-computer-guided", "cm"),
    ("domestic-machine", "cm"),
    ("hand-quilted", "cm"),
]
STYLES = ["open-meander", "medium-pantograph", "custom", "crosshatch-2", "channels-3", "echo-2", "grid-2"]


@examples(60)
@given(st.sampled_from(METHODS), st.sampled_from(STYLES), st.integers(30, 110), st.integers(30, 120))
def test_low_likely_high_for_every_stage_of_every_method(method: tuple[str, str], style: str, width: int, length: int):
    name, units = method
    style = {"in": "ties-4", "cm": "ties-10"}[units] if name == "tied" else style
    text = f"units = '{units}'\n[top]\nwidth = '{width} in'\nlength = '{length} in'\n[quilting]\n"
    plans = quoted(f"{text}style = '{style}'\nmethod = '{name}'\n").plans
    for hours in (plans.quilting.hours, plans.hours):
        for told in (hours, *hours.stages):
            assert 0 <= told.low <= told.likely <= told.high
        assert 0 <= hours.attended <= hours.planned
        assert 0 <= hours.frame <= hours.planned


@examples(60)
@given(st.sampled_from(STYLES), st.integers(30, 110), st.integers(30, 110), st.integers(1, 20))
def test_a_longer_top_never_takes_fewer_passes(style: str, width: int, length: int, more: int):
    """Loaded the same way, that is: a longer one may be worth loading sideways."""
    lines = f"style = {{ preset = '{style}', may_turn = false }}"
    assert (quilted(lines, width, length).passes or 0) <= (quilted(lines, width, length + more).passes or 0)


@examples(40)
@given(st.integers(30, 90), st.integers(30, 90), st.sampled_from([0, 30, 45, 90, 120]), st.integers(1, 4))
def test_turning_the_top_and_the_style_together_changes_nothing(width: int, length: int, angle: int, distance: int):
    """The same lines on the turned top, off the frame: stitching, thread and time (to the grain of the sums)."""

    def plan(one: int, other: int, degrees: int) -> QuiltingPlan:
        style = f"style = {{ preset = 'diagonal-lines-2', angle = {degrees}, line_spacing = {distance} }}"
        return quilted(f"{style}\nmethod = 'domestic-machine'", one, other)

    found, turned = plan(width, length, angle), plan(length, width, (angle + 90) % 180)
    assert abs(found.stitched_length.mm - turned.stitched_length.mm) <= Fraction(1, 500)
    assert found.threads.bobbins == turned.threads.bobbins
    assert abs(found.hours.planned - turned.hours.planned) < Fraction(1, 100)


@examples(40)
@given(st.sampled_from(["channels-3", "crosshatch-2", "grid-2", "echo-2"]), st.integers(1, 12), st.integers(2, 3))
def test_denser_lines_never_take_less(style: str, distance: int, times: int):
    open_, dense = (
        quilted(f"style = {{ preset = '{style}', line_spacing = '{spacing} in' }}")
        for spacing in (distance, Fraction(distance, times))
    )
    assert dense.stitched_length >= open_.stitched_length
    assert dense.threads.total >= open_.threads.total
    assert dense.hours.planned >= open_.hours.planned
