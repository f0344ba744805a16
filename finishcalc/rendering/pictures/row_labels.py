"""One row of a cutting diagram: its pieces, their letters, leaders to pieces too narrow for one, and dimensions."""

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.rendering.pictures.cloth_rows import ClothRow
from finishcalc.rendering.pictures.cutting import CuttingPicture, DrawnColumn, DrawnPiece, DrawnRest
from finishcalc.rendering.pictures.paper import FONT, SMALL, Paper, text_width
from finishcalc.wording.notation import Notation, plain_blanks

LANE = FONT * 1.5
"""The height of a line of labels below a row."""
STRAY = 60
"""The most that a label stands beside the piece it names before it goes one line down."""


class Box(NamedTuple):
    """A rectangle on paper."""

    x: float
    y: float
    wide: float
    high: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.wide


class Named(NamedTuple):
    """Alike pieces side by side that are too narrow for a letter each, and the label that names them."""

    boxes: tuple[Box, ...]
    label: str

    @property
    def left(self) -> float:
        """The left edge of the first."""
        return min(box.x for box in self.boxes)

    @property
    def right(self) -> float:
        """The right edge of the last."""
        return max(box.right for box in self.boxes)


class RowLabels:
    """Draws one row with its upper left corner at `left`, `top`."""

    def __init__(
        self,
        paper: Paper,
        picture: CuttingPicture,
        row: ClothRow,
        scale: float,
        left: float,
        top: float,
        notation: Notation,
    ) -> None:
        self.paper, self.picture, self.row, self.scale = paper, picture, row, scale
        self.left, self.top, self.notation = left, top, notation
        self.wide, self.high = self._px(row.length), self._px(picture.usable)
        self.right, self.bottom = left + self.wide, top + self.high
        self.bands = [band for band in picture.bands if self._is_here(band.x, band.length)]
        self.unnamed: list[tuple[str, Box]] = []

    def cloth(self) -> None:
        """Draw what is left of the cloth, then the pieces, then their letters on top."""
        rests = [*self.picture.rests, *(rest for band in self.bands for rest in band.rests)]
        for rest in rests:
            if self._is_here(rest.x, rest.along):
                self.paper.rectangle(*self._box(rest), hatched=True)
                self._size_of_rest(rest, self._box(rest))
        pieces = [piece for band in self.bands for piece in band.pieces if self._is_here(piece.x, piece.along)]
        for band in self.bands:
            x = self._clipped(band.x, band.length)[1]
            self.paper.line([(x, self.top), (x, self.bottom)])
        for piece in pieces:
            self.paper.rectangle(*self._box(piece))
        for piece in pieces:
            if not self._named(piece, self._box(piece)):
                self.unnamed.append((piece.letter, self._box(piece)))

    def edges(self) -> None:
        """Draw the selvages as double lines, and name them and the fold beside the end of the row."""
        for y, out in ((self.top, -1), (self.bottom, 1)):
            self.paper.line([(self.left, y + 2.5 * out), (self.right, y + 2.5 * out)], width=0.8)
            self.paper.line([(self.left, y), (self.right, y)], width=1.5)
        self.paper.text(self.right + 6, self.top + SMALL * 0.5, "selvage", size=SMALL)
        self.paper.text(self.right + 6, self.bottom + SMALL * 0.2, "selvage", size=SMALL)
        if self.picture.folded:
            middle = self.top + self.high / 2
            for x in (self.left - 6, self.right - 6):
                self.paper.line([(x, middle), (x + 12, middle)], width=1.5, dashes="5 2 1 2")
            self.paper.text(self.right + 8, middle + SMALL * 0.35, "fold", size=SMALL)
        for x, torn in ((self.left, self.row.torn_before), (self.right, self.row.torn_after)):
            self.paper.line([(x, self.top), (x, self.bottom)], width=3 if torn else 1.5, dashes="3 6" if torn else "")

    # --- letters ---------------------------------------------------------------------------------------------------

    def _named(self, piece: DrawnPiece, box: Box) -> bool:
        """Write a piece's letter, and its size where there is room, across or upwards."""
        letter, size = piece.letter, plain_blanks(piece.lettered.size(self.notation))
        for lines in ([letter, size], [f"{letter}: {size}"]):
            wide, high = max(map(text_width, lines)) + 6, len(lines) * FONT * 1.2 + 2
            for upwards in (False, True):
                across, down = (box.high, box.wide) if upwards else (box.wide, box.high)
                if wide <= across and high <= down:
                    self._write(lines, box, upwards)
                    return True
        for font in (FONT, SMALL):
            if text_width(letter, font) + 3 <= box.wide and font * 0.92 <= box.high:
                self._write([letter], box, size=font)
                return True
        return False

    def _size_of_rest(self, rest: DrawnRest, box: Box) -> None:
        """Write the size of a large piece of cloth that is left over, across it and along it."""
        size = plain_blanks(self.notation.size_over(rest.across, rest.along))
        for upwards in (False, True):
            across, down = (box.high, box.wide) if upwards else (box.wide, box.high)
            if text_width(size) + 12 <= across and down >= FONT * 1.6:
                self._write([size], box, upwards, ground=True)
                return

    def _write(
        self, lines: list[str], box: Box, upwards: bool = False, ground: bool = False, size: float = FONT
    ) -> None:
        """Write lines in the middle of a box; `ground` gives them a white rim."""
        x, y = box.x + box.wide / 2, box.y + box.high / 2
        for n, line in enumerate(lines):
            down = (n - (len(lines) - 1) / 2) * size * 1.2 + size * 0.36
            at = (x + down, y) if upwards else (x, y + down)
            self.paper.text(*at, line, size=size, anchor="middle", upwards=upwards, ground=ground)

    # --- leaders ---------------------------------------------------------------------------------------------------

    def leaders(self) -> float:
        """Name the pieces that have no letter yet below the row, with a line to each, and give the lower edge."""
        ends: list[float] = []
        for named in sorted(self._groups(), key=lambda each: each.left):
            self._lead(named, ends)
        return self.bottom + 8 + len(ends) * LANE

    def _groups(self) -> Iterator[Named]:
        """Take alike pieces side by side together: upright ones along the row, others from selvage to selvage."""
        upright = [each for each in self.unnamed if each[1].wide < each[1].high]
        level = [each for each in self.unnamed if each[1].wide >= each[1].high]
        yield from _side_by_side(sorted(upright, key=lambda each: (each[0], each[1].y, each[1].x)))
        yield from _side_by_side(sorted(level, key=lambda each: (each[0], each[1].x, each[1].y)))

    def _lead(self, named: Named, ends: list[float]) -> None:
        """Find room for a label in the first line that has some near by, and draw its leader."""
        wide = text_width(named.label)
        stacked = len({box.x for box in named.boxes}) == 1
        wish = named.left + min(12.0, named.boxes[0].wide / 2) if stacked else (named.left + named.right) / 2
        reach = max(named.boxes[0].wide if stacked else 0, STRAY)
        lane = next((n for n, end in enumerate(ends) if max(wish, end + 8 + wide / 2) - wish <= reach), len(ends))
        x = max(wish, (ends[lane] + 8 if lane < len(ends) else self.left) + wide / 2)
        ends[lane : lane + 1] = [x + wide / 2]
        base = self.bottom + 8 + (lane + 1) * LANE - 4
        self.paper.text(x, base, named.label, anchor="middle")
        if stacked:
            box = named.boxes[0]
            to_x = min(max(x, box.x + min(3, box.wide / 2)), box.right - min(3, box.wide / 2))
            middles = sorted(box.y + box.high / 2 for box in named.boxes)
            self.paper.line([(x, base - FONT), (to_x, self.bottom + 4), (to_x, middles[0])])
            for middle in middles:
                self.paper.dot(to_x, middle)
            return
        low = max(box.y + box.high for box in named.boxes)
        bar = low - 5 if low < self.bottom - 1 else self.bottom + 5
        middle = min(max(x, named.left + 1), named.right - 1)
        self.paper.line([(named.left + 1, bar), (named.right - 1, bar)], width=1.2)
        self.paper.line([(x, base - FONT), (middle, bar)])

    # --- dimensions ------------------------------------------------------------------------------------------------

    def dimensions(self) -> None:
        """Measure the bands above the row, and beside it the columns of its first band and the whole width."""
        marks = [(band.x, band.length) for band in self.bands if self._is_here(band.x, band.length)]
        for length, run in groupby(marks, key=lambda mark: mark[1]):
            places = [start for start, _ in run]
            self._mark_along(places, length)
        usable = plain_blanks(self.notation.show(self.picture.usable))
        self._mark_across(self.left - 40, self.top, self.bottom, usable)
        y = self.top
        for across, columns in groupby(self.bands[0].columns if self.bands else (), key=_width_of_pieces):
            alike = list(columns)
            if across and across < self.picture.usable:
                self._mark_run_across(y, across, len(alike), plain_blanks(self.notation.show(across)))
            y += sum(self._px(column.across) for column in alike)

    def _mark_along(self, starts: list[Length], length: Length) -> None:
        """Mark each of a run of alike bands, with a figure for each where there is room, or one for all."""
        size = plain_blanks(self.notation.show(length))
        y = self.top - 12
        spans = [self._clipped(start, length) for start in starts]
        room = min(end - start for start, end in spans)
        for start, end in spans:
            self.paper.line([(start, y - 4), (start, y + 4)])
            self.paper.line([(end, y - 4), (end, y + 4)])
            self.paper.line([(start, y), (end, y)])
            if text_width(size, SMALL) + 4 <= room:
                self.paper.text((start + end) / 2, y - 6, size, size=SMALL, anchor="middle")
        if text_width(size, SMALL) + 4 > room and len(spans) > 1:
            whole = f"{len(spans)} x {size}"
            if text_width(whole, SMALL) + 4 <= spans[-1][1] - spans[0][0]:
                self.paper.text((spans[0][0] + spans[-1][1]) / 2, y - 6, whole, size=SMALL, anchor="middle")

    def _mark_run_across(self, start: float, across: Length, number: int, size: str) -> None:
        step = self._px(across)
        if text_width(size, SMALL) + 4 <= step:
            for n in range(number):
                self._mark_across(self.left - 14, start + n * step, start + (n + 1) * step, size)
        elif number > 1:
            self._mark_across(self.left - 14, start, start + number * step, f"{number} x {size}")

    def _mark_across(self, x: float, start: float, end: float, size: str) -> None:
        if text_width(size, SMALL) + 4 > end - start:
            return
        self.paper.line([(x, start), (x, end)])
        for y in (start, end):
            self.paper.line([(x - 4, y), (x + 4, y)])
        self.paper.text(x - 5, (start + end) / 2, size, size=SMALL, anchor="middle", upwards=True)

    # --- places ----------------------------------------------------------------------------------------------------

    def _px(self, length: Length) -> float:
        return float(length.mm) * self.scale

    def _is_here(self, x: Length, along: Length) -> bool:
        return x < self.row.end and x + along > self.row.start

    def _clipped(self, x: Length, along: Length) -> tuple[float, float]:
        start, end = max(x, self.row.start), min(x + along, self.row.end)
        return self.left + self._px(start - self.row.start), self.left + self._px(end - self.row.start)

    def _box(self, drawn: DrawnPiece | DrawnRest) -> Box:
        start, end = self._clipped(drawn.x, drawn.along)
        return Box(start, self.top + self._px(drawn.y), end - start, self._px(drawn.across))


def _width_of_pieces(column: DrawnColumn) -> Length | None:
    """Give the width of a column; None for one that holds no piece."""
    return column.across if any(cell.letters for cell in column.cells) else None


def _side_by_side(named: list[tuple[str, Box]]) -> Iterator[Named]:
    """Gather runs of one letter whose boxes touch."""
    run: list[Box] = []
    name = ""
    for letter, box in named:
        if run and not (letter == name and _touch(run[-1], box)):
            yield _named_run(name, run)
            run = []
        name = letter
        run.append(box)
    if run:
        yield _named_run(name, run)


def _named_run(letter: str, run: list[Box]) -> Named:
    return Named(tuple(run), letter if len(run) == 1 else f"{len(run)} x {letter}")


def _touch(one: Box, other: Box) -> bool:
    """True where one box lies behind or beside the other, edge to edge."""
    behind = abs(one.right - other.x) < 0.01 and abs(one.y - other.y) < 0.01
    beside = abs(one.y + one.high - other.y) < 0.01 and abs(one.x - other.x) < 0.01
    return behind or beside
