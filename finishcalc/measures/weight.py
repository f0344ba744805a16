"""Weight, and weight by area: exact values that know their unit."""

import re
from dataclasses import dataclass
from fractions import Fraction

from finishcalc.measures.length import AREA_UNITS, Area
from finishcalc.measures.numbers import NUMBER, MeasureError, decimal_point, exact, from_text, shorten
from finishcalc.problems import ProblemCode

_OUNCE = Fraction("28.349523125")
GRAMS_PER = {"g": Fraction(1), "kg": Fraction(1000), "oz": _OUNCE, "lb": _OUNCE * 16}
"""Grams in each unit of weight. The pound is 453.59237 g, exactly (international yard and pound agreement of 1959), and
the ounce a sixteenth of it."""

BY_AREA = {"oz/sq yd": ("oz", "sq yd"), "g/sq m": ("g", "sq m")}
"""The units in which cloth and batting are sold by weight, each with its weight and its area."""

OWN_UNIT = {"in": "oz/sq yd", "cm": "g/sq m"}
"""The unit of weight by area that goes with each unit of length."""

MOST_BELOW = 1000
"""The most below the line of a number of ounces that somebody wrote; other weights were written in grams."""

_SPELLINGS = {
    "oz/yd2": "oz/sq yd",
    "oz/yd²": "oz/sq yd",
    "g/m2": "g/sq m",
    "g/m²": "g/sq m",
    "gsm": "g/sq m",
} | {unit: unit for unit in BY_AREA}
_NAMES = {"lbs": "lb"} | {unit: unit for unit in GRAMS_PER}
_ONE = re.compile(rf"({NUMBER})\s*([a-z]+)(?:\s+|$)")
_AMOUNT = re.compile(rf"({NUMBER})\s*([a-z].*)?")


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight in exact grams. Adding anything but a Weight is a TypeError."""

    grams: Fraction

    @classmethod
    def of(cls, amount: Fraction | int, unit: str) -> "Weight":
        """Make `amount` of `unit` (a key of GRAMS_PER)."""
        return cls(amount * GRAMS_PER[unit])

    @classmethod
    def parse(cls, value: object) -> "Weight":
        """Read "2 lb", "12 oz", "2 lb 8 oz" or "1.5 kg". Raises MeasureError; a bare number too, because nobody would
        know if it counts ounces or pounds."""
        parts = _parts(value.strip()) if isinstance(value, str) else []
        if not parts:
            shown = f'"{shorten(value)}" is not a weight' if isinstance(value, str) else "is not a weight"
            point = isinstance(value, str) and "," in value
            hint = decimal_point(str(value)) if point else 'write it with its unit: "2 lb", "12 oz" or "1.5 kg"'
            raise MeasureError(ProblemCode.NOT_A_WEIGHT, shown, hint)
        return cls(sum((amount * GRAMS_PER[unit] for amount, unit in parts), Fraction(0)))

    def to(self, unit: str) -> Fraction:
        """The exact number of `unit` in this weight."""
        return self.grams / GRAMS_PER[unit]

    def __lt__(self, other: "Weight") -> bool:
        return self.grams < other.grams if isinstance(other, Weight) else NotImplemented

    def __le__(self, other: "Weight") -> bool:
        return self.grams <= other.grams if isinstance(other, Weight) else NotImplemented

    def __add__(self, other: "Weight") -> "Weight":
        return Weight(self.grams + other.grams) if isinstance(other, Weight) else NotImplemented


@dataclass(frozen=True, slots=True)
class AreaWeight:
    """The weight of a cloth or a batting by its area, in exact grams a square metre."""

    grams_a_sq_m: Fraction

    @classmethod
    def of(cls, amount: Fraction | int, unit: str) -> "AreaWeight":
        """Make `amount` of `unit` (a key of BY_AREA)."""
        return cls(amount * _grams_a_sq_m(unit))

    @classmethod
    def take(cls, value: object, unit: str) -> "AreaWeight":
        """Read a value from a file: a bare number goes with the `unit` of length, ounces a square yard with inches and
        grams a square metre with centimetres; quoted text may carry its own unit.

        Raises MeasureError.
        """
        if not isinstance(value, str):
            return cls.of(exact(value), OWN_UNIT[unit])
        match = _AMOUNT.fullmatch(value.strip())
        if not match:
            message, hint = f'"{shorten(value)}" is not a weight by area', 'write "4.3 oz/sq yd" or "145 g/sq m"'
            raise MeasureError(ProblemCode.NOT_A_WEIGHT, message, decimal_point(value) if "," in value else hint)
        named = _SPELLINGS.get(match[2].strip()) if match[2] else OWN_UNIT[unit]
        if named is None:
            message = f'"{shorten(match[2])}" is not a unit of weight by area'
            raise MeasureError(ProblemCode.NOT_A_WEIGHT, message, 'write "4.3 oz/sq yd" or "145 g/sq m"')
        return cls.of(from_text(match[1]), named)

    def to(self, unit: str) -> Fraction:
        """The exact number of `unit` in this weight by area."""
        return self.grams_a_sq_m / _grams_a_sq_m(unit)

    def __str__(self) -> str:
        """Write it so that `take` gives the same back, whatever the file's units."""
        ounces = self.to("oz/sq yd")
        return f"{ounces} oz/sq yd" if ounces.denominator <= MOST_BELOW else f"{self.grams_a_sq_m} g/sq m"

    def __lt__(self, other: "AreaWeight") -> bool:
        return self.grams_a_sq_m < other.grams_a_sq_m if isinstance(other, AreaWeight) else NotImplemented

    def __le__(self, other: "AreaWeight") -> bool:
        return self.grams_a_sq_m <= other.grams_a_sq_m if isinstance(other, AreaWeight) else NotImplemented

    def __mul__(self, area: Area) -> Weight:
        return Weight(self.grams_a_sq_m * area.to("sq m")) if isinstance(area, Area) else NotImplemented


def _grams_a_sq_m(unit: str) -> Fraction:
    weight, area = BY_AREA[unit]
    return GRAMS_PER[weight] * AREA_UNITS["sq m"] / AREA_UNITS[area]


def _parts(text: str) -> list[tuple[Fraction, str]]:
    """Split a text into numbers with their units, from large to small; nothing for a text that is no weight."""
    amounts: list[tuple[Fraction, str]] = []
    start = 0
    while match := _ONE.match(text, start):
        unit = _NAMES.get(match[2])
        is_smaller = unit and (not amounts or GRAMS_PER[unit] < GRAMS_PER[amounts[-1][1]])
        if unit is None or not is_smaller or match[1].startswith("-"):
            return []
        amounts.append((from_text(match[1]), unit))
        start = match.end()
    return amounts if start == len(text) else []
