"""Saving from the page, and a file that somebody else changed meanwhile: nothing is overwritten unasked."""

from pathlib import Path

import pytest

from finishcalc.counter.saving_pages import file_now, mark_of
from tests.counter.making import PLAIN, folder_of
from tests.counter.visiting import OpenPage, Response, Visitor, tree, words

CHANGED = PLAIN.replace('"Marit"', '"Ingrid"')


@pytest.fixture
def page(tmp_path: Path) -> OpenPage:
    """A page with an edit that is not saved yet."""
    opened = Visitor(folder_of(tmp_path, plain=PLAIN)).open("plain.toml")
    opened.edit(top__length="90")
    return opened


def file_of(folder: Path, name: str = "plain.toml") -> str:
    return (folder / name).read_bytes().decode()


def save(page: OpenPage) -> Response:
    return page.send(scripted=False, do="save")


def choose(page: OpenPage, do: str, mark: str | None = None, **more: str) -> Response:
    """Choose on the page of the conflict, of the file as it is now unless another is named."""
    shown = mark_of(file_now(page.visitor.projects, page.name)) if mark is None else mark
    form = {"do": [do], "mark": [shown], **{name: [text] for name, text in more.items()}}
    return page.visitor.post(f"{page.address}/conflict", form)


def unlike(answer: Response) -> list[list[str]]:
    """The rows that differ: a word, the line of the file, and the line with the changes."""
    rows = (each for each in tree(answer.text).iter("tr") if each.get("class") == "unlike")
    return [[words(cell) for cell in row] for row in rows]


def test_save_writes_the_file_with_its_comments_and_nothing_else_changes(page: OpenPage, tmp_path: Path) -> None:
    answer = save(page)
    assert (answer.status, answer.headers["location"]) == (303, page.address)
    assert file_of(tmp_path) == PLAIN.replace("length = 84", "length = 90")
    assert not page.visitor.projects.draft("plain.toml").has_unsaved


def test_what_is_typed_and_not_sent_yet_is_saved_too(page: OpenPage, tmp_path: Path) -> None:
    page.form["customer.name"] = ["Ingrid"]
    save(page)
    assert 'name = "Ingrid"' in file_of(tmp_path)


def test_line_ends_and_mark_of_the_file_stay(tmp_path: Path) -> None:
    data = b"\xef\xbb\xbf" + PLAIN.replace("\n", "\r\n").encode()
    (tmp_path / "plain.toml").write_bytes(data)
    page = Visitor(folder_of(tmp_path)).open("plain.toml")
    page.edit(top__length="90")
    assert save(page).status == 303
    assert (tmp_path / "plain.toml").read_bytes() == data.replace(b"length = 84", b"length = 90")


def test_a_draft_with_a_mistake_is_not_saved_and_the_page_says_so(page: OpenPage, tmp_path: Path) -> None:
    page.form["top.width"] = ["6 ells"]
    answer = save(page)
    assert answer.status == 422
    assert "Not saved: mend the mistakes first." in words(tree(answer.text))
    assert file_of(tmp_path) == PLAIN


def test_a_file_that_has_changed_is_shown_beside_what_would_be_saved(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED + "# one more\n", encoding="utf-8")
    answer = save(page)
    assert answer.status == 409
    assert unlike(answer) == [["differs", "11 length = 84", "11 length = 90"]]
    assert file_of(tmp_path) == CHANGED + "# one more\n"
    assert page.visitor.get(f"{page.address}/conflict").text == answer.text


def test_lines_on_one_side_only_are_named_in_words(page: OpenPage, tmp_path: Path) -> None:
    page.edit(quilting__style__preset="custom")
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    said = unlike(save(page))
    assert ["only with your changes", "no such line"] in [row[:2] for row in said]
    assert {row[0] for row in said} <= {"differs", "only in the file", "only with your changes"}


def test_changes_can_be_put_on_the_file_as_it_is_now(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    save(page)
    assert choose(page, "mine").status == 303
    assert file_of(tmp_path) == CHANGED.replace("length = 84", "length = 90")
    assert not page.visitor.projects.draft("plain.toml").has_unsaved


def test_the_file_can_be_kept_and_the_changes_dropped(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    assert choose(page, "drop").status == 303
    assert file_of(tmp_path) == CHANGED
    assert page.visitor.open("plain.toml").form["top.length"] == ["84"]


def test_a_draft_can_be_saved_under_another_name(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    answer = choose(page, "other", new="Mine alone")
    assert (answer.status, answer.headers["location"]) == (303, "/p/Mine-alone.toml")
    assert file_of(tmp_path, "Mine-alone.toml") == PLAIN.replace("length = 84", "length = 90")
    assert file_of(tmp_path) == CHANGED
    assert not page.visitor.projects.draft("plain.toml").has_unsaved


@pytest.mark.parametrize("name", ["", "Plain", "///"])
def test_another_name_that_will_not_do_is_told_and_nothing_is_lost(page: OpenPage, tmp_path: Path, name: str) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    answer = choose(page, "other", new=name)
    assert answer.status == 409
    assert "Careful:" in words(tree(answer.text))
    assert [path.name for path in tmp_path.glob("*.toml")] == ["plain.toml"]
    assert page.visitor.projects.draft("plain.toml").has_unsaved


@pytest.mark.parametrize("do", ["mine", "drop", "other"])
def test_nothing_is_done_to_a_file_that_was_not_shown(page: OpenPage, tmp_path: Path, do: str) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    shown = mark_of(file_now(page.visitor.projects, "plain.toml"))
    (tmp_path / "plain.toml").write_text(CHANGED + "# and again\n", encoding="utf-8")
    answer = choose(page, do, shown, new="other")
    assert answer.status == 409
    assert "The file has changed once more" in words(tree(answer.text))
    assert file_of(tmp_path) == CHANGED + "# and again\n"
    assert page.visitor.projects.draft("plain.toml").has_unsaved


@pytest.mark.parametrize("form", [{}, {"do": ["mine"]}, {"do": ["burn"], "mark": ["x"]}])
def test_a_form_that_chooses_nothing_does_nothing(page: OpenPage, tmp_path: Path, form: dict[str, list[str]]) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    assert page.visitor.post(f"{page.address}/conflict", form).status == 409
    assert file_of(tmp_path) == CHANGED
    assert page.visitor.projects.draft("plain.toml").has_unsaved


def test_changes_with_which_the_file_has_a_mistake_wait_on_the_page(page: OpenPage, tmp_path: Path) -> None:
    other = CHANGED.replace(
        'width = "60 1/2"       # as the tape has it\nlength = 84', "shape = 'round'\ndiameter = 70"
    )
    (tmp_path / "plain.toml").write_text(other, encoding="utf-8")
    answer = save(page)
    assert answer.status == 409
    assert "it would have a mistake" in words(tree(answer.text))
    assert choose(page, "mine").status == 303
    assert file_of(tmp_path) == other
    assert page.visitor.projects.draft("plain.toml").has_unsaved
    assert page.visitor.get(page.address).status == 200


def test_a_file_that_cannot_be_read_now_takes_no_changes(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").write_text('title = "x\n', encoding="utf-8")
    answer = save(page)
    assert answer.status == 409
    assert "plain.toml, line 1" in words(tree(answer.text))
    assert choose(page, "mine").status == 409
    assert file_of(tmp_path) == 'title = "x\n'
    assert choose(page, "other", new="mine").status == 303
    assert "length = 90" in file_of(tmp_path, "mine.toml")


def test_a_file_that_is_gone_can_be_saved_again(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").unlink()
    answer = save(page)
    assert answer.status == 409
    assert [words(each) for each in tree(answer.text).iter("button")] == [
        "Save it again",
        "Drop it",
        "Save mine under another name",
    ]
    assert not (tmp_path / "plain.toml").exists()
    assert choose(page, "mine").status == 303
    assert file_of(tmp_path) == PLAIN.replace("length = 84", "length = 90")


def test_a_file_that_is_gone_can_be_dropped(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").unlink()
    answer = choose(page, "drop")
    assert (answer.status, answer.headers["location"]) == (303, "/")
    assert not (tmp_path / "plain.toml").exists()
    assert page.visitor.projects.names() == []


def test_without_a_conflict_its_page_leads_to_the_project(page: OpenPage) -> None:
    answer = page.visitor.get(f"{page.address}/conflict")
    assert (answer.status, answer.headers["location"]) == (303, page.address)


def test_return_in_the_field_of_another_name_overwrites_nothing(page: OpenPage, tmp_path: Path) -> None:
    (tmp_path / "plain.toml").write_text(CHANGED, encoding="utf-8")
    forms = [
        each for each in tree(save(page).text).iter("form") if any(field.get("name") == "new" for field in each.iter())
    ]
    assert [[button.get("value") for button in form.iter("button")] for form in forms] == [["other"]]


def test_what_the_studio_keeps_to_itself_is_not_shown(page: OpenPage, tmp_path: Path) -> None:
    kept = 'length = 84\n\n[job]\nnotes_studio = "7701 h"\n'
    more = '\n[binding]\nfabric = { preset = "cotton-44", price = 7704 }\n'
    text = CHANGED.replace("length = 84\n", kept) + more
    (tmp_path / "plain.toml").write_text(text, encoding="utf-8")
    answer = save(page)
    assert answer.status == 409
    assert unlike(answer)
    assert "770" not in answer.text
    assert choose(page, "mine").status == 303
    assert file_of(tmp_path) == text.replace("length = 84", "length = 90")


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "\u202e", "{{ 7*7 }}"])
def test_hostile_lines_are_text(page: OpenPage, tmp_path: Path, text: str) -> None:
    (tmp_path / "plain.toml").write_text(
        f"# {text}\n" + CHANGED.replace("length = 84", f"length = 70 # {text}"), encoding="utf-8"
    )
    answer = save(page)
    assert answer.status == 409
    assert "<script>alert" not in answer.text
    assert "\u202e" not in answer.text
    assert "# 49" not in answer.text
