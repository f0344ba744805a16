"""What is wrong with a file, as records: where, what, and what would be right."""

from collections.abc import Iterable
from typing import NamedTuple


class Problem(NamedTuple):
    """One thing wrong: the file's name as it was given, the line and column (from 1; 0 where the whole file is
    meant), the key path, what is wrong, what would be right, and the line itself with the width to underline.

    Of a long line `excerpt` is the part around the place; `start` is the column it begins at."""

    file: str
    line: int
    column: int
    path: str
    message: str
    hint: str = ""
    excerpt: str = ""
    width: int = 1
    start: int = 1


class ProblemsFound(Exception):
    """Every problem of a run, in file order. Nothing was written."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__(f"{len(self.problems)} problems")
