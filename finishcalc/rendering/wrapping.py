"""The width of a text in columns, and lines that break to fit one."""

from finishcalc.wording.notation import plain_blanks


def display_width(text: str) -> int:
    """Count the columns that a text takes in a terminal."""
    if plain_blanks(text).isascii():
        return len(text)
    from wcwidth import wcswidth  # loaded once a name holds other letters: a start without them stays quick

    return max(int(wcswidth(text)), 0)


def wrap(text: str, width: int) -> list[str]:
    """Break a text between words into lines of at most `width` columns; a longer word is cut."""
    lines, line = [], ""
    for word in text.split(" "):
        while display_width(word) > width:
            if line:
                lines.append(line)
                line = ""
            head = _fitting(word, width)
            lines.append(head)
            word = word[len(head) :]
        joined = f"{line} {word}" if line else word
        if display_width(joined) > width:
            lines.append(line)
            joined = word
        line = joined
    return [*lines, line] if line or not lines else lines


def _fitting(word: str, width: int) -> str:
    """Take as much of a word as fits, and at least one character."""
    end = 1
    while end < len(word) and display_width(word[: end + 1]) <= width:
        end += 1
    return word[:end]
