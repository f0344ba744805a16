"""Prices the piecing of the top, where the project asks for it: by the hour, the block or the area."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.measures.length import AREA_UNITS
from finishcalc.measures.rounding import printed
from finishcalc.model.prices import Shop
from finishcalc.model.project import Project
from finishcalc.plans.hours import StageTime
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.pricing.quilting import billed_area
from finishcalc.wording.sentence import Sentence, say, say_in_house


def piecing_lines(project: Project, shop: Shop, plans: Plans) -> Iterator[Line]:
    """Charge the piecing, with the time of the pieced blocks."""
    if not project.charges.piecing or not plans.pieced:
        return
    rate, blocks = shop.rates.piecing, plans.pieced.top.blocks
    number = blocks.pieced_number if blocks else 0
    stage, label = _stage(number, project) if number else None, say("Piecing the top")
    figures = (rate.price, project.sewing.piecing.block_minutes) if rate.per == "hour" else (rate.price,)
    quantity, working = _quantity(rate.per, number, stage, label, shop, plans)
    line = priced(label, "labour", quantity, rate.per, rate.price.value, project.currency, figures)
    yield line._replace(ordered=True, stage=stage, minutes=stage.attended if stage else None, working=working)


def _quantity(
    per: str, blocks: int, stage: StageTime | None, label: Sentence, shop: Shop, plans: Plans
) -> tuple[Fraction, Sentence]:
    if per in AREA_UNITS:
        area = billed_area(plans, shop.rates)
        return area.to(per), say("{label}: the billed area, {area}", label=label, area=area)
    if per == "hour" and stage:
        hours = printed(stage.planned / 60, "hour")
        text = "{label}: {planned} planned min / 60 = {hours} h, rounded"
        return hours, say_in_house(text, label=label, planned=stage.planned, hours=hours)
    return Fraction(blocks), say("{label}: {blocks} pieced blocks", label=label, blocks=blocks)


def _stage(blocks: int, project: Project) -> StageTime:
    each = project.sewing.piecing.block_minutes.value
    low, likely, high = (minutes * blocks for minutes in each)
    text = "{name}: {blocks} blocks x {each} min = {likely} min"
    return StageTime(
        name="piece the blocks",
        low=low,
        likely=likely,
        high=high,
        attended_share=Fraction(1),
        on_frame=False,
        working=say_in_house(text, name="piece the blocks", blocks=blocks, each=each.likely, likely=likely),
        work="extras",
    )
