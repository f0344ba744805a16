"""Seams charged by their number, by their length, or by both."""

from fractions import Fraction
from pathlib import Path

import pytest

from finishcalc.alternatives.in_house import profit_of
from finishcalc.pipeline import Finishing
from finishcalc.problems import ProblemsFound
from finishcalc.wording.notation import NO_BREAK, Notation
from tests.builders import in_shop, labels, tried

SHORT = "[top]\nwidth = 30\nlength = 30\n[backing]\nsewn = { width = 30, length = 38 }\n"
"""A sewn backing that reaches no further than the top at its sides: one piece is sewn on along 38 in."""
LONG = "[top]\nwidth = 72\nlength = 90\n[backing]\nsewn = { width = 72, length = 98 }\n"
"""The same of a twin: 98 in, from three pieces of 40 in, with two joins across a strip that is 8 in wider
than the backing and shows half an inch that is under the outer edge: 98 + 2 x 8 1/2 = 115 in, 3 seams."""

BY_LENGTH = "[rates]\nseam = { each = 0, along = '0.20', per = 'in' }\n"
BY_BOTH = "[rates]\nseam = { each = 5, along = '0.10', per = 'in' }\n"


def seams(result: Finishing) -> list[tuple[str, Fraction, str, str]]:
    found = zip(labels(result), result.quote.lines, strict=True)
    return [(label, each.quantity, each.unit, str(each.amount)) for label, each in found if label.startswith("Seam")]


@pytest.mark.parametrize(
    ("shop", "lines"),
    [
        ("[rates]\nseam = 20\n", [("Seams of the backing strip", 1, "each", "20.00")]),
        ("[rates]\nseam = { each = 20 }\n", [("Seams of the backing strip", 1, "each", "20.00")]),
        (BY_LENGTH, [("Seams of the backing strip, along its length", 38, "in", "7.60")]),  # 38 x 0.20
        (
            BY_BOTH,
            [
                ("Seams of the backing strip", 1, "each", "5.00"),
                ("Seams of the backing strip, along its length", 38, "in", "3.80"),
            ],
        ),
        ("[rates]\nseam = 0\n", []),
    ],
)
def test_a_seam_is_charged_by_number_by_length_or_by_both(shop: str, lines: list[object], tmp_path: Path):
    assert seams(in_shop(tmp_path, shop, SHORT)) == lines


def test_a_short_join_costs_less_than_a_long_seam(tmp_path: Path):
    """115 x 0.20, where three seams at 20.00 each are 60.00."""
    label = "Seams of the backing strip, along their length"
    assert seams(in_shop(tmp_path, BY_LENGTH, LONG)) == [(label, 115, "in", "23.00")]
    assert seams(in_shop(tmp_path, "[rates]\nseam = 20\n", LONG))[0][3] == "60.00"


def test_the_time_of_seams_is_counted_once(tmp_path: Path):
    """6 + 38 x 0.08 = 9.04 min, with the first of the lines that there are."""
    for shop in (BY_LENGTH, BY_BOTH):
        result = in_shop(tmp_path, shop, SHORT)
        minutes = [each.minutes for each in result.quote.lines if each.rates[0].key.startswith("rates.seam")]
        assert sum(minutes) == Fraction("9.04") == minutes[0]
        assert profit_of(result).earned.hours == profit_of(in_shop(tmp_path, "", SHORT)).earned.hours


def test_the_arithmetic_says_the_length(tmp_path: Path):
    written = [
        Notation("in").write(each).replace(NO_BREAK, " ") for each in in_shop(tmp_path, BY_LENGTH, SHORT).quote.working
    ]
    assert "Seams of the backing strip, along its length: 38 in in all" in written


def test_a_backing_of_shorter_seams_leads_where_length_is_charged(tmp_path: Path):
    """However dear an inch of seam is, no backing that was weighed has a lesser total."""
    shop = "[cloth]\nworth_a_seam = 0\nworth_turning = 0\n[rates]\nseam = { each = 0, along = 2, per = 'in' }\n"
    result = in_shop(tmp_path, shop, "[top]\nwidth = 72\nlength = 90\n")
    assert result.quote.total == min(each.quote.total for each in result.backings)
    lengths = [each.option.layout.seam_length for each in result.backings]
    assert result.plans.backing.seam_length == min(lengths)


def test_a_price_for_each_seam_takes_away_the_one_along_it(tmp_path: Path):
    """A value that is tried over the shop's, as a number and as a key of the table."""
    (tmp_path / "shop.toml").write_text(BY_BOTH)
    path = tmp_path / "project.toml"
    path.write_text("shop = 'shop.toml'\n" + SHORT)
    (plain,), (along,) = (tried(path, text) for text in ("rates.seam=20", "rates.seam.along=0.5"))
    assert [each[3] for each in seams(plain)] == ["20.00"]
    assert [each[3] for each in seams(along)] == ["5.00", "19.00"]


@pytest.mark.parametrize(
    ("seam", "path", "message"),
    [
        ("{ each = 0, along = '0.2' }", "rates.seam.along", "is for no unit of length"),
        ("{ along = '0.2', per = 'in' }", "rates.seam.each", "is missing"),
        ("{ each = 5, along = '-1', per = 'in' }", "rates.seam.along", "-1 is out of bounds"),
    ],
)
def test_a_price_of_seams_that_is_not_whole_is_refused(seam: str, path: str, message: str, tmp_path: Path):
    with pytest.raises(ProblemsFound) as found:
        in_shop(tmp_path, f"[rates]\nseam = {seam}\n", SHORT)
    (problem,) = found.value.problems
    assert (problem.path, problem.line) == (path, 2)
    assert message in problem.message
