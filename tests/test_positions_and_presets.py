"""Where keys stand in a TOML text, held against tomllib; and the presets, each of them used."""

import re
import tomllib
from contextlib import suppress
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.intake import presets
from finishcalc.intake.positions import DEEPEST, positions
from finishcalc.intake.reading import Source
from finishcalc.intake.resolve import load, resolve
from finishcalc.intake.shop_file import SHOP_FILE
from finishcalc.intake.table import Named, Table
from finishcalc.pipeline import finish
from finishcalc.problems import ProblemsFound
from tests.strategies import examples

ROOT = Path(__file__).parent.parent
KEYS = st.text(alphabet="abé \"'.#=[]{}\\\n\t_-1", min_size=1, max_size=5)
SCALARS = st.one_of(
    st.integers(-(10**6), 10**6),
    st.booleans(),
    st.text(alphabet="ab\"'#[]{},=\\\né", max_size=8),
    st.dates(date(1900, 1, 1), date(2100, 1, 1)),
    st.decimals(-1000, 1000, places=2),
)
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3), max_leaves=8
)
DOCUMENTS = st.dictionaries(KEYS, VALUES, max_size=5)


def written(value: object) -> str:
    """A value as TOML, all on one line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(key)} = {written(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(written, value)) + "]"
    return quoted(value) if isinstance(value, str) else str(value)


def quoted(text: str) -> str:
    return '"' + "".join(f"\\u{ord(char):04x}" if char in '"\\' or ord(char) < 32 else char for char in text) + '"'


def document(data: dict, as_tables: bool) -> str:
    """Plain keys first, then each table under a header of its own, where tables are asked for."""
    tables = {key: value for key, value in data.items() if as_tables and isinstance(value, dict)}
    lists = {
        key: value
        for key, value in data.items()
        if as_tables and isinstance(value, list) and value and all(isinstance(item, dict) for item in value)
    }
    lines = [f"{quoted(k)} = {written(v)}  # {{}}[]=" for k, v in data.items() if k not in tables and k not in lists]
    for key, table in tables.items():
        lines += [f"[{quoted(key)}]", *(f"{quoted(inner)} = {written(value)}" for inner, value in table.items())]
    for key, items in lists.items():
        for item in items:
            lines += [f"[[{quoted(key)}]]", *(f"{quoted(inner)} = {written(value)}" for inner, value in item.items())]
    return "\n".join(lines) + "\n"


def paths(value: object, path: tuple = ()) -> set[tuple]:
    """The path of every key and item that tomllib sees."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return {found for key, item in items for found in {(*path, key), *paths(item, (*path, key))}}


@examples(300)
@given(DOCUMENTS, st.booleans())
def test_the_scanner_finds_what_tomllib_finds(data: dict, as_tables: bool):
    text = document(data, as_tables)
    assert set(positions(text)) == paths(tomllib.loads(text))


@examples(100)
@given(st.dictionaries(KEYS, SCALARS, min_size=1, max_size=6))
def test_the_spot_is_on_the_key_s_own_line(data: dict):
    text = document(data, as_tables=False)
    for number, key in enumerate(data, start=1):
        assert Source("t", text).line_of((key,)) == number


@pytest.mark.parametrize(
    "text",
    [
        "a.b.c = 1\na.b.d = 2\n",
        'x = \'\'\'\n[not] = a table\n\'\'\'\ny = """a \\""" b"""\n',
        "t = 2026-05-04 10:00:00\nu = 12:30:00.5\nv = 1.5e3\nw = inf\n",
        "[a]\nb = [1,\n 2, # three ]\n [3, {c = 4}]]\n[[d.e]]\nf = 1\n[[d.e]]\ng = {h.i = 2}\n[d.e.j]\nk = 3\n",
        "'' = 1\n\"\" . 'a b' = 2\n" if False else "'a b' . c = 2\n",
    ],
)
def test_every_way_to_write_a_key_is_found(text: str):
    assert set(positions(text)) == paths(tomllib.loads(text))


def test_very_deep_values_are_passed_over():
    text = "x = " + "[" * 200 + "]" * 200 + "\ny = 1\n"
    found = positions(text)
    assert ("y",) in found
    assert max(map(len, found)) <= DEEPEST + 2


# --- whatever is in a file ---------------------------------------------------------------------------------------


@examples(250)
@given(st.binary(max_size=30), st.integers(0, 900), st.integers(0, 30))
def test_a_spoilt_file_is_a_problem_or_a_project(junk: bytes, place: int, cut: int):
    """Never another exception, whatever stands in the file."""
    whole = (ROOT / "presets" / "projects" / "boathouse-supper-cloth.toml").read_bytes()
    text = (whole[:place] + junk + whole[place + cut :]).decode("utf-8", "replace")
    with suppress(ProblemsFound):
        finish(resolve(Source("t.toml", text)))


NASTY = st.sampled_from(
    [True, 0, -1, 10**400, Decimal("1e300"), Decimal("inf"), Decimal("nan"), "", "1/0", "1_000", "x" * 300, [], {}, [1],
     {"a": 1}, [[]], date(2026, 1, 1), "\x1b[31m", "٣", "60", "5 %", "none", "in", "preset"]
)  # fmt: skip


@examples(250)
@given(st.data())
def test_any_value_under_any_key_is_a_problem_or_a_project(data: st.DataObject):
    from finishcalc.intake.project_file import PROJECT_FILE

    table, path = PROJECT_FILE, []
    while True:
        key = data.draw(st.sampled_from(sorted(table.keys)))
        path.append(key)
        kind = table.keys[key]
        if not isinstance(kind, Table) or data.draw(st.booleans()):
            break
        table = kind
    value = data.draw(NASTY)
    text = ".".join(path) + " = " + written(value).replace("Infinity", "inf").replace("NaN", "nan") + "\n"
    with suppress(ProblemsFound):
        finish(resolve(Source("t.toml", text if path[0] == "top" else text + "[top]\nwidth = 60\nlength = 80\n")))


# --- presets -----------------------------------------------------------------------------------------------------

PLACES = {
    "fabrics": "[backing]\nfabric",
    "battings": "[batting]\nproduct",
    "styles": "[quilting]\nstyle",
    "methods": "[quilting]\nmethod",
}
TIED = {"ties-4": "method = 'tied'\n", "ties-10": "method = 'tied'\n", "tied": "style = 'ties-4'\n"}
ALL = [
    (kind, units, name)
    for kind in PLACES
    for units, system in presets.SYSTEMS.items()
    for name in tomllib.loads((ROOT / "presets" / kind / f"{system}.toml").read_text(encoding="utf-8"))
    if name not in ("units", "currency")
]


@pytest.mark.parametrize(("kind", "units", "name"), ALL)
def test_every_preset_quotes_a_top(kind: str, units: str, name: str):
    sides = "width = 60\nlength = 80" if units == "in" else "width = 152\nlength = 203"
    result = finish(
        resolve(Source("t", f"units = '{units}'\n[top]\n{sides}\n{PLACES[kind]} = '{name}'\n{TIED.get(name, '')}"))
    )
    assert result.quote.total.minor > 0


def test_there_are_presets_of_every_kind():
    assert len(ALL) >= 20
    assert {"cotton-44", "linen-60", "flannel-44", "plush-60", "cotton-wide-108"} <= {name for _, _, name in ALL}


ABSENT_BY_DESIGN = {
    ("deposit", "amount"), ("deposit", "shares"),  # the sample asks a share
    # a shop has no usual size
    *(("usual", "top", key) for key in ("width", "length", "diameter", "measured", "corner_radius", "scallop")),
    *(("usual", "top", key) for key in ("blocks", "sashing", "borders", "centre")),
    *(("usual", "top", "covers", key) for key in ("bed", "table", "foot_drop")),
    ("usual", "binding", "finished"),  # the sample says the strip's width instead
    ("usual", "backing", "have"), ("usual", "backing", "sewn"),  # only a project knows what is brought
    ("usual", "job", "date"), ("usual", "job", "due"),
    ("fabrics",), ("battings",), ("styles",), ("methods",), ("beds",), ("tables",),
    # those are the shop's own, shown there as comments
}  # fmt: skip


@pytest.mark.parametrize("system", ["inch", "metric"])
def test_the_sample_shops_hold_every_key(system: str):
    text = (ROOT / "presets" / "shops" / f"{system}.toml").read_text(encoding="utf-8")
    missing = set(absent(SHOP_FILE, tomllib.loads(text), ()))
    assert missing == ABSENT_BY_DESIGN
    assert all(f"[{kind}." in text for (kind,) in (path for path in missing if len(path) == 1))


def absent(table: Table, data: dict, path: tuple[str, ...]):
    for key, kind in table.keys.items():
        if key not in data:
            yield (*path, key)
        elif isinstance(kind, Table) and isinstance(data[key], dict):
            yield from absent(kind, data[key], (*path, key))
        elif isinstance(kind, Named) and isinstance(kind.each, Table):
            for name, item in data[key].items():
                if kind.each.shorthand and not isinstance(item, dict):
                    continue
                yield from absent(kind.each, item, (*path, key, name))


@pytest.mark.parametrize(
    "path", sorted((ROOT / "presets").glob("*/*.toml")), ids=lambda path: f"{path.parent.name}-{path.stem}"
)
def test_each_file_opens_with_what_it_is_and_its_units(path: Path):
    text = path.read_text(encoding="utf-8")
    assert text.startswith("#")
    assert re.search(r'^units = "(in|cm)"', text, re.M)
    if path.parent.name not in ("shops", "projects"):
        head = text[: text.index("units =")]
        assert "inch.toml beside this file" in head or "Keys" in head


@pytest.mark.parametrize(
    "path", sorted((ROOT / "presets").glob("*/*.toml")), ids=lambda path: f"{path.parent.name}-{path.stem}"
)
def test_figures_say_where_they_come_from(path: Path):
    """Each file of presets says of its figures whether they are read, practice, memory, derived or samples."""
    if path.parent.name == "projects":
        return
    words = r"common practice|from memory|derived|sample|lesson|16 CFR|textile-engineering|encyclopedia"
    assert len(re.findall(words, path.read_text(encoding="utf-8"), re.I)) >= 2


@pytest.mark.parametrize("path", sorted((ROOT / "presets" / "projects").glob("*.toml")), ids=lambda path: path.stem)
def test_each_sample_project_stands_alone(path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "alone.toml").write_bytes(path.read_bytes())
    monkeypatch.chdir(tmp_path)
    assert finish(load("alone.toml")).quote.total.minor > 0


def test_the_annotated_project_holds_every_key():
    from finishcalc.intake.project_file import PROJECT_FILE

    data = tomllib.loads((ROOT / "presets" / "projects" / "every-key.toml").read_text(encoding="utf-8"))
    left = set(absent(PROJECT_FILE, data, ()))
    materials = {path for path in left if path[:2] in {("backing", "fabric")}}
    # each but what another key stands for: a shop file, a sewn backing, other sizes, a strip by its finished width
    pieced = ("covers", "blocks", "sashing", "borders", "centre", "piecing")
    others = {("top", key) for key in ("diameter", "measured", "corner_radius", "scallop", *pieced)}
    assert left - materials == {
        ("shop",),
        ("quilting", "areas"),
        ("charges", "lines"),
        ("backing", "sewn"),
        ("binding", "finished"),
        *others,
    }


@examples(60)
@given(st.integers(30, 110), st.integers(30, 120), st.integers(2, 6))
def test_inches_and_centimetres_buy_the_same(width: int, length: int, overage: int):
    """The same lengths, each with its unit, and the same shop: within a step of each other, in fact the same."""
    shop = presets.folder() / "shops" / "inch.toml"
    sides = f"[top]\nwidth = '{width} in'\nlength = '{length} in'\n"
    rest = (
        f"[backing]\noverage = '{overage} in'\nseam_allowance = '1/2 in'\nfabric = 'cotton-44'\n[batting]\n"
        f"product = 'none'\n[binding]\nfabric = 'cotton-44'\nstrip_width = '2 1/2 in'\nextra = '10 in'\n"
        "seam_allowance = '1/4 in'\n"
    )
    inch, metric = (
        finish(resolve(Source("t", f"units = '{units}'\n{sides}{rest}"), str(shop))).plans.cloth
        for units in ("in", "cm")
    )
    for one, other in zip(inch, metric, strict=True):
        assert abs(one.amount.mm - other.amount.mm) <= one.fabric.step.mm
