"""The layout of a cloth as a record of the JSON document."""

from collections.abc import Callable

from finishcalc.measures.length import Length
from finishcalc.plans.cutting.layout import Band, ClothLayout, LaidPiece
from finishcalc.rendering.documents.writing import Record

Written = Callable[[Length], int | float]


def layout_record(layout: ClothLayout, length: Written) -> Record:
    """The bands of a length of cloth with their columns and pieces, in the order they are cut; `length` writes a length
    in the document's units. Where it is turned, the bands run along the cloth."""
    return {"turned": layout.turned, "bands": [_band(band, length) for band in layout.bands]}


def _band(band: Band, length: Written) -> Record:
    columns = [
        {"width": length(column.width), "pieces": [_piece(piece, length) for piece in column.pieces]}
        for column in band.columns
    ]
    return {"gap": length(band.gap), "length": length(band.length), "columns": columns}


def _piece(piece: LaidPiece, length: Written) -> Record:
    """A piece as wide as it lies across the cloth and as long as it lies along it."""
    size = {"width": length(piece.across), "length": length(piece.along)}
    return {"for": piece.use, **size, "joined_to": length(piece.wanted.joined_to)}
