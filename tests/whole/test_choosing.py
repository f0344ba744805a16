"""The backing that leads is the one that costs the customer least, seams weighed in; every other can be taken."""

import json
import random
from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.commandline.views import quote_document
from finishcalc.intake.changes.settings import trials
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.pipeline import Finishing, finish, try_file
from finishcalc.plans.backing.options import BackingOption
from finishcalc.rendering.pages.options import take_words
from tests.builders import PROJECTS, inches, quote_text, quoted, yards

PLAIN = "[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
"""Nothing to buy but the backing."""


def worked_out(width: object, length: object, more: str = "", shop: str = "") -> Finishing:
    """A top of this size, nothing to buy but its backing, with the sample shop's rates or some of its own."""
    text = f"[top]\nwidth = '{width}'\nlength = '{length}'\n{PLAIN}{more}"
    return finish(
        resolve(Source("top.toml", text), "shop.toml" if shop else None, reader=lambda _: Source("shop", shop))
    )


def lead(result: Finishing) -> BackingOption:
    assert result.plans.backing
    assert result.plans.backing.chosen
    return result.plans.backing.chosen


# ---- worked by hand -----------------------------------------------------------------------------------------------

WIDE = "[backing]\nfabric = 'cotton-wide-108'\n"


def test_no_seam_is_sewn_into_wide_goods_for_a_baby_quilt():
    """40 x 52 needs 48 x 60; 106 usable: 48 in and 6 to square are 54 in, 1 1/2 yd in one piece. Two strips would save
    a quarter yard at 16.80 a yard (12 and 40 %), 4.20, for a seam at 20 (derived)."""
    result = worked_out(40, 52, WIDE)
    assert (lead(result).layout.seams, lead(result).amount) == (0, yards("1 1/2"))


def test_a_king_in_wide_goods_is_one_piece_with_an_inch_less_at_the_sides():
    """100 + 2 x 4 = 108 is more than 106 usable, 100 + 2 x 3 is not: one piece of 106 x 116 and 6 to square, 122 in,
    3 1/2 yd. The ends keep their 4 (derived)."""
    option = lead(worked_out(100, 108, WIDE))
    assert (option.layout.seams, option.amount) == (0, yards("3 1/2"))
    assert (option.overage.sides, option.overage.ends) == (inches(3), inches(4))


def test_a_twin_takes_two_panels_with_half_an_inch_less_at_the_sides():
    """72 + 2 x 4 = 80; two panels of 40 join to 79, so 3 1/2 a side: 2 x 98 + 1 = 197 in, 5 1/2 yd and one seam
    (derived)."""
    option = lead(worked_out(72, 90))
    assert (option.layout.seams, option.amount) == (1, yards("5 1/2"))
    assert (option.overage.sides, option.overage.ends) == (inches("3 1/2"), inches(4))


def test_the_batting_goes_no_further_than_a_backing_that_was_reduced():
    text = "[top]\nwidth = 72\nlength = 90\n[binding]\nattach = 'none'\n"
    plans = quoted(text).plans
    assert plans.batting
    assert (plans.batting.width, plans.batting.length) == (inches(79), inches(98))


STATED = {
    "the project": ("[backing]\noverage = 4\n", ""),
    "the shop": ("", "[usual.backing]\noverage = 4\n[cloth]\nleast_overage = 3\n"),
}


@pytest.mark.parametrize(("project", "shop"), STATED.values(), ids=STATED)
def test_an_overage_that_is_stated_is_obeyed_and_the_other_is_an_option(project: str, shop: str):
    result = worked_out(72, 90, project, shop)
    assert lead(result).overage.sides == inches(4)
    smaller = [other for other in alternatives_of(result).backings if other.option.overage.sides == inches("3 1/2")]
    assert smaller
    assert min(other.option.layout.seams for other in smaller) == 1
    assert all(other.total == result.quote.total + other.adds for other in smaller)


def test_a_shop_that_states_an_overage_and_no_least_settles_for_no_less():
    """100 x 108 in wide goods at 4: nothing smaller is weighed."""
    result = worked_out(100, 108, WIDE, "[usual.backing]\noverage = 4\n")
    assert result.plans.backing
    assert {option.overage.sides for option in result.plans.backing.options} == {inches(4)}


def test_sides_and_ends_may_differ():
    """60 + 2 x 3 = 66 by 80 + 2 x 5 = 90."""
    plan = worked_out(60, 80, "[backing]\noverage = { sides = 3, ends = 5 }\n").plans.backing
    assert plan
    assert (plan.width, plan.length) == (inches(66), inches(90))


def test_where_seams_are_not_charged_their_minutes_are():
    """36 1/2 x 42 1/2 at no charge for seams: the score is the total, 5 for each seam, and the minutes at 30 an hour,
    by hand for each backing."""
    result = worked_out("36 1/2", "42 1/2", shop="[rates]\nseam = 0\n")
    assert len(result.backings) > 1
    for weighed in result.backings:
        layout = weighed.option.layout
        minutes = 6 * layout.seams + layout.seam_length.to("in") * Fraction(8, 100)
        turned = Fraction(11) * Fraction(14, 10) if layout.turned else 0
        assert weighed.score == weighed.quote.total.major + 5 * layout.seams + minutes / 2 + turned


# ---- the score, by an independent sum -------------------------------------------------------------------------------

RATE_CARDS = {
    "sample": (20, 5, 40),
    "dear seams": (35, 0, 100),
    "no charge for seams": (0, 12, 0),
}
"""The price of a seam, what a seam fewer is worth, the markup in per cent."""


@pytest.mark.parametrize("card", RATE_CARDS)
def test_the_lead_has_the_least_score_on_random_tops(card: str):
    """100 tops for each rate card: cloth at 11 and the markup by its eighths of a yard, seams at their price or at
    their minutes, 5 % tax on cloth; what a seam is worth; a yard for turned pieces. The sums are made here anew."""
    seam, worth, markup = RATE_CARDS[card]
    shop = f"[rates]\nseam = {seam}\nmarkup = '{markup} %'\n[cloth]\nworth_a_seam = {worth}\n"
    chance = random.Random(15)
    for _ in range(100):
        width, length = chance.randint(280, 960), chance.randint(280, 960)
        result = worked_out(f"{width // 8} {width % 8 or 0}/8", f"{length // 8} {length % 8}/8", shop=shop)
        plan, rest = result.plans.backing, result.quote.total.major - _with_tax(lead(result), seam, markup)
        assert plan
        scores = {}
        for option in plan.options:
            if option.clear and option.layout.seams <= max(3, min(each.layout.seams for each in plan.options)):
                total = rest + _with_tax(option, seam, markup)
                minutes = 6 * option.layout.seams + option.layout.seam_length.to("in") * Fraction(8, 100)
                extra = worth * option.layout.seams + (minutes / 2 if not seam else 0)
                extra += Fraction(11) * (100 + markup) / 100 if option.layout.turned else 0
                scores[option] = (total + extra, total)
        assert lead(result) in scores
        assert scores[lead(result)][0] == min(scores[option][0] for option in _may_lead(scores))
        for option, (_, total) in scores.items():
            if not option.layout.band and option.layout.seams < lead(result).layout.seams:
                assert total >= scores[lead(result)][1]


def _may_lead(scores: dict[BackingOption, tuple[Fraction, Fraction]]) -> list[BackingOption]:
    """Those 4 over on every side, and of the others what has a seam less than the best of them or saves half a yard."""
    wanted = [option for option in scores if option.overage == (inches(4), inches(4))]
    best = min(
        wanted, key=lambda option: (scores[option][0], option.layout.seams, option.layout.turned > 0, option.amount)
    )
    return wanted + [
        option
        for option in scores
        if option.layout.seams < best.layout.seams or best.amount - option.amount >= inches(18)
    ]


def _with_tax(option: BackingOption, seam: int, markup: int) -> Fraction:
    """Cloth with markup, rounded to cents, and its tax of 5 %, rounded; the seams are labour and bear none."""
    cloth = _cents(option.amount.to("yd") * 11 * (100 + markup) / 100)
    return cloth + _cents(cloth * Fraction(5, 100)) + seam * option.layout.seams


def _cents(amount: Fraction) -> Fraction:
    return Fraction(int(amount * 100 + Fraction(1, 2)), 100)


# ---- taking another -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_option_of_a_sample_can_be_taken_to_the_cent(path: Path):
    """What the document says to write makes the quote that it said."""
    (result,) = try_file(str(path), None, trials([]))
    record = json.loads(quote_document(result))
    options = [*record["offers"], *record["other_backings"], *filter(None, [record["other_binding"]])]
    options += record["other_cuttings"]
    for option in options:
        words = [f"{key}={take_words({'x': value})[2:]}" for key, value in option["take"].items()]
        (taken,) = try_file(str(path), None, trials(words))
        assert str(taken.quote.total) == option["total"], option


def test_the_studio_reads_what_to_write_and_the_customer_does_not():
    result = worked_out(72, 90, "[backing]\noverage = 4\n")
    studio, customer = (" ".join(quote_text(result, reader).split()) for reader in ("studio", "customer"))
    others = alternatives_of(result).backings
    assert others
    for other in others:
        assert " ".join(take_words(other.take).split()) in studio
        assert f"${other.total}" in studio
        assert f"${other.total}" in customer
    assert "to take it" not in customer
    assert "seam_count" not in customer


def test_a_plan_that_no_size_has_is_not_taken_and_said():
    """A top of 30 x 30 takes one piece of 38 x 38: no plan of it has five seams."""
    result = worked_out(30, 30, "[backing]\nseam_count = 5\n")
    assert "not-as-picked" in [caution.code for caution in result.cautions]
    assert lead(result).layout.seams == 0


@pytest.mark.parametrize(
    ("project", "shop"),
    [("[backing]\nmost_seams = 1\n", "[cloth]\nmost_seams = 3\n"), ("", "[cloth]\nmost_seams = 1\n")],
)
def test_the_project_s_limit_of_seams_stands_over_the_shop_s(project: str, shop: str):
    """60 x 80 at 4 takes two panels and one seam; cheaper ones have two and three."""
    result = worked_out(60, 80, project, shop)
    assert {weighed.option.layout.seams for weighed in result.backings} == {1}


def test_an_option_that_another_betters_is_not_told_of():
    """Nor one that has as many seams as the lead, and is dearer; and whatever is left out is one or the other."""
    left_out = told_of = 0
    for size in ((72, 90), (84, 92), (90, 100), (60, 80), (108, 110)):
        result = worked_out(*size, "[backing]\noverage = 4\n", "[rates]\nseam = 1\n[cloth]\nleast_overage = 3\n")
        told = {other.option for other in alternatives_of(result).backings}
        for each in result.backings:
            seams, is_turned = each.option.layout.seams, each.option.layout.turned > 0
            gains = each.quote.total < result.quote.total or seams < lead(result).layout.seams
            bettered = any(
                (other.option.layout.turned > 0) == is_turned
                and other.option.layout.seams <= seams
                and other.quote.total < each.quote.total
                for other in result.backings
            )
            assert (each.option in told) == (gains and not bettered)
            left_out += gains and bettered
        told_of += len(told)
    assert told_of
    assert left_out
