"""A sewn picture as SVG at a size on paper: pieces with their labels, the line to trim to, and dimensions around it::

|------------ 79 in -----------|
|---- 40 in ----|---- 39 in ---|
+---------------+--------------+   -+-
|      A        |      B       |    |   98 1/2 in, written upwards
+---------------+--------------+   -+-
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.rendering.pictures.edges import Edges, edges_elements, edges_of
from finishcalc.rendering.pictures.leaders import Below, Unnamed, leaders
from finishcalc.rendering.pictures.paper import Box, Label, Paper
from finishcalc.rendering.pictures.picture import Mark, Picture, Tile, side_ruler, top_ruler
from finishcalc.rendering.pictures.shapes import Scale, outline_element, slant_element, tile_element
from finishcalc.rendering.pictures.size import DrawingSize
from finishcalc.rendering.pictures.tile_labels import LETTER, label_of
from finishcalc.wording.notation import Notation, plain_blanks

FIRST, NEXT, RULER = 34, 22, 12
"""The room of the ruler next to the picture, that of one more, and how far the first is from the picture, in steps."""
EDGE = 4
"""The room at the edges, in steps."""
LINE = 1.35
"""The height of a line, in its letters."""
NARROW, FINEST = 9, 0.1
"""A pen is at most so small a part of the narrowest piece, whose lines would run together, but no finer."""
MOST_DRAWN_ALONE = 100
"""More pieces than these are drawn by their edges where a picture is renewed at each edit."""
MOST_BELOW = 6
"""More level pieces without a label, as many passes are, have theirs at the left."""


class _Beside(NamedTuple):
    """The room that labels take at the left of the picture, and below it."""

    left: float = 0
    below: float = 0

    def or_more(self, other: "_Beside") -> "_Beside":
        """Give the room that both need: it never becomes less, so that it is found in a few tries."""
        return _Beside(max(self.left, other.left), max(self.below, other.below))


def sewn_svg(picture: Picture, notation: Notation, name: str, size: DrawingSize, bare: bool) -> str:
    """Draw the picture as a whole SVG document that ends with a line feed. A `bare` one has no words below it."""
    beside = _Beside()
    edges = edges_of(picture) if size.use == "page" and len(picture.tiles) > MOST_DRAWN_ALONE else None
    for _ in range(4):  # a smaller picture may have more pieces that are too small for their labels
        drawn = _Sewn(picture, notation, Paper(name, size), beside, bare, edges)
        needed = beside.or_more(drawn.draw())
        if needed == beside:
            break
        beside = needed
    return drawn.document()


class _Sewn:
    """The picture on paper, with its upper left corner at 0, 0; its pieces are drawn by their `edges`, if these are
    given."""

    def __init__(
        self,
        picture: Picture,
        notation: Notation,
        paper: Paper,
        beside: _Beside,
        bare: bool,
        edges: Edges | None,
    ) -> None:
        self.edges = edges
        self.picture, self.paper, self.size, self.step, self.beside = (
            picture,
            paper,
            paper.size,
            paper.size.step,
            beside,
        )
        self.across = _rulers(top_ruler(picture, notation), picture.width, notation)
        self.down = _rulers(side_ruler(picture, notation), picture.length, notation)
        texts = () if bare else (picture.description, *picture.legend)
        room = self.size.wide - paper.margin
        self.words = [line for text in texts for line in paper.wrapped(text, room, self.size.sizes)]
        self.left, self.above = beside.left + EDGE * self.step, self._room(self.across)
        self.behind = self._room(self.down)
        self.scale = self._scale()
        whole = plain_blanks(self.down[-1][0].text)
        self.level = not self._font(whole, self._px(picture.length))
        if self.level:
            self.behind = paper.text_width(whole, self.size.words) + self.behind - (FIRST - RULER - 8) * self.step
            self.scale = self._scale()
        self.wide, self.high = self._px(picture.width), self._px(picture.length)

    def _room(self, rulers: Sequence[Sequence[Mark]]) -> float:
        return (FIRST + NEXT * (len(rulers) - 1)) * self.step

    def _scale(self) -> Scale:
        """Make the picture as large as its room lets it be."""
        picture, edge = self.picture, EDGE * self.step
        wide = self.size.wide - self.left - self.behind - edge
        high = self.size.high - self.above - self.beside.below - self._words_high() - edge
        longer = max(picture.width, picture.length)
        units = min(wide / float(picture.width / longer), high / float(picture.length / longer))
        least = self.size.wide / 20
        units = max(units, least)
        narrowest = min((min(tile.width, tile.length) for tile in picture.tiles), default=picture.width)
        pen = min(self.paper.pen / 2, max(float(narrowest / longer) * units / NARROW, FINEST))
        return Scale(picture, Fraction(int(units * 100), 100), pen)

    def _words_high(self) -> float:
        return (len(self.words) + 0.5) * self.size.sizes * LINE if self.words else 0

    def _px(self, length: Length) -> float:
        return float(self.scale(length))

    def _box(self, tile: Tile) -> Box:
        return Box(*map(self._px, (tile.x, tile.y, tile.width, tile.length)))

    def draw(self) -> _Beside:
        """Draw all of it, and give the room that labels beside it need."""
        picture, elements = self.picture, self.paper.elements
        if self.edges:
            elements += edges_elements(self.edges, picture, self.scale)
        else:
            elements += [tile_element(tile, self.scale) for tile in picture.tiles]
        elements += [slant_element(slant, self.scale) for slant in picture.slants]
        if picture.outline:
            elements.append(outline_element(picture.outline, self.scale))
        self._dimensions()
        needed = self._named_beside(self._named_inside())
        y = self.high + self.beside.below
        for line in self.words:
            y += self.size.sizes * LINE
            self.paper.text(-self.beside.left, y, line, self.size.sizes)
        return needed

    def document(self) -> str:
        """Give what is drawn as a document."""
        high = self.above + self.high + self.beside.below + self._words_high() + EDGE * self.step
        box = Box(-self.left, -self.above, self.size.wide, high)
        return self.paper.document(box, self.picture.title, plain_blanks(self.picture.description))

    # --- labels ----------------------------------------------------------------------------------------------------

    def _named_inside(self) -> list[Tile]:
        """Write the labels that have room in their pieces, and give the pieces without one: of a top, where many are
        alike, only one of each name that is nowhere."""
        known: dict[tuple[object, ...], Label | None] = {}
        without, names = list[Tile](), set[str]()
        for tile in self.picture.tiles:
            kind = tile[2:]
            if kind not in known:
                known[kind] = label_of(tile, self._box(tile), self.paper)
            if label := known[kind]:
                self._write(label, self._box(tile))
                names.add(tile.name)
            elif tile.name:
                without.append(tile)
        if not self.picture.of_top:
            return without
        return [tile for tile in without if tile.name not in names]

    def _write(self, label: Label, box: Box) -> None:
        """Write a label in the middle of the piece, or of the part within the line to trim to, if it has room there."""
        outline = self.picture.outline
        if outline and not outline.ellipse:
            line = Box(*map(self._px, (outline.x, outline.y, outline.width, outline.length)))
            inside = _common(box, line)
            wide, high = self.paper.label_size(label)
            box = inside if wide <= inside.wide and high <= inside.high else box
        self.paper.write(label, box)

    def _named_beside(self, tiles: Sequence[Tile]) -> _Beside:
        """Write the labels of pieces that are too small for them below the picture, or many at its left."""
        if len(tiles) > MOST_BELOW and all(not tile.x and tile.width > tile.length for tile in tiles):
            return _Beside(left=self._at_left(tiles))
        if not tiles:
            return _Beside()
        unnamed = self._one_of_each(tiles) if self.picture.of_top else [Unnamed(t.name, self._box(t)) for t in tiles]
        font, weight = self.size.leaders, self.size.weight
        if any(len(tile.name) > LETTER for tile in tiles):
            font, weight = self.size.sizes, ""
        right = self.size.wide - self.left - self.paper.margin
        return _Beside(below=leaders(self.paper, unnamed, Below(0, right, self.high, font, weight)) - self.high)

    def _one_of_each(self, tiles: Sequence[Tile]) -> list[Unnamed]:
        """Give one place of each name, the lowest, so that the names are spread out below the picture."""
        by_name: dict[str, list[Box]] = {}
        for name, tile in _lowest(tiles):
            by_name.setdefault(name, []).append(self._box(tile))
        unnamed = []
        apart = self.wide / len(by_name)
        for number, (name, boxes) in enumerate(sorted(by_name.items(), key=lambda each: min(box.x for box in each[1]))):
            wish = apart * (number + 0.5)
            box = min(boxes, key=lambda box: (-box.bottom, abs(box.x + box.wide / 2 - wish)))
            wide = min(box.wide, 2 * self.size.sizes)
            x = min(max(wish - wide / 2, box.x), box.right - wide)
            unnamed.append(Unnamed(name, Box(x, box.y, wide, box.high)))
        return unnamed

    def _at_left(self, tiles: Sequence[Tile]) -> float:
        """Write as many of the names as have room beside their pieces, and give the width that they take."""
        font, free = self.size.words, 0.0
        for tile in tiles:
            box = self._box(tile)
            y = box.y + box.high / 2
            if y >= free:
                self.paper.text(-6 * self.step, y + font * 0.36, tile.name, font, anchor="end")
                self.paper.line([(-4 * self.step, y), (4 * self.step, y)])
                free = y + font * 1.2
        return max(self.paper.text_width(tile.name, font) for tile in tiles) + 6 * self.step

    # --- dimensions ------------------------------------------------------------------------------------------------

    def _dimensions(self) -> None:
        """Draw the rulers above the picture and at its right."""
        for number, marks in enumerate(self.across):
            for run in _runs(marks):
                self._ruler(run, -(RULER + NEXT * number) * self.step, upwards=False)
        for number, marks in enumerate(self.down):
            for run in _runs(marks):
                self._ruler(run, self.wide + (RULER + NEXT * number) * self.step, upwards=True)

    def _ruler(self, run: Sequence[Mark], at: float, upwards: bool) -> None:
        """Draw a run of alike stretches, with a figure for each where there is room, or one for all."""
        spans = [(self._px(mark.start), self._px(mark.end)) for mark in run]
        for start, end in spans:
            self._stretch(start, end, at, upwards)
        text, first, last = plain_blanks(run[0].text), spans[0][0], spans[-1][1]
        if font := self._font(text, min(end - start for start, end in spans)):
            for start, end in spans:
                self._figure((start + end) / 2, at, text, font, upwards)
        elif len(run) > 1 and (font := self._font(f"{len(run)} x {text}", last - first)):
            self._figure((first + last) / 2, at, f"{len(run)} x {text}", font, upwards)
        elif self._is_whole(run[0]):
            self._beside_whole(at, text, upwards)

    def _is_whole(self, mark: Mark) -> bool:
        return mark in (self.across[-1][0], self.down[-1][0])

    def _beside_whole(self, at: float, text: str, upwards: bool) -> None:
        """Write the dimension of a side that is shorter than its figure."""
        if upwards:
            down = self.high / 2 + self.size.words * 0.36
            self.paper.text(at + 6 * self.step, down, text, self.size.words)
        else:
            self.paper.text(0, at - 6 * self.step, text, self.size.ruler)

    def _font(self, text: str, room: float) -> float:
        """Give the letters with which a figure has room on its ruler, or 0."""
        fonts = (self.size.ruler, self.size.words)
        return next((font for font in fonts if self.paper.text_width(text, font) + 4 * self.step <= room), 0)

    def _stretch(self, start: float, end: float, at: float, upwards: bool) -> None:
        tick = 4 * self.step
        lines = [[(start, at), (end, at)], *([(each, at - tick), (each, at + tick)] for each in (start, end))]
        for points in lines:
            self.paper.line([(y, x) for x, y in points] if upwards else points)

    def _figure(self, middle: float, at: float, text: str, font: float, upwards: bool) -> None:
        """Write a figure over its ruler; one that is written upwards is at the right of it."""
        x, y = (at + 5 * self.step + font * 0.73, middle) if upwards else (middle, at - 6 * self.step)
        self.paper.text(x, y, text, font, anchor="middle", upwards=upwards)


def _lowest(tiles: Sequence[Tile]) -> Iterator[tuple[str, Tile]]:
    """Give the tiles of each name that end lowest: of thousands of pieces few are looked at."""
    lowest: dict[str, list[Tile]] = {}
    ends: dict[str, Length] = {}
    for tile in tiles:
        end, name = tile.y + tile.length, tile.name
        if name not in ends or ends[name] < end:
            ends[name], lowest[name] = end, [tile]
        elif ends[name] == end:
            lowest[name].append(tile)
    return ((name, tile) for name, alike in lowest.items() for tile in alike)


def _common(one: Box, other: Box) -> Box:
    """Give the part that two boxes share."""
    x, y = max(one.x, other.x), max(one.y, other.y)
    return Box(x, y, min(one.right, other.right) - x, min(one.bottom, other.bottom) - y)


def _rulers(parts: list[Mark], side: Length, notation: Notation) -> list[list[Mark]]:
    """Give the ruler of the parts, and that of the whole side outside it."""
    whole = [Mark(ZERO, side, notation.show(side))]
    return [parts, whole] if len(parts) > 1 else [whole]


def _runs(marks: Sequence[Mark]) -> list[list[Mark]]:
    """Gather alike stretches that follow each other."""
    return [list(run) for _, run in groupby(marks, key=lambda mark: mark.text)]
