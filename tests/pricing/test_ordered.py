"""The time and the cost of what is ordered besides: extras, and lines of a project's own."""

from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.in_house import profit_of
from finishcalc.commandline.views import quote_document
from finishcalc.pipeline import Finishing
from tests.builders import in_shop, quote_text, quoted

TWIN = "[top]\nwidth = 72\nlength = 90\n"
"""72 x 90 in = 45 sq ft, 2 x (72 + 90) = 324 in = 9 yd round."""

MENDED = "[[charges.lines]]\nlabel = 'Mending'\nprice = 12\n"


def of_line(result: Finishing, label: str) -> tuple[Fraction | None, str | None]:
    """The minutes and the cost of a line."""
    found = next(each for each in result.quote.lines if each.label.values.get("label") == label)
    return found.minutes, None if found.cost is None else str(found.cost)


@pytest.mark.parametrize(
    ("keys", "minutes", "cost"),
    [
        ("minutes = 20\ncost = '1.50'", 20, "1.50"),
        ("minutes = 20\ncost = '1.50'\nquantity = 3", 60, "4.50"),
        ("minutes = { low = 10, likely = 20, high = 60 }", 25, None),  # (10 + 80 + 60) / 6
        ("per = 'sq ft'\nminutes = 2\ncost = '0.015'", 90, "0.68"),  # 45 x 2; 45 x 0.015 = 0.675
        ("per = 'yd'\nminutes = 4", 36, None),
        ("per = 'ft'\nof = 'width'\nminutes = 5", 30, None),  # 72 / 12 x 5
        ("minutes = 2\nminutes_per = 'sq ft'", 90, None),
        ("minutes = 3\nminutes_per = 'seam'\nquantity = 2", 3, None),  # one seam, whatever the quantity
        ("per = 'hour'\nquantity = '1/2'", 30, None),
        ("per = 'hour'\nminutes = 2\nminutes_per = 'sq ft'\nquantity = 1", 60, None),  # the hours that are ordered
        ("cost = 3", None, "3.00"),
        ("", None, None),
    ],
)
def test_a_line_has_the_minutes_and_the_cost_of_its_units(keys: str, minutes: int | None, cost: str | None):
    assert of_line(quoted(TWIN + MENDED + keys + "\n"), "Mending") == (minutes, cost)


def test_an_extra_has_them_as_a_line_has(tmp_path: Path):
    shop = "[extras.lint]\nlabel = 'Lint'\nprice = '0.20'\nper = 'sq ft'\nline_class = 'labour'\nminutes = '0.2'\n"
    result = in_shop(tmp_path, shop + "cost = '0.01'\n", TWIN + "[charges]\nextras = ['lint']\n")
    assert of_line(result, "Lint") == (9, "0.45")


def test_the_hours_of_the_studio_hold_what_is_ordered():
    """20 min with the least 10 and the most 60, planned 25, in the table and in the total."""
    keys = "minutes = { low = 10, likely = 20, high = 60 }\n"
    plain, mended = quoted(TWIN), quoted(TWIN + MENDED + keys)
    for name, minutes in (("low", 10), ("likely", 20), ("high", 60), ("planned", 25), ("attended", 25), ("frame", 0)):
        assert getattr(mended.hours, name) - getattr(plain.hours, name) == minutes
    page = quote_text(mended, "studio").replace("\u00a0", " ")
    assert [row.split() for row in page.splitlines() if row.startswith("Mending ")][-1] == [
        "Mending",
        "10",
        "20",
        "60",
        "25",
    ]
    assert '"Mending":{"low":10,"likely":20,"high":60}' in "".join(quote_document(mended, "studio").split())


def test_the_customer_reads_neither_minutes_nor_cost():
    bare, known = (quoted(TWIN + MENDED + keys) for keys in ("", "minutes = 437\ncost = '7.77'\n"))
    for write in (quote_text, quote_document):
        assert write(bare, "customer") == write(known, "customer")


def test_the_cost_of_a_line_is_its_materials_and_its_time():
    """20 min at (30 + 8) an hour is 12.67, and 1.50: the mended seam loses 2.17."""
    entry = profit_of(quoted(TWIN + MENDED + "minutes = 20\ncost = '1.50'\n")).lines[-1]
    assert (str(entry.cost), str(entry.margin)) == ("14.17", "-2.17")


def test_a_pressed_top_takes_longer_the_larger_it_is(tmp_path: Path):
    """Half a minute a square foot: 45 sq ft are 22.5 min, 90 x 108 in are 67.5 sq ft and 33.75 min."""
    shop = "[extras.press]\nlabel = 'Press'\nprice = 30\nper = 'hour'\nline_class = 'labour'\n"
    shop += "minutes = '0.5'\nminutes_per = 'sq ft'\n"
    sizes = {(72, 90): ("22.5", "11.40"), (90, 108): ("33.75", "16.80")}  # 0.38 h and 0.56 h at 30
    for (width, length), (minutes, amount) in sizes.items():
        top = f"[top]\nwidth = {width}\nlength = {length}\n[charges]\nextras = ['press']\n"
        result = in_shop(tmp_path, shop, top)
        assert of_line(result, "Press")[0] == Fraction(minutes)
        assert str(result.quote.lines[-1].amount) == amount
