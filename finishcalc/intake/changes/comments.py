"""Puts comments back that were lost when a file was written again, and keys that were kept as comments."""

import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from finishcalc.intake.changes.headers import headers, start_of_table
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.positions import comments, positions


class Note(NamedTuple):
    """A lost comment. `beside` is the key on whose line it stood, None for one on a line of its own; `before` are the
    keys and headers that follow, the nearest first; `line` is the whole line without its blanks."""

    text: str
    beside: KeyPath | None
    before: tuple[KeyPath, ...]
    line: str


def with_comments(old: str, new: str) -> str:
    """The new text with every comment of the old one. A comment beside a key that is gone stays with its old line, as a
    comment; one on a line of its own stands before what follows it."""
    there = Counter(text for _, text in comments(new))
    lost = []
    for offset, comment in comments(old):
        there[comment] -= 1
        if there[comment] < 0:
            lost.append((offset, comment))
    for note in _notes(old, lost):
        new = _put_back(note, new)
    return new


def _notes(text: str, lost: list[tuple[int, str]]) -> Iterator[Note]:
    spots = sorted((offset, -len(path), path) for path, (offset, _) in positions(text).items()) if lost else []
    for offset, comment in lost:
        start = text.rfind("\n", 0, offset) + 1
        beside = max(((place, len(path), path) for place, _, path in spots if start <= place < offset), default=None)
        before = tuple(path for place, _, path in spots if place > offset)
        yield Note(comment, beside[-1] if beside else None, before, text[start : offset + len(comment)].strip())


def _put_back(note: Note, text: str) -> str:
    places = positions(text)
    if note.beside in places:
        offset, end = places[note.beside][0], text.find("\n", places[note.beside][0])
        end = len(text) if end < 0 else end
        if not any(offset < place < end for place, _ in comments(text)):
            line = text[:end].rstrip("\r")
            return f"{line}  {note.text}{text[len(line) :]}"
    kept = note.text if note.beside is None else f"# {note.line}"
    follows = next((places[path][0] for path in note.before if path in places), None)
    feed = "\r\n" if "\r\n" in text else "\n"
    if follows is None:
        return text + kept + feed
    start = text.rfind("\n", 0, follows) + 1
    if note.beside is not None and text.startswith("[", start):
        start = start_of_table(text, follows)
        while text[:start].endswith("\n\n"):
            start -= 1  # it stays in its own table, above the blank line before the next
    return text[:start] + kept + feed + text[start:]


def with_keys_back(text: str, puts: Iterable[tuple[KeyPath, object]]) -> str:
    """The text with each key that is put, and that it has only as a comment, as a key again: on the line where it was
    kept when it was taken out, with the comment beside it."""
    for path, _ in puts:
        line = None if path in positions(text) else _kept_line(text, path)
        if line:
            start, kept = line
            text = text[:start] + kept.removeprefix("# ") + text[start + len(kept) :]
    return text


def _kept_line(text: str, path: KeyPath) -> tuple[int, str] | None:
    """Find the line of a key that was kept as a comment, in its own table."""
    tables = headers(text)
    for offset, comment in comments(text):
        start = text.rfind("\n", 0, offset) + 1
        table = next((path for place, path in reversed(tables) if place < offset), ())
        if start == offset and table == path[:-1] and _is_kept(comment, path[-1]):
            return start, comment
    return None


def _is_kept(comment: str, key: str | int) -> bool:
    """Tell a comment that is a key with its value and a comment of its own."""
    line = comment.removeprefix("# ")
    try:
        return list(tomllib.loads(line)) == [key] and bool(comments(line))
    except tomllib.TOMLDecodeError:
        return False
