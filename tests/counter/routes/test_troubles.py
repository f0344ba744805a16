"""Errors as pages: what is wrong, where, and a way back; never a line of a shop file."""

from pathlib import Path

import pytest

from finishcalc.counter.folder.projects import Projects
from tests.counter.making import PLAIN, folder_of
from tests.counter.visiting import Response, Visitor, tree, words

SECRET = '[rates]\nwage = "77.77x"\nmarkup = "66,66"\n'


def has_a_way_back(answer: Response) -> bool:
    return any(each.get("href") == "/" for each in tree(answer.text).iter("a"))


def own(folder: Path) -> Visitor:
    """A visitor of a counter whose projects may name a shop file."""
    return Visitor(Projects(str(folder)))


@pytest.mark.parametrize("name", ["nothing.toml", "nothing", "..", "mine.toml", ".hidden.toml", "%00", "a%0Ab.toml"])
@pytest.mark.parametrize("page", ["", "/papers", "/copy", "/rename", "/conflict", "/papers/quote.html"])
def test_a_name_that_is_no_project_is_a_404_with_a_way_back(tmp_path: Path, name: str, page: str) -> None:
    (tmp_path / "mine.toml").write_text("[rates]\nwage = 77\n", encoding="utf-8")
    (tmp_path / ".hidden.toml").write_text(PLAIN, encoding="utf-8")
    answer = Visitor(folder_of(tmp_path, plain=PLAIN)).get(f"/p/{name}{page}")
    assert answer.status == 404
    assert has_a_way_back(answer)
    assert "77" not in answer.text


def test_an_address_and_a_method_that_are_none_have_a_page(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, plain=PLAIN))
    for answer, status in ((visitor.get("/else"), 404), (visitor.post("/p/plain.toml/papers", {}), 405)):
        assert answer.status == status
        assert answer.headers["content-type"] == "text/html; charset=utf-8"
        assert has_a_way_back(answer)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (
            b'title = "x\n[top]\nwidth = 60\n',
            ["quilt.toml, line 1", "is not TOML", "close the quote on the line it opens"],
        ),
        (b"[top]\nwidth = 60\nwidth = 61\n", ["quilt.toml, line 3", "width is given twice", "keep the one you mean"]),
        (b"[top]\nwidth = 60\ntitle = '\xff'\n", ["quilt.toml, line 3", "is not UTF-8 text", "save it as UTF-8 text"]),
    ],
)
def test_a_file_that_cannot_be_read_has_its_line_and_its_mend(tmp_path: Path, data: bytes, told: list[str]) -> None:
    (tmp_path / "quilt.toml").write_bytes(data)
    answer = Visitor(folder_of(tmp_path)).get("/p/quilt.toml")
    assert answer.status == 422
    assert all(each in words(tree(answer.text)) for each in told)
    assert has_a_way_back(answer)
    assert any(each.get("href") == "/p/quilt.toml" for each in tree(answer.text).iter("a"))


@pytest.mark.parametrize("page", ["/p/quilt.toml", "/p/quilt.toml/papers", "/p/quilt.toml/total", "/?totals=yes"])
def test_of_a_broken_shop_file_only_its_name_and_the_line_are_told(tmp_path: Path, page: str) -> None:
    (tmp_path / "mine.toml").write_text(SECRET, encoding="utf-8")
    (tmp_path / "quilt.toml").write_text('shop = "mine.toml"\n' + PLAIN, encoding="utf-8")
    answer = own(tmp_path).get(page)
    assert "mine.toml, line 2" in words(tree(answer.text))
    for kept in ("77", "wage", "66,66", "markup", str(tmp_path)):
        assert kept not in answer.text


def test_a_broken_shop_file_of_the_servers_is_told_for_a_new_project(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(SECRET, encoding="utf-8")
    answer = Visitor(Projects(str(tmp_path), str(tmp_path / "mine.toml"))).get("/new")
    assert answer.status == 422
    assert "mine.toml, line 2" in words(tree(answer.text))
    assert "77" not in answer.text
    assert has_a_way_back(answer)


def test_a_shop_file_that_is_missing_is_told_with_its_mend(tmp_path: Path) -> None:
    (tmp_path / "quilt.toml").write_text('shop = "gone.toml"\n' + PLAIN, encoding="utf-8")
    said = words(tree(own(tmp_path).get("/p/quilt.toml").text))
    assert "quilt.toml: shop:" in said
    assert "gone.toml: no such file: check the name" in said


def test_a_value_that_the_studio_keeps_to_itself_is_not_told(tmp_path: Path) -> None:
    text = PLAIN + "\n[[charges.lines]]\nlabel = 'mending'\nprice = 5\nminutes = '77 ells'\n"
    (tmp_path / "quilt.toml").write_text(text, encoding="utf-8")
    answer = own(tmp_path).get("/p/quilt.toml/papers")
    line = text[: text.index("minutes")].count("\n") + 1
    assert f"quilt.toml, line {line}" in words(tree(answer.text))
    assert "77" not in answer.text


def test_a_hostile_file_is_text_on_the_page_of_its_problem(tmp_path: Path) -> None:
    (tmp_path / "quilt.toml").write_text('[top]\nwidth = "<script>alert(1)</script>\u202e\n', encoding="utf-8")
    answer = Visitor(folder_of(tmp_path)).get("/p/quilt.toml")
    assert answer.status == 422
    assert "<script>alert" not in answer.text
    assert "\u202e" not in answer.text
