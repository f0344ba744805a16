"""A constraint solver from outside looks for a shorter length of cloth for the pieces of several projects together.

Its model is that of the cutting of tops: cuts from edge to edge in three stages, first across or first along.
"""

import random
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

import pytest

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.shopping.cloth import ClothToBuy
from tests.cutting_checker import Cloth
from tests.plans.shopping.seasons import random_season
from tests.plans.shopping.shops import listed
from tests.proof.test_cutting import Answer, Kind, Question, Way, fewest_steps

FEWEST, MOST = 6, 20
"""Pieces of one cloth that are worth the proof."""
SECONDS = 5
PROVED_HERE = 6
"""Cloths that are proved with the tests; `python -m tests.bench_shopping` proves more of them, and takes its time."""


class Case(NamedTuple):
    """One cloth of several projects as it is bought."""

    name: str
    question: Question
    steps: int
    alone: int
    cloth: ClothToBuy


def cases(number: int) -> Iterator[Case]:
    """The first cloths of random seasons that several projects share, with so many pieces as are worth the proof."""
    seeds = iter(range(10**6))
    found = (case for seed in seeds for case in _cases_of(seed))
    for _ in range(number):
        yield next(found)


def _cases_of(seed: int) -> Iterator[Case]:
    """A print that must meet, and a bolt, are not in the model."""
    for cloth in listed(random_season(random.Random(seed).choice)).cloth:
        fabric, pieces = cloth.purchase.fabric, sum(1 for each in cloth.purchase.layouts for _ in each.placed)
        if len(cloth.projects) > 1 and FEWEST <= pieces <= MOST and not fabric.repeat and not fabric.bolt:
            usable = fabric.width - fabric.selvage * 2
            terms = Cloth(usable, fabric.shrink_along, fabric.straighten, ZERO)
            question = Question(tuple(_kinds(cloth, usable)), terms, fabric.step)
            steps, alone = (int(length / fabric.step) for length in (cloth.purchase.amount, cloth.alone))
            yield Case(f"{cloth.name} of season {seed}", question, steps, alone, cloth)


def _kinds(cloth: ClothToBuy, usable: Length) -> Iterator[Kind]:
    """The pieces that are laid, each with every way that it may lie."""
    counts: Counter[tuple[Way, ...]] = Counter()
    for layout in cloth.purchase.layouts:
        for piece, *_ in layout.placed:
            wanted = piece.wanted
            width, length = wanted.width.mm, wanted.length.mm
            ways = {(width, length)} if wanted.along else set()
            ways |= {(length, width)} if wanted.across else set()
            counts[tuple(sorted(way for way in ways if way[0] <= usable.mm))] += 1
    for ways, number in counts.items():
        yield Kind(ways, number)


@pytest.fixture(scope="module")
def answers() -> list[tuple[Case, Answer]]:
    return [(case, fewest_steps(case.question, case.steps, SECONDS)) for case in cases(PROVED_HERE)]


def test_nine_in_ten_of_what_is_proved_cannot_be_cut_from_less(answers: list[tuple[Case, Answer]]):
    proved = [(case, answer) for case, answer in answers if answer.proved]
    assert proved
    assert len([case for case, answer in proved if case.steps == answer.needed]) >= 0.9 * len(proved)


def test_none_is_bought_more_than_a_step_above_the_fewest(answers: list[tuple[Case, Answer]]):
    wasteful = [(case.name, case.steps, answer) for case, answer in answers if case.steps > answer.enough + 1]
    assert wasteful == []
