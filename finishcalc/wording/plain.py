"""Makes text from a file safe for a terminal: control characters are shown, not obeyed."""

import unicodedata

_HIDDEN = {"Cc", "Cf", "Zl", "Zp", "Cs", "Co", "Cn"}
"""The Unicode categories of characters that are not seen."""
_BLANK = set("\u034f\u115f\u1160\u17b4\u17b5\u3164\uffa0")
"""Letters and marks that print nothing, whatever their category says."""
_HARMLESS = {"\u200d", "\u200c"}
"""The joiners, which names in some scripts need."""


def plain(text: str) -> str:
    """Write every control, direction and invisible character as its escape, so that one line stays one line."""
    if text.isprintable() and text.isascii():
        return text
    return "".join(_shown(char) for char in text)


def plain_lines(text: str) -> str:
    """Make a text of several lines safe as `plain` does, and keep its line feeds."""
    return "\n".join(plain(line) for line in text.replace("\r\n", "\n").split("\n"))


def plain_json(text: str) -> str:
    """Escape the same characters, and joiners, in JSON's own way: read again, the text says the same."""
    if text.isascii() and "\x7f" not in text:
        return text
    hidden = [char for char in set(text) if char != "\n" and _is_hidden(char)]  # a document has few different ones
    return text.translate({ord(char): _in_json(char) for char in hidden}) if hidden else text


def _in_json(char: str) -> str:
    units = char.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[n : n + 2].hex()}" for n in range(0, len(units), 2))


def _is_hidden(char: str) -> bool:
    return char in _BLANK or unicodedata.category(char) in _HIDDEN


def _shown(char: str) -> str:
    if char in _HARMLESS or not _is_hidden(char):
        return char
    return f"\\u{ord(char):04x}" if ord(char) < 0x10000 else f"\\U{ord(char):08x}"
