"""What a project asks for once every layer is laid: the contract between intake and plans.

Nothing here has a default: each value came from a file, and intake knows which. Lengths are exact, prices
are exact Fractions of the currency's main unit, shares are Fractions (3 % is 3/100), minutes are Fractions.
"""

import datetime
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.model.cover import Covers
from finishcalc.model.materials import BattingProduct, Fabric, Method, Style, Supplier
from finishcalc.model.pieced import PiecedTop


class Scallop(NamedTuple):
    """Arcs along the edge: about so wide, and so deep."""

    chord: Length
    depth: Length


class Measured(NamedTuple):
    """What the tape says in several places; diagonals may be left out."""

    widths: tuple[Length, ...]
    lengths: tuple[Length, ...]
    diagonals: tuple[Length, ...]


class TopWishes(NamedTuple):
    """The finished top, raw edge to raw edge. A round one is as wide and as long as its diameter; a measured one as
    the largest of its measures, a pieced one as its parts come to, a cover as what it covers asks."""

    shape: Literal["rectangle", "round", "oval"]
    use: Literal["tablecloth", "bed", "crib", "throw", "wall"]
    width: Length
    length: Length
    corner_radius: Length | None = None
    scallop: Scallop | None = None
    measured: Measured | None = None
    pieced: PiecedTop | None = None
    covers: Covers | None = None


class Measuring(NamedTuple):
    """What a shop makes of several measures: widths or lengths may differ by `spread`, above `long` by `spread_long`,
    diagonals by `skew`. `bill` says which of them is billed. `table_height` is taken where a table's own is not
    known."""

    spread: Length
    spread_long: Length
    long: Length
    skew: Length
    bill: Literal["largest", "mean"]
    table_height: Length


class Sewn(NamedTuple):
    """A backing that is made already."""

    width: Length
    length: Length


class BackingWishes(NamedTuple):
    """What the backing is to be made of. `overage` is the extra on each side; `centre` "panel" keeps a seam off the
    middle line. The customer may bring cloth, as much as she has, or a backing that is sewn already. `wider` is the
    cloth to compare with."""

    fabric: Fabric
    overage: Length
    seam_allowance: Length
    seams: Literal["any", "lengthwise", "crosswise"]
    centre: Literal["any", "panel"]
    supplied_by: Supplier
    have: Length | None = None
    sewn: Sewn | None = None
    wider: Fabric | None = None


class BattingWishes(NamedTuple):
    """Which batting, and its extra on each side."""

    product: BattingProduct
    overage: Length
    supplied_by: Supplier


class BindingWishes(NamedTuple):
    """How the edge is bound, or faced. `extra` is for the corners and the closing join. A strip is as wide as asked,
    or for a `finished` width and the quilt's `loft` as wide as it must be, and never under `least_strip`."""

    fabric: Fabric
    extra: Length
    fold: Literal["double", "single"]
    loft: Length
    least_strip: Length
    cut: Literal["crosswise", "lengthwise", "bias", "leftover"]
    join: Literal["diagonal", "straight"]
    seam_allowance: Length
    attach: Literal["front", "machine", "hand", "faced"]
    supplied_by: Supplier
    strip_width: Length | None = None
    finished: Length | None = None


class HemWishes(NamedTuple):
    """An edge that is turned to the back instead of bound: `allowance` of each side goes into it."""

    allowance: Length


class QuiltedArea(NamedTuple):
    """A part of the top with a style of its own: a share of it, or its blocks, sashing or borders."""

    style: Style
    share: Fraction | None = None
    part: Literal["blocks", "sashing", "borders"] | None = None


class QuiltingWishes(NamedTuple):
    """The style, that of any areas of their own, the way it is stitched, and in how many colours of thread."""

    style: Style
    areas: tuple[QuiltedArea, ...]
    method: Method
    colours: int


class ExtraWish(NamedTuple):
    """An extra of the studio's, by name, and how many of its unit."""

    name: str
    quantity: Fraction


class OneOff(NamedTuple):
    """A line of this project alone: `quantity` of `per` at `price` each."""

    label: str
    price: Fraction
    quantity: Fraction
    per: str
    line_class: str


class Charges(NamedTuple):
    """What changes the price of the lines: shares of the classes named, extras of the shop's, lines of its own."""

    rush: Fraction
    rush_classes: tuple[str, ...]
    discount: Fraction
    discount_classes: tuple[str, ...]
    extras: tuple[ExtraWish, ...]
    lines: tuple[OneOff, ...]


class Sewing(NamedTuple):
    """How the shop sews backings. `minutes_each` a seam and `minutes_along` for each `per` of it, at `wage` an
    hour; no seam within `clear_edge` of the trimmed edge, and rather not more than `most_seams`. A
    piece joined end to end is no shorter than `shortest_piece`; turned pieces must save `worth_turning` of cloth;
    `least_overage` is the least that the frame takes on each side. A change that saves `worth_saying` of cloth, or what
    that costs, is said."""

    minutes_each: Fraction
    minutes_along: Fraction
    per: str
    wage: Fraction
    clear_edge: Length
    most_seams: int
    shortest_piece: Length
    worth_turning: Length
    least_overage: Length
    worth_saying: Length


class Thread(NamedTuple):
    """`bobbin` and `cone` hold so much thread, a `tie` takes so much; `waste` is a share on top; `thickness_bare` is
    that of a quilt with no batting."""

    bobbin: Length
    cone: Length
    tie: Length
    waste: Fraction
    thickness_bare: Length


class Span(NamedTuple):
    """Minutes at the least, as they usually are, and at the most."""

    low: Fraction
    likely: Fraction
    high: Fraction


class EdgeTime(NamedTuple):
    """Minutes for each `per` of the edge: a binding made, sewn to the front, its back finished by machine or by hand;
    an edge faced; an edge hemmed."""

    per: str
    make: Span
    front: Span
    machine: Span
    hand: Span
    faced: Span
    hem: Span


class Frame(NamedTuple):
    """The longarm's frame: the widest backing it holds along the rollers, and the throat between them. A quilt that
    fits upright goes on sideways only where that saves `worth_sideways` passes."""

    widest: Length
    throat: Length
    worth_sideways: int


class Job(NamedTuple):
    """What is agreed at the counter."""

    number: str
    date: datetime.date | None
    due: datetime.date | None
    thread: str
    keep_leftovers: bool
    for_sale: bool
    notes: str


class Project(NamedTuple):
    """Everything the plans read. A part that is not wanted is None."""

    title: str
    units: Literal["in", "cm"]
    currency: Currency
    customer: str
    job: Job
    top: TopWishes
    measuring: Measuring
    backing: BackingWishes | None
    batting: BattingWishes | None
    binding: BindingWishes | None
    hem: HemWishes | None
    quilting: QuiltingWishes
    charges: Charges
    sewing: Sewing
    edge_time: EdgeTime
    thread: Thread
    frame: Frame
