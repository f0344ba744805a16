"""A cutting diagram as SVG: to scale, in rows that a sheet of paper holds, with its title, its key and its dimensions.

It stands alone or in a page with others: it has no style sheet, and each of its ids begins with a prefix.
"""

from html import escape

from finishcalc.rendering.pictures.cloth_rows import ClothRow, cloth_rows
from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.paper import FONT, SMALL, Paper, text_width
from finishcalc.rendering.pictures.row_labels import RowLabels
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation, plain_blanks

PAPER = {"in": ("7.5", "in"), "cm": ("190", "mm")}
"""The width of the drawing on paper, which a Letter or an A4 sheet holds."""
WIDE = 750
"""The same in units of the drawing."""
EDGE, LEFT, RIGHT = 6, 60, 66
TITLE = 20
LINE = FONT * 1.35


def cutting_svg(picture: CuttingPicture, notation: Notation, prefix: str) -> str:
    """Draw the diagram as a whole SVG document that ends with a line feed."""
    paper = Paper(prefix)
    y = _heading(paper, picture)
    rows, scale = cloth_rows(picture, WIDE - LEFT - RIGHT)
    for row in rows:
        y = _row(paper, picture, row, scale, y, notation, several=len(rows) > 1)
    y = _grain(paper, picture, y)
    y = _key(paper, picture, y)
    high = y + LINE / 2
    wide, unit = PAPER[notation.units]
    tall = f"{high / WIDE * float(wide):.2f}"
    title, description = escape(plain_blanks(picture.title)), escape(plain_blanks("; ".join(picture.facts)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}{unit}" height="{tall}{unit}" '
        f'viewBox="0 0 {WIDE} {high:.1f}" role="img" aria-labelledby="{prefix}-title {prefix}-description">\n'
        f'<title id="{prefix}-title">{title}</title>\n<desc id="{prefix}-description">{description}</desc>\n'
        f"<defs>{paper.hatch()}</defs>\n"
        f'<rect width="{WIDE}" height="{high:.1f}" fill="#fff"/>\n'
        f'<g font-family="sans-serif" font-size="{FONT}" fill="#000" stroke="none">\n'
        + "\n".join(paper.elements)
        + "\n</g>\n</svg>\n"
    )


def _heading(paper: Paper, picture: CuttingPicture) -> float:
    """Write the name of the cloth and what is bought of it."""
    y = 6.0
    for line in wrap(plain_blanks(picture.title), int(WIDE / text_width("x", TITLE))):
        y += TITLE * 1.25
        paper.text(EDGE, y, line, size=TITLE, weight="bold")
    for fact in picture.facts:
        for line in wrap(plain_blanks(fact), int(WIDE / text_width("x"))):
            y += LINE
            paper.text(EDGE, y, line)
    return y + 10


def _row(
    paper: Paper, picture: CuttingPicture, row: ClothRow, scale: float, y: float, notation: Notation, several: bool
) -> float:
    """Draw one row of the cloth below `y`, and give where the next begins."""
    if several:
        y += LINE
        paper.text(LEFT, y, plain_blanks(f"from {notation.show(row.start)} on"), size=SMALL)
    labels = RowLabels(paper, picture, row, scale, LEFT, y + 34, notation)
    labels.dimensions()
    labels.cloth()
    labels.edges()
    return labels.leaders() + 8


def _grain(paper: Paper, picture: CuttingPicture, y: float) -> float:
    """Draw the arrow along the selvages; cloth that may not be turned has one head, and its ends have names."""
    y += LINE
    words = "grain, along the selvages"
    x = float(LEFT)
    if picture.one_way:
        paper.text(x, y, "first cut")
        x += text_width("first cut") + 10
    paper.arrow(x, x + 110, y - FONT * 0.35, both=not picture.one_way)
    x += 120
    if picture.one_way:
        words = "end of the bolt: the cloth runs one way"
    paper.text(x, y, words)
    return y


def _key(paper: Paper, picture: CuttingPicture, y: float) -> float:
    """Explain each letter, and the hatching, in as many columns as there is room for."""
    lines = [plain_blanks(line) for line in picture.key]
    widest = max((text_width(line) for line in lines), default=0.0)
    columns = max(1, min(3, int(WIDE / (widest + 24))))
    y += LINE / 2
    wrapped = [part for line in lines for part in wrap(line, int(WIDE / text_width("x")))] if columns == 1 else lines
    down = -(-len(wrapped) // columns)
    for n, line in enumerate(wrapped):
        column, place = divmod(n, down)
        paper.text(EDGE + column * WIDE / columns, y + (place + 1) * LINE, line)
    y += down * LINE
    if picture.has_rest:
        y += LINE
        paper.rectangle(EDGE, y - FONT * 0.8, 30, FONT, hatched=True)
        paper.text(EDGE + 38, y, picture.rest_words)
    return y
