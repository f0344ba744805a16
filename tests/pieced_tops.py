"""Pieced tops for the tests: a design, the text that a file gives for it, and the pieces it needs by definition.

Nothing here is worked out by the plans. Every number is in the unit of the file. The diagonal of a block is kept as a
multiple of the root of 2, and compared by its square, so that no bound of the root is needed.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import isqrt
from typing import NamedTuple, Protocol, TypeVar

from finishcalc.measures.length import Length
from tests.cutting_checker import Cloth, Needed

T = TypeVar("T")
FINE = 10**9


class Pick(Protocol):
    """Chooses one of several: Hypothesis, or a chance with a seed."""

    def __call__(self, options: Sequence[T], /) -> T: ...


class Side(NamedTuple):
    """A length of the top: `plain`, and as many diagonals as a square of side `diagonal` has."""

    plain: Fraction
    diagonal: Fraction = Fraction(0)

    def plus(self, more: Fraction) -> "Side":
        return Side(self.plain + more, self.diagonal)

    def up_to(self, step: Fraction) -> Fraction:
        """The least number of steps that is not below it."""
        root = Fraction(isqrt(2 * (self.diagonal.numerator * FINE) ** 2), self.diagonal.denominator * FINE)
        steps = -(-(self.plain + root) // step)
        while (step * steps - self.plain) ** 2 < 2 * self.diagonal**2:
            steps += 1
        return step * steps


class Units(NamedTuple):
    """The usual measures of a setting, as the sample shop of that unit has them."""

    unit: str
    finest: Fraction
    mitre_extra: Fraction
    shortest: Fraction
    preset: str
    sizes: tuple[str, ...]
    cuts: tuple[str, ...]
    sashes: tuple[str, ...]
    centres: tuple[str, ...]
    seams: tuple[str, ...]
    inners: tuple[str, ...]


INCH = Units(
    "in",
    Fraction(1, 8),
    Fraction(2),
    Fraction(8),
    "cotton-44",
    sizes=("4", "6", "8.5", "9", "12"),
    cuts=("1", "1.25", "2.5", "3.5", "5", "6.5", "8"),
    sashes=("1", "1.5", "2", "3"),
    centres=("12.5", "24.5", "36", "60", "79.5", "90.125"),
    seams=("0.25", "0.25", "0.375"),
    inners=("4.5", "6.5", "9"),
)
METRIC = Units(
    "cm",
    Fraction(1, 10),
    Fraction(5),
    Fraction(20),
    "cotton-110",
    sizes=("10", "15", "20.5", "30"),
    cuts=("2.5", "4", "6.5", "9", "11.5", "16"),
    sashes=("2", "3.5", "4", "6"),
    centres=("31.5", "60", "90", "150", "201.5", "232.5"),
    seams=("0.75", "0.75", "0.6"),
    inners=("11.5", "16.5", "24"),
)


class Fabric(NamedTuple):
    """A cloth as the file gives it. One that is `one_way` has a "nap", or is "directional" because of its print."""

    name: str
    width: Fraction
    selvage: Fraction
    straighten: Fraction
    shrink_across: int
    shrink_along: int
    one_way: str = ""

    @property
    def usable(self) -> Fraction:
        return (self.width - 2 * self.selvage) * (1 - Fraction(self.shrink_across, 100))


class Part(NamedTuple):
    """The cloth keys of a part; those of sashing and borders have a `print`."""

    fabric: Fabric
    corner: Fabric
    strips: str
    join: str
    print: str = "up"


class Border(NamedTuple):
    part: Part
    cut: Fraction
    corners: str
    first: str


class Sashing(NamedTuple):
    part: Part
    width: Fraction
    outer: bool
    cornerstones: bool


class Blocks(NamedTuple):
    part: Part
    across: int
    down: int
    size: Fraction
    inner: Fraction | None
    on_point: bool


class Top(NamedTuple):
    """A design. It has blocks, or a `centre` that is measured from raw edge to raw edge."""

    units: Units
    seam: Fraction
    blocks: Blocks | None
    centre: tuple[Fraction, Fraction]
    sashing: Sashing | None
    borders: tuple[Border, ...]

    @property
    def text(self) -> str:
        """The design as a file says it, with nothing but its top to buy cloth for."""
        return self.tables + '[backing]\nfabric = "none"\n[batting]\nproduct = "none"\n[binding]\nattach = "none"\n'

    def text_with_layers(self, fabric: Fabric, binding: str) -> str:
        """The same with a backing and a binding of this cloth; `binding` has the keys of its own."""
        cloth = _fabric_text("fabric", fabric, self.units)
        return self.tables + f'[backing]\n{cloth}[batting]\nproduct = "none"\n[binding]\n{cloth}{binding}'

    @property
    def tables(self) -> str:
        """The tables of the top."""
        tables = [f'units = "{self.units.unit}"\n[top.piecing]\nseam_allowance = "{_number(self.seam)}"\n']
        if self.blocks:
            tables.append(_blocks_text(self.blocks, self.units))
        else:
            width, length = map(_number, self.centre)
            tables.append(f'[top.centre]\nwidth = "{width}"\nlength = "{length}"\n')
        if self.sashing:
            tables.append(_sashing_text(self.sashing, self.units))
        return "".join(tables + [_border_text(border, self.units) for border in self.borders])

    @property
    def sides(self) -> tuple[Side, Side]:
        """The width and the length of the top, from raw edge to raw edge."""
        width, length = self._centre_sides()
        added = sum((2 * (border.cut - 2 * self.seam) for border in self.borders), Fraction(0))
        return width.plus(added), length.plus(added)

    @property
    def rounds(self) -> Iterator[tuple[Border, Side, Side]]:
        """Each border with the two sides it goes round: the two widths less two seams each are what it adds."""
        width, length = self._centre_sides()
        for border in self.borders:
            yield border, width, length
            added = 2 * (border.cut - 2 * self.seam)
            width, length = width.plus(added), length.plus(added)

    def _centre_sides(self) -> tuple[Side, Side]:
        if not self.blocks:
            return Side(self.centre[0]), Side(self.centre[1])
        return self._centre_side(self.blocks.across), self._centre_side(self.blocks.down)

    def _centre_side(self, count: int) -> Side:
        """So many blocks in a line, with the sashing between them, and outside them too if it goes all round. On point
        neighbours in a line are a block and a strip apart each way, and so is the middle of the first corner from that
        of the last where the sashing goes all round; else the line ends at the points of its blocks."""
        assert self.blocks
        wide = self.sashing.width if self.sashing else Fraction(0)
        strips = count + 1 if self.sashing and self.sashing.outer else count - 1
        if self.blocks.on_point:
            between = count if self.sashing and self.sashing.outer else strips
            return Side(2 * self.seam, count * self.blocks.size + between * wide)
        return Side(count * self.blocks.size + strips * wide + 2 * self.seam)

    def needed(self) -> dict[str, list[Needed]]:
        """The pieces needed of each cloth, by its name. A part with a piece that no strip of it holds is left out."""
        found: dict[str, list[Needed]] = {}
        for fabric, pieces in self._needed_by_part():
            if all(min(need.width, need.length) <= self._length(fabric.usable) for need in pieces):
                found.setdefault(fabric.name, []).extend(need for need in pieces if need.number)
        return {name: pieces for name, pieces in found.items() if pieces}

    def _needed_by_part(self) -> Iterator[tuple[Fabric, list[Needed]]]:
        if self.blocks:
            for size, number in self._triangle_squares(self.blocks):
                yield self.blocks.part.fabric, [self._square("triangles", self.blocks.part, size, number)]
        if self.blocks and self.sashing:
            yield self.sashing.part.fabric, list(self._sashing_strips(self.blocks, self.sashing))
            if self.sashing.cornerstones:
                wide, number = self.sashing.width + 2 * self.seam, self._cornerstones(self.blocks, self.sashing)
                yield self.sashing.part.corner, [self._square("cornerstones", self.sashing.part, wide, number)]
        for number, (border, width, length) in enumerate(self.rounds, start=1):
            use = f"border {number}"
            yield border.part.fabric, list(self._border_strips(use, border, width, length))
            if border.corners == "cornerstones":
                corners = self._square(f"{use}'s cornerstones", border.part, border.cut, 4)
                yield border.part.corner, [corners]

    def _triangle_squares(self, blocks: Blocks) -> Iterator[tuple[Fraction, int]]:
        """A square cut corner to corner for triangles: twice at the sides of blocks on point, whose long side is a
        block's diagonal, and once at the corners, half of it, and once round the inner square of a block. A triangle at
        the side lies between two blocks that are a strip apart each way: where no strip goes round, its short sides
        reach over the ends of these. The points need 2 + 2 root 2 seams where it is cut twice and 2 + root 2 seams
        where it is cut once."""
        finest, seam = self.units.finest, self.seam
        twice, once = (Side(2 * seam, seams * seam).up_to(finest) for seams in (2, 1))
        if blocks.on_point:
            sides = 2 * (blocks.across - 1) + 2 * (blocks.down - 1)
            past = self.sashing.width if self.sashing and not self.sashing.outer else 0
            yield Side(twice, blocks.size + past).up_to(finest), -(-sides // 4)
            yield Side(once, blocks.size / 2).up_to(finest), 2
        if blocks.inner:
            yield Side(once, (blocks.inner - 2 * seam) / 2).up_to(finest), 2 * self._number_of(blocks)

    def _number_of(self, blocks: Blocks) -> int:
        between = (blocks.across - 1) * (blocks.down - 1) if blocks.on_point else 0
        return blocks.across * blocks.down + between

    def _sashing_strips(self, blocks: Blocks, sashing: Sashing) -> Iterator[Needed]:
        """Short strips beside the blocks of a row; between rows short ones with cornerstones, or long ones."""
        wide, short = sashing.width + 2 * self.seam, blocks.size + 2 * self.seam
        if blocks.on_point:
            for side, number in self._strips_on_point(blocks, sashing).items():
                yield self._strip("sashing", sashing.part, wide, side, number)
            return
        more = 1 if sashing.outer else -1
        beside, rows = (blocks.across + more) * blocks.down, blocks.down + more
        yield self._strip("sashing", sashing.part, wide, Side(short), beside, upright=True)
        if sashing.cornerstones:
            yield self._strip("sashing", sashing.part, wide, Side(short), rows * blocks.across, upright=False)
        else:
            yield self._strip("sashing", sashing.part, wide, self._centre_side(blocks.across), rows, upright=False)

    def _strips_on_point(self, blocks: Blocks, sashing: Sashing) -> Counter[Side]:
        """A block has a strip at each of its four sides where the sashing goes all round, and else where another block
        lies beside it. Without cornerstones, those in one line between two diagonal rows are one strip. It runs from
        block to block, or all round as far as the raw edge of the top: that crosses it at 45 degrees, the finished edge
        in the middle of where a cornerstone would be, so that its raw side is half a strip and a seam longer at each
        end, and the seam at the edge takes its diagonal more."""
        size, wide, seam = blocks.size, sashing.width, self.seam
        sides = Counter({side: len(rows) for side, rows in self._sides_on_point(blocks).items()})
        if not sashing.outer:
            sides = Counter({side: count for side, count in sides.items() if count == 2})
        within = sum(side[2] == "within" for side in sides)
        if sashing.cornerstones:
            return Counter({Side(size + 2 * seam): len(sides)})
        found = Counter({Side(size + 2 * seam): within})
        lines = Counter(line for line, _, kind in sides if kind == "between")
        for count in lines.values():
            plain, root = count * size + (count - 1) * wide + 2 * seam, Fraction(0)
            if sashing.outer:
                plain, root = count * (size + wide) + 2 * (wide / 2 + seam), 2 * seam
            found[Side(plain, root)] += 1
        return found

    def _sides_on_point(self, blocks: Blocks) -> dict[tuple[int, int, str], list[tuple[int, int]]]:
        """The sides of all blocks with the blocks that lie at them. A block's middle lies at x, y in half diagonals; it
        is in the diagonal row x + y, at the place x - y of it. Of each side, the row or the place between which it
        lies, the other of the two, and its kind: it lies within a row or between two."""
        places = [(x, y) for x in range(1, 2 * blocks.across, 2) for y in range(1, 2 * blocks.down, 2)]
        places += [(x, y) for x in range(2, 2 * blocks.across, 2) for y in range(2, 2 * blocks.down, 2)]
        sides: dict[tuple[int, int, str], list[tuple[int, int]]] = {}
        for x, y in places:
            row, place = x + y, x - y
            for step in (-1, 1):
                sides.setdefault((row + step, place, "between"), []).append((x, y))
                sides.setdefault((place + step, row, "within"), []).append((x, y))
        return sides

    def _cornerstones(self, blocks: Blocks, sashing: Sashing) -> int:
        """One at each corner of a block where the sashing goes all round, and else where four blocks meet."""
        if blocks.on_point:
            corners: Counter[tuple[int, int]] = Counter()
            for x, y in {block for blocks_there in self._sides_on_point(blocks).values() for block in blocks_there}:
                corners.update([(x - 1, y), (x + 1, y), (x, y - 1), (x, y + 1)])
            return len(corners) if sashing.outer else sum(number == 4 for number in corners.values())
        more = 1 if sashing.outer else -1
        return (blocks.across + more) * (blocks.down + more)

    def _border_strips(self, use: str, border: Border, width: Side, length: Side) -> Iterator[Needed]:
        """Two at the sides and two at the ends: as long as what they are sewn to. Of a butted border the second pair is
        sewn to the first too; a mitred strip passes both corners by its width, with some more to hold."""
        grown = 2 * (border.cut - 2 * self.seam)
        past = 2 * border.cut + self.units.mitre_extra
        sides, ends = {
            "cornerstones": (length, width),
            "mitred": (length.plus(past), width.plus(past)),
            "butted": (length, width.plus(grown)) if border.first == "sides" else (length.plus(grown), width),
        }[border.corners]
        for side in (sides, ends):
            yield self._strip(use, border.part, border.cut, side, 2, upright=side is sides)

    def _strip(
        self, use: str, part: Part, width: Fraction, side: Side, number: int, upright: bool | None = None
    ) -> Needed:
        """A strip that stands `upright` in the top or lies level; None for one that slants. On cloth that runs one way
        an upright strip lies along it and a level one across, so that both hang the same way; or each along it, where
        its print is to run along the strip. Slanting strips do so only then."""
        along, across = part.strips != "crosswise", part.strips != "lengthwise"
        prints_along = part.print == "along" and part.fabric.one_way == "directional"
        if part.fabric.one_way and (prints_along or upright is not None):
            along = prints_along or bool(upright)
            across = not along
        join = None if not across else width if part.join == "diagonal" else 2 * self.seam
        length = self._length(side.up_to(self.units.finest))
        lost = None if join is None else self._length(join)
        return Needed(use, self._length(width), length, number, along, across, lost)

    def _square(self, use: str, part: Part, size: Fraction, number: int) -> Needed:
        return Needed(use, self._length(size), self._length(size), number, True, True, None)

    def _length(self, amount: Fraction) -> Length:
        return Length.of(amount, self.units.unit)

    @property
    def cloths(self) -> dict[str, Cloth]:
        """The terms of each of its cloths, by its name."""
        return {name: self._cloth(fabric) for name, fabric in self.fabrics.items()}

    @property
    def fabrics(self) -> dict[str, Fabric]:
        """Each of its cloths by its name."""
        parts = [each.part for each in (self.blocks, self.sashing, *self.borders) if each]
        return {fabric.name: fabric for part in parts for fabric in (part.fabric, part.corner)}

    def _cloth(self, fabric: Fabric) -> Cloth:
        return Cloth(
            self._length(fabric.usable),
            Fraction(fabric.shrink_along, 100),
            self._length(fabric.straighten),
            self._length(self.units.shortest),
        )


def _number(amount: Fraction) -> str:
    """Write a number that has few decimals."""
    return f"{float(amount):.4f}".rstrip("0").rstrip(".")


def _fabric_text(key: str, fabric: Fabric, units: Units) -> str:
    return (
        f'{key} = {{ preset = "{units.preset}", name = "{fabric.name}", width = "{_number(fabric.width)}", '
        f'selvage = "{_number(fabric.selvage)}", straighten = "{_number(fabric.straighten)}", '
        f'shrink_across = "{fabric.shrink_across} %", shrink_along = "{fabric.shrink_along} %"'
        + (f", {fabric.one_way} = true" if fabric.one_way else "")
        + " }\n"
    )


def _part_text(part: Part, units: Units, corners: bool) -> str:
    text = _fabric_text("fabric", part.fabric, units) + f'strips = "{part.strips}"\njoin = "{part.join}"\n'
    return text + (_fabric_text("corner_fabric", part.corner, units) if corners else "")


def _blocks_text(blocks: Blocks, units: Units) -> str:
    text = f"[top.blocks]\nacross = {blocks.across}\ndown = {blocks.down}\n"
    text += f'inner = "{_number(blocks.inner)}"\n' if blocks.inner else f'size = "{_number(blocks.size)}"\n'
    return (
        text + f'setting = "{"on-point" if blocks.on_point else "straight"}"\n' + _part_text(blocks.part, units, False)
    )


def _sashing_text(sashing: Sashing, units: Units) -> str:
    flags = f"outer = {str(sashing.outer).lower()}\ncornerstones = {str(sashing.cornerstones).lower()}\n"
    flags += f'print = "{sashing.part.print}"\n'
    return f'[top.sashing]\nwidth = "{_number(sashing.width)}"\n{flags}' + _part_text(
        sashing.part, units, sashing.cornerstones
    )


def _border_text(border: Border, units: Units) -> str:
    first = f'first = "{border.first}"\n' if border.corners == "butted" else ""
    first += f'print = "{border.part.print}"\n'
    return f'[[top.borders]]\ncut = "{_number(border.cut)}"\ncorners = "{border.corners}"\n{first}' + _part_text(
        border.part, units, border.corners == "cornerstones"
    )


# --- random designs --------------------------------------------------------------------------------------------------

COLOURS = ("cream", "red", "teal")


def random_top(pick: Pick, on_point: bool) -> Top:
    """A design with blocks of this setting, or a straight one round a centre, of one cloth or of several."""
    units = pick((INCH, METRIC))
    fabrics = [_random_fabric(pick, units, name) for name in COLOURS[: pick((1, 1, 2, 3))]]
    seam = Fraction(pick(units.seams))
    blocks = _random_blocks(pick, units, fabrics, seam, on_point) if on_point or pick((True, True, False)) else None
    sashing = _random_sashing(pick, units, fabrics, blocks) if blocks and pick((True, False)) else None
    number = pick((0, 1, 2, 3) if blocks else (1, 2, 3, 4))
    centre = (Fraction(pick(units.centres)), Fraction(pick(units.centres)))
    borders = tuple(_random_border(pick, units, fabrics) for _ in range(number))
    return Top(units, seam, blocks, centre, sashing, borders)


def _random_fabric(pick: Pick, units: Units, name: str) -> Fabric:
    width, selvage = pick(((44, 2), (44, 2), (42, 1), (60, Fraction(1, 2))) if units is INCH else ((110, 4), (150, 1)))
    shrink = pick(((0, 0), (0, 0), (3, 4)))
    one_way = pick(("", "", "", "nap", "directional"))
    return Fabric(name, Fraction(width), Fraction(selvage), Fraction(1 if units is INCH else 3), *shrink, one_way)


def _random_part(pick: Pick, fabrics: Sequence[Fabric]) -> Part:
    strips = pick(("any", "any", "crosswise", "lengthwise"))
    return Part(pick(fabrics), pick(fabrics), strips, pick(("diagonal", "straight")), pick(("up", "along")))


def _random_blocks(pick: Pick, units: Units, fabrics: Sequence[Fabric], seam: Fraction, on_point: bool) -> Blocks:
    """A block with an inner square is as large as its diagonal, to the nearest step a person can measure."""
    counts = range(1, 4 if on_point else 6)
    part, across, down = _random_part(pick, fabrics), pick(counts), pick(counts)
    if pick((True, True, True, False)):
        return Blocks(part, across, down, Fraction(pick(units.sizes)), None, on_point)
    inner, half = Fraction(pick(units.inners)), units.finest / 2
    size = Side(-half, inner - 2 * seam).up_to(units.finest)
    return Blocks(part, across, down, size, inner, on_point)


def _random_sashing(pick: Pick, units: Units, fabrics: Sequence[Fabric], blocks: Blocks) -> Sashing:
    """Of a single row of blocks on point none lies beside another, so that its sashing goes all round."""
    outer, cornerstones = pick((True, False)), pick((True, False))
    outer = outer or (blocks.on_point and min(blocks.across, blocks.down) == 1)
    return Sashing(_random_part(pick, fabrics), Fraction(pick(units.sashes)), outer, cornerstones)


def _random_border(pick: Pick, units: Units, fabrics: Sequence[Fabric]) -> Border:
    corners = pick(("butted", "cornerstones", "mitred"))
    first = pick(("sides", "top-and-bottom"))
    return Border(_random_part(pick, fabrics), Fraction(pick(units.cuts)), corners, first)
