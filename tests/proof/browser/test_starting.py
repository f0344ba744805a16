"""From an empty folder to a first quote, by the keyboard alone."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.proof.browser.conftest import Served
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect

MOST_PRESSES = 60


class Keys:
    """A keyboard that counts its presses, but for names and numbers."""

    def __init__(self, page: Any) -> None:
        self.page, self.presses = page, 0

    def press(self, key: str) -> None:
        self.page.keyboard.press(key)
        self.presses += 1

    def to(self, selector: str) -> None:
        """Go on to an element by the tab key."""
        wanted = self.page.locator(selector).first
        for _ in range(MOST_PRESSES):
            if wanted.evaluate("e => e === document.activeElement"):
                return
            self.press("Tab")
        raise AssertionError(f"the tab key does not lead to {selector}")


def test_a_first_quote_takes_at_most_60_presses(windows: Callable[..., Any], tmp_path: Path):
    """Title, customer, width and length are typed; the rest stays as is usual."""
    server = Served(tmp_path)
    try:
        window = windows(at=server)
        page = window.tab().page
        expect(page.locator("main")).to_contain_text("no project in this folder yet")
        keys = Keys(page)
        keys.to('a[href="/new"]')
        keys.press("Enter")
        page.wait_for_url("**/new")
        for name, text in (("title", "Supper cloth"), ("customer", "Marit"), ("width", "60 1/2"), ("length", "84")):
            keys.to(f'input[name="{name}"]')
            page.keyboard.type(text)
        keys.press("Enter")
        page.wait_for_url("**/p/*")
        expect(page.locator("#sum")).to_contain_text("$")
        print(f"{keys.presses} key presses to a first quote")
        assert keys.presses <= MOST_PRESSES
        assert len(list(tmp_path.glob("*.toml"))) == 1
    finally:
        window.context.close()
        server.stop()
