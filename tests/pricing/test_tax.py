"""Tax, rush, discount, deposit and cash rounding: each expected amount is worked out by hand beside it."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency, Money, total
from finishcalc.measures.rounding import printed
from finishcalc.model.charges import Charges, OneOff, OrderedExtra
from finishcalc.model.prices import ClassShares, Deposit, Tax
from finishcalc.model.section import Figure
from finishcalc.pipeline import Finishing, finish
from finishcalc.pricing.deposit import deposit_amount
from finishcalc.pricing.line import Line
from finishcalc.pricing.quote import Quote, with_changes
from finishcalc.pricing.tax import TaxAmount, added, taxes_on
from finishcalc.problems import ProblemsFound
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import say
from tests.builders import replace, section

USD, JPY, KWD = Currency.of("USD"), Currency.of("JPY"), Currency.of("KWD")
BOTH = ("labour", "material")
NO_CHARGES = section(
    Charges, rush=Fraction(0), rush_classes=BOTH, discount=Fraction(0), discount_classes=BOTH, extras=(), lines=()
)

QUILTING_ALONE = """
[top]
width = 63
length = 87
[backing]
fabric = "none"
[batting]
product = "none"
[binding]
attach = "none"
"""
"""63 x 87 = 5481 sq in: with neither cloth nor batting nor binding, one line of labour is left."""


def item(major: str, line_class: str = "material", currency: Currency = USD) -> Line:
    amount = Fraction(major)
    return Line(say("Item"), line_class, Fraction(1), "each", amount, currency.round(amount))


def tax(percent: str, classes: tuple[str, ...] = BOTH, included: bool = False, by: str = "invoice") -> Tax:
    return section(Tax, label="Tax", percent=Fraction(percent) / 100, classes=classes, included=included, by=by)


def deposit(**asked: object) -> Deposit:
    """A deposit of all classes, unless `asked` says otherwise."""
    return section(Deposit, **({"classes": BOTH} | asked))


NO_DEPOSIT = deposit(amount=Fraction(0))


def on_lines(lines: list[Line], taxes: tuple[Tax, ...], currency: Currency) -> tuple[TaxAmount, ...]:
    return taxes_on(lines, Figure(taxes), currency)


def taxed(lines: list[Line], *taxes: Tax) -> list[str]:
    """The amount of each tax, as it is printed."""
    return [str(found.amount) for found in taxes_on(lines, Figure(taxes), lines[0].amount.currency)]


def changed(lines: list[Line], **charges: object) -> list[Line]:
    return with_changes(lines, replace(NO_CHARGES, **charges), lines[0].amount.currency)


def amounts(lines: list[Line]) -> list[str]:
    return [str(line.amount) for line in lines]


def finished(text: str = "", **shop: object) -> Finishing:
    """A quote for the quilting alone, 164.43 (5481 x 0.03), with parts of the sample shop changed."""
    asked = resolve(Source("a top", QUILTING_ALONE + text))
    shop = {"taxes": (), "deposit": NO_DEPOSIT} | shop
    shop["taxes"] = Figure(shop["taxes"])
    coin = shop.pop("coin", asked.shop.money.cash_rounding)
    shop["money"] = replace(asked.shop.money, cash_rounding=coin)
    return finish(replace(asked, shop=replace(asked.shop, **shop)))


def quoted(text: str = "", **shop: object) -> Quote:
    return finished(text, **shop).quote


# ---- added tax ----------------------------------------------------------------------------------------------

# Rounding by the Streamlined Sales Tax rule, R.I. Gen. Laws 44-18.1-25: to the third decimal, up when it is over 4.
# The figures are derived: 0.625; 10.184625 (rounding 10.185 again would give a wrong 10.19); 1.649175.
SALES_TAX = [("12.50", "5", "0.63"), ("123.45", "8.25", "10.18"), ("19.99", "8.25", "1.65")]

# Derived, minor units by ISO 4217: 123.4 and 123.5 yen; 0.61725 and 0.6175 dinars.
OTHER_DECIMALS = [
    (JPY, "1234", "10", "123"),
    (JPY, "1235", "10", "124"),
    (KWD, "12.345", "5", "0.617"),
    (KWD, "12.350", "5", "0.618"),
]


@pytest.mark.parametrize("by", ["invoice", "item"])
@pytest.mark.parametrize(("price", "percent", "expected"), SALES_TAX)
def test_sales_tax_is_rounded_once(price, percent, expected, by):
    assert taxed([item(price)], tax(percent, by=by)) == [expected]


@pytest.mark.parametrize(("currency", "price", "percent", "expected"), OTHER_DECIMALS)
def test_tax_is_rounded_to_the_currency_s_own_minor_unit(currency, price, percent, expected):
    assert taxed([item(price, currency=currency)], tax(percent)) == [expected]


def test_three_small_items_are_taxed_more_one_by_one_than_together():
    """1.10 x 5 % = 0.055 -> 0.06, three times 0.18; 3.30 x 5 % = 0.165 -> 0.17: derived from the rule above."""
    lines = [item("1.10")] * 3
    assert taxed(lines, tax("5", by="item"), tax("5", by="invoice")) == ["0.18", "0.17"]


def test_a_tax_is_on_the_lines_of_its_classes():
    """Labour 60.00, material 40.00: 5 % of 40.00 = 2.00; 7 % of 60.00 = 4.20; 10 % of 100.00 = 10.00: derived."""
    lines = [item("60.00", "labour"), item("40.00")]
    found = on_lines(lines, (tax("5", ("material",)), tax("7", ("labour",)), tax("10")), USD)
    assert [str(one.base) for one in found] == ["40.00", "60.00", "100.00"]
    assert [str(one.amount) for one in found] == ["2.00", "4.20", "10.00"]
    assert str(added(found, USD)) == "16.20"


@pytest.mark.parametrize("by", ["invoice", "item"])
@pytest.mark.parametrize("included", [False, True])
def test_no_line_of_its_class_means_no_tax(by, included):
    assert taxed([item("60.00", "labour")], tax("5", ("material",), included, by)) == ["0.00"]


def test_a_tax_of_nothing_and_a_tax_of_all():
    assert taxed([item("12.34")], tax("0"), tax("100")) == ["0.00", "12.34"]


# ---- included tax -------------------------------------------------------------------------------------------


def test_twenty_per_cent_inside_a_hundred():
    """100 x 0.20 / 1.20 = 16.666... -> 16.67, net 83.33: derived."""
    found = on_lines([item("100.00")], (tax("20", included=True),), USD)
    assert str(found[0].amount) == "16.67"
    assert str(found[0].base - found[0].amount) == "83.33"
    assert added(found, USD) == USD.zero


@pytest.mark.parametrize(
    ("currency", "price", "percent", "expected"),
    [(JPY, "1000", "10", "91"), (KWD, "10.000", "5", "0.476")],
)
def test_included_tax_in_other_decimals(currency, price, percent, expected):
    """1000 x 0.1 / 1.1 = 90.909 -> 91; 10 x 0.05 / 1.05 = 0.47619 -> 0.476: derived."""
    assert taxed([item(price, currency=currency)], tax(percent, included=True)) == [expected]


def test_two_taxes_in_one_price_share_what_it_holds():
    """125.00 = 100.00 net + 20 % + 5 %: 20.00 and 5.00: derived."""
    assert taxed([item("125.00")], tax("20", included=True), tax("5", included=True)) == ["20.00", "5.00"]


def test_each_class_is_freed_of_the_taxes_it_holds():
    """Labour 120.00 holds 20 % of 100.00; material 125.00 holds 20 % and 5 % of 100.00: 40.00 and 5.00: derived."""
    lines = [item("120.00", "labour"), item("125.00")]
    assert taxed(lines, tax("20", included=True), tax("5", ("material",), included=True)) == ["40.00", "5.00"]


def test_the_working_of_two_included_taxes_can_be_redone_on_paper():
    """164.43 x 0.20 / 1.25 = 26.3088 -> 26.31: the divisor shown is all that the price holds, not 1 + 20 %."""
    taxes = (tax("20", ("labour",), included=True), tax("5", ("labour",), included=True))
    result = finished(taxes=taxes)
    assert str(result.quote.taxes[0].amount) == "26.31"
    told = (
        Notation("in").write(next(said for said in result.quote.working if "held" in said.text)).replace(NO_BREAK, " ")
    )
    divisor = told.partition("/")[2].partition(")")[0]
    assert sum(Fraction(found) for found in re.findall(r"([0-9.]+) %", divisor)) == 25


# ---- rush and discount --------------------------------------------------------------------------------------


def test_rush_and_discount_are_lines_by_class_and_discount_comes_after_rush():
    """Labour 100.00 + 50.01, material 40.00. Rush 25 % of 150.01 = 37.5025 -> 37.50; discount 10 % of
    187.51 = 18.751 -> -18.75, of 40.00 = -4.00: derived."""
    lines = [item("100.00", "labour"), item("50.01", "labour"), item("40.00")]
    found = changed(lines, rush=Fraction(1, 4), rush_classes=("labour",), discount=Fraction(1, 10))
    assert amounts(found) == ["100.00", "50.01", "40.00", "37.50", "-18.75", "-4.00"]
    assert [line.line_class for line in found[3:]] == ["labour", "labour", "material"]
    assert [line.kind for line in found[3:]] == ["rush", "discount", "discount"]


def test_a_discount_of_half_a_cent_is_the_mirror_of_a_rush_of_half_a_cent():
    """10 % of 0.05 = 0.005 -> 0.01 and -0.01: halves go away from zero."""
    assert amounts(changed([item("0.05")], rush=Fraction(1, 10), rush_classes=("material",)))[1:] == ["0.01"]
    assert amounts(changed([item("0.05")], discount=Fraction(1, 10)))[1:] == ["-0.01"]


def test_no_line_for_a_class_that_has_no_lines():
    found = changed([item("40.00")], rush=Fraction(1, 4), discount=Fraction(1, 4), discount_classes=("labour",))
    assert amounts(found) == ["40.00", "10.00"]


def test_tax_by_item_shares_the_discount_out_over_the_items_first():
    """1 % of 3.30 = 0.033 -> -0.03, a cent each: three of 1.09 x 5 % = 0.0545 -> 0.05, together 0.15;
    by invoice 3.27 x 5 % = 0.1635 -> 0.16: derived."""
    lines = changed([item("1.10")] * 3, discount=Fraction(1, 100))
    assert taxed(lines, tax("5", by="item"), tax("5", by="invoice")) == ["0.15", "0.16"]


def test_tax_is_on_rush_too():
    """Material 40.00 + 25 % rush = 50.00; 5 % = 2.50: derived."""
    lines = changed([item("40.00")], rush=Fraction(1, 4))
    assert taxed(lines, tax("5", by="item"), tax("5", by="invoice")) == ["2.50", "2.50"]


prices = st.lists(st.integers(0, 10**6).map(lambda minor: str(Fraction(minor, 100))), min_size=1, max_size=6)


@given(prices, st.sampled_from(["0", "0.25", "1/3"]), st.booleans())
def test_nothing_is_taxed_when_all_is_given_away(majors, rush, included):
    """A discount of 100 % leaves tax 0, by item and by invoice."""
    lines = changed([item(major) for major in majors], rush=Fraction(rush), discount=Fraction(1))
    assert total((line.amount for line in lines), USD) == USD.zero
    ways = [tax("8.25", included=included, by=by) for by in ("item", "invoice")]
    assert taxed(lines, *ways) == ["0.00", "0.00"]


@given(prices, st.integers(0, 100), st.integers(0, 2500))
def test_item_by_item_differs_from_the_invoice_by_its_roundings_at_most(majors, off, hundredths):
    lines = changed([item(major) for major in majors], discount=Fraction(off, 100))
    percent = str(Fraction(hundredths, 100))
    one_by_one, together = on_lines(lines, (tax(percent, by="item"), tax(percent, by="invoice")), USD)
    assert one_by_one.base == together.base
    assert abs(one_by_one.amount.minor - together.amount.minor) <= Fraction(len(majors) + 1, 2)


@given(st.integers(0, 10**7), st.integers(0, 10000))
def test_net_with_its_tax_added_again_is_the_price_to_the_minor_unit(minor, hundredths):
    rate = Fraction(hundredths, 10000)
    found = on_lines([item(str(Fraction(minor, 100)))], (tax(str(rate * 100), included=True),), USD)[0]
    net = found.base - found.amount
    assert abs(net.major * (1 + rate) - found.base.major) <= Fraction(1, 200) * (1 + rate)


# ---- a class named twice ------------------------------------------------------------------------------------


def test_rush_on_a_class_named_twice_is_not_charged_twice():
    """A quarter of 164.43 is 41.1075 -> 41.11, once."""
    text = '[charges]\nrush = "25 %"\nrush_classes = ["labour", "labour"]\n'
    try:
        assert amounts(list(quoted(text).lines)) == ["164.43", "41.11"]
    except ProblemsFound as refused:
        assert refused.problems[0].path.startswith("charges.rush_classes")  # noqa: PT017


def test_tax_on_a_class_named_twice_is_not_charged_twice(tmp_path):
    """5 % of 164.43 = 8.2215 -> 8.22, once."""
    shop = '[[tax]]\nlabel = "Tax"\npercent = "5 %"\nclasses = ["labour", "labour"]\n'
    try:
        assert [str(found.amount) for found in in_shop(tmp_path, shop).taxes] == ["8.22"]
    except ProblemsFound as refused:
        assert "classes" in refused.problems[0].path  # noqa: PT017


# ---- the whole quote ----------------------------------------------------------------------------------------


def in_shop(folder, shop: str) -> Quote:
    """The quilting alone, in a shop of this text over the sample shop in inches."""
    (folder / "shop.toml").write_text(shop, encoding="utf-8")
    return finish(resolve(Source("a top", QUILTING_ALONE), str(folder / "shop.toml"))).quote


def test_a_plain_quote_by_hand():
    """5481 x 0.03 = 164.43; 5 % = 8.2215 -> 8.22; 172.65: derived."""
    quote = quoted(taxes=(tax("5"),))
    assert amounts(list(quote.lines)) == ["164.43"]
    assert (str(quote.subtotal), str(quote.taxes[0].amount), str(quote.total)) == ("164.43", "8.22", "172.65")


def test_the_discount_is_told_and_is_part_of_the_subtotal():
    """10 % of 164.43 = 16.443 -> -16.44; 147.99: derived."""
    quote = quoted('[charges]\ndiscount = "10 %"\ndiscount_classes = ["labour"]\n')
    assert (str(quote.discount), str(quote.subtotal), str(quote.total)) == ("-16.44", "147.99", "147.99")


def test_an_included_tax_does_not_raise_the_total():
    """164.43 x 0.2 / 1.2 = 27.405 -> 27.41: derived."""
    quote = quoted(taxes=(tax("20", included=True),))
    assert (str(quote.taxes[0].amount), str(quote.total)) == ("27.41", "164.43")


def test_a_quote_in_yen(tmp_path):
    """5481 x 4 = 21924; 10 % = 2192.4 -> 2192; 24116, to the nearest ten 24120; half of it 12060: derived."""
    quote = in_shop(tmp_path, IN_YEN)
    assert amounts(list(quote.lines)) == ["21924"]
    assert [str(found.amount) for found in quote.taxes] == ["2192"]
    assert (str(quote.cash_rounding), str(quote.total)) == ("4", "24120")
    assert (str(quote.deposit), str(quote.balance)) == ("12060", "12060")


def test_a_quote_in_dinars(tmp_path):
    """5481 x 0.0105 = 57.5505 -> 57.551; 5 % = 2.87755 -> 2.878; 60.429; 30 % = 18.1287 -> 18.129: derived."""
    quote = in_shop(tmp_path, IN_DINARS)
    assert amounts(list(quote.lines)) == ["57.551"]
    assert [str(found.amount) for found in quote.taxes] == ["2.878"]
    assert (str(quote.total), str(quote.deposit), str(quote.balance)) == ("60.429", "18.129", "42.300")


IN_YEN = """
[money]
currency = "JPY"
symbol = "¥"
cash_rounding = 10
[rates]
minimum = 0
[rates.quilting]
edge-to-edge = 4
[[tax]]
label = "Consumption tax"
percent = "10 %"
classes = ["labour", "material"]
[deposit]
percent = "50 %"
"""

IN_DINARS = """
[money]
currency = "KWD"
symbol = "KD"
[rates]
minimum = "10.250"
[rates.quilting]
edge-to-edge = "0.0105"
[[tax]]
label = "Tax"
percent = "5 %"
classes = ["labour"]
[deposit]
percent = "30 %"
"""


# By hand from 164.43: the nearest 0.05 is 164.45, the nearest 0.10 is 164.40, the nearest whole 164.00.
@pytest.mark.parametrize(
    ("coin", "rounding", "whole"),
    [(0, "0.00", "164.43"), (1, "0.00", "164.43"), (5, "0.02", "164.45"), (10, "-0.03", "164.40"),
     (100, "-0.43", "164.00")],
)  # fmt: skip
def test_cash_is_rounded_to_the_nearest_coin(coin, rounding, whole):
    quote = quoted(coin=Money(coin, USD).major)
    assert (str(quote.cash_rounding), str(quote.total)) == (rounding, whole)
    assert str(quote.subtotal) == "164.43"


def test_half_a_coin_is_rounded_up():
    """A minimum of 182.25 stands over 164.43 and lies half way between 182.00 and 182.50: derived."""
    rates = resolve(Source("a top", QUILTING_ALONE)).shop.rates
    quote = quoted(rates=replace(rates, minimum=Fraction("182.25")), coin=Fraction("0.50"))
    assert (str(quote.subtotal), str(quote.cash_rounding), str(quote.total)) == ("182.25", "0.25", "182.50")


# ---- deposit ------------------------------------------------------------------------------------------------


def test_a_deposit_by_percent_is_of_the_total_with_tax():
    """172.65 (above) x 50 % = 86.325 -> 86.33, balance 86.32: derived."""
    quote = quoted(taxes=(tax("5"),), deposit=deposit(percent=Fraction(1, 2)))
    assert (str(quote.deposit), str(quote.balance)) == ("86.33", "86.32")


def test_a_deposit_by_amount_is_that_amount():
    quote = quoted(deposit=deposit(amount=Fraction(100)))
    assert (str(quote.deposit), str(quote.balance)) == ("100.00", "64.43")


def test_a_deposit_is_never_more_than_the_total():
    quote = quoted(deposit=deposit(amount=Fraction(200)))
    assert (str(quote.deposit), str(quote.balance)) == ("164.43", "0.00")


def test_a_deposit_of_some_classes_is_a_share_of_their_lines_before_tax():
    """One thread at 8.00 is the only material: 30 % of 8.00 = 2.40; total 172.43 + 5 % of it (8.6215 -> 8.62)
    = 181.05: derived."""
    extras = '[charges]\nextras = ["thread"]\n'
    quote = quoted(extras, taxes=(tax("5"),), deposit=deposit(percent=Fraction(3, 10), classes=("material",)))
    assert (str(quote.total), str(quote.deposit), str(quote.balance)) == ("181.05", "2.40", "178.65")


def test_a_deposit_of_a_class_includes_its_rush_and_discount():
    """Material 40.00 + 25 % = 50.00, of which half: 25.00: derived."""
    lines = changed([item("60.00", "labour"), item("40.00")], rush=Fraction(1, 4), rush_classes=("material",))
    asked = deposit_amount(deposit(percent=Fraction(1, 2), classes=("material",)), lines, Money(11000, USD))
    assert str(asked) == "25.00"


def test_no_deposit_asked_means_none():
    assert deposit_amount(deposit(), [item("40.00")], Money(4000, USD)) == USD.zero


# ---- properties over whole quotes ---------------------------------------------------------------------------

SAMPLE = resolve(Source("a top", "[top]\nwidth = 60\nlength = 80\n"))
shares = st.integers(0, 10000).map(lambda part: Fraction(part, 10000))
classes = st.sampled_from([("labour",), ("material",), BOTH])
taxes = st.builds(
    section, st.just(Tax), label=st.just("Tax"), percent=shares, classes=classes, included=st.booleans(),
    by=st.sampled_from(["invoice", "item"]),
)  # fmt: skip
each_share = st.builds(section, st.just(ClassShares), labour=shares, material=shares)
deposits = st.builds(deposit, percent=shares, classes=classes) | st.builds(deposit, shares=each_share)
sides = st.integers(8 * 20, 8 * 110).map(lambda eighths: Length.of(Fraction(eighths, 8), "in"))
hundredths = st.integers(0, 1000).map(lambda part: Fraction(part, 100))
ordered = st.builds(
    section, st.just(OrderedExtra), name=st.sampled_from(sorted(SAMPLE.shop.extras)), quantity=hundredths
)
one_offs = st.builds(
    section, st.just(OneOff), label=st.just("Line"), quantity=hundredths, line_class=st.sampled_from(BOTH),
    price=st.integers(0, 10**6).map(lambda cents: Fraction(cents, 100)),
    per=st.sampled_from(["each", "hour", "yd", "sq in"]),
)  # fmt: skip
charges = st.builds(
    section, st.just(Charges), rush=shares, rush_classes=classes, discount=shares, discount_classes=classes,
    extras=st.lists(ordered, max_size=3).map(tuple), lines=st.lists(one_offs, max_size=2).map(tuple),
)  # fmt: skip


@st.composite
def quotes(draw) -> tuple[Quote, Money]:
    """A quote for any top, in a currency with 0, 2 or 3 decimals, and the least coin."""
    currency = draw(st.sampled_from([USD, JPY, KWD]))
    coin = Money(draw(st.sampled_from([0, 1, 5, 10, 50])), currency)
    shop = replace(
        SAMPLE.shop,
        currency=currency,
        money=replace(SAMPLE.shop.money, currency=currency.code, cash_rounding=coin.major),
        rates=replace(SAMPLE.shop.rates, minimum=Money(draw(st.integers(0, 20000)), currency).major),
        taxes=Figure(tuple(draw(st.lists(taxes, max_size=3)))),
        deposit=draw(deposits),
    )
    top = replace(SAMPLE.project.top, width=draw(sides), length=draw(sides))
    project = replace(SAMPLE.project, currency=currency, top=top, charges=draw(charges))
    return finish(replace(SAMPLE, project=project, shop=shop)).quote, coin


def on_paper(amount: Money) -> Fraction:
    """What a reader adds up: the printed text."""
    return Fraction(Notation("in", group="").bare_money(amount))


@given(quotes())
def test_the_total_is_the_sum_of_what_is_printed(found):
    quote, _ = found
    subtotal = sum(on_paper(line.amount) for line in quote.lines)
    assert on_paper(quote.subtotal) == subtotal
    put_on_top = sum(on_paper(one.amount) for one in quote.taxes if not one.included)
    assert on_paper(quote.total) == subtotal + put_on_top + on_paper(quote.cash_rounding)


@given(quotes())
def test_each_line_is_its_quantity_times_its_rate_half_up(found):
    quote, _ = found
    for line in quote.lines:
        exact = line.quantity * line.rate * 10**quote.currency.digits
        size = (abs(exact) + Fraction(1, 2)) // 1
        assert line.amount.minor == (size if exact >= 0 else -size)


@given(quotes())
def test_each_quantity_is_the_one_that_is_printed(found):
    for line in found[0].lines:
        if line.kind == "item":
            assert printed(line.quantity, line.unit) == line.quantity


@given(quotes())
def test_deposit_and_balance_are_the_total(found):
    quote, _ = found
    assert on_paper(quote.deposit) + on_paper(quote.balance) == on_paper(quote.total)
    assert quote.currency.zero <= quote.deposit <= quote.total


@given(quotes())
def test_the_total_can_be_paid_in_coins_and_moves_by_half_a_coin_at_most(found):
    quote, coin = found
    assert quote.total.minor % max(coin.minor, 1) == 0
    assert 2 * abs(quote.cash_rounding.minor) <= coin.minor


@given(quotes())
def test_each_tax_is_on_the_sum_of_its_printed_lines_and_never_more_than_it(found):
    quote, _ = found
    for one in quote.taxes:
        assert quote.currency.zero <= one.amount <= one.base
        assert one.base <= quote.subtotal


@given(quotes())
def test_the_discount_told_is_the_sum_of_its_lines(found):
    quote, _ = found
    given_away = [on_paper(line.amount) for line in quote.lines if line.kind == "discount"]
    assert on_paper(quote.discount) == sum(given_away)
    assert all(amount <= 0 for amount in given_away)
