"""The page's files are our own but for one script, which is its authors' very file, and nothing that the policy refuses
or that would be run as a script stands in a template."""

import hashlib
import re
from importlib.resources import files
from importlib.resources.abc import Traversable

import pytest

PAGES = files("finishcalc.counter.pages")
STATIC = PAGES / "static"

# dist/htmx.min.js of the package htmx.org 2.0.11, as the npm registry gives it; 0BSD
HTMX = "d6fdc75f204e6bdefa99b69bf1e6d4ac69b8a364f77929f45c13476b4000f717"

REFUSED = {
    "a script in the page": r"<script(?![^>]*\ssrc=)",
    "a style in the page": r"<style|\sstyle\s*=",
    "a handler in an attribute": r"\son[a-z]+\s*=",
    "a handler of htmx, which it runs as a script": r"(data-)?hx-on\b",
    "values that htmx runs as a script": r"\b(js|javascript):|(data-)?hx-vars\b",
    "a filter of an event, which htmx runs as a script": r"""hx-trigger\s*=\s*("[^"]*\[|'[^']*\[)""",
    "a file from elsewhere": r"""(src|href|action|hx-(get|post))\s*=\s*["']?\s*(https?:)?//""",
}


def sources() -> list[Traversable]:
    """The templates, and the modules that write pieces of pages."""
    counter = files("finishcalc.counter")
    folders = [each for each in counter.iterdir() if each.is_dir()]
    found = [file for folder in [counter, *folders] for file in folder.iterdir()]
    return sorted((file for file in found if file.name.endswith((".html", ".py"))), key=str)


def objections(text: str) -> list[str]:
    return [what for what, pattern in REFUSED.items() if re.search(pattern, text, re.I)]


def test_htmx_is_the_very_file_of_its_version_with_its_licence():
    script = (STATIC / "htmx.min.js").read_bytes()
    assert hashlib.sha256(script).hexdigest() == HTMX
    assert b'version:"2.0.11"' in script
    assert (STATIC / "htmx.LICENSE.txt").read_text(encoding="utf-8").startswith("Zero-Clause BSD\n")


def test_there_are_templates_to_look_at():
    assert {"base.html", "project.html"} <= {source.name for source in sources()}


@pytest.mark.parametrize("source", sources(), ids=lambda source: source.name)
def test_nothing_in_a_page_is_run_as_a_script_or_refused_by_the_policy(source: Traversable):
    assert objections(source.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("<script>go()</script>", "a script in the page"),
        ('<script defer type="module">', "a script in the page"),
        ("<p style='color: red'>", "a style in the page"),
        ("<svg><style>", "a style in the page"),
        ('<a onclick="go()">', "a handler in an attribute"),
        ('<a hx-on:click="go()">', "a handler of htmx, which it runs as a script"),
        ("<a hx-on--after-swap='go()'>", "a handler of htmx, which it runs as a script"),
        ("<a hx-vals='js:{a: 1}'>", "values that htmx runs as a script"),
        ('<a href="javascript:go()">', "values that htmx runs as a script"),
        ('<a hx-trigger="click[ctrlKey]">', "a filter of an event, which htmx runs as a script"),
        ('<script src="https://evil.example/a.js">', "a file from elsewhere"),
        ('<img src="//evil.example/a.png">', "a file from elsewhere"),
    ],
)
def test_each_refusal_bites(text: str, named: str):
    assert objections(text) == [named]


def test_what_a_page_needs_is_let_pass():
    good = (
        '<script src="/static/htmx.min.js" defer></script><a href="/p/one">one</a>'
        '<form hx-post="/p/one/edit" hx-trigger="change, input delay:2s" hx-vals=\'{"a": "b[0]"}\'>'
    )
    assert objections(good) == []
