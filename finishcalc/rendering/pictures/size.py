"""The size of a picture on paper or on a screen, and of the letters in it."""

from typing import NamedTuple

MM = 72 / 25.4
"""The points in a millimetre."""


class DrawingSize(NamedTuple):
    """The width of a picture with all that stands beside it, and the most that it may be `high`, in points. `letters`
    name the pieces, `least_letters` those that have little room; `sizes` stand in the pieces, the `ruler`'s around
    them, and `words` such as "selvage" beside them. One that is `responsive` takes the width of its page: its points
    are the units of its viewBox."""

    wide: float
    high: float
    letters: float
    least_letters: float
    sizes: float
    ruler: float
    words: float
    responsive: bool = False


def on_paper(wide: float, high: float) -> DrawingSize:
    """Give the size of a picture of so many millimetres on a sheet, with letters to be read at arm's length."""
    return DrawingSize(wide * MM, high * MM, 9, 8.5, 9, 8.5, 8.5)


def on_bench(wide: float, high: float) -> DrawingSize:
    """Give the size of a picture of so many millimetres that is read across a cutting table."""
    return DrawingSize(wide * MM, high * MM, 34, 24, 20, 20, 14)


SCREEN = DrawingSize(360, 720, 13, 12, 13, 12, 12, responsive=True)
"""A picture that can be read on a telephone; on a wider screen all of it grows."""
