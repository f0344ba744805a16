"""The plan of the binding: strips joined end to end, folded double or single, with their cloth and their working."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.model.materials import Fabric
from finishcalc.model.project import Binding, Offcut
from finishcalc.plans.cautions import Caution
from finishcalc.plans.cloth import buying, cost_of, length_to_buy, usable_width_of, usable_working
from finishcalc.plans.cutting.layout import Band, Column, LaidPiece, Wanted
from finishcalc.plans.edge.offcut import bias_from_offcut, not_used, straight_from_offcut
from finishcalc.plans.edge.strips import (
    RECTANGLE_STEPS,
    BindingStrips,
    Rectangle,
    Square,
    binding_strips,
    strip_width,
)
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import ROOT_2, Sentence, Value, say


class BindingPlan(NamedTuple):
    """The binding. `needed_length` is the perimeter and the binding extra; `yields` is the length of the joined strips;
    `cut_length` is along the washed cloth; `amount` is bought for the binding alone. The strips of `offcuts`, by their
    lengths, or the rectangle, come from the offcut `at_hand`; where there is none, those of `offcuts` come from beside
    the pieces of its cloth that `beside` names."""

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
    at_hand: Offcut | None
    beside: Literal["backing", "top", "backing and top"]
    working: tuple[Sentence, ...]
    cautions: tuple[Caution, ...]

    @property
    def needs_no_cloth(self) -> bool:
        """Tell a binding that an offcut at hand holds wholly."""
        return self.at_hand is not None and not self.cut_length

    @property
    def crosswise(self) -> bool:
        """True where its strips run from selvage to selvage, and so leave nothing beside them."""
        return self.cut in ("crosswise", "leftover")

    @property
    def bands(self) -> tuple[Band, ...]:
        """Its pieces as they are cut from the cloth, but for what comes from offcuts."""
        if not self.cut_length:
            return ()
        if self.cut == "lengthwise":
            return (_band(self.cut_length, self.strip_width, self.strips),)
        if self.square:
            return (_band(self.square.side, self.square.side),)
        usable = usable_width_of(self.fabric)
        return tuple(_band(length, usable) for length in self.cut_lengths)


def _band(length: Length, width: Length, number: int = 1) -> Band:
    """Lay so many pieces of a binding side by side in a band that is as long as they are."""
    short, long = sorted((width, length))
    wanted = Wanted("binding", short, long, number, length == long, width == long, long)
    return Band(length, (Column(width, (LaidPiece(wanted, width, length),)),) * number)


def plan_binding(
    shape: Shape,
    spec: Binding,
    currency: Currency,
    square_step: Length,
    offcuts: tuple[Length, ...] = (),
    shortest: Length = ZERO,
    either_grain: bool = True,
) -> BindingPlan:
    """Plan the strips. The closing join is part of the binding extra; a square's side is in steps of `square_step`, and
    no rectangle for bias is lower than `shortest`. Where it is cut from leftovers, `offcuts` are the strips to be had
    from beside other pieces, the longest first. Strips across the cloth lie in an offcut at hand in `either_grain`."""
    needed = shape.perimeter + spec.extra
    from_hand, cautions = _from_hand(needed, spec, square_step, shortest, either_grain)
    strips = from_hand or binding_strips(needed, spec, square_step, offcuts, shortest)
    amount = length_to_buy(spec.fabric, strips.cut_length) if strips.cut_length else ZERO
    width = strip_width(spec)
    cut_lengths = (width,) * strips.number if spec.cut in ("crosswise", "leftover") else (strips.cut_length,)
    if rectangle := strips.rectangle:
        cut_lengths = (rectangle.height,) * rectangle.pieces
    if not strips.cut_length:
        cut_lengths = ()
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
        at_hand=spec.offcut if from_hand else None,
        beside="backing",
        working=tuple(_working(shape, spec, needed, strips, amount)),
        cautions=cautions,
    )


def _from_hand(
    needed: Length, spec: Binding, square_step: Length, shortest: Length, either_grain: bool
) -> tuple[BindingStrips | None, tuple[Caution, ...]]:
    """Cut the binding from the offcut that is at hand, or say why it is not."""
    offcut = spec.offcut
    if not offcut or spec.cut == "leftover":
        return None, ()
    if spec.cut == "bias":
        strips = bias_from_offcut(needed, spec, offcut, square_step / RECTANGLE_STEPS, shortest)
    else:
        either_grain = either_grain and spec.cut == "crosswise"
        strips = straight_from_offcut(needed, spec, offcut, shortest, either_grain)
    return strips, () if strips else (not_used(needed, spec, offcut, shortest, either_grain),)


def _working(shape: Shape, spec: Binding, needed: Length, strips: BindingStrips, amount: Length) -> Iterator[Sentence]:
    yield from _width_working(spec)
    text = "Needed: {edge} perimeter + {extra} extra = {needed}"
    yield say(text, edge=shape.perimeter, extra=spec.extra, needed=needed)
    if strips.cut_length or not spec.offcut:
        yield usable_working(spec.fabric, usable_width_of(spec.fabric))
    if strips.square:
        yield from _square_working(strips, strips.square, needed, spec)
    elif strips.rectangle:
        yield from _rectangle_working(strips, strips.rectangle, needed, spec)
    elif strips.offcuts:
        yield from _offcuts_working(strips, needed, spec)
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
    which = "Rectangle from the offcut" if not strips.cut_length else "Rectangle as wide as the cloth"
    text = which + ": ({usable} - {seams}) / ({wide} x {root}), rounded down: {rounds} rounds"
    yield Sentence(text, values)
    times, joins = ("{count} x ", " - {joins} joins x {lost}") if rectangle.pieces > 1 else ("", "")
    text = f"Yields: {times}{{rounds}} x ({{height}} - {{seams}}) x {{root}}{joins} = {{yields}}, enough for {{needed}}"
    yield Sentence(text, values)
    if rectangle.pieces > 1:
        yield Sentence("Cut: {count} x {height} = {cut}", values)


def _offcuts_working(strips: BindingStrips, needed: Length, spec: Binding) -> Iterator[Sentence]:
    """Add up offcuts of one length together, then the strips that are cut from new cloth."""
    groups = [*Counter(strips.offcuts).items(), *([(strips.length, strips.number)] if strips.number else [])]
    values: dict[str, Value] = {}
    for n, (length, count) in enumerate(groups):
        values |= {f"n{n}": count, f"long{n}": length}
    sum_of_groups = " + ".join(f"{{n{n}}} x {{long{n}}}" for n in range(len(groups)))
    source = "beside the other pieces" if spec.cut == "leftover" else "the offcut"
    text = f"Strips, first from {source}: {sum_of_groups}"
    yield say(
        text + " - {joins} joins x {lost} = {yields}, enough for {needed}",
        joins=len(strips.offcuts) + strips.number - 1,
        lost=strips.join_allowance,
        yields=strips.yields,
        needed=needed,
        **values,
    )
    if strips.number:
        yield _cut_working(strips, spec)


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
    yield _cut_working(strips, spec)


def _cut_working(strips: BindingStrips, spec: Binding) -> Sentence:
    """Write out the length of new cloth that the strips take."""
    width, cut = strip_width(spec), strips.cut_length
    if spec.cut == "bias":
        text = "Cut: {usable} + {n} x {wide} x {root} on the bias = {cut}"
        usable, number = usable_width_of(spec.fabric), Fraction(strips.number)
        return say(text, usable=usable, n=number, wide=width, cut=cut, root=ROOT_2)
    if spec.cut == "lengthwise":
        return say("Cut: side by side along the cloth, {cut}", cut=cut)
    return say("Cut: {n} x {wide} = {cut}", n=strips.number, wide=width, cut=cut)
