"""Proofs against outside tools. They are skipped where the extra `proof` is not installed; in CI that fails."""

import os
from collections.abc import Iterator
from typing import Any

import pytest

from tests.proof.chromium import CHROMIUM, NO_BROWSER, SWITCHES


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """One browser for all proofs of a process, because a second driver cannot run beside the first."""
    playwright = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER)
    if not CHROMIUM:
        pytest.skip(NO_BROWSER)
    with playwright.sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=CHROMIUM, args=SWITCHES)
        yield started
        started.close()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]) -> Iterator[None]:
    report = yield
    if os.environ.get("FINISHCALC_PROOF") and report.skipped:
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped, and here a skipped proof is a failure"
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector: pytest.Collector) -> Iterator[None]:
    report = yield
    if os.environ.get("FINISHCALC_PROOF") and report.skipped:
        report.outcome = "failed"
        report.longrepr = f"{collector.nodeid} was skipped, and here a skipped proof is a failure"
    return report
