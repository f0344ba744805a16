"""The printed page: what a person with a calculator finds in it, and what it must never show or obey."""

import csv
import io
import json
import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from wcwidth import wcswidth, wcwidth

from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import Resolved, Run, resolve
from finishcalc.intake.source import Source
from finishcalc.pipeline import Finishing, finish
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.pages.cut import picture_files
from finishcalc.rendering.writers.text_tables import columns
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import Audience
from tests.builders import (
    CM_TOP,
    GOLDEN,
    PROJECTS,
    ROOT,
    TOP,
    cut_text,
    finished,
    layered,
    page,
    quote_text,
    quoted,
    replace,
    run,
)
from tests.strategies import examples

# --- the sheet, added up again -----------------------------------------------------------------------------------


class Row(NamedTuple):
    """A row of the price table as it is printed: six cells, the label with its further lines."""

    label: str
    quantity: str
    unit: str
    rate: str
    mark: str
    amount: str


def grid(line: str) -> str:
    """The line with each wide character followed by a filler, so that a place in it is a column."""
    return "".join(char + "\0" * (wcwidth(char) - 1) for char in line)


def price_table(sheet: str) -> list[Row]:
    """Cut the table at the columns that its head marks."""
    lines = sheet.split("\n")
    top = next(n for n, line in enumerate(lines) if re.fullmatch(r" +Qty +Unit +Rate +Amount", line))
    head = lines[top]
    quantity, unit, rate, amount = (head.index(word) for word in ("Qty", "Unit", "Rate", "Amount"))
    rows: list[Row] = []
    for line in lines[top + 1 :]:
        if not line or line.startswith("= "):
            break
        row = grid(line)
        if len(row) < amount + len("Amount"):
            assert row.startswith(" "), line
            rows[-1] = rows[-1]._replace(label=rows[-1].label + row)
            continue
        assert len(row) == amount + len("Amount"), line
        before = row[: quantity + len("Qty")]
        label, _, count = before.rpartition("  ") if before[-1] != " " else (before, "", "")
        rest = row[rate + len("Rate") :].strip()
        between = row[unit : rate + len("Rate")]
        named = re.match(r"(?:sq )?\S*", between)[0]  # type: ignore[index]
        shown = between[len(named) :].strip()
        mark = "*" if rest.startswith("*") else ""
        rows.append(Row(label.replace("\0", "").strip(), count.strip(), named, shown, mark, rest.strip("* ")))
    return rows


class Signs(NamedTuple):
    """How a shop writes its money."""

    decimal: str
    group: str
    digits: int


def number(text: str, signs: Signs) -> Fraction:
    """A printed number: the mixed fractions of yards, or digits with the shop's signs."""
    if "/" in text:
        return sum((Fraction(part) for part in text.split()), Fraction(0))
    plain = text.replace(signs.group, "") if signs.group else text
    return Fraction(plain.replace(signs.decimal, ".").removesuffix("%").strip())


def half_up(value: Fraction, digits: int) -> Fraction:
    """To the minor unit, halves away from zero, by Python's own decimals."""
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    return Fraction(exact.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP))


def re_add(sheet: str, signs: Signs) -> dict[str, Fraction]:
    """Redo the sheet from the top, with nothing but what it prints. Gives the sums by their labels."""
    rows, sums = price_table(sheet), {}
    running = Fraction(0)
    for row in rows:
        amount = number(row.amount, signs)
        label = row.label.split(",")[0]
        if row.quantity:
            rate = number(row.rate, signs) / (100 if row.rate.endswith("%") else 1)
            exact = number(row.quantity, signs) * rate
            held = row.label.startswith("of which")
            if held:
                exact = exact / (1 + rate)
            assert half_up(exact, signs.digits) == amount, row
            running += 0 if held else amount
            continue
        sums[label] = amount
        if label in ("Subtotal", "Total"):
            assert amount == running, row
        elif label == "Rounded for cash":
            running += amount
    if "Deposit" in sums:
        assert sums["Deposit"] + sums["Balance"] == sums["Total"]
        share = next((row.rate for row in rows if row.label == "Deposit"), "")
        if share:
            asked = half_up(sums["Total"] * number(share, signs) / 100, signs.digits)
            assert sums["Deposit"] == min(asked, sums["Total"])
    return sums


INCH_SIGNS, METRIC_SIGNS = Signs(".", ",", 2), Signs(",", ".", 2)


WORKED = [GOLDEN / f"{name}.toml" for name in ("small-studio", "by-the-hour", "every-charge")]


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", [*PROJECTS, *WORKED], ids=lambda path: path.stem)
@pytest.mark.parametrize("audience", ["customer", "studio"])
def test_every_sample_sheet_adds_up(path: Path, audience: Audience):
    result = finished(path)
    signs = METRIC_SIGNS if result.resolved.project.units == "cm" else INCH_SIGNS
    sums = re_add(quote_text(result, audience), signs)
    assert sums["Subtotal"] == result.quote.subtotal.major
    assert {"Subtotal", "Total"} <= set(sums)


def test_the_adding_up_can_fail():
    """A sheet with a cent too much on any one of its amounts does not add up."""
    sheet = page(TOP + "[charges]\nrush = '10 %'\n")
    re_add(sheet, INCH_SIGNS)
    rows = price_table(sheet)
    assert len(rows) >= 8
    for row in rows:
        wrong = f"{Decimal(row.amount) + Decimal('0.01')}".rjust(len(row.amount))
        lines = [
            line[: -len(row.amount)] + wrong if line.startswith(row.label[:20]) and line.endswith(row.amount) else line
            for line in sheet.split("\n")
        ]
        assert "\n".join(lines) != sheet
        with pytest.raises(AssertionError):
            re_add("\n".join(lines), INCH_SIGNS)


CURRENCIES = {"USD": (2, ".", ","), "EUR": (2, ",", "."), "CHF": (2, ".", "'"), "JPY": (0, ".", ","),
              "KWD": (3, ".", ""), "SEK": (2, ",", " ")}  # fmt: skip
"""Minor units by ISO 4217; signs as they are common where the currency is."""

eighths = st.integers(8 * 20, 8 * 118).map(lambda n: f'"{n // 8} {n % 8}/8"' if n % 8 else str(n // 8))
millimetres = st.integers(500, 3000).map(lambda n: f"{n // 10}.{n % 10}")
shares = st.integers(0, 4000).map(lambda n: f'"{Decimal(n) / 100} %"')
counts = st.integers(1, 4000).map(lambda n: f'"{Decimal(n) / 100}"')
classes = st.sampled_from(['["labour"]', '["material"]', '["labour", "material"]', '["labour", "pass-through"]'])
attached = st.sampled_from(['"front"', '"machine"', '"hand"', '"faced"', '"hem"', '"none"'])
THREAD_BY = {units: ["cone", "colour", units, f"sq {units}"] for units in ("in", "cm")}
EXTRAS = ("label", "sleeve", "thread", "pressing")


@st.composite
def jobs(draw: st.DrawFn) -> tuple[str, str, Signs]:
    """A project and a shop file with rates of many decimals, in inches or centimetres, in any of the currencies."""
    units = draw(st.sampled_from(["in", "cm"]))
    sizes = eighths if units == "in" else millimetres
    code = draw(st.sampled_from(sorted(CURRENCIES)))
    digits, decimal, group = CURRENCIES[code]
    extras = draw(st.lists(st.sampled_from(EXTRAS), max_size=3, unique=True))
    ordered = ", ".join(f'{{ name = "{name}", quantity = {draw(counts)} }}' for name in extras)
    off = f'"{Decimal(draw(st.integers(0, 99999))).scaleb(-digits):f}"'
    discount = draw(st.sampled_from([f"discount = {draw(shares)}", f"discount_amount = {off}"]))
    project = (
        f'units = "{units}"\n[top]\nwidth = {draw(sizes)}\nlength = {draw(sizes)}\n'
        f"[binding]\nattach = {draw(attached)}\n"
        f"[charges]\nrush = {draw(shares)}\n{discount}\nextras = [{ordered}]\n"
        f"discount_classes = {draw(classes)}\n"
        f'[[charges.lines]]\nlabel = "Postage"\nprice = {draw(counts)}\nline_class = "pass-through"\n'
    )
    included = str(draw(st.booleans())).lower()
    coin = draw(st.sampled_from([0, 0, 1, 10]))
    minor = Decimal(coin).scaleb(-digits)
    shop = (
        f'[money]\ncurrency = "{code}"\ndecimal = "{decimal}"\ngroup = "{group}"\ncash_rounding = "{minor:f}"\n'
        f"[rates]\nminimum = {draw(st.sampled_from([0, 50, 400]))}\nmarkup = {draw(shares)}\n"
        f'seam = {{ each = "7.255", along = "0.0{draw(st.integers(1, 99))}", per = "{units}" }}\n'
        f'thread = {{ price = {draw(counts)}, per = "{draw(st.sampled_from(THREAD_BY[units]))}" }}\n'
        f'[rates.quilting]\nedge-to-edge = "0.0{draw(st.integers(101, 999))}"\n'
        f'[rates.binding]\nmake = "0.0{draw(st.integers(11, 99))}"\n'
        f'[[tax]]\nlabel = "Tax"\npercent = {draw(shares)}\nincluded = {included}\n'
        f"classes = {draw(classes)}\n"
        f"[deposit]\npercent = {draw(shares)}\n"
    )
    return project, shop, Signs(decimal, group, digits)


@examples(120)
@given(jobs())
def test_every_sheet_adds_up_in_any_currency(tmp_path_factory: pytest.TempPathFactory, job: tuple[str, str, Signs]):
    project, shop, signs = job
    path = tmp_path_factory.mktemp("shops") / "shop.toml"
    path.write_text(shop, encoding="utf-8")
    result = quoted(project, path)
    sums = re_add(quote_text(result, "customer"), signs)
    assert sums["Total"] == result.quote.total.major
    quote = json.loads(quote_document(result, "customer"))["quote"]
    lines = sum(Fraction(line["amount"]) for line in quote["lines"])
    added = sum(Fraction(tax["amount"]) for tax in quote["tax"] if not tax["included"])
    assert lines + added + Fraction(quote["cash_rounding"]) == Fraction(quote["total"]) == sums["Total"]


def test_a_spreadsheet_has_the_totals_that_add_up(tmp_path: Path):
    """Each row of a comparison is the total of the quote of that size, whose lines are added again."""
    path = tmp_path / "cover.toml"
    charges = (
        "[charges]\ndiscount_amount = 7\n[[charges.lines]]\nlabel = 'P'\nprice = 28\nline_class = 'pass-through'\n"
    )
    path.write_text("[top.covers]\nbed = 'twin'\n" + charges, encoding="utf-8")
    text = run("compare", str(path), "--as", "twin", "--as", "queen", "--csv").stdout
    totals = {row["as"]: Fraction(row["total"]) for row in csv.DictReader(io.StringIO(text))}
    for name in ("twin", "queen"):
        path.write_text(f"[top.covers]\nbed = '{name}'\n" + charges, encoding="utf-8")
        sums = re_add(run("quote", str(path), "--for", "customer").stdout, INCH_SIGNS)
        assert totals[name] == sums["Total"]


def test_a_minimum_charge_is_one_line_that_adds_up():
    """20 x 20 = 400 sq in x 0.03 = 12.00, below the sample shop's minimum of 75: the line is the minimum, once."""
    rows = price_table(page("[top]\nwidth = 20\nlength = 20\n"))
    assert rows[0][1:] == ("1", "each", "75.00", "*", "75.00")
    assert rows[0].label.endswith("minimum charge")


FINE_SHARES = ["1/3 %", "12.3456 %", "0.0004 %"]


@pytest.mark.parametrize("charge", ["rush", "discount", "tax", "deposit"])
@pytest.mark.parametrize("share", FINE_SHARES)
def test_a_share_of_many_decimals_adds_up_as_it_is_printed(charge: str, share: str, tmp_path: Path):
    """A minimum of 270,000 is the only labour; 1/3 % of it is 900.00, but 0.333 % of it is 899.10."""
    none = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
    shop = tmp_path / "shop.toml"
    text = "[rates]\nminimum = 270000\n[taxing]\nclasses = ['labour']\n"
    if charge == "tax":
        text += f"[[tax]]\nlabel = 'Tax'\npercent = '{share}'\n"
    if charge == "deposit":
        text += f"[deposit]\npercent = '{share}'\n"
    shop.write_text(text, encoding="utf-8")
    charges = f"[charges]\n{charge} = '{share}'\n" if charge in ("rush", "discount") else ""
    try:
        result = quoted(TOP + none + charges, shop)
    except ProblemsFound:
        return  # such a share may also be refused
    re_add(quote_text(result, "customer"), INCH_SIGNS)


# --- marks -------------------------------------------------------------------------------------------------------

OWN_MATERIALS = """
[fabrics.own-wide-cloth]
name = "own wide cloth"
width = 108
price = 21
per = "yd"
[fabrics.own-cloth]
name = "own cloth"
width = 44
price = 9
per = "yd"
[battings.own-batting]
name = "own batting"
packages = [{ size = "large", width = 100, length = 110, price = 30 }]
[methods.own-way]
name = "own way"
stages = [{ name = "all of it", each = "quilt", low = 1, likely = 2, high = 3, attended = "100 %" }]
"""


def own_shop() -> str:
    """The sample shop in inches as a studio's own, with materials of its own: every figure is given."""
    text = (ROOT / "presets" / "shops" / "inch.toml").read_text(encoding="utf-8")
    for preset, own in (
        ("cotton-44", "own-cloth"),
        ("cotton-blend", "own-batting"),
        ("longarm-hand-guided", "own-way"),
    ):
        text = re.sub(rf'^(\w+ = )"{preset}"', rf'\1"{own}"', text, flags=re.M)
    text = text.replace('wider = ["cotton-wide-108", "cotton-wide-118"]', 'wider = "own-wide-cloth"')
    return text + OWN_MATERIALS


WITHOUT = {
    'edge-to-edge = "0.03"': {"Quilting"},
    "seam = 20": {"Backing seams sewn"},
    'make = "0.05"': {"Binding made"},
    'machine = "0.25"': {"Binding sewn on by machine"},
    'markup = "40 %"': {"Own cloth", "Batting"},
    '[[tax]]\nlabel = "Sales tax"\npercent = "5 %"': {"Sales tax"},
    'percent = "50 %"': {"Deposit"},
    'label = "Label, sewn on"\nprice = 8': {"Label"},
}
"""What is taken out of the shop file, and the rows that then rest on a sample."""

WITH_LABEL = TOP + '[charges]\nextras = ["label"]\n'


def marked(shop: Path) -> tuple[set[str], str]:
    sheet = page(WITH_LABEL, shop=shop)
    return {row.label.split(",")[0] for row in price_table(sheet) if row.mark}, sheet


def test_a_shop_with_every_figure_has_no_mark_anywhere(tmp_path: Path):
    path = tmp_path / "own.toml"
    path.write_text(own_shop(), encoding="utf-8")
    found, sheet = marked(path)
    assert found == set()
    assert "*" not in sheet
    for audience in ("customer", "studio"):
        assert "sample" not in page(WITH_LABEL, audience, shop=path).replace("Sample studio", "")


@pytest.mark.parametrize(
    "arguments",
    [
        ("compare", "--as", "twin"),
        ("compare", "--as", "twin", "--markdown"),
        ("compare", "--as", "twin", "--chart"),
        ("compare", "--as", "twin", "--grid", "--cloth", "own-cloth", "--cloth", "own-wide-cloth"),
        ("quote", "--set", "backing.overage=4", "--set", "backing.overage=5"),
    ],
)
def test_nor_has_a_comparison_of_such_a_shop(arguments: tuple[str, ...], tmp_path: Path):
    (tmp_path / "own.toml").write_text(own_shop(), encoding="utf-8")
    (tmp_path / "t.toml").write_text("shop = 'own.toml'\n" + TOP, encoding="utf-8")
    page = run(arguments[0], str(tmp_path / "t.toml"), *arguments[1:])
    assert page.exit_code == 0, page.stderr
    assert "*" not in page.stdout.replace("**", "")  # which makes a label bold in Markdown
    assert "sample" not in page.stdout


@pytest.mark.parametrize("gone", WITHOUT)
def test_exactly_the_rows_that_rest_on_a_sample_are_marked(gone: str, tmp_path: Path):
    text = own_shop()
    assert text.count(gone) == 1
    path = tmp_path / "own.toml"
    path.write_text(text.replace(gone, ""), encoding="utf-8")
    found, sheet = marked(path)
    assert found == WITHOUT[gone]
    assert "* based on a sample rate" in sheet


def test_a_sample_deposit_by_shares_is_marked(tmp_path: Path):
    """A sample shop that asks half of the labour and all of the material, in place of a share of the total."""
    own = tmp_path / "own.toml"
    own.write_text(own_shop().replace('percent = "50 %"', ""), encoding="utf-8")
    asked = resolve(Source("t.toml", TOP), str(own))
    sample = asked.layers.values["deposit", "percent"]
    values = {path: sourced for path, sourced in asked.layers.values.items() if path != ("deposit", "percent")}
    for name, share in (("labour", Fraction(1, 2)), ("material", Fraction(1))):
        values["deposit", "shares", name] = sample._replace(value=share)
    result = finish(
        Resolved(layered(values), "t", "in", asked.foreign_samples, asked.namesakes, Run(Source("t.toml", TOP)))
    )
    sheet = quote_text(result, "customer")
    assert [row.label.startswith("Deposit") for row in price_table(sheet) if row.mark] == [True]
    assert "* based on a sample rate" in sheet


@pytest.mark.parametrize("text", [WITH_LABEL, CM_TOP + '[charges]\nextras = ["label"]\n'], ids=["inch", "metric"])
def test_without_a_shop_file_every_rate_is_marked(text: str):
    for row in price_table(page(text)):
        assert bool(row.mark) == (row.label.split(",")[0] not in ("Subtotal", "Total", "Balance")), row


# --- who may see what --------------------------------------------------------------------------------------------

IN_HOUSE = {
    "wage": ("wage = 30 ", "wage = 41.37 ", "41.37"),
    "markup": ('markup = "40 %"', 'markup = "37.31 %"', "37.31"),
    "minutes_each": ("minutes_each = 6", "minutes_each = 7.53", "7.53"),
    "minutes_along": ('minutes_along = "0.08"', 'minutes_along = "0.0617"', "0.062"),
    "cloth price": ("price = 9\n", "price = 9.43\n", "9.43"),
    "batting price": ("length = 110, price = 30", "length = 110, price = 31.91", "31.91"),
    "stage": ("low = 1, likely = 2, high = 3", "low = 211, likely = 337, high = 449", "337"),
}
"""For each of the studio's own figures: what stands in the shop, what it is made, and how it would be printed."""

STUDIO_WORDS = ("cost", "markup", "wage", "minute", "margin", " min ", "profit")


@pytest.fixture
def odd_shop(tmp_path: Path) -> Path:
    """A shop in which each in-house figure is one that nothing else could be mistaken for."""
    text = own_shop()
    for before, after, _ in IN_HOUSE.values():
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    path = tmp_path / "odd.toml"
    path.write_text(text, encoding="utf-8")
    return path


def own_words(sheet: str) -> str:
    """The page without the names of files, which the reader chose."""
    return re.sub(r"\S+\.\s*toml:\d+", "", sheet)


@pytest.mark.parametrize("explain", [False, True])
@pytest.mark.parametrize("text", [WITH_LABEL, TOP + "[backing]\nhave = '5 yd'\n", TOP + "[binding]\nattach = 'none'\n"])
def test_the_customer_s_page_holds_nothing_of_the_studio_s(text: str, explain: bool, odd_shop: Path):
    sheet = own_words(quote_text(quoted(text, odd_shop), "customer", explain, 300, defaults=explain))
    for word in STUDIO_WORDS:
        assert word not in sheet.lower()
    for _, _, shown in IN_HOUSE.values():
        assert not re.search(rf"(?<![\d.,:]){re.escape(shown)}", sheet), shown


def test_the_studio_s_page_holds_all_of_it(odd_shop: Path):
    sheet = quote_text(quoted(WITH_LABEL, odd_shop), "studio", True, defaults=True)
    for word in ("Cost", "markup", "wage", "Minutes"):
        assert word in sheet
    for name, (_, _, shown) in IN_HOUSE.items():
        assert re.search(rf"(?<![\d.,]){re.escape(shown)}", sheet), name


@pytest.mark.parametrize("explain", [False, True])
def test_the_cloth_s_cost_is_not_on_the_customer_s_page(explain: bool, odd_shop: Path):
    """What was bought for the cloth, by hand from the studio's page: amount x 9.43."""
    result = quoted(WITH_LABEL, odd_shop)
    cost = str(result.plans.cloth[0].cost)
    assert Fraction(cost) == half_up(result.plans.cloth[0].amount.to("yd") * Fraction("9.43"), 2)
    assert cost in quote_text(result, "studio", explain)
    assert cost not in quote_text(result, "customer", explain)


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
@pytest.mark.parametrize("explain", [False, True])
def test_no_sample_page_for_a_customer_speaks_of_cost_or_minutes(path: Path, explain: bool):
    sheet = own_words(quote_text(finished(path), "customer", explain, defaults=explain)).lower()
    for word in STUDIO_WORDS:
        assert word not in sheet


# --- units -------------------------------------------------------------------------------------------------------

INCHES = re.compile(r"[\d½¼¾⅛] ?(?:sq )?(?:in|inch|inches|ft|feet|yd|yards?)(?![\w-])")
STYLES = ("open-meander", "medium-pantograph", "dense-pantograph", "custom")


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("use", ["tablecloth", "bed", "crib"])
def test_a_metric_project_prints_no_inch(use: str, style: str):
    result = quoted(f"{CM_TOP}use = '{use}'\n[quilting]\nstyle = '{style}'\n")
    texts = [
        quote_text(result, "studio", True, defaults=True),
        quote_document(result),
        cut_text(result),
        *picture_files(result).values(),
    ]
    for text in texts:
        found = [text[max(match.start() - 30, 0) : match.end() + 20] for match in INCHES.finditer(text)]
        assert not found


def test_an_inch_project_does():
    """The pattern finds inches where there are some."""
    assert len(INCHES.findall(page(TOP, "studio", True))) > 20


# --- text of the file --------------------------------------------------------------------------------------------

BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""All of Bidi_Control: UAX 9."""
HOSTILE = "a\x07\x1b[31m\x9b2J\x7f\r\u2028" + BIDI + "z"
OBEYED = set("\x07\x1b\x9b\x7f\r\u2028\u2029\t") | set(BIDI)


def basic(text: str) -> str:
    """A TOML string in which whatever is no plain letter is an escape."""
    return '"' + "".join(char if char.isalnum() else f"\\u{ord(char):04x}" for char in text) + '"'


EVIL = basic(HOSTILE)
ONE_LINE = basic(HOSTILE.replace("\r", ""))
EVIL_PROJECT = f"""title = {ONE_LINE}
[customer]
name = {ONE_LINE}
[job]
number = {ONE_LINE}
thread = {ONE_LINE}
notes = {EVIL}
{TOP}
[backing]
fabric = {{ preset = "cotton-44", name = {ONE_LINE} }}
[batting]
product = {{ preset = "cotton-blend", name = {ONE_LINE}, packages = [
  {{ size = {ONE_LINE}, width = 90, length = 108, price = 31 }}] }}
[binding]
fabric = {{ preset = "cotton-44", name = {ONE_LINE} }}
[quilting]
style = {{ preset = "open-meander", name = {ONE_LINE} }}
method = {{ name = {ONE_LINE}, stages = [
  {{ name = {ONE_LINE}, each = "quilt", low = 1, likely = 2, high = 3, attended = "100 %" }}] }}
[charges]
extras = [{ONE_LINE}]
"""
EVIL_SHOP = f"""[studio]
name = {ONE_LINE}
contact = [{ONE_LINE}]
place = {ONE_LINE}
terms = {EVIL}
[money]
symbol = {ONE_LINE}
[[tax]]
label = {ONE_LINE}
percent = "5 %"
[extras.{ONE_LINE}]
label = {ONE_LINE}
price = 8
per = "each"
line_class = "labour"
"""


@pytest.fixture
def evil_shop(tmp_path: Path) -> Path:
    path = tmp_path / "shop.toml"
    path.write_text(EVIL_SHOP, encoding="utf-8")
    return path


@pytest.mark.parametrize("place", ["customer", "studio", "json", "cut", "pictures"])
def test_no_character_of_a_file_is_obeyed(place: str, evil_shop: Path):
    """Every text that a file may hold, in every output: shown as an escape, and the page stays readable."""
    result = quoted(EVIL_PROJECT, evil_shop)
    text = {
        "customer": lambda: quote_text(result, "customer", True, defaults=True),
        "studio": lambda: quote_text(result, "studio", True, defaults=True),
        "json": lambda: quote_document(result),
        "cut": lambda: cut_text(result),
        "pictures": lambda: "".join(picture_files(result).values()),
    }[place]()
    found = set(text) & OBEYED
    assert not found, {f"{char!a}": text[max(text.index(char) - 60, 0) : text.index(char) + 20] for char in found}
    if place != "pictures":
        assert "\\u001b" in text


@pytest.mark.parametrize("audience", ["customer", "studio"])
def test_a_hostile_label_does_not_make_or_hide_a_line(audience: Audience):
    """A title with a carriage return and an escape is one line, and everything below still stands."""
    honest, sheet = (page(f"title = {basic(name)}\n{TOP}", audience) for name in ("x", "x\x1b[2J\x7f"))
    assert sheet.split("\n")[1:] == honest.split("\n")[1:]
    assert "\\u001b[2J" in sheet.split("\n")[0]


BRACES = "{cost} {0} %s {{x}} \\\\n"


def test_braces_and_per_cent_signs_in_names_are_only_text():
    """Sentences are filled by name; what is filled in is never filled again."""
    text = TOP + f"[backing]\nfabric = {{ preset = 'cotton-44', name = '{BRACES}' }}\n[customer]\nname = '{BRACES}'\n"
    sheet = " ".join(page(text, "studio", True).split())
    assert sheet.count(BRACES) >= 4


WIDE = ["綿の裏地", "綿とリネンの丈夫な裏地 108", "ｗｉｄｅ ｔｅｘｔ", "한국 면직물 안감", "e\u0301toffe brode\u0301e"]


@pytest.mark.parametrize("name", WIDE)
@pytest.mark.parametrize("audience", ["customer", "studio"])
def test_wide_characters_keep_the_columns(name: str, audience: Audience):
    """Each row of figures ends in the same column, and each cell stands where the head says."""
    sheet = page(f"title = '{name}'\n{TOP}[backing]\nfabric = {{ preset = 'cotton-44', name = '{name}' }}\n", audience)
    assert max(wcswidth(line) for line in sheet.splitlines()) <= 80
    lines = sheet.split("\n")
    top = next(n for n, line in enumerate(lines) if line.endswith("Rate     Amount"))
    end = lines.index("", top)
    ends = {wcswidth(line) for line in lines[top:end] if re.search(r"\d$", line) and not line.startswith(" ")}
    assert ends == {wcswidth(lines[top])}


def test_wide_names_in_the_table_of_minutes_keep_its_columns():
    stage = "{ name = '裁断とアイロン', each = 'quilt', low = 1, likely = 2, high = 3, attended = '100 %' }"
    sheet = page(f"{TOP}[quilting]\nmethod = {{ name = 'own', stages = [{stage}] }}\n", "studio")
    lines = sheet.split("\n")
    head = next(n for n, line in enumerate(lines) if line.startswith("Minutes"))
    assert {wcswidth(line) for line in lines[head : head + 3]} == {wcswidth(lines[head])}


def test_notes_keep_their_lines_and_blank_lines_do_not_split_the_head():
    notes = (
        "First line.\nSecond line, which is long enough that it has to be wrapped onto a further line of the page.\n"
    )
    sheet = page(f"[job]\nnotes = '''{notes}'''\n{TOP}")
    head = sheet.split("\n\n")[0].split("\n")
    place = head.index("First line.")
    assert head[place + 1].startswith("Second line, which")
    assert " ".join(head[place + 1 :]) == notes.split("\n")[1]


def test_windows_line_ends_in_notes_are_line_ends():
    sheet = page(f'[job]\nnotes = "First.\\r\\nSecond."\n{TOP}')
    assert "First.\nSecond.\n" in sheet


def test_terms_keep_their_lines():
    text = (ROOT / "presets" / "shops" / "inch.toml").read_text(encoding="utf-8")
    assert 'terms = ""' in text
    result = quoted(TOP)
    studio = result.resolved.shop.studio.replace(terms="Pay on collection.\nNo pets were near it.", days_valid=0)
    renamed = replace(result.resolved, shop=result.resolved.shop._replace(studio=studio))
    sheet = quote_text(result._replace(resolved=renamed), "customer")
    assert sheet.endswith("Terms       Pay on collection.\n            No pets were near it.\n")


ORDERS = {"year-month-day": "2026-05-04", "day-month-year": "4 May 2026", "month-day-year": "May 4, 2026"}


@pytest.mark.parametrize(("order", "shown"), ORDERS.items())
def test_a_date_is_written_in_the_shop_s_order(order: str, shown: str, tmp_path: Path):
    """The month in words wherever two numbers could be taken for each other; 30 days on is 3 June: 4 + 30 - 31."""
    shop = tmp_path / "shop.toml"
    shop.write_text(f"[money]\ndate_order = '{order}'\n", encoding="utf-8")
    sheet = page(f"[job]\ndate = 2026-05-04\n{TOP}", shop=shop)
    assert re.search(rf"^{shown}$", sheet, re.M)
    until = {"year-month-day": "2026-06-03", "day-month-year": "3 June 2026", "month-day-year": "June 3, 2026"}[order]
    assert f"until {until}." in sheet


@pytest.mark.parametrize(
    ("top", "shown"), [(TOP, "May 4, 2026; due June 1, 2026"), (CM_TOP, "4 May 2026; due 1 June 2026")]
)
def test_the_day_it_is_due_is_written_as_the_date_is(top: str, shown: str):
    """Each sample shop in its own order."""
    units, _, rest = top.rpartition("[top]")
    assert shown in page(f"{units}[job]\ndate = 2026-05-04\ndue = 2026-06-01\n[top]{rest}")


def test_a_shop_whose_decimal_and_group_signs_are_the_same_is_refused(tmp_path: Path):
    """1.234.50 could be read as anything."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[money]\ndecimal = '.'\ngroup = '.'\n", encoding="utf-8")
    with pytest.raises(ProblemsFound) as found:
        quoted(TOP, shop)
    assert {problem.file for problem in found.value.problems} == {str(shop)}
    assert found.value.problems[0].line in (2, 3)


def test_a_figure_in_somebody_s_words_keeps_its_unit():
    assert Notation("in").show("cloth, 44 in wide, 2 m 50 cm or 3 yards") == (
        f"cloth, 44{NO_BREAK}in wide, 2{NO_BREAK}m 50{NO_BREAK}cm or 3 yards"
    )


LONG_TABLE = PROJECTS[0].parent / "orchard-long-table.toml"
"""A backing with two seams leads there, and one with a seam less is dearer."""


def test_an_option_is_told_with_the_total_of_the_quote_that_takes_it():
    """What the studio's page says to write, tried, comes to what both pages say; the customer reads no key."""
    studio = " ".join(run("quote", str(LONG_TABLE), "--for", "studio").stdout.split())
    options = studio[studio.index(" Options ") : studio.index(" * based on")]
    told = re.findall(
        r"\$([\d,.]+)(?: \*)?(?: \(your (?:cost|materials) [^)]*\))?; to take it: (\S+=.*?)(?= [A-Z]|$)", options
    )
    assert len(told) == 5
    customer = " ".join(run("quote", str(LONG_TABLE)).stdout.split())
    assert "to take it" not in customer
    for total, keys in told:
        settings = [part for each in re.split(r", (?=\w+\.\w+=)", keys) for part in ("--set", each)]
        taken = run("quote", str(LONG_TABLE), *settings)
        assert taken.exit_code == 0, taken.stderr
        assert re.search(rf"^Total, USD +{re.escape(total)}$", taken.stdout, re.M), keys
        assert f": ${total}" in customer


def test_a_backing_with_a_seam_less_is_an_option():
    """50 + 8 in of width from 40 in of cloth is 2 panels of 116 + 8 in and 1 seam, 249 in with the squaring: 7 yd."""
    assert "Backing of 7 yd with 1 seam" in " ".join(run("quote", str(LONG_TABLE)).stdout.split())


# --- what the customer decides on --------------------------------------------------------------------------------

MOST_LINES = {"every-key": 60, "harbour-check-cloth": 60, "on-point-throw": 60, "lighthouse-bed-quilt": 60}
"""The most lines at 80 columns where a project has more to tell: it is pieced, or has every key. Else 50."""


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_the_customer_s_page_is_short(path: Path):
    lines = quote_text(finished(path), "customer").splitlines()
    assert len(lines) <= MOST_LINES.get(path.stem, 50)


NOT_HERS = re.compile(
    r"usable width|perimeter|\d bobbin|\d pass|of thread|stitching|\d strips|cut \d|presets/|\.toml|on the diagonal"
)
"""Words for the cutting table, the machine and the files."""


@pytest.mark.usefixtures("shared_work")
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_the_customer_s_page_leaves_out_cutting_and_machines(path: Path):
    result = finished(path)
    assert NOT_HERS.findall(" ".join(quote_text(result, "customer").split())) == []
    assert len(set(NOT_HERS.findall(" ".join(quote_text(result, "studio").split())))) >= 5


TOO_WIDE = "[top]\nwidth = 150\nlength = 150\n[backing]\nfabric = 'none'\n[batting]\nproduct = 'cotton-needled'\n"


def test_what_cannot_be_made_says_in_the_head_what_would_do():
    """No needled cotton covers 158 in, and it is not joined: the head says so once, and the sums are provisional."""
    sheet = " ".join(page(TOO_WIDE).split())
    head, rest = sheet.split(" Top ", 1)
    assert "This cannot be made as specified:" in head
    assert "use another batting, or reduce the overage" in head
    assert "use another batting, or reduce" not in rest
    assert "Total, USD, provisional" in rest
    assert "Deposit, provisional" in rest
    assert '"provisional": true' in quote_document(quoted(TOO_WIDE))
    assert "provisional" not in page(TOP)
    assert '"provisional": false' in quote_document(quoted(TOP))


def test_a_tax_of_nothing_has_no_row():
    """The sample shop taxes material alone, and nothing is bought."""
    bare = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
    assert "Sales tax" not in page(TOP + bare)
    assert "Sales tax" in page(TOP)


DECIMAL_LENGTH = re.compile(r"\d*\.\d+ (?:x [\d ./]+)?(?:in|yd)\b")
"""A decimal of an inch or a yard; thread and stitching in yards are lengths of no cloth."""
THIRDS = [
    "[top]\nwidth = '60 1/3'\nlength = '84.17'\n",
    "[top]\nwidth = '46 1/3'\nlength = 60\n[backing]\nhave = '60 in'\n",
    "[top]\nwidth = 64\nlength = '79 3/4'\n[backing]\nhave = '200.3 in'\n",
    "[top]\ndiameter = '70.1'\n",
    "[top.blocks]\nacross = 3\ndown = 4\nsize = 10\nsetting = 'on-point'\n[[top.borders]]\ncut = '3 1/3'\n",
]


@pytest.mark.parametrize("text", THIRDS)
def test_what_a_person_measures_is_in_eighths(text: str):
    """1/3 in has no mark on a ruler. Lengths of stitching and thread, and settings of a machine, may have decimals."""
    result = quoted(text)
    for sheet in (quote_text(result, "customer"), cut_text(result), *picture_texts(result)):
        said = " ".join(sheet.split("Qty")[0].split() + sheet.split("Options")[-1].split())
        assert DECIMAL_LENGTH.findall(said) == []
    work = " ".join(quote_text(result, "studio").split("For the studio only")[0].split("Qty")[0].split())
    assert [
        each for each in DECIMAL_LENGTH.finditer(work) if not re.match(" of (stitching|thread)", work[each.end() :])
    ] == []


def picture_texts(result: Finishing) -> list[str]:
    """The words in the pictures, one a line."""
    return ["\n".join(re.findall(r">([^<]+)<", text)) for text in picture_files(result).values()]


@pytest.mark.parametrize("currency", ["JPY", "KWD"])
def test_a_currency_other_than_the_samples_says_whose_figures_stand_in_it(currency: str, tmp_path: Path):
    (tmp_path / "shop.toml").write_text(f"[money]\ncurrency = '{currency}'\n[rates]\nminimum = 75\n")
    assert "set in USD and are used here as" in " ".join(page(TOP, shop=tmp_path / "shop.toml").split())


# --- columns -----------------------------------------------------------------------------------------------------


def test_columns_print_figures_as_they_are_written():
    """Read as numbers, 8.10 would lose its cent, 5e2 become 500 and 1_000 lose its line."""
    figures = [["8.10"], ["5e2"], ["1_000"], ["0.030"]]
    assert columns([[figure] for figure in figures], "l") == ["8.10", "5e2", "1_000", "0.030"]


def test_columns_keep_the_blanks_that_a_line_begins_with():
    # the second line of a label hangs one blank in; the figure stands at the right of its three columns
    assert columns([[["Quilting", " by hand"], ["7"]], [[" x"], ["100"]]], "lr") == [
        "Quilting    7",
        " by hand",
        " x        100",
    ]


def test_columns_count_a_wide_character_as_two():
    # 布料 takes 4 columns of the terminal and "linen" 5, so one blank fills it up, then two stand between
    assert columns([[["布料"], ["1"]], [["linen"], ["22"]]], "lr") == ["布料    1", "linen  22"]


# --- the reader --------------------------------------------------------------------------------------------------


def test_each_page_speaks_to_its_reader():
    """On the studio's page "your cost" is the studio's, so what the customer brings or gets back is not "yours"."""
    text = TOP + "[customer]\nname = 'Ada'\n[job]\nkeep_leftovers = true\n[binding]\nsupplied_by = 'customer'\n"
    customer, studio = page(text), page(text, "studio")
    assert "leftover cloth goes back to you" in customer
    assert re.search(r"^You supply +5/8 yd", customer, re.M)
    assert "leftover cloth goes back to the customer" in studio
    assert re.search(r"^Customer's +5/8 yd", studio, re.M)
    assert "You supply" not in studio


def test_the_area_is_in_the_unit_that_is_billed():
    """152 x 203 cm are 3.0856 sq m, printed to a hundredth as the line is (derived)."""
    flat = " ".join(page(CM_TOP, "studio").split())
    assert "area 3,09 sq m, perimeter" in flat
    assert "= 3,09 sq m" in flat


def test_a_word_that_ends_a_line_of_figures_stays_with_them():
    """At no width does a line begin with the mark of the backing that leads, or end with a bare number of passes."""
    text = (ROOT / "presets" / "projects" / "harbour-check-cloth.toml").read_text(encoding="utf-8")
    for width in range(40, 81, 5):
        lines = page(text, "studio", width=width).splitlines()
        assert not [line for line in lines if line.strip().startswith(("- leads", "leads", "passes", "fewer"))]
