"""The stages of a method: each thing a stage is done for is counted, and its minutes or its speed applied."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import AREA_UNITS, ZERO, Area, Length
from finishcalc.measures.rounding import up
from finishcalc.model.keys import WAYS, Span, WorkedAs
from finishcalc.model.quilting import Method, Stage
from finishcalc.plans.hours import NO_MINUTES, Hours, StageTime
from finishcalc.wording.sentence import FINE, Long, Sentence, say_in_house

OF_AN_AREA = ("stitching", "tie", "motif", "ruler-move", "design")
"""The kinds of stages that belong to the area they are done in; all others are for the whole quilt."""
NOTHING = Area(Fraction(0))
WAY_NAMES: dict[WorkedAs, str] = {
    "edge-to-edge": "edge to edge",
    "ruler-work": "ruler work",
    "fill": "fill",
    "motifs": "motif by motif",
}


class Counts(NamedTuple):
    """The things that stages are done for. `stitched` is the length stitched in each way of working; `bobbins` and
    `colours` are changes; `edge` and `area` are the quilt's, and `designed` is the area worked motif by motif."""

    stitched: dict[WorkedAs, Length]
    ties: int = 0
    motifs: int = 0
    designs: int = 0
    designed: Area = NOTHING
    passes: int = 0
    rows: int = 0
    bobbins: int = 0
    colours: int = 0
    edge: Length = ZERO
    area: Area = NOTHING

    def times(self, stage: Stage) -> int:
        """The number of times that a stage is done."""
        if stage.each == "ruler-move":
            return up(self.stitched.get("ruler-work", ZERO) / stage.every) if stage.every else 0
        times = {
            "quilt": 1,
            "design": self.designs,
            "pass": self.passes,
            "row": self.rows,
            "bobbin": self.bobbins,
            "colour": self.colours,
            "tie": self.ties,
            "motif": self.motifs,
        }
        return times[stage.each]

    def measure(self, stage: Stage) -> Fraction:
        """The edge or the area that a stage takes more minutes for, in the unit that it names."""
        if stage.per is None or stage.per not in AREA_UNITS:
            return self.edge.to(stage.per) if stage.per else Fraction(0)
        return (self.designed if stage.each == "design" else self.area).to(stage.per)


def stage_of(stages: tuple[Stage, ...], way: WorkedAs) -> Stage | None:
    """Give the stage that stitches what is worked in a way: the first that names it, else the first for all ways, else
    the first of the stitching; None where nothing is stitched."""
    stitching = [stage for stage in stages if stage.each == "stitching"]
    named = (stage for stage in stitching if stage.worked and way in stage.worked)
    for_all = (stage for stage in stitching if not stage.worked)
    return next(named, None) or next(for_all, None) or next(iter(stitching), None)


def assumed(method: Method, counts: Counts) -> Iterator[Sentence]:
    """Say of each way of working that the method has no speed for, which of its speeds was taken."""
    for way in WAYS:
        stage = stage_of(method.stages.value, way)
        if (
            not counts.stitched.get(way)
            or stage is None
            or stage.speed is None
            or (stage.worked and way in stage.worked)
        ):
            continue
        yield say_in_house(
            "{method} has no speed of its own for {way}: {speed} a minute assumed, as for {stage}",
            method=method.name,
            way=WAY_NAMES[way],
            speed=stage.speed * stage.likely,
            stage=stage.name,
        )


def quilting_hours(method: Method, counts: Counts) -> Hours:
    """Time all stages of a method, leaving out those that take no time."""
    return Hours(tuple(_timed(method, method.stages.value, counts)))


def area_hours(method: Method, counts: Counts, areas: list[tuple[Fraction, Counts]]) -> list[Hours]:
    """Give the hours of each area of the quilting: of the stages done for its own stitching, ties, motifs and design,
    and of its share of all other stages."""
    stages = method.stages.value
    own_stages = tuple(stage for stage in stages if stage.each in OF_AN_AREA)
    shared = list(_timed(method, tuple(stage for stage in stages if stage.each not in OF_AN_AREA), counts))
    return [
        Hours((*_timed(method, own_stages, own), *(_part_of(stage, share) for stage in shared))) for share, own in areas
    ]


def _part_of(stage: StageTime, share: Fraction) -> StageTime:
    return replace(stage, low=stage.low * share, likely=stage.likely * share, high=stage.high * share)


def _timed(method: Method, stages: tuple[Stage, ...], counts: Counts) -> Iterator[StageTime]:
    for stage in stages:
        stitched = sum((long for way, long in counts.stitched.items() if stage_of(stages, way) is stage), ZERO)
        minutes = _minutes(stage, counts, stitched)
        if minutes.high:
            yield StageTime(
                name=stage.name,
                low=minutes.low,
                likely=minutes.likely,
                high=minutes.high,
                attended_share=stage.attended,
                on_frame=bool(stage.on_frame) and method.frame,
                working=_working(stage, minutes.likely, counts, stitched),
            )


def _minutes(stage: Stage, counts: Counts, stitched: Length) -> Span:
    each = Span(stage.low, stage.likely, stage.high)
    if stage.speed is not None:
        return Span(*(stitched / stage.speed / speed for speed in each))
    times, measure = counts.times(stage), counts.measure(stage)
    more = stage.more if stage.more and times else Span(NO_MINUTES, NO_MINUTES, NO_MINUTES)
    return Span(*(fixed * times + growing * measure for fixed, growing in zip(each, more, strict=True)))


def _working(stage: Stage, likely: Fraction, counts: Counts, stitched: Length) -> Sentence | None:
    if stage.speed is not None:
        return say_in_house(
            "{name}: {length} / {speed} a minute = {likely} min",
            name=stage.name,
            length=Long(stitched, FINE),
            speed=stage.speed * stage.likely,
            likely=likely,
        )
    if stage.more and stage.per:
        return say_in_house(
            "{name}: {fixed} + {measure} {unit} x {more} = {likely} min",
            name=stage.name,
            fixed=stage.likely * counts.times(stage),
            measure=counts.measure(stage),
            unit=stage.per,
            more=stage.more.likely,
            likely=likely,
        )
    if stage.each in ("quilt", "design"):
        return None
    return _times_working(stage, likely, counts)


def _times_working(stage: Stage, likely: Fraction, counts: Counts) -> Sentence:
    lead = "{name}: {times} x {each} min = {likely} min"
    if stage.every:
        lead = "{name}: {length} of ruler work / {every}, rounded up: {times} x {each} min = {likely} min"
    return say_in_house(
        lead,
        name=stage.name,
        length=Long(counts.stitched.get("ruler-work", ZERO), FINE),
        every=stage.every or ZERO,
        times=counts.times(stage),
        each=stage.likely,
        likely=likely,
    )
