"""The words that people type: each means something that exists, however it is spelled, and every choice uses them."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from finishcalc.intake import presets
from finishcalc.intake.changes.sizes import USES
from finishcalc.intake.layers import Origin
from finishcalc.intake.resolve import Resolved
from finishcalc.intake.words import Word, bare, hint_for, meant, table, understood
from finishcalc.model.files import MATERIALS, ProjectFile, ShopFile
from finishcalc.model.section import Section, specs
from finishcalc.problems import ProblemsFound
from tests.builders import CLOTH, PRESETS, TOP, quoted, run, sized

WORDS = list(table().values())
SYSTEMS = ("in", "cm")


def keys_and_choices(section: type[Section], seen: set[type[Section]]) -> Iterator[str]:
    """Every key of a table and of those within it, and every word of their choices."""
    if section in seen:
        return
    seen.add(section)
    for name, spec in specs(section).items():
        yield from (name, *spec.choices, *(spec.key.form.words if spec.key else ()))
        if spec.section:
            yield from keys_and_choices(spec.section, seen)


def all_names() -> set[str]:
    """Everything that can be named: presets, kinds, keys, choices, extras, classes of rates, readers."""
    names = {name for kind in MATERIALS for name in presets.names(kind, "in")} | set(MATERIALS)
    for model in (ProjectFile, ShopFile):
        names |= set(keys_and_choices(model, set()))
    shop = presets.sample_shop("in")[0]
    return names | set(shop.extras) | set(shop.rates.quilting) | {"customer", "studio", "none", "backing", "binding"}


NAMES = all_names()


# --- the table ---------------------------------------------------------------------------------------------------


def test_there_are_words():
    assert len(WORDS) > 200


@pytest.mark.parametrize("word", WORDS, ids=lambda word: word.text)
def test_every_word_stands_for_something_that_exists(word: Word):
    assert word.names
    assert set(word.names) <= NAMES


def test_every_word_has_its_source():
    """A comment on its line; of a word that stands for many names, on the first."""
    lines = (PRESETS / "words.toml").read_text(encoding="utf-8").split("\n")
    entries = [line for line in lines if re.match(r"[\w\"].* = ", line)]
    assert len(entries) == len(WORDS)
    assert [line for line in entries if not re.search(r"# \S.{4,}", line)] == []


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("kind", MATERIALS)
def test_no_word_stands_in_the_way_of_a_preset_s_own_name(kind: str, units: str):
    """Its name means itself, and a word that is spelled like it means no other of its kind."""
    own, every = presets.own_names(kind, units), presets.names(kind, units)
    for name in every:
        assert meant(name, own, every) == (name,)
        spelled = table().get(bare(name))
        assert not spelled or not set(spelled.names) & set(every) - {name}


@pytest.mark.parametrize("word", [word for word in WORDS if not word.what_it_is], ids=lambda word: word.text)
def test_capitals_hyphens_blanks_and_plurals_do_not_matter(word: Word):
    expected, text = meant(word.text, list(word.names)), word.text
    assert expected
    spellings = [text.upper(), text.title(), text.replace(" ", "-"), text.replace(" ", "_"), text.replace("-", " ")]
    spellings += [text.replace(" ", ""), f"  {text} "]
    if re.search(r"[b-df-hj-np-rt-wz]$", text) and not re.search(r"(ch|sh)$", text):
        spellings.append(f"{text}s")
    for spelling in spellings:
        assert meant(spelling, list(word.names)) == expected, spelling


@pytest.mark.parametrize(
    ("one", "several"),
    [("wide back", "Wide-Backs"), ("crosshatch", "crosshatches"), ("tie", "ties"), ("minky", "minkies"),
     ("circle", "Circles"), ("cross grain", "crossgrain"), ("80/20", "80-20"), ("fat quarter", "fat quarters")],
)  # fmt: skip
def test_a_plural_is_as_bare_as_its_singular(one: str, several: str):
    assert bare(one) == bare(several)


def test_what_only_ends_like_a_plural_keeps_its_end():
    """Else "cros" would mean "cross"."""
    assert (bare("Cross"), bare("press"), bare("")) == ("cross", "press", "")


def test_presets_of_the_project_s_units_come_first():
    """A yard of minky and a metre of it are two presets; nobody has to say which."""
    tiers = {units: (presets.own_names("fabrics", units), presets.names("fabrics", units)) for units in SYSTEMS}
    assert understood("minky", *tiers["in"]) == "plush-60"
    assert understood("minky", *tiers["cm"]) == "plush-150"
    assert understood("118", *tiers["cm"]) == "cotton-wide-118"


def test_a_hint_lists_what_a_word_may_mean():
    styles = presets.own_names("styles", "in")
    assert hint_for("E2E", styles) == (
        "E2E may be: open-meander, medium-pantograph, dense-pantograph or directional-pantograph"
    )
    methods = presets.own_names("methods", "in")
    assert hint_for("long arm", methods) == "long arm may be: longarm-hand-guided or longarm-computer-guided"
    assert hint_for("quilt-as-you-go", methods).endswith("nearest: domestic-machine")
    assert hint_for("fat quarters", presets.own_names("fabrics", "in")).endswith("nearest: cotton-44")
    assert hint_for("hand-quilte", methods) == 'did you mean "hand-quilted"?'
    assert hint_for("zzzz", ["one", "two"]) == "use one or two"


def test_a_word_is_read_for_the_place_it_stands_in():
    """One word, another name in each place."""
    assert understood("mitre", ["butted", "cornerstones", "mitred"]) == "mitred"
    assert understood("mitre", ["diagonal", "straight"]) == "diagonal"
    assert understood("mitre", ["any", "panel"]) is None
    assert understood("walking foot", presets.own_names("methods", "in")) == "domestic-machine"
    assert len(meant("walking foot", presets.own_names("styles", "in"))) == 5
    assert understood("by hand", ["front", "machine", "hand"]) == "hand"


# --- every choice uses it ----------------------------------------------------------------------------------------

TAKEN = [
    ("backing.fabric = 'Minky'", "plush-60"),
    ("backing.fabric = { preset = 'minky', price = 20 }", "plush-60"),
    ("backing.fabric = 'nothing'", "none"),
    ("binding.fabric = 'lining'", "backing"),
    ("batting.product = '80/20'", "cotton-blend"),
    ("quilting.style = 'Meandering'", "open-meander"),
    ("quilting.method = 'Computerised Longarm'", "longarm-computer-guided"),
    ("quilting.style = 'Open Meander'", "open-meander"),
]


@pytest.mark.parametrize(("line", "name"), TAKEN)
def test_a_preset_is_taken_by_a_word(line: str, name: str):
    """The origin tells the word, and the studio is told what it was taken for."""
    key, _, rest = line.partition(" = ")
    table_name, key = key.split(".")
    resolved = quoted(f"{TOP}[{table_name}]\n{key} = {rest}\n").resolved
    path = (table_name, key, "preset")
    sourced = resolved.layers.values[path]
    word = re.search(r"'(.*?)'", rest)
    assert word is not None
    assert (sourced.value, sourced.origin.word) == (name, word[1])
    assert [(taken.word, taken.name) for taken in resolved.taken_words] == [(word[1], name)]


def test_a_name_of_ours_is_not_told_as_a_word():
    resolved = quoted(f"{TOP}[backing]\nfabric = 'plush-60'\n").resolved
    assert resolved.taken_words == ()
    assert resolved.layers.values["backing", "fabric", "preset"].origin.word == Origin._field_defaults["word"] == ""


def test_a_word_costs_what_its_name_costs():
    named = quoted(f"{TOP}[backing]\nfabric = 'plush-60'\n[binding]\nattach = 'hand'\n")
    said = quoted(f"{TOP}[backing]\nfabric = 'MINKY'\n[binding]\nattach = 'hand sewn'\n")
    assert said.quote.total == named.quote.total
    assert [caution.code for caution in said.cautions if caution not in named.cautions] == ["word-taken"]


CHOICES = [
    ("[top]\nwidth = 60\nlength = 80\nshape = 'square'", ("top", "shape"), "rectangle"),
    ("[top]\nwidth = 60\nlength = 80\nuse = 'Lap quilt'", ("top", "use"), "throw"),
    (f"{TOP}[backing]\nseams = 'LOF'", ("backing", "seams"), "lengthwise"),
    (f"{TOP}[backing]\nsupplied_by = 'client'", ("backing", "supplied_by"), "customer"),
    (f"{TOP}[binding]\ncut = 'WOF'", ("binding", "cut"), "crosswise"),
    (f"{TOP}[binding]\nattach = 'Hand-sewn'", ("binding", "attach"), "hand"),
    (f"{TOP}[binding]\nfold = 'French fold'", ("binding", "fold"), "double"),
    (f"{TOP}[charges]\nrush_classes = ['Labor', 'material']", ("charges", "rush_classes"), ("labour", "material")),
    ("[top.blocks]\nacross = 3\ndown = 4\nsize = 12\nsetting = 'On Point'", ("top", "blocks", "setting"), "on-point"),
    (f"units = 'metric'\n{TOP}", ("units",), "cm"),
    (f"units = 'Inches'\n{TOP}", ("units",), "in"),
]


@pytest.mark.parametrize(("text", "path", "value"), CHOICES)
def test_a_choice_is_taken_by_a_word(text: str, path: tuple[str, ...], value: Any):
    layers = quoted(text).resolved.layers
    assert layers.values[path].value == value


def test_units_in_words_are_the_units_of_bare_numbers():
    """60 in is 1524 mm and 60 cm is 600 mm."""
    widths = [quoted(f"units = '{units}'\n{TOP}").plans.top.shape.width.mm for units in ("Inches", "Centimetres")]
    assert widths == [1524, 600]


@pytest.mark.parametrize(
    ("cover", "name"),
    [("bed = 'Queen size'", "queen bed"), ("bed = 'cal king'", "California king bed"),
     ("table = 'bridge table'", "card table"), ("table = 'round 6'", "round table for six")],
)  # fmt: skip
def test_a_bed_or_a_table_is_taken_by_a_word(cover: str, name: str):
    covers = quoted(f"[top.covers]\n{cover}\ndrop = 10\n").resolved.tables.top.covers
    assert (covers.bed or covers.table).name == name  # type: ignore[union-attr]


def test_extras_and_rate_classes_are_taken_by_a_word():
    text = f"{TOP}[charges]\nextras = ['Hanging sleeve', {{ name = 'quilt label', fabric = 'lining' }}]\n"
    resolved = quoted(f"{text}[quilting]\nstyle = {{ preset = 'grid-2', rate_class = 'E2E' }}\n").resolved
    assert [(extra.name, extra.fabric) for extra in resolved.tables.charges.extras] == [
        ("sleeve", None), ("label", "backing"),
    ]  # fmt: skip
    assert resolved.tables.quilting.style.rate_class == "edge-to-edge"
    assert {taken.word for taken in resolved.taken_words} == {"Hanging sleeve", "quilt label", "E2E"}


def problems(text: str) -> list[tuple[str, str]]:
    with pytest.raises(ProblemsFound) as found:
        quoted(text)
    return [(problem.path, problem.hint) for problem in found.value.problems]


@pytest.mark.parametrize(
    ("text", "path", "hint"),
    [
        (f"{TOP}[wadding]\nproduct = 'wool'", "wadding", 'did you mean "batting"?'),
        (f"{TOP}[lining]\noverage = 4", "lining", 'did you mean "backing"?'),
        ("[top]\nwidth = 60\nlength = 80\nheight = 80", "top.height", 'did you mean "length"?'),
        (f"{TOP}[binding]\ncut = 'straight grain'", "binding.cut", "straight grain may be: crosswise or lengthwise"),
        (f"{TOP}[quilting]\nstyle = 'E2E'", "quilting.style",
         "E2E may be: open-meander, medium-pantograph, dense-pantograph or directional-pantograph"),
        ("[top.covers]\nbed = 'single'\ndrop = 10", "top.covers.bed", "single may be: twin or uk-single"),
    ],
)  # fmt: skip
def test_a_word_of_several_meanings_lists_them_and_a_key_is_only_proposed(text: str, path: str, hint: str):
    assert problems(text) == [(path, hint)]


def test_a_size_is_asked_for_in_words():
    """A lap quilt is a throw of its own size; a circle is round."""
    rows = sized(CLOTH, "Queen size", "lap quilt 50 x 65", "wall hanging circle 40").rows[1:]
    tops = [row.result.resolved.tables.top for row in rows]
    assert tops[0].covers.bed is not None
    assert [top.use for top in tops[1:]] == ["throw", "wall"]
    assert USES == ("tablecloth", "throw", "wall")
    assert tops[2].diameter is not None


def test_a_round_of_a_size_is_not_a_table_by_its_name():
    """ "round 6" is 6 in across, though a table is named round-6."""
    (row,) = sized(CLOTH, "round 6").rows[1:]
    assert row.result.resolved.tables.top.covers.table is None


def test_cloths_and_readers_are_asked_for_in_words(tmp_path: Path):
    grid = ["compare", str(CLOTH), "--as", "queen", "--grid"]
    shown = run(*grid, "--cloth", "plush-60", "--cloth", "linen-60").stdout
    assert run(*grid, "--cloth", "Minky", "--cloth", "plush-60", "--cloth", "table linen").stdout == shown
    assert run("quote", str(CLOTH), "--for", "client").stdout == run("quote", str(CLOTH)).stdout
    assert run("quote", str(CLOTH), "--for", "Longarmers").stdout == run("quote", str(CLOTH), "--for", "studio").stdout


def test_a_value_to_try_may_be_a_word():
    said = run("quote", str(CLOTH), "--set", "backing.fabric=minky").stdout
    assert said == run("quote", str(CLOTH), "--set", "backing.fabric=plush-60").stdout


def test_a_shop_s_own_name_comes_before_a_word():
    """A shop that has a cloth of its own named "minky" means that."""
    own: list[str] = ["minky", *presets.own_names("fabrics", "in")]
    assert understood("Minky", own) == "minky"


def test_the_table_is_read_only_where_a_name_is_not_known():
    """A quote of known names does not wait for it."""
    table.cache_clear()
    resolved = quoted(f"{TOP}[backing]\nfabric = 'plush-60'\n").resolved
    assert isinstance(resolved, Resolved)
    assert table.cache_info().currsize == 0
