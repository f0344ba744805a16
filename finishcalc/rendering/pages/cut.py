"""The cut list in cutting order with its pictures, for the cutting table."""

from collections.abc import Iterator, Sequence
from itertools import islice

from finishcalc.measures.length import Length
from finishcalc.model.pieced import Blocks
from finishcalc.model.project import Backing
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.layout import Layout
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.backing.supplied import SuppliedCloth
from finishcalc.plans.cautions import CUTTER
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.strips import Rectangle
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.lettering import lettering_of
from finishcalc.rendering.pages.batting import batting_steps
from finishcalc.rendering.pages.blocks import block_sizes, direction_words, patches_words, unlisted_words
from finishcalc.rendering.pages.cloth_cuts import ClothCuts
from finishcalc.rendering.pages.edge import hem_words, offcut_words
from finishcalc.rendering.pages.extras import pieces_words
from finishcalc.rendering.pages.handwork import matching_words, scallop_words
from finishcalc.rendering.pages.layers import cloth_words, direction_cost_words, layout_words
from finishcalc.rendering.pages.page import Format, Group, Head, Heading, Line, Page, Paragraph, Part, sentences, steps
from finishcalc.rendering.pages.pieced import top_sewing
from finishcalc.rendering.pictures.cutting import CuttingPicture, cutting_pictures
from finishcalc.rendering.pictures.cutting_svg import cutting_svg
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.picture import Picture, backing_picture, scalloped_picture, top_picture
from finishcalc.rendering.pictures.svg import svg
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.words import counted, in_words


def pictures(result: Finishing) -> dict[str, Picture]:
    """Draw a pieced or scalloped top and the backing as they are sewn, by the name of the file without its suffix."""
    pieced, shape, notation = result.plans.pieced, result.plans.top.shape, notation_of(result)
    drawn = {}
    if pieced:
        drawn["top"] = top_picture(pieced, shape, notation)
    elif shape.scallops:
        drawn["top"] = scalloped_picture(shape, notation)
    plan = result.plans.backing
    if plan and plan.chosen:
        drawn["backing"] = backing_picture(plan, plan.chosen, shape, notation)
    return drawn


def cutting_diagrams(result: Finishing) -> dict[str, CuttingPicture]:
    """Draw every length of every cloth with what is cut from it, by the name of the file without its suffix."""
    diagrams = cutting_pictures(result.plans.cloth, notation_of(result))
    if len(diagrams) == 1:
        return {"cloth": diagrams[0]}
    return {f"cloth-{number}": diagram for number, diagram in enumerate(diagrams, start=1)}


def picture_files(result: Finishing) -> dict[str, str]:
    """Write the pictures as SVG documents, by file name."""
    notation = notation_of(result)
    files = {f"{name}.svg": cutting_svg(diagram, notation, name) for name, diagram in cutting_diagrams(result).items()}
    return files | {f"{name}.svg": svg(picture, notation, name) for name, picture in pictures(result).items()}


def cut_page(result: Finishing) -> Page:
    """Make the page of the cut list."""
    head = Head("To cut", plain(result.resolved.project.title))
    return Page(head, tuple(cut_groups(result)), made=result.resolved.project.job.date)


def cut_sheet(result: Finishing) -> Page:
    """Make the cut list as sheets for the cutting table, in letters that are read from a step away, the cautions
    first."""
    page = cut_page(result)
    *groups, notes = page.groups
    paper = Format(result.resolved.shop.studio.paper, landscape=True, bench=True)
    return page._replace(groups=(notes, *groups), format=paper)


def cut_groups(result: Finishing) -> list[Group]:
    """Give the cutting of each cloth, the sewing of the top and the backing, and the edge, in the order of work."""
    diagrams = [Drawing(name, diagram, notation_of(result)) for name, diagram in cutting_diagrams(result).items()]
    groups = [*_cutting(result, diagrams), *_sewing_of_top(result), *_backing(result), *_edge(result)]
    if not any(_has_words(group) for group in groups):
        groups.append((Paragraph("Nothing to cut: no backing and no binding."),))
    return [*groups, (sentences("Terms", _terms(result, diagrams)),), (_notes(result),)]


def _has_words(group: Group) -> bool:
    return any(not isinstance(block, Part) or block.lines for block in group)


def _cutting(result: Finishing, drawn: Sequence[Drawing]) -> Iterator[Group]:
    """List the cloths, then the cutting of each with its diagrams as they are drawn, then the batting."""
    plans, notation = result.plans, notation_of(result)
    if plans.cloth:
        unlisted = unlisted_words(plans.pieced, notation) if plans.pieced else []
        yield (Part("Cloth", (*_cloth(plans.cloth, notation), *map(Line, unlisted))),)
    diagrams = iter(drawn)
    for purchase in plans.cloth:
        cuts = ClothCuts(purchase, plans.pieced.pieces if plans.pieced else None, notation, plans.extras.cut)
        yield (Heading(cuts.heading()),)
        yield (
            sentences("In all", cuts.totals()),
            Part("Cut", tuple(cuts.steps())),
            sentences("Then", [*cuts.triangles(), *cuts.joins()], "on paper"),
        )
        for diagram in islice(diagrams, sum(bool(layout.bands) for layout in purchase.layouts)):
            yield (diagram,)
    if plans.batting:
        yield (sentences("Batting", batting_steps(plans.batting, notation), "on paper"),)


def _sewing_of_top(result: Finishing) -> Iterator[Group]:
    pieced, notation = result.plans.pieced, notation_of(result)
    if not pieced:
        return
    if pieced.top.blocks and pieced.pieces.block:
        size = notation.size(pieced.pieces.block, pieced.pieces.block)
        yield (sentences("Blocks", _blocks(pieced.top.blocks, size), "on paper"),)
        yield (sentences("Patches", patches_words(pieced, notation)),)
    yield (sentences("Direction", direction_words(pieced)),)
    seam = Line(f"seam allowance {notation.show(pieced.top.seam)} throughout")
    yield (Part("Sewing", (seam, *steps("", top_sewing(pieced, notation), "on paper").lines)),)
    yield (Drawing("top", top_picture(pieced, result.plans.top.shape, notation), notation),)


def _blocks(blocks: Blocks, size: str) -> list[str]:
    """Say the pieced blocks to trim, and where there are plain ones too, all of them."""
    return [block_sizes(blocks, size) if blocks.plain_number else f"trim {counted(blocks.number, 'block')} to {size}"]


def _backing(result: Finishing) -> Iterator[Group]:
    """Give the sewing of the backing with its picture, or the strips that a sewn one needs."""
    plan, spec, notation = result.plans.backing, result.resolved.project.backing, notation_of(result)
    if plan and plan.chosen and spec:
        yield (Part("Backing", tuple(_backing_steps(plan, plan.chosen, result.plans.cloth, spec, notation))),)
        picture = backing_picture(plan, plan.chosen, result.plans.top.shape, notation)
        yield (Drawing("backing", picture, notation),)
        yield (Paragraph(_legend(plan, result.plans.top.shape), small=True),)
    elif plan and plan.customer_supplied:
        yield (Part("Backing", tuple(_supplied_steps(plan.customer_supplied, notation))),)


def _edge(result: Finishing) -> Iterator[Group]:
    """Give the scallops, the binding or the hem, and what else was ordered to be made."""
    plans, shop, notation = result.plans, result.resolved.shop, notation_of(result)
    yield (sentences("Scallops", scallop_words(plans.top.shape, notation)),)
    if plans.binding:
        yield (sentences("Binding", _binding_steps(plans.binding, notation), "on paper"),)
    if plans.hem:
        yield (sentences("Hem", hem_words(plans.hem, notation), "on paper"),)
    labels = [shop.extras[each.name].label for each in result.resolved.project.charges.extras]
    cut = {extra.label: f": {pieces_words(extra, notation)}" for extra in plans.extras.cut}
    yield (sentences("Extras", [notation.show(label) + cut.get(label, "") for label in labels]),)


def _terms(result: Finishing, diagrams: Sequence[Drawing]) -> list[str]:
    """Explain the words that need it, once."""
    plans, notation = result.plans, notation_of(result)
    if not plans.cloth:
        return []
    terms = ["width of cloth: from selvage to selvage, the selvages trimmed off"]
    if any(isinstance(each.picture, CuttingPicture) and each.picture.has_rest for each in diagrams):
        terms.append("left over: cloth that no piece takes")
    if plans.backing and plans.backing.chosen and plans.backing.chosen.layout.turned:
        terms.append("turned: the cloth's length runs the other way in this piece than in the others")
    if any(each.scant for purchase in plans.cloth for each in lettering_of(purchase, notation).values()):
        terms.append("a scant size: a little less, because the cloth has no room for the whole")
    return terms


def _notes(result: Finishing) -> Part:
    pieced, notation = result.plans.pieced, notation_of(result)
    cautions = [CUTTER, *(pieced.cautions if pieced else ())]
    return sentences("Please note", [notation.write(caution.sentence) for caution in cautions])


def _cloth(bought: tuple[Purchase, ...], notation: Notation) -> list[Line]:
    """List the lengths of cloth that everything is cut from, each to be ticked off."""
    lines = [Line(cloth_words(purchase, notation), tick="on paper") for purchase in bought]
    lines += map(Line, filter(None, (direction_cost_words(purchase, notation) for purchase in bought)))
    if any(len(purchase.uses) > 1 and len(purchase.lengths) == 1 for purchase in bought):
        lines.append(Line("one length for several parts: cut them in turn, without dividing it first"))
    return lines


def _backing_steps(
    plan: BackingPlan, chosen: BackingOption, bought: tuple[Purchase, ...], spec: Backing, notation: Notation
) -> Iterator[Line]:
    yield Line(f"{layout_words(chosen)}, of {notation.show(plan.fabric.name)}")
    if chosen.layout.seams:
        yield from map(Line, matching_words(chosen, bought, notation))
        yield from (Line(step, tick="on paper") for step in _sewing(chosen.layout, spec.seam_allowance, notation))


def _supplied_steps(supplied: SuppliedCloth, notation: Notation) -> Iterator[Line]:
    """Give the steps for a backing that comes already sewn."""
    yield Line(notation.write(supplied.sentence))
    for strip in supplied.strips:
        cut = f"cut {strip.pieces} across the cloth, {notation.measured_length(strip.width)} wide each"
        joined = "join them end to end, then sew the strip on" if strip.pieces > 1 else "sew it on"
        sewn = f"{joined}: {counted(strip.seams, 'seam')}, {notation.show(strip.seam_length)}"
        yield from (Line(step, tick="on paper") for step in (cut, sewn))


def _sewing(layout: Layout, seam: Length, notation: Notation) -> Iterator[str]:
    """Order the seams: joins within a band first, then the long seams from one side to the other."""
    names = [shown.piece for shown in layout.assembly]
    order: list[str] = []
    for element in layout.row.elements:
        pieces, names = names[: len(element.visible_lengths)], names[len(element.visible_lengths) :]
        if len(pieces) > 1:
            yield f"sew {in_words(pieces)} end to end"
        order.append("-".join(pieces))
    if len(order) > 1:
        way = "one below the other" if layout.row.crosswise else "side by side, left to right"
        yield f"sew {in_words(order)} {way}"
    yield f"seam allowance {notation.show(seam)}, {counted(layout.seams, 'seam')} pressed open"


def _legend(plan: BackingPlan, shape: Shape) -> str:
    scallops = " The scallops of the edge are not drawn here." if shape.scallops else ""
    arrow = "↓ the cloth runs this way" if plan.fabric.directional or plan.fabric.nap else "↕ ↔ grain"
    return f"{arrow}: the cloth's length, along the selvage. Sizes on the backing are as sewn.{scallops}"


def _rectangle_steps(plan: BindingPlan, piece: Rectangle, wide: str, enough: str, notation: Notation) -> list[str]:
    cloth, of_each = notation.show(plan.fabric.name), "" if piece.pieces == 1 else "of each, "
    high = f"{counted(piece.pieces, 'rectangle')} {notation.measured_length(piece.height)} high"
    offcut = plan.at_hand and notation.size(plan.at_hand.width, plan.at_hand.length)
    wide_as = f"and {notation.measured_length(piece.width)} wide, from the offcut of {offcut}" if offcut else ""
    return [
        f"{high} {wide_as or 'and as wide as the cloth'}, of {cloth}",
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
    at_hand = bool(plan.at_hand and plan.offcuts)
    steps = [f"{offcut_words(plan, notation)}, of {show(plan.fabric.name)}"] if at_hand else []
    number = plan.strips if at_hand else plan.strips + len(plan.offcuts)
    how = "from selvage to selvage at 45 degrees" if plan.cut == "bias" else "as listed with its cloth"
    if number:
        steps.append(f"{counted(number, 'strip')} {wide} wide, cut {how}")
    diagonal = plan.join == "diagonal" or plan.cut == "bias"
    return [*steps, f"join them {'on the diagonal' if diagonal else 'straight'}: {enough}"]
