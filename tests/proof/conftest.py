"""Proofs against outside tools. They are skipped where the extra `proof` is not installed; in CI that fails."""

import os
from collections.abc import Iterator

import pytest


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
