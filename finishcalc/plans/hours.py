"""Hours: every stage of the quilting, the seams and the edge, with its least, usual and most minutes.

Stages are not independent (a wavy top slows them all), so low, likely and high each add plainly; a stage that is done
n times takes n times as long. Planned = (low + 4 likely + high) / 6.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from finishcalc.measures.length import Length
from finishcalc.model.shop import EdgeTime, EdgeWork
from finishcalc.wording.sentence import Sentence, say_in_house

NO_MINUTES = Fraction(0)


@dataclass(frozen=True)
class StageTime:
    """The minutes of one stage, the attended share of them, and a mark where the quilt is on the frame. `work` is
    "quilting", "seams", or a kind of work at the edge. `working` is the arithmetic of its likely minutes, where they
    are not simply a figure of the method's."""

    name: str
    low: Fraction
    likely: Fraction
    high: Fraction
    attended_share: Fraction
    on_frame: bool
    working: Sentence | None = None
    work: str = "quilting"

    @cached_property
    def attended(self) -> Fraction:
        """The planned minutes for which someone stands by."""
        return self.planned * self.attended_share

    @cached_property
    def planned(self) -> Fraction:
        """(low + 4 likely + high) / 6."""
        return (self.low + 4 * self.likely + self.high) / 6


@dataclass(frozen=True)
class Hours:
    """The minutes of all stages together, each sum made when it is first read."""

    stages: tuple[StageTime, ...]

    @cached_property
    def low(self) -> Fraction:
        """The least minutes."""
        return _total(stage.low for stage in self.stages)

    @cached_property
    def likely(self) -> Fraction:
        """The usual minutes."""
        return _total(stage.likely for stage in self.stages)

    @cached_property
    def high(self) -> Fraction:
        """The most minutes."""
        return _total(stage.high for stage in self.stages)

    @cached_property
    def planned(self) -> Fraction:
        """The planned minutes."""
        return _total(stage.planned for stage in self.stages)

    @cached_property
    def attended(self) -> Fraction:
        """The planned minutes for which someone stands by."""
        return _total(stage.attended for stage in self.stages)

    @cached_property
    def frame(self) -> Fraction:
        """The planned minutes that the quilt is on the frame."""
        return _total(stage.planned for stage in self.stages if stage.on_frame)

    @property
    def working(self) -> tuple[Sentence, ...]:
        """The arithmetic of the stages and of the planned minutes."""
        text = "Planned: ({low} + 4 x {likely} + {high}) / 6 = {planned} min"
        planned = say_in_house(text, low=self.low, likely=self.likely, high=self.high, planned=self.planned)
        return (*(stage.working for stage in self.stages if stage.working), planned)


def _total(minutes: Iterable[Fraction]) -> Fraction:
    return sum(minutes, NO_MINUTES)


def in_order_of_work(stages: Iterable[StageTime]) -> list[StageTime]:
    """Put the seams of the backing first, then the quilting, then the edge; stages of each keep their order."""
    order = {"seams": 0, "quilting": 1}
    return sorted(stages, key=lambda stage: order.get(stage.work, len(order)))


def seam_stage(minutes: Fraction) -> StageTime:
    """Make the stage of the backing's seams."""
    return StageTime(
        "sew the seams of the backing", minutes, minutes, minutes, Fraction(1), on_frame=False, work="seams"
    )


EDGE_WORK: dict[str, tuple[EdgeWork, ...]] = {
    "front": ("make", "front"),
    "machine": ("make", "front", "machine"),
    "hand": ("make", "front", "hand"),
    "faced": ("faced",),
    "hem": ("hem",),
}
"""The kinds of work at an edge, by its finish."""

EDGE_STAGES = {
    "make": "make the binding",
    "front": "sew the binding to the front",
    "machine": "finish the back by machine",
    "hand": "finish the back by hand",
    "faced": "face the edge",
    "hem": "turn and sew the hem",
}


def edge_stages(attach: str, edge: Length, times: EdgeTime) -> Iterator[StageTime]:
    """Time the stages at the edge, each at its minutes along the edge."""
    along = edge.to(times.per)
    for work in EDGE_WORK[attach]:
        span = times.of_work(work).value
        working = say_in_house(
            "{name}: {edge} x {each} min per {unit} = {likely} min",
            name=EDGE_STAGES[work],
            edge=edge,
            each=span.likely,
            unit=times.per,
            likely=span.likely * along,
        )
        low, likely, high = (minutes * along for minutes in span)
        yield StageTime(EDGE_STAGES[work], low, likely, high, Fraction(1), on_frame=False, working=working, work=work)
