"""The small record that every part of the work shares, so that what is true of all parts is a loop over them."""

from typing import NamedTuple

from finishcalc.plans.cautions import Caution
from finishcalc.plans.cloth import Need
from finishcalc.plans.hours import StageTime
from finishcalc.wording.said import Said


class Part(NamedTuple):
    """A part of the work: its arithmetic, its cautions, the cloth it needs and the stages of its time. `key` names it
    in documents, `heading` on pages. A part that is not wanted has its names alone."""

    key: str
    heading: str
    working: tuple[Said, ...] = ()
    cautions: tuple[Caution, ...] = ()
    needs: tuple[Need, ...] = ()
    stages: tuple[StageTime, ...] = ()
