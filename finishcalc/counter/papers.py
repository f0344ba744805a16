"""The papers of a project as it stands in its draft: the customer's sheet, the cut list, and what to buy."""

from importlib.util import find_spec
from typing import NamedTuple

from finishcalc.alternatives.choices import alternatives_of
from finishcalc.buying import shop_for
from finishcalc.counter.working import Worked
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.customer_sheet import customer_sheet
from finishcalc.rendering.pages.cut import cut_sheet
from finishcalc.rendering.pages.page import Page
from finishcalc.rendering.pages.shopping import shopping_notation, shopping_page
from finishcalc.rendering.writers.html import html_document

HAS_PDF = find_spec("typst") is not None
"""True where the extra is installed that sets a PDF."""


class Paper(NamedTuple):
    """A paper as it is sent: its bytes, their media type, and the Content-Security-Policy that a page of it needs. One
    that is `kept` is a file to be taken away, under its name."""

    content: bytes
    media_type: str
    policy: str = ""
    kept: str = ""


KINDS = ("quote.html", "quote.pdf", "cut.html", "buy.html")
"""The papers, by the ends of their addresses."""


def paper_of(worked: Worked, kind: str) -> Paper:
    """Make a paper of a draft without mistakes. Raises ProblemsFound where it cannot be set, as without typst."""
    assert worked.result is not None
    result, stem = worked.result, worked.draft.name.removesuffix(".toml")
    if kind == "quote.pdf":
        from finishcalc.rendering.writers.typst import pages_pdf

        return Paper(pages_pdf([_quote(result)]), "application/pdf", kept=f"{stem}-quote.pdf")
    if kind == "buy.html":
        page = _to_buy(worked.draft.name, result)
    else:
        page = cut_sheet(result) if kind == "cut.html" else _quote(result)
    document = html_document([page])
    kept = "" if kind == "quote.html" else f"{stem}-{kind}"
    return Paper(document.text.encode(), "text/html; charset=utf-8", f"{document.policy}; frame-ancestors 'none'", kept)


def _quote(result: Finishing) -> Page:
    return customer_sheet(result, alternatives_of(result))


def _to_buy(name: str, result: Finishing) -> Page:
    """The shopping list of one project, with ticks that a telephone keeps, and without what the studio pays."""
    notation = shopping_notation([result], None)
    shopping = shop_for([(name, result)], notation.units)
    return shopping_page(shopping, notation, result.resolved.shop.studio.paper, prices=False)
