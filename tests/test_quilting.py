"""Quilting: thread, rows and passes, hours, and what the frame holds."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import resolve
from finishcalc.measures.length import Length
from finishcalc.pipeline import make_plans
from finishcalc.plans.quilting import QuiltingPlan
from finishcalc.plans.stitching import thread_per_length
from tests.builders import inches, quilting_of, yards

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
    assert plan.threads.whole == yards(375 + 375)
    assert plan.threads.bobbins == 3  # 375 / 130 = 2.88


def test_thread_of_a_high_loft():
    """1,000 in through 0.10 take 4,000 in, 111.11 yd (derived)."""
    plan = quilting_of(25, 40, line_spacing=inches(1), thickness="0.10", thread=NO_WASTE)
    assert plan.threads.whole == inches(4000)
    assert round(plan.threads.whole.to("yd"), 2) == Fraction(11111, 100)


def test_waste_comes_on_top():
    """At 10 % waste (10-15 %: from memory) 750 yd become 825; 412 1/2 on the bobbin are 4 bobbins (derived)."""
    plan = quilting_of(90, 100, line_spacing=inches(1), thread=NO_WASTE | {"waste": Fraction(10, 100)})
    assert (plan.threads.whole, plan.threads.bobbins) == (yards(825), 4)


def test_exactly_full_bobbins():
    """375 yd on the bobbin are three bobbins of 125, not four (derived)."""
    assert quilting_of(90, 100, line_spacing=inches(1), thread=NO_WASTE | {"bobbin": yards(125)}).threads.bobbins == 3


def test_no_batting_takes_less_thread():
    """A cover without batting is stitched at the bare thickness: 0.01, so 2.2 an inch (textile-engineering note)."""
    lines = '[top]\nwidth = 25\nlength = 40\n[batting]\nproduct = "none"\n[quilting.style]\npreset = "custom"\n'
    plan = make_plans(resolve(Source("bare", lines + "line_spacing = 1\n")).project).quilting
    # 1,000 in, no run-off, 10 % waste: 1,000 x 2.2 x 1.1
    assert plan.threads.whole == inches(2420)


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
    plan = quilting_of(63, length, row_pitch=inches(pitch), frame={"throat": inches(throat)})
    assert (plan.rows, plan.passes) == (rows, passes)


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


def test_channels():
    """Parallel lines 3 apart over 63x87 come to about A / d = 1,827 in; 20 lines of 87 are 1,740 (derived)."""
    plan = quilting_of(63, 87, line_spacing=inches(3))
    assert plan.stitched_length == inches(1827)
    assert 0 < plan.stitched_length.to("in") / 1740 - 1 < Fraction(6, 100)


def hours_of(method: str) -> QuiltingPlan:
    """90x100 in the medium pantograph preset, on the sample shop's frame."""
    lines = f'[top]\nwidth = 90\nlength = 100\n[quilting]\nstyle = "medium-pantograph"\nmethod = "{method}"\n'
    return make_plans(resolve(Source("hours", lines)).project).quilting


# Sample minutes, common practice. Hand-guided, likely: 9,384 in at 60 a minute 156.4, 9 passes x 4 = 36, 3 bobbin
# changes x 3 = 9, and 20 + 30 + 10 + 8 + 15 = 83 once for the quilt: 284.4 min = 4.74 h.
@pytest.mark.parametrize(
    ("method", "low", "likely", "high"),
    [("longarm-hand-guided", "3.5", "4.7", "7"), ("longarm-computer-guided", "3.8", "5.4", "8")],
)
def test_hours(method: str, low: str, likely: str, high: str):
    """90x100 edge to edge at spacing 1 takes about the hours that the trade plans with (common practice)."""
    plan = hours_of(method)
    for minutes, hours in ((plan.hours.low, low), (plan.hours.likely, likely), (plan.hours.high, high)):
        assert abs(minutes / 60 - Fraction(hours)) <= Fraction(15, 100)


def test_hours_stood_by():
    """A computer-guided machine needs someone for about 3.6 h of it, a hand-guided one all the time (practice)."""
    computer, hand = hours_of("longarm-computer-guided"), hours_of("longarm-hand-guided")
    assert abs(computer.hours.attended / 60 - Fraction("3.6")) <= Fraction(15, 100)
    assert hand.hours.attended == hand.hours.planned


def test_planned_minutes():
    """Planned is (low + 4 likely + high) / 6, of a stage and of them all (common practice)."""
    plan = hours_of("longarm-hand-guided")
    assert plan.hours.planned == (plan.hours.low + 4 * plan.hours.likely + plan.hours.high) / 6
    assert sum(stage.planned for stage in plan.hours.stages) == plan.hours.planned
    loading = next(stage for stage in plan.hours.stages if stage.name == "load the frame")
    assert loading.planned == Fraction(20 + 4 * 30 + 45, 6)


def test_stages_add_up():
    """Stages are not independent, so their lows, likelies and highs add plainly (common practice)."""
    plan = hours_of("longarm-computer-guided")
    for name in ("low", "likely", "high"):
        assert sum(getattr(stage, name) for stage in plan.hours.stages) == getattr(plan.hours, name)


def test_the_first_bobbin_is_not_a_change():
    """Four bobbins are changed three times: 3 x 3 = 9 min (derived)."""
    change = next(stage for stage in hours_of("longarm-hand-guided").hours.stages if stage.name == "change the bobbin")
    assert change.likely == 9


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
    assert (plan.loading.way, plan.fits, codes(plan)) == ("upright", False, ["frame-too-narrow"])


def test_a_frame_too_narrow_both_ways():
    """108x100 fits a frame of 99 neither way: it is planned all the same, with a caution (derived)."""
    plan = quilting_of(100, 92, may_turn=True, frame={"widest": inches(99)})
    assert (plan.fits, codes(plan)) == (False, ["frame-too-narrow"])
    assert plan.hours.planned > 0


def test_a_pattern_higher_than_the_throat():
    """A pattern higher than the throat cannot be sewn (derived)."""
    throat = {"throat": inches(11)}
    assert quilting_of(60, 80, pattern_height=inches(11), frame=throat).fits
    plan = quilting_of(60, 80, pattern_height=inches("11 1/8"), frame=throat)
    assert (plan.fits, codes(plan)) == (False, ["pattern-too-high"])


SIDES = st.integers(8, 8 * 130).map(lambda eighths: Fraction(eighths, 8))
SPACINGS = st.integers(1, 64).map(lambda sixteenths: inches(Fraction(sixteenths, 16)))


@settings(deadline=None)
@given(SIDES, SIDES, SPACINGS, st.integers(1, 20), st.integers(6, 30))
def test_low_is_least_and_high_is_most(width: Fraction, length: Fraction, spacing: Length, pitch: int, throat: int):
    """Low, likely and high come in that order for every stage and for the whole, with the plan between them."""
    plan = quilting_of(
        width, length, line_spacing=spacing, row_pitch=inches(pitch), frame={"throat": inches(throat)}
    )  # fmt: skip
    for told in (plan.hours, *plan.hours.stages):
        assert 0 <= told.low <= told.likely <= told.high
        assert told.low <= told.planned <= told.high
    assert 0 <= plan.hours.attended <= plan.hours.planned


@settings(deadline=None)
@given(SIDES, SIDES, SPACINGS, SPACINGS)
def test_denser_never_takes_less(width: Fraction, length: Fraction, one: Length, other: Length):
    """Lines nearer together never take less stitching, thread, bobbins or time."""
    dense, open_ = (quilting_of(width, length, line_spacing=spacing) for spacing in sorted((one, other)))
    assert dense.stitched_length >= open_.stitched_length
    assert dense.threads.whole >= open_.threads.whole
    assert dense.threads.bobbins >= open_.threads.bobbins
    assert dense.hours.planned >= open_.hours.planned
    assert (dense.hours.low, dense.hours.high) >= (open_.hours.low, open_.hours.high)


@settings(deadline=None)
@given(SIDES, SIDES, st.integers(1, 160).map(lambda eighths: Fraction(eighths, 8)), st.integers(4, 30))
def test_passes_hold_every_row(width: Fraction, length: Fraction, pitch: Fraction, throat: int):
    """The rows cover the length and the passes hold the rows, with not one of either to spare."""
    plan = quilting_of(width, length, row_pitch=inches(pitch), frame={"throat": inches(throat)})
    down = length if plan.loading.way == "upright" else width
    assert plan.rows is not None
    assert (plan.rows - 1) * pitch < down <= plan.rows * pitch
    each = max(1, throat // pitch)
    assert (plan.passes - 1) * each < plan.rows <= plan.passes * each
