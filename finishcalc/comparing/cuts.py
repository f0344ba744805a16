"""The cuts of one cloth, as the size chart of a pattern counts them: strips across the whole cloth, squares and other
pieces of one size; and those long pieces whose lengths every size has for itself."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.rounding import up_to_step
from finishcalc.plans.cloth import is_of_top
from finishcalc.plans.cutting.layout import Band, ClothLayout, LaidPiece

Kind = Literal["strips", "squares", "rectangles", "pieces"]
KINDS: tuple[Kind, ...] = ("strips", "squares", "rectangles", "pieces")


class Cut(NamedTuple):
    """A cut that is counted, for the parts in `uses`. Strips are `width` x the width of the cloth, squares and
    rectangles `width` x `length`; pieces have no one size."""

    kind: Kind
    uses: tuple[str, ...]
    width: Length = ZERO
    length: Length = ZERO


Cuts = dict[Cut, Counter[Size]]
"""The number of pieces of each size, for each cut; all but pieces have one size."""


def cuts_of(layouts: Sequence[ClothLayout], finest: Length) -> Cuts:
    """Count the cuts of a cloth, sizes up to the `finest` step a person can measure.

    A strip across the cloth is what its pieces fill from edge to edge, whatever else lies beside them; there is none
    where the first cut runs along the cloth. Squares and rectangles are counted wherever they are cut from, long pieces
    where they do not come from a strip of their own.
    """
    cuts: Cuts = {}

    def count(cut: Cut, size: Size) -> None:
        cuts.setdefault(cut, Counter())[size] += 1

    for band, turned in ((band, layout.turned) for layout in layouts for band in layout.bands):
        strip_uses = () if turned else _strip_uses(band)
        if strip_uses:
            width = up_to_step(band.length, finest)
            count(Cut("strips", strip_uses, width), Size(width, ZERO))
        for piece in _pieces(band):
            short, long = sorted(up_to_step(side, finest) for side in (piece.across, piece.along))
            if not is_long(piece):
                kind: Kind = "squares" if short == long else "rectangles"
                count(Cut(kind, (piece.use,), short, long), Size(short, long))
            elif not (strip_uses and piece.along == band.length):
                count(Cut("pieces", (piece.use,)), Size(short, long))
    return cuts


def is_long(piece: LaidPiece) -> bool:
    """Tell the strip of a border, a binding or an extra, or a piece of the backing: its length is another in every
    size."""
    use, wanted = piece.use, piece.wanted
    is_strip = wanted.width != wanted.length and (use.startswith("border ") or not is_of_top(use))
    return is_strip or use in ("backing", "strip")


def _strip_uses(band: Band) -> tuple[str, ...]:
    """Give the uses of the pieces that fill a strip from edge to edge; none for a length in which long pieces lie along
    the cloth, or for the panel of a backing."""
    filling = [piece for piece in _pieces(band) if piece.along == band.length]
    if any(piece.use == "backing" or (is_long(piece) and _lies_along(piece)) for piece in filling):
        return ()
    return tuple(dict.fromkeys(piece.use for piece in filling))


def _lies_along(piece: LaidPiece) -> bool:
    return piece.along > piece.across


def _pieces(band: Band) -> Iterator[LaidPiece]:
    return (piece for column in band.columns for piece in column.pieces)
