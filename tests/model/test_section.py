"""A key is declared once: what a file leaves out, what a key takes away, and what a figure knows of itself."""

import re
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

import pytest

import finishcalc
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.checking import check
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.resolve import Resolved, resolve
from finishcalc.intake.source import Source
from finishcalc.model.prices import QuiltingRate, SizeStep, Tax
from finishcalc.model.section import Figure, MissingValue, Section, Shorthand, specs, whole
from finishcalc.problems import ProblemCode
from tests.builders import TOP


class Tin(Section, whole=True):
    """A table that must be given whole; its lid may be left out."""

    size: Literal["small", "large"]
    lid: Literal["tin", "cork"] | None = None


class Shelf(Shorthand, needs=("tin",), takes_away={"tin": ("cup",)}):
    """A table that needs one key; another layer may give the rest."""

    tin: Tin
    cup: Literal["blue", "green"]
    note: Literal["a", "b"] | None = None

    @classmethod
    def shorthand(cls, value: Any) -> Any:
        return {"tin": {"size": value}} if isinstance(value, str) else value


class Cabin(Section):
    """A sparse table."""

    shelf: Shelf
    colour: Literal["red", "white"]
    spare: Tin | None = None


def checked(**data: Any) -> tuple[Cabin, list[tuple[ProblemCode, str, str]]]:
    cabin, problems, _ = check(Cabin, data, Source("t.toml", ""), "in")
    return cabin, [(each.code, each.path, each.hint) for each in problems]


def test_what_a_file_leaves_out_reads_none():
    cabin, problems = checked(shelf={"tin": {"size": "small"}})
    assert problems == []
    assert (cabin.colour, cabin.shelf.cup, cabin.shelf.tin.lid) == (None, None, None)
    assert cabin.model_fields_set == {"shelf"}


def test_only_a_whole_table_and_the_needed_keys_must_be_given():
    missing = ProblemCode.MISSING_KEY
    assert checked(shelf={"cup": "blue"})[1] == [(missing, "shelf.tin", "add tin = ...")]
    assert checked(spare={"lid": "cork"})[1] == [(missing, "spare.size", "add size = ...")]


def test_a_value_stands_for_the_table_that_its_shorthand_says():
    cabin, problems = checked(shelf="large")
    assert problems == []
    assert cabin.shelf.tin.size == "large"


def test_the_words_of_a_wrong_choice_come_from_the_type():
    """The words that may stand there are written once, as the Literal of the key."""
    assert checked(colour="purple")[1] == [(ProblemCode.NOT_A_CHOICE, "colour", "use red or white")]
    assert specs(Cabin)["colour"].choices == ("red", "white")


def test_a_whole_section_has_every_required_key_and_a_sparse_one_names_the_first_gap():
    tin = Tin.new(size="small")
    cabin = Cabin.new(shelf=Shelf.new(tin=tin, cup="blue"), colour="red")
    assert whole(cabin, "cabin") is cabin
    for gap, path in (
        (cabin.replace(colour=None), "cabin.colour"),
        (cabin.replace(shelf=Shelf.new(tin=tin)), "cabin.shelf.cup"),
        (cabin.replace(shelf=Shelf.new(tin=Tin.new(), cup="blue")), "cabin.shelf.tin.size"),
    ):
        with pytest.raises(MissingValue, match=rf"^no layer gives {re.escape(path)}: add it to presets/shops$"):
            whole(gap, "cabin")


def test_what_any_of_several_base_tables_requires_is_required():
    class Box(Section):
        """A table beside the others."""

        depth: Literal["low", "high"]

    class Chest(Cabin, Box):
        """A table of two."""

    assert Chest.required == {"shelf", "colour", "depth"}


def test_a_key_takes_away_what_it_makes_void_in_the_layers_below():
    layers, source = LayeredValues(), Source("t.toml", "")
    layers.lay(checked(shelf={"tin": {"size": "small"}, "cup": "blue", "note": "a"})[0], "shop file", source)
    layers.lay(checked(shelf={"tin": {"size": "large"}})[0], "project file", source)
    shelf = layers.section(Cabin).shelf
    assert (shelf.tin.size, shelf.cup, shelf.note) == ("large", None, "a")


def test_figures_are_equal_whatever_key_gives_them():
    assert Figure(Fraction(3), "yd", "a.price", True) == Figure(Fraction(3), "yd", "b.price")
    assert Figure(Fraction(3), "yd") != Figure(Fraction(3), "m")


# --- what a figure knows of itself -------------------------------------------------------------------------------


def resolved(text: str = TOP, shop: str = "", *values: str) -> Resolved:
    change = trials(list(values))[0].change if values else None
    return resolve(
        Source("t.toml", text), "s.toml" if shop else None, change=change, reader=lambda _: Source("s.toml", shop)
    )


def known(figure: Figure[Any] | None) -> tuple[str, str, bool]:
    assert figure
    return figure.key, figure.per, figure.sample


PRESET_CLOTH = "[backing]\nfabric = 'cotton-44'\n"
OWN_CLOTH = "[backing]\nfabric = { preset = 'cotton-44', price = 9 }\n"


@pytest.mark.parametrize(
    ("text", "shop", "value", "sample"),
    [
        (TOP + PRESET_CLOTH, "", [], True),  # the preset's price
        (TOP + PRESET_CLOTH, "[fabrics.cotton-44]\nprice = 9\n", [], False),  # the shop's
        (TOP + OWN_CLOTH, "", [], False),  # the project's
        (TOP + PRESET_CLOTH, "", ["backing.fabric.price=9"], False),  # tried
    ],
)
def test_the_price_of_a_fabric_knows_its_key_its_unit_and_whose_it_is(
    text: str, shop: str, value: list[str], sample: bool
):
    backing = resolved(text, shop, *value).project.backing
    assert backing
    assert known(backing.fabric.price) == ("backing.fabric.price", "yd", sample)


def test_a_binding_rate_is_per_the_unit_of_all_of_them():
    assert known(resolved().shop.rates.binding.hand) == ("rates.binding.hand", "in", True)
    by_foot = "[rates]\nbinding_per = 'yd'\n[rates.binding]\n"
    by_foot += "".join(f"{work} = 1\n" for work in ("make", "front", "machine", "hand", "faced", "hem"))
    assert known(resolved(shop=by_foot).shop.rates.binding.hand) == ("rates.binding.hand", "yd", False)
    tried = resolved(TOP, "", "rates.binding.hand=2").shop.rates.binding
    assert (known(tried.hand), known(tried.make)) == (
        ("rates.binding.hand", "in", False), ("rates.binding.make", "in", True),
    )  # fmt: skip


def test_a_quilting_rate_is_per_its_own_unit_or_that_of_all():
    shop = "[rates.quilting]\ndense = { price = 40, per = 'hour' }\ncustom = '0.08'\n"
    rates = resolved(shop=shop).shop.rates.quilting
    assert known(rates["dense"].price) == ("rates.quilting.dense.price", "hour", False)
    assert known(rates["custom"].price) == ("rates.quilting.custom.price", "sq in", False)
    assert known(rates["edge-to-edge"].price) == ("rates.quilting.edge-to-edge.price", "sq in", True)


def test_minutes_at_the_edge_are_per_the_unit_of_all_of_them():
    times = resolved(shop="[edge_time]\nhand = 1\n").project.edge_time
    assert known(times.hand) == ("edge_time.hand", "in", False)
    assert known(times.make) == ("edge_time.make", "in", True)


def test_what_is_no_figure_of_the_shop_s_is_bare():
    assert {name for name, spec in specs(SizeStep).items() if spec.figure} == set()
    assert {name for name, spec in specs(QuiltingRate).items() if spec.figure} == {"price", "steps", "more"}
    assert {name for name, spec in specs(Tax).items() if spec.figure} == set()


TABLES = "rates|cloth|backing|binding|batting|thread|seaming|edge_time|deposit|extras"
KEY_PATH = re.compile(rf"""["'](?:{TABLES})\.[a-z{{]""")


def test_no_key_of_a_figure_is_spelt_in_plans_pricing_or_rendering():
    """A figure brings its key along, so that no key can be misspelt where it is used."""
    package = Path(finishcalc.__file__).parent
    found = [
        f"{path.name}: {line.strip()}"
        for folder in ("plans", "pricing", "rendering")
        for path in (package / folder).rglob("*.py")
        for line in path.read_text(encoding="utf-8").split("\n")
        if KEY_PATH.search(line)
    ]
    assert found == []
    assert KEY_PATH.search('x = f"rates.{name}"')
    assert KEY_PATH.search('x = "rates.seam"')
