"""Cloths of one name whose figures differ are two cloths: bought apart, and told apart wherever they are named."""

from pathlib import Path

import pytest

from tests.builders import TOP, everything, in_shop, page, quoted

WIDE = '[backing]\nfabric = { preset = "cotton-wide-108", name = "red" }\n'
NARROW = '[binding]\nfabric = { preset = "cotton-44", name = "red" }\n'
CHEAP = '[backing]\nfabric = { preset = "cotton-44", name = "red", price = "9" }\n'
DEAR = '[binding]\nfabric = { preset = "cotton-44", name = "red", price = "11" }\n'
MARKUP = '[rates]\nmarkup = "50 %"\n'
SLIP = "slip of the pen"


def bought(text: str) -> list[tuple[str, tuple[str, ...]]]:
    """The name and the uses of each cloth that is bought."""
    return [(purchase.fabric.name, purchase.uses) for purchase in quoted(text).plans.cloth]


def told(text: str) -> str:
    return " ".join(page(text, "studio").split())


def test_two_widths_are_two_purchases_named_by_their_widths():
    assert bought(TOP + WIDE + NARROW) == [("red, 108 in wide", ("backing",)), ("red, 44 in wide", ("binding",))]


def test_the_width_is_written_in_the_project_s_units():
    text = "units = 'cm'\n[top]\nwidth = 150\nlength = 200\n"
    text += '[backing]\nfabric = { preset = "cotton-wide-270", name = "rot" }\n'
    text += '[binding]\nfabric = { preset = "cotton-110", name = "rot" }\n'
    assert [name for name, _ in bought(text)] == ["rot, 270 cm wide", "rot, 110 cm wide"]


def test_two_prices_are_told_by_the_price_on_the_line_and_in_house_by_the_cost(tmp_path: Path):
    """At 50 % above cost, 9.00 and 11.00 are sold at 13.50 and 16.50 (derived)."""
    result = in_shop(tmp_path, MARKUP, TOP + CHEAP + DEAR)
    names = [purchase.fabric.name for purchase in result.plans.cloth]
    assert names == ["red at $13.50 a yard", "red at $16.50 a yard"]
    assert [line.rate * 2 for line in result.quote.lines if line.label.text.startswith("{fabric}")] == [27, 33]
    customer, explained, studio, *_ = everything(result)
    for name in names:
        assert name in customer.lower()
    for text in (customer, explained):
        assert "$9.00" not in text
        assert "$11.00" not in text
    assert "Red at $9.00 a yard, for backing" in studio
    assert "yd of red at $11.00 a yard, for binding" in studio
    assert "$13.50" not in studio


@pytest.mark.parametrize("text", [TOP + WIDE + NARROW, TOP + CHEAP + DEAR])
def test_the_studio_is_told_and_the_customer_is_not(text: str):
    words = told(text)
    assert "Two cloths are named red, and are bought apart: backing.fabric" in words
    assert SLIP in words
    assert SLIP not in page(text)


def test_the_studio_is_told_of_both_figures():
    assert "backing.fabric at $9.00 a yard; binding.fabric at $11.00 a yard." in told(TOP + CHEAP + DEAR)
    assert "backing.fabric, 108 in wide at $24.00 a yard; binding.fabric, 44 in wide at $11.00 a yard." in told(
        TOP + WIDE + NARROW
    )


def test_uses_of_the_same_figures_are_one_of_the_two():
    """Border 1 and the binding are one cloth, border 2 another; what differs is their price alone."""
    border = '[[top.borders]]\ncut = 3\nfabric = {{ preset = "cotton-44", name = "red", price = "{}" }}\n'
    text = "[top.centre]\nwidth = 50\nlength = 60\n" + border.format(11) + border.format(9) + DEAR
    assert [uses for _, uses in bought(text)][:2] == [("border 1", "binding"), ("border 2",)]


def test_three_cloths_are_told_apart_by_no_more_than_they_need():
    """Two of one width and two prices, and one of another width (derived)."""
    text = "[top.centre]\nwidth = 50\nlength = 60\n[[top.borders]]\ncut = 3\n"
    text += 'fabric = { preset = "cotton-44", name = "red", selling = "9" }\n'
    text += WIDE + '[binding]\nfabric = { preset = "cotton-44", name = "red", selling = "11" }\n'
    names = [name for name, _ in bought(text)]
    assert names == ["red, 44 in wide at $9.00 a yard", "red, 108 in wide", "red, 44 in wide at $11.00 a yard"]


def test_cloths_that_differ_in_cost_alone_keep_their_name_before_the_customer():
    """Both are sold at 15.00, so that nothing in a name may tell her that one costs more."""
    text = TOP + CHEAP.replace(" }", ', selling = "15" }') + DEAR.replace(" }", ', selling = "15" }')
    assert [name for name, _ in bought(text)] == ["red", "red"]
    assert "backing.fabric at $9.00 a yard; binding.fabric at $11.00 a yard." in told(text)


@pytest.mark.parametrize(
    ("key", "names"),
    [
        ("directional = true", ["red, one-way", "red, not one-way"]),
        ("nap = true", ["red, with a nap", "red, without a nap"]),
        ('shrink_along = "3 %"', ["red, 3 % shrinkage along", "red, 0 % shrinkage along"]),
        ("repeat = 6", ["red, repeat of 6 in", "red, without a repeat"]),
        ('step = "1/2 yd"', ["red, sold by 1/2 yd", "red, sold by 1/8 yd"]),
        ("selvage = 1", ["red, with selvages of 1 in", "red, with selvages of 2 in"]),
    ],
)
def test_any_other_figure_tells_cloths_apart(key: str, names: list[str]):
    text = TOP + '[backing]\nfabric = { preset = "cotton-44", name = "red", ' + key + " }\n" + NARROW
    assert [name for name, _ in bought(text)] == names


def test_one_cloth_keeps_its_name():
    text = TOP + DEAR.replace("binding", "backing") + DEAR
    assert bought(text) == [("red", ("backing", "binding"))]
    assert SLIP not in told(text)


def test_a_binding_of_the_backing_s_cloth_at_another_price_is_told():
    text = TOP + CHEAP + '[binding]\nfabric = { preset = "backing", price = "11" }\n'
    assert [uses for _, uses in bought(text)] == [("backing",), ("binding",)]
    assert SLIP in told(text)


def test_every_page_and_the_cutting_list_name_both():
    result = quoted(TOP + WIDE + NARROW)
    for text in everything(result)[:-1]:
        flat = " ".join(text.split()).lower()
        assert "108 in wide" in flat
        assert "44 in wide" in flat
