"""Plans in the words a quilter uses: top, backing, batting, edge and cloth. The customer may read every sentence."""

from collections import Counter

from finishcalc.measures.length import Area, AreaUnit, Overage
from finishcalc.measures.rounding import printed
from finishcalc.plans.backing.layout import Element, Layout
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.top.plan import TopPlan
from finishcalc.rendering.pages.cover import cover_words
from finishcalc.rendering.pages.handwork import matching_words, scallop_words
from finishcalc.rendering.writing import size_to_cut
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import InUnit, Sentence
from finishcalc.wording.words import counted


def top_words(plan: TopPlan, area_unit: AreaUnit, notation: Notation) -> list[str]:
    """Say the top's size, perimeter, and the size it is billed at, in the unit of area that is billed."""
    shape, billed = plan.shape, plan.billed
    area, billed_area = (_area(each, area_unit, notation) for each in (shape.area, billed.area))
    return [
        f"{outline_words(shape, notation)}, unfinished size; area {area}, perimeter {notation.show(shape.perimeter)}",
        *scallop_words(shape, notation),
        *cover_words_of(plan, notation),
        f"{_sizes(shape, billed, notation)} = {billed_area}",
    ]


def _area(area: Area, unit: AreaUnit, notation: Notation) -> str:
    held = unit.replace(" ", NO_BREAK)
    return f"{notation.quantity(printed(area.to(unit), unit))}{NO_BREAK}{held}"


def cover_words_of(plan: TopPlan, notation: Notation) -> list[str]:
    """Say how the top hangs on what it covers; nothing where it covers nothing."""
    return cover_words(plan.covers, not plan.shape.curved, notation) if plan.covers else []


def billed_words(plan: TopPlan, notation: Notation) -> str:
    """Say the size it is billed at where that is another: ", billed as 61 x 82 in"."""
    billed, shape = plan.billed, plan.shape
    same = (shape.width, shape.length) == (billed.width, billed.length)
    return "" if same else f", billed as {notation.size(billed.width, billed.length)}"


def _sizes(shape: Shape, billed: Shape, notation: Notation) -> str:
    """Write both sizes where they differ: "measured 61 x 81 1/2 in, billed 61 x 82 in"."""
    size = notation.size(billed.width, billed.length)
    same = (shape.width, shape.length) == (billed.width, billed.length)
    return f"billed {size}" if same else f"measured {notation.size(shape.width, shape.length)}, billed {size}"


def outline_words(shape: Shape, notation: Notation) -> str:
    """Say a top's outline with its size: "60 1/2 x 84 in", "round, 70 in across"."""
    size = notation.size(shape.width, shape.length)
    if shape.name == "round":
        return f"round, {notation.show(shape.width)} across"
    if shape.name == "oval":
        return f"oval, {size}"
    if shape.corner:
        return f"{size} with corners of radius {notation.show(shape.corner)}"
    return f"{size} with a scalloped edge" if shape.curved else size


def backing_words(
    plan: BackingPlan,
    bought: tuple[Purchase, ...],
    notation: Notation,
    smaller_overage: Sentence | None,
) -> list[str]:
    """Say its size, its pieces and their cutting, its cloth among all that is `bought`, and the backing that the
    customer brings."""
    chosen = plan.chosen
    needed = f"{notation.size(plan.width, plan.length)} needed, {overage_words(plan.overage, notation)}"
    if chosen is None:
        return [needed, notation.write(plan.customer_supplied.sentence)] if plan.customer_supplied else [needed]
    supplied = (
        [notation.write(plan.customer_supplied.sentence)]
        if plan.customer_supplied and plan.customer_supplied.verdict == "enough"
        else []
    )
    return [
        needed,
        f"{layout_words(chosen)}, of {notation.show(plan.fabric.name)}",
        _cutting(chosen, notation),
        *matching_words(chosen, bought, notation),
        f"needs {notation.show(InUnit(chosen.amount, plan.fabric.per))}{by_itself('backing', bought)}",
        *([notation.write(smaller_overage)] if smaller_overage else []),
        *supplied,
    ]


def by_itself(use: str, bought: tuple[Purchase, ...]) -> str:
    """Qualify an amount of cloth that is bought in one length with other parts."""
    return ", on its own" if any(use in purchase.uses and len(purchase.uses) > 1 for purchase in bought) else ""


def option_words(option: BackingOption, notation: Notation) -> str:
    """Say in a few words what a backing is: its cloth, its seams, and its overage."""
    amount = notation.show(InUnit(option.amount, option.fabric.per))
    seams = counted(option.layout.seams, "seam") if option.layout.seams else "no seam"
    turned = ", some pieces cut across the grain" if option.layout.turned else ""
    if option.breaks_pile:
        turned = ", one strip joined end to end (bulk in the seam, and a break in the pile)"
    return f"{amount} with {seams}{turned}, {overage_words(option.overage, notation)}"


def overage_words(overage: Overage, notation: Notation) -> str:
    """Say how far a backing reaches beyond the top."""
    if overage.is_all_round:
        return f"{notation.show(overage.sides)} over on every side"
    return f"{notation.show(overage.sides)} over at the sides, {notation.show(overage.ends)} at the ends"


def layout_words(option: BackingOption) -> str:
    """Say a layout aloud: "2 panels, 1 seam running top to bottom"."""
    layout = option.layout
    if not layout.seams:
        way = "across" if layout.row.crosswise else "down"
        return f"one piece, no seam, the cloth running {way} the top"
    runs = {"lengthwise": "top to bottom", "crosswise": "side to side"}[layout.runs]
    if len(layout.row.elements) > 1 and layout.seams > len(layout.row.elements) - 1:
        long = "one" if len(layout.row.elements) == 2 else "ones"
        return f"{_made_of(layout)}, {counted(layout.seams, 'seam')}, the long {long} running {runs}"
    return f"{_made_of(layout)}, {counted(layout.seams, 'seam')} running {runs}"


def _made_of(layout: Layout) -> str:
    halves = any(element.kind == "half" for element in layout.row.elements)
    panels = counted(layout.panels, "panel")
    if halves:
        return f"{panels} in the middle and half of one at each side"
    if layout.band is None:
        return panels
    strip = _strip_words(layout.band)
    if not layout.panels:
        pieces = counted(len(layout.band.visible_lengths), "piece")
        return f"{pieces} cut across the grain" if layout.band.turned else pieces
    return f"{panels} and between them {strip}" if layout.panels > 1 else f"a panel plus {strip}"


def _strip_words(band: Element) -> str:
    """Say the strip beside a panel. A turned piece lies with the cloth's width along the strip."""
    several = len(band.visible_lengths) > 1
    across = ", cut across the grain" if band.turned == len(band.visible_lengths) else ""
    across = ", partly cut across the grain" if band.turned and not across else across
    return ("a pieced strip" if several else "a strip") + across


def _cutting(chosen: BackingOption, notation: Notation) -> str:
    """Count pieces of the same size, rounded up to a step that a tape shows where they still fit."""
    usable = chosen.layout.usable_width
    sizes: Counter[str] = Counter()
    for bought in chosen.bought_lengths:
        for cut in bought.cuts:
            sizes[notation.size(*size_to_cut(cut, bought, usable, notation))] += 1
    cutting = "cut " + ", ".join(f"{count} of {size}" for size, count in sizes.items())
    return cutting + (f", from {notation.show(usable)} of usable width" if chosen.layout.trimmed else "")


def cloth_words(purchase: Purchase, notation: Notation) -> str:
    """Say the purchase of one cloth: one length, or one from each bolt, and what of it is at hand."""
    uses = uses_words(purchase.uses)
    on_hand = f"; {notation.write(purchase.on_hand.sentence)}" if purchase.on_hand else ""
    if purchase.is_all_on_hand:
        return f"no {notation.show(purchase.fabric.name)}, for {uses}{on_hand}"
    joint = ", in one length" if len(purchase.uses) > 1 and len(purchase.lengths) == 1 else ""
    lengths = " + ".join(notation.show(InUnit(length, purchase.fabric.per)) for length in purchase.lengths)
    amount = notation.show(InUnit(purchase.amount, purchase.fabric.per))
    bolts = f" ({lengths})" if len(purchase.lengths) > 1 else ""
    return f"{amount}{bolts} of {notation.show(purchase.fabric.name)}, for {uses}{joint}{on_hand}"


def direction_cost_words(purchase: Purchase, notation: Notation) -> str:
    """Say how much more cloth a direction of it takes; nothing where it takes no more."""
    if not purchase.for_direction:
        return ""
    kind = "pile" if purchase.fabric.nap else "print"
    more = notation.show(InUnit(purchase.for_direction, purchase.fabric.per))
    return f"{notation.show(purchase.fabric.name)}: the {kind}'s direction takes {more} more"
