"""Two texts side by side: each line that differs has a word, and long texts are compared in time."""

import time

from hypothesis import given
from hypothesis import strategies as st

from finishcalc.counter.side_by_side import AROUND, MOST_ROWS, Row, rows_of

LINES = st.lists(st.sampled_from(["a = 1", "b = 2", "", "# c"]), max_size=30)


@given(LINES, LINES)
def test_both_texts_can_be_read_off_the_rows(left: list[str], right: list[str]) -> None:
    rows = rows_of(left, right)
    shown_left = {row.left_number: row.left for row in rows if row.left_number}
    shown_right = {row.right_number: row.right for row in rows if row.right_number}
    assert all(left[number - 1] == text for number, text in shown_left.items())
    assert all(right[number - 1] == text for number, text in shown_right.items())
    skipped = sum(row.skipped for row in rows)
    assert len(shown_left) + skipped == len(left)
    assert len(shown_right) + skipped == len(right)


@given(LINES, LINES)
def test_a_row_has_a_word_unless_both_lines_are_the_same(left: list[str], right: list[str]) -> None:
    for row in rows_of(left, right):
        if not row.skipped:
            same = bool(row.left_number and row.right_number and row.left == row.right)
            assert (row.word == "") == same or row.word == "differs"


def test_each_sort_of_difference_has_its_word() -> None:
    rows = rows_of(["a", "b", "c", "e"], ["a", "B", "c", "d", "e"])
    assert [(row.word, row.left, row.right) for row in rows] == [
        ("", "a", "a"),
        ("differs", "b", "B"),
        ("", "c", "c"),
        ("only with your changes", "", "d"),
        ("", "e", "e"),
    ]
    assert rows_of(["a", "b"], ["b"])[0].word == "only in the file"


def test_far_from_a_difference_lines_are_counted_and_not_shown() -> None:
    same = [f"line {number}" for number in range(50)]
    rows = rows_of([*same, "old"], [*same, "new"])
    assert rows[0] == Row("the same", skipped=50 - AROUND)
    assert [row.left for row in rows[1:]] == ["line 47", "line 48", "line 49", "old"]


def test_long_texts_that_repeat_are_compared_in_a_second() -> None:
    started = time.perf_counter()
    rows = rows_of(["#"] * 200_000 + ["a"] + ["#"] * 100_000, ["b"] + ["#"] * 250_000 + ["c"])
    assert time.perf_counter() - started < 1
    assert len(rows) == MOST_ROWS + 1
