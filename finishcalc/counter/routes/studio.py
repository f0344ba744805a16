"""The routes of the studio's view: to open it, to show it once, to stay in it and to close it, and its work order."""

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter.answers import address_of, form_of, to_project
from finishcalc.counter.fragments import title_of
from finishcalc.counter.pages import page
from finishcalc.counter.papers import HAS_PDF
from finishcalc.counter.routes.papers import disposition
from finishcalc.counter.routes.project import ProjectRoutes
from finishcalc.counter.server.guard import SESSION
from finishcalc.counter.state import Counter
from finishcalc.counter.studio.showing import studio_page
from finishcalc.counter.studio.views import View
from finishcalc.counter.working import Worked, usual_for, work_out
from finishcalc.rendering.pages.work_order import work_order_sheet
from finishcalc.rendering.writers.html import html_document

WORK_ORDERS = ("html", "pdf")
"""The forms of a work order, by the ends of their addresses."""


class StudioRoutes:
    """The routes of the studio's view. Where none waits to be shown, the customer's page answers at their address."""

    def __init__(self, counter: Counter) -> None:
        self._counter, self._views, self._customers = counter, counter.views, ProjectRoutes(counter).show

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their addresses. They come before those of projects, because they share one."""
        return [
            Route("/p/{name}", self.show, methods=["GET"]),
            Route("/p/{name}/studio", self.open, methods=["POST"]),
            Route("/p/{name}/work-order.{form}", self.work_order, methods=["GET"]),
            Route("/studio/stay", self.stay, methods=["POST"]),
            Route("/studio/close", self.close, methods=["POST"]),
        ]

    async def show(self, request: Request) -> Response:
        """Show the studio's view of a project where it waits to be shown, else the customer's page."""
        if request.method != "GET":  # headers alone show nothing
            return await self._customers(request)
        view = self._views.shows(session_of(request), request.path_params["name"])
        if view is None:
            return await self._customers(request)
        return HTMLResponse(await self._counter.alone(self._page, view))

    async def open(self, request: Request) -> Response:
        """Open the view of a project, once the button was held or the screen is said to be turned away."""
        name, session = request.path_params["name"], session_of(request)
        view = self._views.of(session)
        is_open = view is not None and view.project == name
        if not is_open and "sure" not in await form_of(request):
            worked = await self._counter.alone(self._worked, name)
            return HTMLResponse(page("turn-away.html", title=title_of(worked), project=name))
        self._views.open(session, name, await self._counter.alone(self._seconds, name))
        return to_project(name)

    async def stay(self, request: Request) -> Response:
        """Note that somebody is at the view; answer with 410 where it is closed."""
        return Response(status_code=204 if self._views.stay(session_of(request)) else 410)

    async def close(self, request: Request) -> Response:
        """Close the view, and show the customer's page."""
        name = self._views.close(session_of(request))
        return to_project(name) if name else RedirectResponse("/", status_code=303)

    async def work_order(self, request: Request) -> Response:
        """Send the work order of the project in view, to be printed; the customer's page where no view is open."""
        name, form = request.path_params["name"], request.path_params["form"]
        if form not in WORK_ORDERS:
            raise HTTPException(404)
        view = self._views.stay(session_of(request))
        if view is None or view.project != name:
            return to_project(name)
        return await self._counter.alone(self._sent, view, form)

    def _sent(self, view: View, form: str) -> Response:
        worked = self._worked(view.project)
        if worked.stale or worked.result is None or (form == "pdf" and not HAS_PDF):
            return to_project(view.project)
        sheet = work_order_sheet(worked.result)
        if form == "pdf":
            from finishcalc.rendering.writers.typst import pages_pdf

            headers = {"content-disposition": disposition(f"{view.project.removesuffix('.toml')}-work-order.pdf")}
            return Response(pages_pdf([sheet]), media_type="application/pdf", headers=headers)
        document = html_document([sheet])
        # it has no script, so the browser itself is told to leave it
        leaves = {"refresh": f"{view.seconds}; url={address_of(view.project)}"}
        policy = {"content-security-policy": f"{document.policy}; frame-ancestors 'none'"}
        return HTMLResponse(document.text, headers={**policy, **leaves})

    def _worked(self, name: str) -> Worked:
        return work_out(self._counter.projects, self._counter.projects.draft(name))

    def _page(self, view: View) -> str:
        return studio_page(self._worked(view.project), view)

    def _seconds(self, name: str) -> int:
        """Find the seconds after which the shop's view closes. Raises ProblemsFound."""
        usual = usual_for(self._counter.projects, self._counter.projects.draft(name))
        return usual.resolved.tables.counter.studio_seconds


def session_of(request: Request) -> str:
    """Give the session of the browser that asks, as the guard tells it; empty where there is none."""
    return str(request.scope.get(SESSION, ""))
