"""The figures of a shop file that are the sample's too."""

from pathlib import Path

from finishcalc.intake.source import Source
from finishcalc.reviewing.review import is_shop_file, review_file
from finishcalc.reviewing.yours import perhaps_yours
from tests.builders import PRESETS


def keys(text: str, units: str = "in") -> list[str]:
    return [each.key for each in perhaps_yours(Source("mine.toml", text), units)]


def test_a_figure_that_equals_the_sample_s_is_asked_about_and_another_is_not():
    """The sample's wage is 30 and its minimum 75."""
    assert keys("[rates]\nwage = 30\nminimum = 76\n") == ["rates.wage"]


def test_it_is_the_figure_that_counts_and_not_how_it_is_written():
    assert keys('[rates]\nwage = "30.00"\nmarkup = "40%"\n[cloth]\nworth_turning = "36 in"\n') == [
        "rates.wage", "rates.markup", "cloth.worth_turning",
    ]  # fmt: skip


def test_a_preset_s_own_price_is_asked_about_too():
    """A yard of cotton-44 is a sample of 11."""
    assert keys("[fabrics.cotton-44]\nprice = 11\n") == ["fabrics.cotton-44.price"]
    assert keys("[fabrics.cotton-44]\nprice = 12\n") == []
    assert keys("[fabrics.my-own]\nprice = 11\n") == []


def test_words_and_zeros_are_no_figures():
    assert keys('[money]\ncurrency = "USD"\ncash_rounding = 0\n[cloth]\nrepeat = 0\nmost_seams = 3\n') == []


def test_each_names_its_line():
    (found,) = perhaps_yours(Source("mine.toml", "units = 'in'\n[rates]\n\nwage = 30\n"), "in")
    assert (found.key, found.value, found.line) == ("rates.wage", "30", 4)


def test_a_copy_of_the_sample_is_the_sample_s_from_end_to_end():
    """As many as the sample has lines of figures, and the rates among them."""
    sample = (PRESETS / "shops" / "inch.toml").read_text(encoding="utf-8")
    found = keys(sample)
    assert len(found) > 60
    assert {"rates.wage", "rates.markup", "frame.throat", "tax", "extras.sleeve.minutes"} <= set(found)


def test_a_shop_in_centimetres_is_held_against_the_sample_in_centimetres():
    sample = (PRESETS / "shops" / "metric.toml").read_text(encoding="utf-8")
    assert "rates.quilting.edge-to-edge.price" in keys(sample, "cm")


def test_a_shop_file_is_told_from_a_project_by_its_keys():
    assert is_shop_file({"units": "in", "rates": {}})
    assert not is_shop_file({"units": "in", "title": "x", "top": {}})
    assert not is_shop_file({"title": "x", "rates": {}})
    assert not is_shop_file({"units": "in", "top": {}})


def test_a_shop_file_is_reviewed_by_itself(tmp_path: Path):
    mine = tmp_path / "mine.toml"
    mine.write_text("[rates]\nwage = 30\n", encoding="utf-8")
    review = review_file(str(mine))
    assert (review.problems, review.result, [each.key for each in review.yours]) == ((), None, ["rates.wage"])
    mine.write_text("[rates]\nwages = 30\n", encoding="utf-8")
    (problem,) = review_file(str(mine)).problems
    assert (problem.code, problem.line) == ("unknown-key", 2)
