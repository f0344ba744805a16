"""The place on paper of one row of a cloth, and of all that lies in it."""

from finishcalc.measures.length import Length
from finishcalc.rendering.pictures.cloth_rows import ClothRow
from finishcalc.rendering.pictures.cutting import CuttingPicture, DrawnPiece, DrawnRest
from finishcalc.rendering.pictures.paper import Box, Paper
from finishcalc.rendering.pictures.size import DrawingSize
from finishcalc.wording.notation import Notation

LEFT, RIGHT = 60, 66
"""The room before a row, in steps, and that of words behind it where they are 13 high."""
ABOVE, RULER = 34, 22
"""The room above a row, and what one more ruler takes, in steps."""


class DrawnRow:
    """One row that is drawn on paper so that its rulers are below `top`."""

    def __init__(
        self, paper: Paper, picture: CuttingPicture, row: ClothRow, scale: float, top: float, notation: Notation
    ) -> None:
        self.paper, self.picture, self.row, self.scale, self.notation = paper, picture, row, scale, notation
        self.size, self.step = paper.size, paper.size.step
        self.left, self.top = LEFT * self.step, top + rulers_above(paper.size)
        self.wide, self.high = self.px(row.length), self.px(picture.usable)
        self.right, self.bottom = self.left + self.wide, self.top + self.high
        self.bands = [band for band in picture.bands if self.is_here(band.x, band.length)]

    def px(self, length: Length) -> float:
        """Give a length on paper."""
        return float(length.mm) * self.scale

    def is_here(self, x: Length, along: Length) -> bool:
        """True for what lies in this row, or partly so."""
        return x < self.row.end and x + along > self.row.start

    def clipped(self, x: Length, along: Length) -> tuple[float, float]:
        """Give where it starts and ends in this row."""
        start, end = max(x, self.row.start), min(x + along, self.row.end)
        return self.left + self.px(start - self.row.start), self.left + self.px(end - self.row.start)

    def box(self, drawn: DrawnPiece | DrawnRest) -> Box:
        """Give the part of it that lies in this row."""
        start, end = self.clipped(drawn.x, drawn.along)
        return Box(start, self.top + self.px(drawn.y), end - start, self.px(drawn.across))


def rulers_above(size: DrawingSize) -> float:
    """Give the height of the rulers above a row; a file has one less."""
    return (ABOVE if size.use == "file" else ABOVE + RULER) * size.step


def words_behind(size: DrawingSize) -> float:
    """Give the width of the words behind a row."""
    return RIGHT * size.words / 13
