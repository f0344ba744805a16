"""Set-up that every test shares: how hard Hypothesis looks, what counts as covered, and where compiled modules lie."""

import gc
import os
import signal
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import is_hypothesis_test, settings

from tests.proof.chromium import NO_BROWSER

settings.register_profile("quick", deadline=None, max_examples=20)
# The gate must say the same of the same tree whenever it runs, so its examples are derived from the tests alone.
# Looking further is left to the quick profile, which draws others at every run and keeps what it found wrong.
settings.register_profile("full", deadline=None, max_examples=100, derandomize=True)
settings.load_profile("quick")


PROOF = Path(__file__).parent / "proof"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Coverage counts what worked examples reach: a property reaches it by chance, and is slow when traced. So are the
    tests of every sample in every view, which are marked one by one: each view has its worked examples besides, and so
    has all that is proved. Of one test with many examples the first counts, because the others go the same ways; but
    each mistake has its own."""
    counted = Counter[str]()
    for item in items:
        function = item.nodeid.partition("[")[0]
        counted[function] += 1
        goes_the_same_way = counted[function] > 1 and "test_each_mistake" not in function
        if goes_the_same_way or is_hypothesis_test(getattr(item, "obj", None)) or PROOF in item.path.parents:
            item.add_marker("no_cover")


# Whoever runs the tests may have a shop file of her own, which would price every example with her rates.
os.environ.pop("FINISHCALC_SHOP", None)
os.environ["XDG_CONFIG_HOME"] = str(Path(__file__).parent / "no-settings")

# Whoever starts the tests in the background has them ignore Ctrl-C or a hang-up, which some of them try.
signal.signal(signal.SIGINT, signal.default_int_handler)
signal.signal(signal.SIGHUP, signal.SIG_DFL)

# Where the environment forbids compiled modules beside their sources, each of the many processes that tests start would
# compile the whole package again, and each run all of the tests. Pytest's cache keeps them, and the tree stays clean.
COMPILED = Path(__file__).parent.parent / ".pytest_cache" / "compiled"
if sys.dont_write_bytecode and not sys.pycache_prefix:
    sys.dont_write_bytecode, sys.pycache_prefix = False, str(COMPILED)


def pytest_collection_finish() -> None:
    """Leave the thousands of collected tests to themselves, because every look of the garbage collector at all of them
    takes longer than a test: a fifth of the time. Started processes find the compiled modules too; the workers
    themselves start before, with those of the venv."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000, 50, 100)
    if sys.pycache_prefix == str(COMPILED):
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in a line that nothing was tried in a browser, where there is none."""
    reasons = {
        report.longrepr[2] for report in terminalreporter.getreports("skipped") if isinstance(report.longrepr, tuple)
    }
    for reason in sorted(reason for reason in reasons if NO_BROWSER in reason):
        terminalreporter.write_line(reason.removeprefix("Skipped: "))


@pytest.fixture
def shared_work() -> Iterator[None]:
    """For tests of many views of one file: the command works the file out for the first of them only."""
    from tests import shared

    with shared.shared_work():
        yield
