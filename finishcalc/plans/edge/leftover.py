"""Binding from the offcuts of its cloth: beside the pieces of the backing or of the top that are cut from it."""

from collections.abc import Iterator

from finishcalc.measures.length import Length
from finishcalc.model.project import Project
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.cutting.layout import ClothLayout
from finishcalc.plans.cutting.offcuts import offcut_strips
from finishcalc.plans.edge.binding import BindingPlan, plan_binding
from finishcalc.plans.edge.strips import strip_width
from finishcalc.plans.top.outline import Shape


def binding_from(project: Project, shape: Shape, layout: ClothLayout, shortest: Length) -> BindingPlan | None:
    """Plan the binding with as many strips as it can have from the offcuts of a layout, none shorter than `shortest`,
    and the rest across the cloth; None where they give none. One that is cut along the cloth takes only those along it.
    """
    edge = project.binding
    if not edge:
        return None
    strips = offcut_strips(layout, strip_width(edge), shortest, along_only=edge.cut == "lengthwise")
    if not strips:
        return None
    lengths, unit = tuple(strip.length for strip in strips), Length.of(1, project.units)
    return plan_binding(shape, edge.replace(cut="leftover"), project.currency, unit, lengths)


def leftover_cautions(
    project: Project, backing: BackingPlan | None, binding: BindingPlan | None, is_of_top: bool
) -> Iterator[Caution]:
    """Say why a binding that was requested from offcuts is cut across the cloth after all."""
    edge = project.binding
    brought = backing.customer_supplied if backing else None
    if not (edge and binding) or binding.cut != "leftover" or binding.offcuts:
        return
    if brought and (brought.holds_binding or brought.verdict == "without-binding"):
        return
    why = None if is_of_top else why_none(project, backing)
    too_little = "too little is left beside them for strips {width} wide"
    pieces = "other pieces of its cloth" if is_of_top else "the backing's pieces"
    text = f"The binding was to be cut from beside {pieces}, but " + (why or too_little)
    yield caution("no-leftover", text + ": its strips are cut across the cloth instead.", width=binding.strip_width)


def why_none(project: Project, backing: BackingPlan | None) -> str | None:
    """Give the reason why no binding can come from beside the pieces of the backing, or None where it may.

    Of cloth that the customer brings, the binding is cut wholly or not at all, because more of it may not be had.
    """
    spec, edge = project.backing, project.binding
    if not (spec and backing and edge):
        return "there is no backing"
    if not backing.chosen:
        return "the backing is already made"
    if edge.fabric != spec.fabric:
        return "the backing is of another cloth"
    if backing.customer_supplied:
        return None if backing.customer_supplied.holds_binding else "the customer's cloth is not enough for it"
    if edge.supplied_by != spec.supplied_by:
        return "the shop supplies one cloth and the customer the other"
    return None
