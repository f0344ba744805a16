"""The options of a quote: each with the total of the quote that has it, and for the studio its own cost and the way to
take it."""

from collections.abc import Iterator, Mapping

from finishcalc.alternatives.backings import OtherBacking
from finishcalc.alternatives.choices import Alternatives, OtherBinding, OtherCutting
from finishcalc.measures.money import Money, total
from finishcalc.pipeline import Finishing
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.together import Plans
from finishcalc.pricing.offers import Offer
from finishcalc.rendering.pages.edge import beside_words
from finishcalc.rendering.pages.layers import option_words
from finishcalc.rendering.writing import SAMPLE_MARK, notation_of
from finishcalc.taking import Take
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import capital, counted


def options_words(result: Finishing, others: Alternatives, studio: bool) -> list[str]:
    """List the other backings, the other binding and the offers, under a line with the total they change."""
    notation = notation_of(result, "studio" if studio else "customer")
    listed = [
        *(_backing(other, notation, studio) for other in others.backings),
        *([_binding(others.binding, notation, studio)] if others.binding else []),
        *(_cutting(other, notation, studio) for other in others.cuttings),
        *_offers(result, others.offers, studio),
    ]
    now = notation.show(result.quote.total)
    return [f"each alone would make the total, instead of {now}:", *listed] if listed else []


def backing_words(other: OtherBacking, notation: Notation) -> str:
    """Name another way to piece the backing."""
    return f"Backing of {option_words(other.option, notation)}"


def binding_words(other: OtherBinding, notation: Notation) -> str:
    """Name the binding that is cut beside the backing's pieces."""
    saved = notation.show(InUnit(other.saved, other.plan.fabric.per))
    return f"Binding from {beside_words(other.plan)}, {saved} less cloth"


def cutting_words(other: OtherCutting, notation: Notation) -> str:
    """Name the other way to cut a cloth of the top."""
    how = f"joined from strips across the cloth, {counted(other.joins, 'join')}" if other.joins else "without joins"
    amount = notation.show(InUnit(other.amount, other.fabric.per))
    return f"{capital(uses_words(other.parts))} {how}, {amount} of {notation.show(other.fabric.name)}"


def _backing(other: OtherBacking, notation: Notation, studio: bool) -> str:
    said = f"{backing_words(other, notation)}: {notation.show(other.total)}"
    return said + _in_house("cost", other.adds_to_cost, other.take, notation) if studio else said


def _binding(other: OtherBinding, notation: Notation, studio: bool) -> str:
    said = f"{binding_words(other, notation)}: {notation.show(other.total)}"
    return f"{said}; to take it: {take_words(other.take)}" if studio else said


def _cutting(other: OtherCutting, notation: Notation, studio: bool) -> str:
    said = f"{cutting_words(other, notation)}: {notation.show(other.total)}"
    return f"{said}; to take it: {take_words(other.take)}" if studio else said


def _offers(result: Finishing, offers: tuple[Offer, ...], studio: bool) -> Iterator[str]:
    """Say each offer; one that rests on a sample rate has a mark."""
    notation = notation_of(result, "studio" if studio else "customer")
    for offer in offers:
        mark = f"{NO_BREAK}{SAMPLE_MARK}" if offer.rests_on_sample else ""
        said = f"{notation.write(offer.label)}: {notation.show(offer.total)}{mark}"
        adds_to_cost = materials_cost(offer.plans, result) - materials_cost(result.plans, result)
        yield said + _in_house("materials", adds_to_cost, offer.take, notation) if studio else said


def materials_cost(plans: Plans, result: Finishing) -> Money:
    """Add up the studio's own cost of the cloth and the batting that it supplies, in the currency of the result."""
    costs = [purchase.cost for purchase in plans.cloth if purchase.supplied_by == "shop"]
    if plans.batting and (batting := plans.batting.supply("shop")):
        costs.append(batting.cost)
    return total(costs, result.quote.currency)


def _in_house(what: str, adds: Money, take: Take, notation: Notation) -> str:
    cost = f" (your {what} {more_or_less(adds, notation)})" if adds.minor else ""
    return f"{cost}; to take it: {take_words(take)}"


def take_words(take: Take) -> str:
    """Say what to write in the project file to take an option, as `--set` takes it too."""
    return ", ".join(f"{key}={_toml(value)}" for key, value in take.items())


def _toml(value: object) -> str:
    if value is None:
        return "null"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key} = {_toml(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_toml, value)) + "]"
    return str(value) if isinstance(value, int) else f'"{plain(_whole_line(str(value)))}"'


def _whole_line(value: str) -> str:
    """Keep a figure and its unit on one line, because the value is copied from the page."""
    return value.replace(" ", NO_BREAK) if value[:1].isdigit() else value


def more_or_less(amount: Money, notation: Notation) -> str:
    """Write the change to an amount: "$12.30 more", "$8.00 less"."""
    way = "less" if amount.minor < 0 else "more"
    return f"{notation.show(-amount if amount.minor < 0 else amount)}{NO_BREAK}{way}"
