"""The patches of a pieced block: how much of it they make, and what of its cloth is not on the list to buy."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import Area, Length
from finishcalc.model.pieced import PiecedTop
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.pieced.pieces import Patches
from finishcalc.wording.sentence import Sentence, say

NEARLY = Fraction(1, 100)
"""The share of a block that patches may miss it by, because they are cut to sizes that a ruler has."""


class PatchedBlock(NamedTuple):
    """The finished area of the patches that are named for one pieced block, and the area that they may fill; of a
    framed block, that is its inner square. There are `number` such blocks."""

    number: int
    framed: bool
    named: Area
    holds: Area

    @property
    def listed(self) -> Literal["none", "part", "all", "more"]:
        """The share of the blocks' cloth that is named: none, part, all, or more than a block holds."""
        if not self.named.mm2:
            return "none"
        if abs(self.named.mm2 - self.holds.mm2) <= self.holds.mm2 * NEARLY:
            return "all"
        return "part" if self.named < self.holds else "more"

    @property
    def unlisted(self) -> Sentence | None:
        """Says which cloth of the blocks is not on the list to buy; None where nothing is missing."""
        if self.listed == "none":
            what = "inner squares of the {number} blocks" if self.framed else "{number} pieced blocks"
            return say(f"cloth for the {what} is not included", number=self.number)
        if self.listed == "part":
            what = "the inner square of a block" if self.framed else "a block"
            text = f"the patches named make {{named}} of the {{holds}} of {what}: cloth for the rest is not included"
            return say(text, named=self.named, holds=self.holds)
        return None


def patched_block(top: PiecedTop, finest: Length) -> PatchedBlock | None:
    """Add up the patches of a pieced block; None where no block is pieced."""
    blocks = top.blocks
    if not blocks or not blocks.pieced_number:
        return None
    areas = (patch.finished_area(top.seam, finest).mm2 * patch.number for patch in blocks.patches)
    named = Area(sum(areas, Fraction(0)))
    return PatchedBlock(blocks.pieced_number, blocks.inner is not None, named, blocks.patched_area(top.seam))


def patches_cautions(patched: PatchedBlock | None) -> Iterator[Caution]:
    """Warn of patches that are more than a block holds."""
    if patched and patched.listed == "more":
        what = "the inner square of a block, which is" if patched.framed else "a block, which is"
        yield caution(
            "patches-over-block",
            f"The patches named come to {{named}} of {what} {{holds}}: check their number and sizes, unless they are "
            "cut larger and trimmed.",
            named=patched.named,
            holds=patched.holds,
        )


def patches_working(patches: Patches) -> Sentence:
    """Write out the number of patches, and of the squares that triangles come from."""
    patch, pieces = patches.patch, patches.pieces
    text = "Patches of {width} x {length}: {each} in a block x {blocks} = {number}"
    if patch.triangles:
        text = (
            f"Triangles from {{width}} squares: {{each}} in a block x {{blocks}} = {{number}}, {patch.from_one} from a "
        )
        text += "square: {squares} squares"
    return say(
        text,
        width=patch.size.width,
        length=patch.size.length,
        each=patch.number,
        blocks=patches.number // patch.number,
        number=patches.number,
        squares=pieces.number,
    )
