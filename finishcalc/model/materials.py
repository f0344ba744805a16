"""Materials that are bought or chosen by name: fabrics, battings, quilting styles and methods.

A file may name a preset, a preset with some keys changed, or give a whole table with its own `name`: that is the
`Named...` form of each. Prices are exact, in the currency's main unit; shares are Fractions (3 % is 3/100).
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Annotated, Literal

from finishcalc.measures.length import AREA_UNITS, AreaUnit, LengthUnit
from finishcalc.model import keys as k
from finishcalc.model.marks import IN_HOUSE, Per, most
from finishcalc.model.section import FigureOf, Material, Section, Shorthand

OWN_UNIT = Per(("per",))


class ByName(Shorthand, short="preset"):
    """A material that may be the name of a preset, alone or with some keys changed."""

    preset: k.Line | None = None

    @property
    def is_none(self) -> bool:
        """Tell a material that the project wants none of."""
        return self.preset == "none"

    def missing(self) -> Iterator[str]:
        """Nothing for a material that is not wanted; else as for any section."""
        return iter(()) if self.is_none else super().missing()


class AnyCloth(Material):
    """The keys that a shop may also give for every cloth that has none of its own."""

    step: k.Step
    straighten: k.Margin
    selvage: k.Margin
    shrink_across: k.Shrinkage
    shrink_along: k.Shrinkage
    directional: k.Flag
    nap: k.Flag
    stretch: Literal["none", "across", "along"]  # as a knitted ground does; along is from end to end of the cloth
    repeat: k.Repeat
    bolt: k.Bolt  # the longest length that is sold; 0 where that does not matter
    prewashed: k.Flag  # it shrinks no more once it is in the quilt


class Fabric(AnyCloth):
    """A cloth as it is sold: `width` from edge to edge, `price` a `per`, sold by `step`. A `selling` price overrides
    cost and markup. Its `weight` is by area."""

    name: k.Line
    width: k.ClothWidth
    price: Annotated[FigureOf[k.Price], OWN_UNIT, IN_HOUSE]
    selling: Annotated[FigureOf[k.Price], OWN_UNIT] | None = None
    per: LengthUnit
    weight: k.AreaWeight | None = None

    @property
    def is_washed_first(self) -> bool:
        """Tell a cloth that shrinks no more in the quilt: it is prewashed, or planned to be washed before it is cut,
        as its shrinkage says."""
        return bool(self.prewashed or self.shrink_along or self.shrink_across)

    @property
    def is_one_way(self) -> bool:
        """Tell a cloth whose print or pile runs one way."""
        return bool(self.directional or self.nap)

    def selling_price(self, markup: Fraction) -> Fraction:
        """The price of one unit in a quote: its own, or its cost and the markup."""
        return self.selling.value if self.selling else self.price.value * (1 + markup)


class BoughtFabric(Fabric):
    """A fabric as one cloth of a project. Uses that share its `identity` are bought in one length and cut from it; the
    same preset under another identity is another cloth. The lengths that it `has` are at hand already."""

    identity: str
    has: k.Brought

    @property
    def own_name(self) -> str | None:
        """The name that a file gives it; None where a preset gives it one, which is that of a kind of cloth. An
        identity in quotes is such a name, and any other a key path."""
        return self.identity[1:-1] if self.identity.startswith('"') else None

    def __hash__(self) -> int:
        """Hash by the identity alone, because cloths that share it are equal."""
        return hash(self.identity)

    @property
    def wanted(self) -> "BoughtFabric":
        """The cloth itself, as of one that a file names."""
        return self


class NamedFabric(ByName, Fabric):
    """A cloth as a project or shop names it. The lengths of it that a project may `have` are at hand already."""

    have: k.Brought | None = None

    @property
    def wanted(self) -> Fabric | None:
        """The cloth itself; None where the project wants none."""
        return None if self.is_none else Fabric.of(self)


class Package(Section, whole=True):
    """A batting sold ready cut. A `selling` price overrides cost and markup."""

    size: k.Line
    width: k.ClothWidth
    length: k.ClothWidth
    price: k.Price
    selling: k.Price | None = None


Charge = Literal["whole-width", "half-width", "area"]
"""The share of a roll that is charged: the length cut off it, in its whole width or in half of it where that is wide
enough; or the area of the batting alone."""


class Roll(Section, whole=True):
    """A batting sold off a roll, cut by `step`, `price` a `per`. A `selling` price overrides cost and markup. Without a
    `charge`, the whole width is charged by a unit of length, and the area by a unit of area."""

    width: k.ClothWidth
    price: k.Price
    selling: k.Price | None = None
    per: Literal[LengthUnit, AreaUnit]
    step: k.Step
    charge: Charge | None = None

    @property
    def charged(self) -> Charge:
        """The share that is charged."""
        return self.charge or ("area" if self.per in AREA_UNITS else "whole-width")

    @property
    def length_unit(self) -> str:
        """The unit of length that its price goes by, or of whose square it does."""
        return self.per.removeprefix("sq ")


class AnyBatting(Material):
    """The keys that a shop may also give for every batting that has none of its own. `thickness` is that of the
    stitched quilt, `widest` the maker's widest distance between quilting lines and `widest_ties` that between ties,
    `shrink` the share of each side that washing takes. One that is not `joinable` has no scrim, or too loose an edge,
    to be joined."""

    packages: Annotated[FigureOf[Annotated[tuple[Package, ...], most(100)]], IN_HOUSE]
    rolls: Annotated[FigureOf[Annotated[tuple[Roll, ...], most(100)]], IN_HOUSE]
    thickness: k.Thickness
    widest: k.Pitch
    widest_ties: k.Pitch
    shrink: k.Shrinkage
    joinable: k.Flag


class Batting(AnyBatting):
    """A batting in the forms it is sold in. Its `weight` is by area."""

    name: k.Line
    weight: k.AreaWeight | None = None


class NamedBatting(ByName, Batting):
    """A batting as a project or shop names it."""

    @property
    def wanted(self) -> Batting | None:
        """The batting itself; None where the project wants none."""
        return None if self.is_none else Batting.of(self)
