"""A picture with what it takes to draw it. `drawn` draws it, and is loaded where that is asked for."""

from typing import TYPE_CHECKING, NamedTuple

from finishcalc.wording.notation import Notation

if TYPE_CHECKING:
    from finishcalc.rendering.pictures.cutting import CuttingPicture
    from finishcalc.rendering.pictures.outlines import SizeOutline
    from finishcalc.rendering.pictures.picture import Picture


class Drawing(NamedTuple):
    """A picture of a page, with its `name`, which is unique there, and the signs to write its sizes with."""

    name: str
    picture: "Picture | CuttingPicture | tuple[SizeOutline, ...]"
    notation: Notation
