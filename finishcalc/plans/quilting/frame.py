"""The quilt on the frame: which way round it is loaded, whether it fits, and how often it is advanced.

One pass sews the rows that the throat reaches over; then the quilt is rolled on::

        upright                            sideways
    ======== rollers =========         ===== rollers ======
    |<------- along -------->|         |<---- along ----->|
    |   +----------------+   |         |   +----------+   |
    |   | top            |   |         |   | top,     |   |
    |   |<--- across --->|   | down    |   | on its   |   |
    |   |                |   |         |   | side     |   |
    |   +----------------+   |         |   |          |   |
    |        backing         |         |   +----------+   |
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up
from finishcalc.model.shop import Frame
from finishcalc.plans.cautions import Caution, blocking_caution, caution, caution_in_house
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.notation import NO_BREAK
from finishcalc.wording.sentence import Sentence, Value, WhenRead, say


class Loading(NamedTuple):
    """One way to load: the backing lies `along` the rollers, the top is `across` wide along them and stitched `down`
    its other side. `rows`, and `rows_each` of them in a pass, are None for work that is not sewn in rows. `holds` says
    that the rollers are long enough, `fits` that the throat reaches over the pattern as well."""

    way: Literal["upright", "sideways"]
    along: Length
    down: Length
    across: Length
    rows: int | None
    rows_each: int | None
    passes: int
    holds: bool
    fits: bool


class UnevenRows(NamedTuple):
    """Rows that do not come out even: the last one shows a `partial` height of the pattern. `even_pitch` is the pitch
    nearest to the style's at which whole rows fill the length; None where they would run into each other."""

    partial: Length
    even_rows: int | None
    even_pitch: Length | None
    even_passes: int | None


class FrameNeeds(NamedTuple):
    """The styles' needs: the pitch of rows, where there are any; the height of the highest pattern, where there is one;
    `may_turn` where every style may, and `patterned` where any is a pattern."""

    pitch: Length | None
    height: Length | None
    may_turn: bool
    patterned: bool


class OnFrame(NamedTuple):
    """The quilt on the frame, `otherwise` saying what the other way to load would come to; all None off the frame."""

    loading: Loading | None
    other: Loading | None
    otherwise: Sentence | None
    uneven: UnevenRows | None
    working: Sequence[Sentence]
    cautions: tuple[Caution, ...]


OFF_FRAME = OnFrame(loading=None, other=None, otherwise=None, uneven=None, working=(), cautions=())


def plan_on_frame(shape: Shape, backing: tuple[Length, Length], needs: FrameNeeds, frame: Frame) -> OnFrame:
    """Load a quilt whose backing is so wide and long."""
    loading, other = loadings(shape, backing, needs, frame)
    uneven = uneven_rows(loading, needs, frame)
    return OnFrame(
        loading=loading,
        other=other,
        otherwise=other_sentence(loading, other, needs, frame),
        uneven=uneven,
        working=WhenRead(lambda: loading_working(loading, other, uneven, needs, frame)),
        cautions=tuple(loading_cautions(loading, backing, needs, frame)),
    )


def loadings(shape: Shape, backing: tuple[Length, Length], needs: FrameNeeds, frame: Frame) -> tuple[Loading, Loading]:
    """Choose the way to load, and give the other way after it. A quilt is loaded sideways only where the pattern may
    turn, and where the frame holds it no other way or it saves as many passes as the shop finds worth it."""
    upright = _loading("upright", backing[0], shape.length, shape.width, needs, frame)
    sideways = _loading("sideways", backing[1], shape.width, shape.length, needs, frame)
    saves = upright.passes - sideways.passes >= frame.worth_sideways
    if needs.may_turn and sideways.holds and (saves or not upright.holds):
        return sideways, upright
    return upright, sideways


def _loading(
    way: Literal["upright", "sideways"], along: Length, down: Length, across: Length, needs: FrameNeeds, frame: Frame
) -> Loading:
    rows = up(down / needs.pitch) if needs.pitch else None
    each = rows_a_pass(needs.pitch, needs.height, frame) if needs.pitch else None
    holds, reaches = along <= frame.widest, not needs.height or needs.height <= frame.throat
    return Loading(way, along, down, across, rows, each, _passes(down, rows, each, frame), holds, holds and reaches)


def _passes(down: Length, rows: int | None, each: int | None, frame: Frame) -> int:
    """Count the passes. A row is never split over two of them; all other work fills the throat."""
    if rows is None or each is None:
        return up(down / frame.throat)
    return up(Fraction(rows, each))


def rows_a_pass(pitch: Length, height: Length | None, frame: Frame) -> int:
    """Count the whole rows that the throat reaches over, and one in any case. Rows that are higher than their pitch
    reach into each other, so that n of them are (n - 1) x pitch + height high."""
    high = height or pitch
    return max(1, min(int(frame.throat / pitch), 1 + int((frame.throat - high) / pitch)))


def uneven_rows(loading: Loading, needs: FrameNeeds, frame: Frame) -> UnevenRows | None:
    """Find the partial row at the bottom; None where rows come out even."""
    pitch = needs.pitch
    if loading.rows is None or pitch is None or pitch * loading.rows == loading.down:
        return None
    partial, least = loading.down - pitch * (loading.rows - 1), min(pitch, needs.height or pitch)
    counts = [count for count in (loading.rows - 1, loading.rows) if count and loading.down / count >= least]
    if not counts:
        return UnevenRows(partial, None, None, None)
    even = min(counts, key=lambda count: abs((loading.down / count - pitch).mm))
    at = loading.down / even
    return UnevenRows(partial, even, at, up(Fraction(even, rows_a_pass(at, needs.height, frame))))


def loading_working(
    loading: Loading, other: Loading, uneven: UnevenRows | None, needs: FrameNeeds, frame: Frame
) -> Iterator[Sentence]:
    """The arithmetic of rows and passes, and what the other way round would come to."""
    yield from _passes_working(loading, needs, frame)
    if uneven:
        yield from _uneven_working(loading, uneven, needs)
    yield say("Along the rollers: {along}, of the frame's {widest}", along=loading.along, widest=frame.widest)
    yield other_sentence(loading, other, needs, frame)
    if other.holds:
        yield from _passes_working(other, needs, frame)


def _passes_working(loading: Loading, needs: FrameNeeds, frame: Frame) -> Iterator[Sentence]:
    values: dict[str, Value] = {"way": loading.way, "down": loading.down, "passes": loading.passes}
    if loading.rows is None or needs.pitch is None:
        yield say("Passes, {way}: {down} / {throat} throat, rounded up: {passes}", throat=frame.throat, **values)
        return
    yield say("Rows, {way}: {down} / {pitch} pitch, rounded up: {rows}", pitch=needs.pitch, rows=loading.rows, **values)
    yield say(
        "Passes, {way}: {rows} rows, {each} at a time under a throat of {throat}: {passes}",
        rows=loading.rows,
        each=loading.rows_each or 1,
        throat=frame.throat,
        **values,
    )


def _uneven_working(loading: Loading, uneven: UnevenRows, needs: FrameNeeds) -> Iterator[Sentence]:
    yield say(
        "Last row: {down} - {whole} x {pitch} = {partial}",
        down=loading.down,
        whole=(loading.rows or 1) - 1,
        pitch=needs.pitch or uneven.partial,
        partial=uneven.partial,
    )
    if uneven.even_rows and uneven.even_pitch:
        yield say(
            "Even rows: {down} / {rows} = {pitch}", down=loading.down, rows=uneven.even_rows, pitch=uneven.even_pitch
        )


def other_sentence(loading: Loading, other: Loading, needs: FrameNeeds, frame: Frame) -> Sentence:
    """The other way round: the passes it would take, and the reason where it will not do."""
    fewer = loading.passes - other.passes
    change = "just as many" if not fewer else f"{{fewer}}{NO_BREAK}{'fewer' if fewer > 0 else 'more'}"
    passes = f"1{NO_BREAK}pass" if other.passes == 1 else f"{{passes}}{NO_BREAK}passes"
    but = ""
    if not other.holds:
        but = ", but {along} along the rollers is more than the frame takes"
    elif other.way == "sideways" and not needs.may_turn:
        but = ", but the pattern may not turn"
    elif 0 < fewer < frame.worth_sideways:
        but = ", too few to be worth turning it"
    text = "Loaded {way} it would take " + passes + ", " + change + but
    return say(text, way=other.way, along=other.along, passes=other.passes, fewer=abs(fewer))


def loading_cautions(
    loading: Loading, backing: tuple[Length, Length], needs: FrameNeeds, frame: Frame
) -> Iterator[Caution]:
    """Warn of what does not fit, and of a quilt that goes on sideways."""
    if not loading.holds:
        yield blocking_caution(
            "frame-too-narrow",
            "The backing, {w} x {l}, is too wide for the frame, which takes {widest}: use a frame for {need}, or "
            "quilt it off the frame.",
            w=backing[0],
            l=backing[1],
            widest=frame.widest,
            need=min(backing) if needs.may_turn else backing[0],
        )
    elif loading.way == "sideways":
        yield _sideways(
            needs, " because its width does not fit the frame" if backing[0] > frame.widest else ", which saves passes"
        )
    if needs.height and needs.height > frame.throat:
        yield blocking_caution(
            "pattern-too-high",
            "The pattern is {height} high and the throat is {throat}: it cannot be sewn in one pass.",
            height=needs.height,
            throat=frame.throat,
        )


def _sideways(needs: FrameNeeds, why: str) -> Caution:
    """Tell the customer that a pattern runs down the quilt; lines stay as they were asked, so that only the studio need
    know."""
    if needs.patterned:
        text = "The quilt is loaded sideways{why}, so the pattern runs top to bottom."
        return caution("loaded-sideways", text, why=why)
    return caution_in_house("loaded-sideways", "The quilt is loaded sideways{why}.", why=why)
