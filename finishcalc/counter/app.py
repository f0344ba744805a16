"""The routes of the counter: each reads what is asked, has it worked out in the one planning thread, and fills in a
page."""

import json
from collections.abc import Awaitable, Callable
from typing import Any
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from finishcalc.counter import edits
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.form.fields import PARTS
from finishcalc.counter.form.showing import Desk, shown_extras, shown_field
from finishcalc.counter.fragments import Fragments, fragments_of, title_of
from finishcalc.counter.pages import page
from finishcalc.counter.quote.options import more_pieces
from finishcalc.counter.routes.studio import StudioRoutes
from finishcalc.counter.server.forms import form_fields
from finishcalc.counter.server.planning import Planning
from finishcalc.counter.studio.views import Views
from finishcalc.counter.tabs import Tab, Tabs
from finishcalc.counter.working import Worked, usual_for, work_out


class Counter:
    """The counter over a folder of projects: its files, the pages that are open, and the thread that plans."""

    def __init__(self, projects: Projects, views: Views | None = None) -> None:
        self.projects, self.tabs, self.planning, self.views = projects, Tabs(), Planning(), views or Views()


Handler = Callable[[Request], Awaitable[Response]]


def make_app(counter: Counter) -> Starlette:
    """Make the application with its routes."""
    routes, studio = ProjectRoutes(counter), StudioRoutes(counter)
    return Starlette(
        routes=[
            Route("/p/{name}", studio.or_customers(routes.show), methods=["GET"]),
            Route("/p/{name}/edit", routes.edit, methods=["POST"]),
            Route("/p/{name}/more", routes.more, methods=["GET"]),
            *studio.routes,
            Mount("/static", StaticFiles(packages=[("finishcalc.counter", "pages/static")])),
        ]
    )


async def form_of(request: Request) -> dict[str, list[str]]:
    """Read a posted form. Raises ValueError for one with too many fields."""
    form: dict[str, list[str]] = {}
    for name, text in form_fields(await request.body()):
        form.setdefault(name, []).append(text)
    return form


class ProjectRoutes:
    """The page of one project: shown, edited, and the options that come after."""

    def __init__(self, counter: Counter) -> None:
        self._counter = counter
        self._projects, self._tabs, self._planning = counter.projects, counter.tabs, counter.planning

    async def show(self, request: Request) -> Response:
        """Show the page of a project."""
        name = request.path_params["name"]
        return HTMLResponse(await self._planned(self._page, name))

    async def edit(self, request: Request) -> Response:
        """Take in an edit, or what a button of the form says."""
        name = request.path_params["name"]
        form = await form_of(request)
        given = edits.posted(form, request.query_params.get("typing", ""))
        key = given.page if given.action == "edit" else f"{given.page} {id(request)}"
        scripted = request.headers.get("HX-Request") == "true"
        if form.get("do") == ["save"]:
            return await self._planned(self._save, name, given)
        answer = await self._planning.run(key, self._take_in, name, given)
        if answer is None and scripted:
            return Response(status_code=204)
        if scripted:
            return swaps(answer.pieces, {"fields": answer.fields, "more": ""})
        if answer is not None and answer.worked.stale:
            return HTMLResponse(await self._planned(self._page, name), status_code=422)
        return RedirectResponse(_address(name), status_code=303)

    async def more(self, request: Request) -> Response:
        """Answer with what takes longer: options, what each choice would change, other patterns and sizes."""
        name = request.path_params["name"]
        tab = self._tabs.find(request.query_params.get("page", ""), name)
        has = request.query_params.get("more", "")
        if tab is None:
            return Response(status_code=204)
        worked = await self._planning.run(f"more {tab.name}", self._worked, name)
        if worked is None:
            return Response(status_code=204)
        pieces: Fragments = {}
        for work in more_pieces(worked, tab.usual):
            some = await self._planning.run(f"more {tab.name}", work)
            if some is None:
                return Response(status_code=204)
            pieces |= some
        number, differing = tab.more.answer(pieces, int(has) if has.isdigit() else 0)
        return swaps(differing, {"fields": {"more": str(number)}})

    async def _planned(self, work: Callable[..., Any], *args: Any) -> Any:
        """Have work done that no other work may take the place of."""
        return await self._planning.alone(work, *args)

    def _worked(self, name: str) -> Worked:
        return work_out(self._projects, self._projects.draft(name))

    def _take_in(self, name: str, given: edits.Posted) -> edits.Answer | None:
        return edits.take_in(self._projects, self._tab(name, given.page), given)

    def _tab(self, name: str, known_as: str) -> Tab:
        """Find the page, or remember it anew where this program has begun since it was opened."""
        found = self._tabs.find(known_as, name)
        return found or self._tabs.open(name, usual_for(self._projects, self._projects.draft(name)), known_as)

    def _page(self, name: str, told: str = "") -> str:
        """Fill in the whole page of a project."""
        draft = self._projects.draft(name)
        usual = usual_for(self._projects, draft)
        worked = work_out(self._projects, draft)
        tab = self._tabs.open(name, usual)
        number, pieces = tab.quote.answer(fragments_of(worked, usual), 0)
        desk = Desk(worked.table, usual, worked.result)
        parts = [
            (part, [(group, [shown_field(desk, field) for field in group.fields]) for group in part.groups])
            for part in PARTS
        ]
        return page(
            "project.html",
            title=title_of(worked),
            draft=draft,
            page_id=tab.name,
            has=number,
            pieces=pieces,
            parts=parts,
            extras=shown_extras(desk),
            studio=usual.resolved.shop.studio.name,
            told=told,
        )

    def _save(self, name: str, given: edits.Posted) -> Response:
        raise NotImplementedError


def swaps(pieces: Fragments, events: dict[str, Any]) -> Response:
    """Answer with pieces of the page, each to be put into the element of its id."""
    body = "".join(f'<div id="{name}" hx-swap-oob="innerHTML">{piece}</div>' for name, piece in pieces.items())
    return HTMLResponse(body, headers={"HX-Trigger-After-Settle": json.dumps(events)})


def _address(name: str) -> str:
    return f"/p/{quote(name)}"
