"""The cloth of extras: the strip of a hanging sleeve, the square of a label, and whatever else is cut for one.

A piece is laid with all others of its cloth: first in what is free beside them, so that it takes more cloth only where
it must. Nobody sees which way its grain runs, so it lies as it fits best. One that is longer than the cloth is wide is
cut along it, or joined from strips across it, whichever costs less.
"""

from collections.abc import Iterator
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import FINEST, up_to_step
from finishcalc.model.extra_cuts import CutExtra
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import Fabric
from finishcalc.model.pieced import PieceCloth
from finishcalc.model.project import Project
from finishcalc.plans.cautions import Caution, blocking_caution, caution
from finishcalc.plans.cloth import usable_width_of, use_of_extra
from finishcalc.plans.cutting.ways import Way
from finishcalc.plans.joined_strips import join_allowance
from finishcalc.plans.pieced.part_cuts import CuttingRules, TopPart, part_ways
from finishcalc.plans.pieced.pieces import Pieces
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import Sentence, say
from finishcalc.wording.words import capital, in_words


class ExtraPlan(NamedTuple):
    """The pieces of one extra: `number` of `width` x `length`, of a cloth. They are a part of their own, whose `use`
    names it; `label` is the extra's name for the customer."""

    use: str
    label: str
    number: int
    width: Length
    length: Length
    fabric: Fabric
    supplied_by: Supplier
    ways: tuple[Way, ...]
    working: Sentence

    def is_of(self, width: Length, length: Length) -> bool:
        """Tell a piece of this size."""
        return sorted((width, length)) == sorted((self.width, self.length))


class ExtraPlans(NamedTuple):
    """The extras that are cut from cloth, and the cautions about those that cannot be."""

    cut: tuple[ExtraPlan, ...]
    cautions: tuple[Caution, ...]


class _Cloth(NamedTuple):
    """A cloth for an extra, and who supplies it."""

    fabric: Fabric
    supplied_by: Supplier


def plan_extras(project: Project, shape: Shape) -> ExtraPlans:
    """Plan the pieces of the extras that are ordered."""
    plans, cautions = list[ExtraPlan](), list[Caution]()
    for extra in project.extra_cuts.ordered:
        cloth, length = _cloth_of(project, extra), _length(shape, extra, FINEST[project.units])
        if why := _why_not(extra, cloth.fabric, length) if cloth else _no_cloth(extra):
            cautions.append(why)
        elif cloth:
            plans.append(_plan(project, shape, extra, cloth, length))
    return ExtraPlans(tuple(plans), tuple(cautions))


def _cloth_of(project: Project, extra: CutExtra) -> _Cloth | None:
    """Give the cloth of its own, or the first of the quilt's that there is, from whoever supplies that."""
    if extra.fabric:
        return _Cloth(extra.fabric, extra.cut.supplied_by or "shop")
    for of in extra.of_quilt:
        if layer := project.backing if of == "backing" else project.binding:
            return _Cloth(layer.fabric, extra.cut.supplied_by or layer.supplied_by)
    return None


def _length(shape: Shape, extra: CutExtra, finest: Length) -> Length:
    """Give the length to cut, up to what a person can measure."""
    cut = extra.cut
    if cut.of:
        return up_to_step(_side(shape, extra) - (cut.less or ZERO), finest)
    return cut.width if cut.length is None else cut.length


def _side(shape: Shape, extra: CutExtra) -> Length:
    return shape.width if extra.cut.of == "width" else shape.length


def _no_cloth(extra: CutExtra) -> Caution:
    text = "{label}: its cloth is not on the list to buy, because the quilt has no {layers} to cut it from."
    return caution("extra-without-cloth", text, label=extra.label, layers=in_words(extra.of_quilt, "or"))


def _why_not(extra: CutExtra, fabric: Fabric, length: Length) -> Caution | None:
    """Say why an extra cannot be cut from its cloth."""
    width, usable = extra.cut.width, usable_width_of(fabric)
    if length <= ZERO:
        text = "{label}: nothing is left to cut once {less} is taken off the top."
        return blocking_caution("extra-too-short", text, label=extra.label, less=extra.cut.less or ZERO)
    if min(width, length) > usable:
        return blocking_caution(
            "extra-too-wide",
            "{label}: {fabric} is too narrow for {width} x {length}, so it is not on the list to buy: use a wider "
            "cloth.",
            label=extra.label,
            fabric=fabric.name,
            width=width,
            length=length,
        )
    return None


def _plan(project: Project, shape: Shape, extra: CutExtra, cloth: _Cloth, length: Length) -> ExtraPlan:
    use, width = use_of_extra(extra.name), extra.cut.width
    pieces = Pieces(min(width, length), max(width, length), extra.number)
    return ExtraPlan(
        use=use,
        label=extra.label,
        number=extra.number,
        width=width,
        length=length,
        fabric=cloth.fabric,
        supplied_by=cloth.supplied_by,
        ways=tuple(_ways(project, use, pieces, cloth.fabric)),
        working=_working(shape, extra, use, length),
    )


def _ways(project: Project, use: str, pieces: Pieces, fabric: Fabric) -> Iterator[Way]:
    """Give the ways to cut the pieces. Strips are joined straight, because a diagonal join takes as much as they are
    wide (common practice); not where two seam allowances would take half of what the cloth is wide."""
    seam, usable = project.extra_cuts.seam, usable_width_of(fabric)
    may_join = join_allowance("straight", pieces.width, seam) * 2 <= usable
    cloth = PieceCloth(fabric, "any" if may_join else "lengthwise", "straight")
    rules = CuttingRules(seam, None, project.sewing.cloth.shortest_piece, FINEST[project.units])
    for way in part_ways(TopPart(use, (pieces,), cloth), usable, rules):
        yield way._replace(is_one_of_two=False)  # no key of a project picks one of them


def _working(shape: Shape, extra: CutExtra, use: str, length: Length) -> Sentence:
    """Write out the length that is cut, and how often."""
    cut, text = extra.cut, "{use}: {n} x {width} x {length}"
    if cut.of:
        less = " - {less}" if cut.less else ""
        text = "{use}: {n} x {width} x ({side}" + less + " = {length})"
    return say(
        text,
        use=capital(use),
        n=extra.number,
        width=cut.width,
        side=_side(shape, extra),
        less=cut.less or ZERO,
        length=length,
    )
