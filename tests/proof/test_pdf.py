"""PDF read back by poppler's tools: its words, its structure, its fonts, and that nothing leaves the sheet."""

import io
import re
import shutil
import struct
import subprocess
import unicodedata
from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.commandline.views import More, quote_view
from finishcalc.rendering.pages.customer_sheet import customer_sheet
from finishcalc.rendering.pages.page import (
    BlankLines,
    Fact,
    Fields,
    Format,
    Head,
    Heading,
    Line,
    Page,
    Paragraph,
    Part,
    PriceRow,
    Prices,
    Table,
)
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.writers.glyphs import covered
from finishcalc.rendering.writers.typst import MARGINS, pages_pdf
from tests.builders import GOLDEN, PROJECTS, finished
from tests.rendering.writers.pages_by_hand import (
    PRICES,
    SIZES,
    bench_page,
    cloth_drawing,
    page_pdf,
    quote_page,
    work_page,
)
from tests.strategies import examples

MM = 72 / 25.4


def poppler(name: str, written: bytes, *options: str) -> str:
    """The words of a tool of poppler about a PDF."""
    if not shutil.which(name):
        pytest.skip(f"{name} is not installed")
    with NamedTemporaryFile(suffix=".pdf") as file:
        file.write(written)
        file.flush()
        command = [name, *options, file.name, *(["-"] if name == "pdftotext" else [])]
        return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def layout(written: bytes) -> str:
    return poppler("pdftotext", written, "-layout").replace("\u00a0", " ")


def sheets(written: bytes) -> list[str]:
    """The text of each sheet."""
    return layout(written).removesuffix("\f").split("\f")


# --- structure ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("page", [quote_page(), work_page(), bench_page()], ids=["quote", "work order", "bench"])
def test_a_file_is_tagged_has_a_title_and_a_language_and_holds_its_fonts(page: Page) -> None:
    written = page_pdf(page)
    told = poppler("pdfinfo", written)
    assert re.search(r"^Tagged: +yes$", told, re.MULTILINE)
    assert f"Title:           {page.head.full_title}\n" in told
    assert "<pdfuaid:part>1</pdfuaid:part>" in poppler("pdfinfo", written, "-meta").replace(" ", "")
    assert re.search(rb"/Lang\s*\(en\)", written)
    fonts = [line.split() for line in poppler("pdffonts", written).splitlines()[2:]]
    assert fonts
    for name, *_, embedded, subset, unicode, _number, _generation in fonts:
        assert "+LibertinusSerif-" in name
        assert (embedded, subset, unicode) == ("yes", "yes", "yes")


def test_a_screen_reader_finds_headings_cells_of_a_head_and_the_pictures_in_words() -> None:
    written = page_pdf(work_page())
    told = poppler("pdfinfo", written, "-struct-text")
    assert told.count("H1 ") == 1
    assert 'H1 "Supper cloth for the boathouse"' in told
    for heading in ("Order of work", "Cloth and backing", "Afterwards"):
        assert f'H2 "{heading}"' in told
    assert 'H3 "Frame"' in told  # a part below a heading
    cells = re.findall(r"(TH|TD)[^\n]*:\n(?: +/[^\n]*\n)*((?: +\"[^\n]*\n)*)", told)
    heads = [text.strip().strip('"') for kind, text in cells if kind == "TH"]
    for head in ("For", "As taped", "Minutes", "took", "crib"):
        assert head in heads
    pictures = poppler("pdfinfo", written, "-struct").count("Figure")
    assert pictures == len(re.findall(rb"/Alt\s*[(<]", written)) >= 3  # the logo, the cloth and the backing


def test_the_levels_of_headings_leave_none_out() -> None:
    told = poppler("pdfinfo", page_pdf(work_page()), "-struct")
    levels = [int(level) for level in re.findall(r"^ *H(\d)", told, re.MULTILINE)]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


# --- words and money ----------------------------------------------------------------------------------------------


def test_every_sentence_of_a_sheet_is_read_from_it_in_order() -> None:
    text = " ".join(layout(page_pdf(quote_page())).split())
    said = [
        "Sample studio", "Upper lane 4, by the mill", "Quote 2026-014", "Supper cloth for the boathouse",
        "Marit of the boathouse", "May 4, 2026", "Leftover cloth goes back to you.", "Top", "60 1/2 x 84 in",
        "Quilting, medium pantograph", "* based on a sample rate", "Options", "$22.49 less *", "You bring",
        "This quote holds until June 3, 2026.", "Agreed", "medium pantograph", "Accepted", "Signature", "page 1 of 1",
    ]  # fmt: skip
    for each in said:
        before, found, text = text.partition(each)
        assert found, f"{each} is not found after {before}"


def amounts(text: str) -> dict[str, Decimal]:
    """The last figure of each row of the price, by the words that it begins with."""
    rows = re.findall(r"^(\S.*?)  .*?(−?[\d,]+\.\d\d)$", text, re.MULTILINE)
    return {label: Decimal(amount.replace(",", "").replace("−", "-")) for label, amount in rows}


def test_the_printed_amounts_add_up() -> None:
    found = amounts(layout(page_pdf(quote_page())))
    sums = {"Subtotal", "Sales tax", "Total, USD", "Deposit", "Balance"}
    lines = [amount for label, amount in found.items() if label not in sums]
    assert len(lines) == 5
    assert sum(lines) == found["Subtotal"]
    assert found["Subtotal"] + found["Sales tax"] == found["Total, USD"]
    assert found["Deposit"] + found["Balance"] == found["Total, USD"]


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_sample_project_is_one_sheet_for_the_customer(path: Path) -> None:
    result = finished(path)
    page = customer_sheet(result, alternatives_of(result))
    written = page_pdf(page)
    told = poppler("pdfinfo", written)
    assert re.search(r"^Pages: +1$", told, re.MULTILINE)
    size = {"letter": "612 x 792 pts (letter)", "A4": "595.276 x 841.89 pts (A4)"}[page.format.paper]
    assert re.search(rf"^Page size: +{re.escape(size)}", told, re.MULTILINE)
    text = layout(written)
    for group in page.groups:
        for block in group:
            if isinstance(block, Prices):
                for row in block.rows:
                    assert re.search(rf"{re.escape(row.amount.replace('-', '−'))}$", text, re.MULTILINE)


# --- sheets -------------------------------------------------------------------------------------------------------


def long_page() -> Page:
    """A quote of 60 lines."""
    lines = [PriceRow(f"Line {n}", str(n), "in", "0.05", False, f"{n}.00") for n in range(60)]
    return quote_page()._replace(groups=((Prices((*lines, *PRICES.rows[5:]), "USD"),), (Paragraph("The end."),)))


def test_longer_work_flows_on_with_its_head_repeated() -> None:
    first, second = sheets(page_pdf(long_page()))
    assert first.count("Amount, USD") == second.count("Amount, USD") == 1
    assert "Sample studio · Quote 2026-014 · Supper cloth for the boathouse" not in first
    assert "Sample studio · Quote 2026-014 · Supper cloth for the boathouse" in second
    assert re.search(r"Quote 2026-014 +page 1 of 2\s*$", first)
    assert re.search(r"Quote 2026-014 +page 2 of 2\s*$", second)


def test_a_provisional_sheet_says_so_at_its_head_and_at_every_foot() -> None:
    all_sheets = sheets(page_pdf(work_page()))
    assert "Provisional" in all_sheets[0]
    assert "Not settled yet" in all_sheets[0]
    assert all(re.search(r"Work order 2026-014 · provisional +page \d of \d\s*$", sheet) for sheet in all_sheets)
    assert "rovisional" not in layout(page_pdf(quote_page()))


def test_the_sheets_of_each_page_are_counted_alone() -> None:
    feet = re.findall(r"page \d of \d", layout(pages_pdf([long_page(), quote_page(), long_page()])))
    assert feet == ["page 1 of 2", "page 2 of 2", "page 1 of 1", "page 1 of 2", "page 2 of 2"]


def test_a_group_that_has_room_on_one_sheet_is_not_parted() -> None:
    part = Part("Steps", tuple(Line(f"step {n}") for n in range(20)))
    for before in range(12, 45, 4):
        filled = Part("Before", tuple(Line("x") for _ in range(before)))
        page = Page(Head("", "A page"), ((filled,), (Heading("Heading"),), (part,)))
        (sheet,) = [each for each in sheets(page_pdf(page)) if "step 0" in each]
        assert "step 19" in sheet
        assert "Heading" in sheet


def test_a_fitted_page_is_set_closer_where_it_is_then_one_sheet() -> None:
    def of(lines: int) -> Page:
        return Page(Head("", "x"), ((Part("A", tuple(Line("y") for _ in range(lines))),),), Format(fitted=True))

    counts = []
    for lines in range(30, 60, 2):
        loose = len(sheets(page_pdf(of(lines)._replace(format=Format()))))
        counts.append((loose, len(sheets(page_pdf(of(lines))))))
    assert (2, 1) in counts  # closer, and so one sheet
    assert all(fitted <= loose for loose, fitted in counts)
    assert counts[-1] == (2, 2)


def test_what_is_compared_is_written_in_several_tables_where_there_is_no_room_for_all() -> None:
    many = [f"size {n}" for n in range(20)]
    table = Table(["", *many], "l" * 21, [["Top", *(f"{n} x {n} inches" for n in range(20))]], by_columns=True)
    written = page_pdf(Page(Head("", "x"), ((table,),)))
    text = layout(written)
    assert [name for name in many if not re.search(rf"{name}\b", text)] == []
    assert text.count("Top") > 1
    assert_inside(written)


# --- nothing breaks the page --------------------------------------------------------------------------------------


class Word(NamedTuple):
    sheet: tuple[float, float]
    left: float
    top: float
    right: float
    bottom: float
    text: str


def words(written: bytes) -> Iterator[Word]:
    """Every word with its place, in points."""
    size = (0.0, 0.0)
    for line in poppler("pdftotext", written, "-bbox").splitlines():
        if page := re.search(r'<page width="([\d.]+)" height="([\d.]+)"', line):
            size = float(page[1]), float(page[2])
        if word := re.search(r'xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*)</word>', line):
            left, top, right, bottom = map(float, word.groups()[:4])
            yield Word(size, left, top, right, bottom, word[5])


def assert_inside(written: bytes) -> None:
    """No word reaches into the margins at the sides, or over the head and the foot of a sheet."""
    for word in words(written):
        width, height = word.sheet
        assert word.left >= MARGINS["left"] * MM - 0.5, word
        assert word.right <= width - MARGINS["right"] * MM + 0.5, word
        assert word.top >= 8, word
        assert word.bottom <= height - 8, word


def everywhere(text: str, page_format: Format) -> Page:
    """A page with a text in every field of every block."""
    fact = Fact(text, text)
    row = PriceRow(text, text, text, text, True, text)
    head = Head(text, text, text, text, (text, text), None, (fact, Fact(text, "")), (text,), (text,))
    groups = (
        (Heading(text), Part(text, (Line(text), Line(text, 1, "on paper"), Line(text, tick="everywhere")))),
        (Paragraph(text), Paragraph(text, small=True)),
        (Table([text] * 3, "lrl", [[text] * 3] * 2, text, summed=True, fill_in=(text,)),),
        (Table(["", *[text] * 6], "lrrrrrr", [[text] * 7], by_columns=True),),
        (Prices((row, row._replace(kind="total")), text),),
        (Fields(text, (fact, Fact(text, ""))), BlankLines(text, 2)),
    )
    return Page(head, groups, page_format)


MARKUP = "#set text(red) *b* _i_ $x$ `r` <l> @ref // /* \"q\" 'a' [c] {d} \\u{41} = - + ~ -- ---"


HOSTILE = {
    "nothing": "",
    "a blank": " ",
    "markup": MARKUP,
    "no glyphs": "🧵 漢字 عرب שלום",
    "controls": "a\x00\x07\x1b[31m\u202e\u200f\u2028",
    "half a pair": "\ud800",
    "a wide word": "W" * 200,
    "many words": "lorem ipsum " * 90,
    "a tower": "a" + "\u0301" * 40,
    "hyphens": "-" * 300,
    "no breaks": "a\u00a0" * 200,
    "lines": "one\ntwo\n\nthree",
}


@pytest.mark.parametrize(
    "page_format", [Format(), Format("A4", True, False, True), Format(fitted=True)], ids=["plain", "bench", "fitted"]
)
@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_no_text_breaks_the_page(text: str, page_format: Format) -> None:
    assert_inside(page_pdf(everywhere(text, page_format)))


@pytest.mark.parametrize("text", ["W" * 10_000, "Wi" * 5_000, "lorem ipsum " * 834], ids=["wide", "uneven", "words"])
def test_a_text_of_ten_thousand_characters_flows_over_sheets(text: str) -> None:
    head = quote_page().head._replace(notes=(text,))
    written = page_pdf(quote_page()._replace(head=head, groups=((Part("Long", (Line(text, 1),)), Paragraph(text)),)))
    assert_inside(written)
    read = "".join(word.text for word in words(written))
    whole = text.replace(" ", "")
    assert len(re.findall("W|i|lorem|ipsum", read)) >= 3 * len(re.findall("W|i|lorem|ipsum", whole))


def squeezed(text: str) -> str:
    return "".join(text.split())


def test_markup_comes_out_as_it_was_written() -> None:
    page = Page(Head(MARKUP, MARKUP), ((Part(MARKUP, (Line(MARKUP),)), Paragraph(MARKUP)),))
    read = squeezed(layout(page_pdf(page._replace(groups=((Paragraph(MARKUP),),)))))
    assert read.count(squeezed(MARKUP)) >= 2
    # the kind, the title, the label, its line, the paragraph, and the foot, where the kind stands again
    assert squeezed(layout(page_pdf(page))).count("#settext(red)") == 6


def test_a_note_at_the_end_explains_the_signs_that_stand_for_characters() -> None:
    text = " ".join(layout(page_pdf(quote_page()._replace(head=Head("Quote", "Fish 🧵")))).split())
    assert "Fish [U+1F9F5]" in text
    assert "[U+1F9F5] stands for a character that these fonts lack." in text


printed = st.text(st.characters(exclude_categories=[]), max_size=60)


@examples(60)
@given(printed)
def test_any_text_is_set_inside_the_page(text: str) -> None:
    assert_inside(page_pdf(everywhere(text, Format())))


latin = st.text(
    st.sampled_from(sorted(char for char in covered() if char < "\u0250" and not char.isspace())), min_size=1
)


@examples(60)
@given(latin)
def test_any_word_of_latin_letters_is_read_as_it_was_written(text: str) -> None:
    read = poppler("pdftotext", page_pdf(Page(Head("", "x"), ((Paragraph(f"begin{text}end"),),))), "-raw")
    assert unicodedata.normalize("NFC", f"begin{text}end") in unicodedata.normalize("NFC", squeezed(read))


# --- the fonts ----------------------------------------------------------------------------------------------------

WEIGHTS = ("LibertinusSerif-Regular", "LibertinusSerif-Semibold", "LibertinusSerif-Bold")


def bundled_fonts() -> dict[str, frozenset[str]]:
    """The characters of each font inside typst's compiler, where a font file stands as it is."""
    pytest.importorskip("fontTools")
    import typst
    from fontTools.ttLib import TTFont

    library = next(Path(typst.__path__[0]).glob("_typst*")).read_bytes()
    found = {}
    for match in re.finditer(rb"OTTO", library):
        start = match.start()
        tables = struct.unpack(">H", library[start + 4 : start + 6])[0]
        directory = library[start + 12 : start + 12 + 16 * tables]
        records = [directory[n : n + 16] for n in range(0, len(directory), 16)]
        if not 5 <= tables <= 40 or not {b"cmap", b"name"} <= {record[:4] for record in records}:
            continue
        end = max(sum(struct.unpack(">II", record[8:])) for record in records)
        font = TTFont(io.BytesIO(library[start : start + end + 4]), lazy=True)
        found[font["name"].getDebugName(6)] = frozenset(map(chr, font.getBestCmap()))
    return found


def test_the_characters_that_are_set_are_those_that_all_weights_of_the_font_have() -> None:
    fonts = bundled_fonts()
    unseen = {"Cc", "Cf", "Zl", "Zp", "Cs", "Co", "Cn"}
    shared = frozenset.intersection(*(fonts[name] for name in WEIGHTS))
    assert covered() == {char for char in shared if unicodedata.category(char) not in unseen}


def test_every_character_that_is_set_can_be_printed_in_every_weight() -> None:
    """PDF/UA allows no missing glyph, so typst would refuse one."""
    letters = "".join(f"{char} " for char in sorted(covered()) if not unicodedata.category(char).startswith("M"))
    accents = "".join(f"a{char} " for char in sorted(covered()) if unicodedata.category(char).startswith("M"))
    text = letters + accents
    total = Prices((PriceRow(text, "", "", "", False, "", "total"),), "USD")
    page_pdf(Page(Head("", "x"), ((Paragraph(text), Part(text, (Line("x"),)), total),)))


def test_a_drawing_shows_what_it_has_no_glyph_for() -> None:
    drawing = cloth_drawing()
    assert isinstance(drawing.picture, CuttingPicture)
    drawing = drawing._replace(picture=drawing.picture._replace(title="🧵 cotton"))
    text = layout(page_pdf(bench_page()._replace(groups=((drawing,),))))
    assert "[U+1F9F5] cotton" in text


def test_tables_keep_their_cells_in_lines() -> None:
    text = layout(page_pdf(work_page()._replace(groups=((SIZES,),))))
    assert re.search(r"crib +throw +twin +queen +king +round 70", text)
    assert re.search(r"Top +36 × 52 in +54 × 72 in +70 × 90 in +90 × 95 in +108 × 98 in +70 in across", text)


def test_a_size_in_a_table_is_parted_at_its_blanks_before_a_word_is() -> None:
    size = "112 1/2 x 98 1/2 in across".replace(" ", "\u00a0")
    rows = [[f"row {n}", *[size] * 8] for n in range(3)]
    text = layout(page_pdf(Page(Head("", "x"), ((Table(["", *"abcdefgh"], "l" * 9, rows),),))))
    assert text.count("across") == 24  # three rows of eight, none with a part of the word on the next line


def test_the_first_group_stands_under_the_head_of_the_sheet() -> None:
    part = Part("Steps", tuple(Line(f"step {n}") for n in range(47)))  # nearly a sheet of its own: 48 lines
    first, _ = sheets(page_pdf(Page(Head("", "A page"), ((part,),))))
    assert "step 0" in first


def test_the_words_of_the_customer_s_sheet() -> None:
    """The whole sheet as a person has read it, its blanks aside, which are poppler's."""
    pdf = quote_view(finished(GOLDEN / "small-studio.toml"), "customer", "pdf", 80, More())
    assert isinstance(pdf, bytes)
    expected = (GOLDEN / "small-studio.pdf.expected.txt").read_text(encoding="utf-8")
    assert layout(pdf).split() == expected.replace("\u00a0", " ").split()
