"""A browser as wide as a telephone ticks a shopping list, reads it again, and finds it ticked."""

from pathlib import Path
from typing import Any

import pytest

from tests.builders import run
from tests.commandline.test_buy import runners, season, shelf
from tests.proof.test_html_pages import BEYOND, LETTER


@pytest.fixture
def page_file(tmp_path: Path) -> Path:
    """A list that has everything: cloth for several, batting, thread, what a customer brings, and what is on hand."""
    files = [*season(tmp_path), *runners(tmp_path)]
    out = tmp_path / "list.html"
    kept = shelf(tmp_path, ("cloth", "harbour blue", 20, 70))
    result = run("buy", *files, "--on-hand", kept, "--html", str(out))
    assert result.exit_code == 0, result.output
    return out


def opened(context: Any, file: Path) -> Any:
    page = context.new_page()
    page.goto(file.as_uri())
    return page


def ticked(page: Any) -> list[int]:
    boxes = page.locator("input[type=checkbox]")
    return [number for number in range(boxes.count()) if boxes.nth(number).is_checked()]


def test_ticks_are_still_there_when_the_list_is_read_again(browser: Any, page_file: Path):
    context = browser.new_context(viewport={"width": 360, "height": 800}, offline=True)
    page = opened(context, page_file)
    assert ticked(page) == []
    page.locator("label").nth(0).click(position={"x": 150, "y": 12})  # anywhere on the line
    page.locator("input").nth(3).check()
    assert ticked(page) == [0, 3]
    page.reload()
    assert ticked(page) == [0, 3]
    page.locator("input").nth(0).uncheck()
    page.close()
    assert ticked(opened(context, page_file)) == [3]
    context.close()


def test_another_list_is_not_ticked_by_it(browser: Any, page_file: Path, tmp_path: Path):
    context = browser.new_context()
    opened(context, page_file).locator("input").nth(0).check()
    other = tmp_path / "other.html"
    assert run("buy", *runners(tmp_path), "--html", str(other)).exit_code == 0
    assert ticked(opened(context, other)) == []
    context.close()


@pytest.mark.parametrize("kept", ["not json", '{"0": true}', "null", '[0, 99, null, "x"]'])
def test_storage_that_somebody_else_wrote_harms_nothing(browser: Any, page_file: Path, kept: str):
    context, complaints = browser.new_context(), list[str]()
    page = opened(context, page_file)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.evaluate("kept => localStorage.setItem(document.documentElement.dataset.ticks, kept)", kept)
    page.reload()
    page.locator("input").nth(1).check()
    assert complaints == []
    assert 1 in ticked(page)
    context.close()


def test_without_script_boxes_can_be_ticked_all_the_same(browser: Any, page_file: Path):
    context = browser.new_context(java_script_enabled=False)
    page = opened(context, page_file)
    page.locator("input").nth(0).check()
    assert page.locator("input").nth(0).is_checked()
    context.close()


def test_nothing_is_asked_for_and_the_policy_lets_script_and_style_pass(browser: Any, page_file: Path):
    asked, said = list[str](), list[str]()
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.goto(page_file.as_uri())
    page.locator("input").nth(0).check()
    assert (asked, said) == ([page_file.as_uri()], [])
    assert page.evaluate("getComputedStyle(document.querySelector('.ticked label')).display") == "block"
    page.close()


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_stands_beyond_the_sides_and_a_thumb_finds_each_line(browser: Any, page_file: Path, width: int):
    """WCAG asks for targets of 24 CSS pixels at least; a line with its box is higher."""
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto(page_file.as_uri())
    assert page.evaluate(BEYOND) == [0]
    heights = page.evaluate("[...document.querySelectorAll('label')].map(e => e.getBoundingClientRect().height)")
    assert min(heights) >= 30
    page.close()


def test_nothing_stands_beyond_the_sides_of_paper(browser: Any, page_file: Path):
    page = browser.new_page(viewport={"width": LETTER, "height": 800})
    page.emulate_media(media="print")
    page.goto(page_file.as_uri())
    assert page.evaluate(BEYOND) == [0]
    page.close()
