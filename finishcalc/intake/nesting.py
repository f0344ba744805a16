"""Measures how deep a TOML text is nested, before it is parsed.

tomllib takes memory by the square of a key's parts, and lists within lists exhaust its stack. So a text that is too
deep is refused here first, in one pass over its tokens. The depth is the parts of the header and of the dotted key,
and the brackets and braces that are open.
"""

import re
from enum import Enum
from typing import NamedTuple

from finishcalc.intake.positions import Token, structure, tokens

MOST_PARTS = 20
"""A key with more parts between its dots was not written by hand."""
MOST_LEVELS = 40
"""Header, dotted key, brackets and braces together; what a file may hold takes six."""
HINT = "no key lies more than six levels deep, and most are like backing.fabric.width"


_BRACKETS = re.compile(r"[\[\]{}]")


class TooDeep(NamedTuple):
    """A place where a text is too deep: its character offset, the width to underline, and what is wrong there."""

    offset: int
    width: int
    message: str


class _Reads(Enum):
    START = "the start of a line, where a header or a key may stand"
    HEADER = "the name of a header"
    KEY = "a key"
    VALUE = "a value"


def too_deep(text: str) -> TooDeep | None:
    """The first place where a text is nested too deeply. The search stops at a quote that is never closed, as
    tomllib does."""
    return _Depth().first_too_deep(text) if may_be_too_deep(text) else None


def may_be_too_deep(text: str) -> bool:
    """False for a text that is certainly not too deep, as most texts are.

    A header and a key stand on one line, so with d dots on the line that has most, each has at most d + 1 parts. With
    at most b brackets open, the depth is a header, b + 1 keys and b brackets.
    """
    bare = structure(text)
    parts = max(line.count(".") for line in bare.split("\n")) + 1
    most_open = is_open = 0
    for mark in _BRACKETS.findall(bare):
        is_open = is_open + 1 if mark in "[{" else max(is_open - 1, 0)
        most_open = max(most_open, is_open)
    return parts > MOST_PARTS or parts * (most_open + 2) + most_open > MOST_LEVELS


class _Depth:
    """Follows the tokens of a text. `around` are the levels of what is open, the innermost last, each with the bracket
    it was opened by; `parts` counts those of the key or header at hand."""

    def __init__(self) -> None:
        self.reads = _Reads.START
        self.header = self.parts = 0
        self.key_start = 0
        self.around: list[tuple[str, int]] = []

    def first_too_deep(self, text: str) -> TooDeep | None:
        """Follow a text to the first place that is too deep."""
        for token in tokens(text):
            if token.kind == "unclosed":
                return None
            if not self._take(token):
                continue
            if self.parts > MOST_PARTS:
                width = token.start + len(token.text) - self.key_start
                return TooDeep(self.key_start, width, f"has more than {MOST_PARTS} parts between its dots")
            if self._level > MOST_LEVELS:
                return TooDeep(token.start, 1, "is nested too deeply")
        return None

    @property
    def _level(self) -> int:
        below = self.around[-1][1] if self.around else self.header
        return self.parts if self.reads is _Reads.HEADER else below + self.parts

    def _take(self, token: Token) -> bool:
        """Follow one token, and tell one that may lead deeper: only a mark does."""
        if token.kind == "mark":
            self._mark(token)
            return True
        if token.kind == "space":
            if "\n" in token.text and not self.around:
                self._end_line()
        elif token.kind != "comment" and self.reads is _Reads.START:
            self._begin(_Reads.KEY, token)
        return False

    def _begin(self, reads: _Reads, token: Token) -> None:
        self.reads, self.parts, self.key_start = reads, 1, token.start

    def _end_line(self) -> None:
        if self.reads is _Reads.HEADER:
            self.header = self.parts
        self.reads, self.parts = _Reads.START, 0

    def _mark(self, token: Token) -> None:
        mark = token.text
        if mark == "." and self.reads in (_Reads.HEADER, _Reads.KEY):
            self.parts += 1
        elif self.reads is _Reads.HEADER:
            return
        elif mark == "=":
            self.reads = _Reads.VALUE
        elif mark == "[" and self.reads is _Reads.START and not self.around:
            self._begin(_Reads.HEADER, token)
        elif mark in "[{":
            self.around.append((mark, self._level + 1))
            self.reads, self.parts = (_Reads.START if mark == "{" else _Reads.VALUE), 0
        elif mark in "]}" and self.around:
            self.around.pop()
            self.reads, self.parts = _Reads.VALUE, 0
        elif mark == "," and self.around:
            self.reads, self.parts = (_Reads.START if self.around[-1][0] == "{" else _Reads.VALUE), 0
