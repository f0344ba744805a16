"""Finds the place of each key in a TOML text.

A small scanner over text that tomllib has already accepted: it never has to refuse anything, and it runs only when a
line is needed, so a good file pays nothing. No maintained library gives the places of TOML values.
"""

import re
import tomllib
from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.intake.keypaths import KeyPath

Spot = tuple[int, int]
"""A character offset and the number of characters to underline."""


class Token(NamedTuple):
    """The smallest piece of a text: its kind, its characters, and their offset."""

    kind: str
    text: str
    start: int


_OPAQUE = r'''
    (?P<comment>\#[^\n]*)
  | (?P<long_basic>"""(?:[^"\\]|\\.|"(?!""))*+"{3,5}) | (?P<long_literal>\'\'\'(?:[^\']|\'(?!\'\'))*+\'{3,5})
  | (?P<basic>"(?!"")(?:[^"\\\n]|\\.)*+") | (?P<literal>\'(?!\'\')[^\'\n]*+\')
'''
"""Matches a comment or a string. Strings match possessively, so that the time taken grows only with the length of the
text."""
_TOKEN = re.compile(
    rf"""
    (?P<space>[ \t\r\n]+) | {_OPAQUE}
  | (?P<mark>[\[\]{{}},=.]) | (?P<bare>[^\s\[\]{{}},=.\#"\']+) | (?P<unclosed>["\'])
""",
    re.X | re.S,
)
"""Matches one token."""
_NO_STRUCTURE = re.compile(rf"{_OPAQUE} | [\"'].*", re.X | re.S)
"""Matches a comment, a string, or a quote that is never closed with all that follows."""

DEEPEST = 60
"""Values nested deeper than this are skipped, and their keys have the place of the table around them."""


def positions(text: str) -> dict[KeyPath, Spot]:
    """Each key path of the text, list items counted from 0, with the spot of its key, header or item."""
    return _Scanner(text).scan()


def comments(text: str) -> list[tuple[int, str]]:
    """Each comment of the text, with its sign, after its character offset."""
    return [(token.start, token.text.rstrip()) for token in tokens(text) if token.kind == "comment"]


def tokens(text: str) -> Iterator[Token]:
    """Each token of a text. A quote that is never closed is a token of the kind "unclosed"."""
    for match in _TOKEN.finditer(text):
        yield Token(match.lastgroup or "", match.group(), match.start())


def structure(text: str) -> str:
    """The text as far as a quote that is never closed, without comments and strings: bare keys, numbers, marks and
    space."""
    return _NO_STRUCTURE.sub("", text)


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = [token for token in tokens(text) if token.kind not in ("space", "comment")]
        self.at = 0
        self.spots: dict[KeyPath, Spot] = {}
        self.counts: dict[KeyPath, int] = {}

    def scan(self) -> dict[KeyPath, Spot]:
        table: KeyPath = ()
        while self.at < len(self.tokens):
            if self._is_mark("["):
                table = self._header()
            else:
                self._pair(table, 0)
        return self.spots

    def _is_mark(self, mark: str, ahead: int = 0) -> bool:
        index = self.at + ahead
        return index < len(self.tokens) and self.tokens[index][:2] == ("mark", mark)

    def _header(self) -> KeyPath:
        start = self.tokens[self.at][2]
        in_list = self._is_mark("[", 1) and self.tokens[self.at + 1][2] == start + 1
        self.at += 2 if in_list else 1
        names, _ = self._key()
        end = self.tokens[self.at + in_list][2] + 1
        self.at += 2 if in_list else 1
        spot = (start, end - start)
        path = self._last_items(names[:-1] if in_list else names)
        if in_list:
            path += (names[-1],)
            self.spots.setdefault(path, spot)
            self.counts[path] = self.counts.get(path, 0) + 1
            path += (self.counts[path] - 1,)
        self.spots[path] = spot
        for depth in range(1, len(path)):
            self.spots.setdefault(path[:depth], spot)
        return path

    def _last_items(self, names: list[str]) -> KeyPath:
        """The path of a header's names, because the name of a list of tables means its last item."""
        path: KeyPath = ()
        for name in names:
            path += (name,)
            if path in self.counts:
                path += (self.counts[path] - 1,)
        return path

    def _key(self) -> tuple[list[str], Spot]:
        start, names = self.tokens[self.at][2], []
        while True:
            kind, token, place = self.tokens[self.at]
            names.append(_unquote(kind, token))
            self.at += 1
            if not self._is_mark("."):
                return names, (start, place + len(token) - start)
            self.at += 1

    def _pair(self, table: KeyPath, depth: int) -> None:
        names, spot = self._key()
        for n in range(1, len(names) + 1):
            self.spots.setdefault(table + tuple(names[:n]), spot)
        self.at += 1  # the equals sign
        self._value(table + tuple(names), depth)

    def _value(self, path: KeyPath, depth: int) -> None:
        if depth > DEEPEST and (self._is_mark("[") or self._is_mark("{")):
            self._skip()
        elif self._is_mark("["):
            self._list(path, depth)
        elif self._is_mark("{"):
            self.at += 1
            while not self._is_mark("}"):
                if self._is_mark(","):
                    self.at += 1
                else:
                    self._pair(path, depth + 1)
            self.at += 1
        else:
            self._scalar()

    def _list(self, path: KeyPath, depth: int) -> None:
        self.at += 1
        count = 0
        while not self._is_mark("]"):
            if self._is_mark(","):
                self.at += 1
                continue
            self.spots[(*path, count)] = (self.tokens[self.at][2], len(self.tokens[self.at][1]))
            self._value((*path, count), depth + 1)
            count += 1
        self.at += 1

    def _skip(self) -> None:
        open_marks = 0
        while True:
            open_marks += self._is_mark("[") or self._is_mark("{")
            open_marks -= self._is_mark("]") or self._is_mark("}")
            self.at += 1
            if not open_marks:
                return

    def _scalar(self) -> None:
        """Pass one value, which may be several tokens: 1.5, 12:30, 2026-01-01 10:00."""
        kind, token, place = self.tokens[self.at]
        self.at += 1
        end = place + len(token)
        while kind == "bare" and self.at < len(self.tokens):
            next_kind, next_token, next_place = self.tokens[self.at]
            same = next_kind == "bare" or (next_kind, next_token) == ("mark", ".")
            if not same or self.text[end:next_place].strip(" ") or "\n" in self.text[end:next_place]:
                return
            self.at += 1
            end = next_place + len(next_token)


def _unquote(kind: str, token: str) -> str:
    if kind == "basic":
        return str(tomllib.loads("k = " + token)["k"]) if "\\" in token else token[1:-1]
    return token[1:-1] if kind == "literal" else token
