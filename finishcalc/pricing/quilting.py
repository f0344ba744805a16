"""Prices the quilting at the rate of its class: by area, by the hour, flat, by the length stitched, by the tie, or by
steps of size."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from finishcalc.measures.length import AREA_UNITS, MM_PER, Area
from finishcalc.measures.money import Currency, Money, share_out, total
from finishcalc.measures.rounding import shared_out, up
from finishcalc.model.prices import QuiltingRate, Rates, SizeStep
from finishcalc.model.section import Figure
from finishcalc.plans.hours import Hours
from finishcalc.plans.quilting.stitching import PIECED_PARTS, StitchedArea
from finishcalc.plans.together import Plans
from finishcalc.plans.top.outline import Shape
from finishcalc.pricing.line import Line, priced
from finishcalc.wording.sentence import Sentence, Share, say, say_in_house

Quantity = tuple[Fraction, str]
"""A quantity and its unit."""


class ShareOfWhole(NamedTuple):
    """The part that an area bears of a price for the `whole` top: flat, or that of the `size` class."""

    whole: Money
    size: str
    amount: Money
    rates: tuple[Figure[Any], ...]


def quilting_lines(plans: Plans, rates: Rates, currency: Currency) -> list[Line]:
    """Price each style at its rate class, or all at the method's; where they come to less than the minimum, charge the
    minimum instead."""
    areas = zip(plans.quilting.areas, plans.quilting.area_hours, _quantities(plans, rates), strict=True)
    shares = _shares_of_whole_prices(plans, rates, currency)
    lines: list[Line] = []
    for number, (area, hours, sold) in enumerate(areas):
        if number in shares:
            lines.append(_share_line(area, hours, shares[number], plans))
        else:
            lines += _area_lines(area, hours, sold, plans, rates, currency)
    minimum = rates.minimum.value
    if total((line.amount for line in lines), currency) < currency.round(minimum):
        name = plans.quilting.style.name if len(plans.quilting.areas) == 1 else "all styles"
        used = (rates.minimum, *(rate for line in lines for rate in line.rates))
        label = say("Quilting, {style}, minimum charge", style=name)
        minutes = plans.quilting.hours.attended
        lines = [priced(label, "labour", Fraction(1), "each", minimum, currency, used, minutes=minutes)]
    return [line._replace(about="quilting") for line in lines]


def rate_class(area: StitchedArea, plans: Plans) -> str:
    """Give the class of rates of an area: the method's where it has one, or the style's."""
    return plans.quilting.method.rate_class or area.style.rate_class


def _area_lines(
    area: StitchedArea, hours: Hours, sold: Quantity, plans: Plans, rates: Rates, currency: Currency
) -> Iterator[Line]:
    name = rate_class(area, plans)
    rate, label = rates.quilting[name], _label(area, plans)
    if rate.steps:
        yield from _by_size(label, rate, rate.steps, plans, rates, currency, hours.attended)
        return
    if rate.price is None:
        raise AssertionError("the rules let no rate pass without its price or its steps")
    quantity, unit = sold
    used: tuple[Figure[Any], ...] = (rate.price,)
    if unit == "hour":
        used = (rate.price, plans.quilting.method.stages)
    line = priced(label, "labour", quantity, unit, rate.price.value, currency, used, minutes=hours.attended)
    yield line._replace(working=_hours_working(label, hours, line.quantity)) if unit == "hour" else line


def _shares_of_whole_prices(plans: Plans, rates: Rates, currency: Currency) -> dict[int, ShareOfWhole]:
    """Share out each price that is for a whole top over the areas of its class, by their numbers, in whole minor units
    that add up to the share of all of them together."""
    areas, found = plans.quilting.areas, dict[int, ShareOfWhole]()
    for name in dict.fromkeys(rate_class(area, plans) for area in areas if area.share != 1):
        rate = rates.quilting[name]
        if rate.per != "quilt" and not rate.steps:
            continue
        numbers = [number for number, area in enumerate(areas) if rate_class(area, plans) == name]
        of_top = [areas[number].share for number in numbers]
        whole = _whole_price(rate, plans, rates, currency)
        finest = 1
        for share in of_top:
            finest *= share.denominator
        together = currency.round(whole.amount.major * sum(of_top, Fraction(0)))
        parts = share_out(together, [int(share * finest) for share in of_top])
        found |= {number: whole._replace(amount=part) for number, part in zip(numbers, parts, strict=True)}
    return found


def _whole_price(rate: QuiltingRate, plans: Plans, rates: Rates, currency: Currency) -> ShareOfWhole:
    """Price the whole top flat, or by its size class and what is over the last."""
    if rate.steps:
        lines = list(_by_size(say("{size}", size=""), rate, rate.steps, plans, rates, currency, Fraction(0)))
        whole = total((line.amount for line in lines), currency)
        size = str(lines[0].label.values["name"])
        return ShareOfWhole(whole, size, whole, tuple(figure for line in lines for figure in line.rates))
    if rate.price is None:
        raise AssertionError("the rules let no rate pass without its price or its steps")
    whole = currency.round(rate.price.value)
    return ShareOfWhole(whole, "", whole, (rate.price,))


def _share_line(area: StitchedArea, hours: Hours, part: ShareOfWhole, plans: Plans) -> Line:
    """Charge an area its share of a price for the whole top."""
    label, currency = _label(area, plans), part.amount.currency
    line = priced(label, "labour", Fraction(1), "each", part.amount.major, currency, part.rates, minutes=hours.attended)
    text = "{label}: {whole} for the whole top" + (", size {size}," if part.size else "") + " x {share} = {amount}"
    share = Share(area.share)
    working = say(text, label=label, whole=part.whole, size=part.size, share=share, amount=part.amount)
    return line._replace(working=working)


def _label(area: StitchedArea, plans: Plans) -> Sentence:
    done = "Quilting by hand" if plans.quilting.method.stitch == "running" else "Quilting"
    if area.share == 1:
        return say(done + ", {style}", style=area.style.name)
    if area.name in PIECED_PARTS:
        return say(done + ", {style}, the {area}", style=area.style.name, area=area.name)
    return say(done + ", {style}, {share} of the top", style=area.style.name, share=Share(area.share))


def _hours_working(label: Sentence, hours: Hours, quantity: Fraction) -> Sentence:
    text = "{label}: {planned} planned min / 60 = {quantity} h, rounded"
    return say_in_house(text, label=label, planned=hours.planned, quantity=quantity)


def _quantities(plans: Plans, rates: Rates) -> list[Quantity]:
    """Measure every area. Those that are billed by one unit of area are printed so that they add up to it: each is cut
    off at its printed step, and the steps that are left go to the largest remainders (Hamilton's method), the earlier
    of two equal ones first."""
    measured = zip(plans.quilting.areas, plans.quilting.area_hours, strict=True)
    quantities = [_quantity(area, hours, plans, rates) for area, hours in measured]
    for unit in {unit for _, unit in quantities if unit in AREA_UNITS}:
        numbers = [number for number, quantity in enumerate(quantities) if quantity[1] == unit]
        parts = shared_out([quantities[number][0] for number in numbers], unit)
        for number, part in zip(numbers, parts, strict=True):
            quantities[number] = (part, unit)
    return quantities


def _quantity(area: StitchedArea, hours: Hours, plans: Plans, rates: Rates) -> Quantity:
    """Measure an area in the unit of its rate. Hours are those planned for it, attended or not."""
    rate = rates.quilting[rate_class(area, plans)]
    if rate.per in AREA_UNITS:
        return billed_area(plans, rates).to(rate.per) * area.share, rate.per
    if rate.per in MM_PER:
        return area.stitched.to(rate.per), rate.per
    if rate.per == "hour":
        return hours.planned / 60, "hour"
    return (Fraction(area.ties), "tie") if rate.per == "tie" else (Fraction(1), "each")


def _by_size(
    label: Sentence,
    rate: QuiltingRate,
    steps: Figure[tuple[SizeStep, ...]],
    plans: Plans,
    rates: Rates,
    currency: Currency,
    minutes: Fraction,
) -> Iterator[Line]:
    """Charge the least size class that holds the top; above the last, charge that one and the area over it, whose time
    is counted with the first line."""
    area = billed_area(plans, rates).to(rates.quilting_per)
    step = next((step for step in steps.value if area <= step.up_to), steps.value[-1])
    text = "{label}, size {name}, up to {most} {unit}"
    step_label = say(text, label=label, name=step.name, most=step.up_to, unit=rates.quilting_per)
    yield priced(step_label, "labour", Fraction(1), "each", step.price, currency, (steps,), minutes=minutes)
    if area > step.up_to:
        yield from _over_largest_size(label, rate, area, step.up_to, rates.quilting_per, currency)


def _over_largest_size(
    label: Sentence, rate: QuiltingRate, area: Fraction, largest: Fraction, unit: str, currency: Currency
) -> Iterator[Line]:
    """Charge the area over the largest size class, where the rate has a price for more."""
    if not rate.each or rate.more is None:
        return
    count = up((area - largest) / rate.each)
    over_label = say("{label}, over that size, each {each} {unit}", label=label, each=rate.each, unit=unit)
    more, unattended = rate.more, Fraction(0)
    line = priced(over_label, "labour", Fraction(count), "each", more.value, currency, (more,), minutes=unattended)
    text = "{label}: ({area} - {most}) / {each}, rounded up: {over}"
    yield line._replace(working=say(text, label=label, area=area, most=largest, each=rate.each, over=count))


def billed_area(plans: Plans, rates: Rates) -> Area:
    """Give the area of the billed shape."""
    return billed_shape(plans, rates).area


def billed_shape(plans: Plans, rates: Rates) -> Shape:
    """Give the billed rectangle; for a shaped top its own shape, where the shop says so."""
    by_area = rates.shaped == "area" and plans.top.shape.curved
    return plans.top.shape if by_area else plans.top.billed
