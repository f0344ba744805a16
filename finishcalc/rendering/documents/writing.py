"""How JSON is written: numbers and decimals exact as far as they are shown, and nothing that a terminal would obey."""

import json
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from finishcalc.plans.cautions import Caution
from finishcalc.wording.notation import NO_BREAK, Notation, rounded
from finishcalc.wording.plain import plain_json


def safe_json(record: dict[str, Any]) -> str:
    """JSON in UTF-8 in which control and direction characters stay escaped."""
    text = json.dumps(record, ensure_ascii=False, indent=2)
    return plain_json(text) + "\n"


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


def caution_records(cautions: Iterable[Caution], notation: Notation) -> list[dict[str, Any]]:
    """What to be careful of, with plain blanks; what `hinders` is in the way of the work as it is planned."""
    return [
        {
            "code": each.code,
            "text": notation.say(each.said).replace(NO_BREAK, " "),
            "source": each.source,
            "hinders": each.hinders,
        }
        for each in cautions
    ]
