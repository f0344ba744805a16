"""The application of the counter: all its routes, and the files of its pages."""

from starlette.applications import Starlette
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles

from finishcalc.counter.routes.conflicts import ConflictRoutes
from finishcalc.counter.routes.listing import ListRoutes
from finishcalc.counter.routes.papers import PaperRoutes
from finishcalc.counter.routes.project import ProjectRoutes
from finishcalc.counter.routes.shop import ShopRoutes
from finishcalc.counter.routes.starting import NewRoutes
from finishcalc.counter.routes.studio import StudioRoutes
from finishcalc.counter.routes.troubles import HANDLERS
from finishcalc.counter.state import Counter as Counter


def make_app(counter: Counter) -> Starlette:
    """Make the application with its routes."""
    static = Mount("/static", StaticFiles(packages=[("finishcalc.counter", "pages/static")]))
    groups = (StudioRoutes, ShopRoutes, ListRoutes, NewRoutes, ProjectRoutes, PaperRoutes, ConflictRoutes)
    routes = [route for group in groups for route in group(counter).routes]
    return Starlette(routes=[*routes, static], exception_handlers=HANDLERS)
