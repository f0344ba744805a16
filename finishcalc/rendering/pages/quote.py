"""The quote as a page of text, for the customer or, with the studio's own part, for the studio."""

from datetime import timedelta

from finishcalc.pipeline import Finishing
from finishcalc.plans.cautions import for_reader
from finishcalc.pricing.offers import Offer
from finishcalc.pricing.profit import Worth
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
from finishcalc.wording.said import Audience


def quote_text(result: Finishing, audience: Audience, explain: bool = False, width: int = WIDEST) -> str:
    """The whole quote as text that ends with a line feed, no line wider than `width` columns."""
    notation, offers, samples = notation_of(result), result.offers, result.asked.samples
    worth = result.worth if audience == "studio" else None
    shown = _arithmetic(result, audience, worth, notation) if explain else {}
    parts = [
        _head(result, width),
        *_plan_blocks(result, notation, audience, shown, width),
        _price(result, shown, notation, width),
        block("Options", _offered(offers, samples, notation), width),
        _marks(result.quote, offers, samples, width),
        _closing(result, audience, notation, width),
    ]
    if worth:
        parts.append(studio_lines(result, worth, shown, notation, width))
    if explain:
        listed = defaults(result.asked.layers, notation, audience)
        heading = wrap("Where each figure comes from that the project file does not give", width)
        parts.append([*heading, *default_lines(listed, width)])
    return joined(parts)


def _arithmetic(result: Finishing, audience: Audience, worth: Worth | None, notation: Notation) -> dict[str, list[str]]:
    """Write the arithmetic of each block of the page, by its heading."""
    parts = arithmetic(result, audience, worth)
    return {part.heading: [f"= {notation.say(said)}" for said in part.sentences] for part in parts}


def _head(result: Finishing, width: int) -> list[str]:
    """Write the title, the customer, the studio, and the terms that the job was agreed on."""
    project, shop = result.asked.project, result.asked.shop
    job, order = project.job, shop.money.date_order
    number = f" {plain(job.number)}" if job.number else ""
    facts = [
        words.day(job.date, order) if job.date else "",
        f"due {words.day(job.due, order)}" if job.due else "",
        f"thread {plain(job.thread)}" if job.thread else "",
        "leftover cloth goes back to you" if job.keep_leftovers and project.customer else "",
    ]
    studio = [plain(text) for text in (shop.studio.name, shop.studio.place) if text]
    lines = [
        f"Quote{number}: {plain(project.title)}",
        f"for {plain(project.customer)}" if project.customer else "",
        "from " + ", ".join(studio) if studio else "",
        *map(plain, shop.studio.contact),
        "; ".join(fact for fact in facts if fact),
        *plain_lines(job.notes).split("\n"),
        "It cannot be made as it stands: see Careful." if any(caution.hinders for caution in result.cautions) else "",
    ]
    return [row for line in lines if line for row in wrap(line, width)]


def _plan_blocks(
    result: Finishing, notation: Notation, audience: Audience, shown: dict[str, list[str]], width: int
) -> list[list[str]]:
    project, plans = result.asked.project, result.plans
    blocks = []

    def add(label: str, sentences: list[str]) -> None:
        blocks.append(block(label, sentences + shown.get(label, []), width))

    *described, billed = words.top_words(plans.top, result.asked.shop.rates.quilting_per, notation)
    finished = finished_words(plans.quilting, plans.top, notation)
    add("Top", [*described, *finished, billed])
    if plans.pieced:
        own = [] if project.charges.lines else ["cutting and sewing the top is not in this price"]
        add("Piecing", [*piecing_words(plans.pieced, notation), *own])
    if plans.backing and project.backing:
        add("Backing", words.backing_words(result, plans.backing, audience, notation))
    if plans.batting:
        add("Batting", words.batting_words(plans.batting, notation))
    else:
        add("Batting", ["none"])
    if plans.binding:
        add("Binding", words.binding_words(result, plans.binding, notation))
    if plans.hem:
        add("Edge", words.hem_words(plans.hem, notation))
    add("Quilting", quilting_words(plans.quilting, notation))
    for label, supplier in (("To buy", "shop"), ("Of yours", "customer")):
        cloth = [purchase for purchase in plans.cloth if purchase.supplied_by == supplier]
        sentences = [words.cloth_words(purchase, notation) for purchase in cloth]
        if plans.batting and plans.batting.chosen and project.batting and project.batting.supplied_by == supplier:
            sentences.append(words.batting_choice(plans.batting.chosen, plans.batting.product.name, notation))
        if sentences:
            add(label, sentences)
    return blocks


def _price(result: Finishing, shown: dict[str, list[str]], notation: Notation, width: int) -> list[str]:
    lines = price_lines(result.quote, result.asked.samples, notation, width)
    return lines + [row for sentence in shown.get("Price", []) for row in wrap(sentence, width)]


def _marks(quote: Quote, offers: tuple[Offer, ...], samples: frozenset[str], width: int) -> list[str]:
    """Explain the mark of samples, where the price or the options have one."""
    marked = has_mark(quote, samples) or any(offer.figures & samples for offer in offers)
    return wrap(sample_note("a sample rate"), width) * marked


def _offered(offers: tuple[Offer, ...], samples: frozenset[str], notation: Notation) -> list[str]:
    """List the extras that could be ordered and are not in the total; those that rest on a sample rate have a mark."""
    if not offers:
        return []
    offered = [
        f"{notation.say(offer.label)}: {words.more_or_less(offer.adds, notation)}"
        + (f"{NO_BREAK}{SAMPLE_MARK}" if offer.figures & samples else "")
        for offer in offers
    ]
    return ["priced and not in the total; with tax:", *offered]


def _closing(result: Finishing, audience: Audience, notation: Notation, width: int) -> list[str]:
    """Write the cautions, the terms, and the day until which the quote holds."""
    studio = result.asked.shop.studio
    lines = block("Careful", [notation.say(each.said) for each in for_reader(result.cautions, audience)], width)
    terms = [_holds(result)] if studio.days_valid else []
    terms += [plain(line) for line in studio.terms.split("\n") if line]
    return lines + block("Terms", terms, width)


def _holds(result: Finishing) -> str:
    studio, date = result.asked.shop.studio, result.asked.project.job.date
    if not date:
        return f"This quote holds for {studio.days_valid} days."
    until = date + timedelta(days=studio.days_valid)
    return f"This quote holds until {words.day(until, result.asked.shop.money.date_order)}."
