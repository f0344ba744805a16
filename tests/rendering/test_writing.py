"""Records of documents: keys that are added stand where they are meant to."""

from fractions import Fraction

import pytest

from finishcalc.rendering.documents.writing import with_more
from finishcalc.rendering.writing import hours_words


def test_more_keys_stand_after_the_one_they_are_named_by():
    record = with_more({"a": 1, "b": 2, "c": 3}, a={"x": 7, "y": 8}, c={"z": 9})
    assert list(record.items()) == [("a", 1), ("x", 7), ("y", 8), ("b", 2), ("c", 3), ("z", 9)]


def test_keys_that_would_have_no_place_are_a_mistake_of_ours():
    with pytest.raises(KeyError, match="b"):
        with_more({"a": 1}, b={"x": 7})


@pytest.mark.parametrize(
    ("minutes", "words"), [(420, "7 h"), (445, "7 h 25 min"), (20, "0 h 20 min"), (0, "0 h 0 min")]
)
def test_whole_hours_are_written_without_minutes(minutes: int, words: str):
    assert hours_words(Fraction(minutes)).replace("\u00a0", " ") == words
