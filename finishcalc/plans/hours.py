"""Honest hours: every stage with its least, usual and most minutes, for the quilting, the seams and the edge.

Stages are not independent (a wavy top slows them all), so low, likely and high each add plainly; a stage that is done
n times takes n times as long. Planned = (low + 4 likely + high) / 6.
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.model.materials import Method, Stage
from finishcalc.model.shop import EdgeTime, EdgeWork
from finishcalc.wording.said import FINE, Long, Said, say_in_house

NONE = Fraction(0)


class StageTime(NamedTuple):
    """Minutes of one stage, the share of them that someone stands by, and a mark where the quilt is on the frame.
    `work` is "quilting", "seams", or a kind of work at the edge. `said` is the arithmetic of its likely minutes, where
    they are more than a figure of the method's."""

    name: str
    low: Fraction
    likely: Fraction
    high: Fraction
    attended_share: Fraction
    on_frame: bool
    said: Said | None = None
    work: str = "quilting"

    @property
    def attended(self) -> Fraction:
        """The planned minutes that someone stands by."""
        return self.planned * self.attended_share

    @property
    def planned(self) -> Fraction:
        """(low + 4 likely + high) / 6."""
        return (self.low + 4 * self.likely + self.high) / 6


class Hours(NamedTuple):
    """Minutes of all stages together. Someone stands by for `attended` of the planned ones; the frame is taken for
    `frame`."""

    stages: tuple[StageTime, ...]
    low: Fraction
    likely: Fraction
    high: Fraction
    planned: Fraction
    attended: Fraction
    frame: Fraction

    @property
    def working(self) -> tuple[Said, ...]:
        """The arithmetic of the stages and of the planned minutes."""
        told = [stage.said for stage in self.stages if stage.said]
        told.append(
            say_in_house(
                "Planned: ({low} + 4 x {likely} + {high}) / 6 = {planned} min",
                low=self.low,
                likely=self.likely,
                high=self.high,
                planned=self.planned,
            )
        )
        return tuple(told)


class Counts(NamedTuple):
    """The number of times each kind of stage is done, and the lengths stitched in patterns and in straight lines."""

    curved: Length
    straight: Length
    passes: int
    changes: int
    ties: int


def hours_of(stages: Iterable[StageTime]) -> Hours:
    """Add up the stages."""
    told = tuple(stages)
    low, likely, high = (sum((getattr(stage, name) for stage in told), NONE) for name in ("low", "likely", "high"))
    attended = sum((stage.attended for stage in told), NONE)
    frame = sum((stage.planned for stage in told if stage.on_frame), NONE)
    return Hours(told, low, likely, high, (low + 4 * likely + high) / 6, attended, frame)


def in_order_of_work(stages: Iterable[StageTime]) -> list[StageTime]:
    """Put the seams of the backing first, then the quilting, then the edge, each as it is done."""
    order = {"seams": 0, "quilting": 1}
    return sorted(stages, key=lambda stage: order.get(stage.work, len(order)))


def quilting_stages(method: Method, counts: Counts, stages: tuple[Stage, ...]) -> Iterator[StageTime]:
    """Give those of some stages of a method that take any time. Straight lines have a stage of their own where the
    method has one."""
    apart = any(stage.each == "straight" for stage in stages)
    for stage in stages:
        low, likely, high = _minutes(stage, counts, apart)
        said = _stage_said(stage, likely, counts, apart)
        if high:
            on_frame = bool(stage.on_frame) and method.frame
            yield StageTime(stage.name, low, likely, high, stage.attended, on_frame, said)


STITCHED = ("stitching", "straight", "tie")
"""The kinds of stages whose time follows the stitching."""


def area_hours(method: Method, counts: Counts, areas: list[tuple[Fraction, Counts]]) -> list[Hours]:
    """Give the hours of each area of the quilting, from its share of the top: its own stitching and ties, and its share
    of all other stages."""
    work = tuple(stage for stage in method.stages.value if stage.each in STITCHED)
    rest = tuple(stage for stage in method.stages.value if stage.each not in STITCHED)
    shared = list(quilting_stages(method, counts, rest))
    found = []
    for share, own in areas:
        stitched = quilting_stages(method, own, work)
        others = (_part_of(stage, share) for stage in shared)
        found.append(hours_of([*stitched, *others]))
    return found


def _part_of(stage: StageTime, share: Fraction) -> StageTime:
    return stage._replace(low=stage.low * share, likely=stage.likely * share, high=stage.high * share)


def _minutes(stage: Stage, counts: Counts, apart: bool) -> tuple[Fraction, ...]:
    speeds = (stage.low, stage.likely, stage.high)
    if stage.speed is not None:
        length = _stitched(stage, counts, apart)
        return tuple(length / stage.speed / speed for speed in speeds)
    return tuple(minutes * _times(stage, counts) for minutes in speeds)


def _stitched(stage: Stage, counts: Counts, apart: bool) -> Length:
    """Give the length that a stage of the stitching covers: all of it, where straight lines have no stage of their
    own."""
    if not apart:
        return counts.curved + counts.straight
    return counts.straight if stage.each == "straight" else counts.curved


def _times(stage: Stage, counts: Counts) -> int:
    return {"quilt": 1, "pass": counts.passes, "bobbin": counts.changes, "tie": counts.ties}[stage.each]


def _stage_said(stage: Stage, likely: Fraction, counts: Counts, apart: bool) -> Said | None:
    if stage.speed is not None:
        return say_in_house(
            "{name}: {length} / {speed} a minute = {likely} min",
            name=stage.name,
            length=Long(_stitched(stage, counts, apart), FINE),
            speed=stage.speed * stage.likely,
            likely=likely,
        )
    if stage.each == "quilt":
        return None
    return say_in_house(
        "{name}: {times} x {each} min = {likely} min",
        name=stage.name,
        times=_times(stage, counts),
        each=stage.likely,
        likely=likely,
    )


SEAMS = "sew the seams of the backing"


def seam_stage(minutes: Fraction) -> StageTime:
    """Make the stage of the backing's seams."""
    return StageTime(SEAMS, minutes, minutes, minutes, Fraction(1), on_frame=False, work="seams")


EDGE_WORK: dict[str, tuple[EdgeWork, ...]] = {
    "front": ("make", "front"),
    "machine": ("make", "front", "machine"),
    "hand": ("make", "front", "hand"),
    "faced": ("faced",),
    "hem": ("hem",),
}
"""The kinds of work at an edge, by its finish."""
EDGE_NAMES = {
    "make": "make the binding",
    "front": "sew the binding to the front",
    "machine": "finish the back by machine",
    "hand": "finish the back by hand",
    "faced": "face the edge",
    "hem": "turn and sew the hem",
}


def edge_stages(attach: str, edge: Length, times: EdgeTime) -> Iterator[StageTime]:
    """Give the stages at the edge, each so many minutes along it."""
    along = edge.to(times.per)
    for name in EDGE_WORK[attach]:
        span = times.of_work(name).value
        said = say_in_house(
            "{name}: {edge} x {each} min per {unit} = {likely} min",
            name=EDGE_NAMES[name],
            edge=edge,
            each=span.likely,
            unit=times.per,
            likely=span.likely * along,
        )
        low, likely, high = (minutes * along for minutes in span)
        yield StageTime(EDGE_NAMES[name], low, likely, high, Fraction(1), on_frame=False, said=said, work=name)
