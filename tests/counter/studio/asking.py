"""Browsers that ask a counter, each with a session of its own, and a clock that is set by hand."""

from pathlib import Path

from starlette.testclient import TestClient
from starlette.types import Receive, Scope, Send

from finishcalc.counter.app import Counter, make_app
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.server.guard import SESSION
from finishcalc.counter.studio.views import Views

SAMPLES = Path(__file__).parents[3] / "presets" / "projects"


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now = 1_000_000.0

    def __call__(self) -> float:
        return self.now


class Asking:
    """A counter over a folder, and browsers of it. Each has a session, as the guard would give it."""

    def __init__(self, folder: Path, shop: str | None = None) -> None:
        self.clock = Clock()
        self.app = make_app(Counter(Projects(str(folder), shop), Views(self.clock)))

    def browser(self, session: str = "hers") -> TestClient:
        async def app(scope: Scope, receive: Receive, send: Send) -> None:
            await self.app({**scope, SESSION: session}, receive, send)

        return TestClient(app, base_url="http://127.0.0.1:8000", follow_redirects=False)


def folder_with(folder: Path, *names: str, shop: str = "") -> Path:
    """Lay samples in a folder, and a shop file that each names, if one is given."""
    for name in names:
        text = (SAMPLES / f"{name}.toml").read_text("utf-8")
        (folder / f"{name}.toml").write_text(f'shop = "shop.toml"\n{text}' if shop else text, "utf-8")
    if shop:
        (folder / "shop.toml").write_text(shop, "utf-8")
    return folder
