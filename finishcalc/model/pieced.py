"""The parts of a pieced top, and the size that follows from them.

Blocks and sashing are given as finished, borders as cut. With a seam allowance s, a finished width f is cut
f + 2s, and a border cut w adds 2 x (w - 2s) to a top that is measured from raw edge to raw edge (common practice).
"""

from collections.abc import Iterator, Mapping
from typing import Annotated, Literal, NamedTuple

from finishcalc.measures.bounds import ROOT_2_UP, up
from finishcalc.measures.length import ZERO, Area, Length, Size
from finishcalc.measures.rounding import nearest_step, up_to_step
from finishcalc.model import keys as k
from finishcalc.model.marks import ROWS, most
from finishcalc.model.materials import Fabric, NamedFabric
from finishcalc.model.reading import whole_number
from finishcalc.model.section import Section

Setting = Literal["straight", "on-point"]
Corners = Literal["butted", "cornerstones", "mitred"]
FirstPair = Literal["top-and-bottom", "sides"]
StripGrain = Literal["any", "crosswise", "lengthwise"]
Join = Literal["diagonal", "straight"]
Print = Literal["up", "along"]
Plain = Literal["none", "all", "alternate", "setting"]


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


class Patch(Section, needs=("number", "width")):
    """`[[top.blocks.patches]]`: so many patches of one pieced block, as they are cut; a square where no `length` is
    given. Triangles are cut from squares of that size, `once` or `twice` from corner to corner, and `number` counts
    the triangles: two come from a square that is cut once, four from one that is cut twice."""

    number: Annotated[int, whole_number(1, 1000)]
    width: k.StripWidth
    length: k.StripWidth | None = None
    triangles: Literal["once", "twice"] | None = None
    fabric: NamedFabric

    @property
    def size(self) -> Size:
        """The size to cut: of the patch, or of the square that triangles are cut from."""
        return Size(self.width, self.width if self.length is None else self.length)

    @property
    def from_one(self) -> int:
        """The number of patches from one piece of that size."""
        return {None: 1, "once": 2, "twice": 4}[self.triangles]

    def finished_size(self, seam: Length, finest: Length) -> Size:
        """The size that is left of it within its seams: of a triangle, that of the square it would be cut from without
        any seams."""
        taken = {None: seam * 2, "once": once_extra(seam, finest), "twice": twice_extra(seam, finest)}[self.triangles]
        return Size(self.size.width - taken, self.size.length - taken)

    def finished_area(self, seam: Length, finest: Length) -> Area:
        """The area that it shows in the block."""
        finished = self.finished_size(seam, finest)
        return Area((finished.width * finished.length).mm2 / self.from_one)


class Blocks(PartCloth, needs=("across", "down")):
    """`[top.blocks]`: `across` x `down` blocks, finished `size`. On point there is one more block between every four.
    `inner` is the cut size of the square within a square; the cloth is for the triangles round it or round blocks on
    point. Blocks that are one square of cloth are `plain`: all of them, every other one of blocks side by side, which
    begin with a pieced one, or the setting blocks, which lie between the pieced ones on point."""

    across: k.BlockCount
    down: k.BlockCount
    size: k.BlockSize
    inner: k.BlockSize | None = None
    setting: Setting
    plain: Plain
    plain_fabric: NamedFabric
    patches: Annotated[tuple[Patch, ...], most(100), ROWS] = ()

    @property
    def number(self) -> int:
        """The number of blocks, pieced and plain."""
        return self.across * self.down + self._between

    @property
    def plain_number(self) -> int:
        """The number of plain blocks: of an odd number by turns, the pieced ones are one more."""
        by_kind = {"all": self.number, "alternate": self.across * self.down // 2, "setting": self._between}
        return by_kind.get(self.plain, 0)

    @property
    def pieced_number(self) -> int:
        """The number of blocks that are pieced."""
        return self.number - self.plain_number

    @property
    def plain_use(self) -> str:
        """The name of the plain blocks as a use of cloth."""
        return "setting blocks" if self.plain == "setting" else "plain blocks"

    @property
    def plain_cloth(self) -> PieceCloth:
        """The cloth of the plain blocks."""
        return PieceCloth(self.plain_fabric.wanted, self.strips, self.join)

    def patch_cloth(self, patch: Patch) -> PieceCloth:
        """The cloth of a patch."""
        return PieceCloth(patch.fabric.wanted, self.strips, self.join)

    def patched_area(self, seam: Length) -> Area:
        """The area of one pieced block that its patches may fill: of a framed one, that of its inner square."""
        side = self.size if self.inner is None else self.inner - seam * 2
        return side * side

    @property
    def _between(self) -> int:
        """The number of blocks that lie between every four on point."""
        return (self.across - 1) * (self.down - 1) if self.setting == "on-point" else 0


class Sashing(CornerCloth, needs=("width",)):
    """`[top.sashing]`: strips between the blocks, of a finished `width`: `outer` ones go all round too, and
    cornerstones lie where they meet. The `print` of a cloth with a direction stays upright, or runs along each
    strip."""

    width: k.StripWidth
    print: Print
    outer: k.Flag
    cornerstones: k.Flag


class Border(CornerCloth, needs=("cut",)):
    """`[[top.borders]]`: a round of strips as wide as they are `cut`. The `first` pair of a butted border is as long
    as the top before it. The `print` is as that of sashing; where it runs along mitred strips and repeats, they are cut
    a repeat longer."""

    cut: k.StripWidth
    print: Print
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
    plain: Plain
    print: Print
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

    def with_strips(self, strips: Mapping[str, StripGrain]) -> "PiecedTop":
        """The same top with the strips of some parts cut one way: of "sashing", or of "border 2"."""
        sashing = self.sashing
        if sashing and "sashing" in strips:
            sashing = sashing.replace(strips=strips["sashing"])
        borders = (
            border.replace(strips=strips.get(f"border {number}", border.strips))
            for number, border in enumerate(self.borders, start=1)
        )
        return self._replace(sashing=sashing, borders=tuple(borders))

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

    def matching(self, border: Border) -> Length:
        """The length that a strip needs more so that its print meets at the mitres: a whole repeat, where it runs along
        the strip (common practice)."""
        fabric = border.cloth.fabric
        return fabric.repeat if fabric and border.corners == "mitred" and border.print == "along" else ZERO

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


def once_extra(seam: Length, finest: Length) -> Length:
    """Add to a square cut once for the seams at its points: 2 + root 2 seams, up (7/8 in for 1/4 in seams; derived)."""
    return up_to_step(seam * (2 + ROOT_2_UP), finest)


def twice_extra(seam: Length, finest: Length) -> Length:
    """Add to a square cut twice: 2 + 2 root 2 seams, up (1 1/4 in for 1/4 in seams; derived)."""
    return up_to_step(seam * (2 + 2 * ROOT_2_UP), finest)
