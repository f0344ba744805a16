"""The pictures that a customer is shown: the top, the backing with its seams, and each cloth with its pieces."""

from collections.abc import Iterator

from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.cut import cutting_diagrams
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.picture import backing_picture, top_picture
from finishcalc.rendering.writing import notation_of


def customer_pictures(result: Finishing) -> tuple[Drawing, ...]:
    """Draw what there is of them, each under a name of its own."""
    return tuple(_drawings(result))


def _drawings(result: Finishing) -> Iterator[Drawing]:
    plans, notation = result.plans, notation_of(result)
    if plans.pieced:
        yield Drawing("picture-top", top_picture(plans.pieced, plans.top.shape, notation), notation)
    if plans.backing and plans.backing.chosen:
        picture = backing_picture(plans.backing, plans.backing.chosen, plans.top.shape, notation)
        yield Drawing("picture-backing", picture, notation)
    for name, diagram in cutting_diagrams(result).items():
        yield Drawing(f"picture-{name}", diagram, notation)
