"""Works out one project after another for a tally, each with its plans, its price and its earnings, and adds up what
is printed of them; no alternatives.

The shop files that projects name are read once, because a season has few of them.
"""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from finishcalc.intake.resolve import folder_of, resolve
from finishcalc.intake.source import Source, read
from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import printed
from finishcalc.pipeline import Finishing, finish
from finishcalc.pricing.earnings import Earnings, earnings_of

MOST_SHOPS = 64
"""The most shop files that are kept."""


class Project(NamedTuple):
    """A project of a tally: the file that it was read from, its result, and its earnings."""

    file: str
    result: Finishing
    earned: Earnings


class Sums(NamedTuple):
    """The printed figures of some projects in one currency, added up: their number; the area in square `units` of the
    list; hours; and money. `net` is the price without tax; `cost` is what that must cover besides a wage."""

    currency: Currency
    projects: int
    area: Fraction
    low: Fraction
    planned: Fraction
    high: Fraction
    attended: Fraction
    cost: Money
    price: Money
    net: Money
    total: Money

    @property
    def hourly(self) -> Money | None:
        """The earnings of an attended hour over all of them, from the printed figures; None without such hours."""
        left = self.net - self.cost
        return self.currency.round(left.major / self.attended) if self.attended else None


class Tallier:
    """Works projects out, with a `shop` file in place of those that they name, if one is given."""

    def __init__(self, shop: str | None = None) -> None:
        self.shop = shop
        self._read_shop = lru_cache(maxsize=MOST_SHOPS)(read)

    def __reduce__(self) -> tuple[type["Tallier"], tuple[str | None]]:
        """Go to another process without the files that were read."""
        return Tallier, (self.shop,)

    def project(self, file: str | Source) -> Project:
        """Work out a project by the name of its file, or from a text that is read already. Raises ProblemsFound with
        every problem of it and its shop."""
        source = read(file) if isinstance(file, str) else file
        folder = folder_of(file if isinstance(file, str) else "-")
        result = finish(resolve(source, self.shop, folder, None, self._read_shop))
        return Project(source.name, result, earnings_of(result.quote, result.resolved.shop, result.plans))


def sums_of(project: Project, units: str) -> Sums:
    """Give the printed figures of one project, its area in square `units`."""
    result, earned = project.result, project.earned
    unit = f"sq {units}"
    return Sums(
        currency=result.quote.currency,
        projects=1,
        area=printed(result.plans.top.shape.area.to(unit), unit),
        low=_hours(result.hours.low),
        planned=_hours(result.hours.planned),
        high=_hours(result.hours.high),
        attended=earned.hours,
        cost=earned.break_even,
        price=result.quote.subtotal,
        net=earned.net,
        total=result.quote.total,
    )


def _hours(minutes: Fraction) -> Fraction:
    return printed(minutes / 60, "hour")


def added(currency: Currency, sums: list[Sums]) -> Sums:
    """Add up figures of one currency as they are printed."""
    zero = Fraction(0)
    return Sums(
        currency=currency,
        projects=len(sums),
        area=sum((each.area for each in sums), zero),
        low=sum((each.low for each in sums), zero),
        planned=sum((each.planned for each in sums), zero),
        high=sum((each.high for each in sums), zero),
        attended=sum((each.attended for each in sums), zero),
        cost=total((each.cost for each in sums), currency),
        price=total((each.price for each in sums), currency),
        net=total((each.net for each in sums), currency),
        total=total((each.total for each in sums), currency),
    )
