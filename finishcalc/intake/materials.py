"""The keys of what is bought or chosen by name: fabrics, battings, quilting styles and methods.

Each may be a name of a preset, a preset with some keys changed, or a whole table with its own `name`.
"""

from typing import Annotated, Any, ClassVar, Self

from pydantic import model_validator

from finishcalc.intake.fields import (
    Flag,
    LengthUnit,
    Line,
    Margin,
    Minutes,
    Price,
    Share,
    Shrinkage,
    Sparse,
    Whole,
    choice,
    length,
    refuse,
)
from finishcalc.measures.length import Length

Pitch = Annotated[Length, length("1 mm", "10 ft")]
ClothWidth = Annotated[Length, length("4 in", "200 in")]
Thickness = Annotated[Length, length("0.001 in", "2 in")]
Step = Annotated[Length, length("1 mm", "10 yd")]


class Material(Sparse):
    """A preset's name on its own stands for the table `{ preset = "name" }`."""

    preset: Line | None = None
    name: Line | None = None

    @model_validator(mode="before")
    @classmethod
    def _named(cls, data: Any) -> Any:
        return {"preset": data} if isinstance(data, str) else data


class FabricTable(Material):
    """A cloth."""

    studio_only: ClassVar[frozenset[str]] = frozenset({"price"})
    figures: ClassVar[frozenset[str]] = frozenset({"price"})

    width: ClothWidth | None = None
    price: Price | None = None
    per: LengthUnit | None = None
    step: Step | None = None
    selvage: Margin | None = None
    straighten: Margin | None = None
    shrink_across: Shrinkage | None = None
    shrink_along: Shrinkage | None = None
    directional: Flag | None = None
    nap: Flag | None = None
    repeat: Annotated[Length, length("0 in", "10 ft")] | None = None


class PackageTable(Whole):
    """A batting sold ready cut."""

    size: Line
    width: ClothWidth
    length: ClothWidth
    price: Price


class RollTable(Whole):
    """A batting sold by the length."""

    width: ClothWidth
    price: Price
    per: LengthUnit
    step: Step


class BattingTable(Material):
    """A batting."""

    studio_only: ClassVar[frozenset[str]] = frozenset({"packages", "rolls"})
    figures: ClassVar[frozenset[str]] = frozenset({"packages", "rolls"})

    packages: tuple[PackageTable, ...] | None = None
    rolls: tuple[RollTable, ...] | None = None
    thickness: Thickness | None = None
    widest: Pitch | None = None


class StyleTable(Material):
    """A quilting style."""

    rate_class: Line | None = None
    line_spacing: Annotated[Length, length("0.05 in", "20 ft")] | None = None
    pattern_height: Pitch | None = None
    row_pitch: Annotated[Length, length("1/4 in", "10 ft")] | None = None
    run_off: Margin | None = None
    stitch_length: Annotated[Length, length("0.2 mm", "1 in")] | None = None
    may_turn: Flag | None = None


class StageTable(Whole):
    """A stage of the work; `speed` stands where the figures are lengths a minute."""

    name: Line
    each: Annotated[str, choice("quilt", "pass", "bobbin", "stitching")]
    low: Minutes
    likely: Minutes
    high: Minutes
    attended: Share
    speed: Pitch | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.each == "stitching":
            if self.speed is None:
                raise refuse("has no speed", "say what its figures count: speed = 1 for lengths of 1 a minute")
            if not self.low >= self.likely >= self.high > 0:
                raise refuse("its speeds are out of order", "low is the quickest speed, high the slowest, all above 0")
        elif not self.low <= self.likely <= self.high:
            raise refuse("its minutes are out of order", "low is the least, high the most")
        return self


class MethodTable(Material):
    """A way of quilting."""

    studio_only: ClassVar[frozenset[str]] = frozenset({"stages"})
    figures: ClassVar[frozenset[str]] = frozenset({"stages"})

    stages: tuple[StageTable, ...] | None = None
