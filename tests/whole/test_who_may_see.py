"""The customer is shown prices and nothing of what the studio keeps to itself, in any view of any sample."""

import json
import re
from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.in_house import profit_of
from finishcalc.commandline.views import quote_document
from finishcalc.rendering.writing import notation_of
from finishcalc.wording.notation import NO_BREAK
from tests.builders import EACH_PROJECT, GOLDEN, PROJECTS, finished, quote_text, run

pytestmark = pytest.mark.usefixtures("shared_work")

HIDDEN = re.compile(
    r"\b(cost|costs|margin|margins|wage|wages|overhead|markup|minutes?|min|earned|break-even|attended|planned|profit)\b",
    re.I,
)
"""Words of what only the studio may see. A cost is what the studio pays: the customer reads prices."""
BY_THE_HOUR = GOLDEN / "by-the-hour.toml"
"""Quilting that is charged by the hour: how many there are is in house even so."""
FILES = [*PROJECTS, GOLDEN / "small-studio.toml", BY_THE_HOUR]
EACH_FILE = [*EACH_PROJECT, GOLDEN / "small-studio.toml", BY_THE_HOUR]


def words_of(value: object) -> list[str]:
    if isinstance(value, dict):
        return [*map(str, value), *(word for item in value.values() for word in words_of(item))]
    return [word for item in value for word in words_of(item)] if isinstance(value, list) else [str(value)]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
@pytest.mark.parametrize("explain", [True, False])
def test_every_word_of_the_customer_s_page_is_for_the_customer(path: Path, explain: bool):
    page = quote_text(finished(path), "customer", explain)
    assert HIDDEN.findall(page) == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_word_of_the_customer_s_document_is_for_the_customer(path: Path):
    text = quote_document(finished(path), "customer")
    assert [word for words in words_of(json.loads(text)) for word in HIDDEN.findall(words)] == []


VIEWS = [
    ("compare", "--as", "60x80"),
    ("compare", "--as", "60x80", "--csv"),
    ("compare", "--as", "60x80", "--markdown"),
    ("compare", "--as", "60x80", "--json", "--for", "customer"),
    ("compare", "--as", "60x80", "--grid", "--cloth", "cotton-44", "--cloth", "linen-60"),
    ("compare", "--as", "60x80", "--grid", "--cloth", "cotton-44", "--cloth", "linen-60", "--csv"),
    ("compare", "--as", "60x80", "--grid", "--cloth", "cotton-44", "--markdown"),
    ("compare", "--as", "60x80", "--grid", "--cloth", "cotton-44", "--json", "--for", "customer"),
    ("compare", "--as", "60x80", "--chart", "--cuts"),
    ("compare", "--as", "60x80", "--chart", "--cuts", "--csv"),
    ("compare", "--as", "60x80", "--chart", "--markdown"),
    ("compare", "--as", "60x80", "--chart", "--json", "--for", "customer"),
    ("quote", "--set", "backing.overage=4", "--set", "backing.overage=5"),
    ("quote", "--set", "rates.wage=31", "--set", "rates.wage=47"),
    ("quote", "--set", "rates.wage=31", "--set", "rates.wage=47", "--json", "--for", "customer"),
]


@pytest.mark.no_cover
@pytest.mark.parametrize("path", EACH_FILE, ids=lambda path: path.stem)
@pytest.mark.parametrize("view", VIEWS, ids=" ".join)
def test_every_word_of_all_other_views_is_for_the_customer(path: Path, view: tuple[str, ...]):
    found = run(view[0], str(path), *view[1:])
    if found.exit_code == 1 and "rectangle" in found.stderr:
        return  # a round top is no pieced one
    assert found.exit_code == 0, found.stderr
    text = found.stdout
    if "--json" in view:
        text = " ".join(words_of(json.loads(text)))
    assert HIDDEN.findall(text) == []
    assert "Tax: whether" not in text


def more_in_the_first(hers: object, ours: object, place: str = "") -> list[str]:
    """The places of the customer's document that the studio's does not have, or has otherwise."""
    if isinstance(hers, dict) and isinstance(ours, dict):
        shared = [key for key in ours if key in hers]
        odd = [f"{place}.{key}" for key in hers if key not in ours] + [place] * (shared != [*hers][: len(shared)])
        return odd + [found for key in shared for found in more_in_the_first(hers[key], ours[key], f"{place}.{key}")]
    if isinstance(hers, list) and isinstance(ours, list) and len(hers) == len(ours):
        return [found for one, other in zip(hers, ours, strict=True) for found in more_in_the_first(one, other, place)]
    if isinstance(hers, list) and isinstance(ours, list):
        return [place] * any(each not in ours for each in hers)
    return [place] * (hers != ours)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_studio_s_document_is_the_customer_s_and_more(path: Path):
    """All that she reads stands in the studio's, in the same order; of samples she reads only that there are some."""
    result = finished(path)
    hers, ours = (json.loads(quote_document(result, reader)) for reader in ("customer", "studio"))  # type: ignore[arg-type]
    assert more_in_the_first(hers, ours) == [".rests_on_samples", ".for"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_cautions_of_the_studio_are_not_in_the_customer_s_document(path: Path):
    result = finished(path)
    told = {each["text"] for each in json.loads(quote_document(result, "customer"))["cautions"]}
    notation = notation_of(result)
    for each in result.cautions:
        words = notation.write(each.sentence).replace(NO_BREAK, " ")
        assert (words in told) == (each.sentence.audience == "customer")


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_cost_or_wage_of_the_studio_stands_in_the_customer_s(path: Path):
    """Amounts, too: of each material what the studio pays for it, unless that is a price or a sum as well."""
    result = finished(path)
    shown = quote_text(result, "customer", explain=True) + quote_document(result, "customer")
    prices = {str(line.amount) for line in result.quote.lines} | {str(result.quote.total), str(result.quote.subtotal)}
    worth = profit_of(result)
    hidden = {str(each.cost) for each in worth.lines if each.cost and each.cost.minor} | {
        str(worth.price_at_wage),
        str(worth.break_even),
    }
    for amount in hidden - prices:
        assert not re.search(rf"(?<![\d.,]){re.escape(amount)}(?![\d])", shown), amount


def test_the_studio_s_views_do_hold_them():
    result = finished(GOLDEN / "small-studio.toml")
    assert {"cost", "margin", "wage"} <= {word.lower() for word in HIDDEN.findall(quote_text(result, "studio"))}
    document = json.loads(quote_document(result))
    assert document["for"] == "studio"
    assert document["studio"]["earned_an_attended_hour"] == "30.16"


@pytest.mark.parametrize("path", [*FILES, GOLDEN / "every-charge.toml"], ids=lambda path: path.stem)
def test_the_document_s_lines_add_up_for_either_reader(path: Path):
    """The lines, added again, are the subtotal; with tax and cash rounding the total; each is quantity by rate."""
    result = finished(path)
    digits = result.quote.currency.digits

    for reader in ("customer", "studio"):
        quote = json.loads(quote_document(result, reader))["quote"]  # type: ignore[arg-type]
        assert sum(Fraction(each["amount"]) for each in quote["lines"]) == Fraction(quote["subtotal"])
        added = sum(Fraction(tax["amount"]) for tax in quote["tax"] if not tax["included"])
        assert Fraction(quote["subtotal"]) + added + Fraction(quote["cash_rounding"]) == Fraction(quote["total"])
        for each in quote["lines"]:
            if each["unit"] != quote["currency"]:
                exact = Fraction(str(each["quantity"])) * Fraction(each["rate"]) * 10**digits
                assert Fraction(each["amount"]) * 10**digits == (exact + Fraction(1, 2)).__floor__()
