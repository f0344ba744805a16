"""Choices side by side: a column for each value that is tried, as it is quoted."""

import json
import re
from fractions import Fraction
from pathlib import Path

import pytest
from wcwidth import wcswidth

from finishcalc.intake.changes.settings import setting
from tests.builders import CLOTH, run, tried

GOOD_BETTER_BEST = ("--set", "quilting.style=open-meander", "--set", "quilting.style=dense-pantograph",
                    "--set", "quilting.style=custom")  # fmt: skip


def test_columns_side_by_side():
    page = run("quote", str(CLOTH), *GOOD_BETTER_BEST).stdout
    results = tried(CLOTH, *GOOD_BETTER_BEST[1::2])
    row = next(line for line in page.split("\n") if line.startswith("Total"))
    assert re.findall(r"[\d,]+\.\d\d", row) == [str(result.quote.total) for result in results]
    assert "Planned" not in page
    assert "Planned" in run("quote", str(CLOTH), *GOOD_BETTER_BEST, "--for", "studio").stdout


@pytest.mark.parametrize("columns", [40, 56, 80])
def test_columns_fit_the_terminal(columns: int):
    page = run("quote", str(CLOTH), *GOOD_BETTER_BEST, "--set", "binding.attach=machine", columns=columns).stdout
    assert max(wcswidth(line) for line in page.split("\n")) <= columns


def test_the_printed_lines_of_each_column_add_up():
    page = run("quote", str(CLOTH), *GOOD_BETTER_BEST).stdout.split("\n")
    start = next(n for n, line in enumerate(page) if line.startswith("Quilting "))
    end = next(n for n, line in enumerate(page) if line.startswith("Subtotal"))
    rows = [re.findall(r"-?[\d,]+\.\d\d", line) for line in page[start : end + 1]]
    rows = [[Fraction(text.replace(",", "")) for text in row] for row in rows if row]
    for column in zip(*rows, strict=True):
        assert sum(column[:-1]) == column[-1]


MONIES = ("--set", "money.currency=USD", "--set", "money.currency=EUR")
UNITS = ("--set", "units=in", "--set", "units=cm")
CASH = ("--set", "rates.seam=20.11", "--set", "rates.seam=21.33", "--set", "money.cash_rounding=0.5")
HELD = ("--set", "tax[1].included=true", "--set", "tax[1].included=false")


@pytest.mark.parametrize("texts", [MONIES, UNITS, CASH, HELD])
@pytest.mark.parametrize("reader", ["customer", "studio"])
def test_columns_of_any_kind_add_up_to_their_totals(texts: tuple[str, ...], reader: str):
    page = run("quote", str(CLOTH), *texts, "--for", reader).stdout.split("\n")
    start = next(n for n, row in enumerate(page) if row.startswith("Subtotal"))
    end = next(n for n, row in enumerate(page) if row.startswith("Total"))
    rows = [re.split(r" {2,}", row.strip())[1:] for row in page[start : end + 1]]
    kinds = tried(CLOTH, *texts[1::2])
    for n, result in enumerate(kinds):
        cells = [Fraction(int(re.sub(r"[^\d-]", "", row[n])), 100) for row in rows if len(row) == 2]
        quote = result.quote
        assert cells[0] == quote.subtotal.major
        assert cells[-1] == quote.total.major
        if all(len(row) == 2 for row in rows):
            assert sum(cells[:-1]) == cells[-1]
    assert any(len(row) == 2 for row in rows)


def test_the_customer_reads_no_wage_that_was_tried():
    wages = ("--set", "rates.wage=20", "--set", "rates.wage=90")
    page = run("quote", str(CLOTH), *wages).stdout
    assert "wage" not in page
    assert "choice 1" in page
    assert '"rates.wage"' not in run("quote", str(CLOTH), *wages, "--json", "--for", "customer").stdout
    studio = run("quote", str(CLOTH), *wages, "--for", "studio").stdout
    assert "rates.wage" in studio
    assert "Break-even with the wage" in " ".join(studio.split())


IN_HOUSE = [
    ('backing.fabric={preset="cotton-44",price="9.17"}', "9.17"),
    ("backing.fabric.price=9.17", "9.17"),
    ("rates={wage='41.63'}", "41.63"),
    ("seaming={minutes_each=3.77}", "3.77"),
    ("edge_time={hand=0.123}", "0.123"),
    ("edge_time.machine.low=0.0123", "0.0123"),
    ("fabrics.cotton-44={price=9.17}", "9.17"),
    ('fabrics={cotton-44={price="9.17"}}', "9.17"),
    ('batting.product={preset="cotton-blend",rolls=[{width=96,price="9.17",per="yd",step="1 yd"}]}', "9.17"),
    ('quilting.method={preset="longarm-hand-guided",stages=[{name="all",each="quilt",low=1,likely=2,high=3.77,'
     'attended="100 %"}]}', "3.77"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "secret"), IN_HOUSE)
def test_the_customer_reads_no_cost_that_was_tried_in_a_table(text: str, secret: str):
    assert setting(text).in_house
    key = text.partition("=")[0]
    page = run("quote", str(CLOTH), "--set", text, "--set", text)
    document = run("quote", str(CLOTH), "--set", text, "--set", text, "--json", "--for", "customer")
    for found in (page, document):
        assert found.exit_code == 0, found.stderr
        assert secret not in found.stdout
        assert f'"{key}"' not in found.stdout
    assert "choice 1" in page.stdout


@pytest.mark.parametrize("text", ["backing.fabric=linen-60", 'backing.fabric={preset="linen-60",selvage=1}',
                                  'quilting.style={preset="open-meander"}', "backing={overage=3}"])  # fmt: skip
def test_the_customer_reads_what_is_hers(text: str):
    assert not setting(text).in_house


def test_arithmetic_is_of_one_choice():
    assert run("quote", str(CLOTH), *GOOD_BETTER_BEST, "--explain").exit_code == 2


def test_choices_of_the_document():
    document = json.loads(run("quote", str(CLOTH), *GOOD_BETTER_BEST, "--json").stdout)
    assert [choice["set"] for choice in document["choices"]] == [
        {"quilting.style": "open-meander"}, {"quilting.style": "dense-pantograph"}, {"quilting.style": "custom"},
    ]  # fmt: skip
    results = tried(CLOTH, *GOOD_BETTER_BEST[1::2])
    assert [choice["quote"]["total"] for choice in document["choices"]] == [str(each.quote.total) for each in results]
    customer = run("quote", str(CLOTH), *GOOD_BETTER_BEST, "--json", "--for", "customer").stdout
    assert '"studio"' not in customer
    assert '"cost"' not in customer


def test_a_change_is_saved_with_each_size(tmp_path: Path):
    result = run("compare", str(CLOTH), "--as", "twin", "--set", "backing.overage=6", "--set", "top.width=70",
                 "--write", str(tmp_path), "--json")  # fmt: skip
    row = json.loads(result.stdout)["rows"][1]
    again = json.loads(run("quote", str(tmp_path / "boathouse-supper-cloth-twin.toml"), "--json").stdout)
    assert again["quote"]["total"] == row["total"]
    assert again["backing"]["needed"] == {"width": 63 + 12, "length": 87 + 12}
    shop = run("compare", str(CLOTH), "--as", "twin", "--set", "rates.seam=3", "--write", str(tmp_path / "b"))
    assert shop.exit_code == 2


def test_cut_takes_a_value_too():
    # 70 + 8 by 100 + 8: two panels of 108 in, beside which a label of 5 in has no room; with 1 in to square the end
    # 2 x 108 + 5 + 1 = 222 in, 6.17 yd; for the binding, 340 + 10 in of strips, 9 x 2 1/2 + 1 = 23 1/2 in, 0.65 yd
    text = run("cut", str(CLOTH), "--set", "top.width=70", "--set", "top.length=100").stdout
    assert "6 1/4 yd of quilting cotton, 44 in wide, for backing and label" in text
    assert "3/4 yd of harbour blue cotton, for binding" in text
    assert text.count("a length of 108 in") == 2


def test_choices_name_what_differs():
    """Two cloths of which as much is taken are not the same, nor are three ways to finish one binding."""
    cloths = ("--set", "backing.fabric=cotton-44", "--set", "backing.fabric={ preset = 'cotton-44', name = 'rust' }")
    page = " ".join(run("quote", str(CLOTH), *cloths).stdout.split())
    assert "5 1/4 yd, 1 seam, rust" in page
    assert "Backing: 5 1/4 yd" not in page
    ways = (part for way in ("front", "machine", "hand") for part in ("--set", f"binding.attach={way}"))
    page = " ".join(run("quote", str(CLOTH), *ways).stdout.split())
    assert all(f"5/8 yd, {words}" in page for words in ("its back", "sewn on by", "its back by"))


def test_choices_keep_their_key_in_a_narrow_terminal():
    values = ("--set", "quilting.style=open-meander", "--set", "quilting.style=custom")
    assert "\n\nquilting.style:\n" in run("quote", str(CLOTH), *values, columns=30).stdout


def test_two_keys_given_several_times_are_told_what_to_do():
    both = [f"{key}={n}" for key in ("backing.overage", "batting.overage") for n in (3, 4)]
    result = run("quote", str(CLOTH), *(part for each in both for part in ("--set", each)))
    assert result.exit_code == 2
    assert "one after the other" in " ".join(result.stderr.replace("│", " ").split())
