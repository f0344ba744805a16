"""Each view works out what it prints and nothing else: plans, quotes and profits are counted while it is printed."""

import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from tests.builders import CLOTH, quoted, run

COUNTED = ("plan_and_price", "plan_backing", "make_quote", "profitability_of")


@contextmanager
def counting() -> Iterator[Counter[str]]:
    """Count the calls of each function, in whichever module it was imported."""
    calls: Counter[str] = Counter()

    def counted(name: str, function: Any) -> Any:
        def call(*args: Any, **named: Any) -> Any:
            calls[name] += 1
            return function(*args, **named)

        return call

    with pytest.MonkeyPatch.context() as patch:
        for module in [module for name, module in sys.modules.items() if name.startswith("finishcalc.")]:
            for name in COUNTED:
                if hasattr(module, name):
                    patch.setattr(module, name, counted(name, getattr(module, name)))
        yield calls


QUOTE, OFFERS, STYLES = 1, 2, 2
"""Quotes of the supper cloth that are planned: its own, and its two offers that change more than the charges (wider
cloths for the backing); it has styles of two other classes of rates."""
OVERAGE = 1
"""The style of them that needs a backing of its own, because its overage is another."""

VIEWS = [
    # a page or a document of a quote prints its offers; the studio's the profit as well
    ("quote", QUOTE + OFFERS, 0),
    ("quote --for studio", QUOTE + OFFERS + OVERAGE, 1),
    ("quote --json --for customer", QUOTE + OFFERS, 0),
    ("quote --json", QUOTE + OFFERS + OVERAGE, 1),
    # two choices or two sizes are two quotes, and the studio reads the profit of each choice
    ("quote --set backing.overage=3 --set backing.overage=5", 2, 0),
    ("quote --for studio --set backing.overage=3 --set backing.overage=5", 2, 2),
    ("compare --as 60x80", 2, 0),
    ("compare --as 60x80 --json --for customer", 2, 0),
    ("compare --as 60x80 --json", 2, 0),
]


@pytest.mark.parametrize(("view", "quotes", "profits"), VIEWS)
def test_a_view_works_out_what_it_prints_and_once(view: str, quotes: int, profits: int):
    """Each quote searches its backings once: other options of that search, other styles of the same overage and the
    other binding take the backings that are there."""
    command, *options = view.split()
    run(command, str(CLOTH), *options)  # so that every module is there to be counted in
    with counting() as calls:
        assert run(command, str(CLOTH), *options).exit_code == 0
    assert (calls["plan_and_price"], calls["profitability_of"]) == (quotes, profits)
    assert calls["plan_backing"] == quotes


def test_each_backing_that_is_weighed_is_priced_once():
    """The quote's own, each other backing that is weighed, and the offers; then nothing is priced again to print it."""
    with counting() as calls:
        assert run("compare", str(CLOTH), "--as", "60x80").exit_code == 0
    weighed = sum(len(quoted(text).backings) for text in (CLOTH.read_text(), resized(CLOTH.read_text())))
    assert calls["make_quote"] == weighed


def resized(text: str) -> str:
    """The supper cloth in another size."""
    return text.replace('width = "60 1/2"', "width = 60").replace("length = 84", "length = 80")
