"""Stands between the network and the page: lets in what a browser on this machine asks for that was shown the key.

Any site that she visits can send requests to this machine, and so can any other user of it. Each request is looked at
in this order: its host (a name that a stranger's DNS has turned to us is refused), its method and path, its key, the
site it comes from, its body. Every answer bears the headers of `headers.py`.
"""

import asyncio
import hmac
import re
import secrets
from urllib.parse import parse_qs

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from finishcalc.counter.server.forms import MOST_FIELDS, URLENCODED, form_fields
from finishcalc.counter.server.headers import RawHeaders, completed

MOST_BYTES = 64 * 1024
"""The most bytes of a body: a form of the page has a tenth of it."""

SAFE = ("GET", "HEAD")
SESSION = "counter.session"
"""The session of the browser, in the scope that the page gets: a random text that nobody guesses."""

_RANDOM = 24  # bytes, which make 32 letters
_SESSION_FORM = re.compile(rb"[A-Za-z0-9_-]{32}")


class _Refused(Exception):
    """A request that the page does not get, and the answer to it."""

    def __init__(self, status: int, text: str, *headers: tuple[str, str]) -> None:
        super().__init__(text)
        self.status, self.text, self.headers = status, text, headers

    async def send(self, send: Send) -> None:
        body = self.text.encode()
        headers = [("content-type", "text/plain; charset=utf-8"), ("content-length", str(len(body))), *self.headers]
        if self.status >= 400:  # what else it would send is not waited for
            headers.append(("connection", "close"))
        raw = [(name.encode(), value.encode()) for name, value in headers]
        await send({"type": "http.response.start", "status": self.status, "headers": raw})
        await send({"type": "http.response.body", "body": body})


class _Gone(Exception):
    """The browser has ended the connection before its request was whole."""


class Guard:
    """The page `app` as it is served at `port`, to browsers that have `key`, or come with one of `once`, keys that open
    it a single time. A body must come within `patience` seconds."""

    def __init__(self, app: ASGIApp, port: int, key: str, once: set[str], patience: float = 5.0) -> None:
        self._app, self._key, self._once, self._patience = app, key.encode(), once, patience
        self._hosts = {f"127.0.0.1:{port}".encode(), f"localhost:{port}".encode()}
        # browsers do not tell ports apart: cookies of other servers on this machine come here too, and ours go there
        self._key_cookie, self._session_cookie = f"counter-{port}", f"counter-session-{port}"

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request: a refusal, the way from the first address to the page, or the page's answer."""
        if scope["type"] != "http":  # neither websockets nor events of the server
            return
        session, new = self._session(scope)
        cookies = [self._set_cookie(self._session_cookie, session)] if new else []
        try:
            self._check_host(scope)
            _check_method_and_path(scope)
            self._check_first_address(scope, cookies)
            self._check_key(scope)
            self._check_site(scope)
            body = await self._body(scope, receive)
            _check_form(scope, body)
        except _Refused as refused:
            await refused.send(_with_headers(send))
        except _Gone:
            return
        else:
            await self._app({**scope, SESSION: session}, _whole(body, receive), _with_headers(send, cookies))

    def _check_host(self, scope: Scope) -> None:
        """Refuse a name of another server, the right name at another port, none, and several."""
        hosts = _values(scope, b"host")
        if len(hosts) != 1 or hosts[0] not in self._hosts:
            raise _Refused(421, "This address is not served here.")

    def _check_first_address(self, scope: Scope, cookies: list[tuple[str, str]]) -> None:
        """Send a browser that comes with the key on to the address without it, which can be shown and copied."""
        if scope["path"] == "/" and scope["method"] == "GET":
            given = parse_qs(scope["query_string"].decode("latin-1")).get("key", [])
            if any(self._is_key(key.encode()) or self._spends(key) for key in given):
                key = self._set_cookie(self._key_cookie, self._key.decode())
                raise _Refused(303, "", ("location", "/"), key, *cookies)

    def _spends(self, key: str) -> bool:
        """Take a key that opens the page once, if it is one."""
        is_there = key in self._once
        self._once.discard(key)
        return is_there

    def _check_key(self, scope: Scope) -> None:
        if not any(self._is_key(value) for value in _cookies(scope, self._key_cookie)):
            raise _Refused(401, "Open the page by the address that the command printed.")

    def _is_key(self, given: bytes) -> bool:
        return hmac.compare_digest(given, self._key)

    def _check_site(self, scope: Scope) -> None:
        """Refuse what another site asks for: another port of this machine is one too. A browser tells with each form
        that it posts where it comes from."""
        ours = b"http://" + _values(scope, b"host")[0]
        sites, origins = _values(scope, b"sec-fetch-site"), _values(scope, b"origin")
        is_ours = set(sites) <= {b"same-origin", b"none"} and set(origins) <= {ours}
        if not is_ours or not (origins or scope["method"] in SAFE):
            raise _Refused(403, "That came from another site.")

    async def _body(self, scope: Scope, receive: Receive) -> bytes:
        """Read a body whole before the page begins, so that no slow one holds its thread."""
        for length in _values(scope, b"content-length"):
            if not re.fullmatch(rb"[0-9]{1,20}", length):
                raise _Refused(400, "The length of the form is no number.")
            if int(length) > MOST_BYTES:
                raise _too_large()
        if scope["method"] in SAFE:
            return b""
        try:
            async with asyncio.timeout(self._patience):
                return await _read(receive)
        except TimeoutError:
            raise _Refused(408, "That took too long.") from None

    def _session(self, scope: Scope) -> tuple[str, bool]:
        """Give the browser's session, or a new one."""
        for value in _cookies(scope, self._session_cookie):
            if _SESSION_FORM.fullmatch(value):
                return value.decode(), False
        return secrets.token_urlsafe(_RANDOM), True

    @staticmethod
    def _set_cookie(name: str, value: str) -> tuple[str, str]:
        return "set-cookie", f"{name}={value}; Path=/; HttpOnly; SameSite=Strict"


def new_key() -> str:
    """Draw a key that nobody guesses, of letters that an address may have."""
    return secrets.token_urlsafe(_RANDOM)


def _check_method_and_path(scope: Scope) -> None:
    if scope["method"] not in (*SAFE, "POST"):
        raise _Refused(405, "A page is asked for, or a form is sent.", ("allow", "GET, HEAD, POST"))
    if not scope["path"].startswith("/"):
        raise _Refused(400, "That is no address of a page.")


def _values(scope: Scope, name: bytes) -> list[bytes]:
    """Give every value of a header, because it may be sent twice."""
    return [value for each, value in scope["headers"] if each == name]


def _cookies(scope: Scope, name: str) -> list[bytes]:
    """Give the values of a cookie. It is looked for plainly, because a cookie of another server on this machine may be
    written as no reader of cookies takes it, and would hide ours."""
    pairs = [pair.partition(b"=") for value in _values(scope, b"cookie") for pair in value.split(b";")]
    return [value.strip() for each, _, value in pairs if each.strip() == name.encode()]


async def _read(receive: Receive) -> bytes:
    body, more = b"", True
    while more:
        message = await receive()
        if message["type"] == "http.disconnect":
            raise _Gone
        body += message.get("body", b"")
        more = message.get("more_body", False)
        if len(body) > MOST_BYTES:  # whatever length it has told, and of pieces without one
            raise _too_large()
    return body


def _too_large() -> _Refused:
    return _Refused(413, "That is more than a form of the page holds.")


def _check_form(scope: Scope, body: bytes) -> None:
    """Refuse what is no form, and one that no page of ours has."""
    kinds = [value.partition(b";")[0].strip().lower() for value in _values(scope, b"content-type")]
    if body and kinds != [URLENCODED]:
        raise _Refused(415, "That is no form of the page.")
    try:
        form_fields(body)
    except ValueError:
        raise _Refused(413, f"That is more than the {MOST_FIELDS} fields that a form may have.") from None


def _whole(body: bytes, receive: Receive) -> Receive:
    """Give the page the body in one piece, and then whatever else comes."""
    pieces = [body]

    async def give() -> Message:
        if pieces:
            return {"type": "http.request", "body": pieces.pop(), "more_body": False}
        return await receive()

    return give


def _with_headers(send: Send, more: list[tuple[str, str]] | None = None) -> Send:
    """Send with the headers of every answer, and some more."""
    cookies: RawHeaders = [(name.encode(), value.encode()) for name, value in more or []]

    async def give(message: Message) -> None:
        if message["type"] == "http.response.start":
            message = {**message, "headers": [*completed(list(message.get("headers", []))), *cookies]}
        await send(message)

    return give
