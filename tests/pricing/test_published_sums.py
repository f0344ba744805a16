"""Sums that studios publish with their answers, on their lists of prices: to the cent."""

from pathlib import Path

import pytest

from finishcalc.pipeline import Finishing
from tests.builders import in_shop, line

NONE = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n"


def priced(tmp_path: Path, width: int, length: int, rates: str, project: str = "") -> Finishing:
    shop = f"[rates]\nmarkup = '0 %'\n{rates}\n"
    return in_shop(tmp_path, shop, f"[top]\nwidth = {width}\nlength = {length}\n{NONE}{project}")


@pytest.mark.parametrize(
    ("width", "length", "rate", "area", "amount"),
    [
        (56, 72, "0.02", 4032, "80.64"),
        (56, 72, "0.03", 4032, "120.96"),
        (56, 72, "0.04", 4032, "161.28"),
        (52, 52, "0.025", 2704, "67.60"),
        (52, 52, "0.03", 2704, "81.12"),
        (52, 52, "0.04", 2704, "108.16"),
        (90, 106, "0.0075", 9540, "71.55"),
        (60, 80, "0.02", 4800, "96.00"),
    ],
)
def test_quilting_by_the_square_inch(width: int, length: int, rate: str, area: int, amount: str, tmp_path: Path):
    rates = f"minimum = 50\nquilting = {{ edge-to-edge = '{rate}' }}"
    found = priced(tmp_path, width, length, rates)
    assert line(found, "Quilting") == (area, "sq in", amount)


@pytest.mark.parametrize(
    ("width", "length", "work", "rate", "edge", "amount"),
    [
        (56, 72, "front", "0.15", 256, "38.40"),
        (56, 72, "hand", "0.30", 256, "76.80"),
        (90, 106, "make", "0.05", 392, "19.60"),
        (90, 106, "hand", "0.25", 392, "98.00"),
    ],
)
def test_binding_by_the_inch_of_edge(
    width: int, length: int, work: str, rate: str, edge: int, amount: str, tmp_path: Path
):
    binding = {"make": "0", "front": "0", "machine": "0", "hand": "0", "faced": "0", "hem": "0"} | {work: rate}
    rates = "binding = { " + ", ".join(f"{name} = '{price}'" for name, price in binding.items()) + " }"
    attach = "hand" if work == "make" else work
    found = priced(tmp_path, width, length, rates, f"[binding]\nattach = '{attach}'\n")
    label = "Binding made" if work == "make" else "Binding sewn"
    assert line(found, label) == (edge, "in", amount)


def test_batting_by_the_square_inch_beside_quilting(tmp_path: Path):
    """90 x 106: 71.55 of quilting and 19.08 of batting at 0.0020 a square inch: 90.63."""
    rates = "minimum = 50\nquilting = { edge-to-edge = '0.0075' }"
    batting = "[[charges.lines]]\nlabel = 'Batting'\nprice = '0.0020'\nper = 'sq in'\nline_class = 'material'\n"
    found = priced(tmp_path, 90, 106, rates, "[binding]\nattach = 'none'\n" + batting)
    assert line(found, "Batting") == (9540, "sq in", "19.08")
    assert str(found.quote.subtotal) == "90.63"


def test_the_least_charge_stands_over_a_small_top(tmp_path: Path):
    """40 x 45 x 0.025 is 45.00, less than the least of 50."""
    found = priced(tmp_path, 40, 45, "minimum = 50\nquilting = { edge-to-edge = '0.025' }")
    assert line(found, "Quilting") == (1, "each", "50.00")
