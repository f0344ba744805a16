"""A question as it is shown: with its default, and with its choices and their figures where they are asked for."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Choice(NamedTuple):
    """A word that may be answered, what it means, and its key figures as texts by their headings."""

    word: str
    meaning: str
    figures: Mapping[str, str] = MappingProxyType({})


class Asked(NamedTuple):
    """A question in words: its short `label`, what it `asks`, and the answer that Enter gives, empty where there is
    none; it is a `sample` where the figure is the sample shop's. Enter skips an `optional` question."""

    label: str
    asks: str
    default: str
    sample: bool = False
    optional: bool = False
