"""The README stands for what is really there: its commands run, its paths exist, its set-up is the gate's."""

import re
import shlex
import shutil
import signal
import tomllib
from pathlib import Path

import pytest

import finishcalc
from finishcalc.commandline.app import app
from tests.builders import CLOTH, README, ROOT, TOP, run
from tests.commandline.test_counter import serving
from tests.plans.shopping.shops import runner

GATE = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
SETUP = "python3 -m venv .venv && .venv/bin/pip install -q -e '.[dev]' && "
TEST = ".venv/bin/python -m pytest -n auto --dist worksteal"

COMMANDS = re.findall(r"^\| `(finishcalc [^`]+)` \| (.+) \|$", README, re.M)
"""The rows of the command table: a command, and what it does."""


def blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```$", README, re.M | re.S)


def named(text: str, word: str, found: str) -> list[str]:
    """The arguments of a command as it is written, with a real file for its placeholder."""
    return [found if part == word else part for part in shlex.split(text)]


# --- what it says first ------------------------------------------------------------------------------------------


def test_the_first_paragraph_says_the_job_and_for_whom():
    """A reader who stops after one paragraph knows what goes in, what comes out, and whether it is for her."""
    _, first, *_ = README.split("\n\n")
    words = " ".join(first.split())
    for word in ("backing", "batting", "binding", "quilting", "price", "top's size", "studio owner", "maker"):
        assert word in words


def test_a_file_comes_before_its_quote():
    assert README.index("```toml") < README.index("```text")
    _its_schema, file = CLOTH.read_text(encoding="utf-8").split("\n", 1)
    assert blocks("toml")[0] == file
    assert blocks("text")[0] == run("quote", str(CLOTH)).stdout


def test_the_two_lines_give_a_whole_quote(tmp_path: Path):
    smallest = next(block for block in blocks("toml") if len(block.splitlines()) == 3)
    assert smallest.startswith("[top]\n")
    (tmp_path / "top.toml").write_text(smallest, encoding="utf-8")
    result = run("quote", str(tmp_path / "top.toml"))
    assert (result.exit_code, result.stderr) == (0, "")
    for part in ("Top ", "Backing ", "Batting ", "Binding ", "Quilting ", "Options ", "Total, USD ", "Balance "):
        assert re.search(rf"^{part}", result.stdout, re.M), part


# --- the command table -------------------------------------------------------------------------------------------


def test_the_table_has_its_rows():
    assert len(COMMANDS) >= 6


def test_the_commands_that_are_told_of_are_those_there_are():
    told = {command.split()[1] for command, _ in COMMANDS}
    assert told == {command.name or command.callback.__name__ for command in app.registered_commands}  # type: ignore[union-attr]


@pytest.mark.parametrize(("command", "does"), COMMANDS)
def test_each_command_of_the_table_runs(command: str, does: str, tmp_path: Path):
    """Those that ask write a new file, and without a terminal need the size to be told."""
    asks = {"new": ["--as", "60x72"], "new-shop": []}.get(command.split()[1])
    file = CLOTH if asks is None else tmp_path / "new.toml"
    if command == "finishcalc counter FOLDER":  # it serves until Ctrl-C
        shutil.copy(CLOTH, tmp_path)
        with serving(str(tmp_path), "--no-open") as process:
            process.send_signal(signal.SIGINT)
            assert process.wait(20) == 0
        return
    _, *arguments = shlex.split(command.replace("FILE", str(file)).replace("SHOP", shop())) + (asks or [])
    result = run(*arguments)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout
    if "`-` reads standard input" in does:
        piped = run(*named(command, "FILE", "-")[1:], stdin=CLOTH.read_text(encoding="utf-8"))
        assert piped.stdout == result.stdout


def test_options_that_the_table_tells_of_in_words_run_too(tmp_path: Path):
    options = [option for _, does in COMMANDS for option in re.findall(r"`(--\w+ [A-Z]+)`", does)]
    assert options == ["--svg FOLDER", "--write FOLDER", "--svg FOLDER", "--cloth FABRIC", "--svg FOLDER"]
    passes = run("quote", str(CLOTH), *named(options[0], "FOLDER", str(tmp_path / "passes")))
    assert (passes.exit_code, [path.name for path in (tmp_path / "passes").iterdir()]) == (0, ["passes.svg"])
    sizes = run("compare", str(CLOTH), "--as", "twin", *named(options[1], "FOLDER", str(tmp_path / "sizes")))
    assert (sizes.exit_code, len(list((tmp_path / "sizes").iterdir()))) == (0, 1)
    assert run("compare", str(CLOTH), "--as", "twin", "--grid", *named(options[3], "FABRIC", "linen-60")).exit_code == 0
    result = run("cut", str(CLOTH), *named(options[4], "FOLDER", str(tmp_path / "pictures")))
    assert result.exit_code == 0
    assert list((tmp_path / "pictures").glob("*.svg"))


def test_the_comparison_is_the_real_one(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(ROOT)
    command = next(block for block in blocks("sh") if block.startswith("finishcalc compare"))
    page = next(block for block in blocks("text") if block.startswith("Sizes of"))
    assert run(*shlex.split(command)[1:]).stdout == page


def test_the_size_chart_is_the_real_one(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(ROOT)
    command = next(block for block in blocks("sh") if block.startswith("finishcalc compare") and "--chart" in block)
    page = next(block for block in blocks("text") if block.startswith("Size chart of"))
    assert run(*shlex.split(command)[1:]).stdout == page


TOURS = re.findall(r"^### (A \w+ \w+)\n(.*?)(?=^##)", README, re.M | re.S)
"""The tours of five minutes, each with its commands and what they say."""


def test_there_is_a_tour_for_each_of_the_three():
    assert [name for name, _ in TOURS] == ["A studio quotes", "A maker buys", "A designer compares"]


@pytest.mark.parametrize(("name", "text"), TOURS, ids=[name for name, _ in TOURS])
def test_a_tour_goes_as_it_is_shown(name: str, text: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """Each command, typed in a folder that begins empty, prints what the README prints below it."""
    monkeypatch.chdir(tmp_path)
    steps = re.findall(
        r"^\$ (finishcalc .*)\n((?:(?!\$ ).*\n)*)",
        "".join(re.findall(r"^```console\n(.*?)^```$", text, re.M | re.S)),
        re.M,
    )
    assert len(steps) >= 3
    for command, shown in steps:
        result = run(*shlex.split(command)[1:])
        assert result.exit_code == 0, result.output
        assert result.stdout.rstrip("\n") == shown.rstrip("\n"), command


def test_the_papers_are_made_as_it_is_shown(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """Each command of that section, typed in a folder that has the samples."""
    (tmp_path / "presets").symlink_to(ROOT / "presets")
    monkeypatch.chdir(tmp_path)
    commands = next(block for block in blocks("sh") if "--pdf quote.pdf" in block).splitlines()
    assert len(commands) == 6
    for command in commands:
        result = run(*shlex.split(command)[1:])
        assert result.exit_code == 0, result.output
    assert sorted(path.name for path in tmp_path.glob("*.pdf")) == [
        "chart.pdf",
        "cutting.pdf",
        "quote.pdf",
        "work-order.pdf",
    ]
    assert (tmp_path / "quote.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_what_is_on_hand_is_used_first_and_what_is_left_is_written(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    """A runner of 10 x 45 in has a backing of 14 x 49 in, which one of the two pieces of 22 x 54 in holds."""
    monkeypatch.chdir(tmp_path)
    (shelf,) = [block for block in blocks("toml") if block.startswith("[[on_hand]]")]
    Path("shelf.toml").write_text(shelf, encoding="utf-8")
    Path("runner.toml").write_text(runner(width="10", length="45"), encoding="utf-8")
    (option,) = set(re.findall(r"--on-hand \S+\.toml", README))
    (left,) = re.findall(r"`(--write-left \S+)`", README)
    page = run("buy", "runner.toml", *option.split(), *left.split())
    assert (page.exit_code, "[ ] 22 x 54 in of harbour blue" in page.stdout) == (0, True)
    assert "yd of harbour blue" not in page.stdout
    pieces = [(row["width"], row["length"]) for row in tomllib.loads(Path("left.toml").read_text())["on_hand"]]
    assert ("22 in", "54 in") in pieces


@pytest.mark.parametrize("option", ["--cuts", "--both-units", "--no-prices"])
def test_each_option_of_the_size_chart_is_told_of_and_runs(option: str):
    assert f"`{option}`" in README
    plain = run("compare", str(CLOTH), "--as", "twin", "--chart")
    found = run("compare", str(CLOTH), "--as", "twin", "--chart", option)
    assert (found.exit_code, found.stderr) == (0, "")
    assert found.stdout != plain.stdout


def test_the_cutting_list_begins_as_it_is_shown(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(ROOT)
    command = next(block for block in blocks("sh") if block.startswith("finishcalc cut"))
    page = next(block for block in blocks("text") if block.startswith("To cut:"))
    assert run(*shlex.split(command)[1:]).stdout.startswith(page)
    assert len(page.splitlines()) > 20


def test_the_option_that_is_taken_comes_to_what_the_quote_says(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(ROOT)
    command = next(block for block in blocks("sh") if "--set backing.fabric" in block)
    (total,) = re.findall(r"The backing in wide cotton backing, 108 in: \$([\d.]+)", blocks("text")[0])
    assert re.search(rf"^Total, USD +{total}$", run(*shlex.split(command)[1:]).stdout, re.M)


@pytest.mark.parametrize("kind", ["fabrics", "battings", "styles", "methods", "beds", "tables"])
def test_the_presets_that_are_named_are_those_there_are(kind: str):
    (row,) = re.findall(rf"^\| {kind} \| (.+) \| (.+) \|$", README, re.M)
    inch, metric = (re.findall(r"`([\w-]+)`", cell) for cell in row)
    for system, names in (("inch", inch), ("metric", inch if row[1] == "the same" else metric)):
        presets = tomllib.loads((ROOT / "presets" / kind / f"{system}.toml").read_text(encoding="utf-8"))
        assert sorted(names) == sorted(name for name, preset in presets.items() if isinstance(preset, dict))


def test_the_choices_are_the_real_ones(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(ROOT)
    command = next(block for block in blocks("sh") if "--set quilting" in block)
    page = next(block for block in blocks("text") if block.startswith("Choices for"))
    assert run(*shlex.split(command.replace("\\\n", ""))[1:]).stdout == page


def test_the_library_does_as_it_is_told_of(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
    monkeypatch.chdir(ROOT)
    (example,) = blocks("python")
    exec(compile(example, "README.md", "exec"), {})
    assert capsys.readouterr().out == next(block for block in blocks("text") if block.startswith("binding"))


def test_every_name_of_the_library_is_told_of():
    library = README.partition("## As a library")[2].partition("\n## ")[0]
    for name in finishcalc.__all__:
        assert re.search(rf"`{name}\b", library), name
        assert getattr(finishcalc, name).__name__ == name


@pytest.mark.parametrize("size", ["queen drop 14 tuck 10", "table 36x72 drop 10", "bed 60x80", "60x84", "oval 60x84"])
def test_each_size_that_is_told_of_is_taken(size: str):
    assert f'"{size}"' in " ".join(README.split()) or f"`{size}`" in README
    assert run("compare", str(CLOTH), "--as", size).exit_code == 0


def shop() -> str:
    return str(ROOT / "presets" / "shops" / "inch.toml")


# --- what is promised elsewhere ----------------------------------------------------------------------------------


def test_every_other_file_gives_a_quote(tmp_path: Path):
    for number, block in enumerate(blocks("toml")[1:]):
        text = block if "[top" in block else TOP + block
        path = tmp_path / f"{number}.toml"
        path.write_text(text)
        assert run("quote", str(path)).exit_code == 0, text


def test_a_key_of_the_often_wanted_lines_is_a_key_with_these_words():
    """`attach = "hand"   # front | machine | hand | none`: each word after the hash is taken."""
    wanted = next(block for block in blocks("toml") if "attach" in block and "[top]" not in block)
    for word in re.findall(r"\w+", wanted[wanted.index("# front") :].split("\n")[0]):
        text = f'[top]\nwidth = 60\nlength = 80\n[binding]\nattach = "{word}"\n'
        assert run("quote", "-", stdin=text).exit_code == 0, word


def test_the_mistake_is_answered_as_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    answer = next(block for block in blocks("text") if "cloth.toml:6" in block)
    monkeypatch.chdir(tmp_path)
    Path("cloth.toml").write_text("[top]\nwidth = 60\nlength = 84\n\n[backing]\noverge = 4\n", encoding="utf-8")
    result = run("quote", "cloth.toml")
    assert (result.exit_code, result.stdout, result.stderr) == (1, "", answer)


# --- set-up and links --------------------------------------------------------------------------------------------


def test_set_up_is_one_command_each():
    """Try it, and test it: both start from nothing but Python, in one line that can be copied."""
    lines = [line for block in blocks("sh") for line in block.splitlines() if "venv" in line]
    assert lines == [
        SETUP + ".venv/bin/finishcalc quote presets/projects/boathouse-supper-cloth.toml",
        SETUP + TEST,
    ]


def test_the_gate_runs_the_readme_s_own_test_command():
    """The gate greps it out of the README; what it greps for must stand there, at the end of a line."""
    pattern = re.search(r"grep -m1 -oE '([^']+)' README\.md", GATE)
    assert pattern
    found = re.search(pattern[1], README, re.M)
    assert found
    assert found[0] == TEST


def test_links_lead_to_files():
    links = re.findall(r"\]\(([^)#]+)", README)
    assert links
    for link in links:
        assert "://" in link or (ROOT / link).is_file(), link


def test_paths_in_backticks_exist():
    told = {path for path in re.findall(r"`([\w./-]+/[\w.-]*)`", README) if "//" not in path}
    assert "presets/projects/boathouse-supper-cloth.toml" in told
    for path in told:
        assert (ROOT / path).exists(), path


def test_every_folder_has_its_place_in_the_developers_tree():
    """Each folder with code in it is in the tree, and each that is in the tree is there."""
    tree = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## The tree")[1].split("```")[1]
    named = set(re.findall(r"(\w+)/", tree))
    there = {path.parent.name for path in (ROOT / "finishcalc").rglob("*.py")} - {"finishcalc"}
    assert named == there
