"""The customer's sheet on paper: the quote as she reads it, what she brings, and a place to accept it."""

from finishcalc.alternatives.choices import Alternatives
from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.options import options_words
from finishcalc.rendering.pages.page import (
    Fact,
    Fields,
    Format,
    Group,
    Line,
    Page,
    Paragraph,
    Part,
    sentences,
)
from finishcalc.rendering.pages.price import prices
from finishcalc.rendering.pages.quote import closing, marks, quote_head, work_parts
from finishcalc.rendering.writing import is_provisional, notation_of
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain


def customer_sheet(result: Finishing, others: Alternatives) -> Page:
    """Make the customer's sheet, one page of paper where it fits."""
    notation, provisional = notation_of(result), is_provisional(result)
    groups: list[Group] = [
        *((part,) for part in work_parts(result, {}, "customer")),
        (prices(result.quote, provisional, notation), *marks(result.quote, others.offers, "customer")),
        (_options(result, others),),
        (sentences("You bring", [notation.write(each) for each in result.to_bring], "on paper"),),
        *((part,) for part in closing(result, "customer", notation)),
        _accepted(result, provisional, notation),
    ]
    paper = result.resolved.shop.studio.paper
    made = result.resolved.project.job.date
    return Page(quote_head(result, "customer"), tuple(groups), Format(paper, fitted=True), made)


def _options(result: Finishing, others: Alternatives) -> Part:
    """List the options, each with a box to tick, under the line that says what their totals mean."""
    said = options_words(result, others, studio=False)
    return Part("Options", (*map(Line, said[:1]), *(Line(text, tick="on paper") for text in said[1:])))


def _accepted(result: Finishing, provisional: bool, notation: Notation) -> Group:
    """Give the pattern, the thread and the batting that are agreed, and a place to sign, unless nothing is settled."""
    if provisional:
        return (Paragraph("This quote is provisional, so there is nothing to sign yet."),)
    plans, job = result.plans, result.resolved.project.job
    patterns = dict.fromkeys(notation.show(area.style.name) for area in plans.quilting.areas)
    agreed = (
        Fact("Pattern", ", ".join(patterns)),
        Fact("Thread colour", plain(job.thread)),
        Fact("Batting", notation.show(plans.batting.product.name) if plans.batting else "none"),
    )
    return Fields("Agreed", agreed), Fields("Accepted", (Fact("Date", ""), Fact("Signature", "")))
