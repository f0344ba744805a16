"""A PDF is the same for the same page, from any folder and in any process; its texts are data, set as they are."""

import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from finishcalc.problems import ProblemCode, ProblemsFound
from finishcalc.rendering.pages.page import Head, Heading, Logo, Page, Part, PriceRow, Prices, sentences
from finishcalc.rendering.writers.glyphs import Setting
from finishcalc.rendering.writers.typst import pages_pdf, sheet_data
from tests.rendering.writers.pages_by_hand import bench_page, page_pdf, png, quote_page, work_page

NB = "\u00a0"
AGAIN = """import hashlib, os, sys
from tests.rendering.writers.pages_by_hand import quote_page
from finishcalc.rendering.writers.typst import pages_pdf
os.chdir(sys.argv[1]); os.rmdir(sys.argv[1])
print(hashlib.sha256(pages_pdf([quote_page()])).hexdigest())
"""


def test_the_same_page_makes_the_same_bytes_in_another_process_and_where_the_folder_is_gone(tmp_path: Path) -> None:
    import hashlib

    here = page_pdf(quote_page())
    assert page_pdf(quote_page()) == here
    (tmp_path / "gone").mkdir()
    command = [sys.executable, "-c", AGAIN, str(tmp_path / "gone")]
    there = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert there.strip() == hashlib.sha256(here).hexdigest()


def test_a_page_without_a_day_has_no_day_of_the_clock() -> None:
    written = page_pdf(quote_page(made=None))
    assert b"D:20000101000000" in written
    assert b"D:20260504000000" in page_pdf(quote_page(made=date(2026, 5, 4)))


@pytest.mark.parametrize("page", [quote_page, work_page, bench_page])
def test_every_block_is_set(page: Any) -> None:
    written = page_pdf(page())
    assert written.startswith(b"%PDF-")
    assert b"pdfuaid" in written  # the mark of PDF/UA in its metadata


def test_without_typst_one_problem_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(ProblemsFound) as found:
        pages_pdf([quote_page()])
    (problem,) = found.value.problems
    assert problem.code is ProblemCode.PDF_NOT_INSTALLED
    assert problem.message == "PDF needs the extra: pip install 'finishcalc[pdf]'"


def test_a_page_of_nothing_is_still_a_sheet_with_a_heading() -> None:
    assert page_pdf(Page(Head("", ""), ((Heading(""),), (Part("", ()),), ()))).startswith(b"%PDF-")


# --- figures line up where their decimals or fractions begin ------------------------------------------------------


def figures(quantity: str, rate: str, amount: str) -> Any:
    page = Page(Head("", "x"), ((Prices((PriceRow("a", quantity, "yd", rate, False, amount),), "USD"),),))
    (row,) = sheet_data(page)["groups"][0][0]["rows"]
    return row["quantity"], row["rate"], row["amount"]


def test_a_figure_is_taken_apart_before_its_fraction_its_decimals_or_its_percent_sign() -> None:
    assert figures(f"5{NB}3/4", "15.40", "88.55") == (("5", f"{NB}3/4"), ("15", ".40"), "88.55")
    assert figures("5/8", f"-5{NB}%", "-15.59") == (("", f"{NB}5/8"), ("−5", f"{NB}%"), "−15.59")
    assert figures("5,124", f"2.5{NB}%", "1,153.72") == (("5,124", ""), ("2", f".5{NB}%"), "1,153.72")
    assert figures("5.124", "0,03", "153,72") == (("5.124", ""), ("0", ",03"), "153,72")
    assert figures("12", "3", "500") == (("12", ""), ("3", ""), "500")  # a currency without decimals


def test_labels_stand_below_a_heading_and_empty_parts_are_left_out() -> None:
    groups = ((sentences("A", ["a"]), sentences("Nothing", [])), (Heading("H"),), (sentences("B", ["b"]),))
    data = sheet_data(Page(Head("", "x"), groups))["groups"]
    assert [[(block["type"], block["level"]) for block in group] for group in data] == [
        [("part", 2)],
        [("heading", 3)],
        [("part", 3)],
    ]


# --- characters ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Größe, čšž, Ωμέγα, Жук, שלום, 1/2 ↔ €", "Größe, čšž, Ωμέγα, Жук, שלום, 1/2 ↔ €"),
        ("🧵 thread", "[U+1F9F5] thread"),
        ("漢", "[U+6F22]"),
        ("a\ud800b", "a[U+D800]b"),
        ("a\x00\x1b[31m\u202e\u200f\u200d\u00ad", "a[U+0000][U+001B][31m[U+202E][U+200F][U+200D][U+00AD]"),
        ("one\ntwo", "one\ntwo"),
        ("e\u0301n\u0303", "e\u0301n\u0303"),
        ("\u0301 a \u0301", "[U+0301] a [U+0301]"),  # an accent without a letter
        ("a" + 5 * "\u0301", "a\u0301\u0301\u0301[U+0301][U+0301]"),  # a tower of accents
        ("ع\u0301", "[U+0639][U+0301]"),
    ],
)
def test_a_character_that_cannot_be_printed_is_shown_by_its_number(text: str, shown: str) -> None:
    said = Setting()
    assert said(text) == shown
    assert bool(said.note()) == ("[U+" in shown)


def test_a_note_says_what_the_signs_stand_for() -> None:
    said = Setting()
    said("🧵")
    assert said.note() == "[U+1F9F5] stands for a character that these fonts lack."
    said("漢")
    assert said.note() == "[U+1F9F5], [U+6F22] stand for characters that these fonts lack."


def test_only_the_x_that_is_held_between_figures_becomes_a_times_sign() -> None:
    page = Page(Head("", f"60{NB}1/2{NB}x{NB}84{NB}in, 4 x 5, x{NB}x{NB}x, x-large"), ())
    assert sheet_data(page)["title"] == f"60{NB}1/2{NB}×{NB}84{NB}in, 4 x 5, x{NB}x{NB}x, x-large"


def test_a_logo_that_cannot_be_drawn_is_a_problem():
    page = Page(Head("Quote", "Cloth", logo=Logo("png", png()[:60])), ())
    with pytest.raises(ProblemsFound) as found:
        pages_pdf([page])
    (problem,) = found.value.problems
    assert problem.code is ProblemCode.DAMAGED_PICTURE
    assert "logo" in problem.message
