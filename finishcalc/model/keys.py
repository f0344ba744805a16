"""The types of the keys a file may hold, each with the function that reads it, and those of lengths and minutes."""

from datetime import date
from fractions import Fraction
from functools import cache
from typing import Annotated, Literal, NamedTuple, TypeVar, get_args

from finishcalc.measures.length import AreaUnit, Length, LengthUnit, Overage
from finishcalc.measures.numbers import MeasureError
from finishcalc.measures.weight import AreaWeight as WeightByArea
from finishcalc.measures.weight import Weight as Weighed
from finishcalc.model import days
from finishcalc.model.reading import (
    MOST_VALUES,
    FileUnits,
    Form,
    Key,
    number,
    price,
    refuse_long,
    several,
    share,
    take_date,
    take_flag,
    text,
    whole_number,
)
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation
from finishcalc.wording.sentence import InUnit

Outline = Literal["rectangle", "round", "oval"]
Use = Literal["tablecloth", "bed", "crib", "throw", "wall"]
Supplier = Literal["shop", "customer"]
LineClass = Literal["labour", "material", "pass-through"]
"""The classes of price lines, by which tax, rush, discount and deposit go. Money that is passed through, as postage is,
is none of the studio's work or goods: only what names that class is on it."""
LINE_CLASSES: tuple[LineClass, ...] = get_args(LineClass)
WorkedAs = Literal["edge-to-edge", "ruler-work", "fill", "motifs"]
"""The ways of working that have speeds of their own: over the edges in one go; along a ruler, a guide or a walking
foot; filling the ground; motif by motif."""
WAYS: tuple[WorkedAs, ...] = get_args(WorkedAs)
TOP_USES: tuple[Use, ...] = get_args(Use)
MOST_BLOCKS = 100
"""The most blocks of a top across or down."""
MOST_STRIP = "36 in"
"""The widest a strip is cut."""


class Span(NamedTuple):
    """The least, the usual and the most minutes of a piece of work."""

    low: Fraction
    likely: Fraction
    high: Fraction


Bounded = TypeVar("Bounded", Length, Weighed, WeightByArea)


@cache
def _limit(text: str) -> Length:
    """A limit as a length, parsed when it is first needed."""
    return Length.parse(text)


def length(least: str, most: str) -> Key:
    """A length from `least` to `most`, both included. "0 in" refuses negative lengths."""

    def take(value: object, reading: FileUnits) -> Length:
        return _within(Length.take(value, reading.units), _limit(least), _limit(most), reading)

    return Key(take, Form("length", least, most))


def weight(least: str, most: str) -> Key:
    """A weight from `least` to `most`, both included, with its unit."""

    def take(value: object, reading: FileUnits) -> Weighed:
        return _within(Weighed.parse(value), Weighed.parse(least), Weighed.parse(most), reading)

    return Key(take, Form("weight", least, most))


def area_weight(least: str, most: str) -> Key:
    """A weight by area from `least` to `most`, both included."""

    def take(value: object, reading: FileUnits) -> WeightByArea:
        low, high = (WeightByArea.take(limit, reading.units) for limit in (least, most))
        return _within(WeightByArea.take(value, reading.units), low, high, reading)

    return Key(take, Form("area weight", least, most))


def _within(value: Bounded, low: Bounded, high: Bounded, reading: FileUnits) -> Bounded:
    """Give a value that lies between its limits. Raises MeasureError for any other."""
    if value < low or high < value:
        show = Notation(reading.units).show
        raise MeasureError(
            ProblemCode.OUT_OF_BOUNDS,
            f"{show(value)} is out of bounds",
            f"it must be from {show(low)} to {show(high)}",
        )
    return value


def _take_lines(value: object, reading: FileUnits) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise MeasureError(ProblemCode.NOT_A_LIST, "is not a list", 'write it in brackets: ["...", "..."]')
    refuse_long(value)
    return tuple(_LINE.take(line, reading) for line in value)


def lengths(least: str, most: str) -> Key:
    """A list of lengths, at least one."""
    one = length(least, most)

    def take(value: object, reading: FileUnits) -> tuple[Length, ...]:
        if not isinstance(value, list) or not value:
            raise MeasureError(
                ProblemCode.NOT_A_LIST_OF_LENGTHS,
                "is not a list of lengths",
                'write it in brackets: [60, "60 1/4", "60 1/8"]',
            )
        refuse_long(value)
        return tuple(one.take(item, reading) for item in value)

    return Key(take, Form("list", "1", str(MOST_VALUES), item=one.form))


def _take_span(value: object, reading: FileUnits) -> Span:
    """Minutes as one number, or as { low, likely, high }."""
    if not isinstance(value, dict):
        one = _MINUTES.take(value, reading)
        return Span(one, one, one)
    if set(value) != set(Span._fields):
        raise MeasureError(
            ProblemCode.NOT_MINUTES, "is neither minutes nor a table of them", "write { low = 1, likely = 2, high = 3 }"
        )
    span = Span(*(_MINUTES.take(value[name], reading) for name in Span._fields))
    if not span.low <= span.likely <= span.high:
        raise MeasureError(
            ProblemCode.MINUTES_OUT_OF_ORDER, "its minutes are out of order", "low is the least, high the most"
        )
    return span


def _take_overage(value: object, reading: FileUnits) -> Overage:
    """An overage as one length for every side, or as { sides, ends }."""
    if not isinstance(value, dict):
        return Overage.all_round(_MARGIN.take(value, reading))
    if set(value) != set(Overage._fields):
        raise MeasureError(
            ProblemCode.NOT_AN_OVERAGE, "is neither a length nor a table of two", "write { sides = 3, ends = 4 }"
        )
    return Overage(*(_MARGIN.take(value[name], reading) for name in Overage._fields))


def length_or_lengths(least: str, most: str) -> Key:
    """One length, or a list of at least one, each with the unit it is written in."""
    all_of_them = lengths(least, most)

    def take(value: object, reading: FileUnits) -> tuple[InUnit, ...]:
        values = value if isinstance(value, list) else [value]
        sizes = all_of_them.take(values, reading)
        units = (Length.unit_of(item, reading.units) for item in values)
        return tuple(InUnit(size, unit) for size, unit in zip(sizes, units, strict=True))

    return Key(take, all_of_them.form._replace(kind="one or several"))


LONGEST_LINE = 200
SIDE_LIMIT = "20 ft"
_LINE = text(LONGEST_LINE)
_MARGIN = length("0 in", "36 in")
_MINUTES = number(Fraction(0), Fraction(100_000), "minutes")

Line = Annotated[str, _LINE]
Lines = Annotated[tuple[str, ...], Key(_take_lines, Form("list", "0", str(MOST_VALUES), item=_LINE.form))]
Notes = Annotated[str, text(5000, lines=True)]
Flag = Annotated[bool, Key(take_flag, Form("flag"))]
Day = Annotated[date, Key(take_date, Form("day"))]
Lead = Annotated[days.Lead, Key(days.take_lead, Form("lead"))]
ClosedDays = Annotated[days.ClosedDays, Key(days.take_closed_days, Form("closed days"))]
DayCount = Annotated[int, whole_number(0, 730)]
HoursOfDay = Annotated[Fraction, number(Fraction(0), Fraction(24))]
Units = Literal["in", "cm"]
SoldBy = Literal["each", "hour", "seam", LengthUnit, AreaUnit]
PiecingBy = Literal["hour", "block", AreaUnit]
ThreadBy = Literal["cone", "bobbin", "colour", LengthUnit, AreaUnit]
MeasuredBy = Literal["seam", LengthUnit, AreaUnit]
"""The units whose number is known from the quilt itself: seams of the backing, a side or the perimeter, the area."""
Measure = Literal["perimeter", "width", "length"]
"""The measures of a top that work sold by length may go by."""
ChargedBy = Literal["hour", "quilt", "tie", "size", LengthUnit, AreaUnit]
GrowsWith = Literal[LengthUnit, AreaUnit]
"""The unit of a quilt's edge, or of its area, that a stage grows with."""
Classes = Annotated[tuple[LineClass, ...], several(LINE_CLASSES, "class of lines", "class")]
Uses = Annotated[tuple[Use, ...], several(TOP_USES, "use of a top", "use")]
Ways = Annotated[tuple[WorkedAs, ...], several(WAYS, "way of working", "way")]
Side = Annotated[Length, length("1 in", SIDE_LIMIT)]
Sides = Annotated[tuple[Length, ...], lengths("1 in", SIDE_LIMIT)]
Diagonals = Annotated[tuple[Length, ...], lengths("1 in", "30 ft")]
SeamCount = Annotated[int, whole_number(0, 100)]
BlockCount = Annotated[int, whole_number(1, MOST_BLOCKS)]
BlockSize = Annotated[Length, length("1 in", "10 ft")]
StripWidth = Annotated[Length, length("1/4 in", MOST_STRIP)]
Margin = Annotated[Length, _MARGIN]
EachOverage = Annotated[Overage, Key(_take_overage, Form("one or parts", words=Overage._fields, item=_MARGIN.form))]
Brought = Annotated[tuple[InUnit, ...], length_or_lengths("1 in", "100 yd")]
Drop = Annotated[Length, length("0 in", "6 ft")]
SeamAllowance = Annotated[Length, length("0 in", "3 in")]
Repeat = Annotated[Length, length("0 in", "10 ft")]
Bolt = Annotated[Length, length("0 in", "1000 yd")]
Pitch = Annotated[Length, length("1 mm", "10 ft")]
ClothWidth = Annotated[Length, length("4 in", "200 in")]
Step = Annotated[Length, length("1 mm", "10 yd")]
Wound = Annotated[Length, length("1 yd", "5000 yd")]
"""The thread on a bobbin."""
StitchLength = Annotated[Length, length("0.2 mm", "1 in")]
Thickness = Annotated[Length, length("0.001 in", "2 in")]
Patch = Annotated[Length, length("1/2 in", SIDE_LIMIT)]
Weight = Annotated[Weighed, weight("0 oz", "2000 lb")]
AreaWeight = Annotated[WeightByArea, area_weight("0.1 oz/sq yd", "60 oz/sq yd")]
Share = Annotated[Fraction, share(Fraction(1))]
Markup = Annotated[Fraction, share(Fraction(10))]
Shrinkage = Annotated[Fraction, share(Fraction(1, 2))]
DrawUp = Annotated[Fraction, share(Fraction(1, 5))]
Price = Annotated[Fraction, price(10_000_000)]
Minutes = Annotated[Fraction, _MINUTES]
Spans = Annotated[Span, Key(_take_span, Form("one or parts", words=Span._fields, item=_MINUTES.form))]
Quantity = Annotated[Fraction, number(Fraction(0), Fraction(10_000))]
Area = Annotated[Fraction, number(Fraction(0), Fraction(10**9))]
CurrencyCode = Annotated[str, _LINE]
