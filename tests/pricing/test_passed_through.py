"""Money that is passed through: postage and the like, which are neither the studio's work nor its goods."""

from pathlib import Path

import pytest

from finishcalc.pipeline import Finishing
from finishcalc.wording.notation import NO_BREAK, Notation
from tests.builders import BARE, in_shop, line

# 60 x 80 at 0.03 a sq in: 144.00 of labour, and nothing else.

POSTED = BARE + "[[charges.lines]]\nlabel = 'Postage'\nprice = 28\nline_class = 'pass-through'\n"
TAXED = "[[tax]]\nlabel = 'T'\npercent = '10 %'\nclasses = [CLASSES]\n"
TWO = "'labour', 'material'"
THREE = "'labour', 'material', 'pass-through'"


def with_charges(tmp_path: Path, shop: str, charges: str) -> Finishing:
    return in_shop(tmp_path, shop, POSTED.replace("[[charges", f"[charges]\n{charges}\n[[charges", 1))


def test_postage_is_neither_rushed_nor_discounted(tmp_path: Path):
    """144.00 x 25 % = 36.00; -(144 + 36) x 10 % = -18.00; 144 + 28 + 36 - 18 = 190.00."""
    result = with_charges(tmp_path, "", "rush = '25 %'\ndiscount = '10 %'")
    assert line(result, "Rush")[2] == "36.00"
    assert line(result, "Discount")[2] == "-18.00"
    assert str(result.quote.subtotal) == "190.00"


def test_postage_is_rushed_and_discounted_where_its_class_is_named(tmp_path: Path):
    """28.00 x 25 % = 7.00; -(28 + 7) x 10 % = -3.50."""
    charges = "rush = '25 %'\ndiscount = '10 %'\nrush_classes = ['pass-through']\ndiscount_classes = ['pass-through']"
    result = with_charges(tmp_path, "", charges)
    assert line(result, "Rush, {share} of pass-through")[2] == "7.00"
    assert line(result, "Discount, {share} of pass-through")[2] == "-3.50"
    assert str(result.quote.subtotal) == "175.50"  # 144 + 28 + 7 - 3.50


@pytest.mark.parametrize(("classes", "amount"), [(TWO, "14.40"), (THREE, "17.20")])
def test_postage_is_taxed_only_where_the_tax_names_it(classes: str, amount: str, tmp_path: Path):
    """A tenth of 144.00, or of 172.00."""
    (tax,) = in_shop(tmp_path, TAXED.replace("CLASSES", classes), POSTED).quote.taxes
    assert str(tax.amount) == amount


@pytest.mark.parametrize(
    ("deposit", "label", "amount"),
    [
        (f"percent = '50 %'\nclasses = [{THREE}]", "Deposit", "86.00"),  # half of 172.00
        (f"percent = '50 %'\nclasses = [{TWO}]", "Deposit, 50 % of labour and 50 % of material", "72.00"),
        ("shares = { labour = '25 %', material = '0 %' }", "Deposit, 25 % of labour and 0 % of material", "36.00"),
        (
            "shares = { labour = '25 %', material = '0 %', pass_through = '100 %' }",
            "Deposit, 25 % of labour, 0 % of material and 100 % of pass-through",
            "64.00",
        ),
    ],
)
def test_the_deposit_is_of_postage_only_where_it_names_it(deposit: str, label: str, amount: str, tmp_path: Path):
    result = in_shop(tmp_path, f"[deposit]\n{deposit}\n", POSTED)
    assert str(result.quote.deposit) == amount
    assert Notation("in").write(result.quote.deposit_label).replace(NO_BREAK, " ") == label


def test_a_deposit_of_labour_and_material_is_one_of_the_total_where_nothing_is_passed_through(tmp_path: Path):
    """Half of 144.00 with its tax of 14.40."""
    shop = TAXED.replace("CLASSES", TWO) + f"[deposit]\npercent = '50 %'\nclasses = [{TWO}]\n"
    quote = in_shop(tmp_path, shop, BARE).quote
    assert str(quote.deposit) == "79.20"
    assert quote.deposit_share is not None
