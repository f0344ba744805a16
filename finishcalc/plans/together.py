"""Plans all parts of the work, in the order in which they need each other, and adds up their cloth and hours."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

from finishcalc.measures.length import Length, Size
from finishcalc.measures.rounding import FINEST
from finishcalc.model.cover import Cover
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Binding, Project
from finishcalc.model.shop import EdgeWork
from finishcalc.plans.backing.customer_cloth import BindingFromBrought
from finishcalc.plans.backing.on_cloth import backing_bands, strip_bands
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan, plan_backing
from finishcalc.plans.batting import BattingPlan, plan_batting
from finishcalc.plans.cautions import Caution, use_cautions
from finishcalc.plans.cloth import CutLength, unmatched_cut_lengths, usable_width_of
from finishcalc.plans.cutting.layout import ClothLayout
from finishcalc.plans.cutting.purchases import FromOffcuts, Need, Purchase, bolt_cautions, lay_needs, plan_cloth
from finishcalc.plans.edge.binding import BindingPlan, plan_binding
from finishcalc.plans.edge.hem import HemPlan, plan_hem
from finishcalc.plans.edge.leftover import binding_from, leftover_cautions, why_none
from finishcalc.plans.hours import EDGE_WORK, Hours, StageTime, edge_stages, in_order_of_work, seam_stage
from finishcalc.plans.pieced.plan import PiecedPlan, plan_pieced
from finishcalc.plans.quilting.plan import QuiltingPlan, plan_quilting
from finishcalc.plans.top.cover import cover_cautions
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.top.plan import TopPlan, plan_top
from finishcalc.wording.sentence import Sentence


class Part(NamedTuple):
    """A part of the work: its arithmetic, its cautions, the cloth it needs and the stages of its time. Every part has
    the same record, so that what is true of all parts is a loop over them. `key` names it in documents, `heading` on
    pages. A part that is not wanted has its names alone."""

    key: str
    heading: str
    working: Sequence[Sentence] = ()
    cautions: Sequence[Caution] = ()
    needs: tuple[Need, ...] = ()
    stages: tuple[StageTime, ...] = ()


@dataclass(frozen=True)
class Plans:
    """The plans of all that finishes a top; one that is not wanted is None. `edge` has the stages of the binding or the
    hem. `parts` are the same plans as parts of the work, in the order in which they are spoken of; `cloth` has one
    purchase for each cloth that they need."""

    top: TopPlan
    pieced: PiecedPlan | None
    backing: BackingPlan | None
    batting: BattingPlan | None
    binding: BindingPlan | None
    hem: HemPlan | None
    quilting: QuiltingPlan
    edge: tuple[StageTime, ...]
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

    The plans of the top are taken from `before`, which has the same top. A backing given `instead` is taken as it is.
    """
    top = before.top if before else plan_top(project.top, project.measuring, project.units)
    shape = top.shape
    pieced = before.pieced if before else _plan_piecing(project)
    binding = _plan_binding(project, shape)
    backing = instead or _plan_backing(project, shape, binding)
    if binding and binding.cut == "leftover":
        binding = _from_leftover(project, shape, pieced, backing, binding) or binding
    batting = _plan_batting(project, shape, backing)
    hem = plan_hem(shape, project.hem) if project.hem else None
    quilting = _plan_quilting(project, shape, hem, backing)
    plans = Plans(
        top=top,
        pieced=pieced,
        backing=backing,
        batting=batting,
        binding=binding,
        hem=hem,
        quilting=quilting,
        edge=_edge_stages(project, shape, binding, hem),
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


def with_binding(project: Project, plans: Plans, binding: BindingPlan) -> Plans:
    """Replace the binding by one of the same cloth and finish that is cut in another way, and buy that cloth anew."""
    return _with_cloth_anew(project, replace(plans, binding=binding), binding.fabric)


def _with_cloth_anew(project: Project, plans: Plans, fabric: Fabric) -> Plans:
    """Make the parts of the backing and the binding anew, and the purchases of one cloth; all others stay."""
    anew = {part.key: part for part in (_backing_part(plans.backing), _binding_part(project, plans))}
    parts = tuple(anew.get(part.key, part) for part in plans.parts)
    needs = [need for need in _needs(parts) if need.fabrics[0] == fabric]
    bought = iter(plan_cloth(needs, project.currency, project.sewing))
    cloth = tuple(next(bought) if purchase.fabric == fabric else purchase for purchase in plans.cloth)
    return replace(plans, parts=parts, cloth=cloth)


def _needs(parts: tuple[Part, ...]) -> list[Need]:
    return [need for part in parts for need in part.needs]


def _parts(project: Project, plans: Plans) -> tuple[Part, ...]:
    """Gather the plans as parts of the work."""
    quilting = plans.quilting
    return (
        Part("top", "Top", plans.top.working, plans.top.cautions),
        _piecing_part(plans.pieced),
        _backing_part(plans.backing),
        _batting_part(plans.batting),
        _binding_part(project, plans),
        _hem_part(plans.hem, plans.edge),
        Part("quilting", "Quilting", quilting.working, quilting.cautions, stages=quilting.hours.stages),
    )


def _edge_stages(
    project: Project, shape: Shape, binding: BindingPlan | None, hem: HemPlan | None
) -> tuple[StageTime, ...]:
    attach = "hem" if hem else binding.attach if binding else None
    return tuple(edge_stages(attach, shape.perimeter, project.edge_time)) if attach else ()


def _piecing_part(pieced: PiecedPlan | None) -> Part:
    if not pieced:
        return Part("piecing", "Piecing")
    supplier = pieced.top.supplied_by
    needs = tuple(Need((cut.use,), (cut.fabric,), supplier, ways=(cut.ways,)) for cut in pieced.cuts)
    return Part("piecing", "Piecing", pieced.working, pieced.cautions, needs)


def _backing_part(backing: BackingPlan | None) -> Part:
    """Need cloth for the backing, or the shop's for strips at the customer's backing, and time for its seams."""
    if not backing:
        return Part("backing", "Backing")
    needs, fabric = [], (backing.fabric,)
    if backing.chosen:
        bands = tuple(backing_bands(backing.chosen, backing.inputs.finest))
        needs.append(Need(("backing",), fabric, backing.inputs.spec.supplied_by, bands))
    if backing.strips:
        strips = tuple(strip_bands(backing.strips, usable_width_of(backing.fabric)))
        needs.append(Need(("strip",), fabric, "shop", strips))
    stages = (seam_stage(backing.seam_minutes),) if backing.seams else ()
    return Part("backing", "Backing", backing.working, backing.cautions, tuple(needs), stages)


def _batting_part(batting: BattingPlan | None) -> Part:
    return Part("batting", "Batting", batting.working, batting.cautions) if batting else Part("batting", "Batting")


def _binding_part(project: Project, plans: Plans) -> Part:
    backing, binding, edge = plans.backing, plans.binding, project.binding
    if not binding or not edge:
        return Part("binding", "Binding")
    brought = backing.customer_supplied if backing else None
    need = Need(
        uses=("binding",),
        fabrics=(binding.fabric,),
        supplied_by="customer" if brought and brought.holds_binding else edge.supplied_by,
        bands=() if binding.crosswise else binding.bands,
        after=binding.bands if binding.crosswise else (),
        offcuts=_strips_from_offcuts(project, edge, binding),
        apart=brought is not None and brought.verdict == "without-binding",
    )
    needs = () if binding.needs_no_cloth else (need,)
    of_top = bool(_needs_of_top(project, plans.pieced))
    cautions = (*binding.cautions, *leftover_cautions(project, backing, binding, of_top))
    return Part("binding", "Binding", binding.working, cautions, needs, plans.edge)


def _strips_from_offcuts(project: Project, edge: Binding, binding: BindingPlan) -> FromOffcuts | None:
    if not binding.offcuts or binding.at_hand:
        return None
    shortest = _shortest_strip(project, edge)
    return FromOffcuts("binding", binding.strip_width, shortest, edge.cut == "lengthwise", len(binding.offcuts))


def binding_from_leftover(project: Project, plans: Plans) -> BindingPlan | None:
    """Plan the binding with as many strips as the offcuts of its cloth give, the rest across the cloth; None
    where there are none, or where it is cut on the bias or from an offcut that is at hand.

    Where the project does not ask for leftovers, no strip is shorter than half the cloth's width, because a binding of
    many short strips is no saving.
    """
    return _from_leftover(project, plans.top.shape, plans.pieced, plans.backing, plans.binding)


def _from_leftover(
    project: Project, shape: Shape, pieced: PiecedPlan | None, backing: BackingPlan | None, binding: BindingPlan | None
) -> BindingPlan | None:
    if not binding or not project.binding or binding.cut == "bias" or binding.at_hand:
        return None
    needs = list(_needs_of_top(project, pieced))
    if not why_none(project, backing):
        needs += [need for need in _backing_part(backing).needs if need.fabrics[0] == binding.fabric]
    if not needs:
        return None
    layout, _ = lay_needs(needs, project.sewing)
    from_offcuts = binding_from(project, shape, layout, _shortest_strip(project, project.binding))
    return from_offcuts._replace(cautions=binding.cautions) if from_offcuts else None


def _shortest_strip(project: Project, edge: Binding) -> Length:
    shortest = project.sewing.cloth.shortest_piece
    return shortest if edge.cut == "leftover" else max(shortest, usable_width_of(edge.fabric) / 2)


def _needs_of_top(project: Project, pieced: PiecedPlan | None) -> tuple[Need, ...]:
    """The parts of the top that are cut from the cloth of the binding."""
    edge = project.binding
    if not edge or not pieced or edge.supplied_by != pieced.top.supplied_by:
        return ()
    return tuple(need for need in _piecing_part(pieced).needs if need.fabrics[0] == edge.fabric)


def _hem_part(hem: HemPlan | None, stages: tuple[StageTime, ...]) -> Part:
    return Part("hem", "Edge", hem.working, hem.cautions, stages=stages) if hem else Part("hem", "Edge")


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
    return plan_batting(shape, project.batting, project.currency, smaller)


def _plan_quilting(project: Project, shape: Shape, hem: HemPlan | None, backing: BackingPlan | None) -> QuiltingPlan:
    """Plan the quilting of the top as it is edged, on the backing as it is loaded."""
    edged = Size(hem.width, hem.length) if hem else Size(shape.width, shape.length)
    loaded = backing.on_frame if backing else (shape.width, shape.length)
    product = project.batting.product if project.batting else None
    return plan_quilting(shape, edged, project.top, loaded, product, project.quilting, project.thread, project.frame)


def binding_from_supplied_cloth(
    project: Project, shape: Shape, binding: BindingPlan | None
) -> BindingFromBrought | None:
    """Give the binding that is cut from the customer's cloth for the backing: her own, and one that is to come from
    beside the backing's pieces, whoever supplies it."""
    backing, edge = project.backing, project.binding
    if not (backing and edge and binding) or not backing.have or edge.fabric != backing.fabric:
        return None
    if binding.needs_no_cloth:
        return None
    must_fit = edge.supplied_by == "customer"
    if not must_fit and binding.cut != "leftover":
        return None

    def cut_lengths(option: BackingOption) -> tuple[CutLength, ...]:
        layout = ClothLayout(option.layout.usable_width, tuple(backing_bands(option, FINEST[project.units])))
        shortest = project.sewing.cloth.shortest_piece
        beside = binding_from(project, shape, layout, shortest) if binding.cut == "leftover" else None
        return unmatched_cut_lengths(*(beside or binding).cut_lengths)

    return BindingFromBrought(cut_lengths, binding.cut_length, must_fit)


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
