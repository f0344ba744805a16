"""The direction of a cloth in a pieced top: where its print or pile cannot stand upright, and where it must meet."""

from collections.abc import Iterable, Iterator, Sequence

from finishcalc.measures.length import Length
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import PiecedTop
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.cloth import usable_width_of, uses_words
from finishcalc.plans.pieced.part_cuts import TopPart
from finishcalc.plans.pieced.pieces import Patches, Round, TopPieces
from finishcalc.wording.words import capital


def direction_cautions(top: PiecedTop, pieces: TopPieces, parts: Sequence[TopPart]) -> Iterator[Caution]:
    """Warn of a direction that points different ways in triangles or hangs slanted on point, and of borders whose print
    needs more cloth to meet."""
    for fabric in dict.fromkeys([*_of_triangles(parts), *_of_triangle_patches(pieces.patches)]):
        text = "{fabric} has a direction, and in triangles it points different ways."
        yield caution("triangles-one-way", text, fabric=capital(fabric.name))
    if top.blocks and top.blocks.setting == "on-point":
        yield from _slanted(parts)
    for number, each in enumerate(pieces.rounds, start=1):
        yield from _meeting(top, number, each)


def _of_triangles(parts: Iterable[TopPart]) -> Iterator[Fabric]:
    return (fabric for part in parts if part.use == "triangles" and (fabric := part.one_way))


def _of_triangle_patches(patches: Iterable[Patches]) -> Iterator[Fabric]:
    fabrics = (each.patch.fabric.wanted for each in patches if each.patch.triangles)
    return (fabric for fabric in fabrics if fabric and fabric.is_one_way)


def _slanted(parts: Iterable[TopPart]) -> Iterator[Caution]:
    """Warn, cloth by cloth, of pieces that lie at 45 degrees in the top."""
    uses: dict[Fabric, list[str]] = {}
    for part in parts:
        on_point = part.use != "triangles" and not part.use.startswith("border")
        if on_point and part.one_way and part.pieces[0].run == "any":
            uses.setdefault(part.one_way, []).append(part.use)
    for fabric, of_it in uses.items():
        text = f"{{fabric}} has a direction, and on point it hangs slanted in {uses_words(of_it)}."
        yield caution("slanted-one-way", text, fabric=capital(fabric.name))


def _meeting(top: PiecedTop, number: int, border_round: Round) -> Iterator[Caution]:
    """Say how a print with a repeat meets at the mitres and joins of a border (common practice)."""
    border, fabric = border_round.border, border_round.border.cloth.fabric
    if not fabric or not fabric.repeat:
        return
    mitred = border.corners == "mitred"
    if not mitred and _longest(border_round) <= usable_width_of(fabric):
        return
    text = "Border {number}: each joined strip needs a repeat of {repeat} more for the print to meet."
    if mitred and top.matching(border):
        text = (
            "Border {number} is mitred in {fabric}: each strip is a whole repeat of {repeat} longer, so that the print "
            "meets in the mitres where all four have the same place of it at the middle of their side."
        )
    elif mitred:
        text = (
            "Border {number} is mitred in {fabric}: the print meets in the mitres only if all four strips are cut "
            "alike, all along the cloth or all across it, each a repeat of {repeat} longer and with the same place of "
            "the print at the middle of its side."
        )
    yield caution("border-repeat", text, number=number, fabric=fabric.name, repeat=fabric.repeat)


def _longest(border_round: Round) -> Length:
    return max(pair.length for pair in border_round.strips)
