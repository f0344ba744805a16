"""The same top in other styles: one of each other class of rates."""

from collections.abc import Iterator
from contextlib import suppress
from typing import NamedTuple

from finishcalc.choosing import plan_and_price
from finishcalc.intake.changes.change import Change
from finishcalc.measures.money import Money
from finishcalc.model.project import Project
from finishcalc.model.quilting import Style
from finishcalc.pipeline import Finishing
from finishcalc.plans.together import Plans, make_plans, with_binding
from finishcalc.pricing.offers import differs_by_sample
from finishcalc.pricing.profit import QuoteInStyle
from finishcalc.pricing.quote import Quote, make_quote
from finishcalc.problems import ProblemsFound
from finishcalc.taking import Take
from finishcalc.wording.sentence import Sentence, say


class OtherStyle(NamedTuple):
    """The same top in another style, for the customer: the style's `name` as papers call it, the distance between its
    `lines` in a sentence, the `total` of the quote with it and the amount that this adds, marked where the difference
    rests on a sample; `take` is what to write to take it."""

    name: str
    lines: Sentence
    total: Money
    adds: Money
    rests_on_sample: bool
    take: Take


def styles_of(result: Finishing) -> tuple[OtherStyle, ...]:
    """Price the same top in a style of each other class of rates, the cheapest first; styles that come to the same stay
    in the order of their classes."""
    return tuple(sorted(_other_styles(result), key=lambda style: style.total))


def _other_styles(result: Finishing) -> Iterator[OtherStyle]:
    current = result.quote
    for name, (plans, quote) in _in_other_styles(result):
        style = plans.quilting.style
        rests_on_sample = differs_by_sample(quote, current)
        take = {"quilting.style": name}
        yield OtherStyle(style.name, _lines(style), quote.total, quote.total - current.total, rests_on_sample, take)


def _lines(style: Style) -> Sentence:
    """Say the distance between lines, of a pattern where it is widest."""
    up_to = "up to " * (style.lines == "pattern")
    return say(f"lines {up_to}{{distance}} apart", distance=style.widest_distance)


def in_other_styles(result: Finishing) -> Iterator[QuoteInStyle]:
    """Plan and price the same top in a style of each other class of rates, where one style stitches the whole of it."""
    for _, (plans, quote) in _in_other_styles(result):
        yield QuoteInStyle(plans.quilting.style.name, plans, quote)


def _in_other_styles(result: Finishing) -> Iterator[tuple[str, tuple[Plans, Quote]]]:
    """Give each other style by the name that a file takes it by, with its plans and its quote."""
    resolved, quilting = result.resolved, result.plans.quilting
    if len(quilting.areas) > 1 or quilting.ties or quilting.method.rate_class:
        return
    for rate_class, name in resolved.styles_by_class.items():
        if rate_class != quilting.style.rate_class:
            with suppress(ProblemsFound):
                project = resolved.changed(Change("", (), ((("quilting", "style"), name),))).project
                yield name, _in_style(project, result)


def _in_style(project: Project, result: Finishing) -> tuple[Plans, Quote]:
    """Plan and price the project in its style. A style changes neither the backing nor the binding, so these are not
    chosen again, unless it needs another overage."""
    shop, before = result.resolved.shop, result.plans
    if project.backing != result.resolved.project.backing:
        plans, quote, _ = plan_and_price(project, shop)
        return plans, quote
    plans = make_plans(project, before, instead=before.backing)
    plans = with_binding(project, plans, before.binding) if before.binding else plans
    return plans, make_quote(project, shop, plans)
