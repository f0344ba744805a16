"""The cloth of a pieced top: strips across the cloth, joined where they must be, or pieces along it.

Each cloth is planned as a whole. Every part that may be cut either way is weighed both ways with the others, and
what buys least is taken. Lengths go up to what a person can measure, so that all still fits; a strip is as wide as it
is asked.
"""

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import PieceCloth, PiecedTop
from finishcalc.plans.cloth import CutLength, join_allowance, length_to_buy, unmatched_cut_lengths, usable_width_of
from finishcalc.plans.pieced.pieces import Pieces, TopPieces
from finishcalc.plans.pieced.strips import (
    Alike,
    Along,
    Bit,
    Column,
    Strips,
    Wanted,
    laid_beside,
    lengths_along,
    strips_across,
)

MOST_WEIGHED = 6
"""Parts of one cloth that are weighed together both ways; each further one is weighed alone."""


class Part(NamedTuple):
    """What is cut for one part of the top, and from what. `use` names the part: "sashing", "border 2"."""

    use: str
    pieces: tuple[Pieces, ...]
    cloth: PieceCloth


class TopCloth(NamedTuple):
    """How one cloth of the top is cut: first what lies along it, then the strips across it, the widest first."""

    fabric: Fabric
    uses: tuple[str, ...]
    priced_at: tuple[str, ...]
    along: tuple[Along, ...]
    across: tuple[Strips, ...]
    joins: int

    @property
    def cut_lengths(self) -> tuple[CutLength, ...]:
        """The lengths of cloth that may be cut apart."""
        strips = [each.width for each in self.across for _ in each.strips]
        return unmatched_cut_lengths(*(each.length for each in self.along), *strips)

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


def plan_top_cloths(top: PiecedTop, parts: Sequence[Part], shortest: Length, finest: Length) -> tuple[TopCloth, ...]:
    """One cutting for each cloth. What is wider than the cloth either way is left out: see `too_wide`."""
    groups: dict[Fabric, list[Part]] = {}
    for part in parts:
        if part.cloth.fabric and not too_wide(part):
            groups.setdefault(part.cloth.fabric, []).append(part)
    return tuple(_Cutting(fabric, group, top, shortest, finest).best() for fabric, group in groups.items())


def too_wide(part: Part) -> bool:
    """Whether a part has squares that no strip of its cloth holds."""
    if not part.cloth.fabric:
        return False
    usable = usable_width_of(part.cloth.fabric)
    return any(min(each.width, each.length) > usable for each in part.pieces)


class _Cut(NamedTuple):
    """One part cut one way: so many of each piece along the cloth, or, by the strips' width, so many of each bit of
    the strips across it, which elsewhere may lie in `ways`."""

    part: Part
    along: tuple[Alike[Column], ...]
    bits: tuple[tuple[Length, Alike[Bit]], ...]
    joins: int

    def wanted(self) -> Iterator[Wanted]:
        """What of it may lie beside longer pieces: a part that may be cut either way turns, but for what is joined."""
        turns = self.part.cloth.strips != "crosswise"
        for width, (bit, number) in self.bits:
            yield Wanted(width, bit, number, ("across", "along") if turns and not bit.joined else ("across",))


class _Cutting:
    """The ways to cut the parts that share a cloth."""

    def __init__(self, fabric: Fabric, parts: list[Part], top: PiecedTop, shortest: Length, finest: Length) -> None:
        self.fabric, self.parts, self.usable = fabric, parts, usable_width_of(fabric)
        self.seam, self.most_joins, self.shortest, self.finest = top.seam, top.most_joins, shortest, finest
        self._laid: dict[tuple[int, ...], tuple[Along, ...]] = {}
        self._strips: dict[tuple[Length, tuple[int, ...]], Strips] = {}

    def best(self) -> TopCloth:
        ways = [self.ways(part) for part in self.parts]
        free = sorted((n for n, each in enumerate(ways) if len(each) > 1), key=lambda n: -_area(self.parts[n]))
        for n in free[MOST_WEIGHED:]:
            ways[n] = (min(ways[n], key=lambda cut: self.weight(self.plain((cut,)))),)
        choices = [(self.plain(choice), choice) for choice in product(*ways)]
        best = min((plain for plain, _ in choices), key=self.weight)
        for plain, choice in choices:
            if plain.along and self.bought(plain.along[0].length) <= self.bought(best.cut_length):
                best = min(best, self.thrifty(plain, choice), key=self.weight)
        return best

    def bought(self, cut: Length) -> Length:
        return length_to_buy(self.fabric, cut)

    def weight(self, plan: TopCloth) -> tuple[Length, int, Length]:
        cut = plan.cut_length
        return self.bought(cut), plan.joins, cut

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
        return (self.along(part),) if most > self.most_joins else (across, self.along(part))

    def along(self, part: Part) -> _Cut:
        columns = ((Column(part.use, each.width, self.measured(each.length)), each.number) for each in part.pieces)
        return _Cut(part, tuple(columns), (), 0)

    def across(self, part: Part) -> _Cut:
        bits: list[tuple[Length, Alike[Bit]]] = []
        joins = 0
        for each in part.pieces:
            cut = list(self.bits(part, each))
            joins += (len(cut) - 1) * each.number
            bits += [(each.width, (bit, each.number)) for bit in cut]
        return _Cut(part, (), tuple(bits), joins)

    def join_allowance(self, width: Length, cloth: PieceCloth) -> Length:
        """Give the length that a join of strips of this cloth hides."""
        return join_allowance(cloth.join, width, self.seam)

    def joins(self, length: Length, width: Length, cloth: PieceCloth) -> int:
        if length <= self.usable:
            return 0
        return up((length - self.usable) / (self.usable - self.join_allowance(width, cloth)))

    def bits(self, part: Part, pieces: Pieces) -> Iterator[Bit]:
        """A piece as whole strips and what is left of it, which is never shorter than a piece may be."""
        whole = self.measured(pieces.length)
        joins = self.joins(whole, pieces.width, part.cloth)
        if not joins:
            yield Bit(part.use, whole, whole)
            return
        for _ in range(joins):
            yield Bit(part.use, self.usable, whole)
        rest = whole - (self.usable - self.join_allowance(pieces.width, part.cloth)) * joins
        yield Bit(part.use, min(max(self.measured(rest), self.shortest), self.usable), whole)

    def plain(self, cuts: Sequence[_Cut]) -> TopCloth:
        """The cutting with nothing taken from what is left beside long pieces."""
        uses = tuple(dict.fromkeys(cut.part.use for cut in cuts))
        prices = tuple(dict.fromkeys(cut.part.cloth.priced_at for cut in cuts))
        along, across = self.laid_along([cut for cut in cuts if cut.along]), self.laid_across(cuts)
        return TopCloth(self.fabric, uses, prices, along, across, sum(cut.joins for cut in cuts))

    def laid_along(self, cuts: Sequence[_Cut]) -> tuple[Along, ...]:
        """Pieces along the cloth. What the same cuts come to is worked out once, for many combinations share them; they
        live as long as this does."""
        key = tuple(map(id, cuts))
        if key not in self._laid:
            self._laid[key] = lengths_along([piece for cut in cuts for piece in cut.along], self.usable)
        return self._laid[key]

    def laid_across(self, cuts: Sequence[_Cut]) -> tuple[Strips, ...]:
        """Strips across the cloth, the widest first; of one width and the same cuts worked out once."""
        widths: dict[Length, list[_Cut]] = {}
        for cut in cuts:
            for width in dict(cut.bits):
                widths.setdefault(width, []).append(cut)
        return tuple(self.strips(width, widths[width]) for width in sorted(widths, reverse=True))

    def strips(self, width: Length, cuts: Sequence[_Cut]) -> Strips:
        """Strips of one width across the cloth."""
        key = (width, tuple(map(id, cuts)))
        if key not in self._strips:
            bits = [bit for cut in cuts for wide, bit in cut.bits if wide == width]
            self._strips[key] = strips_across(width, bits, self.usable)
        return self._strips[key]

    def thrifty(self, plain: TopCloth, cuts: Sequence[_Cut]) -> TopCloth:
        """The longest pieces along the cloth; all others first from what is left beside them, then as they would be."""
        columns = [piece for cut in cuts for piece in cut.along]
        half = max(piece.length for piece, _ in columns) / 2
        wanted = [each for cut in cuts for each in cut.wanted()]
        wanted += [_short(*each) for each in columns if each[0].length <= half]
        rows = []
        for row in lengths_along([each for each in columns if each[0].length > half], self.usable):
            laid, wanted = laid_beside(row, self.usable, wanted)
            rows.append(laid)
        rows += lengths_along([_column(each) for each in wanted if "across" not in each.ways], self.usable)
        return plain._replace(
            along=tuple(rows), across=self.across_of([each for each in wanted if "across" in each.ways])
        )

    def across_of(self, wanted: Sequence[Wanted]) -> tuple[Strips, ...]:
        """Strips across the cloth for what is still wanted, the widest first."""
        bits: dict[Length, list[Alike[Bit]]] = {}
        for each in wanted:
            bits.setdefault(each.width, []).append((each.bit, each.number))
        return tuple(strips_across(width, bits[width], self.usable) for width in sorted(bits, reverse=True))


def _short(piece: Column, number: int) -> Wanted:
    """A piece along the cloth that may lie in a column with others."""
    return Wanted(piece.width, Bit(piece.use, piece.length, piece.length), number, ("along",))


def _column(each: Wanted) -> Alike[Column]:
    return Column(each.bit.use, each.width, each.bit.length), each.number


def _area(part: Part) -> int:
    return sum(up((each.width * each.length).mm2) * each.number for each in part.pieces)
