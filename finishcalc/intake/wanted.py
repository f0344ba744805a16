"""Where a project names what is bought or chosen, and what each must become."""

from typing import NamedTuple

from finishcalc.intake.layers import Layers
from finishcalc.intake.positions import Path
from finishcalc.materials import BattingProduct, Fabric, Method, Style


class Wanted(NamedTuple):
    """A material by the kind of its presets. A cloth says for which part of the quilt it is."""

    kind: str
    becomes: type[Fabric] | type[BattingProduct] | type[Style] | type[Method]
    part: str = ""
    may_be_none: bool = False


ALWAYS: dict[Path, Wanted] = {
    ("backing", "fabric"): Wanted("fabrics", Fabric, "backing", may_be_none=True),
    ("batting", "product"): Wanted("battings", BattingProduct, may_be_none=True),
    ("binding", "fabric"): Wanted("fabrics", Fabric, "binding"),
    ("cloth", "wider"): Wanted("fabrics", Fabric, "backing", may_be_none=True),
    ("quilting", "style"): Wanted("styles", Style),
    ("quilting", "method"): Wanted("methods", Method),
}
PIECE = Wanted("fabrics", Fabric, "top", may_be_none=True)
PIECING: Path = ("top", "piecing", "fabric")
"""The cloth of every part of a pieced top that does not name its own."""


def wanted(layers: Layers) -> dict[Path, Wanted]:
    """Every material the project names, by the key path that names it; those of a pieced top where it is one."""
    if not is_pieced(layers):
        return ALWAYS
    own = [path for part in top_parts(layers) for path in cloths_of(part) if layers.names(*path)]
    return {**ALWAYS, **dict.fromkeys([PIECING, *own], PIECE)}


def is_pieced(layers: Layers) -> bool:
    """Whether the top is told by its blocks or borders."""
    return any(layers.names("top", part) for part in ("blocks", "centre", "borders"))


def top_parts(layers: Layers) -> list[Path]:
    """The parts of a pieced top that may name a cloth: blocks, sashing, each border."""
    return [("top", "blocks"), ("top", "sashing"), *layers.rows("top", "borders")]


def cloths_of(part: Path) -> tuple[Path, Path]:
    """Where a part of the top names its cloth, and that of its corners."""
    return (*part, "fabric"), (*part, "corner_fabric")
