"""A picture as SVG: to scale, with title, description and dimensions, legible in black and white."""

from html import escape

from finishcalc.measures.length import Length
from finishcalc.plans.pieced.slants import Slant
from finishcalc.plans.top.outline import Scallops
from finishcalc.rendering.pictures.picture import Mark, Outline, Picture, Tile, side_ruler, top_ruler
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation, plain_blanks, rounded

WIDE = 1000
"""The picture's longer side in the units of its viewBox, without its margins."""
FONT = 22
MARGIN = 150
GAP = 46

# a look stands on each element, because a picture may stand inside a page, where a style sheet would reach the page
GROUND = 'class="ground" stroke="#fff" stroke-width="8" stroke-linejoin="round"'
PIECE = 'class="piece" fill="#fff" stroke="#000" stroke-width="3"'
SEAM = 'class="seam" stroke="#000" stroke-width="2"'
TRIMMED = 'class="trimmed" fill="none" stroke="#000" stroke-width="2" stroke-dasharray="14 8"'
RULER = 'class="ruler" stroke="#000" stroke-width="1.5"'

ARROWS = {"across": "\u2194", "down": "\u2195", "down only": "\u2193", "": ""}
TURNED_ARROWS = {"across": "\u2195", "down": "\u2194", "down only": "\u2190", "": ""}
"""The arrows of a label that is written upwards: turned with it, they point the right way."""


class _Scale:
    def __init__(self, picture: Picture) -> None:
        self.longer = max(picture.width, picture.length)

    def __call__(self, length: Length) -> str:
        return rounded(length / self.longer * WIDE, 2)


def svg(picture: Picture, notation: Notation, name: str) -> str:
    """Draw the picture as a whole SVG document that ends with a line feed. Its ids begin with its `name`, so that
    several may stand in one page."""
    scale = _Scale(picture)
    wide, high = float(scale(picture.width)), float(scale(picture.length))
    body = [_tile(tile, scale) for tile in picture.tiles]
    body += [_slant(slant, scale) for slant in picture.slants]
    if picture.outline:
        body.append(_outline(picture.outline, scale))
    body += [_label(tile, scale) for tile in picture.tiles]
    body += [_across(mark, scale) for mark in top_ruler(picture, notation)]
    body += [_beside(mark, scale, wide) for mark in side_ruler(picture, notation)]
    legend = _legend(picture, wide, high)
    title, description = escape(picture.title), escape(plain_blanks(picture.description))
    full_width = max(wide, WIDE / 2) + MARGIN + GAP
    box = f"{-GAP / 2:g} {-2 * GAP:g} {full_width:g} {high + 3 * GAP + (len(legend) + 1) * FONT * 1.3:g}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" font-family="sans-serif" font-size="{FONT}" '
        f'role="img" aria-labelledby="{name}-title {name}-description">\n'
        f'<title id="{name}-title">{title}</title>\n<desc id="{name}-description">{description}</desc>\n'
        + "\n".join(body + legend)
        + "\n</svg>\n"
    )


def _outline(outline: Outline, scale: _Scale) -> str:
    if outline.scallops:
        return f'<path {TRIMMED} d="{_scalloped(outline, outline.scallops, scale)}"/>'
    if not outline.ellipse:
        box = _box_attributes(outline, scale)
        return f'<rect {TRIMMED} {box} rx="{scale(outline.corner)}"/>'
    rx, ry = scale(outline.width / 2), scale(outline.length / 2)
    middle = f'cx="{scale(outline.x + outline.width / 2)}" cy="{scale(outline.y + outline.length / 2)}"'
    return f'<ellipse {TRIMMED} {middle} rx="{rx}" ry="{ry}"/>'


def _scalloped(outline: Outline, scallops: Scallops, scale: _Scale) -> str:
    """Go round from the upper left inner corner to the right. An arc d deep over a chord c has the radius
    c x c / 8 d + d / 2 (derived)."""
    x, y = outline.x + scallops.depth, outline.y + scallops.depth
    path = [f"M{scale(x)} {scale(y)}"]
    chords = scallops.chords
    for (right, below), count, chord in (
        ((1, 0), scallops.across, chords.width),
        ((0, 1), scallops.down, chords.length),
        ((-1, 0), scallops.across, chords.width),
        ((0, -1), scallops.down, chords.length),
    ):
        radius = scale(chord * (chord / scallops.depth) / 8 + scallops.depth / 2)
        more_than_half = int(scallops.depth * 2 > chord)
        for _ in range(count):
            x, y = x + chord * right, y + chord * below
            path.append(f"A{radius} {radius} 0 {more_than_half} 1 {scale(x)} {scale(y)}")
    return " ".join(path)


def _slant(slant: Slant, scale: _Scale) -> str:
    return f'<path {SEAM} d="M{scale(slant.x)} {scale(slant.y)}L{scale(slant.to_x)} {scale(slant.to_y)}"/>'


def _box_attributes(tile: Tile | Outline, scale: _Scale) -> str:
    return f'x="{scale(tile.x)}" y="{scale(tile.y)}" width="{scale(tile.width)}" height="{scale(tile.length)}"'


def _tile(tile: Tile, scale: _Scale) -> str:
    return f"<rect {PIECE} {_box_attributes(tile, scale)}/>"


def _label(tile: Tile, scale: _Scale) -> str:
    """Write the name with an arrow for the grain, and the size under it where there is room, on a white ground."""
    wide, high = float(scale(tile.width)), float(scale(tile.length))
    lines = [f"{tile.name} {ARROWS[tile.grain]}".rstrip(), tile.size]
    fits = [line for line in lines if _wide(line) < wide]
    upright = wide < high and len(fits) < len(lines) and _wide(tile.name) < high
    along, aside = (high, wide) if upright else (wide, high)
    if upright:
        lines = [f"{tile.name} {TURNED_ARROWS[tile.grain]}".rstrip(), tile.size]
    lines = [line for line in lines if line and _wide(line) < along]
    if aside < FONT * 1.2 * len(lines):
        lines = [tile.name] if tile.name and aside >= FONT * 1.4 and _wide(tile.name) < along else []
    x, y = float(scale(tile.x)) + wide / 2, float(scale(tile.y)) + high / 2
    turn = f' transform="rotate(-90 {x:.2f} {y:.2f})"' if upright else ""
    texts = []
    for n, line in enumerate(lines):
        down = y + (n - (len(lines) - 1) / 2) * FONT * 1.2 + FONT * 0.35
        at = f'x="{x:.2f}" y="{down:.2f}" text-anchor="middle"{turn}'
        texts += [f"<text {look} {at}>{escape(plain_blanks(line))}</text>" for look in (GROUND, 'class="name"')]
    return "\n".join(texts)


def _wide(text: str) -> float:
    """Estimate the width of a text: SVG cannot be asked for it."""
    return len(text) * FONT * 0.56


def _legend(picture: Picture, wide: float, high: float) -> list[str]:
    """Write the description, and sizes that have no room inside, in lines below the picture."""
    most = int(max(wide, WIDE / 2) / _wide("x"))
    lines = [line for text in (picture.description, *picture.legend) for line in wrap(plain_blanks(text), most)]
    return [
        f'<text class="legend" x="0" y="{high + (n + 1) * FONT * 1.3:.2f}">{escape(line)}</text>'
        for n, line in enumerate(lines, start=1)
    ]


def _across(mark: Mark, scale: _Scale) -> str:
    start, end = float(scale(mark.start)), float(scale(mark.end))
    text = escape(plain_blanks(mark.text))
    fits = _wide(mark.text) < end - start
    label = f'<text x="{(start + end) / 2:.2f}" y="{-GAP - 6}" text-anchor="middle">{text}</text>' if fits else ""
    ends = "".join(f'<path {RULER} d="M{at:.2f} {-GAP + 10}V-8"/>' for at in (start, end))
    return f'<path {RULER} d="M{start:.2f} {-GAP / 2}H{end:.2f}"/>{ends}{label}'


def _beside(mark: Mark, scale: _Scale, wide: float) -> str:
    start, end = float(scale(mark.start)), float(scale(mark.end))
    text = escape(plain_blanks(mark.text))
    label = f'<text x="{wide + GAP:.2f}" y="{(start + end) / 2 + FONT * 0.35:.2f}">{text}</text>'
    ends = "".join(f'<path {RULER} d="M{wide + 8:.2f} {at:.2f}h{GAP - 18}"/>' for at in (start, end))
    return f'<path {RULER} d="M{wide + GAP / 2:.2f} {start:.2f}V{end:.2f}"/>{ends}{label}'
