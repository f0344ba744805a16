"""The sheets that are handed over: what the customer reads and signs, and what the studio works from."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from finishcalc.commandline.views import quote_sheet
from finishcalc.model.logo import Logo
from finishcalc.rendering.pages.cut import cut_sheet
from finishcalc.rendering.pages.page import (
    BlankLines,
    Block,
    Fields,
    Heading,
    Line,
    Page,
    Paragraph,
    Part,
    Prices,
    Table,
)
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.wording.notation import plain_blanks
from tests.builders import CLOTH, GOLDEN, PROJECTS, TOP, finished, quoted
from tests.rendering.writers.pages_by_hand import png
from tests.whole.test_who_may_see import HIDDEN

pytestmark = pytest.mark.usefixtures("shared_work")


def blocks_of(page: Page) -> list[Block]:
    return [block for group in page.groups for block in group]


def parts_of(page: Page) -> dict[str, list[Line]]:
    return {block.label: list(block.lines) for block in blocks_of(page) if isinstance(block, Part) and block.lines}


def lines(page: Page, label: str) -> list[str]:
    return [plain_blanks(line.text) for line in parts_of(page).get(label, [])]


def words_of(page: Page) -> Iterator[str]:
    """Every text of a page, but those in its drawings."""
    head = page.head
    yield from (head.full_title, head.customer, head.studio, *head.contact, *head.notes, *head.unsettled)
    for block in blocks_of(page):
        match block:
            case Part(label, said):
                yield from (label, *(line.text for line in said))
            case Heading(text) | Paragraph(text, _):
                yield text
            case Table():
                yield from (block.caption, *block.head, *(cell for row in block.rows for cell in row))
            case Prices(rows, _):
                yield from (text for row in rows for text in (row.label, row.quantity, row.unit, row.rate, row.amount))
            case Fields(label, facts):
                yield from (label, *(text for fact in facts for text in fact))


def customer(text: str) -> Page:
    return quote_sheet(quoted(text), "customer")


# --- the customer's sheet ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", [*PROJECTS, GOLDEN / "by-the-hour.toml"], ids=lambda path: path.stem)
def test_nothing_of_the_studio_s_is_on_the_customer_s_sheet(path: Path):
    page = quote_sheet(finished(path), "customer")
    assert [word for text in words_of(page) for word in HIDDEN.findall(text)] == []
    assert not any(isinstance(block, Drawing) for block in blocks_of(page))


def test_the_sheet_has_all_that_is_agreed():
    page = quote_sheet(finished(CLOTH), "customer")
    assert page.head.kind == "Quote 2026-014"
    assert page.head.customer == "Marit of the boathouse"
    assert [(fact.name, plain_blanks(fact.value)) for fact in page.head.facts] == [
        ("Date", "May 4, 2026"),
        ("Ready by", "June 1, 2026"),
        ("Leftover cloth", "goes back to you"),
    ]
    agreed, accepted = (block for block in blocks_of(page) if isinstance(block, Fields))
    assert {fact.name: fact.value for fact in agreed.facts} == {
        "Pattern": "medium pantograph",
        "Thread colour": "cream, top and bobbin",
        "Batting": "none",
    }
    assert [(fact.name, fact.value) for fact in accepted.facts] == [("Date", ""), ("Signature", "")]
    assert lines(page, "Terms") == ["This quote holds until June 3, 2026.", "The deposit is due by May 11, 2026."]


def test_wishes_and_terms_are_on_it():
    text = '[job]\nnotes = "no thread tails\\nplease"\n' + TOP
    assert customer(text).head.notes == ("no thread tails", "please")


def test_options_have_boxes_to_tick_and_the_line_above_them_has_none():
    options = parts_of(quote_sheet(finished(CLOTH), "customer"))["Options"]
    assert [line.tick for line in options] == ["nowhere", *["on paper"] * (len(options) - 1)]
    assert len(options) > 1


def test_a_provisional_quote_has_no_place_to_sign():
    """140 x 140 in with no batting that covers it."""
    page = customer('[top]\nwidth = 140\nlength = 140\n[batting]\nproduct = { preset = "cotton-blend", rolls = [] }\n')
    assert page.head.unsettled
    assert not any(isinstance(block, Fields) for block in blocks_of(page))
    assert "This quote is provisional, so there is nothing to sign yet." in words_of(page)


@pytest.mark.parametrize(("units", "paper"), [("in", "letter"), ("cm", "A4")])
def test_the_paper_is_the_shop_s(units: str, paper: str):
    page = customer(f'units = "{units}"\n[top]\nwidth = 60\nlength = 80\n')
    assert (page.format.paper, page.format.fitted) == (paper, True)


# --- what she brings ---------------------------------------------------------------------------------------------


def test_a_top_that_the_studio_pieces_is_not_brought():
    page = customer("[top.blocks]\nacross = 5\ndown = 6\nsize = 12\n[charges]\npiecing = true\n")
    assert THE_TOP not in words_of(page)


THE_TOP = "the top: pressed, no pins in it, loose threads clipped, its top side marked"


def test_she_brings_the_top_alone_where_the_studio_supplies_the_rest():
    assert lines(customer(TOP), "You bring") == [THE_TOP]


def test_she_brings_a_backing_of_the_size_that_is_needed():
    """60 x 80 with 4 in over on every side is 68 x 88; it may come sewn, or as cloth."""
    page = customer(TOP + '[backing]\nsupplied_by = "customer"\n')
    asked = next(line for line in lines(page, "You bring") if "for backing" in line)
    assert asked.endswith("pressed; or a backing that is sewn already, 68 in x 88 in at least, and square")


def test_she_brings_a_sewn_backing_square_and_as_large_as_it_must_be():
    page = customer(TOP + "[backing]\nsewn = { width = 70, length = 90 }\n")
    assert "the backing: 68 in x 88 in at least, square, pressed, its seams pressed open" in lines(page, "You bring")


def test_lengths_that_were_told_are_asked_for_once():
    page = customer(TOP + "[backing]\nhave = '5 1/2 yd'\n")
    assert len([line for line in lines(page, "You bring") if "yd" in line]) == 1


def test_she_brings_batting_that_covers():
    page = customer(TOP + '[batting]\nsupplied_by = "customer"\n')
    assert any("68 in x 88 in at least, in one piece" in line for line in lines(page, "You bring"))


def test_a_maker_brings_nothing_to_her_own_table():
    assert "You bring" not in parts_of(quote_sheet(finished(GOLDEN / "maker.toml"), "customer"))


# --- the work order ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_a_work_order_holds_all_the_work_and_no_money(path: Path):
    result = finished(path)
    page = quote_sheet(result, "studio")
    assert page.head.kind.startswith("Work order")
    assert not any(isinstance(block, Prices) for block in blocks_of(page))
    symbol = result.resolved.shop.money.symbol or ""
    assert not [text for text in words_of(page) if symbol and symbol in text]
    named = [block.name for block in blocks_of(page) if isinstance(block, Drawing)]
    assert len(named) == len(set(named))
    expected = sum(len(purchase.layouts) for purchase in result.plans.cloth)
    assert len([name for name in named if name.startswith("cloth")]) == expected
    assert ("backing" in named) == bool(result.plans.backing and result.plans.backing.chosen)
    assert ("passes" in named) == bool(result.plans.quilting.loading)


def test_the_arrival_list_has_boxes_everywhere_and_room_for_what_was_measured():
    page = quote_sheet(finished(CLOTH), "studio")
    assert {line.tick for line in parts_of(page)["On arrival"]} == {"everywhere"}
    (fields,) = (block for block in blocks_of(page) if isinstance(block, Fields))
    assert [fact.name for fact in fields.facts] == ["Top, width", "Top, length", "Backing, width", "Backing, length"]
    assert not any(fact.value for fact in fields.facts)


def test_the_minutes_have_a_column_to_write_in_and_their_sum():
    page = quote_sheet(finished(CLOTH), "studio")
    (table,) = (block for block in blocks_of(page) if isinstance(block, Table))
    assert (table.fill_in, table.summed) == (("took",), True)
    *stages, total = table.rows
    for column in range(1, 5):
        exact = sum(int(row[column]) for row in stages)
        assert abs(exact - int(total[column])) <= len(stages) / 2  # each is rounded by itself
    assert any(isinstance(block, BlankLines) for block in blocks_of(page))


# --- the cutting pages -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_every_cut_has_a_box_and_the_sheet_lies_on_the_table(path: Path):
    page = cut_sheet(finished(path))
    assert (page.format.landscape, page.format.bench) == (True, True)
    first = blocks_of(page)[0]
    assert isinstance(first, Part)
    assert "Rotary cutter" in first.lines[0].text  # read before the knife is taken up
    cuts = [
        line for block in blocks_of(page) if isinstance(block, Part) and block.label == "Cut" for line in block.lines
    ]
    assert [line.number for line in cuts if line.number] != []
    assert all((line.tick == "on paper") == bool(line.number) for line in cuts)


# --- the logo ----------------------------------------------------------------------------------------------------


def test_the_logo_stands_at_the_head(tmp_path: Path):
    (tmp_path / "logo.png").write_bytes(png())
    (tmp_path / "shop.toml").write_text('[studio]\nlogo = "logo.png"\n', encoding="utf-8")
    result = quoted(TOP, tmp_path / "shop.toml")
    for reader in ("customer", "studio"):
        assert quote_sheet(result, reader).head.logo == Logo("png", png())
