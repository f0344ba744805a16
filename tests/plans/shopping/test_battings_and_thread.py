"""Battings and thread of a shopping list: packages counted, lengths side by side on a roll, cones after adding up."""

from fractions import Fraction

import pytest

from finishcalc.measures.length import Size
from finishcalc.plans.shopping.wants import ShoppingProject
from tests.builders import inches, yards
from tests.plans.shopping.shops import listed, on_hand, wants

ROLL = '{ width = 96, price = 12, per = "yd", step = "1/8 yd"%s }'
PACKAGES = (
    '[{ size = "throw", width = 60, length = 60, price = 20 }, { size = "twin", width = 72, length = 90, price = 30 }]'
)


def throw(batting: str, width: str = "40", length: str = "60", more: str = "") -> str:
    """A top with this batting 4 in over on every side, and no more."""
    top = (
        f'{more}[top]\nwidth = "{width}"\nlength = "{length}"\n[backing]\nfabric = "none"\n[binding]\nattach = "none"\n'
    )
    return f'{top}[batting]\noverage = 4\nproduct = {{ name = "fleece", thickness = "0.05", {batting} }}\n'


def on_roll(label: str, width: str = "40", length: str = "60", more: str = "") -> ShoppingProject:
    return wants(label, throw(f"rolls = [{ROLL % more}]", width, length))


def test_two_throws_lie_side_by_side_on_one_roll():
    """40 x 60 with 4 in over is 48 x 68: each takes 48 in of 96, cut across, 1 3/8 yd of 49 1/2 in, because 68 fit the
    96. Side by side the two take 2 x 48 = 96 in of width and 68 in, 1 9/10 yd: 2 yd, at 12, instead of 2 3/4."""
    projects = [on_roll("oak"), on_roll("elm")]
    (roll,) = listed(projects).battings.rolls
    assert roll.projects == (("elm", yards("1 3/8")), ("oak", yards("1 3/8")))
    assert roll.lengths == (yards("2"),)
    assert [(piece.use, x) for piece, x, _ in roll.layouts[0].placed] == [
        ("elm: batting", inches(0)),
        ("oak: batting", inches(48)),
    ]
    assert str(roll.cost) == "24.00"


def test_throws_that_are_too_wide_for_that_are_cut_one_by_one():
    """58 x 68 each: 58 are cut of the 96, 1 5/8 yd of 58 1/2 in. Behind each other 116 in are 3 1/4 yd, as much, in one
    length instead of two."""
    (roll,) = listed([on_roll("oak", "50"), on_roll("elm", "50")]).battings.rolls
    assert roll.lengths == (yards("3 1/4"),)


@pytest.mark.parametrize(
    ("charge", "lengths", "cost"),
    [
        ("half-width", ["2"], "24.00"),
        ("whole-width", ["2"], "24.00"),
    ],
)
def test_a_roll_is_paid_by_the_share_that_is_charged(charge: str, lengths: list[str], cost: str):
    """Upright, each takes half the width of 2 yd: 12 each, as much as both side by side on the whole width."""
    (roll,) = listed([on_roll(each, more=f', charge = "{charge}"') for each in ("oak", "elm")]).battings.rolls
    assert (list(map(str, roll.lengths)), str(roll.cost)) == ([str(yards(each)) for each in lengths], cost)


def test_packages_of_one_size_are_counted():
    """48 x 58 and 58 x 48 fit 60 x 60; 58 x 68 takes 72 x 90."""
    sold = f"packages = {PACKAGES}"
    projects = [wants("oak", throw(sold, "40", "50")), wants("elm", throw(sold, "50", "40"))]
    projects.append(wants("ash", throw(sold, "50", "60")))
    packages = listed(projects).battings.packages
    assert [(each.size_name, each.number, each.projects, str(each.cost)) for each in packages] == [
        ("throw", 2, (("elm", 1), ("oak", 1)), "40.00"),
        ("twin", 1, (("ash", 1),), "30.00"),
    ]


def test_another_product_is_bought_apart():
    sold = f"packages = {PACKAGES}"
    other = throw(sold, "40", "50").replace("fleece", "wool")
    packages = listed([wants("oak", throw(sold, "40", "50")), wants("elm", other)]).battings.packages
    assert [(each.name, each.number) for each in packages] == [("fleece", 1), ("wool", 1)]


def test_a_batting_on_hand_is_used_before_any_is_bought():
    """70 x 50 holds 48 x 68 on its side; the other throw has its own 1 3/8 yd cut, 16.50 at 12, instead of the 2 yd of
    both side by side, 24.00: 7.50 are saved, and
    28 x 48 in of the roll's 96 are left beside its 68."""
    found = listed([on_roll("oak"), on_roll("elm")], [on_hand("batting", "fleece", "70", "50")])
    (used,) = found.battings.on_hand
    assert used.projects == ("elm",)
    assert [str(each) for each in found.battings.saved] == ["7.50"]
    assert [(roll.projects, roll.lengths) for roll in found.battings.rolls] == [
        ((("oak", yards("1 3/8")),), (yards("1 3/8"),))
    ]
    assert [each.size for each in found.left] == [Size(inches(28), inches(48))]


def test_what_is_left_of_a_batting_can_be_kept():
    """Of 100 x 68, 48 are cut and 52 x 68 left, rather than 68 of which 32 x 48 and 100 x 20 would be left."""
    (left,) = listed([on_roll("oak")], [on_hand("batting", "fleece", "100", "68")]).left
    assert (left.kind, left.name, left.size, left.number) == ("batting", "fleece", Size(inches(52), inches(68)), 1)


def test_a_batting_that_nothing_covers_is_not_passed_over():
    sold = f"packages = {PACKAGES}, joinable = false"
    found = listed([wants("oak", throw(sold, "100", "100"))])
    assert [label for label, _ in found.lacking] == ["oak"]


# --- thread ----------------------------------------------------------------------------------------------------------


def with_thread(label: str, cones: str, name: str = "oyster", colours: int = 1, price: Fraction | None = None):
    """A project whose top thread takes so much of a cone of 3000 yd."""
    project = wants(label, throw(f"packages = {PACKAGES}"))
    assert project.thread
    length = yards(3000) * Fraction(cones)
    return project._replace(thread=project.thread._replace(name=name, colours=colours, length=length, price=price))


def test_lengths_of_one_thread_are_added_up_before_they_go_up_to_cones():
    """0.4 + 0.4 = 0.8 of a cone is one; alone each would be one."""
    (thread,) = listed([with_thread("oak", "0.4"), with_thread("elm", "0.4")]).thread
    assert (thread.cones, [label for label, _ in thread.projects]) == (1, ["elm", "oak"])


def test_more_than_a_cone_is_two():
    (thread,) = listed([with_thread(each, "0.4") for each in ("oak", "elm", "ash")]).thread
    assert thread.cones == 2


def test_each_colour_goes_up_to_cones_of_its_own():
    """2.4 cones in 2 colours are 1.2 of each: 2 x 2."""
    (thread,) = listed([with_thread("oak", "1.2", colours=2), with_thread("elm", "1.2", colours=2)]).thread
    assert thread.cones == 4


@pytest.mark.parametrize("other", [{"name": "ink"}, {"colours": 2}, {"price": Fraction(9)}])
def test_another_thread_is_bought_apart(other: dict):
    threads = listed([with_thread("oak", "0.4"), with_thread("elm", "0.4", **other)]).thread
    assert [len(each.projects) for each in threads] == [1, 1]


def test_thread_without_a_name_is_never_joined():
    threads = listed([with_thread("oak", "0.4", name=""), with_thread("elm", "0.4", name="")]).thread
    assert [each.cones for each in threads] == [1, 1]


def test_thread_costs_what_a_cone_does_where_that_is_known():
    (known,) = listed([with_thread("oak", "1.5", price=Fraction("4.25"))]).thread
    assert str(known.cost) == "8.50"
    (unknown,) = listed([with_thread("oak", "1.5")]).thread
    assert unknown.cost is None


def test_costs_add_up():
    """2 yd of roll are 24.00; 2 cones at 4.25 are 8.50."""
    projects = [on_roll("oak"), on_roll("elm")]
    thread = with_thread("ash", "1.5", price=Fraction("4.25")).thread
    found = listed([projects[0]._replace(thread=thread), projects[1]._replace(thread=None)])
    assert [str(each) for each in found.costs] == ["32.50"]
