"""A browser lays out every sheet as wide as a telephone, as a tablet and as paper, light and dark.

It is the system's own headless Chromium, driven by Playwright; nothing is downloaded for it.
"""

import re
import subprocess
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.pipeline import finish_file
from finishcalc.rendering.pages.customer_sheet import customer_sheet
from finishcalc.rendering.pages.cut import cut_sheet
from finishcalc.rendering.pages.page import PriceRow, Prices
from finishcalc.rendering.pages.work_order import work_order_sheet
from finishcalc.rendering.writers.html import pages_html
from tests.builders import PROJECTS
from tests.rendering.writers.pages_by_hand import bench_page, page_html, quote_page, work_page
from tests.rendering.writers.test_html import page_of

WIDTHS = [320, 360, 768, 1280]
"""CSS pixels across: the least that WCAG asks for (1280 at 400 %), a telephone, a tablet, and a wide screen. A tablet
at 200 % is 384 across, so it has a place between the telephone and itself."""
LETTER = 816 - 155
"""CSS pixels across the text of a Letter sheet: 8 1/2 in less margins of 24 and 17 mm, at 96 to the inch."""

BY_HAND = {
    "quote": page_html(quote_page()),
    "work order": page_html(work_page()),
    "bench": page_html(bench_page()),
    "several": pages_html([quote_page(), work_page()]),
    "long word": page_html(page_of("W" * 10_000)),
    "right to left": page_html(page_of("\u202e\u05d0\u05d1\u05d2 12 x 34 in \u0627\u0628")),
}


@cache
def sheets(path: Path) -> dict[str, str]:
    """The three sheets of a project."""
    result = finish_file(str(path))
    made = {
        "customer": customer_sheet(result, alternatives_of(result)),
        "work": work_order_sheet(result),
        "cut": cut_sheet(result),
    }
    return {name: page_html(page) for name, page in made.items()}


SHEETS = {f"{path.stem} {name}": (path, name) for path in PROJECTS for name in ("customer", "work", "cut")}


def document_of(name: str) -> str:
    """A page by its name, made when it is first shown: whoever only lists the tests makes none."""
    if name in BY_HAND:
        return BY_HAND[name]
    path, sheet = SHEETS[name]
    return sheets(path)[sheet]


BEYOND = """() => {
  const wide = document.documentElement.clientWidth
  const unseen = e => e && (getComputedStyle(e).clipPath != 'none' || unseen(e.parentElement))
  const all = [...document.querySelectorAll('body *')].filter(e => !e.closest('svg svg, svg *') && !unseen(e))
  const box = e => e.getBoundingClientRect()
  const boxes = all.filter(e => e.localName != 'bdi')  // blanks at the ends of its lines hang out, unseen
  const beyond = boxes.filter(e => box(e).width && (box(e).right > wide + 0.5 || box(e).left < -0.5))
  const words = all.filter(e => e.matches('td, th, p, li, dd, h1, h2, h3'))
  const cut = words.filter(e => e.scrollWidth > e.clientWidth + 1)
  return [document.documentElement.scrollWidth - wide, ...[...beyond, ...cut].map(e => e.outerHTML.slice(0, 80))]
}"""
"""Lists all that stands beyond the page or runs out of its cell: first by how much the page is too wide."""


def laid_out(browser: Any, document: str, width: int, **settings: str) -> Any:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.emulate_media(**settings)
    page.set_content(document)
    return page


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", [*BY_HAND, *SHEETS])
def test_nothing_stands_beyond_the_sides_of_a_screen(browser: Any, name: str, width: int):
    page = laid_out(browser, document_of(name), width)
    assert page.evaluate(BEYOND) == [0]
    page.close()


@pytest.mark.parametrize("name", [*BY_HAND, *SHEETS])
def test_nothing_stands_beyond_the_sides_of_paper(browser: Any, name: str):
    page = laid_out(browser, document_of(name), LETTER, media="print")
    assert page.evaluate(BEYOND) == [0]
    page.close()


def test_a_page_that_is_too_wide_is_found(browser: Any):
    wide = BY_HAND["quote"].replace("</h1>", "<svg width='900' height='9'></svg></h1>")
    page = laid_out(browser, wide, 360)
    assert page.evaluate(BEYOND)[0] > 0
    page.close()


COLOURS = """() => {
  const ground = e => { for (; e; e = e.parentElement) {
    const colour = getComputedStyle(e).backgroundColor; if (colour != 'rgba(0, 0, 0, 0)') return colour }
    return 'rgb(255, 255, 255)' }
  const written = [...document.querySelectorAll('body, body *')].filter(e => !e.closest('svg'))
    .filter(e => [...e.childNodes].some(n => n.nodeType == 3 && n.data.trim()))
  return [...new Set(written.map(e => getComputedStyle(e).color + ' on ' + ground(e)))]
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("document", BY_HAND.values(), ids=list(BY_HAND))
def test_all_that_is_written_stands_out_from_its_ground(browser: Any, document: str, scheme: str):
    page = laid_out(browser, document, 768, color_scheme=scheme)
    pairs = page.evaluate(COLOURS)
    assert pairs
    for pair in pairs:
        ink, ground = ([int(part) for part in re.findall(r"\d+", colour)] for colour in pair.split(" on "))
        light, dark = sorted((luminance(ink), luminance(ground)), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 4.5, pair
    assert ("rgb(255, 255, 255)" in pairs[0]) == (scheme == "light")
    page.close()


def luminance(colour: list[int]) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    parts = [part / 255 / 12.92 if part <= 10 else ((part / 255 + 0.055) / 1.055) ** 2.4 for part in colour[:3]]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


INKS = """() => [...new Set([...document.querySelectorAll('body *')].filter(e => !e.closest('svg')).flatMap(e => {
  const s = getComputedStyle(e)
  const sides = ['Top', 'Left', 'Bottom', 'Right'].filter(side => s['border' + side + 'Width'] != '0px')
  return [s.color, s.backgroundColor, ...sides.map(side => s['border' + side + 'Color'])]
}))].sort()"""


def test_paper_knows_black_and_white_alone_whatever_the_screen_is(browser: Any):
    for scheme in ("light", "dark"):
        page = laid_out(browser, BY_HAND["work order"], LETTER, media="print", color_scheme=scheme)
        assert page.evaluate(INKS) == ["rgb(0, 0, 0)", "rgb(255, 255, 255)", "rgba(0, 0, 0, 0)"]
        page.close()


def roles(browser: Any, document: str, width: int) -> dict[str, int]:
    """Count the parts of tables that a screen reader is told of."""
    page = laid_out(browser, document, width)
    tree = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    told = [node["role"]["value"] for node in tree if not node["ignored"]]
    page.close()
    return {role: told.count(role) for role in ("table", "row", "columnheader", "rowheader", "cell")}


@pytest.mark.parametrize("name", ["quote", "work order"])
def test_a_table_that_is_set_as_a_list_is_still_read_as_a_table(browser: Any, name: str):
    """Heads are out of sight on a telephone, and still told. Chromium would keep the roles by itself; for others they
    stand in the document, which its own tests ask for."""
    wide, narrow = (roles(browser, BY_HAND[name], width) for width in (1280, 360))
    assert wide == narrow
    assert all(wide.values())


def test_a_page_asks_for_nothing_and_its_style_is_obeyed(browser: Any, tmp_path: Path):
    """The policy in its head lets the style sheet pass, and no complaint is made."""
    file = tmp_path / "work.html"
    file.write_text(BY_HAND["work order"], encoding="utf-8")
    asked, said = [], []
    page = browser.new_page(viewport={"width": 360, "height": 800})
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.goto(file.as_uri())
    assert [url for url in asked if not url.startswith("data:image/png;base64,")] == [file.as_uri()]
    assert said == []
    assert page.evaluate("getComputedStyle(document.querySelector('.stacks td')).display") == "flex"
    assert page.evaluate("document.querySelector('img').naturalWidth") == 120
    page.close()


def printed(browser: Any, document: str) -> tuple[int, str]:
    """The number of sheets of paper, and the size of the first."""
    page = browser.new_page()
    page.set_content(document)
    pdf = page.pdf(prefer_css_page_size=True)
    page.close()
    box = re.search(rb"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]", pdf)
    assert box
    sides = " x ".join(str(round(float(side))) for side in box.groups())
    return len(re.findall(rb"/Type /Page\b(?!s)", pdf)), sides


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_the_customers_sheet_of_every_sample_is_one_sheet_of_paper(browser: Any, path: Path):
    assert printed(browser, document_of(f"{path.stem} customer"))[0] == 1


def test_paper_is_as_large_as_the_studio_says_and_lies_as_the_page_needs(browser: Any):
    """In points: Letter is 8.5 x 11 in at 72, A4 210 x 297 mm."""
    assert printed(browser, BY_HAND["quote"]) == (1, "612 x 792")
    assert printed(browser, BY_HAND["work order"])[1] == "595 x 842"
    assert printed(browser, BY_HAND["bench"])[1] == "792 x 612"


def test_pages_of_one_document_begin_on_sheets_of_their_own(browser: Any):
    quote, work, both = (printed(browser, BY_HAND[name])[0] for name in ("quote", "work order", "several"))
    assert both == quote + work


def test_a_long_price_begins_below_the_head_and_repeats_its_own_on_every_sheet(browser: Any, tmp_path: Path):
    """120 rows take four sheets. One begins on the first, because the price is too long to be kept on any."""
    rows = tuple(PriceRow(f"Item {number}", "1", "each", "1.00", False, "1.00") for number in range(120))
    page = browser.new_page()
    page.set_content(page_html(quote_page()._replace(groups=((Prices(rows, "USD"),),))))
    page.pdf(path=tmp_path / "long.pdf", prefer_css_page_size=True)
    page.close()
    read = ["pdftotext", "-layout", str(tmp_path / "long.pdf"), "-"]
    *sheets, end = subprocess.run(read, capture_output=True, text=True, check=True).stdout.split("\f")
    assert end == ""
    assert len(sheets) == 4
    assert "Item 0 " in sheets[0]
    assert all(sheet.count("Amount, USD") == 1 for sheet in sheets)
    assert [f"page {number} of 4" in sheet for number, sheet in enumerate(sheets, start=1)] == [True] * 4


def test_a_long_word_is_broken_and_kept_whole(browser: Any):
    page = laid_out(browser, BY_HAND["long word"], 360)
    assert page.evaluate("document.querySelector('h1').innerText.match(/W+/g).map(w => w.length)") == [10_000, 10_000]
    page.close()


def test_letters_of_another_direction_turn_nothing_beside_them(browser: Any):
    """The box to tick stays left of its step, and the name of a field above its value at the left."""
    page = laid_out(browser, BY_HAND["right to left"], 768)
    tick, text = (page.locator(each).bounding_box() for each in (".tick", "ol li bdi"))
    assert tick["x"] < text["x"]
    name, value = (page.locator(each).last.bounding_box() for each in ("dt bdi", "dd bdi"))
    assert name["x"] == pytest.approx(value["x"], abs=1)
    page.close()


LETTERS = """() => [...document.querySelectorAll('svg')].flatMap(svg => {
  const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width
  return [...svg.querySelectorAll('text')].map(text => parseFloat(getComputedStyle(text).fontSize) * scale)
}).filter(height => height)"""
"""The heights of all letters in drawings that are seen, in CSS pixels, of which 4 are 3 points."""


@pytest.mark.parametrize("name", [name for name in SHEETS if not name.endswith("customer")])
def test_letters_in_drawings_can_be_read_on_a_telephone_on_paper_and_across_a_cutting_table(browser: Any, name: str):
    """Letters of 10 pixels are as high as those under the icons of a telephone; a sheet in the hand has 8 points or
    more, and one on the cutting table 13."""
    a4, landscape = (word in document_of(name) for word in (" size: A4 ", " landscape; "))
    across = round((297 if a4 else 279.4) * 96 / 25.4) - 155 if landscape else LETTER
    page = laid_out(browser, document_of(name), 360)
    assert min(page.evaluate(LETTERS), default=10) >= 10
    page.emulate_media(media="print")
    page.set_viewport_size({"width": across, "height": 800})
    assert min(page.evaluate(LETTERS), default=18) * 3 / 4 >= (13 if name.endswith("cut") else 8)
    page.close()
