"""The tally: every figure is the quote's, every project has its row, and totals are those of the printed figures."""

import csv
import io
import json
import os
import pty
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typer.testing import Result

import finishcalc
from finishcalc.intake.source import Source
from finishcalc.measures.rounding import printed
from finishcalc.rendering.documents.tally import tally_record
from finishcalc.rendering.pages.tally import tally_page
from finishcalc.rendering.tables.csv_text import text_cell
from finishcalc.rendering.tables.tally import CSV_COLUMNS, list_notation, tally_csv, tally_row
from finishcalc.rendering.writers.markdown import page_markdown
from finishcalc.tallying import Tallier
from finishcalc.wording.plain import plain
from tests.builders import BARE, CM_TOP, PROJECTS, TOP, outside, run
from tests.strategies import examples

pytestmark = pytest.mark.slow

MONEY = r"-?[\d,]+\.\d\d"


def put(folder: Path, **texts: str) -> list[str]:
    """Project files, by their names without the ending."""
    folder.mkdir(exist_ok=True)
    for name, text in texts.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return [str(folder / f"{name}.toml") for name in texts]


def small(number: int, **keys: str) -> str:
    """A small project; the larger its number, the longer the top and so its price."""
    lines = "".join(f"{key} = {json.dumps(value)}\n" for key, value in ({"title": f"Quilt {number}"} | keys).items())
    return lines + BARE.replace("length = 80", f"length = {40 + number}")


def rows_of(result: Result) -> list[dict[str, str]]:
    """The rows of a spreadsheet, as the standard library reads them."""
    return list(csv.DictReader(io.StringIO(result.stdout, newline="")))


def tallied(*arguments: str, code: int = 0) -> Result:
    result = run("tally", *arguments)
    assert result.exit_code == code, result.output
    return result


def document(path: str) -> dict[str, Any]:
    return json.loads(run("quote", path, "--json").stdout)


# --- every figure is the quote's ---------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_line_of_json_is_a_part_of_the_quote_s_document(path: Path):
    (line,) = tallied(str(path), "--json").stdout.splitlines()
    whole = document(str(path))

    def is_part(part: Any, of: Any) -> bool:
        if isinstance(part, dict) and isinstance(of, dict):
            return all(name in of and is_part(value, of[name]) for name, value in part.items())
        return bool(part == of)

    record = json.loads(line)
    assert record.pop("file") == str(path)
    assert isinstance(record.pop("rests_on_samples"), bool)
    assert is_part(record, whole)
    assert not is_part(record | {"units": "yd"}, whole)


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_line_of_the_spreadsheet_has_the_figures_of_the_quote_s_document(path: Path):
    (row,) = rows_of(tallied(str(path), "--csv"))
    quote = document(str(path))
    hours = quote["hours"]["total_minutes"]
    bought = quote["backing"]["chosen"]["buy"] if quote["backing"] and quote["backing"]["chosen"] else None
    binding = quote["binding"]["buy"] if quote["binding"] else None
    assert tuple(row) == CSV_COLUMNS
    assert {name: row[name] for name in ("title", "number", "customer", "date", "due")} == {
        "title": quote["title"],
        "number": quote["job"]["number"],
        "customer": quote["customer"]["name"],
        "date": quote["job"]["date"] or "",
        "due": quote["job"]["due"] or "",
    }
    assert [float(row[name]) for name in ("width", "length", "area")] == [
        quote["top"][name] for name in ("width", "length", "area")
    ]
    assert (row["units"], row["shape"]) == (quote["units"], quote["top"]["shape"])
    assert (row["backing"], row["backing_unit"]) == ((str(bought["amount"]), bought["unit"]) if bought else ("", ""))
    assert (row["binding"], row["binding_unit"]) == ((str(binding["amount"]), binding["unit"]) if binding else ("", ""))
    for name in ("low", "planned", "high"):
        assert Fraction(row[f"hours_{name}"]) == printed(Fraction(str(hours[name])) / 60, "hour")
    assert {name: row[name] for name in ("currency", "cost", "price", "net", "earned_an_hour", "total")} == {
        "currency": quote["quote"]["currency"],
        "cost": quote["studio"]["break_even"],
        "price": quote["quote"]["subtotal"],
        "net": quote["studio"]["net"],
        "earned_an_hour": quote["studio"]["earned_an_attended_hour"],
        "total": quote["quote"]["total"],
    }
    assert float(row["attended_hours"]) == quote["studio"]["attended_hours"]


def test_what_is_earned_an_hour_follows_from_the_row(tmp_path: Path):
    """(net - cost) / attended hours, to the cent that hours of two decimals leave unsure."""
    (row,) = rows_of(tallied(str(PROJECTS[0]), "--csv"))
    net, cost, hours = (Fraction(row[name]) for name in ("net", "cost", "attended_hours"))
    assert abs((net - cost) / hours - Fraction(row["earned_an_hour"])) < Fraction(1, 10)


def test_a_project_that_nobody_has_to_stand_by_has_no_earnings_an_hour():
    idle = PLAIN._replace(earned=PLAIN.earned._replace(minutes=Fraction(0)))
    (cells,) = csv.reader(io.StringIO(tally_csv(idle, NOTATION), newline=""))
    assert dict(zip(CSV_COLUMNS, cells, strict=True))["earned_an_hour"] == ""
    assert tally_row(idle, NOTATION).hourly is None
    assert tally_row(idle, NOTATION).sums.hourly is None
    assert tally_record(idle, NOTATION)["studio"]["earned_an_attended_hour"] is None


# --- order, folders, what is skipped -----------------------------------------------------------------------------


def test_rows_come_in_the_order_of_the_files(tmp_path: Path):
    files = put(tmp_path, b=small(2), a=small(1), c=small(3))
    for how in ([], ["--jobs", "1"]):
        assert [row["title"] for row in rows_of(tallied(*files, "--csv", *how))] == ["Quilt 2", "Quilt 1", "Quilt 3"]
    assert [row["title"] for row in rows_of(tallied(str(tmp_path), "--csv"))] == ["Quilt 1", "Quilt 2", "Quilt 3"]


def test_what_a_folder_holds_besides_is_named_and_a_file_counts_once(tmp_path: Path):
    files = put(tmp_path, a=small(1), studio="[rates]\nseam = 3\n")
    result = tallied(str(tmp_path), files[0], "--csv")
    assert len(rows_of(result)) == 1
    assert result.stderr == (
        f"{tmp_path}/studio.toml: skipped, because it is a shop file\n{files[0]}: is given twice, and counted once\n"
    )
    told = json.loads(tallied(str(tmp_path), files[0], "--json").stderr)
    assert told == {
        "skipped": [
            {"file": f"{tmp_path}/studio.toml", "reason": "a shop file"},
            {"file": files[0], "reason": "given twice"},
        ],
        "problems": [],
    }


def test_standard_input_is_one_of_the_files(tmp_path: Path):
    files = put(tmp_path, a=small(1), b=small(2), c=small(3), d=small(4), e=small(5))
    result = run("tally", *files, "-", "--jobs", "2", "--csv", stdin=small(6))
    assert [row["title"] for row in rows_of(result)][-2:] == ["Quilt 5", "Quilt 6"]


def test_the_shop_that_is_named_prices_every_project(tmp_path: Path):
    files = put(tmp_path / "jobs", a=small(1), b=small(2))
    shop = tmp_path / "shop.toml"
    shop.write_text('[money]\ncurrency = "GBP"\n', encoding="utf-8")
    assert {row["currency"] for row in rows_of(tallied(*files, "--csv", "--shop", str(shop)))} == {"GBP"}


# --- units -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("order", "how", "widths"),
    [("ab", [], ["60", "59.843"]), ("ba", [], ["152", "152.4"]), ("ab", ["--units", "cm"], ["152.4", "152"])],
)
def test_the_list_is_in_the_units_of_its_first_project_or_those_asked(
    tmp_path: Path, order: str, how: list[str], widths: list[str]
):
    """60 in = 152.4 cm; 152 cm / 2.54 = 59.843 in."""
    files = dict(zip("ab", put(tmp_path, a=TOP, b=CM_TOP), strict=True))
    rows = rows_of(tallied(*(files[name] for name in order), "--csv", *how))
    assert [row["width"] for row in rows] == widths
    assert len({row["units"] for row in rows}) == 1


def test_the_first_that_can_be_worked_out_says_the_units(tmp_path: Path):
    files = put(tmp_path, a="[top]\nwidth = 'wide'\n", b=CM_TOP, c=TOP)
    assert [row["units"] for row in rows_of(tallied(*files, "--csv", code=1))] == ["cm", "cm"]


@pytest.mark.parametrize("arguments", [["--units", "yd"], ["--jobs", "0"], ["--csv", "--json"]])
def test_what_cannot_be_asked_is_a_usage_error(arguments: list[str]):
    assert run("tally", "a", *arguments).exit_code == 2


@pytest.mark.parametrize("number", ["two", "0", "-1", "1.5", "٣", "9" * 30])
def test_a_number_of_jobs_that_is_none_is_answered_in_plain_words(number: str):
    result = run("tally", "a", "--jobs", number)
    assert result.exit_code == 2
    assert f'"{number}" is not a number of projects: use a whole number from 1 on' in result.output


# --- the page ----------------------------------------------------------------------------------------------------


@pytest.fixture
def season(tmp_path: Path) -> list[str]:
    """Three projects in dollars and two in euros, one of them with a long name."""
    euro = 'units = "cm"\n' + small(0, title="Decke in Grau").replace("width = 60", "width = 152")
    long = small(2, title="A supper cloth for the long table under the apple trees in the orchard")
    return put(tmp_path, a=small(1), b=long, c=small(3), d=euro, e=euro)


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_the_page_fits_the_terminal_and_names_every_project(season: list[str], columns: int):
    page = run("tally", *season, columns=columns).stdout
    assert max(map(len, page.splitlines())) <= columns
    words = " ".join(page.split())
    assert "Tally of 5 projects" in words
    for title in ("Quilt 1", "Quilt 3", "Decke in" if columns == 60 else "Decke in Grau"):
        assert title in words
    assert ("Earned an hour: " in page) == (columns == 40)  # on the narrowest, a list of each row


def test_the_totals_are_those_of_the_printed_figures_each_currency_for_itself(season: list[str]):
    page, rows = tallied(*season).stdout, rows_of(tallied(*season, "--csv"))
    for code, number in (("USD", 3), ("EUR", 2)):
        own = [row for row in rows if row["currency"] == code]
        (line,) = re.findall(rf"^{number} projects .*{code}$", page, re.M)
        hours, cost, hourly, total = re.findall(r"\d[\d,.]*\d", line.removeprefix(f"{number} projects"))
        sums = {name: sum(Fraction(row[name]) for row in own) for name in ("hours_planned", "cost", "total")}
        assert [Fraction(shown.replace(",", "")) for shown in (hours, cost, total)] == list(sums.values())
        net, attended = (sum(Fraction(row[name]) for row in own) for name in ("net", "attended_hours"))
        assert abs((net - sums["cost"]) / attended - Fraction(hourly)) <= Fraction(1, 200)


def test_one_currency_is_named_once_and_one_project_needs_no_total(season: list[str]):
    assert "Total, USD" in tallied(*season[:3]).stdout
    assert not re.search(r"^1 project ", tallied(season[0]).stdout, re.M)


def test_markdown_has_a_row_a_project_with_all_columns_and_the_totals(season: list[str]):
    head, rule, *rows = [line for line in tallied(*season, "--markdown").stdout.splitlines() if line.startswith("|")]
    names = [cell.strip() for cell in head.strip("|").split("|")]
    assert names[:7] == ["Project", "Number", "Customer", "Date", "Due", "Size, in", "Area, sq in"]
    assert names[7:] == [
        "Backing", "Batting", "Binding", "Least hours", "Hours", "Most hours", "Cost", "Price", "Earned an hour",
        "Total",
    ]  # fmt: skip
    assert len(rows) == 5 + 2
    assert all(line.count("|") == head.count("|") for line in (rule, *rows))


def test_html_goes_to_a_file_and_never_over_a_project(season: list[str], tmp_path: Path):
    out = tmp_path / "season.html"
    assert tallied(*season, "--html", str(out)).stdout == f"wrote {out}\n"
    assert "Decke in Grau" in out.read_text(encoding="utf-8")
    before = Path(season[1]).read_bytes()
    assert run("tally", *season, "--html", season[1], "--force").exit_code == 1
    assert Path(season[1]).read_bytes() == before


@pytest.mark.parametrize(("text", "paper"), [(TOP, "letter"), (CM_TOP, "A4")])
def test_the_season_is_printed_on_the_paper_of_its_first_studio(text: str, paper: str):
    project = Tallier().project(Source("a.toml", text))
    page = tally_page([tally_row(project, NOTATION)], [], NOTATION)
    assert (page.format.paper, page.format.landscape) == (paper, True)


# --- bad files among good ----------------------------------------------------------------------------------------

BAD = "[top]\nwidth = 60\nlength = 80\nlenght = 3\n"


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_bad_file_is_told_in_the_words_of_a_quote_and_the_rest_is_done(tmp_path: Path, jobs: str):
    files = put(tmp_path, **({f"q{number}": small(number) for number in range(8)} | {"q3": BAD, "z": "[to"}))
    result = tallied(*files, "--csv", "--jobs", jobs, code=1)
    assert [row["title"] for row in rows_of(result)] == [f"Quilt {number}" for number in range(8) if number != 3]
    assert result.stderr == run("quote", files[3]).stderr + run("quote", files[8]).stderr
    page = tallied(*files, "--jobs", jobs, code=1).stdout
    assert "Tally of 7 projects" in page
    assert "q3.toml" in "".join(page.split())


def test_problems_are_records_where_rows_are(tmp_path: Path):
    good, bad = put(tmp_path, a=small(1), b=BAD)
    result = tallied(good, bad, "--json", code=1)
    assert [json.loads(line)["title"] for line in result.stdout.splitlines()] == ["Quilt 1"]
    assert json.loads(result.stderr) == json.loads(run("quote", bad, "--json").stderr)


def test_where_nothing_can_be_worked_out_nothing_is_printed(tmp_path: Path):
    files = put(tmp_path, a=BAD, b="")
    for form in ([], ["--csv"], ["--json"], ["--markdown"]):
        assert tallied(*files, *form, code=1).stdout == ""


def test_a_bad_shop_file_fails_every_project_that_names_it_and_is_told_once(tmp_path: Path):
    files = put(tmp_path, a=small(1, shop="studio.toml"), b=small(2, shop="studio.toml"), c=small(3))
    (tmp_path / "studio.toml").write_text("[rates]\nseem = 3\n", encoding="utf-8")
    for jobs in ("1", "2"):
        result = tallied(*files, *put(tmp_path, d=small(4), e=small(5), f=small(6)), "--csv", "--jobs", jobs, code=1)
        assert [row["title"] for row in rows_of(result)] == [f"Quilt {number}" for number in range(3, 7)]
        assert result.stderr.count("seem") == 2  # its path, and its line


def test_a_process_that_dies_is_told_and_costs_one_project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    files = put(tmp_path, **{f"q{number}": small(number) for number in range(12)})
    work = Tallier.project

    def dies(tallier: Tallier, file: str | Source) -> object:
        if "q7" in str(file):
            os.kill(os.getpid(), signal.SIGKILL)
        return work(tallier, file)

    monkeypatch.setattr(Tallier, "project", dies)
    result = tallied(*files, "--csv", "--jobs", "2", code=1)
    assert [row["title"] for row in rows_of(result)] == [f"Quilt {number}" for number in range(12) if number != 7]
    assert result.stderr.startswith(f"{files[7]}: the process that worked it out has died\n")
    again = tallied(*files, "--json", "--jobs", "2", code=1)
    assert [each["code"] for each in json.loads(again.stderr)["problems"]] == ["worker-died"]


# --- many --------------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def two_hundred(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of 200 small projects with their shop file; a few are bad."""
    folder = tmp_path_factory.mktemp("season")
    files = {f"q{number:03}": small(number, shop="studio.toml") for number in range(200)}
    put(folder, **(files | {"q050": BAD, "q150": "title = 3\n" + TOP}))
    (folder / "studio.toml").write_text("[rates]\nminimum = 0\n", encoding="utf-8")
    return folder


@pytest.mark.parametrize("form", [[], ["--csv"], ["--json"], ["--markdown"]], ids=str)
def test_several_processes_write_what_one_does_byte_for_byte(two_hundred: Path, form: list[str]):
    one, several = (tallied(str(two_hundred), *form, "--jobs", jobs, code=1) for jobs in ("1", "3"))
    assert several.stdout_bytes == one.stdout_bytes
    assert several.stderr_bytes == one.stderr_bytes
    if form == ["--csv"]:
        titles = [f"Quilt {number}" for number in range(200) if number not in (50, 150)]
        assert [row["title"] for row in rows_of(one)] == titles


def test_the_command_alone_does_the_same(two_hundred: Path):
    done = outside("tally", str(two_hundred), "--csv", "--jobs", "2")
    assert done.returncode == 1
    assert done.stdout == tallied(str(two_hundred), "--csv", "--jobs", "1", code=1).stdout_bytes


# --- hostile names -----------------------------------------------------------------------------------------------

HOSTILE = st.text(
    st.sampled_from("=+-@＝＋－＠\t\r\n\",;|\\`*_<>[](){}#~&^$'!1aé\u202e\u200b\u00a0\u3000\U0001f600\x1b\x00 "),
    min_size=1,
)


@given(title=HOSTILE)
@examples(100)
def test_any_title_is_one_cell_that_is_no_formula(title: str):
    """As if it had come through a file: a title is one line, whatever its signs."""
    project = PLAIN._replace(result=PLAIN.result._replace(resolved=Titled(title)))
    text = tally_csv(project, NOTATION)
    (cells,) = csv.reader(io.StringIO(text, newline=""), strict=True)
    assert len(cells) == len(CSV_COLUMNS)
    assert cells[1] == plain(text_cell(title))
    assert not cells[1].lstrip(" \u00a0\u3000").startswith(tuple("=+-@＝＋－＠\t\r\n"))
    assert text.endswith("\r\n")
    assert "\n" not in text[:-2]


@given(title=HOSTILE)
@examples(60)
def test_any_title_is_one_cell_of_markdown(title: str):
    row = tally_row(PLAIN._replace(result=PLAIN.result._replace(resolved=Titled(title))), NOTATION)
    lines = [line for line in page_markdown(tally_page([row], [], NOTATION, whole=True)).splitlines() if "|" in line]
    head, _, *rows = [line for line in lines if line.startswith("|")]
    assert len(rows) == 1
    assert len(re.findall(r"(?<!\\)(?:\\\\)*\|", rows[0])) == head.count("|")


class Titled:
    """A resolved project with another title."""

    def __init__(self, title: str) -> None:
        self.title = title

    def __getattr__(self, name: str) -> Any:
        value = getattr(PLAIN.result.resolved, name)
        return value._replace(title=self.title) if name == "project" else value


PLAIN = Tallier().project(Source("plain.toml", BARE))
NOTATION = list_notation(PLAIN.result, None)


@pytest.mark.parametrize("sign", list("=+-@＝＋－＠"))
def test_a_title_that_a_spreadsheet_would_run_is_defused_and_a_loss_stays_a_number(tmp_path: Path, sign: str):
    shop = "[rates]\nminimum = 0\nquilting = { edge-to-edge = 0, dense = 0, custom = 0, hand = 0, tied = 0 }\n"
    (file,) = put(tmp_path, a=small(1, title=f"{sign}1+cmd|' /C calc'!A0", shop="free.toml"))
    (tmp_path / "free.toml").write_text(shop, encoding="utf-8")
    (row,) = rows_of(tallied(file, "--csv"))
    assert row["title"] == f"'{sign}1+cmd|' /C calc'!A0"
    assert re.fullmatch(r"-\d+\.\d\d", row["earned_an_hour"])


# --- a terminal --------------------------------------------------------------------------------------------------

SLOW = """
import sys, time
from finishcalc.rendering.writers.markdown import page_markdown
from finishcalc.tallying import Tallier
work = Tallier.project
def slowly(tallier, file):
    time.sleep(0.1)
    return work(tallier, file)
Tallier.project = slowly
sys.argv[0] = "finishcalc"
from finishcalc.__main__ import main
main()
"""
HOME = {"PYTHONPATH": str(Path(finishcalc.__file__).parent.parent), "COLUMNS": "80"}


def start(*arguments: str, stderr: int = subprocess.PIPE, **env: str) -> subprocess.Popen[bytes]:
    """The command in a process of its own, a tenth of a second a project."""
    return subprocess.Popen(
        [sys.executable, "-c", SLOW, "tally", *arguments],
        env={**os.environ, **HOME, **env},
        stdout=subprocess.PIPE,
        stderr=stderr,
    )


def read_all(terminal: int) -> bytes:
    """All that was written to a terminal whose last writer has gone."""
    read = b""
    while True:
        try:
            more = os.read(terminal, 65536)
        except OSError:  # Linux tells the end of a terminal so
            return read
        if not more:
            return read
        read += more


@pytest.mark.parametrize(
    ("env", "has_bar"),
    [({"TERM": "xterm"}, True), ({"TERM": "xterm", "NO_COLOR": "1"}, True), ({"TERM": "dumb"}, False)],
)
@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_long_run_has_a_bar_on_a_terminal(tmp_path: Path, env: dict[str, str], has_bar: bool, jobs: str):
    files = put(tmp_path, **{f"q{number:02}": small(number) for number in range(30)})
    ours, theirs = pty.openpty()
    process = start(*files, "--csv", "--jobs", jobs, stderr=theirs, **env)
    os.close(theirs)
    shown = read_all(ours).decode()
    out, _ = process.communicate(timeout=60)
    assert (process.returncode, out.count(b"\r\n")) == (0, 31)
    assert (re.search(r"[23]\d of 30\b.* projects", shown) is not None) == has_bar
    assert (shown == "") == (not has_bar)
    if "NO_COLOR" in env:
        assert not re.search(r"\x1b\[[\d;]*[1-9][\d;]*m", shown)
    if has_bar:
        assert shown.rindex("\x1b[?25h") > shown.rindex("\x1b[?25l")  # the cursor is back
        assert shown.rindex("\x1b[2K") > shown.rindex("projects")  # and the line is clear


def test_a_short_run_has_no_bar_and_no_run_has_one_without_a_terminal(tmp_path: Path):
    files = put(tmp_path, a=small(1), b=small(2))
    ours, theirs = pty.openpty()
    process = start(*files, stderr=theirs, TERM="xterm")
    os.close(theirs)
    assert read_all(ours) == b""
    assert process.wait(timeout=60) == 0
    assert process.stdout
    process.stdout.close()
    files = put(tmp_path, **{f"q{number:02}": small(number) for number in range(15)})
    process = start(*files, "--jobs", "1", TERM="xterm")
    assert process.communicate(timeout=60)[1] == b""


# --- stops -------------------------------------------------------------------------------------------------------


def children(process: int) -> list[int]:
    return [int(each) for each in Path(f"/proc/{process}/task/{process}/children").read_text().split()]


def gone(processes: list[int]) -> bool:
    return not any(Path(f"/proc/{each}").exists() for each in processes)


def waited(tells: "Iterator[bool]") -> bool:
    until = time.monotonic() + 20
    return any(tell or time.monotonic() > until for tell in tells) and time.monotonic() < until


def polled(function: Any) -> Iterator[bool]:
    while True:
        yield bool(function())
        time.sleep(0.02)


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_a_stop_ends_the_workers_too_with_one_line(tmp_path: Path, number: signal.Signals):
    files = put(tmp_path, **{f"q{each:03}": small(each) for each in range(300)})
    process = start(*files, "--jobs", "2")
    assert waited(polled(lambda: len(children(process.pid)) == 2))
    workers = children(process.pid)
    time.sleep(0.3)
    process.send_signal(number)
    began = time.monotonic()
    out, said = process.communicate(timeout=60)
    assert time.monotonic() - began < 5
    assert out == b""
    if number == signal.SIGKILL:
        assert (process.returncode, said) == (-9, b"")
    else:
        assert (process.returncode, said) == (128 + number, b"finishcalc: stopped; nothing was written\n")
    assert waited(polled(lambda: gone(workers)))


def test_ctrl_c_at_a_terminal_which_all_processes_get_is_one_line(tmp_path: Path):
    files = put(tmp_path, **{f"q{each:03}": small(each) for each in range(300)})
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-c", SLOW, "tally", *files, "--jobs", "2"],
        env={**os.environ, **HOME, "TERM": "xterm"},
        stdout=subprocess.PIPE,
        stderr=theirs,
        start_new_session=True,
    )
    os.close(theirs)
    assert waited(polled(lambda: len(children(process.pid)) == 2))
    shown = b""
    while b"projects" not in shown:
        shown += os.read(ours, 65536)
    os.killpg(process.pid, signal.SIGINT)
    shown += read_all(ours)
    assert process.communicate(timeout=60)[0] == b""
    assert process.returncode == 130
    assert shown.endswith(b"\r\x1b[2K\x1b[?25hfinishcalc: stopped; nothing was written\r\n")
    assert shown.count(b"stopped") == 1


def test_a_reader_that_goes_ends_it_quietly(tmp_path: Path):
    files = put(tmp_path, **{f"q{each:03}": small(each) for each in range(100)})
    process = start(*files, "--jobs", "2", "--csv")
    assert process.stdout
    assert process.stderr
    assert process.stdout.readline().startswith(b"file,")
    process.stdout.close()
    assert process.wait(timeout=30) == 1
    assert process.stderr.read() == b""
    process.stderr.close()


# --- the start ---------------------------------------------------------------------------------------------------


def test_other_commands_and_help_load_nothing_of_it():
    code = (
        "import sys; from finishcalc.commandline.app import app\n"
        "try: app(['quote', sys.argv[1]])\nexcept SystemExit: pass\n"
        "print([name for name in sys.modules if name in ('rich', 'multiprocessing', 'finishcalc.tallying',"
        " 'finishcalc.commandline.season')], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(PROJECTS[0])], env={**os.environ, **HOME}, capture_output=True, check=True
    )
    assert done.stderr == b"[]\n"
