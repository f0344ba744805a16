"""Each view works out what it prints and nothing else: plans, quotes and savings are counted while it is printed."""

import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from tests.builders import CLOTH, run

COUNTED = ("make_plans", "plan_backing", "make_quote", "plan_savings", "profitability_of")


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


PLANS, OFFERS, BACKINGS, BINDINGS, STYLES = 1, 1, 1, 1, 2
"""Quotes of the supper cloth: its own, its one offer (a wider cloth for the backing), one more backing, the binding
from beside the backing's pieces, and styles of the two other classes of rates."""

VIEWS = [
    # the page prints offers, other backings and the other binding; that is priced on plans that are there
    ("quote", PLANS + OFFERS + BACKINGS, PLANS + OFFERS + BACKINGS + BINDINGS, 0, 0),
    ("quote --for studio", PLANS + OFFERS + BACKINGS + STYLES, PLANS + OFFERS + BACKINGS + BINDINGS + STYLES, 1, 1),
    # the document prints offers
    ("quote --json --for customer", PLANS + OFFERS, PLANS + OFFERS, 0, 0),
    ("quote --json", PLANS + OFFERS + STYLES, PLANS + OFFERS + STYLES, 1, 1),
    # two choices or two sizes are two quotes, and the studio reads the profit of each choice
    ("quote --set backing.overage=3 --set backing.overage=5", 2, 2, 0, 0),
    (
        "quote --for studio --set backing.overage=3 --set backing.overage=5",
        2 * (PLANS + STYLES),
        2 * (PLANS + STYLES),
        0,
        2,
    ),
    ("compare --as 60x80", 2, 2, 0, 0),
    ("compare --as 60x80 --json --for customer", 2, 2, 0, 0),
    # the studio's document of sizes names the samples that savings rest on
    ("compare --as 60x80 --json", 2, 2, 2, 0),
]


@pytest.mark.parametrize(("view", "plans", "quotes", "savings", "profits"), VIEWS)
def test_a_view_works_out_what_it_prints_and_once(view: str, plans: int, quotes: int, savings: int, profits: int):
    command, *options = view.split()
    run(command, str(CLOTH), *options)  # so that every module is there to be counted in
    with counting() as calls:
        assert run(command, str(CLOTH), *options).exit_code == 0
    counts = [calls[name] for name in ("make_plans", "make_quote", "plan_savings", "profitability_of")]
    assert counts == [plans, quotes, savings, profits]


@pytest.mark.parametrize("reader", ["customer", "studio"])
def test_only_another_cloth_or_size_is_searched_for_its_backing_again(reader: str):
    """Other options of the same search, other styles and the other binding take the backing that is there."""
    run("quote", str(CLOTH), "--for", reader)
    with counting() as calls:
        run("quote", str(CLOTH), "--for", reader)
    assert calls["plan_backing"] == PLANS + OFFERS
