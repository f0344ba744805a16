"""The key paths at which a project names materials, and the keys that each material needs."""

from typing import NamedTuple

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues
from finishcalc.model.files import MATERIALS
from finishcalc.model.project import Quilting, Top
from finishcalc.model.section import specs


class NamedMaterial(NamedTuple):
    """A material by the kind of its presets. A cloth says which part of the quilt it is for."""

    kind: str
    part: str = ""
    may_be_none: bool = False

    @property
    def needs(self) -> list[str]:
        """The keys that it must have. A table needs its sides or its diameter, which is a rule of its own."""
        model = MATERIALS[self.kind]
        return [] if self.kind == "tables" else [name for name in specs(model) if name in model.required]


BACKING_FABRIC: KeyPath = ("backing", "fabric")
BINDING_FABRIC: KeyPath = ("binding", "fabric")
STYLE: KeyPath = ("quilting", "style")
METHOD: KeyPath = ("quilting", "method")
COVERED_BED: KeyPath = ("top", "covers", "bed")
COVERED_TABLE: KeyPath = ("top", "covers", "table")
PIECING_FABRIC: KeyPath = ("top", "piecing", "fabric")
"""The cloth of every part of a pieced top that does not name its own."""

ALWAYS: dict[KeyPath, NamedMaterial] = {
    BACKING_FABRIC: NamedMaterial("fabrics", "backing", may_be_none=True),
    ("batting", "product"): NamedMaterial("battings", may_be_none=True),
    BINDING_FABRIC: NamedMaterial("fabrics", "binding"),
    ("cloth", "wider"): NamedMaterial("fabrics", "backing", may_be_none=True),
    STYLE: NamedMaterial("styles"),
    METHOD: NamedMaterial("methods"),
}
PIECE = NamedMaterial("fabrics", "top", may_be_none=True)


def named_materials(layers: LayeredValues) -> dict[KeyPath, NamedMaterial]:
    """Every material the project names, by the key path that names it; those of a pieced top, or of a cover, where it
    is one."""
    top, quilting = layers.section(Top, "top"), layers.section(Quilting, "quilting")
    materials = dict(ALWAYS)
    materials |= dict.fromkeys(style_paths(quilting), ALWAYS[STYLE])
    if top.covers.bed:
        materials[COVERED_BED] = NamedMaterial("beds")
    if top.covers.table:
        materials[COVERED_TABLE] = NamedMaterial("tables")
    if top.is_pieced:
        materials |= dict.fromkeys([PIECING_FABRIC, *_own_cloths(top)], PIECE)
    return materials


def style_paths(quilting: Quilting) -> list[KeyPath]:
    """The key paths of the quilting style, and of each area's own style."""
    return [STYLE, *(("quilting", "areas", number, "style") for number in range(len(quilting.areas)))]


def _own_cloths(top: Top) -> list[KeyPath]:
    """The key paths at which parts of a pieced top name a cloth of their own."""
    paths: list[KeyPath] = []
    if top.blocks and top.blocks.fabric.is_given:
        paths.append(("top", "blocks", "fabric"))
    cornered = [(("top", "sashing"), top.sashing)] if top.sashing else []
    for path, part in [*cornered, *((("top", "borders", number), part) for number, part in enumerate(top.borders))]:
        paths += [(*path, "fabric")] if part.fabric.is_given else []
        paths += [(*path, "corner_fabric")] if part.corner_fabric.is_given else []
    return paths
