"""The top: its shape, and the size it is billed at."""

from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.rounding import up_to_step
from finishcalc.measures.said import Said, say
from finishcalc.plans.shape import Shape, rectangle
from finishcalc.project import TopWishes


class TopPlan(NamedTuple):
    """The top as measured, and as billed: each side up to the whole inch or centimetre."""

    shape: Shape
    billed: Shape
    use: str
    working: tuple[Said, ...]


def plan_top(wishes: TopWishes, units: str) -> TopPlan:
    """Take the top's size. It is billed by the largest width and length, each up to a whole unit (common practice)."""
    whole = Length.of(1, units)
    shape = rectangle(wishes.width, wishes.length)
    billed = rectangle(up_to_step(shape.width, whole), up_to_step(shape.length, whole))
    return TopPlan(shape, billed, wishes.use, _working(shape, billed))


def _working(shape: Shape, billed: Shape) -> tuple[Said, ...]:
    return (
        say(
            "Perimeter: 2 x ({width} + {length}) = {perimeter}",
            width=shape.width, length=shape.length, perimeter=shape.perimeter,
        ),
        say(
            "Billed size, each side up to a whole number: {width} x {length} = {area}",
            width=billed.width, length=billed.length, area=billed.area,
        ),
    )  # fmt: skip
