"""The story: a project file and its shop are read, planned, and priced."""

from functools import cache
from typing import NamedTuple

from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.settings import Trial
from finishcalc.intake.resolve import Resolved, folder_of, load, resolve
from finishcalc.intake.source import read
from finishcalc.plans.cautions import Caution
from finishcalc.plans.together import Plans, make_plans, plan_cautions
from finishcalc.pricing.quote import Quote, make_quote, quote_cautions
from finishcalc.problems import Problem, ProblemsFound


class Finishing(NamedTuple):
    """All that finishing a top takes: the project as it was asked, the plans, the price, and the cautions."""

    asked: Resolved
    plans: Plans
    quote: Quote
    cautions: tuple[Caution, ...]

    @property
    def priced_on_samples(self) -> bool:
        """The total rests on a sample figure."""
        return self.quote.rests_on_sample


def finish_file(name: str, shop: str | None = None, change: Change | None = None) -> Finishing:
    """Read a project file ("-" is standard input), with a change to it if there is one, and work it out.

    Raises ProblemsFound with every problem.
    """
    return finish(load(name, shop, change))


def try_file(name: str, shop: str | None, tried: list[Trial]) -> list[Finishing]:
    """Read a project file once and work it out with each trial. Raises ProblemsFound with the problems of all."""
    reading = cache(read)
    source, folder = reading(name), folder_of(name)
    results, problems = [], dict[Problem, None]()
    for trial in tried:
        try:
            results.append(finish(resolve(source, shop, folder, trial.change, reading)))
        except ProblemsFound as found:
            problems |= dict.fromkeys(found.problems)
    if problems:
        raise ProblemsFound(problems)
    return results


def finish(asked: Resolved) -> Finishing:
    """Work out a project: plan it, then price the plans."""
    project, shop = asked.project, asked.shop
    plans = make_plans(project)
    quote = make_quote(project, shop, plans)
    cautions = plan_cautions(project, plans) + quote_cautions(quote, asked.foreign_samples)
    return Finishing(asked, plans, quote, tuple(cautions))
