"""The sizes of a comparison as outlines one within the other, as SVG: each has a line to its label at the right."""

from collections.abc import Sequence
from html import escape
from math import sqrt
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.pictures.outlines import SizeOutline
from finishcalc.rendering.pictures.paper import Box, Paper
from finishcalc.rendering.pictures.size import DrawingSize
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import plain_blanks, rounded

TITLE = "The sizes to one scale"
LONGER, FONT, GAP, LABEL = 1000, 22, 40, 40
"""In a file the longer side of the picture, the letters, the gap between the picture and its labels, and the most
characters in a line."""
LINE, CLOSE = 1.4, 1.15
"""The height of a line of text in its letters, and that of many lines."""
COLUMN = 0.5
"""The most that labels take of the width on paper."""


class _Scale(NamedTuple):
    """The longer side of all outlines, the units that it takes, and the thickness of lines, 1 in a file."""

    longer: Length
    units: float
    pen: float

    def __call__(self, length: Length) -> float:
        share = length / self.longer
        return float(rounded(share * LONGER, 2)) if self.units == LONGER else round(float(share) * self.units, 2)


def outlines_svg(outlines: Sequence[SizeOutline], name: str, size: DrawingSize | None = None) -> str:
    """Draw the outlines as a whole SVG document that ends with a line feed, for a file or of a size on paper. Its ids
    begin with its `name`."""
    return _on_paper(outlines, Paper(name, size)) if size else _in_file(outlines, name)


def _in_file(outlines: Sequence[SizeOutline], name: str) -> str:
    widest, longest = _sides(outlines)
    scale = _Scale(max(widest, longest), LONGER, 1)
    wide, high = scale(widest), scale(longest)
    body, down, longest_line = [_outline(each.shape, scale) for each in outlines], LINE * FONT, 0
    for each in outlines:
        lines = wrap(plain_blanks(each.label), LABEL)
        body += [_leader(each.shape, down, wide + GAP, scale)]
        body += [_text(line, wide + GAP, down + LINE * FONT * number) for number, line in enumerate(lines)]
        down += LINE * FONT * len(lines)
        longest_line = max(longest_line, *map(len, lines))
    right = wide + GAP + longest_line * FONT * 0.62
    box = f"-10 -10 {right + 20:g} {max(high, down) + 20:g}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" font-family="sans-serif" font-size="{FONT}" '
        f'role="img" aria-labelledby="{name}-title {name}-description">\n'
        f'<title id="{name}-title">{TITLE}</title>\n<desc id="{name}-description">{escape(_all(outlines))}</desc>\n'
        + "\n".join(body)
        + "\n</svg>\n"
    )


def _on_paper(outlines: Sequence[SizeOutline], paper: Paper) -> str:
    """Draw the outlines as large as the labels beside them let them be. More labels than there is room for are set
    closer, then smaller."""
    size, pen = paper.size, paper.pen / 2
    gap, edge = GAP * pen, 10 * pen
    labels = [paper.wrapped(each.label, size.wide * COLUMN, size.sizes) for each in outlines]
    number = sum(map(len, labels))
    line = min(size.sizes * LINE, (size.high - 2 * edge) / (number + 1))
    font = min(size.sizes, line / CLOSE)
    column = max(paper.text_width(text, font) for lines in labels for text in lines)
    widest, longest = _sides(outlines)
    longer = max(widest, longest)
    room = size.wide - column - gap - 2 * edge, size.high - 2 * edge
    scale = _Scale(longer, min(room[0] / float(widest / longer), room[1] / float(longest / longer)), pen)
    down, right = line, scale(widest) + gap
    paper.elements += [_outline(each.shape, scale) for each in outlines]
    for each, lines in zip(outlines, labels, strict=True):
        paper.elements.append(_leader(each.shape, down, right, scale))
        for text in lines:
            paper.text(right, down + font * 0.35, text, font)
            down += line
    high = max(scale(longest), down - line / 2)
    return paper.document(Box(-edge, -edge, size.wide, high + 2 * edge), TITLE, _all(outlines))


def _sides(outlines: Sequence[SizeOutline]) -> tuple[Length, Length]:
    """Give the greatest width and the greatest length."""
    return max(each.shape.width for each in outlines), max(each.shape.length for each in outlines)


def _all(outlines: Sequence[SizeOutline]) -> str:
    return plain_blanks("; ".join(each.label for each in outlines))


def _outline(shape: Shape, scale: _Scale) -> str:
    wide, high = scale(shape.width), scale(shape.length)
    look = f'class="outline" fill="none" stroke="#000" stroke-width="{3 * scale.pen:g}"'
    if shape.name != "rectangle":
        return f'<ellipse {look} cx="{wide / 2:g}" cy="{high / 2:g}" rx="{wide / 2:g}" ry="{high / 2:g}"/>'
    corner = f' rx="{scale(shape.corner):g}"' if shape.corner else ""
    return f'<rect {look} x="0" y="0" width="{wide:g}" height="{high:g}"{corner}/>'


def _leader(shape: Shape, down: float, right: float, scale: _Scale) -> str:
    """Draw the line from the outline's right side to its label."""
    wide, high, pen = scale(shape.width), scale(shape.length), scale.pen
    x, y = wide, min(down, high * 0.9)
    if shape.name != "rectangle":
        x = wide / 2 * (1 + sqrt(max(1 - (2 * y / high - 1) ** 2, 0)))
    dash = f"{5 * pen:g}"
    look = f'class="leader" stroke="#000" stroke-width="{1.5 * pen:g}" stroke-dasharray="{dash} {dash}"'
    path = f'<path {look} d="M{x:.2f} {y:.2f}L{right - 8 * pen:g} {down:g}"/>'
    return f'{path}<circle cx="{x:.2f}" cy="{y:.2f}" r="{5 * pen:g}"/>'


def _text(line: str, right: float, down: float) -> str:
    return f'<text x="{right:g}" y="{down + FONT * 0.35:.2f}">{escape(line)}</text>'
