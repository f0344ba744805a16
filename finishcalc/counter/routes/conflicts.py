"""A file that changed while its draft was open: the page that shows both, and what is chosen there."""

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter.answers import form_of, to_list, to_project
from finishcalc.counter.folder.drafts import Draft
from finishcalc.counter.folder.saving import Conflict
from finishcalc.counter.routes.troubles import shown_problems
from finishcalc.counter.saving_pages import conflict_page, file_now, mark_of, meeting_of, save, text_to_save
from finishcalc.counter.state import Counter
from finishcalc.problems import ProblemsFound

Chosen = Mapping[str, str]
"""The answer that is chosen, which text of the file was shown, and the name for another file."""


class ConflictRoutes:
    """The page of a file that is not the one its draft was begun on."""

    def __init__(self, counter: Counter) -> None:
        self._projects, self._alone = counter.projects, counter.alone

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their addresses."""
        return [
            Route("/p/{name}/conflict", self.show, methods=["GET"]),
            Route("/p/{name}/conflict", self.choose, methods=["POST"]),
        ]

    async def show(self, request: Request) -> Response:
        """Show the file beside what would be saved; the project, where there is no conflict."""
        return await self._alone(self._shown, request.path_params["name"])

    async def choose(self, request: Request) -> Response:
        """Do what was chosen, if the file still is as it was shown; else show it again."""
        form = {name: texts[0] for name, texts in (await form_of(request)).items()}
        return await self._alone(self._done, request.path_params["name"], form)

    def _shown(self, name: str) -> Response:
        listed = {each.name: each for each in self._projects.listed()}
        if name in listed and not listed[name].changed:
            return to_project(name)
        return HTMLResponse(conflict_page(self._projects, self._projects.draft(name)))

    def _done(self, name: str, chosen: Chosen) -> Response:
        draft, now = self._projects.draft(name), file_now(self._projects, name)
        if mark_of(now) != chosen.get("mark", ""):
            return self._again(draft, "The file has changed once more; this is how it is now.")
        do = chosen.get("do", "")
        if do == "other":
            return self._under_another_name(draft, chosen.get("new", ""))
        if do == "drop":
            self._drop(draft, is_gone=now is None)
            return to_project(name) if now else to_list()
        if do == "mine" and now is None:
            return self._put_back(draft)
        return self._put_on_it(draft, chosen["mark"]) if do == "mine" else self._again(draft, "")

    def _again(self, draft: Draft, told: str) -> Response:
        return HTMLResponse(conflict_page(self._projects, draft, told), status_code=409)

    def _put_on_it(self, draft: Draft, mark: str) -> Response:
        """Put the changes on the file as it was shown, and save that; what has mistakes waits on the project's page."""
        if meeting_of(self._projects, draft).merged is None:
            return self._again(draft, "Changes can be put on the file once it can be read.")
        rebased = self._projects.rebase(draft.name)
        if mark_of(rebased.source) != mark:
            return to_project(draft.name)
        try:
            saved = save(self._projects, draft.name)
        except ProblemsFound:
            return to_project(draft.name)
        return self._again(saved.draft, "") if isinstance(saved, Conflict) else to_project(draft.name)

    def _put_back(self, draft: Draft) -> Response:
        saved = self._projects.put_back(draft.name, lambda each: text_to_save(self._projects, each))
        return self._again(saved.draft, "") if isinstance(saved, Conflict) else to_project(draft.name)

    def _under_another_name(self, draft: Draft, typed: str) -> Response:
        """Save the draft as another project; the file stays as it is, and the draft of it is dropped."""
        try:
            new = self._projects.create(typed, text_to_save(self._projects, draft))
        except ProblemsFound as found:
            shown = shown_problems(found.problems, draft.name)
            return self._again(draft, "; ".join(f"{each.place}: {each.words}" for each in shown))
        self._drop(draft, is_gone=file_now(self._projects, draft.name) is None)
        return to_project(new)

    def _drop(self, draft: Draft, is_gone: bool) -> None:
        if is_gone:
            self._projects.change(draft.name, lambda each: Draft(each.name, each.base, each.on_disk))
        else:
            self._projects.rebase(draft.name, keep=False)
