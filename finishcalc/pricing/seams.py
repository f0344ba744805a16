"""Prices seams by their number, their length or both, so that a short join need not cost what a long seam does."""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency
from finishcalc.model.prices import SeamRate
from finishcalc.pricing.line import Line, priced
from finishcalc.wording.sentence import say


class SewnSeams(NamedTuple):
    """Some seams that the shop sews: their number, the length of all together, and the minutes at them."""

    number: int
    length: Length
    minutes: Fraction


def seam_lines(label: str, seams: SewnSeams, rate: SeamRate, currency: Currency) -> Iterator[Line]:
    """Charge for each seam, then along all of them, where the rate has a price for it. The time of the seams is counted
    with the first of these lines."""
    minutes, count = seams.minutes, Fraction(seams.number)
    if rate.each.value:
        yield priced(say(label), "labour", count, "each", rate.each.value, currency, (rate.each,), minutes=minutes)
        minutes = Fraction(0)
    if rate.along and rate.along.value and rate.per:
        along, price = seams.length.to(rate.per), rate.along
        text = label + (", along their length" if seams.number > 1 else ", along its length")
        line = priced(say(text), "labour", along, rate.per, price.value, currency, (price,), minutes=minutes)
        working = say("{label}: {length} in all", label=line.label, length=seams.length)
        yield line._replace(working=working)
