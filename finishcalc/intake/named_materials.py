"""The key paths at which a project names materials, and the keys that each material needs."""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues
from finishcalc.model.cover import Covers
from finishcalc.model.extra_cuts import QUILT_CLOTHS
from finishcalc.model.files import MATERIALS
from finishcalc.model.project import Quilting
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
BATTING: KeyPath = ("batting", "product")
BINDING_FABRIC: KeyPath = ("binding", "fabric")
WIDER_FABRICS: KeyPath = ("cloth", "wider")
"""The cloths that the shop compares a backing's with."""
STYLE: KeyPath = ("quilting", "style")
METHOD: KeyPath = ("quilting", "method")
COVERED_BED: KeyPath = ("top", "covers", "bed")
COVERED_TABLE: KeyPath = ("top", "covers", "table")
PIECING_FABRIC: KeyPath = ("top", "piecing", "fabric")
"""The cloth of every part of a pieced top that does not name its own."""

OF_THE_BACKING = "backing"
"""The word for a binding of the backing's cloth, in place of a preset's name."""

ALWAYS: dict[KeyPath, NamedMaterial] = {
    BACKING_FABRIC: NamedMaterial("fabrics", "backing", may_be_none=True),
    ("batting", "product"): NamedMaterial("battings", may_be_none=True),
    BINDING_FABRIC: NamedMaterial("fabrics", "binding"),
    STYLE: NamedMaterial("styles"),
    METHOD: NamedMaterial("methods"),
}
WIDER = NamedMaterial("fabrics", "backing", may_be_none=True)
PIECE = NamedMaterial("fabrics", "top", may_be_none=True)
EXTRA = NamedMaterial("fabrics", "extra", may_be_none=True)


def named_materials(layers: LayeredValues) -> dict[KeyPath, NamedMaterial]:
    """Every material the project names, by the key path that names it; those of a pieced top, or of a cover, where it
    is one."""
    materials = dict(ALWAYS)
    materials |= dict.fromkeys(layers.rows(*WIDER_FABRICS), WIDER)
    materials |= dict.fromkeys(style_paths(layers.section(Quilting, "quilting")), ALWAYS[STYLE])
    covers = layers.section(Covers, "top", "covers")
    if covers.bed:
        materials[COVERED_BED] = NamedMaterial("beds")
    if covers.table:
        materials[COVERED_TABLE] = NamedMaterial("tables")
    materials |= dict.fromkeys(cloths_of_extras(layers), EXTRA)
    if any(layers.names("top", part) for part in ("blocks", "centre", "borders")):
        materials |= dict.fromkeys([PIECING_FABRIC, *_own_cloths(layers)], PIECE)
    return materials


def is_of_backing(layers: LayeredValues) -> bool:
    """Tell a binding of the backing's cloth: it says so, or it is to be cut from beside the backing's pieces and names
    no cloth."""
    named = layers.values.get((*BINDING_FABRIC, "preset"))
    if named is not None and named.value == OF_THE_BACKING:
        return True
    cut, backing = layers.values.get(("binding", "cut")), layers.values.get((*BACKING_FABRIC, "preset"))
    is_leftover = cut is not None and cut.value == "leftover" and layers.is_own("binding", "cut")
    names_its_own = any(layers.is_own(*path) for path in layers.paths(BINDING_FABRIC))
    return is_leftover and not names_its_own and not (backing is not None and backing.value == "none")


def style_paths(quilting: Quilting) -> list[KeyPath]:
    """The key paths of the quilting style, and of each area's own style."""
    return [STYLE, *(("quilting", "areas", number, "style") for number in range(len(quilting.areas)))]


def cloths_of_extras(layers: LayeredValues) -> Iterator[KeyPath]:
    """The key paths at which extras that are ordered or offered name a cloth of their own."""
    lists = (layers.values.get(path) for path in (("charges", "extras"), ("offers", "extras")))
    names = dict.fromkeys(extra.name for sourced in lists if sourced for extra in sourced.value)
    for path in (extra_cloth(name) for name in names):
        preset = layers.values.get((*path, "preset"))
        if layers.names(*path) and not (preset and preset.value in QUILT_CLOTHS):
            yield path


def extra_cloth(name: str) -> KeyPath:
    """The key path of the cloth of an extra."""
    return ("extras", name, "cut", "fabric")


def _own_cloths(layers: LayeredValues) -> list[KeyPath]:
    """The key paths at which parts of a pieced top name a cloth of their own."""
    cornered: list[KeyPath] = [("top", "sashing"), *layers.rows("top", "borders")]
    patches = layers.rows("top", "blocks", "patches")
    paths: list[KeyPath] = [("top", "blocks", key) for key in ("fabric", "plain_fabric")]
    paths += [(*path, "fabric") for path in patches]
    paths += [(*path, key) for path in cornered for key in ("fabric", "corner_fabric")]
    return [path for path in paths if layers.names(*path)]
