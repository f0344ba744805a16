"""Elements of an SVG drawing in black on white: texts, boxes, lines and arrows, without a style sheet."""

from html import escape

from finishcalc.rendering.wrapping import display_width

FONT = 15
SMALL = 13
WIDTH_OF_A_LETTER = 0.6
"""The width of a letter, as a share of its size: SVG cannot be asked for it, and fonts differ."""


def text_width(text: str, size: float = FONT) -> float:
    """Estimate the width of a text."""
    return display_width(text) * size * WIDTH_OF_A_LETTER


class Paper:
    """A sheet that elements are drawn on, the lower ones first. `prefix` begins its ids."""

    def __init__(self, prefix: str) -> None:
        self.prefix = prefix
        self.elements: list[str] = []

    def hatch(self) -> str:
        """Define the hatching."""
        return (
            f'<pattern id="{self.prefix}-hatch" width="9" height="9" patternUnits="userSpaceOnUse" '
            'patternTransform="rotate(45)"><rect width="9" height="9" fill="#fff"/>'
            '<line x1="0" y1="0" x2="0" y2="9" stroke="#000" stroke-width="0.7"/></pattern>'
        )

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = FONT,
        anchor: str = "start",
        weight: str = "",
        upwards: bool = False,
        ground: bool = False,
    ) -> None:
        """Write a text at its base line; `upwards` turns it about that point, `ground` gives it a white rim."""
        rest = f' font-size="{size:g}"' if size != FONT else ""
        rest += f' text-anchor="{anchor}"' if anchor != "start" else ""
        rest += f' font-weight="{weight}"' if weight else ""
        rest += f' transform="rotate(-90 {x:.1f} {y:.1f})"' if upwards else ""
        rest += ' stroke="#fff" stroke-width="4" stroke-linejoin="round" paint-order="stroke"' if ground else ""
        self.elements.append(f'<text x="{x:.1f}" y="{y:.1f}"{rest}>{escape(text)}</text>')

    def rectangle(self, x: float, y: float, wide: float, high: float, hatched: bool = False) -> None:
        """Draw a box: a piece is white within a firm line, cloth that is left is hatched and has no line of its own."""
        kind, fill = ("rest", f"url(#{self.prefix}-hatch)") if hatched else ("piece", "#fff")
        line = "" if hatched else ' stroke="#000" stroke-width="1.5"'
        box = f'x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="{high:.2f}"'
        self.elements.append(f'<rect class="{kind}" {box} fill="{fill}"{line}/>')

    def line(self, points: list[tuple[float, float]], width: float = 0.8, dashes: str = "", ends: str = "") -> None:
        """Draw a line through points."""
        path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        rest = f' stroke-dasharray="{dashes}"' if dashes else ""
        rest += f' stroke-linecap="{ends}"' if ends else ""
        self.elements.append(f'<path d="{path}" fill="none" stroke="#000" stroke-width="{width:g}"{rest}/>')

    def dot(self, x: float, y: float) -> None:
        """Draw the end of a leader on the piece that it names."""
        self.elements.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2" stroke="#fff" stroke-width="0.6"/>')

    def arrow(self, x: float, to_x: float, y: float, both: bool = True) -> None:
        """Draw an arrow to the right, or one with two heads."""
        self.line([(x, y), (to_x, y)], width=1.5)
        self.line([(to_x - 8, y - 4), (to_x, y), (to_x - 8, y + 4)], width=1.5)
        if both:
            self.line([(x + 8, y - 4), (x, y), (x + 8, y + 4)], width=1.5)
