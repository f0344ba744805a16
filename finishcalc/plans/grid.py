"""A common grid on which every length in hand is a whole number.

A search for layouts tries many, so it counts in whole numbers, and nothing is rounded.
"""

from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length

GRAIN = 120
"""120 is a multiple of 2 x 3, 2 x 4 and 2 x 5: pieces and halves of them are whole."""


class Grid(NamedTuple):
    """`steps` to a millimetre."""

    steps: int

    @classmethod
    def of(cls, *lengths: Length, grain: int = GRAIN) -> "Grid":
        """Make the grid on which all of `lengths` are whole, and finer by `grain`: lengths can then be shared out among
        up to five pieces and halved."""
        steps = 1
        for length in lengths:
            steps *= (length.mm * steps).denominator
        return cls(steps * grain)

    def whole(self, length: Length) -> int:
        """Give a length in steps. It must be one that the grid was made of, or a sum of them."""
        return length.mm.numerator * (self.steps // length.mm.denominator)

    def length(self, steps: int) -> Length:
        """Give the length of a number of steps."""
        return Length(Fraction(steps, self.steps))
