"""The routes of the counter page."""

from pathlib import Path
from typing import NamedTuple

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

STATIC = Path(__file__).parent / "pages" / "static"


class Counter(NamedTuple):
    """The settings of a counter: its folder of projects, and the shop file that was named for it."""

    folder: str
    shop: str | None = None


def make_app(counter: Counter) -> Starlette:
    """Make the page of a counter."""

    async def projects(_: Request) -> Response:
        return PlainTextResponse("".join(f"{path.name}\n" for path in sorted(Path(counter.folder).glob("*.toml"))))

    return Starlette(routes=[Route("/", projects), Mount("/static", StaticFiles(directory=STATIC))])
