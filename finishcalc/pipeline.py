"""The story: a project file and its shop become plans, and the plans a quote."""

from collections.abc import Iterator
from contextlib import suppress
from functools import cache
from typing import NamedTuple

from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.settings import Trial
from finishcalc.intake.resolve import Resolved, folder_of, load, resolve
from finishcalc.intake.source import read
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Money
from finishcalc.measures.rounding import FINEST
from finishcalc.model.pieced import Size
from finishcalc.model.project import Project
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import plan_backing
from finishcalc.plans.batting import plan_batting
from finishcalc.plans.cautions import Caution
from finishcalc.plans.cloth import plan_cloth
from finishcalc.plans.edge.binding import BindingPlan, plan_binding
from finishcalc.plans.edge.hem import plan_hem
from finishcalc.plans.edge.leftover import from_leftover
from finishcalc.plans.pieced.plan import PiecedPlan, plan_pieced
from finishcalc.plans.quilting.plan import plan_quilting
from finishcalc.plans.together import Plans, binding_from_supplied_cloth, cloth_needs, plan_cautions, plan_hours
from finishcalc.plans.top.plan import plan_top
from finishcalc.pricing.figures import figures_used
from finishcalc.pricing.offers import Offer, Wish, other_wishes
from finishcalc.pricing.profit import InStyle, Worth, worth_of
from finishcalc.pricing.quote import Quote, make_quote, quote_cautions
from finishcalc.problems import Problem, ProblemsFound


class OtherBacking(NamedTuple):
    """Another way to piece the backing, and what it would add to the total, tax and all."""

    option: BackingOption
    adds: Money


class OtherBinding(NamedTuple):
    """The binding from beside the backing's pieces, the cloth that saves, and what it would add to the total."""

    plan: BindingPlan
    saved: Length
    adds: Money


class Finishing(NamedTuple):
    """Everything there is to say of a top: what was asked, the plans, the price, what to be careful of."""

    asked: Resolved
    plans: Plans
    quote: Quote
    cautions: tuple[Caution, ...]

    @property
    def worth(self) -> Worth:
        """What the quote is worth to the studio, worked out when it is read."""
        return worth_of(self.asked.project, self.asked.shop, self.plans, self.quote, self._in_other_styles())

    def _in_other_styles(self) -> Iterator[InStyle]:
        """The same top in a style of each other class of rates, where the whole of it is stitched in one."""
        quilting = self.plans.quilting
        if len(quilting.parts) > 1 or quilting.ties or quilting.method.rate_class:
            return
        for rate_class, name in self.asked.styles_by_class.items():
            if rate_class != quilting.style.rate_class:
                with suppress(ProblemsFound):
                    other = finish(self.asked.changed(Change("", (), ((("quilting", "style"), name),))))
                    yield InStyle(other.plans.quilting.style.name, other.plans, other.quote)

    @property
    def offers(self) -> tuple[Offer, ...]:
        """What else could be ordered, each with what it would add to the total."""
        offers = [self._offer(wish) for wish in other_wishes(self.asked.project, self.asked.shop)]
        return tuple(offer for offer in offers if offer.adds.minor)

    def _offer(self, wish: Wish) -> Offer:
        project = self.asked.project
        same = wish.project._replace(charges=project.charges) == project
        quote = make_quote(wish.project, self.asked.shop, self.plans if same else make_plans(wish.project, self.plans))
        return Offer(wish.label, quote.total - self.quote.total, wish.rests_on(quote, self.quote))

    @property
    def other_backings(self) -> tuple[OtherBacking, ...]:
        """The backings next to the chosen one, with one seam less or more."""
        backing = self.plans.backing
        return tuple(self._with_backing(option) for option in backing.neighbours) if backing else ()

    def _with_backing(self, option: BackingOption) -> OtherBacking:
        project = self.asked.project
        quote = make_quote(project, self.asked.shop, make_plans(project, self.plans, option))
        return OtherBacking(option, quote.total - self.quote.total)

    @property
    def other_binding(self) -> OtherBinding | None:
        """The binding cut from beside the backing's pieces, where it is not and that would take less cloth."""
        project, plans = self.asked.project, self.plans
        if not plans.binding or plans.binding.cut == "leftover" or (plans.backing and plans.backing.customer_supplied):
            return None
        found = from_leftover(project, plans.top.shape, plans.backing, plans.binding)
        if not found:
            return None
        cloth = plan_cloth(cloth_needs(project, plans.pieced, plans.backing, found), project.currency)
        saved = sum((each.amount for each in plans.cloth), ZERO) - sum((each.amount for each in cloth), ZERO)
        quote = make_quote(project, self.asked.shop, plans._replace(binding=found, cloth=cloth))
        return OtherBinding(found, saved, quote.total - self.quote.total) if saved > ZERO else None

    @property
    def priced_on_samples(self) -> bool:
        """Whether the total rests on a sample figure."""
        return bool(self.asked.samples & self.quote.figures)

    @property
    def samples(self) -> frozenset[str]:
        """The key paths of the sample figures that this rests on, those of the changes it suggests among them."""
        return self.asked.samples & figures_used(self.plans, self.quote)


def finish_file(name: str, shop: str | None = None, change: Change | None = None) -> Finishing:
    """Read a project file ("-" is standard input) and work it out, with a change to it if there is one.

    Raises ProblemsFound with every problem.
    """
    return finish(load(name, shop, change))


def try_file(name: str, shop: str | None, tried: list[Trial]) -> list[Finishing]:
    """Read a project file once and work it out with each trial. Raises ProblemsFound with the problems of all."""
    reading = cache(read)
    source, folder = reading(name), folder_of(name)
    found, problems = [], dict[Problem, None]()
    for trial in tried:
        try:
            found.append(finish(resolve(source, shop, folder, trial.change, reading)))
        except ProblemsFound as told:
            problems |= dict.fromkeys(told.problems)
    if problems:
        raise ProblemsFound(problems)
    return found


def finish(asked: Resolved) -> Finishing:
    """Work out a project: plans first, then the price of the plans."""
    plans = make_plans(asked.project)
    quote = make_quote(asked.project, asked.shop, plans)
    cautions = plan_cautions(asked.project, plans) + quote_cautions(quote, asked.foreign_samples)
    return Finishing(asked, plans, quote, tuple(cautions))


def make_plans(project: Project, before: Plans | None = None, instead: BackingOption | None = None) -> Plans:
    """Plan the top, the three layers, the quilting, and one length for each cloth. The top is taken from `before`,
    where the same one was planned already; `instead` is made of the backing's options in place of its choice."""
    top = before.top if before else plan_top(project.top, project.measuring, project.units)
    shape, currency = top.shape, project.currency
    whole = Length.of(1, project.units)
    pieced = before.pieced if before else _pieced(project)
    binding = plan_binding(shape, project.binding, currency, whole) if project.binding else None
    from_same_cloth = binding_from_supplied_cloth(project, binding)
    backing = (
        plan_backing(shape, project.backing, project.sewing, currency, from_same_cloth) if project.backing else None
    )
    if backing and instead:
        backing = backing._replace(chosen=instead)
    if binding and binding.cut == "leftover":
        binding = from_leftover(project, shape, backing, binding) or binding
    batting = plan_batting(shape, project.batting, currency) if project.batting else None
    hem = plan_hem(shape, project.hem) if project.hem else None
    size = backing.on_frame if backing else (shape.width, shape.length)
    batts = project.batting.product if project.batting else None
    edged = Size(hem.width, hem.length) if hem else Size(shape.width, shape.length)
    quilting = plan_quilting(shape, edged, project.top, size, batts, project.quilting, project.thread, project.frame)
    hours = plan_hours(project, shape, quilting, backing)
    cloth = plan_cloth(cloth_needs(project, pieced, backing, binding), currency)
    return Plans(top, pieced, backing, batting, binding, hem, quilting, hours, cloth)


def _pieced(project: Project) -> PiecedPlan | None:
    pieced = project.top.pieced
    return plan_pieced(pieced, FINEST[project.units], project.sewing.shortest_piece) if pieced else None
