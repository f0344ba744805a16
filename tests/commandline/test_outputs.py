"""One output a run: to standard output or to a file, whole or not at all, and never over what it is made from."""

import errno
import json
import os
import pty
import resource
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest

from tests.builders import ROOT, TOP, outside, run
from tests.pictures_by_hand import PNG

pytestmark = pytest.mark.slow

COMMANDS = {
    "quote": ["quote", "top.toml"],
    "the work order": ["quote", "top.toml", "--for", "studio"],
    "choices": ["quote", "top.toml", "--set", "backing.overage=3", "--set", "backing.overage=5"],
    "cut": ["cut", "top.toml"],
    "cut of two": ["cut", "top.toml", "other.toml"],
    "compare": ["compare", "top.toml", "--as", "twin"],
    "the size chart": ["compare", "top.toml", "--as", "twin", "--chart"],
    "cloths": ["compare", "top.toml", "--as", "twin", "--grid"],
}
PAPERS = {"html": b"<!doctype html", "pdf": b"%PDF-"}
"""The first bytes of each format, in small letters where that does not matter."""
QUOTE = COMMANDS["quote"]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A project, its shop and its logo, in the folder that the command is given in."""
    (tmp_path / "top.toml").write_text(f'shop = "shop.toml"\n{TOP}')
    (tmp_path / "other.toml").write_text(TOP.replace("60", "50"))
    (tmp_path / "shop.toml").write_text('[studio]\nlogo = "logo.png"\n')
    (tmp_path / "logo.png").write_bytes(PNG)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def contents(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def refused(*arguments: str, code: int = 1) -> str:
    """The words with which a command is refused, after which every file is as it was."""
    before = contents(Path())
    result = run(*arguments)
    assert (result.exit_code, result.stdout) == (code, "")
    assert contents(Path()) == before
    return " ".join(result.stderr.split())


# --- the formats -------------------------------------------------------------------------------------------------


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("form", PAPERS)
@pytest.mark.parametrize("command", COMMANDS.values(), ids=COMMANDS)
def test_a_paper_goes_to_a_file_or_to_standard_output_with_the_same_bytes(shop: Path, command: list[str], form: str):
    done = run(*command, f"--{form}", f"out.{form}")
    assert (done.exit_code, done.stdout, done.stderr) == (0, f"wrote out.{form}\n", "")
    content = (shop / f"out.{form}").read_bytes()
    assert content.lower().startswith(PAPERS[form].lower())
    piped = run(*command, f"--{form}", "-")
    assert (piped.exit_code, piped.stdout_bytes, piped.stderr) == (0, content, "")


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("command", COMMANDS.values(), ids=COMMANDS)
def test_markdown_goes_to_standard_output(shop: Path, command: list[str]):
    done = run(*command, "--markdown")
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith("## ")


def test_several_cut_lists_are_one_document(shop: Path):
    """Each is under its own title."""
    for form in ("markdown", "html"):
        done = run(*COMMANDS["cut of two"], f"--{form}", *(["-"] if form == "html" else []))
        assert done.stdout.lower().count("<!doctype") == (form == "html")
        assert done.stdout.index("top") < done.stdout.index("other")


@pytest.mark.parametrize(
    ("command", "forms"),
    [
        ("quote", ["json", "markdown", "html", "pdf"]),
        ("cut", ["markdown", "html", "pdf"]),
        ("compare", ["json", "csv", "markdown", "html", "pdf"]),
    ],
)
def test_two_outputs_are_refused_by_name(shop: Path, command: str, forms: list[str]):
    for one, other in combinations(forms, 2):
        asked = [part for form in (other, one) for part in [f"--{form}", "out"][: 2 if form in PAPERS else 1]]
        told = refused(*COMMANDS[command], *asked, code=2)
        assert f"give one of --{one} and --{other}" in told


def test_arithmetic_and_sources_go_where_the_page_has_them(shop: Path):
    for option in ("--explain", "--defaults"):
        assert len(run(*QUOTE, option, "--markdown").stdout) > len(run(*QUOTE, "--markdown").stdout)
        for form in PAPERS:
            told = refused(*QUOTE, option, f"--{form}", "out", code=2)
            assert f"Invalid value for {option}: the sheet of --{form} does not have it" in told


def test_an_empty_name_is_refused(shop: Path):
    assert "name a file, or - for standard output" in refused(*QUOTE, "--html", " ", code=2)


def test_standard_output_has_its_other_name(shop: Path):
    assert run(*QUOTE, "--html", "/dev/stdout", "--force").stdout == run(*QUOTE, "--html", "-").stdout


def test_without_typst_a_pdf_is_refused_plainly_and_nothing_is_written(shop: Path, monkeypatch: pytest.MonkeyPatch):
    """A module that is None cannot be imported. Everything else is written without it."""
    monkeypatch.setitem(sys.modules, "typst", None)
    for out in ("out.pdf", "-"):
        told = refused(*COMMANDS["cut"], "--pdf", out, "--svg", "pictures")
        assert told.startswith("--pdf: ")
        assert "pip install 'finishcalc[pdf]'" in told
        assert not (shop / "pictures").exists()
    assert run(*COMMANDS["cut"], "--html", "out.html", "--svg", "pictures").exit_code == 0


# --- what is said of it ------------------------------------------------------------------------------------------


def test_files_are_told_where_they_do_not_disturb_a_document(shop: Path):
    beside = ["--svg", "pictures", "--force"]
    wrote = "wrote pictures/passes.svg\n"
    names = {name: run(*QUOTE, *beside, *how) for name, how in {"text": [], "markdown": ["--markdown"]}.items()}
    assert names["text"].stdout.endswith(f"\n{wrote}")
    assert names["text"].stderr == ""
    assert names["markdown"].stderr == wrote
    assert "wrote" not in names["markdown"].stdout
    piped, filed = run(*QUOTE, *beside, "--pdf", "-"), run(*QUOTE, *beside, "--pdf", "out.pdf")
    assert (piped.stdout_bytes[:5], piped.stderr) == (b"%PDF-", wrote)
    assert (filed.stdout, filed.stderr) == (f"wrote out.pdf\n{wrote}", "")


def test_problems_are_records_with_json_and_words_with_paper(shop: Path):
    (shop / "top.toml").write_text("[top]\nwidth = 60\n")
    assert json.loads(run(*QUOTE, "--json").stderr)["problems"]
    assert run(*QUOTE, "--html", "out.html").stderr.startswith("top.toml:1: ")
    assert not (shop / "out.html").exists()


# --- never over what it is made from -----------------------------------------------------------------------------


def spellings(name: str) -> dict[str, str]:
    """Other names of one file, by the way in which they are others."""
    Path("link").symlink_to(name)
    Path("chain").symlink_to("link")
    Path("folder").symlink_to(".")
    os.link(name, "hard")
    return {
        "itself": name,
        "a dot": f"./{name}",
        "up and down": f"../{Path.cwd().name}/{name}",
        "the whole path": str(Path(name).absolute()),
        "a link": "link",
        "a link to a link": "chain",
        "a linked folder": f"folder/{name}",
        "a second name": "hard",
    }


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("name", ["top.toml", "shop.toml", "logo.png"])
def test_what_it_is_worked_out_from_is_never_written_over(shop: Path, name: str):
    for how, out in spellings(name).items():
        told = refused(*QUOTE, "--pdf" if how == "itself" else "--html", out, "--force")
        words = "is one of the files that this is worked out from nothing was written: name another file"
        assert told == f"{Path(out)}: {words}"


@pytest.mark.parametrize("command", ["cut of two", "compare"])
def test_no_command_writes_over_its_projects(shop: Path, command: str):
    for name in COMMANDS[command][1:]:
        if name.endswith(".toml"):
            assert "worked out from" in refused(*COMMANDS[command], "--html", name, "--force")


def test_the_shop_that_is_named_elsewhere_and_the_settings_that_name_it_are_not_written_over(
    shop: Path, monkeypatch: pytest.MonkeyPatch
):
    (shop / "mine.toml").write_text("[studio]\nname = 'Mine'\n")
    assert "worked out from" in refused(*QUOTE, "--shop", "mine.toml", "--html", "mine.toml", "--force")
    settings = shop / "home" / "finishcalc" / "settings.toml"
    settings.parent.mkdir(parents=True)
    settings.write_text(f"shop = '{shop / 'mine.toml'}'\n")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(shop / "home"))
    for name in (str(settings), "mine.toml"):
        assert "worked out from" in refused("quote", "other.toml", "--html", name, "--force")


def test_a_project_on_standard_input_is_not_written_over_either(shop: Path):
    with (shop / "other.toml").open() as file:
        done = outside("quote", "-", "--html", "other.toml", "--force", stdin=file, cwd=shop)
    assert (done.returncode, done.stdout) == (1, b"")
    assert b"worked out from" in done.stderr


def test_a_file_that_it_is_not_made_from_may_be_written_over(shop: Path):
    (shop / "old.html").write_text("old")
    assert "already exists" in refused(*QUOTE, "--html", "old.html")
    assert run(*QUOTE, "--html", "old.html", "--force").exit_code == 0
    assert (shop / "old.html").read_text() != "old"


def test_one_file_is_not_written_twice(shop: Path):
    out = "pictures/../pictures/backing.svg"
    for how in ([], ["--force"]):
        told = refused(*COMMANDS["cut"], "--svg", "pictures", "--html", out, *how)
        assert "would be written twice" in told
        assert not (shop / "pictures").exists()


# --- places that take no file ------------------------------------------------------------------------------------


def test_a_folder_is_no_file(shop: Path):
    (shop / "folder").mkdir()
    for out in ("folder", "folder/", "new/", ".", "..", "/"):
        assert refused(*QUOTE, "--html", out, "--force").startswith(
            f"{Path(out) if out == 'folder' else out}: is a folder"
        )


def test_folders_on_the_way_are_made_and_only_for_a_file_that_comes(shop: Path):
    assert run(*QUOTE, "--html", "papers/june/quote.html").exit_code == 0
    assert "cannot be written" in refused(*QUOTE, "--html", f"new/{'n' * 300}.html")
    assert "cannot be written" in refused(*QUOTE, "--html", "top.toml/quote.html")
    assert not (shop / "new").exists()


def test_a_pipe_is_not_replaced_by_a_file(shop: Path):
    os.mkfifo(shop / "pipe")
    assert "is a device or a pipe" in refused(*QUOTE, "--html", "pipe", "--force")
    assert "is a device or a pipe" in refused(*QUOTE, "--html", os.devnull, "--force")


def test_a_full_disk_leaves_nothing(shop: Path, monkeypatch: pytest.MonkeyPatch):
    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    (shop / "old.html").write_text("old")
    monkeypatch.setattr(os, "fsync", full)
    for out in ("new/quote.html", "old.html"):
        told = refused(*QUOTE, "--html", out, "--force")
        assert told == f"{out}: cannot be written No space left on device"
    assert not (shop / "new").exists()


def test_a_full_standard_output_is_told(shop: Path):
    with open("/dev/full", "wb") as full:
        done = outside(*QUOTE, "--pdf", "-", stdout=full, cwd=shop)
    assert (done.returncode, done.stderr) == (1, b"cannot write the result: No space left on device\n")


def test_the_limit_of_a_file_s_size_is_told_and_leaves_nothing(shop: Path):
    """Python ignores the signal at the limit, so that writing fails and is undone."""

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (10, 10))

    before = contents(shop)
    env = {"PYTHONDONTWRITEBYTECODE": "1"}
    done = outside(*QUOTE, "--html", "new/quote.html", cwd=shop, preexec_fn=limit, env=env)
    assert (done.returncode, done.stdout) == (1, b"")
    assert done.stderr == b"new/quote.html: cannot be written\n    File too large\n"
    assert contents(shop) == before
    assert not (shop / "new").exists()


AS_NOBODY = """
import fcntl, os, sys
from typer.testing import CliRunner
from finishcalc.__main__ import main
from finishcalc.commandline import files
from finishcalc.commandline.app import app
from finishcalc.rendering.pages import problems

arguments = sys.argv[1:]
CliRunner().invoke(app, [*arguments[:-3], "--html", "-"])
if os.geteuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
sys.argv[0] = "finishcalc"
main()
"""
"""Runs a command whose last arguments are --html OUT --force. All modules are loaded before the rights are given up,
because they may lie where an ordinary user cannot read."""


@pytest.mark.parametrize("old", [False, True], ids=["new", "over an old one"])
@pytest.mark.parametrize("writable", [False, True], ids=["read-only", "writable"])
def test_a_folder_that_may_not_be_written_in_is_told_to_an_ordinary_user(writable: bool, old: bool):
    """Root may write everywhere, so that the command runs as nobody. A folder that is writable takes the file."""
    with tempfile.TemporaryDirectory() as name:
        folder, papers = Path(name), Path(name, "papers")
        papers.mkdir()
        (folder / "top.toml").write_text(TOP)
        if old:
            (papers / "quote.html").write_text("old")
        before = contents(folder)
        folder.chmod(0o755)
        papers.chmod(0o777 if writable else 0o555)
        command = [sys.executable, "-c", AS_NOBODY, *QUOTE, "--html", "papers/quote.html", "--force"]
        env = {**os.environ, "PYTHONPATH": str(ROOT)}
        done = subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True, timeout=60, check=False)
        papers.chmod(0o755)
        if writable:
            assert (done.returncode, done.stdout, done.stderr) == (0, "wrote papers/quote.html\n", "")
            assert sorted(contents(folder)) == ["papers/quote.html", "top.toml"]
            assert (papers / "quote.html").read_bytes() != b"old"
        else:
            assert (done.returncode, done.stdout) == (1, "")
            assert done.stderr == "papers: cannot be written\n    Permission denied\n"
            assert contents(folder) == before


# --- terminals and stops -----------------------------------------------------------------------------------------


def test_a_pdf_is_not_poured_into_a_terminal(shop: Path):
    ours, theirs = pty.openpty()
    try:
        to_terminal = outside(*QUOTE, "--pdf", "-", stdout=theirs, cwd=shop)
        page = outside(*QUOTE, "--html", "-", stdout=subprocess.PIPE, cwd=shop)
        file = outside(*QUOTE, "--pdf", "out.pdf", stdout=theirs, cwd=shop)
    finally:
        os.close(theirs)
        os.close(ours)
    told = " ".join(to_terminal.stderr.decode().split())
    assert to_terminal.returncode == 2
    assert told.endswith("Invalid value for --pdf: a terminal cannot show a PDF: name a file, as in --pdf quote.pdf")
    assert (page.returncode, file.returncode) == (0, 0)


def test_a_pdf_is_not_changed_on_its_way_through_a_pipe(shop: Path):
    """Bytes that are no text, line ends of every kind and all."""
    assert run(*QUOTE, "--pdf", "out.pdf").exit_code == 0
    piped = outside(*QUOTE, "--pdf", "-", cwd=shop, env={"PYTHONIOENCODING": "ascii", "LC_ALL": "C"})
    assert (piped.returncode, piped.stdout) == (0, (shop / "out.pdf").read_bytes())


STOPPED = """
import os, signal, sys
number, sys.argv = int(sys.argv[1]), ["finishcalc", *sys.argv[2:]]
real = os.fsync
def stop(handle):
    real(handle)
    os.kill(os.getpid(), number)
os.fsync = stop
from finishcalc.__main__ import main
main()
"""


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
def test_a_stop_while_a_paper_is_written_leaves_nothing(shop: Path, number: signal.Signals):
    before = contents(shop)
    command = [sys.executable, "-c", STOPPED, str(int(number)), *QUOTE, "--html", "new/quote.html"]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(command, cwd=shop, env=env, capture_output=True, text=True, timeout=60, check=False)
    assert (done.returncode, done.stdout) == (128 + number, "")
    assert done.stderr == "finishcalc: stopped; nothing was written\n"
    assert contents(shop) == before
    assert not (shop / "new").exists()


def test_killed_while_a_paper_is_written_the_next_run_clears_what_is_left(shop: Path):
    before = contents(shop)
    command = [sys.executable, "-c", STOPPED, str(int(signal.SIGKILL)), *QUOTE, "--html", "quote.html"]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(command, cwd=shop, env=env, capture_output=True, timeout=60, check=False)
    assert done.returncode == -signal.SIGKILL
    assert not (shop / "quote.html").exists()
    assert run(*QUOTE, "--html", "quote.html").exit_code == 0
    assert set(contents(shop)) == {*before, "quote.html"}
