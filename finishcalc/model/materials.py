"""What is bought or chosen by name: fabrics, battings, styles and methods, in the shape the plans read.

Prices are exact Fractions of the currency's main unit, shares are Fractions (3 % is 3/100), minutes are Fractions.
"""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length

Supplier = Literal["shop", "customer"]


class Fabric(NamedTuple):
    """A cloth as it is sold: `width` from edge to edge, `price` a `per` (a unit of length), sold by `step`,
    in one length of at most `bolt` (0 where that does not matter). A `selling` price stands over cost and markup."""

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
    selling: Fraction | None = None


class Package(NamedTuple):
    """A batting sold ready cut. A `selling` price stands over cost and markup."""

    size: str
    width: Length
    length: Length
    price: Fraction
    selling: Fraction | None = None


class Roll(NamedTuple):
    """A batting sold by the length, `price` a `per`, cut by `step`. A `selling` price stands over cost and markup."""

    width: Length
    price: Fraction
    per: str
    step: Length
    selling: Fraction | None = None


class BattingProduct(NamedTuple):
    """A batting in the forms it is sold in. `thickness` is that of the stitched quilt sandwich; `widest` is the
    maker's widest distance between quilting lines; `shrink` is the share of each side that washing takes."""

    name: str
    packages: tuple[Package, ...]
    rolls: tuple[Roll, ...]
    thickness: Length
    widest: Length
    shrink: Fraction


Lines = Literal["pattern", "channels", "grid", "parallel", "crosshatch", "echo", "ties"]


class Style(NamedTuple):
    """A quilting style. `lines` says what is stitched: a curved pattern, or lines that lie `line_spacing` apart.

    Of a pattern `line_spacing` is area / stitched length, `widest` its widest distance between lines, and
    `pattern_height` the height that the throat must reach over; one without `row_pitch` is custom work that is not
    sewn in rows. Straight lines run at `angle` degrees to the side-to-side direction. `draw_up` is the share of
    each side that it takes.
    """

    name: str
    rate_class: str
    lines: Lines
    line_spacing: Length
    run_off: Length
    stitch_length: Length
    draw_up: Fraction
    may_turn: bool
    pattern_height: Length | None = None
    row_pitch: Length | None = None
    widest: Length | None = None
    angle: int | None = None

    @property
    def widest_distance(self) -> Length:
        """The widest distance between quilting lines: of lines, how far they lie apart."""
        return self.line_spacing if self.widest is None else self.widest


class Stage(NamedTuple):
    """A stage of the work. `each` says what it is done for: the quilt, a pass, a bobbin or a tie (minutes each), or
    the stitching, of patterns or of straight lines, whose three figures are then speeds in `speed` lengths a minute.
    A method without a stage for straight lines stitches them like patterns."""

    name: str
    each: Literal["quilt", "pass", "bobbin", "stitching", "straight", "tie"]
    low: Fraction
    likely: Fraction
    high: Fraction
    attended: Fraction
    speed: Length | None = None
    on_frame: bool | None = None


class Method(NamedTuple):
    """A way of quilting, as its stages in the order they are done. `frame` says whether the quilt goes on the frame,
    `stitch` what is sewn; a method with a `rate_class` is charged at that whatever the style, and one with a
    `stitch_length` stitches that whatever the style."""

    name: str
    stages: tuple[Stage, ...]
    frame: bool
    stitch: Literal["lockstitch", "running", "tie"]
    rate_class: str | None = None
    stitch_length: Length | None = None
