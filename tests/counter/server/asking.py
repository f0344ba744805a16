"""Asks a guarded page as a server does, without one: a request's scope and body in, the answer's parts out."""

import asyncio
from contextlib import suppress
from typing import Any, NamedTuple

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from finishcalc.counter.server.forms import form_fields
from finishcalc.counter.server.guard import SESSION, Guard
from tests.counter.running import run

PORT = 8420
KEY = "k" * 32
HOST = b"127.0.0.1:8420"
COOKIE = f"counter-{PORT}={KEY}".encode()
OWN = (b"host", HOST), (b"cookie", COOKIE)
"""The headers of a browser that has the key."""
POSTED = (*OWN, (b"origin", b"http://" + HOST), (b"content-type", b"application/x-www-form-urlencoded"))
"""Those with which it posts a form."""

Headers = tuple[tuple[bytes, bytes], ...]


class Answer(NamedTuple):
    status: int
    headers: list[tuple[bytes, bytes]]
    body: bytes

    def values(self, name: bytes) -> list[bytes]:
        return [value for each, value in self.headers if each == name]

    @property
    def cookies(self) -> dict[str, str]:
        pairs = [value.decode().partition(";")[0].partition("=") for value in self.values(b"set-cookie")]
        return {name: value for name, _, value in pairs}


async def told(request: Request) -> Response:
    """A page that tells what it was given."""
    return JSONResponse({"session": request.scope[SESSION], "fields": form_fields(await request.body())})


async def broken(_: Request) -> Response:
    raise ZeroDivisionError


def guard(*once: str) -> Guard:
    page = Starlette(routes=[Route("/", told, methods=["GET", "POST"]), Route("/broken", broken)])
    return Guard(page, PORT, KEY, set(once), patience=0.3)


def ask(
    method: str = "GET",
    path: str = "/",
    headers: Headers = OWN,
    pieces: tuple[bytes | float, ...] = (),
    query: bytes = b"",
    guarded: Guard | None = None,
) -> Answer | None:
    """The answer to a request; None where there is none. Of its pieces a number is a pause, in seconds, and after the
    last one the connection stays open."""
    return run(_ask(guarded or guard(), method, path, headers, pieces, query))


async def _ask(
    guarded: Guard, method: str, path: str, headers: Headers, pieces: tuple[bytes | float, ...], query: bytes
) -> Answer | None:
    scope = {
        "type": "http",
        "http_version": "1.1",
        "method": method,
        "path": path,
        "raw_path": path.encode(),
        "root_path": "",
        "scheme": "http",
        "query_string": query,
        "headers": list(headers),
        "server": ("127.0.0.1", PORT),
        "state": {},
    }
    coming, sent = list(pieces) or [b""], list[dict[str, Any]]()

    async def receive() -> dict[str, Any]:
        while coming:
            piece = coming.pop(0)
            if isinstance(piece, bytes):
                return {"type": "http.request", "body": piece, "more_body": bool(coming)}
            await asyncio.sleep(piece)
        return {"type": "http.disconnect"}

    async def send(message: Any) -> None:
        sent.append(message)

    with suppress(ZeroDivisionError):  # the server logs it
        await guarded(scope, receive, send)
    if not sent:
        return None
    body = b"".join(message.get("body", b"") for message in sent[1:])
    return Answer(sent[0]["status"], sent[0]["headers"], body)
