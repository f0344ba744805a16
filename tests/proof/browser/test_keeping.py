"""Work is kept: through a reload, a browser that is killed, saving, and a file that another program changed or took."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from finishcalc.pipeline import finish_file
from tests.builders import TOP
from tests.proof.browser.desk import figures
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect

COMMENTED = "# the top of the boathouse\n[top]\nwidth = 60  # by the tape\nlength = 80\n"


def save(desk: Any) -> None:
    with desk.page.expect_navigation():
        desk.page.get_by_role("button", name="Save", exact=True).click()


def test_a_reload_keeps_what_is_not_saved_and_the_file_has_none_of_it(
    windows: Callable[..., Any], project: Callable[..., str], served: Any
):
    name = project(COMMENTED)
    desk = windows().tab(name)
    desk.put("top.width", "70")
    total = desk.total
    desk.page.reload()
    assert (desk.value("top.width"), desk.total) == ("70", total)
    expect(desk.page.locator("#heading")).to_contain_text("not saved yet")
    assert (served.folder / name).read_text(encoding="utf-8") == COMMENTED
    desk.press("Undo")
    assert desk.value("top.width") == "60"


def test_a_killed_browser_loses_nothing_that_was_answered(
    windows: Callable[..., Any], project: Callable[..., str], browser: Any
):
    """Its window closes without a word to the page; another opens the project."""
    name, first = project(COMMENTED), windows()
    desk = first.tab(name)
    desk.put("top.width", "71 1/2")
    total = desk.total
    first.context.close()
    desk = windows().tab(name)
    assert (desk.value("top.width"), desk.total) == ("71 1/2", total)


def test_saving_writes_the_very_file_that_the_command_line_reads(
    windows: Callable[..., Any], project: Callable[..., str], served: Any
):
    name = project(COMMENTED)
    desk = windows().tab(name)
    desk.put("top.width", "70 1/2")
    save(desk)
    expect(desk.page.locator("#heading")).not_to_contain_text("not saved yet")
    path = served.folder / name
    assert path.read_text(encoding="utf-8") == COMMENTED.replace("width = 60 ", 'width = "70 1/2" ')
    assert figures(finish_file(str(path)).quote.total) == desk.total


def test_what_has_a_mistake_is_not_saved(windows: Callable[..., Any], project: Callable[..., str], served: Any):
    name, window = project(COMMENTED), windows()
    desk = window.tab(name)
    desk.put("top.width", "wide")
    save(desk)
    window.forgive("422")
    expect(desk.page.locator("#told")).to_contain_text("Not saved")
    assert (served.folder / name).read_text(encoding="utf-8") == COMMENTED
    assert desk.value("top.width") == "wide"


THEIRS = COMMENTED.replace("length = 80", "length = 90")
"""The file as another program has left it."""


def in_conflict(windows: Callable[..., Any], project: Callable[..., str], served: Any) -> tuple[Any, Path]:
    """A page with another width that was to be saved, after another program had changed the length."""
    name, window = project(COMMENTED), windows()
    desk, path = window.tab(name), served.folder / name
    desk.put("top.width", "70")
    path.write_text(THEIRS, encoding="utf-8")
    save(desk)
    window.forgive("409")
    return desk, path


def test_a_file_that_another_program_changed_is_shown_beside_and_not_overwritten(
    windows: Callable[..., Any], project: Callable[..., str], served: Any
):
    desk, path = in_conflict(windows, project, served)
    assert path.read_text(encoding="utf-8") == THEIRS
    expect(desk.page.locator("h1")).to_contain_text("not saved yet")
    sides = desk.page.locator("tr.unlike")
    assert " ".join(sides.first.inner_text().split()).count("width =") == 2, "the line of both"
    desk.page.get_by_role("button", name="Put my changes on the file as it is now").click()
    desk.page.wait_for_url("**/p/*")
    assert (desk.value("top.width"), desk.value("top.length")) == ("70", "90")
    assert path.read_text(encoding="utf-8") == THEIRS.replace("width = 60", "width = 70")


def test_the_file_can_be_kept_and_the_changes_dropped(
    windows: Callable[..., Any], project: Callable[..., str], served: Any
):
    desk, path = in_conflict(windows, project, served)
    desk.page.get_by_role("button", name="Keep the file and drop my changes").click()
    desk.page.wait_for_url("**/p/*")
    assert (desk.value("top.width"), desk.value("top.length")) == ("60", "90")
    assert path.read_text(encoding="utf-8") == THEIRS


def test_a_file_that_is_gone_can_be_saved_again(windows: Callable[..., Any], project: Callable[..., str], served: Any):
    name, window = project(COMMENTED), windows()
    desk, path = window.tab(name), served.folder / name
    desk.put("top.width", "70")
    path.unlink()
    save(desk)
    window.forgive("409")
    assert not path.exists()
    expect(desk.page.locator("main")).to_contain_text("is gone from the folder")
    desk.page.get_by_role("button", name="Save it again").click()
    desk.page.wait_for_url("**/p/*")
    assert path.read_text(encoding="utf-8") == COMMENTED.replace("width = 60", "width = 70")


def test_all_works_with_scripts_switched_off(windows: Callable[..., Any], project: Callable[..., str], served: Any):
    """Edited, undone, an option taken where one is shown, saved: each by a button that loads the page again."""
    name, window = project(COMMENTED), windows(java_script_enabled=False)
    desk = window.tab(name)
    first = desk.total
    expect(desk.page.locator("noscript p").first).to_be_visible()
    plain(desk, "top.width", "70", "Work it out")
    wider = desk.total
    assert wider != first
    plain(desk, "top.width", "wide", "Work it out")
    window.forgive("422")
    expect(desk.page.locator("#top-width-note")).to_contain_text("Mistake:")
    assert (desk.value("top.width"), desk.total) == ("wide", wider)
    for _ in range(2):
        with desk.page.expect_navigation():
            desk.page.get_by_role("button", name="Undo", exact=True).click()
    assert (desk.value("top.width"), desk.total) == ("60", first)
    plain(desk, "top.width", "70", "Save")
    expect(desk.page.locator("#heading")).not_to_contain_text("not saved yet")
    assert (served.folder / name).read_text(encoding="utf-8") == COMMENTED.replace("width = 60", "width = 70")


def plain(desk: Any, key: str, value: str, button: str) -> None:
    """Fill a field in and press a button whose answer is a page."""
    desk.field(key).fill(value)
    with desk.page.expect_navigation():
        desk.page.locator(f'button:has-text("{button}")').last.click()


def test_options_can_be_taken_with_scripts_switched_off(windows: Callable[..., Any], project: Callable[..., str]):
    desk = windows(java_script_enabled=False).tab(project(TOP))
    with desk.page.expect_navigation():
        desk.page.locator("noscript a").click()
    label = desk.page.locator("button.option").filter(has_text="Label, sewn on")
    before = desk.total
    with desk.page.expect_navigation():
        label.click()
    assert desk.total != before
    expect(desk.page.locator("#lines")).to_contain_text("Label")


def test_an_edit_that_finds_no_counter_is_told_until_one_is_taken_in(
    windows: Callable[..., Any], project: Callable[..., str]
):
    """The next edit brings what the lost one had: the whole form is posted."""
    name, window = project(COMMENTED), windows()
    desk = window.tab(name)
    first = desk.total
    desk.page.route("**/edit*", lambda route: route.abort())
    desk.field("top.width").fill("70")
    expect(desk.page.locator("#lost")).to_contain_text("does not answer")
    window.forgive("")
    assert desk.total == first
    desk.page.unroute("**/edit*")
    desk.put("customer.name", "Marit")
    expect(desk.page.locator("#lost")).to_be_empty()
    assert (desk.value("top.width"), desk.total != first) == ("70", True)


def test_an_edit_of_a_project_that_is_gone_says_so(
    windows: Callable[..., Any], project: Callable[..., str], served: Any
):
    name, window = project(COMMENTED), windows()
    desk = window.tab(name)
    (served.folder / name).unlink()
    desk.field("top.width").fill("70")
    expect(desk.page.locator("#lost")).to_contain_text(f"There is no project {name} in this folder")
    window.forgive("")
