"""Work by eye in words: the marking of scallops, and the matching of a print at the seams of the backing."""

from finishcalc.measures.length import ZERO, Length
from finishcalc.plans.backing.options import BackingOption
from finishcalc.plans.cutting.purchases import Purchase
from finishcalc.plans.top.outline import Shape
from finishcalc.rendering.lettering import pieces_of
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import Spare
from finishcalc.wording.words import counted


def scallop_words(shape: Shape, notation: Notation) -> list[str]:
    """Say the number and the true width of scallops, and what to do at the corners, where the arcs of two sides meet in
    a point (common practice); nothing where the edge has none."""
    scallops, exact = shape.scallops, notation.exactly()
    if not scallops:
        return []
    sides = ", and ".join(
        f"{counted(count, 'scallop')} {way}, each {exact.show(chord)} of the {exact.show(side)} between the corners"
        for way, count, side, chord in zip(
            ("across", "down"), (scallops.across, scallops.down), scallops.inner, scallops.chords, strict=True
        )
    )
    deep = notation.show(scallops.depth)
    return [
        f"{sides}, {deep} deep",
        f"at a corner two scallops meet in a point {deep} from both sides, which is hard to bind: most makers draw "
        "one larger lobe round the corner in place of the two; measure the edge again then, before the binding is cut",
    ]


def matching_words(option: BackingOption, bought: tuple[Purchase, ...], notation: Notation) -> list[str]:
    """Say how the print is matched where panels meet (common practice); nothing where it need not meet. What
    else is cut beside them leaves less of their width to spare."""
    layout = option.layout
    if not option.fabric.repeat or not layout.seams:
        return []
    spare = _spare_width(bought)
    trim = "there is no width to spare, so the print meets along the seam only"
    if spare > ZERO:
        trim = (
            "cut both sides that meet a seam allowance beyond the same place in the motif, for which "
            f"{notation.show(Spare(spare))} of width is to spare, and trim the outer sides to size last"
        )
    seams = "the seam" if layout.seams == 1 else "each seam"
    return [
        f"match the print at {seams}: {trim}; press the seam allowance of one panel under, lay the fold on the next "
        "until the motif meets, pin or glue it, and sew in the crease"
    ]


def _spare_width(bought: tuple[Purchase, ...]) -> Length:
    """Add up the width that is free beside the pieces of the backing."""
    layouts = (layout for purchase in bought if "backing" in purchase.uses for layout in purchase.layouts)
    beside = ((layout.usable - band.width, band) for layout in layouts for band in layout.bands)
    return sum((width for width, band in beside if any(piece.use == "backing" for piece in pieces_of(band))), ZERO)
