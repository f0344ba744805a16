"""Hypothesis for the tests: how many examples a property is worth."""

from hypothesis import settings

FEWEST = 10


def examples(many: int) -> settings:
    """Asks for so many examples of a property in full: a quicker profile takes its share of them, ten at least.

    A property's number is its weight beside the others; the profile says how much time they all may take.
    """
    share = settings.default.max_examples
    return settings(max_examples=max(min(many, FEWEST), many * share // 100))
