"""Reads a file into its TOML table, or gives the one problem that prevents it."""

import re
import sys
import tomllib
from decimal import Decimal, InvalidOperation
from functools import cached_property, lru_cache
from pathlib import Path as FilePath
from pathlib import PurePath

from finishcalc.intake.keypaths import KeyPath, TomlTable
from finishcalc.intake.nesting import HINT as DEPTH_HINT
from finishcalc.intake.nesting import too_deep
from finishcalc.intake.positions import Spot, positions
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.wording.plain import plain

LARGEST = 1024 * 1024
"""The most bytes a project or shop file may have."""

AROUND = 200
"""The characters that are shown before and after a mistake in a long line."""

STANDARD_INPUT = "standard input"


class Source:
    """A text with the name its problems are reported under. One of `ours` comes with the program and is trusted;
    `line_end` is how the file ends its lines."""

    def __init__(self, name: str, text: str, ours: bool = False, line_end: str = "\n") -> None:
        self.name, self.text = name, text
        self.ours, self.line_end = ours, line_end

    @cached_property
    def table(self) -> TomlTable:
        """The text as a TOML table, parsed once. Copy it before changing it. Raises ProblemsFound with one problem."""
        return parse(self)

    @cached_property
    def _spots(self) -> dict[KeyPath, Spot]:
        return positions(self.text)

    def line_of(self, path: KeyPath) -> int:
        """The line (from 1) of a key, or of the nearest table around it; 0 where there is none."""
        spot = self._nearest(path)
        return self.text.count("\n", 0, spot[0]) + 1 if spot else 0

    def where(self, path: KeyPath) -> str:
        """The place of a key, in words."""
        return f"on line {self.line_of(path)}"

    def problem(self, code: ProblemCode, path: KeyPath, message: str, hint: str = "") -> Problem:
        """A problem with a key, shown with its line."""
        spot = self._nearest(path)
        shown = dotted(self._as_written(path))
        if spot is None:
            return Problem(code, self.name, 1, 1, shown, message, hint)
        return self.problem_at(code, spot[0], message, hint, shown, spot[1])

    def problem_at(
        self, code: ProblemCode, offset: int, message: str, hint: str = "", path: str = "", width: int = 1
    ) -> Problem:
        """A problem at a character of the text."""
        line = self.text.count("\n", 0, offset) + 1
        start = self.text.rfind("\n", 0, offset) + 1
        end = self.text.find("\n", offset)
        first = max(start, offset - AROUND)
        last = min(end if end >= 0 else len(self.text), offset + AROUND)
        excerpt = self.text[first:last].rstrip("\r")
        column, shown_from = offset - start + 1, first - start + 1
        return Problem(code, self.name, line, column, path, message, hint, excerpt, min(width, AROUND), shown_from)

    def holds(self, path: KeyPath) -> bool:
        """Tell a key that the text itself gives, and not only a table around it."""
        return self._as_written(path) in self._spots

    def _as_written(self, path: KeyPath) -> KeyPath:
        """The path without the number of an item that stands alone where there may be a list: `wider = "linen"`."""
        for place, step in enumerate(path):
            if step == 0 and path[: place + 1] not in self._spots and path[:place] in self._spots:
                return path[:place] + path[place + 1 :]
        return path

    def _nearest(self, path: KeyPath) -> Spot | None:
        path = self._as_written(path)
        while path and path not in self._spots:
            path = path[:-1]
        return self._spots.get(path)


@lru_cache(maxsize=1024)
def dotted(path: KeyPath) -> str:
    """Write a key path as people do, with items counted from 1: tax[2].percent."""
    text = ""
    for step in path:
        if isinstance(step, int):
            text += f"[{step + 1}]"
        else:
            shown = step if re.fullmatch(r"[A-Za-z0-9_-]+", step) else f'"{plain(step)}"'
            text += f".{shown}" if text else shown
    return text


def read(name: str) -> Source:
    """Read a file, or standard input for "-". Raises ProblemsFound with one problem."""
    if not name:
        raise ProblemsFound(
            [Problem(ProblemCode.NO_FILE_NAMED, '""', 0, 0, "", "no file is named", "give the name of a file")]
        )
    shown = STANDARD_INPUT if name == "-" else name
    try:
        if name == "-" and sys.stdin is None:
            raise ValueError("it is closed: name a file, or pipe one in")
        if name == "-":
            data = sys.stdin.buffer.read(LARGEST + 1)
        else:
            with FilePath(name).open("rb") as file:
                data = file.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        code, message, hint = unreadable(error)
        raise ProblemsFound([Problem(code, shown, 0, 0, "", message, hint)]) from None
    return source_of(shown, data)


def source_of(name: str, data: bytes) -> Source:
    """The text that a file's bytes hold. Raises ProblemsFound with one problem."""
    if len(data) > LARGEST:
        hint = "a project file is a page or two of text"
        raise ProblemsFound([Problem(ProblemCode.FILE_TOO_LARGE, name, 0, 0, "", "is larger than 1 MiB", hint)])
    line_end = "\r\n" if 0 < data.count(b"\n") == data.count(b"\r\n") else "\n"
    return Source(name, _decode(name, data), line_end=line_end)


def presets_folder() -> FilePath:
    """The presets' folder: inside the installed package, or beside it in a checkout."""
    package = FilePath(__file__).resolve().parent.parent
    inside = package / "presets"
    return inside if inside.is_dir() else package.parent / "presets"


def leads_out(folder: PurePath, name: str) -> bool:
    """Tell a name that leads out of its folder by a link of the file itself or of a folder on the way."""
    try:
        return not FilePath(folder, name).resolve().is_relative_to(FilePath(folder).resolve())
    except (OSError, RuntimeError, ValueError):  # links in a circle, or no name for a file: reading it will fail anyway
        return False


def is_same_file(name: str, other: str) -> bool:
    """Tell two names of one file."""
    try:
        return FilePath(name).samefile(other)
    except (OSError, ValueError):
        return False


def parse(source: Source) -> TomlTable:
    """The file's table, floats as exact Decimals. Raises ProblemsFound with one problem."""
    deep = None if source.ours else too_deep(source.text)
    if deep:
        raise ProblemsFound(
            [source.problem_at(ProblemCode.NESTED_TOO_DEEPLY, deep.offset, deep.message, DEPTH_HINT, width=deep.width)]
        )
    try:
        return tomllib.loads(source.text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise ProblemsFound([_not_toml(source, str(error))]) from None
    except (ValueError, InvalidOperation):
        raise ProblemsFound([_huge_number(source)]) from None


MENDS = {
    "Invalid date": "write a day that the calendar has, year first: 2026-05-04",
    "Invalid value": 'put text, fractions and units in quotes: width = "60 1/2"',
    "after a statement": 'put text, fractions and units in quotes: width = "60 1/2"',
    "after a key": "write one key = value on each line",
    "Expected '='": "write one key = value on each line",
    "Illegal character": "close the quote on the line it opens",
    "Unclosed": "close every bracket that is opened",
    "Unterminated": "close the quote that is opened",
    "Expected": "close every quote and bracket on the line before",
}
"""The mends for tomllib's messages, by words in them."""


def unreadable(error: Exception) -> tuple[ProblemCode, str, str]:
    """The code, the message and the hint for a file that the system does not read."""
    code, message = ProblemCode.CANNOT_BE_READ, "cannot be read"
    hint = plain(getattr(error, "strerror", None) or str(error))
    if isinstance(error, FileNotFoundError):
        code, message, hint = ProblemCode.NO_SUCH_FILE, "no such file", "check the name and the folder you are in"
    elif isinstance(error, IsADirectoryError):
        code, message, hint = ProblemCode.IS_A_FOLDER, "is a folder", "name a file in it"
    elif isinstance(error, PermissionError):
        code, hint = ProblemCode.READING_NOT_ALLOWED, "you are not allowed to read it: ask its owner"
    return code, message, hint


def _decode(name: str, data: bytes) -> str:
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        hint = "save it as UTF-8 text"
        raise ProblemsFound([Problem(ProblemCode.NOT_UTF_8, name, line, 0, "", "is not UTF-8 text", hint)]) from None


def _not_toml(source: Source, message: str) -> Problem:
    what, _, where = message.rpartition(" (at ")
    offset = min(_offset(source.text, where.rstrip(")")), max(len(source.text) - 1, 0))
    if table := re.match(r"Cannot declare \((.*?),?\) twice", what):
        name = ".".join(re.findall(r"'([^']*)'", table[1]))
        return source.problem_at(
            ProblemCode.TABLE_TWICE, offset, f"[{plain(name)}] is given twice", "put all its keys under one of them"
        )
    if what.startswith("Cannot overwrite"):
        return _given_twice(source, offset)
    return source.problem_at(
        ProblemCode.NOT_TOML, offset, f"is not TOML: {plain(what[:1].lower() + what[1:])}", _mend(what)
    )


def _offset(text: str, where: str) -> int:
    """The offset of "line 2, column 3" in a text, or its end where tomllib says no line."""
    line, _, column = where.removeprefix("line ").partition(", column ")
    if not column:
        return len(text.rstrip())
    return sum(len(row) + 1 for row in text.split("\n")[: int(line) - 1]) + int(column) - 1


def _mend(message: str) -> str:
    for word, mend in MENDS.items():
        if word in message:
            return mend
    return "see toml.io for the right form"


def _given_twice(source: Source, offset: int) -> Problem:
    """The problem of a key that is given twice in a table. It names the earlier line too, where that is plain."""
    before = source.text[:offset]
    table = before.rfind("\n[") + 1
    line_start = before.rfind("\n") + 1
    end = source.text.find("\n", line_start)
    line = source.text[line_start : end if end >= 0 else len(source.text)]
    key = line.split("=")[0].strip()
    above = source.text[table:line_start].split("\n")
    first = next((n for n, row in enumerate(above) if "=" in row and row.split("=")[0].strip() == key), None)
    message = f"{plain(key)} is given twice"
    if first is not None:
        message += f", here and on line {source.text.count(chr(10), 0, table) + first + 1}"
    return source.problem_at(
        ProblemCode.KEY_TWICE, line_start, message, "keep the one you mean", width=len(line.rstrip())
    )


def _huge_number(source: Source) -> Problem:
    """The problem of a number that is too long to be parsed: thousands of digits, or an exponent of millions."""
    match = re.search(r"[0-9_]{300}|[0-9][eE][+-]?[0-9_]{6}", source.text)
    hint = "use at most 9 digits"
    if not match:
        return Problem(
            ProblemCode.TOO_MANY_DIGITS, source.name, 0, 0, "", "has a number or date that cannot be read", hint
        )
    return source.problem_at(ProblemCode.TOO_MANY_DIGITS, match.start(), "has a number that is far too long", hint)
