"""The papers of a project: a page that offers them, and each as a document of its own."""

import re
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter.fragments import title_of
from finishcalc.counter.pages import page
from finishcalc.counter.papers import HAS_PDF, KINDS, paper_of
from finishcalc.counter.routes.troubles import shown_problems
from finishcalc.counter.state import Counter
from finishcalc.counter.working import Worked, work_out


class PaperRoutes:
    """The papers of a project, all from its draft as it stands."""

    def __init__(self, counter: Counter) -> None:
        self._projects, self._alone = counter.projects, counter.alone

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their addresses."""
        return [
            Route("/p/{name}/papers", self.show, methods=["GET"]),
            Route("/p/{name}/papers/{kind}", self.send, methods=["GET"]),
        ]

    async def show(self, request: Request) -> Response:
        """Offer the papers; while the draft has mistakes, say what they wait for."""
        return await self._alone(self._offered, request.path_params["name"])

    async def send(self, request: Request) -> Response:
        """Send one paper."""
        kind = request.path_params["kind"]
        if kind not in KINDS:
            raise HTTPException(404)
        return await self._alone(self._sent, request.path_params["name"], kind)

    def _offered(self, name: str) -> Response:
        return _page(work_out(self._projects, self._projects.draft(name)))

    def _sent(self, name: str, kind: str) -> Response:
        worked = work_out(self._projects, self._projects.draft(name))
        if worked.stale or (kind == "quote.pdf" and not HAS_PDF):
            return _page(worked, 409)
        paper = paper_of(worked, kind)
        headers = {"content-security-policy": paper.policy} if paper.policy else {}
        if paper.kept:
            headers["content-disposition"] = disposition(paper.kept)
        return Response(paper.content, media_type=paper.media_type, headers=headers)


def _page(worked: Worked, status: int = 200) -> Response:
    problems = shown_problems(worked.problems, worked.draft.name)
    context = {"title": title_of(worked), "draft": worked.draft, "problems": problems, "has_pdf": HAS_PDF}
    return HTMLResponse(page("papers.html", **context), status_code=status)


def disposition(name: str) -> str:
    """Have a browser keep a document as a file. The plain name is for those that do not read the other one, which is
    written out."""
    plain_name = re.sub(r"[^A-Za-z0-9._-]+", "-", name)
    return f"attachment; filename=\"{plain_name}\"; filename*=UTF-8''{quote(name, safe='')}"
