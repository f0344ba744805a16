"""Binding from what is left beside the pieces of the backing, where both are of one cloth."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.plans.backing import BackingPlan
from finishcalc.plans.binding import BindingPlan, plan_binding, strip_width
from finishcalc.plans.options import BackingOption
from finishcalc.plans.shape import Shape
from finishcalc.project import Project


def from_leftover(
    project: Project, shape: Shape, backing: BackingPlan | None, binding: BindingPlan | None
) -> BindingPlan | None:
    """The binding with as many of its strips as it can have from beside the backing's pieces, the rest across the
    cloth; None where that gives none, where it is cut on the bias, or where the backing's cloth is brought: that is
    held against a binding cut across."""
    edge, wishes = project.binding, project.backing
    if not (edge and wishes and backing and backing.chosen and binding) or binding.cut == "bias" or wishes.have:
        return None
    if (edge.fabric, edge.supplied_by) != (wishes.fabric, wishes.supplied_by):
        return None
    width, finest = strip_width(edge), FINEST[project.units]
    strips = sorted(_strips(backing.chosen, width, project.sewing.shortest_piece, finest), reverse=True)
    if not strips:
        return None
    whole = Length.of(1, project.units)
    return plan_binding(shape, edge._replace(cut="leftover"), project.currency, whole, tuple(strips))


def _strips(chosen: BackingOption, width: Length, shortest: Length, finest: Length) -> Iterator[Length]:
    """The strips beside each row of pieces, as long as the row. Pieces are cut up to the finest step, so that much
    less is left."""
    usable = chosen.layout.grid.length(chosen.layout.row.usable)
    for cloth in chosen.cloths:
        for start in {cut.y for cut in cloth.cuts}:
            row = [cut for cut in cloth.cuts if cut.y == start]
            left = usable - sum((up_to_step(cut.width, finest) for cut in row), ZERO)
            long = max(cut.length for cut in row)
            if left >= width and long >= shortest:
                yield from [long] * int(left / width)
