"""The plan of the binding: strips joined end to end, folded double or single, with their cloth and their working."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Binding
from finishcalc.plans.cloth import buying, cost_of, length_to_buy, usable_width_of, usable_working
from finishcalc.plans.edge.strips import BindingStrips, Rectangle, Square, binding_strips, strip_width
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import ROOT_2, Sentence, Value, say


class BindingPlan(NamedTuple):
    """The binding. `needed_length` is the perimeter and the binding extra; `yields` is the length of the joined strips;
    `cut_length` is along the washed cloth; `amount` is bought for the binding alone. The strips of `offcuts`, by their
    lengths, come from beside the pieces of the backing."""

    needed_length: Length
    strips: int
    strip_width: Length
    strip_length: Length
    yields: Length
    square: Square | None
    rectangle: Rectangle | None
    cut: str
    join: str
    fold: str
    attach: str
    fabric: Fabric
    cut_length: Length
    cut_lengths: tuple[Length, ...]
    amount: Length
    cost: Money
    offcuts: tuple[Length, ...]
    working: tuple[Sentence, ...]

    @property
    def width_beside(self) -> Length:
        """The width that its strips take beside the pieces of the backing, all together, or less."""
        return self.strip_width * len(self.offcuts)


def plan_binding(
    shape: Shape,
    spec: Binding,
    currency: Currency,
    square_step: Length,
    offcuts: tuple[Length, ...] = (),
    shortest: Length = ZERO,
) -> BindingPlan:
    """Plan the strips. The closing join is part of the binding extra; a square's side is in steps of `square_step`, and
    no rectangle for bias is lower than `shortest`. Where it is cut from leftovers, `offcuts` are the strips to be had
    from beside the backing, the longest first."""
    needed = shape.perimeter + spec.extra
    strips = binding_strips(needed, spec, square_step, offcuts, shortest)
    amount = length_to_buy(spec.fabric, strips.cut_length) if strips.cut_length else ZERO
    width = strip_width(spec)
    cut_lengths = (width,) * strips.number if spec.cut in ("crosswise", "leftover") else (strips.cut_length,)
    if rectangle := strips.rectangle:
        cut_lengths = (rectangle.height,) * rectangle.pieces
    return BindingPlan(
        needed_length=needed,
        strips=strips.number,
        strip_width=width,
        strip_length=strips.length,
        yields=strips.yields,
        square=strips.square,
        rectangle=strips.rectangle,
        cut=spec.cut,
        join=spec.join,
        fold=spec.fold,
        attach=spec.attach,
        fabric=spec.fabric,
        cut_length=strips.cut_length,
        cut_lengths=cut_lengths,
        amount=amount,
        cost=cost_of(spec.fabric, amount, currency),
        offcuts=strips.offcuts,
        working=tuple(_working(shape, spec, needed, strips, amount)),
    )


def _working(shape: Shape, spec: Binding, needed: Length, strips: BindingStrips, amount: Length) -> Iterator[Sentence]:
    yield from _width_working(spec)
    text = "Needed: {edge} perimeter + {extra} extra = {needed}"
    yield say(text, edge=shape.perimeter, extra=spec.extra, needed=needed)
    yield usable_working(spec.fabric, usable_width_of(spec.fabric))
    if strips.square:
        yield from _square_working(strips, strips.square, needed, spec)
    elif strips.rectangle:
        yield from _rectangle_working(strips, strips.rectangle, needed, spec)
    elif strips.offcuts:
        yield from _offcuts_working(strips, needed, strip_width(spec))
    else:
        yield from _strips_working(strips, needed, spec)
    if shape.curved:
        yield say("A curved edge needs bias, which stretches round the curve; ease it on without pulling it.")
    if strips.cut_length:
        yield buying(spec.fabric, strips.cut_length, amount)


def _width_working(spec: Binding) -> Iterator[Sentence]:
    if spec.finished is None:
        return
    if spec.fold == "single":
        text = "Strip width: 4 x {w} finished, and at least {least} = {width}"
    else:
        text = "Strip width: 2 x (3 x {w} finished + {loft} loft), and at least {least} = {width}"
    width = strip_width(spec)
    yield say(text, w=spec.finished, loft=spec.loft, least=spec.least_strip, width=width)


def _square_working(strips: BindingStrips, square: Square, needed: Length, spec: Binding) -> Iterator[Sentence]:
    seams = spec.seam_allowance * 2
    yield say(
        "Square: ({side} - {seams}) / ({wide} x {root}), rounded down: {rounds} rounds",
        side=square.side,
        seams=seams,
        wide=strip_width(spec),
        rounds=square.rounds,
        root=ROOT_2,
    )
    yield say(
        "Yields: {rounds} x ({side} - {seams}) x {root} = {yields}, enough for {needed}",
        rounds=square.rounds,
        side=square.side,
        seams=seams,
        yields=strips.yields,
        needed=needed,
        root=ROOT_2,
    )


def _rectangle_working(
    strips: BindingStrips, rectangle: Rectangle, needed: Length, spec: Binding
) -> Iterator[Sentence]:
    values: dict[str, Value] = {
        "usable": rectangle.width,
        "height": rectangle.height,
        "seams": spec.seam_allowance * 2,
        "wide": strip_width(spec),
        "rounds": rectangle.rounds,
        "count": rectangle.pieces,
        "joins": rectangle.pieces - 1,
        "lost": strips.join_allowance,
        "yields": strips.yields,
        "needed": needed,
        "cut": strips.cut_length,
        "root": ROOT_2,
    }
    text = "Rectangle as wide as the cloth: ({usable} - {seams}) / ({wide} x {root}), rounded down: {rounds} rounds"
    yield Sentence(text, values)
    times, joins = ("{count} x ", " - {joins} joins x {lost}") if rectangle.pieces > 1 else ("", "")
    text = f"Yields: {times}{{rounds}} x ({{height}} - {{seams}}) x {{root}}{joins} = {{yields}}, enough for {{needed}}"
    yield Sentence(text, values)
    if rectangle.pieces > 1:
        yield Sentence("Cut: {count} x {height} = {cut}", values)


def _offcuts_working(strips: BindingStrips, needed: Length, width: Length) -> Iterator[Sentence]:
    """Add up offcuts of one length together, then the strips that are cut across the cloth."""
    groups = [*Counter(strips.offcuts).items(), *([(strips.length, strips.number)] if strips.number else [])]
    values: dict[str, Value] = {}
    for n, (length, count) in enumerate(groups):
        values |= {f"n{n}": count, f"long{n}": length}
    sum_of_groups = " + ".join(f"{{n{n}}} x {{long{n}}}" for n in range(len(groups)))
    text = f"Strips, first from beside the backing: {sum_of_groups}"
    yield say(
        text + " - {joins} joins x {lost} = {yields}, enough for {needed}",
        joins=len(strips.offcuts) + strips.number - 1,
        lost=strips.join_allowance,
        yields=strips.yields,
        needed=needed,
        **values,
    )
    if strips.number:
        yield _crosswise_working(strips, width)


def _strips_working(strips: BindingStrips, needed: Length, spec: Binding) -> Iterator[Sentence]:
    yield say(
        "Strips: {n} x {long} - {joins} joins x {lost} = {yields}, enough for {needed}",
        n=strips.number,
        long=strips.length,
        joins=strips.number - 1,
        lost=strips.join_allowance,
        yields=strips.yields,
        needed=needed,
    )
    width, cut = strip_width(spec), strips.cut_length
    if spec.cut == "bias":
        text = "Cut: {usable} + {n} x {wide} x {root} on the bias = {cut}"
        usable, number = usable_width_of(spec.fabric), Fraction(strips.number)
        yield say(text, usable=usable, n=number, wide=width, cut=cut, root=ROOT_2)
    elif spec.cut == "lengthwise":
        yield say("Cut: side by side along the cloth, {cut}", cut=cut)
    else:
        yield _crosswise_working(strips, width)


def _crosswise_working(strips: BindingStrips, width: Length) -> Sentence:
    return say("Cut: {n} x {wide} = {cut}", n=strips.number, wide=width, cut=strips.cut_length)
