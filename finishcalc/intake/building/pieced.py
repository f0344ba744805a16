"""Makes a pieced top from its layers. What a part does not say itself, `[top.piecing]` says for all of them."""

from collections.abc import Iterator
from typing import Any

from finishcalc.intake.building.made import given, made
from finishcalc.intake.layers import Layers
from finishcalc.intake.named_materials import PIECING, cloths_of, top_parts
from finishcalc.intake.positions import Path
from finishcalc.intake.project_file import PIECING as FOR_ALL_PARTS
from finishcalc.intake.source import dotted
from finishcalc.measures.length import Length
from finishcalc.measures.rounding import FINEST
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import Blocks, Border, PieceCloth, PiecedTop, Sashing, Size, framed_square


def pieced_top(layers: Layers, units: str) -> PiecedTop | None:
    """The pieced top that the layers tell of, or None where it is none or where its size is not told."""
    blocks = layers.names("top", "blocks")
    if not (blocks or layers.names("top", "centre")) or (blocks and not {"size", "inner"} & set(blocks)):
        return None
    sashed = bool(layers.names("top", "sashing"))
    return made(
        PiecedTop, layers, "top", "piecing",
        seam=given(layers, "top", "piecing", "seam_allowance"),
        borders=tuple(_part(Border, layers, border) for border in layers.rows("top", "borders")),
        blocks=_blocks(layers, units) if blocks else None,
        sashing=_part(Sashing, layers, ("top", "sashing")) if sashed else None,
        centre=made(Size, layers, "top", "centre") if layers.names("top", "centre") else None,
    )  # fmt: skip


def _part(record: Any, layers: Layers, part: Path, **known: Any) -> Any:
    """A part of the top, with its cloth, and the cloth of its corners where it has some."""
    fabric, corners = cloths_of(part)
    known["cloth"] = _cloth(layers, part, fabric)
    if "corner_cloth" in record._fields:
        known["corner_cloth"] = _cloth(layers, part, corners, fabric)
    usual = {name: said(layers, part, name) for name in record._fields if name not in known}
    return record(**usual, **known)


def said(layers: Layers, part: Path, key: str) -> Any:
    """What a part says itself, or what is said for all parts."""
    own = layers.get(*part, key)
    return given(layers, "top", "piecing", key) if own is None and key in FOR_ALL_PARTS.keys else own


def _blocks(layers: Layers, units: str) -> Blocks:
    size = layers.get("top", "blocks", "size")
    inner = layers.get("top", "blocks", "inner")
    if size is None and inner is not None:
        size = framed_square(inner, layers.get("top", "piecing", "seam_allowance"), FINEST[units])
    blocks: Blocks = _part(Blocks, layers, ("top", "blocks"), size=size)
    return blocks


def _cloth(layers: Layers, part: Path, *own: Path) -> PieceCloth:
    """The first cloth that is named, from the part's own to that of all parts."""
    path = next((each for each in own if layers.names(*each)), PIECING)
    none = layers.get(*path, "preset") == "none"
    return PieceCloth(
        None if none else made(Fabric, layers, *path),
        said(layers, part, "strips"),
        said(layers, part, "join"),
        dotted((*path, "price")),
    )


def widest_of(layers: Layers, path: Path) -> Length | None:
    """The least usable width for a cloth of the top: two of the widest strips that are cut from it, for a join; one of
    those that are cut along it, and of the squares for corners."""
    seam = layers.get("top", "piecing", "seam_allowance")
    return max((width for part in top_parts(layers) for width in _widths(layers, part, path, seam)), default=None)


def _widths(layers: Layers, part: Path, path: Path, seam: Length) -> Iterator[Length]:
    strip, (fabric, corners) = _strip(layers, part, seam), cloths_of(part)
    if strip is None:
        return
    if path == corners:
        yield strip
    if path == fabric or (path == PIECING and not layers.names(*fabric)):
        yield strip if said(layers, part, "strips") == "lengthwise" else strip * 2


def _strip(layers: Layers, part: Path, seam: Length) -> Length | None:
    cut: Length | None = layers.get(*part, "cut")
    wide: Length | None = layers.get(*part, "width")
    return cut or (wide + seam * 2 if wide else None)
