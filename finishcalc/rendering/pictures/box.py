"""A picture drawn with box characters, for the terminal, with its dimensions above and beside it."""

from fractions import Fraction

from finishcalc.measures.length import Length
from finishcalc.plans.pieced.slants import Slant
from finishcalc.rendering.pictures.characters import CharacterSheet
from finishcalc.rendering.pictures.picture import Mark, Outline, Picture, Tile, side_ruler, top_ruler
from finishcalc.rendering.pictures.scale import MOST_ROWS, TALLEST, corner_of, needs_of, scale
from finishcalc.rendering.wrapping import display_width, wrap
from finishcalc.wording.notation import Notation, plain_blanks

ARROWS = {"across": "↔", "down": "↕", "down only": "↓", "": ""}


class _Sheet(CharacterSheet):
    """A grid of character cells that holds a picture to scale; a cell is about twice as high as it is wide."""

    def __init__(self, picture: Picture, columns: int) -> None:
        self.picture = picture
        needs, ratio = needs_of(picture), picture.length / picture.width
        least_columns, least_rows = needs.cells(picture) if picture.of_top else (12, 3)
        rows = max(3, round(columns * ratio / 2))
        tallest = MOST_ROWS if picture.narrowest else max(TALLEST, min(least_rows * 3 // 2, MOST_ROWS))
        if rows > tallest:
            rows, columns = tallest, min(max(12, round(tallest * 2 / ratio), least_columns), columns)
        super().__init__(columns, max(rows, least_rows))
        tiles = picture.tiles
        stretches = [(tile.x, tile.x + tile.width) for tile in tiles]
        self.across = scale(stretches, picture.width, columns, needs.across)
        stretches = [(tile.y, tile.y + tile.length) for tile in tiles]
        self.down = scale(stretches, picture.length, self.rows, needs.down)

    def column(self, x: Length) -> int:
        return round(self.across.cell(x))

    def row(self, y: Length) -> int:
        return round(self.down.cell(y))

    def outline(self, tile: Tile) -> None:
        left, right = self.column(tile.x), self.column(tile.x + tile.width)
        top, bottom = self.row(tile.y), self.row(tile.y + tile.length)
        self.frame(left, top, right, bottom)

    def dot(self, outline: Outline) -> None:
        """Dot a curved outline, wherever a cell is free."""
        inside = self._inside(outline)
        for row in range(self.rows + 1):
            above, here, below = inside[row : row + 3]
            for column in range(1, self.columns):
                within = here[column - 1] and here[column + 1] and above[column] and below[column]
                free = not self.lines[row][column] and not self.text[row][column]
                if here[column] and not within and free:
                    self.text[row][column] = "·"

    def _inside(self, outline: Outline) -> list[list[bool]]:
        """Tell of every cell, and of a row above and one below, if its middle lies in the ellipse, or in the rectangle
        with its rounded corners."""
        wide, high = (outline.width / 2).mm, (outline.length / 2).mm
        middle_x, middle_y = outline.x.mm + wide, outline.y.mm + high
        width, length = self.picture.width.mm, self.picture.length.mm
        from_x = [abs(width * column / self.columns - middle_x) for column in range(self.columns + 1)]
        from_y = [abs(length * row / self.rows - middle_y) for row in range(-1, self.rows + 2)]
        if outline.ellipse:
            squares_x, squares_y = [(x / wide) ** 2 for x in from_x], [(y / high) ** 2 for y in from_y]
            return [[x + y <= 1 for x in squares_x] for y in squares_y]
        corner = outline.corner.mm
        into_x, into_y = [x - (wide - corner) for x in from_x], [y - (high - corner) for y in from_y]
        return [[_is_in_corner(x, y, corner) for x in into_x] for y in into_y]

    def slant(self, slant: Slant) -> None:
        """Draw a slanting seam, one stroke in every row it crosses, wherever a cell is free."""
        rise = "╲" if (slant.to_x - slant.x).mm * (slant.to_y - slant.y).mm > 0 else "╱"
        top, bottom = sorted((slant.y, slant.to_y))
        for row in range(self.rows + 1):
            y = self.down.at(row)
            if not top < y < bottom:
                continue
            column = self.column(slant.x + (slant.to_x - slant.x) * ((y - slant.y) / (slant.to_y - slant.y)))
            if not 0 <= column <= self.columns:
                continue
            if not self.lines[row][column] and self.text[row][column] in ("", "╱", "╲"):
                self.text[row][column] = rise if self.text[row][column] in ("", rise) else "╳"

    def label(self, tile: Tile) -> None:
        """Write name, arrow and size where they fit, else the name alone, else nothing: the cut list has them all."""
        left, right = self.column(tile.x), self.column(tile.x + tile.width)
        top, bottom = self.row(tile.y), self.row(tile.y + tile.length)
        room, height = right - left - 1, bottom - top - 1
        name = f"{tile.name} {ARROWS[tile.grain]}".rstrip()
        size = plain_blanks(tile.size)
        texts = [name, size] if height > 1 else [f"{name} {size}".rstrip()]
        if any(display_width(text) > room for text in texts):
            texts = [name if display_width(name) <= room else tile.name]
        if height < len(texts) or any(display_width(text) > room for text in texts):
            return
        start = top + 1 + (height - len(texts)) // 2
        for offset, text in enumerate(texts):
            for column, char in enumerate(text, left + 1 + (room - display_width(text)) // 2):
                self.text[start + offset][column] = char


def _is_in_corner(x: Fraction, y: Fraction, radius: Fraction) -> bool:
    """Return True within a rounded corner, or before it on a side that it ends: `x` and `y` from where it begins."""
    if x > radius or y > radius:
        return False
    return x <= 0 or y <= 0 or x**2 + y**2 <= radius**2


def box(picture: Picture, notation: Notation, width: int) -> list[str]:
    """Draw the picture with a ruler above and dimensions at the right, at most `width` columns wide. A top that cannot
    be read so is drawn from its upper left corner, which the last lines say."""
    whole = picture
    margin = max(display_width(mark.text) for mark in side_ruler(whole, notation)) + 2
    if picture.of_top:
        margin = max(margin, display_width(notation.show(picture.length * Fraction(1, 2))) + 2)
        picture = corner_of(whole, max(width - margin - 1, 12))
    beside = side_ruler(picture, notation)
    sheet = _Sheet(picture, max(width - margin - 1, 12))
    for tile in picture.tiles:
        sheet.outline(tile)
    for tile in picture.tiles:
        sheet.label(tile)
    if picture.outline and (picture.outline.ellipse or picture.outline.corner):
        sheet.dot(picture.outline)
    for slant in picture.slants:
        sheet.slant(slant)
    lines = sheet.drawn()
    for mark in beside:
        middle = (sheet.row(mark.start) + sheet.row(mark.end)) // 2
        if len(lines[middle]) == sheet.columns + 1:
            lines[middle] += f"  {mark.text}"
    ruler = _ruler(top_ruler(picture, notation), sheet)
    lines = [ruler, *lines] if ruler.strip() else lines
    if whole.of_top and (caption := _caption(picture, whole, sheet)):
        lines += wrap(caption, width)
    return [plain_blanks(line).rstrip() for line in lines]


def _caption(picture: Picture, whole: Picture, sheet: _Sheet) -> str:
    """Say which part of a top is drawn, and where it is not to scale."""
    part = "" if picture == whole else "the upper left corner alone"
    scaled = sheet.across.is_true and sheet.down.is_true
    return ", ".join(filter(None, (part, "" if scaled else "not to scale: what is narrow is drawn wider")))


def nested_boxes(picture: Picture, width: int) -> list[str]:
    """Draw tiles that share their upper left corner as boxes one within the other, each with its name on its lower
    right corner, at most `width` columns wide."""
    sheet = _Sheet(picture, width - 1)
    for tile in picture.tiles:
        sheet.outline(tile)
    for tile in picture.tiles:
        sheet.text[sheet.row(tile.length)][sheet.column(tile.width)] = tile.name
    return sheet.drawn()


def _ruler(marks: list[Mark], sheet: _Sheet) -> str:
    """Centre the length of each stretch over it; one without room is left to the cut list."""
    line = [" "] * (sheet.columns + 1)
    for mark in marks:
        left, right = sheet.column(mark.start), sheet.column(mark.end)
        text = mark.text if display_width(mark.text) <= right - left - 1 else ""
        for column, char in enumerate(text, left + (right - left - display_width(text) + 1) // 2):
            line[column] = char
    return "".join(line)
