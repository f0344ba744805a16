"""What holds for every file: the same bytes each time, the same cloth in either system, never a programmer's error."""

import os
import re
import subprocess
import sys
from collections.abc import Iterable
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

import finishcalc
from finishcalc.alternatives.in_house import samples_of
from finishcalc.intake.resolve import load, resolve
from finishcalc.intake.source import Source, read
from finishcalc.measures.length import Length
from finishcalc.measures.numbers import MeasureError
from finishcalc.model import keys
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.reading import FileUnits, Key
from finishcalc.model.section import Section, specs
from finishcalc.pipeline import finish
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.pages.problems import problems_json, problems_text
from tests.builders import OUTPUT, PROJECTS, ROOT, SHOPS, TOP, everything, quote_text, quoted
from tests.strategies import examples


def printed_or_refused(text: str, outputs: Iterable[str], shop: str | None = None) -> None:
    """A file is quoted in each of these ways, or told of in both ways; nothing else may happen."""
    try:
        result = quoted(text, shop)
        pages = [OUTPUT[name](result) for name in outputs]
    except ProblemsFound as found:
        pages = [problems_text(found.problems), problems_json(found.problems)]
    assert len(pages) == 2
    assert all(page.endswith("\n") and page.encode("utf-8") for page in pages)


OUTPUTS = st.sets(st.sampled_from(sorted(OUTPUT)), min_size=2, max_size=2)
"""Two at a time, other ones for each example: a file that spoils one of them is not printed in twelve ways first."""


# --- the same bytes ----------------------------------------------------------------------------------------------


@cache
def first_time(path: Path) -> list[str]:
    """All that is printed of a sample, kept as it was the first time."""
    return everything(finish(load(str(path))))


@pytest.mark.no_cover
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_the_same_file_twice_is_the_same_in_every_output(path: Path):
    assert everything(finish(load(str(path)))) == first_time(path)


IN_ANOTHER_PROCESS = """
import sys
from finishcalc.intake.resolve import load
from finishcalc.model import keys
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.reading import FileUnits, Key
from finishcalc.model.section import Section, specs
from finishcalc.pipeline import finish
from tests.builders import PROJECTS, everything
for path in PROJECTS:
    for page in everything(finish(load(str(path)))):
        sys.stdout.buffer.write(page.encode())
"""


@pytest.mark.no_cover
def test_hash_seeds_change_no_byte_of_any_output():
    """Sets are ordered differently under each seed; none may reach the page. This process draws its seed at each start,
    or has it from outside; the other one has a different one."""
    home = f"{Path(finishcalc.__file__).parent.parent}{os.pathsep}{ROOT}"
    seed = "4242" if os.environ.get("PYTHONHASHSEED") != "4242" else "1"
    there = subprocess.run(
        [sys.executable, "-c", IN_ANOTHER_PROCESS], check=True, capture_output=True, timeout=60, cwd=ROOT,
        env={**os.environ, "PYTHONPATH": home, "PYTHONHASHSEED": seed},
    ).stdout  # fmt: skip
    here = "".join(output for path in PROJECTS for output in first_time(path))
    assert there == here.encode()
    assert len(there) > 20000


@pytest.mark.no_cover
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_the_order_of_tables_changes_nothing_but_the_lines(path: Path):
    """Tables may stand in any order, but for those of one list: what is bought and asked for it stay the same."""
    first, *tables = re.split(r"^(?=\[(?!\[))", path.read_text(encoding="utf-8"), flags=re.M)
    there, back = (first + "\n".join(order) for order in (tables, tables[::-1]))
    assert there != back
    one, other = (quote_text(quoted(text), "studio") for text in (there, back))
    assert one == other


# --- either system -----------------------------------------------------------------------------------------------

SHARED_SHOP = """
units = "in"
[fabrics.cloth]
name = "cloth"
width = "44 in"
price = 10
per = "yd"
step = "1/8 yd"
selvage = "1/2 in"
straighten = "1 in"
shrink_across = "2 %"
shrink_along = "3 %"
directional = false
nap = false
repeat = 0
[battings.batting]
name = "batting"
packages = [{ size = "queen", width = "90 in", length = "108 in", price = 30 }]
rolls = [{ width = "96 in", price = 12, per = "yd", step = "1/8 yd" }]
thickness = "0.05 in"
widest = "8 in"
[styles.style]
name = "style"
rate_class = "edge-to-edge"
line_spacing = "1 in"
pattern_height = "11 in"
widest = "3 in"
row_pitch = "12 in"
run_off = "1 in"
stitch_length = "0.1 in"
may_turn = true
"""
"""One shop for both: every length in it carries its unit, or the shop says what a bare one is."""

LENGTHS = {"overage": (3, 6), "seam_allowance": (0, 1), "strip_width": (2, 3), "extra": (8, 14)}


@st.composite
def the_same_twice(draw: st.DrawFn) -> tuple[str, str]:
    """A project in inches and the same one in centimetres, every length quoted with its unit, to 1/8 in."""

    def length(least: int, most: int) -> Fraction:
        return Fraction(draw(st.integers(8 * least + 2, 8 * most)), 8)

    width, long = length(30, 118), length(30, 118)
    found = {name: length(*bounds) for name, bounds in LENGTHS.items()}
    seams = draw(st.sampled_from(["any", "lengthwise", "crosswise"]))

    def text(units: str) -> str:
        def written(inches: Fraction) -> str:
            if units == "in":
                return f'"{inches} in"'
            return f'"{Decimal(int(inches * 8) * 254) / 800} cm"'

        return f"""units = "{units}"
[top]
width = {written(width)}
length = {written(long)}
[backing]
fabric = "cloth"
overage = {written(found["overage"])}
seam_allowance = {written(found["seam_allowance"])}
seams = "{seams}"
[batting]
product = "batting"
overage = {written(found["overage"])}
[binding]
fabric = "cloth"
strip_width = {written(found["strip_width"])}
extra = {written(found["extra"])}
[quilting]
style = "style"
method = "longarm-hand-guided"
"""

    return text("in"), text("cm")


@examples(80)
@given(the_same_twice())
def test_inches_and_centimetres_buy_the_same(tmp_path_factory: pytest.TempPathFactory, texts: tuple[str, str]):
    """Within a step of what is sold; and the batting, the strips and the stitching are the very same."""
    shop = tmp_path_factory.mktemp("shops") / "shop.toml"
    shop.write_text(SHARED_SHOP, encoding="utf-8")
    inch, metric = (quoted(text, shop).plans for text in texts)
    assert inch.top.shape == metric.top.shape
    for one, other in zip(inch.cloth, metric.cloth, strict=True):
        assert abs(one.amount.mm - other.amount.mm) <= Length.parse("1/8 yd").mm
    assert inch.batting
    assert metric.batting
    assert inch.batting.chosen == metric.batting.chosen
    assert inch.binding
    assert metric.binding
    assert (inch.binding.strips, inch.binding.amount) == (metric.binding.strips, metric.binding.amount)
    for figure in ("stitched_length", "threads", "rows", "passes"):
        assert getattr(inch.quilting, figure) == getattr(metric.quilting, figure)


@examples(30)
@given(st.sampled_from(["in", "cm"]), st.integers(0, 100), st.integers(0, 100))
def test_two_lines_are_a_whole_quote(units: str, across: int, down: int):
    least = 12 if units == "in" else 31
    head = "" if units == "in" else "units = 'cm'\n"
    result = quoted(f"{head}[top]\nwidth = {least + across}\nlength = {least + down}\n")
    assert result.plans.backing
    assert result.plans.batting
    assert result.plans.binding
    assert result.quote.total.minor > 0
    assert {"labour", "material"} == {line.line_class for line in result.quote.lines}
    assert quote_text(result, "customer").endswith("\n")


# --- every figure of one's own -----------------------------------------------------------------------------------


def figures(section: type[Section], path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """The path of every key that holds a price, a share or minutes, with * for a name of the file's own or an item."""
    found = []
    for key, spec in specs(section).items():
        steps = (*path, key, "*") if spec.kind in ("named", "rows") else (*path, key)
        if spec.figure:
            found.append(steps)
        elif spec.section and spec.kind in ("table", "named", "rows"):
            found += figures(spec.section, steps)
    return found


OWN_FIGURES = """
postage = [{ up_to = "9 lb", price = 20 }]
[parcel]
packing = "10 oz"
[rates]
minimum = 60
seam = 21
batting_seam = 11
wage = 31
markup = "41 %"
overhead = 9
handling = { top = 9, backing = 11, batting = 6, binding = 6 }
quilting = { edge-to-edge = "0.031", dense = "0.046", custom = "0.081" }
binding = { make = "0.06", front = "0.16", machine = "0.26", hand = "0.41", faced = "0.36", hem = "0.21" }
[cloth]
worth_a_seam = 6
[seaming]
minutes_each = 5
minutes_along = "0.07"
[batting_seam]
minutes_each = 4
minutes_along = "0.09"
[piecing]
join_minutes = 4
[thread]
bobbin = "131 yd"
cone = "2999 yd"
tie = 7
[edge_time]
make = "0.06"
front = "0.16"
machine = "0.16"
hand = { low = "0.5", likely = "0.6", high = 1 }
faced = "0.3"
hem = "0.2"
[[tax]]
label = "Own tax"
percent = "6 %"
[deposit]
percent = "40 %"
[studio]
lead = "2 weeks"
[[rush]]
within_days = 5
share = "30 %"
[extras]
label = { label = "Label", price = 9, per = "each", line_class = "labour", minutes = 14, cost = 1 }
sleeve = { label = "Sleeve", price = 31, per = "each", line_class = "labour", minutes = 80, cost = 2 }
thread = { label = "Thread", price = 9, per = "each", line_class = "material", cost = 5 }
pressing = { label = "Pressing", price = 31, per = "hour", line_class = "labour", minutes = 40 }
"""
OWN_STAGES = '[{ name = "all", each = "quilt", low = 1, likely = 2, high = 3, attended = "100 %" }]'


@pytest.mark.no_cover
@pytest.mark.parametrize(
    "charges", ["", 'extras = ["label", "sleeve", "thread", "pressing"]\nrush = "10 %"\ndiscount = "5 %"\n']
)
@pytest.mark.parametrize("attach", ["front", "machine", "hand", "faced", "hem", "none"])
@pytest.mark.parametrize("style", ["open-meander", "dense-pantograph", "custom"])
def test_a_shop_with_every_figure_of_its_own_leaves_no_sample(charges: str, attach: str, style: str, tmp_path: Path):
    shop = tmp_path / "shop.toml"
    own = "[fabrics.cotton-44]\nprice = 12\n[fabrics.cotton-wide-108]\nprice = 25\n"
    own += "[battings.cotton-blend]\npackages = []\n"
    own += "rolls = [{ width = 96, price = 14, per = 'yd', step = '1/8 yd' }]\n"
    own += f"[methods.longarm-hand-guided]\nstages = {OWN_STAGES}\n"
    shop.write_text(OWN_FIGURES + own, encoding="utf-8")
    dates = "[job]\ndate = 2026-05-04\ndue = 2026-05-08\n"
    project = f"{TOP}{dates}[binding]\nattach = '{attach}'\n[quilting]\nstyle = '{style}'\n[charges]\n{charges}"
    result = quoted(project, shop)
    assert samples_of(result) == frozenset()
    assert result.resolved.foreign_samples == frozenset()
    assert "*" not in quote_text(result, "customer")


def test_a_joined_batting_rests_on_the_figures_of_its_seams(tmp_path: Path):
    """130 x 128 off a roll of 96 has a seam, whose price and times are the studio's own, or samples."""
    shop = tmp_path / "shop.toml"
    own = "[fabrics.cotton-44]\nprice = 12\n[fabrics.cotton-wide-108]\nprice = 25\n"
    own += "[battings.cotton-blend]\npackages = []\n"
    own += "rolls = [{ width = 96, price = 14, per = 'yd', step = 1 }]\n"
    own += f"[methods.longarm-hand-guided]\nstages = {OWN_STAGES}\n"
    wide = "[top]\nwidth = 122\nlength = 120\n"
    shop.write_text(OWN_FIGURES + own, encoding="utf-8")
    assert samples_of(quoted(wide, shop)) == frozenset()
    seams = {"rates.batting_seam.each", "batting_seam.minutes_each", "batting_seam.minutes_along"}
    assert seams <= samples_of(quoted(wide))
    assert not seams & samples_of(quoted(TOP))


def test_money_that_rests_on_a_sample_says_so_even_in_a_suggestion(tmp_path: Path):
    """All is the studio's own but the wider cloth that its backing is compared with: the quote with that rests on a
    sample price, and is marked."""
    shop = tmp_path / "shop.toml"
    shop.write_text(OWN_FIGURES + "[fabrics.cotton-44]\nprice = 12\n", encoding="utf-8")
    result = quoted(TOP, shop)
    sheet = " ".join(quote_text(result, "studio").split())
    suggestion = re.search(r"The backing in wide cotton backing, 108 in[^$]*[$][0-9.]+[^$]{0,40}?[*]", sheet)
    assert suggestion


def test_those_figures_are_all_that_there_are():
    """A figure that is added to the shop file must also be in this test's shop."""
    told = {
        *(("rates", "quilting", "*", key) for key in ("price", "steps", "more")),
        *(("rates", key) for key in ("minimum", "wage", "overhead", "markup")),
        ("rates", "piecing", "price"), ("piecing", "block_minutes"),
        *(("rates", "thread", key) for key in ("price", "cost")),
        *(("rates", seam, key) for seam in ("seam", "batting_seam") for key in ("each", "along")),
        ("batting_seam", "minutes_each"), ("batting_seam", "minutes_along"),
        *(("rates", "handling", key) for key in ("top", "backing", "batting", "binding")),
        *(("rates", "binding", key) for key in ("make", "front", "machine", "hand", "faced", "hem")),
        ("studio", "lead"), ("rush",),
        ("seaming", "minutes_each"), ("seaming", "minutes_along"), ("piecing", "join_minutes"), ("tax",),
        *(("thread", key) for key in ("bobbin", "cone", "tie")),
        *(("edge_time", key) for key in ("make", "front", "machine", "hand", "faced", "hem")),
        ("deposit", "percent"), ("deposit", "amount"), ("deposit", "shares", "labour"),
        *(("extras", "*", "cut", "fabric", key) for key in ("price", "selling")),
        ("deposit", "shares", "material"), ("deposit", "shares", "pass_through"),
        ("fabrics", "*", "selling"), ("cloth", "wider", "*", "selling"),
        ("extras", "*", "price"), ("extras", "*", "minutes"), ("extras", "*", "cost"), ("fabrics", "*", "price"),
        ("battings", "*", "packages"), ("battings", "*", "rolls"),
        ("methods", "*", "stages"), ("methods", "*", "bobbin"),
        ("cloth", "worth_a_seam"), ("any_batting", "packages"), ("any_batting", "rolls"),
        ("cloth", "wider", "*", "price"), ("parcel", "packing"), ("postage",),
    }  # fmt: skip
    assert {path for path in figures(ShopFile) if path[0] != "usual"} == told


# --- whatever stands in a file -----------------------------------------------------------------------------------


@examples(200)
@given(st.text(max_size=200), OUTPUTS)
def test_any_text_is_a_problem_or_a_project(text: str, outputs: set[str]):
    printed_or_refused(text, outputs)


BITS = st.sampled_from([b"", b"\0", b"\xff", b"\xef\xbb\xbf", b"\r", b"\r\n", b'"', b"'''", b"[", b"]]", b"{", b"}",
                        b"=", b".", b"#", b"-", b"1e9", b"inf", b"0", b"999999999", b"1/0", b"\\u0000",
                        b"cm", b"%"])  # fmt: skip
CUTS = st.tuples(st.integers(0, 2000), st.integers(0, 40), BITS | st.binary(max_size=6))


@examples(300)
@given(st.sampled_from(PROJECTS), st.lists(CUTS, min_size=1, max_size=3), OUTPUTS)
def test_a_spoilt_project_is_a_problem_or_a_project(
    tmp_path_factory: pytest.TempPathFactory, path: Path, cuts: list[tuple[int, int, bytes]], outputs: set[str]
):
    """From the bytes on, through the very door that files come in by."""
    data = path.read_bytes()
    for place, length, bit in cuts:
        data = data[: place % len(data)] + bit + data[place % len(data) + length :]
    file = tmp_path_factory.getbasetemp() / "spoilt.toml"
    file.write_bytes(data)
    try:
        text = read(str(file)).text
    except ProblemsFound as found:
        assert problems_text(found.problems)  # noqa: PT017
        return
    printed_or_refused(text, outputs)


@examples(150)
@given(st.sampled_from(SHOPS), st.lists(CUTS, min_size=1, max_size=3), OUTPUTS)
def test_a_spoilt_shop_is_a_problem_or_a_shop(
    tmp_path_factory: pytest.TempPathFactory, path: Path, cuts: list[tuple[int, int, bytes]], outputs: set[str]
):
    data = path.read_bytes()
    for place, length, bit in cuts:
        at = place * 3 % len(data)
        data = data[:at] + bit + data[at + length :]
    file = tmp_path_factory.getbasetemp() / "spoilt-shop.toml"
    file.write_bytes(data)
    printed_or_refused(TOP + "[charges]\nextras = ['label']\n", outputs, str(file))


ODD = st.sampled_from(
    ["true", "0", "-1", "1", "3", "999999999", "1e-9", "inf", "nan", '""', '"0"', '"1/3"', '"1/0"', '"5 %"', '"100 %"',
     '"none"', '"in"', '"yd"', '"sq m"', '"240 in"', '"0.001 in"', '"\\u001b"', "[]", "[1]", "[[]]", "{}",
     '["labour"]', "[{}]", '{ preset = "none" }', '{ preset = "cotton-44" }', '{ name = "x" }', "2026-05-04",
     '"USD"', '"JPY"', '"cm"', "1e300", "1" + "0" * 400,
     '"1_000"', '"٣"', f'"{"x" * 300}"', '"\\u001b[31m"', "{ a = 1 }"]
)  # fmt: skip


def every_key(section: type[Section], path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    """Each key path of a table, with a name of our own where the file may choose one."""
    found: list[tuple[str, ...]] = []
    for key, spec in specs(section).items():
        steps = (*path, key, "own") if spec.kind == "named" else (*path, key)
        found.append(steps)
        if spec.section and spec.kind in ("table", "named"):
            found += every_key(spec.section, steps)
    return found


SHOP_KEYS = every_key(ShopFile)


@examples(300)
@given(st.lists(st.tuples(st.sampled_from(SHOP_KEYS), ODD), min_size=1, max_size=3), OUTPUTS)
def test_any_value_under_any_key_of_a_shop_is_a_problem_or_a_shop(
    tmp_path_factory: pytest.TempPathFactory, given: list[tuple[tuple[str, ...], str]], outputs: set[str]
):
    file = tmp_path_factory.getbasetemp() / "odd-shop.toml"
    file.write_text("".join(f"{'.'.join(path)} = {value}\n" for path, value in given), encoding="utf-8")
    printed_or_refused(TOP, outputs, str(file))


PROJECT_KEYS = every_key(ProjectFile)


@examples(250)
@given(st.lists(st.tuples(st.sampled_from(PROJECT_KEYS), ODD), min_size=1, max_size=3), OUTPUTS)
def test_any_value_under_any_key_of_a_project_is_a_problem_or_a_project(
    given: list[tuple[tuple[str, ...], str]], outputs: set[str]
):
    lines = "".join(f"{'.'.join(path)} = {value}\n" for path, value in given)
    size = "" if any(path[0] == "top" for path, _ in given) else "top.width = 60\ntop.length = 80\n"
    printed_or_refused(lines + size, outputs)


def test_every_key_of_a_project_is_among_them():
    assert len(PROJECT_KEYS) > 80
    assert ("top", "width") in PROJECT_KEYS
    assert ("backing", "fabric", "repeat") in PROJECT_KEYS


def test_every_key_of_a_shop_is_among_them():
    assert len(SHOP_KEYS) > 150
    assert ("usual", "backing", "fabric", "repeat") in SHOP_KEYS
    assert ("fabrics", "own", "price") in SHOP_KEYS


@examples(200)
@given(st.one_of(st.integers(), st.booleans(), st.decimals(), st.text(max_size=12), st.none(), st.lists(st.integers())))
def test_a_length_is_taken_or_refused_by_its_own_error(value: object):
    """No ValueError, no ArithmeticError, no TypeError of Python's own comes out of the one door for lengths."""
    for kind in (keys.Side, keys.Price, keys.Share, keys.BlockCount, keys.Line, keys.Day, keys.Classes):
        (key,) = (mark for mark in kind.__metadata__ if isinstance(mark, Key))
        with suppress(MeasureError):
            key.take(value, FileUnits("in"))


STAGE = {"low": 10, "likely": 20, "high": 35, "each": "'quilt'"}


@pytest.mark.parametrize(
    ("changes", "right"),
    [
        ({}, True),
        ({"low": 21}, False),  # minutes rise
        ({"high": 19}, False),
        ({"each": "'stitching'"}, False),  # a speed needs what it counts
        ({"each": "'stitching'", "speed": 1}, False),  # and falls
        ({"each": "'stitching'", "speed": 1, "low": 75, "likely": 60, "high": 45}, True),
        ({"each": "'stitching'", "speed": 1, "low": 75, "likely": 60, "high": 0}, False),  # nothing is sewn at 0
    ],
)
def test_a_stage_s_figures_stand_in_their_order(changes: dict[str, Any], right: bool):
    keys = ", ".join(f"{key} = {value}" for key, value in (STAGE | changes).items())
    stage = f"{{ name = 'a stage', attended = '100 %', {keys} }}"
    text = f"{TOP}[quilting]\nmethod = {{ name = 'own', stages = [\n  {stage},\n] }}\n"
    if right:
        assert quoted(text).plans.quilting.hours.likely > 0
        return
    with pytest.raises(ProblemsFound) as found:
        resolve(Source("t.toml", text))
    assert [(problem.line, problem.path) for problem in found.value.problems] == [(6, "quilting.method.stages[1]")]
