"""Papers from the page: of the draft as it stands, each with a policy that admits its own style and script alone."""

import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path

import pytest

from finishcalc.commandline.views import More, cut_view, quote_view
from finishcalc.counter import papers
from finishcalc.counter.routes import papers as paper_routes
from finishcalc.counter.server.headers import CONTENT_SECURITY_POLICY, completed, raw_headers
from finishcalc.counter.working import work_out
from tests.builders import run
from tests.counter.making import PIECED, PLAIN, folder_of
from tests.counter.visiting import Visitor, tree, words

PAPERS = ("quote.html", "cut.html", "buy.html")


@pytest.fixture
def visitor(tmp_path: Path) -> Visitor:
    return Visitor(folder_of(tmp_path, plain=PLAIN, pieced=PIECED))


def policy(text: str) -> dict[str, str]:
    """A Content-Security-Policy by its directives."""
    return {name: rest for name, _, rest in (each.strip().partition(" ") for each in text.split(";"))}


def hash_of(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def test_the_papers_are_those_of_the_command_line(visitor: Visitor, tmp_path: Path) -> None:
    result = work_out(visitor.projects, visitor.projects.draft("pieced.toml")).result
    assert result is not None
    assert visitor.get("/p/pieced.toml/papers/quote.html").text == quote_view(result, "customer", "html", 80, More())
    assert visitor.get("/p/pieced.toml/papers/cut.html").text == cut_view([result], "html", 80)
    made = run("buy", str(tmp_path / "pieced.toml"), "--shop", "none", "--no-prices", "--html", "-")
    assert visitor.get("/p/pieced.toml/papers/buy.html").text == made.output
    assert visitor.get("/p/pieced.toml/papers/quote.pdf").body == quote_view(result, "customer", "pdf", 80, More())


def test_the_papers_follow_the_draft(visitor: Visitor) -> None:
    before = visitor.get("/p/plain.toml/papers/quote.html").text
    visitor.projects.change("plain.toml", lambda draft: draft.with_step({"title": "Another cloth"}, "p", sound=True))
    after = visitor.get("/p/plain.toml/papers/quote.html").text
    assert "Another cloth" in after
    assert "Another cloth" not in before


@pytest.mark.parametrize("kind", PAPERS)
def test_the_policy_admits_the_documents_own_style_and_script_and_nothing_else(visitor: Visitor, kind: str) -> None:
    answer = visitor.get(f"/p/plain.toml/papers/{kind}")
    allowed = policy(answer.headers["content-security-policy"])
    (style,) = re.findall(r"<style>(.*?)</style>", answer.text, re.DOTALL)
    scripts = re.findall(r"<script>(.*?)</script>", answer.text, re.DOTALL)
    assert allowed.pop("style-src") == hash_of(style)
    assert allowed.pop("script-src", "") == " ".join(map(hash_of, scripts))
    assert bool(scripts) == (kind == "buy.html")
    assert allowed == {
        "default-src": "'none'",
        "img-src": "data:",
        "base-uri": "'none'",
        "form-action": "'none'",
        "frame-ancestors": "'none'",
    }


def test_the_guard_keeps_the_policy_of_a_paper_and_gives_its_own_to_all_else() -> None:
    own = (b"content-security-policy", b"style-src 'sha256-x'")
    assert [value for name, value in completed([own]) if name == own[0]] == [own[1]]
    assert (own[0], CONTENT_SECURITY_POLICY.encode()) in completed([(b"content-type", b"text/html")])
    others = [header for header in raw_headers() if header[0] not in (own[0], b"cache-control")]
    claimed = [(name, b"weaker") for name, _ in others]
    assert set(others) <= set(completed(claimed))
    assert not set(claimed) & set(completed(claimed))


def test_a_page_of_the_counter_has_no_policy_of_its_own(visitor: Visitor) -> None:
    for path in ("/", "/new", "/p/plain.toml", "/p/plain.toml/papers"):
        assert "content-security-policy" not in visitor.get(path).headers


@pytest.mark.parametrize("kind", ["cut.html", "buy.html", "quote.pdf"])
def test_a_paper_for_a_telephone_is_a_file_with_a_safe_name(tmp_path: Path, kind: str) -> None:
    name = 'a "b"; filename=evil.exe\r\nX: 1 é.toml'
    (tmp_path / name).write_text(PLAIN, encoding="utf-8")
    from urllib.parse import quote

    header = Visitor(folder_of(tmp_path)).get(f"/p/{quote(name)}/papers/{kind}").headers["content-disposition"]
    stem = quote(f'a "b"; filename=evil.exe\r\nX: 1 é-{kind}', safe="")
    assert header == f"attachment; filename=\"a-b-filename-evil.exe-X-1--{kind}\"; filename*=UTF-8''{stem}"


def test_the_quote_to_print_is_shown_and_not_kept(visitor: Visitor) -> None:
    assert "content-disposition" not in visitor.get("/p/plain.toml/papers/quote.html").headers


def test_the_page_leads_to_each_paper(visitor: Visitor) -> None:
    links = [each.get("href") or "" for each in tree(visitor.get("/p/plain.toml/papers").text).iter("a")]
    found = [link for link in links if "/papers/" in link]
    assert [link.rpartition("/")[2] for link in found] == list(papers.KINDS)
    assert all(visitor.get(link).status == 200 for link in found)
    assert "/p/plain.toml" in links


def test_without_typst_the_page_says_what_to_install(visitor: Visitor, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper_routes, "HAS_PDF", False)
    answer = visitor.get("/p/plain.toml/papers")
    assert "pip install 'finishcalc[pdf]'" in words(tree(answer.text))
    assert "quote.pdf" not in answer.text
    assert visitor.get("/p/plain.toml/papers/quote.pdf").status == 409


@pytest.mark.parametrize("kind", papers.KINDS)
def test_a_draft_with_a_mistake_has_no_papers(visitor: Visitor, kind: str) -> None:
    visitor.projects.change("plain.toml", lambda draft: draft.with_step({"top.length": "9x"}, "p", sound=False))
    answer = visitor.get(f"/p/plain.toml/papers/{kind}")
    assert answer.status == 409
    assert '"x" is not a unit of length' in words(tree(answer.text)) or "top.length" in words(tree(answer.text))


@pytest.mark.parametrize("kind", ["quote", "quote.exe", "QUOTE.HTML", "..", "quote.html/x"])
def test_another_paper_is_no_page(visitor: Visitor, kind: str) -> None:
    assert visitor.get(f"/p/plain.toml/papers/{kind}").status == 404


def test_no_paper_holds_what_the_studio_keeps_to_itself(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text("[rates]\nwage = 77.77\n", encoding="utf-8")
    from finishcalc.counter.folder.projects import Projects

    folder_of(tmp_path, plain=PLAIN)
    visitor = Visitor(Projects(str(tmp_path), str(tmp_path / "mine.toml")))
    for kind in ("quote.html", "cut.html"):
        text = visitor.get(f"/p/plain.toml/papers/{kind}").text
        assert "77.77" not in text
        assert "wage" not in text
