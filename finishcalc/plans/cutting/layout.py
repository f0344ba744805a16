"""The layout of pieces on one cloth, as a rotary cutter and a ruler cut them.

Every cut runs from edge to edge of the piece in hand, and there are at most three of them to a piece: across the whole
cloth, which gives a band; along the cloth through the band, which gives a column; across the column, which gives the
pieces. Every piece is as wide as its column, so that it needs no fourth cut to trim it::

    |<------- usable width ------->|
    +--------+--------+-----+------+
    |        |        |  C  |      |
    |   A    |   A    +-----+ free |  a band: as long as its tallest column
    |        |        |  C  |      |
    |        |        +-----+      |
    |        |        | free|      |
    +--------+--------+-----+------+
    |       B      |       B       |  a strip across the cloth: a band whose columns hold one piece each
    +--------------+---------------+
       the length of the cloth runs down the page

Or the first cut runs along the cloth: then the same layout is `turned`, and is read with length and width swapped. Its
bands lie side by side across the cloth and run along it from the first cut on, `length` is their size across it, and a
column is cut across the band and then along into pieces. So a border and the squares beside it take three cuts too::

    +--------+--------+------------+
    |        |        |     A      |  a column of the third band
    |        |        +------+-----+
    |  band  |  band  |  B   |  B  |
    |        |        +------+-----+
    +--------+--------+------------+
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length


class Wanted(NamedTuple):
    """So many alike pieces of one part of the quilt. `use` names the part: "sashing", "border 2". A piece is `width` by
    `length`; its length may lie `along` the cloth, `across` it, or either way. `joined_to` is the length of the strip
    that it is sewn into, which is its own where it is whole. `name` is the letter of a piece that has one elsewhere.
    Where the direction of the cloth says which way it lies, it is `directed`. Where the pieces of several projects lie
    on one cloth, `project` is the label of its own, with which its use begins: "table runner: border 2"."""

    use: str
    width: Length
    length: Length
    number: int
    along: bool
    across: bool
    joined_to: Length
    name: str = ""
    directed: bool = False
    project: str = ""

    @property
    def joined(self) -> bool:
        """True where it is sewn to others end to end."""
        return self.joined_to != self.length


class LaidPiece(NamedTuple):
    """A piece on the cloth: `across` the cloth and `along` it. It is one of the pieces `wanted`, turned as it lies."""

    wanted: Wanted
    across: Length
    along: Length

    @property
    def use(self) -> str:
        """The part that the piece belongs to."""
        return self.wanted.use


class Column(NamedTuple):
    """Pieces of one width, one behind the other along the cloth."""

    width: Length
    pieces: tuple[LaidPiece, ...]

    @property
    def length(self) -> Length:
        """The length along the cloth that its pieces take."""
        return sum((piece.along for piece in self.pieces), ZERO)


class Band(NamedTuple):
    """A length cut across the whole cloth, and its columns from one selvage on. `gap` is left before it, so that a
    print meets; `length_on_new_bolt` is what it takes where it is the first on another bolt."""

    length: Length
    columns: tuple[Column, ...]
    gap: Length = ZERO
    new_bolt_extra: Length = ZERO

    @property
    def width(self) -> Length:
        """The width that its columns take."""
        return sum((column.width for column in self.columns), ZERO)


class PlacedPiece(NamedTuple):
    """A piece with its place: `x` across the cloth from one selvage, `y` along it from the cut end."""

    piece: LaidPiece
    x: Length
    y: Length


class ClothLayout(NamedTuple):
    """The bands of one length of washed cloth, in cutting order; `usable` is the width between its selvages. Bands that
    are `turned` run along the cloth."""

    usable: Length
    bands: tuple[Band, ...]
    turned: bool = False

    @property
    def length(self) -> Length:
        """The length of washed cloth that the bands take, with the gaps before them."""
        if self.turned:
            return max(band.width for band in self.bands)
        return sum((length for band in self.bands for length in (band.gap, band.length) if length), ZERO)

    @property
    def placed(self) -> Iterator[PlacedPiece]:
        """Every piece with its place, band by band and column by column."""
        y = ZERO
        for band in self.bands:
            y, x = y + band.gap, ZERO
            for column in band.columns:
                behind = y
                for piece in column.pieces:
                    yield PlacedPiece(piece, behind, x) if self.turned else PlacedPiece(piece, x, behind)
                    behind += piece.across if self.turned else piece.along
                x += column.width
            y += band.length
