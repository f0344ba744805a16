"""Thread as a line of its own: by the cone, the bobbin, the colour, the area or the length stitched, with its cost."""

from decimal import Decimal
from pathlib import Path

import pytest

from finishcalc.alternatives.in_house import profit_of
from finishcalc.problems import ProblemsFound
from tests.builders import in_shop, labels, line, quote_text, quoted

TOP = "[top]\nwidth = 72\nlength = 90\n"
"""72 x 90 = 6,480 sq in, 45 sq ft."""

GRID = "[styles.rows]\nname = 'rows'\nlines = 'channels'\nangle = 0\nline_spacing = 9\nrate_class = 'custom'\n"
"""Channels 9 in apart from the edge, side to side of a top 90 long: 9 of 72 in, 648 in."""


def thread(keys: str) -> str:
    return f"[rates.thread]\n{keys}\n"


@pytest.mark.parametrize(
    ("keys", "quilting", "quantity", "unit", "amount"),
    [
        ("price = '0.90'\nper = 'colour'", "colours = 3", 3, "colour", "2.70"),
        ("price = 6\nper = 'cone'", "", 1, "cone", "6.00"),
        ("price = '0.10'\nper = 'sq ft'", "", 45, "sq ft", "4.50"),
        ("price = '0.001'\nper = 'sq in'", "", 6480, "sq in", "6.48"),
        ("price = '0.05'\nper = 'yd'", "style = 'rows'", 18, "yd", "0.90"),  # 648 / 36
    ],
)
def test_thread_is_charged_by_what_the_shop_says(
    keys: str, quilting: str, quantity: int, unit: str, amount: str, tmp_path: Path
):
    result = in_shop(tmp_path, GRID + thread(keys), f"{TOP}[quilting]\n{quilting}\n")
    assert line(result, "Thread") == (quantity, unit, amount)
    (found,) = (each for each in result.quote.lines if each.label.text == "Thread")
    assert found.line_class == "material"


def test_a_bobbin_is_one_of_those_that_are_wound(tmp_path: Path):
    """62 x 83 1/2 / 1 3/4 in of stitching and more; whatever it comes to, all bobbins of the plan are charged."""
    result = in_shop(
        tmp_path, thread("price = '0.90'\nper = 'bobbin'\ncost = '0.40'"), TOP + "[quilting]\ncolours = 2\n"
    )
    bobbins = result.plans.quilting.threads.bobbins
    assert bobbins >= 2
    assert line(result, "Thread") == (bobbins, "bobbin", str(Decimal("0.90") * bobbins))


def test_the_margin_knows_what_thread_costs(tmp_path: Path):
    """3 colours at 0.90 for 0.35 each: 2.70 less 1.05."""
    result = in_shop(
        tmp_path, thread("price = '0.90'\nper = 'colour'\ncost = '0.35'"), TOP + "[quilting]\ncolours = 3\n"
    )
    (found,) = (each for each in profit_of(result).lines if each.line.label.text == "Thread")
    assert (str(found.cost), str(found.margin)) == ("1.05", "1.65")
    assert profit_of(result).earned.left_out == ()


def test_thread_without_its_cost_is_left_out_of_what_an_hour_earns(tmp_path: Path):
    result = in_shop(tmp_path, thread("price = '0.90'\nper = 'colour'"), TOP)
    assert [(each.label.text, str(each.net)) for each in profit_of(result).earned.left_out] == [("Thread", "0.90")]


def test_the_sample_shop_charges_no_thread():
    assert "Thread" not in labels(quoted(TOP))


@pytest.mark.parametrize(
    ("per", "method", "style"),
    [
        ("bobbin", "tied", "ties-4"),
        ("cone", "tied", "ties-4"),
        ("yd", "tied", "ties-4"),
        ("bobbin", "hand-quilted", "open-meander"),
    ],
)
def test_thread_by_what_the_method_has_not_is_not_charged(per: str, method: str, style: str, tmp_path: Path):
    """A shop's rate is for all its jobs, so that no tied quilt is refused for it; the studio alone is told."""
    project = f"{TOP}[quilting]\nmethod = '{method}'\nstyle = '{style}'\n"
    result = in_shop(tmp_path, thread(f"price = 1\nper = '{per}'"), project)
    assert all(each.about != "thread" for each in result.quote.lines)
    told = "takes none: it is not in the price"
    assert told in " ".join(quote_text(result, "studio").split())
    assert told not in " ".join(quote_text(result, "customer").split())
    assert line(in_shop(tmp_path, thread("price = 1\nper = 'colour'"), project), "Thread")[0] == 1


def test_another_unit_needs_its_own_price(tmp_path: Path):
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, thread("per = 'cone'"), TOP)
    assert [problem.code for problem in found.value.problems] == ["unit-without-figure"]
