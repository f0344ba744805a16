"""Reads the value of a key: one function for each sort of value, which refuses what it cannot take with a sentence and
a mend.

Every scalar goes through a function of ours, so that nothing is coerced: `true` is no number, `"1_000"` is
no length, and `25` is no per cent. A word out of a few is a `Literal`, which pydantic checks.
"""

from collections.abc import Callable
from datetime import date, datetime
from fractions import Fraction
from typing import Any, NamedTuple

from pydantic import GetCoreSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from finishcalc.measures.numbers import MeasureError, exact
from finishcalc.problems import ProblemCode
from finishcalc.wording.notation import Notation
from finishcalc.wording.words import one_of

MOST_VALUES = 100
"""The most measures or lines in a list."""


class FileUnits(NamedTuple):
    """The units of a bare number in the file that is read."""

    units: str


class Key:
    """Reads the value of a key: `take` converts a file's value, or raises MeasureError with a hint. A
    share is written in `per_cent`; `text` reads a number as text; a list of words has some of the `choices`."""

    def __init__(
        self,
        take: Callable[[object, FileUnits], Any],
        *,
        per_cent: bool = False,
        text: bool = False,
        choices: tuple[str, ...] = (),
    ) -> None:
        self.take, self.per_cent, self.text, self.choices = take, per_cent, text, choices

    def __get_pydantic_core_schema__(self, _source: Any, _handler: GetCoreSchemaHandler) -> CoreSchema:
        """Give pydantic a plain function, so that nothing is coerced before it."""
        return core_schema.with_info_plain_validator_function(self._validate)

    def _validate(self, value: object, info: ValidationInfo[FileUnits]) -> Any:
        try:
            return self.take(value, info.context)
        except MeasureError as error:
            raise refusal(error) from None


def refusal(error: MeasureError) -> PydanticCustomError:
    """Turn the error of a value into pydantic's."""
    context = {"code": error.code, "message": str(error), "hint": error.hint}
    return PydanticCustomError("refused", "{message}", context)


def number(least: Fraction, most: Fraction) -> Key:
    """A number without a unit, from `least` to `most`."""

    def take(value: object, _: FileUnits) -> Fraction:
        amount = exact(value)
        if not least <= amount <= most:
            show = Notation("in").show
            raise MeasureError(
                ProblemCode.OUT_OF_BOUNDS,
                f"{show(amount)} is out of bounds",
                f"it must be from {show(least)} to {show(most)}",
            )
        return amount

    return Key(take)


def price(most: int) -> Key:
    """A price without its sign, from 0 to `most`, of at most six decimals, so that it can be printed as it is."""
    one = number(Fraction(0), Fraction(most)).take

    def take(value: object, reading: FileUnits) -> Fraction:
        amount: Fraction = one(value, reading)
        if (amount * 10**6).denominator != 1:
            raise MeasureError(ProblemCode.TOO_FINE, "has too many decimals", 'use at most six decimals: "0.333333"')
        return amount

    return Key(take)


def whole_number(least: int, most: int) -> Key:
    """A whole number from `least` to `most`."""

    def take(value: object, _: FileUnits) -> int:
        hint = f"use a whole number from {least} to {most}"
        try:
            count = exact(value)
        except MeasureError as error:
            raise MeasureError(error.code, str(error), hint) from None
        if count.denominator != 1 or not least <= count <= most:
            raise MeasureError(ProblemCode.NOT_A_COUNT, "is not a valid count", hint)
        return int(count)

    return Key(take)


def share(most: Fraction) -> Key:
    """A share written in per cent, as in "25 %", from 0 to `most`."""

    def take(value: object, _: FileUnits) -> Fraction:
        if not isinstance(value, str) or not value.strip().endswith("%"):
            raise MeasureError(
                ProblemCode.NOT_A_SHARE,
                "is not a percentage",
                f'write it in quotes with its sign: "{_likely(value)} %"',
            )
        part = exact(value.strip()[:-1].strip()) / 100
        if not 0 <= part <= most:
            raise MeasureError(
                ProblemCode.OUT_OF_BOUNDS,
                "is out of bounds",
                f"use a percentage from 0 % to {Notation('in').show(most * 100)} %",
            )
        if (part * 100_000).denominator != 1:
            raise MeasureError(ProblemCode.TOO_FINE, "has too many decimals", 'use at most three decimals: "33.333 %"')
        return part

    return Key(take, per_cent=True)


def _likely(value: object) -> str:
    """The per cent that a number without its sign may have meant: 0.1 is a tenth."""
    try:
        amount = exact(value)
    except MeasureError:
        return "25"
    return Notation("in", group="").show(amount * 100 if 0 < amount < 1 else amount)


def text(longest: int, lines: bool = False) -> Key:
    """A text of at most `longest` characters, on one line or, with `lines`, on several."""

    def take(value: object, _: FileUnits) -> str:
        if not isinstance(value, str):
            raise MeasureError(ProblemCode.NOT_TEXT, "is not text", 'write it in quotes: "..."')
        if len(value) > longest:
            raise MeasureError(ProblemCode.TEXT_TOO_LONG, f"is {len(value)} characters long", f"use at most {longest}")
        if not lines and ("\n" in value or "\r" in value):
            raise MeasureError(ProblemCode.SEVERAL_LINES, "runs over several lines", "write it on one line")
        return value

    return Key(take, text=True)


def several(names: tuple[str, ...], kind: str, short: str) -> Key:
    """Some of a few words, each once, because one that is named twice would count twice."""

    def take(value: object, _: FileUnits) -> tuple[str, ...]:
        if not isinstance(value, list):
            raise MeasureError(ProblemCode.NOT_A_LIST, "is not a list", f"write it in brackets: {list(names)}")
        if any(name not in names for name in value):
            raise MeasureError(ProblemCode.NOT_A_CHOICE, f"has a word that is not a {kind}", one_of(names))
        if len(set(value)) < len(value):
            raise MeasureError(ProblemCode.NAMED_TWICE, f"names a {short} twice", f"name each {short} once")
        return tuple(value)

    return Key(take, choices=names)


def refuse_long(values: list[Any]) -> None:
    """Refuse a list that is longer than anyone writes by hand."""
    if len(values) > MOST_VALUES:
        raise MeasureError(ProblemCode.LIST_TOO_LONG, "has too many items", f"give at most {MOST_VALUES}")


def take_flag(value: object, _: FileUnits) -> bool:
    """True or false."""
    if not isinstance(value, bool):
        raise MeasureError(
            ProblemCode.NOT_TRUE_OR_FALSE, "is neither true nor false", "write true or false, without quotes"
        )
    return value


def take_date(value: object, _: FileUnits) -> date:
    """A day on which a quote may be made or due."""
    if not isinstance(value, date) or isinstance(value, datetime):
        raise MeasureError(ProblemCode.NOT_A_DATE, "is not a date", "write it as 2026-05-04, without quotes")
    if not 1900 <= value.year < 2200:
        raise MeasureError(
            ProblemCode.YEAR_OUT_OF_RANGE,
            "is not a possible day for a quote",
            "write the year in four figures: 2026-05-04",
        )
    return value
