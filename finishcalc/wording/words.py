"""Small helpers for words: suggestions, lists, counts and capitals."""

from collections.abc import Iterable, Sequence

from finishcalc.measures.numbers import shorten
from finishcalc.wording.notation import NO_BREAK

ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def piece_name(number: int) -> str:
    """Name pieces A, B, C ... Z, A2, B2 ..."""
    round_of, letter = divmod(number, len(ALPHABET))
    return ALPHABET[letter] + (str(round_of + 1) if round_of else "")


def nearest(word: str, names: Iterable[str]) -> str | None:
    """The name closest to `word`, if any is close."""
    from difflib import get_close_matches  # only a mistake needs it

    matches = get_close_matches(shorten(word, 60).lower(), list(names), n=1, cutoff=0.6)
    return matches[0] if matches else None


def did_you_mean(word: str, names: Iterable[str]) -> str:
    """A suggestion; empty where no name is close."""
    match = nearest(word, names)
    return f'did you mean "{match}"?' if match else ""


def one_of(names: Iterable[str]) -> str:
    """A hint that lists the names that would be right."""
    return "use " + in_words(list(names), "or")


def in_words(names: Sequence[str], last: str = "and") -> str:
    """Write a list as it is spoken: "a, b and c"."""
    return f" {last} ".join([*([", ".join(names[:-1])] if len(names) > 1 else []), *names[-1:]])


def capital(text: str) -> str:
    """Capitalise the first letter."""
    return text[:1].upper() + text[1:]


def counted(number: int, thing: str) -> str:
    """Count things, held together where a line ends: "1 seam", "2 seams"."""
    return f"{number}{NO_BREAK}{thing}" + "s" * (number != 1)
