"""Prices the thread of the quilting by the cone, the bobbin, the colour, the length stitched or the billed area."""

from collections.abc import Iterator
from fractions import Fraction

from finishcalc.measures.length import AREA_UNITS, MM_PER
from finishcalc.measures.money import Currency
from finishcalc.model.prices import Rates
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import Line, priced
from finishcalc.pricing.quilting import billed_area
from finishcalc.wording.sentence import say


def thread_lines(plans: Plans, rates: Rates, currency: Currency) -> Iterator[Line]:
    """Charge the thread, where there is any of what it is charged by."""
    rate, quilting, label = rates.thread, plans.quilting, say("Thread")
    counts = {"cone": quilting.threads.cones, "bobbin": quilting.threads.bobbins, "colour": quilting.colours}
    working = None
    if rate.per in AREA_UNITS:
        area = billed_area(plans, rates)
        quantity, working = area.to(rate.per), say("{label}: the billed area, {area}", label=label, area=area)
    elif rate.per in MM_PER:
        stitched = quilting.stitched_length
        quantity, working = stitched.to(rate.per), say("{label}: {stitched} stitched", label=label, stitched=stitched)
    else:
        quantity = Fraction(counts[rate.per])
    if quantity:
        line = priced(label, "material", quantity, rate.per, rate.price.value, currency, (rate.price,))
        cost = None if rate.cost is None else currency.round(line.quantity * rate.cost.value)
        yield line._replace(working=working, cost=cost, about="thread")
