"""The size chart of a pattern: a column a size, the length to buy of each cloth, and the same in every format."""

import csv
import io
import json
import re
from fractions import Fraction
from itertools import chain, pairwise
from pathlib import Path

import pytest

from finishcalc.comparing.cuts import cuts_of, is_long
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST
from tests.builders import CLOTH, EACH_PROJECT, GOLDEN, PIECED, PROJECTS, in_file, run, sample, sized

pytestmark = pytest.mark.usefixtures("shared_work")

DESIGN = """title = "Red frame"
[top.blocks]
size = 12
across = 2
down = 2
[top.piecing]
strips = "crosswise"
join = "straight"
[[top.borders]]
cut = "3 1/2"
corners = "cornerstones"
fabric = { preset = "cotton-44", name = "red" }
corner_fabric = { preset = "cotton-44", name = "green" }
[backing]
fabric = "cotton-wide-108"
overage = 4
[batting]
product = "none"
[binding]
fabric = { preset = "cotton-44", name = "blue" }
"""
"""Blocks of 12 and a border that shows 3: n blocks make n x 12 + 1/2, and with the border 6 more."""

SIZES = ("--as", "54 1/2 x 54 1/2", "--as", "66 1/2 x 66 1/2")

YARDS = {
    # Usable 40, an inch to square the end, by the eighth of 4 1/2 in.
    # Sides of 24 1/2, 48 1/2 and 60 1/2: one strip each; 40 + 9, four 9s from one strip; 40 + 21, one strip a 21.
    # 4 x 3 1/2 + 1 = 15, 5 x 3 1/2 + 1 = 18 1/2, 8 x 3 1/2 + 1 = 29.
    "Red": ("1/2", "5/8", "7/8"),
    # 4 squares in one strip: 3 1/2 + 1 = 4 1/2.
    "Green": ("1/8", "1/8", "1/8"),
    # Usable 106, 6 in to square it, by the quarter: 30 1/2, 54 1/2 and 66 1/2, + 8 + 6 = 44 1/2, 68 1/2, 80 1/2.
    "Backing": ("1 1/4", "2", "2 1/4"),
    # Strips of 2 1/2, a join takes 2 1/2: 4 x 30 1/2 + 10 = 132 from 4, 4 x 54 1/2 + 10 = 228 from 7 (6 give 227 1/2),
    # 4 x 66 1/2 + 10 = 276 from 8: 11, 18 1/2, 21.
    "Binding, blue": ("3/8", "5/8", "5/8"),
}
METRES = {
    # 1/8 yd is 0.1143 m.
    "Red": ("0.5", "0.6", "0.9"),
    "Green": ("0.2", "0.2", "0.2"),
    "Backing": ("1.2", "1.9", "2.1"),
    "Binding, blue": ("0.4", "0.6", "0.6"),
}
NAMES = ("as it is", "54 1/2 x 54 1/2", "66 1/2 x 66 1/2")


def shown(path: Path, *more: str, columns: int = 80) -> str:
    result = run("compare", str(path), *SIZES, "--chart", *more, columns=columns)
    assert (result.exit_code, result.stderr) == (0, "")
    return result.stdout


def from_markdown(text: str) -> list[list[str]]:
    """The rows of the first table, the head first, as they read once Markdown has been made a page."""
    table = text.split("\n\n")[1].split("\n")
    rows = [[re.sub(r"\\(.)", r"\1", cell.strip()) for cell in line.strip("|").split(" |")] for line in table]
    return [rows[0], *rows[2:]]


def from_text(text: str) -> list[list[str]]:
    """The rows of the first block of a page, each begun by a name with a capital letter, put together again."""
    head, *lines = text.split("\n\n")[1].split("\n")
    starts = [0, *(match.start() for match in re.finditer(r"(?<=\s\s)\S", head)), 999]
    rows = [[head[start:end].strip() for start, end in pairwise(starts)]]
    for line in lines:
        cells = [line[start:end].strip() for start, end in pairwise(starts)]
        if cells[0][:1].isupper():
            rows.append(cells)
        else:
            rows[-1] = [f"{before} {more}".strip() for before, more in zip(rows[-1], cells, strict=True)]
    return rows


def from_list(text: str) -> list[list[str]]:
    """The same rows from the lists of a narrow page, one for each size."""
    lists = [block for block in text.split("\n\n") if "\n  Top, unfinished" in block]
    columns = []
    for each in lists:
        name, *pairs = each.replace("\n    ", " ").split("\n  ")
        columns.append([name, *(pair.rpartition(": ")[2] for pair in pairs)])
        names = ["", *(pair.rpartition(": ")[0] for pair in pairs)]
    return [list(row) for row in zip(names, *columns, strict=True)]


def sheet(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def cells_of(rows: list[list[str]], name: str) -> list[str]:
    (found,) = [row[1:] for row in rows if row[0] == name]
    return found


# --- what it says ------------------------------------------------------------------------------------------------


def test_every_cloth_has_the_yards_that_are_worked_out_by_hand(tmp_path: Path):
    rows = from_markdown(shown(in_file(DESIGN, tmp_path), "--markdown"))
    assert rows[0] == ["", *NAMES]
    assert {name: tuple(cells_of(rows, name)) for name in YARDS} == {
        name: tuple(f"{amount} yd" for amount in amounts) for name, amounts in YARDS.items()
    }


def test_sizes_and_blocks_stand_above_the_cloths(tmp_path: Path):
    """A medium pantograph draws up 3 %: 30 1/2 to 29.585, 54 1/2 to 52.865, 66 1/2 to 64.505."""
    rows = from_markdown(shown(in_file(DESIGN, tmp_path), "--markdown", "--no-prices", "--set", STYLE))
    assert [row[0] for row in rows] == [
        "", "Top, unfinished", "Finished size, about", "Blocks, 12 in finished, side by side", *YARDS,
    ]  # fmt: skip
    assert cells_of(rows, "Top, unfinished") == ["30 1/2 x 30 1/2 in", "54 1/2 x 54 1/2 in", "66 1/2 x 66 1/2 in"]
    assert cells_of(rows, "Finished size, about") == ["30 x 30 in", "53 x 53 in", "65 x 65 in"]
    blocks = cells_of(rows, "Blocks, 12 in finished, side by side")
    assert blocks == ["2 x 2, 4 in all", "4 x 4, 16 in all", "5 x 5, 25 in all"]


STYLE = "quilting.style=medium-pantograph"


def test_blocks_on_point_are_counted_with_those_between():
    """3 x 4 and 2 x 3 between them are 18."""
    rows = from_markdown(
        run("compare", str(sample("on-point-throw.toml")), "--as", "twin", "--chart", "--markdown").stdout
    )
    assert cells_of(rows, "Blocks, 10 in finished, on point")[0] == "3 x 4, 18 in all"


def test_a_cloth_without_a_name_says_its_use(tmp_path: Path):
    text = DESIGN.replace(', name = "red"', "").replace(', name = "green"', "").replace(', name = "blue"', "")
    rows = from_markdown(shown(in_file(text, tmp_path), "--markdown", "--no-prices"))
    names = [row[0] for row in rows[4:]]
    assert names == ["Border 1", "Border 1's cornerstones", "Backing", "Binding"]


def test_a_binding_of_a_cloth_of_the_top_stands_in_its_row(tmp_path: Path):
    """Red for both: 14 + 10 + 1 = 25, 17 1/2 + 17 1/2 + 1 = 36, 28 + 20 + 1 = 49."""
    rows = from_markdown(shown(in_file(DESIGN.replace("blue", "red"), tmp_path), "--markdown"))
    assert cells_of(rows, "Red, with the binding") == ["3/4 yd", "1 yd", "1 3/8 yd"]
    assert not [row for row in rows if row[0].startswith("Binding")]


def test_a_binding_of_the_backing_s_cloth_stands_in_its_row(tmp_path: Path):
    path = in_file('[top]\nwidth = 60\nlength = 80\n[binding]\nfabric = "backing"\ncut = "leftover"\n', tmp_path)
    rows = from_markdown(run("compare", str(path), "--as", "queen", "--chart", "--markdown").stdout)
    assert [row[0] for row in rows if "inding" in row[0]] == ["Backing and binding"]


def test_a_border_that_is_cut_wider_in_some_size_says_its_cut():
    """Refitted to 63 x 87 its last border is cut 4 3/4 wider than 4, to 60 x 60 3 1/4."""
    text = run("compare", str(PIECED), "--as", "twin", "--as", "60x60", "--chart", "--markdown").stdout
    rows = from_markdown(text)
    assert [row for row in rows if row[0].startswith("Border")] == [["Border 4, cut", "4 in", "8 3/4 in", "7 1/4 in"]]


def test_what_one_size_alone_takes_is_none_in_the_others(tmp_path: Path):
    """A sewn backing of 100 x 110 in holds 60 x 80 and not 102 x 92."""
    path = in_file("[top]\nwidth = 60\nlength = 80\n[backing]\nsewn = { width = 100, length = 110 }\n", tmp_path)
    arguments = ("compare", str(path), "--as", "102x92", "--chart")
    rows = from_markdown(run(*arguments, "--markdown").stdout)
    strip = cells_of(rows, "Backing strip")
    assert strip[0] == "none"
    assert strip[1].endswith(" yd")
    assert cells_of(rows, "Backing") == ["supplied, sewn", "supplied, sewn"]
    (figures,) = [
        row["figures"] for row in json.loads(run(*arguments, "--json").stdout)["rows"] if row["kind"] == "strip"
    ]
    assert figures[0] is None
    (row,) = [row for row in sheet(run(*arguments, "--csv").stdout) if row["kind"] == "strip"]
    assert row["as it is"] == ""


def test_cloth_that_the_customer_supplies_says_so():
    text = run("compare", str(sample("queen-bed-quilt-cm.toml")), "--as", "150x200", "--chart").stdout
    assert "Binding, which you supply" in " ".join(text.split())


def test_the_usable_width_that_it_needs_is_said(tmp_path: Path):
    text = " ".join(shown(in_file(DESIGN, tmp_path)).split())
    assert "Red; Green; Binding, blue: needs 40 in of usable width" in text
    assert "Backing: needs 106 in of usable width" in text


def test_hours_are_the_studio_s():
    arguments = ("compare", str(CLOTH), "--as", "twin", "--chart")
    assert "Planned" not in run(*arguments).stdout
    assert "Planned" in run(*arguments, "--for", "studio").stdout


def test_totals_are_those_of_the_comparison():
    totals = [str(row.result.quote.total) for row in sized(CLOTH, "twin", "queen").rows]
    arguments = ("compare", str(CLOTH), "--as", "twin", "--as", "queen", "--chart")
    assert cells_of(from_markdown(run(*arguments, "--markdown").stdout), "Total, USD") == [
        f"{each} *" for each in totals
    ]
    assert "* based on sample rates" in run(*arguments).stdout


# --- in every format ---------------------------------------------------------------------------------------------


def words(figure: str) -> Fraction:
    """The number in a cell of the page: "1 1/4 yd", "54 1/2"."""
    found = re.match(r"(?:(\d+) )?(\d+)/(\d+)|([\d.]+)", figure)
    assert found, figure
    return Fraction(found[4]) if found[4] else Fraction(found[1] or 0) + Fraction(int(found[2]), int(found[3]))


@pytest.mark.parametrize("path", [PIECED, CLOTH, sample("on-point-throw.toml"), sample("lighthouse-bed-quilt.toml")])
def test_text_and_markdown_say_the_same_cell_by_cell(path: Path):
    arguments = ("compare", str(path), "--as", "twin", "--as", "50x60", "--chart")
    rows = from_markdown(run(*arguments, "--markdown").stdout)
    assert from_text(run(*arguments).stdout) == rows
    assert from_list(run(*arguments, columns=40).stdout) == rows


@pytest.mark.parametrize("path", [PIECED, CLOTH, sample("on-point-throw.toml"), sample("lighthouse-bed-quilt.toml")])
@pytest.mark.parametrize("more", [(), ("--both-units",), ("--cuts",), ("--cuts", "--both-units", "--no-prices")])
def test_the_spreadsheet_and_the_document_say_the_same_cell_by_cell(path: Path, more: tuple[str, ...]):
    arguments = ("compare", str(path), "--as", "twin", "--as", "50x60", "--chart", *more)
    document = json.loads(run(*arguments, "--json", "--for", "customer").stdout)
    rows = sheet(run(*arguments, "--csv").stdout)
    sizes = [size["as"] for size in document["sizes"]]
    assert len(rows) == len(document["rows"])
    for row, record in zip(rows, document["rows"], strict=True):
        assert (row["kind"], row["row"], row["unit"]) == (record["kind"], record["row"], record["unit"])
        assert [row[size] for size in sizes] == ["" if each is None else str(each) for each in record["figures"]]


@pytest.mark.parametrize("path", [PIECED, CLOTH, sample("on-point-throw.toml"), sample("lighthouse-bed-quilt.toml")])
def test_the_figures_are_those_of_the_page_cell_by_cell(path: Path):
    """Every number of a cell in words, in turn, is the figure of one of its rows."""
    arguments = ("compare", str(path), "--as", "twin", "--as", "50x60", "--chart")
    table = from_markdown(run(*arguments, "--markdown").stdout)
    figures: dict[str, list[list[object]]] = {}
    for row in json.loads(run(*arguments, "--json", "--for", "customer").stdout)["rows"]:
        name = re.sub(r": (width|length|across|down|in all)$", "", row["row"])
        figures.setdefault(name, []).append(row["figures"])
    for name, *cells in table[1:]:
        found = figures[name.replace(", USD", "")]
        for n, cell in enumerate(cells):
            told = [each[n] for each in found]
            if name.startswith("Batting"):
                assert told == [cell]
            elif name.startswith("Total"):
                assert told[0] == cell.removesuffix(" *")
            elif cell == "none":
                assert told == [None]
            else:
                assert [Fraction(str(each)) for each in told] == [words(part) for part in re.split(r" x |, ", cell)]


def test_the_rows_of_the_document_have_their_kinds(tmp_path: Path):
    document = json.loads(shown(in_file(DESIGN, tmp_path), "--json"))
    assert list(document) == ["schema_version", "for", "title", "units", "currency", "sizes", "rows"]
    assert list(dict.fromkeys(row["kind"] for row in document["rows"])) == [
        "top", "finished", "blocks", "cloth", "backing", "binding", "planned", "total",
    ]  # fmt: skip
    assert document["sizes"][1]["refit"]["taken"]["across"] == 4


@pytest.mark.no_cover
@pytest.mark.parametrize("columns", [40, 56, 60, 80])
@pytest.mark.parametrize("more", [(), ("--both-units",), ("--for", "studio"), ("--cuts", "--both-units")])
def test_sizes_that_do_not_fit_stand_below(columns: int, more: tuple[str, ...]):
    """Each of nine sizes has its column or its list, and no line is too long."""
    sizes = [f"{each}x{each + 10}" for each in range(40, 120, 10)]
    arguments = [word for size in sizes for word in ("--as", size)]
    result = run("compare", str(PIECED), *arguments, "--chart", *more, columns=columns)
    chart = result.stdout.partition("\n\nCloth ")[0].partition("\n\nCuts")[0]
    assert max(map(len, result.stdout.split("\n"))) <= columns
    for size in ("as it is", *sizes):
        assert len(re.findall(rf"^(?:.* )?{size}(?: .*)?$", chart, re.M)) == 1, size
    assert chart.count("Backing") == (9 if columns == 40 else len(re.findall("^Backing", chart, re.M)))


# --- cuts --------------------------------------------------------------------------------------------------------


def cuts_from_markdown(text: str) -> dict[tuple[str, str], list[str]]:
    """The cells of each cut, by its cloth and its name."""
    found = {}
    for section in text.split("\n### Cuts: ")[1:]:
        cloth, _, rest = section.partition("\n")
        found |= {(cloth, row[0]): row[1:] for row in from_markdown(f"\n\n{rest.strip()}\n\n")[1:]}
    return found


def test_cuts_are_those_that_are_worked_out_by_hand(tmp_path: Path):
    """As many strips as the yards above are reckoned from; of the backing one piece, 8 in larger than the top."""
    text = shown(in_file(DESIGN, tmp_path), "--cuts", "--markdown")
    assert cuts_from_markdown(text) == {
        ("Red", "Border 1: strips 3 1/2 in x width of cloth"): ["4", "5", "8"],
        ("Green", "Border 1's cornerstones: strips 3 1/2 in x width of cloth"): ["1", "1", "1"],
        ("Green", "Border 1's cornerstones: squares 3 1/2 in"): ["4", "4", "4"],
        ("Backing", "Backing: pieces"): [
            "1 of 38 1/2 x 38 1/2 in", "1 of 62 1/2 x 62 1/2 in", "1 of 74 1/2 x 74 1/2 in",
        ],
        ("Binding, blue", "Binding: strips 2 1/2 in x width of cloth"): ["4", "7", "8"],
    }  # fmt: skip


def test_sashing_and_cornerstones_are_counted_whatever_they_are_cut_from():
    """With sashing all round, n x m blocks have n (m + 1) + m (n + 1) strips and (n + 1) (m + 1) cornerstones.
    Blocks of 10 with sashing of 2 and borders that add 15 on the sides: n across are 12 n + 17 1/2. Of a queen, 60 wide
    and 12 deep, 5 of them, widened to the 80 that they may be, would leave 10 at the sides; 6, 89 1/2, leave 14 3/4."""
    text = run("compare", str(PIECED), "--as", "twin", "--as", "queen", "--chart", "--cuts", "--markdown").stdout
    found, blocks = cuts_from_markdown(text), [(2, 3), (3, 5), (6, 7)]
    sashing = [str(n * (m + 1) + m * (n + 1)) for n, m in blocks]
    assert found["Cream cotton", "Sashing: 2 1/2 x 10 1/2 in"] == sashing
    assert found["Rust cotton", "Cornerstones: squares 2 1/2 in"] == [str((n + 1) * (m + 1)) for n, m in blocks]


def test_long_pieces_along_the_cloth_are_told_by_their_lengths(tmp_path: Path):
    """Sides of 24 1/2 and 48 1/2, and of 60 1/2, cut along the cloth; none is a strip across it."""
    path = in_file(DESIGN.replace('strips = "crosswise"', 'strips = "lengthwise"'), tmp_path)
    found = cuts_from_markdown(shown(path, "--cuts", "--markdown"))
    assert found["Red", "Border 1: pieces"] == [
        "4 of 3 1/2 x 24 1/2 in", "4 of 3 1/2 x 48 1/2 in", "4 of 3 1/2 x 60 1/2 in",
    ]  # fmt: skip
    assert not [name for cloth, name in found if cloth == "Red" and "strips" in name]


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_all_that_is_laid_on_a_cloth_is_cut_of_it(path: Path):
    """The pieces of each cloth are as many as are counted one by one, or lie in a strip that is."""
    for row in sized(path, "50x61", "100x110").rows:
        for purchase in row.result.plans.cloth:
            cuts = cuts_of(purchase.layouts, FINEST[row.result.resolved.project.units])
            bands = [band for layout in purchase.layouts for band in layout.bands]
            laid = [piece for band in bands for column in band.columns for piece in column.pieces]
            short = [piece for piece in laid if not is_long(piece)]
            counted = sum(number.total() for cut, number in cuts.items() if cut.kind in ("squares", "rectangles"))
            assert counted == len(short)
            long = {piece.use for piece in laid if is_long(piece)}
            assert long <= {use for cut in cuts if cut.kind in ("strips", "pieces") for use in cut.uses}


def test_the_figures_of_cuts_are_those_of_the_page_cell_by_cell():
    arguments = ("compare", str(PIECED), "--as", "twin", "--as", "queen", "--chart", "--cuts")
    rows = json.loads(run(*arguments, "--json").stdout)["rows"]
    figures = {row["row"]: ["" if each is None else str(each) for each in row["figures"]] for row in rows}
    found = cuts_from_markdown(run(*arguments, "--markdown").stdout)
    assert found
    assert all(figures[f"{cloth}; {name}"] == cells for (cloth, name), cells in found.items())
    words = " ".join(run(*arguments).stdout.split())
    for name in {name for _, name in found if "pieces" not in name and "strips" not in name}:
        assert name in words


# --- both units --------------------------------------------------------------------------------------------------


def test_metres_stand_beside_the_yards(tmp_path: Path):
    rows = from_markdown(shown(in_file(DESIGN, tmp_path), "--markdown", "--both-units"))
    for name, amounts in YARDS.items():
        pairs = zip(amounts, METRES[name], strict=True)
        assert cells_of(rows, name) == [f"{yards} yd ({metres} m)" for yards, metres in pairs]
    assert cells_of(rows, "Top, unfinished")[0] == "30 1/2 x 30 1/2 in (77 x 77 cm)"  # 77.47 cm
    text = " ".join(shown(in_file(DESIGN, tmp_path), "--both-units").split())
    assert "sizes are to the nearest centimetre" in text
    assert "metres go up to the next 0.1 m, so that none is short" in text


@pytest.mark.parametrize("path", EACH_PROJECT, ids=lambda path: path.stem)
def test_no_amount_is_short_in_the_other_unit(path: Path):
    """Not by a hair, and less than a step too much."""
    text = run("compare", str(path), "--as", "50x61", "--as", "70x83", "--chart", "--both-units", "--csv").stdout
    rows = [row for row in sheet(text) if row["unit"] in ("yd", "m")]
    assert rows
    for one, other in zip(rows[::2], rows[1::2], strict=True):
        assert one["row"] == other["row"]
        assert {one["unit"], other["unit"]} == {"yd", "m"}
        step = Length.of(Fraction(1, 10), "m") if other["unit"] == "m" else Length.of(Fraction(1, 8), "yd")
        for size in list(one)[3:]:
            sold, shown = (Length.of(Fraction(row[size]), row["unit"]) for row in (one, other))
            assert sold <= shown < sold + step


def test_a_roll_of_batting_has_both_units_too():
    text = run(
        "compare", str(sample("on-point-throw.toml")), "--as", "63x87", "--chart", "--both-units", "--markdown"
    ).stdout
    assert cells_of(from_markdown(text), "Batting")[1] == "1 7/8 yd (1.8 m) of 96 in (244 cm) roll"


# --- without prices ----------------------------------------------------------------------------------------------

FORMATS = ((), ("--markdown",), ("--csv",), ("--json",))


@pytest.mark.no_cover
@pytest.mark.parametrize("form", FORMATS, ids=" ".join)
@pytest.mark.parametrize("view", [(), ("--grid",), ("--chart",), ("--chart", "--both-units")], ids=" ".join)
@pytest.mark.parametrize("reader", ["customer", "studio"])
def test_without_prices_no_amount_or_currency_stands_anywhere(
    view: tuple[str, ...], form: tuple[str, ...], reader: str
):
    for path in (PIECED, sample("queen-bed-quilt-cm.toml"), GOLDEN / "small-studio.toml"):
        comparison = sized(path, "twin" if path == PIECED else "150x200")
        arguments = ("compare", str(path), "--as", comparison.rows[1].name, *view, *form, "--for", reader)
        with_prices, text = run(*arguments).stdout, run(*arguments, "--no-prices").stdout
        totals = [row.result.quote.total for row in comparison.rows]
        costs = [row.result.plans.backing.chosen.total_cost for row in comparison.rows]
        amounts = [str(each) for each in (*totals, *costs, comparison.difference(comparison.rows[1]))]
        assert any(amount in with_prices or amount.replace(".", ",") in with_prices for amount in amounts)
        for amount in chain.from_iterable((each, each.replace(".", ",")) for each in amounts):
            assert not re.search(rf"(?<![\d.,]){re.escape(amount)}(?!\d)", text), amount
        assert not re.search(
            r"[$€£*]|\b(USD|EUR|GBP)\b|\bTax\b|sample|cheapest|\bcosts?\b|\btotal\b", text.replace("**", "")
        )


def test_without_prices_all_else_is_the_same():
    arguments = ("compare", str(PIECED), "--as", "twin", "--chart", "--csv")
    told = sheet(run(*arguments).stdout)
    assert sheet(run(*arguments, "--no-prices").stdout) == [row for row in told if row["kind"] != "total"]


def test_without_prices_cloths_that_a_price_tells_apart_are_told_apart_by_their_uses(tmp_path: Path):
    """Two reds, of 9 and of 11 a yard, are two rows, and their prices are not in their names."""
    text = DESIGN.replace('name = "green"', 'name = "red", price = 9').replace(
        'name = "red" }', 'name = "red", price = 11 }'
    )
    path = in_file(text, tmp_path)
    assert "a yard" in shown(path, "--markdown")
    for form in FORMATS:
        assert "a yard" not in shown(path, "--no-prices", *form)
    rows = from_markdown(shown(path, "--no-prices", "--markdown"))
    assert cells_of(rows, "Red, border 1") == [f"{amount} yd" for amount in YARDS["Red"]]
    assert cells_of(rows, "Red, border 1's cornerstones") == [f"{amount} yd" for amount in YARDS["Green"]]


# --- options -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("wrong", [("--both-units",), ("--cuts",), ("--grid", "--chart")])
def test_options_that_do_not_go_together_are_refused(wrong: tuple[str, ...]):
    result = run("compare", str(CLOTH), "--as", "twin", *wrong)
    assert (result.exit_code, result.stdout) == (2, "")


def test_the_chart_s_sizes_can_be_drawn_and_saved_too(tmp_path: Path):
    result = run("compare", str(CLOTH), "--as", "twin", "--chart", "--svg", str(tmp_path), "--write", str(tmp_path))
    assert result.exit_code == 0
    assert sorted(path.suffix for path in tmp_path.iterdir()) == [".svg", ".toml"]
