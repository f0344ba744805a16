"""The whole house from outside: commands, pages and documents, as people and programs meet them."""

import json
import os
import re
import shlex
import subprocess
import sys
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path

import pytest
from wcwidth import wcswidth

from finishcalc.cli import app
from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import resolve
from finishcalc.measures.numbers import from_text
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.problems import problems_json
from finishcalc.rendering.quote_json import quote_json
from tests.builders import CLOTH, PROJECTS, README, ROOT, TOP, page, quoted, run

# --- the README --------------------------------------------------------------------------------------------------


def blocks(kind: str) -> list[str]:
    return re.findall(rf"```{kind}\n(.*?)```", README, re.S)


def test_the_readme_s_project_and_quote_are_the_real_ones():
    assert blocks("toml")[0] == CLOTH.read_text(encoding="utf-8")
    assert blocks("text")[0] == run("quote", str(CLOTH)).stdout


def test_the_readme_s_other_files_give_a_quote(tmp_path: Path):
    for number, block in enumerate(blocks("toml")[1:]):
        text = block if "[top" in block else TOP + block
        path = tmp_path / f"{number}.toml"
        path.write_text(text)
        assert run("quote", str(path)).exit_code == 0, text


def test_the_readme_s_mistake_is_answered_as_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cloth.toml").write_text(TOP + "\n[backing]\noverge = 4\n")
    assert run("quote", "cloth.toml").stderr in blocks("text")


def test_the_readme_opens_with_the_job():
    first = README.split("\n\n")[1]
    for word in ("quilt top", "backing", "batting", "binding", "quilting takes", "price"):
        assert word in first.replace("\n", " ")


def test_the_readme_s_commands_are_those_there_are():
    told = set(re.findall(r"`finishcalc (\w+) FILE", README))
    assert told == {command.callback.__name__ for command in app.registered_commands}  # type: ignore[union-attr]


# --- the command line --------------------------------------------------------------------------------------------


COMMANDS = ["quote", "cut", "compare"]


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_an_example_that_runs(command: str, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(ROOT)
    text = run(command, "--help", columns=70).stdout
    example = re.search(r"^\s+finishcalc (\S+ \S+.*)$", text, re.M)
    assert example, text
    assert run(*shlex.split(example[1])).exit_code == 0
    assert "TEXT" not in text
    assert "Optional[" not in text


def test_no_option_is_without_help():
    for command in COMMANDS:
        for option in re.findall(r"^  (--\S+.*)$", run(command, "--help").stdout, re.M):
            assert re.search(r"\S {2,}\S", option), option


def test_version_and_no_arguments():
    assert re.fullmatch(r"\d+\.\d+\.\d+\n", run("--version").stdout)
    assert "quote" in run().output


@pytest.mark.parametrize(
    "arguments", [("quote",), ("quote", str(CLOTH), "--wide"), ("quote", str(CLOTH), "--for", "me")]
)
def test_usage_errors_exit_2_and_speak_plainly(arguments: tuple[str, ...]):
    result = run(*arguments)
    assert result.exit_code == 2
    assert "Value error" not in result.output
    assert "Traceback" not in result.output


def test_readers_are_named_where_one_is_unknown():
    assert "customer or studio" in " ".join(run("quote", str(CLOTH), "--for", "nobody").output.split())


@pytest.mark.parametrize("path", sorted((ROOT / "tests" / "mistakes").glob("*.toml")), ids=lambda path: path.stem)
def test_a_mistake_exits_1_with_nothing_on_stdout(path: Path):
    result = run("quote", str(path))
    assert (result.exit_code, result.stdout) == (1, "")
    assert "Traceback" not in result.stderr


def test_problems_are_records_under_json(tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_text("[top]\nwidth = 0\n")
    result = run("quote", str(path), "--json")
    assert (result.exit_code, result.stdout) == (1, "")
    records = json.loads(result.stderr)["problems"]
    assert [record["path"] for record in records] == ["top.length", "top.width"]
    assert records[1]["line"] == 2
    assert set(records[0]) == {"file", "line", "column", "path", "message", "hint", "excerpt", "width", "start"}


def test_standard_input_is_read_for_a_dash():
    assert "Quote: Quilt top" in run("quote", "-", stdin=TOP).stdout
    bad = run("quote", "-", stdin="[top]\n")
    assert bad.exit_code == 1
    assert bad.stderr.startswith("standard input:1: top.width: is missing")


def test_a_shop_beside_the_project_is_found_from_anywhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    home = tmp_path / "work" / "shops"
    home.mkdir(parents=True)
    (home / "mine.toml").write_text("[rates]\nseam = 17\n")
    (home / "other.toml").write_text("[rates]\nseam = 19\n")
    (home.parent / "top.toml").write_text("shop = 'shops/mine.toml'\n" + TOP)
    monkeypatch.chdir(tmp_path)
    assert " 17.00 " in run("quote", "work/top.toml").stdout
    assert " 19.00 " in run("quote", "work/top.toml", "--shop", "work/shops/other.toml").stdout
    gone = run("quote", "work/top.toml", "--shop", "nowhere.toml")
    assert gone.stderr.startswith("nowhere.toml: no such file")


def test_nothing_is_written_where_one_works(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    for arguments in (["quote", str(CLOTH)], ["quote", str(CLOTH), "--json"], ["cut", str(CLOTH)]):
        assert run(*arguments).exit_code == 0
    assert list(tmp_path.iterdir()) == []


def test_it_runs_as_a_module_in_any_locale():
    environment = {**os.environ, "LC_ALL": "C", "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    command = [
        sys.executable,
        "-m",
        "finishcalc",
        "quote",
        str(ROOT / "presets" / "projects" / "queen-bed-quilt-cm.toml"),
    ]
    done = subprocess.run(command, capture_output=True, env=environment, check=True, cwd=ROOT)
    assert "€" in done.stdout.decode("utf-8") or "EUR" in done.stdout.decode("utf-8")
    assert subprocess.run([*command[:3], "--version"], capture_output=True, check=True, cwd=ROOT).stdout


def test_a_reader_that_goes_away_is_no_traceback():
    command = f"{sys.executable} -m finishcalc quote {CLOTH} --explain | head -1"
    done = subprocess.run(["bash", "-c", command], capture_output=True, check=True, cwd=ROOT)
    assert done.stderr == b""


# --- the page ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
@pytest.mark.parametrize("width", [80, 56, 40])
@pytest.mark.parametrize(
    "how", [(), ("--explain",), ("--for", "studio", "--explain")], ids=["plain", "explain", "studio"]
)
def test_no_line_is_wider_than_the_terminal(path: Path, width: int, how: tuple[str, ...]):
    for line in run("quote", str(path), *how, columns=width).stdout.splitlines():
        assert wcswidth(line) <= width, line


AMOUNT = re.compile(r"^(?P<label>.*?)(?:  (?P<quantity>[\d.,/ ]+?)  (?P<unit>\S+(?: \S+)?) +"
                    r"(?P<rate>-?[\d.,]+(?: %)?))?"
                    r"(?:  +(?:\d+ % )?\*?)? +(?P<amount>-?[\d.,]+)$")  # fmt: skip


def plain_number(text: str, comma: bool) -> Decimal:
    text = text.replace(".", "").replace(",", ".") if comma else text.replace(",", "")
    if "/" in text:
        found = from_text(text.strip())
        return Decimal(found.numerator) / found.denominator
    return Decimal(text.strip())


def re_added(sheet: str, comma: bool, places: Decimal) -> None:
    """Redo the sheet with nothing but what it prints."""
    table = sheet[sheet.index("Qty") :].split("\n\n")[0].splitlines()[1:]
    subtotal = tax = Decimal(0)
    seen = {}
    for line in table:
        found = AMOUNT.match(line)
        if not found:
            assert line.startswith(" "), line
            continue
        amount = plain_number(found["amount"], comma)
        label = found["label"].strip()
        if found["quantity"] and not label.startswith("of which"):
            rate = found["rate"]
            share = plain_number(rate.rstrip(" %"), comma) / (100 if rate.endswith("%") else 1)
            exact = plain_number(found["quantity"], comma) * share
            assert abs(exact).quantize(places, ROUND_HALF_UP).copy_sign(exact) == amount, line
        if "Subtotal" in seen and found["quantity"] and not label.startswith("of which"):
            tax += amount
        elif not seen:
            if label == "Subtotal":
                assert amount == subtotal
            subtotal += amount if label != "Subtotal" else 0
        if not found["quantity"]:
            seen[label.split(",")[0].split("  ")[0]] = amount
    assert seen["Total"] == seen["Subtotal"] + tax + seen.get("Rounded for cash", 0)
    assert seen["Deposit"] + seen["Balance"] == seen["Total"]


SHOPS = {
    "USD": ("", False, Decimal("0.01")),
    "EUR": ("units = 'cm'\n", True, Decimal("0.01")),
}


@pytest.mark.parametrize("money", SHOPS)
@pytest.mark.parametrize("size", [(60, 80), (61, 91), (100, 108), (37, 51), (150, 130)])
@pytest.mark.parametrize(
    "charges", ["", "rush = '25 %'\ndiscount = '7.5 %'\nextras = ['label', { name = 'pressing', quantity = '1/3' }]\n"]
)
def test_the_printed_sheet_adds_up(money: str, size: tuple[int, int], charges: str):
    units, comma, places = SHOPS[money]
    text = f"{units}[top]\nwidth = {size[0]}\nlength = {size[1]}\n[charges]\n{charges}"
    re_added(page(text), comma, places)


@pytest.mark.parametrize("currency", ["JPY", "KWD"])
def test_sheets_of_other_minor_units_add_up(currency: str, tmp_path: Path):
    (tmp_path / "shop.toml").write_text(f"[money]\ncurrency = '{currency}'\n[rates]\nminimum = 75\n")
    (tmp_path / "t.toml").write_text("shop = 'shop.toml'\n" + TOP + "[charges]\nrush = '12.5 %'\n")
    sheet = run("quote", str(tmp_path / "t.toml")).stdout
    re_added(sheet, False, Decimal(1) if currency == "JPY" else Decimal("0.001"))
    assert "set in USD and stand here as" in " ".join(sheet.split())


def test_the_customer_never_sees_what_is_the_studio_s():
    studio, customer = (page(TOP, audience, explain=True) for audience in ("studio", "customer"))
    for word in ("cost", "markup", "wage", "margin", "minutes_", "Minutes", " min "):
        assert word in studio or word == "margin"
        assert word not in customer, word
    customer = re.sub(r"presets/\S+", "", customer)
    for value in ("11", "40 %"):  # the cloth's price a yard, and the markup
        assert not re.search(rf"(?<![\d.,]){re.escape(value)}(?![\d.,/]| yd| rows| strips| in )", customer), value


def test_marks_stand_where_rates_are_samples_and_nowhere_else(tmp_path: Path):
    assert all("*" in line for line in page(TOP).splitlines() if re.search(r"  (sq in|yd|each) ", line))
    own = tmp_path / "own.toml"
    text = (ROOT / "presets" / "shops" / "inch.toml").read_text(encoding="utf-8")
    materials = "\n".join(
        f"[{kind}.{name}]\n{keys}"
        for kind, name, keys in (
            ("fabrics", "cotton-44", "price = 9"),
            ("fabrics", "cotton-wide-108", "price = 21"),
            (
                "battings",
                "cotton-blend",
                "packages = [{ size = 'q', width = 90, length = 108, price = 30 }]\nrolls = []",
            ),
        )
    )
    own.write_text(text + "\n" + materials, encoding="utf-8")
    (tmp_path / "t.toml").write_text("shop = 'own.toml'\n" + TOP)
    sheet = run("quote", str(tmp_path / "t.toml")).stdout
    assert "*" not in sheet
    assert "sample rate" not in sheet


@pytest.mark.parametrize("how", [("--for", "studio", "--explain"), ("--json",)], ids=["text", "json"])
def test_a_metric_studio_sees_no_inch(how: tuple[str, ...], tmp_path: Path):
    path = tmp_path / "t.toml"
    path.write_text("units = 'cm'\n[top]\nuse = 'tablecloth'\nwidth = 152\nlength = 203\n")
    text = run("quote", str(path), *how).stdout
    assert not re.search(r"[\d½] (in|yd|ft)\b", text.replace(" in all", "")), text


def test_text_of_the_file_is_shown_and_not_obeyed():
    nasty = '"bell \\u0007 \\u001b[31m \\u202e end"'
    text = page(
        f"title = {nasty}\n[customer]\nname = {nasty}\n[job]\nnotes = {nasty}\nthread = {nasty}\n{TOP}"
        f"[backing]\nfabric = {{ preset = 'cotton-44', name = {nasty} }}\n",
        "studio",
        explain=True,
    )
    assert not {"\x07", "\x1b", "\u202e"} & set(text)
    assert "\\u001b" in text


def test_wide_characters_keep_the_columns():
    text = page(TOP + "[backing]\nfabric = { preset = 'cotton-44', name = '綿の裏地' }\n")
    ends = {wcswidth(line) for line in text.splitlines() if re.search(r"\d\.\d\d$", line)}
    assert len(ends) == 1


def test_notes_of_several_lines_stay_so():
    text = page("[job]\nnotes = '''First.\nSecond.'''\n" + TOP)
    assert "First.\nSecond.\n" in text


def test_dates_are_written_in_the_shop_s_order():
    job = "[job]\ndate = 2026-05-04\ndue = 2026-06-01\n"
    assert "May 4, 2026; due June 1, 2026" in page(job + TOP)
    assert "4 May 2026; due 1 June 2026" in page("units = 'cm'\n" + job + "[top]\nwidth = 152\nlength = 203\n")
    # 30 days after 4 May: 31 - 4 = 27 in May, so 3 June
    assert "until June 3, 2026" in page(job + TOP)


@pytest.mark.parametrize("audience", ["customer", "studio"])
def test_the_same_file_twice_is_the_same_page(audience: str):
    text = CLOTH.read_text(encoding="utf-8")
    assert page(text, audience, explain=True) == page(text, audience, explain=True)


def test_hash_seeds_change_nothing():
    pages = set()
    for seed in ("1", "2"):
        for how in (["--json"], ["--for", "studio", "--explain"]):
            command = [sys.executable, "-m", "finishcalc", "quote", str(CLOTH), *how]
            done = subprocess.run(
                command, capture_output=True, check=True, cwd=ROOT, env={**os.environ, "PYTHONHASHSEED": seed}
            )
            pages.add(done.stdout)
    assert len(pages) == 2


# --- cautions ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("top", "code", "there"),
    [
        ("width = 45\nlength = 60\n", "safe-sleep", True),  # the packaged crib size (common practice)
        ("width = 60\nlength = 45\n", "safe-sleep", True),
        ("width = 46\nlength = 60\n", "safe-sleep", False),
        ("use = 'crib'\nwidth = 60\nlength = 80\n", "safe-sleep", True),
        ("use = 'tablecloth'\nwidth = 60\nlength = 80\n", "candles", True),
        ("use = 'bed'\nwidth = 60\nlength = 80\n", "candles", False),
        ("width = 60\nlength = 80\n[job]\nfor_sale = true\n", "label-law", True),
        ("width = 60\nlength = 80\n", "label-law", False),
        ("width = 60\nlength = 80\n", "tax", True),
        ("width = 60\nlength = 80\n[backing]\noverage = 2\n", "small-overage", True),
        ("width = 60\nlength = 80\n[backing]\nfabric = 'plush-60'\n", "one-way", True),
        ("width = 120\nlength = 130\n", "frame-too-narrow", True),
        ("width = 130\nlength = 120\n", "batting-too-small", True),
        (
            "width = 60\nlength = 100\n[backing]\nfabric = { preset = 'cotton-44', bolt = '4 yd' }\n",
            "second-length",
            True,
        ),
    ],
)
def test_cautions_come_where_they_are_called_for(top: str, code: str, there: bool):
    result = quoted(f"[top]\n{top}")
    assert (code in [caution.code for caution in result.cautions]) == there


def test_batting_that_does_not_cover_is_null_and_not_on_the_quote():
    data = json.loads(quote_json(quoted("[top]\nwidth = 130\nlength = 120\n")))
    assert data["batting"]["chosen"] is None
    assert not any("Batting" in line["label"] for line in data["quote"]["lines"])


# --- the document ------------------------------------------------------------------------------------------------

OPTION = {
    "layout", "seams", "seam_length", "turned", "cut_length", "buy", "seam_minutes", "seam_cost", "total_cost",
    "cuts", "assembly", "leftover",
}  # fmt: skip
KEYS = {
    "": {
        "schema_version", "title", "units", "job", "customer", "cautions", "samples", "defaults", "top", "backing",
        "batting", "binding", "hem", "quilting", "hours", "for", "offers", "studio", "buy", "quote", "working",
    },
    "top": {"shape", "width", "length", "area", "perimeter", "billed", "pieced", "covers"},
    "top.billed": {"width", "length", "area"},
    "backing": {"needed", "chosen", "options", "brought", "nudges"},
    "backing.needed": {"width", "length"},
    "backing.chosen": OPTION,
    "backing.chosen.buy": {"amount", "unit", "cost"},
    "batting": {"needed", "chosen", "options"},
    "batting.chosen": {"product", "form", "size", "width", "length", "cost"},
    "binding": {"needed_length", "strips", "beside", "strip_width", "yields", "square", "cut", "fold", "buy"},
    "quilting": {
        "method", "parts", "stitched_length", "ties", "thread_length", "thread_top", "thread_bobbin", "bobbins",
        "cones", "colours", "changes", "rows", "passes", "loaded", "other", "partial_row", "quilted", "washed",
        "minutes", "total_minutes", "fits",
    },
    "quilting.total_minutes": {"low", "likely", "high", "planned", "attended", "frame"},
    "hours": {"minutes", "total_minutes"},
    "quote": {
        "currency", "lines", "subtotal", "discount", "tax", "cash_rounding", "total", "deposit", "balance",
    },
    "working": {"top", "piecing", "backing", "batting", "binding", "quilting", "hours", "quote"},
}  # fmt: skip


@pytest.fixture(scope="module")
def document() -> dict:
    result = run("quote", str(ROOT / "presets" / "projects" / "every-key.toml"), "--json")
    return json.loads(result.stdout)


@pytest.mark.parametrize("path", KEYS)
def test_the_document_has_its_keys(document: dict, path: str):
    part = document
    for step in path.split(".") if path else []:
        part = part[step]
    assert set(part) == KEYS[path]


def test_money_and_rates_are_strings_and_measures_numbers(document: dict):
    for line in document["quote"]["lines"]:
        assert set(line) == {"label", "class", "quantity", "unit", "rate", "amount"}
        assert isinstance(line["rate"], str)
        assert re.fullmatch(r"-?\d+\.\d\d", line["amount"])
        assert isinstance(line["quantity"], int | float)
    assert isinstance(document["top"]["area"], int | float)


def test_neighbours_abut_to_the_last_figure():
    """Thirds of an inch are rounded by their edges: what one ends at, the next begins at."""
    data = json.loads(quote_json(quoted("[top]\nwidth = '100 1/3'\nlength = '92 2/3'\n")))
    for option in data["backing"]["options"]:
        edges = {round(piece["x"], 3) for piece in option["assembly"]} | {
            round(piece["y"], 3) for piece in option["assembly"]
        }
        for piece in option["assembly"]:
            for start, size, whole in (
                ("x", "width", data["backing"]["needed"]["width"]),
                ("y", "length", data["backing"]["needed"]["length"]),
            ):
                end = round(piece[start] + piece[size], 3)
                assert end in edges or end == whole


def test_each_default_names_the_line_it_stands_on(document: dict):
    for default in document["defaults"]:
        lines = (ROOT / default["file"]).read_text(encoding="utf-8").splitlines()
        key = default["key"].rsplit(".", 1)[-1]
        named = {key, "unit"} if key == "per" else {key}
        if key == "preset" or default["key"].startswith("rates.quilting."):
            named = {default["key"].split(".")[-2]}
        assert any(name in lines[default["line"] - 1] for name in named), default


def test_the_document_is_safe_to_print():
    nasty = '"\\u007f \\u0085 \\u202e \\u001b"'
    text = quote_json(quoted(f"title = {nasty}\n{TOP}"))
    assert not {"\x7f", "\x85", "\u202e", "\x1b"} & set(text)
    assert json.loads(text)["title"] == "\x7f \x85 \u202e \x1b"


# --- what a reviewer found ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("currency", "price", "markup", "rate"),
    [("JPY", "0.3", "40 %", "0.42"), ("EUR", "0.124", "0 %", "0.124"), ("USD", "0.005", "0 %", "0.005")],
)
def test_small_prices_are_sold_at_what_they_are(currency: str, price: str, markup: str, rate: str, tmp_path: Path):
    """The selling price is exact: only the line is rounded (price x (1 + markup); derived)."""
    shop = tmp_path / "shop.toml"
    shop.write_text(
        f"[money]\ncurrency = '{currency}'\n[rates]\nmarkup = '{markup}'\nminimum = 75\n"
        f"[fabrics.cotton-44]\nprice = '{price}'\nper = 'in'\nstep = '1 in'\n"
    )
    data = json.loads(quote_json(quoted(TOP, shop)))
    (line,) = (line for line in data["quote"]["lines"] if "cotton, 44" in line["label"])
    assert line["rate"] == rate
    exact = Decimal(str(line["quantity"])) * Decimal(rate)
    places = Decimal(1) if currency == "JPY" else Decimal("0.01")
    assert Decimal(line["amount"]) == exact.quantize(places, ROUND_HALF_UP)


def test_the_deposit_goes_by_its_classes_and_not_by_the_lines_there_are(tmp_path: Path):
    """Half of the labour before tax, whether or not there is material beside it."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[deposit]\npercent = '50 %'\nclasses = ['labour']\n[[tax]]\nlabel = 'T'\npercent = '10 %'\n"
                    "classes = ['labour', 'material']\n")  # fmt: skip
    bare = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
    # 60 x 80 at 0.03 a sq in is 144.00; half of it 72.00
    for extra in ("", "[charges]\nextras = ['thread']\n"):
        quote = quoted(TOP + bare + extra, shop).quote
        assert quote.deposit.minor == 7200


def test_a_minimum_that_is_just_reached_is_no_minimum():
    """50 x 50 at 0.03 is 75.00, the sample minimum: the quilting is billed by area."""
    result = quoted("[top]\nwidth = 50\nlength = 50\n")
    assert result.quote.lines[0].unit == "sq in"
    assert quoted("[top]\nwidth = 50\nlength = 49\n").quote.lines[0].unit == "each"


def test_the_neighbours_of_a_backing_are_named():
    """73 x 90 has three seams: what it takes with one less stands beside it; one more saves no cloth. 60 x 84 has one:
    two take less cloth."""
    text = " ".join(page("[top]\nwidth = 73\nlength = 90\n").split())
    assert re.search(r"or: [0-9 /]+ yd with 2 seams", text)
    assert "with 4 seams" not in text
    assert re.search(r"or: [0-9 /]+ yd with 2 seams", " ".join(page("[top]\nwidth = 60\nlength = 84\n").split()))


@pytest.mark.parametrize(("centre", "told"), [("any", False), ("panel", True)])
def test_what_a_seam_off_the_middle_costs_is_said_where_it_costs(centre: str, told: bool):
    """60 x 80 with seams lengthwise: a full panel and two halves cover 68 as two panels do, so nothing is said; 71 x 80
    needs 79, the two panels' own limit, which halves (78) do not reach: a third panel."""
    for width, costs in ((60, False), (71, True)):
        cloth = "fabric = { preset = 'cotton-44', directional = true }\nseams = 'lengthwise'\n"
        text = f"[top]\nwidth = {width}\nlength = 80\n[backing]\ncentre = '{centre}'\n{cloth}"
        codes = [each.code for each in quoted(text).cautions]
        assert ("centre-panel" in codes) == (told and costs)


def test_mistakes_on_one_long_line_take_no_more_room_than_they_are():
    """4,000 unknown keys on one line: the answer stays short, and each problem shows a part of the line."""
    keys = ", ".join(f"k{n} = 1" for n in range(4000))
    with pytest.raises(ProblemsFound) as found:
        resolve(Source("t", f"top = {{ width = 60, length = 80, {keys} }}\n"))
    text = problems_json(found.value.problems)
    assert 100 <= len(found.value.problems) <= 200
    assert len(text) < 300_000
    assert "k100 = 1" in found.value.problems[100].excerpt


def test_an_empty_folder_name_is_a_usage_error():
    assert run("cut", str(CLOTH), "--svg", "").exit_code == 2
