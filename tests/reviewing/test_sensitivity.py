"""The samples and defaults of a quote, each a tenth off: by hand, and by a second quote over a changed shop file."""

from contextlib import suppress
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import tomlkit

from finishcalc.choosing import plan_and_price
from finishcalc.intake.changes.change import Change
from finishcalc.intake.keypaths import KeyPath
from finishcalc.pipeline import Finishing, finish_file
from finishcalc.problems import ProblemsFound
from finishcalc.reviewing.moving import moved, moves
from finishcalc.reviewing.sensitivity import Influence, influences
from tests.builders import BARE, PRESETS, finished, in_shop, quoted, run

pytestmark = pytest.mark.slow

BOUND = """[top]
width = 60
length = 80
[backing]
fabric = "none"
[batting]
product = "none"
[binding]
attach = "machine"
supplied_by = "customer"
[charges]
extras = []
"""
"""A top of 60 x 80 with an edge of 2 x (60 + 80) = 280 in that is bound in the customer's own cloth."""


@cache
def influences_of(name: str) -> tuple[Influence, ...]:
    """Those of a sample, tried once: each of its hundred trials is a quote."""
    return influences(finished(PRESETS / "projects" / f"{name}.toml"))


def by_key(result: Finishing) -> dict[str, Influence]:
    return {each.key: each for each in influences(result)}


def adds(influence: Influence) -> tuple[str, str]:
    assert influence.more
    assert influence.less
    return str(influence.more.adds), str(influence.less.adds)


def test_a_rate_moves_the_total_by_a_tenth_of_its_line():
    """60 x 80 = 4,800 sq in x 0.03 = 144.00, less any extra; a tenth of it is 14.40 either way."""
    rate = by_key(quoted(BARE + "[charges]\nextras = []\n"))["rates.quilting.edge-to-edge.price"]
    assert rate.value == "0.03"
    assert adds(rate) == ("14.40", "-14.40")
    assert rate.more
    assert (rate.more.value, str(rate.more.total)) == ("0.033", "158.40")


def test_the_work_at_the_edge_moves_it_by_the_edge():
    """Made at 0.05 and finished by machine at 0.25 for each of 280 in: 1.40 and 7.00 for a tenth."""
    found = by_key(quoted(BOUND))
    assert adds(found["rates.binding.make"]) == ("1.40", "-1.40")
    assert adds(found["rates.binding.machine"]) == ("7.00", "-7.00")


def test_a_minimum_counts_where_it_is_charged_and_the_rate_then_does_not():
    """20 x 20 = 400 sq in x 0.03 = 12.00, below the minimum of 75: a tenth of that is 7.50."""
    small = BARE.replace("60", "20").replace("80", "20") + "[charges]\nextras = []\n"
    found = by_key(quoted(small))
    assert adds(found["rates.minimum"]) == ("7.50", "-7.50")
    assert found["rates.quilting.edge-to-edge.price"].most == 0


def test_a_tax_moves_by_its_share():
    """A line of material at 100.00 with 5 % tax: 5.5 % is 0.50 more, 4.5 % is 0.50 less."""
    line = '[charges]\nextras = []\nlines = [{ label = "Kit", price = 100, line_class = "material" }]\n'
    assert adds(by_key(quoted(BARE + line))["tax"]) == ("0.50", "-0.50")


def test_a_wage_that_no_price_goes_by_moves_nothing_and_is_named_all_the_same():
    assert by_key(quoted(BARE))["rates.wage"].most == 0


def test_the_largest_is_first_and_those_of_one_effect_are_by_key():
    found = influences_of("boathouse-supper-cloth")
    assert [(-each.most, each.key) for each in found] == sorted((-each.most, each.key) for each in found)
    assert found[0].most > 0


def test_what_the_studio_gives_herself_is_no_sample_and_no_default(tmp_path: Path):
    own = in_shop(tmp_path, "[rates]\nquilting = { edge-to-edge = '0.03' }\n[usual.backing]\noverage = 4\n")
    assert not {"rates.quilting.edge-to-edge.price", "usual.backing.overage"} & by_key(own).keys()


def test_what_the_project_gives_is_none_either():
    own = quoted("[top]\nwidth = 60\nlength = 80\n[backing]\nfabric = { preset = 'cotton-44', price = 11 }\n")
    found = by_key(own)
    assert "fabrics.cotton-44.width" in found
    assert not any("backing.fabric" in key for key in found)


def test_one_preset_that_two_parts_use_is_one_sample():
    """Backing and binding are both of cotton-44: one key in the shop file changes both."""
    both = by_key(
        quoted("[top]\nwidth = 60\nlength = 80\n[binding]\nfabric = 'cotton-44'\n[backing]\nfabric = 'cotton-44'\n")
    )
    assert [key for key in both if key.endswith("cotton-44.price")] == ["fabrics.cotton-44.price"]


@pytest.mark.parametrize("name", ["boathouse-supper-cloth", "queen-bed-quilt-cm"])
def test_each_is_what_a_second_quote_over_a_changed_shop_file_comes_to(name: str, tmp_path: Path):
    """Every one that moves the total, and every sample: written into a shop file, it gives the total that was told."""
    path, checked = PRESETS / "projects" / f"{name}.toml", 0
    result = finished(path)
    for each in influences_of(name):
        for tried in (each.more, each.less):
            if tried and (tried.adds or each.figure):
                shop = tmp_path / "shop.toml"
                shop.write_text(shop_text(each.path, tried.value, result.resolved.project.units), encoding="utf-8")
                second = finish_file(str(path), str(shop)).quote.total
                assert (each.key, str(second)) == (each.key, str(tried.total))
                assert tried.adds == tried.total - result.quote.total
                checked += 1
    assert checked > 30


@pytest.mark.parametrize("name", ["orchard-long-table", "every-key"])
def test_what_is_not_tried_moves_no_total(name: str):
    """Every number of a sample that is left out of the list, twice as large: days, cautions, the washed size, what is
    only offered, and the rates of other work."""
    result = finished(PRESETS / "projects" / f"{name}.toml")
    listed, tried = {each.path for each in influences_of(name)}, 0
    for path, sourced in result.resolved.defaults():
        home = sourced.origin.at
        if sourced.origin.layer != "sample shop" or path[-1] != home[-1] or home in listed or not moves(sourced):
            continue
        with suppress(ProblemsFound):
            changed = result.resolved.changed(Change("--set", shop_puts=((home, moved(sourced, Fraction(2))),)))
            total = plan_and_price(changed.project, changed.shop)[1].total
            assert (path, total) == (path, result.quote.total)
            tried += 1
    assert tried > 40


def shop_text(path: KeyPath, value: object, units: str) -> str:
    """A shop file that says nothing but one value."""
    table: dict[str, Any] = {"units": units}
    holder = table
    for step in path[:-1]:
        holder = holder.setdefault(str(step), {})
    holder[str(path[-1])] = value
    return tomlkit.dumps(table)


def test_what_is_told_can_be_tried_on_the_command_line():
    """The same key and value with --set: the total is the one that the page of the check tells."""
    path = PRESETS / "projects" / "boathouse-supper-cloth.toml"
    first = influences_of("boathouse-supper-cloth")[0]
    assert first.more
    page = run("quote", str(path), "--set", f"{first.key}={first.more.value}").stdout
    assert f"Total, USD {first.more.total}" in " ".join(page.split())
