"""The project file: its tables, and the project that plans read, made from all layers.

Lengths are exact, shares are Fractions (3 % is 3/100), minutes are Fractions.
"""

from typing import Annotated, Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.measures.weight import AreaWeight
from finishcalc.model import keys as k
from finishcalc.model.charges import Charges
from finishcalc.model.cover import Cover, Covers
from finishcalc.model.extra_cuts import ExtraCuts
from finishcalc.model.marks import IN_HOUSE, ONE_TABLE_OR_SEVERAL, ROWS, most
from finishcalc.model.materials import NamedBatting, NamedFabric
from finishcalc.model.pieced import Blocks, Border, Centre, Join, PiecedTop, Piecing, Sashing
from finishcalc.model.quilting import NamedMethod, NamedStyle
from finishcalc.model.reading import whole_number
from finishcalc.model.section import Section
from finishcalc.model.shop import Arrival, EdgeTime, Frame, Measuring, Sewing, Thread, Washing, Week


class Customer(Section):
    """`[customer]`: the person the quote is for."""

    name: k.Line


class Job(Section):
    """`[job]`: the terms agreed at the counter, and what the top has on it that is to be looked at when it arrives. The
    customer never sees `notes_studio`."""

    number: k.Line
    date: k.Day | None = None
    due: k.Day | None = None
    thread: k.Line
    keep_leftovers: k.Flag
    for_sale: k.Flag
    embellishments: k.Flag
    vinyl: k.Flag
    t_shirts: k.Flag
    dense_seams: k.Flag
    notes: k.Notes
    notes_studio: Annotated[k.Notes, IN_HOUSE]


class Scallop(Section, whole=True):
    """`[top.scallop]`: arcs along the edge, of about this width and depth."""

    chord: Annotated[Length, k.length("1 in", "10 ft")]
    depth: Annotated[Length, k.length("1/8 in", "5 ft")]


class Measured(Section, whole=True):
    """`[top.measured]`: the tape's measures in several places; diagonals may be left out."""

    widths: k.Sides
    lengths: k.Sides
    diagonals: k.Diagonals = ()


class Top(Section):
    """`[top]`: its outline, and its size in one of several ways, raw edge to raw edge. Where its pieces do not tell
    their cloth, that has a `weight` by area and seams between patches of a finished size. Cloth that is `prewashed`
    shrinks no more."""

    shape: k.Outline
    use: k.Use
    width: k.Side | None = None
    length: k.Side | None = None
    diameter: k.Side | None = None
    measured: Measured | None = None
    corner_radius: Annotated[Length, k.length("0 in", "10 ft")] | None = None
    scallop: Scallop | None = None
    covers: Covers
    blocks: Blocks | None = None
    sashing: Sashing | None = None
    borders: Annotated[tuple[Border, ...], most(100), ROWS] = ()
    centre: Centre | None = None
    piecing: Piecing
    patch: k.Patch
    weight: k.AreaWeight
    prewashed: k.Flag

    @property
    def is_pieced(self) -> bool:
        """Tell a top that is given by its blocks or borders."""
        return bool(self.blocks or self.centre or self.borders)

    @property
    def is_curved(self) -> bool:
        """Tell a top whose edge curves anywhere."""
        round_or_oval = self.shape in ("round", "oval") or self.diameter is not None
        return round_or_oval or bool(self.corner_radius) or self.scallop is not None


class Sewn(Section, whole=True):
    """`[backing.sewn]`: a backing that is made already."""

    width: Annotated[Length, k.length("1 in", "30 ft")]
    length: Annotated[Length, k.length("1 in", "30 ft")]


class Backing(Section, takes_away={"have": ("sewn",), "sewn": ("have",)}):
    """`[backing]`: the cloth of the backing and how it may be pieced. `overage` is the extra on each side; `centre`
    "panel" keeps a seam off the middle line. `seam_count`, `turned` (with pieces cut across the grain, or without),
    `seams` and `overage` together pick one plan; `most_seams` stands over the shop's. The customer may bring cloth, in
    one length or several, or a backing that is sewn already."""

    fabric: NamedFabric
    overage: k.EachOverage
    seam_allowance: k.SeamAllowance
    seams: Literal["any", "lengthwise", "crosswise"]
    seam_count: k.SeamCount | None = None
    most_seams: k.SeamCount | None = None
    turned: k.Flag | None = None
    centre: Literal["any", "panel"]
    have: k.Brought | None = None
    sewn: Sewn | None = None
    supplied_by: k.Supplier


class BattingPiece(Section, whole=True):
    """A piece of batting that the customer brings."""

    width: Annotated[Length, k.length("1 in", "30 ft")]
    length: Annotated[Length, k.length("1 in", "100 yd")]


class BattingLayer(Section):
    """`[batting]`: the product, and its extra on each side. The customer may bring pieces of it, of which
    `least_overage` is the least extra that will do."""

    product: NamedBatting
    overage: k.Margin
    least_overage: k.Margin
    have: Annotated[tuple[BattingPiece, ...], most(10), ONE_TABLE_OR_SEVERAL] | None = None
    supplied_by: k.Supplier


class Offcut(Section, whole=True):
    """`[binding.offcut]`: a piece of the binding's cloth that is at hand, as it can be cut: washed, without selvages.
    Its `length` is along the cloth."""

    width: Annotated[Length, k.length("1 in", "30 ft")]
    length: Annotated[Length, k.length("1 in", "100 yd")]


class Binding(Section, takes_away={"finished": ("strip_width",), "strip_width": ("finished",)}):
    """`[binding]`: the binding, facing or hem of the edge. The `fabric` "backing" is the backing's cloth. `extra` is
    for the corners and the closing join. A strip has the `strip_width` given, or the width that a `finished` width and
    the quilt's `loft` need, and never less than `least_strip`. It is cut from an `offcut` first."""

    fabric: NamedFabric
    strip_width: Annotated[Length, k.length("1 in", "12 in")] | None = None
    extra: k.Margin
    finished: Annotated[Length, k.length("1/8 in", "3 in")] | None = None
    fold: Literal["double", "single"]
    loft: Annotated[Length, k.length("0 in", "2 in")]
    least_strip: Annotated[Length, k.length("1/2 in", "12 in")]
    hem: Annotated[Length, k.length("1/4 in", "12 in")]
    cut: Literal["crosswise", "lengthwise", "bias", "leftover"]
    offcut: Offcut | None = None
    join: Join
    seam_allowance: k.SeamAllowance
    attach: Literal["front", "machine", "hand", "faced", "hem", "none"]
    supplied_by: k.Supplier

    @property
    def takes_strips(self) -> bool:
        """Tell an edge that is bound or faced from one that is hemmed or left."""
        return self.attach not in ("hem", "none")


class Area(Section, needs=("style",)):
    """`[[quilting.areas]]`: a part of the top with a style of its own: a share of it, or its blocks, sashing or
    borders."""

    style: NamedStyle
    share: k.Share | None = None
    part: Literal["blocks", "sashing", "borders"] | None = None


class Quilting(Section):
    """`[quilting]`: the style, the areas with styles of their own, the method, and the number of colours of
    thread."""

    style: NamedStyle
    method: NamedMethod
    colours: Annotated[int, whole_number(1, 20)]
    areas: Annotated[tuple[Area, ...], most(100), ROWS] = ()


class ProjectTables(Section):
    """The tables that a project file and a shop's `usual` share."""

    customer: Customer
    job: Job
    top: Top
    backing: Backing
    batting: BattingLayer
    binding: Binding
    quilting: Quilting
    charges: Charges


class TopCloth(NamedTuple):
    """The cloth of a top as far as its pieces do not tell it: the finished size of a patch, the `seam` allowance, and
    the weight by area, which the project may state for all of the top. It may be prewashed."""

    patch: Length
    seam: Length
    weight: AreaWeight
    weight_is_stated: bool
    prewashed: bool


class TopSpec(NamedTuple):
    """The finished top, raw edge to raw edge. Its size is the diameter of a round top, the largest measures of a
    measured one, the sum of the parts of a pieced one, and the size that a cover needs."""

    shape: k.Outline
    use: k.Use
    width: Length
    length: Length
    cloth: TopCloth
    corner_radius: Length | None = None
    scallop: Scallop | None = None
    measured: Measured | None = None
    pieced: PiecedTop | None = None
    covers: Cover | None = None


class Project(NamedTuple):
    """Everything the plans read. A part that is not wanted is None; `hem` is the width of each side that is turned to
    the back instead of bound. `overage_is_fixed` where the project or the studio's own shop file states an overage for
    the backing, so that no other leads; `cut_is_fixed` where the project itself states the cut of the binding;
    `binding_is_of_backing` where the binding is of the backing's cloth, whichever that is."""

    title: str
    units: k.Units
    currency: Currency
    customer: Customer
    job: Job
    top: TopSpec
    measuring: Measuring
    backing: Backing | None
    overage_is_fixed: bool
    batting: BattingLayer | None
    binding: Binding | None
    cut_is_fixed: bool
    binding_is_of_backing: bool
    hem: Length | None
    quilting: Quilting
    charges: Charges
    extra_cuts: ExtraCuts
    sewing: Sewing
    edge_time: EdgeTime
    thread: Thread
    frame: Frame
    washing: Washing
    week: Week
    arrival: Arrival
