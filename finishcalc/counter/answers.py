"""Posted forms as they are read, and the answers that a page takes its pieces from."""

import json
from typing import Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from finishcalc.counter.fragments import Fragments
from finishcalc.counter.server.forms import form_fields


async def form_of(request: Request) -> dict[str, list[str]]:
    """Read a posted form: all texts under each name. Raises ValueError for one with too many fields."""
    form: dict[str, list[str]] = {}
    for name, text in form_fields(await request.body()):
        form.setdefault(name, []).append(text)
    return form


def is_scripted(request: Request) -> bool:
    """Tell a request of the page's script, which takes pieces, from a plain one, which takes a page."""
    return request.headers.get("HX-Request") == "true"


def swaps(pieces: Fragments, events: dict[str, Any]) -> Response:
    """Answer with pieces of the page, each to be put into the element of its id, and events for its script."""
    body = "".join(f'<div id="{name}" hx-swap-oob="innerHTML">{piece}</div>' for name, piece in pieces.items())
    return HTMLResponse(body, headers={"HX-Trigger-After-Settle": json.dumps(events)})


def unchanged() -> Response:
    """Answer that the page stays as it is."""
    return Response(status_code=204)


def address_of(name: str) -> str:
    """Give the address of the page of a project."""
    return f"/p/{quote(name, safe='')}"


def to_project(name: str) -> Response:
    """Send the browser to the page of a project."""
    return RedirectResponse(address_of(name), status_code=303)


def to_list() -> Response:
    """Send the browser to the list of projects."""
    return RedirectResponse("/", status_code=303)


def loaded_anew(name: str, scripted: bool) -> Response:
    """Have the page of a project loaded anew."""
    return Response(headers={"HX-Refresh": "true"}) if scripted else to_project(name)
