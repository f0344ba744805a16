"""Set-up that every test shares: how hard Hypothesis looks, and what counts as covered."""

import signal

import pytest
from hypothesis import is_hypothesis_test, settings

settings.register_profile("quick", deadline=None, max_examples=20)
# The gate must say the same of the same tree whenever it runs, so its examples are derived from the tests alone.
# Looking further is left to the quick profile, which draws others at every run and keeps what it found wrong.
settings.register_profile("full", deadline=None, max_examples=100, derandomize=True)
settings.load_profile("quick")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Coverage counts what worked examples reach: a property reaches it by chance, and is slow when traced."""
    for item in items:
        if is_hypothesis_test(getattr(item, "obj", None)):
            item.add_marker("no_cover")


# Whoever starts the tests in the background has them ignore Ctrl-C or a hang-up, which some of them try.
signal.signal(signal.SIGINT, signal.default_int_handler)
signal.signal(signal.SIGHUP, signal.SIG_DFL)
