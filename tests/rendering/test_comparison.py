"""A comparison as it is shown: page, picture, spreadsheet and document."""

import csv
import io
import json
import re
from pathlib import Path

import pytest
from wcwidth import wcswidth

from finishcalc.commandline.views import quote_document
from finishcalc.comparing.cloths import ClothComparison, compare_cloths
from finishcalc.comparing.design import Design
from finishcalc.rendering.pictures.bars import bars, bars_svg
from finishcalc.rendering.tables.csv_text import text_cell
from finishcalc.rendering.writing import notation_of
from tests.builders import CLOTH, PIECED, in_file, inches, run, sample, sized


def chart(path: Path, sizes: tuple[str, ...], cloths: tuple[str, ...] | None = None) -> ClothComparison:
    return compare_cloths(Design(str(path)), sizes, cloths)


# --- how it is shown -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [40, 50, 60, 80])
@pytest.mark.parametrize("path", [CLOTH, PIECED, sample("oval-cloth-cm.toml")])
@pytest.mark.parametrize("more", [(), ("--for", "studio"), ("--grid",), ("--grid", "--for", "studio")])
def test_no_line_is_wider_than_the_terminal(columns: int, path: Path, more: tuple[str, ...]):
    result = run("compare", str(path), "--as", "twin", "--as", "table 36x72 drop 10", *more, columns=columns)
    assert (result.exit_code, result.stderr) == (0, "")
    assert max(wcswidth(line) for line in result.stdout.split("\n")) <= columns


def test_hours_and_costs_are_the_studio_s():
    studio = run("compare", str(CLOTH), "--as", "twin", "--for", "studio").stdout
    customer = run("compare", str(CLOTH), "--as", "twin").stdout
    assert "Planned" in studio
    assert re.search(r"\d h \d\d", studio)
    assert "Planned" not in customer
    assert not re.search(r"\d h \d\d", customer)
    grid = run("compare", str(CLOTH), "--as", "twin", "--grid").stdout
    assert "$" not in grid
    assert "$" in run("compare", str(CLOTH), "--as", "twin", "--grid", "--for", "studio").stdout


@pytest.mark.parametrize("way", [(), ("--csv",), ("--markdown",), ("--json",)])
def test_totals_that_rest_on_samples_say_so(way: tuple[str, ...]):
    found = run("compare", str(CLOTH), "--as", "twin", *way).stdout
    assert "sample" in found


def test_the_page_says_each_total_and_difference_of_the_document():
    page = run("compare", str(CLOTH), "--as", "twin", "--as", "throw 40x50").stdout
    document = json.loads(run("compare", str(CLOTH), "--as", "twin", "--as", "throw 40x50", "--json").stdout)
    for row in document["rows"]:
        assert f" {row['total']} *" in page
    assert f"+{document['rows'][1]['differs']}" in page
    assert f" {document['rows'][2]['differs']}" in page
    assert document["rows"][2]["differs"].startswith("-")
    first = next(line for line in page.split("\n") if line.startswith("as it is"))
    assert first.endswith(f"{document['rows'][0]['total']} *"), "the design differs from itself by nothing"


@pytest.mark.parametrize("chart", [(), ("--grid",)])
def test_the_customer_s_document_holds_nothing_of_the_studio_s(chart: tuple[str, ...]):
    arguments = ("compare", str(CLOTH), "--as", "twin", *chart, "--json")
    studio = json.loads(run(*arguments).stdout)
    customer = run(*arguments, "--for", "customer").stdout
    assert (studio["for"], json.loads(customer)["for"]) == ("studio", "customer")
    assert [row["total"] for row in json.loads(customer)["rows"]] == [row["total"] for row in studio["rows"]]
    for word in ("cost", "minutes", "wage", "Tax: whether", '"samples"'):
        assert word not in customer, word
    assert json.loads(customer)["rows"][1]["rests_on_samples"] is True


def test_the_document_is_that_of_the_quote():
    document = json.loads(run("compare", str(PIECED), "--as", "twin", "--json").stdout)
    assert list(document) == ["schema_version", "for", "title", "units", "currency", "rows"]
    row = document["rows"][1]
    assert list(row) == [
        "as", "top", "finished", "refit", "backing", "batting", "binding", "planned_minutes", "fits", "total",
        "differs", "rests_on_samples", "samples", "cautions",
    ]  # fmt: skip
    whole = json.loads(quote_document(sized(PIECED, "twin").rows[1].result))
    assert row["total"] == whole["quote"]["total"]
    assert row["planned_minutes"] == whole["hours"]["total_minutes"]["planned"]
    chosen = whole["backing"]["chosen"]
    assert row["backing"] == {
        "amount": chosen["buy"]["amount"], "unit": chosen["buy"]["unit"], "seams": chosen["seams"],
        "total_cost": chosen["total_cost"],
    }  # fmt: skip
    assert row["refit"]["asked"] == {"width": 63, "length": 87}
    assert row["refit"]["taken"] == {
        "way": "from below", "across": 3, "down": 5, "last_border_wider": 4.75, "width": 63, "length": 87,
    }  # fmt: skip


def test_the_spreadsheet_is_one_by_rfc_4180():
    result = run("compare", str(CLOTH), "--as", "throw 40x50", "--csv")
    data = result.stdout_bytes.decode()
    assert data.count("\r\n") == 3
    assert "\n" not in data.replace("\r\n", "")
    rows = list(csv.DictReader(io.StringIO(data, newline="")))
    assert [row["as"] for row in rows] == ["as it is", "throw 40x50"]
    assert (rows[1]["width"], rows[1]["length"], rows[1]["units"]) == ("40", "50", "in")
    assert float(rows[1]["differs"]) < 0
    assert "planned_hours" not in rows[0]
    # 40 x 50 less the 3 % that a medium pantograph takes
    assert (rows[1]["finished_width"], rows[1]["finished_length"]) == ("38.8", "48.5")
    pieced = csv.DictReader(io.StringIO(run("compare", str(PIECED), "--as", "twin", "--csv").stdout))
    twin = list(pieced)[1]
    assert [twin[key] for key in ("way", "blocks_across", "blocks_down", "next_best_across", "next_best_down")] == [
        "from below", "3", "5", "4", "6",
    ]  # fmt: skip
    studio = run("compare", str(CLOTH), "--as", "throw 40x50", "--csv", "--for", "studio").stdout
    assert "planned_hours" in studio


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "\tx", "\rx", "\nx"])
def test_a_cell_that_would_be_run_is_defused(text: str):
    """OWASP, CSV Injection: = + - @ TAB CR LF."""
    assert text_cell(text) == f"'{text}"


def test_a_plain_cell_stays_as_it_is():
    assert text_cell("60x84") == "60x84"


def test_markdown_says_the_same_and_escapes_what_it_must(tmp_path: Path):
    path = in_file("title = 'A | B <b> *c*'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    found = run("compare", str(path), "--as", "twin", "--markdown").stdout
    assert r"## Sizes of A \| B \<b\> \*c\*" in found
    table = [line for line in found.split("\n") if line.startswith("|")]
    assert len(table) == 4
    assert len({line.count("|") for line in table}) == 1
    assert [re.sub("-+", "-", cell) for cell in table[1].strip("|").split("|")] == [":-"] * 5 + ["-:"] * 2


def test_one_way_of_writing_at_a_time():
    result = run("compare", str(CLOTH), "--as", "twin", "--json", "--csv")
    assert result.exit_code == 2
    assert run("compare", str(CLOTH)).exit_code == 2
    assert run("compare", str(CLOTH), "--as", "twin", "--cloth", "cotton-44").exit_code == 2


def test_problems_as_records():
    result = run("compare", str(CLOTH), "--as", "quen", "--json")
    assert (result.exit_code, result.stdout) == (1, "")
    assert json.loads(result.stderr)["problems"][0]["file"] == '--as "quen"'


def test_what_is_written_is_told_beside_a_document(tmp_path: Path):
    result = run("compare", str(CLOTH), "--as", "twin", "--json", "--write", str(tmp_path))
    assert json.loads(result.stdout)["rows"]
    assert result.stderr.startswith("wrote ")


def test_a_caution_names_the_sizes_it_is_for():
    page = " ".join(run("compare", str(PIECED), "--as", "crib", "--as", "twin").stdout.split())
    assert "crib: Safe sleep: no quilt" in page
    assert "as it is: Candles" in page
    assert "Tax on work" not in page
    own = " ".join(run("compare", str(PIECED), "--as", "crib", "--for", "studio").stdout.split())
    assert ". Tax on work" in own  # of every row, and so without a name


# --- the picture ---------------------------------------------------------------------------------------------


def test_the_bars_are_to_one_scale_with_their_lengths():
    comparison = sized(CLOTH, "queen", "round 70")
    found = bars(comparison, notation_of(comparison.rows[0].result))
    assert [bar.text.replace("\u00a0", " ") for bar in found] == ["60 1/2 in", "84 in", "84 in", "92 in", "70 in"]
    picture = bars_svg(found)
    widths = [float(width) for width in re.findall(r'<rect class="piece"[^>]* width="([\d.]+)"', picture)]
    for bar, width in zip(found, widths, strict=True):
        assert abs(width - 1000 * float(bar.length / inches(92))) < 0.01
    for bar in found:
        assert f">{bar.text}</text>".replace("\u00a0", " ") in picture
    assert "queen across 84 in" in picture


def test_the_drawn_bars_are_in_proportion():
    page = run("compare", str(CLOTH), "--as", "30x90", "--as", "60x84").stdout
    drawn = [line.count("━") for line in page.split("\n") if "━" in line]
    assert len(drawn) == 6
    assert abs(drawn[3] - 3 * drawn[2]) <= 2


def test_the_picture_is_well_formed_whatever_the_names(tmp_path: Path):
    from xml.etree import ElementTree

    path = in_file("title = 'A & <b>'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    assert run("compare", str(path), "--as", "bed 60x80 drop 12 foot 14 tuck 10", "--svg", str(tmp_path)).exit_code == 0
    ElementTree.fromstring((tmp_path / "sizes.svg").read_text())
