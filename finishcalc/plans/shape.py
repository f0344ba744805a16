"""The outline of a top, as the few figures that every plan needs of it."""

from typing import Literal, NamedTuple

from finishcalc.measures.length import Area, Length


class Shape(NamedTuple):
    """An outline: `width` and `length` bound it from outside, and so do `area` and `perimeter`, never short.

    `curved` says whether any of its edge curves, so that a binding must give.
    """

    name: Literal["rectangle"]
    width: Length
    length: Length
    area: Area
    perimeter: Length
    curved: bool


def rectangle(width: Length, length: Length) -> Shape:
    """A rectangle with square corners."""
    return Shape("rectangle", width, length, width * length, (width + length) * 2, curved=False)
