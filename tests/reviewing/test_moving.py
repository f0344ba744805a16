"""A figure a tenth off, written as a file writes it: exactly, in the unit it stands in."""

from fractions import Fraction

import pytest

from finishcalc.intake.layers import Sourced
from finishcalc.intake.resolve import resolve
from finishcalc.intake.source import Source
from finishcalc.reviewing.moving import as_written, moved, moves
from tests.builders import in_shop, quoted

TENTH_MORE = Fraction(11, 10)


def of(text: str, *path: str | int) -> Sourced:
    return resolve(Source("t.toml", text)).layers.values[path]


TOP = "[top]\nwidth = 60\nlength = 80\n"


@pytest.mark.parametrize(
    ("key", "value", "more"),
    [
        ("backing.overage", "4", "4.4 in"),
        ("backing.overage", '"3 1/2"', "3.85 in"),
        ("backing.overage", '"10 cm"', "11 cm"),
        ("backing.overage", "{ sides = 3, ends = 4 }", {"sides": "3.3 in", "ends": "4.4 in"}),
        ("charges.rush", '"10 %"', "11 %"),
        ("charges.rush", '"33.333 %"', "36.666 %"),
    ],
)
def test_a_value_is_written_in_its_own_unit(key: str, value: str, more: object):
    """11/10 of it: 33.333 % x 1.1 = 36.6663 %, of which a file takes three decimals."""
    table, name = key.split(".")
    assert moved(of(f"{TOP}[{table}]\n{name} = {value}\n", table, name), TENTH_MORE) == more


def test_a_price_has_six_decimals_at_most(tmp_path):
    """0.333333 x 1.1 = 0.3666663, of which six decimals are 0.366666."""
    shop = in_shop(tmp_path, "[rates.binding]\nhand = '0.333333'\n")
    assert moved(shop.resolved.layers.values["rates", "binding", "hand"], TENTH_MORE) == "0.366666"


def test_minutes_move_all_three():
    sourced = quoted(TOP).resolved.layers.values["edge_time", "make"]
    assert as_written(sourced) == {"low": "0.08", "likely": "0.11", "high": "0.25"}
    assert moved(sourced, TENTH_MORE) == {"low": "0.088", "likely": "0.121", "high": "0.275"}


def test_rows_move_by_their_money_and_keep_the_rest(tmp_path):
    package = '{ size = "queen", width = 90, length = 108, price = 20 }'
    shop = in_shop(tmp_path, f"[battings.mine]\nname = 'mine'\npackages = [{package}]\n")
    sourced = shop.resolved.layers.values["battings", "mine", "packages"]
    assert moved(sourced, TENTH_MORE) == [{"size": "queen", "width": "90 in", "length": "108 in", "price": "22"}]


def test_a_stage_that_takes_longer_stitches_slower():
    """Minutes rise by a tenth; a speed of 60 falls to 60 / 1.1 = 600/11."""
    sourced = quoted(TOP).resolved.layers.values["quilting", "method", "stages"]
    before, after = as_written(sourced), moved(sourced, TENTH_MORE)
    assert isinstance(before, list)
    assert isinstance(after, list)
    for old, new in zip(before, after, strict=True):
        factor = Fraction(10, 11) if "speed" in old else Fraction(11, 10)
        assert Fraction(new["likely"]) == Fraction(old["likely"]) * factor
        assert (old["name"], old["each"], old["attended"]) == (new["name"], new["each"], new["attended"])


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ("[backing]\nseams = 'any'\n", ("backing", "seams")),
        ("[quilting]\ncolours = 2\n", ("quilting", "colours")),
        ("[charges]\nrush = '0 %'\n", ("charges", "rush")),
        ("[job]\nthread = 'cream'\n", ("job", "thread")),
        ("[job]\ndate = 2026-05-04\n", ("job", "date")),
    ],
)
def test_words_counts_days_and_zeros_do_not_move(text: str, path: tuple[str, ...]):
    assert not moves(of(TOP + text, *path))
