"""An edge that is turned to the back instead of bound."""

from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.plans.cautions import Caution, caution_in_house
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import Sentence, say


class HemPlan(NamedTuple):
    """The hem: its allowance, and the bounding size that is left."""

    allowance: Length
    width: Length
    length: Length
    working: tuple[Sentence, ...]
    cautions: tuple[Caution, ...]


def plan_hem(shape: Shape, allowance: Length) -> HemPlan:
    """Turn the allowance on every side. A curved edge is turned only a little, or its fullness puckers."""
    taken = allowance * 2
    width, length = shape.width - taken, shape.length - taken
    working = say(
        "Hem: {w} - 2 x {hem} = {nw} wide, {l} - 2 x {hem} = {nl} long",
        w=shape.width,
        l=shape.length,
        hem=allowance,
        nw=width,
        nl=length,
    )
    puckers = caution_in_house(
        "hem-on-a-curve",
        "A hem of {hem} on a curved edge puckers: clip and ease it, make it narrow, or face the edge instead.",
        hem=allowance,
    )
    return HemPlan(
        allowance=allowance,
        width=width,
        length=length,
        working=(working,),
        cautions=(puckers,) if shape.curved else (),
    )
