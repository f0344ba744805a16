"""Napped cloth: a band pieced of strips takes less of it, and is told as an option with its reason, but never leads."""

import pytest

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.pipeline import Finishing
from tests.builders import backing_of, cloth, inches, quote_text, quoted, yards

PLUSH = "[top]\nwidth = 70\nlength = 88\n[backing]\nfabric = 'plush-60'\n"
"""78 x 96 with 4 over, from 58 usable. Two panels of 96 and 1 to square are 193 in, 5 3/8 yd. One panel and a band of
two strips side by side, each (96 + 1) / 2 = 48 1/2 long: 96 + 48 1/2 + 1 = 145 1/2 in, sold as 4 1/8 yd."""


def lead(result: Finishing):
    return result.plans.backing.chosen


def test_full_panels_lead_in_napped_cloth():
    result = quoted(PLUSH)
    assert (lead(result).amount, lead(result).layout.seams, lead(result).breaks_pile) == (yards("5 3/8"), 1, False)


def test_the_pieced_strip_is_told_with_its_reason():
    """1 1/4 yd of 18.00 at 1.4 is 31.50 less, and 20.00 more for the seam: 11.50 less, and 5 % tax on the cloth 1.575.
    The tax is rounded on its sum, 183.40 - 31.50 = 151.90: 7.595 is 7.60, and 9.17 - 7.60 = 1.57."""
    result = quoted(PLUSH)
    other = next(each for each in alternatives_of(result).backings if each.option.breaks_pile)
    assert (other.option.amount, other.option.layout.seams) == (yards("4 1/8"), 2)
    assert [cut.length for cut in other.option.layout.cuts] == [inches(96), inches("48 1/2"), inches("48 1/2")]
    assert str(other.adds) == "-13.07"
    for reader in ("customer", "studio"):
        page = " ".join(quote_text(result, reader).split())
        assert "4 1/8 yd with 2 seams, one strip joined end to end (bulk in the seam, and a break in the pile)" in page


def test_what_it_says_to_write_takes_it():
    result = quoted(PLUSH)
    other = next(each for each in alternatives_of(result).backings if each.option.breaks_pile)
    taken = quoted(PLUSH + "seam_count = 2\nturned = false\nseams = 'lengthwise'\noverage = '4 in'\n")
    assert other.take["backing.seam_count"] == 2
    assert (lead(taken).amount, taken.quote.total) == (yards("4 1/8"), other.total)
    assert "broken-pile" in [caution.code for caution in taken.cautions]
    assert "broken-pile" not in [caution.code for caution in result.cautions]


@pytest.mark.parametrize("kind", ["directional", "nap", None])
def test_only_a_nap_has_a_pile_to_break(kind: str | None):
    fabric = cloth(58, straighten=inches(1), **({kind: True} if kind else {}))
    plan = backing_of(70, 88, fabric=fabric)
    band = next(option for option in plan.options if option.layout.band and not option.layout.turned)
    assert band.breaks_pile == (kind == "nap")
    assert any(option.amount == yards("4 1/8") and option.layout.seams == 2 for option in plan.options)


def test_no_piece_of_napped_cloth_is_turned():
    options = backing_of(70, 88, fabric=cloth(58, nap=True)).options
    assert any(option.breaks_pile for option in options)
    assert not any(piece.turned for option in options for piece in option.layout.assembly)


def test_napped_cloth_that_is_brought_is_cut_in_full_panels():
    """4 1/4 yd, 153 in, holds the panel and band of 145 1/2, but not two panels of 193."""
    result = quoted(PLUSH + "have = '4 1/4 yd'\n")
    assert not lead(result).breaks_pile
    assert result.plans.backing.customer_supplied.verdict == "short"
