"""Elements of an SVG drawing in black on white: texts, boxes, lines and arrows, without a style sheet."""

from collections.abc import Iterable, Iterator
from html import escape
from typing import NamedTuple

from finishcalc.rendering.pictures.size import DrawingSize
from finishcalc.rendering.wrapping import display_width, wrap
from finishcalc.wording.notation import plain_blanks

WIDTH_OF_A_LETTER = 0.6
"""The width of a letter in a file, as a share of its size: SVG cannot be asked for it, and fonts differ."""
NARROW, WIDE = " \u00a0.,:;|!'()[]/-iIjlt", "mwMW@%+="
SHARES = {**dict.fromkeys(NARROW, 0.4), **dict.fromkeys(WIDE, 1.0)}
"""The same of single letters on paper, as the widest of common fonts has them."""
CAPITAL, SMALL_LETTER, OTHER, BOLD = 0.8, 0.65, 1.0, 1.15


class Box(NamedTuple):
    """A rectangle on paper."""

    x: float
    y: float
    wide: float
    high: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.x + self.wide

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.y + self.high


class Span(NamedTuple):
    """A text of one size within a line."""

    text: str
    size: float
    weight: str = ""


class Label(NamedTuple):
    """Lines in the middle of a box, each of spans side by side."""

    lines: tuple[tuple[Span, ...], ...]
    upwards: bool = False


class Paper:
    """A sheet that elements are drawn on, the lower ones first. `prefix` begins its ids."""

    def __init__(self, prefix: str, size: DrawingSize) -> None:
        self.prefix = prefix
        self.size = size
        self.pen = size.pen
        self.elements: list[str] = []
        self.over: list[str] = []

    @property
    def margin(self) -> float:
        """The room that words at the left edge leave at the right; in a file they run to its end."""
        return 0 if self.size.use == "file" else 12 * self.pen

    def text_width(self, text: str, size: float, weight: str = "") -> float:
        """Estimate the width of a text."""
        if self.size.use == "file":
            return display_width(text) * size * WIDTH_OF_A_LETTER
        return sum(map(_share, text)) * size * (BOLD if weight else 1)

    def wrapped(self, text: str, room: float, size: float, weight: str = "") -> list[str]:
        """Break a text into lines that have room."""
        if self.size.use == "file":
            return wrap(plain_blanks(text), int(room / self.text_width("x", size)))
        lines = [""]
        for word in text.split(" "):
            joined = f"{lines[-1]} {word}" if lines[-1] else word
            if self.text_width(joined, size, weight) <= room:
                lines[-1] = joined
            else:
                lines += self._cut(word, room, size, weight)
        return [plain_blanks(line) for line in lines if line] or [""]

    def _cut(self, word: str, room: float, size: float, weight: str) -> list[str]:
        """Cut a word where it is wider than the room."""
        parts = [""]
        for letter in word:
            if parts[-1] and self.text_width(parts[-1] + letter, size, weight) > room:
                parts.append("")
            parts[-1] += letter
        return parts

    def hatch(self) -> str:
        """Define the hatching."""
        apart = f"{9 * self.pen:g}"
        return (
            f'<pattern id="{self.prefix}-hatch" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate(45)"><rect width="{apart}" height="{apart}" fill="#fff"/>'
            f'<line x1="0" y1="0" x2="0" y2="{apart}" stroke="#000" stroke-width="{0.7 * self.pen:g}"/></pattern>'
        )

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        anchor: str = "start",
        weight: str = "",
        upwards: bool = False,
        ground: bool = False,
    ) -> None:
        """Write a text at its base line; `upwards` turns it about that point, `ground` gives it a white rim, with
        which it lies over all lines on paper."""
        rest = f' font-size="{size:g}"' if size != self.size.sizes else ""
        rest += f' text-anchor="{anchor}"' if anchor != "start" else ""
        rest += f' font-weight="{weight}"' if weight else ""
        rest += f' transform="rotate(-90 {x:.1f} {y:.1f})"' if upwards else ""
        rim = (4 if self.size.use == "file" else 1.6) * self.pen
        if ground:
            rest += f' stroke="#fff" stroke-width="{rim:g}" stroke-linejoin="round" paint-order="stroke"'
        over = ground and self.size.use != "file"
        (self.over if over else self.elements).append(f'<text x="{x:.1f}" y="{y:.1f}"{rest}>{escape(text)}</text>')

    def label_size(self, label: Label) -> tuple[float, float]:
        """Estimate the width and the height that a label takes on paper, with a little room around it."""
        along = max(self._line_width(line) for line in label.lines) + 6 * self.pen
        aside = sum(max(span.size for span in line) * 1.2 for line in label.lines) + 2 * self.pen
        return (aside, along) if label.upwards else (along, aside)

    def fitting(self, labels: Iterable[Label], box: Box) -> Label | None:
        """Give the first label that fits into the box."""
        for label in labels:
            wide, high = self.label_size(label)
            if wide <= box.wide and high <= box.high:
                return label
        return None

    def has_room(self, letter: Span, box: Box) -> bool:
        """Tell if a letter fits tightly into the box."""
        return self.text_width(*letter) + 3 * self.pen <= box.wide and letter.size * 0.92 <= box.high

    def write(self, label: Label, box: Box, ground: bool = False) -> None:
        """Write a label in the middle of a box; `ground` gives it a white rim, which it always has on paper."""
        ground = ground or self.size.use != "file"
        x, y = box.x + box.wide / 2, box.y + box.high / 2
        heights = [max(span.size for span in line) * 1.2 for line in label.lines]
        start = -sum(heights) / 2
        for line, high in zip(label.lines, heights, strict=True):
            down = start + high / 2 + high / 1.2 * 0.36
            for span, along in self._places(line):
                at = (x + down, y - along) if label.upwards else (x + along, y + down)
                self.text(*at, span.text, span.size, "middle", span.weight, label.upwards, ground)
            start += high

    def _line_width(self, line: tuple[Span, ...]) -> float:
        return sum(self.text_width(*span) for span in line) + (len(line) - 1) * 0.4 * line[-1].size

    def _places(self, line: tuple[Span, ...]) -> Iterator[tuple[Span, float]]:
        """Give the middle of each span along its line, from the middle of the line."""
        start = -self._line_width(line) / 2
        for span in line:
            wide = self.text_width(*span)
            yield span, start + wide / 2
            start += wide + 0.4 * line[-1].size

    def rectangle(self, x: float, y: float, wide: float, high: float, hatched: bool = False, line: float = 1.5) -> None:
        """Draw a box: a piece is white within a firm line, cloth that is left is hatched and has no line of its own."""
        kind, fill = ("rest", f"url(#{self.prefix}-hatch)") if hatched else ("piece", "#fff")
        edge = "" if hatched else f' stroke="#000" stroke-width="{line * self.pen:g}"'
        box = f'x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="{high:.2f}"'
        self.elements.append(f'<rect class="{kind}" {box} fill="{fill}"{edge}/>')

    def line(self, points: list[tuple[float, float]], width: float = 0.8, dashes: str = "", ends: str = "") -> None:
        """Draw a line through points."""
        path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        dashed = " ".join(f"{float(dash) * self.pen:g}" for dash in dashes.split())
        rest = f' stroke-dasharray="{dashed}"' if dashes else ""
        rest += f' stroke-linecap="{ends}"' if ends else ""
        self.elements.append(f'<path d="{path}" fill="none" stroke="#000" stroke-width="{width * self.pen:g}"{rest}/>')

    def dot(self, x: float, y: float) -> None:
        """Draw the end of a leader on the piece that it names."""
        radius, rim = 2 * self.pen, 0.6 * self.pen
        self.elements.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{radius:g}" stroke="#fff" stroke-width="{rim:g}"/>')

    def arrow(self, x: float, to_x: float, y: float, both: bool = True) -> None:
        """Draw an arrow to the right, or one with two heads."""
        long, aside = 8 * self.pen, 4 * self.pen
        self.line([(x, y), (to_x, y)], width=1.5)
        self.line([(to_x - long, y - aside), (to_x, y), (to_x - long, y + aside)], width=1.5)
        if both:
            self.line([(x + long, y - aside), (x, y), (x + long, y + aside)], width=1.5)

    def document(self, box: Box, title: str, description: str, unit: tuple[str, str] = ("", "pt")) -> str:
        """Give all that is drawn as a whole SVG document that ends with a line feed; `box` is its viewBox. A file is as
        wide as `unit` says."""
        wide, high = f"{box.wide:g}", f"{box.high:.1f}"
        place = f' x="{box.x:.1f}" y="{box.y:.1f}"' if box.x or box.y else ""
        corner = f"{box.x:.1f} {box.y:.1f}" if place else "0 0"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" {self._sides(box, *unit)}viewBox="{corner} {wide} {high}" '
            f'role="img" aria-labelledby="{self.prefix}-title {self.prefix}-description">\n'
            f'<title id="{self.prefix}-title">{escape(title)}</title>\n'
            f'<desc id="{self.prefix}-description">{escape(description)}</desc>\n'
            f"<defs>{self.hatch()}</defs>\n"
            f'<rect{place} width="{wide}" height="{high}" fill="#fff"/>\n'
            f'<g font-family="sans-serif" font-size="{self.size.sizes:g}" fill="#000" stroke="none">\n'
            + "\n".join(self.elements + self.over)
            + "\n</g>\n</svg>\n"
        )

    def _sides(self, box: Box, wide: str, unit: str) -> str:
        """Give the width and the height as they print; a picture on a screen has those of its page."""
        if self.size.use in ("screen", "page"):
            return ""
        if self.size.use == "paper":
            return f'width="{box.wide:g}pt" height="{box.high:.1f}pt" '
        return f'width="{wide}{unit}" height="{box.high / box.wide * float(wide):.2f}{unit}" '


def _share(letter: str) -> float:
    if letter in SHARES:
        return SHARES[letter]
    if letter.isascii():
        return CAPITAL if letter.isupper() else SMALL_LETTER
    return OTHER * display_width(letter)
