"""One picture value: exact rectangles with names and sizes. It feeds box drawing and SVG alike."""

from collections.abc import Iterator
from functools import cache
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.backing.layout import VisiblePiece
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.pieced.layout import PlacedPiece, top_layout
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.pieced.slants import Slant
from finishcalc.plans.top.outline import Scallops, Shape
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import counted

Grain = Literal["across", "down", "down only", ""]


class Tile(NamedTuple):
    """A rectangle of a picture: x to the right, y down. `grain` says which way the cloth's length runs in it."""

    x: Length
    y: Length
    width: Length
    length: Length
    name: str
    size: str
    grain: Grain


class Outline(NamedTuple):
    """The line to which the quilt will be trimmed: an ellipse, or a rectangle whose corners may be round or its
    sides scalloped."""

    x: Length
    y: Length
    width: Length
    length: Length
    ellipse: bool
    corner: Length
    scallops: Scallops | None = None


class Picture(NamedTuple):
    """A picture of `width` x `length`: its tiles, the lower ones first, the outline to trim to (or None), seams that
    slant, and a legend for below it. Of a top only the whole is measured; `narrowest` is the least distance across the
    page between seams that slant beside each other, or None."""

    title: str
    description: str
    width: Length
    length: Length
    tiles: tuple[Tile, ...]
    outline: Outline | None
    slants: tuple[Slant, ...] = ()
    legend: tuple[str, ...] = ()
    of_top: bool = False
    narrowest: Length | None = None


class Mark(NamedTuple):
    """A stretch of a ruler from `start` to `end`, with its length in words."""

    start: Length
    end: Length
    text: str


def backing_picture(plan: BackingPlan, chosen: BackingOption, shape: Shape, notation: Notation) -> Picture:
    """Draw the backing as it is sewn, seen from the right side, with the outline to trim to."""
    one_way = plan.fabric.directional or plan.fabric.nap
    tiles = tuple(_sewn_tile(shown, one_way, notation) for shown in chosen.layout.assembly)
    outline = _outline(shape, (plan.width - shape.width) / 2, (plan.length - shape.length) / 2)
    pieces = "1 piece makes" if len(tiles) == 1 else f"{len(tiles)} pieces make"
    description = f"{pieces} a backing of {notation.size(plan.width, plan.length)}"
    return Picture("The backing", description, plan.width, plan.length, tiles, outline)


def _outline(shape: Shape, aside: Length, above: Length) -> Outline:
    return Outline(aside, above, shape.width, shape.length, shape.name != "rectangle", shape.corner, shape.scallops)


def scalloped_picture(shape: Shape, notation: Notation) -> Picture:
    """Draw the scalloped edge of a top within its rectangle."""
    size = notation.size(shape.width, shape.length)
    top = Tile(ZERO, ZERO, shape.width, shape.length, "top", size, "")
    description = f"{size} with a scalloped edge, unfinished size"
    return Picture("The top", description, shape.width, shape.length, (top,), _outline(shape, ZERO, ZERO))


def plain_picture(shape: Shape, notation: Notation) -> Picture:
    """Draw a top that is not pieced: its outline, with its sides measured."""
    if shape.scallops:
        return scalloped_picture(shape, notation)
    width, length = shape.width, shape.length
    size = f"{notation.show(width)} across" if shape.name == "round" else notation.size(width, length)
    is_rectangle = shape.name == "rectangle" and not shape.corner
    tile = Tile(ZERO, ZERO, width, length, "top", size, "")
    description = f"{shape.name}, {size}, unfinished size" if shape.name != "rectangle" else f"{size}, unfinished size"
    return Picture(
        title="The top",
        description=description,
        width=width,
        length=length,
        tiles=(tile,) if is_rectangle else (),
        outline=None if is_rectangle else _outline(shape, ZERO, ZERO),
        of_top=True,
    )


def _sewn_tile(shown: VisiblePiece, one_way: bool, notation: Notation) -> Tile:
    grain: Grain = "across" if shown.turned else "down only" if one_way else "down"
    size = notation.size(shown.width, shown.length)
    return Tile(shown.x, shown.y, shown.width, shown.length, shown.piece, size, grain)


def top_picture(plan: PiecedPlan, shape: Shape, notation: Notation) -> Picture:
    """Draw the top from raw edge to raw edge, every piece as it shows, and the scallops that it is cut to."""
    top, layout = plan.top, top_layout(plan.top)
    size = top.size

    @cache  # most pieces are alike
    def label(name: str, width: Length, length: Length) -> tuple[str, str]:
        return _label(name, width, length, plan, notation)

    tiles = tuple(_top_tile(piece, *label(piece.name, piece.width, piece.length)) for piece in layout.pieces)
    description = f"{notation.size(size.width, size.length)}, unfinished size"
    if top.blocks:
        description = f"{counted(top.blocks.number, 'block')} of {notation.show(top.blocks.size)}, " + description
    outline = _outline(shape, ZERO, ZERO) if shape.scallops else None
    legend = tuple(_parts(plan, notation))
    return Picture(
        "The top", description, *size, tiles, outline, layout.slants, legend, of_top=True, narrowest=layout.narrowest
    )


def _top_tile(piece: PlacedPiece, name: str, size: str) -> Tile:
    return Tile(piece.x, piece.y, piece.width, piece.length, name, size, "")


def _label(name: str, width: Length, length: Length, plan: PiecedPlan, notation: Notation) -> tuple[str, str]:
    """Give the name of a piece and its size: the centre as it is given, a border as it is cut, any other as it shows. A
    framed block has no label, which would seem to be its inner square's."""
    top = plan.top
    if not name or (name == "block" and top.blocks and top.blocks.inner):
        return "", ""
    if name == "centre":
        return name, notation.size(*plan.centre)
    if name == "corner":
        return name, ""
    if name.startswith("border "):
        return name, f"cut {notation.show(top.borders[int(name.removeprefix('border ')) - 1].cut)}"
    return name, notation.size(width, length)


def _parts(plan: PiecedPlan, notation: Notation) -> Iterator[str]:
    """Say the width of the sashing and of each border, the borders' also as they are cut."""
    top, show = plan.top, notation.show
    if top.sashing:
        yield f"sashing: {show(top.sashing.width)} finished"
    for number, border in enumerate(top.borders, start=1):
        yield f"border {number}: cut {show(border.cut)}, {show(border.cut - top.seam * 2)} finished"


def top_ruler(picture: Picture, notation: Notation) -> list[Mark]:
    """Mark the width of each tile along the upper edge, or of the whole top."""
    if picture.of_top:
        return [Mark(ZERO, picture.width, notation.show(picture.width))]
    edges = sorted({(tile.x, tile.x + tile.width) for tile in picture.tiles if not tile.y})
    return [Mark(start, end, notation.show(end - start)) for start, end in edges]


def side_ruler(picture: Picture, notation: Notation) -> list[Mark]:
    """Mark the length of each tile along the right edge; of a top, and where they leave a gap there, the whole side."""
    edges = sorted({(tile.y, tile.y + tile.length) for tile in picture.tiles if tile.x + tile.width == picture.width})
    covered = edges and edges[0][0] == ZERO and edges[-1][1] == picture.length
    if not covered or picture.of_top:
        edges = [(ZERO, picture.length)]
    return [Mark(start, end, notation.show(end - start)) for start, end in edges]
