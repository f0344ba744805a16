"""The interviews of `finishcalc new` and `new-shop`, on a terminal and without one, and the files they write."""

import os
import re
import signal
import sys
import termios
import time
import tomllib
from pathlib import Path
from typing import Any

import pexpect
import pytest
from hypothesis import given
from hypothesis import strategies as st

import finishcalc
from finishcalc.commandline.app import app
from finishcalc.intake import presets
from finishcalc.intake.changes.shop_values import spec_at
from finishcalc.intake.questions import project, shop
from finishcalc.intake.questions.choices import choices_of
from finishcalc.intake.questions.interview import Interview, project_topic, shop_topic
from finishcalc.intake.questions.question import Question
from finishcalc.intake.resolve import load, resolve
from finishcalc.intake.source import Source
from finishcalc.measures.numbers import MeasureError
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.pipeline import finish, finish_file
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.pages.questions import prompt_text
from tests.builders import TOP, outside, quoted, run

pytestmark = pytest.mark.slow

PROJECT = {question.name: question for question in project.QUESTIONS}


class Terminal:
    """The command in a pseudo-terminal of its own."""

    def __init__(self, folder: Path, *arguments: str, columns: int = 60, **env: str) -> None:
        unset = {"COLUMNS", "LINES", "NO_COLOR"}
        home = {"PYTHONPATH": str(Path(finishcalc.__file__).parent.parent), "TERM": "xterm"}
        environment = {key: value for key, value in os.environ.items() if key not in unset} | home | env
        self.encoding = env.get("PYTHONIOENCODING", "utf-8")
        self.child = pexpect.spawn(
            sys.executable,
            ["-m", "finishcalc", *arguments],
            cwd=str(folder),
            env=environment,
            dimensions=(24, columns),
            timeout=20,
        )
        self.seen = ""

    def until(self, label: str) -> None:
        """Wait for the prompt of this label."""
        self.child.expect(rf"{label}( \[[^\r\n]*\])?: ".encode())
        self.seen += self._text(self.child.before) + self._text(self.child.after)

    def answer(self, label: str, text: str) -> None:
        """Wait for a prompt and answer it."""
        self.until(label)
        self.child.sendline(text.encode(self.encoding))

    def end(self) -> tuple[int | None, str]:
        """Wait for the end. Gives the exit code, and all that was shown."""
        self.child.expect(pexpect.EOF)
        self.seen += self._text(self.child.before)
        self.child.close()
        return self.child.exitstatus, self.seen

    def _text(self, shown: Any) -> str:
        return shown.decode("utf-8", "replace").replace("\r\n", "\n") if isinstance(shown, bytes) else ""


TABLE = {
    "Units": "",
    "Use": "tablecloth",
    "Size": "table 36x72",
    "Drop": "10",
    "Backing": "linen-60",
    "Batting": "none",
    "Edge": "hem",
    "Brings": "backing",
    "Style": "grid-2",
    "Method": "domestic",
    "Customer": "Marit",
    "Title": "Tea",
}


def hold(terminal: Terminal, answers: dict[str, str]) -> tuple[int | None, str]:
    for label, text in answers.items():
        terminal.answer(label, text)
    return terminal.end()


# --- on a terminal -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [40, 60, 80, 120])
def test_an_interview_ends_with_the_quote_of_the_file_it_writes(tmp_path: Path, columns: int):
    code, shown = hold(Terminal(tmp_path, "new", "tea.toml", columns=columns), TABLE)
    assert code == 0
    quote = outside("quote", "tea.toml", cwd=tmp_path, env={"COLUMNS": str(columns)}).stdout.decode()
    assert quote
    assert quote in shown
    assert "wrote tea.toml" in shown
    assert "finishcalc quote tea.toml" in shown
    assert max(map(len, shown.split("\n"))) <= columns


def test_the_answers_stand_in_the_file(tmp_path: Path):
    hold(Terminal(tmp_path, "new", "tea.toml"), TABLE)
    assert tomllib.loads((tmp_path / "tea.toml").read_text(encoding="utf-8")) == {
        "title": "Tea",
        "units": "in",
        "customer": {"name": "Marit"},
        "top": {"covers": {"table": {"shape": "rectangle", "width": 36, "length": 72}, "drop": 10}},
        "backing": {"fabric": "linen-60", "supplied_by": "customer"},
        "batting": {"product": "none"},
        "binding": {"attach": "hem"},
        "quilting": {"style": "grid-2", "method": "domestic-machine"},
    }


@pytest.mark.parametrize("env", [{"TERM": "dumb"}, {"NO_COLOR": "1"}, {"TERM": "dumb", "NO_COLOR": "1"}])
def test_no_terminal_gets_signs_that_it_cannot_show(tmp_path: Path, env: dict[str, str]):
    """Apart from those by which readline asks for pasted text, on a terminal that knows them."""
    code, shown = hold(Terminal(tmp_path, "new", "tea.toml", **env), TABLE)
    assert code == 0
    assert "\x1b" not in shown.replace("\x1b[?2004h", "").replace("\x1b[?2004l", "")


def test_a_question_mark_lists_the_choices_with_figures_and_asks_again(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml", "--as", "60x80")
    for label, text in [("Units", ""), ("Use", ""), ("Backing", "?"), ("Backing", "?")]:
        terminal.answer(label, text)
    terminal.until("Backing")
    text = " ".join(terminal.seen.split())
    assert text.count("cotton-wide-108 wide cotton backing, 108 in; price 24.00 USD a yd") == 2
    assert set(presets.own_names("fabrics", "in")) <= set(re.findall(r"^[\w-]+", terminal.seen, re.M))


def test_a_bad_answer_is_refused_with_its_reason_and_asked_again(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml", columns=80)
    for label, text in [
        ("Units", "mm"),
        ("Units", ""),
        ("Use", ""),
        ("Size", "queem"),
        ("Size", "600"),
        ("Size", "60½"),
    ]:
        terminal.answer(label, text)
    terminal.answer("Length", "")
    terminal.until("Length")
    assert '"mm" is not a choice here: use in or cm.' in terminal.seen
    assert '"queem" is not a known bed, table or size: did you mean "queen"?' in terminal.seen
    assert "600 in is out of bounds: it must be from 1 in to 240 in." in terminal.seen
    assert "This has no default: give it as in 84." in terminal.seen


def test_back_goes_one_question_back_and_takes_its_answer_away(tmp_path: Path):
    """Past one that an option answers; from the first question there is no way back."""
    terminal = Terminal(tmp_path, "new", "quilt.toml", "--batting", "wool", "--as", "60x80")
    for label, text in [("Units", "back"), ("Units", "cm"), ("Use", "back"), ("Units", ""), ("Use", "wall")]:
        terminal.answer(label, text)
    for label, text in [("Backing", "none"), ("Edge", "back"), ("Backing", "linen-60"), ("Edge", "")]:
        terminal.answer(label, text)
    code, shown = hold(terminal, dict.fromkeys(["Brings", "Style", "Method", "Customer", "Title"], ""))
    assert code == 0
    assert "This is the first question" in shown
    written = tomllib.loads((tmp_path / "quilt.toml").read_text(encoding="utf-8"))
    assert (written["units"], written["backing"]["fabric"], written["batting"]["product"]) == ("in", "linen-60", "wool")


@pytest.mark.parametrize("term", ["xterm", "dumb"])
@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGHUP, 129)])
def test_a_stop_leaves_nothing_but_the_terminal_as_it_was(tmp_path: Path, number: int, code: int, term: str):
    terminal = Terminal(tmp_path, "new", "quilt.toml", TERM=term)
    terminal.answer("Units", "")
    terminal.until("Use")
    time.sleep(0.2)
    if number == signal.SIGINT:
        terminal.child.sendintr()
    else:
        terminal.child.kill(number)
    time.sleep(0.3)
    echoes = termios.tcgetattr(terminal.child.child_fd)[3] & termios.ECHO
    exit_code, shown = terminal.end()
    assert (exit_code, bool(echoes)) == (code, True)
    assert shown.endswith("\nfinishcalc: stopped; nothing was written\n")
    assert list(tmp_path.iterdir()) == []


def test_the_end_of_input_leaves_nothing(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml")
    terminal.answer("Units", "")
    terminal.until("Use")
    terminal.child.sendeof()
    code, shown = terminal.end()
    assert code == 1
    assert shown.endswith("\nfinishcalc: the input ended; nothing was written\n")
    assert list(tmp_path.iterdir()) == []


def test_pasted_lines_do_not_answer_the_next_questions(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml", "--as", "60x80", "--units", "in", "--use", "throw")
    terminal.until("Backing")
    time.sleep(0.2)
    terminal.child.send(b"\x1b[200~linen-60\nwool\x1b[201~\n")
    terminal.until("Backing")
    assert "is not one of the fabrics" in " ".join(terminal.seen.split())


def test_the_tabulator_completes_a_name(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml", "--as", "60x80", "--units", "in", "--use", "throw")
    terminal.until("Backing")
    time.sleep(0.2)
    terminal.child.send(b"lin\t\n")
    terminal.until("Batting")
    assert "linen-60" in terminal.seen


@pytest.mark.parametrize("encoding", ["cp437", "cp1252"])
def test_a_terminal_of_another_encoding_can_answer(tmp_path: Path, encoding: str):
    """Both have ½ and ë."""
    terminal = Terminal(tmp_path, "new", "quilt.toml", PYTHONIOENCODING=encoding)
    for label, text in [("Units", ""), ("Use", ""), ("Size", "60½"), ("Length", "80"), ("Backing", "")]:
        terminal.answer(label, text)
    rest = {"Batting": "", "Edge": "", "Brings": "", "Style": "", "Method": "", "Customer": "Zoë", "Title": ""}
    assert hold(terminal, rest)[0] == 0
    written = tomllib.loads((tmp_path / "quilt.toml").read_text(encoding="utf-8"))
    assert (written["top"]["width"], written["customer"]["name"]) == ("60½", "Zoë")


def test_an_existing_file_is_refused_before_the_first_question(tmp_path: Path):
    for command in ("new", "new-shop"):
        (tmp_path / "there.toml").write_text("mine")
        code, shown = Terminal(tmp_path, command, "there.toml").end()
        assert code == 1
        assert "there.toml: already exists" in shown
        assert "Units" not in shown
        assert (tmp_path / "there.toml").read_text() == "mine"


def test_an_option_that_does_not_suit_an_answer_is_told_and_the_question_asked(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml", "--length", "3", "--edge", "glue", columns=80)
    for label, text in [("Units", ""), ("Use", ""), ("Size", "60x80"), ("Backing", ""), ("Batting", ""), ("Edge", "")]:
        terminal.answer(label, text)
    code, shown = hold(terminal, dict.fromkeys(["Brings", "Style", "Method", "Customer", "Title"], ""))
    assert code == 0
    assert '--edge: "glue" is not a choice here' in shown
    assert "--length is left out: it goes with --width alone." in shown


# --- without a terminal ------------------------------------------------------------------------------------------


def in_folder(folder: Path, *arguments: str) -> tuple[int, str, str]:
    result = outside(*arguments, cwd=folder, stdin=-3)
    return result.returncode, result.stdout.decode(), result.stderr.decode()


def test_without_a_terminal_what_is_not_answered_has_its_default(tmp_path: Path):
    code, shown, errors = in_folder(tmp_path, "new", "quilt.toml", "--as", "60x80", "--batting", "wool")
    assert (code, errors) == (0, "")
    quote = in_folder(tmp_path, "quote", "quilt.toml")[1]
    assert shown.startswith(quote)
    assert quote.startswith("Quote: Quilt\n")
    bare = "units = 'in'\ntitle = 'Quilt'\n[top]\nwidth = 60\nlength = 80\n[batting]\nproduct = 'wool'\n"
    (tmp_path / "bare.toml").write_text(bare, encoding="utf-8")
    assert in_folder(tmp_path, "quote", "bare.toml")[1] == quote


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ((), '--width: there is no terminal to ask on, and it has no default: give --width "60 1/2", or --as SIZE'),
        (("--width", "60"), "--length: there is no terminal to ask on, and it has no default: give --length 84"),
        (("--as", "60x80", "--width", "3"), "--as: the size is given by --width too: give one of them"),
        (("--as", "queem"), '--as: "queem" is not a known bed, table or size: did you mean "queen"?'),
        (("--as", "60x80", "--batting", "wol"), '--batting: "wol" is not one of the battings: did you mean "wool"?'),
        (
            ("--as", "60x80", "--drop", "10"),
            "--drop: it has no place here: only the cover of a bed or table has a drop",
        ),
        (("--as", "queen", "--length", "84"), "--length: it has no place here: it goes with --width alone"),
        (("--as", "60x80", "--units", "mm"), '--units: "mm" is not a choice here: use in or cm'),
    ],
)
def test_arguments_that_cannot_be_used_name_their_option(tmp_path: Path, arguments: tuple[str, ...], told: str):
    result = run("new", str(tmp_path / "quilt.toml"), *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert told in " ".join(result.stderr.split())
    assert list(tmp_path.iterdir()) == []


def test_force_writes_over_a_file_but_never_over_the_shop_file(tmp_path: Path):
    (tmp_path / "shop.toml").write_text("[rates]\nminimum = 5\n")
    (tmp_path / "quilt.toml").write_text("old")
    where = str(tmp_path / "quilt.toml"), "--as", "60x80", "--shop", str(tmp_path / "shop.toml")
    assert run("new", *where).exit_code == 1
    assert run("new", *where, "--force").exit_code == 0
    result = run("new", str(tmp_path / "shop.toml"), *where[1:], "--force")
    assert result.exit_code == 1
    assert "is one of the files that this is worked out from" in result.stderr
    assert (tmp_path / "shop.toml").read_text() == "[rates]\nminimum = 5\n"


@pytest.mark.parametrize("name", ["-", "", "folder/", "notes.txt/quilt.toml"])
def test_a_file_that_cannot_be_is_refused_at_once(tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "notes.txt").write_text("")
    assert run("new", name, "--as", "60x80").exit_code in (1, 2)
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


# --- the questions as data ---------------------------------------------------------------------------------------


def answered(topic: Any, **answers: str) -> Interview:
    """An interview that is answered, each question by its default where none is given."""
    interview = Interview(topic)
    while question := interview.next:
        interview = interview.take(question, answers.get(question.name.replace("-", "_"), ""))
    return interview


@pytest.mark.parametrize("question", project.QUESTIONS, ids=lambda question: question.name)
def test_a_question_of_a_project_is_about_a_key_that_projects_have(question: Question):
    if question.kind != "parts":
        assert spec_at(ProjectFile, question.path)


@pytest.mark.parametrize("question", [each for each in shop.QUESTIONS if each.key], ids=lambda question: question.name)
def test_a_question_of_a_shop_is_about_a_key_that_shops_have(question: Question):
    path = ("usual", *question.path) if question.key == "backing.fabric" else question.path
    assert spec_at(ShopFile, path)


@pytest.mark.parametrize("name", ["units", "use", "edge"])
def test_every_choice_of_a_key_is_told(name: str):
    question = PROJECT[name]
    spec = spec_at(ProjectFile, question.path)
    assert spec
    assert set(spec.choices) == set(question.told)


@pytest.mark.parametrize(("command", "questions"), [("new", project.QUESTIONS), ("new-shop", shop.QUESTIONS)])
def test_each_question_has_its_option_with_an_example_that_is_taken(command: str, questions: Any):
    shown = " ".join(run(command, "--help", columns=80).stdout.split())
    for question in questions:
        assert f"{question.option} " in shown
        assert f"as in {question.option} {question.example}" in shown.replace("- ", "-")


@pytest.mark.parametrize("question", project.QUESTIONS, ids=lambda question: question.name)
def test_the_example_of_a_question_is_a_good_answer(question: Question):
    around = {"width": "queen"} if question.when == "covered" else {"width": "60"} if question.name == "length" else {}
    around = around or {"width": "60x80"}
    answered(
        project_topic("quilt.toml"), **around | {question.name.replace("-", "_"): question.example, "length": "84"}
    )


def test_every_question_has_something_to_tell_for_a_question_mark():
    """Words with what they mean, or for a figure the sample's; else its example is told."""
    for topic in (project_topic("quilt.toml"), shop_topic("shop.toml")):
        interview = Interview(topic)
        while question := interview.next:
            choices = choices_of(question, interview.seen)
            assert all(choice.word and choice.meaning for choice in choices)
            assert choices or question.kind in ("line", "lines", "length")
            interview = interview.take(question, "60" if question.kind in ("size", "length") else "")


@pytest.mark.parametrize(
    ("size", "top"),
    [
        ("60 1/2", {"width": "60 1/2", "length": 72}),
        ("154 cm", {"width": "154 cm", "length": 72}),
        ("5 ft", {"width": "5 ft", "length": 72}),
        ("60½ x 84", {"width": "60½", "length": 84}),
        ("round 70", {"diameter": 70}),
        ("oval 60x84", {"shape": "oval", "width": 60, "length": 84}),
        ("queen drop 14 tuck 10", {"covers": {"bed": "queen", "drop": 14, "pillow_tuck": 10}}),
        ("crib", {"covers": {"bed": "crib"}}),
        ("throw 50x65", {"use": "throw", "width": 50, "length": 65}),
    ],
)
def test_a_size_is_understood_as_it_is_said(size: str, top: dict[str, object]):
    written = tomllib.loads(answered(project_topic("quilt.toml"), use="wall", width=size, length="72").text)["top"]
    assert written == ({} if "covers" in top else {"use": "wall"}) | top


def test_ties_bring_the_method_that_ties():
    """The usual method, a longarm, ties no quilt, so it is no default here."""
    for units, style in (("in", "ties-4"), ("cm", "ties-10")):
        written = tomllib.loads(answered(project_topic("quilt.toml"), units=units, width="60x80", style=style).text)
        assert written["quilting"] == {"style": style, "method": "tied"}


def test_answers_are_refused_in_the_words_of_files():
    """The problem of a style of ties with a method that ties nothing."""
    interview = answered(project_topic("quilt.toml"), width="60x80", style="ties-4").back().back().back()
    with pytest.raises(ProblemsFound) as found:
        quoted(TOP + "[quilting]\nstyle = 'ties-4'\nmethod = 'domestic-machine'\n")
    (problem,) = found.value.problems
    with pytest.raises(MeasureError) as refused:
        interview.take(PROJECT["method"], "domestic-machine")
    assert (refused.value.code, str(refused.value), refused.value.hint) == (problem.code, problem.message, problem.hint)


# --- the file of a project ---------------------------------------------------------------------------------------


def key_lines(text: str) -> list[str]:
    """The lines of a file that give a key, or would give one without their #."""
    return [line for line in text.split("\n") if re.match(r"(# )?[\w-]+ = ", line)]


def test_each_key_of_a_written_file_has_a_comment():
    for interview in (answered(project_topic("q.toml"), width="queen", customer="M"), answered(shop_topic("s.toml"))):
        lines = key_lines(interview.text)
        assert len(lines) > 10
        assert all(re.search(r"  # \S", line) for line in lines)


OWN = """units = "cm"
[rates]
minimum = 12
[usual.backing]
fabric = { preset = "cotton-wide-270", price = 5 }
[usual.batting]
product = "wool"
supplied_by = "customer"
"""


def test_the_defaults_are_those_of_the_shop_in_use(tmp_path: Path):
    """A cloth whose price the shop has changed for its usual projects is left to it, so that the price stays."""
    (tmp_path / "own.toml").write_text(OWN)
    interview = answered(project_topic(str(tmp_path / "quilt.toml"), str(tmp_path / "own.toml")), width="150x200")
    written = tomllib.loads(interview.text)
    assert (written["units"], written["shop"]) == ("cm", "own.toml")
    assert (written["batting"]["product"], written["batting"]["supplied_by"]) == ("wool", "customer")
    assert re.search(r'^# fabric = "cotton-wide-270" +# usual in your shop', interview.text, re.M)
    backing = interview.resolved.project.backing
    assert backing
    assert backing.fabric.price.value == 5


def test_a_width_is_that_of_a_rectangle_where_tops_are_usually_round(tmp_path: Path):
    (tmp_path / "own.toml").write_text("[usual.top]\nshape = 'round'\n")
    topic = project_topic(str(tmp_path / "quilt.toml"), str(tmp_path / "own.toml"))
    assert answered(topic, width="60", length="70").resolved.project.top.shape == "rectangle"
    assert answered(topic, width="round 60").resolved.project.top.shape == "round"


def test_a_shop_file_outside_the_folder_is_named_in_the_next_step(tmp_path: Path):
    (tmp_path / "own.toml").write_text(OWN)
    (tmp_path / "jobs").mkdir()
    result = run("new", str(tmp_path / "jobs" / "q.toml"), "--as", "150x200", "--shop", str(tmp_path / "own.toml"))
    assert f"--shop {tmp_path / 'own.toml'}" in result.stdout
    assert "shop" not in tomllib.loads((tmp_path / "jobs" / "q.toml").read_text(encoding="utf-8"))


def test_one_who_only_buys_is_not_asked_about_customers(tmp_path: Path):
    maker = str(presets.presets_folder() / "shops" / "maker-inch.toml")
    interview = answered(project_topic(str(tmp_path / "quilt.toml"), maker), width="60x80")
    assert {"brings", "customer"}.isdisjoint(answer.question.name for answer in interview.answers)


SIZES = ["queen", "60x80", "round 60", "60 1/2", "1/0", "table 36x72 drop 10", "crib", "oval 40x60", "throw 50x65"]
NAMES = ["none", "wool", "minky", "E2E", "ties-4", "tied", "custom", "channels-3", "hand-quilted", "domestic"]
EDGES = ["hand", "hem", "faced", "front", "backing, batting", "yes", "no", "all", "in", "cm", "EUR", "XXX"]
PRICES = ["0", "-3", "9" * 15, "sq ft", "ft", "hour", "4 a sq ft", "50 %", "7.25", "0.5"]
SIGNS = ["", "?", "\x00", '"', "'", "a\nb", "\ud800", "é"]
WORDS = st.sampled_from([*SIZES, *NAMES, *EDGES, *PRICES, *SIGNS])


@given(st.lists(WORDS | st.text(max_size=12), max_size=30), st.booleans())
def test_any_row_of_answers_makes_a_file_that_loads_or_is_refused(texts: list[str], is_shop: bool):
    interview = Interview(shop_topic("shop.toml") if is_shop else project_topic("quilt.toml"))
    rest = iter(texts)
    while question := interview.next:
        text = next(rest, None)
        try:
            interview = interview.take(question, text or "")
        except MeasureError:
            if text is None:  # nobody is left to answer a question without a default
                interview = interview.take(question, question.example)
    written = Source(interview.topic.file, interview.text)
    alone = Source("top.toml", f"units = '{written.table['units']}'\ntop.diameter = 60\n")
    whole = resolve(alone, "shop.toml", reader=lambda _: written) if is_shop else resolve(written)
    assert finish(whole).quote.total


# --- the shop file -----------------------------------------------------------------------------------------------


def quote_lines(folder: Path, shop_file: str) -> list[str]:
    (folder / "top.toml").write_text("[top]\nwidth = 60\nlength = 80\n")
    return run("quote", str(folder / "top.toml"), "--shop", str(folder / shop_file)).stdout.split("\n")


def marked(lines: list[str], label: str) -> bool:
    (line,) = [each for each in lines if each.startswith(label)]
    return "*" in line


def test_only_what_is_answered_is_no_sample_any_more(tmp_path: Path):
    """A sample that is left stands in the file as a comment, and a quote still marks it; one that is answered with the
    sample's own figure is hers."""
    arguments = ["--edge-to-edge", "0.03", "--cloth-price", "9", "--markup", "50", "--name", "The harbour loft"]
    assert run("new-shop", str(tmp_path / "mine.toml"), *arguments).exit_code == 0
    lines = quote_lines(tmp_path, "mine.toml")
    assert "from The harbour loft" in lines
    assert not marked(lines, "Quilting, open meander")
    assert not marked(lines, "Quilting cotton, 44 in wide, for backing")
    assert marked(lines, "Binding made")
    assert marked(lines, "Sales tax")
    samples = finish_file(str(tmp_path / "top.toml"), str(tmp_path / "mine.toml")).resolved.layers.values
    text = (tmp_path / "mine.toml").read_text(encoding="utf-8")
    for question in (each for each in shop.QUESTIONS if each.sample and each.kind == "price"):
        is_left = re.search(rf"^# {question.path[-1]} = .*# sample: replace", text, re.M)
        asked = is_left is not None
        assert asked == samples[question.path].is_sample or question.when == "other edge unit"


def test_all_samples_left_quote_as_the_sample_shop_does(tmp_path: Path):
    run("new-shop", str(tmp_path / "mine.toml"))
    (tmp_path / "none.toml").write_text("")
    assert quote_lines(tmp_path, "mine.toml") == quote_lines(tmp_path, "none.toml")


def test_one_who_only_buys_has_a_shop_that_charges_nothing(tmp_path: Path):
    """As the shop file for makers does; each of its keys is hers to change."""
    assert run("new-shop", str(tmp_path / "mine.toml"), "--charges", "no", "--wage", "15").exit_code == 0
    maker = presets.presets_folder() / "shops" / "maker-inch.toml"
    (tmp_path / "maker.toml").write_text(maker.read_text(encoding="utf-8"), encoding="utf-8")
    assert quote_lines(tmp_path, "mine.toml") == quote_lines(tmp_path, "maker.toml")
    assert not any(line.startswith("Quilting, ") for line in quote_lines(tmp_path, "mine.toml"))


def test_prices_by_another_unit_keep_their_unit():
    """4 a square foot is 4 for each 144 square inches; the samples beside it stay what they are, by the inch."""
    interview = answered(shop_topic("mine.toml"), quilting_by="sq ft", edge_to_edge="4", hand="120 a quilt")
    rates = tomllib.loads(interview.text)["rates"]["quilting"]
    assert rates == {"edge-to-edge": {"price": 4, "per": "sq ft"}, "hand": {"price": 120, "per": "quilt"}}
    assert interview.resolved.tables.rates.quilting["dense"].price.per == "sq in"


def test_the_unit_of_quilting_may_be_a_word_for_it():
    interview = answered(shop_topic("mine.toml"), quilting_by="sqft", edge_to_edge="4")
    assert tomllib.loads(interview.text)["rates"]["quilting"] == {"edge-to-edge": {"price": 4, "per": "sq ft"}}


def test_an_edge_by_another_unit_has_no_samples():
    """A sample by the inch would be a twelfth of its worth by the foot, so that all of them are asked."""
    interview = Interview(shop_topic("mine.toml"))
    asked = []
    while question := interview.next:
        if question.path[:2] == ("rates", "binding"):
            asked.append(question.path[-1])
            with pytest.raises(MeasureError, match="this has no default"):
                interview.take(question, "")
        interview = interview.take(
            question, {"edge-by": "ft"}.get(question.name, "2" if question.kind == "price" else "")
        )
    assert asked == ["make", "front", "machine", "hand", "faced", "hem"]


def test_a_tax_of_her_own_brings_its_questions():
    interview = answered(shop_topic("mine.toml"), tax="20", taxed="all", tax_included="yes")
    written = tomllib.loads(interview.text)
    assert written["tax"] == [{"label": "Sales tax", "percent": "20 %"}]
    assert written["taxing"] == {"classes": ["labour", "material"], "included": True}
    assert tomllib.loads(answered(shop_topic("mine.toml"), tax="0").text)["tax"] == []
    assert "taxing" not in tomllib.loads(answered(shop_topic("mine.toml")).text)


def test_the_interview_of_a_shop_is_asked_on_a_terminal_too(tmp_path: Path):
    """At 40 columns, of which no line takes more."""
    terminal = Terminal(tmp_path, "new-shop", "mine.toml", "--charges", "no", columns=40)
    answers = {"Units": "", "Currency": "GBP", "Sign": "£", "Wage": "", "Cloth": "£12", "Wide cloth": "", "Tax": "20 %"}
    code, shown = hold(terminal, answers | {"Taxed": "", "Included": "yes"})
    assert code == 0
    assert max(len(line) for line in shown.split("\n") if not line.startswith("  finishcalc ")) <= 40
    assert "Still the sample's: rates.wage and fabrics.cotton-wide-108.price." in " ".join(shown.split())
    written = tomllib.loads((tmp_path / "mine.toml").read_text(encoding="utf-8"))
    assert written["money"] == {"currency": "GBP", "symbol": "£"}
    assert written["fabrics"] == {"cotton-44": {"price": 12}, "cotton-wide-108": {}}
    assert load(str(_project(tmp_path)), str(tmp_path / "mine.toml")).tables.taxing.included


def _project(folder: Path) -> Path:
    (folder / "top.toml").write_text("[top]\nwidth = 60\nlength = 80\n")
    return folder / "top.toml"


@pytest.mark.parametrize("units", ["in", "cm"])
def test_every_prompt_fits_forty_columns(units: str):
    for topic in (project_topic("quilt.toml"), shop_topic("shop.toml")):
        interview = Interview(topic)
        while question := interview.next:
            assert len(prompt_text(interview.asked(question))) <= 40
            given = {"units": units, "width": "queen", "quilting-by": "sq ft", "tax": "7"}
            interview = interview.take(question, given.get(question.name, ""))


def test_a_word_that_is_taken_for_one_of_ours_is_told(tmp_path: Path):
    terminal = Terminal(tmp_path, "new", "quilt.toml", "--as", "60x80", "--units", "in", "--use", "throw")
    terminal.answer("Backing", "minky")
    terminal.until("Batting")
    assert 'Taken as "plush-60".' in terminal.seen


def test_the_commands_are_listed():
    names = [command.name or command.callback.__name__ for command in app.registered_commands if command.callback]
    assert {"new", "new-shop"} <= set(names)
