"""The list of projects: twenty at a time, found by title, customer or number; each can be copied and renamed.

A page comes at once, with the totals that are known. Those that are not are asked for one by one by its script; without
script the page asks for itself once more, with all of them.
"""

from pathlib import PurePath

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter.answers import form_of, to_list, to_project
from finishcalc.counter.cards import Card, Cards
from finishcalc.counter.edits import number_of
from finishcalc.counter.folder.names import MOST_BYTES, file_name
from finishcalc.counter.folder.projects import ListedFile
from finishcalc.counter.fragments import problem_words
from finishcalc.counter.pages import page, piece
from finishcalc.counter.state import Counter
from finishcalc.problems import ProblemsFound

A_PAGE = 20
"""The projects of a page."""
NUMBERED = 20
"""The bytes that a name has besides: for its ending, its number, and the word before a reserved one."""
ACTIONS = {"copy": "Copy", "rename": "Rename"}
"""The things that can be done to a project in the list."""


class ListRoutes:
    """The list of the projects of the folder."""

    def __init__(self, counter: Counter) -> None:
        self._projects, self._alone = counter.projects, counter.alone
        self._cards = Cards(counter.projects)

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their addresses."""
        return [
            Route("/", self.show, methods=["GET"]),
            Route("/p/{name}/total", self.total, methods=["GET"]),
            *(Route(f"/p/{{name}}/{action}", self.ask, methods=["GET"], name=action) for action in ACTIONS),
            *(Route(f"/p/{{name}}/{action}", self.do, methods=["POST"], name=f"do-{action}") for action in ACTIONS),
        ]

    async def show(self, request: Request) -> Response:
        """Show a page of the list."""
        query, number = request.query_params.get("q", ""), number_of(request.query_params.get("page", ""))
        listed = await self._alone(self._cards.names)
        found = await self._found(listed, query) if query.strip() else listed
        first = A_PAGE * min(max(number - 1, 0), max(len(found) - 1, 0) // A_PAGE)
        shown = await self._alone(self._cards.cards, found[first : first + A_PAGE])
        if "totals" in request.query_params:
            shown = [each._replace(worth=await self._alone(self._cards.worth, each.name)) for each in shown]
        return HTMLResponse(self._page(shown, first, len(found), len(listed), query))

    async def total(self, request: Request) -> Response:
        """Answer with the total of one project."""
        worth = await self._alone(self._cards.worth, request.path_params["name"])
        return HTMLResponse(piece("rows.html", "worth", worth))

    async def ask(self, request: Request) -> Response:
        """Ask for the new name."""
        name, action = request.path_params["name"], request.url.path.rpartition("/")[2]
        return await self._alone(self._asked, name, action)

    async def do(self, request: Request) -> Response:
        """Copy a project, and show the copy; or rename it, and show the list."""
        name, action = request.path_params["name"], request.url.path.rpartition("/")[2]
        new = (await form_of(request)).get("new", [""])[0]
        return await self._alone(self._done, name, action, new)

    async def _found(self, listed: list[ListedFile], query: str) -> list[ListedFile]:
        """Give the projects that are searched for; a few at a time, so that no edit waits for all."""
        words, found = query.casefold().split(), list[ListedFile]()
        for start in range(0, len(listed), A_PAGE):
            some = listed[start : start + A_PAGE]
            cards = await self._alone(self._cards.cards, some)
            found += [each for each, card in zip(some, cards, strict=True) if card.holds(words)]
        return found

    def _page(self, cards: list[Card], first: int, found: int, of: int, query: str) -> str:
        return page(
            "list.html",
            cards=cards,
            query=query,
            first=first,
            found=found,
            of=of,
            number=first // A_PAGE + 1,
            last=first + len(cards),
            folder=PurePath(self._projects.path).name,
            waits=any(card.worth is None for card in cards),
            sampled=any(card.worth is None or card.worth.is_sample for card in cards),
        )

    def _asked(self, name: str, action: str) -> Response:
        self._projects.draft(name)  # a name that is no project is told
        stem = name.removesuffix(".toml")
        return HTMLResponse(_naming(name, action, self._free(stem) if action == "copy" else stem))

    def _free(self, stem: str) -> str:
        """Number a name, with the first number that is free. A long name is cut, because a file's name has an end and
        the number would be beyond it."""
        taken = {each.casefold() for each in self._projects.names()}
        short = stem.encode("utf-8")[: MOST_BYTES - NUMBERED].decode("utf-8", "ignore")
        names = (f"{short}-{number}" for number in range(2, len(taken) + 3))
        return next((each for each in names if file_name(each).casefold() not in taken), stem)

    def _done(self, name: str, action: str, typed: str) -> Response:
        try:
            if action == "copy":
                return to_project(self._projects.copy(name, typed))
            self._projects.rename(name, typed)
        except ProblemsFound as found:
            self._projects.draft(name)
            words = [f"{each.file} {problem_words(each)}" for each in found.problems]
            return HTMLResponse(_naming(name, action, typed, words), status_code=422)
        return to_list()


def _naming(name: str, action: str, typed: str, mistakes: list[str] | None = None) -> str:
    does = ACTIONS[action]
    return page("naming.html", file=name, action=action, does=does, typed=typed, mistakes=mistakes or [])
