"""Works out one project after another for a tally, each with its plans, its price and its earnings; no alternatives.

The shop files that projects name are read once, because a season has few of them.
"""

from functools import lru_cache
from typing import NamedTuple

from finishcalc.intake.resolve import folder_of, resolve
from finishcalc.intake.source import Source, read
from finishcalc.pipeline import Finishing, finish
from finishcalc.pricing.earnings import Earnings, earnings_of

MOST_SHOPS = 64
"""The most shop files that are kept."""


class Project(NamedTuple):
    """A project of a tally: the file that it was read from, its result, and its earnings."""

    file: str
    result: Finishing
    earned: Earnings


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
