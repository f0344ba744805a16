"""The cloth of a shopping list: one length where that saves, each piece its project's, and never more than alone."""

from fractions import Fraction

import pytest

from tests.builders import inches, yards
from tests.plans.shopping.shops import PLAIN, dyed, listed, on_hand, runner, wants
from tests.shopping_checker import wrong_with

THREE = [wants(label, runner()) for label in ("oak", "elm", "ash")]
"""Three runners whose backings are 12 + 2 x 2 = 16 by 60 + 2 x 2 = 64 in."""


def test_three_runners_are_backed_from_one_cloth():
    """Alone, 64 in and 1 to square the end are 65, up to 15 eighths of a yard, 67 1/2: three are 5 5/8 yd. Two lie
    side by side in 40 in and the third behind them: 128 and 1 in are 129, up to 29 eighths, 130 1/2 in or 3 5/8 yd."""
    (blue,) = listed(THREE).cloth
    assert [each.alone.to("yd") for each in blue.projects] == [Fraction(15, 8)] * 3
    assert blue.purchase.lengths == (yards("3 5/8"),)
    assert str(blue.purchase.cost) == "39.88"  # 39.875
    assert wrong_with(listed(THREE), THREE) == []


def test_each_piece_on_it_bears_the_label_of_its_project():
    (blue,) = listed(THREE).cloth
    (layout,) = blue.purchase.layouts
    assert sorted(piece.use for piece, *_ in layout.placed) == ["ash: backing", "elm: backing", "oak: backing"]
    assert {piece.wanted.project for piece, *_ in layout.placed} == {"ash", "elm", "oak"}


def test_a_preset_without_a_name_of_ones_own_is_never_joined():
    """Nobody knows the colour of quilting cotton: each of two runners buys its own 1 7/8 yd."""
    text = runner().replace(dyed("harbour blue"), '"cotton-44"')
    cloths = listed([wants("oak", text), wants("elm", text)]).cloth
    assert [(each.own_name, each.purchase.lengths) for each in cloths] == [(None, (yards("1 7/8"),))] * 2


@pytest.mark.parametrize("more", [', price = "12"', ", width = 45", ', shrink_along = "3 %"', ", step = '1/4 yd'"])
def test_one_name_with_another_figure_is_another_cloth(more: str):
    cloths = listed([wants("oak", runner()), wants("elm", runner(more=more))]).cloth
    assert [len(each.projects) for each in cloths] == [1, 1]


def test_cloth_that_is_told_from_a_namesake_in_its_project_is_still_of_its_name():
    """The first project has two blues, which it tells apart by their widths; the second has the one of 44 in."""
    binding = f"[binding]\nfabric = {dyed('blue', ', width = 60')}\n"
    two = runner("blue").replace('[binding]\nattach = "none"\n', binding)
    cloths = listed([wants("oak", two), wants("elm", runner("blue"))]).cloth
    of_width = {each.purchase.fabric.width: (each.name, [of.label for of in each.projects]) for each in cloths}
    assert of_width == {inches(44): ("blue", ["elm", "oak"]), inches(60): ("blue", ["oak"])}


def test_projects_in_two_currencies_are_never_summed():
    """1 7/8 yd at 11 are 20.625 of each."""
    dollars = wants("oak", runner())
    euros = wants("elm", runner())._replace(currency=dollars.currency.of("EUR"))
    found = listed([dollars, euros])
    assert [len(each.projects) for each in found.cloth] == [1, 1]
    assert sorted(str(each) for each in found.costs) == ["20.63", "20.63"]


def test_a_bolt_is_never_exceeded():
    """Bolts of 3 yd, 108 in, 107 of which are cut: two of 64 lie side by side, the third on a bolt of its own. Each is
    65 in, 1 7/8 yd; the sum of those alone is 5 5/8."""
    projects = [wants(label, runner(more=', bolt = "3 yd"')) for label in ("oak", "elm", "ash")]
    found = listed(projects)
    assert found.cloth[0].purchase.lengths == (yards("1 7/8"), yards("1 7/8"))
    assert [each.code for each in found.cautions] == ["second-length"]
    assert wrong_with(found, projects) == []


def test_what_customers_bring_is_apart_and_as_it_is():
    """Each brings her own 1 7/8 yd; it is joined neither with the other's nor with the shop's."""
    hers = runner().replace("overage = 2", 'overage = 2\nsupplied_by = "customer"')
    projects = [
        wants("oak", runner()),
        wants("elm", f'[customer]\nname = "Mrs Lark"\n{hers}'),
        wants("ash", f'[customer]\nname = "Mr Crane"\n{hers}'),
    ]
    found = listed(projects)
    assert [each.labels for each in [found]] == [("ash", "elm", "oak")]
    assert [[of.label for of in each.projects] for each in found.cloth] == [["oak"]]
    assert [
        (each.customer, [(label, [length.length for length in brings.lengths]) for label, brings in each.brings])
        for each in found.brought
    ] == [("Mr Crane", [("ash", [yards("1 7/8")])]), ("Mrs Lark", [("elm", [yards("1 7/8")])])]


def test_a_panel_turned_on_a_repeat_stays_matched():
    """Two backings of two panels each, on cloth whose print repeats after 12 in: the panels stay in their rows, with
    the gaps that their prints need, and the list takes no more than both alone."""
    text = f"[top]\nwidth = 60\nlength = 60\n[backing]\nfabric = {dyed('sprig', ', repeat = 12')}\n{PLAIN}"
    projects = [wants("oak", text), wants("elm", text), wants("ash", runner("sprig", more=", repeat = 12"))]
    (sprig,) = listed(projects).cloth
    gaps = [band.gap for layout in sprig.purchase.layouts for band in layout.bands if band.gap]
    own = [band.gap for each in projects for cloth in each.cloth for layout in cloth.layouts for band in layout.bands]
    assert sorted(gaps) == sorted(gap for gap in own if gap)
    assert sprig.purchase.amount <= sprig.alone


# --- on hand ---------------------------------------------------------------------------------------------------------


def test_a_piece_on_hand_is_used_before_any_is_bought():
    """A piece of 20 x 70 in, washed, holds one backing of 16 x 64. The other two lie side by side: 65 in, 1 7/8 yd.
    Without it the three take 3 5/8 yd, 39.88; with it 20.63: the shelf spares 19.25."""
    found = listed(THREE, [on_hand("cloth", "harbour blue", "20", "70")])
    (blue,) = found.cloth
    assert blue.purchase.lengths == (yards("1 7/8"),)
    assert (str(blue.purchase.cost), str(blue.saved)) == ("20.63", "19.25")
    assert [str(each) for each in found.saved] == ["19.25"]
    assert wrong_with(found, THREE) == []


def test_the_smallest_that_holds_all_is_taken():
    """16 x 64 in is held by 17 x 65 and by more; a piece of 15 in holds nothing, and stays."""
    shelf = [on_hand("cloth", "harbour blue", w, n) for w, n in (("40", "90"), ("17", "65"), ("15", "80"))]
    found = listed(THREE[:1], shelf)
    (blue,) = found.cloth
    assert [tuple(each.written) for each in blue.taken_down] == [(inches(17), inches(65))]
    assert blue.purchase.lengths == ()
    assert str(blue.purchase.cost) == "0.00"
    assert [(tuple(each.size), each.number) for each in found.left] == [
        ((inches(15), inches(80)), 1),
        ((inches(40), inches(90)), 1),
    ]


def test_a_length_as_it_was_bought_is_squared_and_loses_its_selvages():
    """44 in wide is unwashed: of 64 1/2 in, 63 1/2 are left once it is squared, too short for 64; of 65, 64."""
    assert listed(THREE[:1], [on_hand("cloth", "harbour blue", "44", "64 1/2")]).cloth[0].taken_down == ()
    (taken,) = listed(THREE[:1], [on_hand("cloth", "harbour blue", "44", "65")]).cloth[0].taken_down
    assert taken.usable == (inches(40), inches(64))


def test_other_cloth_is_left_on_the_shelf():
    """Of another name, or a batting of this name; nor does cloth without a name of its own take any."""
    shelf = [
        on_hand("cloth", "quilting cotton, 44 in wide", "40", "90"),
        on_hand("batting", "harbour blue", "40", "90"),
    ]
    text = runner().replace(dyed("harbour blue"), '"cotton-44"')
    found = listed([*THREE[:1], wants("yew", text)], shelf)
    assert [each.taken_down for each in found.cloth] == [(), ()]
    assert sum(each.number for each in found.left if each.size == (inches(40), inches(90))) == 2


def test_a_piece_on_hand_is_struck_off_once():
    """Two cloths of one name at two prices: one piece of 20 x 70 in serves one runner, and the other is bought."""
    projects = [wants("oak", runner()), wants("elm", runner(more=', price = "12"'))]
    cloths = listed(projects, [on_hand("cloth", "harbour blue", "20", "70")]).cloth
    assert sorted(len(each.taken_down) for each in cloths) == [0, 1]
    both = listed(projects, [on_hand("cloth", "harbour blue", "20", "70", 2)]).cloth
    assert [each.purchase.lengths for each in both] == [(), ()]


def test_what_is_left_can_be_kept():
    """Two backings side by side take 32 of 40 in and 64 of the 66 1/2 that are squared of 1 7/8 yd, 67 1/2: 8 in are
    left beside them, as wide as is worth keeping, and 2 1/2 behind, which is not."""
    found = listed(THREE[:2])
    assert [(each.kind, each.name, tuple(each.size), each.number) for each in found.left] == [
        ("cloth", "harbour blue", (inches(8), inches(64)), 1)
    ]


def test_the_same_file_counts_once():
    assert listed([THREE[0], THREE[0]]).labels == ("oak",)


def test_projects_of_one_title_are_told_apart():
    found = listed([wants("oak", runner(), key="a.toml"), wants("oak", runner(), key="b.toml")])
    assert found.labels == ("oak (1)", "oak (2)")
    assert len(found.cloth[0].projects) == 2
