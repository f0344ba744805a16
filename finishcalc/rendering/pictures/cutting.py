"""The cutting diagram of one bought length of cloth: every piece on it, and what is left of it."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.cutting.layout import Band, ClothLayout
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.rendering.lettering import Lettered, Lettering, key_words, kind_of, lettering_of
from finishcalc.wording.notation import Notation

FOLDED = Length.of(36, "in")
"""Cloth is folded in the middle, selvage to selvage, from about this width on (common practice)."""


class DrawnPiece(NamedTuple):
    """A piece on the cloth: `x` along it from the first cut, `y` across it from one selvage, and its letter."""

    x: Length
    y: Length
    along: Length
    across: Length
    lettered: Lettered

    @property
    def letter(self) -> str:
        """The letter that the key explains."""
        return self.lettered.letter


class DrawnRest(NamedTuple):
    """A rectangle of cloth that no piece takes. `meets` tells that it is left so that a print meets."""

    x: Length
    y: Length
    along: Length
    across: Length
    meets: bool = False


class DrawnCell(NamedTuple):
    """A stretch of a column, `along` it: a piece, or pieces side by side; without letters it is left over."""

    along: Length
    letters: tuple[str, ...]


class DrawnColumn(NamedTuple):
    """Stretches behind each other along the cloth, on `across` of its width."""

    across: Length
    cells: tuple[DrawnCell, ...]


class DrawnBand(NamedTuple):
    """A length that is cut across the whole cloth, from `x` on: its columns from one selvage to the other, and the same
    as pieces and what is left, each with its place."""

    x: Length
    length: Length
    columns: tuple[DrawnColumn, ...]
    pieces: tuple[DrawnPiece, ...]
    rests: tuple[DrawnRest, ...]


class CuttingPicture(NamedTuple):
    """One length of cloth as it lies on the table once it is washed and squared: `length` of it, `usable` between the
    selvages. Its bands come in cutting order, and `rests` are beside none of them. `one_way` tells of cloth that may
    not be turned."""

    title: str
    facts: tuple[str, ...]
    length: Length
    usable: Length
    bands: tuple[DrawnBand, ...]
    rests: tuple[DrawnRest, ...]
    one_way: bool
    key: tuple[str, ...]

    @property
    def folded(self) -> bool:
        """True where cloth of this width comes folded in the middle."""
        return self.usable >= FOLDED

    @property
    def has_rest(self) -> bool:
        """True where something is left of it."""
        return bool(self.rests) or any(band.rests for band in self.bands)

    @property
    def rest_words(self) -> str:
        """Explain the hatching."""
        meets = any(rest.meets for rest in self.rests)
        return "left over, between bands so that the print meets" if meets else "left over"

    @property
    def grain_words(self) -> str:
        """Say which way the drawing runs, whose rows have the cloth's length from left to right."""
        if self.one_way:
            return "from the first cut at the left to the end of the bolt: the cloth runs one way"
        return "grain, along the selvages: from left to right"

    @property
    def pieces(self) -> Iterator[DrawnPiece]:
        """Every piece, band by band."""
        for band in self.bands:
            yield from band.pieces


def cutting_picture(purchase: Purchase, number: int, notation: Notation) -> CuttingPicture:
    """Draw one of the lengths of a purchase, by its number from 0 on, with all the parts that are cut from it."""
    layout, fabric = purchase.layouts[number], purchase.fabric
    lettering = lettering_of(purchase, notation)
    bands = tuple(_bands(layout, lettering))
    washed = purchase.washed_lengths[number]
    used = {piece.letter for band in bands for piece in band.pieces}
    return CuttingPicture(
        title=notation.show(fabric.name),
        facts=tuple(_facts(purchase, number, layout, notation)),
        length=max(washed, layout.length),
        usable=layout.usable,
        bands=bands,
        rests=tuple(_rests_between(layout, washed)),
        one_way=fabric.directional or fabric.nap,
        key=tuple(key_words((each for each in lettering.values() if each.letter in used), notation)),
    )


def cutting_pictures(purchases: tuple[Purchase, ...], notation: Notation) -> list[CuttingPicture]:
    """Draw every length of every cloth."""
    return [
        cutting_picture(purchase, number, notation) for purchase in purchases for number in range(len(purchase.layouts))
    ]


def _facts(purchase: Purchase, number: int, layout: ClothLayout, notation: Notation) -> Iterator[str]:
    """Say the length to buy, brought or at hand, its parts, and the cloth that is drawn."""
    fabric, count = purchase.fabric, len(purchase.layouts)
    length = notation.show(purchase.cut_from[number])
    bought = "to buy" if purchase.supplied_by == "shop" else "from the customer"
    bought = "at hand" if purchase.is_at_hand(number) else bought
    which = f", length {number + 1} of {count}" if count > 1 else ""
    yield f"{length} {bought}{which}, for {uses_words(purchase.uses)}"
    washed = "washed and squared: " if fabric.shrink_along or fabric.shrink_across else ""
    cut, usable = notation.show(layout.length), notation.show(layout.usable)
    yield f"{washed}{cut} of it is cut, {usable} wide between the selvages"


def _bands(layout: ClothLayout, lettering: Lettering) -> Iterator[DrawnBand]:
    if layout.turned:
        yield _lengthwise(layout, lettering)
        return
    x = ZERO
    for band in layout.bands:
        x += band.gap
        yield _crosswise(band, x, layout.usable, lettering)
        x += band.length


def _crosswise(band: Band, x: Length, usable: Length, lettering: Lettering) -> DrawnBand:
    """Draw a band that is cut across the cloth."""
    columns, pieces, rests = list[DrawnColumn](), list[DrawnPiece](), list[DrawnRest]()
    y = ZERO
    for column in band.columns:
        cells, behind = list[DrawnCell](), x
        for piece in column.pieces:
            pieces.append(DrawnPiece(behind, y, piece.along, piece.across, lettering[kind_of(piece)]))
            cells.append(DrawnCell(piece.along, (pieces[-1].letter,)))
            behind += piece.along
        left = x + band.length - behind
        if left > ZERO:
            cells.append(DrawnCell(left, ()))
            rests.append(DrawnRest(behind, y, left, column.width))
        columns.append(DrawnColumn(column.width, tuple(cells)))
        y += column.width
    if y < usable:
        columns.append(DrawnColumn(usable - y, (DrawnCell(band.length, ()),)))
        rests.append(DrawnRest(x, y, band.length, usable - y))
    return DrawnBand(x, band.length, tuple(columns), tuple(pieces), tuple(rests))


def _lengthwise(layout: ClothLayout, lettering: Lettering) -> DrawnBand:
    """Draw bands that run along the cloth as columns of one band, which is as long as the longest."""
    length, usable = layout.length, layout.usable
    columns, pieces, rests = list[DrawnColumn](), list[DrawnPiece](), list[DrawnRest]()
    y = ZERO
    for band in layout.bands:
        x, cells = ZERO, list[DrawnCell]()
        for column in band.columns:
            beside = y
            for piece in column.pieces:
                pieces.append(DrawnPiece(x, beside, piece.along, piece.across, lettering[kind_of(piece)]))
                beside += piece.across
            cells.append(DrawnCell(column.width, tuple(lettering[kind_of(piece)].letter for piece in column.pieces)))
            if beside < y + band.length:
                rests.append(DrawnRest(x, beside, column.width, y + band.length - beside))
            x += column.width
        if x < length:
            cells.append(DrawnCell(length - x, ()))
            rests.append(DrawnRest(x, y, length - x, band.length))
        columns.append(DrawnColumn(band.length, tuple(cells)))
        y += band.length
    if y < usable:
        columns.append(DrawnColumn(usable - y, (DrawnCell(length, ()),)))
        rests.append(DrawnRest(ZERO, y, length, usable - y))
    return DrawnBand(ZERO, length, tuple(columns), tuple(pieces), tuple(rests))


def _rests_between(layout: ClothLayout, washed: Length) -> Iterator[DrawnRest]:
    """Give the gaps before bands whose print must meet, and the end of the cloth behind the last."""
    x = ZERO
    for band in () if layout.turned else layout.bands:
        if band.gap:
            yield DrawnRest(x, ZERO, band.gap, layout.usable, meets=True)
        x += band.gap + band.length
    if layout.length < washed:
        yield DrawnRest(layout.length, ZERO, washed - layout.length, layout.usable)
