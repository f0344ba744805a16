"""Makes each use of cloth a cloth of its own. Uses are of one cloth where a file gives them one name, and a binding
where it is of the backing's cloth.

A preset's name makes no cloth one with another: it says the kind of cloth, not its colour.
"""

from typing import TypeVar

from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.named_materials import (
    BACKING_FABRIC,
    BINDING_FABRIC,
    PIECING_FABRIC,
    is_of_backing,
    named_materials,
)
from finishcalc.intake.source import dotted
from finishcalc.model.materials import BoughtFabric, Fabric, NamedFabric
from finishcalc.model.pieced import Blocks, CornerCloth, PartCloth, PiecedTop
from finishcalc.model.section import specs
from finishcalc.wording.sentence import InUnit

Part = TypeVar("Part", bound=PartCloth)


def identity_of(layers: LayeredValues, path: KeyPath, use: KeyPath | None = None) -> str:
    """Give the identity of the cloth at a key path: the name that a file gives it there, in quotes so that it is no
    key path, or the path of its `use`, which is the same path unless several uses fall back on one."""
    if name := own_name(layers, path):
        return f'"{name}"'
    if path == BINDING_FABRIC and is_of_backing(layers):
        return identity_of(layers, BACKING_FABRIC)
    return dotted(use or path)


def own_name(layers: LayeredValues, path: KeyPath) -> str | None:
    """Give the name that a file gives a cloth at its key path; None where a preset gives it one."""
    named = layers.values.get((*path, "name"))
    if named is None or named.origin.at[-len(path) - 1 : -1] != path:
        return None
    return str(named.value)


def bought_fabric(layers: LayeredValues, path: KeyPath, use: KeyPath | None = None) -> BoughtFabric:
    """Make the cloth at a key path, for its `use`."""
    fabric = layers.section(NamedFabric, *path)
    values = {name: getattr(fabric, name) for name in specs(Fabric)}
    identity = identity_of(layers, path, use)
    return BoughtFabric.new(**values, identity=identity, has=_at_hand(layers, identity))


def _at_hand(layers: LayeredValues, identity: str) -> tuple[InUnit, ...]:
    """The lengths at hand of a cloth, which any of its uses may give."""
    for path, named in named_materials(layers).items():
        given = layers.values.get((*path, "have")) if named.part else None
        if given and identity_of(layers, path) == identity:
            return tuple(given.value)
    return ()


def with_cloths(top: PiecedTop, layers: LayeredValues) -> PiecedTop:
    """Give each part of a pieced top a cloth of its own; cornerstones, plain blocks and patches that name none
    are of their part's cloth."""
    borders = (_part(border, ("top", "borders", number), layers) for number, border in enumerate(top.borders))
    return top._replace(
        blocks=_part(top.blocks, ("top", "blocks"), layers) if top.blocks else None,
        sashing=_part(top.sashing, ("top", "sashing"), layers) if top.sashing else None,
        borders=tuple(borders),
    )


def _part(part: Part, at: KeyPath, layers: LayeredValues) -> Part:
    use: KeyPath = (*at, "fabric")
    cloth = _wanted(layers, use if layers.names(*use) else PIECING_FABRIC, use)
    others = (
        ["corner_fabric"] if isinstance(part, CornerCloth) else ["plain_fabric"] if isinstance(part, Blocks) else []
    )
    named: dict[str, object] = {key: _named_or(cloth, layers, (*at, key)) for key in others}
    if isinstance(part, Blocks):
        paths: list[KeyPath] = [(*at, "patches", number, "fabric") for number in range(len(part.patches))]
        cloths = (_named_or(cloth, layers, path) for path in paths)
        named["patches"] = tuple(
            patch.replace(fabric=its_cloth) for patch, its_cloth in zip(part.patches, cloths, strict=True)
        )
    return part.replace(fabric=cloth, **named)


def _named_or(cloth: BoughtFabric | NamedFabric, layers: LayeredValues, path: KeyPath) -> BoughtFabric | NamedFabric:
    """The cloth that is named at a key path, or that of the part."""
    return _wanted(layers, path) if layers.names(*path) else cloth


def _wanted(layers: LayeredValues, path: KeyPath, use: KeyPath | None = None) -> BoughtFabric | NamedFabric:
    """Make the cloth at a key path, unless the project wants none there."""
    fabric = layers.section(NamedFabric, *path)
    return fabric if fabric.is_none else bought_fabric(layers, path, use)
