"""The field that a problem is about: the nearest that the form has."""

import pytest

from finishcalc.counter.form.places import field_at


@pytest.mark.parametrize(
    ("path", "key"),
    [
        ("top.width", "top.width"),
        ("backing.fabric", "backing.fabric.preset"),
        ("backing.fabric.width", "backing.fabric.preset"),
        ("backing.fabric.preset", "backing.fabric.preset"),
        ("top.borders[2].cut", "top.borders[2].cut"),
        ("top.borders[2]", "top.borders[2].cut"),
        ("top.borders[2].fabric.price", "top.borders[2].fabric.preset"),
        ("charges.extras[1].quantity", "charges.extras"),
        ("backing.have[2]", "backing.have"),
        ("top.blocks", "top.blocks.across"),
    ],
)
def test_a_problem_is_told_at_the_nearest_field(path: str, key: str) -> None:
    field = field_at(path)
    assert field is not None
    assert field.key == key


@pytest.mark.parametrize("path", ["", "quilting.areas[1].share", "rates.wage", "on_hand[1].fabric", "no key"])
def test_what_the_form_does_not_ask_for_has_no_field(path: str) -> None:
    assert field_at(path) is None
