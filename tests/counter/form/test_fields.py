"""The fields against the keys that a project file may hold."""

import pytest

from finishcalc.counter.form.fields import FIELDS, PARTS
from finishcalc.intake.changes.settings import key_path
from finishcalc.intake.changes.shop_values import is_in_house, spec_at
from finishcalc.model.files import ProjectFile


@pytest.mark.parametrize("key", FIELDS)
def test_every_field_edits_a_key_that_the_customer_may_see(key: str) -> None:
    assert spec_at(ProjectFile, key_path(key)) is not None
    assert not is_in_house(ProjectFile, key_path(key), "")


@pytest.mark.parametrize("key", [key for key, field in FIELDS.items() if field.sort == "choice"])
def test_every_choice_of_a_word_is_told_in_words(key: str) -> None:
    spec = spec_at(ProjectFile, key_path(key))
    assert spec is not None
    assert set(FIELDS[key].told) == set(spec.choices)


def test_no_two_fields_share_an_id() -> None:
    ids = [field.id for field in FIELDS.values()] + [part.name for part in PARTS]
    assert len(set(ids)) == len(ids)


def test_the_form_has_room_within_the_most_fields_of_a_post() -> None:
    hidden, sizes = 4, 1
    assert len(FIELDS) + hidden + sizes <= 120  # leaves eighty for the extras of a shop and their numbers
