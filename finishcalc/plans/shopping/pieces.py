"""Pieces of several projects that are laid together: alike ones are packed as one kind, and told apart afterwards."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.rounding import down_to_step
from finishcalc.model.on_hand import LEAST_SIDE
from finishcalc.plans.cutting.layout import Band, ClothLayout, Column, LaidPiece, Wanted

PieceShape = tuple[Length, Length, bool, bool]
"""Width, length, and if a piece may lie along the cloth and across it."""


class Pieces:
    """Marked pieces that are still to be laid, each wanted once."""

    def __init__(self, wanted: Iterable[Wanted]) -> None:
        self._of_shape: dict[PieceShape, list[Wanted]] = {}
        for each in sorted(wanted):
            shape = (each.width, each.length, each.along, each.across)
            self._of_shape.setdefault(shape, []).append(each)

    def __bool__(self) -> bool:
        return any(self._of_shape.values())

    @property
    def all(self) -> list[Wanted]:
        """Every piece by itself."""
        return [each for alike in self._of_shape.values() for each in alike]

    @property
    def kinds(self) -> tuple[Wanted, ...]:
        """The pieces by their shape alone, so many of each, as the packer reads them."""
        return tuple(
            Wanted("", width, length, len(alike), along, across, length)
            for (width, length, along, across), alike in sorted(self._of_shape.items())
            if alike
        )

    def take(self, layout: ClothLayout) -> ClothLayout:
        """Take the pieces that a layout of kinds lays, and mark each on it as one of them. A piece that is marked
        already stays as it is."""

        def mark(piece: LaidPiece) -> LaidPiece:
            kind = piece.wanted
            if kind.use:
                return piece
            alike = self._of_shape[kind.width, kind.length, kind.along, kind.across]
            return piece._replace(wanted=alike.pop(0))

        return with_pieces(layout, mark)


def with_pieces(layout: ClothLayout, change: Callable[[LaidPiece], LaidPiece]) -> ClothLayout:
    """Change every piece of a layout."""
    return layout._replace(
        bands=tuple(
            band._replace(
                columns=tuple(Column(column.width, tuple(map(change, column.pieces))) for column in band.columns)
            )
            for band in layout.bands
        )
    )


def laid_in(layouts: Iterable[ClothLayout]) -> Iterator[LaidPiece]:
    """Every piece as it is laid."""
    for layout in layouts:
        for band in layout.bands:
            for column in band.columns:
                yield from column.pieces


def wanted_of(layouts: Iterable[ClothLayout]) -> Iterator[Wanted]:
    """Every piece that is laid, as it is wanted."""
    return (piece.wanted for piece in laid_in(layouts))


def side_by_side(layouts: Sequence[ClothLayout], kept: tuple[Band, ...]) -> ClothLayout:
    """Lay every piece as it lies already, the longest first, beside others in the first band that has room (first-fit
    decreasing height). No band is longer than its longest piece, so that a bolt is seldom too short for any."""
    usable, panels = layouts[0].usable, Counter(wanted_of([layouts[0]._replace(bands=kept)]))
    bands = list[list[LaidPiece]]()
    for piece in sorted(laid_in(layouts), key=lambda piece: (-piece.along.mm, -piece.across.mm, piece.wanted)):
        if panels[piece.wanted]:
            panels[piece.wanted] -= 1
            continue
        room = usable - piece.across
        band = next((band for band in bands if sum((each.across for each in band), ZERO) <= room), None)
        if band is None:
            bands.append(band := [])
        band.append(piece)
    laid = (Band(band[0].along, tuple(Column(piece.across, (piece,)) for piece in band)) for band in bands)
    return ClothLayout(usable, (*kept, *laid))


def without(layouts: Iterable[ClothLayout], gone: Iterable[Wanted]) -> tuple[ClothLayout, ...]:
    """Leave pieces out of layouts. Columns and bands that held nothing else are left out too, and a band is as long as
    the longest column that it keeps, so that no layout is longer than it was."""
    left = Counter(gone)
    kept = (_without(layout, left) for layout in layouts)
    return tuple(layout for layout in kept if layout.bands)


def _without(layout: ClothLayout, gone: Counter[Wanted]) -> ClothLayout:
    bands = []
    for band in layout.bands:
        columns = []
        for column in band.columns:
            pieces = []
            for piece in column.pieces:
                if gone[piece.wanted]:
                    gone[piece.wanted] -= 1
                else:
                    pieces.append(piece)
            if pieces:
                columns.append(Column(column.width, tuple(pieces)))
        if columns:
            longest = max(_extent(column, layout.turned) for column in columns)
            changed = tuple(columns) != band.columns
            bands.append(band._replace(length=longest, columns=tuple(columns)) if changed else band)
    return layout._replace(bands=tuple(bands))


def _extent(column: Column, turned: bool) -> Length:
    """Give the size of a column's pieces in the direction in which they follow each other."""
    return sum((piece.across if turned else piece.along for piece in column.pieces), ZERO)


def left_over(layout: ClothLayout, length: Length) -> Iterator[Size]:
    """Give the rectangles, across by along the cloth, that are left of a length of washed cloth: beside the columns of
    each band, behind the pieces of each column, before a print that meets, and at the end."""
    usable, taken = layout.usable, layout.length
    room = length if layout.turned else usable
    used = sum((band.length for band in layout.bands), ZERO)
    for band in layout.bands:
        beside = (taken if layout.turned else room) - band.width
        sizes = [(beside, band.length), (room, band.gap)]
        sizes += [(column.width, band.length - _extent(column, layout.turned)) for column in band.columns]
        yield from (Size(*(reversed(size) if layout.turned else size)) for size in sizes)
    if layout.turned:
        yield Size(usable - used, taken)
    yield Size(usable, length - taken)


def worth_keeping(sizes: Iterable[Size], finest: Length) -> Iterator[Size]:
    """Give sizes down to a step of a ruler, because nobody is promised more than is there, as far as they may be told
    as pieces on hand."""
    narrowest = Length.parse(LEAST_SIDE)
    for size in sizes:
        shown = Size(down_to_step(size.width, finest), down_to_step(size.length, finest))
        if min(shown) >= narrowest:
            yield shown
