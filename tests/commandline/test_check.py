"""The command that looks a file over: its page in any width, its document, and its exit codes."""

import json
import re
from pathlib import Path

import pytest
from wcwidth import wcswidth

from finishcalc.commandline.views import check_view
from finishcalc.reviewing.review import Review, review_file
from tests.builders import BARE as BARE_TOP
from tests.builders import CLOTH, MISTAKES, PRESETS, PROJECTS, run
from tests.whole.test_mistakes import FOLDER

pytestmark = pytest.mark.slow

SECTIONS = ["Cautions", "Sample rates", "Defaults", "Still to measure", "Yours?"]
BARE = BARE_TOP + "[charges]\nextras = []\n"


def written(folder: Path, text: str, name: str = "top.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def review() -> Review:
    return review_file(str(CLOTH))


@pytest.fixture
def looked_over(review: Review, monkeypatch: pytest.MonkeyPatch) -> None:
    """For tests of what the command shows of a sample, which is looked over for the first of them."""

    def known(name: str, shop: str | None) -> Review:
        assert (name, shop) == (str(CLOTH), None)
        return review

    monkeypatch.setattr("finishcalc.reviewing.review.review_file", known)


def test_a_good_file_exits_0_with_its_sections_in_order():
    result = run("check", str(CLOTH))
    assert (result.exit_code, result.stderr) == (0, "")
    assert [line for line in result.stdout.splitlines() if line in SECTIONS] == SECTIONS


def test_a_quote_that_is_provisional_is_told_so_first(tmp_path: Path):
    """A backing of 68 x 88 in is not cut from 1 yd that the customer brings."""
    text = BARE.replace('fabric = "none"', 'supplied_by = "customer"\nhave = "1 yd"', 1)
    page = " ".join(run("check", str(written(tmp_path, text))).stdout.split())
    assert "No problems" not in page
    assert re.search(r"This cannot be made as specified, so the total, \$[\d.]+, is provisional", page)


def test_a_rate_is_told_with_what_a_tenth_makes_of_the_total(tmp_path: Path):
    """60 x 80 = 4,800 sq in: at 0.03 it is 144.00, at 0.033 158.40, at 0.027 129.60."""
    page = " ".join(run("check", str(written(tmp_path, BARE))).stdout.split())
    assert (
        "rates.quilting.edge-to-edge.price 0.03: 10 % more, 0.033, makes the total 158.40, 14.40 more; "
        "10 % less, 0.027, makes the total 129.60, 14.40 less"
    ) in page
    assert re.search(r"a tenth more or less leaves this total as it is: [^:]*rates\.wage", page)


def test_problems_are_told_with_their_codes_for_all_files_and_exit_1(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The mistakes of two files, and what a good one between them rests on."""
    monkeypatch.chdir(tmp_path)
    first = written(tmp_path, "[top]\nwidth = 60\nlegnth = 80\n", "first.toml")
    good, last = written(tmp_path, BARE), written(tmp_path, "[top]\nwidth = true\nlength = 80\n", "last.toml")
    result = run("check", first.name, good.name, last.name)
    page = " ".join(result.stdout.split())
    assert (result.exit_code, result.stderr) == (1, "")
    assert "unknown-key: first.toml:3: top.legnth: unknown key; did you mean" in page
    assert "not-a-number: last.toml:2: top.width: true is not a number" in page
    assert page.count("Sample rates") == 1


def test_a_file_that_is_not_there_is_a_problem_of_that_file_alone(tmp_path: Path):
    result = run("check", str(tmp_path / "none.toml"), str(written(tmp_path, BARE)), "--json")
    first, second = json.loads(result.stdout)["files"]
    assert result.exit_code == 1
    assert [problem["code"] for problem in first["problems"]] == ["no-such-file"]
    assert (second["problems"], second["total"]) == ([], "144.00")


def test_the_document_says_what_the_page_says(tmp_path: Path):
    (record,) = json.loads(run("check", str(written(tmp_path, BARE)), "--json").stdout)["files"]
    first = record["sample_rates"][0]
    assert first == {
        "key": "rates.quilting.edge-to-edge.price",
        "value": "0.03",
        "more": {"value": "0.033", "total": "158.40", "adds": "14.40"},
        "less": {"value": "0.027", "total": "129.60", "adds": "-14.40"},
    }
    assert {"rates.wage"} <= {each["key"] for each in record["sample_rates"]}
    assert {"top.measured.diagonals"} <= {each["key"] for each in record["to_measure"]}
    assert (record["shop"], record["yours"]) == (None, [])


def test_figures_of_the_shop_file_that_are_the_sample_s_are_asked_about(tmp_path: Path):
    shop = written(tmp_path, "[rates]\nwage = 30\nminimum = 76\n", "mine.toml")
    page = run("check", str(written(tmp_path, BARE)), "--shop", str(shop)).stdout
    assert "line 2: rates.wage 30" in page
    assert "rates.minimum 76" not in page
    alone = run("check", str(shop))
    assert (alone.exit_code, "line 2: rates.wage 30" in alone.stdout) == (0, True)


@pytest.mark.parametrize("width", [40, 60, 80])
def test_no_line_is_wider_than_the_terminal(width: int, review: Review):
    bad = review_file(str(FOLDER / "not-a-date.toml"))
    for line in str(check_view([review, bad], "text", width)).splitlines():
        assert wcswidth(line) <= width or " " not in line.strip(), line


@pytest.mark.usefixtures("looked_over")
def test_markdown_has_the_same_sections():
    text = run("check", str(CLOTH), "--markdown").stdout
    assert all(f"### {heading}" in text for heading in SECTIONS)


@pytest.mark.parametrize("mistake", MISTAKES[::9], ids=lambda path: path.stem)
def test_every_mistake_is_told_with_its_code(mistake: Path):
    review = review_file(str(mistake))
    text = " ".join(str(check_view([review], "text", 80)).split())
    assert review.problems
    assert all(problem.code in text for problem in review.problems)


@pytest.mark.parametrize("path", sorted((PRESETS / "shops").glob("*.toml")), ids=lambda path: path.stem)
def test_every_sample_shop_is_checked_by_itself(path: Path):
    review = review_file(str(path))
    assert (review.problems, review.result, review.shop) == ((), None, str(path))


def test_standard_input_is_a_file_like_any(monkeypatch: pytest.MonkeyPatch):
    assert "Check: -" in run("check", "-", stdin=BARE).stdout


def test_there_are_samples_to_check():
    assert len(PROJECTS) >= 8
