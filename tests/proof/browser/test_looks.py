"""The pages as they are seen: from a telephone to a wide screen, zoomed in, light and dark, on paper; and as they are
read aloud and used with the keyboard alone, by the rules of axe-core."""

import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.builders import TOP, sample
from tests.proof.browser.desk import figures
from tests.proof.chromium import NO_BROWSER

expect = pytest.importorskip("playwright.sync_api", reason=NO_BROWSER).expect
axe_playwright_python = pytest.importorskip("axe_playwright_python", reason=NO_BROWSER)

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")
RULES = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]
SIZES = {"phone": (360, 740), "tablet": (768, 1024), "laptop": (1280, 800), "desk": (1440, 900), "zoomed": (640, 450)}
"""CSS pixels of windows. The last is a laptop's of 1280 x 900 at 200 %."""
BEYOND = "() => document.documentElement.scrollWidth - document.documentElement.clientWidth"
FOUND = """async rules => (await axe.run(document, { runOnly: rules, resultTypes: ['violations'] })).violations
  .flatMap(rule => rule.nodes.map(node => rule.id + ': ' + node.html.slice(0, 120)))"""
IN_SIGHT = """() => { const at = document.querySelector('#sum').getBoundingClientRect()
  return at.top >= 0 && at.bottom <= innerHeight && at.left >= 0 && at.right <= innerWidth && at.height > 0 }"""
MOVES = """() => [...document.querySelectorAll('*')]
  .some(e => parseFloat(getComputedStyle(e).transitionDuration) > 0)"""
BELOW = """e => { const band = document.querySelector('#total').getBoundingClientRect(), at = e.getBoundingClientRect()
  return at.bottom > band.bottom && at.top < innerHeight }"""


@pytest.mark.parametrize("size", SIZES)
def test_no_page_is_wider_than_its_window_and_the_total_is_always_in_sight(
    windows: Callable[..., Any], size: str, project: Callable[..., str]
):
    width, height = SIZES[size]
    desk = windows(viewport={"width": width, "height": height}).tab(
        project(sample("lighthouse-bed-quilt.toml").read_text(encoding="utf-8"))
    )
    desk.more_is_there.wait_for()
    desk.open_folds()
    assert desk.page.evaluate(BEYOND) == 0
    for field in desk.page.locator("#job :is(input:not([type=hidden]), select, textarea):visible").all():
        field.focus()
        assert desk.page.evaluate(IN_SIGHT), field.get_attribute("name")
        assert field.evaluate(BELOW), f"{field.get_attribute('name')} is under the band"
    desk.page.evaluate("scrollTo(0, document.body.scrollHeight)")
    assert desk.page.evaluate(IN_SIGHT)
    desk.put("top.sashing.width", "two")
    desk.page.evaluate("scrollTo(0, document.body.scrollHeight)")
    assert desk.page.evaluate(IN_SIGHT)
    assert desk.page.evaluate(BEYOND) == 0


@pytest.mark.parametrize("path", ["/", "/new", "/p/boathouse-supper-cloth.toml/papers"])
@pytest.mark.parametrize("width", [360, 768, 1280])
def test_no_other_page_is_wider_than_its_window(windows: Callable[..., Any], path: str, width: int):
    desk = windows(viewport={"width": width, "height": 740}).tab()
    desk.go(path)
    assert desk.page.evaluate(BEYOND) == 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_is_broken_in_the_studios_view_and_at_its_rates(windows: Callable[..., Any], scheme: str):
    desk = windows(color_scheme=scheme).tab("lighthouse-bed-quilt.toml")
    desk.page.locator("#hold").focus()
    desk.page.keyboard.down(" ")
    expect(desk.page.locator("body.studio")).to_have_count(1)
    desk.page.keyboard.up(" ")
    broken = {"view": rules_broken(desk)}
    desk.page.get_by_role("link", name="The shop's rates").click()
    desk.page.wait_for_url("**/shop")
    broken["rates"] = rules_broken(desk)
    assert broken == {"view": [], "rates": []}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_for_those_who_see_or_type_otherwise_is_broken(
    windows: Callable[..., Any], scheme: str, project: Callable[..., str], served: Any
):
    window = windows(color_scheme=scheme)
    desk, name = window.tab(), project(TOP)
    pages = ["/", "/new", "/p/boathouse-supper-cloth.toml", "/p/lighthouse-bed-quilt.toml"]
    pages += ["/p/lighthouse-bed-quilt.toml/papers", "/p/lighthouse-bed-quilt.toml/copy", f"/p/{name}"]
    broken: dict[str, list[str]] = {}
    for path in pages:
        desk.go(path)
        if path.endswith(".toml"):
            desk.more_is_there.wait_for()
            desk.open_folds()
        broken[path] = rules_broken(desk)
    desk.put("top.width", "wide")
    broken["mistake"] = rules_broken(desk)
    desk.put("top.width", "70")
    (served.folder / name).write_text(TOP.replace("80", "90"), encoding="utf-8")
    with desk.page.expect_navigation():
        desk.page.get_by_role("button", name="Save", exact=True).click()
    window.forgive("409")
    broken["conflict"] = rules_broken(desk)
    assert {path: found for path, found in broken.items() if found} == {}


def rules_broken(desk: Any) -> list[str]:
    """The rules that the page breaks. The script goes in past the policy, which refuses it otherwise."""
    desk.page.evaluate(AXE)
    return list(desk.page.evaluate(FOUND, RULES))


def test_a_broken_rule_is_found(windows: Callable[..., Any]):
    desk = windows().tab()
    desk.page.evaluate("document.querySelector('h1').insertAdjacentHTML('afterend', '<img src=/static/icon.svg>')")
    assert any(found.startswith("image-alt") for found in rules_broken(desk))


def test_paper_has_the_quote_and_nothing_to_press(windows: Callable[..., Any], tmp_path: Path):
    desk = windows(color_scheme="dark").tab("lighthouse-bed-quilt.toml")
    desk.more_is_there.wait_for()
    total = desk.text("#lines .all td")
    desk.page.pdf(path=tmp_path / "quote.pdf", format="Letter")
    read = ["pdftotext", "-layout", str(tmp_path / "quote.pdf"), "-"]
    text = subprocess.run(read, capture_output=True, text=True, check=True).stdout
    assert "Total, USD" in text
    assert total in text
    assert "What it takes" in text
    for word in ("Undo", "Save", "Take it", "Measured in", "In another size", "hold the space bar", "See the quote"):
        assert word not in text


def test_who_wants_no_motion_gets_none(windows: Callable[..., Any]):
    for wanted, motion in ((False, "reduce"), (True, "no-preference")):
        desk = windows(reduced_motion=motion).tab("boathouse-supper-cloth.toml")
        assert desk.page.evaluate(MOVES) == wanted
        assert desk.page.evaluate("getComputedStyle(document.documentElement).scrollBehavior") == (
            "smooth" if wanted else "auto"
        )


STOP = """() => { const e = document.activeElement; if (e === document.body) return null
  const at = e.closest('.choice') ? e.closest('.choice').getBoundingClientRect() : e.getBoundingClientRect()
  const band = document.querySelector('#total').getBoundingClientRect()
  const inBand = !!e.closest('#total, header, .skip')
  const isVisible = getComputedStyle(e).visibility == 'visible'
  const shown = at.width > 0 && at.height > 0 && at.bottom > 0 && at.top < innerHeight && isVisible
  return [e.id || e.name || e.textContent.trim().slice(0, 40), shown, inBand || at.top >= band.bottom - 1] }"""


@pytest.mark.parametrize("width", [360, 1280])
def test_every_stop_of_the_tab_key_is_seen_and_has_a_name(
    windows: Callable[..., Any], width: int, project: Callable[..., str]
):
    """Through the whole page, all folds open, until the focus leaves it."""
    desk = windows(viewport={"width": width, "height": 740}).tab(project(TOP))
    desk.more_is_there.wait_for()
    desk.open_folds()
    desk.page.locator(".skip").focus()
    stops = [desk.page.evaluate(STOP)]
    for _ in range(250):
        desk.page.keyboard.press("Tab")
        stop = desk.page.evaluate(STOP)
        if stop is None or (stops and stop == stops[0]):
            break
        stops.append(stop)
    assert len(stops) > 60
    assert [name for name, seen, clear in stops if not (seen and clear)] == []
    tree = desk.page.context.new_cdp_session(desk.page).send("Accessibility.getFullAXTree")["nodes"]
    focusable = [node for node in tree if any(each["name"] == "focusable" for each in node.get("properties", []))]
    nameless = [node for node in focusable if not node["name"]["value"] and node["role"]["value"] != "RootWebArea"]
    assert nameless == []


def test_a_live_region_keeps_its_element_and_changes_its_text(windows: Callable[..., Any], project: Callable[..., str]):
    desk = windows().tab(project(TOP))
    regions = desk.page.locator("[role=status]")
    assert regions.count() >= 2
    regions.evaluate_all("all => all.forEach(each => { each.isTheSame = true })")
    said = desk.text("#says")
    desk.put("top.width", "70")
    desk.put("top.length", "long")
    assert desk.text("#says") != said
    assert regions.evaluate_all("all => all.every(each => each.isTheSame)")


def test_the_total_is_read_aloud_with_its_line(windows: Callable[..., Any], project: Callable[..., str]):
    desk = windows().tab(project(TOP))
    assert figures(desk.text("#says").partition("Total with tax")[2]) == desk.total != ""
