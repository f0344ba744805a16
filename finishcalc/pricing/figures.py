"""Which of the studio's figures a quote rests on, so that samples among them can be named."""

from collections.abc import Iterable
from typing import get_args

from finishcalc.plans.backing.savings import Saving
from finishcalc.plans.together import Plans
from finishcalc.pricing.line import LineClass
from finishcalc.pricing.quilting import STAGES
from finishcalc.pricing.quote import Quote

BACKING_COST = frozenset(("backing.fabric.price", "seaming.minutes_each", "seaming.minutes_along", "rates.wage"))
"""What the cost of a backing rests on, by which the way to piece it is chosen."""


DEPOSIT = frozenset(("deposit.percent", "deposit.amount", *(f"deposit.shares.{name}" for name in get_args(LineClass))))
"""What a deposit rests on, whichever way it is asked."""


def figures_used(plans: Plans, quote: Quote, savings: Iterable[Saving]) -> frozenset[str]:
    """Give the key paths of every price, share and time that the plans, the quote and the savings used."""
    used = set(quote.figures) | {path for saving in savings for path in saving.figures}
    used |= {*STAGES, "thread.bobbin", "thread.cone", *DEPOSIT, "rates.wage", "rates.overhead"}
    used |= {f"edge_time.{name}" for name in plans.edge_times}
    if plans.quilting.ties:
        used.add("thread.tie")
    if plans.backing:
        used |= BACKING_COST
    if plans.batting:
        used |= {"batting.product.packages", "batting.product.rolls"}
    return frozenset(used)
