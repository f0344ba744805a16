"""Savings: what a small change would save, said only where it is half a yard or its price."""

from fractions import Fraction

from finishcalc.plans.backing.savings import plan_savings

from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.wording.notation import NO_BREAK, Notation
from tests.builders import backing_of, cloth, inches, replace, yards

NO_WAGE = {"wage": Fraction(0), "least_overage": inches(3)}
FULL_PANELS = cloth(nap=True)


def told(plan: BackingPlan) -> list[str]:
    """The savings, without what they save in money."""
    said = [Notation("in").write(saving.sentence).replace(NO_BREAK, " ") for saving in plan_savings(plan)]
    return [text.partition(" cloth, ")[0] for text in said]


def test_an_inch_less_overage_saves_a_panel():
    """73x90 with full panels: at 4 in 81x98 takes 3 panels of 81 in = 243 in, 6 3/4 yd; at 3 in 79x96 is just covered
    by 2 panels (79 wide) of 96 = 192 in, 5 3/8 yd: 1 3/8 yd less (the classic of the trade; derived)."""
    fabric = replace(FULL_PANELS, nap=False, repeat=inches(Fraction(1, 8)))
    plan = backing_of(73, 90, NO_WAGE, fabric=fabric, wider=None)
    assert plan.chosen.amount == yards("6 3/4")
    assert told(plan) == ["with 3 in instead of 4 in on every side: 1 3/8 yd less"]


def test_nothing_is_said_at_the_least_overage():
    fabric = replace(FULL_PANELS, nap=False, repeat=inches(Fraction(1, 8)))
    assert told(backing_of(73, 90, NO_WAGE, fabric=fabric, wider=None, overage=inches(3))) == []


def test_wider_goods_are_named_where_they_cost_less():
    """81x98 off 106 usable is one piece of 81 in, 2 1/4 yd: 4 1/2 yd less than three panels' 6 3/4 (derived)."""
    fabric = replace(FULL_PANELS, nap=False, repeat=inches(Fraction(1, 8)))
    wide = cloth(106, name="wide goods", price=Fraction(20))
    plan = backing_of(73, 90, NO_WAGE, fabric=fabric, wider=wide, overage=inches(4))
    assert "in wide goods, 2 1/4 yd with no seam: 4 1/2 yd less" in told(plan)
    dear = replace(wide, price=Fraction(40))
    assert not any("wide goods" in text for text in told(backing_of(73, 90, NO_WAGE, fabric=fabric, wider=dear)))


def test_one_seam_more_is_named():
    """73x90 at two seams at the most: 3 panels of 81 in, 243 in, 6 3/4 yd. With three seams, 2 panels of 81 and
    between them a band that is cut 98 - 2 x 39 = 20 wide: two strips side by side, (81 + 1) / 2 = 41 long; 203 in,
    5 3/4 yd: 1 yd less (derived)."""
    plan = backing_of(73, 90, NO_WAGE | {"most_seams": 2}, wider=None, overage=inches(4))
    assert plan.chosen.amount == yards("6 3/4")
    assert "with one more seam: 1 yd less" in told(plan)


def test_turned_pieces_are_named():
    """60x80 at one seam: 2 panels, 176 in, 5 yd. A panel of 88, two turned pieces of 29 and a strip of 10 take 156,
    4 3/8 yd, with three seams; no way with turned pieces buys less (derived)."""
    plan = backing_of(60, 80, NO_WAGE | {"most_seams": 1}, wider=None)
    assert "with turned pieces and 3 seams: 5/8 yd less" in told(plan)


def test_money_is_for_the_studio_alone():
    fabric = replace(FULL_PANELS, nap=False, repeat=inches(Fraction(1, 8)))
    (saving,) = plan_savings(backing_of(73, 90, NO_WAGE, fabric=fabric, wider=None))
    assert saving.sentence.audience == "studio"
    # 1 3/8 yd at 10 a yard is 13.75, and no wage is paid for the seam that is saved
    assert saving.sentence.values["money"].minor == 1375


def test_an_eighth_of_a_yard_for_nothing_is_not_worth_saying():
    """Price 0 and no wage: nothing is saved in money, and less than half a yard of cloth."""
    fabric = replace(FULL_PANELS, price=Fraction(0))
    assert told(backing_of(60, 80, NO_WAGE, fabric=fabric, wider=None)) == []


def test_a_seam_s_wage_can_make_less_cloth_worth_saying():
    """73x90 pieced: 3 in a side saves 3/8 yd and two seams; with wages that is more than half a yard's price."""
    paid = {"least_overage": inches(3), "wage": Fraction(30), "most_seams": 3}
    assert any("3 in instead of 4 in" in text for text in told(backing_of(73, 90, paid, wider=None)))
    assert not any("3 in instead of 4 in" in text for text in told(backing_of(73, 90, NO_WAGE, wider=None)))


def test_a_shop_says_how_much_cloth_is_worth_saying():
    """1 3/8 yd at 10 a yard are 13.75: that is said where 1 3/8 yd is worth it, and where 1 1/2 yd (15.00) is not."""
    fabric = replace(FULL_PANELS, nap=False, repeat=inches(Fraction(1, 8)))
    for worth, said in (("1 3/8", 1), ("1 1/2", 0)):
        shop = NO_WAGE | {"worth_saying": yards(worth)}
        assert len(told(backing_of(73, 90, shop, fabric=fabric, wider=None))) == said, worth
