"""Sizes by cloths, each cell the quote of its own file."""

import csv
import io
import json
from pathlib import Path

import pytest

from finishcalc.commandline.views import comparison_view
from finishcalc.comparing.cloths import ClothComparison, compare_cloths
from finishcalc.comparing.design import Design
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.rendering.writing import Contents
from tests.builders import CLOTH, PIECED, in_file, inches, quoted, run, sample, sized


def compared(path: Path, sizes: tuple[str, ...], names: tuple[str, ...] | None = None) -> ClothComparison:
    return compare_cloths(Design.of_file(str(path)), sizes, names)


def test_there_is_the_cloth_of_the_project_and_the_wider_ones():
    found = compared(CLOTH, ("twin",))
    assert [cell.cloth for cell in found.cells[0]] == ["cotton-44", "cotton-wide-108", "cotton-wide-118"]


def test_each_cell_is_the_quote_with_that_cloth():
    found = compared(CLOTH, ("twin", "queen"), ("cotton-44", "cotton-wide-108", "linen-60"))
    for row, cells in zip(found.comparison.rows, found.cells, strict=True):
        for cell in cells:
            text = project_toml(found.comparison.source, row.change) if row.change else CLOTH.read_text()
            again = quoted(f"{text}\n[backing]\nfabric = '{cell.cloth}'\n")
            assert cell.result.plans == again.plans


def test_the_cheapest_is_said_in_words_and_is_the_cheapest():
    found = compared(CLOTH, ("twin", "queen", "throw 30x36"), ("cotton-44", "cotton-wide-108"))
    for cells in found.cells:
        totals = [cell.result.quote.total for cell in cells]
        assert [cell.cheapest for cell in cells] == [total == min(totals) for total in totals]
    text = run("compare", str(CLOTH), "--as", "twin", "--grid", "--csv").stdout
    assert sum(row["cheapest"] == "yes" for row in csv.DictReader(io.StringIO(text))) == 2


def test_the_cheapest_is_what_the_customer_pays_least_for(tmp_path: Path):
    """Some 5 yd at 9.00 cost the studio less than 2 1/4 yd at 24.00, but it sells them at 40.00 a yard (derived)."""
    text = "[top]\nwidth = 60\nlength = 80\n[backing.fabric]\nname = 'own'\nwidth = 44\nper = 'yd'\n"
    text += "price = 9\nselling = 40\n"
    own, wide, _ = compared(in_file(text, tmp_path), ("twin",)).cells[0]
    assert own.result.plans.backing.chosen.total_cost < wide.result.plans.backing.chosen.total_cost
    assert (own.cheapest, wide.cheapest) == (False, True)


def test_what_is_tried_holds_in_every_cell_of_the_cloths():
    """With an overage of 10 in every backing is 12 in larger each way than with 4."""
    tried = Change("--set", (), ((("backing", "overage"), 10),))
    found = compare_cloths(Design.of_file(str(CLOTH), tried=tried), ("twin",), ("cotton-44", "linen-60"))
    for row, cells in zip(found.comparison.rows, found.cells, strict=True):
        for cell in cells:
            top, backing = cell.result.plans.top.shape, cell.result.plans.backing
            assert (backing.width - top.width, backing.length - top.length) == (inches(20), inches(20)), row.name


def test_each_cell_has_its_total():
    found = compared(CLOTH, ("twin",))
    text = comparison_view(found, "text", Contents("customer"), 120)
    document = json.loads(comparison_view(found, "json", Contents("customer"), 80))
    sheet = comparison_view(found, "csv", Contents("customer"), 80)
    for row, cells in zip(document["rows"], found.cells, strict=True):
        totals = [str(cell.result.quote.total) for cell in cells]
        assert [cell["total"] for cell in row["cloths"]] == totals
        assert all(f"; {total} *" in text and f",{total}," in sheet for total in totals)


def test_a_project_without_a_cloth_that_has_a_name_is_asked_for_one(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[cloth]\nwider = 'none'\n")
    path = in_file("[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = 'none'\n", tmp_path)
    result = run("compare", str(path), "--as", "twin", "--grid", "--shop", str(shop))
    assert result.exit_code == 1
    assert "name one: --cloth cotton-44" in result.stderr
    assert run("compare", str(path), "--as", "twin", "--grid", "--cloth", "cotton-44").exit_code == 0


@pytest.mark.parametrize(
    ("wider", "cloths"),
    [
        ("wider = 'linen-60'", ["linen-60"]),
        ("wider = { preset = 'linen-60', price = 20 }", ["linen-60"]),
        ("wider = ['linen-60', 'plush-60', 'linen-60']", ["linen-60", "plush-60"]),
        ("wider = 'none'", []),
        ("wider = []", []),
    ],
)
def test_a_shop_compares_with_one_cloth_or_several(wider: str, cloths: list[str], tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text(f"[cloth]\n{wider}\n")
    found = compare_cloths(Design.of_file(str(CLOTH), str(shop)), ("twin",))
    assert [cell.cloth for cell in found.cells[0]] == ["cotton-44", *cloths]


def test_a_project_s_own_cloth_has_its_column(tmp_path: Path):
    text = "[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = { name = 'own', width = 50, price = 9, per = 'yd' }\n"
    found = compared(in_file(text, tmp_path), ("twin",))
    assert [cell.cloth for cell in found.cells[0]] == ["own", "cotton-wide-108", "cotton-wide-118"]


def test_a_backing_that_the_shop_always_gets_sewn_is_supplied_in_every_cell(tmp_path: Path):
    shop = tmp_path / "shop.toml"
    shop.write_text("[usual.backing]\nsewn = { width = 100, length = 110 }\n")
    result = run("compare", str(CLOTH), "--as", "twin", "--grid", "--shop", str(shop))
    assert result.exit_code == 0


def test_supplied_cloth_does_not_matter_to_the_cloths():
    found = compared(sample("every-key.toml"), ("twin",))
    assert all(
        cell.result.plans.backing and not cell.result.plans.backing.customer_supplied
        for cells in found.cells
        for cell in cells
    )


def test_one_cloth_alone_is_not_the_cheapest():
    assert not any(cell.cheapest for cells in compared(CLOTH, ("twin",), ("cotton-44",)).cells for cell in cells)
    result = run("compare", str(CLOTH), "--as", "twin", "--grid", "--cloth", "none")
    assert (result.exit_code, result.stderr.split("\n")[0]) == (
        1,
        '--cloth "none": a comparison of cloths needs a cloth',
    )


def test_cloths_for_a_pieced_design_say_its_blocks():
    found = run("compare", str(PIECED), "--as", "twin", "--grid", "--markdown").stdout
    twin = next(line for line in found.splitlines() if line.startswith("| twin"))
    assert [cell.strip() for cell in twin.split("|")][1:4] == ["twin", "63 x 87", "3 x 5"]


@pytest.mark.parametrize("way", ["text", "json", "csv", "markdown"])
def test_every_way_ends_with_one_line_feed(way):
    for found in (sized(CLOTH, "twin"), compared(CLOTH, ("twin",))):
        text = comparison_view(found, way, Contents("studio"), 80)
        assert text.endswith("\n")
        assert not text.endswith("\n\n")
