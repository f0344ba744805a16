"""Prices for a whole top, where it is quilted in several areas: each bears its share."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.pipeline import Finishing
from tests.builders import LAP, in_shop, quote_text
from tests.strategies import examples

FLAT = "[rates]\nminimum = 0\n[rates.quilting]\nedge-to-edge = '0.03'\ncustom = { price = 250, per = 'quilt' }\n"
STEPPED = """[rates]
minimum = 0
[rates.quilting]
edge-to-edge = '0.03'
[rates.quilting.custom]
steps = [{ name = "lap", up_to = 4000, price = 180 }, { name = "throw", up_to = 4600, price = 240 }]
more = 15
each = 100
"""
AREAS = "[[quilting.areas]]\nstyle = 'tiny-fill'\nshare = '40 %'\n"
"""tiny-fill is of the class custom; the rest of LAP, 4,920 sq in, is an open meander."""


def amounts(result: Finishing) -> list[str]:
    return [str(line.amount) for line in result.quote.lines if line.about == "quilting"]


def test_a_flat_price_bears_its_share(tmp_path: Path):
    """250 x 40 % = 100.00; 4,920 x 60 % = 2,952 x 0.03 = 88.56."""
    result = in_shop(tmp_path, FLAT, LAP + AREAS)
    assert sorted(amounts(result)) == ["100.00", "88.56"]
    page = " ".join(quote_text(result, "customer", explain=True).replace("\u00a0", " ").split())
    assert "40 % of the top: $250.00 for the whole top x 40 % = $100.00" in page


def test_a_size_class_is_that_of_the_whole_top(tmp_path: Path):
    """4,920 is 320 over 4,600, four steps of 100: (240 + 4 x 15) x 40 % = 120.00."""
    result = in_shop(tmp_path, STEPPED, LAP + AREAS)
    assert sorted(amounts(result)) == ["120.00", "88.56"]
    page = " ".join(quote_text(result, "customer", explain=True).replace("\u00a0", " ").split())
    assert "$300.00 for the whole top, size throw, x 40 % = $120.00" in page


def test_areas_of_one_class_add_up_to_the_whole_price(tmp_path: Path):
    """A third and a third and the rest of 100.00: 33.33 + 33.33 + 33.34."""
    shop = "[rates]\nminimum = 0\n[rates.quilting]\ncustom = { price = 100, per = 'quilt' }\n"
    thirds = "[quilting]\nstyle = 'custom'\n" + "".join(
        f"[[quilting.areas]]\nstyle = '{style}'\nshare = '33.333 %'\n" for style in ("tiny-fill", "crosshatch-2")
    )
    found = amounts(in_shop(tmp_path, shop, LAP + thirds))
    assert sorted(found) == ["33.33", "33.33", "33.34"]


def test_each_share_has_the_time_of_its_area(tmp_path: Path):
    result = in_shop(tmp_path, FLAT, LAP + AREAS)
    minutes = [line.minutes for line in result.quote.lines if line.about == "quilting"]
    assert minutes == [hours.attended for hours in result.plans.quilting.area_hours]


def test_parts_of_a_pieced_top_bear_theirs(tmp_path: Path):
    """Whatever share of the top the borders are, the two parts are the whole price."""
    top = "[top]\n[top.centre]\nwidth = '40 1/2'\nlength = '50 1/2'\n[[top.borders]]\ncut = '4 1/2'\n"
    areas = "[[quilting.areas]]\nstyle = 'tiny-fill'\npart = 'borders'\n"
    result = in_shop(tmp_path, FLAT.replace("'0.03'", "{ price = 250, per = 'quilt' }"), top + areas)
    assert sum(int(amount.replace(".", "")) for amount in amounts(result)) == 25000
    assert len(amounts(result)) == 2


@examples(30)
@given(st.integers(0, 99999), st.integers(1, 33333), st.integers(1, 33333))
def test_shares_of_one_class_always_add_up(tmp_path_factory: pytest.TempPathFactory, cents: int, one: int, other: int):
    """Of any flat price and any shares: the three areas are the whole top."""
    areas = "[quilting]\nstyle = 'custom'\n" + "".join(
        f"[[quilting.areas]]\nstyle = '{style}'\nshare = '{share // 1000}.{share % 1000:03} %'\n"
        for style, share in (("tiny-fill", one), ("crosshatch-2", other))
    )
    price = f"custom = {{ price = '{cents // 100}.{cents % 100:02}', per = 'quilt' }}"
    shop = f"[rates]\nminimum = 0\n[rates.quilting]\n{price}\n"
    found = amounts(in_shop(tmp_path_factory.mktemp("shop"), shop, LAP + areas))
    assert sum(int(amount.replace(".", "")) for amount in found) == cents


@pytest.mark.parametrize("shop", [FLAT, STEPPED])
def test_a_whole_top_is_priced_as_ever(shop: str, tmp_path: Path):
    found = amounts(in_shop(tmp_path, shop, LAP + "[quilting]\nstyle = 'custom'\n"))
    assert found == (["250.00"] if shop == FLAT else ["240.00", "60.00"])
