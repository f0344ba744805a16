"""The headers of a text, and the blank lines that keep tables apart."""

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.positions import positions


def headers(text: str) -> list[tuple[int, KeyPath]]:
    """Each header of a text: its offset, and the path of its table, an item of a list with its number."""
    tables: dict[int, KeyPath] = {}
    for path, (offset, _) in positions(text).items():
        opens_a_line = text[text.rfind("\n", 0, offset) + 1 : offset].strip() == ""
        if text[offset] == "[" and opens_a_line:
            tables[offset] = max(path, tables.get(offset, ()), key=len)
    return sorted(tables.items())


def set_apart(old: str, new: str) -> str:
    """The new text with a blank line before and after each table that the old one has not."""
    there = {path for _, path in headers(old)}
    found = headers(new)
    before_new = [path not in there for _, path in found]
    for number in reversed(range(len(found))):
        if before_new[number] or (number and before_new[number - 1]):
            new = _with_blank_line(new, found[number][0])
    return new


def _with_blank_line(text: str, offset: int) -> str:
    """The text with a blank line before a header, and before the comments right above it."""
    start = start_of_table(text, offset)
    apart = not start or text[:start].endswith("\n\n")
    return text if apart else f"{text[:start]}\n{text[start:]}"


def start_of_table(text: str, offset: int) -> int:
    """The offset of the line of a header, or of the first of the comments right above it."""
    start = text.rfind("\n", 0, offset) + 1
    while start and text.startswith("#", above := text.rfind("\n", 0, start - 1) + 1):
        start = above
    return start


def without_comments_above(text: str) -> tuple[str, dict[KeyPath, str]]:
    """The text without the comments right above headers, and those by the paths of their tables: whatever is added to
    the table before then ends above them. The rows of a list keep theirs, because their numbers may change."""
    above: dict[KeyPath, str] = {}
    for offset, path in reversed(headers(text)):
        start, line = start_of_table(text, offset), text.rfind("\n", 0, offset) + 1
        if start < line and start and not any(isinstance(step, int) for step in path):
            above[path] = text[start:line]
            text = text[:start] + text[line:]
    return text, above


def with_comments_above(text: str, above: dict[KeyPath, str]) -> str:
    """The text with comments right above the headers of these tables, as far as it has them."""
    for offset, path in reversed(headers(text)):
        start = text.rfind("\n", 0, offset) + 1
        text = text[:start] + above.get(path, "") + text[start:]
    return text
