"""The size of a picture on paper or on a screen, and of the letters in it. All else in it follows from them."""

from typing import Literal, NamedTuple

MM = 72 / 25.4
"""The points in a millimetre."""


class DrawingSize(NamedTuple):
    """The width of a picture with all that stands beside it, and the most that it may be `high`, in points. `letters`
    name the pieces, `least_letters` those that have little room; `sizes` stand in the pieces, the `ruler`'s around
    them, and `words` such as "selvage" beside them. A picture for a screen takes the width of its page: its points are
    the units of its viewBox. That of a live page is renewed at each edit, and so must be small. Those of a file are as
    its document says."""

    wide: float
    high: float
    letters: float
    least_letters: float
    sizes: float
    ruler: float
    words: float
    use: Literal["paper", "screen", "page", "file"] = "paper"

    @property
    def pen(self) -> float:
        """The thickness of lines, 1 where sizes are 15 high."""
        return self.sizes / 15

    @property
    def step(self) -> float:
        """A distance beside the picture, 1 where its rulers are 13 high."""
        return self.ruler / 13

    @property
    def weight(self) -> str:
        """The weight of letters: bold where they are larger than all else."""
        return "bold" if self.letters > self.sizes else ""

    @property
    def leaders(self) -> float:
        """The letters at the end of a leader."""
        return max(self.least_letters, self.sizes)


FILE = DrawingSize(750, 800, 15, 13, 15, 13, 13, "file")
"""A cutting diagram in a file of its own, which a Letter or an A4 sheet holds."""
PAGE = DrawingSize(360, 640, 13, 12, 13, 12, 12, "page")
"""The same on a live page."""
SCREEN = DrawingSize(360, 640, 13, 12, 13, 12, 12, "screen")
"""A picture that can be read on a telephone; on a wider screen all of it grows."""


def on_paper(wide: float, high: float) -> DrawingSize:
    """Give the size of a picture of so many millimetres on a sheet, with letters to be read at arm's length."""
    return DrawingSize(wide * MM, high * MM, 9, 8.5, 9, 8.5, 8.5)


def on_bench(wide: float, high: float) -> DrawingSize:
    """Give the size of a picture of so many millimetres that is read across a cutting table."""
    return DrawingSize(wide * MM, high * MM, 34, 24, 20, 20, 14)
