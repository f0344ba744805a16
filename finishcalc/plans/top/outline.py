"""The shape of a top, as the few figures that every plan needs of it.

Curved edges and areas are not rational, so they are bounded from above: cloth, thread and binding are never short.
"""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.bounds import PI_UP, arc_up, circle_up, ellipse_up, segment_up, up
from finishcalc.measures.length import ZERO, Area, Length, Overage, Size
from finishcalc.wording.sentence import Sentence, say


class Scallops(NamedTuple):
    """Rows of `across` and `down` arcs between the inner corners of a scalloped edge, each arc `depth` deep over the
    chord of its side."""

    across: int
    down: int
    inner: Size
    depth: Length

    @property
    def chords(self) -> Size:
        """The width of a scallop across the top, and down it."""
        return Size(self.inner.width / self.across, self.inner.length / self.down)


class Shape(NamedTuple):
    """The outline of a top in figures. `width` and `length` bound it from outside; `area` and `perimeter` are never
    short of its own. `curved` is True where any of its edge curves, so that a binding must give. `corner` is the radius
    of a rectangle's corners, 0 where they are square, and `scallops` are those of its edge."""

    name: Literal["rectangle", "round", "oval"]
    width: Length
    length: Length
    area: Area
    perimeter: Length
    curved: bool
    corner: Length
    scallops: Scallops | None = None

    def with_overage(self, overage: Overage) -> Size:
        """Give the size that reaches `overage` beyond the bounds."""
        return Size(self.width + overage.sides * 2, self.length + overage.ends * 2)

    def overage_working(self, overage: Overage) -> Sentence:
        """Write out the arithmetic of `with_overage`."""
        needed = self.with_overage(overage)
        return say(
            "Needed: {w} + 2 x {sides} = {nw} wide, {l} + 2 x {ends} = {nl} long",
            w=self.width,
            l=self.length,
            sides=overage.sides,
            ends=overage.ends,
            nw=needed.width,
            nl=needed.length,
        )


def rectangle(width: Length, length: Length) -> Shape:
    """Make a rectangle with square corners."""
    return Shape("rectangle", width, length, width * length, (width + length) * 2, False, ZERO)


def circle(diameter: Length) -> Shape:
    """Make a circle; its width and length are the diameter."""
    area = Area(up(PI_UP * diameter.mm * diameter.mm / 4))
    return Shape("round", diameter, diameter, area, Length(circle_up(diameter.mm)), True, ZERO)


def oval(width: Length, length: Length) -> Shape:
    """Make an ellipse with these axes; with two equal ones it is a circle to the last digit."""
    area = Area(up(PI_UP * width.mm * length.mm / 4))
    return Shape("oval", width, length, area, Length(ellipse_up(width.mm, length.mm)), True, ZERO)


def rounded(width: Length, length: Length, radius: Length) -> Shape:
    """Make a rectangle whose corners are quarter circles of a radius that is at most half its shorter side."""
    square, quarter = (radius * 2) * (radius * 2), Area(up(PI_UP * radius.mm * radius.mm))
    area = Area((width * length).mm2 - square.mm2 + quarter.mm2)
    straight = (width + length) * 2 - radius * 8
    return Shape("rectangle", width, length, area, straight + Length(circle_up(radius.mm * 2)), True, radius)


def scalloped(width: Length, length: Length, chord: Length, depth: Length) -> Shape:
    """Make a rectangle whose sides are rows of circular arcs of about this chord, a whole number on each side.

    The humps touch the rectangle; the points between them lie `depth` inside it. Its area is that of the rectangle
    through those points, and of the segments between the arcs and their chords::

         .--. .--. .--.   ---
        (    v    v    )   | depth
        )    |chord    (  ---
    """
    edge, inner = ZERO, Size(width - depth * 2, length - depth * 2)
    area = inner.width * inner.length
    across, down = _scallops_along(inner.width, chord), _scallops_along(inner.length, chord)
    scallops = Scallops(across, down, inner, depth)
    for count, each in zip((across, down), scallops.chords, strict=True):
        edge += Length(arc_up(each.mm, depth.mm)) * (2 * count)
        area += Area(segment_up(each.mm, depth.mm) * (2 * count))
    return Shape("rectangle", width, length, area, edge, True, ZERO, scallops)


def _scallops_along(side: Length, chord: Length) -> int:
    """Count the arcs along a side between its inner corners: the number whose chord is nearest, and at least one."""
    return max(1, int(side / chord + Fraction(1, 2)))
