"""JSON as it is written: numbers and decimals exact as far as they are shown, and nothing a terminal would obey."""

import json
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from finishcalc.plans.cautions import Caution
from finishcalc.wording.notation import NO_BREAK, Notation, rounded
from finishcalc.wording.plain import plain_json
from finishcalc.wording.sentence import Audience

SCHEMA_VERSION = 1
Record = dict[str, Any]

PRICE_KEYS = frozenset(
    ("currency", "total", "differs", "total_cost", "cost", "cheapest", "rests_on_samples", "samples")
)
"""The keys of comparisons that are left out where no prices are wanted."""


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
