"""The parts of a pieced top that are cut from cloth, and the grains each may be cut on.

A part's long pieces are cut along the cloth in one piece, or across it as strips that are joined where they are longer
than the cloth is wide. Lengths go up to what a person can measure, so that all still fits; a strip is as wide as it is
asked.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up, up_to_step
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import PieceCloth, PiecedTop, StripGrain
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.joined_strips import join_allowance, strips_needed
from finishcalc.plans.pieced.pieces import Pieces, TopPieces
from finishcalc.plans.pieced.strips import Alike, Grain, LengthwisePiece, StripDemand, StripPiece


class TopPart(NamedTuple):
    """The pieces of one part of the top, and the cloth they come from. `use` names it: "sashing", "border 2"."""

    use: str
    pieces: tuple[Pieces, ...]
    cloth: PieceCloth

    @property
    def squares(self) -> bool:
        """True where every piece is a square, which has no grain to choose."""
        return all(each.width == each.length for each in self.pieces)

    @property
    def one_way(self) -> Fabric | None:
        """Its cloth where that has a direction."""
        return self.cloth.fabric if self.cloth.fabric and self.cloth.fabric.is_one_way else None

    @property
    def strips(self) -> StripGrain:
        """The grain of its long pieces: that of the direction they must have, else the one that is asked for."""
        run = self.pieces[0].run
        return self.cloth.strips if run == "any" else "lengthwise" if run == "along" else "crosswise"

    @property
    def area(self) -> int:
        """The cloth in its pieces, in whole square millimetres."""
        return sum(up((each.width * each.length).mm2) * each.number for each in self.pieces)


@dataclass(frozen=True, eq=False, slots=True)
class PartCut:
    """One part cut on one grain: pieces along the cloth, or demands for strips across it, with the joins of these.

    Each is made once and equal to itself alone, so that it is a quick key for what is worked out from it.
    """

    part: TopPart
    lengthwise: tuple[Alike[LengthwisePiece], ...]
    crosswise: tuple[StripDemand, ...]
    joins: int


class CuttingRules(NamedTuple):
    """The limits of cutting: the `finest` step a person can measure, and the `shortest` part of a joined piece."""

    seam: Length
    most_joins: int
    shortest: Length
    finest: Length


def top_parts(top: PiecedTop, pieces: TopPieces) -> Iterator[TopPart]:
    """Everything that is cut from cloth, part by part in the order it is sewn."""
    if top.blocks:
        for patches in pieces.patches:
            yield TopPart("blocks", (patches.pieces,), top.blocks.patch_cloth(patches.patch))
        if pieces.plain:
            yield TopPart(top.blocks.plain_use, (pieces.plain,), top.blocks.plain_cloth)
        for each in pieces.triangles:
            yield TopPart("triangles", (Pieces(each.square, each.square, each.squares),), top.blocks.cloth)
    if top.sashing:
        if pieces.sashing:
            yield from _by_run(TopPart("sashing", pieces.sashing, top.sashing.cloth))
        if pieces.cornerstones:
            yield TopPart("cornerstones", (pieces.cornerstones,), top.sashing.corner_cloth)
    for number, sewn in enumerate(pieces.rounds, start=1):
        yield from _by_run(TopPart(f"border {number}", sewn.strips, sewn.border.cloth))
        if sewn.corner_squares:
            corners = Pieces(sewn.border.cut, sewn.border.cut, sewn.corner_squares)
            yield TopPart(f"border {number}", (corners,), sewn.border.corner_cloth)


def _by_run(part: TopPart) -> Iterator[TopPart]:
    """Divide a part whose pieces run different ways on the cloth."""
    for run in dict.fromkeys(each.run for each in part.pieces):
        yield part._replace(pieces=tuple(each for each in part.pieces if each.run == run))


def too_wide(part: TopPart) -> bool:
    """True where a part has squares that no strip of its cloth holds."""
    if not part.cloth.fabric:
        return False
    usable = usable_width_of(part.cloth.fabric)
    return any(min(each.width, each.length) > usable for each in part.pieces)


def part_cuts(part: TopPart, usable: Length, rules: CuttingRules) -> tuple[PartCut, ...]:
    """Cut a part across the cloth, along it, or either way where it is free and does not take too many joins."""
    if part.strips == "lengthwise" and not part.squares:
        return (_lengthwise(part, rules),)
    crosswise = _crosswise(part, usable, rules)
    if part.squares or part.strips == "crosswise":
        return (crosswise,)
    most = max(_strips_for(part, each, usable, rules) - 1 for each in part.pieces)
    lengthwise = _lengthwise(part, rules)
    return (lengthwise,) if most > rules.most_joins else (crosswise, lengthwise)


def _lengthwise(part: TopPart, rules: CuttingRules) -> PartCut:
    pieces = tuple(
        (LengthwisePiece(part.use, each.width, up_to_step(each.length, rules.finest)), each.number)
        for each in part.pieces
    )
    return PartCut(part, pieces, (), joins=0)


def _crosswise(part: TopPart, usable: Length, rules: CuttingRules) -> PartCut:
    demands: list[StripDemand] = []
    joins = 0
    for each in part.pieces:
        strip_pieces = list(_strip_pieces(part, each, usable, rules))
        joins += (len(strip_pieces) - 1) * each.number
        demands += [StripDemand(each.width, one, each.number, _grains(part, one)) for one in strip_pieces]
    return PartCut(part, (), tuple(demands), joins)


def _grains(part: TopPart, piece: StripPiece) -> tuple[Grain, ...]:
    """A piece may turn in an offcut, unless its part may not, or it is joined to pieces whose grain it must match."""
    return ("across",) if part.strips == "crosswise" or piece.joined else ("across", "along")


def _strip_pieces(part: TopPart, pieces: Pieces, usable: Length, rules: CuttingRules) -> Iterator[StripPiece]:
    """Split a piece into whole strips and what is left of it, which is never shorter than a joined part may be."""
    length = up_to_step(pieces.length, rules.finest)
    count = _strips_for(part, pieces, usable, rules)
    if count == 1:
        yield StripPiece(part.use, length, length)
        return
    for _ in range(count - 1):
        yield StripPiece(part.use, usable, length)
    allowance = join_allowance(part.cloth.join, pieces.width, rules.seam)
    left = up_to_step(length - (usable - allowance) * (count - 1), rules.finest)
    yield StripPiece(part.use, min(max(left, rules.shortest), usable), length)


def _strips_for(part: TopPart, pieces: Pieces, usable: Length, rules: CuttingRules) -> int:
    """Count the strips across the cloth that one piece is joined from."""
    length = up_to_step(pieces.length, rules.finest)
    if length <= usable:
        return 1
    return strips_needed(length, usable, join_allowance(part.cloth.join, pieces.width, rules.seam))
