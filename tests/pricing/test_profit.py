"""The worth of a quote to the studio: what an hour earns, what would earn more."""

import json
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.choices import offers_of
from finishcalc.alternatives.in_house import profit_of
from finishcalc.commandline.views import quote_document
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.pipeline import Finishing, finish
from tests.builders import GOLDEN, LAP, STEPS, finished, in_shop, quote_text, quoted, replace
from tests.strategies import examples


@pytest.mark.parametrize("name", ["small-studio", "maker", "every-charge"])
def test_a_worked_quote_is_as_worked_by_hand(name: str):
    """The arithmetic stands in the comment that opens each file."""
    result = finished(GOLDEN / f"{name}.toml")
    assert quote_text(result, "customer") == (GOLDEN / f"{name}.expected.txt").read_text(encoding="utf-8")


def test_the_worked_quote_s_sums():
    """From the comment in the file, not from the page."""
    quote = finished(GOLDEN / "small-studio.toml").quote
    amounts = ["168.00", "82.50", "30.00", "18.00", "16.80", "117.60", "7.50", "32.79", "-18.03"]
    assert [str(line.amount) for line in quote.lines] == amounts
    assert [str(tax.amount) for tax in quote.taxes] == ["9.28", "6.85"]
    sums = (quote.subtotal, quote.total, quote.deposit, quote.balance)
    assert [str(amount) for amount in sums] == ["455.16", "471.29", "283.83", "187.46"]
    assert [str(offer.adds) for offer in offers_of(finished(GOLDEN / "small-studio.toml"))] == ["-39.88"]
    maker = finished(GOLDEN / "maker.toml").quote
    assert [str(line.amount) for line in maker.lines] == ["35.00", "6.88", "18.00"]
    assert (str(maker.taxes[0].amount), str(maker.total)) == ("3.59", "63.47")


def test_the_worked_quote_s_worth():
    worth = profit_of(finished(GOLDEN / "small-studio.toml"))
    assert (worth.earned.hours, worth.frame_hours) == (Fraction("10.5"), Fraction("3.59"))
    money = (
        worth.earned.materials,
        worth.earned.other_costs,
        worth.hourly,
        worth.frame_hourly,
        worth.break_even,
        worth.price_at_wage,
    )
    assert [str(amount) for amount in money] == ["75.50", "63.00", "30.16", "88.23", "138.50", "432.52"]


def test_every_charge_is_as_worked_by_hand():
    """From the comment in the file, not from the page."""
    result = finished(GOLDEN / "every-charge.toml")
    quote, worth = result.quote, profit_of(result)
    sums = (quote.subtotal, quote.taxes[0].base, quote.taxes[0].amount, quote.total, quote.deposit, quote.balance)
    assert [str(amount) for amount in sums] == ["530.65", "100.06", "8.00", "538.65", "315.36", "223.29"]
    earned = worth.earned
    costs = (earned.net, earned.materials, earned.passed_on, earned.other_costs, earned.left)
    assert [str(amount) for amount in costs] == ["525.36", "52.05", "21.50", "72.50", "379.31"]
    # 200 + 9.56 + 59.50 + 360 + 1,813 / 144 x 2 + 18.13 + 8.60 + 4 + 40; at the least 40 less, at the most 40 more
    minutes = Fraction("699.79") + Fraction(1813, 72)
    assert (earned.low, earned.minutes, earned.high) == (minutes - 40, minutes, minutes + 40)
    hourly = (worth.hourly_at_worst, worth.hourly, worth.hourly_at_best)
    assert [str(amount) for amount in hourly] == ["29.44", "31.39", "33.58"]
    assert (str(worth.break_even), str(worth.price_at_wage)) == ("146.05", "484.37")
    assert [str(each.net) for each in earned.left_out] == ["5.29"]


def in_style(tmp_path: Path, shop: str, style: str) -> Finishing:
    return in_shop(tmp_path, shop, LAP + f"[quilting]\nstyle = '{style}'\n")


@pytest.mark.parametrize(
    ("style", "next_style"), [("open-meander", "dense-pantograph"), ("dense-pantograph", "custom")]
)
def test_the_next_dearer_style_is_what_it_would_be(style: str, next_style: str, tmp_path: Path):
    """Its rate, and its own hours: the quote of the same top in that style."""
    told = {other.label.values["name"]: other for other in profit_of(in_style(tmp_path, "", style)).others}
    there = in_style(tmp_path, "", next_style)
    other = told[there.plans.quilting.style.name]
    assert (other.total, other.hourly) == (there.quote.total, profit_of(there).hourly)


def test_areas_ties_and_hand_quilting_have_no_next_style(tmp_path: Path):
    areas = "areas = [{ style = 'tiny-fill', share = '40 %' }]\n"
    for quilting in (f"style = 'custom'\n{areas}", "style = 'ties-4'\nmethod = 'tied'\n", "method = 'hand-quilted'\n"):
        assert profit_of(in_shop(tmp_path, "", LAP + "[quilting]\n" + quilting)).others == ()


@pytest.mark.parametrize(
    ("currency", "price", "markup", "rate"),
    [("JPY", "0.3", "40 %", "0.42"), ("EUR", "0.124", "0 %", "0.124"), ("USD", "0.005", "0 %", "0.005")],
)
def test_small_prices_are_sold_at_what_they_are(currency: str, price: str, markup: str, rate: str, tmp_path: Path):
    """The selling price is exact: only the line is rounded (price x (1 + markup); derived)."""
    shop = tmp_path / "shop.toml"
    shop.write_text(
        f"[money]\ncurrency = '{currency}'\n[rates]\nmarkup = '{markup}'\nminimum = 75\n"
        f"[fabrics.cotton-44]\nprice = '{price}'\nper = 'in'\nstep = '1 in'\n"
    )
    data = json.loads(quote_document(quoted("[top]\nwidth = 60\nlength = 80\n", shop)))
    line = next(line for line in data["quote"]["lines"] if "cotton, 44" in line["label"])
    assert line["rate"] == rate
    exact = Decimal(str(line["quantity"])) * Decimal(rate)
    places = Decimal(1) if currency == "JPY" else Decimal("0.01")
    assert Decimal(line["amount"]) == exact.quantize(places, ROUND_HALF_UP)


def test_a_minimum_that_is_just_reached_is_no_minimum():
    """50 x 50 at 0.03 is 75.00, the sample minimum: the quilting is billed by area."""
    result = quoted("[top]\nwidth = 50\nlength = 50\n")
    assert result.quote.lines[0].unit == "sq in"
    assert quoted("[top]\nwidth = 50\nlength = 49\n").quote.lines[0].unit == "each"


def test_the_deposit_goes_by_its_classes_and_not_by_the_lines_there_are(tmp_path: Path):
    """Half of the labour before tax, whether or not there is material beside it."""
    shop = tmp_path / "shop.toml"
    shop.write_text("[deposit]\npercent = '50 %'\nclasses = ['labour']\n[[tax]]\nlabel = 'T'\npercent = '10 %'\n"
                    "classes = ['labour', 'material']\n")  # fmt: skip
    bare = "[backing]\nfabric = 'none'\n[batting]\nproduct = 'none'\n[binding]\nattach = 'none'\n"
    # 60 x 80 at 0.03 a sq in is 144.00; half of it 72.00
    for extra in ("", "[charges]\nextras = ['thread']\n"):
        quote = quoted("[top]\nwidth = 60\nlength = 80\n" + bare + extra, shop).quote
        assert quote.deposit.minor == 7200


def test_cost_and_margin_of_each_line():
    """The seam takes 13.04 min at (28 + 6) an hour: 7.39. A label takes 15 min and costs 0.50: 9.00. Of a line that
    says neither, nobody knows them."""
    worth = profit_of(finished(GOLDEN / "small-studio.toml"))
    found = {each.line.rates[0].key: each for each in worth.lines if each.line.rates}
    assert (str(found["rates.seam.each"].cost), str(found["rates.seam.each"].margin)) == ("7.39", "10.61")
    assert str(found["extras.label.price"].cost) == "9.00"
    (unknown,) = profit_of(quoted("[top]\nwidth = 60\nlength = 80\n[[charges.lines]]\nlabel = 'L'\nprice = 7\n")).lines[
        -1:
    ]
    assert (unknown.cost, unknown.margin) == (None, None)
    for each in worth.lines:
        assert each.cost is not None
        assert each.margin is not None
        assert each.cost + each.margin == each.line.amount


def test_a_tax_held_in_the_price_is_not_the_studio_s(tmp_path: Path):
    shop = "[taxing]\nincluded = true\nclasses = ['labour', 'material']\n[[tax]]\nlabel = 'VAT'\npercent = '20 %'\n"
    result = in_shop(tmp_path, shop, LAP)
    assert profit_of(result).earned.net == result.quote.total - result.quote.taxes[0].amount


def test_margins_leave_out_a_tax_that_the_price_holds(tmp_path: Path):
    """A fifth on top is a sixth of the price: of 120.00 for the seams 20.00 is tax."""
    shop = "[rates]\nseam = 120\n[taxing]\nincluded = true\nclasses = ['labour', 'material']\n"
    shop += "[[tax]]\nlabel = 'VAT'\npercent = '20 %'\n"
    seam = next(
        each
        for each in profit_of(in_shop(tmp_path, shop, LAP)).lines
        if [rate.key for rate in each.line.rates] == ["rates.seam.each"]
    )
    assert seam.cost
    assert seam.margin
    assert str(seam.margin + seam.cost) == "100.00"


def test_what_is_over_the_last_size_has_its_time_in_that_size(tmp_path: Path):
    worth = profit_of(in_shop(tmp_path, STEPS, "[top]\nwidth = 60\nlength = 82\n"))
    assert str(worth.lines[1].cost) == "0.00"


def test_a_style_of_the_shop_s_own_may_be_the_next(tmp_path: Path):
    """By hand and tied are rates of other methods, however dear."""
    own = "[rates.quilting]\nlace = '0.05'\n[styles.lace]\nname = 'lace'\nrate_class = 'lace'\nline_spacing = 1\n"
    own += "lines = 'crosshatch'\nangle = 45\nwidest = 1\n"
    (other,) = profit_of(in_style(tmp_path, own, "dense-pantograph")).others
    assert other.label.values["name"] == "lace"


def test_hours_that_are_sold_apart_count(tmp_path: Path):
    more = profit_of(in_shop(tmp_path, "", LAP + "[charges]\nextras = [{ name = 'pressing', quantity = 2 }]\n"))
    assert more.earned.hours - profit_of(in_shop(tmp_path, "", LAP)).earned.hours == 2


def test_the_next_size_class_and_the_next_dearer_style(tmp_path: Path):
    shop = STEPS + "[rates.quilting.dense]\nprice = '0.05'\n"
    worth = profit_of(in_shop(tmp_path, shop, "[top]\nwidth = 40\nlength = 60\n"))
    told = {other.label.values["name"]: other for other in worth.others}
    base = in_shop(tmp_path, shop, "[top]\nwidth = 40\nlength = 60\n").quote.total
    assert (told["throw"].total - base).minor == 4000  # 120 - 80, labour untaxed
    assert told["dense pantograph"].total > base


def test_the_price_without_tax_counts_what_is_rounded_for_cash(tmp_path: Path):
    shop = "[money]\ncash_rounding = 5\n"
    result = in_shop(tmp_path, shop, LAP)
    assert result.quote.cash_rounding.minor
    assert profit_of(result).earned.net == result.quote.subtotal + result.quote.cash_rounding


def test_what_is_known_of_the_margins_adds_up():
    worth = profit_of(finished(GOLDEN / "small-studio.toml"))
    amount, cost, margin = worth.known_totals
    assert amount - cost == margin
    known = [each.line.amount.minor for each in worth.lines if each.cost is not None]
    assert amount.minor == sum(known)
    page = " ".join(quote_text(finished(GOLDEN / "small-studio.toml"), "studio").split())
    assert f"total with known cost {amount} {cost} {margin}" in page


def test_break_even_is_labelled_so():
    page = " ".join(quote_text(quoted(LAP), "studio").split())
    assert "break-even price, with the wage paid: $" in page
    assert page.index("with the wage paid") < page.index("materials and other costs, without any wage: $")
    assert "an attended hour" in page
    assert "an hour on the frame" in page


@examples(40)
@given(st.integers(30, 100), st.integers(30, 110), st.integers(0, 60), st.integers(0, 30))
def test_worth_adds_up(width: int, length: int, wage: int, overhead: int):
    asked = resolve(Source("t", f"[top]\nwidth = {width}\nlength = {length}\n"))
    rates = replace(asked.shop.rates, wage=Fraction(wage), overhead=Fraction(overhead))
    result = finish(replace(asked, shop=replace(asked.shop, rates=rates)))
    worth = profit_of(result)
    assert worth.break_even == worth.earned.materials + worth.earned.other_costs
    minutes, round_money = worth.earned.minutes, result.quote.currency.round
    assert worth.price_at_wage - worth.break_even == round_money(Fraction(wage) * minutes / 60)
    earned = worth.earned.net - worth.earned.materials - worth.earned.other_costs
    assert worth.hourly == round_money(earned.major * 60 / minutes)
    assert worth.hourly_at_worst is not None
    assert worth.hourly_at_best is not None
    assert worth.hourly_at_worst <= worth.hourly <= worth.hourly_at_best or earned.minor < 0
    meets = worth.earned.net >= worth.price_at_wage
    assert worth.hourly is not None
    assert (
        meets == (worth.hourly >= worth.wage)
        or abs((worth.earned.net - worth.price_at_wage).minor) <= worth.earned.hours * 100
    )
