"""Plans the whole of a top: its parts in the order in which they need each other, side by side in one record."""

from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Cover
from finishcalc.model.project import Project
from finishcalc.model.shop import EdgeWork
from finishcalc.plans.backing.plan import BackingPlan, plan_backing
from finishcalc.plans.batting import BattingPlan, plan_batting
from finishcalc.plans.cautions import Caution, use_cautions
from finishcalc.plans.cloth import Need, Purchase, bolt_cautions, plan_cloth, unmatched_cut_lengths
from finishcalc.plans.edge.binding import BindingPlan, plan_binding
from finishcalc.plans.edge.hem import HemPlan, plan_hem
from finishcalc.plans.edge.leftover import from_leftover, leftover_cautions
from finishcalc.plans.hours import EDGE_WORK, Hours, edge_stages, hours_of, seam_stage
from finishcalc.plans.pieced.plan import PiecedPlan, plan_pieced
from finishcalc.plans.quilting.plan import QuiltingPlan, plan_quilting
from finishcalc.plans.top.cover import cover_cautions
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.top.plan import TopPlan, plan_top


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
    def edge_times(self) -> tuple[EdgeWork, ...]:
        """The kinds of work at the edge, by the names of their times."""
        return EDGE_WORK["hem"] if self.hem else EDGE_WORK[self.binding.attach] if self.binding else ()


def make_plans(project: Project, before: Plans | None = None, instead: BackingPlan | None = None) -> Plans:
    """Plan the top, the three layers, the quilting, and one length for each cloth.

    The top is taken from `before`, where the same one was planned already, and the backing is `instead` of its own.
    """
    top = before.top if before else plan_top(project.top, project.measuring, project.units)
    shape, currency = top.shape, project.currency
    pieced = before.pieced if before else _plan_piecing(project)
    binding = _plan_binding(project, shape)
    backing = instead or _plan_backing(project, shape, binding)
    if binding and binding.cut == "leftover":
        binding = from_leftover(project, shape, backing, binding) or binding
    batting = plan_batting(shape, project.batting, currency) if project.batting else None
    hem = plan_hem(shape, project.hem) if project.hem else None
    quilting = _plan_quilting(project, shape, hem, backing)
    hours = plan_hours(project, shape, quilting, backing)
    cloth = plan_cloth(cloth_needs(project, pieced, backing, binding), currency)
    return Plans(top, pieced, backing, batting, binding, hem, quilting, hours, cloth)


def _plan_piecing(project: Project) -> PiecedPlan | None:
    pieced = project.top.pieced
    return plan_pieced(pieced, FINEST[project.units], project.sewing.cloth.shortest_piece) if pieced else None


def _plan_binding(project: Project, shape: Shape) -> BindingPlan | None:
    whole = Length.of(1, project.units)
    return plan_binding(shape, project.binding, project.currency, whole) if project.binding else None


def _plan_backing(project: Project, shape: Shape, binding: BindingPlan | None) -> BackingPlan | None:
    if not project.backing:
        return None
    return plan_backing(
        shape, project.backing, project.sewing, project.currency, binding_from_supplied_cloth(project, binding)
    )


def _plan_quilting(project: Project, shape: Shape, hem: HemPlan | None, backing: BackingPlan | None) -> QuiltingPlan:
    """Plan the quilting of the top as it is edged, on the backing as it is loaded."""
    edged = Size(hem.width, hem.length) if hem else Size(shape.width, shape.length)
    loaded = backing.on_frame if backing else (shape.width, shape.length)
    product = project.batting.product if project.batting else None
    return plan_quilting(shape, edged, project.top, loaded, product, project.quilting, project.thread, project.frame)


def cloth_needs(
    project: Project, pieced: PiecedPlan | None, backing: BackingPlan | None, binding: BindingPlan | None
) -> list[Need]:
    """What each part takes of its cloth."""
    needs = _top_needs(pieced) if pieced else []
    if backing and project.backing and backing.chosen:
        by = project.backing.supplied_by
        needs.append(Need(("backing",), (backing.fabric,), by, backing.chosen.cut_lengths))
    if backing and backing.customer_supplied and backing.customer_supplied.strip:
        strip = unmatched_cut_lengths(backing.customer_supplied.strip.cut_length)
        needs.append(Need(("strip",), (backing.fabric,), "shop", strip))
    if binding and project.binding:
        by, strips = project.binding.supplied_by, unmatched_cut_lengths(*binding.cut_lengths)
        needs.append(Need(("binding",), (binding.fabric,), by, strips))
    return needs


def _top_needs(pieced: PiecedPlan) -> list[Need]:
    by = pieced.top.supplied_by
    return [Need(each.uses, each.fabrics, by, each.cut_lengths) for each in pieced.cloths]


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


def hang_cautions(covers: Cover, plans: Plans, usual_table: Length) -> list[Caution]:
    """How the top that is planned hangs on what it covers, as it comes and once it is finished."""
    shape = plans.top.shape
    finished = covers.drawn_up(plans.quilting.draw_up, Size(shape.width, shape.length))
    return list(cover_cautions(covers, finished, shape.corner, usual_table))
