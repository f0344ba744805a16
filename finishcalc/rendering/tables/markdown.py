"""A page with a table as Markdown."""

import re

from finishcalc.rendering.pages.page import Page, Table
from finishcalc.wording.notation import plain_blanks


def page_markdown(page: Page) -> str:
    """Write a page as a heading, a table, and its notes as a list."""
    notes = [f"- {escaped(sentence)}" for note in page.notes for sentence in note.sentences]
    lines = [f"## {escaped(page.title)}", "", *table_markdown(page.table), *([""] if notes else []), *notes]
    return plain_blanks("\n".join(lines)) + "\n"


def table_markdown(table: Table) -> list[str]:
    """Write a table's lines, figures at the right. Markdown sets the columns itself, so nothing is padded here."""
    rule = ["---:" if side == "r" else "---" for side in table.align]
    head, *rows = [[escaped(cell) for cell in row] for row in [table.head, *table.rows]]
    return [f"| {' | '.join(cells)} |" for cells in (head, rule, *rows)]


def escaped(text: str) -> str:
    """Escape every sign that Markdown would obey, so that it prints the text as it is."""
    return re.sub(r"([\\`*_{}\[\]<>|#~&])", r"\\\1", text)
