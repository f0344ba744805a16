"""A backing as pieces: where each lies on the cloth, and what each shows once it is sewn."""

from typing import Literal, NamedTuple

from finishcalc.measures.length import Length


class Cut(NamedTuple):
    """A piece on the cloth: x across the usable width, y along the cloth; names are unique."""

    piece: str
    x: Length
    y: Length
    width: Length
    length: Length


class Shown(NamedTuple):
    """What a piece shows in the backing, seam allowances hidden: x across the top's width, y down.

    `turned` says that the cloth's length runs across the top, not down it.
    """

    piece: str
    x: Length
    y: Length
    width: Length
    length: Length
    turned: bool


class Leftover(NamedTuple):
    """A rectangle of cloth that is bought and not needed."""

    x: Length
    y: Length
    width: Length
    length: Length


class Layout(NamedTuple):
    """A way to make the backing. `runs` says which way its seams run; `turned` that it mixes the grain."""

    name: str
    runs: Literal["none", "lengthwise", "crosswise"]
    panels: int
    seams: int
    seam_length: Length
    turned: bool
    cut_length: Length
    cuts: tuple[Cut, ...]
    assembly: tuple[Shown, ...]
