"""The list of projects: found, counted, copied and renamed, with totals that come after."""

from pathlib import Path
from xml.etree.ElementTree import Element

import pytest

from finishcalc.counter import cards
from tests.counter.making import PIECED, PLAIN, folder_of
from tests.counter.visiting import Visitor, tree, words

HOSTILE = "\"><script>alert(1)</script> {{ 7*7 }} <b>&amp; ' % \u202e"


def rows(text: str) -> list[Element]:
    return [each for each in tree(text).iter("li") if each.get("class") == "job"]


def titles(text: str) -> list[str]:
    return [words(each.find(".//h2")) for each in rows(text)]


def named(title: str, more: str = "") -> str:
    return f"title = '{title}'\n{more}\n[top]\nwidth = 60\nlength = 80\n"


@pytest.fixture
def many(tmp_path: Path) -> Visitor:
    """45 projects: two pages of twenty, and five."""
    return Visitor(folder_of(tmp_path, **{f"p{number:02}": named(f"Quilt {number:02}") for number in range(45)}))


def test_a_row_says_title_customer_number_and_due_day(tmp_path: Path) -> None:
    job = '[customer]\nname = "Marit"\n[job]\nnumber = "2026-014"\ndue = 2026-06-01'
    (row,) = rows(Visitor(folder_of(tmp_path, supper=named("Supper cloth", job))).get("/").text)
    said = words(row)
    assert "Supper cloth" in said
    assert "Marit" in said
    assert "2026-014, due 2026-06-01" in said


def test_a_page_has_twenty_projects_and_leads_to_the_others(many: Visitor) -> None:
    assert titles(many.get("/").text) == [f"Quilt {number:02}" for number in range(20)]
    assert titles(many.get("/?page=3").text) == [f"Quilt {number:02}" for number in range(40, 45)]
    middle = many.get("/?page=2").text
    assert "21 to 40 of 45" in middle
    links = {each.get("rel"): each.get("href") for each in tree(middle).iter("a") if each.get("rel")}
    assert titles(many.get(links["prev"] or "").text)[0] == "Quilt 00"
    assert titles(many.get(links["next"] or "").text)[0] == "Quilt 40"


@pytest.mark.parametrize("page", ["0", "-1", "9", "x", "99999999999999999999"])
def test_a_page_that_there_is_not_is_the_nearest_that_there_is(many: Visitor, page: str) -> None:
    assert titles(many.get(f"/?page={page}").text)[0] in ("Quilt 00", "Quilt 40")


@pytest.mark.parametrize("query", ["KEEPER", "marit lighthouse", "2026-7", "east"])
def test_a_search_finds_title_customer_number_and_file(tmp_path: Path, query: str) -> None:
    job = '[customer]\nname = "Marit of the Lighthouse"\n[job]\nnumber = "2026-7"'
    visitor = Visitor(folder_of(tmp_path, east=named("For the keeper", job), west=named("Another")))
    assert titles(visitor.get(f"/?q={query.replace(' ', '+')}").text) == ["For the keeper"]


def test_a_search_without_a_find_says_so(many: Visitor) -> None:
    answer = many.get("/?q=nobody").text
    assert titles(answer) == []
    assert "0 of 45 have nobody" in words(tree(answer))


def test_a_page_comes_without_totals_and_each_is_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    visitor, asked = Visitor(folder_of(tmp_path, plain=PLAIN, pieced=PIECED)), list[str]()
    work_out = cards.work_out
    monkeypatch.setattr(
        cards, "work_out", lambda projects, draft: asked.append(draft.name) or work_out(projects, draft)
    )
    page = visitor.get("/").text
    assert not asked
    wanted = [each.get("hx-get") or "" for each in tree(page).iter() if each.get("hx-get")]
    assert wanted == ["/p/pieced.toml/total", "/p/plain.toml/total"]
    total = words(tree(visitor.get(wanted[1]).text))
    assert total.rstrip(" *").removeprefix("$") == visitor.open("plain.toml").total


def test_a_total_is_worked_out_once_until_the_project_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    visitor, asked = Visitor(folder_of(tmp_path, plain=PLAIN)), list[str]()
    work_out = cards.work_out
    monkeypatch.setattr(
        cards, "work_out", lambda projects, draft: asked.append(draft.name) or work_out(projects, draft)
    )
    first = visitor.get("/p/plain.toml/total").text
    assert visitor.get("/p/plain.toml/total").text == first
    assert len(asked) == 1
    assert words(tree(first)) in visitor.get("/").text
    visitor.projects.change("plain.toml", lambda draft: draft.with_step({"top.length": "90"}, "p", sound=True))
    assert visitor.get("/p/plain.toml/total").text != first
    (tmp_path / "plain.toml").write_text(PLAIN.replace("84", "70"), encoding="utf-8")
    assert len(asked) == 2


def test_a_total_follows_the_shop_file(tmp_path: Path) -> None:
    shop = "[rates]\nminimum = {}\n"
    (tmp_path / "mine.toml").write_text(shop.format(500), encoding="utf-8")
    visitor = Visitor(folder_of(tmp_path, plain='shop = "mine.toml"\n' + PLAIN).path)
    visitor.projects.shop = None
    first = visitor.get("/p/plain.toml/total").text
    (tmp_path / "mine.toml").write_text(shop.format(900), encoding="utf-8")
    assert visitor.get("/p/plain.toml/total").text != first


def test_without_script_the_page_asks_for_itself_with_all_totals(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, plain=PLAIN, pieced=PIECED))
    page = visitor.get("/?q=e&page=1").text
    assert '<noscript><meta http-equiv="refresh" content="0; url=/?q=e&amp;page=1&totals=yes"></noscript>' in page
    whole = visitor.get("/?q=e&page=1&totals=yes").text
    assert "http-equiv" not in whole
    assert whole.count('class="amount fig"') == 2


def test_the_states_of_drafts_are_said_in_words(tmp_path: Path) -> None:
    projects = folder_of(tmp_path, **dict.fromkeys(("unsaved", "wrong", "changed", "whole"), PLAIN))
    for name, length, sound in (("unsaved", "90", True), ("wrong", "9x", False), ("changed", "90", True)):
        projects.change(
            f"{name}.toml", lambda draft, to=length, is_=sound: draft.with_step({"top.length": to}, "p", is_)
        )
    (tmp_path / "changed.toml").write_text(PLAIN + "# more\n", encoding="utf-8")
    page = Visitor(projects).get("/").text
    marks = {row.find(".//a").get("href"): [words(each) for each in row.iter("span")] for row in rows(page)}  # type: ignore[union-attr]
    waits = "being worked out"
    assert marks["/p/unsaved.toml"] == ["draft not saved", waits]
    assert marks["/p/wrong.toml"] == ["a mistake in the draft", waits]
    assert marks["/p/changed.toml"] == ["draft not saved", "changed on disk since", waits]
    assert marks["/p/whole.toml"] == [waits]


def test_a_draft_with_a_mistake_has_its_last_total(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, plain=PLAIN))
    total = visitor.get("/p/plain.toml/total").text
    visitor.projects.change("plain.toml", lambda draft: draft.with_step({"top.length": "9x"}, "p", sound=False))
    assert visitor.get("/p/plain.toml/total").text == total


def test_a_file_that_does_not_work_out_is_listed_with_the_reason(tmp_path: Path) -> None:
    broken, wrong = 'title = "x\n[top]\nwidth = 60\n', named("Wrong", "[batting]\nproduct = 'wol'")
    visitor = Visitor(folder_of(tmp_path, broken=broken, wrong=wrong))
    said = [words(each) for each in rows(visitor.get("/?totals=yes").text)]
    assert "broken.toml, line 1: is not TOML" in said[0]
    assert "wrong.toml, line 3: batting.product" in said[1]
    assert 'did you mean "wool"?' in said[1]


def test_a_file_that_is_no_project_is_not_listed(tmp_path: Path) -> None:
    shop, shelf = "[rates]\nwage = 77\n", '[[on_hand]]\nname = "blue"\n'
    visitor = Visitor(folder_of(tmp_path, quilt=named("Quilt"), shop=shop, shelf=shelf, **{".hidden": named("Hidden")}))
    assert titles(visitor.get("/").text) == ["Quilt"]


def test_a_title_that_is_changed_in_the_file_is_listed_and_found(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, quilt=named("Before")))
    assert titles(visitor.get("/?q=before").text) == ["Before"]
    (tmp_path / "quilt.toml").write_text(named("After"), encoding="utf-8")
    assert titles(visitor.get("/").text) == ["After"]
    assert titles(visitor.get("/?q=before").text) == []


def test_an_empty_folder_offers_a_first_project(tmp_path: Path) -> None:
    page = tree(Visitor(folder_of(tmp_path)).get("/").text)
    assert "There is no project in this folder yet." in words(page)
    assert any(each.get("href") == "/new" for each in page.iter("a"))


def test_a_hostile_title_is_text_everywhere(tmp_path: Path) -> None:
    text = f"title = '''{HOSTILE}'''\n[customer]\nname = '''{HOSTILE}'''\n[top]\nwidth = 60\nlength = 80\n"
    name = 'a "quoted" <b>&name\'.toml'
    (tmp_path / name).write_text(text, encoding="utf-8")
    visitor = Visitor(folder_of(tmp_path))
    page = visitor.get("/?totals=yes").text
    (row,) = rows(page)
    assert "<script>alert(1)</script> {{ 7*7 }} <b>&amp; ' %" in words(row)
    assert not list(row.iter("script"))
    assert not list(row.iter("b"))
    for each in row.iter("a"):
        assert visitor.get(each.get("href") or "").status == 200
    assert "<script>alert" not in visitor.get("/?q=%22%3E%3Cscript%3Ealert(1)%3C/script%3E").text


def test_a_copy_has_another_name_and_is_shown(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, plain=PLAIN))
    (field,) = (
        each for each in tree(visitor.get("/p/plain.toml/copy").text).iter("input") if each.get("name") == "new"
    )
    assert field.get("value") == "plain-2"
    answer = visitor.post("/p/plain.toml/copy", {"new": ["Summer cloth"]})
    assert (answer.status, answer.headers["location"]) == (303, "/p/Summer-cloth.toml")
    assert (tmp_path / "Summer-cloth.toml").read_text(encoding="utf-8") == PLAIN
    assert (tmp_path / "plain.toml").exists()


def test_the_name_for_a_copy_is_one_that_is_free(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, **{"plain": PLAIN, "plain-2": PLAIN, "plain-3": PLAIN}))
    assert 'value="plain-4"' in visitor.get("/p/plain.toml/copy").text


@pytest.mark.parametrize("long", ["a" * 195, "é" * 97, "con." + "a" * 191])
def test_a_name_as_long_as_a_file_may_have_is_copied_under_another(tmp_path: Path, long: str) -> None:
    """The number must not be cut off with the end of the name: no other name would ever be found free."""
    visitor = Visitor(folder_of(tmp_path, **{long: PLAIN}))
    asked = visitor.get(f"/p/{long}.toml/copy")
    (new,) = (str(each.get("value")) for each in tree(asked.text).iter("input") if each.get("name") == "new")
    assert new.endswith("-2")
    assert visitor.post(f"/p/{long}.toml/copy", {"new": [new]}).status == 303
    assert len(list(tmp_path.glob("*.toml"))) == 2


def test_a_renamed_project_is_in_the_list_under_its_new_name(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, plain=PLAIN))
    answer = visitor.post("/p/plain.toml/rename", {"new": ["summer"]})
    assert (answer.status, answer.headers["location"]) == (303, "/")
    assert [path.name for path in tmp_path.glob("*.toml")] == ["summer.toml"]


@pytest.mark.parametrize("action", ["copy", "rename"])
def test_a_name_that_is_taken_is_told_beside_the_field(tmp_path: Path, action: str) -> None:
    visitor = Visitor(folder_of(tmp_path, plain=PLAIN, pieced=PIECED))
    answer = visitor.post(f"/p/plain.toml/{action}", {"new": ["Pieced"]})
    assert answer.status == 422
    (note,) = (each for each in tree(answer.text).iter() if each.get("id") == "new-note")
    assert "Pieced.toml already exists" in words(note)
    assert 'value="Pieced"' in answer.text
    assert (tmp_path / "pieced.toml").read_text(encoding="utf-8") == PIECED


@pytest.mark.parametrize("typed", ["", "///", "../../etc/passwd", "\0"])
@pytest.mark.parametrize("action", ["copy", "rename"])
def test_no_name_leads_out_of_the_folder(tmp_path: Path, action: str, typed: str) -> None:
    folder = tmp_path / "folder"
    folder.mkdir()
    visitor = Visitor(folder_of(folder, plain=PLAIN))
    assert visitor.post(f"/p/plain.toml/{action}", {"new": [typed]}).status in (303, 422)
    assert [path.name for path in tmp_path.iterdir()] == ["folder"]
