"""The cloth of an extra: the pieces that are cut for it, such as the strip of a hanging sleeve or the square of a
label."""

from typing import Annotated, Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.model import keys as k
from finishcalc.model.materials import Fabric, NamedFabric
from finishcalc.model.section import Section

QuiltCloth = Literal["backing", "binding"]
"""The cloths of the quilt that an extra may be cut from."""
QUILT_CLOTHS: tuple[QuiltCloth, ...] = ("backing", "binding")


class ExtraCut(Section, takes_away={"length": ("of", "less"), "of": ("length",)}):
    """`[extras.NAME.cut]`: the piece that is cut for each one ordered: `width` by `length`, or as long as the side of
    the top that `of` names, `less` some; a square where it has neither. The `fabric` "backing" is the backing's cloth,
    or the binding's where there is no backing, and "binding" the other way round; whoever supplies that supplies the
    extra's."""

    width: k.StripWidth
    length: k.Side | None = None
    of: Literal["width", "length"] | None = None
    less: Annotated[Length, k.length("0 in", "36 in")] | None = None
    fabric: NamedFabric
    supplied_by: k.Supplier | None = None


class CutExtra(NamedTuple):
    """An extra that is ordered and cut from cloth: `number` pieces alike. `fabric` is a cloth of its own; where that is
    None, it is of the first cloth in `of_quilt` that the quilt has."""

    name: str
    label: str
    number: int
    cut: ExtraCut
    of_quilt: tuple[QuiltCloth, ...]
    fabric: Fabric | None


class ExtraCuts(NamedTuple):
    """The extras that are cut from cloth; one that is joined has `seam` allowances as a top has."""

    ordered: tuple[CutExtra, ...]
    seam: Length
