"""The quote as a page, for the customer or, with the studio's own part, for the studio."""

from collections.abc import Callable, Iterator
from datetime import timedelta

from finishcalc.alternatives.choices import Alternatives
from finishcalc.alternatives.in_house import InHouse
from finishcalc.model.keys import Supplier
from finishcalc.pipeline import Finishing
from finishcalc.plans.cautions import Caution
from finishcalc.pricing.offers import Offer
from finishcalc.pricing.quote import Quote
from finishcalc.rendering.pages import layers as words
from finishcalc.rendering.pages.batting import batting_choice, batting_words, supplied_batting
from finishcalc.rendering.pages.blocks import unlisted_words, unpriced_piecing
from finishcalc.rendering.pages.brief import BRIEFLY, supplied_words
from finishcalc.rendering.pages.defaults import arithmetic, default_table, defaults
from finishcalc.rendering.pages.edge import binding_words, hem_words
from finishcalc.rendering.pages.extras import extras_words
from finishcalc.rendering.pages.options import options_words, take_words
from finishcalc.rendering.pages.page import Fact, Group, Head, Heading, Page, Paragraph, Part, sentences
from finishcalc.rendering.pages.pieced import piecing_words
from finishcalc.rendering.pages.price import has_mark, prices
from finishcalc.rendering.pages.quilting import finished_words, quilting_words
from finishcalc.rendering.writing import is_provisional, notation_of, sample_note
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain, plain_lines
from finishcalc.wording.sentence import Audience


def quote_page(
    result: Finishing,
    others: Alternatives,
    house: InHouse | None,
    explain: bool = False,
    *,
    sources: bool = False,
) -> Page:
    """Make the page of a whole quote.

    The customer's page holds what she decides on; the studio's says every part in full, and more from what is `house`'s
    own.
    """
    audience: Audience = "studio" if house else "customer"
    notation = notation_of(result, audience)
    shown = _arithmetic(result, house, notation) if explain else {}
    groups: list[Group] = [
        *((part,) for part in work_parts(result, shown, audience)),
        *((part,) for part in _shopping(result, shown, audience)),
        _price(result, shown, notation),
        (sentences("Options", options_words(result, others, audience == "studio")),),
        marks(result.quote, others.offers, audience),
        closing(result, audience, notation),
    ]
    if house:
        from finishcalc.rendering.pages.studio import studio_groups  # the customer's page starts without it

        groups += studio_groups(result, house, shown, notation)
    if sources:
        listed = default_table(defaults(result.resolved, notation, audience))
        groups.append((Heading("Sources of the figures that the project file does not give"), listed))
    return Page(quote_head(result, audience), tuple(groups), made=result.resolved.project.job.date)


def _arithmetic(result: Finishing, house: InHouse | None, notation: Notation) -> dict[str, list[str]]:
    """Write the arithmetic of each block of the page, by its heading."""
    parts = arithmetic(result, house.profit if house else None)
    return {part.heading: [f"= {notation.exactly().write(each)}" for each in part.sentences] for part in parts}


def quote_head(result: Finishing, audience: Audience) -> Head:
    """Make the head: the title, the customer, the studio, the terms that the job was agreed on, and all that cannot be
    made, with its mend. The customer reads of her thread where the quilting is."""
    project, shop = result.resolved.project, result.resolved.shop
    job, notation = project.job, notation_of(result, audience)
    studio = [plain(text) for text in (shop.studio.name, shop.studio.place) if text]
    return Head(
        kind=f"Quote {plain(job.number)}" if job.number else "Quote",
        title=plain(project.title),
        customer=plain(project.customer.name),
        studio=", ".join(studio),
        contact=tuple(map(plain, shop.studio.contact)),
        logo=result.resolved.logo,
        facts=tuple(_facts(result, audience, notation)),
        notes=tuple(line for line in plain_lines(job.notes).split("\n") if line),
        unsettled=tuple(notation.write(caution.sentence) for caution in result.cautions if caution.blocking),
    )


def _facts(result: Finishing, audience: Audience, notation: Notation) -> Iterator[Fact]:
    """Give the facts of the job that are known."""
    project, job = result.resolved.project, result.resolved.project.job
    if job.date:
        yield Fact("Date", notation.day(job.date), notation.day(job.date))
    if job.due:
        yield Fact("Ready by", notation.day(job.due), f"due {notation.day(job.due)}")
    if job.thread and audience == "studio":
        yield Fact("Thread", plain(job.thread), f"thread {plain(job.thread)}")
    if job.keep_leftovers and project.customer.name:
        reader = "the customer" if audience == "studio" else "you"
        yield Fact("Leftover cloth", f"goes back to {reader}", f"leftover cloth goes back to {reader}")


def work_parts(result: Finishing, shown: dict[str, list[str]], audience: Audience) -> Iterator[Part]:
    """Say each part of the work, with its arithmetic where that is `shown`."""
    written, notation = SENTENCES if audience == "studio" else BRIEFLY, notation_of(result, audience)
    for part in result.plans.parts:
        said = written[part.key](result, notation) if part.key in written else []
        yield sentences(part.heading, said + shown.get(part.heading, []))


def _top(result: Finishing, notation: Notation) -> list[str]:
    plans, shop = result.plans, result.resolved.shop
    *described, billed = words.top_words(plans.top, shop.rates.quilting_per, notation)
    return [*described, *finished_words(plans.quilting, plans.top, notation), billed]


def _piecing(result: Finishing, notation: Notation) -> list[str]:
    pieced = result.plans.pieced
    if not pieced:
        return []
    unpriced = unpriced_piecing(result.resolved.project.charges)
    return [*piecing_words(pieced, notation), *unlisted_words(pieced, notation), *unpriced]


def _backing(result: Finishing, notation: Notation) -> list[str]:
    plans, style = result.plans, result.resolved.style_of_overage
    if not plans.backing:
        return []
    needed, *others = words.backing_words(plans.backing, plans.cloth, notation, result.smaller_overage)
    because = f", as {notation.show(style)} needs it" if style else ""
    return [needed + because, *others]


def _batting(result: Finishing, notation: Notation) -> list[str]:
    batting = result.plans.batting
    return batting_words(batting, notation) if batting else ["none"]


def _binding(result: Finishing, notation: Notation) -> list[str]:
    plans = result.plans
    return binding_words(plans.binding, plans.cloth, notation) if plans.binding else []


def _hem(result: Finishing, notation: Notation) -> list[str]:
    hem = result.plans.hem
    return hem_words(hem, notation) if hem else []


def _quilting(result: Finishing, notation: Notation) -> list[str]:
    return quilting_words(result.plans.quilting, notation)


def _weight(result: Finishing, notation: Notation) -> list[str]:
    return [notation.write(result.plans.weight.sentence)]


def _extras(result: Finishing, notation: Notation) -> list[str]:
    return extras_words(result.plans.extras, notation)


SENTENCES: dict[str, Callable[[Finishing, Notation], list[str]]] = {
    "top": _top,
    "piecing": _piecing,
    "backing": _backing,
    "batting": _batting,
    "binding": _binding,
    "hem": _hem,
    "quilting": _quilting,
    "extras": _extras,
    "weight": _weight,
}
"""The sentences of each part of the work in full, by its key; nothing for a part that is not wanted."""


def _shopping(result: Finishing, shown: dict[str, list[str]], audience: Audience) -> Iterator[Part]:
    """List the cloth and the batting that the customer supplies, and for the studio what it buys."""
    plans, notation = result.plans, notation_of(result, audience)
    if audience == "customer":
        yield sentences("To buy", shown.get("To buy", []))
        yield sentences("You supply", supplied_words(result, "customer") + shown.get("You supply", []))
        return
    suppliers: tuple[tuple[str, str, Supplier], ...] = (
        ("To buy", "To buy", "shop"),
        ("Customer's", "You supply", "customer"),
    )
    for label, heading, supplier in suppliers:
        cloth = [purchase for purchase in plans.cloth if purchase.supplied_by == supplier]
        listed = [words.cloth_words(purchase, notation) for purchase in cloth]
        if plans.batting and (batting := plans.batting.supply(supplier)):
            listed.append(batting_choice(batting, plans.batting.product.name, notation))
        elif plans.batting and plans.batting.brought and supplier == "customer":
            listed.append(supplied_batting(plans.batting.brought, plans.batting.product.name, notation))
        if listed:
            yield sentences(label, listed + shown.get(heading, []))


def _price(result: Finishing, shown: dict[str, list[str]], notation: Notation) -> Group:
    return prices(result.quote, is_provisional(result), notation), *map(Paragraph, shown.get("Price", []))


def marks(quote: Quote, offers: tuple[Offer, ...], audience: Audience) -> Group:
    """Explain the mark of samples, where the price or the options have one."""
    marked = has_mark(quote) or any(offer.rests_on_sample for offer in offers)
    return (Paragraph(sample_note("a sample rate", audience), small=True),) * marked


def closing(result: Finishing, audience: Audience, notation: Notation) -> Group:
    """Write the cautions, the terms, the day until which the quote holds, and the day on which the deposit is due."""
    studio = result.resolved.shop.studio
    noted = [each for each in result.cautions if each.sentence.is_for(audience) and not each.blocking]
    terms = [_holds(result, notation)] if studio.days_valid else []
    if result.quote.deposit and result.quote.deposit_due:
        terms.append(f"The deposit is due by {notation.day(result.quote.deposit_due)}.")
    terms += [plain(line) for line in studio.terms.split("\n") if line]
    return sentences("Please note", [_caution(each, notation) for each in noted]), sentences("Terms", terms)


def _caution(caution: Caution, notation: Notation) -> str:
    """Write a caution, with the keys that take what it proposes, which only the studio's has."""
    text = notation.write(caution.sentence)
    return f"{text} To take it: {take_words(caution.take)}" if caution.take else text


def _holds(result: Finishing, notation: Notation) -> str:
    studio, date = result.resolved.shop.studio, result.resolved.project.job.date
    if not date:
        return f"This quote holds for {studio.days_valid} days."
    until = date + timedelta(days=studio.days_valid)
    return f"This quote holds until {notation.day(until)}."
