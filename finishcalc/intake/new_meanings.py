"""Tells the studio of a key of its shop file that has another meaning than it had."""

from finishcalc.intake.changes.change import TriedSource
from finishcalc.intake.layers import LayeredValues
from finishcalc.model.shop import Frame
from finishcalc.wording.sentence import Sentence, say_in_house


def throat_is_nominal(layers: LayeredValues) -> Sentence | None:
    """Say what is taken of a throat that once was the depth stitched; None where the shop file gives no throat, or
    gives its take-up as well. A value that is only tried is no shop file's."""
    throat, take_up = (layers.values["frame", key].origin for key in ("throat", "take_up"))
    if throat.layer != "shop file" or isinstance(throat.source, TriedSource) or take_up.layer == "shop file":
        return None
    frame = layers.section(Frame, "frame")
    return say_in_house(
        "frame.throat in the shop file, {throat}, counts as the throat that the machine's maker gives, not the depth "
        "that you stitch: less take_up, {take_up}, and margin, {margin}, it leaves {depth}. If that is right, "
        "write take_up under [frame] too; if you stitch the whole {throat}, write take_up = 0 and margin = 0 there. "
        "Either ends this note.",
        throat=frame.throat,
        take_up=frame.take_up,
        margin=frame.margin,
        depth=frame.depth,
    )
