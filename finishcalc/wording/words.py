"""What someone may have meant: the nearest of the words that would have been right."""

from collections.abc import Iterable

from finishcalc.measures.numbers import shorten


def nearest(word: str, names: Iterable[str]) -> str | None:
    """The name closest to `word`, if any is close."""
    from difflib import get_close_matches  # only a mistake needs it

    found = get_close_matches(shorten(word, 60).lower(), list(names), n=1, cutoff=0.6)
    return found[0] if found else None


def did_you_mean(word: str, names: Iterable[str]) -> str:
    """A suggestion, or nothing where no name is close."""
    close = nearest(word, names)
    return f'did you mean "{close}"?' if close else ""


def one_of(names: Iterable[str]) -> str:
    """The names that would be right, in words."""
    return "use " + in_words(list(names), "or")


def in_words(names: list[str], last: str = "and") -> str:
    """A list as it is spoken: "a, b and c"."""
    return f" {last} ".join(([", ".join(names[:-1])] if len(names) > 1 else []) + names[-1:])
