"""Options as buttons in the browser: taking one comes to what the button said, its fields show it, undo brings it back.
Two tabs and four keep each other's edits."""

from collections.abc import Callable
from typing import Any

import pytest

from tests.builders import TOP, sample
from tests.proof.browser.desk import figures
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect

LEFTOVER = TOP + '[backing]\nfabric = "cotton-44"\n[binding]\nfabric = "backing"\ncut = "crosswise"\n'
TAKEN = {
    "wider cloth": ("The backing in wide", "backing.fabric.preset", "cotton-wide-108"),
    "by hand": ("finished by hand", "binding.attach", "hand"),
    "label": ("Label, sewn on", "charges.extras", "label"),
    "another pattern": ("dense pantograph", "quilting.style.preset", "dense-pantograph"),
    "another size": ("dining-6", "top.blocks.down", "5"),
}
"""Each kind of option: a part of its name, and the field that shows it once it is taken."""


@pytest.mark.parametrize("kind", [*TAKEN, "leftover binding"])
def test_an_option_comes_to_what_its_button_says_and_undo_brings_back_what_was(
    windows: Callable[..., Any], project: Callable[..., str], kind: str
):
    text = LEFTOVER if kind == "leftover binding" else sample("harbour-check-cloth.toml").read_text(encoding="utf-8")
    name, key, value = TAKEN.get(kind, ("binding", "binding.cut", "leftover"))
    desk = windows().tab(project(text))
    before, was = desk.total, held(desk, key)
    option = desk.page.locator("button.option:not([disabled])").filter(has_text=name).first
    said = [option.locator(part).first.text_content() for part in ("small", ".amount")]
    comes_to = figures(next(text for text in said if "comes to" in text or "$" in text))
    with desk.answered():
        option.click()
    assert desk.total == comes_to
    assert held(desk, key) == value
    desk.press("Undo")
    assert (desk.total, held(desk, key)) == (before, was)
    desk.press("Redo")
    assert (desk.total, held(desk, key)) == (comes_to, value)


def held(desk: Any, key: str) -> str:
    """The values of a key's fields; of boxes those that are ticked."""
    if key != "charges.extras":
        return str(desk.value(key))
    return " ".join(each.get_attribute("value") for each in desk.field(key).all() if each.is_checked())


def test_an_option_that_is_taken_stands_no_more_among_those_that_could_be(
    windows: Callable[..., Any], project: Callable[..., str]
):
    desk = windows().tab(project(TOP))
    label = desk.page.locator("button.option").filter(has_text="Label, sewn on")
    with desk.answered():
        label.click()
    expect(label).to_have_count(0)
    expect(desk.page.locator("#lines")).to_contain_text("Label")


def test_two_tabs_keep_each_others_edits(windows: Callable[..., Any], project: Callable[..., str]):
    """One tab makes the top wider, the other longer; the one learns of the other's with its own next edit."""
    name, window = project(TOP), windows()
    one, two = window.tab(name), window.tab(name)
    one.put("top.width", "70")
    two.put("top.length", "90")
    assert (two.value("top.width"), two.value("top.length")) == ("70", "90")
    assert two.total != one.total
    for tab in (one, two):
        tab.open_folds()
    one.put("charges.discount", "5")
    assert (one.value("top.width"), one.value("top.length")) == ("70", "90")
    two.put("customer.name", "Ingrid")
    assert one.total == two.total


def test_four_tabs_at_once_lose_no_edit(windows: Callable[..., Any], project: Callable[..., str]):
    name, window = project(TOP), windows()
    edits = {"top.width": "70", "top.length": "90", "customer.name": "Ingrid", "charges.discount": "5"}
    tabs = [window.tab(name) for _ in edits]
    for tab, (key, value) in zip(tabs, edits.items(), strict=True):
        tab.open_folds()
        tab.field(key).fill(value)
    for tab, key in zip(tabs, edits, strict=True):  # none waits for the other's answer
        tab.field(key).evaluate("e => e.dispatchEvent(new Event('change', { bubbles: true }))")
    for tab in tabs:
        expect(tab.page.locator('[name="has"]')).not_to_have_value("1")
    anew = window.tab(name)
    assert {key: anew.value(key) for key in edits} == edits
