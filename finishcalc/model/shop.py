"""The shop file's tables of habits in cutting, sewing and quilting, and of its frame and thread."""

from fractions import Fraction
from typing import Annotated, Literal, NamedTuple

from pydantic import model_validator

from finishcalc.measures.length import Length, LengthUnit
from finishcalc.measures.numbers import MeasureError
from finishcalc.model import keys as k
from finishcalc.model.marks import IN_HOUSE, ONE_OR_SEVERAL, ROWS, Per, most
from finishcalc.model.materials import AnyCloth, NamedFabric
from finishcalc.model.reading import refusal, whole_number
from finishcalc.model.section import Figure, FigureOf, Section
from finishcalc.problems import ProblemCode

EdgeWork = Literal["make", "front", "machine", "hand", "faced", "hem"]
"""The kinds of work at the edge: a binding made, sewn to the front, its back finished by machine or by hand; an edge
faced; an edge hemmed."""


class BackingRules(Section):
    """The shop's rules for piecing backings. No seam lies within `clear_edge` of the trimmed edge; a backing with
    more than `most_seams` is avoided, and each seam fewer is worth `worth_a_seam` of money to the customer. A piece
    joined end to end is no shorter than `shortest_piece`; pieces turned across the grain must save the price of
    `worth_turning` of cloth; `least_overage` is the least overage that will do on each side; `wider` are the cloths
    to compare with; a smaller overage than is wanted leads where it drops a seam or saves `worth_saying` of cloth."""

    wider: Annotated[tuple[NamedFabric, ...], most(10), ONE_OR_SEVERAL, ROWS]
    most_seams: k.SeamCount
    worth_a_seam: Annotated[FigureOf[k.Price], IN_HOUSE]
    shortest_piece: Annotated[Length, k.length("1 in", "10 ft")]
    clear_edge: k.Margin
    worth_turning: Annotated[Length, k.length("0 in", "100 yd")]
    least_overage: k.Margin
    worth_saying: Annotated[Length, k.length("0 in", "100 yd")]


class Cloth(AnyCloth, BackingRules):
    """`[cloth]`: the values for every cloth that gives none of its own, the `unit` it is sold in, and the rules for
    piecing backings."""

    unit: LengthUnit


class Measuring(Section):
    """`[measuring]`: the shop's rules for several measures. Widths or lengths may differ by `spread`, above `long` by
    `spread_long`, diagonals by `skew`; `bill` is the measure that is billed. A table whose height is
    not given is `table_height`."""

    spread: k.Margin
    spread_long: k.Margin
    long: k.Side
    skew: k.Margin
    bill: Literal["largest", "mean"]
    table_height: Annotated[Length, k.length("1 in", "6 ft")]


class Seaming(Section):
    """`[seaming]`: the minutes that a seam of the backing takes: `minutes_each`, and `minutes_along` for each `per` of
    its length."""

    minutes_each: Annotated[FigureOf[k.Minutes], IN_HOUSE]
    minutes_along: Annotated[FigureOf[k.Minutes], Per(("per",)), IN_HOUSE]
    per: Annotated[LengthUnit, IN_HOUSE]


class BattingSeam(Seaming):
    """`[batting_seam]`: battings joined edge to edge: the minutes that a seam takes. One has at most `most_seams`, and
    no piece of it is narrower than `least_piece`."""

    most_seams: Annotated[int, whole_number(0, 3)]
    least_piece: k.Margin


class Piecing(Section):
    """`[piecing]`: the worth of long pieces in the top. A join in a strip takes `join_minutes`; strips that are joined
    must save the price of `worth_no_joins` of their cloth. Where the piecing itself is charged, a pieced block takes
    `block_minutes`."""

    join_minutes: Annotated[FigureOf[k.Minutes], IN_HOUSE]
    worth_no_joins: Annotated[Length, k.length("0 in", "100 yd"), IN_HOUSE]
    block_minutes: Annotated[FigureOf[k.Spans], IN_HOUSE]


class Sewing(NamedTuple):
    """The shop's sewing of backings, battings and long pieces in a top: the time of a seam and of a join, the rules for
    cloth, the wage an hour, and the markup on the cost of cloth."""

    seaming: Seaming
    batting_seam: BattingSeam
    piecing: Piecing
    cloth: Cloth
    wage: Figure[Fraction]
    markup: Figure[Fraction]


EdgeSpan = Annotated[FigureOf[k.Spans], Per(("per",)), IN_HOUSE]


class EdgeTime(Section):
    """`[edge_time]`: minutes for each `per` of the edge, by the kind of work."""

    per: Annotated[LengthUnit, IN_HOUSE]
    make: EdgeSpan
    front: EdgeSpan
    machine: EdgeSpan
    hand: EdgeSpan
    faced: EdgeSpan
    hem: EdgeSpan

    def of_work(self, work: EdgeWork) -> Figure[k.Span]:
        """The minutes of one kind of work."""
        minutes: Figure[k.Span] = getattr(self, work)
        return minutes


class Thread(Section):
    """`[thread]`: the length of thread on a `bobbin` and a `cone`, and in a `tie`; `waste` is a share on top;
    `thickness_bare` is that of a quilt with no batting."""

    bobbin: FigureOf[k.Wound]
    cone: FigureOf[Annotated[Length, k.length("1 yd", "50000 yd")]]
    tie: FigureOf[Annotated[Length, k.length("1/2 in", "1 yd")]]
    waste: k.Share
    thickness_bare: k.Thickness


class Washing(Section):
    """`[washing]`: the least and the most of each side that the first wash takes of a quilt whose cloth was not washed
    before, and of one that is bare, that is, without batting."""

    least: k.Shrinkage
    most: k.Shrinkage
    least_bare: k.Shrinkage
    most_bare: k.Shrinkage


class Frame(Section):
    """`[frame]`: the widest backing that the longarm's frame holds along the rollers, and the throat as the machine's
    maker gives it, of which the rolled quilt takes `take_up`, and `margin` is left free beside the rollers. Loading a
    quilt sideways must save `worth_sideways` passes."""

    widest: Annotated[Length, k.length("12 in", "40 ft")]
    throat: Annotated[Length, k.length("4 in", "10 ft")]
    take_up: Annotated[k.Margin, IN_HOUSE]
    margin: Annotated[k.Margin, IN_HOUSE]
    worth_sideways: Annotated[int, whole_number(1, 100)]

    @property
    def depth(self) -> Length:
        """The depth that is stitched in one pass."""
        return self.throat - self.take_up - self.margin


class Arrival(Section):
    """`[arrival]`: the studio's own checks of a top that arrives, a line each."""

    checks: Annotated[k.Lines, IN_HOUSE]


class CounterPage(Section):
    """`[counter]`: the page at the counter. Its studio's view closes after so many seconds without input."""

    studio_seconds: Annotated[int, whole_number(5, 3600), IN_HOUSE]


FreeHours = Annotated[k.HoursOfDay, IN_HOUSE]


class DayHours(Section):
    """Hours by weekday; a day that is not named has none."""

    monday: FreeHours | None = None
    tuesday: FreeHours | None = None
    wednesday: FreeHours | None = None
    thursday: FreeHours | None = None
    friday: FreeHours | None = None
    saturday: FreeHours | None = None
    sunday: FreeHours | None = None

    @property
    def by_weekday(self) -> tuple[Fraction, ...]:
        """The hours of each day from Monday to Sunday."""
        midweek = (self.monday, self.tuesday, self.wednesday, self.thursday, self.friday)
        return tuple(hours or Fraction(0) for hours in (*midweek, self.saturday, self.sunday))


class AttendedHours(DayHours):
    """The hours by weekday on which somebody works in the studio, on one day of the week at least."""

    @model_validator(mode="after")
    def _some_day_is_open(self) -> "AttendedHours":
        if not any(self.by_weekday):
            hint = "give the hours of one day at least: { monday = 6 }"
            raise refusal(MeasureError(ProblemCode.NO_OPEN_DAY, "has no hours on any day", hint))
        return self


class Week(Section, takes_away={"attended": ("attended", "frame"), "frame": ("frame",)}):
    """`[week]`: the hours by weekday on which somebody works, and on which the frame is free, and the days on which the
    studio is `closed`. Hours are given for the whole week at once. The frame is free when somebody works, unless it has
    hours of its own."""

    attended: AttendedHours
    frame: DayHours | None = None
    closed: Annotated[tuple[k.ClosedDays, ...], most(100), IN_HOUSE]
