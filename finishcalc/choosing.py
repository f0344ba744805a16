"""Chooses the backing, and the cut of a binding of the same cloth, by what the customer pays.

Each option's score is the total of the quote made with it, plus `worth_a_seam` for each seam; pieces turned across the
grain add the selling price of `worth_turning` of their cloth. The least score leads. Where a shop charges nothing for a
seam, the minutes at it are counted at the wage. Each option has the binding cut from beside its pieces where that makes
the total less by more than its further joins are worth at the wage, unless the project itself states another cut.
"""

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.model.prices import Shop
from finishcalc.model.project import Project
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.backing.weighing import eligible, may_be_made, worth_weighing
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.together import Plans, binding_from_leftover, make_plans, with_backing, with_binding
from finishcalc.pricing.quote import Quote, make_quote
from finishcalc.wording.sentence import InUnit, Sentence, say
from finishcalc.wording.words import counted


class WeighedBacking(NamedTuple):
    """An option for the backing with the plans and the quote made with it. `score` is in the currency's main unit."""

    option: BackingOption
    plans: Plans
    quote: Quote
    score: Fraction

    @property
    def rank(self) -> tuple[Fraction, int, bool, Length]:
        """Compare by score; ties go to fewer seams, then to the unturned, then to less cloth."""
        return self.score, self.option.layout.seams, self.option.layout.turned > 0, self.option.amount


class Choice(NamedTuple):
    """The plans that lead and their quote, with every backing that was `weighed`, the least score first. None is
    weighed where the customer brings the backing."""

    plans: Plans
    quote: Quote
    weighed: tuple[WeighedBacking, ...] = ()


def plan_and_price(project: Project, shop: Shop, before: Plans | None = None) -> Choice:
    """Plan and price a project with the backing that leads. The plans of the top are taken from `before`."""
    plans = make_plans(project, before)
    backing = plans.backing
    if not backing or not backing.chosen or backing.customer_supplied:
        return Choice(plans, make_quote(project, shop, plans))
    spec, options = backing.inputs.spec, backing.options
    may_lead = [option for option in options if option.overage == spec.overage or not project.overage_is_fixed]
    by_length = shop.rates.seam.goes_by_length
    may_lead = worth_weighing(eligible(may_lead, spec, project.sewing), by_length)
    others = may_be_made(options, spec.replace(seam_count=None, turned=None), project.sewing)
    others = worth_weighing(others, by_length)
    others = [option for option in others if option not in may_lead]
    weighed: list[WeighedBacking] = []
    for option in (*may_lead, *others):
        weighed.append(_weigh(project, shop, plans, option, weighed[0] if weighed else None))
    weighed.sort(key=lambda each: each.rank)
    lead = _lead(project, backing, [each for each in weighed if each.option in may_lead])
    return Choice(lead.plans, lead.quote, tuple(weighed))


def _weigh(
    project: Project, shop: Shop, plans: Plans, option: BackingOption, first: WeighedBacking | None
) -> WeighedBacking:
    """Plan and price one option. Lines that it shares with the `first` that was weighed are taken from there."""
    with_option = with_backing(project, plans, option)
    before = first.quote if first and first.plans.differ_in_cloth_and_seams(with_option) else None
    cut, quote = _with_the_cheaper_binding(project, shop, with_option, make_quote(project, shop, with_option, before))
    return WeighedBacking(option, cut, quote, quote.total.major + _worth(project, shop, option))


def _with_the_cheaper_binding(project: Project, shop: Shop, plans: Plans, quote: Quote) -> tuple[Plans, Quote]:
    """Give the plans with the binding cut as the shop cuts it, or from beside the backing's pieces, and their quote."""
    beside = binding_from_leftover(project, plans)
    if not beside or not _may_replace(project, beside):
        return plans, quote
    other_plans = with_binding(project, plans, beside)
    other_quote = make_quote(project, shop, other_plans, quote)
    saves = quote.total.major - other_quote.total.major - _more_joins(project, plans, beside)
    return (other_plans, other_quote) if saves > 0 else (plans, quote)


def _more_joins(project: Project, plans: Plans, beside: BindingPlan) -> Fraction:
    """Give the money of the joins that a binding from offcuts has beyond those of the one that it replaces."""
    joins = beside.strips + len(beside.offcuts) - (plans.binding.strips if plans.binding else 0)
    sewing = project.sewing
    return joins * sewing.piecing.join_minutes.value * sewing.wage.value / 60


def _may_replace(project: Project, beside: BindingPlan) -> bool:
    """A binding that the project cuts across the cloth stays so. One cut along it may come from beside the backing's
    pieces, which lie along it too, where no strip must then be cut across."""
    asked = project.binding.cut if project.binding else ""
    if asked == "lengthwise":
        return not beside.strips
    return asked == "crosswise" and not project.cut_is_fixed


def _worth(project: Project, shop: Shop, option: BackingOption) -> Fraction:
    """Give the money that a backing must be cheaper by, for its seams and for its turned pieces."""
    cloth, layout = project.sewing.cloth, option.layout
    worth = cloth.worth_a_seam.value * layout.seams
    if not shop.rates.seam.is_charged:
        worth += option.seam_minutes * project.sewing.wage.value / 60
    if layout.turned:
        worth += option.fabric.selling_price(shop.rates.markup.value) * cloth.worth_turning.to(option.fabric.per)
    return worth


def _lead(project: Project, backing: BackingPlan, weighed: list[WeighedBacking]) -> WeighedBacking:
    """Lead with the least score. A smaller overage than is wanted leads only where it drops a seam or saves as much
    cloth as is worth saying."""
    wanted = [each for each in weighed if each.option.overage == backing.inputs.spec.overage]
    best = wanted[0] if wanted else weighed[0]
    worth_saying = project.sewing.cloth.worth_saying
    smaller = [
        each
        for each in weighed
        if each.option.layout.seams < best.option.layout.seams
        or best.option.amount - each.option.amount >= worth_saying
    ]
    return min([best, *smaller], key=lambda each: each.rank)


def smaller_overage(backing: BackingPlan, weighed: Iterable[WeighedBacking]) -> Sentence | None:
    """Say by how much a backing that leads is smaller than is wanted, and what that saves: a seam or cloth."""
    chosen, wanted = backing.chosen, backing.inputs.spec.overage
    before = next((each.option for each in weighed if each.option.overage == wanted), None)
    if not chosen or not before or chosen.overage == wanted:
        return None
    at_sides = chosen.overage.sides != wanted.sides
    is_now, was = (chosen.overage.sides, wanted.sides) if at_sides else (chosen.overage.ends, wanted.ends)
    fewer, less = before.layout.seams - chosen.layout.seams, before.amount - chosen.amount
    gains = [f"{counted(fewer, 'seam')} less"] if fewer > 0 else []
    gains += ["{less} less cloth"] if less > ZERO else []
    text = "{is_now} at the " + ("sides" if at_sides else "ends") + " instead of {was}: " + " and ".join(gains)
    return say(text, is_now=is_now, was=was, less=InUnit(less, chosen.fabric.per))
