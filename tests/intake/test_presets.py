"""The presets as data: each is used in both systems, names its keys, and says where each of its figures is from."""

import re
import tomllib
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from finishcalc.intake import presets
from finishcalc.model.files import MATERIALS as MODELS
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.section import Section, Shorthand, specs
from finishcalc.pipeline import Finishing
from tests.builders import PRESETS, PROJECTS, TOP, quoted, run

FILES = sorted(PRESETS.glob("*/*.toml"))
MATERIALS = [path for path in FILES if path.parent.name in MODELS]
PLACES = {
    "fabrics": ("backing.fabric", "binding.fabric"),
    "battings": ("batting.product",),
    "styles": ("quilting.style",),
    "methods": ("quilting.method",),
}
"""Where a project names a preset of each kind."""

TOPS = {
    "in": "units = 'in'\ntop.width = 60\ntop.length = 80\n",
    "cm": "units = 'cm'\ntop.width = 152\ntop.length = 203\n",
}


TIED = {
    "ties-4": "quilting.method = 'tied'\n", "ties-10": "quilting.method = 'tied'\n",
    "tied": "quilting.style = 'ties-4'\n",
}  # fmt: skip
"""Ties and the method that makes them go together."""


def named(path: Path) -> str:
    return f"{path.parent.name}/{path.stem}"


def tables(kind: str, units: str) -> dict[str, Any]:
    data = tomllib.loads((PRESETS / kind / f"{presets.SYSTEMS[units]}.toml").read_text(encoding="utf-8"))
    return {name: table for name, table in data.items() if isinstance(table, dict)}


ALL = [(kind, units, name) for kind in PLACES for units in TOPS for name in tables(kind, units)]


# --- each is used ------------------------------------------------------------------------------------------------


def test_there_are_as_many_in_both_systems():
    """A metric studio can choose what a studio in inches can."""
    for kind in PLACES:
        assert len(tables(kind, "in")) == len(tables(kind, "cm")) >= 2, kind
    cloths = {"cotton-44", "linen-60", "flannel-44", "plush-60", "cotton-wide-108"}
    cloths |= {"cotton-wide-118", "flannel-wide-90", "plush-wide-90"}
    assert cloths <= {name for _, _, name in ALL}


@pytest.mark.no_cover
@pytest.mark.parametrize(("kind", "units", "name"), ALL)
@pytest.mark.parametrize("project", TOPS)
def test_each_preset_makes_a_quote_in_either_system(kind: str, units: str, name: str, project: str):
    """Also in the other system's projects: a name that only one system has is found from both."""
    lines = "".join(f"{place} = '{name}'\n" for place in PLACES[kind]) + TIED.get(name, "")
    result = quoted(TOPS[project] + lines)
    own = name in tables(kind, project)
    expected = tables(kind, project if own else units)[name]["name"]
    for place in PLACES[kind]:
        assert material(result, place).name == expected
    assert result.quote.total.minor > 0


def material(result: Finishing, place: str) -> Any:
    section, key = place.split(".")
    return getattr(getattr(result.resolved.project, section), key)


@pytest.mark.parametrize(("kind", "units", "name"), ALL)
def test_each_preset_gives_every_key_of_its_kind(kind: str, units: str, name: str):
    """What a preset leaves out is filled by the sample shop, silently: only plush stretches, only custom work and lines
    have no rows, only patterns a way of working, a height and a widest distance, only custom work motifs, only slanting
    lines and channels an angle, only a domestic machine a bobbin of its own, and few styles an overage."""
    given = tables(kind, units)[name]
    optional = {"preset", "bolt", "selling", "stretch"} if kind == "fabrics" else {"preset"}
    if kind == "styles":
        optional |= {"overage"}
        rows = name in ("custom", "tiny-fill") or given["lines"] != "pattern"
        optional |= {"row_pitch"} if rows else set()
        optional |= {"pattern_height", "widest", "worked"} if given["lines"] != "pattern" else set()
        optional |= {"motif"} if given.get("worked") != "motifs" else set()
        optional |= {"angle"} if given["lines"] in ("pattern", "grid", "echo", "ties") else set()
    if kind == "methods":
        optional |= {"rate_class", "stitch_length"} | ({"bobbin"} if name != "domestic-machine" else set())
    assert set(specs(MODELS[kind])) - set(given) <= optional


def test_a_name_in_both_systems_means_the_project_s_own():
    both = [(kind, name) for kind in PLACES for name in tables(kind, "in") if name in tables(kind, "cm")]
    assert ("battings", "cotton-blend") in both
    for kind, name in both:
        for units in TOPS:
            found = presets.find(kind, name, units)
            assert found
            assert found.source.name == f"presets/{kind}/{presets.SYSTEMS[units]}.toml"


# --- the sample shops --------------------------------------------------------------------------------------------

ABSENT = {
    ("deposit", "amount"): "a deposit is a share or an amount, and the sample asks a share",
    ("deposit", "shares"): "a deposit is a share or an amount, and the sample asks a share",
    ("usual", "charges", "discount_amount"): "a discount is a share or an amount, and the sample gives a share",
    ("rates", "thread", "cost"): "the sample charges no thread, and none is known to cost anything",
    ("usual", "top", "width"): "a shop has no usual size",
    ("usual", "top", "length"): "a shop has no usual size",
    ("usual", "top", "diameter"): "a shop has no usual size",
    ("usual", "top", "measured"): "a shop has no usual size",
    ("usual", "top", "corner_radius"): "only a project knows its outline",
    ("usual", "top", "scallop"): "only a project knows its outline",
    ("usual", "top", "blocks"): "only a project knows what its top is pieced from",
    ("usual", "top", "sashing"): "only a project knows what its top is pieced from",
    ("usual", "top", "borders"): "only a project knows what its top is pieced from",
    ("usual", "top", "centre"): "only a project knows what its top is pieced from",
    ("usual", "top", "covers", "bed"): "only a project knows what is covered",
    ("usual", "top", "covers", "table"): "only a project knows what is covered",
    ("usual", "top", "covers", "foot_drop"): "as the drop, unless a project says otherwise",
    ("usual", "top", "piecing", "most_joins"): "as many joins as it takes, unless a shop or a project sets a limit",
    ("usual", "binding", "finished"): "the strip's width is given, or what shows of it, and the sample gives the strip",
    ("usual", "binding", "offcut"): "only a project knows what is at hand",
    ("usual", "job", "date"): "only a project has a date",
    ("usual", "job", "due"): "only a project has a date",
    ("usual", "backing", "have"): "only a project knows what is brought",
    ("usual", "batting", "have"): "only a project knows what is brought",
    ("usual", "backing", "sewn"): "only a project knows what is brought",
    ("usual", "backing", "seam_count"): "only a project picks a plan",
    ("usual", "backing", "turned"): "only a project picks a plan",
    ("usual", "backing", "most_seams"): "the shop's own is cloth.most_seams",
    **{
        ("extras", name, "of"): "only work by length goes by a measure of the top"
        for name in ("label", "sleeve", "thread", "pressing")
    },
    **{("extras", name, "cut"): "nothing is cut for it" for name in ("thread", "pressing")},
    **{("extras", "label", "cut", key): "the sample's label is a square" for key in ("length", "of", "less")},
    ("extras", "sleeve", "cut", "length"): "a sleeve goes by the width of the top",
    **{
        ("extras", name, "cut", "supplied_by"): "whoever supplies the cloth of the backing"
        for name in ("label", "sleeve")
    },
    **{
        ("extras", name, "minutes_per"): "the minutes are of each unit, or of the whole quilt"
        for name in ("label", "sleeve", "thread", "pressing")
    },
    ("extras", "thread", "minutes"): "goods take no time of their own",
    ("extras", "pressing", "cost"): "work alone costs its time",
    ("fabrics",): "the shop's own, beside the presets",
    ("battings",): "the shop's own, beside the presets",
    ("styles",): "the shop's own, beside the presets",
    ("methods",): "the shop's own, beside the presets",
    ("beds",): "the shop's own, beside the presets",
    ("tables",): "the shop's own, beside the presets",
}
"""The keys that a sample shop leaves out by design, and why."""


def gaps(section: type[Section], given: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """The keys that a table could hold and this one does not, but those that an item of a list may leave out. A
    material that is a preset's name is whole."""
    if issubclass(section, Shorthand) and not isinstance(given, dict):
        return
    for key, spec in specs(section).items():
        steps = (*path, key)
        if key not in given:
            if not section.must_give or key in section.must_give:
                yield steps
        elif spec.kind == "table" and spec.section:
            yield from gaps(spec.section, given[key], steps)
        elif spec.kind == "entries" and spec.section:
            for item in given[key]:
                yield from gaps(spec.section, item, steps)
        elif spec.kind == "named" and spec.section:
            for name, item in given[key].items():
                yield from gaps(spec.section, item, (*steps, name))
        else:
            assert spec.kind in ("value", "rows")


@pytest.mark.parametrize("system", presets.SYSTEMS.values())
def test_a_sample_shop_holds_every_key_but_these(system: str):
    """Every key, or there would be a default in Python; the absent ones are named, so that none is forgotten."""
    data = tomllib.loads((PRESETS / "shops" / f"{system}.toml").read_text(encoding="utf-8"))
    assert set(gaps(ShopFile, data)) == set(ABSENT)
    text = (PRESETS / "shops" / f"{system}.toml").read_text(encoding="utf-8")
    for kind in (path[0] for path in ABSENT if len(path) == 1):
        assert f"[{kind}." in text, "the shop's own are shown as comments"


def test_the_annotated_project_holds_every_key():
    """Each but what another key stands for: a shop file, a sewn backing, other sizes, a strip by its finished width,
    an offcut; what is on hand; and what picks a plan for cloth that is bought."""
    data = tomllib.loads((PRESETS / "projects" / "every-key.toml").read_text(encoding="utf-8"))
    pieced = ("covers", "blocks", "sashing", "borders", "centre", "piecing")
    others = {("top", key) for key in ("diameter", "measured", "corner_radius", "scallop", *pieced)}
    others |= {("shop",), ("quilting", "areas"), ("charges", "lines"), ("binding", "finished"), ("binding", "offcut")}
    others |= {("charges", "discount_amount")}
    others |= {("batting", "have"), ("on_hand",)}
    others |= {("backing", key) for key in ("sewn", "seam_count", "turned", "most_seams")}
    assert {path for path in gaps(ProjectFile, data) if path[:2] != ("backing", "fabric")} == others


def test_a_key_that_is_taken_out_is_missed():
    data = tomllib.loads((PRESETS / "shops" / "inch.toml").read_text(encoding="utf-8"))
    del data["rates"]["binding"]["hand"], data["usual"]["binding"]["join"]
    assert set(gaps(ShopFile, data)) - set(ABSENT) == {("rates", "binding", "hand"), ("usual", "binding", "join")}


def test_both_sample_shops_have_the_same_keys():
    def keys(data: Any, path: str = "") -> set[str]:
        return (
            {path}.union(*(keys(item, f"{path}.{key}") for key, item in data.items()))
            if isinstance(data, dict)
            else {path}
        )

    inch, metric = (
        keys(tomllib.loads((PRESETS / "shops" / f"{system}.toml").read_text(encoding="utf-8")))
        for system in ("inch", "metric")
    )
    assert inch == metric


# --- what each file says of itself -------------------------------------------------------------------------------


def header(text: str) -> str:
    """The comment a file opens with, as running text."""
    lines = text.split("\n")
    end = next(n for n, line in enumerate(lines) if not line.startswith("#"))
    return " ".join(line.removeprefix("#").strip() for line in lines[:end])


@pytest.mark.parametrize("path", FILES, ids=named)
def test_each_file_opens_with_a_comment_and_names_its_units(path: Path):
    text = path.read_text(encoding="utf-8")
    assert len(header(text)) > 60
    units = tomllib.loads(text)["units"]
    if path.parent.name != "projects":
        assert units == {"inch": "in", "metric": "cm"}[path.stem.removeprefix("maker-")]
        assert {"in": "in inches", "cm": "in centimetres"}[units] in header(text)


@pytest.mark.parametrize("path", MATERIALS, ids=named)
def test_each_file_explains_its_keys_or_points_to_the_file_that_does(path: Path):
    head = header(path.read_text(encoding="utf-8"))
    if pointed := re.search(r"The keys are those of (\S+\.toml) beside this file", head):
        head = header((path.parent / pointed[1]).read_text(encoding="utf-8"))
    for kind, units, name in ALL:
        if kind == path.parent.name and presets.SYSTEMS[units] == path.stem:
            for key, item in tables(kind, units)[name].items():
                inner = {step for part in item for step in part} if isinstance(item, list) else set()
                for word in {key} | inner:
                    assert re.search(rf"\b{word}\b", head), (name, word)


# --- where figures come from -------------------------------------------------------------------------------------

SOURCE = re.compile(
    r"common practice|from memory|\bsamples?\b|derived"
    r"|shops' sheets|(mill|plush maker)'s (chart|sheet)|batting guide|sellers agree|measured"
    r"|\blogs?\b|\blabels?\b|teacher's chart|shop's guide|magazine, \d{4}"
    r"|lesson|textbooks|leaflets|teaching note|standard|regulation|\b\d+ CFR\b",
    re.I,
)
"""A source, or the honest words for having none."""

HEADERS = {
    "shops": (("rates", "seaming", "extras"), "Every price, wage and minute here is a SAMPLE"),
    "fabrics": (("price",), "Every price is a sample"),
    "battings": (("packages", "rolls"), "Every price is a sample"),
    "styles": (
        ("line_spacing", "widest", "pattern_height", "row_pitch", "run_off", "draw_up", "angle"),
        "pattern heights, pitches, run-off",
    ),
    "methods": (("stages",), "Minutes and speeds are samples"),
    "beds": (("width", "length", "depth"), "general encyclopedia, table of bed sizes"),
    "tables": (("width", "length", "diameter", "height"), "Sizes: common practice"),
}
"""For each kind: the tables or keys that the file's opening comment speaks for, and the words it does so with."""

MORE_HEADERS = {
    "battings/inch": (("thickness",), "Thickness: 0.05 for a stitched sandwich"),
    "styles/inch": (("stitch_length",), "(machine 8-12: from memory)"),
    "styles/metric": (("stitch_length",), "the usual stitch length of 2.5 mm: common practice"),
}
"""What the opening comment of one file says besides."""

NO_FIGURE = {"name", "label", "units", "currency", "symbol", "paper", "style", "method", "fabric", "product", "size",
             "cash_rounding", "decimal", "group", "wider"}  # fmt: skip
"""Keys whose digits, if any, are part of a name."""


def figures(text: str) -> Iterator[tuple[str, str, str]]:
    """Each line with a figure that is not nothing: its table and key, the line, and the comment that speaks for it:
    its own, which may go on in the line below, or that of the line above, whose keys then begin with the same word."""
    table, above = "", ("", "")
    lines = text.split("\n")
    for line, below in pairwise([*lines, ""]):
        if found := re.match(r"\[+([^\]]+)\]", line):
            table, above = found[1], ("", "")
        pair = re.match(r"(?:([\w-]+) *=| *\{)", line)
        if not pair:
            continue
        value, _, comment = line.partition(" #")
        key = pair[1] or above[0]
        word = key.split("_")[0]
        said = comment or (above[1] if above[0].split("_")[0] == word else "")
        above = (key, said)
        if re.search(r"[1-9]", value.partition("=")[2]) and key not in NO_FIGURE:
            goes_on = re.match(rf"{word}(_\w+)? *=", below) if comment else None
            yield f"{table}.{key}", line, said + (below.partition("#")[2] if goes_on else "")


def spoken_for(path: Path, place: str) -> bool:
    """Whether the file's opening comment says where this figure is from."""
    head = header(path.read_text(encoding="utf-8"))
    for keys, words in (HEADERS.get(path.parent.name, ((), "")), MORE_HEADERS.get(named(path), ((), ""))):
        assert words in head, (named(path), words)
        if place.split(".")[0] in keys or place.split(".")[-1] in keys:
            return True
    return False


@pytest.mark.parametrize("path", [path for path in FILES if path.parent.name != "projects"], ids=named)
def test_each_figure_says_where_it_is_from(path: Path):
    found = list(figures(path.read_text(encoding="utf-8")))
    assert len(found) >= 10 or path.stem.startswith("maker-"), "a maker's shop has a figure for her wage alone"
    silent = [line for place, line, said in found if not SOURCE.search(said) and not spoken_for(path, place)]
    assert silent == []


def test_a_silent_figure_is_noticed():
    text = '[a]\nname = "a 44"\nwidth = 44  # wide\nstep = "1/8 yd"  # derived\nrepeat = 0\n'
    assert [place for place, _, said in figures(text) if not SOURCE.search(said)] == ["a.width"]


# --- the sample projects -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PROJECTS, ids=named)
def test_each_sample_project_is_quoted_alone_from_another_folder(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    home = tmp_path / "home"
    home.mkdir()
    (home / "top.toml").write_bytes(path.read_bytes())
    beside = run("quote", str(path))
    monkeypatch.chdir(tmp_path)
    for command in ("quote", "cut"):
        alone = run(command, "home/top.toml")
        assert (alone.exit_code, alone.stderr) == (0, "")
    alone = run("quote", "home/top.toml")
    assert alone.stdout == beside.stdout


@pytest.mark.parametrize("path", PROJECTS, ids=named)
def test_a_sample_project_says_that_it_is_invented(path: Path):
    assert "invented scenario" in header(path.read_text(encoding="utf-8"))


def test_both_sample_shops_want_the_same_of_a_project():
    """Whatever is no price and no length: who supplies, what rush and discount are on, how an edge is sewn."""
    inch, metric = (tomllib.loads((PRESETS / "shops" / f"{name}.toml").read_text(encoding="utf-8")) for name in SHOPS)
    for path in (("usual", "charges"), ("deposit",), ("offers",)):
        one, other = (reached(data, path) for data in (inch, metric))
        assert {key: one[key] for key in one} == {key: other[key] for key in other}, path


SHOPS = ("inch", "metric")


def reached(data: Any, path: tuple[str, ...]) -> Any:
    for step in path:
        data = data[step]
    return data


@pytest.mark.parametrize(("system", "units"), [("inch", "in"), ("metric", "cm")])
def test_the_maker_s_shop_charges_nothing_for_work(system: str, units: str):
    """Whatever a sample shop has a price for, a maker's shop puts at nothing; it keeps the wage that weighs a seam."""
    sample, maker = (
        tomllib.loads((PRESETS / "shops" / f"{name}.toml").read_text(encoding="utf-8"))
        for name in (system, f"maker-{system}")
    )
    for table in ("quilting", "handling", "binding"):
        assert maker["rates"][table] == dict.fromkeys(sample["rates"][table], 0)
    assert {key: maker["rates"][key] for key in ("minimum", "seam", "overhead")} == dict.fromkeys(
        ("minimum", "seam", "overhead"), 0
    )
    size = "width = 72\nlength = 90" if units == "in" else "width = 183\nlength = 229"
    result = quoted(f"units = '{units}'\n[top]\n{size}\n", PRESETS / "shops" / f"maker-{system}.toml")
    assert {line.line_class for line in result.quote.lines} == {"material"}
    assert [line.amount for line in result.quote.lines] == [line.cost for line in result.quote.lines]


@pytest.mark.parametrize(
    ("fabric", "name"),
    [
        ("{ preset = 'cotton-44', width = 42 }", "quilting cotton, 42 in wide"),
        ("{ preset = 'cotton-44', width = '42 1/2' }", "quilting cotton, 42 1/2 in wide"),
        ("{ preset = 'cotton-wide-108', width = '118 in' }", "wide cotton backing, 118 in"),
        ("{ preset = 'cotton-44', width = 42, name = 'rust, 44 in wide' }", "rust, 44 in wide"),
        ("'cotton-44'", "quilting cotton, 44 in wide"),
    ],
)
def test_a_preset_s_name_keeps_the_width_that_holds(fabric: str, name: str):
    """A name that somebody gives is theirs."""
    backing = quoted(f"{TOP}[backing]\nfabric = {fabric}\n").plans.backing
    assert backing
    assert backing.fabric.name == name
