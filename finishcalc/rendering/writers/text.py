"""A page as text that fits a terminal, its blocks wrapped to the terminal's width."""

from collections.abc import Iterable, Iterator, Sequence

from finishcalc.rendering.pages.page import (
    Block,
    Group,
    Head,
    Heading,
    Line,
    Page,
    Paragraph,
    Part,
    Prices,
    Table,
    Verbatim,
)
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.wrapping import wrap
from finishcalc.rendering.writers.text_tables import NARROW, column_blocks, price_lines, table_lines
from finishcalc.wording.notation import NO_BREAK, plain_blanks

WIDEST = 80
LABEL = 12
BOX = 4
"""The columns of a box to tick and the blank after it."""


def page_text(page: Page, width: int = WIDEST) -> str:
    """Write a page as text that ends with a line feed, no line wider than `width` columns."""
    groups = [_head(page.head, width), *(_group(group, width) for group in page.groups)]
    return plain_blanks("\n\n".join("\n".join(lines) for lines in groups if lines)) + "\n"


def pages_text(pages: Iterable[Page], width: int = WIDEST) -> str:
    """Write several pages one after another, a line between them."""
    return f"\n{'─' * width}\n\n".join(page_text(page, width) for page in pages)


def head_lines(head: Head) -> Iterator[str]:
    """Say the head line by line: the title, whom it is for and from, what is agreed, and what is not settled."""
    yield head.full_title
    if head.customer:
        yield f"for {head.customer}"
    if head.studio:
        yield f"from {head.studio}"
    yield from head.contact
    if said := "; ".join(fact.said for fact in head.facts if fact.said):
        yield said
    yield from head.notes
    if head.unsettled:
        yield "This cannot be made as specified:"
        yield from head.unsettled


def _head(head: Head, width: int) -> list[str]:
    return [row for line in head_lines(head) for row in wrap(line, width)]


def _group(group: Group, width: int) -> list[str]:
    return [line for block in group for line in _block(block, width)]


def _block(block: Block, width: int) -> list[str]:
    """Write one block; fields to fill in by hand are for paper alone."""
    match block:
        case Part():
            return labelled(block.label, [(line_words(line), line.details) for line in block.lines], width)
        case Heading() | Paragraph():
            return wrap(block.text, width)
        case Table():
            return _table(block, width)
        case Prices():
            return price_lines(block, width)
        case Drawing():
            from finishcalc.rendering.pictures.drawn import drawing_lines  # only a page with a picture needs it

            return drawing_lines(block, width)
        case Verbatim(lines):
            return list(lines)
    return []


def line_words(line: Line) -> str:
    """Write a line of a part with its number, or with a box to tick."""
    box = f"[{NO_BREAK}] " if line.tick == "everywhere" else ""
    return f"{line.number}. {line.text}" if line.number else f"{box}{line.text}"


def labelled(label: str, sentences: Sequence[tuple[str, Sequence[str]]], width: int) -> list[str]:
    """Write a label with its sentences beside it, each on lines of its own, and the details of each below it, as far in
    as a box to tick; later lines go two columns in. Sentences without a label, as they are under a heading, need no
    room for one."""
    beside = bool(label) and width >= NARROW
    indent = LABEL if beside else 2
    lines = [label] if label and sentences and not beside else []
    for sentence, details in sentences:
        lines += _indented(sentence, indent, width)
        lines += [line for detail in details for line in _indented(detail, indent + BOX, width)]
    if beside and lines:
        lines[0] = label.ljust(LABEL) + lines[0][LABEL:]
    return lines


def _indented(sentence: str, indent: int, width: int) -> list[str]:
    first, *others = wrap(sentence, width - indent - 2)
    return [" " * indent + first, *(" " * (indent + 2) + more for more in others)]


def _table(table: Table, width: int) -> list[str]:
    """Write a table; one by columns in blocks with empty lines between them."""
    if not table.by_columns:
        return table_lines(table, width)
    first, *others = column_blocks(table, width)
    return [*first, *(line for block in others for line in ("", *block))]
