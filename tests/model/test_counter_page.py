"""The shop's key for the page at the counter."""

from pathlib import Path

import pytest

from finishcalc.problems import ProblemsFound
from tests.builders import TOP, in_shop, quoted


def test_the_studio_s_view_closes_after_a_minute_unless_the_shop_says_otherwise(tmp_path: Path):
    assert quoted(TOP).resolved.tables.counter.studio_seconds == 60
    assert in_shop(tmp_path, "[counter]\nstudio_seconds = 5\n").resolved.tables.counter.studio_seconds == 5
    assert in_shop(tmp_path, "[counter]\nstudio_seconds = 3600\n").resolved.tables.counter.studio_seconds == 3600


@pytest.mark.parametrize("seconds", ["4", "3601", "60.5", "true", '"a minute"'])
def test_fewer_than_5_seconds_or_more_than_an_hour_are_refused(seconds: str, tmp_path: Path):
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, f"[counter]\nstudio_seconds = {seconds}\n")
    assert [(problem.path, problem.line) for problem in found.value.problems] == [("counter.studio_seconds", 2)]


def test_no_quote_rests_on_the_page_at_the_counter():
    assert not [path for path, _ in quoted(TOP).resolved.defaults() if path[0] == "counter"]
