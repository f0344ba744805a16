"""The page of a project as a person uses it: she types, looks at the total, presses buttons."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any


def figures(total: object) -> str:
    """The figures of an amount, whatever stands between and beside them: "$1,591.39 *" is "159139"."""
    return re.sub("[^0-9]", "", str(total))


class Desk:
    """A tab of the browser at the counter."""

    def __init__(self, page: Any, served: Any) -> None:
        self.page, self.served = page, served

    def go(self, path: str) -> None:
        self.page.goto(self.served.origin + path)

    def field(self, key: str) -> Any:
        """The fields of a key: one, or its radios or boxes."""
        return self.page.locator(f'[name="{key}"]')

    def open_folds(self) -> None:
        """Open every part of the form."""
        shut = self.page.locator("details.part:not([open]) > summary")
        while shut.count():
            shut.first.click()

    @property
    def total(self) -> str:
        """The figures of the total as they are shown: "59139"."""
        return figures(self.text("#sum"))

    def text(self, selector: str) -> str:
        """All that an element says, blanks as one."""
        return " ".join(str(self.page.locator(selector).first.text_content()).split())

    def value(self, key: str) -> str:
        """The value of a field: of radios the chosen one's value."""
        found = self.field(key)
        if found.first.get_attribute("type") == "radio":
            return next((str(each.get_attribute("value")) for each in found.all() if each.is_checked()), "?")
        if found.first.get_attribute("type") == "checkbox":
            return "yes" if found.first.is_checked() else ""
        return str(found.first.input_value())

    @contextmanager
    def answered(self) -> Iterator[None]:
        """Wait for the answer to the edit that is made meanwhile, and till its pieces are in the page."""
        mark = self.page.locator('[name="has"]')
        before = mark.input_value()
        with self.page.expect_response(lambda answer: "/edit" in answer.url and answer.status == 200):
            yield
        for _ in range(500):
            if mark.input_value() != before:
                return
            self.page.wait_for_timeout(5)
        raise AssertionError("the answer did not come into the page")

    def put(self, key: str, value: str) -> None:
        """Give a field another value and leave it: single keys are for the tests of typing. A box is turned."""
        found = self.field(key)
        kind, tag = found.first.get_attribute("type"), found.first.evaluate("e => e.localName")
        with self.answered():
            if tag == "select":
                found.select_option(value)
            elif kind == "radio":
                self._click_row(self.page.locator(f'[name="{key}"][value="{value}"]'))
            elif kind == "checkbox":
                named = f'[value="{value}"]' if value not in ("", "yes") else ""
                self._click_row(self.page.locator(f'[name="{key}"]{named}').first)
            else:
                found.evaluate("(e, value) => { e.value = value }", value)
                found.dispatch_event("change")

    def _click_row(self, box: Any) -> None:
        """Click the row of a radio or a box: its label covers all of it."""
        self.page.locator(f'label[for="{box.get_attribute("id")}"]').click()

    def press(self, name: str) -> None:
        """Press a button of the page whose answer is an edit's."""
        with self.answered():
            self.page.get_by_role("button", name=name, exact=True).click()

    @property
    def more_is_there(self) -> Any:
        """Wait for options, other patterns and sizes, which come after the quote."""
        return self.page.locator("#sizes h2, #options h2").first
