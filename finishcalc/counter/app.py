"""The application of the counter: all its routes, and the files of its pages."""

from starlette.applications import Starlette
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from finishcalc.counter.routes.project import ProjectRoutes
from finishcalc.counter.state import Counter as Counter


def make_app(counter: Counter) -> Starlette:
    """Make the application with its routes."""
    static = Mount("/static", StaticFiles(packages=[("finishcalc.counter", "pages/static")]))
    return Starlette(routes=[*ProjectRoutes(counter).routes, static])
