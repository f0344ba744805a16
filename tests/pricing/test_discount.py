"""A discount of an amount, beside the one of a share."""

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.pipeline import Finishing
from finishcalc.problems import ProblemsFound
from tests.builders import BARE, in_shop, quote_text, quoted
from tests.strategies import examples

WITH_GOODS = (
    BARE
    + """[charges]
KEYS
[[charges.lines]]
label = "Goods"
price = 36
line_class = "material"
"""
)
"""60 x 80 at 0.03: 144.00 of labour, and 36.00 of material."""

BOTH = "discount_classes = ['labour', 'material']\n"


def discounts(result: Finishing) -> list[tuple[str, str]]:
    return [(line.line_class, str(line.amount)) for line in result.quote.lines if line.kind == "discount"]


@pytest.mark.parametrize(
    ("keys", "off", "subtotal"),
    [
        ("discount_amount = 20", [("labour", "-20.00")], "160.00"),
        ("discount_amount = 20\n" + BOTH, [("labour", "-16.00"), ("material", "-4.00")], "160.00"),  # 144 : 36 is 4 : 1
        ("discount_amount = '0.01'\n" + BOTH, [("labour", "-0.01")], "179.99"),
        ("discount_amount = 200", [("labour", "-144.00")], "36.00"),  # never below nothing
        ("discount_amount = 200\n" + BOTH, [("labour", "-144.00"), ("material", "-36.00")], "0.00"),
        ("rush = '25 %'\ndiscount_amount = 170", [("labour", "-170.00")], "46.00"),  # 144 + 36 of rush - 170 + 36
        ("discount_amount = 0", [], "180.00"),
    ],
)
def test_an_amount_is_taken_off_the_classes_that_are_named(keys: str, off: list[object], subtotal: str):
    result = quoted(WITH_GOODS.replace("KEYS", keys))
    assert discounts(result) == off
    assert str(result.quote.subtotal) == subtotal
    assert result.quote.discount.minor == -sum(int(amount.replace(".", "").lstrip("-")) for _, amount in off)


def test_what_is_passed_through_is_not_discounted():
    project = WITH_GOODS.replace("KEYS", "discount_amount = 500").replace('"material"', '"pass-through"')
    assert str(quoted(project).quote.subtotal) == "36.00"


def test_an_amount_stands_in_place_of_the_shop_s_usual_share(tmp_path: Path):
    shop = "[usual.charges]\ndiscount = '10 %'\n"
    assert discounts(in_shop(tmp_path, shop, WITH_GOODS.replace("KEYS", "discount_amount = 5"))) == [
        ("labour", "-5.00")
    ]
    assert discounts(in_shop(tmp_path, shop, WITH_GOODS.replace("KEYS", ""))) == [("labour", "-14.40")]
    shop = "[usual.charges]\ndiscount_amount = 5\n"
    assert discounts(in_shop(tmp_path, shop, WITH_GOODS.replace("KEYS", "discount = '10 %'"))) == [("labour", "-14.40")]


def test_the_page_says_the_amount_and_the_arithmetic():
    page = quote_text(quoted(WITH_GOODS.replace("KEYS", "discount_amount = 20\n" + BOTH)), "customer", explain=True)
    told = " ".join(page.replace("\u00a0", " ").split())
    assert "Discount, $16.00 off labour 1 each -16.00 -16.00" in told
    assert "$20.00 of $180.00, of which $36.00 is material, in proportion: $4.00" in told


def test_both_ways_are_refused():
    with pytest.raises(ProblemsFound) as found:
        quoted(WITH_GOODS.replace("KEYS", "discount = '5 %'\ndiscount_amount = 3"))
    (problem,) = found.value.problems
    assert (problem.code, problem.path, problem.line) == ("discount-twice", "charges.discount_amount", 12)


@examples(40)
@given(st.integers(0, 40000), st.booleans(), st.integers(0, 60))
def test_a_discount_never_goes_below_nothing_and_adds_up(cents: int, both: bool, rush: int):
    keys = f"rush = '{rush} %'\ndiscount_amount = '{Decimal(cents) / 100}'\n" + BOTH * both
    quote = quoted(WITH_GOODS.replace("KEYS", keys)).quote
    classes = ["labour", "material"] if both else ["labour"]
    before = sum(line.amount.minor for line in quote.lines if line.line_class in classes and line.kind != "discount")
    off = -sum(line.amount.minor for line in quote.lines if line.kind == "discount")
    assert off == min(cents, before)
    for name in ("labour", "material"):
        assert sum(line.amount.minor for line in quote.lines if line.line_class == name) >= 0
