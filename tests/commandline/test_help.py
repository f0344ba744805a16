"""Help, first steps, usage errors and completions: whole sentences in the trade's words, with an example each."""

import re
import shlex
import shutil
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import typer
from typer.core import TyperArgument
from typer.testing import CliRunner
from wcwidth import wcswidth

from finishcalc.commandline.app import app
from finishcalc.commandline.home import FIRST_STEPS, first_steps
from finishcalc.intake.source import presets_folder
from tests.builders import CLOTH, outside, run
from tests.commandline.test_counter import serving

GROUP: Any = typer.main.get_command(app)
COMMANDS = dict(GROUP.commands)
OURS = [("", each) for each in GROUP.params if "completion" not in each.name]
OURS += [(name, each) for name, command in COMMANDS.items() for each in command.params]
WORDS_OF_PROGRAMMERS = r"\b(TEXT|INTEGER|FLOAT|PATH|BOOLEAN|str|int|float|bool|list|None|Optional)\b|<\w+>"


@pytest.fixture
def quilt(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the project that the examples name."""
    shutil.copy(CLOTH, tmp_path / "quilt.toml")
    monkeypatch.chdir(tmp_path)
    return tmp_path


# --- pages -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [40, 60, 80, 120])
@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_a_help_page_fits_the_terminal_and_names_no_type_of_a_programming_language(name: str, columns: int):
    page = run(*([name] if name else []), "--help", columns=columns).stdout
    lines = [line for line in page.splitlines() if columns >= 60 or not line.startswith("    finishcalc")]
    assert max(map(wcswidth, lines)) <= columns
    assert max(map(wcswidth, lines)) > min(columns, 80) - 12
    assert not re.search(WORDS_OF_PROGRAMMERS, page)
    assert "{" not in page


@pytest.mark.parametrize(("name", "parameter"), OURS, ids=lambda part: getattr(part, "name", part))
def test_every_option_has_a_sentence_and_what_takes_a_value_an_example(name: str, parameter: Any):
    """ "as in --shop studio.toml": the option with a value that it takes."""
    assert re.fullmatch(r"[A-Z].{8,}\.", parameter.help or "")
    if isinstance(parameter, TyperArgument):
        assert re.fullmatch(r"[A-Z.]+", parameter.metavar)
    elif not parameter.is_flag:
        assert re.fullmatch(r"[A-Z=]+", parameter.metavar)
        assert f"as in {parameter.opts[0]} " in parameter.help


@pytest.mark.parametrize("name", ["", *COMMANDS])
def test_every_page_has_examples_that_run(name: str, quilt: Path):
    page = run(*([name] if name else []), "--help", columns=60).stdout
    examples = re.findall(r"^ +(finishcalc .*)$", page, re.M)
    assert examples
    (quilt / "quilts").mkdir()
    shutil.copy(CLOTH, quilt / "quilts" / "quilt.toml")
    for example in examples:
        command, *arguments = shlex.split(example)[1:]
        if command in ("new", "new-shop"):  # what they write must not be there
            (quilt / arguments[0]).unlink(missing_ok=True)
        if command == "counter":  # it serves until Ctrl-C
            with serving(*arguments) as process:
                process.send_signal(signal.SIGINT)
                assert process.wait(20) == 0, example
            continue
        asks_for_a_size = [command, *arguments] == ["new", "quilt.toml"]  # and here is no terminal to ask on
        assert run(command, *arguments).exit_code == (2 if asks_for_a_size else 0), example


@pytest.mark.parametrize("name", COMMANDS)
def test_the_list_of_commands_has_each_whole_first_sentence(name: str):
    """None is cut off with three dots."""
    shown = " ".join(run("--help", columns=60).stdout.split())
    assert " ".join(COMMANDS[name].help.split("\n\n")[0].split()) in shown
    assert "..." not in shown.partition("Commands:")[2]


# --- first steps -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_nothing_asked_says_what_to_do_first_in_a_few_lines(columns: int):
    result = run(columns=columns)
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.stdout.splitlines()
    assert len(lines) <= 20
    samples = f"  {presets_folder() / 'projects'}"
    assert samples in lines
    assert max(len(line) for line in lines if line != samples) <= columns
    for name, (line, _) in FIRST_STEPS.items():
        assert (f"  {line}" in lines) == (name in COMMANDS)


def test_a_first_step_is_told_only_where_there_is_its_command():
    assert "finishcalc new quilt.toml" in first_steps(["new", "quote"], 80)
    assert "finishcalc new" not in first_steps(["quote"], 80)
    assert "presets" not in first_steps(["quote"], 80).replace(str(presets_folder()), "")


# --- what is typed wrong -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("qoute", "No such command 'qoute'. Did you mean 'quote'?"),
        ("compair quilt.toml", "No such command 'compair'. Did you mean 'compare'?"),
        ("preset", "No such command 'preset'. Did you mean 'presets'?"),
        ("quote quilt.toml --explian", "No such option: --explian. Did you mean --explain?"),
        ("quote quilt.toml --shpo me.toml", "No such option: --shpo. Did you mean --shop?"),
        ("--versoin", "No such option: --versoin. Did you mean --version?"),
        ("quote quilt.toml --zzzzzz", "No such option: --zzzzzz"),
        ("zzzz", "No such command 'zzzz'."),
    ],
)
def test_an_unknown_command_or_option_proposes_the_nearest(typed: str, told: str):
    result = run(*shlex.split(typed))
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.splitlines()[-1] == f"Error: {told}"


# --- completions -------------------------------------------------------------------------------------------------


def completed(shell: str, line: str, ask: Callable[[dict[str, str]], str]) -> list[str]:
    """The completions that a shell gets for the last word of a line, an empty one after a blank."""
    words = line.split(" ")
    asked = {
        "bash": {"COMP_WORDS": line, "COMP_CWORD": str(len(words) - 1)},
        "zsh": {"_TYPER_COMPLETE_ARGS": line},
        "fish": {"_TYPER_COMPLETE_ARGS": line, "_TYPER_COMPLETE_FISH_ACTION": "get-args"},
    }[shell]
    lines = ask(asked | {"_FINISHCALC_COMPLETE": f"complete_{shell}"}).splitlines()
    return [re.sub(r'^.*?"|".*$', "", line) if shell == "zsh" else line.split("\t")[0] for line in lines]


def here(environment: dict[str, str]) -> str:
    """The answer of this process, which has everything loaded."""
    shown = CliRunner(env=environment).invoke(app, [], prog_name="finishcalc")
    assert shown.stderr == ""
    return shown.stdout


def there(environment: dict[str, str]) -> str:
    """The answer of a process of its own, as a shell starts it."""
    shown = outside(env=environment)
    assert shown.stderr == b""
    return shown.stdout.decode()


COMPLETIONS = [
    ("finishcalc qu", ["quote"]),
    ("finishcalc quote --fo", ["--for", "--force"]),
    ("finishcalc quote q", ["quilt.toml"]),
    ("finishcalc quote quilt.toml --shop s", ["shops/"]),
    ("finishcalc compare quilt.toml --as ca", ["california-king", "card"]),
    ("finishcalc compare quilt.toml --cloth linen", ["linen-60", "linen-150"]),
    ("finishcalc quote quilt.toml --for s", ["studio"]),
    ("finishcalc presets be", ["beds"]),
    ("finishcalc presets methods t", ["tied"]),
    ("finishcalc presets wadding w", ["wool"]),
    ("finishcalc presets --units c", ["cm"]),
]


@pytest.mark.parametrize(("line", "names"), COMPLETIONS)
@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_completes_commands_options_presets_and_project_files(
    shell: str, line: str, names: list[str], quilt: Path
):
    """Of files those that end in .toml, and the folders on the way to others."""
    (quilt / "shops").mkdir()
    (quilt / "quotes.txt").touch()
    assert completed(shell, line, here) == names


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_that_starts_the_command_gets_its_completions(shell: str, quilt: Path):
    assert completed(shell, "finishcalc quote q", there) == ["quilt.toml"]


def test_a_broken_shop_file_does_not_break_completion(quilt: Path, monkeypatch: pytest.MonkeyPatch):
    (quilt / "mine.toml").write_text("[fabrics.lin]\nwidht = 3\n")
    monkeypatch.setenv("FINISHCALC_SHOP", str(quilt / "mine.toml"))
    assert completed("bash", "finishcalc compare quilt.toml --cloth lin", here) == ["linen-60", "linen-150"]


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_is_shown_for_each_shell(shell: str, quilt: Path):
    """By the standard option; the script asks finishcalc itself."""
    assert "_FINISHCALC_COMPLETE" in here({"_FINISHCALC_COMPLETE": f"source_{shell}"})
