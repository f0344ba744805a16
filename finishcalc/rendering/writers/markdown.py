"""A page as Markdown, to be pasted into a message: CommonMark with pipe tables and boxes to tick."""

import re
from collections.abc import Iterable, Iterator, Sequence

from finishcalc.rendering.pages.page import (
    Block,
    Group,
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
from finishcalc.rendering.pictures.drawn import drawing_lines
from finishcalc.rendering.writers.text import WIDEST, head_lines
from finishcalc.rendering.writers.text_tables import PRICE_HEAD, price_cells
from finishcalc.wording.notation import NO_BREAK, plain_blanks

SIGNS = re.compile(r"[\\`*_{}\[\]<>|#~&^$]")
"""Signs that Markdown would obey wherever they stand."""
LINE_STARTS = re.compile(r"^([-+=]|\d+(?=[.)]))")
"""A beginning of a line that would make it an item of a list, or the line above a heading."""
ADDRESSES = re.compile(r"(?i)(?:(?<=https)|(?<=http)|(?<=ftp))(?=://)|(?<=www)(?=\.)|(?=@\w)")
"""The points in bare addresses where an escape keeps them from becoming links."""


def pages_markdown(pages: Iterable[Page]) -> str:
    """Write several pages one after another, a rule between them."""
    return "\n---\n\n".join(map(page_markdown, pages))


def page_markdown(page: Page) -> str:
    """Write a page as a heading, and its blocks with empty lines between them."""
    title, *rest = head_lines(page.head)
    blocks = [[f"## {escaped(title)}"], [f"{at_line_start(line)}  " for line in rest]]
    blocks += [lines for group in page.groups for lines in _group(group)]
    return plain_blanks("\n\n".join("\n".join(lines).rstrip() for lines in blocks if lines)) + "\n"


def _group(group: Group) -> Iterator[list[str]]:
    for block in group:
        yield from _block(block)


def _block(block: Block) -> Iterator[list[str]]:
    """Write one block in one list of lines or more; fields to fill in by hand are for paper alone."""
    match block:
        case Part(label, lines) if lines:
            if label:
                yield [f"**{escaped(label)}**"]
            yield [row for line in lines for row in (_item(line), *map(_detail, line.details))]
        case Heading(text):
            yield [f"### {escaped(text)}"]
        case Paragraph():
            yield [at_line_start(block.text)]
        case Table():
            yield table_markdown(block)
        case Prices():
            yield table_markdown(Table(PRICE_HEAD, "lrlrlr", [price_cells(row) for row in block.rows]))
        case Drawing():
            yield _fenced(drawing_lines(block, WIDEST))
        case Verbatim(lines):
            yield _fenced(lines, "toml")


def _fenced(lines: Sequence[str], language: str = "") -> list[str]:
    """Put lines between longer fences than any in them, because a name may be wrapped to a line of backticks."""
    longest = max((len(found) for line in lines for found in re.findall("`+", line)), default=0)
    fence = "`" * max(3, longest + 1)
    return [fence + language, *lines, fence]


def _item(line: Line) -> str:
    """Write a line of a part as an item of a list, a numbered one for a step."""
    if line.number:
        return f"{line.number}. {at_line_start(line.text)}"
    return f"- [ ] {escaped(line.text)}" if line.tick == "everywhere" else f"- {at_line_start(line.text)}"


def _detail(text: str) -> str:
    """Write a detail as an item below an item."""
    return f"  - {at_line_start(text)}"


def table_markdown(table: Table) -> list[str]:
    """Write a table's lines, figures at the right. Numbers stay as they are written, because they are read as text."""
    from tabulate import tabulate  # only a table in Markdown needs it

    head, *rows = [[escaped(cell) for cell in row] for row in [table.head, *table.rows]]
    sides = ["right" if side == "r" else "left" for side in table.align]
    return tabulate(rows, headers=head, tablefmt="pipe", colalign=sides, disable_numparse=True).splitlines()


def escaped(text: str) -> str:
    """Escape every sign that Markdown would obey, and bare addresses, so that it prints the text as it is."""
    return ADDRESSES.sub(r"\\", SIGNS.sub(r"\\\g<0>", text.strip(f" {NO_BREAK}")))


def at_line_start(text: str) -> str:
    """Escape a text that begins a line, where some signs more would be obeyed."""
    return LINE_STARTS.sub(_escaped_start, escaped(text))


def _escaped_start(found: re.Match[str]) -> str:
    start = found[0]
    return f"\\{start}" if not start.isdecimal() else f"{start}\\"
