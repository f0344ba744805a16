"""The pieces of a backing as bands on its cloth, beside which other parts may be cut."""

from collections.abc import Iterator

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up_to_step
from finishcalc.plans.backing.layout import CutPiece
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.supplied import ExtensionStrip
from finishcalc.plans.cutting.layout import Band, Column, LaidPiece, Wanted


def backing_bands(option: BackingOption, finest: Length) -> Iterator[Band]:
    """Give the rows of pieces of a backing. Pieces are cut up to the `finest` step a person can measure where the cloth
    is wide enough for that, so that much less is left beside them."""
    layout, end = option.layout, ZERO
    rows: dict[Length, list[CutPiece]] = {}
    for piece in layout.cuts:
        rows.setdefault(piece.y, []).append(piece)
    # a print that must meet loses a whole repeat, in place of the gap, where its panel is the first on another bolt
    repeat, lost = option.fabric.repeat, layout.grid.length(layout.row.pitch - layout.row.along)
    for y in sorted(rows):
        columns = tuple(_columns(sorted(rows[y], key=lambda piece: piece.x), layout.usable_width, finest))
        length, gap = max(piece.length for piece in rows[y]), y - end
        yield Band(length, columns, gap, new_bolt_extra=repeat - lost if repeat and y else ZERO)
        end = y + length


def _columns(row: list[CutPiece], usable: Length, finest: Length) -> Iterator[Column]:
    widths = [up_to_step(piece.width, finest) for piece in row]
    if sum(widths, ZERO) > usable:
        widths = [piece.width for piece in row]
    for piece, width in zip(row, widths, strict=True):
        wanted = Wanted("backing", piece.width, piece.length, 1, True, False, piece.length, piece.piece)
        yield Column(width, (LaidPiece(wanted, width, piece.length),))


def strip_bands(strips: tuple[ExtensionStrip, ...], usable: Length) -> Iterator[Band]:
    """Give the strips that make a sewn backing large enough: each piece is cut across the cloth."""
    for strip in strips:
        wanted = Wanted("strip", strip.width, usable, strip.pieces, False, True, usable)
        band = Band(strip.width, (Column(usable, (LaidPiece(wanted, usable, strip.width),)),))
        yield from [band] * strip.pieces
