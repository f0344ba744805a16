"""Binding from the offcuts beside the pieces of the backing, where both are of one cloth."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.model.project import Binding, Project
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.edge.binding import BindingPlan, plan_binding
from finishcalc.plans.edge.strips import strip_width
from finishcalc.plans.top.outline import Shape


def from_leftover(
    project: Project, shape: Shape, backing: BackingPlan | None, binding: BindingPlan | None
) -> BindingPlan | None:
    """Plan the binding with as many strips as it can have from the backing's offcuts, the rest across the cloth; None
    where they give none, or where it is cut on the bias or from an offcut that is at hand."""
    edge = project.binding
    if not (edge and binding) or binding.cut == "bias" or binding.at_hand:
        return None
    backing_option = _to_cut_beside(project, edge, backing)
    beside = None if isinstance(backing_option, str) else binding_beside(project, shape, backing_option)
    return beside._replace(cautions=binding.cautions) if beside else None


def binding_beside(project: Project, shape: Shape, backing_option: BackingOption) -> BindingPlan | None:
    """Plan the binding with strips from beside the pieces of one option for the backing; None where it gives none."""
    edge = project.binding
    if not edge:
        return None
    width, finest = strip_width(edge), FINEST[project.units]
    offcuts = sorted(_offcut_strips(backing_option, width, project.sewing.cloth.shortest_piece, finest), reverse=True)
    if not offcuts:
        return None
    square_step = Length.of(1, project.units)
    return plan_binding(shape, edge.replace(cut="leftover"), project.currency, square_step, tuple(offcuts))


def leftover_cautions(project: Project, backing: BackingPlan | None, binding: BindingPlan | None) -> Iterator[Caution]:
    """Say why a binding that was requested from the backing's offcuts is cut across the cloth after all."""
    edge = project.binding
    brought = backing.customer_supplied if backing else None
    if not (edge and binding) or binding.cut != "leftover" or binding.offcuts:
        return
    if brought and (brought.holds_binding or brought.verdict == "without-binding"):
        return
    backing_option = _to_cut_beside(project, edge, backing)
    too_little = "too little is left beside them for strips {width} wide"
    why = backing_option if isinstance(backing_option, str) else too_little
    text = "The binding was to be cut from beside the backing's pieces, but " + why
    yield caution("no-leftover", text + ": its strips are cut across the cloth instead.", width=binding.strip_width)


def _to_cut_beside(project: Project, edge: Binding, backing: BackingPlan | None) -> BackingOption | str:
    """Give the backing option that has the offcuts, or the reason why there is none.

    Of cloth that the customer brings, the binding is cut wholly or not at all, because more of it may not be had.
    """
    spec = project.backing
    if not (spec and backing):
        return "there is no backing"
    if not backing.chosen:
        return "the backing is already made"
    if edge.fabric != spec.fabric:
        return "the backing is of another cloth"
    if backing.customer_supplied:
        holds = backing.customer_supplied.holds_binding
        return backing.chosen if holds else "the customer's cloth is not enough for it"
    if edge.supplied_by != spec.supplied_by:
        return "the shop supplies one cloth and the customer the other"
    return backing.chosen


def _offcut_strips(chosen: BackingOption, width: Length, shortest: Length, finest: Length) -> Iterator[Length]:
    """Cut strips beside each row of pieces, as long as the row. Pieces are cut up to the finest step, so that much less
    is left."""
    usable_width = chosen.layout.usable_width
    for bought in chosen.bought_lengths:
        for start in {cut.y for cut in bought.cuts}:
            row = [cut for cut in bought.cuts if cut.y == start]
            left = usable_width - sum((up_to_step(cut.width, finest) for cut in row), ZERO)
            row_length = max(cut.length for cut in row)
            if left >= width and row_length >= shortest:
                yield from [row_length] * (left // width)
