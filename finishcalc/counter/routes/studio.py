"""The routes of the studio's view: to open it, to show it once, to stay in it and to close it, and its work order."""

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from finishcalc.counter.fragments import title_of
from finishcalc.counter.pages import page
from finishcalc.counter.server.forms import form_fields
from finishcalc.counter.server.guard import SESSION
from finishcalc.counter.studio.showing import studio_page
from finishcalc.counter.studio.views import View
from finishcalc.counter.working import usual_for, work_out

if TYPE_CHECKING:
    from finishcalc.counter.app import Counter

Handler = Callable[[Request], Awaitable[Response]]


class StudioRoutes:
    """The studio's view over the pages of a counter."""

    def __init__(self, counter: "Counter") -> None:
        self._views, self._projects, self._planning = counter.views, counter.projects, counter.planning
        self.routes = [
            Route("/p/{name}/studio", self.open, methods=["POST"]),
            Route("/studio/stay", self.stay, methods=["POST"]),
            Route("/studio/close", self.close, methods=["POST"]),
        ]

    def or_customers(self, show: Handler) -> Handler:
        """Show the studio's view at the address of a project where it waits to be shown, else the customer's page."""

        async def either(request: Request) -> Response:
            name = request.path_params["name"]
            if request.method != "GET":  # asks for the headers alone, and has not been shown anything
                return await show(request)
            view = self._views.shows(session_of(request), name)
            if view is None:
                return await show(request)
            return HTMLResponse(await self._planning.alone(self._page, view))

        return either

    def _page(self, view: View) -> str:
        return studio_page(work_out(self._projects, self._projects.draft(view.project)), view)

    async def open(self, request: Request) -> Response:
        """Open the view of a project, once the button was held or the screen is said to be turned away."""
        name, session = request.path_params["name"], session_of(request)
        view = self._views.of(session)
        is_open = view is not None and view.project == name
        if not is_open and ("sure", "yes") not in form_fields(await request.body()):
            title = await self._planning.alone(self._title, name)
            return HTMLResponse(page("turn-away.html", title=title, project=name))
        self._views.open(session, name, await self._planning.alone(self._seconds, name))
        return RedirectResponse(address(name), status_code=303)

    def _title(self, name: str) -> str:
        return title_of(work_out(self._projects, self._projects.draft(name)))

    def _seconds(self, name: str) -> int:
        """Find the seconds after which the shop's view closes. Raises ProblemsFound."""
        tables = usual_for(self._projects, self._projects.draft(name)).resolved.tables
        return getattr(getattr(tables, "counter", None), "studio_seconds", 60)

    async def stay(self, request: Request) -> Response:
        """Note that somebody is at the view; answer with 410 where it is closed."""
        return Response(status_code=204 if self._views.stay(session_of(request)) else 410)

    async def close(self, request: Request) -> Response:
        """Close the view, and show the customer's page."""
        name = self._views.close(session_of(request))
        return RedirectResponse(address(name) if name else "/", status_code=303)


def session_of(request: Request) -> str:
    """Give the session of the browser that asks, as the guard tells it; empty where there is none."""
    return str(request.scope.get(SESSION, ""))


def address(name: str) -> str:
    """Give the address of a project's page."""
    return f"/p/{quote(name, safe='')}"
