"""Stands in for the writer of pages as Markdown."""

from finishcalc.rendering.pages.page import Page


def page_markdown(page: Page) -> str:
    """Write a page as Markdown."""
    return f"# {page.head.full_title}\n"
