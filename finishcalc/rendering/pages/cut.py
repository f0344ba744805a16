"""The cut list in cutting order with its pictures, for the cutting table."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.project import Backing
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.layout import CutPiece, Layout
from finishcalc.plans.backing.options import BackingOption, BoughtLength
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.backing.supplied import SuppliedCloth
from finishcalc.plans.cautions import CUTTER
from finishcalc.plans.cloth import Purchase, usable_width_of
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.strips import Rectangle
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.pages.handwork import matching_words, scallop_words
from finishcalc.rendering.pages.layers import cloth_words, layout_words, offcut_words
from finishcalc.rendering.pages.page import WIDEST, block, wrap
from finishcalc.rendering.pages.pieced import top_cutting, top_sewing
from finishcalc.rendering.pictures.box import box
from finishcalc.rendering.pictures.picture import (
    Picture,
    backing_picture,
    cloth_pictures,
    scalloped_picture,
    top_picture,
)
from finishcalc.rendering.pictures.svg import svg
from finishcalc.rendering.writing import joined, notation_of, size_to_cut
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import counted


def pictures(result: Finishing) -> dict[str, Picture]:
    """Draw a pieced or scalloped top, the cloth and the backing, by the name of the file without its suffix."""
    pieced, shape, notation = result.plans.pieced, result.plans.top.shape, notation_of(result)
    if pieced:
        return {"top": top_picture(pieced, shape, notation), **_backing_pictures(result)}
    top = {"top": scalloped_picture(shape, notation)} if shape.scallops else {}
    return {**top, **_backing_pictures(result)}


def _backing_pictures(result: Finishing) -> dict[str, Picture]:
    plan, spec = result.plans.backing, result.resolved.project.backing
    if not plan or not spec or not plan.chosen:
        return {}
    notation = notation_of(result)
    cloths = cloth_pictures(plan.chosen, notation)
    names = ["cloth"] if len(cloths) == 1 else [f"cloth-{number}" for number in range(1, len(cloths) + 1)]
    backing = backing_picture(plan, plan.chosen, result.plans.top.shape, notation)
    return {**dict(zip(names, cloths, strict=True)), "backing": backing}


def picture_files(result: Finishing) -> dict[str, str]:
    """Write the pictures as SVG documents, by file name."""
    notation = notation_of(result)
    return {f"{name}.svg": svg(picture, notation) for name, picture in pictures(result).items()}


def cut_text(result: Finishing, width: int = WIDEST) -> str:
    """Write the cut list as text that ends with a line feed, no line wider than `width` columns."""
    notation, plans = notation_of(result), result.plans
    parts = [wrap(f"To cut: {plain(result.resolved.project.title)}", width)]
    spec = result.resolved.project.backing
    if plans.cloth:
        parts.append(block("Cloth", _cloth(plans.cloth, notation), width))
    if plans.pieced:
        if plans.pieced.cloths:
            parts.append(block("Top", top_cutting(plans.pieced, notation), width))
        parts.append(block("Sewing", top_sewing(plans.pieced, notation), width))
        parts.append(_drawn(top_picture(plans.pieced, plans.top.shape, notation), notation, width))
    if plans.backing and plans.backing.chosen and spec:
        steps = _backing_steps(plans.backing, plans.backing.chosen, plans.binding, spec, notation)
        parts.append(block("Backing", steps, width))
        parts += [_drawn(picture, notation, width) for picture in _backing_pictures(result).values()]
        parts.append(wrap(_legend(plans.backing, plans.top.shape), width))
    elif plans.backing and plans.backing.customer_supplied:
        parts.append(block("Backing", _supplied_steps(plans.backing.customer_supplied, notation), width))
    if plans.top.shape.scallops:
        parts.append(block("Scallops", scallop_words(plans.top.shape, notation), width))
    if plans.binding:
        parts.append(block("Binding", _binding_steps(plans.binding, notation), width))
    if len(parts) == 1:
        parts.append(["Nothing to cut: no backing and no binding."])
    cautions = [CUTTER, *(plans.pieced.cautions if plans.pieced else ())]
    parts.append(block("Please note", [notation.write(caution.sentence) for caution in cautions], width))
    return joined(parts)


def _cloth(bought: tuple[Purchase, ...], notation: Notation) -> list[str]:
    """List the lengths of cloth that everything is cut from."""
    lines = [cloth_words(purchase, notation) for purchase in bought]
    if any(len(purchase.uses) > 1 and len(purchase.lengths) == 1 for purchase in bought):
        lines.append("one length for several parts: cut them in turn, without dividing it first")
    return lines


def _drawn(picture: Picture, notation: Notation, width: int) -> list[str]:
    return [*wrap(f"{picture.title}: {picture.description}", width), *box(picture, notation, width)]


def _backing_steps(
    plan: BackingPlan, chosen: BackingOption, binding: BindingPlan | None, spec: Backing, notation: Notation
) -> list[str]:
    fabric, layout = plan.fabric, chosen.layout
    show = notation.show
    steps = [f"{layout_words(chosen)}, of {show(fabric.name)}"]
    if fabric.shrink_along or fabric.shrink_across:
        steps.append("wash and dry the cloth first: the sizes below are for washed cloth")
    of_each = " of each length" if len(chosen.lengths) > 1 else ""
    if fabric.straighten:
        steps.append(f"square the end{of_each}; it may take {show(fabric.straighten)}")
    if fabric.selvage:
        steps.append(f"trim the selvages; planned on {show(usable_width_of(fabric))} of usable width")
    steps += _cuts(chosen, notation)
    steps += matching_words(chosen, binding, notation)
    if layout.seams:
        steps += _sewing(layout, spec.seam_allowance, notation)
    return steps


def _supplied_steps(supplied: SuppliedCloth, notation: Notation) -> list[str]:
    """Give the steps for a backing that comes already sewn."""
    steps = [notation.write(supplied.sentence)]
    for strip in supplied.strips:
        steps.append(f"cut {strip.pieces} across the cloth, {notation.measured_length(strip.width)} wide each")
        joined = "join them end to end, then sew the strip on" if strip.pieces > 1 else "sew it on"
        steps.append(f"{joined}: {counted(strip.seams, 'seam')}, {notation.show(strip.seam_length)}")
    return steps


def _cuts(chosen: BackingOption, notation: Notation) -> Iterator[str]:
    """Go length by length and row by row along it; pieces that lie side by side come from one row."""
    lengths, number = chosen.bought_lengths, 0
    for place, bought in enumerate(lengths):
        if len(lengths) > 1:
            yield f"from length {place + 1}, {notation.show(InUnit(chosen.lengths[place], chosen.fabric.per))}:"
        end = ZERO
        for start in sorted({cut.y for cut in bought.cuts}):
            row = sorted((cut for cut in bought.cuts if cut.y == start), key=lambda cut: cut.x)
            number += 1
            yield f"{number}. {_row(row, bought, chosen, start > end, notation)}"
            end = row[0].y + row[0].length


def _row(row: list[CutPiece], bought: BoughtLength, chosen: BackingOption, gap: bool, notation: Notation) -> str:
    """Write one cut across the cloth, and the pieces that come of it."""
    usable = chosen.layout.usable_width
    show = notation.show
    sizes = [size_to_cut(cut, bought, usable, notation) for cut in row]
    where = f", from {show(row[0].y)} on so that the print matches" if gap else ""
    pieces = " and ".join(
        f"{cut.piece}{_wide(width, notation)} wide" for cut, (width, _) in zip(row, sizes, strict=True)
    )
    if sizes[0][0] != notation.measurable(row[0].width) and len({cut.width for cut in row}) == 1:
        share = "the whole width" if len(row) == 1 else f"each 1/{len(row)} of the width"
        wide = _wide(usable / len(row), notation).removeprefix(",")
        pieces = " and ".join(cut.piece for cut in row) + f", {share},{wide}"
    return f"a length of {show(sizes[0][1])}{where}: {pieces}"


def _wide(width: Length, notation: Notation) -> str:
    """Write a width; one that a ruler does not show, and that has no room to be cut wider, is a scant next step."""
    shown = notation.show(width)
    return f" {shown}" if shown == notation.exactly().show(width) else f", a scant {shown}"


def _sewing(layout: Layout, seam: Length, notation: Notation) -> Iterator[str]:
    """Order the seams: joins within a band first, then the long seams from one side to the other."""
    names = [shown.piece for shown in layout.assembly]
    order: list[str] = []
    for element in layout.row.elements:
        pieces, names = names[: len(element.visible_lengths)], names[len(element.visible_lengths) :]
        if len(pieces) > 1:
            yield f"sew {', '.join(pieces)} end to end"
        order.append("-".join(pieces))
    if len(order) > 1:
        way = "one below the other" if layout.row.crosswise else "side by side, left to right"
        yield f"sew {', '.join(order)} {way}"
    yield f"seam allowance {notation.show(seam)}, {counted(layout.seams, 'seam')} pressed open"


def _legend(plan: BackingPlan, shape: Shape) -> str:
    scallops = " The scallops of the edge are not drawn here." if shape.scallops else ""
    arrow = "↓ the cloth runs this way" if plan.fabric.directional or plan.fabric.nap else "↕ ↔ grain"
    return f"{arrow}: the cloth's length, along the selvage. Sizes on the backing are as sewn.{scallops}"


def _rectangle_steps(plan: BindingPlan, piece: Rectangle, wide: str, enough: str, notation: Notation) -> list[str]:
    cloth = notation.show(plan.fabric.name)
    high, of_each = notation.measured_length(piece.height), "" if piece.pieces == 1 else "of each, "
    return [
        f"{counted(piece.pieces, 'rectangle')} {high} high and as wide as the cloth, of {cloth}",
        f"{of_each}cut off one end at 45 degrees, and sew it to the other end",
        f"draw lines {wide} apart along the slanted ends, sew it into a tube one line off, and cut round and round",
        f"{counted(piece.rounds, 'round')}{' of each, the strips joined' if piece.pieces > 1 else ''}: {enough}",
    ]


def _binding_steps(plan: BindingPlan, notation: Notation) -> list[str]:
    show = notation.show
    wide = notation.measured_length(plan.strip_width)
    enough = f"{show(plan.yields)}, of which {show(plan.needed_length)} is needed"
    if plan.square:
        side = show(plan.square.side)
        return [
            f"a square of {side} by {side}, of {show(plan.fabric.name)}",
            "cut it from corner to corner, and sew two straight edges together",
            f"draw lines {wide} apart along the bias edges, sew it into a tube one line off, and cut round and round",
            f"{counted(plan.square.rounds, 'round')}: {enough}",
        ]
    if plan.rectangle:
        return _rectangle_steps(plan, plan.rectangle, wide, enough, notation)
    steps = [f"{offcut_words(plan, notation)}, of {show(plan.fabric.name)}"] if plan.offcuts else []
    if plan.cut == "bias":
        how = "from selvage to selvage at 45 degrees"
    elif plan.cut == "lengthwise":
        how = f"along the cloth, each {notation.measured_length(plan.strip_length)} long"
    else:
        how = f"across the cloth, each {show(plan.strip_length)} long"
    if plan.strips:
        steps.append(f"{counted(plan.strips, 'strip')} {wide} wide {how}, of {show(plan.fabric.name)}")
    diagonal = plan.join == "diagonal" or plan.cut == "bias"
    return [*steps, f"join them {'on the diagonal' if diagonal else 'straight'}: {enough}"]
