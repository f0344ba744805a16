"""The bed or table that a top covers, and the size that follows from it.

A cover is as large as its bed or table and the drop over the edge. Quilting draws a top up, so a side that must still
measure f once it is quilted is made f / (1 - draw-up) (derived).
"""

from fractions import Fraction
from typing import Annotated, NamedTuple

from finishcalc.measures.bounds import root_up, up
from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.model import keys as k
from finishcalc.model.materials import ByName
from finishcalc.model.section import Section

CRIB = (Length.parse("30 5/8 in"), Length.parse("55 in"))
"""The largest full-size crib interior is no wider and no longer than this (16 CFR 1220.1(c)(1))."""


class Bed(Section):
    """A mattress: the width and length of its top, and its depth."""

    name: k.Line | None = None
    width: k.Side
    length: k.Side
    depth: k.Margin | None = None

    @property
    def is_crib(self) -> bool:
        """Tell a bed no larger than a crib, either way round."""
        short, long = sorted((self.width, self.length))
        return short <= CRIB[0] and long <= CRIB[1]


class NamedBed(ByName, Bed):
    """A bed as a project names it."""


class Table(Section):
    """A table top, its `height` from the floor. A round one has a diameter, any other a width and a length."""

    name: k.Line | None = None
    shape: k.Outline
    width: k.Side
    length: k.Side
    diameter: k.Side | None = None
    height: Annotated[Length, k.length("6 in", "6 ft")] | None = None


class NamedTable(ByName, Table):
    """A table as a project names it."""


class Covers(Section):
    """`[top.covers]`: a bed or a table, and the `drop` of the cover over its edge, `foot_drop` at the foot of a bed; a
    `pillow_tuck` is added at its head. `draw_up` is the share of each side that quilting takes."""

    bed: NamedBed | None = None
    table: NamedTable | None = None
    drop: k.Drop
    foot_drop: k.Drop | None = None
    pillow_tuck: k.Drop
    draw_up: k.DrawUp


class Cover(NamedTuple):
    """A cover on its bed or table, `what`, with the drops of `Covers`."""

    what: Bed | Table
    drop: Length
    foot_drop: Length
    pillow_tuck: Length
    draw_up: Fraction

    @property
    def shape(self) -> k.Outline:
        """The cover's outline: that of the table, and a rectangle on a bed."""
        return self.what.shape if isinstance(self.what, Table) else "rectangle"

    @property
    def quilted(self) -> Size:
        """The size of the cover once it is quilted."""
        width = self.what.width + self.drop * 2
        if isinstance(self.what, Table):
            return Size(width, self.what.length + self.drop * 2)
        return Size(width, self.what.length + self.foot_drop + self.pillow_tuck)

    @property
    def size(self) -> Size:
        """The size of the top, raw edge to raw edge, before it is quilted."""
        remaining = 1 - self.draw_up
        return Size(*(Length(side.mm / remaining) for side in self.quilted))

    @property
    def mattress_shows(self) -> bool:
        """Tell a cover that hangs less than its mattress is deep, as far as that is known. A crib's need not."""
        bed = self.what
        if isinstance(bed, Table) or bed.is_crib or bed.depth is None:
            return False
        return min(self.drop, self.foot_drop) < bed.depth

    def corner_hang(self, radius: Length) -> Length:
        """The drop of a corner below the corner of the bed or table (derived). A square corner hangs by the diagonal of
        the two drops; a rounded one by the diagonal to the middle of its arc, and its radius."""
        if radius > min(self.drop, self.foot_drop):
            return max(self.drop, self.foot_drop)
        aside, down = (self.drop - radius).mm, (self.foot_drop - radius).mm
        return Length(up(root_up(aside * aside + down * down))) + radius

    def hanging(self, size: Size) -> "Cover":
        """The same bed or table under a top of another size, with the drops that it has once quilted; 0 where it falls
        short. On a bed, all that is short or over in length is so at the foot."""
        remaining = 1 - self.draw_up
        aside = Length((size.width.mm * remaining - self.what.width.mm) / 2)
        down = Length(size.length.mm * remaining - self.what.length.mm)
        foot = down / 2 if isinstance(self.what, Table) else down - self.pillow_tuck
        return self._replace(drop=max(aside, ZERO), foot_drop=max(foot, ZERO))

    def drawn_up(self, share: Fraction, size: Size) -> "Cover":
        """The same bed or table under a top of some size, of which quilting takes a share."""
        return self._replace(draw_up=share).hanging(size)
