"""The shopping list of the command line: its figures, its formats, what is on hand, and what is left of that."""

import csv
import io
import json
import os
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import html5lib
import pytest
from jsonschema import Draft202012Validator
from typer.testing import Result
from wcwidth import wcswidth

from finishcalc.intake.on_hand import read_on_hand
from finishcalc.rendering.documents.keys import Keys
from finishcalc.rendering.documents.keys_of_shopping import SHOPPING
from finishcalc.rendering.pages.shopping import shopping_page
from finishcalc.rendering.tables.shopping import COLUMNS, COSTS
from finishcalc.rendering.writers.text import page_text
from finishcalc.wording.notation import Notation
from tests.builders import PROJECTS, outside, run
from tests.plans.shopping.shops import PLAIN, dyed, listed, runner, wants

pytestmark = pytest.mark.slow

BLUE = "harbour blue"
HOSTILE = [
    '=HYPERLINK("http://x")',
    "<script>alert(1)</script>",
    "a\u202eb\x1b[31m",
    "| `x` [y](z) **w**",
    "#let x = 1 $y$ ]",
    "＝1+1",
    "my cornerstones",
]
"""Titles and names that a spreadsheet, a browser, a terminal, Markdown or typst would obey, or that are our words."""


def put(folder: Path, **texts: str) -> list[str]:
    """Files, by their names without the ending."""
    folder.mkdir(exist_ok=True)
    for name, text in texts.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return [str(folder / f"{name}.toml") for name in texts]


def titled(title: str, text: str | None = None) -> str:
    return f"title = {json.dumps(title)}\n" + (text or runner())


def runners(folder: Path) -> list[str]:
    """Three runners of 12 x 60 in, each with a backing of 16 x 64 in of one blue at 11.00 a yard."""
    return put(folder, oak=titled("Oak"), elm=titled("Elm"), ash=titled("Ash"))


def shelf(folder: Path, *pieces: tuple[str, str, int, int], name: str = "shelf") -> str:
    """A file of what is on hand, each piece by its kind, its name and its sides in inches."""
    rows = [
        f"[[on_hand]]\nkind = {kind!r}\nname = {json.dumps(named)}\nwidth = {width}\nlength = {length}\n"
        for kind, named, width, length in pieces
    ]
    (file,) = put(folder, **{name: "".join(rows)})
    return file


def bought(*arguments: str, code: int = 0, columns: int = 80) -> Result:
    result = run("buy", *arguments, columns=columns)
    assert result.exit_code == code, result.output
    return result


def document(*arguments: str) -> dict[str, Any]:
    return json.loads(bought(*arguments, "--json").stdout)


def rows_of(*arguments: str) -> list[dict[str, str]]:
    """The rows of the spreadsheet, as the standard library reads them."""
    return list(csv.DictReader(io.StringIO(bought(*arguments, "--csv").stdout, newline="")))


def html(tmp_path: Path, *arguments: str) -> str:
    out = tmp_path / "out.html"
    bought(*arguments, "--html", str(out), "--force")
    return out.read_text(encoding="utf-8")


# --- figures -----------------------------------------------------------------------------------------------------


def test_three_runners_of_one_cloth_buy_one_length(tmp_path: Path):
    """Alone 64 + 1 = 65 in, up to 15/8 yd, 20.625: three are 5 5/8 yd and 61.89. Two side by side in 40 in and one
    behind them are 128 + 1 = 129 in, up to 29/8 yd, 39.875. So 2 yd and 61.89 - 39.88 = 22.01 are saved."""
    page = bought(*runners(tmp_path)).stdout
    assert page.splitlines()[0] == "To buy: Ash, Elm and Oak"
    assert "[ ] 3 5/8 yd of harbour blue, 44 in wide: $39.88*\n" in page
    assert "backing for Ash, Elm and Oak\n" in page
    assert "2 yd of harbour blue, $22.01, because 3 projects share it\n" in page
    (cloth,) = document(*runners(tmp_path))["cloth"]
    assert cloth["buy"] == {"amount": 3.625, "unit": "yd", "cost": "39.88", "currency": "USD"}
    assert cloth["joined"] == {"alone": 5.625, "together": 3.625}
    assert cloth["saved_by_joining"] == "22.01"
    assert [each["alone"]["amount"] for each in cloth["projects"]] == [1.875] * 3


def test_the_joint_length_is_drawn_after_the_list_with_each_piece_s_project(tmp_path: Path):
    before, _, drawn = bought(*runners(tmp_path)).stdout.partition("\nCutting\n")
    assert "Cost" in before
    for letter, title in zip("ABC", ("Ash", "Elm", "Oak"), strict=True):
        assert f"{letter}: 1 for {title}: backing, 16 x 64 in\n" in drawn
    assert "3 5/8 yd to buy; 128 in of it is cut, 40 in wide" in " ".join(drawn.split())


def test_a_project_alone_is_drawn_by_its_own_cut_list(tmp_path: Path):
    page = bought(runners(tmp_path)[0]).stdout
    assert "1 7/8 yd of harbour blue" in page
    assert "Cutting" not in page
    assert "Saved" not in page


def test_a_joint_length_longer_than_a_bolt_becomes_several_lengths(tmp_path: Path):
    """Bolts of 3 yd: the joint 3 5/8 yd is on none. Two backings side by side are 65 in, 15/8 yd, as is the third."""
    text = runner(more=', bolt = "3 yd"')
    files = put(tmp_path, oak=titled("Oak", text), elm=titled("Elm", text), ash=titled("Ash", text))
    page = " ".join(bought(*files).stdout.split())
    assert "3 3/4 yd (1 7/8 yd + 1 7/8 yd) of harbour blue" in page
    assert "ask for the same dye lot" in page
    assert "length 2 of 2" in page
    assert [each["amount"] for each in document(*files)["cloth"][0]["lengths"]] == [1.875, 1.875]
    assert rows_of(*files)[0]["lengths"] == "1.875 + 1.875"


def test_no_length_is_longer_than_a_bolt_where_a_closer_layout_would_be(tmp_path: Path):
    """Backings of 20 in by 60, 50, 55 and 55: two columns of 110 in take the least cloth, 111 in, but no bolt of 3 yd,
    108 in, has that length. So two are laid side by side twice: 60 + 1 in, up to 14/8 yd, and 55 + 1, up to 13/8. With
    bolts of 4 yd the columns are bought, 25/8 yd."""
    lengths = {}
    for bolt in (3, 4):
        more = f', bolt = "{bolt} yd"'
        texts = {
            f"q{number}": titled(f"Q{number}", runner(width="16", length=str(long), more=more))
            for number, long in enumerate((56, 46, 51, 51))
        }
        whole = document(*put(tmp_path, **texts))
        assert not any(each["hinders"] for each in whole["cautions"])
        lengths[bolt] = sorted(each["amount"] for each in whole["cloth"][0]["lengths"])
    assert lengths == {3: [1.625, 1.75], 4: [3.125]}


def test_a_bolt_just_as_long_as_the_joint_length_holds_it(tmp_path: Path):
    text = runner(more=', bolt = "3 5/8 yd"')
    files = put(tmp_path, oak=titled("Oak", text), elm=titled("Elm", text), ash=titled("Ash", text))
    assert [each["amount"] for each in document(*files)["cloth"][0]["lengths"]] == [3.625]


def season(folder: Path) -> list[str]:
    """Quilts that take everything: two share cloth, one has its own thread, one customer brings her materials, and two
    have the same name for cloths of two prices."""
    whole = f"[backing]\nfabric = {dyed('harbour blue')}\n[binding]\nfabric = {dyed('rust')}\n"
    brings = '[backing]\nfabric = "cotton-44"\nsupplied_by = "customer"\n[batting]\nsupplied_by = "customer"\n'
    named = '[customer]\nname = "Mrs Lark"\n'
    dearer = dyed("rust", ', price = "12"')
    return put(
        folder,
        birch=f'title = "Birch"\n[job]\nthread = "linen 40"\n[top]\nwidth = 60\nlength = 80\n{whole}',
        beech=f'title = "Beech"\n[job]\nthread = "linen 40"\n[top]\nwidth = 50\nlength = 80\n{whole}',
        hazel=f'title = "Hazel"\n{named}[top]\nwidth = 36\nlength = 40\n{brings}[binding]\nfabric = {dearer}\n',
    )


MONEY = re.compile(r": \$([\d,]+\.\d\d)\*?$")


def total_of(file: list[str]) -> Fraction:
    (cost,) = document(*file)["cost"]
    return Fraction(cost["total"])


def test_the_total_is_the_sum_of_the_printed_costs_in_every_format(tmp_path: Path):
    files = season(tmp_path)
    total = total_of(files)
    assert total > 0
    page = bought(*files).stdout
    entries = re.findall(r"\[ \].*(?:\n {14}(?! ).*)*", page)
    shown = [Fraction(found[1]) for entry in entries if (found := MONEY.search(" ".join(entry.split())))]
    assert len(shown) >= 5
    assert sum(shown) == total
    assert re.search(rf"\${re.escape(document(*files)['cost'][0]['total'])}\*? in all", page)
    assert sum(Fraction(row["cost"]) for row in rows_of(*files) if row["cost"]) == total
    whole = document(*files)
    costs = [each["buy"]["cost"] for each in whole["cloth"] + whole["batting"]["rolls"]]
    costs += [each["cost"] for each in whole["batting"]["packages"] + whole["thread"] if each["cost"]]
    assert sum(map(Fraction, costs)) == total
    root = html5lib.parse(html(tmp_path, *files), namespaceHTMLElements=False)
    labels = ["".join(label.itertext()) for label in root.iter("label")]
    shown = [Fraction(found[1]) for label in labels if (found := MONEY.search(label))]
    assert sum(shown) == total


def test_a_batting_at_a_sample_s_price_is_marked_as_its_quote_marks_it(tmp_path: Path):
    """A roll and a package of the sample shop; with prices of the studio's own neither has a mark."""
    own = (
        "[battings.cotton-blend]\npackages = [{ size = 'throw', width = 60, length = 60, price = 16 }]\n"
        "rolls = [{ width = 96, price = 13, per = 'yd', step = '1/8 yd' }]\n"
    )
    tops = {"roll": "[top]\nwidth = 84\nlength = 98\n", "package": "[top]\nwidth = 50\nlength = 50\n"}
    (tmp_path / "shop.toml").write_text(own, encoding="utf-8")
    for name, top in tops.items():
        (tmp_path / f"{name}.toml").write_text(top + '[batting]\nproduct = "cotton-blend"\n', encoding="utf-8")
        sampled, priced = (
            next(
                each
                for each in re.split(r"\[ \]", bought(str(tmp_path / f"{name}.toml"), *shop).stdout)
                if "blend" in each
            )
            for shop in ([], ["--shop", str(tmp_path / "shop.toml")])
        )
        assert re.search(r"\$[0-9.]+\*", sampled)
        assert not re.search(r"\$[0-9.]+\*", priced.split("Thread")[0])


def test_every_entry_says_what_it_is_for_and_customers_are_apart(tmp_path: Path):
    rows = rows_of(*season(tmp_path))
    assert all(row["for"] for row in rows)
    assert {row["customer"] for row in rows if row["do"] == "bring"} == {"Mrs Lark"}
    assert [row["what"] for row in rows if row["do"] == "bring"] == ["cloth", "batting"]
    assert {row["customer"] for row in rows if row["do"] != "bring"} == {""}
    page = bought(*season(tmp_path)).stdout
    to_buy, _, brought = page.partition("\nCustomers")
    assert "Mrs Lark" not in to_buy
    assert len(re.findall(r"Mrs Lark brings .*\n +\w+ for Hazel\n", brought)) == 2


def test_a_customer_without_a_name_is_told_as_that(tmp_path: Path):
    files = put(tmp_path, a=titled("Oak", runner().replace("overage = 2", 'overage = 2\nsupplied_by = "customer"')))
    assert "A customer without a name brings 1 7/8 yd of harbour blue" in bought(*files).stdout
    assert "Nothing to buy" not in bought(*files).stdout  # thread


def test_two_cloths_of_one_name_are_told_apart(tmp_path: Path):
    """By their widths, which are always told; else by their prices; and what may be a slip is said."""
    wide = put(tmp_path, a=titled("Oak"), b=titled("Elm", runner(more=", width = 60")))
    page = bought(*wide).stdout
    assert "harbour blue, 44 in wide: " in page
    assert "harbour blue, 60 in wide: " in page
    assert "the one at" not in page
    dear = put(tmp_path, a=titled("Oak"), b=titled("Elm", runner(more=', price = "12"')))
    page = " ".join(bought(*dear).stdout.split())
    assert "the one at $11.00 a yd" in page
    assert "the one at $12.00 a yd" in page
    assert "Harbour blue is on the list 2 times, because its figures are not the same in every file." in page
    assert "$" not in bought(*dear, "--no-prices").stdout
    capitals = put(tmp_path, a=titled("Oak"), b=titled("Elm", runner("Harbour Blue")))
    page = " ".join(bought(*capitals).stdout.split())
    assert "is on the list 2 times, because its name is not written alike in every file." in page
    assert "2 times" not in bought(*runners(tmp_path)).stdout


@pytest.mark.parametrize(
    ("name", "width", "shown"),
    [
        ("blue, 108 in", "108 in", "of blue, 108 in: "),
        ("blue, 108 in wide", "108 in", "of blue, 108 in wide: "),
        ("linen, 150 cm wide", "150 cm", "of linen, 150 cm wide: "),
        ("blue", "150 cm", "of blue, 59.06 in wide: "),
        ("blue, 108 in", "54 in", "of blue, 108 in, 54 in wide: "),
        ("blue 144 in", "44 in", "of blue 144 in, 44 in wide: "),
    ],
)
def test_a_width_that_the_name_tells_is_not_told_twice(tmp_path: Path, name: str, width: str, shown: str):
    """150 cm = 59.055 in."""
    fabric = dyed(name, f", width = '{width}'")
    text = f"title = 'Oak'\n[top]\nwidth = 12\nlength = 20\n[backing]\nfabric = {fabric}\n{PLAIN}"
    assert shown in bought(*put(tmp_path, oak=text)).stdout


def test_the_mark_of_samples_is_explained_where_it_stands(tmp_path: Path):
    assert "* based on sample rates" in bought(*runners(tmp_path)).stdout
    own = put(tmp_path, own=titled("Oak", runner(more=', price = "12"')))
    assert "*" not in bought(*own).stdout


def test_each_currency_has_its_own_total(tmp_path: Path):
    (dollars,), (pounds,) = put(tmp_path, a=titled("Oak")), put(tmp_path, b=f'shop = "s.toml"\n{titled("Elm")}')
    (tmp_path / "s.toml").write_text('[money]\ncurrency = "GBP"\n', encoding="utf-8")
    page = bought(dollars, pounds).stdout
    assert {each["currency"] for each in document(dollars, pounds)["cost"]} == {"USD", "GBP"}
    assert re.search(r"USD 20\.63\S* in all|20\.63 USD in all", page.replace("\u00a0", " "))
    assert re.search(r"GBP 20\.63\S* in all|20\.63 GBP in all", page)
    assert "$" not in page


def test_without_prices_no_price_is_in_any_format(tmp_path: Path):
    files = [*season(tmp_path), "--no-prices", "--on-hand", shelf(tmp_path, ("cloth", BLUE, 40, 90))]
    for text in (bought(*files).stdout, bought(*files, "--markdown").stdout, html(tmp_path, *files)):
        told = re.sub(r"(?s)<(svg|script).*?</\1>", "", text.partition("<body>")[2] or text)
        assert not re.search(r"[$]\d|\\\$|\bUSD\b|\d\.\d\d\b|sample|price", told)
    assert tuple(rows_of(*files)[0]) == COLUMNS
    assert tuple(rows_of(*files[:3])[0]) == (*COLUMNS, *COSTS)
    text = bought(*files, "--json").stdout
    assert not re.search(r'"(\w*cost|currency|total|saved\w*|total_saved)"', text)


def test_the_order_of_the_files_changes_nothing(tmp_path: Path):
    files = season(tmp_path)
    for form in ([], ["--csv"], ["--json"], ["--markdown"]):
        assert bought(*reversed(files), *form).stdout == bought(*files, *form).stdout
    assert html(tmp_path, *reversed(files)) == html(tmp_path, *files)


# --- files -------------------------------------------------------------------------------------------------------


def test_a_file_given_twice_counts_once_and_is_told(tmp_path: Path):
    oak, elm, _ = runners(tmp_path)
    once, twice = bought(oak, elm), bought(oak, elm, oak)
    assert twice.stdout == once.stdout
    assert twice.stderr == f"{oak}: is given twice, and counted once\n"


def test_a_folder_is_the_projects_in_it_and_what_it_holds_besides_is_named(tmp_path: Path):
    files = runners(tmp_path)
    kept = shelf(tmp_path, ("cloth", BLUE, 20, 70))
    result = bought(str(tmp_path), "--on-hand", kept)
    assert result.stdout == bought(*files, "--on-hand", kept).stdout
    assert result.stderr == f"{kept}: skipped, because it is an on-hand file\n"
    told = json.loads(bought(str(tmp_path), "--json").stderr)
    assert told == {"skipped": [{"file": kept, "reason": "an on-hand file"}], "problems": []}


def test_a_bad_file_stops_the_list_with_all_problems(tmp_path: Path):
    """Those of two projects, of a folder without any, and of what is on hand."""
    good, *bad = put(tmp_path, a=titled("Oak"), b="[top]\nwidht = 3\n", c="[to")
    (tmp_path / "none").mkdir()
    (kept,) = put(tmp_path, shelf="[[on_hand]]\nkind = 'wool'\n")
    out, left = tmp_path / "list.html", tmp_path / "left.toml"
    asked = [good, *bad, str(tmp_path / "none"), "--on-hand", kept, "--html", str(out), "--write-left", str(left)]
    result = bought(*asked, code=1)
    assert result.stdout == ""
    assert run("quote", bad[0]).stderr in result.stderr
    assert run("quote", bad[1]).stderr in result.stderr
    assert "has no project" in result.stderr
    assert "on_hand" in result.stderr
    assert not out.exists()
    assert not left.exists()
    records = json.loads(bought(good, *bad, "--json", code=1).stderr)["problems"]
    assert {each["file"] for each in records} == set(bad)


def test_standard_input_is_a_project(tmp_path: Path):
    (oak,) = put(tmp_path, oak=titled("Oak"))
    assert "To buy: Elm and Oak" in run("buy", oak, "-", stdin=titled("Elm")).stdout


def test_the_shop_and_a_value_to_try_hold_for_every_project(tmp_path: Path):
    files = runners(tmp_path)
    (shop,) = put(tmp_path / "shop", s='[money]\ncurrency = "GBP"\n')
    assert [each["currency"] for each in document(*files, "--shop", shop)["cost"]] == ["GBP"]
    (cloth,) = document(*files, "--set", "top.length=24")["cloth"]
    assert {each["alone"]["amount"] for each in cloth["projects"]} == {
        0.5
    }  # 28 in lie across: 16 + 1 = 17 in, up to 18


@pytest.mark.parametrize(("how", "width"), [([], 44), (["--units", "cm"], 111.76)])
def test_sizes_are_in_the_units_asked_for_and_cloth_in_those_it_is_sold_in(
    tmp_path: Path, how: list[str], width: float
):
    """44 in = 111.76 cm."""
    (cloth,) = document(*runners(tmp_path), *how)["cloth"]
    assert (cloth["width"], cloth["buy"]["unit"]) == (width, "yd")


@pytest.mark.parametrize(
    "arguments", [["--units", "yd"], ["--csv", "--json"], ["--write-left", "-"], ["--set", "a=1", "--set", "a=2"]]
)
def test_what_cannot_be_asked_is_a_usage_error(arguments: list[str]):
    assert run("buy", "a", *arguments).exit_code == 2


# --- on hand -----------------------------------------------------------------------------------------------------


def test_what_is_on_hand_is_taken_first_and_told_with_what_it_spares(tmp_path: Path):
    """20 x 70 in holds one backing of 16 x 64: the other two take 1 7/8 yd, 20.63, and 39.88 - 20.63 = 19.25."""
    asked = [*runners(tmp_path), "--on-hand", shelf(tmp_path, ("cloth", BLUE, 20, 70))]
    page = bought(*asked).stdout
    assert "[ ] 1 7/8 yd of harbour blue, 44 in wide: $20.63*" in page
    assert "[ ] 20 x 70 in of harbour blue\n" in page
    assert "$19.25, because of what is on hand" in page
    drawn = " ".join(page.partition("\nCutting\n")[2].split())
    assert "20 x 70 in on hand, length 1 of 2; 64 in of its length is cut" in drawn  # it has no selvages
    assert "1 7/8 yd to buy, length 2 of 2; 64 in of it is cut, 40 in wide between the selvages" in drawn
    taken = [row for row in rows_of(*asked) if row["do"] == "take"]
    assert [(row["width"], row["length"], row["for"]) for row in taken] == [("20", "70", "Ash: backing")]


def test_a_name_on_the_shelf_may_have_capitals(tmp_path: Path):
    """And the smaller piece is still taken first, whoever wrote it: 17 x 65 in before 20 x 70."""
    pieces = ("cloth", "Harbour Blue", 20, 70), ("cloth", BLUE, 17, 65)
    asked = [*runners(tmp_path), "--on-hand", shelf(tmp_path, *pieces)]
    taken = [row for row in rows_of(*asked) if row["do"] == "take"]
    assert [(row["width"], row["length"]) for row in taken] == [("17", "65"), ("20", "70")]


def test_several_shelves_are_one_and_a_file_named_twice_is_one(tmp_path: Path):
    files = runners(tmp_path)
    one, two = (shelf(tmp_path, ("cloth", BLUE, 17, 65), name=name) for name in ("one", "two"))
    assert len(document(*files, "--on-hand", one, "--on-hand", two)["cloth"][0]["on_hand"]) == 2
    assert len(document(*files, "--on-hand", one, "--on-hand", one)["cloth"][0]["on_hand"]) == 1


def test_where_all_is_on_hand_nothing_is_bought(tmp_path: Path):
    (oak,) = put(tmp_path, oak=titled("Oak"))
    kept = shelf(tmp_path, ("cloth", BLUE, 20, 70))
    assert [row["what"] for row in rows_of(oak, "--on-hand", kept) if row["do"] == "buy"] == ["thread"]
    assert "Cloth" not in bought(oak, "--on-hand", kept).stdout


def test_what_is_left_is_read_back_and_buys_the_less(tmp_path: Path):
    """A piece of 40 x 200 in holds three backings of 16 x 64, and 8,000 - 3 x 1,024 = 4,928 sq in are left: another
    runner's backing is cut from that, and nothing is bought."""
    files = runners(tmp_path / "a")
    kept, left = shelf(tmp_path, ("cloth", BLUE, 40, 200)), tmp_path / "left.toml"
    result = bought(*files, "--on-hand", kept, "--write-left", str(left))
    assert result.stdout.endswith(f"wrote {left}\n")
    pieces = [(row.size.width.to("in"), row.size.length.to("in"), row.count) for row in read_on_hand(str(left)).rows]
    assert sum(wide * long * number for wide, long, number in pieces) == 4928
    (fir,) = put(tmp_path / "b", fir=titled("Fir"))
    assert document(fir)["cloth"][0]["buy"]["amount"] == 1.875
    assert document(fir, "--on-hand", str(left))["cloth"][0]["buy"]["amount"] == 0


def test_what_is_left_of_a_project_s_own_shelf_is_told_to_be_in_two_files(tmp_path: Path):
    own = f"\n[[on_hand]]\nkind = 'cloth'\nname = {BLUE!r}\nwidth = 20\nlength = 70\n"
    (oak,) = put(tmp_path, oak=titled("Oak", runner() + own))
    left = tmp_path / "left.toml"
    message = f"{oak}: what it has on hand is counted in {left} too: take it out of one\n"
    assert bought(oak, "--write-left", str(left)).stderr == message
    assert bought(oak).stderr == ""


def test_what_is_left_never_goes_over_a_file_unasked_nor_over_a_source(tmp_path: Path):
    files, kept = runners(tmp_path), shelf(tmp_path, ("cloth", BLUE, 20, 70))
    before = {name: Path(name).read_bytes() for name in (*files, kept)}
    out, left = tmp_path / "list.html", tmp_path / "left.toml"
    for over in (kept, files[0]):
        asked = [*files, "--on-hand", kept, "--write-left", over, "--html", str(out), "--force"]
        assert f"{over}: " in bought(*asked, code=1).stderr
        assert not out.exists()
    left.write_text("mine", encoding="utf-8")
    bought(*files, "--on-hand", kept, "--write-left", str(left), code=1)
    assert left.read_text(encoding="utf-8") == "mine"
    bought(*files, "--on-hand", kept, "--write-left", str(left), "--force")
    assert left.read_text(encoding="utf-8") != "mine"
    assert {name: Path(name).read_bytes() for name in before} == before


# --- formats -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("columns", [40, 60, 80])
def test_the_page_fits_the_terminal(tmp_path: Path, columns: int):
    kept = shelf(tmp_path, ("cloth", BLUE, 40, 90))
    page = bought(*season(tmp_path), *runners(tmp_path), "--on-hand", kept, columns=columns).stdout
    assert max(map(wcswidth, page.splitlines())) <= columns
    assert page.splitlines()[0] == "To buy: 6 projects"
    assert "Ash, Beech, Birch, Elm, Hazel and Oak" in " ".join(page.split())


@pytest.mark.parametrize("title", HOSTILE)
def test_a_hostile_title_or_name_does_nothing_in_any_format(tmp_path: Path, title: str):
    cloth = json.dumps(title)
    text = titled(title, runner().replace('name = "harbour blue"', f"name = {cloth}"))
    hers = f"title = {cloth}\n[customer]\nname = {cloth}\n" + runner().replace(
        "overage = 2", 'overage = 2\nsupplied_by = "customer"'
    )
    files = put(tmp_path, a=text, b=text, c=hers)
    page = bought(*files).stdout
    assert not re.search(r"[\x00-\x09\x0b-\x1f\u202e]", page)
    assert not re.search(r"[\x00-\x09\x0b\x0c\x0e-\x1f\u202e]", bought(*files, "--csv").stdout)
    for row in rows_of(*files):
        assert not any(cell.startswith(("=", "+", "-", "@", "＝")) for cell in row.values())
    whole = document(*files)
    assert [each["name"] for each in whole["cloth"]] == [title]
    assert [each["customer"] for each in whole["brought"]] == [title]
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    root = parser.parse(html(tmp_path, *files))
    assert parser.errors == []
    assert len(list(root.iter("script"))) == 1
    assert len(list(root.iter("input"))) == len(rows_of(*files))
    out = tmp_path / "out.pdf"
    bought(*files, "--pdf", str(out))
    assert out.read_bytes().startswith(b"%PDF")
    markdown = bought(*files, "--markdown").stdout
    assert "<script" not in re.sub(r"(?s)```.*?```", "", markdown).replace("\\<script", "")


def test_a_title_with_a_word_of_ours_is_still_a_title(tmp_path: Path):
    page = bought(*put(tmp_path, a=titled("my cornerstones"), b=titled("border 1"))).stdout
    assert "backing for border 1 and my cornerstones" in " ".join(page.split())
    assert "1 for my cornerstones: backing" in page


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_sample_has_a_list(path: Path):
    assert bought(str(path)).stdout.startswith("To buy: ")


def test_all_samples_have_one_list_that_is_the_same_in_another_process():
    names = [str(path) for path in PROJECTS]
    here = bought(*names, "--json").stdout
    assert json.loads(here)["projects"]
    env = {"PYTHONHASHSEED": "7", "PATH": os.environ["PATH"]}
    assert outside("buy", *names, "--json", env=env).stdout.decode() == here


def test_a_list_without_anything_to_buy_says_so():
    nothing = listed([wants("oak", runner())])._replace(cloth=(), thread=(), costs=())
    page = page_text(shopping_page(nothing, Notation("in"), "letter"))
    assert page == "To buy: oak\n\nNothing to buy.\n"


# --- the document's keys -----------------------------------------------------------------------------------------


def empty_rows(keys: Keys, values: list[Any], at: str = "") -> set[str]:
    """The rows of a table that no document has anything in, by their paths."""
    found = set[str]()
    for name, row in keys.items():
        inner = [item for value in values for item in (value[name] if row.kind == "list" else [value[name]])]
        inner = [item for item in inner if item is not None]
        found |= {f"{at}.{name}"} if not inner else empty_rows(row.keys, inner, f"{at}.{name}") if row.keys else set()
    return found


def test_the_schema_is_that_of_every_document_with_prices(tmp_path: Path):
    """A document has all keys of the table and no other; here each has something in it but what nothing covers."""
    kept = shelf(tmp_path, ("cloth", BLUE, 20, 70), ("batting", "80/20 cotton blend", 60, 80))
    (bolts,) = put(tmp_path, bolts=titled("Bolts", runner("short", "16", "200", ', bolt = "3 yd"')))
    (sewn,) = put(tmp_path, sewn="[top]\nwidth = 30\nlength = 40\n[backing]\nsewn = { width = 38, length = 48 }\n")
    shop = '[rates.thread]\nper = "cone"\ncost = 7\nprice = 9\n'
    (studio,) = put(tmp_path, studio=shop)
    asked = [*season(tmp_path), *runners(tmp_path), bolts, sewn, "--on-hand", kept, "--shop", studio]
    whole = document(*asked)
    validator = Draft202012Validator(json.loads(run("schema", "shopping").stdout))
    assert list(validator.iter_errors(whole)) == []
    assert list(validator.iter_errors(document(str(PROJECTS[0])))) == []
    assert empty_rows(SHOPPING, [whole]) <= {".lacking"}
    assert list(whole) == list(SHOPPING)
    assert list(validator.iter_errors(whole | {"more": 1}))
    assert all(
        list(validator.iter_errors({key: value for key, value in whole.items() if key != name})) for name in whole
    )
