"""Values as fields show them, and as they are read from what is typed."""

from datetime import date

import pytest

from finishcalc.counter.form.values import at, read, shown, with_puts
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.changes.shop_values import spec_at
from finishcalc.model.files import ProjectFile
from tests.counter.making import PIECED, PLAIN, table_of


def read_as(key: str, text: str) -> object:
    return read(text, spec_at(ProjectFile, key_path(key)))


@pytest.mark.parametrize(
    ("key", "typed", "value"),
    [
        ("top.width", "60 1/2", "60 1/2"),
        ("top.width", " 84 ", 84),
        ("top.width", "152 cm", "152 cm"),
        ("customer.name", "84", "84"),
        ("customer.name", '"Marit"', '"Marit"'),
        ("title", "[1]", "[1]"),
        ("job.notes", "no\nhurry ", "no\nhurry "),
        ("job.due", "2026-06-01", date(2026, 6, 1)),
        ("job.due", "June", "June"),
        ("charges.discount", "5", "5 %"),
        ("charges.discount", "5 %", "5 %"),
        ("charges.discount", "a lot", "a lot"),
        ("top.blocks.across", "5", 5),
        ("top.use", "bed", "bed"),
        ("backing.have", "2 1/2 yd, 3 yd", ["2 1/2 yd", "3 yd"]),
        ("backing.overage", "4", 4),
        ("backing.overage", "sides 4, ends 3 1/2", {"sides": 4, "ends": "3 1/2"}),
    ],
)
def test_a_value_is_read_as_a_file_would_have_it(key: str, typed: str, value: object) -> None:
    assert read_as(key, typed) == value
    assert type(read_as(key, typed)) is type(value)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("60 1/2", "60 1/2"),
        (84, "84"),
        (True, "yes"),
        (False, ""),
        (date(2026, 6, 1), "2026-06-01"),
        (["2 1/2 yd", "3 yd"], "2 1/2 yd, 3 yd"),
        ({"sides": 4, "ends": "3 1/2"}, "sides 4, ends 3 1/2"),
        ({"preset": {"name": "x"}}, ""),
        ([{"name": "label"}], ""),
        (None, ""),
    ],
)
def test_a_value_is_shown_as_it_may_be_typed(value: object, text: str) -> None:
    assert shown(value) == text


def test_a_material_that_is_named_alone_is_its_preset() -> None:
    table = table_of(PIECED)
    assert at(table, key_path("top.borders[1].fabric.preset")) == "cotton-44"
    assert at(table, key_path("top.borders[1].fabric.name")) is None
    assert at(table, key_path("top.borders[9].cut")) is None


def test_another_material_keeps_what_it_is_called_and_nothing_else() -> None:
    table = table_of(PLAIN)
    table["backing"] = {"fabric": {"preset": "cotton-44", "name": "harbour blue", "price": 9}}
    with_puts(table, [("backing.fabric.preset", "linen-60")])
    assert table["backing"] == {"fabric": {"preset": "linen-60", "name": "harbour blue"}}


def test_what_is_left_empty_is_taken_out_with_the_tables_that_it_leaves_empty() -> None:
    table = table_of(PLAIN)
    with_puts(table, [("customer.name", None), ("backing.fabric.preset", None)])
    assert "customer" not in table
    assert "backing" not in table


def test_a_border_that_is_taken_out_lets_the_next_move_up() -> None:
    table = table_of(PIECED)
    with_puts(table, [("top.borders[1]", None), ("top.borders[1].cut", "7")])
    assert table["top"]["borders"] == [{"cut": 7}]  # the second, 6 1/2 before


def test_a_border_is_added_behind_the_last() -> None:
    table = table_of(PIECED)
    with_puts(table, [("top.borders[3].cut", "2"), ("top.borders[5].cut", "9")])  # there is no fourth
    assert [row["cut"] for row in table["top"]["borders"]] == [3, "6 1/2", 2]
