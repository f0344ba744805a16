"""A sewn picture as SVG for a file: to scale, with title, description and dimensions, legible in black and white."""

from fractions import Fraction
from html import escape

from finishcalc.rendering.pictures.picture import Mark, Picture, Tile, side_ruler, top_ruler
from finishcalc.rendering.pictures.shapes import Scale, outline_element, slant_element, tile_element
from finishcalc.rendering.wrapping import wrap
from finishcalc.wording.notation import Notation, plain_blanks

WIDE = 1000
"""The picture's longer side in the units of its viewBox, without its margins."""
FONT = 22
MARGIN = 150
GAP = 46

# a look stands on each element, because a picture may stand inside a page, where a style sheet would reach the page
GROUND = 'class="ground" stroke="#fff" stroke-width="8" stroke-linejoin="round"'
RULER = 'class="ruler" stroke="#000" stroke-width="1.5"'

ARROWS = {"across": "\u2194", "down": "\u2195", "down only": "\u2193", "": ""}
TURNED_ARROWS = {"across": "\u2195", "down": "\u2194", "down only": "\u2190", "": ""}
"""The arrows of a label that is written upwards: turned with it, they point the right way."""


def svg(picture: Picture, notation: Notation, name: str) -> str:
    """Draw the picture as a whole SVG document that ends with a line feed. Its ids begin with its `name`, so that
    several may stand in one page."""
    scale = Scale(picture, Fraction(WIDE))
    wide, high = float(scale(picture.width)), float(scale(picture.length))
    body = [tile_element(tile, scale) for tile in picture.tiles]
    body += [slant_element(slant, scale) for slant in picture.slants]
    if picture.outline:
        body.append(outline_element(picture.outline, scale))
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


def _label(tile: Tile, scale: Scale) -> str:
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


def _across(mark: Mark, scale: Scale) -> str:
    start, end = float(scale(mark.start)), float(scale(mark.end))
    text = escape(plain_blanks(mark.text))
    fits = _wide(mark.text) < end - start
    label = f'<text x="{(start + end) / 2:.2f}" y="{-GAP - 6}" text-anchor="middle">{text}</text>' if fits else ""
    ends = "".join(f'<path {RULER} d="M{at:.2f} {-GAP + 10}V-8"/>' for at in (start, end))
    return f'<path {RULER} d="M{start:.2f} {-GAP / 2}H{end:.2f}"/>{ends}{label}'


def _beside(mark: Mark, scale: Scale, wide: float) -> str:
    start, end = float(scale(mark.start)), float(scale(mark.end))
    text = escape(plain_blanks(mark.text))
    label = f'<text x="{wide + GAP:.2f}" y="{(start + end) / 2 + FONT * 0.35:.2f}">{text}</text>'
    ends = "".join(f'<path {RULER} d="M{wide + 8:.2f} {at:.2f}h{GAP - 18}"/>' for at in (start, end))
    return f'<path {RULER} d="M{wide + GAP / 2:.2f} {start:.2f}V{end:.2f}"/>{ends}{label}'
