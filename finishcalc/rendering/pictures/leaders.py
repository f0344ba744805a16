"""Leaders: labels below a drawing, each with a line to the pieces that are too small for a letter."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from finishcalc.rendering.pictures.paper import Box, Paper

LANE = 1.5
"""The height of a line of labels, in their letters."""
FANNED = 0.6
"""The height that is added to a line of labels where leaders fan out to it, in its letters."""
STRAY, STRAY_ON_PAPER = 4, 8
"""The most that a label stands beside the piece it names before it goes one line down, in its letters."""


MOST = 12
"""The most leaders of a drawing on paper."""


class Unnamed(NamedTuple):
    """A piece that has no label yet, and its place."""

    label: str
    box: Box


class Named(NamedTuple):
    """Alike pieces side by side that are too narrow for a letter each; `number` of them are named at once."""

    boxes: tuple[Box, ...]
    letter: str
    number: int

    @property
    def label(self) -> str:
        """The label: "A", "3 x A"."""
        return self.letter if self.number == 1 else f"{self.number} x {self.letter}"

    @property
    def left(self) -> float:
        """The left edge of the first."""
        return min(box.x for box in self.boxes)

    @property
    def right(self) -> float:
        """The right edge of the last."""
        return max(box.right for box in self.boxes)

    @property
    def stacked(self) -> bool:
        """True for pieces one below the other."""
        return len({box.x for box in self.boxes}) == 1


class Below(NamedTuple):
    """The room for labels below a drawing whose lower edge is `bottom`, and their letters."""

    left: float
    right: float
    bottom: float
    font: float
    weight: str


def leaders(paper: Paper, unnamed: Sequence[Unnamed], room: Below) -> float:
    """Name the pieces below the drawing, and give the lower edge of the labels. On paper, where there would be too many
    of them, one label stands for all pieces of a letter."""
    groups = list(_groups(unnamed))
    if paper.size.use != "file" and len(groups) > MOST:
        groups = _fewer(groups)
    below = _Lanes(paper, room)
    below.place(sorted(groups, key=lambda each: each.left))
    if paper.size.use != "file" and len(below.ends) > 1:
        closer = _Lanes(paper, room, closer=True)
        closer.place(sorted(groups, key=lambda each: each.right))
        below = min(below, closer, key=lambda lanes: len(lanes.ends))
    below.draw()
    return room.bottom + 8 * paper.size.step + len(below.ends) * below.lane_high


class _Lanes:
    """The lines of labels below a drawing, with the right end of the last label in each. In those that are set
    `closer`, labels follow each other from the left, however far from their pieces."""

    def __init__(self, paper: Paper, room: Below, closer: bool = False) -> None:
        self.paper, self.step, self.closer = paper, paper.size.step, closer
        self.left, self.right, self.bottom, self.font, self.weight = room
        self.lane_high = self.font * (LANE + closer * FANNED)
        self.ends: list[float] = []
        self.placed: list[tuple[Named, float, int]] = []

    def place(self, groups: Sequence[Named]) -> None:
        """Find room for each label in the first line that has some near by."""
        for named in groups:
            wide = self.paper.text_width(named.label, self.font, self.weight)
            wish, reach = self._wish(named)
            self.placed.append((named, *self._place(wish, wide, reach)))

    def draw(self) -> None:
        """Write the labels and draw their leaders."""
        ground = self.paper.size.use != "file"
        for named, x, lane in self.placed:
            base = self.bottom + 8 * self.step + (lane + 1) * self.lane_high - 4 * self.step
            self.paper.text(x, base, named.label, self.font, "middle", self.weight, ground=ground)
            if named.stacked:
                self._to_stack(named, x, base)
            else:
                self._to_row(named, x, base)

    def _wish(self, named: Named) -> tuple[float, float]:
        """Give where the middle of a label would be best, and how far beside that it may be."""
        first = named.boxes[0].wide
        if self.closer:
            return named.left + min(12.0 * self.step, first / 2), self.right
        stray = STRAY * self.font if self.paper.size.use == "file" else STRAY_ON_PAPER * self.font
        if named.stacked:
            return named.left + min(12.0 * self.step, first / 2), max(first, stray)
        return (named.left + named.right) / 2, stray

    def _place(self, wish: float, wide: float, reach: float) -> tuple[float, int]:
        """Give the middle of a label and its line."""
        gap, limit = 8 * self.step, self.right - wide / 2

        def nearest(end: float) -> float:
            return max(wish, end + gap + wide / 2)

        near = (n for n, end in enumerate(self.ends) if nearest(end) - wish <= reach and nearest(end) <= limit)
        lane = next(near, len(self.ends))
        x = nearest(self.ends[lane]) if lane < len(self.ends) else min(max(wish, self.left + wide / 2), limit)
        self.ends[lane : lane + 1] = [x + wide / 2]
        return x, lane

    def _to_stack(self, named: Named, x: float, base: float) -> None:
        """Draw a line up through pieces one below the other, with a dot on each."""
        box, inside = named.boxes[0], min(3 * self.step, named.boxes[0].wide / 2)
        to_x = min(max(x, box.x + inside), box.right - inside)
        middles = sorted(each.y + each.high / 2 for each in named.boxes)
        self.paper.line([(x, base - self.font), (to_x, self.bottom + 4 * self.step), (to_x, middles[0])])
        for middle in middles:
            self.paper.dot(to_x, middle)

    def _to_row(self, named: Named, x: float, base: float) -> None:
        """Draw a line to a bar below pieces beside each other."""
        low = max(box.bottom for box in named.boxes)
        bar = low - 5 * self.step if low < self.bottom - self.step else self.bottom + 5 * self.step
        edge = self.step
        middle = min(max(x, named.left + edge), named.right - edge)
        self.paper.line([(named.left + edge, bar), (named.right - edge, bar)], width=1.2)
        below = self.bottom + 4 * self.step
        straight = self.paper.size.use == "file" or bar > below
        self.paper.line([(x, base - self.font), *([] if straight else [(middle, below)]), (middle, bar)])


def _groups(unnamed: Sequence[Unnamed]) -> Iterator[Named]:
    """Take alike pieces side by side together: upright ones along the row, others from selvage to selvage."""
    upright = [each for each in unnamed if each.box.wide < each.box.high]
    level = [each for each in unnamed if each.box.wide >= each.box.high]
    yield from _side_by_side(sorted(upright, key=lambda each: (each.label, each.box.y, each.box.x)))
    yield from _side_by_side(sorted(level, key=lambda each: (each.label, each.box.x, each.box.y)))


def _side_by_side(pieces: list[Unnamed]) -> Iterator[Named]:
    """Gather runs of one letter whose boxes touch."""
    run: list[Box] = []
    name = ""
    for label, box in pieces:
        if run and not (label == name and _touch(run[-1], box)):
            yield _named_run(name, run)
            run = []
        name = label
        run.append(box)
    if run:
        yield _named_run(name, run)


def _fewer(groups: Sequence[Named]) -> list[Named]:
    """Take together what looks alike, or where that is too much yet, all that has one letter."""

    def look(named: Named) -> tuple[str, float, float]:
        box = named.boxes[0]
        return named.letter, round(box.wide, 2), round(box.high, 2)

    alike = [_all_of(list(run)) for _, run in groupby(sorted(groups, key=look), key=look)]
    if len(alike) <= MOST:
        return alike
    return [_all_of(list(run)) for _, run in groupby(alike, key=lambda each: each.letter)]


def _all_of(alike: Sequence[Named]) -> Named:
    """Name all pieces of a letter where most of them lie side by side."""
    most = max(alike, key=lambda each: each.number)
    return most._replace(number=sum(each.number for each in alike))


def _named_run(label: str, run: list[Box]) -> Named:
    return Named(tuple(run), label, len(run))


def _touch(one: Box, other: Box) -> bool:
    """True where one box lies behind or beside the other, edge to edge."""
    behind = abs(one.right - other.x) < 0.01 and abs(one.y - other.y) < 0.01
    beside = abs(one.bottom - other.y) < 0.01 and abs(one.x - other.x) < 0.01
    return behind or beside
