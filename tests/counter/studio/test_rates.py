"""The rates of a shop file as a form, and the file with other answers."""

import pytest

from finishcalc.counter.studio.rates import Rate, Rates
from finishcalc.intake.questions.interview import Interview, shop_topic
from finishcalc.intake.source import Source

OWN = """\
# ours since 2019
units = "in"
tax = [{ label = "VAT", percent = "20 %" }]   # at home

[rates]
wage = 42                       # an hour; agreed with Jo
minimum = 80

[rates.quilting]
dense = { price = 5, per = "sq ft" }

[frame]
throat = "24 in"                # the new machine
"""


def rates_of(text: str = OWN) -> Rates:
    def reader(name: str) -> Source:
        raise AssertionError(f"{name} was read")

    return Rates(Source("shop.toml", text), reader)


def rate(name: str, text: str = OWN) -> Rate:
    return next(each for each in rates_of(text).rates if each.question.name == name)


def test_an_answer_of_the_file_is_shown_as_it_would_be_typed() -> None:
    assert (rate("wage").text, rate("wage").sample) == ("42", False)
    assert rate("tax").text == "20 %"
    assert rate("dense").text == "5/sq ft"


def test_a_figure_that_the_file_does_not_give_is_marked_as_the_samples() -> None:
    assert rate("markup").sample
    assert rate("edge-hand").sample


def test_all_but_the_answer_stays_as_it_was() -> None:
    rewritten = rates_of().rewritten({"wage": "45", "minimum": "80"})
    assert rewritten.is_sound
    assert rewritten.text == OWN.replace("wage = 42 ", "wage = 45 ")


def test_a_tax_keeps_its_name() -> None:
    text = rates_of().rewritten({"tax": "19"}).text
    assert text == OWN.replace("20 %", "19 %")


def test_an_empty_answer_leaves_the_figure_to_the_sample() -> None:
    text = rates_of().rewritten({"minimum": ""}).text
    assert rate("minimum", text).sample
    assert "wage = 42                       # an hour; agreed with Jo" in text


def test_mistakes_are_told_at_their_questions_in_the_words_of_the_interview() -> None:
    mistakes = rates_of().rewritten({"wage": "a lot", "deposit": "200 %", "currency": ""}).mistakes
    assert mistakes["wage"] == '"a lot" is not a number: write it as "60", "60.5" or "60 1/2".'
    assert mistakes["deposit"] == '"200 %" is out of bounds: use a percentage from 0 % to 100 %.'
    assert mistakes["currency"] == "It has no default: give it as in CAD."


def test_a_unit_whose_prices_are_samples_is_refused_with_the_keys_to_give() -> None:
    mistakes = rates_of().rewritten({"edge-by": "ft"}).mistakes
    assert "make, front, machine and hand" in mistakes["edge-by"]


def test_the_units_of_a_file_are_not_changed_here() -> None:
    """A bare 24 would become 24 cm."""
    assert rate("units").fixed
    assert rates_of().rewritten({"units": "cm"}).text == OWN


def test_what_the_file_gives_in_more_than_one_figure_is_left_to_it() -> None:
    two = OWN.replace('percent = "20 %" }]', 'percent = "20 %" }, { label = "Town", percent = "1 %" }]')
    assert rate("tax", two).fixed
    assert rates_of(two).rewritten({"tax": "5"}).text == two


def test_a_figure_of_the_interviews_file_takes_the_line_that_was_kept_for_it() -> None:
    interview = Interview(shop_topic("shop.toml"))
    while question := interview.next:
        interview = interview.take(question, "")
    text = rates_of(interview.text).rewritten({"minimum": "90"}).text
    (before, after), *others = [
        (old, new) for old, new in zip(interview.text.split("\n"), text.split("\n"), strict=True) if old != new
    ]
    assert not others
    assert before.startswith("# minimum = 75 ")
    assert "sample: replace" in before
    assert after.startswith("minimum = 90 ")
    assert after.endswith("# least for the quilting of one quilt")


@pytest.mark.parametrize("typed", ['"', "\x00", "\ud800", "1e999999", "]", "= 3\nwage = 1", "x" * 5000])
def test_no_answer_leaves_a_file_that_cannot_be_read(typed: str) -> None:
    for name in ("name", "wage", "dense", "tax", "contact", "cloth-price", "currency"):
        rewritten = rates_of().rewritten({name: typed})
        if rewritten.is_sound:
            assert rates_of(rewritten.text).rates


def test_a_shop_that_only_buys_is_not_asked_for_prices() -> None:
    maker = 'units = "in"\n[rates]\nquilting = { edge-to-edge = 0, dense = 0, custom = 0, hand = 0, tied = 0 }\n'
    names = {each.question.name for each in rates_of(maker).rates}
    assert "wage" in names
    assert "minimum" not in names
