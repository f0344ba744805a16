"""What is bought or chosen by name: fabrics, battings, styles and methods, in the shape the plans read.

Prices are exact Fractions of the currency's main unit, shares are Fractions (3 % is 3/100), minutes are Fractions.
"""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length

Supplier = Literal["shop", "customer"]


class Fabric(NamedTuple):
    """A cloth as it is sold: `width` from edge to edge, `price` a `per` (a unit of length), sold by `step`,
    in one length of at most `bolt` (0 where that does not matter)."""

    name: str
    width: Length
    price: Fraction
    per: str
    step: Length
    selvage: Length
    straighten: Length
    shrink_across: Fraction
    shrink_along: Fraction
    directional: bool
    nap: bool
    repeat: Length
    bolt: Length


class Package(NamedTuple):
    """A batting sold ready cut."""

    size: str
    width: Length
    length: Length
    price: Fraction


class Roll(NamedTuple):
    """A batting sold by the length, `price` a `per`, cut by `step`."""

    width: Length
    price: Fraction
    per: str
    step: Length


class BattingProduct(NamedTuple):
    """A batting in the forms it is sold in. `thickness` is that of the stitched quilt sandwich; `widest` is the
    maker's widest distance between quilting lines."""

    name: str
    packages: tuple[Package, ...]
    rolls: tuple[Roll, ...]
    thickness: Length
    widest: Length


class Style(NamedTuple):
    """A quilting style. `line_spacing` is area / stitched length. A style without `row_pitch` is custom work
    that is not sewn in rows; `pattern_height` is the height that the throat must reach over."""

    name: str
    rate_class: str
    line_spacing: Length
    pattern_height: Length
    run_off: Length
    stitch_length: Length
    may_turn: bool
    row_pitch: Length | None = None


class Stage(NamedTuple):
    """A stage of the work. `each` says what it is done for: the quilt, a pass, a bobbin (minutes each), or the
    stitching, whose three figures are then speeds in `speed` lengths a minute."""

    name: str
    each: Literal["quilt", "pass", "bobbin", "stitching"]
    low: Fraction
    likely: Fraction
    high: Fraction
    attended: Fraction
    speed: Length | None = None


class Method(NamedTuple):
    """A way of quilting, as its stages in the order they are done."""

    name: str
    stages: tuple[Stage, ...]
