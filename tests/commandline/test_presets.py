"""The list of presets: what is listed is what there is, and what is shown can be pasted into a project as it stands."""

import json
import re
import tomllib
from pathlib import Path

import pytest

from finishcalc.intake import presets
from finishcalc.intake.listing import PLACES, detail, known_presets, listed
from finishcalc.model.files import MATERIALS
from finishcalc.problems import ProblemsFound
from tests.builders import PRESETS, quoted, run

pytestmark = pytest.mark.slow

SYSTEMS = ("in", "cm")
EVERY = [(kind, units, name) for kind in MATERIALS for units in SYSTEMS for name in presets.own_names(kind, units)]
SHOP = """units = "in"
[money]
currency = "EUR"
[fabrics.red-silk]
name = "red silk"
width = 45
price = "31.50"
per = "yd"
[fabrics.plush-60]
price = 20
[beds.guest]
width = 50
length = 78
"""


@pytest.fixture
def shop(tmp_path: Path) -> str:
    (tmp_path / "shop.toml").write_text(SHOP, encoding="utf-8")
    return str(tmp_path / "shop.toml")


# --- what is listed ----------------------------------------------------------------------------------------------


def test_every_preset_of_the_files_is_listed():
    """Counted in the files themselves."""
    for units, file in presets.SYSTEMS.items():
        found = json.loads(run("presets", "--units", units, "--json").stdout)
        counts = {each["kind"]: each["count"] for each in found["kinds"]}
        heads = {
            kind: len(re.findall(r"^\[", (PRESETS / kind / f"{file}.toml").read_text(encoding="utf-8"), re.M))
            for kind in MATERIALS
        }
        assert counts == heads


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("kind", MATERIALS)
def test_a_kind_lists_its_names_with_figures_in_every_format(kind: str, units: str):
    names = presets.own_names(kind, units)
    shown = run("presets", kind, "--units", units).stdout
    assert set(names) <= set(re.findall(r"^[\w-]+", shown, re.M))
    records = json.loads(run("presets", kind, "--units", units, "--json").stdout)["presets"]
    assert [record["name"] for record in records] == names
    assert all(record["label"] and any(record["figures"].values()) for record in records)
    assert "| Name" in re.sub(r" +", " ", run("presets", kind, "--units", units, "--markdown").stdout)


def test_figures_are_those_of_the_file():
    """As presets/fabrics/inch.toml and presets/beds/inch.toml have them."""
    fabrics = {each.name: each for each in listed("fabrics", known_presets(units="in"))}
    assert fabrics["plush-60"].figures == {
        "Width": "60 in", "Price": "18.00 USD a yd", "Cut by": "1/8 yd", "One-way": "yes",
    }  # fmt: skip
    beds = {each.name: each.figures for each in listed("beds", known_presets(units="in"))}
    assert beds["queen"] == {"Mattress": "60 x 80 in", "Depth": "12 in"}


def test_a_shop_s_own_things_stand_first_and_are_marked(shop: str):
    """Its changes to a preset count as its own; a price of its own is in its currency."""
    records = json.loads(run("presets", "fabrics", "--shop", shop, "--json").stdout)["presets"]
    assert [(each["name"], each["own"]) for each in records[:3]] == [
        ("red-silk", True), ("plush-60", True), ("cotton-44", False),
    ]  # fmt: skip
    assert records[0]["figures"]["price"] == "31.50 EUR a yd"
    assert records[1]["figures"] == {"width": "60 in", "price": "20.00 EUR a yd", "cut by": "1/8 yd", "one-way": "yes"}
    assert re.search(r"^plush-60 .* yours$", run("presets", "fabrics", "--shop", shop).stdout, re.M)
    assert re.search(r"^red-silk .* yours$", run("presets", "fabrics", "--shop", shop).stdout, re.M)
    assert "yours" not in run("presets", "fabrics").stdout


def test_words_name_kinds_and_presets():
    assert run("presets", "wadding").stdout == run("presets", "battings").stdout
    assert run("presets", "Fabric", "Minky").stdout == run("presets", "fabrics", "plush-60").stdout
    assert run("presets", "beds", "Cal King").stdout == run("presets", "beds", "california-king").stdout


@pytest.mark.parametrize(
    ("asked", "hint"),
    [
        (("foo",), "use fabrics, battings, styles, methods, beds or tables"),
        (("stiles",), 'did you mean "styles"?'),
        (("fabrics", "coton-44"), 'did you mean "cotton-44"?'),
        (("styles", "E2E"), "E2E may be: open-meander, medium-pantograph"),
        (("methods", "QAYG"), "nearest: domestic-machine"),
    ],
)
def test_an_unknown_name_is_a_problem_with_the_nearest(asked: tuple[str, ...], hint: str):
    result = run("presets", *asked)
    assert (result.exit_code, result.stdout) == (1, "")
    assert hint in result.stderr
    records = json.loads(run("presets", *asked, "--json").stderr)["problems"]
    assert [record["code"] for record in records] == ["unknown-preset"]


def test_a_shop_file_with_mistakes_is_told(tmp_path: Path):
    (tmp_path / "bad.toml").write_text("[fabrics.red]\nwidht = 3\n")
    result = run("presets", "fabrics", "--shop", str(tmp_path / "bad.toml"))
    assert (result.exit_code, result.stdout) == (1, "")
    assert "fabrics.red.widht: unknown key" in result.stderr
    with pytest.raises(ProblemsFound):
        known_presets(str(tmp_path / "none.toml"))


# --- to paste ----------------------------------------------------------------------------------------------------


def around(kind: str, units: str, name: str) -> str:
    """The rest of a project in these units: a top, or the drop of what covers a bed or a table; ties and their method
    go together."""
    if kind in ("beds", "tables"):
        return f"units = '{units}'\ntop.covers.drop = 10\n"
    ties = "ties-4" if units == "in" else "ties-10"
    partner = {ties: "quilting.method = 'tied'\n", "tied": f"quilting.style = '{ties}'\n"}.get(name, "")
    return f"units = '{units}'\ntop.width = 150\ntop.length = 100\n{partner}"


@pytest.mark.parametrize(("kind", "units", "name"), EVERY)
def test_the_lines_to_paste_make_the_same_quote_as_the_name(kind: str, units: str, name: str):
    pasted = json.loads(run("presets", kind, name, "--units", units, "--json").stdout)["preset"]["toml"]
    top = around(kind, units, name)
    assert quoted(top + pasted).quote.total == quoted(f"{top}{PLACES[kind]} = '{name}'\n").quote.total


@pytest.mark.parametrize(("kind", "units", "name"), EVERY)
def test_the_page_shows_those_very_lines_with_their_comments(kind: str, units: str, name: str):
    """Unbroken however narrow the terminal is, because they are to be pasted; and so in Markdown."""
    found = detail(kind, name, known_presets(units=units))
    for how in ((), ("--markdown",)):
        assert found.toml in run("presets", kind, name, "--units", units, *how, columns=40).stdout
    text = (PRESETS / kind / f"{presets.SYSTEMS[units]}.toml").read_text(encoding="utf-8")
    assert found.toml.partition("\n")[2].rstrip("\n") in text
    assert found.values == tomllib.loads(text, parse_float=str)[name]


def test_each_figure_s_source_is_that_of_its_line():
    """As presets/fabrics/inch.toml has it."""
    found = detail("fabrics", "plush-60", known_presets(units="in"))
    assert found.sources["width"] == "58-60: common practice"
    assert "per" not in found.sources
    assert "Every price is a sample" in found.notes[0]


@pytest.mark.parametrize(("kind", "name"), [("fabrics", "red-silk"), ("fabrics", "plush-60"), ("beds", "guest")])
def test_a_shop_s_own_thing_can_be_pasted_as_well(kind: str, name: str, shop: str, tmp_path: Path):
    pasted = json.loads(run("presets", kind, name, "--shop", shop, "--json").stdout)["preset"]["toml"]
    (tmp_path / "project.toml").write_text(around(kind, "in", name) + pasted, encoding="utf-8")
    result = run("quote", str(tmp_path / "project.toml"), "--shop", shop)
    assert (result.exit_code, result.stderr) == (0, "")
