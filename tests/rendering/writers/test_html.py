"""Pages as HTML: read by a parser that follows the standard, and held against rules for those who read by ear, on a
telephone or on paper."""

import re
from base64 import b64decode, b64encode
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache
from hashlib import sha256
from itertools import pairwise
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.rendering.pages.customer_sheet import customer_sheet
from finishcalc.rendering.pages.cut import cut_sheet
from finishcalc.rendering.pages.page import (
    BlankLines,
    Fact,
    Fields,
    Format,
    Head,
    Heading,
    Line,
    Logo,
    Page,
    Paragraph,
    Part,
    PriceRow,
    Prices,
    Table,
    sentences,
)
from finishcalc.rendering.pages.work_order import work_order_sheet
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.picture import Picture
from finishcalc.rendering.writers.html import pages_html
from finishcalc.wording.notation import NO_BREAK
from tests.builders import EACH_PROJECT, PROJECTS, finished
from tests.rendering.writers.pages_by_hand import BACKING, SIZES, bench_page, page_html, png, quote_page, work_page
from tests.strategies import examples

SVG = "{http://www.w3.org/2000/svg}"
HAND = {"quote": quote_page, "work order": work_page, "bench": bench_page}


@lru_cache(maxsize=4)
def read(document: str) -> Element:
    """Read a document as the standard says; it has no mistake."""
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    root = parser.parse(document)
    assert parser.errors == []
    return root


def text_of(element: Element) -> str:
    return "".join(element.itertext())


def found(root: Element, *tags: str) -> list[Element]:
    """All elements of some kinds, in the order of the document."""
    return [element for element in root.iter() if element.tag in tags]


def page_with(*blocks: object, **changes: object) -> Page:
    head = Head("Quote", "Cloth")._replace(**changes)
    return Page(head, (blocks,))  # type: ignore[arg-type]


@pytest.fixture(params=[*HAND, "several"])
def document(request: pytest.FixtureRequest) -> str:
    if request.param == "several":
        return pages_html([work_page(), bench_page(), work_page()])
    return page_html(HAND[request.param]())


# --- rules for every document ------------------------------------------------------------------------------------


def test_a_document_is_read_without_a_mistake_and_says_its_language_and_title(document: str):
    root = read(document)
    assert document.startswith("<!DOCTYPE html>\n")
    assert document.endswith("</html>\n")
    assert root.get("lang") == "en"
    assert text_of(found(root, "title")[0]).strip()
    assert len(found(root, "main")) == 1
    assert found(root, "meta")[0].get("charset") == "utf-8"
    viewport = next(meta for meta in found(root, "meta") if meta.get("name") == "viewport")
    assert viewport.get("content") == "width=device-width, initial-scale=1", "a reader may enlarge it"


def test_each_page_has_one_first_heading_and_no_level_is_skipped(document: str):
    for article in found(read(document), "article"):
        levels = [int(str(heading.tag)[1]) for heading in found(article, "h1", "h2", "h3", "h4", "h5", "h6")]
        assert levels[0] == 1
        assert levels.count(1) == 1
        assert all(level <= before + 1 for before, level in pairwise(levels)), levels
        assert all(text_of(heading).strip() for heading in found(article, "h1", "h2", "h3"))


def test_every_table_is_named_and_every_head_says_what_it_heads(document: str):
    roles = {"table": "table", "thead": "rowgroup", "tbody": "rowgroup", "tr": "row", "td": "cell"}
    for table in found(read(document), "table"):
        captions = [text_of(caption) for caption in found(table, "caption")]
        assert any([*captions, table.get("aria-label")])
        assert len(found(table, "thead")) == 1
        for head in found(table, "th"):
            assert head.get("scope") in ("col", "row")
            assert text_of(head).strip(), "an empty head says nothing"
            assert head.get("role") == {"col": "columnheader", "row": "rowheader"}[head.get("scope", "")]
        for element in found(table, *roles):
            assert element.get("role") == roles[str(element.tag)], "a table set as a list has to stay one"
        widths = {len(found(row, "td", "th")) for row in found(table, "tr")}
        assert len(widths) == 1, widths


def test_ids_are_unique_and_every_reference_finds_its_text(document: str):
    root = read(document)
    ids = [element.get("id", "") for element in root.iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    for element in root.iter():
        for name in element.get("aria-labelledby", "").split():
            assert name in ids
        for name in re.findall(r"url\(#([^)]+)\)", " ".join(element.attrib.values())):
            assert name in ids


def test_pictures_tell_what_they_show(document: str):
    for drawing in found(read(document), f"{SVG}svg"):
        assert drawing.get("role") == "img"
        assert text_of(found(drawing, f"{SVG}title")[0]).strip()
        assert text_of(found(drawing, f"{SVG}desc")[0]).strip()


def test_nothing_is_run_and_nothing_is_fetched(document: str):
    root = read(document)
    fetching = ["script", "link", "iframe", "object", "embed", "base", "form", "a", "video", "audio", "source"]
    assert found(root, *fetching, f"{SVG}script", f"{SVG}use", f"{SVG}image", f"{SVG}a", f"{SVG}style") == []
    for element in root.iter():
        for name, value in element.attrib.items():
            assert not name.startswith("on"), name
            assert name not in ("href", "srcset", "style", "action"), name
            assert name != "src" or value.startswith("data:image/")
    style = text_of(found(root, "style")[0])
    assert not re.search(r"url\(|@import|@font-face|expression", style)


def test_the_policy_allows_the_style_sheet_by_its_hash_and_nothing_else(document: str):
    root = read(document)
    metas = [meta for meta in found(root, "meta") if meta.get("http-equiv") == "Content-Security-Policy"]
    [style] = found(root, "style")
    digest = b64encode(sha256(text_of(style).encode()).digest()).decode()
    assert [meta.get("content") for meta in metas] == [
        f"default-src 'none'; style-src 'sha256-{digest}'; img-src data:; base-uri 'none'; form-action 'none'"
    ]


def test_ink_stands_out_from_the_ground_in_light_in_the_dark_and_on_paper(document: str):
    """WCAG 2.2, 1.4.3 asks for 4.5 to 1. All colours of the style sheet are named once for each way of reading."""
    style = text_of(found(read(document), "style")[0])
    schemes = re.findall(r":root \{([^}]*)\}", style)
    assert len(schemes) == 3
    for scheme in schemes:
        ink, ground = (re.search(rf"--{name}: #([0-9a-f]{{6}});", scheme)[1] for name in ("ink", "ground"))  # type: ignore[index]
        assert contrast(ink, ground) >= 4.5
    elsewhere = re.sub(r":root \{[^}]*\}", "", style)
    colours = re.findall(r"#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|opacity)\b", elsewhere)
    assert set(colours) <= {"#ffffff"}, "the ground of drawings and logos, which bring their own ink"


def contrast(one: str, other: str) -> float:
    """The contrast ratio of WCAG 2.2."""

    def luminance(colour: str) -> float:
        parts = [int(colour[n : n + 2], 16) / 255 for n in (0, 2, 4)]
        red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_of_contrast_gives_the_known_ratios():
    """Black on white is 21 to 1 by definition; #767676 is the lightest grey that passes on white (WebAIM)."""
    assert contrast("000000", "ffffff") == pytest.approx(21)
    assert contrast("767676", "ffffff") >= 4.5 > contrast("777777", "ffffff")


def test_the_same_page_is_the_same_bytes():
    assert page_html(work_page()) == page_html(work_page())


@pytest.mark.usefixtures("shared_work")
@pytest.mark.no_cover
@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_sheet_of_every_sample_keeps_the_rules(path: Path):
    result = finished(path)
    for sheet in (customer_sheet(result, alternatives_of(result)), work_order_sheet(result), cut_sheet(result)):
        document = page_html(sheet)
        for rule in (
            test_each_page_has_one_first_heading_and_no_level_is_skipped,
            test_every_table_is_named_and_every_head_says_what_it_heads,
            test_ids_are_unique_and_every_reference_finds_its_text,
            test_pictures_tell_what_they_show,
            test_nothing_is_run_and_nothing_is_fetched,
        ):
            rule(document)


# --- what each block becomes -------------------------------------------------------------------------------------


def test_the_head_says_whom_the_page_is_for_and_from_and_what_is_agreed():
    root = read(page_html(quote_page()))
    assert text_of(found(root, "title")[0]) == "Quote 2026-014: Supper cloth for the boathouse"
    assert text_of(found(root, "h1")[0]) == "Quote 2026-014: Supper cloth for the boathouse"
    header = found(root, "header")[0]
    facts = dict(zip(map(text_of, found(header, "dt")), map(text_of, found(header, "dd")), strict=True))
    assert facts == {
        "For": "Marit of the boathouse",
        "Date": "May 4, 2026",
        "Ready by": "June 1, 2026",
        "Holds until": "to be filled in by hand",
    }
    for text in ("Sample studio", "Upper lane 4, by the mill", "Leftover cloth goes back to you."):
        assert text in [text_of(each) for each in found(header, "bdi")]


def test_a_page_with_anything_unsettled_is_provisional_in_title_head_and_foot():
    settled, open_one = page_html(quote_page()), page_html(work_page())
    assert "rovisional" not in text_of(found(read(settled), "main")[0])
    root = read(open_one)
    assert text_of(found(root, "title")[0]).endswith("(provisional)")
    words = text_of(found(root, "header")[0])
    assert "Provisional" in words
    assert re.search(r"Not settled yet\s+The backing is 3 in too narrow", words)
    assert read_css_text(text_of(found(root, "style")[0])).endswith(" · provisional")


def read_css_text(style: str) -> str:
    """Read the first text at the lower left of a printed page, as CSS says."""
    written = re.search(r'@bottom-left \{ content: "([^"]*)"; \}', style)
    assert written
    return re.sub(r"\\([0-9a-f]{1,6}) ", lambda each: chr(int(each[1], 16)), written[1])


def test_the_foot_of_a_printed_page_names_it_and_obeys_nothing():
    hostile = '"; } body { display: none } </style><script> \\ \n'
    root = read(page_html(page_with(title=hostile)))
    assert read_css_text(text_of(found(root, "style")[0])) == f"Quote: {hostile}"
    assert len(found(root, "style")) == 1


def test_a_logo_is_in_the_file_itself_and_has_words_beside_it():
    picture = png()
    root = read(page_html(page_with(studio="Mill & Co", logo=Logo("png", picture))))
    [image] = found(root, "img")
    kind, _, content = image.get("src", "").partition(";base64,")
    assert kind == "data:image/png"
    assert b64decode(content) == picture
    assert image.get("alt") == "Logo of Mill & Co"
    [bare] = found(read(page_html(page_with(logo=Logo("jpeg", b"\xff\xd8")))), "img")
    assert bare.get("src", "").startswith("data:image/jpeg;base64,")
    assert bare.get("alt") == "Logo"


def test_parts_after_a_heading_stand_one_level_below_it():
    page = Page(
        Head("Quote", "Cloth"),
        (
            (sentences("Before", ["one"]), sentences("Empty", [])),
            (Heading("Cut"),),
            (sentences("First", ["two"]), sentences("Also", ["three"])),
            (Heading("Sew"), sentences("Last", ["four"])),
        ),
    )
    headings = [(str(each.tag), text_of(each)) for each in found(read(page_html(page)), "h1", "h2", "h3")]
    assert headings[1:] == [
        ("h2", "Before"), ("h2", "Cut"), ("h3", "First"), ("h3", "Also"), ("h2", "Sew"), ("h3", "Last"),
    ]  # fmt: skip


def test_steps_have_the_numbers_of_the_page_and_boxes_stand_where_it_has_them():
    lines = (Line("as agreed"), Line("cut", 4, "everywhere"), Line("sew", 5, "on paper"), Line("press"), Line("pin", 9))
    root = read(page_html(page_with(Part("Work", lines))))
    steps = [(item.get("value"), text_of(item)) for each in found(root, "ol") for item in found(each, "li")]
    assert steps == [("4", "cut"), ("5", "sew"), ("9", "pin")]
    ticks = [each for each in found(root, "span") if each.get("class") == "tick"]
    assert len(ticks) == 2
    assert all(each.get("aria-hidden") == "true" for each in ticks)
    parents = {child: parent for parent in root.iter() for child in parent}
    assert [text_of(parents[each]) for each in ticks] == ["cut", "sew"]


def rows_of(table: Element) -> list[list[str]]:
    return [[text_of(cell) for cell in found(row, "td", "th")] for row in found(table, "tr")]


def test_a_table_keeps_every_cell_and_has_room_to_write_in():
    table = Table(["Minutes", "low", "high"], "lrr", [["Loading", "20", "40"], ["All", "20", "40"]], summed=True)
    [element] = found(read(page_html(page_with(table._replace(fill_in=("took", "why"))))), "table")
    assert rows_of(element) == [
        ["Minutes", "low", "high", "took", "why"],
        ["Loading", "20", "40", "", ""],
        ["All", "20", "40", "", ""],
    ]
    body = found(element, "tbody")[0]
    assert [row.get("class") for row in found(body, "tr")] == [None, "sums"]
    assert [cell.get("class") for cell in found(body, "td")][:4] == ["r", "r", "open", "open"]
    assert [cell.get("data-head") for cell in found(body, "td")][:4] == ["low", "high", "took", "why"]


def test_a_table_of_many_columns_is_parted_and_every_part_names_its_rows():
    """Each size takes 12 letters ("100 x 100 in") and 2 between; beside 7 for "Binding", 5 sizes and no more fit 84:
    7 + 5 x 14 = 77, and with a sixth 91. So 12 sizes are three tables."""
    sizes = [f"size {n}" for n in range(1, 13)]
    rows = [[name, *[f"{n} x {n} in".replace(" ", NO_BREAK).rjust(12, "1") for n in range(100, 112)]]
            for name in ("Top", "Binding")]  # fmt: skip
    tables = found(read(page_html(page_with(Table(["", *sizes], "l" * 13, rows, "Sizes", by_columns=True)))), "table")
    assert [rows_of(table)[0] for table in tables] == [["", *sizes[:5]], ["", *sizes[5:10]], ["", *sizes[10:]]]
    assert [rows_of(table)[1][0] for table in tables] == ["Top"] * 3
    assert [cell for table in tables for cell in rows_of(table)[2][1:]] == rows[1][1:]
    assert [text_of(each) for each in found(tables[0], "caption")] == ["Sizes"]
    assert [table.get("aria-label") for table in tables[1:]] == ["Sizes, continued"] * 2


def test_a_wide_table_is_marked_to_be_a_list_on_a_telephone_and_a_narrow_one_is_not():
    narrow = Table(["Part", "yd"], "lr", [["Top", "3"]])
    tables = found(read(page_html(page_with(narrow, SIZES))), "table")
    assert [table.get("class") for table in tables] == ["", "stacks"]


def test_fields_are_filled_in_or_open_and_there_are_lines_to_write_on():
    fields = Fields("Agreed", (Fact("Pattern", "fans"), Fact("Thread", "")))
    root = read(page_html(page_with(fields, BlankLines("Seen", 3))))
    values = [(text_of(each), each.get("class")) for each in found(root, "dd")]
    assert values == [("fans", None), ("to be filled in by hand", "open")]
    assert len([each for each in found(root, "div") if each.get("class") == "blank"]) == 3
    assert "3 blank lines to write on" in text_of(root)


def test_several_pages_are_printed_on_sheets_of_their_own_formats():
    document = pages_html([quote_page(), work_page(), bench_page()])
    style = text_of(found(read(document), "style")[0])
    sizes = re.findall(r"@page sheet-(\d) \{ size: ([^;]+);", style)
    assert sizes == [("1", "letter portrait"), ("2", "A4 portrait"), ("3", "letter landscape")]
    assert [each.get("class") for each in found(read(document), "article")] == ["sheet-1", "sheet-2", "sheet-3"]
    for number in "123":
        assert f".sheet-{number} {{ page: sheet-{number}; }}" in style


def test_long_cloth_for_the_cutting_table_has_a_drawing_for_the_screen_and_others_for_paper():
    """The sample's cloth lies in two rows of a backing's width each, so it takes two sheets of paper."""
    boxes = [each.get("class") for each in found(read(page_html(bench_page())), "div")]
    assert boxes.count("screen") == 1
    assert boxes.count("paper") == 2
    on_request = page_html(bench_page()._replace(format=Format()))
    assert not {"screen", "paper"} & {each.get("class") for each in found(read(on_request), "div")}


# --- the money ---------------------------------------------------------------------------------------------------


@pytest.mark.usefixtures("shared_work")
@pytest.mark.no_cover
@pytest.mark.parametrize("path", EACH_PROJECT, ids=lambda path: path.stem)
def test_the_price_adds_up_in_the_text_of_the_document(path: Path):
    result = finished(path)
    root = read(page_html(customer_sheet(result, alternatives_of(result))))
    [table] = [each for each in found(root, "table") if each.get("class") == "prices"]
    head, *rows = rows_of(table)
    assert head == ["Item", "Quantity", "Unit", "Rate", f"Amount, {result.quote.currency.code}"]
    signs = (".", ",") if result.resolved.project.units == "cm" else (",", ".")
    amounts = [Decimal(row[-1].replace(signs[0], "").replace(signs[1], ".")) for row in rows]
    subtotal = next(n for n, row in enumerate(rows) if row[0] == "Subtotal")
    assert sum(amounts[:subtotal]) == amounts[subtotal] == result.quote.subtotal.major
    marks = [row[3].endswith("*") for row in rows[:subtotal]]
    assert marks == [line.rests_on_sample and not line.is_share for line in result.quote.lines]


def test_figures_end_their_whole_parts_on_one_line_down_the_column():
    """The longest rests are " 3/4" and ".77", four and three signs: each cell keeps room for four."""
    quantities = ["5,124", f"5{NO_BREAK}3/4", "3/4", "311.77", "1"]
    rows = tuple(PriceRow("a", each, "yd", "1.00", False, "1.00") for each in quantities)
    root = read(page_html(page_with(Prices(rows, "USD"))))
    cells = [each for each in found(root, "td") if each.get("class", "").startswith("quantity")]
    assert [text_of(each) for each in cells] == quantities
    rests = [found(each, "span")[0] for each in cells]
    assert [text_of(each) for each in rests] == ["", f"{NO_BREAK}3/4", "3/4", ".77", ""]
    assert {each.get("class") for each in rests} == {"rest room-4"}
    comma = read(page_html(page_with(Prices((PriceRow("a", "1.234,5", "m", "1", False, "1"),), "EUR", ","))))
    assert [text_of(each) for each in found(comma, "span") if each.get("class") == "rest room-2"] == [",5"]


# --- any text in any field ---------------------------------------------------------------------------------------

HOSTILE = [
    "<script>alert(1)</script>",
    "</style></title></bdi><b>",
    "\"' onload=x {{ 7*7 }} {% raw %} {# #} &amp; &#x41; ]]> <!--",
    "\x00\x07\x1b[31m\r\n\x7f\x85\x9f",
    "\u202eright to left\u2066\u200f \u05d0\u05d1 \u0627",
    "\ud800 \udfff \ufffe \uffff \ufdd0 \U0001fffe",
    "\U0001f9f5\U0001f1f3\U0001f1f4 \ufeff \u00ad \u200b",
    "  two  blanks, a tab\t and\n a line feed ",
    "W" * 10_000,
]


def shown(text: str) -> str:
    """The text as it has to be read: what HTML forbids (controls but tab and line feed, surrogates, noncharacters) is
    an escape, all else is itself. The standard, "preprocessing the input stream"."""

    def is_forbidden(code: int) -> bool:
        control = (code < 0x20 and code not in (0x09, 0x0A)) or 0x7F <= code < 0xA0
        return control or 0xD800 <= code < 0xE000 or 0xFDD0 <= code < 0xFDF0 or code & 0xFFFE == 0xFFFE

    def one(char: str) -> str:
        code = ord(char)
        if not is_forbidden(code):
            return char
        return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"

    return "".join(map(one, text))


def page_of(text: str) -> Page:
    """A page with the same text in each of its places for one, those of a drawing aside."""
    head = Head(text, text, text, text, (text,), Logo("png", b""), (Fact(text, text),), (text,), (text,))
    price = PriceRow(text, text, text, text, True, text)
    return Page(
        head,
        (
            (Part(text, (Line(text), Line(text, 1, "on paper"))), Heading(text), Paragraph(text, small=True)),
            (Table([text, text], "lr", [[text, text]], text), Prices((price,), text)),
            (Fields(text, (Fact(text, text),)), BlankLines(text, 1)),
        ),
    )


PLACES = 9 + 3 + 2 + 5 + 6 + 3 + 1
"""The head has 9; part, heading and paragraph 3 + 2; the table 5, the price 6, the fields 3, and the blank lines 1."""


def check_text(text: str) -> Element:
    document = page_html(page_of(text))
    document.encode()
    root = read(document)
    set_apart = [text_of(each) for each in found(root, "bdi")]
    set_apart.remove("For")  # our own word, above the customer's name
    assert Counter(set_apart)[shown(text)] == len(set_apart) == PLACES
    assert text_of(found(root, "title")[0]) == shown(f"{text}: {text} (provisional)")
    assert found(root, "img")[0].get("alt") == shown(f"Logo of {text}")
    return root


def tags(root: Element) -> Iterator[str]:
    return (str(element.tag) for element in root.iter())


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: ascii(text[:12]))
def test_a_hostile_text_is_read_as_that_text_and_makes_no_element(text: str):
    assert list(tags(check_text(text))) == list(tags(check_text("word")))


@examples(60)
@given(st.text(st.characters(codec=None), min_size=1, max_size=40))
def test_any_text_in_any_field_is_read_as_that_text(text: str):
    check_text(text)


@examples(30)
@given(st.lists(st.sampled_from([*"<>&\"'`={}%#/!-\\ \n\r\0;", "script", "style", "bdi", "]]>"]), min_size=1))
def test_no_row_of_signs_makes_markup(parts: list[str]):
    assert list(tags(check_text("".join(parts)))) == list(tags(check_text("word")))


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: ascii(text[:12]))
def test_a_hostile_text_in_a_drawing_is_read_as_text(text: str):
    picture = BACKING.picture
    assert isinstance(picture, Picture)
    drawn = Drawing(text, picture._replace(title=text, description=text), BACKING.notation)
    document = page_html(page_with(drawn))
    document.encode()
    root = read(document)
    assert text_of(found(root, f"{SVG}title")[0]) == shown(text)
    shapes = ["svg", "title", "desc", "defs", "pattern", "g", "rect", "line", "path", "circle", "ellipse", "text"]
    assert {tag for tag in tags(root) if tag.startswith(SVG)} <= {SVG + shape for shape in shapes}
    html_tags = Counter(tag for tag in tags(root) if not tag.startswith(SVG))
    plain = Drawing("a", picture._replace(title="a", description="a"), BACKING.notation)
    assert html_tags == Counter(tag for tag in tags(read(page_html(page_with(plain)))) if not tag.startswith(SVG))


def test_a_sign_that_holds_a_figure_to_its_unit_is_a_no_break_space():
    root = read(page_html(page_with(Paragraph(f"60{NO_BREAK}in"))))
    assert "60\u00a0in" in text_of(root)


def test_an_unusual_page_has_no_empty_headings():
    """A part without a label, and a page without a kind or a title."""
    bare = page_html(Page(Head("", "Sizes"), ((sentences("", ["one"]), BlankLines("", 1)), ())))
    root = read(bare)
    assert [text_of(each) for each in found(root, "h1", "h2")] == ["Sizes"]
    assert text_of(found(read(page_html(Page(Head("Quote", ""), ()))), "h1")[0]) == "Quote"
