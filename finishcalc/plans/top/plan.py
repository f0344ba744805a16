"""The top: its shape, the size it is billed at, and the cautions where the tape shows that it is not true."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.bounds import root_down
from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.cover import Cover
from finishcalc.model.project import Measured, TopSpec
from finishcalc.model.shop import Measuring
from finishcalc.plans.cautions import Caution, caution
from finishcalc.plans.top.cover import cover_working
from finishcalc.plans.top.outline import Shape, circle, oval, rectangle, rounded, scalloped
from finishcalc.wording.sentence import Sentence, WhenRead, say


class TopPlan(NamedTuple):
    """The top as measured, and the rectangle it is billed as: each side up to the whole inch or centimetre."""

    shape: Shape
    billed: Shape
    use: str
    covers: Cover | None
    working: Sequence[Sentence]
    cautions: tuple[Caution, ...]


def plan_top(spec: TopSpec, measuring: Measuring, units: str) -> TopPlan:
    """Take the top's size. It is billed by the largest width and length, each up to a whole inch or centimetre (common
    practice), or by the mean where the shop says so."""
    unit = Length.of(1, units)
    shape = shape_of(spec)
    width, length = shape.width, shape.length
    if spec.measured and measuring.bill == "mean":
        width, length = mean(spec.measured.widths), mean(spec.measured.lengths)
    billed = rectangle(up_to_step(width, unit), up_to_step(length, unit))
    working = WhenRead(lambda: _working(spec, measuring, shape, billed))
    cautions = tuple(_not_true(spec.measured, measuring)) if spec.measured else ()
    return TopPlan(shape, billed, spec.use, spec.covers, working, cautions)


def _working(spec: TopSpec, measuring: Measuring, shape: Shape, billed: Shape) -> Iterator[Sentence]:
    yield from _size_working(spec, measuring, shape)
    yield _perimeter_working(spec, shape)
    yield from _scallop_working(shape)
    yield _billed_working(billed)


def _size_working(spec: TopSpec, measuring: Measuring, shape: Shape) -> Iterator[Sentence]:
    """The arithmetic of the size, where it was not simply given."""
    if spec.measured:
        yield from _measured_working(spec.measured, measuring.bill)
    if spec.covers:
        yield from cover_working(spec.covers, square=not shape.curved)


def shape_of(spec: TopSpec) -> Shape:
    """Make the shape that the project describes."""
    if spec.shape == "round":
        return circle(spec.width)
    if spec.shape == "oval":
        return oval(spec.width, spec.length)
    if spec.scallop:
        return scalloped(spec.width, spec.length, spec.scallop.chord, spec.scallop.depth)
    if spec.corner_radius:
        return rounded(spec.width, spec.length, spec.corner_radius)
    return rectangle(spec.width, spec.length)


def mean(lengths: tuple[Length, ...]) -> Length:
    """Take the mean of what the tape says."""
    return sum(lengths, ZERO) / len(lengths)


def _not_true(measured: Measured, measuring: Measuring) -> Iterator[Caution]:
    """Warn of borders that wave and corners that are not square, each with what is usually done about it."""
    for name, sides in (("widths", measured.widths), ("lengths", measured.lengths)):
        spread = max(sides) - min(sides)
        allowed = measuring.spread_long if max(sides) > measuring.long else measuring.spread
        if spread > allowed:
            yield caution(
                "borders-wave",
                "The {name} differ by {spread}, more than {allowed}: the borders may wave. Measure through the middle, "
                "and ease or sew the borders on again before quilting.",
                name=name,
                spread=spread,
                allowed=allowed,
            )
    if measured.diagonals and max(measured.diagonals) - min(measured.diagonals) > measuring.skew:
        yield caution(
            "skewed",
            "The diagonals differ by {spread}; square, {w} x {l} has {square}: the top is skewed. Block it, "
            "or square it as it is loaded.",
            spread=max(measured.diagonals) - min(measured.diagonals),
            w=max(measured.widths),
            l=max(measured.lengths),
            square=_diagonal(max(measured.widths), max(measured.lengths)),
        )


def _diagonal(width: Length, length: Length) -> Length:
    """Measure the diagonal of a rectangle, to the hundredth of a millimetre."""
    exact = root_down(width.mm * width.mm + length.mm * length.mm)
    return Length(Fraction(round(exact * 100), 100))


def _measured_working(measured: Measured, bill: str) -> Iterator[Sentence]:
    for name, sides in (("Widths", measured.widths), ("Lengths", measured.lengths)):
        text = "{name}: largest of " + ", ".join(f"{{side{n}}}" for n in range(len(sides))) + " is {most}"
        values = {f"side{n}": side for n, side in enumerate(sides)}
        yield say(text, name=name, most=max(sides), **values)
        if bill == "mean":
            yield say("{name}, mean: {mean}", name=name, mean=mean(sides))


def _billed_working(billed: Shape) -> Sentence:
    text = "Billed size, each side up to a whole number: {width} x {length} = {area}"
    return say(text, width=billed.width, length=billed.length, area=billed.area)


def _scallop_working(shape: Shape) -> Iterator[Sentence]:
    """The arithmetic of scallops, and of their area, which no one multiplies out."""
    scallops = shape.scallops
    if not scallops:
        return
    across, down = scallops.across, scallops.down
    for way, count, side, chord in zip(
        ("across", "down"), (across, down), scallops.inner, scallops.chords, strict=True
    ):
        text = "Scallops {way}: {side} between the corners / {count} = {chord} each"
        yield say(text, way=way, side=side, count=count, chord=chord)
    text = "Area: {width} x {length} + {count} segments between arc and chord, 2 x ({across} + {down}) = {area}"
    width, length = scallops.inner
    yield say(text, width=width, length=length, count=2 * (across + down), across=across, down=down, area=shape.area)


def _perimeter_working(spec: TopSpec, shape: Shape) -> Sentence:
    size = {"width": shape.width, "length": shape.length, "perimeter": shape.perimeter}
    if shape.name == "round":
        return say("Perimeter: pi x {width} = {perimeter}", **size)
    if shape.name == "oval":
        return say("Perimeter of an ellipse {width} x {length}: {perimeter}", **size)
    if spec.scallop:
        text = "Perimeter: arcs of about {chord} and {depth} deep along {width} x {length} = {perimeter}"
        return say(text, chord=spec.scallop.chord, depth=spec.scallop.depth, **size)
    if shape.corner:
        text = "Perimeter: 2 x ({width} + {length}) - 8 x {radius} + 2 x pi x {radius} = {perimeter}"
        return say(text, radius=shape.corner, **size)
    return say("Perimeter: 2 x ({width} + {length}) = {perimeter}", **size)
