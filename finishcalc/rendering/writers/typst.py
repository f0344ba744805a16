"""Pages as PDF, tagged for a screen reader (PDF/UA-1). typst gets every text as data, never as markup."""

import json
import re
from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime
from itertools import accumulate
from typing import Any

from finishcalc.problems import Problem, ProblemCode, ProblemsFound
from finishcalc.rendering.pages.page import (
    BlankLines,
    Block,
    Fact,
    Fields,
    Format,
    Group,
    Head,
    Heading,
    Page,
    Paragraph,
    Part,
    PriceRow,
    Prices,
    Table,
    Verbatim,
)
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.writers.glyphs import Setting
from finishcalc.rendering.writers.templates import template
from finishcalc.wording.notation import NO_BREAK

Data = dict[str, Any]

UNDATED = date(2000, 1, 1)
"""The day that a file is made where its job has none, because the clock would make each one different."""

PAPER = {"letter": (215.9, 279.4), "A4": (210.0, 297.0)}
MARGINS = {"left": 24.0, "right": 17.0, "top": 17.0, "bottom": 17.0}
"""Millimetres; at the left there is room to punch holes."""

TIMES = re.compile(rf"(?<=[0-9]){NO_BREAK}x{NO_BREAK}(?=[0-9])")
"""The x of a size, between blanks that only `Notation` writes there."""


def pages_pdf(pages: Sequence[Page]) -> bytes:
    """Write pages as one PDF file, each on sheets of its own; the same pages make the same bytes. Raises ProblemsFound
    where typst is not installed, or cannot read the logo."""
    try:
        import typst
    except ImportError:
        raise ProblemsFound([_not_installed()]) from None
    made = next((page.made for page in pages if page.made), UNDATED)
    # it reads no file; but a folder must be named, and the present one may be gone
    compiler = typst.Compiler(template("sheet.typ").encode(), root=typst.__path__[0], ignore_system_fonts=True)
    try:
        written = compiler.compile(
            format="pdf",
            sys_inputs={"data": json.dumps(file_data(pages, made))},
            pdf_standards="ua-1",
            timestamp=datetime(made.year, made.month, made.day, tzinfo=UTC),
        )
    except typst.TypstError as error:
        if "decode image" not in str(error):
            raise
        raise ProblemsFound([_unreadable_logo()]) from None
    assert isinstance(written, bytes)  # it is written to no file
    return written


def _not_installed() -> Problem:
    message = "PDF needs the extra: pip install 'finishcalc[pdf]'"
    return Problem(ProblemCode.PDF_NOT_INSTALLED, "--pdf", 0, 0, "", message)


def _unreadable_logo() -> Problem:
    """A picture that passed all checks of intake, and which typst cannot draw all the same."""
    message, hint = "the logo is damaged and cannot be drawn", "save it again as PNG or JPEG"
    return Problem(ProblemCode.DAMAGED_PICTURE, "studio.logo", 0, 0, "", message, hint)


def file_data(pages: Sequence[Page], made: date) -> Data:
    """Give all that the template sets, as JSON can hold it."""
    sheets = [sheet_data(page) for page in pages]
    title = ", ".join(dict.fromkeys(sheet["full_title"] for sheet in sheets))
    author = next((sheet["studio"] for sheet in sheets if sheet["studio"]), "")
    return {"title": title, "author": author, "made": [made.year, made.month, made.day], "pages": sheets}


def sheet_data(page: Page) -> Data:
    """Give the texts of a page as they are set."""
    said = _Said()
    head = _head(page.head, said)
    groups = [group for group in _groups(page.groups, page.format, said) if group]
    return {**head, "format": _format(page.format), "groups": groups, "lacking": said.note()}


class _Said(Setting):
    """Sets texts with the signs of print, and takes a few kinds of text apart."""

    def __call__(self, text: str) -> str:
        """Set a text: the x of a size becomes a times sign."""
        return super().__call__(TIMES.sub(f"{NO_BREAK}×{NO_BREAK}", text))

    def all(self, texts: Sequence[str]) -> list[str]:
        """Set several texts."""
        return [self(text) for text in texts]

    def in_a_line(self, text: str) -> str:
        """Set a text that has no second line."""
        return self(" ".join(text.split("\n")))

    def facts(self, facts: Sequence[Fact]) -> list[list[str]]:
        """Set names with their values."""
        return [[self(fact.name), self(fact.value)] for fact in facts]


def _sides(wanted: Format) -> tuple[float, float]:
    width, height = PAPER[wanted.paper]
    return (height, width) if wanted.landscape else (width, height)


def _room(wanted: Format) -> tuple[float, float]:
    """Give the width and the height that a sheet has for what is set on it."""
    width, height = _sides(wanted)
    return width - MARGINS["left"] - MARGINS["right"], height - MARGINS["top"] - MARGINS["bottom"]


def _format(wanted: Format) -> Data:
    width, height = _sides(wanted)
    return {"width": width, "height": height, "margins": MARGINS, "fitted": wanted.fitted, "bench": wanted.bench}


def _head(head: Head, said: _Said) -> Data:
    title, kind, studio = (said.in_a_line(text).strip() for text in (head.title, head.kind, head.studio))
    if not title:  # no sheet is without a heading
        title, kind = kind or "Sheet", ""
    customer = (Fact("For", head.customer),) if head.customer else ()
    return {
        "full_title": f"{kind}: {title}" if kind else title,
        "title": title,
        "kind": kind,
        "studio": studio,
        "running": " · ".join(filter(None, (studio, kind, title)))[:300],
        "contact": said.all(head.contact),
        "logo": _logo(head, studio),
        "for_somebody": bool(customer),
        "facts": said.facts((*customer, *head.facts)),
        "notes": said.all(head.notes),
        "unsettled": said.all(head.unsettled),
    }


def _logo(head: Head, studio: str) -> Data | None:
    if not head.logo:
        return None
    alt = f"Logo of {studio}" if studio else "Logo"
    return {"format": {"png": "png", "jpeg": "jpg"}[head.logo.kind], "content": list(head.logo.content), "alt": alt}


def _groups(groups: Sequence[Group], wanted: Format, said: _Said) -> Iterator[list[Data]]:
    """Set all groups. The labels of parts are headings of the second level, and under a heading of the third."""
    under = accumulate((any(isinstance(block, Heading) for block in group) for group in groups), bool.__or__)
    for group, below in zip(groups, under, strict=True):
        written = (_block(block, wanted, said) for block in group)
        yield [{**data, "level": 3 if below else 2} for data in written if data]


def _block(block: Block, wanted: Format, said: _Said) -> Data | None:
    match block:
        case Part(label, lines):
            set_lines = [
                {"text": said(text), "number": number, "tick": tick != "nowhere", "details": said.all(details)}
                for text, number, tick, details in lines
            ]
            return {"type": "part", "label": said(label.strip()), "lines": set_lines} if lines else None
        case Heading(text):
            return {"type": "heading", "text": said(text)} if text.strip() else None
        case Paragraph(text, small):
            return {"type": "paragraph", "text": said(text), "small": small}
        case Table():
            return _table(block, said)
        case Prices():
            return _prices(block, said)
        case Fields(label, facts):
            return {"type": "fields", "label": said(label.strip()), "facts": said.facts(facts)}
        case BlankLines(label, number):
            return {"type": "blank lines", "label": said(label.strip()), "number": number}
        case Drawing():
            # loaded where a page has one: what draws it takes as long as to set a page
            from finishcalc.rendering.writers.typst_drawings import drawing_data

            return drawing_data(block, wanted.bench, _room(wanted), said)
        case Verbatim():
            return None  # lines to paste are not for paper


def _table(table: Table, said: _Said) -> Data:
    return {
        "type": "table",
        "head": said.all(table.head),
        "align": table.align,
        "rows": [said.all(row) for row in table.rows],
        "caption": said(table.caption),
        "by_columns": table.by_columns,
        "summed": table.summed,
        "fill_in": said.all(table.fill_in),
    }


def _prices(prices: Prices, said: _Said) -> Data:
    decimal = _decimal_mark([row.amount for row in prices.rows])
    rows = [_price_row(row, decimal, said) for row in prices.rows]
    return {"type": "prices", "currency": said(prices.currency), "rows": rows}


def _price_row(row: PriceRow, decimal: str, said: _Said) -> Data:
    return {
        "label": said(row.label),
        "quantity": _figure(said(row.quantity), decimal),
        "unit": said(row.unit),
        "rate": _figure(said(row.rate), decimal),
        "marked": row.marked,
        "amount": _signed(said(row.amount)),
        "kind": row.kind,
    }


def _decimal_mark(amounts: Sequence[str]) -> str:
    """Find the sign before the decimals, which all amounts in a currency have, and as many; "" where it has none."""
    ends = {match[0] if (match := re.search(r"[^0-9](?=[0-9]{1,3}$)", amount)) else "" for amount in amounts}
    return ends.pop() if len(ends) == 1 else ""


def _figure(text: str, decimal: str) -> tuple[str, str]:
    """Take a figure apart where its fraction or its decimals begin, so that a column lines up there."""
    decimals = rf"{re.escape(decimal)}[0-9]+" if decimal else "(?!)"
    match = re.fullmatch(
        rf"(.*?)((?:{decimals}|(?:^|[ {NO_BREAK}])[0-9]+/[0-9]+)?(?:[ {NO_BREAK}]%)?)", text, re.DOTALL
    )
    whole, rest = (match[1], match[2]) if match else (text, "")
    return _signed(whole), NO_BREAK + rest.strip() if "/" in rest or "%" in rest[:2] else rest


def _signed(figure: str) -> str:
    """Write the sign of a figure below 0 as print has it."""
    return f"−{figure[1:]}" if figure.startswith("-") else figure
