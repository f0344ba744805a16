"""The total of a project's page is the command line's, to the cent, for every sample."""

import json
import shutil
from pathlib import Path

import pytest

from tests.builders import EACH_PROJECT, finished, run
from tests.counter.visiting import Visitor


@pytest.mark.parametrize("path", EACH_PROJECT, ids=lambda path: path.stem)
def test_the_page_shows_the_total_of_the_command_line(path: Path, tmp_path: Path):
    shutil.copy(path, tmp_path)
    page = Visitor(tmp_path).open(path.name)
    told = json.loads(run("quote", str(path), "--json").stdout)
    total = figures(told["quote"]["total"])
    assert figures(page.total) == total == figures(str(finished(path).quote.total))
    assert total in figures(page.pieces["lines"])


def figures(amount: object) -> str:
    """The figures of an amount, whatever stands between and beside them."""
    return "".join(sign for sign in str(amount) if sign.isdigit())
