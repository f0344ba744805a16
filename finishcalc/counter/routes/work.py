"""The two things every route does: it reads the form that is posted, and has its work done in the planning thread."""

from collections.abc import Callable
from itertools import count
from typing import ParamSpec, TypeVar, cast
from urllib.parse import quote

from starlette.requests import Request

from finishcalc.counter.server.forms import form_fields
from finishcalc.counter.server.planning import Planning

P = ParamSpec("P")
R = TypeVar("R")

_numbers = count(1)


async def alone(planning: Planning, work: Callable[P, R], *args: P.args, **kwargs: P.kwargs) -> R:
    """Have work done that no other work takes the place of. Raises what the work raises."""
    return cast(R, await planning.run(f"alone {next(_numbers)}", work, *args, **kwargs))


async def posted(request: Request) -> dict[str, str]:
    """Give the fields of a posted form, of fields with one name the values with commas between."""
    form: dict[str, str] = {}
    for name, text in form_fields(await request.body()):
        form[name] = f"{form[name]}, {text}" if name in form else text
    return form


def address_of(name: str) -> str:
    """Give the address of the page of a project."""
    return f"/p/{quote(name, safe='')}"
