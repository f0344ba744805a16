"""The edges of the pieces of a sewn picture, those in one line as one: thousands of alike pieces take a few lines.

They show the same as the pieces do, because no piece lies over an edge of those beneath it.
"""

from collections.abc import Iterable
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.rendering.pictures.picture import Picture
from finishcalc.rendering.pictures.shapes import Scale

Span = tuple[int, int]


class Edge(NamedTuple):
    """An edge at a `place` across the line, from `start` to `end` along it."""

    place: Length
    start: Length
    end: Length


class Edges(NamedTuple):
    """The edges of all pieces, those that run `down` and those that run `across`."""

    down: tuple[Edge, ...]
    across: tuple[Edge, ...]


def edges_of(picture: Picture) -> Edges:
    """Gather the edges. They are counted in the finest part of a millimetre that there is, because whole numbers are
    compared far faster than fractions."""
    sides = [(tile.x.mm, tile.y.mm, tile.width.mm, tile.length.mm) for tile in picture.tiles]
    parts = lcm(*(each.denominator for tile in sides for each in tile))
    down: dict[int, set[Span]] = {}
    across: dict[int, set[Span]] = {}
    for tile in sides:
        x, y, wide, high = (each.numerator * (parts // each.denominator) for each in tile)
        for edges, places, span in ((down, (x, x + wide), (y, y + high)), (across, (y, y + high), (x, x + wide))):
            for place in places:
                edges.setdefault(place, set()).add(span)
    return Edges(_joined(down, parts), _joined(across, parts))


def _joined(edges: dict[int, set[Span]], parts: int) -> tuple[Edge, ...]:
    """Join the spans of each line that meet or overlap."""

    def length(number: int) -> Length:
        return Length(Fraction(number, parts))

    return tuple(
        Edge(length(place), length(start), length(end)) for place in sorted(edges) for start, end in _runs(edges[place])
    )


def _runs(spans: Iterable[Span]) -> list[Span]:
    runs: list[Span] = []
    for start, end in sorted(spans):
        if runs and start <= runs[-1][1]:
            runs[-1] = runs[-1][0], max(runs[-1][1], end)
        else:
            runs.append((start, end))
    return runs


def edges_elements(edges: Edges, picture: Picture, scale: Scale) -> list[str]:
    """Draw the edges on the ground of the picture."""
    path = [f"M{scale(edge.place)} {scale(edge.start)}V{scale(edge.end)}" for edge in edges.down]
    path += [f"M{scale(edge.start)} {scale(edge.place)}H{scale(edge.end)}" for edge in edges.across]
    look = f'class="piece" fill="none" stroke="#000" stroke-width="{3 * scale.pen:g}" stroke-linecap="square"'
    ground = f'<rect class="piece" fill="#fff" width="{scale(picture.width)}" height="{scale(picture.length)}"/>'
    return [ground, f'<path {look} d="{"".join(path)}"/>']
