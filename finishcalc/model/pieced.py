"""The parts of a pieced top, and the size that follows from them.

Blocks and sashing are given as finished, borders as cut. With a seam allowance s, a finished width f is cut
f + 2s, and a border cut w adds 2 x (w - 2s) to a top that is measured from raw edge to raw edge (common practice).
"""

from collections.abc import Iterator
from typing import Annotated, Literal, NamedTuple

from finishcalc.measures.bounds import ROOT_2_UP, up
from finishcalc.measures.length import ZERO, Area, Length, Size
from finishcalc.measures.rounding import nearest_step
from finishcalc.model import keys as k
from finishcalc.model.materials import Fabric, NamedFabric
from finishcalc.model.reading import whole_number
from finishcalc.model.section import Section

Setting = Literal["straight", "on-point"]
Corners = Literal["butted", "cornerstones", "mitred"]
FirstPair = Literal["top-and-bottom", "sides"]
StripGrain = Literal["any", "crosswise", "lengthwise"]
Join = Literal["diagonal", "straight"]


class PieceCloth(NamedTuple):
    """The cloth that a part of the top is cut from: a fabric, or None where it is at hand. `strips` says whether long
    pieces are cut across the cloth and joined, or along it in one piece."""

    fabric: Fabric | None
    strips: StripGrain
    join: Join


class PartCloth(Section):
    """The keys of a part of a pieced top for its cloth."""

    fabric: NamedFabric
    strips: StripGrain
    join: Join

    @property
    def cloth(self) -> PieceCloth:
        """The cloth of the part itself."""
        return PieceCloth(self.fabric.wanted, self.strips, self.join)


class CornerCloth(PartCloth):
    """The keys of a part with cornerstones for its cloth and theirs."""

    corner_fabric: NamedFabric

    @property
    def corner_cloth(self) -> PieceCloth:
        """The cloth of the cornerstones."""
        return PieceCloth(self.corner_fabric.wanted, self.strips, self.join)


class Blocks(PartCloth, needs=("across", "down")):
    """`[top.blocks]`: `across` x `down` blocks, finished `size`. On point there is one more block between every four.
    `inner` is the cut size of the square within a square; the cloth is for the triangles round it or round blocks on
    point."""

    across: k.BlockCount
    down: k.BlockCount
    size: k.BlockSize
    inner: k.BlockSize | None = None
    setting: Setting

    @property
    def number(self) -> int:
        """The number of blocks to make."""
        between = (self.across - 1) * (self.down - 1) if self.setting == "on-point" else 0
        return self.across * self.down + between


class Sashing(CornerCloth, needs=("width",)):
    """`[top.sashing]`: strips between the blocks, of a finished `width`: `outer` ones go all round too, and
    cornerstones lie where they meet."""

    width: k.StripWidth
    outer: k.Flag
    cornerstones: k.Flag


class Border(CornerCloth, needs=("cut",)):
    """`[[top.borders]]`: a round of strips as wide as they are `cut`. The `first` pair of a butted border is as long
    as the top before it."""

    cut: k.StripWidth
    corners: Corners
    first: FirstPair


class Centre(Section, whole=True):
    """`[top.centre]`: the piece that borders go round, measured from raw edge to raw edge."""

    width: k.Side
    length: k.Side


class Piecing(PartCloth):
    """`[top.piecing]`: the values for every part that gives none of its own. A mitred strip is cut longer by
    `mitre_extra`, to hold it and to trim; a side that is cut across the cloth has at most `most_joins`
    where it might be cut along it."""

    seam_allowance: k.SeamAllowance
    mitre_extra: k.Margin
    most_joins: Annotated[int, whole_number(0, 20)] | None = None
    setting: Setting
    outer: k.Flag
    cornerstones: k.Flag
    corners: Corners
    first: FirstPair
    supplied_by: k.Supplier


class PiecedTop(NamedTuple):
    """Blocks, or a centre that is measured from raw edge to raw edge, with borders in the order they are sewn.
    The other keys are those of `Piecing`."""

    seam: Length
    mitre_extra: Length
    most_joins: int | None
    supplied_by: k.Supplier
    borders: tuple[Border, ...]
    blocks: Blocks | None = None
    sashing: Sashing | None = None
    centre: Centre | None = None

    @property
    def centre_size(self) -> Size:
        """The part within the borders, unfinished size; on point a hair more than it is."""
        if not self.blocks:
            if not self.centre:
                raise AssertionError("a pieced top has blocks or a centre")
            return Size(self.centre.width, self.centre.length)
        return Size(*(self.centre_side(count) for count in (self.blocks.across, self.blocks.down)))

    def centre_side(self, count: int) -> Length:
        """The length of `count` blocks in a line with their sashing, raw edge to raw edge. On point each takes
        its diagonal, and an outer sashing ends in the middle of its cornerstones, or of the strips there (derived)."""
        blocks = self.blocks
        if not blocks:
            raise AssertionError("only blocks are counted")
        wide, outer = self.sashing.width if self.sashing else ZERO, bool(self.sashing and self.sashing.outer)
        if blocks.setting == "on-point":
            strips = count if outer else count - 1
            return Length(up((blocks.size * count + wide * strips).mm * ROOT_2_UP)) + self.seam * 2
        strips = count + 1 if outer else count - 1
        return blocks.size * count + wide * strips + self.seam * 2

    def added(self, border: Border) -> Length:
        """The length that a border adds to the width and to the length."""
        return (border.cut - self.seam * 2) * 2

    def area_of(self, part: str) -> Area:
        """The area of the top that the blocks, the sashing or the borders show, once sewn. The seam allowance at the
        outer edge belongs to the part that lies there; setting triangles belong to none of them."""
        blocks, size, seams = self.blocks, self.size, self.seam * 2 if self.borders else self.seam * 0
        centre = (self.centre_size.width - seams) * (self.centre_size.length - seams)
        if part == "borders" or not blocks:
            return Area((size.width * size.length).mm2 - centre.mm2)
        only_blocks = not self.sashing and blocks.setting == "straight"
        block_area = centre if only_blocks else Area((blocks.size * blocks.size).mm2 * blocks.number)
        return block_area if part == "blocks" else Area(centre.mm2 - block_area.mm2)

    @property
    def rounds(self) -> Iterator[tuple[Border, Size, Size]]:
        """Each border with the size before it and the size once it is on, raw edge to raw edge."""
        before = self.centre_size
        for border in self.borders:
            added = self.added(border)
            after = Size(before.width + added, before.length + added)
            yield border, before, after
            before = after

    @property
    def size(self) -> Size:
        """The size of the top, raw edge to raw edge."""
        centre, added = self.centre_size, sum(map(self.added, self.borders), ZERO)
        return Size(centre.width + added, centre.length + added)


def framed_square(inner: Length, seam: Length, finest: Length) -> Length:
    """The finished size of a block that is a square cut `inner` framed with four triangles: the diagonal of the
    finished square, to the nearest step a person can measure (derived)."""
    return nearest_step(Length((inner - seam * 2).mm * ROOT_2_UP), finest)


def square_to_frame(size: Length, seam: Length, finest: Length) -> Length:
    """The size to cut the inner square for a framed block of a finished size (derived)."""
    return nearest_step(Length(size.mm / ROOT_2_UP) + seam * 2, finest)
