"""Length and Area: exact values that know their unit and refuse to be mixed with anything else."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple, overload

from finishcalc.measures.numbers import NUMBER, MeasureError, decimal_point, exact, from_text, shorten
from finishcalc.problems import ProblemCode

LengthUnit = Literal["mm", "cm", "m", "in", "ft", "yd"]
AreaUnit = Literal["sq mm", "sq cm", "sq m", "sq in", "sq ft", "sq yd"]

MM_PER = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
}
"""Millimetres in each unit of length. The inch is 25.4 mm and the yard 0.9144 m, both exact
(international yard and pound agreement of 1959; NIST SP 811, Appendix B.8)."""

METRIC = ("mm", "cm", "m")
"""The units of length that are not inches, feet or yards."""

AREA_UNITS = {f"sq {unit}": size * size for unit, size in MM_PER.items()}
"""Square millimetres in each unit of area."""

_SPELLINGS = {
    '"': "in",
    "″": "in",
    "inch": "in",
    "inches": "in",
    "'": "ft",
    "′": "ft",
    "foot": "ft",
    "feet": "ft",
    "yard": "yd",
    "yards": "yd",
    "yds": "yd",
} | {unit: unit for unit in MM_PER}
_ONE = re.compile(rf"({NUMBER})\s*([a-z]+|[\"'″′])?(?:\s+|$)")


@dataclass(frozen=True, slots=True)
class Length:
    """A length in exact millimetres. Adding anything but a Length is a TypeError."""

    mm: Fraction

    @classmethod
    def of(cls, amount: Fraction | int, unit: str) -> "Length":
        """Make `amount` of `unit` (a key of MM_PER)."""
        return cls(amount * MM_PER[unit])

    @classmethod
    def take(cls, value: object, unit: str) -> "Length":
        """Read a value from a file: a bare number is in `unit`, quoted text may carry its own unit.

        Raises MeasureError with a hint.
        """
        return cls.parse(value, unit) if isinstance(value, str) else cls.of(exact(value), unit)

    @classmethod
    def parse(cls, text: str, unit: str = "mm") -> "Length":
        """Read "60 1/2", "60½", "1 1/4 yd", "152 cm" or "6 ft 2 in". Raises MeasureError."""
        parts = _parts(text.strip(), unit)
        if not parts:
            hint = 'write it as 60.5, "60 1/2", "1 1/4 yd" or "152 cm"'
            raise MeasureError(
                ProblemCode.NOT_A_LENGTH,
                f'"{shorten(text)}" is not a length',
                decimal_point(text) if "," in text else hint,
            )
        return cls(sum((amount * MM_PER[named] for amount, named in parts), Fraction(0)))

    @staticmethod
    def unit_of(value: object, unit: str) -> str:
        """Name the unit that a value from a file is written in, the smallest of several: a bare number is in `unit`."""
        parts = _parts(value.strip(), unit) if isinstance(value, str) else []
        return parts[-1][1] if parts else unit

    def to(self, unit: str) -> Fraction:
        """The exact number of `unit` in this length."""
        return self.mm / MM_PER[unit]

    def __str__(self) -> str:
        """Write it so that `Length.parse` gives the same length back."""
        inches = self.mm * 64 / MM_PER["in"]
        if inches.denominator == 1:
            return f"{mixed(self.mm / MM_PER['in'])} in"
        return f"{self.mm} mm"

    def __lt__(self, other: "Length") -> bool:
        return self.mm < other.mm if isinstance(other, Length) else NotImplemented

    def __le__(self, other: "Length") -> bool:
        return self.mm <= other.mm if isinstance(other, Length) else NotImplemented

    def __add__(self, other: "Length") -> "Length":
        return Length(self.mm + other.mm) if isinstance(other, Length) else NotImplemented

    def __sub__(self, other: "Length") -> "Length":
        return Length(self.mm - other.mm) if isinstance(other, Length) else NotImplemented

    @overload
    def __mul__(self, other: Fraction | int) -> "Length": ...
    @overload
    def __mul__(self, other: "Length") -> "Area": ...
    def __mul__(self, other: "Fraction | int | Length") -> "Length | Area":
        if isinstance(other, Length):
            return Area(self.mm * other.mm)
        return Length(self.mm * other) if isinstance(other, (int, Fraction)) else NotImplemented

    __rmul__ = __mul__

    @overload
    def __truediv__(self, other: Fraction | int) -> "Length": ...
    @overload
    def __truediv__(self, other: "Length") -> Fraction: ...
    def __truediv__(self, other: "Fraction | int | Length") -> "Length | Fraction":
        if isinstance(other, Length):
            return self.mm / other.mm
        return Length(self.mm / other) if isinstance(other, (int, Fraction)) else NotImplemented

    def __floordiv__(self, other: "Length") -> int:
        return self.mm // other.mm if isinstance(other, Length) else NotImplemented

    def __neg__(self) -> "Length":
        return Length(-self.mm)

    def __bool__(self) -> bool:
        return bool(self.mm)


ZERO = Length(Fraction(0))


class Size(NamedTuple):
    """Width and length of a rectangle."""

    width: Length
    length: Length


class Overage(NamedTuple):
    """The extra beyond the edge of the top, at each of its sides and at each of its ends."""

    sides: Length
    ends: Length

    @classmethod
    def all_round(cls, length: Length) -> "Overage":
        """Make the same extra on every side."""
        return cls(length, length)

    @property
    def is_all_round(self) -> bool:
        """True where it is the same at the sides and at the ends."""
        return self.sides == self.ends

    def at_most(self, other: "Overage") -> "Overage":
        """Give the smaller of the two, at the sides and at the ends."""
        return Overage(min(self.sides, other.sides), min(self.ends, other.ends))


@dataclass(frozen=True, slots=True)
class Area:
    """An area in exact square millimetres."""

    mm2: Fraction

    def to(self, unit: str) -> Fraction:
        """The exact number of `unit` (a key of AREA_UNITS) in this area."""
        return self.mm2 / AREA_UNITS[unit]

    def __lt__(self, other: "Area") -> bool:
        return self.mm2 < other.mm2 if isinstance(other, Area) else NotImplemented

    def __le__(self, other: "Area") -> bool:
        return self.mm2 <= other.mm2 if isinstance(other, Area) else NotImplemented

    def __add__(self, other: "Area") -> "Area":
        return Area(self.mm2 + other.mm2) if isinstance(other, Area) else NotImplemented

    def __truediv__(self, other: Length) -> Length:
        return Length(self.mm2 / other.mm) if isinstance(other, Length) else NotImplemented


def _parts(text: str, unit: str) -> list[tuple[Fraction, str]]:
    """Split a text into numbers with their units: one number, or several with units from large to small.

    Gives nothing for a text that is no length; raises MeasureError for a unit that is none.
    """
    amounts: list[tuple[Fraction, str]] = []
    start = 0
    while match := _ONE.match(text, start):
        named = _SPELLINGS.get(match[2]) if match[2] else unit
        if named is None:
            raise MeasureError(
                ProblemCode.UNKNOWN_LENGTH_UNIT,
                f'"{shorten(match[2])}" is not a unit of length',
                "use in, ft, yd, mm, cm or m",
            )
        alone = not match[2] or match[1].startswith("-")
        if amounts and (alone or MM_PER[named] >= MM_PER[amounts[-1][1]]):
            return []
        amounts.append((from_text(match[1]), named))
        start = match.end()
        if alone:
            break
    return amounts if start == len(text) else []


def mixed(value: Fraction) -> str:
    """Write a number as a whole and a fraction: 121/2 is "60 1/2"."""
    sign, value = ("-" if value < 0 else ""), abs(value)
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}/{value.denominator}" if whole else f"{sign}{rest}/{value.denominator}"
