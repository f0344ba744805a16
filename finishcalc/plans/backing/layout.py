"""A backing as pieces: where each lies on the cloth, and what each shows once it is sewn.

A backing is a row of elements side by side, joined by long seams: full panels, and at most one band, which may
be pieces joined end to end. A row keeps the whole numbers it is made of; where its pieces lie is worked out
when it is asked for.
"""

from typing import Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.plans.backing.grid import Grid

NAMES = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class Cut(NamedTuple):
    """A piece on the cloth: x across the usable width, y along the cloth; names are unique."""

    piece: str
    x: Length
    y: Length
    width: Length
    length: Length


class Shown(NamedTuple):
    """What a piece shows in the backing, seam allowances hidden: x across the top's width, y down.

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
    """A strip of the backing from end to end, in steps of the grid: it shows `shown` across, and its pieces show
    `pieces` along. The first `turned` of them are cut across the cloth. Panels have a length of the cloth each,
    halves share one, and so do the strips of a band."""

    kind: Literal["panel", "half", "band"]
    shown: int
    pieces: tuple[int, ...]
    turned: int = 0


class Row(NamedTuple):
    """Elements side by side over `across`, each `along` long, in steps of the grid. `crosswise` says that the
    elements run side to side in the quilt; panels start `pitch` apart on the cloth."""

    crosswise: bool
    across: int
    along: int
    usable: int
    seam: int
    pitch: int
    elements: tuple[Element, ...]


class Placed(NamedTuple):
    """A piece in steps of the grid: what it shows along and across its row, and its size and place on the cloth."""

    along: int
    across: int
    shown_along: int
    shown_across: int
    turned: bool
    x: int
    y: int
    cut_width: int
    cut_length: int


class Layout(NamedTuple):
    """A way to make the backing. `runs` says which way its longest seams run; `turned` that it mixes the grain."""

    grid: Grid
    row: Row
    seams: int
    runs: Literal["none", "lengthwise", "crosswise"]

    @property
    def name(self) -> str:
        """What it is made of, as one word for programs."""
        if not self.seams:
            return "one-piece"
        kinds = [element.kind for element in self.row.elements]
        if "band" not in kinds:
            return "panels-and-halves" if "half" in kinds else "panels"
        return "panels-and-band" if len(kinds) > 1 else "strips"

    @property
    def panels(self) -> int:
        """How many elements are panels as wide as the cloth allows."""
        return sum(element.kind == "panel" for element in self.row.elements)

    @property
    def band(self) -> Element | None:
        """The one element that may be pieced."""
        return next((element for element in self.row.elements if element.kind == "band"), None)

    @property
    def turned(self) -> bool:
        """Whether some pieces are cut across the cloth and others along it."""
        return any(element.turned for element in self.row.elements)

    @property
    def lengths_across(self) -> int:
        """How many lengths of the cloth the panels and halves take."""
        return panel_lengths(self.row)

    @property
    def cut_steps(self) -> tuple[int, ...]:
        """The rows of pieces along the cloth, in steps of the grid: see `cut_steps`."""
        return cut_steps(self.row)

    @property
    def seam_length(self) -> Length:
        """All seams, as long as they show."""
        return self.grid.length(seam_steps(self.row))

    @property
    def cut_length(self) -> Length:
        """How much washed cloth the pieces take."""
        return self.grid.length(sum(self.cut_steps))

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Where the pieces lie on the cloth."""
        to = self.grid.length
        return tuple(
            Cut(piece_name(n), to(piece.x), to(piece.y), to(piece.cut_width), to(piece.cut_length))
            for n, piece in enumerate(place(self.row))
        )

    @property
    def assembly(self) -> tuple[Shown, ...]:
        """What the pieces show in the backing."""
        return tuple(self._shown(n, piece) for n, piece in enumerate(place(self.row)))

    def _shown(self, number: int, piece: Placed) -> Shown:
        across, along = self.grid.length(piece.across), self.grid.length(piece.along)
        wide, long = self.grid.length(piece.shown_across), self.grid.length(piece.shown_along)
        turned = self.row.crosswise != piece.turned
        if self.row.crosswise:
            return Shown(piece_name(number), along, across, long, wide, turned)
        return Shown(piece_name(number), across, along, wide, long, turned)


def panel_lengths(row: Row) -> int:
    """How many lengths of the cloth the panels of a row take; two halves share one."""
    return sum({"panel": 2, "half": 1, "band": 0}[element.kind] for element in row.elements) // 2


def cut_steps(row: Row) -> tuple[int, ...]:
    """The cloth from the end of one row of pieces to the end of the next, in steps of the grid: where it may be cut
    apart. What is lost so that a print meets lies before the panel that must meet it."""
    ends = sorted({piece.y + piece.cut_length for piece in place(row)})
    return tuple(end - start for start, end in zip([0, *ends[:-1]], ends, strict=True))


def cut_steps_on_new_bolt(row: Row, repeat: int) -> tuple[int, ...]:
    """The same at the start of another bolt, where a panel that must meet loses a whole repeat, in steps."""
    lost = row.pitch - row.along
    return tuple(each - lost + repeat if n and repeat else each for n, each in enumerate(cut_steps(row)))


def seam_steps(row: Row) -> int:
    """The length of all seams: between elements as long as the row, within a band as long as it shows."""
    joins = sum((len(element.pieces) - 1) * element.shown for element in row.elements)
    return (len(row.elements) - 1) * row.along + joins


def place(row: Row) -> list[Placed]:
    """Every piece of a row: on the cloth lie panels and halves first, then turned pieces, then strips side by side."""
    placed: list[Placed] = []
    across = y = 0
    half: Placed | None = None
    lengths = panel_lengths(row)
    for n, element in enumerate(row.elements):
        wide = element.shown + row.seam * ((n > 0) + (n < len(row.elements) - 1))
        if element.kind == "band":
            placed += _band(row, element, wide, across, row.pitch * lengths)
        elif half and element.kind == "half":
            placed.append(half._replace(across=across, shown_across=element.shown, x=half.cut_width, cut_width=wide))
        else:
            placed.append(Placed(0, across, row.along, element.shown, False, 0, y, wide, row.along))
            half = placed[-1] if element.kind == "half" else half
            y += row.pitch
        across += element.shown
    return placed


def _band(row: Row, band: Element, wide: int, across: int, start: int) -> list[Placed]:
    """The pieces of a band, on the cloth from `start` on."""
    placed = []
    along = x = 0
    y = start
    for n, shown in enumerate(band.pieces):
        long = shown + row.seam * ((n > 0) + (n < len(band.pieces) - 1))
        if n < band.turned:
            placed.append(Placed(along, across, shown, band.shown, True, 0, y, long, wide))
            y += wide
        else:
            placed.append(Placed(along, across, shown, band.shown, False, x, y, wide, long))
            x += wide
        along += shown
    return placed


def piece_name(number: int) -> str:
    """A, B, C ... Z, A2, B2 ..."""
    round_of, letter = divmod(number, len(NAMES))
    return NAMES[letter] + (str(round_of + 1) if round_of else "")
