"""The letters of the pieces on a cloth, which its picture and its cut list share."""

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import count, groupby
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.backing.layout import piece_name
from finishcalc.plans.cloth import USE_WORDS
from finishcalc.plans.cutting.layout import Band, ClothLayout, LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.wording.notation import NO_BREAK, Notation


class PieceKind(NamedTuple):
    """The pieces of one size for one part of the quilt. They are cut alike, even where they are joined to different
    lengths. `name` is the letter that a piece of the backing has in its picture."""

    use: str
    width: Length
    length: Length
    name: str = ""

    @property
    def is_square(self) -> bool:
        """True where both sides are the same."""
        return self.width == self.length


class Lettered(NamedTuple):
    """A kind of piece with its letter on a cloth. `number` are cut from all of its lengths. `scant` tells that its
    size has no room for the next step of a ruler."""

    letter: str
    kind: PieceKind
    number: int
    scant: bool

    def size(self, notation: Notation) -> str:
        """Write the size to cut: "2 1/2 x 40 in", "15 1/2 in square"."""
        width, length = self.kind.width, self.kind.length
        size = f"{notation.show(width)} square" if self.kind.is_square else notation.size(width, length)
        return f"a scant {size}" if self.scant else size


Lettering = dict[PieceKind, Lettered]
"""The kinds of pieces on a cloth in the order in which they are first cut."""


def kind_of(piece: LaidPiece) -> PieceKind:
    """Give the kind of a piece, however it lies."""
    return PieceKind(piece.use, piece.wanted.width, piece.wanted.length, piece.wanted.name)


def lettering_of(purchase: Purchase, notation: Notation) -> Lettering:
    """Give each kind of piece on a cloth a letter in the order of cutting: its own, or the next that none has."""
    numbers = Counter(kind_of(piece) for piece in _pieces(purchase.layouts))
    scant = {
        kind_of(piece)
        for layout in purchase.layouts
        for band in layout.bands
        if _is_tight(band, layout.usable, notation)
        for piece in pieces_of(band)
        if notation.measurable(piece.across) != piece.across
    }
    taken = {kind.name for kind in numbers}
    letters = (letter for letter in map(piece_name, count()) if letter not in taken)
    return {kind: Lettered(kind.name or next(letters), kind, number, kind in scant) for kind, number in numbers.items()}


def pieces_of(band: Band) -> Iterator[LaidPiece]:
    """Give the pieces of a band, column by column."""
    for column in band.columns:
        yield from column.pieces


def _pieces(layouts: Iterable[ClothLayout]) -> Iterator[LaidPiece]:
    for layout in layouts:
        for band in layout.bands:
            yield from pieces_of(band)


def _is_tight(band: Band, usable: Length, notation: Notation) -> bool:
    """True where the columns of a band, each up to the next step of a ruler, are wider than the cloth."""
    return sum((notation.measurable(column.width) for column in band.columns), ZERO) > usable


def key_words(lettering: Iterable[Lettered], notation: Notation) -> Iterator[str]:
    """Explain letters: "A: 6 for border 1, 2 1/2 x 40 in"; pieces of the backing with one size are named together."""
    for (use, size, _), alike in groupby(lettering, key=lambda each: _in_key(each, notation)):
        group = list(alike)
        letters = f",{NO_BREAK}".join(each.letter for each in group)
        number = sum(each.number for each in group)
        yield f"{letters}:{NO_BREAK}{number} for {USE_WORDS.get(use, use)}, {size}"


def _in_key(lettered: Lettered, notation: Notation) -> tuple[str, str, str]:
    """Only pieces with names of their own share a line with others."""
    kind = lettered.kind
    return kind.use, lettered.size(notation), "" if kind.name else lettered.letter
