"""Edits of a project's page: what is answered, what is kept, and what other pages see of it."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from finishcalc.counter.folder.drafts import Draft
from finishcalc.counter.folder.projects import Projects
from finishcalc.counter.working import table_of as table_of_draft
from finishcalc.pipeline import finish_file
from tests.counter.making import PIECED, PLAIN, folder_of
from tests.counter.visiting import Visitor

NAME = "cloth.toml"


@pytest.fixture
def visitor(tmp_path: Path) -> Visitor:
    return Visitor(folder_of(tmp_path, cloth=PLAIN, quilt=PIECED))


def total_of(tmp_path: Path, text: str) -> str:
    """The total that the command line works out for a text."""
    file = tmp_path / "other" / "asked.toml"
    file.parent.mkdir(exist_ok=True)
    file.write_text(text, encoding="utf-8")
    minor = finish_file(str(file), "none").quote.total.minor
    return f"{minor // 100:,}.{minor % 100:02}"


def test_an_edit_gives_the_total_that_the_command_line_gives(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    assert page.total == total_of(tmp_path, PLAIN)
    page.edit(top__width="70")
    assert page.total == total_of(tmp_path, PLAIN.replace('"60 1/2"', "70"))


def test_an_edit_answers_with_nothing_but_what_it_changes(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    answer = page.edit(customer__name="Marit of the boathouse")
    ids = {piece.partition('"')[0] for piece in answer.text.split('<div id="')[1:]}
    assert ids == {"customer-answer", "heading", "doing"}
    assert page.pieces["customer-answer"] == "Marit of the boathouse"
    assert page.edit().text == ""


def test_an_answer_that_is_lost_is_made_up_for_by_the_next(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    page.form["top.width"] = ["70"]
    page.send()
    page.edit()
    assert page.total == total_of(tmp_path, PLAIN.replace('"60 1/2"', "70"))
    assert len(visitor.projects.draft(NAME).steps) == 1


def test_a_half_typed_figure_is_not_answered(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    assert page.edit(typing="top.width", top__width="70 1/").status == 204
    assert not visitor.projects.draft(NAME).steps
    assert page.edit(top__width="70 1/").status == 200  # it is left, or two seconds have passed
    assert page.pieces["top-width-note"].startswith("Mistake:")


def test_typing_goes_on_while_another_field_has_a_mistake(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    page.edit(top__length="84x")
    assert page.edit(typing="top.width", top__width="70").status == 200


def test_a_mistake_is_told_at_its_field_and_the_last_good_quote_stays(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    page.edit(top__width="70")
    good = page.total
    page.edit(top__width="70 hands")
    assert page.total == good
    assert page.pieces["top-width-note"] == 'Mistake: "hands" is not a unit of length: use in, ft, yd, mm, cm or m'
    assert "Waits for Top: Width" in page.pieces["says"]
    assert page.pieces["top-mark"] == "mistake"
    page.edit(top__width="70")
    assert page.pieces["top-width-note"] == ""
    assert "Waits" not in page.pieces["says"]


def test_a_size_that_is_given_twice_is_told_where_it_was_typed(visitor: Visitor) -> None:
    page = visitor.open("quilt.toml")
    page.edit(top__width="70")
    assert page.pieces["top-width-note"].startswith("Mistake:")


def test_undo_and_redo_set_the_fields(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    first = page.total
    page.edit(top__width="70")
    second = page.total
    page.press(do="undo")
    assert (page.total, page.form["top.width"]) == (first, ["60 1/2"])
    page.press(do="redo")
    assert (page.total, page.form["top.width"]) == (second, ["70"])


def test_figures_that_are_typed_on_are_undone_as_one(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    for typed in ("7", "70", "70 1/2"):
        page.edit(typing="top.width", top__width=typed)
    page.edit()
    page.press(do="undo")
    assert page.form["top.width"] == ["60 1/2"]


def test_two_pages_of_a_project_keep_each_others_edits(visitor: Visitor, tmp_path: Path) -> None:
    one, other = visitor.open(NAME), visitor.open(NAME)
    one.edit(top__width="70")
    other.edit(top__length="90")
    assert other.form["top.width"] == ["70"]
    one.edit(customer__name="Nils")
    text = PLAIN.replace('"60 1/2"', "70").replace("length = 84", "length = 90")
    assert one.total == other.total == total_of(tmp_path, text)
    assert one.form["top.length"] == ["90"]


def test_a_field_that_is_typed_in_is_not_set(visitor: Visitor) -> None:
    one, other = visitor.open(NAME), visitor.open(NAME)
    one.edit(top__width="70")
    answer = other.edit(typing="top.width", top__width="7")
    assert "top.width" not in answer.events["fields"]


def test_a_page_goes_on_after_the_program_has_begun_anew(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    page.edit(top__width="70")
    page.visitor = Visitor(visitor.projects.path)
    page.edit(top__length="90")
    text = PLAIN.replace('"60 1/2"', "70").replace("length = 84", "length = 90")
    assert page.total == total_of(tmp_path, text)


def test_unsaved_work_is_there_when_the_page_is_opened_again(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    page.edit(top__width="70", customer__name="Nils")
    again = Visitor(visitor.projects.path).open(NAME)
    assert (again.form["top.width"], again.form["customer.name"], again.total) == (["70"], ["Nils"], page.total)
    assert (Path(visitor.projects.path) / NAME).read_text(encoding="utf-8") == PLAIN


def test_a_file_that_changed_meanwhile_gives_its_values_to_the_form(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    text = PLAIN.replace("length = 84", "length = 90")
    (Path(visitor.projects.path) / NAME).write_text(text, encoding="utf-8")
    page.edit(top__width="70")
    assert page.form["top.length"] == ["90"]
    assert page.total == total_of(tmp_path, text.replace('"60 1/2"', "70"))
    assert "changed by another program" in page.pieces["told"]


def test_a_page_that_nobody_remembers_is_loaded_anew_when_its_file_has_changed(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    (Path(visitor.projects.path) / NAME).write_text(PLAIN.replace("84", "90"), encoding="utf-8")
    page.visitor = Visitor(visitor.projects.path)
    answer = page.edit(top__width="70")
    assert answer.headers["hx-refresh"] == "true"
    assert not visitor.projects.draft(NAME).steps


def test_an_option_does_what_it_says(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    page.more()
    name = next(name for name in page.buttons if "wide" in name)
    option = page.pieces[f"take-{page.buttons[name]}"]
    page.press(take=page.buttons[name])
    assert f"comes to ${page.total}" in option
    assert page.form["backing.fabric.preset"] == ["cotton-wide-108"]
    page.press(do="undo")
    assert page.form["backing.fabric.preset"] == [""]


@pytest.mark.parametrize("name", [NAME, pytest.param("quilt.toml", marks=pytest.mark.slow)])
def test_every_option_comes_to_what_its_button_says(visitor: Visitor, name: str) -> None:
    page = visitor.open(name)
    page.more()
    taken = {label: id_ for label, id_ in page.buttons.items() if id_}
    assert len(taken) >= 4
    for label, id_ in taken.items():
        said = page.pieces[f"take-{id_}"]
        page.press(take=id_)
        assert page.total in said, label
        page.press(do="undo")


def test_an_option_that_is_there_no_more_changes_nothing(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    page.press(take="0123456789abcdef")
    assert not visitor.projects.draft(NAME).steps


def test_a_size_that_is_typed_stands_beside_the_quote(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    page.form["size"] = ["round 70"]
    page.more()
    page.press(take=page.buttons["round 70"])
    round_top = PLAIN.replace('width = "60 1/2"       # as the tape has it\nlength = 84', "diameter = 70")
    assert page.total == total_of(tmp_path, round_top)
    assert (page.form["top.diameter"], page.form["top.width"]) == (["70"], [""])


def test_a_size_that_cannot_be_read_says_why(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    page.form["size"] = ["as large as a house"]
    page.more()
    assert "as large as a house" in page.pieces["sizes"]
    assert "Not as it is" in page.pieces["sizes"]


def test_each_choice_tells_what_it_changes(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    now = float(page.total.replace(",", ""))
    page.more()
    figures = {id_: text for id_, text in page.pieces.items() if id_.startswith("batting-product-preset-fig-")}
    assert "as quoted" in figures.values()
    for id_, text in figures.items():
        if not text.endswith(("more", "less")):
            continue
        number = id_.rpartition("-")[2]
        radios = [each for each in page.tree.iter("input") if each.get("id") == f"batting-product-preset-{number}"]
        value = radios[0].get("value") or "cotton-blend"
        total = float(total_of(tmp_path, PLAIN + f'[batting]\nproduct = "{value}"\n').replace(",", ""))
        amount = float(text.split()[0].replace(",", ""))
        assert round(abs(total - now), 2) == amount
        assert ("more" in text) == (total > now)


@pytest.mark.parametrize("kind", ["folder", "link", "no text"])
def test_work_on_a_file_that_something_else_has_replaced_goes_elsewhere(visitor: Visitor, kind: str) -> None:
    page = visitor.open(NAME)
    page.edit(top__width="70")
    file = Path(visitor.projects.path) / NAME
    file.unlink()
    if kind == "folder":
        file.mkdir()
    elif kind == "link":
        file.symlink_to("quilt.toml")
    else:
        file.write_bytes(b"\xff\xfe")
    assert page.press(scripted=False, do="save").status == 409
    given = {"mark": [""], "do": ["other"], "new": ["rescued"]}
    assert visitor.post(f"{page.address}/conflict", given).status == 303
    assert visitor.open("rescued.toml").form["top.width"] == ["70"]


def test_a_part_can_be_taken_out(visitor: Visitor) -> None:
    page = visitor.open("quilt.toml")
    page.press(out="top.borders[1]")
    assert (page.form["top.borders[1].cut"], page.form["top.borders[2].cut"]) == (["6 1/2"], [""])
    assert "border 1: cut 6 1/2 in" in page.pieces["pictures"]


def test_a_usual_value_goes_with_the_answer_that_it_followed_from(visitor: Visitor) -> None:
    page = visitor.open("quilt.toml")
    assert page.pieces["top-width-usual"].startswith("by its blocks and borders:")
    page.edit(top__blocks__across="", top__blocks__down="", top__blocks__size="")
    page.press(out="top.borders[2]")
    page.press(out="top.borders[1]")
    page.edit(top__width="60", top__length="80")
    assert page.pieces["top-width-usual"] == ""


def test_without_script_an_edit_gives_the_page_again(visitor: Visitor, tmp_path: Path) -> None:
    page = visitor.open(NAME)
    assert page.edit(scripted=False, top__width="70").status == 303
    assert page.total == total_of(tmp_path, PLAIN.replace('"60 1/2"', "70"))
    answer = page.edit(scripted=False, top__width="70x")
    assert answer.status == 422
    assert page.pieces["top-width-note"].startswith("Mistake:")
    assert page.form["top.width"] == ["70x"]
    page.press(scripted=False, do="undo")
    assert page.form["top.width"] == ["70"]


def test_keys_that_the_form_does_not_ask_for_are_listed_and_kept(tmp_path: Path) -> None:
    text = PLAIN + '[job]\nnotes_studio = "she never pays at once"\n[binding]\nloft = "1/8 in"\n'
    visitor = Visitor(folder_of(tmp_path, cloth=text))
    page = visitor.open(NAME)
    assert page.pieces["kept"] == "binding.loft1/8 in"
    page.edit(top__width="70")
    assert json.dumps(dict(page.pieces)).count("she never pays") == 0


def test_a_part_of_the_options_that_an_edit_has_overtaken_is_told_by_its_mark(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    old = visitor.get(f"{page.address}/more?page={page.form['page'][0]}&part=0", hx_request="true").events["later"]
    page.edit(top__width="70")
    assert old["seen"] != page.form["seen"][0]
    new = visitor.get(f"{page.address}/more?page={page.form['page'][0]}&part=0", hx_request="true").events["later"]
    assert (new["seen"], new["part"]) == (page.form["seen"][0], 1)


def test_a_top_that_the_studio_pieces_stands_beside_other_sizes(tmp_path: Path) -> None:
    page = Visitor(folder_of(tmp_path, quilt=PIECED)).open("quilt.toml")
    page.edit(charges__piecing="yes")
    page.more()
    assert (
        sum(bool(id_) for name, id_ in page.buttons.items() if "bed" in name or name in ("king", "twin", "queen")) >= 1
    )


@pytest.mark.parametrize("key", ["", "title", "units", "top", "top.borders", "top.borders[1]" + "[1]" * 5000, "[", '"'])
def test_only_the_tables_that_have_a_button_are_taken_out(visitor: Visitor, key: str) -> None:
    page = visitor.open("quilt.toml")
    assert page.press(out=key).status == 200
    assert visitor.projects.draft("quilt.toml").steps == ()


@pytest.mark.parametrize("said", ["a\\nb", "a\\rb", "a\\r\\nb", " a ", "a\\u0001b", "a\\u000b", "a\\u00a0b", "\\ta\\n"])
def test_a_text_that_no_field_can_hold_is_kept_as_the_file_has_it(tmp_path: Path, said: str) -> None:
    """A browser takes line ends out of a line, and makes all line ends of notes alike."""
    text = PLAIN.replace("Supper cloth", said) + f'\n[job]\nnotes = "{said}"\n'
    page = Visitor(folder_of(tmp_path, cloth=text)).open(NAME)
    page.form["title"] = [page.form["title"][0].replace("\r", "").replace("\n", "")]
    page.form["job.notes"] = [page.form["job.notes"][0].replace("\r\n", "\n").replace("\n", "\r\n")]
    page.edit(top__width="70")
    steps = page.visitor.projects.draft(NAME).steps
    assert [dict(step.puts) for step in steps] == [{"top.width": "70"}]


def test_a_sign_that_no_page_can_hold_is_put_once(visitor: Visitor) -> None:
    page = visitor.open(NAME)
    for _ in range(2):
        page.edit(title="Supper\vcloth")
    page.edit(top__width="70")
    steps = visitor.projects.draft(NAME).steps
    assert [dict(step.puts) for step in steps] == [{"title": "Supper\vcloth"}, {"top.width": "70"}]


@pytest.mark.parametrize(
    ("key", "typed"), [("charges.discount", "10 %"), ("top.width", "070"), ("quilting.colours", "02")]
)
def test_a_value_that_is_typed_in_another_form_is_one_step(visitor: Visitor, key: str, typed: str) -> None:
    page = visitor.open(NAME)
    for _ in range(2):
        page.form[key] = [typed]
        page.press()
    assert len(visitor.projects.draft(NAME).steps) == 1


@pytest.mark.parametrize(("title", "button"), [("Mine", {}), ("Keeper's quilt", {"out": "top.borders[1]"})])
def test_an_edit_that_another_server_makes_in_between_is_not_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, title: str, button: dict[str, str]
) -> None:
    visitor, other = Visitor(folder_of(tmp_path, quilt=PIECED)), Projects(str(tmp_path), "none")
    page, change = visitor.open("quilt.toml"), visitor.projects.change

    def after_the_other(name: str, function: Callable[[Draft], Draft]) -> Draft:
        other.change(name, lambda draft: draft.with_step({"job.thread": "red"}, "theirs", sound=True))
        return change(name, function)

    with monkeypatch.context() as patched:
        patched.setattr(visitor.projects, "change", after_the_other)
        page.form["title"] = [title]
        page.press(**button)
    assert page.form["job.thread"] == ["red"]
    page.edit(customer__name="Marit")
    table = table_of_draft(visitor.projects.draft("quilt.toml"))
    assert (table["title"], table["job"]["thread"], table["customer"]["name"]) == (title, "red", "Marit")


def test_a_file_that_names_no_units_measures_in_inches(tmp_path: Path) -> None:
    page = Visitor(folder_of(tmp_path, cloth=PLAIN.replace('units = "in"\n', ""))).open(NAME)
    assert page.pieces["units-usual"] == "usual: inches, where the file names none"
    assert page.form["units"] == [""]


def test_blocks_lie_side_by_side_and_borders_are_butted_where_nobody_says_otherwise(visitor: Visitor) -> None:
    """Both stand in the sample shop for every part of a pieced top."""
    page = visitor.open("quilt.toml")
    assert page.pieces["top-blocks-setting-usual"] == "usual: side by side, from the sample shop"
    assert page.pieces["top-borders-1-corners-usual"] == "usual: butted, from the sample shop"
    setting = next(each for each in page.tree.iter("select") if each.get("name") == "top.blocks.setting")
    assert [(each.get("value"), each.text) for each in setting.iter("option")] == [
        ("", "side by side"),
        ("on-point", "on point"),
    ]
