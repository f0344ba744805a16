"""Sets what follows from other keys where nobody gives it; its origin is the key that it follows from."""

from finishcalc.intake.building.cover import cover_shape, cover_use
from finishcalc.intake.keypaths import KeyPath, starts_with
from finishcalc.intake.layers import RANKS, SAMPLE_LAYERS, LayeredValues
from finishcalc.intake.named_materials import COVERED_BED, COVERED_TABLE, METHOD, style_paths
from finishcalc.intake.width_in_name import lay_widths_in_names
from finishcalc.measures.length import ZERO, Overage
from finishcalc.model.cover import Covers
from finishcalc.model.project import Quilting

OVERAGE: KeyPath = ("backing", "overage")
LEAST_OVERAGE: KeyPath = ("cloth", "least_overage")


def lay_what_follows(layers: LayeredValues) -> None:
    """Set the overage that a style needs, the least overage, the shape, the use and a crib's drop of a cover, and the
    widths in names."""
    _lay_style_overage(layers)
    _lay_least_overage(layers)
    _lay_cover(layers)
    lay_widths_in_names(layers)


def style_that_sets_overage(layers: LayeredValues) -> str | None:
    """The name of the style from which the overage of the backing follows; None where a file or the shop states it."""
    overage = layers.values.get(OVERAGE)
    for path in style_paths(layers.section(Quilting, "quilting")):
        own = layers.values.get((*path, "overage"))
        if own and overage and own.origin == overage.origin:
            return str(layers.values[*path, "name"].value)
    return None


def _lay_style_overage(layers: LayeredValues) -> None:
    """Set the largest overage that a style needs on the frame, where it is more than the usual. A studio's own overage
    stands over that of a preset, and the project's over any."""
    overage, on_frame = layers.values.get(OVERAGE), layers.values.get((*METHOD, "frame"))
    if not overage or not on_frame or not on_frame.value or overage.origin.layer == "project file":
        return
    paths = style_paths(layers.section(Quilting, "quilting"))
    needed = [sourced for path in paths if (sourced := layers.values.get((*path, "overage")))]
    is_sample = overage.origin.layer in SAMPLE_LAYERS
    needed = [each for each in needed if is_sample or RANKS[each.origin.layer] >= RANKS[overage.origin.layer]]
    most = max(needed, key=lambda each: each.value, default=None)
    if most and most.value > max(overage.value):
        layers.put(OVERAGE, overage._replace(value=Overage.all_round(most.value), origin=most.origin))


def _lay_least_overage(layers: LayeredValues) -> None:
    """A studio that states its overage and no least would settle for no less than that, nor would rulers."""
    overage, least = layers.values.get(OVERAGE), layers.values.get(LEAST_OVERAGE)
    if not overage or not least or least.origin.layer not in SAMPLE_LAYERS:
        return
    if overage.origin.layer == "shop file" or style_that_sets_overage(layers):
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
