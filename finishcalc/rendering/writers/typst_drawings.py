"""Drawings as typst sets them: bare, with letters of their size on paper, and their words beside them."""

import re
from typing import Any

from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.drawn import drawing_description, drawing_svgs, drawing_words
from finishcalc.rendering.pictures.size import on_bench, on_paper
from finishcalc.rendering.writers.glyphs import Setting

ON_PAPER, ON_BENCH = 0.36, 0.52
"""The most of a sheet's height that a picture takes: beside other things, and where it is read across a table."""

TIMES = re.compile("(?<=[0-9]) x (?=[0-9A-Z])")
"""The x of a size or a number in a drawing, which has plain blanks: in "34 x 92 in" and "5 x B"."""


def drawing_data(drawing: Drawing, bench: bool, room: tuple[float, float], said: Setting) -> dict[str, Any]:
    """Draw a picture in a room of so many millimetres, on as many sheets as it needs. Its words are set above and below
    it."""
    title, facts, key = drawing_words(drawing)
    width, height = room
    size = on_bench(width, height * ON_BENCH) if bench else on_paper(width, height * ON_PAPER)
    return {
        "type": "drawing",
        "title": said(title),
        "facts": said("; ".join(facts)),
        "key": [said(text) for text in key],
        "sheets": [said(TIMES.sub(" × ", drawn)) for drawn in drawing_svgs(drawing, size)],
        "alt": said(" ".join(drawing_description(drawing).split("\n"))),
    }
