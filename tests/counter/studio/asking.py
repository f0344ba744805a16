"""Browsers that ask a counter, each with a session of its own as the guard would give it, and a clock set by hand."""

from collections.abc import Awaitable, Callable, MutableMapping
from pathlib import Path
from typing import Any
from urllib.parse import quote

from finishcalc.counter.app import Counter, make_app
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.server.guard import SESSION
from finishcalc.counter.studio.views import Views
from tests.counter.visiting import Response, Visitor

SAMPLES = Path(__file__).parents[3] / "presets" / "projects"
Scope = MutableMapping[str, Any]


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now = 1_000_000.0

    def __call__(self) -> float:
        return self.now


class Asking:
    """A counter over a folder, and browsers of it. Without a shop file all is quoted with the sample shop."""

    def __init__(self, folder: Path, shop: str | None = "none") -> None:
        self.folder, self.clock = folder, Clock()
        self.projects = Projects(str(folder), shop)
        self.app = make_app(Counter(self.projects, Views(self.clock)))

    def browser(self, session: str = "hers") -> "Browser":
        async def app(
            scope: Scope, receive: Callable[[], Awaitable[Any]], send: Callable[[Any], Awaitable[None]]
        ) -> None:
            await self.app({**scope, SESSION: session}, receive, send)

        return Browser(self.projects, app)


class Browser(Visitor):
    """A browser at the counter that opens and closes the studio's view."""

    def show(self, name: str) -> Response:
        """Look at a project."""
        return self.get(f"/p/{quote(name)}")

    def open_view(self, name: str) -> Response:
        """Open the studio's view of a project, and look at it."""
        answer = self.post(f"/p/{quote(name)}/studio", {"sure": ["yes"]})
        assert (answer.status, answer.headers["location"]) == (303, f"/p/{quote(name)}")
        return self.show(name)


def folder_with(folder: Path, *names: str, shop: str = "") -> Path:
    """Lay samples in a folder, and a shop file that each names, if one is given."""
    for name in names:
        text = (SAMPLES / f"{name}.toml").read_text("utf-8")
        (folder / f"{name}.toml").write_text(f'shop = "shop.toml"\n{text}' if shop else text, "utf-8")
    if shop:
        (folder / "shop.toml").write_text(shop, "utf-8")
    return folder
