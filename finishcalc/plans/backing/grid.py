"""A common grid on which every length of a backing is a whole number.

The search for layouts tries many, so it counts in whole numbers. The grid is as fine as the lengths in hand
need, and finer by GRAIN so that it can be shared out among up to five pieces and halved: nothing is rounded.
"""

from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length

GRAIN = 120


class Grid(NamedTuple):
    """`steps` to a millimetre."""

    steps: int

    @classmethod
    def of(cls, *lengths: Length) -> "Grid":
        """The grid on which all of `lengths` are whole."""
        steps = 1
        for length in lengths:
            steps *= (length.mm * steps).denominator
        return cls(steps * GRAIN)

    def whole(self, length: Length) -> int:
        """A length in steps. Only for lengths the grid was made of, and their sums."""
        return length.mm.numerator * (self.steps // length.mm.denominator)

    def length(self, steps: int) -> Length:
        """The length of a number of steps."""
        return Length(Fraction(steps, self.steps))
