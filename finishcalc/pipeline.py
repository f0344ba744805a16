"""The story: a project file and its shop are read, planned, and priced."""

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from finishcalc.choosing import WeighedBacking, plan_and_price, smaller_overage
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.settings import Trial
from finishcalc.intake.resolve import Resolved, folder_of, load, resolve
from finishcalc.intake.source import read
from finishcalc.plans.arrival import ArrivalCheck, arrival_checks
from finishcalc.plans.bringing import things_to_bring
from finishcalc.plans.cautions import Caution
from finishcalc.plans.hours import Hours
from finishcalc.plans.together import Plans, plan_cautions
from finishcalc.pricing.dates import Dates, date_cautions, job_dates
from finishcalc.pricing.quote import Quote, quote_cautions
from finishcalc.problems import Problem, ProblemsFound
from finishcalc.taking import take_rush
from finishcalc.wording.sentence import Sentence, WhenRead


class Finishing(NamedTuple):
    """The finishing of a top: the project resolved from its files, the plans, the price, the backings that were
    weighed, the least score first, the dates of a job that has one, the list of what to look at when the top
    arrives, the list of what the customer brings to a studio that charges for its work, and the cautions."""

    resolved: Resolved
    plans: Plans
    quote: Quote
    backings: tuple[WeighedBacking, ...]
    dates: Dates | None
    arrival: Sequence[ArrivalCheck]
    to_bring: Sequence[Sentence]
    cautions: tuple[Caution, ...]

    @property
    def hours(self) -> Hours:
        """The stages of all the work: those of the plans, and of what is ordered besides."""
        return self.quote.hours_with(self.plans.hours)

    @property
    def smaller_overage(self) -> Sentence | None:
        """A backing that is smaller than is wanted, and what that saves, in a sentence; None for any other."""
        return smaller_overage(self.plans.backing, self.backings) if self.plans.backing else None

    @property
    def price_cautions(self) -> tuple[Caution, ...]:
        """The cautions that speak of the price alone."""
        return tuple(quote_cautions(self.quote, self.resolved.foreign_samples))

    @property
    def priced_on_samples(self) -> bool:
        """True where the total rests on a sample figure."""
        return self.quote.rests_on_sample


def finish_file(name: str, shop: str | None = None, change: Change | None = None) -> Finishing:
    """Read a project file ("-" is standard input), with a change to it if there is one, and work it out.

    Raises ProblemsFound with every problem.
    """
    return finish(load(name, shop, change))


def finish_files(names: list[str], shop: str | None = None, change: Change | None = None) -> list[Finishing]:
    """Work out several project files. Raises ProblemsFound with the problems of all."""
    results, problems = [], dict[Problem, None]()
    for name in names:
        try:
            results.append(finish_file(name, shop, change))
        except ProblemsFound as error:
            problems |= dict.fromkeys(error.problems)
    if problems:
        raise ProblemsFound(problems)
    return results


def try_file(name: str, shop: str | None, tried: list[Trial]) -> list[Finishing]:
    """Read a project file once and work it out with each trial. Raises ProblemsFound with the problems of all."""
    read_once = cache(read)
    source, folder = read_once(name), folder_of(name)
    results, problems = [], dict[Problem, None]()
    for trial in tried:
        try:
            results.append(finish(resolve(source, shop, folder, trial.change, read_once)))
        except ProblemsFound as error:
            problems |= dict.fromkeys(error.problems)
    if problems:
        raise ProblemsFound(problems)
    return results


def finish(resolved: Resolved) -> Finishing:
    """Plan a project, then price the plans."""
    project, shop = resolved.project, resolved.shop
    plans, quote, weighed = plan_and_price(project, shop)
    dates = job_dates(project, shop, quote.hours_with(plans.hours))
    cautions = _file_cautions(resolved, plans) + plan_cautions(project, plans)
    cautions += quote_cautions(quote, resolved.foreign_samples)
    cautions += date_cautions(dates, project, take_rush(dates.band)) if dates else []
    arrival = WhenRead(lambda: arrival_checks(project, plans))
    to_bring = WhenRead(lambda: things_to_bring(plans, bool(project.charges.piecing)) if quote.charges_work else ())
    return Finishing(resolved, plans, quote, weighed, dates, arrival, to_bring, tuple(cautions))


def _file_cautions(resolved: Resolved, plans: Plans) -> list[Caution]:
    """The cautions about the files themselves. The throat matters only on the frame."""
    throat = [resolved.new_throat] if resolved.new_throat and plans.quilting.loading else []
    namesakes = [Caution("namesakes", sentence) for sentence in resolved.namesakes.sentences]
    words = [Caution("word-taken", taken.sentence) for taken in resolved.taken_words]
    return [*(Caution("throat-is-nominal", sentence) for sentence in throat), *namesakes, *words]
