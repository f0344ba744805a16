"""Text from a file made safe for a terminal: control characters are shown, not obeyed."""

import unicodedata

_HIDDEN = {"Cc", "Cf", "Zl", "Zp", "Cs", "Co", "Cn"}
_BLANK = set("\u034f\u115f\u1160\u17b4\u17b5\u3164\uffa0")
"""Letters and marks that print nothing, whatever their category says."""
_HARMLESS = {"\u200d", "\u200c"}


def plain(text: str) -> str:
    """Write every control, direction and invisible character as its escape, so that one line stays one line."""
    if text.isprintable() and text.isascii():
        return text
    return "".join(_shown(char) for char in text)


def plain_lines(text: str) -> str:
    """The same for a text of several lines: line feeds stay, all else is shown."""
    return "\n".join(plain(line) for line in text.replace("\r\n", "\n").split("\n"))


def _shown(char: str) -> str:
    if char in _HARMLESS or (char not in _BLANK and unicodedata.category(char) not in _HIDDEN):
        return char
    return f"\\u{ord(char):04x}" if ord(char) < 0x10000 else f"\\U{ord(char):08x}"
