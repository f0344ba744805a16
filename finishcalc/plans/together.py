"""Plans all parts of the work, in the order in which they need each other, and adds up their cloth and hours."""

from dataclasses import dataclass, replace
from functools import cached_property

from finishcalc.measures.length import Length, Size
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Cover
from finishcalc.model.materials import Batting, Fabric
from finishcalc.model.project import Project, Quilting, TopSpec
from finishcalc.model.shop import EdgeWork, Frame, Thread, Washing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan, plan_backing
from finishcalc.plans.batting.plan import BattingPlan, plan_batting
from finishcalc.plans.cautions import Caution, use_cautions
from finishcalc.plans.cutting.purchases import Need, Purchase, bolt_cautions, plan_cloth
from finishcalc.plans.edge.binding import BindingPlan, plan_binding
from finishcalc.plans.edge.hem import HemPlan, plan_hem
from finishcalc.plans.extras import ExtraPlans, plan_extras
from finishcalc.plans.hours import EDGE_WORK, Hours, StageTime, edge_stages, in_order_of_work
from finishcalc.plans.parts import (
    Part,
    backing_part,
    batting_part,
    binding_from_supplied_cloth,
    binding_part,
    extras_part,
    from_leftover,
    hem_part,
    piecing_part,
    weight_part,
)
from finishcalc.plans.pieced.plan import PiecedPlan, plan_pieced
from finishcalc.plans.quilting.plan import QuiltingPlan, plan_quilting
from finishcalc.plans.top.cover import cover_cautions
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.top.plan import TopPlan, plan_top
from finishcalc.plans.washing import is_prewashed
from finishcalc.plans.weight import WeightPlan, plan_weight

QuiltingInputs = tuple[
    Shape, Size, TopSpec, tuple[Length, Length], Batting | None, Quilting, Thread, Frame, Washing, bool
]
"""The arguments of `plan_quilting`."""


@dataclass(frozen=True)
class Plans:
    """The plans of all that finishes a top; one that is not wanted is None. `edge` has the stages of the binding or the
    hem; `quilted_from` is what the quilting was planned from. `parts` are the same plans as parts of the work, in the
    order in which they are spoken of; `cloth` has one purchase for each cloth that they need."""

    top: TopPlan
    pieced: PiecedPlan | None
    backing: BackingPlan | None
    batting: BattingPlan | None
    binding: BindingPlan | None
    hem: HemPlan | None
    quilting: QuiltingPlan
    weight: WeightPlan
    edge: tuple[StageTime, ...]
    extras: ExtraPlans
    quilted_from: QuiltingInputs
    parts: tuple[Part, ...] = ()
    cloth: tuple[Purchase, ...] = ()

    @cached_property
    def hours(self) -> Hours:
        """The stages of all parts, added up."""
        return Hours(tuple(in_order_of_work(stage for part in self.parts for stage in part.stages)))

    def differ_in_cloth_and_seams(self, other: "Plans") -> bool:
        """Tell plans that are the same but for the cloth and the seams of the backing and the binding."""
        return self.quilting is other.quilting and self.edge is other.edge

    @property
    def edge_times(self) -> tuple[EdgeWork, ...]:
        """The kinds of work at the edge, by the names of their times."""
        return EDGE_WORK["hem"] if self.hem else EDGE_WORK[self.binding.attach] if self.binding else ()


def make_plans(project: Project, before: Plans | None = None, instead: BackingPlan | None = None) -> Plans:
    """Plan the top, the three layers, the edge and the quilting, then the cloth of all of them.

    The plans of the top are taken from `before`, which has the same top, and so is the quilting where it is planned
    from the same. A backing given `instead` is taken as it is.
    """
    top = before.top if before else plan_top(project.top, project.measuring, project.units)
    shape = top.shape
    pieced = before.pieced if before else _plan_piecing(project)
    binding = _plan_binding(project, shape)
    backing = instead or _plan_backing(project, shape, binding)
    extras = plan_extras(project, shape)
    if binding and binding.cut == "leftover":
        binding = from_leftover(project, shape, pieced, backing, binding, extras) or binding
    batting = _plan_batting(project, shape, backing)
    hem = plan_hem(shape, project.hem) if project.hem else None
    inputs = _quilting_inputs(project, shape, pieced, hem, backing)
    quilting = before.quilting if before and before.quilted_from == inputs else plan_quilting(*inputs)
    plans = Plans(
        top=top,
        pieced=pieced,
        backing=backing,
        batting=batting,
        binding=binding,
        hem=hem,
        quilting=quilting,
        weight=plan_weight(project, shape, pieced, backing, batting, binding),
        edge=_edge_stages(project, shape, binding, hem),
        extras=extras,
        quilted_from=inputs,
    )
    parts = _parts(project, plans)
    return replace(plans, parts=parts, cloth=plan_cloth(_needs(parts), project.currency, project.sewing))


def with_backing(project: Project, plans: Plans, option: BackingOption) -> Plans:
    """Make the backing by another of its options, and plan again what depends on it."""
    if not plans.backing or plans.backing.chosen is option:
        return plans
    backing = plans.backing.with_option(option)
    if backing.on_frame == plans.backing.on_frame and not (plans.binding and plans.binding.cut == "leftover"):
        return _with_cloth_anew(project, replace(plans, backing=backing), backing.fabric)
    return make_plans(project, plans, backing)


def with_binding(project: Project, plans: Plans, binding: BindingPlan, before: Plans | None = None) -> Plans:
    """Replace the binding by one of the same cloth and finish that is cut in another way, and buy that cloth anew, or
    as in the plans `before` where these need the same of it."""
    return _with_cloth_anew(project, replace(plans, binding=binding), binding.fabric, before)


def with_extras(project: Project, plans: Plans) -> Plans:
    """Plan the extras of a project anew, and the cloths that they are or were cut from; nothing else differs."""
    extras = plan_extras(project, plans.top.shape)
    part = extras_part(project, plans.backing, plans.binding, extras)
    before = next(each for each in plans.parts if each.key == part.key)
    parts = tuple(part if each is before else each for each in plans.parts)
    needs, changed = _needs(parts), {need.fabrics[0] for need in (*part.needs, *before.needs)}
    anew = plan_cloth([each for each in needs if each.fabrics[0] in changed], project.currency, project.sewing)
    bought, kept = iter(anew), (each for each in plans.cloth if each.fabric not in changed)
    order = dict.fromkeys((need.fabrics[0], need.supplied_by, need.apart) for need in needs)
    cloth = tuple(next(bought if fabric in changed else kept) for fabric, *_ in order)
    return replace(plans, extras=extras, parts=parts, cloth=cloth)


def _with_cloth_anew(project: Project, plans: Plans, fabric: Fabric, before: Plans | None = None) -> Plans:
    """Make the parts of the backing and the binding anew, and the purchases of one cloth; all others stay."""
    anew = {part.key: part for part in (backing_part(plans.backing), _binding_part(project, plans))}
    parts = tuple(anew.get(part.key, part) for part in plans.parts)
    needs = _needs(parts, fabric)
    if before and _needs(before.parts, fabric) == needs:
        bought = iter([purchase for purchase in before.cloth if purchase.fabric == fabric])
    else:
        bought = iter(plan_cloth(needs, project.currency, project.sewing))
    cloth = tuple(next(bought) if purchase.fabric == fabric else purchase for purchase in plans.cloth)
    return replace(plans, parts=parts, cloth=cloth)


def _needs(parts: tuple[Part, ...], fabric: Fabric | None = None) -> list[Need]:
    """The cloth that parts need: all, or of one fabric."""
    return [need for part in parts for need in part.needs if fabric is None or need.fabrics[0] == fabric]


def _parts(project: Project, plans: Plans) -> tuple[Part, ...]:
    """Gather the plans as parts of the work."""
    quilting = plans.quilting
    return (
        Part("top", "Top", plans.top.working, plans.top.cautions),
        piecing_part(plans.pieced),
        backing_part(plans.backing),
        batting_part(plans.batting),
        _binding_part(project, plans),
        hem_part(plans.hem, plans.edge),
        Part("quilting", "Quilting", quilting.working, quilting.cautions, stages=quilting.hours.stages),
        extras_part(project, plans.backing, plans.binding, plans.extras),
        weight_part(plans.weight),
    )


def _binding_part(project: Project, plans: Plans) -> Part:
    return binding_part(project, plans.pieced, plans.backing, plans.binding, plans.edge)


def _edge_stages(
    project: Project, shape: Shape, binding: BindingPlan | None, hem: HemPlan | None
) -> tuple[StageTime, ...]:
    attach = "hem" if hem else binding.attach if binding else None
    return tuple(edge_stages(attach, shape.perimeter, project.edge_time)) if attach else ()


def binding_from_leftover(project: Project, plans: Plans) -> BindingPlan | None:
    """Plan the binding of these plans from the offcuts of its cloth: see `from_leftover`."""
    return from_leftover(project, plans.top.shape, plans.pieced, plans.backing, plans.binding, plans.extras)


def _plan_piecing(project: Project) -> PiecedPlan | None:
    pieced = project.top.pieced
    return plan_pieced(pieced, FINEST[project.units], project.sewing.cloth.shortest_piece) if pieced else None


def _plan_binding(project: Project, shape: Shape) -> BindingPlan | None:
    edge, unit, shortest = project.binding, Length.of(1, project.units), project.sewing.cloth.shortest_piece
    either_grain = not project.cut_is_fixed
    return plan_binding(shape, edge, project.currency, unit, (), shortest, either_grain) if edge else None


def _plan_backing(project: Project, shape: Shape, binding: BindingPlan | None) -> BackingPlan | None:
    if not project.backing:
        return None
    from_brought = binding_from_supplied_cloth(project, shape, binding)
    return plan_backing(shape, project.backing, project.sewing, project.currency, FINEST[project.units], from_brought)


def _plan_batting(project: Project, shape: Shape, backing: BackingPlan | None) -> BattingPlan | None:
    """Plan the batting, which goes down with a backing whose overage is smaller than the project's."""
    if not project.batting:
        return None
    smaller = backing.overage if backing and project.backing and backing.overage != project.backing.overage else None
    finest = FINEST[project.units]
    return plan_batting(shape, project.batting, project.sewing, project.currency, finest, smaller)


def _quilting_inputs(
    project: Project, shape: Shape, pieced: PiecedPlan | None, hem: HemPlan | None, backing: BackingPlan | None
) -> QuiltingInputs:
    """Give all that the quilting is planned from: the top as it is edged, on the backing as it is loaded."""
    edged = Size(hem.width, hem.length) if hem else Size(shape.width, shape.length)
    loaded = backing.on_frame if backing else (shape.width, shape.length)
    product = project.batting.product if project.batting else None
    prewashed = is_prewashed(project, pieced)
    return (
        shape,
        edged,
        project.top,
        loaded,
        product,
        project.quilting,
        project.thread,
        project.frame,
        project.washing,
        prewashed,
    )


def plan_cautions(project: Project, plans: Plans) -> list[Caution]:
    """Gather the cautions: first those of the plans, then those of the use."""
    cautions = [caution for part in plans.parts for caution in part.cautions]
    if project.top.covers:
        cautions += hang_cautions(project.top.covers, plans, project.measuring.table_height)
    return cautions + bolt_cautions(plans.cloth) + use_cautions(project.top, project.job)


def hang_cautions(covers: Cover, plans: Plans, usual_table: Length) -> list[Caution]:
    """Warn of a planned top that reaches the floor, before it is quilted, or lets the mattress show, once it is."""
    shape = plans.top.shape
    finished = covers.drawn_up(plans.quilting.draw_up, Size(shape.width, shape.length))
    return list(cover_cautions(covers, finished, shape.corner, usual_table))
