"""Words that people type for names of ours: one table, `presets/words.toml`, for presets, choices, sizes and keys.

A word is compared without its capitals, hyphens, blanks, signs and plural. It is taken where it means exactly one of
the names that are known in its place; a hint lists them where it means several. Names are known in tiers: those of an
earlier tier count first, as presets of the project's own units do.
"""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from typing import NamedTuple

from finishcalc.intake.source import Source, parse, presets_folder, read
from finishcalc.wording.words import did_you_mean, in_words, one_of

_FILE = "words.toml"
_NONE_OF_OURS = "none_of_ours"
"""The table of words that stand for none of our names."""
_PLURAL = re.compile(r"(?<=[^\W\d_])(ies?|(?<=ch|sh|ss)es|(?<=x)es|(?<!s)s)$")
"""The end of a plural, and of a word whose plural has the same: "press" is none, "ties" and "tie" are alike."""


class Word(NamedTuple):
    """A word of the table: the names it stands for; or the `nearest` of them where it `is` something else."""

    text: str
    names: tuple[str, ...]
    what_it_is: str = ""


def bare(word: str) -> str:
    """Give a word without what does not matter: "Wide-Backs" and "wide back" are both "wideback"."""
    joined = "".join(re.findall(r"[^\W_]+", word.casefold()))
    return _PLURAL.sub(lambda end: "y" if end[0].startswith("i") else "", joined)


def meant(word: str, *tiers: Iterable[str]) -> tuple[str, ...]:
    """Give the known names that a word stands for: itself, a name that is spelled otherwise, or those of the table."""
    known = [list(dict.fromkeys(tier)) for tier in tiers]
    if any(word in tier for tier in known):
        return (word,)
    typed, entry = bare(word), table().get(bare(word))
    if not typed:
        return ()
    own = [[name for name in tier if bare(name) == typed] for tier in known]
    named = entry.names if entry and not entry.what_it_is else ()
    ours = [[name for name in tier if name in named] for tier in known]
    return tuple(next(filter(None, [*own, *ours]), ()))


def understood(word: str, *tiers: Iterable[str]) -> str | None:
    """Give the one known name that a word means; None where it means none or several."""
    names = meant(word, *tiers)
    return names[0] if len(names) == 1 else None


def hint_for(word: str, *tiers: Iterable[str], otherwise: str = "") -> str:
    """Say which known names a word may mean: those of the table, else the nearest by its spelling, else `otherwise`,
    or all of them."""
    known = list(dict.fromkeys(name for tier in tiers for name in tier))
    names = meant(word, *tiers)
    if len(names) == 1:
        return f'did you mean "{names[0]}"?'
    if names:
        return f"{word.strip()} may be: {in_words(names, 'or')}"
    return _none_of_ours(word, *tiers) or did_you_mean(word, known) or otherwise or one_of(known)


def _none_of_ours(word: str, *tiers: Iterable[str]) -> str:
    """Say what a word is that stands for none of our names, and the nearest of those that are known."""
    entry = table().get(bare(word))
    if not entry or not entry.what_it_is:
        return ""
    near = next(filter(None, ([name for name in tier if name in entry.names] for tier in tiers)), [])
    return f"{word.strip()} {entry.what_it_is}; nearest: {in_words(near, 'or')}" if near else ""


@cache
def table() -> dict[str, Word]:
    """The table, by bare words. It is read when a name is not known, so that no other run waits for it."""
    source = Source(f"presets/{_FILE}", read(str(presets_folder() / _FILE)).text, ours=True)
    words: dict[str, Word] = {}
    for text, word in _entries(source):
        if words.setdefault(bare(text), word) is not word:
            raise AssertionError(f"{text} stands twice in {source.name}")
    return words


def _entries(source: Source) -> Iterator[tuple[str, Word]]:
    for heading, table in parse(source).items():
        for text, value in table.items() if isinstance(table, dict) else ():
            if heading == _NONE_OF_OURS and isinstance(value, dict):
                yield text, Word(text, _names(value["nearest"]), str(value["is"]))
            else:
                yield text, Word(text, _names(value))


def _names(value: object) -> tuple[str, ...]:
    return tuple(map(str, value)) if isinstance(value, list) else (str(value),)
