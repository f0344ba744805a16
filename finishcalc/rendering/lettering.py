"""The letters of the pieces on a cloth, which its picture and its cut list share."""

from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import count, groupby
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.cloth import USE_WORDS
from finishcalc.plans.cutting.layout import Band, ClothLayout, LaidPiece
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.words import piece_name


class PieceKind(NamedTuple):
    """The pieces of one size for one part of the quilt. They are cut alike, even where they are joined to different
    lengths. `name` is the letter that a piece of the backing has in its picture. `runs` says which way it lies where
    the direction of the cloth asks for it: "along the cloth" or "across the cloth"."""

    use: str
    width: Length
    length: Length
    name: str = ""
    runs: str = ""


class Lettered(NamedTuple):
    """A kind of piece with its letter on a cloth; `number` of them are cut. Where there is no room for the next step of
    a ruler, its width is `scant`, and one of so many equal parts of the cloth's width, or of no such part where that is
    0."""

    letter: str
    kind: PieceKind
    number: int
    scant: bool = False
    parts: int = 0

    def size(self, notation: Notation) -> str:
        """Write the size to cut: "2 1/2 x 40 in", "15 1/2 in square", "a scant 13 3/8 x 50 in, 1/3 of the width"."""
        kind = self.kind
        width, length = kind.width, kind.length
        if kind.name:  # a backing is as large as its sum says; other pieces are asked for in what a ruler shows
            width, length = notation.measurable(width), notation.measurable(length)
        if self.scant:
            share = {0: "", 1: ", the whole width"}.get(self.parts, f", 1/{self.parts} of the width")
            return f"a scant {notation.measured(width, length)}{share}"
        return f"{notation.show(width)} square" if width == length else notation.size(width, length)

    def words(self, notation: Notation) -> str:
        """Write the size to cut, and which way where the direction of the cloth asks for one."""
        runs = f", {self.kind.runs}" if self.kind.runs else ""
        return self.size(notation) + runs


Lettering = dict[PieceKind, Lettered]
"""The kinds of pieces on a cloth in the order of their letters."""


def kind_of(piece: LaidPiece) -> PieceKind:
    """Give the kind of a piece, however it lies where it may lie either way."""
    wanted = piece.wanted
    runs = ("along the cloth" if wanted.along else "across the cloth") if wanted.directed else ""
    return PieceKind(wanted.use, wanted.width, wanted.length, wanted.name, runs)


def lettering_of(purchase: Purchase, notation: Notation) -> Lettering:
    """Give each kind of piece on a cloth a letter in the order of cutting: its own, or the next that none has."""
    numbers = _numbers(purchase.layouts)
    scant = {kind: parts for layout in purchase.layouts for kind, parts in _scant(layout, notation)}
    taken = {kind.name for kind in numbers}
    letters = (letter for letter in map(piece_name, count()) if letter not in taken)
    lettered = (
        Lettered(kind.name or next(letters), kind, number, kind in scant, scant.get(kind, 0))
        for kind, number in numbers.items()
    )
    return {each.kind: each for each in sorted(lettered, key=lambda each: (len(each.letter), each.letter))}


def _scant(layout: ClothLayout, notation: Notation) -> Iterator[tuple[PieceKind, int]]:
    """Give the pieces whose columns, each up to the next step of a ruler, would be wider than the cloth together, with
    the number of equal parts that the width is cut in."""
    different = {id(band): band for band in (() if layout.turned else layout.bands)}
    for band in different.values():
        widths = [column.width for column in band.columns]
        if sum(map(notation.measurable, widths), ZERO) <= layout.usable:
            continue
        parts = len(widths) if len(set(widths)) == 1 else 0
        for piece in pieces_of(band):
            if notation.measurable(piece.across) != piece.across:
                yield kind_of(piece), parts


def pieces_of(band: Band) -> Iterator[LaidPiece]:
    """Give the pieces of a band, column by column."""
    for column in band.columns:
        yield from column.pieces


def _numbers(layouts: Iterable[ClothLayout]) -> Counter[PieceKind]:
    """Count the pieces of each kind, in the order of cutting. Bands that are one and the same are looked at once."""
    numbers: Counter[PieceKind] = Counter()
    for layout in layouts:
        for _, run in groupby(layout.bands, key=id):
            alike = list(run)
            for kind, count_in_band in Counter(map(kind_of, pieces_of(alike[0]))).items():
                numbers[kind] += count_in_band * len(alike)
    return numbers


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
    return kind.use, lettered.words(notation), "" if kind.name else lettered.letter
