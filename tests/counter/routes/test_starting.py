"""A new project by its page: the very file of `finishcalc new`, and mistakes beside the questions."""

from pathlib import Path
from xml.etree.ElementTree import Element

import pytest

from finishcalc.intake.questions import project
from tests.builders import run
from tests.counter.making import PLAIN, folder_of
from tests.counter.visiting import Response, Visitor, tree, words

Answers = dict[str, list[str]]


@pytest.fixture
def visitor(tmp_path: Path) -> Visitor:
    return Visitor(folder_of(tmp_path))


def asked(page: str) -> list[str]:
    """The names of the questions, in the order of the page."""
    form = next(each for each in tree(page).iter("form") if each.get("action") == "/new")
    return list(dict.fromkeys(each.get("name") or "" for each in form.iter() if each.get("name")))


def note(answer: Response, name: str) -> str:
    (found,) = (each for each in tree(answer.text).iter() if each.get("id") == f"ask-{name}-note")
    return words(found)


def answers_of(page: str) -> Answers:
    """The fields that a browser posts of the page as it stands."""
    form = next(each for each in tree(page).iter("form") if each.get("action") == "/new")
    answers: Answers = {}
    for each in form.iter():
        name = each.get("name")
        is_left = each.tag == "button" or (each.get("type") in ("radio", "checkbox") and each.get("checked") is None)
        if name and not is_left:
            answers.setdefault(name, []).append(_value(each))
    return answers


def _value(field: Element) -> str:
    if field.tag != "select":
        return field.get("value") or ""
    return next((each.get("value") or "" for each in field.iter("option") if each.get("selected") is not None), "")


def test_all_questions_of_new_are_on_the_page_in_their_order(visitor: Visitor) -> None:
    assert asked(visitor.get("/new").text) == [question.name for question in project.QUESTIONS]


@pytest.mark.parametrize(
    ("answers", "options"),
    [
        ({"width": "60x84"}, ["--as", "60x84"]),
        (
            {"width": "60 1/2", "length": "84", "use": "tablecloth"},
            ["--width", "60 1/2", "--length", "84", "--use", "tablecloth"],
        ),
        ({"width": "queen", "drop": "14", "use": "bed"}, ["--as", "queen", "--drop", "14", "--use", "bed"]),
        (
            {"units": "cm", "width": "150x200", "style": "custom"},
            ["--units", "cm", "--as", "150x200", "--style", "custom"],
        ),
        (
            {"width": "60x84", "brings": ["backing", "batting"], "customer": "Marit"},
            ["--as", "60x84", "--brings", "backing,batting", "--customer", "Marit"],
        ),
        (
            {"width": "60x84", "backing": "none", "edge": "hem", "method": "hand-quilted"},
            ["--as", "60x84", "--backing", "none", "--edge", "hem", "--method", "hand-quilted"],
        ),
    ],
)
def test_the_file_is_the_very_one_that_new_writes(
    visitor: Visitor, tmp_path: Path, answers: dict[str, str | list[str]], options: list[str]
) -> None:
    lists = {name: text if isinstance(text, list) else [text] for name, text in answers.items()}
    page = answers_of(visitor.get("/new").text)
    answer = visitor.post("/new", page | lists | {"title": ["Harbour throw"]})
    assert (answer.status, answer.headers["location"]) == (303, "/p/Harbour-throw.toml")
    other = tmp_path / "other"
    other.mkdir()
    made = run("new", str(other / "Harbour-throw.toml"), "--shop", "none", "--title", "Harbour throw", *options)
    assert made.exit_code == 0, made.output
    written = (tmp_path / "Harbour-throw.toml").read_bytes()
    assert written == (other / "Harbour-throw.toml").read_bytes()


def test_a_size_is_all_that_a_first_quote_needs(visitor: Visitor) -> None:
    page = answers_of(visitor.get("/new").text)
    answer = visitor.post("/new", page | {"width": ["60x84"]})
    assert answer.status == 303
    assert visitor.open("throw.toml").total


def test_the_first_field_has_the_focus_and_return_makes_the_project(visitor: Visitor) -> None:
    page = tree(visitor.get("/new").text)
    assert [each.get("name") for each in page.iter() if each.get("autofocus") is not None] == ["units"]
    (form,) = (each for each in page.iter("form") if each.get("action") == "/new")
    assert [words(each) for each in form.iter("button")] == ["Make the project"]


def test_projects_without_a_title_are_numbered(visitor: Visitor, tmp_path: Path) -> None:
    for _ in range(3):
        assert visitor.post("/new", {"width": ["60x84"]}).status == 303
    assert sorted(path.name for path in tmp_path.glob("*.toml")) == ["throw-2.toml", "throw-3.toml", "throw.toml"]
    assert 'title = "Throw 3"' in (tmp_path / "throw-3.toml").read_text(encoding="utf-8")


def test_a_title_that_is_taken_is_told_beside_it(tmp_path: Path) -> None:
    visitor = Visitor(folder_of(tmp_path, Supper=PLAIN))
    answer = visitor.post("/new", {"width": ["60x84"], "title": ["supper"]})
    assert answer.status == 422
    assert note(answer, "title") == ("Mistake: supper.toml already exists: nothing was written: give another name")
    assert (tmp_path / "Supper.toml").read_text(encoding="utf-8") == PLAIN


def test_all_mistakes_are_told_at_once_in_the_words_of_new(visitor: Visitor, tmp_path: Path) -> None:
    wrong = {"width": ["60"], "length": ["8 ells"], "backing": ["cotton-45"], "brings": ["thread"], "edge": ["glue"]}
    answer = visitor.post("/new", wrong)
    assert answer.status == 422
    assert note(answer, "length") == 'Mistake: "ells" is not a unit of length: use in, ft, yd, mm, cm or m.'
    assert '"cotton-45" is not one of the fabrics' in note(answer, "backing")
    assert '"thread" is not part of this quilt' in note(answer, "brings")
    assert '"glue" is not a choice here' in note(answer, "edge")
    assert note(answer, "method") == ""
    typed = {name: texts for name, texts in answers_of(answer.text).items() if name in ("length", "width")}
    assert typed == {"width": ["60"], "length": ["8 ells"]}
    links = {each.get("href") for each in tree(answer.text).iter("a") if (each.get("href") or "").startswith("#ask")}
    assert links == {"#ask-length", "#ask-backing", "#ask-brings", "#ask-edge"}
    assert not list(tmp_path.glob("*.toml"))


def test_the_size_is_the_one_answer_that_has_to_be_given(visitor: Visitor) -> None:
    answer = visitor.post("/new", answers_of(visitor.get("/new").text))
    assert note(answer, "width") == 'Mistake: This has no default: give it as in "60 1/2".'
    assert sum("Mistake:" in words(each) for each in tree(answer.text).iter("p")) == 2  # beside it, and on top
    focused = [each.get("name") for each in tree(answer.text).iter() if each.get("autofocus") is not None]
    assert focused == ["width"]


@pytest.mark.parametrize(
    ("answers", "name", "told"),
    [
        (
            {"width": "60x84", "length": "84"},
            "length",
            "It has no place here: it is for a top whose width alone is given.",
        ),
        ({"width": "60x84", "drop": "12"}, "drop", "It has no place here: it is for the cover of a bed or table."),
    ],
)
def test_an_answer_that_has_no_place_is_told(visitor: Visitor, answers: dict[str, str], name: str, told: str) -> None:
    answer = visitor.post("/new", {key: [text] for key, text in answers.items()})
    assert answer.status == 422
    assert note(answer, name) == f"Mistake: {told}"


def test_other_units_bring_their_own_choices_and_keep_what_is_typed(visitor: Visitor) -> None:
    typed = {"units": ["cm"], "width": ["150x200"], "customer": ["Marit"]}
    page = visitor.post("/new?look=again", typed).text
    assert "cotton-110" in page or "110 cm wide" in page
    assert answers_of(page)["width"] == ["150x200"]
    assert answers_of(page)["customer"] == ["Marit"]
    assert "Mistake" not in words(tree(page))
    assert "110 cm wide" not in visitor.get("/new").text


def test_no_cost_of_the_studios_is_on_the_page(tmp_path: Path) -> None:
    rates = '[rates]\nwage = 77.77\nmarkup = "66 %"\n'
    cloths = "[fabrics.mine]\nwidth = 44\nprice = 55.55\n[fabrics.cotton-44]\nprice = 44.44\n"
    (tmp_path / "mine.toml").write_text(rates + cloths, encoding="utf-8")
    folder_of(tmp_path)
    from finishcalc.counter.folder.projects import Projects

    page = Visitor(Projects(str(tmp_path), str(tmp_path / "mine.toml"))).get("/new").text
    assert "mine" in page
    for figure in ("77.77", "66 %", "55.55", "44.44"):
        assert figure not in page


def test_a_maker_is_not_asked_for_a_customer(tmp_path: Path) -> None:
    from finishcalc.counter.folder.projects import Projects
    from finishcalc.intake.source import presets_folder

    shop = str(presets_folder() / "shops" / "maker-inch.toml")
    names = asked(Visitor(Projects(str(tmp_path), shop)).get("/new").text)
    assert "customer" not in names
    assert "brings" not in names
    assert "width" in names


@pytest.mark.parametrize(
    "hostile", ['"><script>alert(1)</script>', "\0\x1b[31m", "\u202eabc", "x" * 3000, "'''\n[rates]\nwage=1", "{{7*7}}"]
)
def test_hostile_answers_do_no_harm(visitor: Visitor, tmp_path: Path, hostile: str) -> None:
    for name in (question.name for question in project.QUESTIONS):
        answer = visitor.post("/new", {"width": ["60x84"], name: [hostile]})
        assert answer.status in (303, 422)
        assert "<script>alert" not in answer.text
        assert "49" not in answer.text.replace("60x84", "")[:200]
    for path in tmp_path.glob("*.toml"):
        assert visitor.get(f"/p/{path.name}").status == 200
        assert visitor.get("/?totals=yes").status == 200
