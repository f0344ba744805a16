"""The quilting on the frame or off it: what is stitched, the thread and the time it takes, and the size it leaves."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Area, Length, Size
from finishcalc.model.keys import WorkedAs
from finishcalc.model.materials import Batting
from finishcalc.model.project import Quilting, TopSpec
from finishcalc.model.quilting import Method, Style
from finishcalc.model.shop import Frame, Thread, Washing
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.hours import Hours
from finishcalc.plans.quilting.frame import OFF_FRAME, FrameNeeds, Loading, plan_on_frame
from finishcalc.plans.quilting.rows import UnevenRows
from finishcalc.plans.quilting.stages import Counts, area_hours, assumed, quilting_hours
from finishcalc.plans.quilting.stitching import StitchedArea, Threads, stitched_areas, threads_of
from finishcalc.plans.quilting.working import stitching_working, thread_working
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.washing import Washed, smaller, wash
from finishcalc.wording.sentence import Sentence, Share, WhenRead, say


class Changes(NamedTuple):
    """The changes of thread along the way: of bobbins, and from one colour to another."""

    bobbins: int
    colours: int

    @property
    def total(self) -> int:
        """All changes."""
        return self.bobbins + self.colours


class QuiltingPlan(NamedTuple):
    """The quilting, in one or more areas. `loading` is the way the quilt goes on the frame, `other` the other way and
    `otherwise` what that would come to; all are None off the frame. `draw_up` is the share of each side that quilting
    takes; `quilted` is the size that is then left, and `washed` what washing leaves of it. `assumed` says which speed
    was taken for each way of working that the method has no speed for."""

    style: Style
    method: Method
    areas: tuple[StitchedArea, ...]
    threads: Threads
    colours: int
    changes: Changes
    loading: Loading | None
    other: Loading | None
    otherwise: Sentence | None
    uneven: UnevenRows | None
    hours: Hours
    area_hours: tuple[Hours, ...]
    assumed: tuple[Sentence, ...]
    draw_up: Fraction
    quilted: Size
    washed: Washed
    working: Sequence[Sentence]
    cautions: tuple[Caution, ...]

    @property
    def stitched_length(self) -> Length:
        """All that is stitched."""
        return sum((area.stitched for area in self.areas), ZERO)

    @property
    def ties(self) -> int:
        """All ties."""
        return sum(area.ties for area in self.areas)

    @property
    def motifs(self) -> int:
        """All motifs that are started and tied off."""
        return sum(area.motifs for area in self.areas)

    @property
    def rows(self) -> int | None:
        """Rows of an edge-to-edge pattern on the frame; None for all other work."""
        return self.loading.rows if self.loading else None

    @property
    def passes(self) -> int | None:
        """Passes on the frame; None off it."""
        return self.loading.passes if self.loading else None

    @property
    def fits(self) -> bool:
        """True where the frame takes it, and off the frame."""
        return self.loading is None or self.loading.fits


def plan_quilting(
    shape: Shape,
    edged: Size,
    top: TopSpec,
    backing: tuple[Length, Length],
    batting: Batting | None,
    spec: Quilting,
    thread: Thread,
    frame: Frame,
    washing: Washing,
    prewashed: bool,
) -> QuiltingPlan:
    """Plan the quilting of a shape whose backing is `backing` wide and long, and which is `edged` large once its edge
    is finished, in cloth that is `prewashed` or not. A cover that says what quilting takes of it stands over what the
    style usually takes."""
    method, colours = spec.method, spec.colours
    thickness = batting.thickness if batting else thread.thickness_bare
    areas = stitched_areas(shape, top.pieced, spec, thickness, thread)
    threads = threads_of(areas, method, colours, thread)
    on_frame = plan_on_frame(shape, backing, _frame_needs(spec, areas), frame) if method.frame else OFF_FRAME
    passes = on_frame.loading.passes if on_frame.loading else 0
    changes = _changes(threads, colours, passes)
    counts = _counts(areas, shape)._replace(
        passes=passes,
        rows=(on_frame.loading.rows if on_frame.loading else None) or 0,
        bobbins=changes.bobbins,
        colours=changes.colours,
    )
    hours = quilting_hours(method, counts)
    draw_up = (top.covers.draw_up if top.covers else None) or _usual_draw_up(areas)
    quilted = smaller(edged, draw_up)
    washed = wash(quilted, batting, washing, prewashed)
    return QuiltingPlan(
        style=_leading_style(spec),
        method=method,
        areas=areas,
        threads=threads,
        colours=colours,
        changes=changes,
        loading=on_frame.loading,
        other=on_frame.other,
        otherwise=on_frame.otherwise,
        uneven=on_frame.uneven,
        hours=hours,
        area_hours=_hours_by_area(method, areas, counts, hours, shape),
        assumed=tuple(assumed(method, counts)),
        draw_up=draw_up,
        quilted=quilted,
        washed=washed,
        working=WhenRead(
            lambda: (
                *stitching_working(areas, shape),
                *on_frame.working,
                *thread_working(areas, threads, thickness, spec, thread),
                *_changes_working(threads, colours, passes, changes),
                *_size_working(draw_up, quilted),
                *washed.working,
            )
        ),
        cautions=(*_empty_cautions(areas), *_batting_cautions(areas, batting), *on_frame.cautions),
    )


def _hours_by_area(
    method: Method, areas: tuple[StitchedArea, ...], counts: Counts, hours: Hours, shape: Shape
) -> tuple[Hours, ...]:
    if len(areas) == 1:
        return (hours,)
    return tuple(area_hours(method, counts, [(area.share, _counts((area,), shape)) for area in areas]))


def _usual_draw_up(areas: tuple[StitchedArea, ...]) -> Fraction:
    return sum((area.style.draw_up * area.share for area in areas), Fraction(0))


def _leading_style(spec: Quilting) -> Style:
    """The style that the passes go by. Areas of their own make it custom work, which has no rows."""
    return spec.style.replace(row_pitch=None) if spec.areas else spec.style


def _frame_needs(spec: Quilting, areas: tuple[StitchedArea, ...]) -> FrameNeeds:
    """Rows are those of the leading style; the throat must reach over the highest pattern of all."""
    styles = [area.style for area in areas]
    return FrameNeeds(
        pitch=_leading_style(spec).row_pitch,
        height=max((style.pattern_height for style in styles if style.pattern_height), default=None),
        upright_styles=tuple(dict.fromkeys(style.name for style in styles if not style.may_turn)),
        patterned=any(style.lines == "pattern" and style.row_pitch for style in styles),
    )


def _changes(threads: Threads, colours: int, passes: int) -> Changes:
    """Count the changes: every bobbin but the first of each colour, and every colour but the first once a pass."""
    return Changes(max(threads.bobbins - colours, 0), (colours - 1) * max(passes, 1))


def _changes_working(threads: Threads, colours: int, passes: int, changes: Changes) -> Iterator[Sentence]:
    if colours > 1 and not threads.bobbins:
        yield say(
            "Changes of thread: {more} x {passes} = {changes}",
            more=colours - 1,
            passes=max(passes, 1),
            changes=changes.total,
        )
    elif colours > 1:
        yield say(
            "Changes: {bobbins} bobbins - {colours} colours + {more} x {passes} = {changes}",
            bobbins=max(threads.bobbins, colours),
            colours=colours,
            more=colours - 1,
            passes=max(passes, 1),
            changes=changes.total,
        )
    elif threads.bobbins > 1:
        yield say("Changes: {bobbins} bobbins - 1 = {changes}", bobbins=threads.bobbins, changes=changes.total)


def _counts(areas: tuple[StitchedArea, ...], shape: Shape) -> Counts:
    """Count what the areas hold; the passes, rows and changes of the whole are not theirs."""
    stitched: dict[WorkedAs, Length] = {}
    for area in areas:
        stitched[area.worked] = stitched.get(area.worked, ZERO) + area.stitched
    designed = [area for area in areas if area.worked == "motifs"]
    return Counts(
        stitched=stitched,
        ties=sum(area.ties for area in areas),
        motifs=sum(area.motifs for area in areas),
        designs=len(designed),
        designed=Area(shape.area.mm2 * sum((area.share for area in designed), Fraction(0))),
        edge=shape.perimeter,
        area=shape.area,
    )


def _size_working(share: Fraction, quilted: Size) -> Iterator[Sentence]:
    if share:
        yield say(
            "Drawn up by quilting, about {share} each way: {w} x {l}",
            share=Share(share),
            w=quilted.width,
            l=quilted.length,
        )


def _empty_cautions(areas: tuple[StitchedArea, ...]) -> Iterator[Caution]:
    """Warn of lines or ties so far apart that none falls on the top."""
    for area in areas:
        if not area.stitched and not area.ties:
            yield caution(
                "nothing-to-stitch",
                "No {style} falls on the top at {distance} apart: space it closer.",
                style=area.style.name,
                distance=area.style.line_spacing,
            )


def _batting_cautions(areas: tuple[StitchedArea, ...], batting: Batting | None) -> Iterator[Caution]:
    """Hold the widest distance between the lines or ties of every style against the batting's own limit for them."""
    if not batting:
        return
    for area in areas:
        distance = area.style.widest_distance
        widest = batting.widest_ties if area.ties else batting.widest
        subject = "Ties are {distance} apart" if area.ties else "The lines of {style} lie up to {distance} apart"
        what, closer = ("ties", "tie") if area.ties else ("lines", "quilt")
        if distance > widest:
            yield caution(
                "lines-too-far-apart",
                f"{subject}, and {{batting}} needs {what} at most {{widest}} apart: follow its label, {closer} it "
                "closer or use another batting.",
                style=area.style.name,
                distance=distance,
                batting=batting.name,
                widest=widest,
            )
