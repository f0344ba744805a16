"""Postage: the shop's own bands by the weight of the parcel."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.pipeline import Finishing
from finishcalc.problems import ProblemsFound
from finishcalc.rendering.pages.problems import problems_text
from tests.builders import in_shop, labels, line, page, quoted
from tests.strategies import examples

BANDS = """[parcel]
packing = "4.080 oz"
[[postage]]
up_to = "5 lb"
price = 14
[[postage]]
up_to = "100 oz"
price = 19
"""
QUEEN = "[top]\nwidth = 90\nlength = 100\n"
"""A quilt of 95.919 oz: see tests/plans/test_weight.py."""

POSTED = QUEEN + "[charges]\npostage = true\n"


def posted(result: Finishing) -> list[str]:
    return [label for label in labels(result) if "Postage" in label]


def codes(result: Finishing) -> set[str]:
    return {caution.code for caution in result.cautions}


def test_postage_is_charged_where_it_is_asked_for(tmp_path: Path):
    """95.919 + 4 = 99.919 oz lies in the band up to 100 oz."""
    result = in_shop(tmp_path, BANDS.replace("4.080", "4"), POSTED)
    assert line(result, "Postage") == (1, "each", "19.00")
    assert posted(in_shop(tmp_path, BANDS, QUEEN)) == []


def test_it_is_passed_through(tmp_path: Path):
    (found,) = (
        each for each in in_shop(tmp_path, BANDS.replace("4.080", "4"), POSTED).quote.lines if each.about == "postage"
    )
    assert found.line_class == "pass-through"


def test_a_band_reaches_up_to_its_weight_and_no_further(tmp_path: Path):
    """6 17/18 sq yd x (4.3 x (6.5 / 6)^2 + 4.3 + 4) and 975 / 1,296 x 4.3 are 95.9192 oz; with 4.080 of packing a
    little under 100, with 4.081 a little over."""
    assert posted(in_shop(tmp_path, BANDS, POSTED))
    assert not posted(in_shop(tmp_path, BANDS.replace("4.080", "4.081"), POSTED))


def test_past_the_last_band_nothing_is_priced_and_the_page_says_so(tmp_path: Path):
    """95.9 + 16 = 111.9 oz = 7.0 lb; 100 oz = 6.3 lb."""
    shop = BANDS.replace("4.080", "16")
    plain, asked = (in_shop(tmp_path, shop, text) for text in (QUEEN, POSTED))
    assert asked.quote.total == plain.quote.total
    assert codes(asked) - codes(plain) == {"parcel-too-heavy"}
    said = " ".join(page(POSTED, shop=tmp_path / "shop.toml").split())
    assert "Postage is not in this price: a parcel of 7 lb is past the last band, 6.3 lb. Ask the carrier." in said


def test_postage_of_unknown_weight_is_not_guessed(tmp_path: Path):
    fleece = "[backing]\nfabric = { name = 'fleece', width = 60, price = 9, per = 'yd' }\n"
    result = in_shop(tmp_path, BANDS, POSTED + fleece)
    assert posted(result) == []
    assert "postage-not-known" in codes(result)


def test_a_metric_shop_posts_by_the_kilogram():
    """1,485.0 g (see tests/plans/test_weight.py) and 350 g of packing are 1.83 kg: the sample band up to 2 kg."""
    text = "units = 'cm'\n[top]\nwidth = 152\nlength = 203\n[charges]\npostage = true\n"
    said = " ".join(page(text).split())
    assert "Postage, a parcel of 1,83 kg 1 each 7,00" in said


def test_rush_and_discount_leave_postage_alone():
    changed = POSTED + "rush = '10 %'\ndiscount = '5 %'\n"
    assert line(quoted(changed), "Postage") == line(quoted(POSTED), "Postage")
    assert not any("pass-through" in str(each.label.text) for each in quoted(changed).quote.lines)


@given(width=st.integers(20, 90), length=st.integers(20, 90), more=st.integers(1, 20))
@examples(30)
def test_postage_never_falls_with_weight(width: int, length: int, more: int):
    text = "[top]\nwidth = {}\nlength = {}\n[charges]\npostage = true\n"
    less, heavier = (
        sum(each.amount.minor for each in quoted(text.format(width, size)).quote.lines if each.about == "postage")
        for size in (length, length + more)
    )
    assert less <= heavier or not heavier


@pytest.mark.parametrize(
    ("second", "words"),
    [
        ('up_to = "80 oz"\nprice = 19', "there are two bands up to 5 lb"),
        ('up_to = "4 lb"\nprice = 19', "lies within the band before it, up to 5 lb"),
        ('up_to = "6 lb"\nprice = 13', "costs less than the band before it, up to 5 lb"),
        ("up_to = 6\nprice = 19", 'write it with its unit: "2 lb", "12 oz" or "1.5 kg"'),
        ('up_to = "6 lb"', "is missing"),
    ],
)
def test_bands_that_do_not_add_up_are_problems(second: str, words: str, tmp_path: Path):
    shop = f'[[postage]]\nup_to = "5 lb"\nprice = 14\n[[postage]]\n{second}\n'
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, shop, QUEEN)
    assert words in problems_text(found.value.problems)
    assert found.value.problems[0].line in (4, 5, 6)
