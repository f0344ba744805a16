"""The quote as a page of text, for the customer or, with the studio's own part, for the studio."""

from collections.abc import Callable
from datetime import timedelta
from typing import NamedTuple

from finishcalc.alternatives import Alternatives, InHouse
from finishcalc.model.keys import Supplier
from finishcalc.pipeline import Finishing
from finishcalc.pricing.offers import Offer
from finishcalc.pricing.quote import Quote
from finishcalc.rendering.pages import layers as words
from finishcalc.rendering.pages.defaults import arithmetic, default_lines, defaults
from finishcalc.rendering.pages.page import WIDEST, block, wrap
from finishcalc.rendering.pages.pieced import piecing_words
from finishcalc.rendering.pages.price import has_mark, price_lines
from finishcalc.rendering.pages.quilting import finished_words, quilting_words
from finishcalc.rendering.pages.studio import studio_lines
from finishcalc.rendering.writing import SAMPLE_MARK, joined, notation_of, sample_note
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain, plain_lines
from finishcalc.wording.sentence import Audience


def quote_text(
    result: Finishing, others: Alternatives, house: InHouse | None, explain: bool = False, width: int = WIDEST
) -> str:
    """Write the whole quote as text that ends with a line feed, no line wider than `width` columns.

    It is the customer's page; the studio's is that and more, from what is `house`'s own.
    """
    notation = notation_of(result)
    audience: Audience = "studio" if house else "customer"
    shown = _arithmetic(result, house, notation) if explain else {}
    parts = [
        _head(result, width),
        *_part_blocks(_View(result, others, notation, house is not None), shown, width),
        *_shopping_blocks(result, shown, notation, width),
        _price(result, shown, notation, width),
        block("Options", _offered(others.offers, notation), width),
        _marks(result.quote, others.offers, width),
        _closing(result, audience, notation, width),
    ]
    if house:
        parts.append(studio_lines(result, house, shown, notation, width))
    if explain:
        listed = defaults(result.resolved, notation, audience)
        heading = wrap("Sources of the figures that the project file does not give", width)
        parts.append([*heading, *default_lines(listed, width)])
    return joined(parts)


def _arithmetic(result: Finishing, house: InHouse | None, notation: Notation) -> dict[str, list[str]]:
    """Write the arithmetic of each block of the page, by its heading."""
    parts = arithmetic(result, house.profit if house else None)
    return {part.heading: [f"= {notation.write(each)}" for each in part.sentences] for part in parts}


def _head(result: Finishing, width: int) -> list[str]:
    """Write the title, the customer, the studio, and the terms that the job was agreed on."""
    project, shop = result.resolved.project, result.resolved.shop
    job, order = project.job, shop.money.date_order
    number = f" {plain(job.number)}" if job.number else ""
    facts = [
        words.day(job.date, order) if job.date else "",
        f"due {words.day(job.due, order)}" if job.due else "",
        f"thread {plain(job.thread)}" if job.thread else "",
        "leftover cloth goes back to you" if job.keep_leftovers and project.customer.name else "",
    ]
    studio = [plain(text) for text in (shop.studio.name, shop.studio.place) if text]
    lines = [
        f"Quote{number}: {plain(project.title)}",
        f"for {plain(project.customer.name)}" if project.customer.name else "",
        "from " + ", ".join(studio) if studio else "",
        *map(plain, shop.studio.contact),
        "; ".join(fact for fact in facts if fact),
        *plain_lines(job.notes).split("\n"),
        "This cannot be made as specified: see Careful."
        if any(caution.blocking for caution in result.cautions)
        else "",
    ]
    return [row for line in lines if line for row in wrap(line, width)]


class _View(NamedTuple):
    """Everything that the sentences of a part may use: the result and its alternatives."""

    result: Finishing
    others: Alternatives
    notation: Notation
    studio: bool


def _part_blocks(view: _View, shown: dict[str, list[str]], width: int) -> list[list[str]]:
    """Write a block for each part of the work, with its arithmetic where that is `shown`."""
    blocks = []
    for part in view.result.plans.parts:
        sentences = SENTENCES[part.key](view) if part.key in SENTENCES else []
        blocks.append(block(part.heading, sentences + shown.get(part.heading, []), width))
    return blocks


def _top(view: _View) -> list[str]:
    plans, shop = view.result.plans, view.result.resolved.shop
    *described, billed = words.top_words(plans.top, shop.rates.quilting_per, view.notation)
    return [*described, *finished_words(plans.quilting, plans.top, view.notation), billed]


def _piecing(view: _View) -> list[str]:
    pieced, lines = view.result.plans.pieced, view.result.resolved.project.charges.lines
    if not pieced:
        return []
    own = [] if lines.value else ["cutting and sewing the top is not in this price"]
    return [*piecing_words(pieced, view.notation), *own]


def _backing(view: _View) -> list[str]:
    plans, others = view.result.plans, view.others.backings
    return (
        words.backing_words(plans.backing, plans.cloth, others, view.notation, view.others.smaller_overage, view.studio)
        if plans.backing
        else []
    )


def _batting(view: _View) -> list[str]:
    batting = view.result.plans.batting
    return words.batting_words(batting, view.notation) if batting else ["none"]


def _binding(view: _View) -> list[str]:
    plans, other = view.result.plans, view.others.binding
    return words.binding_words(plans.binding, plans.cloth, other, view.notation) if plans.binding else []


def _hem(view: _View) -> list[str]:
    hem = view.result.plans.hem
    return words.hem_words(hem, view.notation) if hem else []


def _quilting(view: _View) -> list[str]:
    return quilting_words(view.result.plans.quilting, view.notation)


SENTENCES: dict[str, Callable[[_View], list[str]]] = {
    "top": _top,
    "piecing": _piecing,
    "backing": _backing,
    "batting": _batting,
    "binding": _binding,
    "hem": _hem,
    "quilting": _quilting,
}
"""The sentences of each part of the work, by its key; nothing for a part that is not wanted."""


def _shopping_blocks(result: Finishing, shown: dict[str, list[str]], notation: Notation, width: int) -> list[list[str]]:
    """List the cloth and the batting to buy, and those that the customer supplies."""
    plans, blocks = result.plans, []
    suppliers: tuple[tuple[str, Supplier], ...] = (("To buy", "shop"), ("You supply", "customer"))
    for label, supplier in suppliers:
        cloth = [purchase for purchase in plans.cloth if purchase.supplied_by == supplier]
        sentences = [words.cloth_words(purchase, notation) for purchase in cloth]
        if plans.batting and (batting := plans.batting.supply(supplier)):
            sentences.append(words.batting_choice(batting, plans.batting.product.name, notation))
        if sentences:
            blocks.append(block(label, sentences + shown.get(label, []), width))
    return blocks


def _price(result: Finishing, shown: dict[str, list[str]], notation: Notation, width: int) -> list[str]:
    lines = price_lines(result.quote, notation, width)
    return lines + [row for sentence in shown.get("Price", []) for row in wrap(sentence, width)]


def _marks(quote: Quote, offers: tuple[Offer, ...], width: int) -> list[str]:
    """Explain the mark of samples, where the price or the options have one."""
    marked = has_mark(quote) or any(offer.rests_on_sample for offer in offers)
    return wrap(sample_note("a sample rate"), width) * marked


def _offered(offers: tuple[Offer, ...], notation: Notation) -> list[str]:
    """List the extras that could be ordered and are not in the total; those that rest on a sample rate have a mark."""
    if not offers:
        return []
    offered = [
        f"{notation.write(offer.label)}: {words.more_or_less(offer.adds, notation)}"
        + (f"{NO_BREAK}{SAMPLE_MARK}" if offer.rests_on_sample else "")
        for offer in offers
    ]
    return ["not in the total; priced with tax:", *offered]


def _closing(result: Finishing, audience: Audience, notation: Notation, width: int) -> list[str]:
    """Write the cautions, the terms, and the day until which the quote holds."""
    studio = result.resolved.shop.studio
    careful = [notation.write(each.sentence) for each in result.cautions if each.sentence.is_for(audience)]
    lines = block("Careful", careful, width)
    terms = [_holds(result)] if studio.days_valid else []
    terms += [plain(line) for line in studio.terms.split("\n") if line]
    return lines + block("Terms", terms, width)


def _holds(result: Finishing) -> str:
    studio, date = result.resolved.shop.studio, result.resolved.project.job.date
    if not date:
        return f"This quote holds for {studio.days_valid} days."
    until = date + timedelta(days=studio.days_valid)
    return f"This quote holds until {words.day(until, result.resolved.shop.money.date_order)}."
