"""Promises for any season: nothing is short or laid twice, nothing costs more than alone, and order is nothing."""

import random
from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.measures.length import Size
from finishcalc.model.on_hand import OnHandPieces
from finishcalc.plans.shopping.together import ShoppingList
from finishcalc.plans.shopping.wants import ShoppingProject
from tests.plans.shopping.seasons import random_season, random_shelf
from tests.plans.shopping.shops import listed
from tests.shopping_checker import wrong_with
from tests.strategies import examples

pytestmark = pytest.mark.slow

SEEDS = st.integers(0, 10**6)


def season(seed: int) -> tuple[list[ShoppingProject], list[OnHandPieces]]:
    """A few projects and a shelf."""
    pick = random.Random(seed).choice
    return random_season(pick), random_shelf(pick)


def dearer_than_alone(found: ShoppingList, projects: list[ShoppingProject]) -> list[str]:
    """Cloth of which the projects together buy more than their own lengths, and lengths off a roll that are longer."""
    wrong = []
    for cloth in found.cloth:
        labels = {each.label for each in cloth.projects}
        own = [
            length
            for project in projects
            if project.label in labels
            for each in project.cloth
            if (each.own_name, each.purchase.fabric.price.value) == (cloth.own_name, cloth.purchase.fabric.price.value)
            for length in each.purchase.lengths
        ]
        if sum((length.mm for length in own), Fraction(0)) < cloth.purchase.amount.mm:
            wrong.append(f"{cloth.name}: {cloth.purchase.amount} for {own}")
    for roll in found.battings.rolls:
        if sum((alone.mm for _, alone in roll.projects), Fraction(0)) < roll.amount.mm:
            wrong.append(f"{roll.name}: {roll.amount}")
    return wrong


@examples(200)
@given(SEEDS)
def test_several_projects_never_buy_more_than_each_alone(seed: int):
    projects, shelf = season(seed)
    assert dearer_than_alone(listed(projects), projects) == []
    assert dearer_than_alone(listed(projects, shelf), projects) == []


@examples(200)
@given(SEEDS)
def test_every_piece_is_there_once_and_can_be_cut_with_a_ruler(seed: int):
    projects, shelf = season(seed)
    assert wrong_with(listed(projects), projects) == []
    assert wrong_with(listed(projects, shelf), projects) == []


@examples(100)
@given(SEEDS, st.randoms(use_true_random=False))
def test_the_order_of_files_changes_nothing(seed: int, chance):
    projects, shelf = season(seed)
    shuffled = chance.sample([*projects, *projects[:1]], len(projects) + 1)
    assert listed(shuffled, chance.sample(shelf, len(shelf))) == listed(projects, shelf)


@examples(100)
@given(SEEDS)
def test_what_is_on_hand_is_never_used_twice(seed: int):
    """Every piece is taken down or left; what is cut from one and left of it, together, is no larger than it is."""
    projects, shelf = season(seed)
    found = listed(projects, shelf)
    had = Counter[tuple[str, str, Size]]()
    for row in shelf:
        had[row.kind, row.name, row.size] += row.count
    used = Counter(("cloth", cloth.name, taken.written) for cloth in found.cloth for taken in cloth.taken_down)
    used.update(("batting", each.name, each.taken_down.written) for each in found.battings.on_hand)
    assert not used - had
    left = Counter({(each.kind, each.name, each.size): each.number for each in found.left})
    assert not had - used - left


@examples(100)
@given(SEEDS)
def test_costs_add_up_and_the_shelf_only_spares(seed: int):
    projects, shelf = season(seed)
    without, found = listed(projects), listed(projects, shelf)
    for each in (without, found):
        costs = [cloth.purchase.cost.minor for cloth in each.cloth]
        costs += [entry.cost.minor for entry in (*each.battings.packages, *each.battings.rolls)]
        assert all(saved.minor >= 0 for saved in each.battings.saved)
        assert [total.minor for total in each.costs] == [sum(costs)]
    assert all(cloth.saved.minor >= 0 for cloth in found.cloth)
    with_shelf = [cloth.purchase.cost.minor + cloth.saved.minor for cloth in found.cloth]
    assert with_shelf == [cloth.purchase.cost.minor for cloth in without.cloth]
    assert all(cloth.saved.minor == 0 for cloth in without.cloth)
    spared = sum(saved.minor for saved in found.saved)
    assert sum(total.minor for total in found.costs) + spared == sum(total.minor for total in without.costs)
