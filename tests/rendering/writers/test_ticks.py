"""Lines with details below them, in every writer; and pages that keep the ticks of their boxes."""

import re
import subprocess
from base64 import b64encode
from hashlib import sha256
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib
import pytest

from finishcalc.rendering.pages.page import Format, Head, Line, Page, Part
from finishcalc.rendering.writers.html import pages_html
from finishcalc.rendering.writers.markdown import page_markdown
from finishcalc.rendering.writers.text import page_text
from finishcalc.rendering.writers.typst import pages_pdf

LINES = (
    Line("2 yd of blue", tick="everywhere", details=("backing for Oak", "cut 60 x 64 in")),
    Line("1 cone of thread", tick="everywhere"),
    Line("from the shelf", details=("a small piece",)),
)


def listed(*lines: Line, keeps: bool = True, title: str = "Oak") -> Page:
    return Page(Head("To buy", title), ((Part("Cloth", lines),),), Format(keeps_ticks=keeps))


def read(document: str) -> Element:
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    root: Element = parser.parse(document)
    assert parser.errors == []
    return root


def text_of(element: Element | None) -> str:
    assert element is not None
    return "".join(element.itertext()).strip()


def policy(root: Element) -> dict[str, str]:
    """The directives of the page's Content-Security-Policy with their sources."""
    (content,) = (meta.get("content", "") for meta in root.iter("meta") if meta.get("http-equiv"))
    return {name: sources for name, _, sources in (each.strip().partition(" ") for each in content.split(";"))}


# --- details -----------------------------------------------------------------------------------------------------


def test_details_stand_below_their_line_as_far_in_as_its_box():
    assert page_text(listed(*LINES)).splitlines()[2:] == [
        "Cloth       [ ] 2 yd of blue",
        "                backing for Oak",
        "                cut 60 x 64 in",
        "            [ ] 1 cone of thread",
        "            from the shelf",
        "                a small piece",
    ]


def test_a_narrow_terminal_wraps_details_two_columns_further_in():
    page = listed(Line("2 yd of blue", tick="everywhere", details=("backing for Oak and for Elm and for Ash, too",)))
    assert page_text(page, 40).splitlines()[2:] == [
        "Cloth",
        "  [ ] 2 yd of blue",
        "      backing for Oak and for Elm and",
        "        for Ash, too",
    ]


def test_details_are_items_below_their_item():
    assert page_markdown(listed(*LINES)).splitlines()[4:] == [
        "- [ ] 2 yd of blue",
        "  - backing for Oak",
        "  - cut 60 x 64 in",
        "- [ ] 1 cone of thread",
        "- from the shelf",
        "  - a small piece",
    ]


@pytest.mark.parametrize("keeps", [True, False])
def test_details_belong_to_the_item_of_their_line(keeps: bool):
    items = [
        [text_of(each) for each in item.iter("p")]
        for item in read(pages_html([listed(*LINES, keeps=keeps)])).iter("li")
    ]
    assert items == [["backing for Oak", "cut 60 x 64 in"], [], ["a small piece"]]


def test_paper_has_every_detail_after_its_line(tmp_path: Path):
    (tmp_path / "list.pdf").write_bytes(pages_pdf([listed(*LINES)]))
    read = subprocess.run(["pdftotext", str(tmp_path / "list.pdf"), "-"], capture_output=True, text=True, check=True)
    words = ["2 yd of blue", "backing for Oak", "cut 60 × 64 in", "1 cone of thread", "from the shelf", "a small piece"]
    text = read.stdout.replace("\u00a0", " ").replace(" x ", " × ")
    places = [text.find(each) for each in words]
    assert min(places) >= 0
    assert places == sorted(places)


# --- boxes that can be ticked ------------------------------------------------------------------------------------


def test_every_box_has_its_line_for_a_label():
    root = read(pages_html([listed(*LINES)]))
    labels = list(root.iter("label"))
    assert [text_of(label) for label in labels] == ["2 yd of blue", "1 cone of thread"]
    boxes = [list(label.iter("input")) for label in labels]
    assert [[box.get("type") for box in each] for each in boxes] == [["checkbox"]] * 2
    assert not any(box.get("checked") for each in boxes for box in each)
    assert [span for span in root.iter("span") if span.get("class") == "tick"] == []


def test_only_the_page_s_own_script_is_allowed_and_it_asks_for_nothing():
    root = read(pages_html([listed(*LINES)]))
    (script,) = root.iter("script")
    assert script.attrib == {}
    code = "".join(script.itertext())
    named = f"'sha256-{b64encode(sha256(code.encode()).digest()).decode()}'"
    assert policy(root)["script-src"] == named
    assert policy(root)["default-src"] == "'none'"
    assert "connect-src" not in policy(root)
    assert not re.search(r"fetch|XMLHttpRequest|import|eval|innerHTML|https?:", code)


def test_any_other_page_has_no_script_and_no_box():
    document = pages_html([listed(*LINES, keeps=False)])
    root = read(document)
    assert list(root.iter("script")) == list(root.iter("input")) == []
    assert "script-src" not in policy(root)
    assert "data-ticks" not in document
    assert "checkbox" not in document


def test_two_lists_keep_their_ticks_apart_and_one_list_finds_its_own_again():
    pages = [
        listed(*LINES),
        listed(*LINES, title="Elm"),
        listed(*LINES[:2]),
        listed(LINES[1], LINES[0], LINES[2]),
        listed(LINES[0]._replace(details=()), *LINES[1:]),
        listed(LINES[0]._replace(text="3 yd of blue"), *LINES[1:]),
    ]
    keys = [read(pages_html([page])).get("data-ticks", "") for page in pages]
    assert len(set(keys)) == len(pages)
    assert all(re.fullmatch(r"finishcalc-[0-9a-f]{24}", key) for key in keys)
    assert read(pages_html([listed(*LINES)])).get("data-ticks") == keys[0]
