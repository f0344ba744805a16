"""A page of text: labelled blocks that wrap to the width of the terminal."""

from wcwidth import wcswidth

WIDEST = 80
NARROW = 56
"""Below this width a label stands above its block instead of beside it."""
LABEL = 11


def cells(text: str) -> int:
    """How many columns a text takes in a terminal."""
    if text.isascii():
        return len(text)
    return max(int(wcswidth(text)), 0)


def wrap(text: str, width: int) -> list[str]:
    """Break a text between words into lines of at most `width` columns; a longer word is cut."""
    lines, line = [], ""
    for word in text.split(" "):
        while cells(word) > width:
            if line:
                lines.append(line)
                line = ""
            head = _fitting(word, width)
            lines.append(head)
            word = word[len(head) :]
        joined = f"{line} {word}" if line else word
        if cells(joined) > width:
            lines.append(line)
            joined = word
        line = joined
    return [*lines, line] if line or not lines else lines


def block(label: str, sentences: list[str], width: int) -> list[str]:
    """A label with its sentences beside it, each on lines of its own; a sentence goes on two columns in."""
    beside = width >= NARROW
    indent = " " * (LABEL if beside else 2)
    lines = [] if beside or not sentences else [label]
    for sentence in sentences:
        wrapped = wrap(sentence, width - len(indent) - 2)
        lines += [indent + wrapped[0], *(f"{indent}  {more}" for more in wrapped[1:])]
    if beside and lines:
        lines[0] = label.ljust(LABEL) + lines[0][LABEL:]
    return lines


def columns(rows: list[list[list[str]]], align: str) -> list[str]:
    """Rows of cells, each cell a list of lines, two blanks apart; `align` has an l or an r for each column."""
    widths = [max((cells(line) for row in rows for line in row[n]), default=0) for n in range(len(align))]
    lines = []
    for row in rows:
        for height in range(max(len(cell) for cell in row)):
            texts = [cell[height] if height < len(cell) else "" for cell in row]
            placed = [_placed(*each) for each in zip(texts, widths, align, strict=True)]
            lines.append("  ".join(placed).rstrip())
    return lines


def _placed(text: str, width: int, side: str) -> str:
    gap = " " * (width - cells(text))
    return text + gap if side == "l" else gap + text


def _fitting(word: str, width: int) -> str:
    """As much of a word as fits, and at least one character."""
    end = 1
    while end < len(word) and cells(word[: end + 1]) <= width:
        end += 1
    return word[:end]
