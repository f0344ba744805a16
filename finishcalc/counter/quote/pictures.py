"""The pictures that a customer is shown: the top, the backing with its seams, and each cloth with its pieces."""

from collections.abc import Iterator
from itertools import islice

from finishcalc.pipeline import Finishing
from finishcalc.rendering.pages.cut import cutting_diagrams
from finishcalc.rendering.pictures.drawing import Drawing
from finishcalc.rendering.pictures.picture import backing_picture, plain_picture, top_picture
from finishcalc.rendering.writing import notation_of

MOST_PIECES = 250
"""A cloth with more pieces, some 60 KB of picture, is not drawn: the page is renewed at each edit, and the cut list
shows it."""


def customer_pictures(result: Finishing) -> tuple[Drawing, ...]:
    """Draw the top, the backing that is sewn, and each cloth whose pieces can be told apart, each under a name of its
    own."""
    return tuple(_drawings(result))


def _drawings(result: Finishing) -> Iterator[Drawing]:
    plans, notation = result.plans, notation_of(result)
    shape = plans.top.shape
    top = top_picture(plans.pieced, shape, notation) if plans.pieced else plain_picture(shape, notation)
    yield Drawing("picture-top", top, notation)
    if plans.backing and plans.backing.chosen:
        picture = backing_picture(plans.backing, plans.backing.chosen, shape, notation)
        yield Drawing("picture-backing", picture, notation)
    for name, diagram in cutting_diagrams(result).items():
        if len(list(islice(diagram.pieces, MOST_PIECES + 1))) <= MOST_PIECES:
            yield Drawing(f"picture-{name}", diagram, notation)
