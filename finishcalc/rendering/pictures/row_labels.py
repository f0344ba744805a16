"""One row of a cutting diagram: its pieces with their letters, and the edges of the cloth."""

from collections.abc import Iterator

from finishcalc.rendering.pictures.cutting import DrawnPiece, DrawnRest
from finishcalc.rendering.pictures.drawn_row import DrawnRow
from finishcalc.rendering.pictures.leaders import Below, Unnamed, leaders
from finishcalc.rendering.pictures.paper import Box, Label, Span
from finishcalc.rendering.pictures.row_rulers import dimensions
from finishcalc.rendering.pictures.size import DrawingSize
from finishcalc.wording.notation import plain_blanks

LINE, FINEST, NARROW = 1.5, 0.5, 6
"""The thickness of lines between pieces, the least, and the part of the narrowest piece that it may take."""


def draw_row(drawn: DrawnRow) -> float:
    """Draw the row with its dimensions and leaders, and give its lower edge."""
    dimensions(drawn)
    unnamed = _cloth(drawn)
    _edges(drawn)
    size = drawn.size
    return leaders(drawn.paper, unnamed, Below(drawn.left, size.wide, drawn.bottom, size.leaders, size.weight))


def _cloth(drawn: DrawnRow) -> list[Unnamed]:
    """Draw what is left of the cloth, then the pieces, then their letters on top. Give the pieces without a letter."""
    paper = drawn.paper
    for rest in [*drawn.picture.rests, *(rest for band in drawn.bands for rest in band.rests)]:
        if drawn.is_here(rest.x, rest.along):
            paper.rectangle(*drawn.box(rest), hatched=True)
            _size_of_rest(drawn, rest)
    pieces = [piece for band in drawn.bands for piece in band.pieces if drawn.is_here(piece.x, piece.along)]
    for band in drawn.bands:
        x = drawn.clipped(band.x, band.length)[1]
        paper.line([(x, drawn.top), (x, drawn.bottom)])
    line = _piece_line(drawn, pieces)
    for piece in pieces:
        paper.rectangle(*drawn.box(piece), line=line)
    return _letters(drawn, pieces)


def _piece_line(drawn: DrawnRow, pieces: list[DrawnPiece]) -> float:
    """Give the thickness of lines between pieces, on paper finer where pieces are narrow."""
    if drawn.size.use == "file" or not pieces:
        return LINE
    narrowest = drawn.px(min(min(piece.along, piece.across) for piece in pieces)) / drawn.paper.pen
    return min(LINE, max(narrowest / NARROW, FINEST))


def _letters(drawn: DrawnRow, pieces: list[DrawnPiece]) -> list[Unnamed]:
    """Write the letters that have room in their pieces, and give the pieces without one."""
    known: dict[tuple[str, float, float], Label | None] = {}  # most pieces are alike
    fine = 15 if drawn.size.use == "file" else 6  # digits of a side: on paper alike pieces have alike labels
    unnamed = []
    for piece in pieces:
        box = drawn.box(piece)
        kind = (piece.letter, round(box.wide, fine), round(box.high, fine))
        if kind not in known:
            known[kind] = _label(drawn, piece, box)
        if label := known[kind]:
            drawn.paper.write(label, box)
        else:
            unnamed.append(Unnamed(piece.letter, box))
    return unnamed


def _edges(drawn: DrawnRow) -> None:
    """Draw the selvages as double lines, and name them and the fold beside the end of the row."""
    paper, size, step = drawn.paper, drawn.size.words, drawn.step
    left, right = drawn.left, drawn.right
    for y, out in ((drawn.top, -1), (drawn.bottom, 1)):
        paper.line([(left, y + 2.5 * step * out), (right, y + 2.5 * step * out)], width=0.8)
        paper.line([(left, y), (right, y)], width=1.5)
    paper.text(right + 6 * step, drawn.top + size * 0.5, "selvage", size)
    if drawn.size.use == "file" or drawn.high > size * 1.3:
        paper.text(right + 6 * step, drawn.bottom + size * 0.2, "selvage", size)
    if drawn.picture.folded:
        middle = drawn.top + drawn.high / 2
        for x in (left - 6 * step, right - 6 * step):
            paper.line([(x, middle), (x + 12 * step, middle)], width=1.5, dashes="5 2 1 2")
        if drawn.size.use == "file" or drawn.high > size * 3:
            paper.text(right + 8 * step, middle + size * 0.35, "fold", size)
    for x, torn in ((left, drawn.row.torn_before), (right, drawn.row.torn_after)):
        paper.line([(x, drawn.top), (x, drawn.bottom)], width=3 if torn else 1.5, dashes="3 6" if torn else "")


# --- letters -------------------------------------------------------------------------------------------------------


def _label(drawn: DrawnRow, piece: DrawnPiece, box: Box) -> Label | None:
    """Give a piece's letter, with its size where there is room, across or upwards; None where it has no room."""
    paper, size = drawn.paper, drawn.size
    labels = _labels(piece.letter, plain_blanks(piece.lettered.size(drawn.notation)), size)
    if label := paper.fitting(labels, box):
        return label
    letters = (Span(piece.letter, font, size.weight) for font in (size.letters, size.least_letters))
    return next((Label(((letter,),)) for letter in letters if paper.has_room(letter, box)), None)


def _labels(letter: str, measure: str, size: DrawingSize) -> Iterator[Label]:
    """Give the labels of a letter with its size: on two lines or on one, across or upwards. A letter is never lower
    than the size beside it."""
    fonts = dict.fromkeys(font for font in (size.letters, size.least_letters) if font >= size.sizes)
    for font in fonts:
        named, sized = Span(letter, font, size.weight), Span(measure, size.sizes)
        in_one = (Span(f"{letter}: {measure}", font),) if font == size.sizes else (named, sized)
        for lines in (((named,), (sized,)), (in_one,)):
            for upwards in (False, True):
                yield Label(lines, upwards)


def _size_of_rest(drawn: DrawnRow, rest: DrawnRest) -> None:
    """Write the size of a large piece of cloth that is left over, across it and along it."""
    paper, font, box = drawn.paper, drawn.size.sizes, drawn.box(rest)
    size = plain_blanks(drawn.notation.size_over(rest.across, rest.along))
    wide, high = paper.text_width(size, font) + 12 * paper.pen, font * 1.6
    for upwards in (False, True):
        across, down = _turned(box, upwards)
        if wide <= across and down >= high:
            paper.write(Label(((Span(size, font),),), upwards), box, ground=True)
            return


def _turned(box: Box, upwards: bool) -> tuple[float, float]:
    """Give the room along a text in the box, and across it."""
    return (box.high, box.wide) if upwards else (box.wide, box.high)
