"""Records of documents: keys that are added stand where they are meant to."""

import pytest

from finishcalc.rendering.documents.writing import with_more


def test_more_keys_stand_after_the_one_they_are_named_by():
    record = with_more({"a": 1, "b": 2, "c": 3}, a={"x": 7, "y": 8}, c={"z": 9})
    assert list(record.items()) == [("a", 1), ("x", 7), ("y", 8), ("b", 2), ("c", 3), ("z", 9)]


def test_keys_that_would_have_no_place_are_a_mistake_of_ours():
    with pytest.raises(KeyError, match="b"):
        with_more({"a": 1}, b={"x": 7})
