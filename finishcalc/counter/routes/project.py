"""The page of one project: shown, edited, and the options that come after."""

from itertools import chain

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter import edits
from finishcalc.counter.answers import form_of, is_scripted, loaded_anew, swaps, to_project, unchanged
from finishcalc.counter.folder.saving import Conflict
from finishcalc.counter.form.fields import PARTS
from finishcalc.counter.form.showing import Desk, shown_extras, shown_field
from finishcalc.counter.fragments import Fragments, fragments_of, title_of
from finishcalc.counter.pages import page
from finishcalc.counter.quote.options import later_parts
from finishcalc.counter.saving_pages import conflict_page, file_now, save
from finishcalc.counter.state import Counter
from finishcalc.counter.tabs import Tab
from finishcalc.counter.working import Worked, usual_for, work_out
from finishcalc.problems import ProblemsFound


class ProjectRoutes:
    """The routes of the page of a project."""

    def __init__(self, counter: Counter) -> None:
        self._counter = counter

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their addresses."""
        return [
            Route("/p/{name}", self.show, methods=["GET"]),
            Route("/p/{name}/edit", self.edit, methods=["POST"]),
            Route("/p/{name}/more", self.more, methods=["GET"]),
        ]

    async def show(self, request: Request) -> Response:
        """Show the page of a project; with all its options where no script asks for them later."""
        complete = request.query_params.get("options") == "yes"
        return HTMLResponse(await self._counter.alone(self._page, request.path_params["name"], complete=complete))

    async def edit(self, request: Request) -> Response:
        """Take in an edit, or what a button of the form says."""
        name, scripted = request.path_params["name"], is_scripted(request)
        form = await form_of(request)
        given = edits.posted(form, request.query_params.get("typing", ""))
        try:
            if form.get("do") == ["save"]:
                return await self._counter.alone(self._save, name, given)
            if scripted and given.action == "edit":  # a newer edit of the page holds all that this one does
                answer = await self._counter.planning.run(f"edit {given.page}", self._take_in, name, given)
            else:
                answer = await self._counter.alone(self._take_in, name, given)
        except edits.Outdated:
            return loaded_anew(name, scripted)
        if scripted:
            return swaps(answer.pieces, {"fields": answer.fields, "renew": ""}) if answer else unchanged()
        if answer and answer.worked.stale:
            return HTMLResponse(await self._counter.alone(self._page, name), status_code=422)
        return to_project(name)

    async def more(self, request: Request) -> Response:
        """Answer with one part of what takes longer: options, other patterns and sizes, what each choice would change.
        The page then asks for the next."""
        name, given = request.path_params["name"], request.query_params
        tab = self._counter.tabs.find(given.get("page", ""), name)
        if tab is None:
            return unchanged()
        asked = tab.asked_for_more()
        number, worked = edits.number_of(given.get("part", "")), await self._counter.alone(self._worked, name)
        parts = later_parts(worked, tab.usual, edits.sizes_asked({"size": given.getlist("size")}))
        pieces: Fragments = {}
        for work in parts[number] if number < len(parts) else ():
            if not tab.still_asks(asked):  # it has asked anew, for another quote
                return unchanged()
            pieces |= await self._counter.alone(work)
        answer, differing = tab.more.answer(pieces, edits.number_of(given.get("more", "")))
        following = number + 1 if number + 1 < len(parts) else None
        return swaps(differing, {"later": {"seen": worked.draft.mark, "more": answer, "part": following}})

    def _worked(self, name: str) -> Worked:
        return work_out(self._counter.projects, self._counter.projects.draft(name))

    def _take_in(self, name: str, given: edits.Posted) -> edits.Answer | None:
        return edits.take_in(self._counter.projects, self._tab(name, given.page), given)

    def _tab(self, name: str, known_as: str) -> Tab:
        """Find the page, or remember it anew where this program has begun since it was opened."""
        found, projects = self._counter.tabs.find(known_as, name), self._counter.projects
        return found or self._counter.tabs.open(name, usual_for(projects, projects.draft(name)), known_as)

    def _page(self, name: str, told: str = "", *, complete: bool = False) -> str:
        """Fill in the whole page of a project, `complete` with what a script would ask for later."""
        draft = self._counter.projects.draft(name)
        usual, worked = usual_for(self._counter.projects, draft), work_out(self._counter.projects, draft)
        tab = self._counter.tabs.open(name, usual)
        tab.draft = draft
        number, pieces = tab.quote.answer(fragments_of(worked, usual, told), 0)
        for work in chain.from_iterable(later_parts(worked, usual) if complete else ()):
            pieces |= work()
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
        )

    def _save(self, name: str, given: edits.Posted) -> Response:
        """Save what the form holds. What has mistakes is not saved, and where the file has changed both are shown."""
        answer = self._take_in(name, given)
        if answer and answer.worked.stale:
            return HTMLResponse(self._page(name, "Not saved: mend the mistakes first."), status_code=422)
        projects = self._counter.projects
        try:
            saved = save(projects, name)
        except ProblemsFound:
            if file_now(projects, name) is not None:
                raise
            saved = Conflict(projects.draft(name), None)  # something else has its name: the work goes elsewhere
        if isinstance(saved, Conflict):
            return HTMLResponse(conflict_page(projects, saved.draft), status_code=409)
        return to_project(name)
