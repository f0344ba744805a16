"""Visits the pages of a counter as a browser does, without a server: reads the fields of a form, posts them, and takes
the pieces of an answer in."""

import asyncio
import json
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import quote, urlencode
from xml.etree.ElementTree import Element

import html5lib

from finishcalc.counter.app import Counter, make_app
from finishcalc.counter.folder.projects import Projects
from tests.counter.running import run


class Response(NamedTuple):
    status: int
    headers: dict[str, str]
    body: bytes

    @property
    def text(self) -> str:
        return self.body.decode()

    @property
    def events(self) -> dict[str, Any]:
        return dict(json.loads(self.headers.get("hx-trigger-after-settle", "{}")))


def tree(text: str) -> Element:
    """A page as a browser reads it."""
    element: Element = html5lib.parse(text, namespaceHTMLElements=False)
    return element


def words(element: Element | None) -> str:
    """The words of an element, blanks as one."""
    return " ".join("".join(element.itertext()).split()) if element is not None else ""


class Visitor:
    """Somebody with a browser at a counter."""

    def __init__(self, folder: Path | str | Projects, app: Any = None) -> None:
        self.projects = folder if isinstance(folder, Projects) else Projects(str(folder), "none")
        self.app = app or make_app(Counter(self.projects))

    def ask(self, method: str, path: str, form: dict[str, list[str]] | None = None, **headers: str) -> Response:
        body = urlencode(form, doseq=True).encode() if form is not None else b""
        address, _, query = path.partition("?")
        sent = {"content-type": "application/x-www-form-urlencoded", **headers}
        scope = {
            "type": "http",
            "http_version": "1.1",
            "method": method,
            "scheme": "http",
            "server": ("127.0.0.1", 80),
            "root_path": "",
            "path": _unquoted(address),
            "raw_path": address.encode(),
            "query_string": query.encode(),
            "headers": [(name.replace("_", "-").lower().encode(), text.encode()) for name, text in sent.items()],
        }
        return run(self._asked(scope, body))

    async def _asked(self, scope: dict[str, Any], body: bytes) -> Response:
        pieces: list[dict[str, Any]] = []
        parts = [{"type": "http.request", "body": body, "more_body": False}]

        async def receive() -> dict[str, Any]:
            if not parts:
                await asyncio.Event().wait()  # a browser that stays: whoever waits for its going is cancelled
            return parts.pop()

        async def send(message: dict[str, Any]) -> None:
            pieces.append(message)

        await self.app(scope, receive, send)
        headers = {name.decode().lower(): text.decode() for name, text in pieces[0]["headers"]}
        return Response(pieces[0]["status"], headers, b"".join(each.get("body", b"") for each in pieces[1:]))

    def get(self, path: str, **headers: str) -> Response:
        return self.ask("GET", path, **headers)

    def post(self, path: str, form: dict[str, list[str]], **headers: str) -> Response:
        return self.ask("POST", path, form, **headers)

    def open(self, name: str) -> "OpenPage":
        """Open the page of a project."""
        return OpenPage(self, name)


def _unquoted(path: str) -> str:
    from urllib.parse import unquote

    return unquote(path)


class OpenPage:
    """A page of a project that is open: its fields, and its pieces by their ids."""

    def __init__(self, visitor: Visitor, name: str) -> None:
        self.visitor, self.name = visitor, name
        self.buttons: dict[str, str] = {}
        answer = visitor.get(self.address)
        assert answer.status == 200, answer.text
        self.take_page(answer.text)

    @property
    def address(self) -> str:
        return f"/p/{quote(self.name, safe='')}"

    def take_page(self, text: str) -> None:
        """Read a whole page."""
        self.tree = tree(text)
        self.pieces = {each.get("id", ""): words(each) for each in self.tree.iter() if each.get("id")}
        self.form = fields_of(self.tree)

    def edit(self, typing: str = "", scripted: bool = True, **changes: str | list[str] | None) -> Response:
        """Set fields (`__` for a dot, None for one that is not posted) and post the form, as its script does."""
        for name, value in changes.items():
            key = name.replace("__", ".")
            if value is None:
                self.form.pop(key, None)
            else:
                self.form[key] = value if isinstance(value, list) else [value]
        return self.press(typing=typing, scripted=scripted)

    def press(self, typing: str = "", scripted: bool = True, **button: str) -> Response:
        """Post the form, by a button if one is given, and take in what is answered."""
        answer = self.send(typing, scripted, **button)
        if scripted and answer.status == 200:
            self.take(answer)
        elif answer.status == 303:
            self.take_page(self.visitor.get(answer.headers["location"]).text)
        elif answer.status == 422:
            self.take_page(answer.text)
        return answer

    def send(self, typing: str = "", scripted: bool = True, **button: str) -> Response:
        """Post the form, and lose what is answered."""
        form = {**self.form, **{name: [text] for name, text in button.items()}}
        query = f"?typing={quote(typing)}" if typing else ""
        headers = {"hx_request": "true"} if scripted else {}
        return self.visitor.post(f"{self.address}/edit{query}", form, **headers)

    def more(self) -> None:
        """Ask for the options part by part, and take them in."""
        self.form["part"] = ["0"]
        goes_on = True
        while goes_on:
            query = {
                "page": self.form["page"][0],
                "part": self.form["part"][0],
                "more": self.form.get("more", ["0"])[0],
            }
            query |= {"size": self.form["size"][0]} if self.form.get("size", [""])[0] else {}
            answer = self.visitor.get(f"{self.address}/more?{urlencode(query)}", hx_request="true")
            assert answer.status == 200
            self.take(answer)
            told = answer.events["later"]
            self.form["more"], goes_on = [str(told["more"])], told["part"] is not None
            self.form["part"] = [str(told["part"] or 0)]

    def take(self, answer: Response) -> None:
        """Take the pieces of an answer in, and the values of fields that it sets."""
        found = tree(answer.text)
        for each in found.iter():
            if each.get("hx-swap-oob"):
                self.pieces[each.get("id", "")] = words(each)
        self.pieces |= {each.get("id", ""): words(each) for each in found.iter() if each.get("id")}
        self.buttons |= {words(each.find("span")): each.get("value", "") for each in found.iter("button")}
        for name, value in answer.events.get("fields", {}).items():
            self._set(name, value)

    def _set(self, name: str, value: str) -> None:
        from finishcalc.counter.form.fields import FIELDS

        field = FIELDS.get(name)
        if name == "charges.extras":
            self.form[name] = value.split("\n") if value else []
        elif field and field.sort == "flag" and not value:
            self.form.pop(name, None)
        else:
            self.form[name] = [value]

    @property
    def total(self) -> str:
        """The total as it is shown, without its signs."""
        return "".join(sign for sign in self.pieces["sum"] if sign.isdigit() or sign in ".,")


def fields_of(page: Element) -> dict[str, list[str]]:
    """The fields of a page's form of a project, as a browser would post them."""
    (form,) = (each for each in page.iter("form") if each.get("id") == "job")
    fields: dict[str, list[str]] = {}
    for each in form.iter():
        name, kind = each.get("name"), each.get("type")
        if not name or each.tag == "button" or (kind in ("radio", "checkbox") and each.get("checked") is None):
            continue
        if each.tag == "select":
            chosen = [option.get("value", "") for option in each.iter("option") if option.get("selected") is not None]
            fields.setdefault(name, []).extend(chosen or [next(each.iter("option")).get("value", "")])
        else:
            fields.setdefault(name, []).append(each.get("value", "") if each.tag == "input" else each.text or "")
    return fields
