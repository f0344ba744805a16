"""The studio's view in a browser: opened by a button that is held, closed in every way there is, leaving nothing."""

from collections.abc import Callable
from typing import Any

import pytest

from tests.builders import TOP
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect

SHOP = "[counter]\nstudio_seconds = 5\n"


@pytest.fixture
def desk(windows: Callable[..., Any], project: Callable[..., str], served: Any) -> Any:
    """A project in a shop whose view closes after 5 seconds."""
    (served.folder / "five-seconds.toml").write_text(SHOP, encoding="utf-8")
    return windows().tab(project('shop = "five-seconds.toml"\n' + TOP))


def is_open(desk: Any) -> bool:
    return bool(desk.page.locator("body.studio").count())


def hold(desk: Any, seconds: float = 1.3) -> None:
    """Hold the button with the pointer."""
    box = desk.page.locator("#hold")
    desk.page.wait_for_load_state("networkidle")  # what comes later moves the button
    box.scroll_into_view_if_needed()
    box.hover()
    desk.page.mouse.down()
    desk.page.wait_for_timeout(seconds * 1000)
    desk.page.mouse.up()


def opened(desk: Any) -> None:
    hold(desk)
    expect(desk.page.locator("body.studio")).to_have_count(1)
    expect(desk.page.locator("main")).to_contain_text("argin")


def closed(desk: Any) -> None:
    """The customer's page stands there, and nothing of the view."""
    expect(desk.page.locator("#job")).to_have_count(1)
    assert not is_open(desk)
    content = desk.page.content().lower()
    assert not any(word in content for word in ("margin", "wage", "closes by itself"))


def test_a_short_press_opens_nothing_and_says_what_to_do(desk: Any):
    hold(desk, 0.3)
    expect(desk.page.locator("#hold-how")).to_contain_text("Hold it for a second")
    desk.page.locator("#hold").press("Space")
    desk.page.wait_for_timeout(300)
    closed(desk)


def test_the_pointer_opens_it_and_its_button_closes_it(desk: Any):
    address = desk.page.url
    opened(desk)
    assert desk.page.url == address, "the address tells nobody"
    desk.page.get_by_role("button", name="Close this view").click()
    closed(desk)


def test_the_space_bar_opens_it_and_does_not_press_the_button_that_closes_it(desk: Any):
    desk.page.locator("#hold").focus()
    desk.page.keyboard.down(" ")
    expect(desk.page.locator("body.studio")).to_have_count(1)
    desk.page.keyboard.up(" ")
    desk.page.wait_for_timeout(300)
    assert is_open(desk)
    expect(desk.page.get_by_role("button", name="Close this view")).to_be_focused()
    desk.page.keyboard.press("Enter")
    closed(desk)


def test_a_reload_closes_it(desk: Any):
    opened(desk)
    desk.page.reload()
    closed(desk)


def test_the_way_back_closes_it(desk: Any):
    """To the page before it, and from the list back to where it was."""
    opened(desk)
    desk.page.go_back()
    assert not is_open(desk)
    desk.page.go_forward()
    closed(desk)


def test_it_is_not_shown_again_from_the_page_after_it(desk: Any):
    opened(desk)
    desk.go("/")
    desk.page.go_back()
    closed(desk)


def test_it_closes_by_itself_once_nobody_touches_it(desk: Any):
    """After 5 seconds, which the shop says; a key half way keeps it open."""
    opened(desk)
    desk.page.wait_for_timeout(3000)
    desk.page.keyboard.press("Shift")
    desk.page.wait_for_timeout(3000)
    assert is_open(desk)
    expect(desk.page.locator("#job")).to_have_count(1, timeout=6000)
    closed(desk)


def test_another_tab_shows_the_customers_page_meanwhile(desk: Any):
    opened(desk)
    other = desk.page.context.new_page()
    other.goto(desk.page.url)
    expect(other.locator("#job")).to_have_count(1)
    assert "margin" not in other.content().lower()


def test_with_scripts_switched_off_it_asks_first(windows: Callable[..., Any], project: Callable[..., str]):
    desk = windows(java_script_enabled=False).tab(project(TOP))
    desk.page.locator("#hold").click()
    expect(desk.page.locator("h1")).to_have_text("Turn the screen away first")
    desk.page.get_by_role("button", name="It is turned away").click()
    expect(desk.page.locator("main")).to_contain_text("argin")
    desk.page.get_by_role("button", name="Close this view").click()
    closed(desk)
