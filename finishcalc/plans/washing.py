"""The size of the quilt once it is washed: one size, or a range where its cloth was not washed before.

The batting shrinks by its label. Cloth that was never washed shrinks with it, and nobody can foretell how much: whole
quilts of unwashed cloth lost more than their battings' labels say (measured before and after by quilters).
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Size
from finishcalc.model.materials import Batting, Fabric
from finishcalc.model.project import Project
from finishcalc.model.shop import Washing
from finishcalc.plans.pieced.part_cuts import top_parts
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.wording.sentence import Sentence, Share, say


class Washed(NamedTuple):
    """The size that washing leaves, where it takes the `least` share of each side and where it takes the `most`."""

    least: Fraction
    most: Fraction
    largest: Size
    smallest: Size
    working: tuple[Sentence, ...]


def wash(quilted: Size, batting: Batting | None, washing: Washing, prewashed: bool) -> Washed:
    """Wash a quilt of this size. The batting takes the share that its label says; unwashed cloth takes no less, and as
    much as the shop's own range says."""
    label = batting.shrink if batting else Fraction(0)
    least, most = (washing.least, washing.most) if batting else (washing.least_bare, washing.most_bare)
    least, most = (label, label) if prewashed else (max(label, least), max(label, most))
    largest, smallest = (smaller(quilted, share) for share in (least, most))
    washed = Washed(least, most, largest, smallest, ())
    return washed._replace(working=tuple(_working(washed, prewashed)))


def smaller(size: Size, share: Fraction) -> Size:
    """Take a share of each side."""
    return Size(size.width * (1 - share), size.length * (1 - share))


def is_prewashed(project: Project, pieced: PiecedPlan | None) -> bool:
    """Tell a quilt none of whose cloth shrinks in it any more: neither that of the top nor that of the backing."""
    backing = project.backing.fabric if project.backing else None
    return (backing is None or backing.is_washed_first) and (project.top.cloth.prewashed or _top_is_washed(pieced))


def _top_is_washed(pieced: PiecedPlan | None) -> bool:
    """Tell a pieced top that is cut from cloth that is known, all of it washed first."""
    if not pieced or pieced.top.centre or (pieced.patched and pieced.patched.listed in ("none", "part")):
        return False
    cloths: list[Fabric | None] = [part.cloth.fabric for part in top_parts(pieced.top, pieced.pieces)]
    return all(fabric is not None and fabric.is_washed_first for fabric in cloths)


def _working(washed: Washed, prewashed: bool) -> Iterator[Sentence]:
    if not washed.most:
        return
    size = {"w": washed.largest.width, "l": washed.largest.length}
    if washed.least == washed.most:
        batting = "the batting" if prewashed else "it"
        yield say(f"Washed, {batting} shrinks about {{share}}: {{w}} x {{l}}", share=Share(washed.most), **size)
        return
    yield say(
        "Washed for the first time, it shrinks by {least} to {most} each way: {w} x {l} to {sw} x {sl}",
        least=Share(washed.least),
        most=Share(washed.most),
        sw=washed.smallest.width,
        sl=washed.smallest.length,
        **size,
    )
