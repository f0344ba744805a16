"""Offers: what else could be ordered, and what that adds."""

import json
import re
from pathlib import Path

import pytest

from finishcalc.alternatives.choices import offers_of
from finishcalc.alternatives.in_house import profit_of
from finishcalc.commandline.views import quote_document
from finishcalc.pipeline import Finishing
from tests.builders import LAP, in_shop, line, quote_text, quoted


def adds(result: Finishing) -> dict[str, int]:
    return {offer.label.text.format_map(offer.label.values): offer.adds.minor for offer in offers_of(result)}


def test_each_offer_is_what_the_total_would_be_more():
    project = LAP + "[backing]\nhave = '6 yd'\n"
    result = quoted(project)
    now = result.quote.total.minor
    ordered = {
        "Our backing, quilting cotton, 44 in wide": LAP,
        "Our backing, wide cotton backing, 108 in": LAP + "[backing]\nfabric = 'cotton-wide-108'\n",
        "The binding finished by hand": project + "[binding]\nattach = 'hand'\n",
        "Label, sewn on": project + "[charges]\nextras = ['label']\n",
    }
    for label, text in ordered.items():
        assert adds(result)[label] == quoted(text).quote.total.minor - now, label


def test_nothing_is_offered_that_is_ordered_already():
    ordered = LAP + "[backing]\nfabric = 'cotton-wide-108'\n[binding]\nattach = 'hand'\n"
    ordered += "[charges]\nextras = ['label', 'sleeve']\n"
    assert adds(quoted(ordered)) == {}
    assert "Options" not in quote_text(quoted(ordered), "customer")


def test_offers_stand_under_the_total_and_are_not_in_it():
    page = quote_text(quoted(LAP.replace("[top]\n", "[top]\nuse = 'wall'\n")), "customer")
    assert page.index("Total, USD") < page.index("each alone would make the total")
    assert "strip of 8 1/2 in" in " ".join(page.split())  # a sleeve of 4 finished (common practice)


def test_an_offer_that_rests_on_a_sample_is_marked(tmp_path: Path):
    shop = "[extras]\nlabel = { label = 'Label', price = 9, per = 'each', line_class = 'labour' }\n"
    shop += "[offers]\nextras = ['label', 'sleeve']\n"
    page = " ".join(quote_text(in_shop(tmp_path, shop, LAP), "customer").split())
    assert re.search(r"Label: \$[\d.]+ (?!\*)", page)
    assert re.search(r"Hanging sleeve[^$]*\$[\d.]+ \*", page)
    offers = json.loads(quote_document(in_shop(tmp_path, shop, LAP)))["offers"]
    assert {offer["label"]: offer["rests_on_samples"] for offer in offers}["Label"] is False
    assert any(offer["rests_on_samples"] for offer in offers)


def test_her_own_cloth_is_not_offered_as_ours():
    project = LAP + "[backing]\nhave = '6 yd'\nfabric = { name = 'Granny cloth', width = 60, price = 0, per = 'yd' }\n"
    assert not any("Granny" in str(offer.label.values) for offer in offers_of(quoted(project)))


def test_our_backing_is_offered_for_one_that_is_sewn_already():
    project = LAP + "[backing]\nsewn = { width = 70, length = 92 }\n"
    result = quoted(project)
    assert line(result, "Preparing your backing") == (1, "each", "10.00")
    ours = quoted(LAP).quote.total - result.quote.total
    assert adds(result)["Our backing, quilting cotton, 44 in wide"] == ours.minor


def test_one_cloth_is_offered_once():
    """She brings the very cloth that the shop compares with."""
    brought = LAP + "[backing]\nhave = '6 yd'\nfabric = 'cotton-wide-108'\n"
    labels = [offer.label.values.get("fabric") for offer in offers_of(quoted(brought))]
    assert labels.count("wide cotton backing, 108 in") == 1


def test_a_minimum_charge_costs_the_hours_that_someone_stands_by():
    """Guided by a computer, not all that is planned is attended: the line's cost is at the wage and the other costs of
    30 + 8 an hour for what is."""
    small = "[top]\nwidth = 30\nlength = 40\n[quilting]\nmethod = 'longarm-computer-guided'\n"
    result = quoted(small)
    hours = result.plans.quilting.hours
    assert hours.attended < hours.planned
    found = profit_of(result).lines[0]
    assert "minimum" in found.line.label.text
    assert found.cost == result.quote.currency.round(38 * hours.attended / 60)


@pytest.mark.parametrize(("attach", "offered"), [("front", True), ("machine", True), ("hand", False), ("hem", False)])
def test_by_hand_is_offered_where_it_is_not_done(attach: str, offered: bool):
    result = quoted(LAP + f"[binding]\nattach = '{attach}'\n")
    assert ("The binding finished by hand" in adds(result)) == offered


def test_a_shop_may_offer_nothing(tmp_path: Path):
    assert offers_of(in_shop(tmp_path, "[offers]\nbacking = false\nby_hand = false\nextras = []\n", LAP)) == ()


OWN_MARKUP = "tax = []\n[rates]\nmarkup = '50 %'\nseam = 18\n"
OWN_CLOTH = "[fabrics.cotton-44]\nprice = 9\n"
OWN_WIDE = "[fabrics.cotton-wide-108]\nprice = 12\n"


@pytest.mark.parametrize(
    ("shop", "marked"),
    [
        (OWN_MARKUP + OWN_CLOTH + OWN_WIDE, False),
        ("tax = []\n" + OWN_CLOTH + OWN_WIDE, True),  # the sample's markup
        (OWN_MARKUP + OWN_CLOTH, True),  # the sample's price of the wider cloth
    ],
)
def test_an_offer_on_a_sample_markup_or_price_is_marked(shop: str, marked: bool, tmp_path: Path):
    """The backing in the wider cloth rests on the price of that, on the markup, and on nothing that it replaces."""
    offers = {offer.label.text: offer for offer in offers_of(in_shop(tmp_path, shop, LAP))}
    assert offers["The backing in {fabric}"].rests_on_sample == marked


def test_an_hour_of_sample_stages_is_marked(tmp_path: Path):
    """The price of an hour is its own, but how many there are rests on the sample's stages."""
    own = "[rates.quilting]\nedge-to-edge = { price = 45, per = 'hour' }\n"
    page = quote_text(in_shop(tmp_path, own, LAP), "customer")
    (row,) = (line for line in page.splitlines() if line.startswith("Quilting, "))
    assert re.search(r" hour +45\.00  \* ", row)


def test_what_was_ordered_for_nothing_is_on_the_quote(tmp_path: Path):
    """Three free hours are hours all the same."""
    extra = "[extras]\ncare = { label = 'Mended', price = PRICE, per = 'hour', line_class = 'labour' }\n"
    ordered = LAP + "[charges]\nextras = [{ name = 'care', quantity = 3 }]\n"
    free, paid = (in_shop(tmp_path, extra.replace("PRICE", price), ordered) for price in ("0", "1"))
    assert "Mended" in quote_text(free, "customer")
    assert profit_of(free).earned.hours == profit_of(paid).earned.hours
    assert paid.quote.total.minor - free.quote.total.minor == 300


def test_a_stage_is_what_it_is_for_whatever_it_is_called(tmp_path: Path):
    stage = "{ name = 'make the binding', each = 'quilt', low = 60, likely = 60, high = 60, attended = '100 %' }"
    shop = f"[methods.longarm-hand-guided]\nstages = [{stage}]\n"
    usual, odd = (
        {each.line.rates[0].key: each.cost for each in profit_of(in_shop(tmp_path, text, LAP)).lines}
        for text in ("", shop)
    )
    assert odd["rates.binding.make"] == usual["rates.binding.make"]


# --- wider cloths -----------------------------------------------------------------------------------------------------

WIDE = """[fabrics.wide]
name = "wide"
width = 110
price = {wide}
per = "yd"
[fabrics.wider]
name = "wider"
width = 120
price = {wider}
per = "yd"
[cloth]
selvage = 1
wider = ["wide", "wider"]
"""


def wider_offers(wide: str, wider: str, folder: Path, project: str = LAP) -> list[str]:
    found = in_shop(folder, WIDE.format(wide=wide, wider=wider), project)
    return [str(offer.label.values["fabric"]) for offer in offers_of(found) if "fabric" in offer.label.values]


@pytest.mark.parametrize(
    ("wide", "wider", "offered"),
    [
        ("'1.00'", "'1.50'", ["wide"]),  # as few seams for less
        ("'1.50'", "'1.00'", ["wider"]),
        ("30", "40", ["wide"]),  # dearer than the usual backing, but without its seam
    ],
)
def test_of_two_wider_cloths_the_one_that_is_bettered_is_no_offer(
    wide: str, wider: str, offered: list[str], tmp_path: Path
):
    assert wider_offers(wide, wider, tmp_path) == offered


def test_a_wider_cloth_that_saves_neither_money_nor_a_seam_is_no_offer(tmp_path: Path):
    """30 x 40 and 4 over is 38 x 48: one piece of the usual cloth, 40 usable."""
    assert wider_offers("30", "40", tmp_path, "[top]\nwidth = 30\nlength = 40\n") == []


def test_two_wider_cloths_are_two_offers_where_one_is_cheaper_and_the_other_has_fewer_seams(tmp_path: Path):
    """104 x 110 and 4 over is 112 x 118: seamless in 118 usable of the wider alone."""
    large = "[top]\nwidth = 104\nlength = 110\n"
    assert wider_offers("'1.00'", "20", tmp_path, large) == ["wide", "wider"]


def test_a_wider_cloth_is_taken_by_its_own_name(tmp_path: Path):
    found = in_shop(tmp_path, WIDE.format(wide="'1.50'", wider="'1.00'"), LAP)
    assert next(offer.take for offer in offers_of(found)) == {"backing.fabric": "wider"}


def test_her_own_backing_is_compared_with_the_better_of_the_wider_cloths(tmp_path: Path):
    assert wider_offers("30", "40", tmp_path, LAP + "[backing]\nhave = '6 yd'\n") == [
        "quilting cotton, 44 in wide",
        "wide",
    ]
