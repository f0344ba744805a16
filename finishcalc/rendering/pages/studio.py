"""The studio's own part of a quote: cost, profit, the backings that were weighed, work order, minutes and samples."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.alternatives.in_house import InHouse
from finishcalc.measures.money import Money, total
from finishcalc.measures.rounding import printed
from finishcalc.pipeline import Finishing
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.hours import Hours
from finishcalc.pricing.profit import OtherPrice, Profitability
from finishcalc.rendering.pages.dates import dates_words
from finishcalc.rendering.pages.layers import direction_cost_words, layout_words, overage_words
from finishcalc.rendering.pages.page import Group, Heading, Line, Paragraph, Part, Table, sentences, steps
from finishcalc.rendering.pages.quilting import work_order
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.passes import passes_picture
from finishcalc.rendering.writing import hours_words
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.plain import plain, plain_lines
from finishcalc.wording.sentence import InUnit
from finishcalc.wording.words import counted, in_words


def studio_groups(
    result: Finishing, house: InHouse, shown: dict[str, list[str]], notation: Notation
) -> Iterator[Group]:
    """Give the studio's part of the page; `shown` is the arithmetic under each heading."""
    plans = result.plans
    yield (Heading("For the studio only"),)
    yield (sentences("Cost", _costs(result, notation)),)
    yield from profitability_groups(house.profit, shown.get("Earnings", []), notation)
    is_stated = result.resolved.project.overage_is_fixed
    if plans.backing and plans.backing.chosen:
        yield (sentences("Backings", _backings(plans.backing, house, is_stated, notation)),)
    if result.dates:
        yield (sentences("Dates", dates_words(result.dates, result.hours, notation)),)
    yield (sentences("On arrival", [notation.write(check.sentence) for check in result.arrival], "everywhere"),)
    yield (work_order_part(result, notation),)
    if picture := passes_picture(plans, notation):
        yield (Drawing("passes", picture, notation),)
    assumed = [notation.write(sentence) for sentence in plans.quilting.assumed]
    yield (
        minutes_table(result.hours, notation),
        *map(Paragraph, [planned_words(result.hours), *assumed, *shown.get("Minutes", [])]),
    )
    samples = sorted(house.samples)
    named = [Paragraph("Sample figures in use: " + ", ".join(samples))] if samples else []
    yield Paragraph(_shop_file(result)), *named


def work_order_part(result: Finishing, notation: Notation) -> Part:
    """Give the studio's own notes on the job, and the quilting step by step."""
    order = list(work_order(result.plans.quilting, result.plans.backing, notation))
    notes = [line for line in plain_lines(result.resolved.project.job.notes_studio).split("\n") if line]
    return Part("Work order", (*map(Line, notes), *steps("", order, "on paper").lines))


def _shop_file(result: Finishing) -> str:
    """Name the shop file in use, and who names it."""
    shop = result.resolved.shop_file
    if shop is None:
        return "Shop file: none, so the sample shop is taken"
    where = "the project" if shop.named_by == "project" else plain(shop.where)
    return f"Shop file: {plain(shop.file)}, named by {where}" if shop.file else f"Shop file: none, as {where} says"


def _costs(result: Finishing, notation: Notation) -> list[str]:
    """List the purchases of the shop, each cloth once, with thread and what is ordered besides, and their sum."""
    currency, plans = result.quote.currency, result.plans
    bought: list[tuple[str, Money]] = [
        (
            f"{notation.show(InUnit(purchase.amount, purchase.fabric.per))} of {notation.show(purchase.fabric.name)}",
            purchase.cost,
        )
        for purchase in plans.cloth
        if purchase.supplied_by == "shop" and not purchase.is_all_on_hand
    ]
    if plans.batting and (batting := plans.batting.supply("shop")):
        bought.append((f"batting, {notation.show(plans.batting.product.name)}", batting.cost))
    bought += [
        (notation.write(line.label), line.cost)
        for line in result.quote.lines
        if (line.ordered or line.about == "thread") and line.cost is not None and line.line_class != "pass-through"
    ]
    lines = [f"{what}: {notation.show(cost)}" for what, cost in bought]
    materials = total((cost for _, cost in bought), currency)
    directions = filter(None, (direction_cost_words(purchase, notation) for purchase in plans.cloth))
    return [*lines, f"total materials: {notation.show(materials)}", *directions]


def _backings(plan: BackingPlan, house: InHouse, is_stated: bool, notation: Notation) -> list[str]:
    """Say each backing that was weighed with the total of the quote and the studio's own cost, then the rule by which
    one leads."""
    if plan.chosen and not house.backings:
        return [_backing(plan.chosen, notation), "supplied cloth is pieced with as few seams as it allows"]
    listed = []
    for weighed in house.backings:
        leads = f"{NO_BREAK}-{NO_BREAK}leads" if weighed.option is plan.chosen else ""
        listed.append(f"{notation.show(weighed.quote.total)} with {_backing(weighed.option, notation)}{leads}")
    cloth = plan.inputs.sewing.cloth
    a_seam = notation.show(plan.inputs.currency.round(cloth.worth_a_seam.value))
    rule = f"the least total leads, with {a_seam} more for each seam"
    if any(weighed.option.layout.turned for weighed in house.backings):
        worth = notation.show(InUnit(cloth.worth_turning, plan.fabric.per))
        rule += f" and the price of {worth} for pieces cut across the grain"
    most = cloth.most_seams if plan.inputs.spec.most_seams is None else plan.inputs.spec.most_seams
    stated = "; the overage is stated, so none with a smaller one leads" if is_stated else ""
    return [*listed, f"{rule}; at most {counted(most, 'seam')}{stated}"]


def _backing(option: BackingOption, notation: Notation) -> str:
    amount = notation.show(InUnit(option.amount, option.fabric.per))
    return (
        f"{amount}, {layout_words(option)}, {overage_words(option.overage, notation)}: your cost, cloth "
        f"{notation.show(option.cloth_cost)} + seams {notation.show(option.seam_cost)} = "
        f"{notation.show(option.total_cost)}"
    )


def minutes_table(hours: Hours, notation: Notation) -> Table:
    """Set the minutes of each stage."""
    stages = [
        *((notation.show(stage.name), stage.low, stage.likely, stage.high, stage.planned) for stage in hours.stages),
        ("total", hours.low, hours.likely, hours.high, hours.planned),
    ]
    rows = [[name, *(notation.decimals(minutes, 0) for minutes in figures)] for name, *figures in stages]
    return Table(["Minutes", "low", "likely", "high", "planned"], "lrrrr", rows, summed=True)


def planned_words(hours: Hours) -> str:
    """Say how long it is planned to take, how much of that is attended, and how much on the frame."""
    frame = f", {hours_words(hours.frame)} on the frame" if hours.frame else ""
    attended = f", of which {hours_words(hours.attended)} attended" if hours.attended != hours.planned else ""
    return f"planned {hours_words(hours.planned)}{attended}{frame}"


def profitability_groups(profit: Profitability, shown: list[str], notation: Notation) -> list[Group]:
    """Give the table of margins, then the sentences about earnings, and the arithmetic that is `shown`."""
    return [(_margins(profit, notation),), (sentences("Earnings", _sentences(profit, notation) + shown),)]


def _margins(profit: Profitability, notation: Notation) -> Table:
    """Set each line beside its cost to the studio, in material or in time, and the margin."""
    rows = [
        [
            notation.write(entry.line.label),
            notation.bare_money(entry.line.amount),
            _known(entry.cost, notation),
            _known(entry.margin, notation),
        ]
        for entry in profit.lines
    ]
    rows.append(["total with known cost", *map(notation.bare_money, profit.known_totals)])
    margin = "margin before tax" if profit.taxed else "margin"
    return Table(["Line", "amount", "cost", margin], "lrrr", rows, summed=True)


def _known(amount: Money | None, notation: Notation) -> str:
    return "not known" if amount is None else notation.bare_money(amount)


def _sentences(profit: Profitability, notation: Notation) -> list[str]:
    show, earned = notation.show, profit.earned
    passed_on = f", what is passed on {show(earned.passed_on)}" if earned.passed_on else ""
    sentences = [
        f"before tax {show(earned.net)}, less materials {show(earned.materials)}{passed_on} and other costs "
        f"{show(earned.other_costs)}: {show(earned.left)} earned"
    ]
    if earned.left_out:
        named = in_words([f"{notation.write(each.label)} {show(each.net)}" for each in earned.left_out])
        sentences.append(f"left out, because nobody knows the time or the cost: {named}")
    if profit.hourly is not None:
        hours, ordered = decimal_hours(earned.hours, notation), profit.hours_ordered
        apart = f", {decimal_hours(ordered, notation)} of them for what is ordered besides" if ordered else ""
        against = against_wage(profit.hourly, profit.wage, notation)
        sentences.append(f"{show(profit.hourly)} an attended hour over {hours}{apart}: {against}")
    if profit.hourly_at_best is not None and profit.hourly_at_worst is not None and earned.low != earned.high:
        low, high = (decimal_hours(printed(minutes / 60, "hour"), notation) for minutes in (earned.low, earned.high))
        at_best, at_worst = show(profit.hourly_at_best), show(profit.hourly_at_worst)
        sentences.append(f"from {at_worst} an hour, if it takes {high}, to {at_best}, if it takes {low}")
    if profit.frame_hourly is not None:
        frame = decimal_hours(profit.frame_hours, notation)
        sentences.append(f"{show(profit.frame_hourly)} an hour on the frame over {frame}")
    sentences.append(f"break-even price, with the wage paid: {show(profit.price_at_wage)} before tax")
    costs = "materials, what is passed on and other costs" if passed_on else "materials and other costs"
    sentences.append(f"{costs}, without any wage: {show(profit.break_even)} before tax")
    return sentences + [_other(other, notation) for other in profit.others]


def decimal_hours(hours: Fraction, notation: Notation) -> str:
    """Write hours with decimals: "7.76 h"."""
    return f"{notation.quantity(hours)}{NO_BREAK}h"


def against_wage(hourly: Money, wage: Money, notation: Notation) -> str:
    """Say how far an hour's earnings are from the wage."""
    over = hourly - wage
    if not over:
        return f"the wage of {notation.show(wage)}"
    way = "more" if over.minor > 0 else "less"
    return f"{notation.show(over if over.minor > 0 else -over)} {way} than the wage of {notation.show(wage)}"


def _other(other: OtherPrice, notation: Notation) -> str:
    hourly = f", {notation.show(other.hourly)} an attended hour" if other.hourly is not None else ""
    return f"{notation.write(other.label)}: a total of {notation.show(other.total)}{hourly}"
