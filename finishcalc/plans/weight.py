"""The weight of the finished quilt: each layer's area times its weight by area.

A pieced top holds more cloth than its area, because a patch that is f finished is cut f and two seam allowances: it
carries (f + 2s)^2 / f^2 of its area (derived). Pieces whose cut sizes are known count as they are cut. The binding
counts as its strips. What is trimmed off backing and batting does not count, nor do the backing's seams and the thread.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Area, Length
from finishcalc.measures.weight import AreaWeight, Weight
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Project, TopCloth
from finishcalc.plans.backing.plan import BackingPlan
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.edge.binding import BindingPlan
from finishcalc.plans.pieced.part_cuts import TopPart, top_parts
from finishcalc.plans.pieced.pieces import Round
from finishcalc.plans.pieced.plan import PiecedPlan
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import ClothArea, Heavy, Sentence, Value, WhenRead, say
from finishcalc.wording.words import in_words


class Layer(NamedTuple):
    """A cloth or the batting in a `part` of the quilt: its area, and its weight by area, None where nobody knows it.
    `working` is the arithmetic of the area, where it is not that of the quilt."""

    part: str
    material: str
    area: Area
    by_area: AreaWeight | None
    working: Sentence | None = None

    @property
    def weight(self) -> Weight | None:
        """The weight of it; None where nobody knows."""
        return self.by_area * self.area if self.by_area else None


class WeightPlan(NamedTuple):
    """The weight of the quilt by its layers."""

    layers: tuple[Layer, ...]
    working: Sequence[Sentence]

    @property
    def total(self) -> Weight | None:
        """The weight of the quilt; None where the weight of any of its layers is not known."""
        return _total([layer.weight for layer in self.layers])

    @property
    def not_known(self) -> tuple[str, ...]:
        """The materials whose weight by area is not known, each once."""
        return tuple(dict.fromkeys(layer.material for layer in self.layers if not layer.by_area))

    @property
    def parts(self) -> dict[str, Weight | None]:
        """The weight of each part of the quilt; None for one with a material whose weight is not known."""
        names = dict.fromkeys(layer.part for layer in self.layers)
        return {name: _total([layer.weight for layer in self.layers if layer.part == name]) for name in names}

    @property
    def sentence(self) -> Sentence:
        """Says the weight by its parts, or of which materials it is not known."""
        known = {name: weight for name, weight in self.parts.items() if weight}
        values: dict[str, Value] = {f"part{n}": weight for n, weight in enumerate(known.values())}
        parts = ", ".join(f"{name} {{part{n}}}" for n, name in enumerate(known))
        if self.total:
            return say(f"about {{total}}: {parts}", total=Heavy(self.total), **values)
        missing = "not known, because no weight by area is given for {materials}"
        return say(f"{missing}; {parts}" if known else missing, materials=in_words(list(self.not_known)), **values)


def _total(weights: Sequence[Weight | None]) -> Weight | None:
    known = [weight for weight in weights if weight]
    return sum(known, Weight(Fraction(0))) if len(known) == len(weights) else None


def plan_weight(
    project: Project,
    shape: Shape,
    pieced: PiecedPlan | None,
    backing: BackingPlan | None,
    batting: BattingPlan | None,
    binding: BindingPlan | None,
) -> WeightPlan:
    """Weigh the layers of a quilt of this shape, and its binding."""
    layers = list(_top_layers(project.top.cloth, shape, pieced))
    if backing:
        layers.append(Layer("backing", backing.fabric.name, shape.area, backing.fabric.weight))
    if batting:
        layers.append(Layer("batting", batting.product.name, shape.area, batting.product.weight))
    if binding:
        layers.append(_binding_layer(binding))
    weighed = WeightPlan(tuple(layers), ())
    return weighed._replace(working=WhenRead(lambda: _working(weighed)))


def _binding_layer(binding: BindingPlan) -> Layer:
    """Weigh the strips as they go round: the perimeter and the binding extra."""
    area = binding.needed_length * binding.strip_width
    text = "Strips: {long} x {wide} = {area}"
    working = say(text, long=binding.needed_length, wide=binding.strip_width, area=ClothArea(area))
    return Layer("binding", binding.fabric.name, area, binding.fabric.weight, working)


def _top_layers(cloth: TopCloth, shape: Shape, pieced: PiecedPlan | None) -> Iterator[Layer]:
    """Weigh the top: one that is only measured by its patches, a pieced one by its pieces."""
    if not pieced:
        yield _patchwork(shape.area, cloth.patch, cloth)
        return
    yield from _not_cut(cloth, pieced)
    by_cloth: dict[Fabric | None, Fraction] = {}
    rounds = {f"border {number}": each for number, each in enumerate(pieced.pieces.rounds, start=1)}
    for part in top_parts(pieced.top, pieced.pieces):
        fabric = None if cloth.weight_is_stated else part.cloth.fabric
        by_cloth[fabric] = by_cloth.get(fabric, Fraction(0)) + _area_cut(part, rounds.get(part.use)).mm2
    for fabric, area in by_cloth.items():
        name, by_area = (fabric.name, fabric.weight) if fabric else (CLOTH_OF_TOP, cloth.weight)
        working = say("Pieces of {cloth} as they are cut: {area}", cloth=name, area=ClothArea(Area(area)))
        yield Layer("top", name, Area(area), by_area, working)


CLOTH_OF_TOP = "the top's cloth"
"""The name of the cloth of a top whose pieces do not tell it."""


def _patchwork(area: Area, patch: Length, cloth: TopCloth) -> Layer:
    """Weigh what is pieced from square patches of a finished size, with their seams."""
    cut = patch + cloth.seam * 2
    sewn = Area(area.mm2 * (cut * cut).mm2 / (patch * patch).mm2)
    text = "Cloth in {area} of patches, {patch} finished: x ({cut} x {cut}) / ({patch} x {patch}) = {sewn}"
    working = say(text, area=ClothArea(area), patch=patch, cut=cut, sewn=ClothArea(sewn))
    return Layer("top", CLOTH_OF_TOP, sewn, cloth.weight, working)


def _not_cut(cloth: TopCloth, pieced: PiecedPlan) -> Iterator[Layer]:
    """Weigh what is sewn already, and what no patches are named for: a centre, and blocks or the rest of them."""
    blocks, centre, patched = pieced.top.blocks, pieced.top.centre, pieced.patched
    if centre:
        yield _patchwork(centre.width * centre.length, cloth.patch, cloth)
    if blocks and patched and patched.listed in ("none", "part"):
        side = blocks.size if blocks.inner is None else blocks.inner - pieced.top.seam * 2
        rest = Area((patched.holds.mm2 - patched.named.mm2) * patched.number)
        yield _patchwork(rest, min(cloth.patch, side), cloth._replace(seam=pieced.top.seam))


def _area_cut(part: TopPart, border: Round | None) -> Area:
    """Add up the pieces of a part. The ends of mitred strips are trimmed, so that they count as butted ones would."""
    if border and border.border.corners == "mitred":
        return (
            border.before.width + border.before.length + border.after.width + border.after.length
        ) * border.border.cut
    return Area(sum(((each.width * each.length).mm2 * each.number for each in part.pieces), Fraction(0)))


def _working(plan: WeightPlan) -> Iterator[Sentence]:
    for layer in plan.layers:
        if layer.working:
            yield layer.working
        if layer.by_area and layer.weight:
            text = "{part}, {material}: {area} x {by_area} = {weight}"
            yield say(
                text,
                part=layer.part.capitalize(),
                material=layer.material,
                area=ClothArea(layer.area),
                by_area=layer.by_area,
                weight=layer.weight,
            )
    if plan.total:
        weights = {f"weight{n}": layer.weight for n, layer in enumerate(plan.layers) if layer.weight}
        text = "Quilt: " + " + ".join(f"{{{name}}}" for name in weights) + " = {total}"
        yield say(text, total=plan.total, **weights)
