"""The cloth of a pieced top: strips across the cloth, joined where they must be, or pieces along it.

Each cloth is planned as a whole. Every part that may be cut either way is weighed both ways with the others, and
what buys least is taken. Lengths go up to what a person can measure, so that all still fits; a strip is as wide as it
is asked.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import product
from typing import NamedTuple, TypeVar

from finishcalc.materials import Fabric
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.pieced_top import PieceCloth, PiecedTop
from finishcalc.plans.cloth import Stretch, length_to_buy, plain_stretches, usable_width
from finishcalc.plans.pieced import Pieces, TopPieces

Item = TypeVar("Item")
Alike = tuple[Item, int]
"""So many of one thing."""
Column = tuple[str, Length, Length]
"""A piece cut along the cloth: its use, width and length."""

MOST_JOINS = 1
"""Joins in a piece that is cut across the cloth, where it might as well be cut along it (common practice)."""
MOST_WEIGHED = 6
"""Parts of one cloth that are weighed together both ways; each further one is weighed alone."""


class Part(NamedTuple):
    """What is cut for one part of the top, and from what. `use` names the part: "sashing", "border 2"."""

    use: str
    pieces: tuple[Pieces, ...]
    cloth: PieceCloth


class Bit(NamedTuple):
    """A piece on a strip across the cloth, or a part of one: `of` is the whole piece's length."""

    use: str
    length: Length
    of: Length

    @property
    def joined(self) -> bool:
        """Whether it is sewn to another bit."""
        return self.length != self.of


class Across(NamedTuple):
    """Strips of one width across the cloth, each with the bits that are cut from it."""

    width: Length
    strips: tuple[tuple[Bit, ...], ...]


class Along(NamedTuple):
    """Pieces cut side by side along the cloth, from one stretch of it."""

    length: Length
    pieces: tuple[Column, ...]


class TopCloth(NamedTuple):
    """How one cloth of the top is cut: first what lies along it, then the strips across it, the widest first."""

    fabric: Fabric
    uses: tuple[str, ...]
    priced_at: tuple[str, ...]
    along: tuple[Along, ...]
    across: tuple[Across, ...]
    joins: int

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """The lengths of cloth that may be cut apart."""
        strips = [each.width for each in self.across for _ in each.strips]
        return plain_stretches(*(each.length for each in self.along), *strips)

    @property
    def cut_length(self) -> Length:
        """Along the washed cloth."""
        strips = (each.width * len(each.strips) for each in self.across)
        return sum((*(each.length for each in self.along), *strips), ZERO)


def parts_of(top: PiecedTop, pieces: TopPieces) -> Iterator[Part]:
    """Everything that is cut from cloth, part by part in the order it is sewn."""
    if top.blocks:
        for each in pieces.triangles:
            yield Part("triangles", (Pieces(each.square, each.square, each.squares),), top.blocks.cloth)
    if top.sashing:
        if pieces.sashing:
            yield Part("sashing", pieces.sashing, top.sashing.cloth)
        if pieces.cornerstones:
            yield Part("cornerstones", (pieces.cornerstones,), top.sashing.corner_cloth)
    for number, sewn in enumerate(pieces.rounds, start=1):
        yield Part(f"border {number}", sewn.strips, sewn.border.cloth)
        if sewn.corner_squares:
            corners = Pieces(sewn.border.cut, sewn.border.cut, sewn.corner_squares)
            yield Part(f"border {number}", (corners,), sewn.border.corner_cloth)


def plan_top_cloths(parts: Sequence[Part], seam: Length, shortest: Length, finest: Length) -> tuple[TopCloth, ...]:
    """One cutting for each cloth. What is wider than the cloth either way is left out: see `too_wide`."""
    groups: dict[Fabric, list[Part]] = {}
    for part in parts:
        if part.cloth.fabric and not too_wide(part):
            groups.setdefault(part.cloth.fabric, []).append(part)
    return tuple(_Cutting(fabric, group, seam, shortest, finest).best() for fabric, group in groups.items())


def too_wide(part: Part) -> bool:
    """Whether a part has squares that no strip of its cloth holds."""
    if not part.cloth.fabric:
        return False
    usable = usable_width(part.cloth.fabric)
    return any(min(each.width, each.length) > usable for each in part.pieces)


class _Cut(NamedTuple):
    """One part cut one way: so many of each piece along the cloth, or, by the strips' width, so many of each bit of
    the strips across it."""

    part: Part
    along: tuple[Alike[Column], ...]
    bits: tuple[tuple[Length, Alike[Bit]], ...]
    joins: int


class _Cutting:
    """The ways to cut the parts that share a cloth."""

    def __init__(self, fabric: Fabric, parts: list[Part], seam: Length, shortest: Length, finest: Length) -> None:
        self.fabric, self.parts, self.usable = fabric, parts, usable_width(fabric)
        self.seam, self.shortest, self.finest = seam, shortest, finest
        self._laid: dict[tuple[int, ...], tuple[Along, ...]] = {}
        self._strips: dict[tuple[Length, tuple[int, ...]], Across] = {}

    def best(self) -> TopCloth:
        ways = [self.ways(part) for part in self.parts]
        free = sorted((n for n, each in enumerate(ways) if len(each) > 1), key=lambda n: -_area(self.parts[n]))
        for n in free[MOST_WEIGHED:]:
            ways[n] = (min(ways[n], key=lambda cut: self.weight(self.cloth((cut,)))),)
        return min((self.cloth(choice) for choice in product(*ways)), key=self.weight)

    def weight(self, plan: TopCloth) -> tuple[Length, int, Length]:
        cut = plan.cut_length
        return length_to_buy(self.fabric, cut), plan.joins, cut

    def measured(self, length: Length) -> Length:
        return up_to_step(length, self.finest)

    def ways(self, part: Part) -> tuple[_Cut, ...]:
        """A part cut across the cloth, along it, or either way."""
        squares = all(each.width == each.length for each in part.pieces)
        if part.cloth.strips == "lengthwise" and not squares:
            return (self.along(part),)
        across = self.across(part)
        if squares or part.cloth.strips == "crosswise":
            return (across,)
        most = max(self.joins(self.measured(each.length), each.width, part.cloth) for each in part.pieces)
        return (self.along(part),) if most > MOST_JOINS else (across, self.along(part))

    def along(self, part: Part) -> _Cut:
        columns = (((part.use, each.width, self.measured(each.length)), each.number) for each in part.pieces)
        return _Cut(part, tuple(columns), (), 0)

    def across(self, part: Part) -> _Cut:
        bits: list[tuple[Length, Alike[Bit]]] = []
        joins = 0
        for each in part.pieces:
            cut = list(self.bits(part, each))
            joins += (len(cut) - 1) * each.number
            bits += [(each.width, (bit, each.number)) for bit in cut]
        return _Cut(part, (), tuple(bits), joins)

    def lost(self, width: Length, cloth: PieceCloth) -> Length:
        """What a join takes: the strip's width on the diagonal, two seam allowances straight (derived)."""
        return width if cloth.join == "diagonal" else self.seam * 2

    def joins(self, length: Length, width: Length, cloth: PieceCloth) -> int:
        if length <= self.usable:
            return 0
        return up((length - self.usable) / (self.usable - self.lost(width, cloth)))

    def bits(self, part: Part, pieces: Pieces) -> Iterator[Bit]:
        """A piece as whole strips and what is left of it, which is never shorter than a piece may be."""
        whole = self.measured(pieces.length)
        joins = self.joins(whole, pieces.width, part.cloth)
        if not joins:
            yield Bit(part.use, whole, whole)
            return
        for _ in range(joins):
            yield Bit(part.use, self.usable, whole)
        rest = whole - (self.usable - self.lost(pieces.width, part.cloth)) * joins
        yield Bit(part.use, min(max(self.measured(rest), self.shortest), self.usable), whole)

    def cloth(self, cuts: Sequence[_Cut]) -> TopCloth:
        uses = tuple(dict.fromkeys(cut.part.use for cut in cuts))
        prices = tuple(dict.fromkeys(cut.part.cloth.priced_at for cut in cuts))
        along = self.laid_along([cut for cut in cuts if cut.along])
        widths: dict[Length, list[_Cut]] = {}
        for cut in cuts:
            for width in dict(cut.bits):
                widths.setdefault(width, []).append(cut)
        across = tuple(self.strips(width, widths[width]) for width in sorted(widths, reverse=True))
        return TopCloth(self.fabric, uses, prices, along, across, sum(cut.joins for cut in cuts))

    def laid_along(self, cuts: Sequence[_Cut]) -> tuple[Along, ...]:
        """Pieces along the cloth. What the same cuts come to is worked out once, for many combinations share them; they
        live as long as this does."""
        key = tuple(map(id, cuts))
        if key not in self._laid:
            rows = _filled([piece for cut in cuts for piece in cut.along], self.usable, lambda piece: piece[1], _long)
            self._laid[key] = tuple(Along(row[0][2], tuple(row)) for row in rows)
        return self._laid[key]

    def strips(self, width: Length, cuts: Sequence[_Cut]) -> Across:
        """Strips of one width across the cloth, worked out once for the same cuts."""
        key = (width, tuple(map(id, cuts)))
        if key not in self._strips:
            bits = [bit for cut in cuts for wide, bit in cut.bits if wide == width]
            self._strips[key] = Across(width, tuple(map(tuple, _filled(bits, self.usable, _length, _length))))
        return self._strips[key]


def _area(part: Part) -> int:
    return sum(up((each.width * each.length).mm2) * each.number for each in part.pieces)


def _length(bit: Bit) -> Length:
    return bit.length


def _long(piece: Column) -> Length:
    return piece[2]


def _filled(
    pieces: Sequence[Alike[Item]], whole: Length, taken: Callable[[Item], Length], order: Callable[[Item], Length]
) -> list[list[Item]]:
    """The longest first, as many as have room in each place of a `whole` width in turn, then in new places. What
    is too long for any has one of its own."""
    places: list[list[Item]] = []
    room: list[Length] = []
    for piece, number in sorted(pieces, key=lambda alike: order(alike[0]), reverse=True):
        takes, place = taken(piece), 0
        while number:
            fresh = place == len(room)
            if fresh:
                places.append([])
                room.append(whole)
            fitting = max(min(number, int(room[place] / takes)), int(fresh))
            places[place] += [piece] * fitting
            room[place] -= takes * fitting
            number, place = number - fitting, place + 1
    return places
