"""The quilt on the frame: which way round it is loaded, whether it fits, and how often it is advanced.

One pass stitches the depth that the throat leaves; then the quilt is rolled on::

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
from finishcalc.plans.quilting.rows import Pattern, UnevenRows, rows_a_pass, uneven_rows, uneven_working
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.notation import NO_BREAK
from finishcalc.wording.sentence import Sentence, Spare, Value, WhenRead, say, say_in_house
from finishcalc.wording.words import in_words


class Loading(NamedTuple):
    """One way to load: the backing lies `along` the rollers, the top is `across` wide along them and stitched `down`
    its other side. `rows`, and `rows_each` of them in a pass, are None for work that is not sewn in rows. `holds` says
    that the rollers are long enough, `reaches` that the throat reaches over the pattern."""

    way: Literal["upright", "sideways"]
    along: Length
    down: Length
    across: Length
    rows: int | None
    rows_each: int | None
    passes: int
    holds: bool
    reaches: bool

    @property
    def fits(self) -> bool:
        """True where both the frame and the throat will do."""
        return self.holds and self.reaches


class FrameNeeds(NamedTuple):
    """The styles' needs: the pitch of rows, where there are any; the height of the highest pattern, where there is one;
    the names of styles that may not turn; `patterned` where any is a pattern that turns with the quilt."""

    pitch: Length | None
    height: Length | None
    upright_styles: tuple[str, ...]
    patterned: bool

    @property
    def may_turn(self) -> bool:
        """True where every style may turn."""
        return not self.upright_styles

    @property
    def pattern(self) -> Pattern | None:
        """The pattern that is sewn in rows, where there is one."""
        return Pattern(self.pitch, self.height or self.pitch) if self.pitch else None


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
    pattern, rows = needs.pattern, loading.rows
    uneven = uneven_rows(pattern, rows, loading.down, frame.depth) if pattern and rows else None
    return OnFrame(
        loading=loading,
        other=other,
        otherwise=other_sentence(loading, other, needs, frame),
        uneven=uneven,
        working=WhenRead(lambda: loading_working(loading, other, uneven, needs, frame)),
        cautions=tuple(loading_cautions(loading, other, backing, needs, frame)),
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
    pattern, depth = needs.pattern, frame.depth
    rows = up(down / pattern.pitch) if pattern else None
    each = rows_a_pass(pattern, depth) if pattern else None
    holds, reaches = along <= frame.widest, not needs.height or needs.height <= depth
    return Loading(way, along, down, across, rows, each, _passes(down, rows, each, depth), holds, reaches)


def _passes(down: Length, rows: int | None, each: int | None, depth: Length) -> int:
    """Count the passes. A row is never split over two of them; all other work fills the depth."""
    if rows is None or each is None:
        return up(down / depth)
    return up(Fraction(rows, each))


def loading_working(
    loading: Loading, other: Loading, uneven: UnevenRows | None, needs: FrameNeeds, frame: Frame
) -> Iterator[Sentence]:
    """The arithmetic of depth, rows and passes, and what the other way round would come to."""
    yield say_in_house(
        "Depth stitched in a pass: {throat} throat - {take_up} take-up - {margin} margin = {depth}",
        throat=frame.throat,
        take_up=frame.take_up,
        margin=frame.margin,
        depth=frame.depth,
    )
    yield from _passes_working(loading, needs, frame)
    if uneven:
        yield from uneven_working(uneven, loading.rows or 1, loading.down)
    yield say("Along the rollers: {along}, of the frame's {widest}", along=loading.along, widest=frame.widest)
    yield other_sentence(loading, other, needs, frame)
    if other.holds:
        yield from _passes_working(other, needs, frame)


def _passes_working(loading: Loading, needs: FrameNeeds, frame: Frame) -> Iterator[Sentence]:
    values: dict[str, Value] = {"way": loading.way, "down": loading.down, "passes": loading.passes}
    if loading.rows is None or needs.pitch is None:
        yield say("Passes, {way}: {down} / {depth} depth, rounded up: {passes}", depth=frame.depth, **values)
        return
    yield say("Rows, {way}: {down} / {pitch} pitch, rounded up: {rows}", pitch=needs.pitch, rows=loading.rows, **values)
    yield say(
        "Passes, {way}: {rows} rows, {each} at a time in a depth of {depth}: {passes}",
        rows=loading.rows,
        each=loading.rows_each or 1,
        depth=frame.depth,
        **values,
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
    loading: Loading, other: Loading, backing: tuple[Length, Length], needs: FrameNeeds, frame: Frame
) -> Iterator[Caution]:
    """Warn of a frame or a throat that will not do, each with its own mend, and of a quilt that goes on sideways."""
    if not loading.holds:
        yield from _too_narrow(other, backing, needs, frame)
    elif loading.way == "sideways":
        yield _sideways(
            needs, " because its width does not fit the frame" if backing[0] > frame.widest else ", which saves passes"
        )
    if needs.height and not loading.reaches:
        yield _too_high(needs.height, frame)


def _too_narrow(other: Loading, backing: tuple[Length, Length], needs: FrameNeeds, frame: Frame) -> Iterator[Caution]:
    """Warn of a backing that is too wide. Turning it is offered first, where only the pattern is against it."""
    text = "The backing, {w} x {l}, is too wide for the frame, which takes {widest}"
    values: dict[str, Value] = {"w": backing[0], "l": backing[1], "widest": frame.widest}
    if other.holds:
        text += (
            ". Turned it would fit, but {styles} may not turn: let it turn all the same, choose a pattern that may, "
            "use a frame for {need}, or quilt it off the frame."
        )
        styles = in_words(needs.upright_styles)
        yield blocking_caution("frame-too-narrow", text, **values, styles=styles, need=backing[0])
        key = "To load it sideways, set may_turn = true in the style of {styles}."
        yield caution_in_house("may-not-turn", key, styles=styles)
        return
    text += "{turned}: use a frame for {need}, or quilt it off the frame."
    turned, need = (", turned or not", min(backing)) if needs.may_turn else ("", backing[0])
    yield blocking_caution("frame-too-narrow", text, **values, turned=turned, need=need)


def _too_high(height: Length, frame: Frame) -> Caution:
    """Warn of a pattern that the throat does not reach over, whatever the frame holds."""
    scale = int(frame.depth / height * 100)
    scaled = "scale a digital one to {scale} %, " if scale else ""
    return blocking_caution(
        "pattern-too-high",
        "The pattern, {height} high, is too high for the throat: of its {throat}, {depth} are stitched in a pass. "
        "Choose a pattern that is no higher, " + scaled + "use a throat of {need}, or quilt it off the frame.",
        height=height,
        throat=frame.throat,
        depth=Spare(frame.depth),
        scale=scale,
        need=height + frame.take_up + frame.margin,
    )


def _sideways(needs: FrameNeeds, why: str) -> Caution:
    """Tell the customer that a pattern runs down the quilt; lines stay as they were asked, and custom work is drawn the
    way it will hang, so that only the studio need know."""
    if needs.patterned:
        text = "The quilt is loaded sideways{why}, so the pattern runs top to bottom."
        return caution("loaded-sideways", text, why=why)
    return caution_in_house("loaded-sideways", "The quilt is loaded sideways{why}.", why=why)
