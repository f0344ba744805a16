"""Stands in for the writer of pages as PDF."""

from collections.abc import Sequence

from finishcalc.rendering.pages.page import Page


def pages_pdf(pages: Sequence[Page]) -> bytes:
    """Write pages as one document."""
    return b"%PDF-1.7\n%\xff\x80\r\n" + "".join(f"{page.head.full_title}\n" for page in pages).encode() + b"%%EOF\n"
