"""The things that all routes of a counter share: its files, the pages that are open, and the thread that plans."""

from collections.abc import Callable
from itertools import count
from typing import ParamSpec, TypeVar

from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.server.planning import Planning
from finishcalc.counter.studio.views import Views
from finishcalc.counter.tabs import Tabs

P = ParamSpec("P")
R = TypeVar("R")


class Counter:
    """The counter over a folder of projects, with the studio's `views` that are open."""

    def __init__(self, projects: Projects, views: Views | None = None) -> None:
        self.projects, self.tabs, self.planning, self.views = projects, Tabs(), Planning(), views or Views()
        self._numbers = count()

    async def alone(self, work: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R:
        """Have work done in the planning thread that no later work takes the place of. Raises what it raises."""
        results: list[R] = []

        def done() -> None:
            results.append(work(*args, **kwargs))

        await self.planning.run(f"alone {next(self._numbers)}", done)
        return results[0]
