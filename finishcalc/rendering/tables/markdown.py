"""A page with its tables as Markdown."""

import re

from finishcalc.rendering.writers.text import Note, Page, Table
from finishcalc.wording.notation import plain_blanks


def page_markdown(page: Page) -> str:
    """Write a page as a heading, a table, and its notes as a list."""
    return document([("", page.table)], page.title, page.notes)


def document(tables: list[tuple[str, Table]], title: str, notes: list[Note]) -> str:
    """Write a heading, tables under headings of their own where they have one, and notes as a list."""
    lines = [f"## {escaped(title)}", ""]
    for heading, table in tables:
        lines += [f"### {escaped(heading)}", ""] if heading else []
        lines += [*table_markdown(table), ""]
    lines += [f"- {escaped(sentence)}" for note in notes for sentence in note.sentences]
    return plain_blanks("\n".join(lines)).rstrip("\n") + "\n"


def table_markdown(table: Table) -> list[str]:
    """Write a table's lines, figures at the right. Numbers stay as they are written, because they are read as text."""
    from tabulate import tabulate  # only a table in Markdown needs it

    head, *rows = [[escaped(cell) for cell in row] for row in [table.head, *table.rows]]
    sides = ["right" if side == "r" else "left" for side in table.align]
    return tabulate(rows, headers=head, tablefmt="pipe", colalign=sides, disable_numparse=True).splitlines()


def escaped(text: str) -> str:
    """Escape every sign that Markdown would obey, so that it prints the text as it is."""
    return re.sub(r"([\\`*_{}\[\]<>|#~&])", r"\\\1", text)
