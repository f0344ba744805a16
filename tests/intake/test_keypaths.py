"""Key paths: the value at one found, taken out and put in, by examples made by hand."""

from typing import Any

import pytest

from finishcalc.intake.keypaths import put_at, starts_with, take_out, value_at
from finishcalc.model.files import ProjectFile


def backing() -> dict[str, Any]:
    return {"backing": {"overage": 4, "sewn": {"width": 68}}}


def test_a_path_starts_with_itself_and_with_what_leads_to_it():
    for start in ((), ("backing",), ("backing", "sewn")):
        assert starts_with(("backing", "sewn"), start)
    assert not starts_with(("backing",), ("backing", "sewn"))
    assert not starts_with(("backing_cloth",), ("backing",))


def test_a_value_is_found_at_its_path_and_nothing_elsewhere():
    assert value_at(backing(), ("backing", "sewn", "width")) == 68
    assert value_at(backing(), ()) == backing()
    for path in (("binding",), ("backing", "have"), ("backing", "overage", "in")):
        assert value_at(backing(), path) is None


def test_a_value_is_taken_out_and_its_neighbours_stay():
    table = backing()
    take_out(table, ("backing", "sewn"))
    assert table == {"backing": {"overage": 4}}
    for path in (("binding", "cut"), ("backing", "have"), ("backing", "overage", "in")):
        take_out(table, path)
    assert table == {"backing": {"overage": 4}}


def test_a_value_is_put_in_and_the_tables_on_the_way_are_made():
    table: dict[str, Any] = {}
    put_at(table, ("backing", "sewn", "width"), 68, ProjectFile)
    assert table == {"backing": {"sewn": {"width": 68}}}
    put_at(table, ("backing", "sewn", "width"), 70, ProjectFile)
    assert table == {"backing": {"sewn": {"width": 70}}}


def test_the_next_item_of_a_list_is_appended():
    table: dict[str, Any] = {}
    put_at(table, ("top", "borders", 0, "cut"), 3, ProjectFile)
    put_at(table, ("top", "borders", 1, "cut"), 5, ProjectFile)
    put_at(table, ("top", "borders", 0, "cut"), 4, ProjectFile)
    assert table == {"top": {"borders": [{"cut": 4}, {"cut": 5}]}}


def test_a_preset_s_name_becomes_its_table():
    table: dict[str, Any] = {"backing": {"fabric": "cotton"}}
    put_at(table, ("backing", "fabric", "price"), 12, ProjectFile)
    assert table == {"backing": {"fabric": {"preset": "cotton", "price": 12}}}


@pytest.mark.parametrize(
    ("path", "error"),
    [
        (("backing", "overage", "in"), (TypeError, AttributeError)),
        (("top", "borders", 2, "cut"), IndexError),
        (("top", "borders", "cut"), TypeError),
    ],
)
def test_a_path_that_leads_nowhere_is_an_error(path: tuple[str | int, ...], error: type[Exception]):
    with pytest.raises(error):
        put_at({"backing": {"overage": 4}, "top": {"borders": [{"cut": 3}]}}, path, 1, ProjectFile)
