"""Makes what a top covers from its layers, and lays the shape and the use that follow from it."""

from finishcalc.intake.building.made import given, made
from finishcalc.intake.layers import Laid, Layers
from finishcalc.intake.positions import Path
from finishcalc.measures.length import Length
from finishcalc.model.cover import Bed, Covers, TableTop

COVERS: Path = ("top", "covers")
BED: Path = (*COVERS, "bed")
TABLE: Path = (*COVERS, "table")


def covered(layers: Layers) -> Path | None:
    """The key path of the bed or of the table that the top covers, or None where it covers neither."""
    return next((path for path in (BED, TABLE) if layers.names(*path)), None)


def cover_given(layers: Layers) -> list[Path]:
    """What the project itself says of a cover."""
    return [path for path, laid in layers.values.items() if path[:2] == COVERS and laid.origin.layer == "project file"]


def covers(layers: Layers) -> Covers | None:
    """What the top covers, or None where it covers nothing or where the size of that is not told."""
    path = covered(layers)
    if path is None:
        return None
    what = _bed(layers) if path == BED else _table(layers)
    if what is None:
        return None
    drop = given(layers, *COVERS, "drop")
    foot_drop = layers.get(*COVERS, "foot_drop")
    return made(Covers, layers, *COVERS, what=what, foot_drop=drop if foot_drop is None else foot_drop)


def _bed(layers: Layers) -> Bed | None:
    sides = [layers.get(*BED, side) for side in ("width", "length")]
    return None if None in sides else made(Bed, layers, *BED)


def _table(layers: Layers) -> TableTop | None:
    diameter, shape = layers.get(*TABLE, "diameter"), layers.get("top", "shape")
    sides = {side: layers.get(*TABLE, side) if diameter is None else diameter for side in ("width", "length")}
    return None if None in sides.values() else made(TableTop, layers, *TABLE, shape=shape, **sides)


def lay_what_follows(layers: Layers) -> None:
    """Lay the shape of a cover, and its use, where the project does not say them itself.

    They stand where the project names what is covered, for they follow from it.
    """
    path = covered(layers)
    if path is None:
        return
    named = next(laid for key, laid in layers.values.items() if key[: len(path)] == path)
    shape = "rectangle" if path == BED else table_shape(layers.get(*TABLE, "shape"), layers.get(*TABLE, "diameter"))
    follows = {"use": _use(layers, path), "shape": shape}
    for key, value in follows.items():
        laid = layers.values.get(("top", key))
        if value and laid and laid.origin.layer != "project file":
            layers.put(("top", key), Laid(value, named.origin, "customer", False))


def table_shape(said: str | None, diameter: Length | None) -> str | None:
    """As a table says, or round where it has a diameter; None where it says nothing."""
    return said or ("round" if diameter is not None else None)


def _use(layers: Layers, path: Path) -> str:
    """A bed no larger than a crib is one."""
    if path == TABLE:
        return "tablecloth"
    bed = _bed(layers)
    return "crib" if bed and bed.is_crib else "bed"
