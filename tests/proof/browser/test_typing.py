"""Typing in the browser: a figure that is half typed stays quiet, no key is lost, and a mistake is told beside its
field in the words of the command line, while the last good quote stays."""

import time
from collections.abc import Callable
from typing import Any

import pytest

from tests.builders import TOP, in_file, run
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect

CARET = "e => [e.selectionStart, e.selectionEnd]"


@pytest.fixture
def desk(windows: Callable[..., Any], project: Callable[..., str]) -> Any:
    return windows().tab(project(TOP))


def note(desk: Any, key: str) -> Any:
    return desk.page.locator(f"#{key.replace('.', '-')}-note")


def test_a_half_typed_figure_is_quiet_and_told_once_it_stands_still(desk: Any):
    """Quiet 0.7 s after the last key; told within 3 s, because it waits for 2; typing on takes it away."""
    width = desk.field("top.width")
    width.fill("")
    with desk.answered():
        width.type("60 ")
    before = desk.total
    width.type("1/")
    desk.page.wait_for_timeout(700)
    assert (desk.text("#top-width-note").strip(), desk.total) == ("", before)
    expect(note(desk, "top.width")).to_contain_text("Mistake:", timeout=6000)
    assert desk.total == before
    with desk.answered():
        width.type("2")
    expect(note(desk, "top.width")).to_have_text("")
    assert desk.value("top.width") == "60 1/2"
    assert desk.total != before


def test_a_half_typed_figure_is_told_when_its_field_is_left(desk: Any):
    width = desk.field("top.width")
    width.fill("60 1/")
    began = time.monotonic()
    width.press("Tab")
    expect(note(desk, "top.width")).to_contain_text("Mistake:", timeout=1900)
    assert time.monotonic() - began < 2, "sooner than standing still would tell"
    expect(desk.field("top.length")).to_be_focused()


def test_the_caret_stays_in_the_middle_of_a_text(desk: Any):
    width = desk.field("top.width")
    width.fill("60 1/2")
    width.evaluate("e => e.setSelectionRange(1, 1)")
    with desk.answered():
        width.press("5")
    assert desk.value("top.width") == "650 1/2"
    assert width.evaluate(CARET) == [2, 2]
    expect(width).to_be_focused()


def test_a_slow_answer_loses_no_key(desk: Any):
    """Each answer takes half a second; keys come between."""

    def slowly(route: Any) -> None:
        time.sleep(0.5)
        route.continue_()

    desk.page.route("**/edit*", slowly)
    notes = desk.field("customer.name")
    desk.open_folds()
    notes.click()
    notes.press_sequentially("Marit of the boathouse", delay=90)
    expect(desk.page.locator("#heading")).to_contain_text("for Marit of the boathouse", timeout=9000)
    assert desk.value("customer.name") == "Marit of the boathouse"
    expect(notes).to_be_focused()
    desk.page.unroute("**/edit*")


def test_enter_in_a_field_works_it_out_and_neither_loads_the_page_nor_moves_the_focus(desk: Any):
    desk.page.evaluate("window.isTheSame = true")
    before, width = desk.total, desk.field("top.width")
    width.fill("70")
    with desk.answered():
        width.press("Enter")
    assert desk.total != before
    assert desk.page.evaluate("window.isTheSame") is True
    expect(width).to_be_focused()


@pytest.mark.parametrize(
    ("key", "typed"),
    [
        ("top.width", "sixty"),
        ("top.width", "60 1/"),
        ("top.length", "-4"),
        ("top.corner_radius", "90"),
        ("job.due", "2026-02-30"),
        ("charges.discount", "140 %"),
        ("backing.overage", "4 kg"),
        ("quilting.colours", "many"),
    ],
)
def test_a_mistake_stands_beside_its_field_in_the_words_of_the_command_line(
    desk: Any, tmp_path: Any, key: str, typed: str
):
    said = run("quote", str(in_file(TOP, tmp_path)), "--set", f"{key}={typed}", columns=1000)
    assert said.exit_code == 1
    told = " ".join(said.stderr.split())
    desk.open_folds()
    before = desk.total
    desk.put(key, typed)
    words = " ".join(desk.text(f"#{key.replace('.', '-').replace('_', '-')}-note").split()).removeprefix("Mistake: ")
    for part in words.split(": "):
        assert part in told
    expect(desk.field(key)).to_have_attribute("aria-invalid", "true")
    assert desk.total == before, "the last good quote stays"
    expect(desk.page.locator("#says")).to_contain_text("this is the last good quote")
    grey, ink = (desk.page.locator(each).first.evaluate("e => getComputedStyle(e).color") for each in ("#sum", "body"))
    assert grey != ink
    desk.press("Undo")
    expect(desk.field(key)).not_to_have_attribute("aria-invalid", "true")
    assert "last good quote" not in desk.text("#says")


def test_two_mistakes_are_told_both_and_the_first_that_is_mended_goes(desk: Any):
    desk.put("top.width", "wide")
    desk.put("top.length", "long")
    waits = desk.page.locator("#says .waits a")
    assert waits.all_text_contents() == ["Top: Width", "Top: Length"]
    desk.put("top.width", "70")
    assert waits.all_text_contents() == ["Top: Length"]
    waits.first.click()
    expect(desk.field("top.length")).to_be_focused()
