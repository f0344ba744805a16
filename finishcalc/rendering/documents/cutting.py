"""The layout of a cloth as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.plans.cutting.layout import Band, ClothLayout, LaidPiece
from finishcalc.rendering.documents.writing import Record


def layout_record(layout: ClothLayout, length: Callable[[Length], int | float]) -> list[Record]:
    """The bands of a length of cloth with their columns and pieces, in the order they are cut; `length` writes a length
    in the document's units."""
    return [_band(band, length) for band in layout.bands]


def _band(band: Band, length: Callable[[Length], int | float]) -> Record:
    columns = [
        {"width": length(column.width), "pieces": [_piece(piece, length) for piece in column.pieces]}
        for column in band.columns
    ]
    return {"gap": length(band.gap), "length": length(band.length), "columns": columns}


def _piece(piece: LaidPiece, length: Callable[[Length], int | float]) -> Record:
    return {"for": piece.use, "length": length(piece.along), "joined_to": length(piece.wanted.joined_to)}
