"""The quote as a page of text, for the customer or, with the studio's own part, for the studio."""

from collections.abc import Callable
from datetime import timedelta

from finishcalc.alternatives import Alternatives, InHouse
from finishcalc.model.keys import Supplier
from finishcalc.pipeline import Finishing
from finishcalc.plans.cautions import Caution
from finishcalc.pricing.offers import Offer
from finishcalc.pricing.quote import Quote
from finishcalc.rendering.pages import layers as words
from finishcalc.rendering.pages.batting import batting_choice, batting_words, supplied_batting
from finishcalc.rendering.pages.blocks import unlisted_words, unpriced_piecing
from finishcalc.rendering.pages.brief import BRIEFLY, supplied_words
from finishcalc.rendering.pages.defaults import arithmetic, default_lines, defaults
from finishcalc.rendering.pages.edge import binding_words, hem_words
from finishcalc.rendering.pages.extras import extras_words
from finishcalc.rendering.pages.options import options_words, take_words
from finishcalc.rendering.pages.pieced import piecing_words
from finishcalc.rendering.pages.price import has_mark, price_lines
from finishcalc.rendering.pages.quilting import finished_words, quilting_words
from finishcalc.rendering.wrapping import wrap
from finishcalc.rendering.writers.text import WIDEST, block
from finishcalc.rendering.writing import is_provisional, joined, notation_of, sample_note
from finishcalc.wording.notation import Notation
from finishcalc.wording.plain import plain, plain_lines
from finishcalc.wording.sentence import Audience


def quote_text(
    result: Finishing,
    others: Alternatives,
    house: InHouse | None,
    explain: bool = False,
    width: int = WIDEST,
    *,
    sources: bool = False,
) -> str:
    """Write the whole quote as text that ends with a line feed, no line wider than `width` columns.

    The customer's page holds what she decides on; the studio's says every part in full, and more from what is `house`'s
    own.
    """
    audience: Audience = "studio" if house else "customer"
    notation = notation_of(result, audience)
    shown = _arithmetic(result, house, notation) if explain else {}
    parts = [
        _head(result, audience, width),
        *_part_blocks(result, shown, audience, width),
        *_shopping_blocks(result, shown, audience, width),
        _price(result, shown, notation, width),
        block("Options", options_words(result, others, audience == "studio"), width),
        _marks(result.quote, others.offers, audience, width),
        _closing(result, audience, notation, width),
    ]
    if house:
        from finishcalc.rendering.pages.studio import studio_lines  # the customer's page starts without it

        parts.append(studio_lines(result, house, shown, notation, width))
    if sources:
        listed = defaults(result.resolved, notation, audience)
        heading = wrap("Sources of the figures that the project file does not give", width)
        parts.append([*heading, *default_lines(listed, width)])
    return joined(parts)


def _arithmetic(result: Finishing, house: InHouse | None, notation: Notation) -> dict[str, list[str]]:
    """Write the arithmetic of each block of the page, by its heading."""
    parts = arithmetic(result, house.profit if house else None)
    return {part.heading: [f"= {notation.exactly().write(each)}" for each in part.sentences] for part in parts}


def _head(result: Finishing, audience: Audience, width: int) -> list[str]:
    """Write the title, the customer, the studio, the terms that the job was agreed on, and all that cannot be made,
    with its mend. The customer reads of her thread where the quilting is."""
    project, shop = result.resolved.project, result.resolved.shop
    job, notation = project.job, notation_of(result, audience)
    number = f" {plain(job.number)}" if job.number else ""
    reader = "the customer" if audience == "studio" else "you"
    facts = [
        notation.day(job.date) if job.date else "",
        f"due {notation.day(job.due)}" if job.due else "",
        f"thread {plain(job.thread)}" if job.thread and audience == "studio" else "",
        f"leftover cloth goes back to {reader}" if job.keep_leftovers and project.customer.name else "",
    ]
    studio = [plain(text) for text in (shop.studio.name, shop.studio.place) if text]
    lines = [
        f"Quote{number}: {plain(project.title)}",
        f"for {plain(project.customer.name)}" if project.customer.name else "",
        "from " + ", ".join(studio) if studio else "",
        *map(plain, shop.studio.contact),
        "; ".join(fact for fact in facts if fact),
        *plain_lines(job.notes).split("\n"),
        *_blocking(result, notation),
    ]
    return [row for line in lines if line for row in wrap(line, width)]


def _blocking(result: Finishing, notation: Notation) -> list[str]:
    """Say why the work cannot be made as specified, and what would do."""
    reasons = [notation.write(caution.sentence) for caution in result.cautions if caution.blocking]
    return ["This cannot be made as specified:", *reasons] if reasons else []


def _part_blocks(result: Finishing, shown: dict[str, list[str]], audience: Audience, width: int) -> list[list[str]]:
    """Write a block for each part of the work, with its arithmetic where that is `shown`."""
    written = SENTENCES if audience == "studio" else BRIEFLY
    notation, blocks = notation_of(result, audience), []
    for part in result.plans.parts:
        sentences = written[part.key](result, notation) if part.key in written else []
        blocks.append(block(part.heading, sentences + shown.get(part.heading, []), width))
    return blocks


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


def _shopping_blocks(result: Finishing, shown: dict[str, list[str]], audience: Audience, width: int) -> list[list[str]]:
    """List the cloth and the batting that the customer supplies, and for the studio what it buys."""
    plans, notation, blocks = result.plans, notation_of(result, audience), []
    if audience == "customer":
        return [
            block("To buy", shown.get("To buy", []), width),
            block("You supply", supplied_words(result, "customer") + shown.get("You supply", []), width),
        ]
    suppliers: tuple[tuple[str, str, Supplier], ...] = (
        ("To buy", "To buy", "shop"),
        ("Customer's", "You supply", "customer"),
    )
    for label, heading, supplier in suppliers:
        cloth = [purchase for purchase in plans.cloth if purchase.supplied_by == supplier]
        sentences = [words.cloth_words(purchase, notation) for purchase in cloth]
        if plans.batting and (batting := plans.batting.supply(supplier)):
            sentences.append(batting_choice(batting, plans.batting.product.name, notation))
        elif plans.batting and plans.batting.brought and supplier == "customer":
            sentences.append(supplied_batting(plans.batting.brought, plans.batting.product.name, notation))
        if sentences:
            blocks.append(block(label, sentences + shown.get(heading, []), width))
    return blocks


def _price(result: Finishing, shown: dict[str, list[str]], notation: Notation, width: int) -> list[str]:
    lines = price_lines(result.quote, is_provisional(result), notation, width)
    return lines + [row for sentence in shown.get("Price", []) for row in wrap(sentence, width)]


def _marks(quote: Quote, offers: tuple[Offer, ...], audience: Audience, width: int) -> list[str]:
    """Explain the mark of samples, where the price or the options have one."""
    marked = has_mark(quote) or any(offer.rests_on_sample for offer in offers)
    return wrap(sample_note("a sample rate", audience), width) * marked


def _closing(result: Finishing, audience: Audience, notation: Notation, width: int) -> list[str]:
    """Write the cautions, the terms, the day until which the quote holds, and the day on which the deposit is due."""
    studio = result.resolved.shop.studio
    noted = [each for each in result.cautions if each.sentence.is_for(audience) and not each.blocking]
    lines = block("Please note", [_caution(each, notation) for each in noted], width)
    terms = [_holds(result, notation)] if studio.days_valid else []
    if result.quote.deposit and result.quote.deposit_due:
        terms.append(f"The deposit is due by {notation.day(result.quote.deposit_due)}.")
    terms += [plain(line) for line in studio.terms.split("\n") if line]
    return lines + block("Terms", terms, width)


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
