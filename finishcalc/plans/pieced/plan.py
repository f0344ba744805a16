"""The plan of a pieced top: its pieces, the cloth they are cut from, and the arithmetic of its size."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.bounds import ROOT_2_UP, up
from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import Blocks, PiecedTop, Sashing, once_extra, twice_extra
from finishcalc.plans.cautions import Caution, blocking_caution, caution
from finishcalc.plans.cloth import usable_width_of
from finishcalc.plans.cutting.ways import Way
from finishcalc.plans.pieced.direction import direction_cautions
from finishcalc.plans.pieced.on_point import LongStrips, long_strips
from finishcalc.plans.pieced.part_cuts import CuttingRules, TopPart, part_ways, too_wide, top_parts
from finishcalc.plans.pieced.patches import PatchedBlock, patched_block, patches_cautions, patches_working
from finishcalc.plans.pieced.pieces import Round, TopPieces, Triangles, beside_block, past_points, top_pieces
from finishcalc.wording.sentence import ROOT_2, Sentence, Value, say
from finishcalc.wording.words import capital


class PartCut(NamedTuple):
    """A part of the top that is cut from a cloth, with the ways to cut it. Where the direction of the cloth says the
    way, `turnable_ways` are those that there would be without it."""

    use: str
    fabric: Fabric
    ways: tuple[Way, ...]
    turnable_ways: tuple[Way, ...] | None


class PiecedPlan(NamedTuple):
    """A pieced top: its design, the pieces cut for it, how much of a block its patches make, and the ways to cut each
    part of it from its cloth."""

    top: PiecedTop
    pieces: TopPieces
    patched: PatchedBlock | None
    cuts: tuple[PartCut, ...]
    working: tuple[Sentence, ...]
    cautions: tuple[Caution, ...]

    @property
    def centre(self) -> Size:
        """The part within the borders, raw edge to raw edge."""
        return self.top.centre_size

    @property
    def trimmed_beyond(self) -> Length:
        """The margin that a top of blocks on point keeps beyond the middle of its outer cornerstones, or beyond the
        points of its blocks: where long strips run through all round, half the diagonal of a cornerstone more."""
        sashing = self.top.sashing
        if not sashing or not sashing.outer or sashing.cornerstones:
            return self.top.seam
        return self.top.seam + Length(up(sashing.width.mm * ROOT_2_UP / 2))


def plan_pieced(top: PiecedTop, finest: Length, shortest: Length) -> PiecedPlan:
    """Plan the pieces and their cloth. Sizes go up to the `finest` step a person can measure; no part of a piece that
    is joined end to end is shorter than `shortest`."""
    pieces = top_pieces(top, finest)
    parts = list(top_parts(top, pieces))
    rules = CuttingRules(top.seam, top.most_joins, shortest, finest)
    patched = patched_block(top, finest)
    working = (
        *_size_working(top),
        *_pieces_working(top, pieces, finest),
    )
    cautions = (
        *_too_wide_cautions(parts),
        *_mitre_cautions(top),
        *patches_cautions(patched),
        *direction_cautions(top, pieces, parts),
    )
    return PiecedPlan(top, pieces, patched, tuple(_cuts(parts, rules)), working, cautions)


def _cuts(parts: list[TopPart], rules: CuttingRules) -> Iterator[PartCut]:
    """Give each part that is cut from a cloth its ways. What is wider than its cloth either way is left out."""
    for part in parts:
        if (fabric := part.cloth.fabric) and not too_wide(part):
            usable = usable_width_of(fabric)
            turnable = part_ways(part.turnable, usable, rules) if part.is_directed else None
            yield PartCut(part.use, fabric, part_ways(part, usable, rules), turnable)


def _too_wide_cautions(parts: list[TopPart]) -> Iterator[Caution]:
    for part in parts:
        if part.cloth.fabric and too_wide(part):
            pieces = "squares" if part.squares else "pieces"
            text = (
                f"{{fabric}} is too narrow for {pieces} of {{size}}, so it is not on the list to buy: use a wider cloth"
            )
            other = ", or cut each triangle with its longest side along the cloth" if part.use == "triangles" else ""
            fabric, size = capital(part.cloth.fabric.name), max(each.width for each in part.pieces)
            yield blocking_caution("squares-too-wide", f"{text}{other}.", fabric=fabric, size=size)


def _mitre_cautions(top: PiecedTop) -> Iterator[Caution]:
    """Warn of mitres in cloth with a direction (common practice); of those in a print with a repeat,
    `direction_cautions` warns."""
    for number, border in enumerate(top.borders, start=1):
        fabric = border.cloth.fabric
        if border.corners == "mitred" and fabric and fabric.directional and not fabric.repeat:
            yield caution(
                "print-in-the-mitres",
                "Border {number} is mitred in {fabric}, whose print has a direction: it meets in the mitres only if "
                "all four strips are cut alike, all along the cloth or all across it, and each has the same place of "
                "the print at the middle of its side.",
                number=number,
                fabric=fabric.name,
            )


def _size_working(top: PiecedTop) -> Iterator[Sentence]:
    """The arithmetic of the centre's two sides, and of each border."""
    if top.blocks:
        sides = (("wide", top.blocks.across, top.centre_size.width), ("long", top.blocks.down, top.centre_size.length))
        for way, number, side in sides:
            yield _side_working(top, top.blocks, way, number, side)
    for number, (border, before, after) in enumerate(top.rounds, start=1):
        yield say(
            "Border {number}: {w} + 2 x {cut} - 4 x {seam} = {nw} wide, {l} + 2 x {cut} - 4 x {seam} = {nl} long",
            number=number,
            w=before.width,
            l=before.length,
            cut=border.cut,
            seam=top.seam,
            nw=after.width,
            nl=after.length,
        )


def _side_working(top: PiecedTop, blocks: Blocks, way: str, number: int, side: Length) -> Sentence:
    wide = top.sashing.width if top.sashing else ZERO
    values: dict[str, Value] = {
        "number": number,
        "size": blocks.size,
        "seam": top.seam,
        "side": side,
        "wide": wide,
        "root": ROOT_2,
    }
    if blocks.setting == "on-point":
        each = "({size} + {wide})" if wide else "{size}"
        line = f"{{number}} x {each}"
        if top.sashing and not top.sashing.outer:
            line = f"({{number}} x {{size}} + {number - 1} x {{wide}})"
        text = f"Blocks on point: {line} x {{root}} + 2 x {{seam}} = {{side}} {way}"
    elif top.sashing:
        strips = number + 1 if top.sashing.outer else number - 1
        text = f"Blocks: {{number}} x {{size}} + {strips} x {{wide}} + 2 x {{seam}} = {{side}} {way}"
    else:
        text = f"Blocks: {{number}} x {{size}} + 2 x {{seam}} = {{side}} {way}"
    return say(text, **values)


def _pieces_working(top: PiecedTop, pieces: TopPieces, finest: Length) -> Iterator[Sentence]:
    for patches in pieces.patches:
        yield patches_working(patches)
    if top.blocks and top.sashing and top.blocks.setting == "on-point" and not top.sashing.cornerstones:
        for strips in long_strips(top.blocks, top.sashing, top.seam):
            yield _long_working(top.blocks, top.sashing, top.seam, strips)
    for triangles in pieces.triangles:
        yield _square_working(top, triangles, finest)
    if top.blocks and top.blocks.inner and pieces.block:
        yield say(
            "Trimmed: to {block}, which leaves ({block} - ({inner} - 2 x {seam}) x {root}) / 2 = {past} beyond each "
            "point",
            block=pieces.block,
            inner=top.blocks.inner,
            seam=top.seam,
            past=past_points(top.blocks, top.seam),
            root=ROOT_2,
        )
    for number, each in enumerate(pieces.rounds, start=1):
        if each.border.corners == "mitred":
            yield _mitre_working(top, number, each)


def _long_working(blocks: Blocks, sashing: Sashing, seam: Length, strips: LongStrips) -> Sentence:
    """The arithmetic of a strip between diagonal rows, which an edge crosses at 45 degrees where it is all round."""
    text = "Sashing past {n} blocks: {n} x {size} + {between} x {wide} + 2 x {seam}"
    if sashing.outer:
        text = "Sashing past {n} blocks: {n} x ({size} + {wide}) + {wide} + (2 + 2 x {root}) x {seam}"
    return say(
        f"{text} = {{length}}".replace("{n} blocks", "1 block" if strips.blocks == 1 else "{n} blocks"),
        n=strips.blocks,
        between=strips.blocks - 1,
        size=blocks.size,
        wide=sashing.width,
        seam=seam,
        root=ROOT_2,
        length=strips.length,
    )


def _square_working(top: PiecedTop, triangles: Triangles, finest: Length) -> Sentence:
    """The arithmetic of a triangle's square: its finished side, and the seams at its points."""
    blocks = top.blocks
    if blocks is None:
        raise AssertionError("triangles without blocks")
    past = beside_block(top.sashing)
    side = "({size} + {past})" if past else "{size}"
    text, points = {
        "side": (f"Side triangles: {side} x {{root}}", twice_extra(top.seam, finest)),
        "corner": ("Corner triangles: {size} / {root}", once_extra(top.seam, finest)),
        "block": ("Block corners: ({inner} - 2 x {seam}) / {root}", once_extra(top.seam, finest)),
    }[triangles.use]
    times = "twice" if triangles.cuts == 2 else "once"
    return say(
        f"{text} + {{points}} for the points, up to the next {{finest}} = squares of {{square}}, cut {times}",
        size=blocks.size,
        past=past,
        inner=blocks.inner or ZERO,
        seam=top.seam,
        points=points,
        finest=finest,
        square=triangles.square,
        root=ROOT_2,
    )


def _mitre_working(top: PiecedTop, number: int, each: Round) -> Sentence:
    repeat = top.matching(each.border)
    plus, meets = (" + {repeat}", ", and {repeat} a repeat of its print") if repeat else ("", "")
    return say(
        f"Border {{number}}, mitred: {{before}} + 2 x {{cut}} + {{extra}}{plus} = {{long}}; each end runs the border's "
        f"width past the top so that the mitre reaches the outer corner, and {{extra}} is to hold and to trim{meets}",
        repeat=repeat,
        number=number,
        before=each.before.width,
        cut=each.border.cut,
        extra=top.mitre_extra,
        long=each.strips[1].length,
    )
