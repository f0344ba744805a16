"""Fewer puts that come to the same."""

import string
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from finishcalc.counter.folder.puts import condensed
from finishcalc.counter.form.table import table_after

FILE: dict[str, Any] = {
    "title": "Lap",
    "top": {"width": 60, "length": 70, "borders": [{"cut": 3}, {"cut": 4}]},
    "backing": {"fabric": {"preset": "muslin", "name": "Moon", "width": 44}, "overage": 4},
}
TEXTS = st.text(string.ascii_lowercase, min_size=1, max_size=2)
FABRIC = st.fixed_dictionaries({"preset": TEXTS}, optional={"width": TEXTS, "name": TEXTS})
PUTS: dict[str, st.SearchStrategy[Any]] = {
    "title": TEXTS,
    "top.width": TEXTS,
    "top.borders": st.lists(st.fixed_dictionaries({"cut": TEXTS}), max_size=2),
    "top.borders[1]": st.fixed_dictionaries({"cut": TEXTS}),
    "top.borders[2].cut": TEXTS,
    "top.borders[3].cut": TEXTS,
    "backing": st.fixed_dictionaries({}, optional={"fabric": FABRIC, "overage": TEXTS}),
    "backing.fabric": FABRIC,
    "backing.fabric.preset": TEXTS,
    "backing.fabric.width": TEXTS,
    "backing.fabric.name": TEXTS,
    "backing.overage": TEXTS,
}
STEPS = st.lists(
    st.dictionaries(st.sampled_from(sorted(PUTS)), st.none() | TEXTS, min_size=1, max_size=2).flatmap(
        lambda keys: st.fixed_dictionaries({key: st.none() | PUTS[key] for key in keys})
    ),
    max_size=10,
)


def told(value: Any, key: str = "") -> Any:
    """A value as it is understood: a material by its name alone is its preset, and an empty table says nothing."""
    if key == "fabric" and isinstance(value, str):
        value = {"preset": value}
    if not isinstance(value, dict):
        return value
    inner = {key: told(item, key) for key, item in value.items()}
    return {key: item for key, item in inner.items() if item != {}}


@given(STEPS)
def test_fewer_puts_come_to_the_same(steps: list[dict[str, Any]]):
    assert told(table_after(FILE, condensed(steps))) == told(table_after(FILE, steps))


@given(STEPS, STEPS)
def test_puts_may_be_made_fewer_bit_by_bit(first: Any, second: Any):
    steps = [*first, *second]
    assert told(table_after(FILE, condensed([*condensed(first), *second]))) == told(table_after(FILE, steps))


def test_what_is_typed_in_turns_in_two_fields_comes_to_two_values():
    steps = [{key: str(number)} for number in range(50) for key in ("top.width", "top.borders[2].cut")]
    assert condensed(steps) == [{"top.width": "49", "top.borders[2].cut": "49"}]


def test_rows_that_are_taken_out_one_after_another_are_all_taken_out():
    steps: list[dict[str, Any]] = [{"top.borders[1]": None}, {"top.borders[1]": None}]
    assert condensed(steps) == steps


def test_a_key_that_begins_alike_is_another():
    steps = [{"top.width": "1"}, {"top.width_of_all": "2"}, {"top.width": "3"}]
    assert condensed(steps) == [{"top.width_of_all": "2", "top.width": "3"}]


def test_a_table_that_is_made_of_puts_leaves_them_as_they_were():
    steps: list[dict[str, Any]] = [{"backing": {}}, {"backing.overage": "3"}]
    assert table_after({}, steps)["backing"] == {"overage": 3}
    assert steps == [{"backing": {}}, {"backing.overage": "3"}]


def test_nothing_comes_of_nothing():
    assert condensed([]) == condensed([{}]) == []
