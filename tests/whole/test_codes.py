"""Every kind of mistake has one code, which a site in the code gives, a mistake reaches and DEVELOPERS.md explains."""

import ast
import json
import os
import sys
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest
from typer.testing import CliRunner

import finishcalc
from finishcalc.commandline.app import app
from finishcalc.intake.resolve import load
from finishcalc.problems import ProblemCode, ProblemsFound
from finishcalc.rendering.pages.problems import problems_json, problems_text
from tests.builders import ROOT
from tests.pictures_by_hand import END, PNG, head, pixels, png_of
from tests.tables import DEVELOPERS, with_tables

PACKAGE = Path(finishcalc.__file__).parent
MISTAKES = ROOT / "tests" / "mistakes"
PLAIN = "[top]\nwidth = 60\nlength = 80\n"
PIECED = "[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n"
TIED = PLAIN + '[quilting]\nstyle = "ties-4"\nmethod = "tied"\n'


# ---- the codes of mistakes that no project file makes alone -------------------------------------------------


def no_file(folder: Path) -> list[str]:
    return ["quote", str(folder / "none.toml")]


def a_folder(folder: Path) -> list[str]:
    return ["quote", str(folder)]


def an_impossible_name(folder: Path) -> list[str]:
    return ["quote", "a\0b"]


def a_large_file(folder: Path) -> list[str]:
    (folder / "plain.toml").write_bytes(b"#" * (1024 * 1024 + 1))
    return ["quote", str(folder / "plain.toml")]


def a_latin_file(folder: Path) -> list[str]:
    (folder / "plain.toml").write_bytes("title = 'é'".encode("latin-1"))
    return ["quote", str(folder / "plain.toml")]


def a_picture_is_there(folder: Path) -> list[str]:
    pictures(folder)
    return ["cut", str(folder / "plain.toml"), "--svg", str(folder / "pictures")]


def pictures(folder: Path) -> list[Path]:
    """The pictures of a plain top, once they are written."""
    CliRunner().invoke(app, ["cut", str(folder / "plain.toml"), "--svg", str(folder / "pictures")])
    return sorted((folder / "pictures").iterdir())


def a_folder_is_in_the_way(folder: Path) -> list[str]:
    first, *_ = pictures(folder)
    first.unlink()
    first.mkdir()
    return ["cut", str(folder / "plain.toml"), "--svg", str(folder / "pictures"), "--force"]


def a_file_for_a_folder(folder: Path) -> list[str]:
    return ["cut", str(folder / "plain.toml"), "--svg", str(folder / "plain.toml" / "pictures")]


def a_link_out_of_the_folder(folder: Path) -> list[str]:
    """The shop lies in a folder of its own, which in the place to write to is a link out of it."""
    (folder / "shops").mkdir()
    (folder / "shops" / "shop.toml").write_text('units = "in"\n')
    (folder / "linked.toml").write_text('shop = "shops/shop.toml"\n[top]\nwidth = 60\nlength = 80\n')
    (folder / "out").mkdir()
    (folder / "out" / "shops").symlink_to(folder)
    return ["compare", str(folder / "linked.toml"), "--as", "queen", "--write", str(folder / "out")]


def a_device_in_the_way(folder: Path) -> list[str]:
    return ["quote", str(folder / "plain.toml"), "--html", os.devnull, "--force"]


def a_result_over_its_project(folder: Path) -> list[str]:
    return ["quote", str(folder / "plain.toml"), "--html", str(folder / "plain.toml"), "--force"]


def a_page_for_a_picture(folder: Path) -> list[str]:
    picture = folder / "pictures" / "backing.svg"
    return ["cut", str(folder / "plain.toml"), "--svg", str(picture.parent), "--html", str(picture)]


def a_logo(content: bytes) -> Callable[[Path], list[str]]:
    def command(folder: Path) -> list[str]:
        (folder / "logo.png").write_bytes(content)
        return ["quote", str(folder / "plain.toml"), "--set", "studio.logo=logo.png"]

    return command


def a_key_that_leads_nowhere(folder: Path) -> list[str]:
    return ["quote", str(folder / "plain.toml"), "--set", "top.width[1].x=3"]


def a_size(text: str) -> Callable[[Path], list[str]]:
    return lambda folder: ["compare", str(folder / "plain.toml"), "--as", text]


def blocks_as(text: str) -> Callable[[Path], list[str]]:
    return lambda folder: ["compare", str(folder / "pieced.toml"), "--as", text]


def a_chart_of_no_cloth(folder: Path) -> list[str]:
    return ["compare", str(folder / "plain.toml"), "--as", "50x60", "--grid", "--cloth", "none"]


def passes_of_ties(folder: Path) -> list[str]:
    return ["quote", str(folder / "tied.toml"), "--svg", str(folder / "pictures")]


BY_COMMAND = {
    ProblemCode.NO_SUCH_FILE: no_file,
    ProblemCode.IS_A_FOLDER: a_folder,
    ProblemCode.CANNOT_BE_READ: an_impossible_name,
    ProblemCode.FILE_TOO_LARGE: a_large_file,
    ProblemCode.NOT_UTF_8: a_latin_file,
    ProblemCode.FILE_EXISTS: a_picture_is_there,
    ProblemCode.FOLDER_IN_THE_WAY: a_folder_is_in_the_way,
    ProblemCode.WRITING_OUTSIDE_FOLDER: a_link_out_of_the_folder,
    ProblemCode.CANNOT_BE_WRITTEN: a_file_for_a_folder,
    ProblemCode.DEVICE_IN_THE_WAY: a_device_in_the_way,
    ProblemCode.WRITES_OVER_SOURCE: a_result_over_its_project,
    ProblemCode.WRITTEN_TWICE: a_page_for_a_picture,
    ProblemCode.DAMAGED_PICTURE: a_logo(PNG[:-1]),
    ProblemCode.ANIMATED_PICTURE: a_logo(png_of(head(1, 1), (b"acTL", bytes(8)), pixels(bytes(2)), END)),
    ProblemCode.PICTURE_OUT_OF_BOUNDS: a_logo(png_of(head(0, 1), pixels(bytes(1)), END)),
    ProblemCode.NO_SUCH_PLACE: a_key_that_leads_nowhere,
    ProblemCode.UNKNOWN_SIZE: a_size("quen"),
    ProblemCode.AMOUNT_NOT_SAID: a_size("queen drop"),
    ProblemCode.SAID_TWICE: a_size("queen drop 10 drop 12"),
    ProblemCode.BED_IS_A_RECTANGLE: a_size("bed round 70"),
    ProblemCode.NOTHING_TO_COVER: a_size("60x80 drop 10"),
    ProblemCode.PIECED_IS_A_RECTANGLE: blocks_as("round 70"),
    ProblemCode.CHART_WITHOUT_CLOTH: a_chart_of_no_cloth,
    ProblemCode.NO_PASSES_TO_DRAW: passes_of_ties,
}
"""One command for each mistake that is made at the command line, or with a file that is no text."""

BY_THE_SYSTEM = {
    ProblemCode.READING_NOT_ALLOWED: ("pathlib.Path.open", PermissionError(13, os.strerror(13))),
    ProblemCode.UNWRITABLE_CHARACTERS: ("os.fsync", UnicodeEncodeError("utf-8", "\ud800", 0, 1, "surrogates")),
}
"""Refusals of the operating system that no test can bring about for every user, raised in their place."""

LAST_RESORT = {
    ProblemCode.NO_BLOCKS_FIT,
    ProblemCode.NOT_PUT_BACK,
    ProblemCode.NO_SUCH_FOLDER,
    ProblemCode.NOT_A_FOLDER,
    ProblemCode.PAGE_NOT_INSTALLED,
    ProblemCode.PDF_NOT_INSTALLED,
    ProblemCode.PORT_UNAVAILABLE,
    ProblemCode.NO_PROJECT_IN_FOLDER,
    ProblemCode.WORKER_DIED,
}
"""Mistakes that only a test of their own reaches: rules that a size may break hold from some size on, or up to one, and
of the counts below and above one is allowed; a system that takes a file and then takes it back no more is rare; typst
is there wherever tests are; only a tally takes folders and has workers; and only the counter serves at a port."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in (("plain", PLAIN), ("pieced", PIECED), ("tied", TIED)):
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


def found_in(text: str) -> list[ProblemCode]:
    return [ProblemCode(record["code"]) for record in json.loads(text)["problems"]]


@pytest.mark.parametrize("code", BY_COMMAND, ids=str)
def test_a_mistake_at_the_command_line_has_its_code(code: ProblemCode, folder: Path, monkeypatch: pytest.MonkeyPatch):
    told: list[ProblemsFound] = []
    monkeypatch.setattr("finishcalc.commandline.app.report_problems", lambda found, as_json: told.append(found))
    result = CliRunner().invoke(app, BY_COMMAND[code](folder))
    assert (result.exit_code, result.stdout) == (1, "")
    assert {problem.code for found in told for problem in found.problems} == {code}


@pytest.mark.parametrize("code", BY_THE_SYSTEM, ids=str)
def test_a_refusal_of_the_system_has_its_code(code: ProblemCode, folder: Path, monkeypatch: pytest.MonkeyPatch):
    name, error = BY_THE_SYSTEM[code]
    command = ["compare", str(folder / "plain.toml"), "--as", "50x60", "--write", str(folder / "sizes"), "--json"]

    def refuse(*_: object, **__: object) -> None:
        raise error

    CliRunner().invoke(app, ["quote", str(folder / "plain.toml")])  # presets are read before anything is refused
    monkeypatch.setattr(name, refuse)
    result = CliRunner().invoke(app, command)
    monkeypatch.undo()
    assert (result.exit_code, found_in(result.stderr)) == (1, [code])


def test_a_design_that_nothing_fits_has_its_code(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("finishcalc.comparing.sizes.fits", lambda *_: [])
    result = CliRunner().invoke(app, [*blocks_as("50x60")(folder), "--json"])
    assert (result.exit_code, set(found_in(result.stderr))) == (1, {ProblemCode.NO_BLOCKS_FIT})


def test_a_folder_without_a_project_has_its_code(tmp_path: Path):
    result = CliRunner().invoke(app, ["tally", str(tmp_path), "--json"])
    assert (result.exit_code, result.stdout) == (1, "")
    assert found_in(result.stderr) == [ProblemCode.NO_PROJECT_IN_FOLDER]


def test_a_pdf_without_typst_has_its_code(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(sys.modules, "typst", None)
    told: list[ProblemsFound] = []
    monkeypatch.setattr("finishcalc.commandline.app.report_problems", lambda found, as_json: told.append(found))
    assert CliRunner().invoke(app, ["quote", str(folder / "plain.toml"), "--pdf", "-"]).exit_code == 1
    assert [problem.code for found in told for problem in found.problems] == [ProblemCode.PDF_NOT_INSTALLED]


def test_an_old_file_that_is_not_put_back_has_its_code(folder: Path, monkeypatch: pytest.MonkeyPatch):
    *_, last = pictures(folder)
    replace, calls = os.replace, []

    def once_and_no_more(old: Path, new: Path) -> None:
        """Takes the first file, and refuses the next and every way back."""
        calls.append(new)
        if len(calls) > 1:
            raise OSError(30, os.strerror(30))
        replace(old, new)

    monkeypatch.setattr("os.replace", once_and_no_more)
    command = ["cut", str(folder / "plain.toml"), "--svg", str(folder / "pictures"), "--force"]
    told: list[ProblemsFound] = []
    monkeypatch.setattr("finishcalc.commandline.app.report_problems", lambda found, as_json: told.append(found))
    assert CliRunner().invoke(app, command).exit_code == 1
    codes = [problem.code for found in told for problem in found.problems]
    assert codes == [ProblemCode.CANNOT_BE_WRITTEN, ProblemCode.NOT_PUT_BACK]
    assert last.exists()


# ---- the codes and the places that give them ----------------------------------------------------------------


def of_the_catalogue() -> set[ProblemCode]:
    """The codes that the files of the catalogue of mistakes are answered with."""
    found: set[ProblemCode] = set()
    for path in sorted(MISTAKES.glob("*.toml")):
        with pytest.raises(ProblemsFound) as refused:
            load(path.name)
        found |= {problem.code for problem in refused.value.problems}
    return found


def given_by(texts: Iterable[str]) -> set[str]:
    """The names of the codes that source texts give."""
    return {
        node.attr
        for text in texts
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "ProblemCode"
    }


def test_every_code_is_reached_by_a_mistake(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(MISTAKES)
    reached = of_the_catalogue() | BY_COMMAND.keys() | BY_THE_SYSTEM.keys() | LAST_RESORT
    assert [code for code in ProblemCode if code not in reached] == []


def test_every_code_is_given_somewhere():
    sources = [path for path in PACKAGE.rglob("*.py") if path != PACKAGE / "problems.py"]
    given = given_by(path.read_text(encoding="utf-8") for path in sources)
    assert [code.name for code in ProblemCode if code.name not in given] == []


def test_a_code_that_is_only_spoken_of_is_not_given():
    assert given_by(["raise Refusal(ProblemCode.NOT_TEXT, '') # ProblemCode.NOT_TOML", "'ProblemCode.KEY_TWICE'"]) == {
        "NOT_TEXT"
    }


def test_each_code_means_one_thing_in_one_sentence():
    meanings = [code.meaning for code in ProblemCode]
    assert len(set(meanings)) == len(meanings)
    for meaning in meanings:
        assert meaning[0].isupper(), meaning
        assert meaning.index(".") == len(meaning) - 1, meaning


@pytest.mark.parametrize("code", ProblemCode, ids=str)
def test_a_code_is_its_name_in_kebab_case(code: ProblemCode):
    assert code.value == code.name.lower().replace("_", "-")


def test_the_developers_table_is_the_codes():
    """Where this fails, `python -m tests.tables` writes the table anew."""
    text = DEVELOPERS.read_text(encoding="utf-8")
    assert text == with_tables(text)


def test_the_records_say_the_code_and_the_page_does_not(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(MISTAKES)
    with pytest.raises(ProblemsFound) as refused:
        load("whole-table-with-gaps.toml")
    records = json.loads(problems_json(refused.value.problems))["problems"]
    assert [record["code"] for record in records] == ["incomplete-material"]
    assert not any(record["code"] in problems_text(refused.value.problems) for record in records)
