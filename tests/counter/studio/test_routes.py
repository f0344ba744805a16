"""The studio's view as a browser meets it: opened, shown once, kept open, closed."""

import re
from pathlib import Path

import pytest

from tests.counter.studio.asking import Asking, folder_with

NAME, OTHER = "boathouse-supper-cloth.toml", "lighthouse-bed-quilt.toml"
IN_VIEW = "Close this view"


@pytest.fixture
def asking(tmp_path: Path) -> Asking:
    return Asking(folder_with(tmp_path, "boathouse-supper-cloth", "lighthouse-bed-quilt"))


def test_view_is_shown_once_at_the_customers_address(asking: Asking) -> None:
    browser = asking.browser()
    assert IN_VIEW in browser.open_view(NAME).text
    assert IN_VIEW not in browser.show(NAME).text, "a reload shows the customer's page"
    assert IN_VIEW not in browser.show(NAME).text


def test_plain_press_asks_to_turn_the_screen_away_and_opens_nothing(asking: Asking) -> None:
    browser = asking.browser()
    answer = browser.post(f"/p/{NAME}/studio", {})
    assert (answer.status, "Turn the screen away first" in answer.text) == (200, True)
    assert IN_VIEW not in browser.show(NAME).text


def test_view_of_another_browser_stays_its_own(asking: Asking) -> None:
    hers, theirs = asking.browser("hers"), asking.browser("theirs")
    hers.post(f"/p/{NAME}/studio", {"sure": ["yes"]})
    assert IN_VIEW not in theirs.show(NAME).text
    assert theirs.get(f"/p/{NAME}/work-order.html").status == 303
    assert IN_VIEW in hers.show(NAME).text


def test_another_project_is_shown_to_the_customer_and_closes_the_view(asking: Asking) -> None:
    browser = asking.browser()
    browser.open_view(NAME)
    assert IN_VIEW not in browser.show(OTHER).text
    assert browser.get(f"/p/{NAME}/work-order.html").status == 303


def test_asking_for_the_headers_alone_does_not_use_the_showing_up(asking: Asking) -> None:
    browser = asking.browser()
    browser.post(f"/p/{NAME}/studio", {"sure": ["yes"]})
    assert browser.ask("HEAD", f"/p/{NAME}").status == 200
    assert IN_VIEW in browser.show(NAME).text


def test_view_goes_on_as_long_as_somebody_is_there(asking: Asking) -> None:
    browser = asking.browser()
    browser.open_view(NAME)
    for _ in range(3):
        asking.clock.now += 59
        assert browser.post("/studio/stay", {}).status == 204
    asking.clock.now += 61
    assert browser.post("/studio/stay", {}).status == 410
    assert browser.get(f"/p/{NAME}/work-order.html").headers["location"] == f"/p/{NAME}"


def test_shop_says_how_long_the_view_stays(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "boathouse-supper-cloth", shop='units = "in"\n[counter]\nstudio_seconds = 5\n')
    asking = Asking(folder, None)
    browser = asking.browser()
    assert 'data-seconds="5"' in browser.open_view(NAME).text
    asking.clock.now += 6
    assert browser.post("/studio/stay", {}).status == 410


def test_closing_goes_back_to_the_project(asking: Asking) -> None:
    browser = asking.browser()
    browser.open_view(NAME)
    assert browser.post("/studio/close", {}).headers["location"] == f"/p/{NAME}"
    assert browser.post("/studio/stay", {}).status == 410
    assert browser.post("/studio/close", {}).headers["location"] == "/"


def test_view_tells_what_the_studio_earns(asking: Asking) -> None:
    """The boathouse's cloth before tax: 386.66 quoted - 65.13 of materials - 87.96 of other costs = 233.57 earned; and
    65.13 + 87.96 = 153.09 to break even."""
    text = asking.browser().open_view(NAME).text
    figures = re.findall(r'<span class="amount fig">([^<]+)</span>', text)
    assert (figures[2], figures[4]) == ("233.57", "153.09")
    for told in ("Cost and margin", "Earnings", "Backings", "Dates", "On arrival", "Minutes", "Sample figures in use"):
        assert told in text
    assert '<title id="passes-title">' in text


def test_wide_tables_can_be_scrolled_by_keys(asking: Asking) -> None:
    text = asking.browser().open_view(NAME).text
    assert text.count("<table") == len(
        re.findall(r'<div class="scroll" role="region" aria-label="[^"]+" tabindex="0"><table', text)
    )


def test_view_of_a_draft_with_a_mistake_is_of_the_last_good_quote(asking: Asking) -> None:
    browser = asking.browser()
    total = browser.open(NAME).total
    browser.open(NAME).edit(top__width="nothing")
    text = browser.open_view(NAME).text
    assert "this is of the last good quote" in text
    assert total in text
    assert "work-order" not in text, "a work order of another quote than the form's would be made"


def test_keys_of_the_studio_in_the_file_are_shown(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "boathouse-supper-cloth")
    text = (folder / NAME).read_text("utf-8").replace("[job]", '[job]\nnotes_studio = "she haggles"', 1)
    (folder / NAME).write_text(text, "utf-8")
    browser = Asking(folder).browser()
    assert "she haggles" not in browser.show(NAME).text
    assert "she haggles" in browser.open_view(NAME).text


def test_work_order_is_a_sheet_that_leaves_the_screen_by_itself(asking: Asking) -> None:
    browser = asking.browser()
    browser.open_view(NAME)
    answer = browser.get(f"/p/{NAME}/work-order.html")
    assert "Work order" in answer.text
    assert answer.headers["refresh"] == f"60; url=/p/{NAME}"
    policy = answer.headers["content-security-policy"]
    assert "style-src 'sha256-" in policy
    assert "script-src" not in policy
    assert "frame-ancestors 'none'" in policy


def test_work_order_is_a_file_to_print(asking: Asking) -> None:
    pytest.importorskip("typst")
    browser = asking.browser()
    browser.open_view(NAME)
    answer = browser.get(f"/p/{NAME}/work-order.pdf")
    assert answer.body.startswith(b"%PDF")
    assert answer.headers["content-disposition"].startswith("attachment;")


@pytest.mark.parametrize("form", ["svg", "", "html.html"])
def test_there_are_no_other_work_orders(asking: Asking, form: str) -> None:
    browser = asking.browser()
    browser.open_view(NAME)
    assert browser.get(f"/p/{NAME}/work-order.{form}").status == 404


def test_hostile_names_are_text_in_the_view(tmp_path: Path) -> None:
    folder = folder_with(tmp_path, "boathouse-supper-cloth")
    text = re.sub(
        r'title = "[^"]*"', "title = '<script>alert(1)</script>\"'", (folder / NAME).read_text("utf-8"), count=1
    )
    (folder / NAME).write_text(text, "utf-8")
    browser = Asking(folder).browser()
    assert "<script>alert" not in browser.post(f"/p/{NAME}/studio", {}).text
    assert "<script>alert" not in browser.open_view(NAME).text
