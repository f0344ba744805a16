"""Several puts together come to the same as one after another."""

import string
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from finishcalc.counter.folder.puts import together
from finishcalc.intake.changes.change import Change, changed
from finishcalc.intake.changes.settings import setting

FILE: dict[str, Any] = {
    "title": "Lap",
    "top": {"width": 60, "length": 70, "borders": [{"cut": 3}, {"cut": 4}]},
    "backing": {"fabric": {"preset": "muslin", "width": 44}, "overage": 4},
}
TEXTS = st.text(string.ascii_lowercase, min_size=1, max_size=3)
FABRIC = st.fixed_dictionaries({"preset": TEXTS}, optional={"width": TEXTS, "usable": TEXTS})
PUTS: dict[str, st.SearchStrategy[Any]] = {
    "title": TEXTS,
    "top.width": TEXTS,
    "top.borders": st.lists(st.fixed_dictionaries({"cut": TEXTS}), min_size=2, max_size=2),
    "top.borders[2].cut": TEXTS,
    "backing": st.fixed_dictionaries({}, optional={"fabric": FABRIC, "overage": TEXTS}),
    "backing.fabric": FABRIC | TEXTS,
    "backing.fabric.width": TEXTS,
    "backing.overage": TEXTS,
}
STEPS = st.lists(
    st.sampled_from(sorted(PUTS)).flatmap(
        lambda key: st.tuples(st.just(key), PUTS[key] if "[" in key else st.none() | PUTS[key])
    ),
    max_size=8,
)


def laid(table: dict[str, Any], puts: dict[str, Any]) -> Any:
    """A table with puts laid over it in one change, without its empty tables."""
    paths = {setting(f"{key}=0").path: value for key, value in puts.items()}
    drops = tuple(path for path, value in paths.items() if value is None)
    table, _ = changed(
        table, Change("", drops, tuple((path, value) for path, value in paths.items() if value is not None))
    )
    return table


def filled(value: Any) -> Any:
    """A value without the empty tables in it, which say nothing."""
    if not isinstance(value, dict):
        return value
    inner = {key: filled(item) for key, item in value.items()}
    return {key: item for key, item in inner.items() if item != {}}


@given(STEPS)
def test_puts_together_change_a_file_as_they_do_one_after_another(steps: list[tuple[str, Any]]):
    one_by_one: Any = FILE
    for key, value in steps:
        one_by_one = laid(one_by_one, {key: value})
    at_once = laid(FILE, together(*({key: value} for key, value in steps)))
    assert filled(at_once) == filled(one_by_one)


@given(STEPS, STEPS, STEPS)
def test_puts_may_be_put_together_in_any_groups(first: Any, second: Any, third: Any):
    one, two, three = ([{key: value} for key, value in steps] for steps in (first, second, third))
    assert together(together(*one, *two), *three) == together(*one, together(*two, *three)) or not (one or two or three)


def test_the_values_that_are_given_stay_as_they_are():
    first = {"backing.fabric": {"width": "44"}}
    assert together(first, {"backing.fabric.width": "60"}) == {"backing.fabric": {"width": "60"}}
    assert first == {"backing.fabric": {"width": "44"}}


def test_a_later_value_takes_the_place_of_those_within_it():
    puts = together({"backing.fabric.width": "44", "title": "Lap"}, {"backing.fabric": "muslin"})
    assert puts == {"title": "Lap", "backing.fabric": "muslin"}


def test_a_key_that_begins_alike_is_another():
    assert together({"top.width": "1"}, {"top.width_of_all": None}) == {"top.width": "1", "top.width_of_all": None}
