"""The keys of a shop file: what the studio charges, its frame, and what its projects usually want."""

from typing import Annotated, ClassVar

from finishcalc.intake.fields import (
    AreaUnit,
    Classes,
    Flag,
    LengthUnit,
    Line,
    LineClass,
    Margin,
    Markup,
    Minutes,
    Notes,
    Price,
    Share,
    Shrinkage,
    Sparse,
    Units,
    Whole,
    choice,
    length,
    whole_number,
)
from finishcalc.intake.materials import (
    BattingTable,
    FabricTable,
    MethodTable,
    PackageTable,
    Pitch,
    RollTable,
    Step,
    StyleTable,
    Thickness,
)
from finishcalc.intake.project_file import Wishes
from finishcalc.measures.length import Length

Sign = Annotated[str, choice(".", ",", "'", " ", "\u00a0", "\u202f", "")]


class StudioTable(Sparse):
    """Who quotes."""

    name: Line | None = None
    contact: tuple[Line, ...] | None = None
    place: Line | None = None
    terms: Notes | None = None
    days_valid: Annotated[int, whole_number(0, 3650)] | None = None
    paper: Annotated[str, choice("letter", "A4")] | None = None


class MoneyTable(Sparse):
    """The currency and its signs."""

    takes_away: ClassVar[dict[str, tuple[str, ...]]] = {"currency": ("symbol",)}

    currency: Line | None = None
    symbol: Line | None = None
    symbol_place: Annotated[str, choice("before", "after")] | None = None
    decimal: Annotated[str, choice(".", ",")] | None = None
    group: Sign | None = None
    date_order: Annotated[str, choice("year-month-day", "day-month-year", "month-day-year")] | None = None
    cash_rounding: Price | None = None


class ClothTable(Sparse):
    """How cloth is bought, and what holds for a cloth that does not say it itself."""

    unit: LengthUnit | None = None
    step: Step | None = None
    straighten: Margin | None = None
    selvage: Margin | None = None
    shrink_across: Shrinkage | None = None
    shrink_along: Shrinkage | None = None
    directional: Flag | None = None
    nap: Flag | None = None
    repeat: Annotated[Length, length("0 in", "10 ft")] | None = None
    most_seams: Annotated[int, whole_number(0, 100)] | None = None
    shortest_piece: Annotated[Length, length("1 in", "10 ft")] | None = None
    clear_edge: Margin | None = None
    worth_turning: Annotated[Length, length("0 in", "100 yd")] | None = None
    least_overage: Margin | None = None


class AnyBattingTable(Sparse):
    """What holds for a batting that does not say it itself."""

    packages: tuple[PackageTable, ...] | None = None
    rolls: tuple[RollTable, ...] | None = None
    thickness: Thickness | None = None
    widest: Pitch | None = None


class SeamingTable(Sparse):
    """What a backing seam costs in time."""

    studio_only: ClassVar[frozenset[str]] = frozenset({"minutes_each", "minutes_along", "per"})
    figures: ClassVar[frozenset[str]] = frozenset({"minutes_each", "minutes_along"})

    minutes_each: Minutes | None = None
    minutes_along: Minutes | None = None
    per: LengthUnit | None = None


class BindingRates(Sparse):
    """What binding costs for each `binding_per` of the perimeter."""

    figures: ClassVar[frozenset[str]] = frozenset({"make", "front", "machine", "hand"})

    make: Price | None = None
    front: Price | None = None
    machine: Price | None = None
    hand: Price | None = None


class RatesTable(Sparse):
    """Prices of work."""

    studio_only: ClassVar[frozenset[str]] = frozenset({"wage", "markup"})
    figures: ClassVar[frozenset[str]] = frozenset({"quilting", "minimum", "seam", "wage", "markup"})

    quilting: dict[str, Price] | None = None
    quilting_per: AreaUnit | None = None
    minimum: Price | None = None
    binding: BindingRates | None = None
    binding_per: LengthUnit | None = None
    seam: Price | None = None
    wage: Price | None = None
    markup: Markup | None = None


class ThreadTable(Sparse):
    """Thread and bobbins."""

    figures: ClassVar[frozenset[str]] = frozenset({"bobbin"})

    bobbin: Annotated[Length, length("1 yd", "5000 yd")] | None = None
    waste: Share | None = None
    thickness_bare: Thickness | None = None


class TaxingTable(Sparse):
    """What holds for a tax that does not say it itself."""

    classes: Classes | None = None
    included: Flag | None = None
    by: Annotated[str, choice("invoice", "item")] | None = None


class TaxTable(Whole):
    """A tax."""

    label: Line
    percent: Share
    classes: Classes | None = None
    included: Flag | None = None
    by: Annotated[str, choice("invoice", "item")] | None = None


class DepositTable(Sparse):
    """What is asked before the work starts."""

    takes_away: ClassVar[dict[str, tuple[str, ...]]] = {"percent": ("amount",), "amount": ("percent",)}
    figures: ClassVar[frozenset[str]] = frozenset({"percent", "amount"})

    percent: Share | None = None
    amount: Price | None = None
    classes: Classes | None = None


class FrameTable(Sparse):
    """The longarm's frame."""

    widest: Annotated[Length, length("12 in", "40 ft")] | None = None
    throat: Annotated[Length, length("4 in", "10 ft")] | None = None


class ExtraTable(Sparse):
    """A priced extra."""

    figures: ClassVar[frozenset[str]] = frozenset({"price"})

    label: Line | None = None
    price: Price | None = None
    per: Annotated[str, choice("each", "hour", "in", "ft", "yd", "cm", "m")] | None = None
    line_class: LineClass | None = None


class ShopFile(Sparse):
    """A shop file."""

    figures: ClassVar[frozenset[str]] = frozenset({"tax"})
    at_root: ClassVar[frozenset[str]] = frozenset({"usual"})

    units: Units | None = None
    studio: StudioTable | None = None
    money: MoneyTable | None = None
    cloth: ClothTable | None = None
    any_batting: AnyBattingTable | None = None
    seaming: SeamingTable | None = None
    rates: RatesTable | None = None
    thread: ThreadTable | None = None
    taxing: TaxingTable | None = None
    tax: tuple[TaxTable, ...] | None = None
    deposit: DepositTable | None = None
    frame: FrameTable | None = None
    extras: dict[str, ExtraTable] | None = None
    fabrics: dict[str, FabricTable] | None = None
    battings: dict[str, BattingTable] | None = None
    styles: dict[str, StyleTable] | None = None
    methods: dict[str, MethodTable] | None = None
    usual: Wishes | None = None
