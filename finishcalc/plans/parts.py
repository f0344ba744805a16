"""The parts of the work: each with its arithmetic, its cautions, the cloth it needs and the stages of its time."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST
from finishcalc.model.project import Binding, Project
from finishcalc.plans.backing.customer_cloth import BindingFromBrought
from finishcalc.plans.backing.on_cloth import backing_bands, strip_bands
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.cautions import Caution
from finishcalc.plans.cloth import CutLength, unmatched_cut_lengths, usable_width_of, washed_length
from finishcalc.plans.cutting.layout import ClothLayout
from finishcalc.plans.cutting.purchases import FromOffcuts, Need, lay_needs
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.edge.hem import HemPlan
from finishcalc.plans.edge.leftover import binding_from, leftover_cautions, why_none
from finishcalc.plans.extras import ExtraPlans
from finishcalc.plans.hours import StageTime, seam_stage
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.top.outline import Shape
from finishcalc.plans.weight import WeightPlan
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


def piecing_part(pieced: PiecedPlan | None) -> Part:
    """Need cloth for the parts of a pieced top, each with the ways to cut it."""
    if not pieced:
        return Part("piecing", "Piecing")
    supplier = pieced.top.supplied_by
    needs = tuple(
        Need((cut.use,), (cut.fabric,), supplier, ways=(cut.ways,), turnable_ways=(cut.turnable_ways or cut.ways,))
        for cut in pieced.cuts
    )
    return Part("piecing", "Piecing", pieced.working, pieced.cautions, needs)


def backing_part(backing: BackingPlan | None) -> Part:
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


def batting_part(batting: BattingPlan | None) -> Part:
    """Give the batting's arithmetic and cautions, and time for its seams."""
    if not batting:
        return Part("batting", "Batting")
    stages = (_joining_stage(batting.seam_minutes),) if batting.seams else ()
    return Part("batting", "Batting", batting.working, batting.cautions, stages=stages)


def _joining_stage(minutes: Fraction) -> StageTime:
    return StageTime("join the batting", minutes, minutes, minutes, Fraction(1), on_frame=False, work="seams")


def binding_part(
    project: Project,
    pieced: PiecedPlan | None,
    backing: BackingPlan | None,
    binding: BindingPlan | None,
    stages: tuple[StageTime, ...],
) -> Part:
    """Need cloth for the binding, besides what comes from offcuts, and the time of its stages."""
    edge = project.binding
    if not binding or not edge:
        return Part("binding", "Binding")
    needs = () if binding.needs_no_cloth else (_binding_need(project, edge, backing, binding),)
    of_top = bool(_needs_of_top(project, pieced))
    cautions = (*binding.cautions, *leftover_cautions(project, backing, binding, of_top))
    return Part("binding", "Binding", binding.working, cautions, needs, stages)


def _binding_need(project: Project, edge: Binding, backing: BackingPlan | None, binding: BindingPlan) -> Need:
    brought = backing.customer_supplied if backing else None
    return Need(
        uses=("binding",),
        fabrics=(binding.fabric,),
        supplied_by="customer" if brought and brought.holds_binding else edge.supplied_by,
        bands=() if binding.crosswise else binding.bands,
        after=binding.bands if binding.crosswise else (),
        offcuts=_strips_from_offcuts(project, edge, binding),
        apart=brought is not None and brought.verdict == "without-binding",
    )


def _strips_from_offcuts(project: Project, edge: Binding, binding: BindingPlan) -> FromOffcuts | None:
    if not binding.offcuts or binding.at_hand:
        return None
    shortest = _shortest_strip(project, edge)
    return FromOffcuts("binding", binding.strip_width, shortest, edge.cut == "lengthwise", len(binding.offcuts))


def from_leftover(
    project: Project,
    shape: Shape,
    pieced: PiecedPlan | None,
    backing: BackingPlan | None,
    binding: BindingPlan | None,
    extras: ExtraPlans,
) -> BindingPlan | None:
    """Plan the binding with as many strips as the offcuts of its cloth give once the extras are cut from them, the rest
    across the cloth; None where there are none, or where it is cut on the bias or from an offcut that is at hand.

    Where the project does not ask for leftovers, no strip is shorter than half the cloth's width, because a binding of
    many short strips is no saving.
    """
    if not binding or not project.binding or binding.cut == "bias" or binding.at_hand:
        return None
    of_top, of_backing = _needs_of_top(project, pieced), tuple[Need, ...]()
    if not why_none(project, backing):
        of_backing = tuple(need for need in backing_part(backing).needs if need.fabrics[0] == binding.fabric)
    if not of_top and not of_backing:
        return None
    of_extras = _needs_with(extra_needs(project, backing, binding, extras), binding, [*of_top, *of_backing])
    layout, _ = lay_needs([*of_top, *of_backing, *of_extras], project.sewing)
    from_offcuts = binding_from(project, shape, layout, _shortest_strip(project, project.binding))
    beside: Literal["backing", "top", "backing and top"] = "backing and top"
    if not of_top or not of_backing:
        beside = "top" if of_top else "backing"
    return from_offcuts._replace(cautions=binding.cautions, beside=beside) if from_offcuts else None


def _needs_with(needs: Iterable[Need], binding: BindingPlan, others: Sequence[Need]) -> Iterator[Need]:
    """Give the needs that are bought in one length with others of the binding's cloth."""
    bought_with = {(need.supplied_by, need.apart) for need in others}
    for need in needs:
        if need.fabrics[0] == binding.fabric and (need.supplied_by, need.apart) in bought_with:
            yield need


def extras_part(project: Project, backing: BackingPlan | None, binding: BindingPlan | None, extras: ExtraPlans) -> Part:
    """Need cloth for the extras that are cut from it."""
    needs = tuple(extra_needs(project, backing, binding, extras))
    return Part("extras", "Extras", [extra.working for extra in extras.cut], extras.cautions, needs)


def extra_needs(
    project: Project, backing: BackingPlan | None, binding: BindingPlan | None, extras: ExtraPlans
) -> Iterator[Need]:
    """Need cloth for each extra. Of cloth that the customer brings for the backing, extras are cut as far as it holds
    them; the shop buys it for the others, and for those at a backing that is made already."""
    from_hers: list[Need] = []
    for extra in extras.cut:
        need = Need((extra.use,), (extra.fabric,), extra.supplied_by, ways=(extra.ways,), turnable_ways=(extra.ways,))
        is_hers = extra.supplied_by == "customer" and backing is not None and extra.fabric == backing.fabric
        if not is_hers or not backing or not backing.customer_supplied:
            yield need
        elif not backing.chosen:
            yield need._replace(supplied_by="shop")
        elif _are_held(project, backing, binding, [*from_hers, need]):
            from_hers.append(need)
            yield need
        else:
            yield need._replace(supplied_by="shop", apart=True)


def _are_held(project: Project, backing: BackingPlan, binding: BindingPlan | None, needs: list[Need]) -> bool:
    """Tell needs that the customer's cloth for the backing holds too, beside its pieces or in one length with them."""
    brought, spec, edge = backing.customer_supplied, project.backing, project.binding
    theirs = list(backing_part(backing).needs)
    if not brought or not spec or brought.verdict == "short":
        return False
    if brought.holds_binding and binding and edge:
        if edge.cut == "leftover":
            return False  # its strips take the same offcuts
        theirs.append(_binding_need(project, edge, backing, binding))
    before, _ = lay_needs(theirs, project.sewing)
    layout, _ = lay_needs([*theirs, *needs], project.sewing)
    longest = max(washed_length(backing.fabric, each.length) for each in spec.have or ())
    return layout.length <= max(before.length, longest)


def _shortest_strip(project: Project, edge: Binding) -> Length:
    shortest = project.sewing.cloth.shortest_piece
    return shortest if edge.cut == "leftover" else max(shortest, usable_width_of(edge.fabric) / 2)


def _needs_of_top(project: Project, pieced: PiecedPlan | None) -> tuple[Need, ...]:
    """The parts of the top that are cut from the cloth of the binding."""
    edge = project.binding
    if not edge or not pieced or edge.supplied_by != pieced.top.supplied_by:
        return ()
    return tuple(need for need in piecing_part(pieced).needs if need.fabrics[0] == edge.fabric)


def weight_part(weight: WeightPlan) -> Part:
    """Give the arithmetic of the quilt's weight."""
    return Part("weight", "Weight", weight.working)


def hem_part(hem: HemPlan | None, stages: tuple[StageTime, ...]) -> Part:
    """Give the hem's arithmetic and cautions, and the time of its stages."""
    return Part("hem", "Edge", hem.working, hem.cautions, stages=stages) if hem else Part("hem", "Edge")


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
