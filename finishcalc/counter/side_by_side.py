"""Two texts side by side, line by line, with a word for each line that is not the same in both."""

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from itertools import islice, zip_longest
from typing import Literal, NamedTuple

AROUND = 3
"""The lines that are the same and stand around a difference."""
MOST_COMPARED = 1_000_000
"""The most pairs of lines that are compared: the time that it takes grows with them."""
MOST_ROWS = 400
"""The most rows that are shown."""

Word = Literal["", "differs", "only in the file", "only with your changes", "the same"]


class Row(NamedTuple):
    """A row: the `word` for what it is, the line on the left and on the right, each with its number, which is 0 where
    there is none. One that stands for `skipped` lines has no text."""

    word: Word
    left: str = ""
    right: str = ""
    left_number: int = 0
    right_number: int = 0
    skipped: int = 0


def rows_of(left: Sequence[str], right: Sequence[str]) -> list[Row]:
    """Set two texts side by side: their differences, and some lines around them."""
    rows: list[Row] = []
    for tag, start, end, other_start, other_end in _blocks(left, right):
        if tag == "equal":
            rows += _same(left[start:end], start, other_start, start == 0, end == len(left))
        else:
            rows += _different(left[start:end], right[other_start:other_end], start, other_start)
    over = sum(row.skipped or 1 for row in rows[MOST_ROWS:])
    return [*rows[:MOST_ROWS], Row("differs", skipped=over)] if over else rows


def _blocks(left: Sequence[str], right: Sequence[str]) -> Iterator[tuple[str, int, int, int, int]]:
    """Part two texts into blocks that are equal and blocks that are not. What is the same at both ends is found first,
    because between long texts all the rest counts as one difference."""
    least = min(len(left), len(right))
    head = next((n for n in range(least) if left[n] != right[n]), least)
    tail = next((n for n in range(least - head) if left[-1 - n] != right[-1 - n]), least - head)
    end, other_end = len(left) - tail, len(right) - tail
    if head:
        yield "equal", 0, head, 0, head
    if (end - head) * (other_end - head) > MOST_COMPARED:
        yield "replace", head, end, head, other_end
    else:
        matcher = SequenceMatcher(None, left[head:end], right[head:other_end], autojunk=False)
        for tag, a, b, c, d in matcher.get_opcodes():
            yield tag, a + head, b + head, c + head, d + head
    if tail:
        yield "equal", end, len(left), other_end, len(right)


def _same(lines: Sequence[str], start: int, other: int, is_first: bool, is_last: bool) -> Iterator[Row]:
    """Give the lines next to a difference, and say how many are left out between them."""
    before, after = (0 if is_first else AROUND), (0 if is_last else AROUND)
    skipped = len(lines) - before - after
    for number, line in enumerate(lines):
        if skipped <= 1 or number < before or number >= len(lines) - after:
            yield Row("", line, line, start + number + 1, other + number + 1)
        elif number == before:
            yield Row("the same", skipped=skipped)


def _different(left: Sequence[str], right: Sequence[str], start: int, other: int) -> Iterator[Row]:
    for number, (here, there) in enumerate(islice(zip_longest(left, right), MOST_ROWS)):
        if there is None:
            yield Row("only in the file", here, "", start + number + 1)
        elif here is None:
            yield Row("only with your changes", "", there, 0, other + number + 1)
        else:
            yield Row("differs", here, there, start + number + 1, other + number + 1)
    if (more := max(len(left), len(right)) - MOST_ROWS) > 0:
        yield Row("differs", skipped=more)
