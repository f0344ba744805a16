"""The quilting: what is stitched and how, on the frame or off it, with how much thread and in what time."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.materials import BattingProduct, Method, Style
from finishcalc.model.pieced import Size
from finishcalc.model.project import Frame, QuiltingWishes, Thread, TopWishes
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.hours import Counts, Hours, hours_of, part_hours, quilting_stages
from finishcalc.plans.quilting.frame import (
    Loading,
    OnFrame,
    UnevenRows,
    loading_cautions,
    loading_said,
    loadings,
    other_said,
    uneven_rows,
)
from finishcalc.plans.quilting.stitching import Part, Threads, parts_of, stitching_said, thread_said, threads_of
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import Said, Share, say


class QuiltingPlan(NamedTuple):
    """The quilting. `parts` are its areas, one for the whole top; `loading` and `other` say how the quilt goes on the
    frame, `otherwise` what the other way would come to; all are None off the frame. `part_hours` are those of each
    part. `draw_up` is the share of each side that quilting takes; `quilted` and `washed` are the sizes then left."""

    style: Style
    method: Method
    parts: tuple[Part, ...]
    threads: Threads
    colours: int
    changes: int
    loading: Loading | None
    other: Loading | None
    otherwise: Said | None
    uneven: UnevenRows | None
    hours: Hours
    part_hours: tuple[Hours, ...]
    draw_up: Fraction
    quilted: Size
    washed: Size
    working: tuple[Said, ...]
    cautions: tuple[Caution, ...]

    @property
    def stitched_length(self) -> Length:
        """All that is stitched."""
        return sum((part.stitched for part in self.parts), ZERO)

    @property
    def ties(self) -> int:
        """All ties."""
        return sum(part.ties for part in self.parts)

    @property
    def rows(self) -> int | None:
        """Rows of an edge-to-edge pattern on the frame; None for all other work."""
        return self.loading.rows if self.loading else None

    @property
    def passes(self) -> int | None:
        """How often the quilt is advanced on the frame; None off it."""
        return self.loading.passes if self.loading else None

    @property
    def fits(self) -> bool:
        """Whether the frame takes it; off the frame everything fits."""
        return self.loading is None or self.loading.fits


def plan_quilting(
    shape: Shape,
    edged: Size,
    top: TopWishes,
    backing: tuple[Length, Length],
    batting: BattingProduct | None,
    wishes: QuiltingWishes,
    thread: Thread,
    frame: Frame,
) -> QuiltingPlan:
    """Plan the quilting of a shape whose backing is `backing` wide and long, and which is `edged` large once its edge
    is finished. A cover that says what quilting takes of it stands over what the style usually takes."""
    style, method, colours = _leading(wishes), wishes.method, wishes.colours
    thickness = batting.thickness if batting else thread.thickness_bare
    parts = parts_of(shape, top.pieced, wishes, thickness, thread)
    threads = threads_of(parts, method, colours, thread)
    needs = _on_frame(style, parts)
    loading, other = loadings(shape, backing, needs, frame) if method.frame else (None, None)
    uneven = uneven_rows(loading, needs, frame) if loading else None
    passes = loading.passes if loading else 0
    changes = _changes(threads, colours, passes)
    hours, shared = _hours(method, parts, passes, changes)
    draw_up = (top.covers.draw_up if top.covers else None) or _usual_draw_up(parts)
    quilted = _drawn_up(edged, draw_up)
    washed = _drawn_up(quilted, batting.shrink if batting else Fraction(0))
    working = [*stitching_said(parts, shape)]
    cautions = [*_empty_cautions(parts), *_batting_cautions(parts, batting)]
    if loading and other:
        working += loading_said(loading, other, uneven, needs, frame)
        cautions += loading_cautions(loading, backing, needs, frame)
    working += thread_said(parts, threads, thickness, method, colours, thread)
    working += _changes_said(threads, colours, passes, changes)
    working += _size_said(draw_up, batting, quilted, washed)
    return QuiltingPlan(
        style,
        method,
        parts,
        threads,
        colours,
        changes,
        loading,
        other,
        other_said(loading, other, needs, frame) if loading and other else None,
        uneven,
        hours,
        shared,
        draw_up,
        quilted,
        washed,
        tuple(working),
        tuple(cautions),
    )


def _hours(method: Method, parts: tuple[Part, ...], passes: int, changes: int) -> tuple[Hours, tuple[Hours, ...]]:
    """What all of it takes, and what each part."""
    counts = _counts(parts, passes, changes)
    hours = hours_of(quilting_stages(method, counts))
    if len(parts) == 1:
        return hours, (hours,)
    return hours, tuple(part_hours(method, counts, [(part.share, _counts((part,), 0, 0)) for part in parts]))


def _usual_draw_up(parts: tuple[Part, ...]) -> Fraction:
    return sum((part.style.draw_up * part.share for part in parts), Fraction(0))


def _leading(wishes: QuiltingWishes) -> Style:
    """The style that the passes go by. Areas of their own are custom work, which has no rows."""
    return wishes.style._replace(row_pitch=None) if wishes.areas else wishes.style


def _on_frame(style: Style, parts: tuple[Part, ...]) -> OnFrame:
    """Rows are those of the style that leads; the throat must reach over the highest pattern of all."""
    heights = [part.style.pattern_height for part in parts if part.style.pattern_height]
    turns, patterned = (
        all(part.style.may_turn for part in parts),
        any(part.style.lines == "pattern" for part in parts),
    )
    return OnFrame(style.row_pitch, max(heights, default=None), turns, patterned)


def _changes(threads: Threads, colours: int, passes: int) -> int:
    """Every bobbin but the first of each colour, and every colour but the first once a pass."""
    return max(threads.bobbins - colours, 0) + (colours - 1) * max(passes, 1)


def _changes_said(threads: Threads, colours: int, passes: int, changes: int) -> Iterator[Said]:
    if colours > 1 and not threads.bobbins:
        yield say(
            "Changes of thread: {more} x {passes} = {changes}", more=colours - 1, passes=max(passes, 1), changes=changes
        )
    elif colours > 1:
        yield say(
            "Changes: {bobbins} bobbins - {colours} colours + {more} x {passes} = {changes}",
            bobbins=max(threads.bobbins, colours),
            colours=colours,
            more=colours - 1,
            passes=max(passes, 1),
            changes=changes,
        )
    elif threads.bobbins > 1:
        yield say("Changes: {bobbins} bobbins - 1 = {changes}", bobbins=threads.bobbins, changes=changes)


def _counts(parts: tuple[Part, ...], passes: int, changes: int) -> Counts:
    straight = sum((part.stitched for part in parts if part.straight), ZERO)
    curved = sum((part.stitched for part in parts if not part.straight), ZERO)
    return Counts(curved, straight, passes, changes, sum(part.ties for part in parts))


def _drawn_up(size: Size, share: Fraction) -> Size:
    return Size(size.width * (1 - share), size.length * (1 - share))


def _size_said(share: Fraction, batting: BattingProduct | None, quilted: Size, washed: Size) -> Iterator[Said]:
    if share:
        yield say(
            "Drawn up by quilting, about {share} each way: {w} x {l}",
            share=Share(share),
            w=quilted.width,
            l=quilted.length,
        )
    if batting and batting.shrink:
        yield say(
            "Washed, the batting shrinks about {share}: {w} x {l}",
            share=Share(batting.shrink),
            w=washed.width,
            l=washed.length,
        )


def _empty_cautions(parts: tuple[Part, ...]) -> Iterator[Caution]:
    """Lines or ties so far apart that none falls on the top."""
    for part in parts:
        if not part.stitched and not part.ties:
            yield caution(
                "nothing-to-stitch",
                "Of {style}, {distance} apart, nothing falls on the top: bring it closer.",
                style=part.style.name,
                distance=part.style.line_spacing,
            )


def _batting_cautions(parts: tuple[Part, ...], batting: BattingProduct | None) -> Iterator[Caution]:
    """The batting's own limit against the widest distance between lines of every style."""
    for part in parts:
        distance = part.style.widest_distance
        told = "Ties are {distance} apart" if part.ties else "The lines of {style} lie up to {distance} apart"
        if batting and distance > batting.widest:
            yield caution(
                "lines-too-far-apart",
                told + ", and {batting} holds with lines at most {widest} apart: follow its label, quilt it closer or "
                "take another batting.",
                style=part.style.name,
                distance=distance,
                batting=batting.name,
                widest=batting.widest,
            )
