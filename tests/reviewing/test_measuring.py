"""Each measure that is still to take is named where nobody took it, and not where somebody did."""

from pathlib import Path

import pytest

from finishcalc.pipeline import Finishing
from finishcalc.rendering.writing import notation_of
from finishcalc.reviewing.measuring import still_to_measure
from tests.builders import PROJECTS, finished, in_shop, quoted

TOP = "[top]\nwidth = 60\nlength = 80\n"
MEASURED = "[top]\nmeasured = { widths = [60, 60], lengths = [80, 80], diagonals = [100, 100] }\n"


def keys(result: Finishing) -> list[str]:
    return [each.key for each in still_to_measure(result)]


@pytest.mark.parametrize(
    ("key", "without", "taken"),
    [
        ("top.measured", TOP, MEASURED),
        ("top.measured.diagonals", "[top]\nmeasured = { widths = [60], lengths = [80] }\n", MEASURED),
        ("top.weight", TOP, TOP + "weight = '4.5'\n"),
        ("top.covers.table.height", "[top.covers]\ntable = { shape = 'rectangle', width = 30, length = 72 }\n",
         "[top.covers]\ntable = { shape = 'rectangle', width = 30, length = 72, height = 29 }\n"),
        ("top.covers.table.width", "[top.covers]\ntable = 'trestle-6ft'\n",
         "[top.covers]\ntable = { shape = 'rectangle', width = 30, length = 72, height = 29 }\n"),
        ("top.covers.bed.depth", "[top.covers]\nbed = 'queen'\n",
         "[top.covers]\nbed = { width = 60, length = 80, depth = 11 }\n"),
        ("backing.have", TOP + "[backing]\nhave = '7 yd'\n", TOP),
        ("backing.fabric.width", TOP, TOP + "[backing.fabric]\npreset = 'cotton-44'\nwidth = 43\nselvage = 1\n"),
        ("backing.fabric.shrink_along", TOP,
         TOP + "[backing.fabric]\npreset = 'cotton-44'\nshrink_along = '3 %'\nshrink_across = '2 %'\n"),
        ("backing.fabric.repeat", TOP + "[backing.fabric]\npreset = 'cotton-44'\ndirectional = true\n", TOP),
        ("batting.product.thickness", TOP, TOP + "[batting.product]\npreset = 'cotton-blend'\nthickness = '0.06'\n"),
        ("batting.product.shrink", TOP, TOP + "[batting.product]\npreset = 'cotton-blend'\nshrink = '4 %'\n"),
        ("binding.loft", TOP + "[binding]\nfinished = '3/8'\n", TOP + "[binding]\nfinished = '3/8'\nloft = '1/8'\n"),
        ("binding.fabric.width", TOP + "[binding]\nfabric = 'cotton-44'\n",
         TOP + "[binding.fabric]\npreset = 'cotton-44'\nwidth = 43\n"),
        ("quilting.style.line_spacing", TOP,
         TOP + "[quilting.style]\npreset = 'medium-pantograph'\nline_spacing = '0.8'\n"),
        ("parcel.packing", TOP + "[charges]\npostage = true\n", TOP),
    ],
)  # fmt: skip
def test_a_measure_is_named_until_it_is_taken(key: str, without: str, taken: str):
    assert key in keys(quoted(without))
    assert key not in keys(quoted(taken))


def test_a_machine_is_measured_by_the_shop_file(tmp_path: Path):
    assert "frame.throat" in keys(quoted(TOP))
    assert "frame.throat" not in keys(in_shop(tmp_path, "[frame]\nthroat = 26\ntake_up = 4\nmargin = 1\n"))


def test_a_pieced_top_is_measured_once_it_is_sewn():
    pieced = quoted("[top.blocks]\nacross = 4\ndown = 5\nsize = 12\n")
    what = {each.key: notation_of(pieced).write(each.what) for each in still_to_measure(pieced)}
    assert "once it is sewn" in what["top.measured"]


def test_a_round_top_has_no_diagonals():
    assert "top.measured.diagonals" not in keys(quoted("[top]\ndiameter = 60\n"))


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_each_says_why_and_none_is_named_twice(path: Path):
    result = finished(path)
    found = still_to_measure(result)
    assert len({each.key for each in found}) == len(found)
    for each in found:
        assert len(notation_of(result).write(each.why)) > 20
