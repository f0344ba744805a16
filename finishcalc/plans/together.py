"""All plans of one top, side by side."""

from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.cover import Covers
from finishcalc.model.pieced import Size
from finishcalc.model.project import Project
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting import BattingPlan
from finishcalc.plans.cautions import Caution, use_cautions
from finishcalc.plans.cloth import Need, Purchase, bolt_cautions, unmatched_cut_lengths
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.hem import HemPlan
from finishcalc.plans.edge.leftover import leftover_cautions
from finishcalc.plans.hours import EDGE_WORK, Hours, edge_stages, hours_of, seam_stage
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.quilting.plan import QuiltingPlan
from finishcalc.plans.top.cover import cover_cautions
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.top.plan import TopPlan

BACKING_PRICE = "backing.fabric.price"


class Plans(NamedTuple):
    """Everything it takes to finish a top. A part that is not wanted is None; `hours` are those of the quilting, the
    seams of the backing and the edge together; `cloth` has one length for each cloth."""

    top: TopPlan
    pieced: PiecedPlan | None
    backing: BackingPlan | None
    batting: BattingPlan | None
    binding: BindingPlan | None
    hem: HemPlan | None
    quilting: QuiltingPlan
    hours: Hours
    cloth: tuple[Purchase, ...]

    @property
    def edge_times(self) -> tuple[str, ...]:
        """The kinds of work at the edge, by the names of their times."""
        return EDGE_WORK["hem"] if self.hem else EDGE_WORK[self.binding.attach] if self.binding else ()


def cloth_needs(
    project: Project, pieced: PiecedPlan | None, backing: BackingPlan | None, binding: BindingPlan | None
) -> list[Need]:
    """Give the cloth that each part takes, with the key path of its price."""
    needs = _top_needs(pieced) if pieced else []
    if backing and project.backing and backing.chosen:
        by = project.backing.supplied_by
        needs.append(Need(("backing",), backing.fabric, by, backing.chosen.cut_lengths, (BACKING_PRICE,)))
    if backing and backing.customer_supplied and backing.customer_supplied.strip:
        strip = unmatched_cut_lengths(backing.customer_supplied.strip.cut_length)
        needs.append(Need(("strip",), backing.fabric, "shop", strip, (BACKING_PRICE,)))
    if binding and project.binding:
        by, strips = project.binding.supplied_by, unmatched_cut_lengths(*binding.cut_lengths)
        needs.append(Need(("binding",), binding.fabric, by, strips, ("binding.fabric.price",)))
    return needs


def _top_needs(pieced: PiecedPlan) -> list[Need]:
    by = pieced.top.supplied_by
    return [Need(each.uses, each.fabric, by, each.cut_lengths, each.priced_at) for each in pieced.cloths]


def binding_from_supplied_cloth(project: Project, binding: BindingPlan | None) -> Length:
    """Give the cut length of a binding that comes from the cloth the customer supplies for the backing."""
    backing, edge = project.backing, project.binding
    if not (backing and edge and binding) or backing.supplied_by != "customer" or edge.supplied_by != "customer":
        return ZERO
    return binding.cut_length if edge.fabric == backing.fabric else ZERO


def plan_hours(project: Project, shape: Shape, quilting: QuiltingPlan, backing: BackingPlan | None) -> Hours:
    """The hours of the whole work, stage by stage."""
    stages = list(quilting.hours.stages)
    if backing and backing.seams:
        stages.insert(0, seam_stage(backing.seam_minutes))
    attach = "hem" if project.hem else project.binding.attach if project.binding else None
    if attach:
        stages += edge_stages(attach, shape.perimeter, project.edge_time)
    return hours_of(stages)


def plan_cautions(project: Project, plans: Plans) -> list[Caution]:
    """Gather the cautions: first those of the plans, then those of the use."""
    parts = (plans.top, plans.pieced, plans.backing, plans.batting, plans.hem, plans.quilting)
    found = [told for part in parts if part for told in part.cautions]
    found += leftover_cautions(project, plans.backing, plans.binding)
    if project.top.covers:
        found += hang_cautions(project.top.covers, plans, project.measuring.table_height)
    return found + bolt_cautions(plans.cloth) + use_cautions(project.top, project.job)


def hang_cautions(covers: Covers, plans: Plans, usual_table: Length) -> list[Caution]:
    """Warn where the planned top hangs badly on what it covers, as it comes or once it is finished."""
    shape = plans.top.shape
    finished = covers.drawn_up(plans.quilting.draw_up, Size(shape.width, shape.length))
    return list(cover_cautions(covers, finished, shape.corner, usual_table))
