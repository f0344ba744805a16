"""The quilt on the frame: which way round, whether it fits, and how often it is advanced."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.materials import Style
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up
from finishcalc.measures.said import Said, say
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.shape import Shape
from finishcalc.project import Frame

WORTH_TURNING = 2
"""Passes that loading sideways must save, where upright fits too (common practice)."""


class Loading(NamedTuple):
    """A way to load: the backing lies `along` the rollers, the top is stitched `down` its other side. `rows`, and
    `rows_each` of them in a pass, are None for work that is not sewn in rows."""

    way: Literal["upright", "sideways"]
    along: Length
    down: Length
    across: Length
    rows: int | None
    rows_each: int | None
    passes: int
    fits: bool


class Rows(NamedTuple):
    """Rows that do not come out even: the last one shows only so much of the pattern, and the pitch nearest to the
    style's at which whole rows fill the length."""

    partial: Length
    even_rows: int
    even_pitch: Length


def loadings(
    shape: Shape, backing: tuple[Length, Length], style: Style, frame: Frame, may_turn: bool
) -> tuple[Loading, Loading]:
    """The way to load, and the other way. Upright, unless only sideways fits or it saves two passes, and the pattern
    may turn."""
    upright = _loading("upright", backing[0], shape.length, shape.width, style, frame)
    sideways = _loading("sideways", backing[1], shape.width, shape.length, style, frame)
    saves = upright.passes - sideways.passes >= WORTH_TURNING
    if may_turn and sideways.fits and (saves or not upright.fits):
        return sideways, upright
    return upright, sideways


def _loading(
    way: Literal["upright", "sideways"], along: Length, down: Length, across: Length, style: Style, frame: Frame
) -> Loading:
    rows = up(down / style.row_pitch) if style.row_pitch else None
    fits = along <= frame.widest and not (style.pattern_height and style.pattern_height > frame.throat)
    each = rows_a_pass(style.row_pitch, frame) if style.row_pitch else None
    return Loading(way, along, down, across, rows, each, _passes(down, rows, style, frame), fits)


def _passes(down: Length, rows: int | None, style: Style, frame: Frame) -> int:
    """How often the quilt is advanced. A row is never split over two passes; all other work fills the throat."""
    if rows is None or style.row_pitch is None:
        return up(down / frame.throat)
    return up(Fraction(rows, rows_a_pass(style.row_pitch, frame)))


def rows_a_pass(pitch: Length, frame: Frame) -> int:
    """How many whole rows the throat reaches over, and one in any case."""
    return max(1, int(frame.throat / pitch))


def uneven_rows(loading: Loading, style: Style) -> Rows | None:
    """What is left of the pattern in the last row, or None where rows come out even."""
    if loading.rows is None or style.row_pitch is None or style.row_pitch * loading.rows == loading.down:
        return None
    counts = [count for count in (loading.rows - 1, loading.rows) if count]
    even = min(counts, key=lambda count: abs((loading.down / count - style.row_pitch).mm))  # type: ignore[operator]
    partial = loading.down - style.row_pitch * (loading.rows - 1)
    return Rows(partial, even, loading.down / even)


def loading_said(loading: Loading, other: Loading, style: Style, frame: Frame, may_turn: bool) -> Iterator[Said]:
    """Rows, passes, and what the other way round would come to."""
    if loading.rows is None or style.row_pitch is None:
        yield say("Passes: {down} / {throat} throat, up: {passes}", down=loading.down, throat=frame.throat,
                  passes=loading.passes)  # fmt: skip
    else:
        yield say("Rows: {down} / {pitch} pitch, up: {rows}", down=loading.down, pitch=style.row_pitch,
                  rows=loading.rows)  # fmt: skip
        yield say(
            "Passes: {rows} rows, {each} at a time under a throat of {throat}: {passes}",
            rows=loading.rows, each=rows_a_pass(style.row_pitch, frame), throat=frame.throat, passes=loading.passes,
        )  # fmt: skip
    yield say("Along the rollers: {along}, of {widest} that the frame takes", along=loading.along, widest=frame.widest)
    yield other_said(loading, other, frame, may_turn)


def other_said(loading: Loading, other: Loading, frame: Frame, may_turn: bool) -> Said:
    """The other way round, with what it would save, or why it will not do."""
    fewer = loading.passes - other.passes
    change = "as many passes" if not fewer else "{fewer} fewer" if fewer > 0 else "{fewer} more"
    if other.along > frame.widest:
        text = "Loaded {way}: {along} along the rollers, which the frame does not take"
    elif other.way == "sideways" and not may_turn:
        text = "Loaded {way}: the pattern may not turn"
    else:
        text = "Loaded {way}: {passes} passes, " + change
    return say(text, way=other.way, along=other.along, passes=other.passes, fewer=abs(fewer))


def loading_cautions(
    loading: Loading, backing: tuple[Length, Length], style: Style, frame: Frame, may_turn: bool
) -> Iterator[Caution]:
    """What does not fit, and a quilt that goes on sideways."""
    if loading.along > frame.widest:
        yield caution(
            "frame-too-narrow",
            "The backing, {w} x {l}, is too wide for the frame, which takes {widest}: a frame for {need} would do.",
            w=backing[0], l=backing[1], widest=frame.widest, need=min(backing) if may_turn else backing[0],
        )  # fmt: skip
    elif loading.way == "sideways":
        why = "its width does not fit the frame" if backing[0] > frame.widest else "that saves passes"
        yield caution(
            "loaded-sideways", "The quilt is loaded sideways, for {why}: the pattern runs top to bottom.", why=why
        )
    if style.pattern_height and style.pattern_height > frame.throat:
        yield caution(
            "pattern-too-high",
            "The pattern is {height} high and the throat reaches {throat}: it cannot be sewn in one pass.",
            height=style.pattern_height, throat=frame.throat,
        )  # fmt: skip
