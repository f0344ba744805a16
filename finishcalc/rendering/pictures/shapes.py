"""Pieces, seams and outlines of a sewn picture as elements of SVG, black on white."""

from fractions import Fraction

from finishcalc.measures.length import Length
from finishcalc.plans.pieced.slants import Slant
from finishcalc.plans.top.outline import Scallops
from finishcalc.rendering.pictures.picture import Outline, Picture, Tile
from finishcalc.wording.notation import rounded


class Scale:
    """Writes lengths of a picture whose longer side takes so many `units`; its lines are as thick as the `pen`."""

    def __init__(self, picture: Picture, units: Fraction, pen: float = 1) -> None:
        self.longer, self.units, self.pen = max(picture.width, picture.length), units, pen
        self._written: dict[Length, str] = {}

    def __call__(self, length: Length) -> str:
        """Write a length in units. The pieces of a top have few places between them."""
        if length not in self._written:
            self._written[length] = rounded(length / self.longer * self.units, 2)
        return self._written[length]


def outline_element(outline: Outline, scale: Scale) -> str:
    """Draw the line to which the quilt is trimmed."""
    trimmed = _trimmed(scale)
    if outline.scallops:
        return f'<path {trimmed} d="{_scalloped(outline, outline.scallops, scale)}"/>'
    if not outline.ellipse:
        box = _box_attributes(outline, scale)
        return f'<rect {trimmed} {box} rx="{scale(outline.corner)}"/>'
    rx, ry = scale(outline.width / 2), scale(outline.length / 2)
    middle = f'cx="{scale(outline.x + outline.width / 2)}" cy="{scale(outline.y + outline.length / 2)}"'
    return f'<ellipse {trimmed} {middle} rx="{rx}" ry="{ry}"/>'


def _scalloped(outline: Outline, scallops: Scallops, scale: Scale) -> str:
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


def slant_element(slant: Slant, scale: Scale) -> str:
    """Draw a slanting seam."""
    look = f'class="seam" stroke="#000" stroke-width="{2 * scale.pen:g}"'
    return f'<path {look} d="M{scale(slant.x)} {scale(slant.y)}L{scale(slant.to_x)} {scale(slant.to_y)}"/>'


def _box_attributes(tile: Tile | Outline, scale: Scale) -> str:
    return f'x="{scale(tile.x)}" y="{scale(tile.y)}" width="{scale(tile.width)}" height="{scale(tile.length)}"'


def tile_element(tile: Tile, scale: Scale) -> str:
    """Draw a piece."""
    look = f'class="piece" fill="#fff" stroke="#000" stroke-width="{3 * scale.pen:g}"'
    return f"<rect {look} {_box_attributes(tile, scale)}/>"


def _trimmed(scale: Scale) -> str:
    dashes = f"{14 * scale.pen:g} {8 * scale.pen:g}"
    return f'class="trimmed" fill="none" stroke="#000" stroke-width="{2 * scale.pen:g}" stroke-dasharray="{dashes}"'
