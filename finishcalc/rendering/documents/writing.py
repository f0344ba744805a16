"""JSON as it is written: numbers and decimals exact as far as they are shown, and nothing a terminal would obey."""

import json
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from finishcalc.measures.length import Area, Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.cautions import Caution
from finishcalc.wording.notation import NO_BREAK, Notation, rounded
from finishcalc.wording.plain import plain_json
from finishcalc.wording.sentence import Audience, Sentence

SCHEMA_VERSION = 1
Record = dict[str, Any]

PRICE_KEYS = frozenset(
    (
        *("currency", "total", "differs", "total_cost", "cost", "cheapest", "rests_on_samples", "samples"),
        *("total_saved", "saved_by_joining", "saved_by_on_hand"),
    )
)
"""The keys of comparisons and shopping lists that are left out where no prices are wanted."""


def safe_json(record: Record) -> str:
    """JSON in UTF-8 in which control and direction characters stay escaped."""
    text = json.dumps(record, ensure_ascii=False, indent=2)
    return plain_json(text) + "\n"


def without_prices(value: Any) -> Any:
    """Leave the keys of prices out of a record, wherever they stand in it."""
    if isinstance(value, dict):
        return {key: without_prices(item) for key, item in value.items() if key not in PRICE_KEYS}
    return [without_prices(item) for item in value] if isinstance(value, list) else value


def number(value: Fraction) -> int | float:
    """A JSON number, half up to 0.001."""
    text = rounded(value, 3)
    return float(text) if text.strip("0123456789-") and float(text) % 1 else int(text.split(".")[0])


def exact_decimal(value: Fraction) -> str:
    """A rate as an exact decimal: prices and shares are taken with few enough decimals to end."""
    places = 0
    while places < 18 and (value * 10**places).denominator != 1:
        places += 1
    return rounded(value, places)


class UnitWriter:
    """Writes sentences, and sizes in the project's units."""

    def __init__(self, notation: Notation) -> None:
        self.notation = notation
        self.units = notation.units

    def sentence(self, said: Sentence) -> str:
        """A sentence with plain blanks in it: what holds figures together on a page has no use here."""
        return self.notation.write(said).replace(NO_BREAK, " ")

    def exact_sentence(self, said: Sentence) -> str:
        """A sentence of arithmetic, with every decimal that it needs."""
        return self.notation.exactly().write(said).replace(NO_BREAK, " ")

    def length(self, length: Length) -> int | float:
        """Write a length in the project's units."""
        return number(length.to(self.units))

    def area(self, area: Area) -> int | float:
        """Write an area in the project's units."""
        return number(area.to(f"sq {self.units}"))

    def size(self, width: Length, length: Length) -> Record:
        """Write a width and a length."""
        return {"width": self.length(width), "length": self.length(length)}

    def rectangle(self, place: Any) -> Record:
        """Rounded by its edges, so that neighbours abut."""
        x, y = self._milli(place.x), self._milli(place.y)
        right, bottom = self._milli(place.x + place.width), self._milli(place.y + place.length)
        sides = {"x": x, "y": y, "width": right - x, "length": bottom - y}
        return {name: number(side) for name, side in sides.items()}

    def _milli(self, length: Length) -> Fraction:
        return Fraction(rounded(length.to(self.units), 3))

    def bought(self, amount: Length, fabric: Fabric) -> Record:
        """Write a length of cloth in the unit it is sold in."""
        return {"amount": number(amount.to(fabric.per)), "unit": fabric.per}


def with_more(record: Record, **more: Record) -> Record:
    """Add keys to a record, each group after the key that it is named by, which must be there."""
    if missing := more.keys() - record.keys():
        raise KeyError(*missing)
    return {name: item for key, value in record.items() for name, item in ({key: value} | more.get(key, {})).items()}


def caution_records(cautions: Iterable[Caution], reader: Audience, notation: Notation) -> list[Record]:
    """Write the cautions that this reader may see, with plain blanks; one that is blocking is in the way of the work as
    it is planned."""
    return [
        {
            "code": each.code,
            "text": notation.write(each.sentence).replace(NO_BREAK, " "),
            "source": each.source,
            "hinders": each.blocking,
        }
        for each in cautions
        if each.sentence.is_for(reader)
    ]
