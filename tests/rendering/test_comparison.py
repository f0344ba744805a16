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
from finishcalc.rendering.pictures.outlines import size_outlines
from finishcalc.rendering.pictures.outlines_svg import outlines_svg
from finishcalc.rendering.tables.csv_text import text_cell
from finishcalc.rendering.writing import notation_of
from tests.builders import CLOTH, PIECED, in_file, run, sample, sized

pytestmark = pytest.mark.usefixtures("shared_work")


def chart(path: Path, sizes: tuple[str, ...], cloths: tuple[str, ...] | None = None) -> ClothComparison:
    return compare_cloths(Design.of_file(str(path)), sizes, cloths)


# --- how it is shown -----------------------------------------------------------------------------------------


@pytest.mark.no_cover
@pytest.mark.parametrize("columns", [40, 50, 60, 80])
@pytest.mark.parametrize("path", [CLOTH, PIECED, sample("oval-cloth-cm.toml")])
@pytest.mark.parametrize(
    "more",
    [
        (),
        ("--for", "studio"),
        ("--grid",),
        ("--grid", "--for", "studio"),
        ("--chart", "--cuts"),
        ("--chart", "--both-units"),
    ],
)
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


@pytest.mark.parametrize("view", [(), ("--grid",)])
def test_the_customer_s_document_holds_nothing_of_the_studio_s(view: tuple[str, ...]):
    arguments = ("compare", str(CLOTH), "--as", "twin", *view, "--json")
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


def outline_boxes(page: str) -> list[tuple[int, int]]:
    """The lower right corner of each box, as columns and rows from the shared corner, in the order of their letters."""
    lines = page.partition("from one corner:\n")[2].partition("\n\n")[0].split("\n")
    corners = {
        char: (column, row) for row, line in enumerate(lines) for column, char in enumerate(line) if char.isalpha()
    }
    return [corners[letter] for letter in sorted(corners)]


def test_the_outlines_are_to_one_scale_from_one_corner():
    """1000 units are the 92 in of the queen: 60 1/2 x 84 in are 657.61 x 913.04, a circle of 70 in has a radius of
    380.43 and lies as far from both sides."""
    comparison = sized(CLOTH, "queen", "round 70")
    picture = outlines_svg(size_outlines(comparison, notation_of(comparison.rows[0].result)), "sizes")
    assert 'x="0" y="0" width="657.61" height="913.04"/>' in picture
    assert 'x="0" y="0" width="913.04" height="1000"/>' in picture
    assert 'cx="380.435" cy="380.435" rx="380.435" ry="380.435"/>' in picture
    for label in ("as it is: 60 1/2 x 84 in", "queen: 84 x 92 in", "round 70: round, 70 in across"):
        assert f">{label}</text>" in picture


def test_each_label_has_a_line_from_its_own_outline():
    """The line of a rectangle starts on its right side, that of a circle on the circle."""
    comparison = sized(CLOTH, "queen", "round 70")
    picture = outlines_svg(size_outlines(comparison, notation_of(comparison.rows[0].result)), "sizes")
    starts = [(float(x), float(y)) for x, y in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)"', picture)]
    (x, y), own, queen = starts
    assert abs((x - 380.435) ** 2 + (y - 380.435) ** 2 - 380.435**2) < 5
    assert (own[0], queen[0]) == (657.61, 913.04)


def test_rounded_corners_are_drawn_round(tmp_path: Path):
    """A radius of 8 in on a longer side of 80 is 100 units."""
    path = in_file("[top]\nwidth = 60\nlength = 80\ncorner_radius = 8\n", tmp_path)
    comparison = sized(path)
    picture = outlines_svg(size_outlines(comparison, notation_of(comparison.rows[0].result)), "sizes")
    assert 'x="0" y="0" width="750" height="1000" rx="100"/>' in picture


def test_sizes_that_are_alike_share_an_outline():
    page = run("compare", str(CLOTH), "--as", "60 1/2 x 84", "--as", "queen").stdout
    assert "A  as it is, 60 1/2 x 84: 60 1/2 x 84 in" in page
    assert len(outline_boxes(page)) == 2


@pytest.mark.parametrize("columns", [40, 80])
def test_the_drawn_boxes_are_in_proportion(columns: int):
    """30 and 60 in, and 84 and 90 in down, to half a cell."""
    page = run("compare", str(CLOTH), "--as", "30x90", "--as", "60x84", columns=columns).stdout
    (wide, low), _, (narrow, bottom) = outline_boxes(page)
    assert abs(wide - 2 * narrow) <= 1
    assert abs(low - bottom * 84 / 90) <= 0.5


def test_what_is_drawn_as_a_box_says_its_shape():
    page = run("compare", str(CLOTH), "--as", "round 70", "--as", "oval 50x80").stdout
    assert "round 70: round, 70 in across, drawn as a box" in page
    assert "oval 50x80: oval, 50 x 80 in, drawn as a box" in page
    assert "as it is: 60 1/2 x 84 in\n" in page


@pytest.mark.no_cover
def test_more_sizes_than_letters_are_not_drawn():
    """There are 52 letters; the table has every size all the same."""
    sizes = [word for n in range(52) for word in ("--as", f"{30 + n}x60")]
    page = run("compare", str(CLOTH), *sizes).stdout
    assert "from one corner" not in page
    assert "81x60" in page


def test_the_picture_is_well_formed_whatever_the_names(tmp_path: Path):
    from xml.etree import ElementTree

    path = in_file("title = 'A & <b>'\n[top]\nwidth = 60\nlength = 80\n", tmp_path)
    assert run("compare", str(path), "--as", "bed 60x80 drop 12 foot 14 tuck 10", "--svg", str(tmp_path)).exit_code == 0
    ElementTree.fromstring((tmp_path / "sizes.svg").read_text())
