"""What the quilting costs by the rate of its class: by area, by the hour, flat, by what is stitched, by the tie, or by
steps of size."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from finishcalc.measures.length import AREA_UNITS, MM_PER, Area
from finishcalc.measures.money import Currency, total
from finishcalc.measures.rounding import up
from finishcalc.model.prices import QuiltingRate, Rates, SizeStep
from finishcalc.model.section import Figure
from finishcalc.plans.hours import Hours
from finishcalc.plans.quilting.stitching import PIECED_PARTS, StitchedArea
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.wording.said import Said, Share, say, say_in_house


def quilting_lines(plans: Plans, rates: Rates, currency: Currency) -> list[Line]:
    """Each style at its rate class, or all at the method's; where they come to less than the minimum, the minimum
    itself."""
    areas = zip(plans.quilting.areas, plans.quilting.area_hours, strict=True)
    lines = [line for area, hours in areas for line in _quilted(area, hours, plans, rates, currency)]
    minimum = rates.minimum.value
    if total((line.amount for line in lines), currency) < currency.round(minimum):
        name = plans.quilting.style.name if len(plans.quilting.areas) == 1 else "all styles"
        used = (rates.minimum, *(rate for line in lines for rate in line.rates))
        label = say("Quilting, {style}, minimum charge", style=name)
        minutes = plans.quilting.hours.attended
        lines = [priced(label, "labour", Fraction(1), "each", minimum, currency, used, minutes=minutes)]
    return [line._replace(about="quilting") for line in lines]


def rate_class(area: StitchedArea, plans: Plans) -> str:
    """The class an area is charged at: the method's where it has one, or the style's."""
    return plans.quilting.method.rate_class or area.style.rate_class


def _quilted(area: StitchedArea, hours: Hours, plans: Plans, rates: Rates, currency: Currency) -> Iterator[Line]:
    name = rate_class(area, plans)
    rate, label = rates.quilting[name], _label(area, plans)
    if rate.steps:
        yield from _by_size(label, rate, rate.steps, plans, rates, currency, hours.attended)
        return
    if rate.price is None:
        raise AssertionError("the rules let no rate pass without its price or its steps")
    quantity, unit = _quantity(area, hours, rate, plans, rates)
    used: tuple[Figure[Any], ...] = (rate.price,)
    if unit == "hour":
        used = (rate.price, plans.quilting.method.stages)
    line = priced(label, "labour", quantity, unit, rate.price.value, currency, used, minutes=hours.attended)
    yield line._replace(said=_hours_said(label, hours, line.quantity)) if unit == "hour" else line


def _label(area: StitchedArea, plans: Plans) -> Said:
    done = "Quilting by hand" if plans.quilting.method.stitch == "running" else "Quilting"
    if area.share == 1:
        return say(done + ", {style}", style=area.style.name)
    if area.name in PIECED_PARTS:
        return say(done + ", {style}, the {area}", style=area.style.name, area=area.name)
    return say(done + ", {style}, {share} of the top", style=area.style.name, share=Share(area.share))


def _hours_said(label: Said, hours: Hours, quantity: Fraction) -> Said:
    return say_in_house(
        "{label}: {planned} planned min / 60 = {quantity} h, rounded", label=label, planned=hours.planned,
        quantity=quantity,
    )  # fmt: skip


def _quantity(area: StitchedArea, hours: Hours, rate: QuiltingRate, plans: Plans, rates: Rates) -> tuple[Fraction, str]:
    """How much of its unit an area comes to. Hours are those planned for it, attended or not."""
    if rate.per in AREA_UNITS:
        return billed_area(plans, rates).to(rate.per) * area.share, rate.per
    if rate.per in MM_PER:
        return area.stitched.to(rate.per), rate.per
    if rate.per == "hour":
        return hours.planned / 60, "hour"
    return (Fraction(area.ties), "tie") if rate.per == "tie" else (Fraction(1), "each")


def _by_size(
    label: Said,
    rate: QuiltingRate,
    steps: Figure[tuple[SizeStep, ...]],
    plans: Plans,
    rates: Rates,
    currency: Currency,
    minutes: Fraction,
) -> Iterator[Line]:
    """The price of the least size class that holds the top; above the last, that one and what is over it, whose time is
    counted with it."""
    area = billed_area(plans, rates).to(rates.quilting_per)
    step = next((step for step in steps.value if area <= step.up_to), steps.value[-1])
    named = say("{label}, size {name}, up to {most} {unit}", label=label, name=step.name, most=step.up_to,
                unit=rates.quilting_per)  # fmt: skip
    yield priced(named, "labour", Fraction(1), "each", step.price, currency, (steps,), minutes=minutes)
    if area > step.up_to and rate.each and rate.more is not None:
        over = up((area - step.up_to) / rate.each)
        text = say("{label}, over that size, each {each} {unit}", label=label, each=rate.each, unit=rates.quilting_per)
        more, nothing = rate.more, Fraction(0)
        line = priced(text, "labour", Fraction(over), "each", more.value, currency, (more,), minutes=nothing)
        yield line._replace(
            said=say(
                "{label}: ({area} - {most}) / {each}, rounded up: {over}", label=label, area=area, most=step.up_to,
                each=rate.each, over=over,
            )
        )  # fmt: skip


def billed_area(plans: Plans, rates: Rates) -> Area:
    """The billed rectangle's; for a shaped top its own, where the shop says so."""
    by_area = rates.shaped == "area" and plans.top.shape.curved
    return plans.top.shape.area if by_area else plans.top.billed.area
