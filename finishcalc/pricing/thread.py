"""Prices the thread of the quilting by the cone, the bobbin, the colour, the length stitched or the billed area."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.measures.length import AREA_UNITS, MM_PER
from finishcalc.measures.money import Currency
from finishcalc.model.prices import Rates
from finishcalc.plans.cautions import Caution, caution_in_house
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.pricing.quilting import billed_area
from finishcalc.wording.sentence import say


def thread_cautions(plans: Plans, rates: Rates) -> Iterator[Caution]:
    """Tell the studio of thread that is not charged, because there is nothing of what it is charged by: neither a tie
    nor a stitch by hand has a bobbin."""
    if rates.thread.price.value and not _quantity(plans, rates):
        text = "Thread is charged by the {unit}, and a quilt that is {method} takes none: it is not in the price."
        unit = "length stitched" if rates.thread.per in MM_PER else rates.thread.per
        yield caution_in_house("thread-not-charged", text, unit=unit, method=plans.quilting.method.name)


def _quantity(plans: Plans, rates: Rates) -> Fraction:
    """Count what the thread is charged by."""
    per, quilting = rates.thread.per, plans.quilting
    if per in AREA_UNITS:
        return billed_area(plans, rates).to(per)
    if per in MM_PER:
        return quilting.stitched_length.to(per)
    counts = {"cone": quilting.threads.cones, "bobbin": quilting.threads.bobbins, "colour": quilting.colours}
    return Fraction(counts[per])


def thread_lines(plans: Plans, rates: Rates, currency: Currency) -> Iterator[Line]:
    """Charge the thread, where there is any of what it is charged by."""
    rate, quilting, label = rates.thread, plans.quilting, say("Thread")
    quantity, working = _quantity(plans, rates), None
    if rate.per in AREA_UNITS:
        working = say("{label}: the billed area, {area}", label=label, area=billed_area(plans, rates))
    elif rate.per in MM_PER:
        working = say("{label}: {stitched} stitched", label=label, stitched=quilting.stitched_length)
    if quantity:
        line = priced(label, "material", quantity, rate.per, rate.price.value, currency, (rate.price,))
        cost = None if rate.cost is None else currency.round(line.quantity * rate.cost.value)
        yield line._replace(working=working, cost=cost, about="thread")
