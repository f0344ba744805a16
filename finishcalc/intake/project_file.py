"""The keys of a project file."""

from fractions import Fraction
from typing import Annotated, Any

from pydantic import model_validator

from finishcalc.intake.fields import (
    Classes,
    Day,
    Flag,
    Line,
    Margin,
    Markup,
    Notes,
    SeamAllowance,
    Share,
    Side,
    Sparse,
    Units,
    Whole,
    choice,
    length,
    number,
)
from finishcalc.intake.materials import BattingTable, FabricTable, MethodTable, StyleTable
from finishcalc.measures.length import Length

Supplier = Annotated[str, choice("shop", "customer")]
Count = Annotated[Fraction, number(Fraction(0), Fraction(10_000))]


class CustomerTable(Sparse):
    """Whose top it is."""

    name: Line | None = None


class JobTable(Sparse):
    """What is agreed at the counter."""

    number: Line | None = None
    date: Day | None = None
    due: Day | None = None
    thread: Line | None = None
    keep_leftovers: Flag | None = None
    for_sale: Flag | None = None
    notes: Notes | None = None


class TopTable(Sparse):
    """The finished top."""

    shape: Annotated[str, choice("rectangle")] | None = None
    use: Annotated[str, choice("tablecloth", "bed", "crib", "throw", "wall")] | None = None
    width: Side | None = None
    length: Side | None = None


class BackingTable(Sparse):
    """The backing."""

    fabric: FabricTable | None = None
    overage: Margin | None = None
    seam_allowance: SeamAllowance | None = None
    seams: Annotated[str, choice("any", "lengthwise", "crosswise")] | None = None
    supplied_by: Supplier | None = None


class BattingSection(Sparse):
    """The batting."""

    product: BattingTable | None = None
    overage: Margin | None = None
    supplied_by: Supplier | None = None


class BindingTable(Sparse):
    """The binding."""

    fabric: FabricTable | None = None
    strip_width: Annotated[Length, length("1 in", "12 in")] | None = None
    extra: Margin | None = None
    cut: Annotated[str, choice("crosswise")] | None = None
    join: Annotated[str, choice("diagonal", "straight")] | None = None
    seam_allowance: SeamAllowance | None = None
    attach: Annotated[str, choice("front", "machine", "hand", "none")] | None = None
    supplied_by: Supplier | None = None


class QuiltingTable(Sparse):
    """The quilting."""

    style: StyleTable | None = None
    method: MethodTable | None = None


class ExtraWishTable(Whole):
    """An extra by name; a name on its own stands for one of it."""

    name: Line
    quantity: Count

    @model_validator(mode="before")
    @classmethod
    def _one(cls, data: Any) -> Any:
        return {"name": data, "quantity": 1} if isinstance(data, str) else data


class ChargesTable(Sparse):
    """What changes the price."""

    rush: Markup | None = None
    rush_classes: Classes | None = None
    discount: Share | None = None
    discount_classes: Classes | None = None
    extras: tuple[ExtraWishTable, ...] | None = None


class Wishes(Sparse):
    """The sections that a project file and a shop's `usual` have in common."""

    customer: CustomerTable | None = None
    job: JobTable | None = None
    top: TopTable | None = None
    backing: BackingTable | None = None
    batting: BattingSection | None = None
    binding: BindingTable | None = None
    quilting: QuiltingTable | None = None
    charges: ChargesTable | None = None


class ProjectFile(Wishes):
    """A project file."""

    title: Line | None = None
    units: Units | None = None
    shop: Line | None = None
