"""The pieces to cut for blocks, sashing, setting and borders of a pieced top, and its size after every round.

A strip between blocks is as long as a block is cut; `on_point.py` has those between diagonal rows. A butted border's
first pair is as long as the top before it and its second as the top with the first; cornerstones leave both pairs as
they were; mitred strips run past the corner. All of this is common practice.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.bounds import ROOT_2_UP
from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.pieced import (
    Blocks,
    Border,
    Patch,
    PieceCloth,
    PiecedTop,
    Print,
    Sashing,
    once_extra,
    twice_extra,
)
from finishcalc.plans.pieced.on_point import long_strips, places_between, short_strips

Run = Literal["any", "along", "across"]


class Pieces(NamedTuple):
    """Pieces of one cut size. `run` says which way their length runs on the cloth: `along` it, parallel to the selvage,
    or `across` it, where the cloth has a direction, and else any way."""

    width: Length
    length: Length
    number: int
    run: Run = "any"


class Triangles(NamedTuple):
    """Triangles from squares that are cut from corner to corner, once or twice: at the sides or corners of blocks on
    point, or round the inner square of a block."""

    use: Literal["side", "corner", "block"]
    square: Length
    squares: int
    number: int

    @property
    def cuts(self) -> int:
        """The cuts from corner to corner: two put a triangle's longest side on the grain, one its two short sides."""
        return 2 if self.use == "side" else 1


class Patches(NamedTuple):
    """The patches of one kind in all pieced blocks, and the pieces to cut for them: the squares, of triangles."""

    patch: Patch
    number: int
    pieces: Pieces


class Round(NamedTuple):
    """A border: its two pairs of strips in the order they are sewn, and the size before and after it."""

    border: Border
    strips: tuple[Pieces, Pieces]
    corner_squares: int
    before: Size
    after: Size


class TopPieces(NamedTuple):
    """Everything that is cut for a pieced top; of its pieced blocks, the patches that are named. `block` is the size
    blocks are cut or trimmed to."""

    block: Length | None
    plain: Pieces | None
    patches: tuple[Patches, ...]
    sashing: tuple[Pieces, ...]
    cornerstones: Pieces | None
    triangles: tuple[Triangles, ...]
    rounds: tuple[Round, ...]


def top_pieces(top: PiecedTop, finest: Length) -> TopPieces:
    """Work out what to cut. Squares for triangles go up to the `finest` step a person can measure, and are trimmed."""
    rounds = tuple(_round(top, *each) for each in top.rounds)
    if not top.blocks:
        return TopPieces(None, None, (), (), None, (), rounds)
    block, plain = top.blocks.size + top.seam * 2, top.blocks.plain_number
    return TopPieces(
        block,
        Pieces(block, block, plain) if plain else None,
        tuple(_patches(top.blocks, patch) for patch in top.blocks.patches),
        tuple(pieces for pieces in _sashing(top, top.blocks, top.sashing) if pieces.number) if top.sashing else (),
        _cornerstones(top, top.blocks, top.sashing) if top.sashing else None,
        tuple(each for each in _triangles(top.blocks, top.sashing, top.seam, finest) if each.number),
        rounds,
    )


def _patches(blocks: Blocks, patch: Patch) -> Patches:
    """Count the patches of all pieced blocks together, so that no block wastes a part of a square. The direction of
    their cloth runs down their `length`: they are cut from strips across the cloth that are as wide as that."""
    number, fabric = patch.number * blocks.pieced_number, patch.fabric.wanted
    pieces = Pieces(min(patch.size), max(patch.size), -(-number // patch.from_one))
    if fabric and fabric.is_one_way and pieces.width != pieces.length:
        pieces = Pieces(patch.size.length, patch.size.width, pieces.number, "across")
    return Patches(patch, number, pieces)


def _runs(cloth: PieceCloth, print_way: Print) -> tuple[Run, Run]:
    """The ways that upright strips and level ones run on the cloth: with a print or a pile that stays upright, the
    upright strips along it and the level ones across; with a print along each strip, both along it."""
    if not cloth.fabric or not cloth.fabric.is_one_way:
        return "any", "any"
    return "along", "along" if print_way == "along" and not cloth.fabric.nap else "across"


def _sashing(top: PiecedTop, blocks: Blocks, sashing: Sashing) -> Iterator[Pieces]:
    """Cut short strips between the blocks of a row; between rows, short ones with cornerstones, or long ones."""
    across, down, round_all = blocks.across, blocks.down, 1 if sashing.outer else -1
    wide, short = sashing.width + top.seam * 2, blocks.size + top.seam * 2
    upright, level = _runs(sashing.cloth, sashing.print)
    if blocks.setting == "on-point":
        yield from _sashing_on_point(blocks, sashing, top.seam, upright if upright == level else "any")
        return
    beside, between = (across + round_all) * down, down + round_all
    if sashing.cornerstones and upright == level:
        yield Pieces(wide, short, beside + across * between, upright)
    elif sashing.cornerstones:
        yield Pieces(wide, short, beside, upright)
        yield Pieces(wide, short, across * between, level)
    else:
        yield Pieces(wide, short, beside, upright)
        yield Pieces(wide, top.centre_size.width, between, level)


def _sashing_on_point(blocks: Blocks, sashing: Sashing, seam: Length, run: Run) -> Iterator[Pieces]:
    """Cut short strips within the diagonal rows; between rows, short ones with cornerstones, or long ones."""
    wide, short = sashing.width + seam * 2, blocks.size + seam * 2
    within = short_strips(blocks, sashing.outer)
    if sashing.cornerstones:
        yield Pieces(wide, short, within + sum(map(len, places_between(blocks, sashing.outer))), run)
        return
    between = long_strips(blocks, sashing, seam)
    yield Pieces(wide, short, within + sum(strip.number for strip in between if strip.length == short), run)
    yield from (Pieces(wide, strip.length, strip.number, run) for strip in between if strip.length != short)


def _cornerstones(top: PiecedTop, blocks: Blocks, sashing: Sashing) -> Pieces | None:
    """Cut one wherever four strips meet, and at the edge of sashing that goes all round. At the edge of blocks on
    point, they are trimmed to half once the top is sewn."""
    across, down, round_all = blocks.across, blocks.down, 1 if sashing.outer else -1
    side = sashing.width + top.seam * 2
    number = (across + round_all) * (down + round_all)
    if blocks.setting == "on-point":
        number = sum(len(places) + round_all for places in places_between(blocks, sashing.outer))
    return Pieces(side, side, number) if sashing.cornerstones and number else None


def _triangles(blocks: Blocks, sashing: Sashing | None, seam: Length, finest: Length) -> Iterator[Triangles]:
    """Setting triangles of blocks on point, and the triangles that frame an inner square (derived)."""
    if blocks.setting == "on-point":
        sides = 2 * (blocks.across - 1) + 2 * (blocks.down - 1)
        longest = Length((blocks.size + beside_block(sashing)).mm * ROOT_2_UP)
        yield Triangles("side", up_to_step(longest + twice_extra(seam, finest), finest), -(-sides // 4), sides)
        half = Length(blocks.size.mm * ROOT_2_UP / 2)
        yield Triangles("corner", up_to_step(half + once_extra(seam, finest), finest), 2, 4)
    if blocks.inner:
        framed = Length((blocks.inner - seam * 2).mm * ROOT_2_UP / 2)
        square = up_to_step(framed + once_extra(seam, finest), finest)
        yield Triangles("block", square, 2 * blocks.pieced_number, 4 * blocks.pieced_number)


def beside_block(sashing: Sashing | None) -> Length:
    """Measure how far a side triangle reaches past its block, over the end of a strip: sashing that goes all round
    parts the two."""
    return sashing.width if sashing and not sashing.outer else ZERO


def _round(top: PiecedTop, border: Border, before: Size, after: Size) -> Round:
    """Cut two pairs of strips, in the order they are sewn."""
    sides, ends = before.length, before.width
    if border.corners == "mitred":
        past = border.cut * 2 + top.mitre_extra + top.matching(border)
        sides, ends = sides + past, ends + past
    elif border.corners == "butted" and border.first == "sides":
        ends = after.width
    elif border.corners == "butted":
        sides = after.length
    upright, level = _runs(border.cloth, border.print)
    pairs = Pieces(border.cut, sides, 2, upright), Pieces(border.cut, ends, 2, level)
    ends_first = border.corners == "butted" and border.first == "top-and-bottom"
    squares = 4 if border.corners == "cornerstones" else 0
    return Round(border, (pairs[1], pairs[0]) if ends_first else pairs, squares, before, after)


def past_points(blocks: Blocks, seam: Length) -> Length:
    """Measure how far a trimmed block reaches past the points of its inner square."""
    if not blocks.inner:
        return seam
    diagonal = Length((blocks.inner - seam * 2).mm * ROOT_2_UP)
    return (blocks.size + seam * 2 - diagonal) * Fraction(1, 2)
