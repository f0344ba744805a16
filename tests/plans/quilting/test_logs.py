"""Hours and thread held against logs that working quilters kept of their jobs, and against a thread maker's table.

The logs are described, not named. Each lies between the low and the high of the page, and where the log says all that
the page asks, near its plan.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.plans.hours import Hours, StageTime
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.together import Plans
from tests.builders import quote_text, quoted
from tests.strategies import examples


def planned(width: int | str, length: int | str, quilting: str, binding: str = "attach = 'none'") -> Plans:
    """The plans of a top in inches."""
    lines = f"[top]\nwidth = '{width} in'\nlength = '{length} in'\n[quilting]\n{quilting}\n[binding]\n{binding}\n"
    return quoted(lines).plans


def stages(plans: Plans, *names: str) -> list[StageTime]:
    """The stages of some names, every one of which there must be."""
    found = [stage for stage in plans.hours.stages if stage.name in names]
    assert {stage.name for stage in found} == set(names)
    return found


def hours(found: list[StageTime]) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Low, likely, high and planned hours of some stages."""
    together = Hours(tuple(found))
    return together.low / 60, together.likely / 60, together.high / 60, together.planned / 60


def test_a_pantograph_timed_to_the_minute():
    """90 x 96, edge to edge, hand-guided: load, wind bobbins, quilt, unload and trim took 7 h with the invoice (log of
    a working longarmer, every minute kept, 2009). By hand: 92 x 98 / 0.65 = 13,870.8 in at 60 a minute, 231.2 min; 8
    passes x 3 and 8 rows x 1; 4 changes x 3; 19.9 + 39.2 + 10 + 8 + 15.2 for the quilt: 367.4 min, 6.1 h."""
    plans = planned(90, 96, "style = 'medium-pantograph'")
    low, likely, high, plan = hours(list(plans.quilting.hours.stages))
    assert round(likely, 2) == Fraction("6.12")
    assert low < 7 < high
    assert Fraction("5.9") < plan < Fraction("6.5")


def test_a_king_in_loops():
    """King, freehand loops, hand-guided: 5 h of quilting with the advances, 5 bobbins (log, 2010). The page says 4.5 to
    5 h on the frame and 4 bobbins of 130 yd: 110 x 110 / 1.1 = 11,000 in x 3 x 1.1 / 2 = 504.2 yd."""
    plans = planned(108, 108, "style = 'open-meander'")
    assert Fraction("4.5") <= plans.quilting.hours.frame / 60 <= 5
    assert plans.quilting.threads.bobbins in (4, 5)
    assert round(plans.quilting.threads.bobbin.to("yd"), 1) == Fraction("504.2")
    low, _, high, _ = hours([stage for stage in plans.quilting.hours.stages if stage.on_frame])
    assert low < 5 < high


def test_a_bed_size_quilt_of_shirts():
    """A bed-size quilt of T-shirts took 5.5 h by longarm (log, 2017; its size is not told: 80 x 90 taken)."""
    low, _, high, _ = hours(list(planned(80, 90, "style = 'medium-pantograph'").quilting.hours.stages))
    assert low < Fraction("5.5") < high


def test_free_motion_at_home():
    """A quilt of 300 round: 5.37 h of quilting on a domestic machine, about 2 h of basting (quilt-for-hire log, 2012;
    its sides are not told: 70 x 80 taken). By hand: 72 x 82 / 0.65 = 9,083 in at 28 a minute, 324 min, 5.4 h."""
    plans = planned(70, 80, "style = 'medium-pantograph'\nmethod = 'domestic-machine'")
    low, likely, high, _ = hours(stages(plans, "stitch"))
    assert low < Fraction("5.37") < high
    assert abs(likely - Fraction("5.37")) < Fraction("0.1")
    low, likely, high, _ = hours(stages(plans, "baste"))
    assert low < 2 < high
    assert abs(likely - 2) < Fraction("0.25")


def test_binding_by_the_log():
    """300 in round: 99 min to make and sew on, 188 min focused and 300 really to finish the back by hand
    (quilt-for-hire log, 2012): 0.33 and 0.63 to 1.00 a minute an inch; 121.5 round: 30, 43 and 140 min (log, 2014); 260
    round: 60 and 180 min (log)."""
    plans = planned(70, 80, "style = 'medium-pantograph'", "attach = 'hand'")
    front = stages(plans, "make the binding", "sew the binding to the front")
    assert sum(stage.likely for stage in front) == 99
    (hand,) = stages(plans, "finish the back by hand")
    assert hand.likely == 270
    assert hand.low == 189  # 0.63 x 300: the log's 188 is 0.627
    assert hand.high > 300
    small = planned(30, "30 3/4", "style = 'medium-pantograph'", "attach = 'hand'")
    for name, took in (
        ("make the binding", 30),
        ("sew the binding to the front", 43),
        ("finish the back by hand", 140),
        ("trim", 12),
    ):
        (stage,) = stages(small, name)
        assert stage.low < took < stage.high, name
    other = planned(54, 76, "style = 'medium-pantograph'", "attach = 'hand'")
    front = stages(other, "make the binding", "sew the binding to the front")
    assert sum(stage.low for stage in front) <= 60 <= sum(stage.high for stage in front)
    (hand,) = stages(other, "finish the back by hand")
    assert hand.low < 180 < hand.high


def test_lines_by_walking_foot():
    """54 x 76 in lines both ways: 8 + 7 h of stitching and 1 h of burying threads (log; the distance is not told: 1 in
    taken). By hand: 53 lines of 76 and 75 of 54 are 8,078 in; at 25, 16 and 8 a minute 5.4, 8.4 and 16.8 h."""
    plans = planned(54, 76, "style = { preset = 'grid-2', line_spacing = '1 in' }\nmethod = 'domestic-machine'")
    low, _, high, _ = hours(stages(plans, "stitch the lines", "tie off and clip tails"))
    assert plans.quilting.stitched_length.to("in") == 53 * 76 + 75 * 54
    assert low < 16 <= high


def test_quilting_by_hand():
    """78 x 92 through 2 in squares crossed both ways, 1,794 squares at 5 min: 149.5 h (log kept square by square,
    2014). Lines root 2 apart: 2 x 7,176 / 1.4142 = 10,148 in, 1.13 in a minute. At our 1.1 that is 153.8 h."""
    style = "{ preset = 'crosshatch-2', line_spacing = '1.41421 in' }"
    low, likely, high, _ = hours(stages(planned(78, 92, f"style = {style}\nmethod = 'hand-quilted'"), "stitch"))
    assert low < Fraction("149.5") < high
    assert abs(likely - Fraction("153.8")) < 1


def test_a_tied_quilt():
    """88 x 100 laid out, pinned and tied in 4 h, with help at the end (log, 2010)."""
    plans = planned(88, 100, "style = 'ties-4'\nmethod = 'tied'")
    low, _, high, _ = hours(stages(plans, "layer and pin", "tie"))
    assert low < 4 < high
    assert plans.quilting.threads.cones == 0


def test_custom_work_takes_days():
    """100 x 104 of custom work takes 20 to 40 h (common practice; 3-5 working days and more: a studio; 60 h a
    "show-stopper": another). By hand, likely: 10,400 / 0.4 = 26,000 in at 20 a minute, 1,300 min; 73 motifs x 1.5; the
    design 20 + 8.02 sq yd x 6 = 68.1."""
    plans = planned(100, 104, "style = 'custom'")
    assert 20 <= plans.hours.planned / 60 <= 40
    motifs, design = stages(plans, "start, stop and tie off", "plan and mark the design")[::-1]
    assert (motifs.likely, round(design.likely, 1)) == (Fraction("109.5"), Fraction("68.1"))
    (stitch,) = stages(plans, "stitch the motifs")
    assert stitch.likely == 1300
    assert plans.quilting.motifs == 73  # 10,400 / 144 = 72.2, up


def test_each_block_is_a_motif():
    """4 x 5 blocks are 20 motifs, and a border cut 6 1/2 has its own: the top is 60 1/2 x 72 1/2, 4,386.25 sq in, and
    the blocks show 48 x 60 = 2,880, so (4,386.25 - 2,880) / 144 = 10.46 more, up (derived)."""
    pieced = "[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n[[top.borders]]\ncut = '6 1/2'\n"
    plan = quoted(f"{pieced}[quilting]\nstyle = 'custom'\n").plans.quilting
    assert plan.motifs == 31
    blocks = "[[quilting.areas]]\nstyle = 'custom'\npart = 'blocks'\n"
    assert quoted(f"{pieced}[quilting]\nstyle = 'open-meander'\n{blocks}").plans.quilting.motifs == 20


@pytest.mark.parametrize(
    ("part", "cut", "motifs"),
    [
        ("borders", "5 1/4", 34),  # 25 blocks, and (43 x 43 - 625) / 144 = 8.5 of sashing, up
        ("borders", "10", 34),  # a wider border, which has its own style, takes none of them away
        ("blocks", "5 1/4", 16),  # the blocks are not its own: (53.5 x 53.5 - 625) / 144 = 15.5, up
    ],
)
def test_what_is_left_beside_parts_has_the_motifs_that_lie_in_it(part: str, cut: str, motifs: int):
    """5 x 5 blocks of 5 with 3 in sashing all round are 5 x 5 + 6 x 3 = 43 square (derived)."""
    pieced = "[top.blocks]\nacross = 5\ndown = 5\nsize = 5\n[top.sashing]\nwidth = 3\nouter = true\n"
    areas = f"[quilting]\nstyle = 'custom'\n[[quilting.areas]]\nstyle = 'grid-2'\npart = '{part}'\n"
    assert quoted(f"{pieced}[[top.borders]]\ncut = '{cut}'\n{areas}").plans.quilting.motifs == motifs


# sizes and yards of the newsletter; a crib there is taken as 45 x 60
THREAD = {
    (45, 60): (200, 400, 600),
    (72, 90): (400, 800, 1200),
    (90, 108): (600, 1100, 1600),
    (108, 108): (700, 1300, 2000),
}


@pytest.mark.parametrize("size", THREAD)
def test_thread_on_top_by_the_makers_table(size: tuple[int, int]):
    """A thread maker's newsletter, 2006, "only averages": yards of thread on top for light, medium and heavy quilting.
    Its round figures are for buying: our stitching with its waste comes to two thirds of them, within a quarter."""
    for style, yards in zip(("open-meander", "medium-pantograph", "dense-pantograph"), THREAD[size], strict=True):
        top = planned(*size, f"style = '{style}'").quilting.threads.top.to("yd")
        assert abs(top - Fraction(yards * 2, 3)) <= Fraction(yards * 2, 3) / 4, (style, float(top))


def test_a_crib_is_loaded_quicker_than_a_king():
    """Loading: 15 min and 0.065 an inch of the edge: 36 x 52, 176 round, 26.4 min; 108 x 108, 432 round, 43.1 min. A
    queen of 90 x 108, 396 round, takes 40.7, within the 35 to 45 of a practised hand (a teacher's timings)."""
    for (width, length), minutes in {(36, 52): "26.44", (108, 108): "43.08", (90, 108): "40.74"}.items():
        (stage,) = stages(planned(width, length, "style = 'open-meander'"), "load the frame")
        assert stage.likely == Fraction(minutes)


def test_ruler_work_moves_the_ruler():
    """50 x 60 in a grid of 2: 24 lines of 60 and 29 of 50, 2,890 in, so 289 moves of 10 in; with them 96.3 + 43.35 min,
    20.7 in a minute (15 to 30: common practice)."""
    plans = planned(50, 60, "style = 'grid-2'")
    stitch, move = stages(plans, "stitch with rulers", "move the ruler")
    assert move.likely == Fraction(289 * 15, 100)
    assert stitch.likely == Fraction(2890, 30)
    for name, fewest, most in (("low", 25, 30), ("likely", 15, 30), ("high", 13, 16)):
        assert fewest <= 2890 / (getattr(stitch, name) + getattr(move, name)) <= most


OWN = """method = { name = 'own hands', frame = false, stages = [
  { name = 'sew', each = 'stitching', speed = 1, low = 30, likely = 20, high = 10, attended = '100 %' },
] }"""


def test_a_speed_that_is_assumed_is_told():
    """A method with one speed for all ways says so of each way that it is asked for; one that has them all does not."""
    plan = planned(50, 60, f"style = 'tiny-fill'\n{OWN}").quilting
    assert [sentence.values["way"] for sentence in plan.assumed] == ["fill"]
    assert [stage.likely for stage in plan.hours.stages] == [50 * 60 * 4 / 20]
    assert planned(50, 60, "style = 'tiny-fill'\nmethod = 'domestic-machine'").quilting.assumed == ()
    other = OWN.replace("likely = 20, high = 10", "likely = 20, high = 10, worked = ['fill']")
    assert [s.values["way"] for s in planned(50, 60, f"style = 'open-meander'\n{other}").quilting.assumed] == [
        "edge to edge"
    ]


def test_colours_are_changed_apart_from_bobbins():
    """63 x 87 in two colours: 5 passes of custom work, so 5 changes of colour at 3 min beside those of bobbins."""
    plan = planned(63, 87, "style = 'custom'\ncolours = 2").quilting
    stage = next(stage for stage in plan.hours.stages if stage.name == "change the colour")
    assert plan.passes
    assert stage.likely == 3 * plan.passes
    bobbins = next(stage for stage in plan.hours.stages if stage.name == "change the bobbin")
    assert bobbins.likely == 3 * (plan.threads.bobbins - 2)
    sheet = " ".join(
        quote_text(
            quoted("[top]\nwidth = 63\nlength = 87\n[quilting]\nstyle = 'custom'\ncolours = 2\n"), "studio"
        ).split()
    )
    assert f"change the bobbin {plan.changes.bobbins} times and change the colour {plan.passes} times" in sheet
    assert "39 motifs each started and tied off" in sheet  # 5,481 / 144 = 38.06, up


METHODS = {
    "longarm-hand-guided": ("medium-pantograph", "custom", "grid-2", "tiny-fill"),
    "longarm-computer-guided": ("medium-pantograph", "custom"),
    "domestic-machine": ("medium-pantograph", "custom", "channels-3"),
    "hand-quilted": ("crosshatch-2",),
    "tied": ("ties-4",),
}


@examples(60)
@given(
    st.sampled_from([(method, style) for method, styles in METHODS.items() for style in styles]),
    st.integers(24, 90),
    st.integers(24, 100),
    st.integers(0, 20),
    st.integers(0, 20),
)
def test_no_stage_takes_less_when_a_quilt_grows(way: tuple[str, str], width: int, length: int, wider: int, longer: int):
    """With the same loading, batting, backing and pitch every stage takes as long or longer."""
    method, style = way
    asked = f"style = {{ preset = '{style}', may_turn = false }}\nmethod = '{method}'"
    small, large = planned(width, length, asked).quilting, planned(width + wider, length + longer, asked).quilting
    grown = {stage.name: stage for stage in large.hours.stages}
    for stage in small.hours.stages:
        for name in ("low", "likely", "high", "planned"):
            assert getattr(stage, name) <= getattr(grown[stage.name], name)


@examples(30)
@given(
    st.sampled_from(["grid-2", "crosshatch-2", "echo-2", "channels-3"]),
    st.integers(8, 60),
    st.integers(0, 30),
    st.sampled_from(["blocks", "borders"]),
)
def test_a_wider_border_takes_nothing_from_the_work_in_the_parts(style: str, cut: int, more: int, part: str):
    """The blocks have as many lines whatever lies round them, and a wider border has more, with no stage shorter."""

    def plan(eighths: int) -> QuiltingPlan:
        pieced = f"[top.blocks]\nacross = 4\ndown = 5\nsize = 9\n[[top.borders]]\ncut = '{Fraction(eighths, 8)} in'\n"
        own = f"[[quilting.areas]]\nstyle = '{style}'\npart = '{part}'\n"
        return quoted(f"{pieced}[quilting]\nstyle = {{ preset = 'grid-2', may_turn = false }}\n{own}").plans.quilting

    small, large = plan(cut), plan(cut + more)
    grown = {stage.name: stage.likely for stage in large.hours.stages}
    assert all(stage.likely <= grown[stage.name] for stage in small.hours.stages)
    if part == "blocks":
        # 36 x 45 of blocks: whatever the border, 1,620 / the distance, twice for two sets of lines
        expected = {"grid-2": 1620, "crosshatch-2": 1620, "echo-2": 810, "channels-3": 540}[style]
        assert small.areas[0].stitched.to("in") == expected
