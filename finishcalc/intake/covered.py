"""The keys that follow from the bed or table that a top covers, where the project does not give them itself."""

from finishcalc.intake.building.cover import cover_shape, cover_use
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.layers import LayeredValues
from finishcalc.intake.named_materials import COVERED_BED, COVERED_TABLE
from finishcalc.measures.length import ZERO
from finishcalc.model.cover import Covers


def lay_cover(layers: LayeredValues) -> None:
    """Set the shape and the use of a cover, and for a crib no drop: its mattress fills it from side to side."""
    covers = layers.section(Covers, "top", "covers")
    if not covers.bed and not covers.table:
        return
    under = COVERED_BED if covers.bed else COVERED_TABLE
    origin = next(sourced for path, sourced in layers.values.items() if starts_with(path, under)).origin
    use = cover_use(covers)
    follows: list[tuple[KeyPath, object]] = [(("top", "use"), use), (("top", "shape"), cover_shape(covers))]
    if use == "crib":
        follows += [(("top", "covers", key), ZERO) for key in ("drop", "foot_drop", "pillow_tuck")]
    for path, value in follows:
        sourced = layers.values.get(path)
        if value is not None and sourced and sourced.origin.layer != "project file":
            layers.put(path, sourced._replace(value=value, origin=origin))
