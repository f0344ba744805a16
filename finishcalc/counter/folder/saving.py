"""Saves a project's file: whole or not at all, as it was but for its text, and never over what somebody else wrote."""

import os
from collections.abc import Callable
from contextlib import suppress
from difflib import SequenceMatcher
from pathlib import Path
from typing import NamedTuple

from finishcalc.counter.folder.drafts import Draft, hash_of
from finishcalc.intake.source import LARGEST, source_of
from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.storing.passing import PassingFolder
from finishcalc.storing.placing import name_anew, take_rights, unwritable

BYTE_ORDER_MARK = "\ufeff"
"""The mark before the text that some editors write."""


class Saved(NamedTuple):
    """The draft after its file was written."""

    draft: Draft


class Conflict(NamedTuple):
    """The file is not the one that the draft was begun on: its `text` as it is now, None where it is gone. Nothing was
    written."""

    draft: Draft
    text: str | None


class ChangedMeanwhile(Exception):
    """The file has been written by somebody else between the look and the replacing."""


def encoded(name: str, text: str, model: str) -> bytes:
    """The bytes of a text, with the line ends and the byte order mark of a model. Raises ProblemsFound for a text that
    could not be read again."""
    mark = BYTE_ORDER_MARK if model.startswith(BYTE_ORDER_MARK) else ""
    plain = text.removeprefix(BYTE_ORDER_MARK).replace("\r\n", "\n")
    try:
        data = (mark + _with_line_ends(plain, model.removeprefix(mark))).encode("utf-8")
    except UnicodeEncodeError as error:
        raise ProblemsFound([unwritable(Path(name), error)]) from None
    if len(data) > LARGEST:
        hint = "nothing was written: shorten its notes"
        raise ProblemsFound([Problem(ProblemCode.FILE_TOO_LARGE, name, 0, 0, "", "would be larger than 1 MiB", hint)])
    return data


def _with_line_ends(text: str, model: str) -> str:
    """A text with the line ends of a model. Where that has both, each line that stays keeps its own, and new ones have
    that of the first line."""
    feeds, both = model.count("\n"), model.count("\r\n")
    if not both:
        return text
    if both == feeds:
        return text.replace("\n", "\r\n")
    old, new = model.splitlines(keepends=True), text.split("\n")
    first = "\r\n" if old[0].endswith("\r\n") else "\n"
    ends = [first] * len(new)
    for start, place, length in SequenceMatcher(None, [line.rstrip("\r\n") for line in old], new).get_matching_blocks():
        for step in range(length):
            ends[place + step] = "\r\n" if old[start + step].endswith("\r\n") else "\n"
    return "".join(line + end for line, end in zip(new, ends, strict=True))[: -len(ends[-1])]


def text_of(name: str, data: bytes) -> str:
    """The text of a file, as it is read. Raises ProblemsFound."""
    return source_of(name, data).text


def replace(path: str, data: bytes, on_disk: Callable[[], bytes | None], expected: str) -> None:
    """Write a file in place of the one that is there, with its owner and mode.

    The bytes `on_disk` are looked at again just before. Raises ChangedMeanwhile where they do not have the hash that is
    `expected`, and OSError, with the old file in its place, where it cannot be written.
    """
    target = Path(path)

    def put(waiting: Path) -> None:
        take_rights(waiting, target)
        now = on_disk()
        if now is None or hash_of(now) != expected:
            raise ChangedMeanwhile
        os.replace(waiting, target)

    _written_beside(target, data, put)


def write_new(path: str, data: bytes) -> None:
    """Write a file under a name that is free. Raises FileExistsError where it is not, even where it was a moment ago,
    and OSError where it cannot be written."""
    target = Path(path)
    _written_beside(target, data, lambda waiting: name_anew(waiting, target))


def _written_beside(target: Path, data: bytes, put: Callable[[Path], None]) -> None:
    """Write a file whole beside its place, then put it there."""
    passing = PassingFolder(target.parent)
    try:
        waiting = passing.path / "new-1"
        with waiting.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        put(waiting)
        sync_folder(target.parent)
    finally:
        passing.take_away()


def sync_folder(folder: Path) -> None:
    """Have the names in a folder on the disk, where the system can be asked to."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
