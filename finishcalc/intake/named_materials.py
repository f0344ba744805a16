"""Where a project names what is bought or chosen, and what each must become."""

from typing import NamedTuple

from finishcalc.intake.building.cover import BED, TABLE
from finishcalc.intake.layers import Layers
from finishcalc.intake.positions import Path
from finishcalc.model.cover import Bed
from finishcalc.model.materials import BattingProduct, Fabric, Method, Style


def needed(record: type) -> tuple[str, ...]:
    """The fields of a record that may not be left out."""
    return tuple(name for name in record._fields if name not in record._field_defaults)  # type: ignore[attr-defined]


class Wanted(NamedTuple):
    """A material by the kind of its presets, and the keys it needs. A cloth says for which part of the quilt it is."""

    kind: str
    needs: tuple[str, ...]
    part: str = ""
    may_be_none: bool = False


ALWAYS: dict[Path, Wanted] = {
    ("backing", "fabric"): Wanted("fabrics", needed(Fabric), "backing", may_be_none=True),
    ("batting", "product"): Wanted("battings", needed(BattingProduct), may_be_none=True),
    ("binding", "fabric"): Wanted("fabrics", needed(Fabric), "binding"),
    ("cloth", "wider"): Wanted("fabrics", needed(Fabric), "backing", may_be_none=True),
    ("quilting", "style"): Wanted("styles", needed(Style)),
    ("quilting", "method"): Wanted("methods", needed(Method)),
}
COVERED: dict[Path, Wanted] = {BED: Wanted("beds", needed(Bed)), TABLE: Wanted("tables", ())}
"""What a top may cover. A table needs its sides or its diameter, which is a rule of its own."""
PIECE = Wanted("fabrics", needed(Fabric), "top", may_be_none=True)
PIECING: Path = ("top", "piecing", "fabric")
"""The cloth of every part of a pieced top that does not name its own."""


def wanted(layers: Layers) -> dict[Path, Wanted]:
    """Every material the project names, by the key path that names it; those of a pieced top, or of a cover, where it
    is one."""
    found = (
        ALWAYS
        | dict.fromkeys(styles_of(layers), ALWAYS["quilting", "style"])
        | {path: named for path, named in COVERED.items() if layers.names(*path)}
    )
    if not is_pieced(layers):
        return found
    own = [path for part in top_parts(layers) for path in cloths_of(part) if layers.names(*path)]
    return found | dict.fromkeys([PIECING, *own], PIECE)


def styles_of(layers: Layers) -> list[Path]:
    """Where a project names its quilting style, and that of each area with one of its own."""
    return [("quilting", "style"), *((*area, "style") for area in layers.rows("quilting", "areas"))]


def is_pieced(layers: Layers) -> bool:
    """Whether the top is told by its blocks or borders."""
    return any(layers.names("top", part) for part in ("blocks", "centre", "borders"))


def top_parts(layers: Layers) -> list[Path]:
    """The parts of a pieced top that may name a cloth: blocks, sashing, each border."""
    return [("top", "blocks"), ("top", "sashing"), *layers.rows("top", "borders")]


def cloths_of(part: Path) -> tuple[Path, Path]:
    """Where a part of the top names its cloth, and that of its corners."""
    return (*part, "fabric"), (*part, "corner_fabric")
