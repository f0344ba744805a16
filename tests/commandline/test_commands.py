"""The command line from outside: help, arguments, exit codes, streams and bytes."""

import json
import os
import re
import shlex
import subprocess
import sys
from contextlib import chdir
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.testing import Result
from wcwidth import wcswidth

import finishcalc
from finishcalc.commandline.app import app
from tests.builders import CLOTH, EACH_PROJECT, METRIC, MISTAKES, PROJECTS, ROOT, TOP, in_file, outside, run

WORDS = ("code", "file", "path", "message", "hint", "excerpt")
RECORD = dict.fromkeys(WORDS, str) | dict.fromkeys(("line", "column", "width", "start"), int)

GROUP: Any = typer.main.get_command(app)
COMMANDS = dict(GROUP.commands)
OPTIONS = [(name, option) for name, command in COMMANDS.items() for option in command.params]


# --- help --------------------------------------------------------------------------------------------------------


def test_there_are_commands_and_options():
    assert {"quote", "cut"} <= set(COMMANDS)
    assert len(OPTIONS) >= 8


@pytest.mark.parametrize(("name", "option"), OPTIONS, ids=lambda part: getattr(part, "name", part))
def test_every_argument_and_option_has_help(name: str, option: Any):
    """A sentence: it starts with a capital and ends with a full stop."""
    assert re.fullmatch(r"[A-Z].{8,}\.", option.help or ""), (name, option.name)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_s_help_says_what_it_does(name: str):
    first = (COMMANDS[name].help or "").split("\n")[0]
    assert re.fullmatch(r"[A-Z].{8,}\.", first)
    shown = run(name, "--help").stdout
    assert " ".join(first.split()) in " ".join(shown.split())
    assert first.split(",")[0][:30] in run("--help").stdout


# --- exit codes --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", [CLOTH, METRIC], ids=lambda path: path.stem)
@pytest.mark.parametrize("how", ["", "--explain", "--for studio", "--for customer --explain", "--json"])
def test_a_result_exits_0_with_nothing_on_stderr(path: Path, how: str):
    result = run("quote", str(path), *how.split())
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.endswith("\n")
    assert not result.stdout.endswith("\n\n")


@pytest.mark.parametrize(
    "arguments",
    ["quote", "quote a b", "quote a --wide", "quote a --for", "quote a --shop", "cut", "cut a --json", "price a",
     "--wide", "quote a --for nobody", "quote a --for ''"],
)  # fmt: skip
def test_usage_errors_exit_2_before_any_file_is_read(arguments: str):
    """The file `a` does not exist: were it read first, the exit code would be 1."""
    result = run(*shlex.split(arguments))
    assert (result.exit_code, result.stdout) == (2, "")
    assert re.search(r"^Error: ", result.stderr, re.M)
    for word in ("Traceback", "pydantic", "Value error", "Literal", "validation"):
        assert word not in result.stderr


def test_an_empty_folder_name_is_a_usage_error():
    assert run("cut", str(CLOTH), "--svg", "").exit_code == 2


def test_an_unknown_reader_is_told_who_may_read():
    said = " ".join(run("quote", str(CLOTH), "--for", "nobody").stderr.split())
    assert '"nobody"' in said
    assert "customer" in said
    assert "studio" in said


def test_version_is_the_package_s_whichever_way_it_is_asked():
    """`__main__` answers alone where it can; the app answers where there is more on the line."""
    shown = f"{finishcalc.__version__}\n"
    assert run("--version").stdout == shown
    assert outside("--version").stdout.decode() == shown
    assert outside("--version", "quote").stdout.decode() == shown


def test_the_package_imports_nothing_of_its_own_until_a_quote_is_asked_for():
    """`--version` stays quick, although the package is a library as well."""
    count = "import finishcalc, sys; print([name for name in sys.modules if name.startswith('finishcalc.')])"
    home = {**os.environ, "PYTHONPATH": str(Path(finishcalc.__file__).parent.parent)}
    shown = subprocess.run([sys.executable, "-c", count], env=home, capture_output=True, check=True, text=True)
    assert shown.stdout == "[]\n"


def test_a_name_that_the_library_does_not_have_is_an_error():
    with pytest.raises(AttributeError, match="Quotation"):
        finishcalc.Quotation  # type: ignore[attr-defined]  # noqa: B018


# --- problems ----------------------------------------------------------------------------------------------------


@cache
def answer(path: Path, command: str, *how: str) -> Result:
    """A command's answer to a file with mistakes, asked for in the file's own folder, and once for all tests."""
    with chdir(path.parent):
        return run(command, path.name, *how)


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
@pytest.mark.parametrize("command", ["quote", "cut"])
def test_a_mistake_exits_1_told_on_stderr_alone(command: str, path: Path):
    """Both commands read a file the same way, so both tell of it in the same words."""
    result = answer(path, command)
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr == path.with_suffix(".expected.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
def test_a_mistake_under_json_is_records_of_the_same_problems(path: Path):
    result = answer(path, "quote", "--json")
    assert (result.exit_code, result.stdout) == (1, "")
    document = json.loads(result.stderr)
    assert set(document) == {"problems"}
    told = answer(path, "quote").stderr
    for record in document["problems"]:
        assert {key: type(value) for key, value in record.items()} == RECORD
        place = f"{record['file']}:{record['line']}" if record["line"] else record["file"]
        assert f"{place}: " in told
    assert len(document["problems"]) == len(re.findall(r"^\S.*?: ", told, re.M))


@pytest.mark.parametrize("path", MISTAKES, ids=lambda path: path.stem)
def test_problems_stand_in_file_order(path: Path):
    records = json.loads(answer(path, "quote", "--json").stderr)["problems"]
    places = [(record["file"] != path.name, record["file"], record["line"]) for record in records]
    assert places == sorted(places)


def test_a_name_that_is_no_file_is_a_problem_and_no_usage_error(tmp_path: Path):
    for name in (str(tmp_path / "none.toml"), str(tmp_path), "a\0b"):
        result = run("quote", name)
        assert (result.exit_code, result.stdout) == (1, ""), name


# --- standard input ----------------------------------------------------------------------------------------------


def test_a_dash_reads_standard_input_as_it_would_the_file():
    assert run("quote", "-", stdin=CLOTH.read_bytes()).stdout == run("quote", str(CLOTH)).stdout
    assert run("cut", "-", stdin=CLOTH.read_bytes()).stdout == run("cut", str(CLOTH)).stdout


def test_a_dash_with_a_bad_file_names_the_line_of_standard_input():
    result = run("quote", "-", stdin=TOP + "height = 3\n")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.startswith("standard input:4: top.height: unknown key\n")


def test_a_dash_with_bytes_that_are_no_text():
    result = run("quote", "-", stdin=b"[top]\nwidth = '\xff'\n")
    assert (result.exit_code, result.stdout) == (1, "")
    assert result.stderr.startswith("standard input:2: is not UTF-8 text\n")


def test_a_dash_of_nothing_says_what_is_missing():
    result = run("quote", "-", stdin="")
    assert result.exit_code == 1
    assert "top.width: is missing" in result.stderr


# --- JSON --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("more", [[], ["--explain"], ["--for", "studio"]])
def test_json_is_one_document_whatever_else_is_asked(more: list[str]):
    result = run("quote", str(CLOTH), "--json", *more)
    assert (result.exit_code, result.stderr) == (0, "")
    assert json.loads(result.stdout)["title"] == "Supper cloth for the boathouse"
    assert result.stdout == run("quote", str(CLOTH), "--json").stdout


# --- shops -------------------------------------------------------------------------------------------------------


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    """A project in a folder of its own, with a shop beside it and another below; seams at 17, 18 and 19."""
    home = tmp_path / "work"
    (home / "shops").mkdir(parents=True)
    (tmp_path / "above.toml").write_text("[rates]\nseam = 19\n")
    (home / "beside.toml").write_text("[rates]\nseam = 17\n")
    (home / "shops" / "below.toml").write_text("[rates]\nseam = 18\n")
    for shop in ("beside.toml", "shops/below.toml"):
        (home / f"{Path(shop).stem}-top.toml").write_text(f"shop = '{shop}'\n{TOP}")
    (home / "outside-top.toml").write_text(f"shop = '../above.toml'\n{TOP}")
    return home


def seam_rate(*arguments: str) -> str:
    lines = json.loads(run("quote", *arguments, "--json").stdout)["quote"]["lines"]
    return next(line["rate"] for line in lines if line["label"] == "Backing seams sewn")


@pytest.mark.parametrize("folder", [".", "work", "work/shops"])
def test_a_shop_lies_beside_the_project_from_whichever_folder(
    studio: Path, folder: str, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(studio.parent / folder)
    for stem, rate in (("beside", "17"), ("below", "18")):
        assert seam_rate(os.path.relpath(studio / f"{stem}-top.toml")) == rate
        assert seam_rate(str(studio / f"{stem}-top.toml")) == rate


def test_an_asked_shop_stands_over_the_project_s_and_lies_where_one_stands(
    studio: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(studio.parent)
    assert seam_rate("work/beside-top.toml", "--shop", "above.toml") == "19"
    assert seam_rate("work/beside-top.toml", "--shop", "work/shops/below.toml") == "18"
    assert run("quote", "work/beside-top.toml", "--shop", "gone.toml").stderr.startswith("gone.toml: no such file")


@pytest.mark.parametrize("asked", [(), ("--shop", "beside.toml")], ids=["its own", "asked"])
def test_a_shop_outside_the_folder_is_refused_also_where_another_is_asked_for(
    studio: Path, asked: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(studio)
    assert "is outside the project's folder" in run("quote", "outside-top.toml", *asked).stderr


def test_a_shop_named_on_standard_input_lies_where_one_stands(studio: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(studio)
    text = f"shop = 'beside.toml'\n{TOP}"
    lines = json.loads(run("quote", "-", "--json", stdin=text).stdout)["quote"]["lines"]
    assert "17" in [line["rate"] for line in lines]


def test_a_shop_that_is_not_there_is_told_where_it_is_named(studio: Path):
    path = studio / "lost.toml"
    path.write_text(f"\nshop = 'gone.toml'\n{TOP}")
    assert run("quote", str(path)).stderr.startswith(f"{path}:2: shop: ")


# --- what is left behind -----------------------------------------------------------------------------------------


def test_nothing_is_written_unless_it_is_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "top.toml").write_text(TOP)
    before = [(path, path.stat().st_mtime_ns) for path in tmp_path.rglob("*")]
    for how in ("", "--explain", "--json", "--for studio", "--shop top.toml"):
        run("quote", "top.toml", *how.split())
    run("quote", "none.toml")
    run("cut", "top.toml")
    outside("quote", "top.toml", cwd=tmp_path)
    assert [(path, path.stat().st_mtime_ns) for path in tmp_path.rglob("*")] == before


# --- terminals and pipes -----------------------------------------------------------------------------------------

LONG = f"""title = "{"a title that is so long that no terminal holds it on a line, " * 3}"
[customer]
name = "{"Ann" * 40}"
[job]
thread = "{"cotton " * 20}"
notes = "{"one word after the other " * 8}"
{TOP.replace("60", "240").replace("80", "240")}
[quilting]
style = "custom"
[charges]
extras = [{{ name = "pressing", quantity = "1234.56" }}]
"""
"""The largest top there may be, in the densest style, with long texts: many figures and wide ones."""


@pytest.mark.no_cover
@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("columns", [40, 56, 80])
@pytest.mark.parametrize("how", ["quote", "quote --explain", "quote --for studio --explain", "cut"])
@pytest.mark.parametrize("file", [*EACH_PROJECT, None], ids=lambda path: path.stem if path else "long")
def test_no_line_is_wider_than_the_terminal(file: Path | None, how: str, columns: int, tmp_path: Path):
    command, *more = how.split()
    result = run(command, str(file or in_file(LONG, tmp_path)), *more, columns=columns)
    assert result.exit_code == 0
    wide = [line for line in result.stdout.splitlines() if wcswidth(line) > columns]
    assert not wide


@pytest.mark.parametrize("columns", [40, 56, 80])
def test_a_shop_in_a_far_folder_makes_no_line_wider(tmp_path: Path, columns: int):
    """`--explain` names the shop file as it was given, however long that is."""
    shop = tmp_path / ("folder-" * 8) / ("with-a-long-name-" * 4 + ".toml")
    shop.parent.mkdir()
    shop.write_text("[rates]\nseam = 17\n[extras.a-name-that-goes-on-and-on-and-on-and-on-and-on]\nlabel = 'Long'\n"
                    "price = 3\nper = 'each'\nline_class = 'labour'\n")  # fmt: skip
    result = run("quote", str(CLOTH), "--shop", str(shop), "--explain", columns=columns)
    assert result.exit_code == 0
    assert not [line for line in result.stdout.splitlines() if wcswidth(line) > columns]


def test_a_very_wide_terminal_gets_the_page_of_80():
    assert run("quote", str(CLOTH), columns=300).stdout == run("quote", str(CLOTH), columns=80).stdout


@pytest.mark.parametrize("arguments", ["quote {} --explain", "quote {} --json", "cut {}", "--help", "--version"])
def test_a_reader_that_has_gone_ends_it_quietly(arguments: str):
    """The pipe is closed before the first byte, so that no buffer hides it; `| head -1` is such a reader."""
    reading, writing = os.pipe()
    os.close(reading)
    done = outside(*arguments.format(CLOTH).split(), stdout=writing)
    os.close(writing)
    assert done.stderr == b""
    assert done.returncode in (0, 1)


def test_head_takes_the_first_line_of_a_quote():
    command = f"{shlex.quote(sys.executable)} -m finishcalc quote {shlex.quote(str(CLOTH))} --json | head -1"
    done = subprocess.run(["bash", "-c", command], capture_output=True, check=True, cwd=ROOT, timeout=60)
    assert (done.stdout, done.stderr) == (b"{\n", b"")


POOR = {"LC_ALL": "C", "LANG": "C", "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}


def test_output_is_utf_8_in_any_locale(tmp_path: Path):
    """Euro signs, umlauts and wide characters stay what they are, and so do those in a problem."""
    text = METRIC.read_text(encoding="utf-8").replace("Bed quilt in greys", "Überwurf 綿 für Ångström")
    path = tmp_path / "top.toml"
    path.write_text(text, encoding="utf-8")
    for how in ([], ["--for", "studio", "--explain"], ["--json"]):
        done = outside("quote", str(path), *how, env=POOR)
        assert (done.returncode, done.stderr) == (0, b"")
        assert "Überwurf 綿 für Ångström" in done.stdout.decode("utf-8")
    assert "€" in outside("quote", str(path), "--explain", env=POOR).stdout.decode("utf-8")
    path.write_text(text + "größe = 3\n", encoding="utf-8")
    assert "größe" in outside("quote", str(path), env=POOR).stderr.decode("utf-8")


def test_a_file_s_name_that_is_no_utf_8_is_still_answered(tmp_path: Path):
    """Names are bytes on many systems: the answer must be printable, as text and as a document."""
    name = os.fsdecode(os.fsencode(str(tmp_path)) + b"/\xff\xfe.toml")
    for how in ([], ["--json"]):
        done = outside("quote", name, *how)
        assert (done.returncode, done.stdout) == (1, b"")
        assert "no such file" in done.stderr.decode("utf-8")


def test_it_is_quiet_in_every_warning_mode():
    """A user who turns warnings into errors still gets her quote."""
    done = outside("quote", str(CLOTH), env={"PYTHONWARNINGS": "error"})
    assert (done.returncode, done.stderr) == (0, b"")


def test_defaults_have_a_switch_of_their_own():
    """The arithmetic alone, the list alone, and both."""

    def has(*options: str) -> tuple[bool, bool]:
        page = run("quote", str(PROJECTS[0]), *options).stdout
        return (
            "= Cut: " in page or "= Needed: " in page or "\n            = " in page,
            "presets/shops/inch.toml:" in page,
        )

    assert has() == (False, False)
    assert has("--explain") == (True, False)
    assert has("--defaults") == (False, True)
    assert has("--explain", "--defaults") == (True, True)
    twice = ("--set", "backing.overage=3", "--set", "backing.overage=4")
    assert run("quote", str(PROJECTS[0]), *twice, "--defaults").exit_code == 2
