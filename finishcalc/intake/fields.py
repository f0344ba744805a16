"""The types of the keys a file may hold. Each refuses what it cannot take with a sentence and a mend.

Every scalar goes through a function of ours, so that nothing is coerced: `true` is no number, `"1_000"` is
no length, and `25` is no per cent.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction
from typing import Annotated, Any, ClassVar

from pydantic import BaseModel, ConfigDict
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from finishcalc.intake.nearest import did_you_mean, one_of
from finishcalc.measures.length import AREA_UNITS, MM_PER, Length
from finishcalc.measures.notation import Notation
from finishcalc.measures.numbers import MeasureError, exact, shorten
from finishcalc.measures.said import Share as Part

LINE_CLASSES = ["labour", "material"]
"""The classes of price lines, by which tax, rush, discount and deposit go."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a value needs to know of the file it stands in: the units of a bare number."""

    units: str


class Sparse(BaseModel):
    """A table in which every key may be left out. `model_fields_set` tells which were given."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    studio_only: ClassVar[frozenset[str]] = frozenset()
    """Keys whose values the customer's sheet never shows."""
    figures: ClassVar[frozenset[str]] = frozenset()
    """Keys that hold a price, a share or minutes: a sample is marked as one wherever it prints."""
    takes_away: ClassVar[dict[str, tuple[str, ...]]] = {}
    """Keys that a layer's own key makes void in the layers below: a new currency has not the old one's symbol."""
    at_root: ClassVar[frozenset[str]] = frozenset()
    """Keys whose tables are laid where a project file has them, not under their own name."""


class Whole(BaseModel):
    """A table in a list: every key without a default must be there."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def refuse(message: str, hint: str = "") -> PydanticCustomError:
    """The error of a field: what is wrong, and what would be right."""
    return PydanticCustomError("refused", "{message}", {"message": message, "hint": hint})


class _Door:
    """Tells pydantic to send a value through `take` and through nothing else.

    pydantic's own PlainValidator also works out how the type behind it would be written, which doubles the time
    it takes to start.
    """

    def __init__(self, take: Callable[[object, Any], Any]) -> None:
        self.take = take

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.validate)

    def validate(self, value: object, info: core_schema.ValidationInfo) -> Any:
        try:
            return self.take(value, info.context)
        except MeasureError as error:
            raise refuse(str(error), error.hint) from None


def length(least: str, most: str) -> _Door:
    """A length from `least` to `most`, both included. "0 in" refuses negative lengths."""
    low, high = Length.parse(least), Length.parse(most)

    def take(value: object, reading: Reading) -> Length:
        found = Length.take(value, reading.units)
        if found < low or found > high:
            show = Notation(reading.units).show
            floor = "not be negative" if not low else f"be at least {show(low)}"
            raise MeasureError(f"{show(found)} is out of bounds", f"it must {floor} and at most {show(high)}")
        return found

    return _Door(take)


def number(least: Fraction, most: Fraction) -> _Door:
    """A number without a unit, from `least` to `most`."""

    def take(value: object, _: Reading) -> Fraction:
        found = exact(value)
        if not least <= found <= most:
            show = Notation("in").show
            floor = "not be negative" if not least else f"be at least {show(least)}"
            raise MeasureError(f"{show(found)} is out of bounds", f"it must {floor} and at most {show(most)}")
        return found

    return _Door(take)


def whole_number(least: int, most: int) -> _Door:
    """A whole number from `least` to `most`."""

    def take(value: object, _: Reading) -> int:
        found = exact(value)
        if found.denominator != 1 or not least <= found <= most:
            raise MeasureError("is not a count that can be used", f"use a whole number from {least} to {most}")
        return int(found)

    return _Door(take)


def share(most: Fraction) -> _Door:
    """A share written in per cent, as in "25 %", from 0 to `most`."""

    def take(value: object, _: Reading) -> Part:
        if not isinstance(value, str) or not value.strip().endswith("%"):
            raise MeasureError("is not a share in per cent", f'write it in quotes with its sign: "{_likely(value)} %"')
        found = exact(value.strip()[:-1].strip()) / 100
        if not 0 <= found <= most:
            raise MeasureError("is out of bounds", f"use a share from 0 % to {Notation('in').show(most * 100)} %")
        return Part(found)

    return _Door(take)


def _likely(value: object) -> str:
    """The per cent that someone who left the sign out may have meant: 0.1 is a tenth."""
    try:
        found = exact(value)
    except MeasureError:
        return "25"
    return Notation("in", group="").show(found * 100 if 0 < found < 1 else found)


def _text(longest: int, lines: bool = False) -> _Door:
    def take(value: object, _: Reading) -> str:
        if not isinstance(value, str):
            raise MeasureError("is not text", 'write it in quotes: "..."')
        if len(value) > longest:
            raise MeasureError(f"is {len(value)} characters long", f"use at most {longest}")
        if not lines and ("\n" in value or "\r" in value):
            raise MeasureError("runs over several lines", "write it on one line")
        return value

    return _Door(take)


def choice(*names: str) -> _Door:
    """One of a few words."""

    def take(value: object, _: Reading) -> str:
        if isinstance(value, str) and value in names:
            return value
        word = value if isinstance(value, str) else ""
        shown = f'"{shorten(word)}"' if isinstance(value, str) else "that"
        raise MeasureError(f"{shown} is not one of its words", did_you_mean(word, names) or one_of(names))

    return _Door(take)


def _take_classes(value: object, _: Reading) -> tuple[str, ...]:
    """Classes of lines, each once: a class named twice would be charged twice."""
    if not isinstance(value, list):
        raise MeasureError("is not a list", f"write it in brackets: {LINE_CLASSES}")
    if any(name not in LINE_CLASSES for name in value):
        raise MeasureError("holds a word that is no class of lines", one_of(LINE_CLASSES))
    if len(set(value)) < len(value):
        raise MeasureError("names a class twice", "name each class once")
    return tuple(value)


def _take_flag(value: object, _: Reading) -> bool:
    if not isinstance(value, bool):
        raise MeasureError("is neither true nor false", "write true or false, without quotes")
    return value


def _take_date(value: object, _: Reading) -> date:
    if not isinstance(value, date) or isinstance(value, datetime):
        raise MeasureError("is not a date", "write it as 2026-05-04, without quotes")
    return value


Line = Annotated[str, _text(200)]
Notes = Annotated[str, _text(5000, lines=True)]
Flag = Annotated[bool, _Door(_take_flag)]
Day = Annotated[date, _Door(_take_date)]
Units = Annotated[str, choice("in", "cm")]
LengthUnit = Annotated[str, choice(*MM_PER)]
AreaUnit = Annotated[str, choice(*AREA_UNITS)]
LineClass = Annotated[str, choice(*LINE_CLASSES)]
Classes = Annotated[tuple[str, ...], _Door(_take_classes)]
Side = Annotated[Length, length("1 in", "20 ft")]
Margin = Annotated[Length, length("0 in", "36 in")]
SeamAllowance = Annotated[Length, length("0 in", "3 in")]
Share = Annotated[Part, share(Fraction(1))]
Markup = Annotated[Part, share(Fraction(10))]
Shrinkage = Annotated[Part, share(Fraction(1, 2))]
Price = Annotated[Fraction, number(Fraction(0), Fraction(10_000_000))]
Minutes = Annotated[Fraction, number(Fraction(0), Fraction(100_000))]
