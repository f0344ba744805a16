"""What only the studio may see: cost, minutes by stage, the options that were weighed, the samples."""

from fractions import Fraction

from finishcalc.measures.money import Money, total
from finishcalc.measures.notation import Notation
from finishcalc.measures.said import InUnit
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing import BackingPlan
from finishcalc.plans.options import BackingOption
from finishcalc.plans.quilting import QuiltingPlan
from finishcalc.rendering.page import block, cells, columns, wrap
from finishcalc.rendering.words import hours_words, layout_words


def studio_lines(result: Finishing, notation: Notation, width: int) -> list[str]:
    """The studio's part of the page."""
    plans = result.plans
    lines = ["For the studio only", "", *block("Cost", _costs(result, notation), width), ""]
    if plans.backing and plans.backing.options:
        lines += [
            *block("Options", [_option(each, plans.backing, notation) for each in plans.backing.options], width),
            "",
        ]
    lines += _times(plans.quilting, notation, width)
    if plans.backing and plans.backing.seams:
        minutes = hours_words(plans.backing.seam_minutes)
        lines += wrap(f"and {minutes} at the seams of the backing", width)
    if samples := sorted(result.samples):
        lines += ["", *wrap("Sample figures in use: " + ", ".join(samples), width)]
    return lines


def _costs(result: Finishing, notation: Notation) -> list[str]:
    """What is bought, each cloth once, and what it comes to."""
    currency, plans = result.quote.currency, result.plans
    bought: list[tuple[str, Money]] = [
        (
            f"{notation.show(InUnit(each.amount, each.fabric.per))} of {notation.show(each.fabric.name)}",
            each.cost,
        )
        for each in plans.cloth
        if each.supplied_by == "shop"
    ]
    project = result.asked.project
    if plans.batting and plans.batting.chosen and project.batting and project.batting.supplied_by == "shop":
        bought.append((f"batting, {notation.show(plans.batting.product.name)}", plans.batting.chosen.cost))
    lines = [f"{what}: {notation.show(cost)}" for what, cost in bought]
    whole = total((cost for _, cost in bought), currency)
    return [*lines, f"materials in all: {notation.show(whole)}"]


def _option(option: BackingOption, plan: BackingPlan, notation: Notation) -> str:
    chosen = " - chosen" if option is plan.chosen else ""
    amount = notation.show(InUnit(option.amount, plan.fabric.per))
    return (
        f"{amount}, {layout_words(option)}: cloth {notation.show(option.cloth_cost)} + seams "
        f"{notation.show(option.seam_cost)} = {notation.show(option.total_cost)}{chosen}"
    )


def _times(plan: QuiltingPlan, notation: Notation, width: int) -> list[str]:
    rows = [
        [name, *(_minutes(value, notation) for value in figures)]
        for name, *figures in [
            *((notation.show(each.name), each.low, each.likely, each.high, each.planned) for each in plan.stages),
            ("in all", plan.low, plan.likely, plan.high, plan.planned),
        ]
    ]
    head = ["Minutes", "low", "likely", "high", "planned"]
    figures = sum(max(cells(row[column]) for row in [head, *rows]) for column in range(1, 5))
    room = max(width - figures - 2 * 4, 6)
    table = columns([[wrap(row[0], room), *([text] for text in row[1:])] for row in [head, *rows]], "lrrrr")
    hours = f"planned {hours_words(plan.planned)}, of which {hours_words(plan.attended)} attended"
    loaded = f"loaded {plan.loaded}" + ("" if plan.fits else ", does not fit the frame")
    return [*table, *wrap(f"{hours}; {loaded}", width)]


def _minutes(value: Fraction, notation: Notation) -> str:
    return notation.decimals(value, 0)
