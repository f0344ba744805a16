"""Cloth that is at hand as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.plans.on_hand import OnHand
from finishcalc.rendering.documents.writing import Record, number


def on_hand_record(on_hand: OnHand, length: Callable[[Length], int | float]) -> Record:
    """The lengths at hand, how much would be bought without them, and what they are short by."""
    return {
        "lengths": [length(each.length) for each in on_hand.lengths],
        "needed": number(on_hand.needed.length.to(on_hand.needed.unit)),
        "enough": not on_hand.short,
        "short": length(on_hand.short),
    }
