"""Markdown as a reader for it sees it: markdown-it-py, with tables and bare links switched on."""

import re
from html.parser import HTMLParser

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from finishcalc.rendering.pages.page import Fact, Fields, Head, Heading, Page, Paragraph, Part, Table, sentences, steps
from finishcalc.rendering.writers.markdown import page_markdown, pages_markdown
from finishcalc.wording.plain import plain
from tests.rendering.writers.pages_by_hand import BACKING, PRICES

READER = MarkdownIt("commonmark", {"linkify": True, "breaks": False}).enable(["table", "linkify"])

HOSTILE = [
    "| a | b |",
    "<script>alert(1)</script>",
    "https://example.test/x and www.example.test, mail a.b@example.test",
    "# not a heading",
    "1. not a list",
    "12) neither",
    "- [ ] nor a box",
    "+ nor this",
    "> quoted",
    "``` fenced ```",
    "*bold* _slanted_ ~~struck~~ [a](b) ![c](d) &amp; &#42; \\* $x$ ^y^",
    "===",
    "---",
    "a\\",
    "    four blanks",
]


class _Read(HTMLParser):
    """The text of each element, and the names of all elements."""

    def __init__(self, markdown: str) -> None:
        super().__init__(convert_charrefs=True)
        self.texts: list[str] = []
        self.elements: list[str] = []
        self.feed(READER.render(markdown))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append(tag)
        self.texts.append("")

    def handle_data(self, data: str) -> None:
        self.texts[-1:] = [self.texts[-1] + data] if self.texts else [data]

    def cells(self) -> list[str]:
        return [re.sub(r"\s+", " ", text).strip() for text in self.texts]


def as_read(text: str) -> str:
    return re.sub(r"\s+", " ", text).strip()


ELEMENTS = {"h2", "p", "br", "h3", "strong", "ul", "ol", "li", "table", "thead", "tbody", "tr", "th", "td"}
LETTERS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=40) | st.sampled_from(HOSTILE)


def with_hostile(function):  # type: ignore[no-untyped-def]
    for text in HOSTILE:
        function = example(text)(function)
    return function


@with_hostile
@given(LETTERS)
def test_any_text_is_read_as_itself_wherever_it_stands(text: str):
    shown = plain(text)
    if not as_read(shown):
        return
    page = Page(
        Head("", shown, customer=shown, notes=(shown,)),
        (
            (Heading(shown), Paragraph(shown)),
            (sentences(shown, [shown, shown]), steps("Steps", [shown])),
            (Table(["", shown], "lr", [[shown, shown]]),),
        ),
    )
    read = _Read(page_markdown(page))
    # the title, the note, a heading, a paragraph, a label, two lines, a step and three cells
    assert read.cells().count(as_read(shown)) == 11
    assert f"for {as_read(shown)}" in read.cells()
    assert set(read.elements) <= ELEMENTS


@pytest.mark.parametrize("text", HOSTILE)
def test_no_text_becomes_a_link(text: str):
    assert (
        "a" not in _Read(page_markdown(Page(Head("", text), ((Paragraph(text),), (sentences("x", [text]),))))).elements
    )


def test_a_price_is_a_table_that_re_adds():
    """The printed amounts of the lines before the subtotal add up to it."""
    read = READER.parse(page_markdown(Page(Head("Quote", "Cloth"), ((PRICES,),))))
    cells = [token.content for token in read if token.type == "inline"][1:]
    rows = [cells[n : n + 6] for n in range(6, len(cells), 6)]
    amounts = {row[0]: round(float(row[5].replace(",", "")) * 100) for row in rows}
    names = list(amounts)
    assert sum(amounts[name] for name in names[: names.index("Subtotal")]) == amounts["Subtotal"]


def test_drawings_stand_in_a_fence_and_fields_for_paper_are_left_out():
    page = Page(Head("", "t"), ((BACKING,), (Fields("Accepted", (Fact("Signature", ""),)),)))
    read = READER.parse(page_markdown(page))
    (fence,) = (token for token in read if token.type == "fence")
    assert "A" in fence.content
    assert "┌" in fence.content
    assert "Signature" not in page_markdown(page)


def test_a_name_of_backticks_does_not_end_the_drawing_that_it_stands_in():
    picture = BACKING.picture._replace(title="``` " + "a" * 200)  # so long that the backticks are a line of their own
    markdown = page_markdown(Page(Head("", "t"), ((BACKING._replace(picture=picture),),)))
    assert "\n```\n" in markdown
    (fence,) = (token for token in READER.parse(markdown) if token.type == "fence")
    assert "┌" in fence.content


def test_a_number_is_kept_where_a_note_stands_before_the_steps():
    part = Part("Cut", (*sentences("", ["wash it"]).lines, *steps("", ["first", "second"]).lines))
    html = READER.render(page_markdown(Page(Head("", "t"), ((part,),))))
    assert "<ol>" in html
    assert html.index("wash it") < html.index("first") < html.index("second")


def test_pages_are_parted_by_a_rule():
    one = Page(Head("", "one"), ())
    assert _Read(pages_markdown([one, one])).elements == ["h2", "hr", "h2"]
