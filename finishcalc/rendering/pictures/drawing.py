"""A picture with what it takes to draw it: as box drawing in a terminal, or as SVG for a file, a page or paper."""

from typing import NamedTuple

from finishcalc.rendering.pictures.cutting import CuttingPicture
from finishcalc.rendering.pictures.outlines import SizeOutline
from finishcalc.rendering.pictures.picture import Picture
from finishcalc.wording.notation import Notation


class Drawing(NamedTuple):
    """A picture of a page, with its `name`, which is unique there, and the signs to write its sizes with."""

    name: str
    picture: Picture | CuttingPicture | tuple[SizeOutline, ...]
    notation: Notation
