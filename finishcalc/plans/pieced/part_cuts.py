"""The parts of a pieced top that are cut from cloth, and the grains each may be cut on.

A part's long pieces are cut along the cloth in one piece, or across it as strips that are joined where they are longer
than the cloth is wide. Lengths go up to what a person can measure, so that all still fits; a strip is as wide as it is
asked.
"""

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import PieceCloth, PiecedTop, StripGrain
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.cutting.layout import Wanted
from finishcalc.plans.cutting.ways import Way
from finishcalc.plans.joined_strips import join_allowance, strips_needed
from finishcalc.plans.pieced.pieces import Pieces, Run, TopPieces

RUNS: tuple[Run, ...] = ("along", "across")
"""The ways that the length of a piece may have to run on its cloth."""


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
    def is_directed(self) -> bool:
        """True where a direction of its cloth says which way its pieces lie on it."""
        return any(each.run != "any" for each in self.pieces)

    @property
    def turnable(self) -> "TopPart":
        """The same part of a cloth without a direction."""
        sides = ((min(each.width, each.length), max(each.width, each.length)) for each in self.pieces)
        numbers = (each.number for each in self.pieces)
        return self._replace(pieces=tuple(Pieces(*each, number) for each, number in zip(sides, numbers, strict=True)))


class CuttingRules(NamedTuple):
    """The limits of cutting: the `finest` step a person can measure, and the `shortest` part of a joined piece."""

    seam: Length
    most_joins: int | None
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
            yield TopPart("sashing", pieces.sashing, top.sashing.cloth)
        if pieces.cornerstones:
            yield TopPart("cornerstones", (pieces.cornerstones,), top.sashing.corner_cloth)
    for number, sewn in enumerate(pieces.rounds, start=1):
        yield TopPart(f"border {number}", sewn.strips, sewn.border.cloth)
        if sewn.corner_squares:
            corners = Pieces(sewn.border.cut, sewn.border.cut, sewn.corner_squares)
            yield TopPart(f"border {number}'s cornerstones", (corners,), sewn.border.corner_cloth)


def too_wide(part: TopPart) -> bool:
    """True where a part has pieces that its cloth does not hold the way they may lie."""
    if not part.cloth.fabric:
        return False
    usable = usable_width_of(part.cloth.fabric)
    return any((each.width if each.run == "along" else min(each.width, each.length)) > usable for each in part.pieces)


def part_ways(part: TopPart, usable: Length, rules: CuttingRules) -> tuple[Way, ...]:
    """Give the ways to cut a part. One whose long pieces no strip across the cloth holds is joined from several strips,
    or cut along the cloth; where all pieces fit either way, they may lie as they fit best. A direction of the cloth
    goes before all this."""
    if part.is_directed:
        return (_directed(part, usable, rules),)
    strips = part.cloth.strips
    if strips == "lengthwise" and not part.squares:
        return (_unjoined(part, usable, rules, "lengthwise"),)
    if strips == "crosswise" or part.squares or not _too_long(part, usable, rules):
        return (_joined(part, usable, rules, strips if strips != "lengthwise" else "any"),)
    most = max(_strips_for(part, each, usable, rules) - 1 for each in part.pieces)
    lengthwise, joined = _unjoined(part, usable, rules, "any"), _joined(part, usable, rules, "any")
    if rules.most_joins is not None and most > rules.most_joins:
        return (lengthwise,)
    return (lengthwise._replace(is_one_of_two=True), joined._replace(is_one_of_two=True))


def _directed(part: TopPart, usable: Length, rules: CuttingRules) -> Way:
    """Cut every piece the way that it must lie: along the cloth in one, or across it, joined where that is too long."""
    by_run = {run: part._replace(pieces=tuple(each for each in part.pieces if each.run == run)) for run in RUNS}
    along = _unjoined(by_run["along"], usable, rules, "lengthwise")
    across = _joined(by_run["across"], usable, rules, "crosswise")
    wanted = (each._replace(directed=each.width != each.length) for each in (*along.wanted, *across.wanted))
    return Way(part.use, part.cloth.strips, tuple(wanted), across.joins)


def _too_long(part: TopPart, usable: Length, rules: CuttingRules) -> bool:
    return any(_strips_for(part, each, usable, rules) > 1 for each in part.pieces)


def _unjoined(part: TopPart, usable: Length, rules: CuttingRules, strips: StripGrain) -> Way:
    """Cut every piece in one: along the cloth, or across it too where that is free and the piece is short enough."""
    wanted = []
    for each in part.pieces:
        length = up_to_step(each.length, rules.finest)
        free = each.run == "any" and length <= usable and (strips == "any" or each.width > usable)
        wanted.append(Wanted(part.use, each.width, length, each.number, True, free, length))
    return Way(part.use, "lengthwise", tuple(wanted), 0)


def _joined(part: TopPart, usable: Length, rules: CuttingRules, strips: StripGrain) -> Way:
    """Cut every piece across the cloth, from as many strips as it takes. A piece of one strip may turn where its part
    may; one that is joined keeps the grain of the others."""
    wanted: list[Wanted] = []
    joins = 0
    for each in part.pieces:
        lengths = list(_strip_lengths(part, each, usable, rules))
        joins += (len(lengths) - 1) * each.number
        whole = up_to_step(each.length, rules.finest)
        free = strips == "any" and len(lengths) == 1
        counts = Counter(lengths).items()
        wanted += [Wanted(part.use, each.width, one, n * each.number, free, True, whole) for one, n in counts]
    return Way(part.use, "crosswise", tuple(wanted), joins)


def _strip_lengths(part: TopPart, pieces: Pieces, usable: Length, rules: CuttingRules) -> Iterator[Length]:
    """Split a piece into whole strips and what is left of it, which is never shorter than a joined part may be."""
    length = up_to_step(pieces.length, rules.finest)
    count = _strips_for(part, pieces, usable, rules)
    if count == 1:
        yield length
        return
    yield from [usable] * (count - 1)
    allowance = join_allowance(part.cloth.join, pieces.width, rules.seam)
    left = up_to_step(length - (usable - allowance) * (count - 1), rules.finest)
    yield min(max(left, rules.shortest), usable)


def _strips_for(part: TopPart, pieces: Pieces, usable: Length, rules: CuttingRules) -> int:
    """Count the strips across the cloth that one piece is joined from."""
    length = up_to_step(pieces.length, rules.finest)
    if length <= usable:
        return 1
    return strips_needed(length, usable, join_allowance(part.cloth.join, pieces.width, rules.seam))
