"""Piecing work, which is charged only where a project asks for it."""

from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.in_house import profit_of
from finishcalc.pipeline import Finishing
from finishcalc.problems import ProblemsFound
from finishcalc.wording.sentence import Audience
from tests.builders import in_shop, labels, line, quote_text, sized

BLOCKS = "[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n"
"""20 blocks of 12 in: 48 1/2 x 60 1/2, billed 49 x 61 = 2,989 sq in."""
ASKED = "[charges]\npiecing = true\n"


def piecing(tmp_path: Path, keys: str, project: str = BLOCKS + ASKED) -> Finishing:
    shop = f"[piecing]\nblock_minutes = {{ low = 20, likely = 40, high = 90 }}\n[rates.piecing]\n{keys}\n"
    return in_shop(tmp_path, shop, project)


@pytest.mark.parametrize(
    ("keys", "quantity", "unit", "amount"),
    [
        ("price = 30\nper = 'hour'", 15, "hour", "450.00"),  # 20 x (20 + 160 + 90) / 6 = 900 min
        ("price = 12\nper = 'block'", 20, "block", "240.00"),
        ("price = '0.05'\nper = 'sq in'", 2989, "sq in", "149.45"),
    ],
)
def test_piecing_is_charged_by_the_hour_the_block_or_the_area(
    keys: str, quantity: int, unit: str, amount: str, tmp_path: Path
):
    result = piecing(tmp_path, keys)
    assert line(result, "Piecing the top") == (quantity, unit, amount)
    (stage,) = (stage for stage in result.hours.stages if stage.name == "piece the blocks")
    assert (stage.low, stage.likely, stage.high, stage.planned) == (400, 800, 1800, 900)


@pytest.mark.parametrize("audience", ["customer", "studio"])
def test_piecing_that_is_charged_is_not_said_to_be_left_out(audience: Audience, tmp_path: Path):
    said = "cutting and sewing the top is not in this price"
    assert said not in quote_text(piecing(tmp_path, "price = 30\nper = 'hour'"), audience)
    assert said in quote_text(piecing(tmp_path, "price = 30\nper = 'hour'", BLOCKS), audience)


def test_nothing_is_charged_unless_asked(tmp_path: Path):
    result = piecing(tmp_path, "price = 12\nper = 'block'", BLOCKS)
    assert "Piecing the top" not in labels(result)
    assert "piece the blocks" not in [stage.name for stage in result.hours.stages]


def test_plain_blocks_are_not_pieced(tmp_path: Path):
    """Of 4 x 5 by turns ten are plain."""
    project = BLOCKS + "plain = 'alternate'\n" + ASKED
    assert line(piecing(tmp_path, "price = 12\nper = 'block'", project), "Piecing") == (10, "block", "120.00")


def test_its_time_counts_in_what_an_hour_earns(tmp_path: Path):
    asked, plain = (
        profit_of(piecing(tmp_path, "price = 12\nper = 'block'", text)) for text in (BLOCKS + ASKED, BLOCKS)
    )
    assert asked.earned.minutes - plain.earned.minutes == 900
    assert asked.earned.net.minor - plain.earned.net.minor == 24000
    assert asked.hours_ordered == Fraction(15)


def test_a_design_is_compared_with_its_piecing(tmp_path: Path):
    """60 x 72 is 5 x 6 blocks of 12: 30 x 12.00."""
    path = tmp_path / "quilt.toml"
    path.write_text("shop = 'shop.toml'\n" + BLOCKS + ASKED)
    (tmp_path / "shop.toml").write_text("[rates.piecing]\nprice = 12\nper = 'block'\n")
    row = sized(path, "60x72").rows[-1]
    assert line(row.result, "Piecing the top") == (30, "block", "360.00")


def test_a_shop_that_pieces_as_a_rule_still_quotes_a_top_that_is_brought(tmp_path: Path):
    result = in_shop(tmp_path, "[usual.charges]\npiecing = true\n", "[top]\nwidth = 60\nlength = 80\n")
    assert "Piecing the top" not in labels(result)


@pytest.mark.parametrize(
    ("top", "per"),
    [
        ("[top]\nwidth = 60\nlength = 80\n", "sq in"),
        ("[top.centre]\nwidth = 40\nlength = 50\n[[top.borders]]\ncut = 4\n", "block"),
        (BLOCKS + "plain = 'all'\n", "hour"),
    ],
)
def test_piecing_of_a_top_without_its_parts_is_refused(top: str, per: str, tmp_path: Path):
    with pytest.raises(ProblemsFound) as found:
        piecing(tmp_path, f"price = 1\nper = '{per}'", top + ASKED)
    (problem,) = found.value.problems
    assert (problem.code, problem.path) == ("no-piecing", "charges.piecing")
