"""Leaders: labels below a drawing, each with a line to the pieces that are too small for a letter."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from finishcalc.rendering.pictures.paper import Box, Paper

LANE = 1.5
"""The height of a line of labels, in their letters."""
STRAY = 4
"""The most that a label stands beside the piece it names before it goes one line down, in its letters."""


class Unnamed(NamedTuple):
    """A piece that has no label yet, and its place."""

    label: str
    box: Box


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

    @property
    def stacked(self) -> bool:
        """True for pieces one below the other."""
        return len({box.x for box in self.boxes}) == 1


def leaders(paper: Paper, unnamed: Sequence[Unnamed], left: float, bottom: float) -> float:
    """Name the pieces below the drawing, whose lower edge is `bottom`, and give the lower edge of the labels."""
    below = _Below(paper, left, bottom)
    for named in sorted(_groups(unnamed), key=lambda each: each.left):
        below.lead(named)
    below.write()
    return bottom + 8 * paper.size.step + len(below.ends) * below.lane_high


class _Below:
    """The lines of labels below a drawing, with the right end of the last label in each."""

    def __init__(self, paper: Paper, left: float, bottom: float) -> None:
        self.paper, self.left, self.bottom = paper, left, bottom
        self.font, self.step = paper.size.leaders, paper.size.step
        self.lane_high = self.font * LANE
        self.ends: list[float] = []
        self.texts: list[tuple[float, float, str]] = []

    def lead(self, named: Named) -> None:
        """Find room for a label in the first line that has some near by, and draw its leader."""
        wide = self.paper.text_width(named.label, self.font, self.paper.size.weight)
        wish = (named.left + named.right) / 2
        if named.stacked:
            wish = named.left + min(12.0 * self.step, named.boxes[0].wide / 2)
        x, base = self._place(wish, wide, max(named.boxes[0].wide if named.stacked else 0, STRAY * self.font))
        self.texts.append((x, base, named.label))
        if self.paper.size.use == "file":
            self.write()
        if named.stacked:
            self._to_stack(named, x, base)
        else:
            self._to_row(named, x, base)

    def write(self) -> None:
        """Write the labels; on paper over all lines, with a white rim."""
        weight, ground = self.paper.size.weight, self.paper.size.use != "file"
        for x, base, label in self.texts:
            self.paper.text(x, base, label, self.font, "middle", weight, ground=ground)
        self.texts = []

    def _place(self, wish: float, wide: float, reach: float) -> tuple[float, float]:
        """Give the middle of a label and its base line."""
        gap, limit = 8 * self.step, self.paper.size.wide - wide / 2

        def nearest(end: float) -> float:
            return max(wish, end + gap + wide / 2)

        near = (n for n, end in enumerate(self.ends) if nearest(end) - wish <= reach and nearest(end) <= limit)
        lane = next(near, len(self.ends))
        x = nearest(self.ends[lane]) if lane < len(self.ends) else min(max(wish, self.left + wide / 2), limit)
        self.ends[lane : lane + 1] = [x + wide / 2]
        return x, self.bottom + 8 * self.step + (lane + 1) * self.lane_high - 4 * self.step

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
        self.paper.line([(x, base - self.font), (middle, bar)])


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


def _named_run(label: str, run: list[Box]) -> Named:
    return Named(tuple(run), label if len(run) == 1 else f"{len(run)} x {label}")


def _touch(one: Box, other: Box) -> bool:
    """True where one box lies behind or beside the other, edge to edge."""
    behind = abs(one.right - other.x) < 0.01 and abs(one.y - other.y) < 0.01
    beside = abs(one.bottom - other.y) < 0.01 and abs(one.x - other.x) < 0.01
    return behind or beside
