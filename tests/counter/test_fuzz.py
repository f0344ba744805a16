"""Every route of the counter is asked for anything: names, queries and forms that no page makes, behind the guard as it
is served. No answer is a mistake of ours, no project's file changes but by what is there for it, no text is HTML."""

import hashlib
import re
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from starlette.routing import Mount, Route

from finishcalc.counter.app import Counter, make_app
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.form.fields import FIELDS
from finishcalc.counter.server.guard import Guard
from tests.builders import TOP, sample
from tests.counter.visiting import Response, Visitor, fields_of, tree

PORT, KEY = 8420, "k" * 32
HOSTILE = "<script>window.taken=1</script>\"'><img src=x onerror=taken()>"
OWN = {"host": f"127.0.0.1:{PORT}", "cookie": f"counter-{PORT}={KEY}", "origin": f"http://127.0.0.1:{PORT}"}
WRITES = {"/new", "/p/{name}/copy", "/p/{name}/rename", "/p/{name}/conflict"}
"""The routes that write project files by what they are for; `/edit` does so when it is told to save."""

TEXTS = st.one_of(
    st.sampled_from(
        [HOSTILE, "", "60 1/", "1e9999", "9" * 5000, "٣", "\x00", "\u202e", "-1", "none", "[[", "'" * 99, "../x"]
    ),
    st.text(max_size=20),
    st.text(min_size=1, max_size=20).map(lambda text: text * 200),
)
NAMES = st.one_of(
    st.sampled_from(
        ["cloth.toml", "pieced.toml", "gone.toml", "..", "../cloth.toml", "%2e%2e", HOSTILE, ".finishcalc", "shop.toml"]
    ),
    st.text(min_size=1, max_size=30).filter(lambda name: "\x00" not in name),
)
KEYS = [
    *FIELDS,
    "page",
    "seen",
    "has",
    "part",
    "do",
    "take",
    "out",
    "typing",
    "more",
    "size",
    "q",
    "mark",
    "new",
    "sure",
    "units",
]
KEYS += [
    "title",
    "customer",
    "width",
    "length",
    "brings",
    "use",
    "look",
    "options",
    "totals",
    "quantity:label",
    "rates.seam",
]
FORMS = st.dictionaries(
    st.sampled_from(KEYS) | st.text(max_size=20), st.lists(TEXTS, min_size=1, max_size=2), max_size=8
)


@pytest.fixture(scope="module")
def counter(tmp_path_factory: pytest.TempPathFactory) -> Visitor:
    """A counter over two projects and a shop file, whose browser has a session."""
    folder = tmp_path_factory.mktemp("fuzz") / "quilts"
    folder.mkdir()
    (folder / "cloth.toml").write_text(TOP, encoding="utf-8")
    shutil.copy(sample("harbour-check-cloth.toml"), folder / "pieced.toml")
    (folder / "shop.toml").write_text("[rates]\nseam = 22\n", encoding="utf-8")
    visitor = Visitor(folder)
    visitor.app = Guard(visitor.app, PORT, KEY, set())
    return visitor


def ask(counter: Visitor, method: str, path: str, form: dict[str, list[str]] | None, **headers: str) -> Response:
    """Ask with the headers of a browser that was shown the key. A mistake of ours is raised by the application."""
    return counter.ask(method, path, form, **OWN, **headers)


def routes() -> list[tuple[str, str]]:
    """Every method and path of the application but its files."""
    app = make_app(Counter(Projects(".")))
    kept = [route for route in app.routes if isinstance(route, Route)]
    assert {type(route) for route in app.routes} == {Route, Mount}
    return sorted({(method, route.path) for route in kept for method in route.methods or ()})


def address(path: str, name: str, kind: str) -> str:
    from urllib.parse import quote

    return path.replace("{name}", quote(name, safe="")).replace("{kind}", quote(kind, safe=""))


def texts_of(folder: Path) -> dict[str, str]:
    """The hashes of all files that are there, but drafts."""
    files = [path for path in folder.iterdir() if path.is_file()]
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


@pytest.mark.parametrize(("method", "path"), routes(), ids=lambda part: part)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(name=NAMES, kind=TEXTS.filter(lambda text: len(text) < 40 and text), form=FORMS, scripted=st.booleans())
@example(name="cloth.toml", kind="quote.html", form={"do": ["edit"], "customer.name": [HOSTILE]}, scripted=True)
@example(name="cloth.toml", kind="quote.html", form={}, scripted=False)
def test_any_request_is_answered_and_harms_nothing(
    counter: Visitor, method: str, path: str, name: str, kind: str, form: dict[str, list[str]], scripted: bool
):
    folder = Path(counter.projects.path)
    before = texts_of(folder)
    at = address(path, name, kind)
    more = {"hx_request": "true"} if scripted else {}
    if method == "POST":
        answer = ask(counter, method, at, form, **more)
    else:
        from urllib.parse import urlencode

        answer = ask(counter, method, f"{at}?{urlencode(form, doseq=True, errors='replace')}", None, **more)
    assert answer.status < 500
    assert "Traceback" not in answer.body.decode("utf-8", "replace")
    assert b"<script>window.taken" not in answer.body
    assert b"<img src=x" not in answer.body
    after = texts_of(folder)
    if not (path in WRITES or form.get("do") == ["save"] or path == "/shop"):
        assert after == before
    assert {"cloth.toml", "pieced.toml", "shop.toml"} <= set(after) or path.endswith("/rename")


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(changes=st.dictionaries(st.sampled_from(list(FIELDS)), TEXTS, max_size=6), scripted=st.booleans())
@example(changes=dict.fromkeys(FIELDS, HOSTILE), scripted=True)
@example(changes=dict.fromkeys(FIELDS, HOSTILE), scripted=False)
def test_a_whole_form_with_anything_in_its_fields_is_answered(
    counter: Visitor, changes: dict[str, str], scripted: bool
):
    """The form as the page has it, so that its edits are taken in; and the page that is loaded after."""
    (Path(counter.projects.path) / "cloth.toml").write_text(TOP, encoding="utf-8")
    form = fields_of(tree(ask(counter, "GET", "/p/cloth.toml", None).text))
    form |= {key: [text] for key, text in changes.items()}
    more = {"hx_request": "true"} if scripted else {}
    answer = ask(counter, "POST", "/p/cloth.toml/edit", form, **more)
    assert answer.status in (200, 204, 303, 413, 422)
    for each in (answer, ask(counter, "GET", "/p/cloth.toml", None), ask(counter, "GET", "/?totals=yes", None)):
        assert b"<script>window.taken" not in each.body
        assert not re.search(rb"<img[^>]+onerror", each.body)
    assert ask(counter, "GET", "/p/cloth.toml", None).status in (200, 422)
    assert (Path(counter.projects.path) / "cloth.toml").read_text(encoding="utf-8") == TOP
    undo(counter)


def undo(counter: Visitor) -> None:
    """Take back all that stands, so that each example begins on the file."""
    counter.projects.rebase("cloth.toml", keep=False)
