"""A layout of the backing: where each piece lies on the cloth, and which part of it is visible once it is sewn.

A backing is a row of elements side by side, joined by long seams: full panels, and at most one band, which may
be pieces joined end to end. A row keeps whole steps of the grid; its pieces are placed only when they are read,
because the search makes many rows and keeps few.
"""

from typing import Literal, NamedTuple

from finishcalc.measures.length import Length, Size
from finishcalc.plans.grid import Grid
from finishcalc.wording.words import piece_name


class CutPiece(NamedTuple):
    """A piece on the cloth: x across the usable width, y along the cloth; names are unique."""

    piece: str
    x: Length
    y: Length
    width: Length
    length: Length


class VisiblePiece(NamedTuple):
    """The part of a piece that is visible in the backing, seam allowances hidden: x across the top's width, y down.

    `turned` says that the cloth's length runs across the top, not down it.
    """

    piece: str
    x: Length
    y: Length
    width: Length
    length: Length
    turned: bool


class Leftover(NamedTuple):
    """A rectangle of cloth that is bought and not needed."""

    x: Length
    y: Length
    width: Length
    length: Length


class Element(NamedTuple):
    """A panel, half or band of the backing from end to end, in steps of the grid: `visible_width` across it and its
    pieces' `visible_lengths` along it. The first `turned` pieces are cut across the cloth. Each panel takes a length of
    the cloth of its own, two halves share one, and so do the strips of a band."""

    kind: Literal["panel", "half", "band"]
    visible_width: int
    visible_lengths: tuple[int, ...]
    turned: int = 0


class PanelRow(NamedTuple):
    """Elements side by side over `across`, each `along` long, in steps of the grid. `crosswise` says that the
    elements run side to side in the quilt; panels start `pitch` apart on the cloth."""

    crosswise: bool
    across: int
    along: int
    usable_width: int
    seam_allowance: int
    pitch: int
    elements: tuple[Element, ...]


class RowPiece(NamedTuple):
    """A piece in steps of the grid: where its visible part lies along and across its row and how large that is, then
    its place and size on the cloth."""

    along: int
    across: int
    visible_along: int
    visible_across: int
    turned: bool
    x: int
    y: int
    cut_width: int
    cut_length: int


class Layout(NamedTuple):
    """A way to make the backing. `runs` is the direction of its longest seams."""

    grid: Grid
    row: PanelRow
    seams: int
    runs: Literal["none", "lengthwise", "crosswise"]

    @property
    def size(self) -> Size:
        """The width and the length that it covers in the quilt."""
        across, along = self.grid.length(self.row.across), self.grid.length(self.row.along)
        return Size(along, across) if self.row.crosswise else Size(across, along)

    @property
    def name(self) -> str:
        """The kinds of elements it is made of, as one word for programs."""
        if not self.seams:
            return "one-piece"
        kinds = [element.kind for element in self.row.elements]
        if "band" not in kinds:
            return "panels-and-halves" if "half" in kinds else "panels"
        return "panels-and-band" if len(kinds) > 1 else "strips"

    @property
    def panels(self) -> int:
        """The number of elements that are full panels."""
        return sum(element.kind == "panel" for element in self.row.elements)

    @property
    def band(self) -> Element | None:
        """The one element that may be pieced."""
        return next((element for element in self.row.elements if element.kind == "band"), None)

    @property
    def turned(self) -> bool:
        """True where some pieces are cut across the cloth and others along it."""
        return any(element.turned for element in self.row.elements)

    @property
    def panel_lengths(self) -> int:
        """The number of lengths of the cloth that panels and halves take."""
        return panel_lengths(self.row)

    @property
    def usable_width(self) -> Length:
        """The usable width of the cloth the layout is cut from."""
        return self.grid.length(self.row.usable_width)

    @property
    def cut_steps(self) -> tuple[int, ...]:
        """The cut lengths in steps of the grid: see `cut_steps`."""
        return cut_steps(self.row)

    @property
    def trimmed(self) -> bool:
        """Some pieces are cut narrower than the cloth's usable width."""
        return any(cut.width < self.usable_width for cut in self.cuts)

    @property
    def seam_length(self) -> Length:
        """All seams together, as long as they are visible."""
        return self.grid.length(seam_steps(self.row))

    @property
    def cut_length(self) -> Length:
        """The washed cloth that the pieces take, as one length."""
        return self.grid.length(sum(self.cut_steps))

    @property
    def cuts(self) -> tuple[CutPiece, ...]:
        """The pieces on the cloth."""
        to = self.grid.length
        return tuple(
            CutPiece(piece_name(n), to(piece.x), to(piece.y), to(piece.cut_width), to(piece.cut_length))
            for n, piece in enumerate(pieces_of(self.row))
        )

    @property
    def assembly(self) -> tuple[VisiblePiece, ...]:
        """The visible parts of the pieces in the backing."""
        return tuple(self._visible_piece(n, piece) for n, piece in enumerate(pieces_of(self.row)))

    def _visible_piece(self, number: int, piece: RowPiece) -> VisiblePiece:
        """Turn the row's own axes into those of the top: a crosswise row runs along the top's width."""
        to, crosswise = self.grid.length, self.row.crosswise
        across, width = to(piece.across), to(piece.visible_across)
        along, length = to(piece.along), to(piece.visible_along)
        return VisiblePiece(
            piece=piece_name(number),
            x=along if crosswise else across,
            y=across if crosswise else along,
            width=length if crosswise else width,
            length=width if crosswise else length,
            turned=crosswise != piece.turned,
        )


def panel_lengths(row: PanelRow) -> int:
    """Count the lengths of the cloth that the panels of a row take; two halves share one."""
    return sum({"panel": 2, "half": 1, "band": 0}[element.kind] for element in row.elements) // 2


def cut_steps(row: PanelRow) -> tuple[int, ...]:
    """Measure the cloth from the end of one row of pieces to the end of the next, in steps of the grid: it may be cut
    apart at these ends. Cloth lost so that a print meets lies before the panel that must meet."""
    ends = sorted({piece.y + piece.cut_length for piece in pieces_of(row)})
    return tuple(end - start for start, end in zip([0, *ends[:-1]], ends, strict=True))


def cut_steps_on_new_bolt(row: PanelRow, repeat: int) -> tuple[int, ...]:
    """Measure the same at the start of another bolt, where a panel that must meet loses a whole repeat instead."""
    lost = row.pitch - row.along
    return tuple(steps - lost + repeat if n and repeat else steps for n, steps in enumerate(cut_steps(row)))


def seam_steps(row: PanelRow) -> int:
    """Add up all seams: those between elements are as long as the row, joins within a band as long as it is wide."""
    joins = sum((len(element.visible_lengths) - 1) * element.visible_width for element in row.elements)
    return (len(row.elements) - 1) * row.along + joins


def pieces_of(row: PanelRow) -> list[RowPiece]:
    """Place every piece of a row. On the cloth lie panels and halves first, then turned pieces, then the strips:

    y ->  | panel | panel | half | turned | turned | strip    |
          |       |       | half |        |        | strip    |
    """
    pieces: list[RowPiece] = []
    across = y = 0
    half: RowPiece | None = None
    band_start = row.pitch * panel_lengths(row)
    for element, sewn in zip(row.elements, sewn_edges(len(row.elements)), strict=True):
        visible, cut_width = element.visible_width, element.visible_width + row.seam_allowance * sewn
        if element.kind == "band":
            pieces += _band_pieces(row, element, cut_width, across, band_start)
        elif half and element.kind == "half":
            pieces.append(half._replace(across=across, visible_across=visible, x=half.cut_width, cut_width=cut_width))
        else:
            panel = RowPiece(0, across, row.along, visible, False, 0, y, cut_width, row.along)
            pieces.append(panel)
            half = panel if element.kind == "half" else half
            y += row.pitch
        across += visible
    return pieces


def _band_pieces(row: PanelRow, band: Element, band_cut_width: int, across: int, start: int) -> list[RowPiece]:
    """Place the pieces of a band on the cloth from `start` on: turned ones one after the other, strips side by side."""
    pieces = []
    along = x = 0
    y = start
    edges = sewn_edges(len(band.visible_lengths))
    for n, (visible, sewn) in enumerate(zip(band.visible_lengths, edges, strict=True)):
        cut = visible + row.seam_allowance * sewn
        if n < band.turned:
            pieces.append(RowPiece(along, across, visible, band.visible_width, True, 0, y, cut, band_cut_width))
            y += band_cut_width
        else:
            pieces.append(RowPiece(along, across, visible, band.visible_width, False, x, y, band_cut_width, cut))
            x += band_cut_width
        along += visible
    return pieces


def sewn_edges(count: int) -> list[int]:
    """Count the sewn edges of each of `count` parts in a line: each takes a seam allowance; the two ends have one."""
    return [(n > 0) + (n < count - 1) for n in range(count)]
