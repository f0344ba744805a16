"""The quote as a page of text: for the customer, or with what only the studio may see."""

from finishcalc.measures.notation import NO_BREAK, Notation
from finishcalc.measures.said import Audience, Said
from finishcalc.pipeline import Finishing
from finishcalc.plain import plain, plain_lines
from finishcalc.rendering import words
from finishcalc.rendering.notes import default_lines, defaults, for_audience
from finishcalc.rendering.page import WIDEST, block, wrap
from finishcalc.rendering.price_table import price_lines
from finishcalc.rendering.studio import studio_lines


def notation_of(result: Finishing) -> Notation:
    """The project's units with the shop's signs."""
    money = result.asked.shop.money
    return Notation(result.asked.project.units, money.decimal, money.group, money.symbol, money.symbol_place)


def quote_text(result: Finishing, audience: Audience, explain: bool = False, width: int = WIDEST) -> str:
    """The whole quote as text that ends with a line feed, no line wider than `width` columns."""
    notation = notation_of(result)
    parts = [
        _head(result, notation, width),
        *_plan_blocks(result, notation, audience, explain, width),
        _price(result, audience, explain, notation, width),
        _closing(result, notation, width),
    ]
    if audience == "studio":
        parts.append(studio_lines(result, notation, width))
    if explain:
        found = defaults(result.asked.layers, notation, audience)
        parts.append(["Where the figures stand that the project file does not give", *default_lines(found, width)])
    text = "\n\n".join("\n".join(part) for part in parts if part) + "\n"
    return text.replace(NO_BREAK, " ")


def _head(result: Finishing, notation: Notation, width: int) -> list[str]:
    project, studio = result.asked.project, result.asked.shop.studio
    order = result.asked.shop.money.date_order
    lines = wrap(plain(project.title), width)
    about = [plain(studio.name), *map(plain, studio.contact), plain(studio.place)]
    job = project.job
    facts = [
        f"for {plain(project.customer)}" if project.customer else "",
        f"job {plain(job.number)}" if job.number else "",
        words.day(job.date, order) if job.date else "",
        f"due {words.day(job.due, order)}" if job.due else "",
        f"thread: {plain(job.thread)}" if job.thread else "",
        "leftovers are kept for you" if job.keep_leftovers and project.customer else "",
    ]
    for line in ("; ".join(fact for fact in facts if fact), ", ".join(line for line in about if line)):
        lines += wrap(line, width) if line else []
    for line in plain_lines(job.notes).split("\n") if job.notes else []:
        lines += wrap(line, width)
    return lines


def _plan_blocks(
    result: Finishing, notation: Notation, audience: Audience, explain: bool, width: int
) -> list[list[str]]:
    project, plans = result.asked.project, result.plans
    blocks = []

    def add(label: str, sentences: list[str], working: tuple[Said, ...]) -> None:
        shown = [f"= {notation.say(said)}" for said in for_audience(working, audience)] if explain else []
        blocks.append(block(label, sentences + shown, width))

    add("Top", words.top_words(plans.top, notation), plans.top.working)
    if plans.backing and project.backing:
        wishes = project.backing
        sentences = words.backing_words(plans.backing, wishes.overage, wishes.supplied_by, notation)
        add("Backing", sentences, plans.backing.working)
    if plans.batting and project.batting:
        sentences = words.batting_words(plans.batting, project.batting.supplied_by, notation)
        add("Batting", sentences, plans.batting.working)
    if plans.binding and project.binding:
        sentences = words.binding_words(plans.binding, project.binding.supplied_by, notation)
        add("Binding", sentences, plans.binding.working)
    add("Quilting", words.quilting_words(plans.quilting, notation), plans.quilting.working)
    if plans.cloth:
        working = tuple(said for purchase in plans.cloth if len(purchase.uses) > 1 for said in purchase.working)
        add("Cloth", [words.cloth_words(purchase, notation) for purchase in plans.cloth], working)
    return blocks


def _price(result: Finishing, audience: Audience, explain: bool, notation: Notation, width: int) -> list[str]:
    lines = price_lines(result.quote, result.samples, notation, width)
    if explain:
        for said in for_audience(result.quote.working, audience):
            lines += wrap(f"= {notation.say(said)}", width)
    if result.samples:
        lines += ["", *wrap("* rests on a sample rate, not on the studio's own: put yours in a shop file.", width)]
    return lines


def _closing(result: Finishing, notation: Notation, width: int) -> list[str]:
    """Cautions, terms, and how long the quote holds."""
    studio = result.asked.shop.studio
    lines = block("Careful", [notation.say(each.said) for each in result.cautions], width)
    terms = [f"This quote holds for {studio.days_valid} days."] if studio.days_valid else []
    terms += [plain(line) for line in studio.terms.split("\n") if line]
    return lines + block("Terms", terms, width)
