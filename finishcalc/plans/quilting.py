"""The quilting: how much stitching, how many rows and passes, how much thread, and how long it takes."""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.materials import Stage, Style
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up
from finishcalc.measures.said import Long, Said, Share, say, say_in_house
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.shape import Shape
from finishcalc.project import Frame, QuiltingWishes, Thread


class StageTime(NamedTuple):
    """Minutes of one stage, and the share of them that someone stands by."""

    name: str
    low: Fraction
    likely: Fraction
    high: Fraction
    attended: Fraction

    @property
    def planned(self) -> Fraction:
        """(low + 4 likely + high) / 6."""
        return (self.low + 4 * self.likely + self.high) / 6


class QuiltingPlan(NamedTuple):
    """The quilting. `rows` is None for custom work; `loaded` says which side of the top lies along the rollers;
    `thread_length` is top and bobbin with waste; stages are not independent, so their lows and highs add plainly."""

    style: Style
    method: str
    stitched_length: Length
    thread_length: Length
    bobbins: int
    rows: int | None
    passes: int
    loaded: Literal["upright", "sideways"]
    fits: bool
    stages: tuple[StageTime, ...]
    low: Fraction
    likely: Fraction
    high: Fraction
    planned: Fraction
    attended: Fraction
    working: tuple[Said, ...]
    cautions: tuple[Caution, ...]


class Counts(NamedTuple):
    """How often each kind of stage is done, and the length that is stitched."""

    stitched: Length
    passes: int
    changes: int


def plan_quilting(
    shape: Shape,
    backing: tuple[Length, Length],
    thickness: Length,
    wishes: QuiltingWishes,
    thread: Thread,
    frame: Frame,
) -> QuiltingPlan:
    """Plan the quilting of a shape whose backing is `backing` wide and long, `thickness` thick once stitched."""
    style = wishes.style
    loaded = _loading(backing, style, frame)
    down = shape.length if loaded == "upright" else shape.width
    stitched = stitched_length(shape, style)
    rows = up(down / style.row_pitch) if style.row_pitch else None
    passes = passes_needed(down, rows, style, frame)
    thread_length = stitched * thread_per_length(thickness, style.stitch_length) * (1 + thread.waste)
    bobbins = up(thread_length / 2 / thread.bobbin)
    counts = Counts(stitched, passes, max(bobbins - 1, 0))
    stages = tuple(_time(stage, counts) for stage in wishes.method.stages)
    along = backing[0] if loaded == "upright" else backing[1]
    fits = along <= frame.widest and style.pattern_height <= frame.throat
    low, likely, high = (
        sum((getattr(stage, name) for stage in stages), Fraction(0)) for name in ("low", "likely", "high")
    )
    return QuiltingPlan(
        style=style, method=wishes.method.name, stitched_length=stitched, thread_length=thread_length,
        bobbins=bobbins, rows=rows, passes=passes, loaded=loaded, fits=fits, stages=stages,
        low=low, likely=likely, high=high, planned=(low + 4 * likely + high) / 6,
        attended=sum((stage.planned * stage.attended for stage in stages), Fraction(0)),
        working=(
            *_stitching_said(shape, style, stitched),
            *_passes_said(down, rows, passes, style, frame),
            *_thread_said(stitched, thickness, style, thread, thread_length, bobbins),
            say_in_house("Planned time: ({low} + 4 x {likely} + {high}) / 6 = {planned} min",
                         low=low, likely=likely, high=high, planned=(low + 4 * likely + high) / 6),
        ),
        cautions=tuple(_cautions(backing, style, frame, loaded, along)),
    )  # fmt: skip


def stitched_length(shape: Shape, style: Style) -> Length:
    """Area over effective line spacing; the pattern runs off the top by `run_off` on every side."""
    stitched = (shape.width + style.run_off * 2) * (shape.length + style.run_off * 2)
    return stitched / style.line_spacing


def thread_per_length(thickness: Length, stitch_length: Length) -> Fraction:
    """Thread for each length of lockstitch seam, C = 2 + 2TS, needle and bobbin half each.

    T is the thickness and S the stitches for a length; stitch type 301 of ISO 4915 (textile-engineering
    teaching note, 2015).
    """
    return 2 + 2 * (thickness / stitch_length)


def passes_needed(down: Length, rows: int | None, style: Style, frame: Frame) -> int:
    """How often the quilt is advanced. A row is never split over two passes; custom work fills the throat."""
    if rows is None or style.row_pitch is None:
        return up(down / frame.throat)
    return up(Fraction(rows, max(1, int(frame.throat / style.row_pitch))))


def _loading(backing: tuple[Length, Length], style: Style, frame: Frame) -> Literal["upright", "sideways"]:
    """Upright, unless only the other way round fits the frame and the pattern may turn."""
    width, length = backing
    if width > frame.widest >= length and style.may_turn:
        return "sideways"
    return "upright"


def _time(stage: Stage, counts: Counts) -> StageTime:
    if stage.speed is not None:
        low, likely, high = (counts.stitched / stage.speed / speed for speed in (stage.low, stage.likely, stage.high))
    else:
        times = {"quilt": 1, "pass": counts.passes, "bobbin": counts.changes}[stage.each]
        low, likely, high = stage.low * times, stage.likely * times, stage.high * times
    return StageTime(stage.name, low, likely, high, stage.attended)


def _stitching_said(shape: Shape, style: Style, stitched: Length) -> tuple[Said, ...]:
    return (
        say(
            "Stitched: ({w} + 2 x {off}) x ({l} + 2 x {off}) / {spacing} between lines = {stitched} = {long}",
            w=shape.width, l=shape.length, off=style.run_off, spacing=style.line_spacing,
            stitched=stitched, long=Long(stitched),
        ),
    )  # fmt: skip


def _passes_said(down: Length, rows: int | None, passes: int, style: Style, frame: Frame) -> tuple[Said, ...]:
    if rows is None or style.row_pitch is None:
        return (
            say(
                "Passes: {down} / {throat} throat, up: {passes}",
                down=down,
                throat=frame.throat,
                passes=passes,
            ),
        )
    return (
        say("Rows: {down} / {pitch} pitch, up: {rows}", down=down, pitch=style.row_pitch, rows=rows),
        say(
            "Passes: {rows} rows, {each} at a time under a throat of {throat}: {passes}",
            rows=rows, each=max(1, int(frame.throat / style.row_pitch)), throat=frame.throat, passes=passes,
        ),
    )  # fmt: skip


def _thread_said(
    stitched: Length, thickness: Length, style: Style, thread: Thread, total: Length, bobbins: int
) -> tuple[Said, ...]:
    return (
        say(
            "Thread: {stitched} x (2 + 2 x {thick} / {stitch} a stitch) x (1 + {waste} waste) = {total}",
            stitched=Long(stitched), thick=thickness, stitch=style.stitch_length, waste=Share(thread.waste),
            total=Long(total),
        ),
        say(
            "Bobbins: {total} / 2 / {each} on a bobbin, up: {bobbins}",
            total=Long(total), each=Long(thread.bobbin), bobbins=bobbins,
        ),
    )  # fmt: skip


def _cautions(backing: tuple[Length, Length], style: Style, frame: Frame, loaded: str, along: Length) -> list[Caution]:
    found = []
    if along > frame.widest:
        found.append(
            caution(
                "frame-too-narrow",
                "The backing, {w} x {l}, is too wide for the frame, which takes {widest}: a frame for {need} would do.",
                w=backing[0],
                l=backing[1],
                widest=frame.widest,
                need=min(backing) if style.may_turn else backing[0],
            )
        )
    elif loaded == "sideways":
        found.append(
            caution(
                "loaded-sideways",
                "The quilt is loaded sideways, for its width does not fit the frame: the pattern runs top to bottom.",
            )
        )
    if style.pattern_height > frame.throat:
        found.append(
            caution(
                "pattern-too-high",
                "The pattern is {height} high and the throat reaches {throat}: it cannot be sewn in one pass.",
                height=style.pattern_height,
                throat=frame.throat,
            )
        )
    return found  # fmt: skip
