"""Writes exact values in the project's units, with the shop's signs."""

import re
from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from types import MappingProxyType
from typing import NamedTuple

from finishcalc.measures.length import Area, Length, mixed
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import FINEST, down_to_step, half_up, printed, up, up_to_step
from finishcalc.measures.weight import OWN_UNIT, AreaWeight, Weight
from finishcalc.wording.plain import plain
from finishcalc.wording.sentence import (
    ClothArea,
    Covering,
    Factor,
    Heavy,
    InUnit,
    Long,
    NoLess,
    Price,
    Sentence,
    Share,
    Spare,
    Value,
)

NO_BREAK = "\u00a0"
"""Holds a figure and its unit together while lines are wrapped; `plain_blanks` turns it into a blank."""

LONG_UNIT = {"in": "yd", "cm": "m"}
"""The unit for thread and stitching, where inches or centimetres would run into thousands."""

CLOTH_UNIT = {"in": "sq yd", "cm": "sq m"}
"""The unit of area by which cloth is weighed."""

LIGHT_UNIT = {"in": ("oz", 1), "cm": ("g", 0)}
"""The unit of the weight of a layer, and the decimals that it is written with; arithmetic has one more."""

HEAVY_UNIT = {"in": ("lb", 1), "cm": ("kg", 2)}
"""The unit of the weight of a quilt, and the decimals that it is written with."""

MEASURE = re.compile(r"([0-9½¼¾]) (in|cm|mm|m|yd|ft)(?![^\W_])")
"""Matches a figure and its unit in a text that somebody wrote."""

HUNDREDTH = Fraction(1, 100)

FINEST_FRACTION = {"in": 16, "ft": 16, "yd": 16}
"""The finest fraction that is written as one; finer ones are written with decimals."""


MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def plain_blanks(text: str) -> str:
    """Turn the blanks that hold a figure and its unit together into plain ones, once lines are wrapped."""
    return text.replace(NO_BREAK, " ")


class Notation(NamedTuple):
    """Units ("in" or "cm") and signs in which a result is written.

    By a `ruler`, a length that a ruler does not show is written up to its next step, because cloth must reach;
    without one it is written with decimals, as arithmetic needs it. A text that is among the `names` is written as they
    say.
    """

    units: str
    decimal: str = "."
    group: str = ","
    symbol: str = ""
    symbol_place: str = "before"
    ruler: bool = False
    names: Mapping[str, str] = MappingProxyType({})
    date_order: str = "year-month-day"

    def exactly(self) -> "Notation":
        """Write the same without rounding to a ruler: for arithmetic, and for the settings of a machine."""
        return self._replace(ruler=False)

    def write(self, sentence: Sentence) -> str:
        """Write a sentence with its values filled in."""
        return sentence.text.format_map({name: self.show(value) for name, value in sentence.values.items()})

    def show(self, value: Value) -> str:
        """Write any value by its kind."""
        match value:
            case str():
                return MEASURE.sub(rf"\1{NO_BREAK}\2", plain(self.names.get(value, value)))
            case Length():
                return f"{self.number(value.to(self.units), self.units)}{NO_BREAK}{self.units}"
            case Long(length, places):
                unit = LONG_UNIT[self.units]
                return f"{self.decimals(length.to(unit), places)}{NO_BREAK}{unit}"
            case NoLess(length):
                return self.show(Length.of(Fraction(up(length.to(self.units))), self.units))
            case Spare(length):
                return self.show(down_to_step(length, FINEST[self.units]) if self.ruler else length)
            case Covering(length):
                spoken = _is_spoken(length.to(self.units), self.units)
                return self.exactly().show(length if spoken else up_to_step(length, Length.of(HUNDREDTH, self.units)))
            case Sentence():
                return self.write(value)
            case InUnit(length, unit):
                return self._in_unit(length, unit)
            case Area():
                amount = printed(value.to(f"sq {self.units}"), f"sq {self.units}")
                return f"{self.quantity(amount)}{NO_BREAK}sq{NO_BREAK}{self.units}"
            case ClothArea(area):
                unit = CLOTH_UNIT[self.units]
                return self._with_unit(area.to(unit), 3, unit)
            case Weight():
                unit, places = LIGHT_UNIT[self.units]
                return self._with_unit(value.to(unit), places if self.ruler else places + 1, unit)
            case Heavy(weight):
                return self._heavy(weight)
            case AreaWeight():
                return self._with_unit(value.to(OWN_UNIT[self.units]), 2, OWN_UNIT[self.units])
            case Money():
                return self.money(value)
            case date():
                return self.day(value)
            case Share(part):
                return f"{self.decimals(part * 100, 3)}{NO_BREAK}%"
            case Factor(number):
                return self.price(number, 0)
            case Price(major):
                return self.price(major)
            case int():
                return self.quantity(Fraction(value))
            case Fraction():
                return self.decimals(value, 3)

    def _heavy(self, weight: Weight) -> str:
        """Write a weight in the large unit, with one decimal of a pound or two of a kilogram; a small one in ounces or
        grams."""
        unit, places = HEAVY_UNIT[self.units]
        return self._with_unit(weight.to(unit), places, unit) if weight.to(unit) >= 1 else self.show(weight)

    def _with_unit(self, amount: Fraction, places: int, unit: str) -> str:
        return f"{self.decimals(amount, places)}{NO_BREAK}{unit.replace(' ', NO_BREAK)}"

    def day(self, day: date) -> str:
        """Write a day in the shop's order, with the month in words so that no one mistakes it."""
        month = MONTHS[day.month - 1]
        if self.date_order == "year-month-day":
            return day.isoformat()
        if self.date_order == "day-month-year":
            return f"{day.day}{NO_BREAK}{month} {day.year}"
        return f"{month}{NO_BREAK}{day.day}, {day.year}"

    def number(self, amount: Fraction, unit: str) -> str:
        """Write the number of a length: as a fraction where the unit is cut into halves, else with decimals."""
        if _is_spoken(amount, unit):
            return self._grouped_mixed(amount)
        if self.ruler and unit in FINEST:
            stepped = up_to_step(Length.of(amount, unit), FINEST[unit]).to(unit)
            return self._grouped_mixed(stepped) if unit in FINEST_FRACTION else self.decimals(stepped, 1)
        return self.decimals(amount, 2 if unit in ("in", "cm", "ft") and abs(amount) >= 1 else 3)

    def size(self, width: Length, length: Length) -> str:
        """Write a size: "60 1/2 x 84 in"."""
        across, down = (self.number(side.to(self.units), self.units) for side in (width, length))
        return NO_BREAK.join((across, "x", down, self.units))

    def size_over(self, width: Length, length: Length) -> str:
        """Write the size of a piece that is left over, each side down to a step of a ruler."""
        return self.size(*(down_to_step(side, FINEST[self.units]) for side in (width, length)))

    def nearest(self, length: Length) -> Length:
        """Round a length to the nearest whole unit, for one that nobody can foretell."""
        return Length.of(half_up(length.to(self.units)), self.units)

    def nearest_number(self, length: Length) -> str:
        """Write the number of a length that nobody can foretell, to the nearest whole unit."""
        return self.number(self.nearest(length).to(self.units), self.units)

    def measured(self, width: Length, length: Length) -> str:
        """Write a size to be cut, each side rounded up as by `measurable`."""
        return self.size(self.measurable(width), self.measurable(length))

    def measured_length(self, length: Length) -> str:
        """Write a length to be cut, rounded up as by `measurable`."""
        return self.show(self.measurable(length))

    def measurable(self, length: Length) -> Length:
        """Round a length up to a step that a person can measure: 1/8 in, or 1 mm."""
        return up_to_step(length, FINEST[self.units])

    def decimals(self, amount: Fraction, places: int) -> str:
        """Write a number with at most `places` decimals, half up, and no trailing zeros."""
        text = rounded(amount, places)
        text = text.rstrip("0").rstrip(".") if "." in text else text
        return self._signed(text)

    def quantity(self, amount: Fraction) -> str:
        """Write a quantity that is already at its printed step: no rounding here."""
        return self.decimals(amount, 3)

    def price(self, major: Fraction, least: int = 2) -> str:
        """Write an exact price with at least `least` decimals and as many more as it needs."""
        places = least
        while places < 12 and (major * 10**places).denominator != 1:
            places += 1
        return self._signed(rounded(major, places))

    def money(self, amount: Money) -> str:
        """Write an amount with the shop's symbol, or the currency's code where there is none."""
        return self._with_symbol(self._signed(str(amount)), amount.currency)

    def rate(self, major: Fraction, currency: Currency) -> str:
        """Write an exact price as `price` does, with its symbol as an amount has it."""
        return self._with_symbol(self.price(major, currency.digits), currency)

    def _with_symbol(self, text: str, currency: Currency) -> str:
        symbol = plain(self.symbol) or currency.code
        if self.symbol_place == "after":
            return f"{text}{NO_BREAK}{symbol}"
        gap = "" if self.symbol and not self.symbol[-1].isalpha() else NO_BREAK
        return f"-{symbol}{gap}{text[1:]}" if text.startswith("-") else f"{symbol}{gap}{text}"

    def bare_money(self, amount: Money) -> str:
        """Write an amount without its symbol, for a column that names the currency once."""
        return self._signed(str(amount))

    def _in_unit(self, length: Length, unit: str) -> str:
        """Write a length in a unit; by a ruler, one that makes no fraction of a yard or foot in the project's units."""
        amount = length.to(unit)
        if self.ruler and unit in FINEST_FRACTION and not _is_spoken(amount, unit):
            return self.show(length)
        return f"{self.number(amount, unit)}{NO_BREAK}{unit}"

    def _grouped_mixed(self, amount: Fraction) -> str:
        if abs(amount) < 1:
            return mixed(amount)
        integer, _, fraction = mixed(amount).partition(" ")
        return self._signed(integer) + (f"{NO_BREAK}{fraction}" if fraction else "")

    def _signed(self, text: str) -> str:
        """Write a plain decimal number with the shop's decimal and group signs."""
        integer, point, decimals = text.partition(".")
        sign, digits = ("-", integer[1:]) if integer.startswith("-") else ("", integer)
        if self.group and len(digits) > 3:
            head = len(digits) % 3 or 3
            digits = self.group.join([digits[:head], *(digits[n : n + 3] for n in range(head, len(digits), 3))])
        return sign + digits + (self.decimal + decimals if point else "")


def _is_spoken(amount: Fraction, unit: str) -> bool:
    """Tell an amount that is written as a fraction of its unit."""
    finest = FINEST_FRACTION.get(unit)
    return finest is not None and finest % amount.denominator == 0


def rounded(amount: Fraction, places: int) -> str:
    """Write a plain decimal number with exactly `places` decimals, half up, away from zero."""
    scaled = (2 * abs(amount.numerator) * 10**places + amount.denominator) // (2 * amount.denominator)
    digits = str(scaled).rjust(places + 1, "0")
    sign = "-" if amount < 0 and scaled else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else f"{sign}{digits}"
