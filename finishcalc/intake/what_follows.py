"""Sets what follows from other keys where nobody gives it; its origin is the key that it follows from."""

from finishcalc.intake.building.cover import cover_shape, cover_use
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.layers import SAMPLE_LAYERS, LayeredValues
from finishcalc.intake.named_materials import COVERED_BED, COVERED_TABLE
from finishcalc.intake.width_in_name import lay_widths_in_names
from finishcalc.measures.length import ZERO
from finishcalc.model.cover import Covers

LEAST_OVERAGE: KeyPath = ("cloth", "least_overage")


def lay_what_follows(layers: LayeredValues) -> None:
    """Set the least overage, the shape, the use and a crib's drop of a cover, and the widths in names."""
    _lay_least_overage(layers)
    _lay_cover(layers)
    lay_widths_in_names(layers)


def _lay_least_overage(layers: LayeredValues) -> None:
    """A studio that states its overage and no least would settle for no less than that."""
    overage, least = layers.values.get(("backing", "overage")), layers.values.get(LEAST_OVERAGE)
    if overage and least and overage.origin.layer == "shop file" and least.origin.layer in SAMPLE_LAYERS:
        value = min(overage.value)
        layers.put(LEAST_OVERAGE, least._replace(value=value, origin=overage.origin))


def _lay_cover(layers: LayeredValues) -> None:
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
