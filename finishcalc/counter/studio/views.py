"""The studio's views that are open, one a browser. They are known to the server alone: no address and no cookie of its
own opens one again, so that Back and a reload show the customer's page.

    open -> shown once, by the next look at its project -> closed by a button, by another look, or when nobody uses it
"""

import time
from collections.abc import Callable
from typing import NamedTuple

MOST_VIEWS = 64
"""The views that are remembered. One that is forgotten is closed."""


class View(NamedTuple):
    """An open view: its project, the `seconds` without a use after which it closes, and the time of its last use. One
    that `waits` has not been shown yet; from it the rates of the shop are shown once, too."""

    project: str
    seconds: int
    used: float
    waits: bool = True
    rates_wait: bool = True

    def is_over(self, now: float) -> bool:
        """Tell a view that nobody has used for its seconds. A clock that was put back ends it too."""
        return not 0 <= now - self.used <= self.seconds


class Views:
    """The views of all sessions. A session is a browser's; without one there is no view."""

    def __init__(self, clock: Callable[[], float] = time.time) -> None:
        """Take a clock in seconds, which has to go on while the computer sleeps, as that of the day does."""
        self._clock = clock
        self._views: dict[str, View] = {}

    def open(self, session: str, project: str, seconds: int) -> None:
        """Open the view of a project, to be shown next. Any other of the session closes."""
        self.close(session)
        if session:
            self._views[session] = View(project, seconds, self._clock())
        while len(self._views) > MOST_VIEWS:
            del self._views[next(iter(self._views))]

    def shows(self, session: str, project: str) -> View | None:
        """Give the view that is to be shown by this look at a project, its one showing; None where it is the customer
        who looks. That closes whatever view the session had."""
        view = self.of(session)
        if view is None or not view.waits or view.project != project:
            self.close(session)
            return None
        return self._use(session, view._replace(waits=False))

    def of(self, session: str) -> View | None:
        """Give the view that a session has open."""
        view = self._views.get(session)
        if view is not None and view.is_over(self._clock()):
            self.close(session)
            return None
        return view

    def shows_rates(self, session: str) -> View | None:
        """Give the view from which the rates of the shop are to be shown by this look; None, and the view is closed,
        where they were shown before."""
        view = self.of(session)
        if view is None or not view.rates_wait:
            self.close(session)
            return None
        return self._use(session, view._replace(rates_wait=False))

    def stay(self, session: str) -> View | None:
        """Note that the view is in use. Gives None where the session has none open."""
        view = self.of(session)
        return self._use(session, view) if view else None

    def close(self, session: str) -> str:
        """Close the view of a session. Gives its project, or nothing where it had none."""
        view = self._views.pop(session, None)
        return view.project if view else ""

    def _use(self, session: str, view: View) -> View:
        self._views[session] = view._replace(used=self._clock())
        return self._views[session]
