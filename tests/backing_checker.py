"""Proves a backing from the definition of its cuts and assembly; it shares no code with the planner.

Cuts say where each piece lies on the cloth: x across the usable width, y along the cloth. The assembly says what
each piece shows once sewn: x across the top's width, y down, seam allowances hidden, each piece exactly once;
`turned` means that the cloth's length runs across the top. A seam is a maximal straight line along which pieces
abut. Nothing is taken for granted of which layouts there are: panels, bands and turned pieces are all rectangles.
Everything here is an exact number of millimetres.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import Literal, NamedTuple, Protocol

from finishcalc.measures.length import Length
from finishcalc.plans.backing.layout import CutPiece, VisiblePiece

Axis = Literal["x", "y"]


@dataclass(frozen=True)
class Terms:
    """The terms that a backing must keep to: the size needed (overage and all), the cloth, and the sewing."""

    width: Length
    length: Length
    overage: Length
    allowance: Length
    clear_edge: Length
    usable: Length
    straighten: Length
    shrink_along: Fraction
    one_way: bool


class Claim(Protocol):
    """The claims of a layout about itself: all that the checker reads."""

    @property
    def seams(self) -> int: ...
    @property
    def seam_length(self) -> Length: ...
    @property
    def cut_length(self) -> Length: ...
    @property
    def cuts(self) -> tuple[CutPiece, ...]: ...
    @property
    def assembly(self) -> tuple[VisiblePiece, ...]: ...


class Box(NamedTuple):
    """A named rectangle in millimetres."""

    name: str
    x: Fraction
    y: Fraction
    right: Fraction
    bottom: Fraction

    @property
    def area(self) -> Fraction:
        """Width times length."""
        return (self.right - self.x) * (self.bottom - self.y)


class Seam(NamedTuple):
    """A straight line from `start` to `end`, at the place `at` of `axis` (a seam at some x runs up and down)."""

    axis: Axis
    at: Fraction
    start: Fraction
    end: Fraction


def complaints(layout: Claim, bought: Length, clear: bool, terms: Terms) -> list[str]:
    """Everything that is wrong with a backing of this layout, of which `clear` says that no seam is near the edge."""
    shown = [_box(piece) for piece in layout.assembly]
    seams = list(_seams(shown))
    return [
        *_wrong_names(layout),
        *_off_the_cloth(layout, terms),
        *_overlaps([_box(cut) for cut in layout.cuts], "on the cloth"),
        *_wrong_sizes(layout, shown, terms),
        *_overlaps(shown, "in the backing"),
        *_not_covered(shown, terms),
        *_wrongly_counted(layout, seams),
        *_wrongly_clear(seams, clear, terms),
        *_crowded_points(shown),
        *_bought_short(layout, bought, terms),
        *_against_the_grain(layout, terms),
    ]


def _box(piece: CutPiece | VisiblePiece) -> Box:
    left, top = piece.x.mm, piece.y.mm
    return Box(piece.piece, left, top, left + piece.width.mm, top + piece.length.mm)


def _meet(one: Box, other: Box) -> tuple[Fraction, Fraction]:
    """Measure how far two boxes reach over each other, across and down; 0 is a touch, below 0 a distance."""
    across = min(one.right, other.right) - max(one.x, other.x)
    down = min(one.bottom, other.bottom) - max(one.y, other.y)
    return across, down


def _wrong_names(layout: Claim) -> Iterator[str]:
    cut = Counter(piece.piece for piece in layout.cuts)
    shown = Counter(piece.piece for piece in layout.assembly)
    yield from (f"{name} is cut {times} times" for name, times in cut.items() if times > 1)
    yield from (f"{name} is shown {times} times" for name, times in shown.items() if times > 1)
    yield from (f"{name} is cut and not shown" for name in cut.keys() - shown.keys())
    yield from (f"{name} is shown and not cut" for name in shown.keys() - cut.keys())


def _off_the_cloth(layout: Claim, terms: Terms) -> Iterator[str]:
    for cut in map(_box, layout.cuts):
        if cut.area <= 0 or cut.right <= cut.x:
            yield f"{cut.name} has no size"
        inside = cut.x >= 0 and cut.y >= 0 and cut.right <= terms.usable.mm and cut.bottom <= layout.cut_length.mm
        if not inside:
            yield f"{cut.name} lies off the cloth"


def _overlaps(boxes: list[Box], where: str) -> Iterator[str]:
    for one, other in combinations(boxes, 2):
        if min(_meet(one, other)) > 0:
            yield f"{one.name} and {other.name} overlap {where}"


def _wrong_sizes(layout: Claim, shown: list[Box], terms: Terms) -> Iterator[str]:
    """A cut is what its piece shows and a seam allowance on each edge that is sewn."""
    cuts = {cut.piece: cut for cut in layout.cuts}
    for piece, box in zip(layout.assembly, shown, strict=True):
        across = box.right - box.x + terms.allowance.mm * _sewn_edges(box, shown, "x")
        down = box.bottom - box.y + terms.allowance.mm * _sewn_edges(box, shown, "y")
        right = (down, across) if piece.turned else (across, down)
        cut = cuts.get(piece.piece)
        if cut and (cut.width.mm, cut.length.mm) != right:
            yield f"{piece.piece} is cut {cut.width} x {cut.length}, not {Length(right[0])} x {Length(right[1])}"


def _sewn_edges(box: Box, shown: list[Box], axis: Axis) -> int:
    """Count those of the two edges across `axis` that abut another piece."""
    if axis == "x":
        beside = [other for other in shown if other is not box and _meet(box, other)[1] > 0]
        return any(other.right == box.x for other in beside) + any(other.x == box.right for other in beside)
    beside = [other for other in shown if other is not box and _meet(box, other)[0] > 0]
    return any(other.bottom == box.y for other in beside) + any(other.y == box.bottom for other in beside)


def _not_covered(shown: list[Box], terms: Terms) -> Iterator[str]:
    """Pieces that do not overlap tile their bounds where their areas add up to them."""
    right, bottom = max(box.right for box in shown), max(box.bottom for box in shown)
    if min(box.x for box in shown) or min(box.y for box in shown):
        yield "the backing does not start in its corner"
    if right < terms.width.mm or bottom < terms.length.mm:
        yield "the backing is smaller than needed"
    if sum(box.area for box in shown) != right * bottom:
        yield "the pieces leave a gap or overlap"


def _seams(shown: list[Box]) -> Iterator[Seam]:
    """Every maximal line along which pieces abut: edges that touch on one line are one seam."""
    open_seam: Seam | None = None
    for edge in sorted(_touching_edges(shown)):
        if open_seam and edge[:2] == open_seam[:2] and edge.start <= open_seam.end:
            open_seam = open_seam._replace(end=max(open_seam.end, edge.end))
            continue
        if open_seam:
            yield open_seam
        open_seam = edge
    if open_seam:
        yield open_seam


def _touching_edges(shown: list[Box]) -> Iterator[Seam]:
    for one, other in combinations(shown, 2):
        across, down = _meet(one, other)
        if across == 0 and down > 0:
            yield Seam("x", max(one.x, other.x), max(one.y, other.y), min(one.bottom, other.bottom))
        if down == 0 and across > 0:
            yield Seam("y", max(one.y, other.y), max(one.x, other.x), min(one.right, other.right))


def _wrongly_counted(layout: Claim, seams: list[Seam]) -> Iterator[str]:
    measured = Length(sum((seam.end - seam.start for seam in seams), Fraction(0)))
    if layout.seams != len(seams):
        yield f"{layout.seams} seams are said, {len(seams)} are sewn"
    if layout.seam_length != measured:
        yield f"seams of {layout.seam_length} are said, {measured} are sewn"


def _wrongly_clear(seams: list[Seam], clear: bool, terms: Terms) -> Iterator[str]:
    """The quilt is trimmed the overage inside what is needed; a seam is near that along the edge, not across it."""
    near = [seam for seam in seams if _is_near(seam, terms)]
    if near and clear:
        yield f"a seam at {near[0].axis} = {Length(near[0].at)} lies near the trimmed edge, and it is said to be clear"
    if not near and not clear:
        yield "no seam lies near the trimmed edge, and it is said not to be clear"


def _is_near(seam: Seam, terms: Terms) -> bool:
    far = terms.width if seam.axis == "x" else terms.length
    edges = (terms.overage.mm, far.mm - terms.overage.mm)
    return any(abs(seam.at - edge) < terms.clear_edge.mm for edge in edges)


def _crowded_points(shown: list[Box]) -> Iterator[str]:
    """Three pieces meet where one seam ends on another; four would be a lump."""
    corners = {(x, y) for box in shown for x in (box.x, box.right) for y in (box.y, box.bottom)}
    for x, y in sorted(corners):
        meeting = [box.name for box in shown if box.x <= x <= box.right and box.y <= y <= box.bottom]
        if len(meeting) > 3:
            yield f"{', '.join(meeting)} meet at one point"


def _bought_short(layout: Claim, bought: Length, terms: Terms) -> Iterator[str]:
    needed = layout.cut_length.mm / (1 - terms.shrink_along) + terms.straighten.mm
    if bought.mm < needed:
        yield f"{bought} is bought, short of {Length(needed)}"


def _against_the_grain(layout: Claim, terms: Terms) -> Iterator[str]:
    if terms.one_way:
        yield from (f"{piece.piece} is turned, and the cloth runs one way" for piece in layout.assembly if piece.turned)
