"""Each part of the work in a line or two, for the customer: the choices she makes, without cutting and machines."""

from collections.abc import Callable

from finishcalc.model.keys import Supplier
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.batting import batting_amount, brief_words, supplied_batting
from finishcalc.rendering.pages.blocks import unlisted_words, unpriced_piecing
from finishcalc.rendering.pages.edge import EDGES, beside_words, hem_words
from finishcalc.rendering.pages.layers import billed_words, cover_words_of, layout_words, outline_words
from finishcalc.rendering.pages.pieced import setting_words
from finishcalc.rendering.pages.quilting import finished_words, styles_words
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import counted


def _top(result: Finishing, notation: Notation) -> list[str]:
    """Say the size, as billed where that differs, and the size once it is finished."""
    plan = result.plans.top
    size = f"{outline_words(plan.shape, notation)}, unfinished size{billed_words(plan, notation)}"
    return [size, *cover_words_of(plan, notation), *finished_words(result.plans.quilting, plan, notation)]


def _piecing(result: Finishing, notation: Notation) -> list[str]:
    pieced = result.plans.pieced
    if not pieced:
        return []
    borders = [counted(len(pieced.top.borders), "border")] if pieced.top.borders else []
    design = ", ".join([setting_words(pieced, notation), *borders])
    unpriced = unpriced_piecing(result.resolved.project.charges)
    return [design, *unlisted_words(pieced, notation), *unpriced]


def _backing(result: Finishing, notation: Notation) -> list[str]:
    plan = result.plans.backing
    if not plan:
        return []
    supplied = plan.customer_supplied
    if plan.chosen is None:
        return [notation.write(supplied.sentence)] if supplied and not _is_told(result, "backing") else []
    amount = notation.show(InUnit(plan.chosen.amount, plan.fabric.per))
    brought = [notation.write(supplied.sentence)] if supplied and supplied.verdict == "enough" else []
    smaller = result.smaller_overage
    reason = [notation.write(smaller)] if smaller else []
    return [f"{amount} of {notation.show(plan.fabric.name)}: {layout_words(plan.chosen)}", *reason, *brought]


def _is_told(result: Finishing, part: str) -> bool:
    """Tell a part about which the page says already, in its head, that it cannot be made."""
    return any(caution.blocking and caution.code.startswith(part) for caution in result.cautions)


def _batting(result: Finishing, notation: Notation) -> list[str]:
    plan = result.plans.batting
    return brief_words(plan, notation) if plan else ["none"]


def _binding(result: Finishing, notation: Notation) -> list[str]:
    plan = result.plans.binding
    if not plan:
        return []
    name = notation.show(plan.fabric.name)
    cloth = f"{notation.show(InUnit(plan.amount, plan.fabric.per))} of {name}" if plan.cut_length else name
    source = "an offcut" if plan.at_hand else beside_words(plan)
    left = f", {'partly ' if plan.cut_length else ''}from {source}" if plan.offcuts or plan.at_hand else ""
    return [f"{cloth}{left}; {EDGES[plan.attach]}"]


def _hem(result: Finishing, notation: Notation) -> list[str]:
    hem = result.plans.hem
    return hem_words(hem, notation) if hem else []


def _quilting(result: Finishing, notation: Notation) -> list[str]:
    thread = result.resolved.project.job.thread
    return [styles_words(result.plans.quilting, notation) + (f"; thread {plain(thread)}" if thread else "")]


BRIEFLY: dict[str, Callable[[Finishing, Notation], list[str]]] = {
    "top": _top,
    "piecing": _piecing,
    "backing": _backing,
    "batting": _batting,
    "binding": _binding,
    "hem": _hem,
    "quilting": _quilting,
}
"""The lines of each part of the work, by its key; nothing for a part that is not wanted."""


def supplied_words(result: Finishing, supplier: Supplier) -> list[str]:
    """List the cloth and the batting that somebody supplies, each with its amount."""
    plans, notation = result.plans, notation_of(result)
    lines = [
        f"{notation.show(InUnit(purchase.amount, purchase.fabric.per))} of {notation.show(purchase.fabric.name)}"
        for purchase in plans.cloth
        if purchase.supplied_by == supplier and not purchase.is_all_on_hand
    ]
    if plans.batting and (batting := plans.batting.supply(supplier)):
        lines.append(batting_amount(batting, plans.batting.product.name, notation))
    elif plans.batting and plans.batting.brought and supplier == "customer":
        lines.append(supplied_batting(plans.batting.brought, plans.batting.product.name, notation))
    return lines
