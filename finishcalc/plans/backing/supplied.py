"""The verdict on what the customer supplies for the backing."""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.model.shop import Seaming
from finishcalc.wording.sentence import Sentence


class ExtensionStrip(NamedTuple):
    """A strip that makes the customer's sewn backing large enough: cut `width` wide across the cloth from `pieces`
    pieces, it takes `cut_length` of cloth and so many seams of so much length."""

    width: Length
    pieces: int
    cut_length: Length
    seams: int
    seam_length: Length
    at_a_side: bool
    seam_allowance: Length

    def extend(self, size: tuple[Length, Length]) -> tuple[Length, Length]:
        """Give the width and length of a backing with the strip sewn on: the seam hides an allowance of each."""
        (width, length), more = size, self.width - self.seam_allowance * 2
        return (width + more, length) if self.at_a_side else (width, length + more)

    def minutes(self, seaming: Seaming) -> Fraction:
        """Give the minutes at its seams."""
        along = self.seam_length.to(seaming.per) * seaming.minutes_along.value
        return self.seams * seaming.minutes_each.value + along


class SuppliedCloth(NamedTuple):
    """The verdict on what the customer supplies, with its sentence and the arithmetic behind it.

    `strips` must be added to a sewn backing: at a side, at an end, or at both. Cloth that is `short`, or will do
    `without-binding`, needs so much to `bring` besides, as it is bought; one length is `short` by so much.
    `holds_binding` where the binding is to be cut from it too.
    """

    verdict: Literal["enough", "without-binding", "short", "accepted", "strip", "refused"]
    sentence: Sentence
    strips: tuple[ExtensionStrip, ...] = ()
    working: tuple[Sentence, ...] = ()
    short: Length | None = None
    bring: Length | None = None
    holds_binding: bool = False
