"""The sizes of a comparison as bars to one scale, for the terminal and as SVG: one layout value feeds both."""

from fractions import Fraction
from html import escape
from typing import NamedTuple

from finishcalc.comparing.sizes import Comparison
from finishcalc.measures.length import Length
from finishcalc.rendering.pages.page import display_width, wrap
from finishcalc.rendering.pictures.svg import FONT, STYLE
from finishcalc.wording.notation import Notation, plain_blanks, rounded


class Bar(NamedTuple):
    """One side of a size. `name` is that of the size at its first bar, else empty."""

    name: str
    way: str
    length: Length
    text: str


def bars(comparison: Comparison, notation: Notation) -> list[Bar]:
    """Give each size two bars, across and down; a round one has the same both ways, and one bar."""
    layout = []
    for row in comparison.rows:
        shape, name = row.result.plans.top.shape, notation.show(row.name)
        sides = [("across", shape.width), ("down", shape.length)]
        for way, length in sides[:1] if shape.name == "round" else sides:
            layout.append(Bar(name if way == "across" else "", way, length, notation.show(length)))
    return layout


def bars_text(layout: list[Bar], width: int) -> list[str]:
    """Draw the bars with their lengths, at most `width` columns wide; a long name has lines of its own."""
    longest = max(bar.length for bar in layout)
    names = min(max(display_width(bar.name) for bar in layout), width // 4)
    room = width - names - len("across") - max(display_width(bar.text) for bar in layout) - 4
    lines = []
    for bar in layout:
        *above, name = wrap(bar.name, width) if display_width(bar.name) > names else [bar.name]
        if display_width(name) > names:
            above, name = [*above, name], ""
        drawn = "\u2501" * max(round(Fraction(room) * (bar.length / longest)), 1)
        lines += above
        lines.append(plain_blanks(f"{name}{' ' * (names - display_width(name))}  {bar.way:<6} {drawn} {bar.text}"))
    return lines


HIGH, GAP, LEFT, WIDE = 30, 24, 330, 1000
"""The height of a bar, the gap between sizes, the room for names and the longest bar, in the units of the viewBox."""
LONGEST_NAME = 22


def bars_svg(layout: list[Bar]) -> str:
    """Draw the bars as a whole SVG document that ends with a line feed."""
    longest = max(bar.length for bar in layout)
    body, down = [], 0
    for bar in layout:
        down += GAP if bar.name and down else 0
        body.append(_drawn(bar, longest, down))
        down += HIGH + 6
    description = plain_blanks("; ".join(f"{bar.name} {bar.way} {bar.text}".strip() for bar in layout))
    box = f"-10 -10 {LEFT + WIDE + 200} {down + 20}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" role="img" aria-labelledby="title description">\n'
        f'<title id="title">The sizes to one scale</title>\n<desc id="description">{escape(description)}</desc>\n'
        f"<style>{STYLE}</style>\n" + "\n".join(body) + "\n</svg>\n"
    )


def _drawn(bar: Bar, longest: Length, down: int) -> str:
    wide = rounded(bar.length / longest * WIDE, 2)
    base = down + HIGH / 2 + FONT * 0.35
    name = bar.name if len(bar.name) <= LONGEST_NAME else bar.name[: LONGEST_NAME - 1] + "\u2026"
    texts = ((0, name), (LEFT - 80, bar.way), (LEFT + float(wide) + 10, plain_blanks(bar.text)))
    written = "".join(f'<text x="{x:g}" y="{base:g}">{escape(text)}</text>' for x, text in texts if text)
    return f'<rect class="piece" x="{LEFT}" y="{down}" width="{wide}" height="{HIGH}"/>{written}'
