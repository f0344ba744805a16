"""Prices what is ordered by name or by a line of its own: work or goods that no plan counts."""

from fractions import Fraction
from typing import Any, NamedTuple

from finishcalc.measures.length import AREA_UNITS, MM_PER, Length
from finishcalc.measures.rounding import printed
from finishcalc.model.charges import OneOff, OrderedExtra
from finishcalc.model.keys import Span
from finishcalc.model.prices import Extra, Rates, Shop
from finishcalc.model.section import Figure
from finishcalc.plans.hours import StageTime
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.pricing.quilting import billed_shape
from finishcalc.wording.sentence import Sentence, say, say_in_house

AN_HOUR = Span(Fraction(60), Fraction(60), Fraction(60))


class _Measured(NamedTuple):
    """A quantity with its arithmetic, where that is not plain."""

    quantity: Fraction
    working: Sentence | None = None


def extra_line(ordered: OrderedExtra, shop: Shop, plans: Plans) -> Line:
    """Price an extra of the shop's."""
    extra = shop.extras[ordered.name]
    by_its_minutes = extra.minutes and extra.per == "hour" and ordered.quantity is None
    figures = (extra.price, extra.minutes) if extra.minutes and by_its_minutes else (extra.price,)
    return _line(extra, ordered.quantity, figures, shop, plans)


def one_off_line(one_off: OneOff, one_offs: Figure[tuple[OneOff, ...]], shop: Shop, plans: Plans) -> Line:
    """Price a line of the project's own."""
    return _line(one_off, one_off.quantity, (one_offs,), shop, plans)


def _line(
    sold: Extra | OneOff, ordered: Fraction | None, figures: tuple[Figure[Any], ...], shop: Shop, plans: Plans
) -> Line:
    label, price, cost = say("{label}", label=sold.label), _bare(sold.price), _bare(sold.cost)
    stage = _stage(sold, ordered, label, shop.rates, plans)
    if ordered is not None:
        measured = _Measured(ordered)
    elif sold.per == "hour" and stage:
        measured = _planned_hours(label, stage)
    else:
        measured = _measured(sold, sold.per, label, shop.rates, plans)
    line = priced(label, sold.line_class, measured.quantity, sold.per, price, shop.currency, figures)
    return line._replace(
        ordered=True,
        working=measured.working,
        stage=stage,
        minutes=stage.attended if stage else None,
        cost=None if cost is None else shop.currency.round(line.quantity * cost),
    )


def _bare(figure: Any) -> Any:
    """The value of a figure of the shop's; a line of a project has plain values."""
    return figure.value if isinstance(figure, Figure) else figure


def _planned_hours(label: Sentence, stage: StageTime) -> _Measured:
    hours = printed(stage.planned / 60, "hour")
    text = "{label}: {planned} planned min / 60 = {hours} h, rounded"
    return _Measured(hours, say_in_house(text, label=label, planned=stage.planned, hours=hours))


def _measured(sold: Extra | OneOff, unit: str, label: Sentence, rates: Rates, plans: Plans) -> _Measured:
    """Measure the quilt in a unit, because a price by it is meant for the whole: the billed area, a measure of the
    billed top, or the seams of the backing. One of anything else."""
    shape = billed_shape(plans, rates)
    if unit in AREA_UNITS:
        return _Measured(shape.area.to(unit), say("{label}: the billed area, {area}", label=label, area=shape.area))
    if unit in MM_PER:
        measure = sold.of or "perimeter"
        length: Length = getattr(shape, measure)
        text = f"{{label}}: the {measure} of the billed top, {{length}}"
        return _Measured(length.to(unit), say(text, label=label, length=length))
    if unit == "seam":
        seams = plans.backing.seams if plans.backing else 0
        return _Measured(Fraction(seams), say("{label}: the seams of the backing, {seams}", label=label, seams=seams))
    return _Measured(Fraction(1))


def _stage(
    sold: Extra | OneOff, ordered: Fraction | None, label: Sentence, rates: Rates, plans: Plans
) -> StageTime | None:
    """Time what is ordered: for each unit of it, or of the quilt's measure; hours that are ordered are their own time.
    None where nobody knows it."""
    minutes, unit = _bare(sold.minutes), sold.minutes_per or sold.per
    if sold.per == "hour" and ordered is not None:
        return _stage_of(sold.label, AN_HOUR, ordered, "hour")
    if minutes is None:
        return None
    if sold.minutes_per is None and ordered is not None:
        return _stage_of(sold.label, minutes, ordered, unit)
    return _stage_of(sold.label, minutes, _measured(sold, unit, label, rates, plans).quantity, unit)


def _stage_of(name: str, each: Span, quantity: Fraction, unit: str) -> StageTime:
    text = "{name}: {quantity} {unit} x {each} min = {likely} min"
    low, likely, high = (minutes * quantity for minutes in each)
    working = say_in_house(text, name=name, quantity=quantity, unit=unit, each=each.likely, likely=likely)
    return StageTime(
        name=name,
        low=low,
        likely=likely,
        high=high,
        attended_share=Fraction(1),
        on_frame=False,
        working=None if quantity == 1 else working,
        work="extras",
    )
