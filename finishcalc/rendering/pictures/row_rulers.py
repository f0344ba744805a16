"""The dimensions of one row of a cutting diagram, above it and at its left."""

from itertools import groupby

from finishcalc.measures.length import Length
from finishcalc.rendering.pictures.cutting import DrawnColumn
from finishcalc.rendering.pictures.drawn_row import RULER, DrawnRow
from finishcalc.wording.notation import plain_blanks

BANDS = 12
"""The ruler of the bands above the row, in steps."""
COLUMNS, WHOLE = 14, 40
"""The rulers of the columns and of the whole width, at the left of the row, in steps."""


def dimensions(drawn: DrawnRow) -> None:
    """Measure the bands above the row, and beside it the columns of its first band and the whole width; on paper also
    the whole row."""
    marks = [(band.x, band.length) for band in drawn.bands]
    for length, run in groupby(marks, key=lambda mark: mark[1]):
        places = [start for start, _ in run]
        _mark_along(drawn, places, length)
    if drawn.size.use != "file":
        _whole_row(drawn)
    usable = plain_blanks(drawn.notation.show(drawn.picture.usable))
    if not _mark_across(drawn, WHOLE, drawn.top, drawn.bottom, usable) and drawn.size.use != "file":
        _short_width(drawn, usable)
        return
    y = drawn.top
    for across, columns in groupby(drawn.bands[0].columns if drawn.bands else (), key=_width_of_pieces):
        alike = list(columns)
        if across and across < drawn.picture.usable:
            _mark_run_across(drawn, y, across, len(alike), plain_blanks(drawn.notation.show(across)))
        y += sum(drawn.px(column.across) for column in alike)


def _width_of_pieces(column: DrawnColumn) -> Length | None:
    """Give the width of a column; None for one that holds no piece."""
    return column.across if any(cell.letters for cell in column.cells) else None


def _font(drawn: DrawnRow, text: str, room: float) -> float:
    """Give the letters with which a dimension has room on its ruler, or 0: in a file those of rulers alone."""
    fonts = (drawn.size.ruler,) if drawn.size.use == "file" else (drawn.size.ruler, drawn.size.words)
    return next((font for font in fonts if drawn.paper.text_width(text, font) + 4 * drawn.step <= room), 0)


def _mark_along(drawn: DrawnRow, starts: list[Length], length: Length) -> None:
    """Mark each of a run of alike bands, with a figure for each where there is room, or one for all."""
    size = plain_blanks(drawn.notation.show(length))
    y = drawn.top - BANDS * drawn.step
    spans = [drawn.clipped(start, length) for start in starts]
    font = _font(drawn, size, min(end - start for start, end in spans))
    for start, end in spans:
        _ruler(drawn, start, end, y, size if font else "", font)
    if not font and len(spans) > 1:
        whole = f"{len(spans)} x {size}"
        start, end = spans[0][0], spans[-1][1]
        if font := _font(drawn, whole, end - start):
            _above(drawn, (start + end) / 2, y, whole, font)


def _ruler(drawn: DrawnRow, start: float, end: float, y: float, text: str, font: float) -> None:
    """Draw a stretch of a ruler above the row, with its text over its middle."""
    tick = 4 * drawn.step
    for at in (start, end):
        drawn.paper.line([(at, y - tick), (at, y + tick)])
    drawn.paper.line([(start, y), (end, y)])
    if text:
        _above(drawn, (start + end) / 2, y, text, font)


def _above(drawn: DrawnRow, middle: float, y: float, text: str, font: float) -> None:
    drawn.paper.text(middle, y - 6 * drawn.step, text, font, anchor="middle")


def _whole_row(drawn: DrawnRow) -> None:
    """Say how much of the cloth the row is, or from where to where it runs; a short row has it beside its ruler."""
    row, show = drawn.row, drawn.notation.show
    is_whole = row.length == drawn.picture.length
    text = plain_blanks(show(row.length) if is_whole else f"{show(row.start)} to {show(row.end)}")
    y = drawn.top - (BANDS + RULER) * drawn.step
    font = _font(drawn, text, drawn.wide)
    _ruler(drawn, drawn.left, drawn.right, y, text if font else "", font)
    if not font:
        drawn.paper.text(drawn.left, y - 6 * drawn.step, text, drawn.size.ruler)


def _short_width(drawn: DrawnRow, usable: str) -> None:
    """Write the width of the cloth level, where the row is not as high as it is long."""
    middle = (drawn.top + drawn.bottom) / 2 + drawn.size.ruler * 0.36
    drawn.paper.text(drawn.left - 6 * drawn.step, middle, usable, drawn.size.words, anchor="end")


def _mark_run_across(drawn: DrawnRow, start: float, across: Length, number: int, size: str) -> None:
    step = drawn.px(across)
    if _font(drawn, size, step):
        for n in range(number):
            _mark_across(drawn, COLUMNS, start + n * step, start + (n + 1) * step, size)
    elif number > 1:
        _mark_across(drawn, COLUMNS, start, start + number * step, f"{number} x {size}")


def _mark_across(drawn: DrawnRow, before: float, start: float, end: float, size: str) -> bool:
    """Mark a stretch of the width so many steps before the row, unless its figure has no room."""
    font = _font(drawn, size, end - start)
    if not font:
        return False
    x, tick = drawn.left - before * drawn.step, 4 * drawn.step
    drawn.paper.line([(x, start), (x, end)])
    for y in (start, end):
        drawn.paper.line([(x - tick, y), (x + tick, y)])
    at = x - 5 * drawn.step, (start + end) / 2
    drawn.paper.text(*at, size, font, anchor="middle", upwards=True)
    return True
