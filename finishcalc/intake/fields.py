"""The types of the keys a file may hold. Each refuses what it cannot take with a sentence and a mend.

Every scalar goes through a function of ours, so that nothing is coerced: `true` is no number, `"1_000"` is
no length, and `25` is no per cent.
"""

from collections.abc import Callable
from datetime import date, datetime
from fractions import Fraction
from functools import cache
from typing import Any, NamedTuple

from finishcalc.measures.length import AREA_UNITS, MM_PER, Length
from finishcalc.measures.numbers import MeasureError, exact, shorten
from finishcalc.model.pieced import MOST_BLOCKS, MOST_STRIP
from finishcalc.model.project import Span
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation
from finishcalc.wording.said import Share as Part
from finishcalc.wording.words import did_you_mean, one_of

LINE_CLASSES = ["labour", "material"]
TOP_USES = ["tablecloth", "bed", "crib", "throw", "wall"]
"""The classes of price lines, by which tax, rush, discount and deposit go."""


class Reading(NamedTuple):
    """What a value needs to know of the file it stands in: the units of a bare number."""

    units: str


Take = Callable[[object, Reading], Any]
"""Gives the value that a file's value stands for. Raises MeasureError with a mend."""


@cache
def _limit(text: str) -> Length:
    """A limit as a length; read when it is first needed."""
    return Length.parse(text)


def length(least: str, most: str) -> Take:
    """A length from `least` to `most`, both included. "0 in" refuses negative lengths."""

    def take(value: object, reading: Reading) -> Length:
        low, high = _limit(least), _limit(most)
        found = Length.take(value, reading.units)
        if found < low or found > high:
            show = Notation(reading.units).show
            raise MeasureError(
                ProblemCode.OUT_OF_BOUNDS,
                f"{show(found)} is out of bounds",
                f"it must be from {show(low)} to {show(high)}",
            )
        return found

    return take


def number(least: Fraction, most: Fraction) -> Take:
    """A number without a unit, from `least` to `most`."""

    def take(value: object, _: Reading) -> Fraction:
        found = exact(value)
        if not least <= found <= most:
            show = Notation("in").show
            raise MeasureError(
                ProblemCode.OUT_OF_BOUNDS,
                f"{show(found)} is out of bounds",
                f"it must be from {show(least)} to {show(most)}",
            )
        return found

    return take


def price(most: int) -> Take:
    """A price without its sign, from 0 to `most`, of at most six decimals, so that it can be printed as it is."""
    one = number(Fraction(0), Fraction(most))

    def take(value: object, reading: Reading) -> Fraction:
        found: Fraction = one(value, reading)
        if (found * 10**6).denominator != 1:
            raise MeasureError(
                ProblemCode.TOO_FINE, "is finer than can be printed", 'use at most six decimals: "0.333333"'
            )
        return found

    return take


def whole_number(least: int, most: int) -> Take:
    """A whole number from `least` to `most`."""

    def take(value: object, _: Reading) -> int:
        hint = f"use a whole number from {least} to {most}"
        try:
            found = exact(value)
        except MeasureError as error:
            raise MeasureError(error.code, str(error), hint) from None
        if found.denominator != 1 or not least <= found <= most:
            raise MeasureError(ProblemCode.NOT_A_COUNT, "is not a count that can be used", hint)
        return int(found)

    return take


def share(most: Fraction) -> Take:
    """A share written in per cent, as in "25 %", from 0 to `most`."""

    def take(value: object, _: Reading) -> Part:
        if not isinstance(value, str) or not value.strip().endswith("%"):
            raise MeasureError(
                ProblemCode.NOT_A_SHARE,
                "is not a share in per cent",
                f'write it in quotes with its sign: "{_likely(value)} %"',
            )
        found = exact(value.strip()[:-1].strip()) / 100
        if not 0 <= found <= most:
            raise MeasureError(
                ProblemCode.OUT_OF_BOUNDS,
                "is out of bounds",
                f"use a share from 0 % to {Notation('in').show(most * 100)} %",
            )
        if (found * 100_000).denominator != 1:
            raise MeasureError(
                ProblemCode.TOO_FINE, "is finer than can be printed", 'use at most three decimals: "33.333 %"'
            )
        return Part(found)

    return take


def _likely(value: object) -> str:
    """The per cent that someone who left the sign out may have meant: 0.1 is a tenth."""
    try:
        found = exact(value)
    except MeasureError:
        return "25"
    return Notation("in", group="").show(found * 100 if 0 < found < 1 else found)


def _text(longest: int, lines: bool = False) -> Take:
    def take(value: object, _: Reading) -> str:
        if not isinstance(value, str):
            raise MeasureError(ProblemCode.NOT_TEXT, "is not text", 'write it in quotes: "..."')
        if len(value) > longest:
            raise MeasureError(ProblemCode.TEXT_TOO_LONG, f"is {len(value)} characters long", f"use at most {longest}")
        if not lines and ("\n" in value or "\r" in value):
            raise MeasureError(ProblemCode.SEVERAL_LINES, "runs over several lines", "write it on one line")
        return value

    return take


def choice(*names: str) -> Take:
    """One of a few words."""

    def take(value: object, _: Reading) -> str:
        if isinstance(value, str) and value in names:
            return value
        word = value if isinstance(value, str) else ""
        shown = f'"{shorten(word)}"' if isinstance(value, str) else "that"
        raise MeasureError(
            ProblemCode.NOT_A_CHOICE, f"{shown} is not possible here", did_you_mean(word, names) or one_of(names)
        )

    return take


def several(names: list[str], kind: str, short: str) -> Take:
    """Some of a few words, each once: one that is named twice would count twice."""

    def take(value: object, _: Reading) -> tuple[str, ...]:
        if not isinstance(value, list):
            raise MeasureError(ProblemCode.NOT_A_LIST, "is not a list", f"write it in brackets: {names}")
        if any(name not in names for name in value):
            raise MeasureError(ProblemCode.NOT_A_CHOICE, f"holds a word that is no {kind}", one_of(names))
        if len(set(value)) < len(value):
            raise MeasureError(ProblemCode.NAMED_TWICE, f"names a {short} twice", f"name each {short} once")
        return tuple(value)

    return take


def _refuse_long(values: list[Any]) -> None:
    if len(values) > MOST_VALUES:
        raise MeasureError(ProblemCode.LIST_TOO_LONG, "is too long a list", f"give at most {MOST_VALUES}")


def _take_lines(value: object, reading: Reading) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise MeasureError(ProblemCode.NOT_A_LIST, "is not a list", 'write it in brackets: ["...", "..."]')
    _refuse_long(value)
    return tuple(LINE(line, reading) for line in value)


def lengths(least: str, most: str) -> Take:
    """A list of lengths, at least one."""
    one = length(least, most)

    def take(value: object, reading: Reading) -> tuple[Length, ...]:
        if not isinstance(value, list) or not value:
            raise MeasureError(
                ProblemCode.NOT_A_LIST_OF_LENGTHS,
                "is not a list of lengths",
                'write it in brackets: [60, "60 1/4", "60 1/8"]',
            )
        _refuse_long(value)
        return tuple(one(each, reading) for each in value)

    return take


def _take_flag(value: object, _: Reading) -> bool:
    if not isinstance(value, bool):
        raise MeasureError(
            ProblemCode.NOT_TRUE_OR_FALSE, "is neither true nor false", "write true or false, without quotes"
        )
    return value


def _take_span(value: object, reading: Reading) -> Span:
    """Minutes as one number, or as { low, likely, high }."""
    if not isinstance(value, dict):
        one = MINUTES(value, reading)
        return Span(one, one, one)
    if set(value) != set(Span._fields):
        raise MeasureError(
            ProblemCode.NOT_MINUTES, "is neither minutes nor a table of them", "write { low = 1, likely = 2, high = 3 }"
        )
    span = Span(*(MINUTES(value[name], reading) for name in Span._fields))
    if not span.low <= span.likely <= span.high:
        raise MeasureError(
            ProblemCode.MINUTES_OUT_OF_ORDER, "its minutes are out of order", "low is the least, high the most"
        )
    return span


def _take_date(value: object, _: Reading) -> date:
    if not isinstance(value, date) or isinstance(value, datetime):
        raise MeasureError(ProblemCode.NOT_A_DATE, "is not a date", "write it as 2026-05-04, without quotes")
    if not 1900 <= value.year < 2200:
        raise MeasureError(
            ProblemCode.YEAR_OUT_OF_RANGE,
            "is no day a quilt is quoted on",
            "write the year with its four figures: 2026-05-04",
        )
    return value


LONGEST_LINE = 200
MOST_VALUES = 100
"""The most lines or lengths that one key has."""
LINE = _text(LONGEST_LINE)
LINES: Take = _take_lines
NOTES = _text(5000, lines=True)
FLAG: Take = _take_flag
DAY: Take = _take_date
UNITS = choice("in", "cm")
LENGTH_UNIT = choice(*MM_PER)
AREA_UNIT = choice(*AREA_UNITS)
SOLD_BY = choice("each", "hour", *MM_PER, *AREA_UNITS)
CHARGED_BY = choice("hour", "quilt", "tie", "size", *MM_PER, *AREA_UNITS)
LINE_CLASS = choice(*LINE_CLASSES)
CLASSES = several(LINE_CLASSES, "class of lines", "class")
USE = choice(*TOP_USES)
USES = several(TOP_USES, "use of a top", "use")
SHAPE = choice("rectangle", "round", "oval")
SIDE_LIMIT = "20 ft"
SIDE = length("1 in", SIDE_LIMIT)
SIDES = lengths("1 in", SIDE_LIMIT)
DIAGONALS = lengths("1 in", "30 ft")
BLOCKS = whole_number(1, MOST_BLOCKS)
BLOCK = length("1 in", "10 ft")
STRIP = length("1/4 in", str(MOST_STRIP))
MARGIN = length("0 in", "36 in")
DROP = length("0 in", "6 ft")
SEAM_ALLOWANCE = length("0 in", "3 in")
REPEAT = length("0 in", "10 ft")
BOLT = length("0 in", "1000 yd")
PITCH = length("1 mm", "10 ft")
CLOTH_WIDTH = length("4 in", "200 in")
STEP = length("1 mm", "10 yd")
STITCH = length("0.2 mm", "1 in")
THICKNESS = length("0.001 in", "2 in")
SHARE = share(Fraction(1))
MARKUP = share(Fraction(10))
SHRINKAGE = share(Fraction(1, 2))
DRAW_UP = share(Fraction(1, 5))
PRICE = price(10_000_000)
MINUTES = number(Fraction(0), Fraction(100_000))
SPAN: Take = _take_span
COUNT = number(Fraction(0), Fraction(10_000))
