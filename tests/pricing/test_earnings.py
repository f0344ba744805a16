"""What an hour earns: of all that is known, over exact hours, from the least that they may be to the most."""

import json
from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.in_house import profit_of
from finishcalc.commandline.views import quote_document
from finishcalc.pipeline import Finishing
from finishcalc.pricing.profit import Profitability
from tests.builders import BARE, in_shop, quote_text, quoted

# 60 x 80 = 4,800 sq in at 0.05 is 240.00 of labour, and nothing else.

SHOP = """[rates]
minimum = 0
wage = 30
overhead = 6
quilting = { edge-to-edge = "0.05" }
[methods.longarm-hand-guided]
stages = [{ name = "all", each = "quilt", low = 200, likely = 250, high = 300, attended = "80 %" }]
"""
"""Planned 250 min, attended 200; at the least 160, at the most 240."""


def worth(tmp_path: Path, more: str = "", shop: str = "") -> Profitability:
    return profit_of(in_shop(tmp_path, SHOP + shop, BARE + more))


def extra(label: str, keys: str) -> str:
    return f"[[charges.lines]]\nlabel = '{label}'\n{keys}\n"


def test_an_hour_is_what_is_left_over_exact_hours(tmp_path: Path):
    """240 - 200 / 60 x 6 = 220.00 over 3 1/3 h: 66.00 an hour, and not 220 / 3.33 = 66.07."""
    found = worth(tmp_path)
    assert found.earned.hours == Fraction("3.33")
    assert str(found.hourly) == "66.00"


def test_it_is_told_from_the_least_to_the_most(tmp_path: Path):
    """240 - 160 / 60 x 6 = 224.00 over 2 2/3 h is 84.00; 240 - 240 / 60 x 6 = 216.00 over 4 h is 54.00."""
    found = worth(tmp_path)
    assert (str(found.hourly_at_best), str(found.hourly_at_worst)) == ("84.00", "54.00")
    result = in_shop(tmp_path, SHOP, BARE)
    page = " ".join(quote_text(result, "studio").replace("\u00a0", " ").split())
    assert "from $54.00 an hour, if it takes 4 h, to $84.00, if it takes 2.67 h" in page
    document = json.loads(quote_document(result, "studio"))["studio"]
    assert document["at_best"] == {"hours": 2.67, "earned_an_attended_hour": "84.00"}
    assert document["at_worst"] == {"hours": 4, "earned_an_attended_hour": "54.00"}


@pytest.mark.parametrize(
    "keys",
    [
        "price = 38",  # work of which nobody knows the time
        "price = 38\ncost = 5",
        "price = 38\nline_class = 'material'",  # goods of which nobody knows the cost
        "price = 38\nline_class = 'material'\nminutes = 20",
    ],
)
def test_a_line_is_left_out_and_named_where_nobody_knows_it(keys: str, tmp_path: Path):
    found = worth(tmp_path, extra("Sleeve", keys))
    assert (str(found.earned.net), str(found.hourly)) == ("240.00", "66.00")
    assert [(each.label.values["label"], str(each.net)) for each in found.earned.left_out] == [("Sleeve", "38.00")]
    page = quote_text(in_shop(tmp_path, SHOP, BARE + extra("Sleeve", keys)), "studio")
    told = "left out, because nobody knows the time or the cost: Sleeve $38.00"
    assert told in " ".join(page.replace("\u00a0", " ").split())


def test_two_that_are_left_out_are_both_named(tmp_path: Path):
    project = BARE + extra("Sleeve", "price = 30") + extra("Label", "price = 8")
    page = quote_text(in_shop(tmp_path, SHOP, project), "studio")
    assert "Sleeve $30.00 and Label $8.00" in " ".join(page.replace("\u00a0", " ").split())


def test_what_is_left_out_takes_its_share_of_the_rush_with_it(tmp_path: Path):
    """240.00 + 60.00 of labour, a tenth of rush on it: 264.00 are counted, 66.00 are not."""
    charges = "[charges]\nrush = '10 %'\n"
    found = worth(tmp_path, charges + extra("Sleeve", "price = 60"))
    assert str(found.earned.net) == "264.00"
    assert [str(each.net) for each in found.earned.left_out] == ["66.00"]


def test_a_tax_that_the_price_holds_is_not_left_out_twice(tmp_path: Path):
    """Of 240.00 and 60.00 a sixth is tax: 200.00 and 50.00."""
    tax = "[taxing]\nincluded = true\nclasses = ['labour']\n[[tax]]\nlabel = 'VAT'\npercent = '20 %'\n"
    found = worth(tmp_path, extra("Sleeve", "price = 60"), tax)
    assert (str(found.earned.net), str(found.earned.left_out[0].net)) == ("200.00", "50.00")


def test_handling_of_which_nobody_knows_the_time_is_left_out_too(tmp_path: Path):
    brought = BARE.replace('product = "none"', 'supplied_by = "customer"')
    found = profit_of(in_shop(tmp_path, SHOP, brought))
    assert [each.label.text for each in found.earned.left_out] == ["Preparing your batting"]


def test_work_and_goods_that_are_known_count(tmp_path: Path):
    """240 + 38 - 5 of strip - 300 / 60 x 6 = 243.00 over 5 h."""
    found = worth(tmp_path, extra("Sleeve", "price = 38\ncost = 5\nminutes = 100"))
    assert (str(found.earned.materials), found.earned.hours, str(found.hourly)) == ("5.00", 5, "48.60")
    assert found.hours_ordered == Fraction("1.67")
    assert found.earned.left_out == ()


@pytest.mark.parametrize(
    ("keys", "passed_on", "hourly", "margin"),
    [
        ("price = 28", "28.00", "66.00", "0.00"),
        ("price = 28\ncost = '21.50'", "21.50", "67.95", "6.50"),  # 220.00 + 6.50 over 3 1/3 h
        ("price = 28\ncost = 38", "38.00", "63.00", "-10.00"),  # 220.00 - 10.00
    ],
)
def test_what_is_passed_through_earns_nothing(keys: str, passed_on: str, hourly: str, margin: str, tmp_path: Path):
    """Unless what it costs is given, and is not what is charged."""
    found = worth(tmp_path, extra("Postage", keys + "\nline_class = 'pass-through'"))
    assert (str(found.earned.passed_on), str(found.hourly)) == (passed_on, hourly)
    assert str(found.lines[-1].margin) == margin
    assert found.earned.left_out == ()


@pytest.mark.parametrize(
    ("change", "hourly"),
    [
        ("discount = '10 %'\ndiscount_classes = ['pass-through']", "65.16"),  # 28.00 x 10 % = 2.80: 217.20 over 3 1/3 h
        ("rush = '25 %'\nrush_classes = ['pass-through']", "68.10"),  # 28.00 x 25 % = 7.00: 227.00
    ],
)
def test_a_rush_or_discount_on_what_is_passed_through_is_the_studio_s(change: str, hourly: str, tmp_path: Path):
    """The carrier takes 28.00 whatever the customer is charged: as the lines' costs say."""
    found = worth(tmp_path, f"[charges]\n{change}\n" + extra("Postage", "price = 28\nline_class = 'pass-through'"))
    assert (str(found.earned.passed_on), str(found.hourly)) == ("28.00", hourly)
    assert str(found.break_even) == "48.00"  # 28.00 + 20.00
    by_lines = [each.cost for each in found.lines if each.line.line_class == "pass-through" and each.cost is not None]
    assert sum(cost.minor for cost in by_lines) == found.earned.passed_on.minor


def test_the_arithmetic_says_what_is_passed_on(tmp_path: Path):
    project = BARE + extra("Postage", "price = 28\nline_class = 'pass-through'")
    result: Finishing = in_shop(tmp_path, SHOP, project)
    page = " ".join(quote_text(result, "studio", explain=True).replace("\u00a0", " ").split())
    assert "($268.00 - $0.00 - $28.00 - $20.00) / 200 min x 60 = $66.00, rounded" in page
    assert "less materials $0.00, what is passed on $28.00 and other costs $20.00: $220.00 earned" in page


def test_the_customer_reads_none_of_it():
    page = quote_text(quoted(BARE + extra("Sleeve", "price = 38")), "customer")
    assert "left out" not in page
