"""The shop file's tables of habits in cutting, sewing and quilting, and of its frame and thread."""

from fractions import Fraction
from typing import Annotated, Literal, NamedTuple

from finishcalc.measures.length import Length, LengthUnit
from finishcalc.model import keys as k
from finishcalc.model.materials import AnyCloth, NamedFabric
from finishcalc.model.reading import whole_number
from finishcalc.model.section import IN_HOUSE, Figure, FigureOf, Per, Section

EdgeWork = Literal["make", "front", "machine", "hand", "faced", "hem"]
"""The kinds of work at the edge: a binding made, sewn to the front, its back finished by machine or by hand; an edge
faced; an edge hemmed."""


class BackingRules(Section):
    """The shop's rules for piecing backings. No seam lies within `clear_edge` of the trimmed edge; a backing with
    more than `most_seams` is avoided, and each seam fewer is worth `worth_a_seam` of money to the customer. A piece
    joined end to end is no shorter than `shortest_piece`; pieces turned across the grain must save the price of
    `worth_turning` of cloth; `least_overage` is the least overage that will do on each side; `wider` is the cloth to
    compare with; a smaller overage than is wanted leads where it drops a seam or saves `worth_saying` of cloth."""

    wider: NamedFabric
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


class Piecing(Section):
    """`[piecing]`: the worth of long pieces in the top. A join in a strip takes `join_minutes`; strips that are joined
    must save the price of `worth_no_joins` of their cloth. Where the piecing itself is charged, a pieced block takes
    `block_minutes`."""

    join_minutes: Annotated[FigureOf[k.Minutes], IN_HOUSE]
    worth_no_joins: Annotated[Length, k.length("0 in", "100 yd"), IN_HOUSE]
    block_minutes: Annotated[FigureOf[k.Spans], IN_HOUSE]


class Sewing(NamedTuple):
    """The shop's sewing of backings and of long pieces in a top: the time of a seam and of a join, the rules for cloth,
    the wage an hour, and the markup on the cost of cloth."""

    seaming: Seaming
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

    bobbin: FigureOf[Annotated[Length, k.length("1 yd", "5000 yd")]]
    cone: FigureOf[Annotated[Length, k.length("1 yd", "50000 yd")]]
    tie: FigureOf[Annotated[Length, k.length("1/2 in", "1 yd")]]
    waste: k.Share
    thickness_bare: k.Thickness


class Frame(Section):
    """`[frame]`: the widest backing that the longarm's frame holds along the rollers, and the throat between them;
    loading a quilt sideways must save `worth_sideways` passes."""

    widest: Annotated[Length, k.length("12 in", "40 ft")]
    throat: Annotated[Length, k.length("4 in", "10 ft")]
    worth_sideways: Annotated[int, whole_number(1, 100)]
