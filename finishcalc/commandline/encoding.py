"""Text for a terminal that cannot show every character, as an old console with a code page of 256 cannot.

A character that its encoding lacks is replaced by one that reads alike, box drawing by plain signs of the same width,
so that columns still line up. A pipe or a file gets UTF-8 whatever the terminal is.
"""

import codecs
import unicodedata
from typing import Any

from finishcalc.rendering.wrapping import display_width

ALIKE = {
    **dict.fromkeys("─━╌╴╶↔−–—‐‑", "-"),
    **dict.fromkeys("│┃╵╷↕", "|"),
    **dict.fromkeys("┌┐└┘├┤┬┴┼", "+"),
    **dict.fromkeys("·░", "."),
    **dict.fromkeys("‘’′", "'"),
    **dict.fromkeys("“”″", '"'),
    **dict.fromkeys("\u00a0\u202f\u2009", " "),
    "╱": "/",
    "╲": "\\",
    "╳": "X",
    "↓": "v",
    "↑": "^",
    "×": "x",
    "⁄": "/",
    "…": "...",
    "•": "*",
    "€": "EUR",
    "£": "GBP",
    "¥": "JPY",
    "ß": "ss",
    "ø": "o",
    "Ø": "O",
    "æ": "ae",
    "Æ": "AE",
    "ł": "l",
    "Ł": "L",
}
"""Signs that read like a character; those of drawings are as wide as theirs."""


def encoded(text: str, stream: Any) -> bytes:
    """Encode a text for a stream: as its terminal can show it, and as UTF-8 where it is no terminal."""
    encoding = stream.encoding if stream.isatty() else None
    if not encoding or codecs.lookup(encoding).name == "utf-8":
        return text.encode("utf-8", "backslashreplace")
    return readable(text, encoding)


def readable(text: str, encoding: str) -> bytes:
    """Encode a text; what the encoding does not hold is replaced by what reads alike."""
    try:
        return text.encode(encoding)
    except UnicodeEncodeError:
        shown = {char: _shown(char, encoding) for char in set(text)}
        return "".join(shown[char] for char in text).encode(encoding, "replace")


def _shown(char: str, encoding: str) -> str:
    """The character itself, or the first that can be shown: one that reads alike, its letter without marks, or a
    question mark for each column that it takes."""
    bare = "".join(part for part in unicodedata.normalize("NFKD", char) if not unicodedata.combining(part))
    spelled = "".join(ALIKE.get(part, part) for part in bare)
    for candidate in (char, ALIKE.get(char, char), spelled):
        if _holds(candidate, encoding):
            return candidate
    return "?" * display_width(char)


def _holds(text: str, encoding: str) -> bool:
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return False
    return True
