"""A cutting diagram as SVG: to scale, in rows that a sheet of paper holds, with its title, its key and its dimensions.

It stands alone or in a page with others: it has no style sheet, and each of its ids begins with a prefix.
"""

from collections.abc import Callable, Sequence

from finishcalc.rendering.pictures.cloth_rows import ClothRow, Room, cloth_rows
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.drawn_row import LEFT, DrawnRow, rulers_above, words_behind
from finishcalc.rendering.pictures.paper import Box, Paper
from finishcalc.rendering.pictures.row_labels import draw_row
from finishcalc.rendering.pictures.size import FILE, DrawingSize
from finishcalc.wording.notation import Notation, plain_blanks

UNITS = {"in": ("7.5", "in"), "cm": ("190", "mm")}
"""The width of a file's drawing on paper."""
EDGE = 6
LINE = 1.35
"""The height of a line, in its letters."""
WORTH = 0.75
"""A row may be so much smaller where one more is then on its sheet."""
SMALLER, LEAST, TRIES = 0.01, 0.2, 12
"""A scale is made smaller until all has room: by what is too much and a little more, down to a share of it, and so many
times."""


def cutting_svg(
    picture: CuttingPicture, notation: Notation, prefix: str, size: DrawingSize = FILE, bare: bool = False
) -> str:
    """Draw the diagram as a whole SVG document that ends with a line feed. A `bare` one has rows alone."""
    rows, scale = cloth_rows(picture, _room(size))

    def high(scale: float) -> float:
        return _sheet(Paper(prefix, size), picture, rows, scale, notation, bare)

    if size.use != "file":
        scale = _smaller(scale, float(picture.usable.mm) * len(rows), high, size.high)
    return _document(prefix, size, picture, rows, scale, notation, bare)


def cutting_svgs(picture: CuttingPicture, notation: Notation, prefix: str, size: DrawingSize) -> list[str]:
    """Draw the rows alone, at one scale, on as many sheets as they need so that none is higher than it may be."""
    rows, scale = cloth_rows(picture, _room(size, sheets=True))

    def high(scale: float, row: ClothRow | None = None) -> float:
        if row is None:
            return max(high(scale, row) for row in rows)
        return _sheet(Paper(prefix, size), picture, [row], scale, notation, bare=True)

    usable = float(picture.usable.mm)
    scale = _smaller(scale, usable, high, size.high)
    together = int(size.high / high(scale)) + 1
    if len(rows) >= together:
        closer = _smaller(scale, usable, high, size.high / together)
        scale = closer if closer >= scale * WORTH and high(closer) <= size.high / together else scale
    sheets, taken = list[list[ClothRow]](), size.high
    for row in rows:
        if taken + high(scale, row) > size.high:
            sheets.append([])
            taken = 0.0
        sheets[-1].append(row)
        taken += high(scale, row)
    return [
        _document(f"{prefix}-{number}", size, picture, sheet, scale, notation, bare=True)
        for number, sheet in enumerate(sheets, start=1)
    ]


def _room(size: DrawingSize, sheets: bool = False) -> Room:
    """Give the room for rows between what stands before and behind them."""
    wide = size.wide - LEFT * size.step - words_behind(size)
    if size.use == "file":
        return Room(wide, size.wide * 8 / 15, size.high, 60)
    above = rulers_above(size) + 16 * size.step
    return Room(wide, size.high - above, size.high, above, sheets)


def _smaller(scale: float, rows: float, high: Callable[[float], float], most: float) -> float:
    """Make a scale smaller until the drawing is not too high: `rows` is the length of cloth across its rows in mm, and
    the rest of its height is about what it is at a larger scale."""
    least = scale * LEAST
    for _ in range(TRIES):
        excess = high(scale) - most
        if excess <= 0 or scale <= least:
            break
        scale = max(scale - excess / rows - SMALLER * scale, least)
    return scale


def _document(
    prefix: str,
    size: DrawingSize,
    picture: CuttingPicture,
    rows: Sequence[ClothRow],
    scale: float,
    notation: Notation,
    bare: bool,
) -> str:
    paper = Paper(prefix, size)
    high = _sheet(paper, picture, rows, scale, notation, bare)
    title, description = plain_blanks(picture.title), plain_blanks("; ".join(picture.facts))
    return paper.document(Box(0, 0, size.wide, high), title, description, UNITS[notation.units])


def _sheet(
    paper: Paper,
    picture: CuttingPicture,
    rows: Sequence[ClothRow],
    scale: float,
    notation: Notation,
    bare: bool,
) -> float:
    """Draw rows, unless bare with their heading and their key, and give the height that all takes."""
    y = 0.0 if bare else _heading(paper, picture)
    for row in rows:
        if paper.size.use == "file" and len(rows) > 1:
            y += paper.size.sizes * LINE
            paper.text(LEFT, y, plain_blanks(f"from {notation.show(row.start)} on"), paper.size.words)
        y = draw_row(DrawnRow(paper, picture, row, scale, y, notation)) + 8 * paper.size.step
    if bare:
        return y
    y = _grain(paper, picture, y)
    return _key(paper, picture, y) + paper.size.sizes * LINE / 2


def _heading(paper: Paper, picture: CuttingPicture) -> float:
    """Write the name of the cloth and what is bought of it."""
    y, size = 6.0 * paper.size.step, paper.size.sizes * 4 / 3
    for line in paper.wrapped(picture.title, paper.size.wide - paper.margin, size, "bold"):
        y += size * 1.25
        paper.text(EDGE, y, line, size, weight="bold")
    for fact in picture.facts:
        for line in paper.wrapped(fact, paper.size.wide - paper.margin, paper.size.sizes):
            y += paper.size.sizes * LINE
            paper.text(EDGE, y, line, paper.size.sizes)
    return y + 10 * paper.size.step


def _grain(paper: Paper, picture: CuttingPicture, y: float) -> float:
    """Draw the arrow along the selvages; cloth that may not be turned has one head, and its ends have names."""
    font, pen = paper.size.sizes, paper.pen
    y += font * LINE
    words = "grain, along the selvages"
    x = LEFT * paper.size.step
    if picture.one_way:
        paper.text(x, y, "first cut", font)
        x += paper.text_width("first cut", font) + 10 * pen
    paper.arrow(x, x + 110 * pen, y - font * 0.35, both=not picture.one_way)
    x += 120 * pen
    if picture.one_way:
        words = "end of the bolt: the cloth runs one way"
    paper.text(x, y, words, font)
    return y


def _key(paper: Paper, picture: CuttingPicture, y: float) -> float:
    """Explain each letter, and the hatching, in as many columns as there is room for."""
    font, wide, pen = paper.size.sizes, paper.size.wide, paper.pen
    high = font * LINE
    widest = max((paper.text_width(plain_blanks(line), font) for line in picture.key), default=0.0)
    columns = max(1, min(3, int(wide / (widest + 24 * pen))))
    y += high / 2
    wrapped = [part for line in picture.key for part in paper.wrapped(line, wide - paper.margin, font)]
    wrapped = wrapped if columns == 1 else [plain_blanks(line) for line in picture.key]
    down = -(-len(wrapped) // columns)
    for n, line in enumerate(wrapped):
        column, place = divmod(n, down)
        paper.text(EDGE + column * wide / columns, y + (place + 1) * high, line, font)
    y += down * high
    if picture.has_rest:
        y += high
        paper.rectangle(EDGE, y - font * 0.8, 2 * font, font, hatched=True)
        paper.text(EDGE + 2 * font + 8 * pen, y, picture.rest_words, font)
    return y
