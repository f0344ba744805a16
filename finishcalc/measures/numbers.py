"""The one door through which a number from a file becomes an exact Fraction."""

import re
from decimal import Decimal
from fractions import Fraction

from finishcalc.problems import ProblemCode

DIGITS = 9
"""The most digits a number may have before its point, and after it; a fraction may have twice as many."""

VULGAR = {
    "½": (1, 2),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "¼": (1, 4),
    "¾": (3, 4),
    "⅕": (1, 5),
    "⅖": (2, 5),
    "⅗": (3, 5),
    "⅘": (4, 5),
    "⅙": (1, 6),
    "⅚": (5, 6),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
    "⅞": (7, 8),
}
"""The one-character fractions of Unicode that a tape or ruler shows."""

NUMBER = (
    r"-?(?:[0-9]{1,9}(?:(?: +|-)[0-9]{1,4}[/⁄][0-9]{1,4}|[ ]?[" + "".join(VULGAR) + r"])?"
    r"|[0-9]{1,18}[/⁄][0-9]{1,18}|[" + "".join(VULGAR) + r"]|[0-9]{0,9}\.[0-9]{1,9})"
)
"""A number as a quilter writes it: 60, 60.5, 60 1/2, 60-1/2, 60½, 1/2, ½."""

_PLAIN = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?")


class MeasureError(ValueError):
    """A figure that cannot be taken: `code` is the kind of mistake, `str()` says what is wrong, `hint` what would be
    right."""

    def __init__(self, code: ProblemCode, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.code = code
        self.hint = hint


def exact(value: object) -> Fraction:
    """Take a number as TOML gives it (int, Decimal) or as quoted text; no unit.

    Raises MeasureError for anything else: true and false, inf and nan, underscores in text, figures of
    other scripts, division by zero, and numbers with more than DIGITS digits before or after the point.
    """
    if isinstance(value, bool):
        raise MeasureError(ProblemCode.NOT_A_NUMBER, f"{str(value).lower()} is not a number", "write the number itself")
    if isinstance(value, int):
        if abs(value) >= 10**DIGITS:
            raise MeasureError(ProblemCode.TOO_MANY_DIGITS, "is far too large", f"use at most {DIGITS} digits")
        return Fraction(value)
    if isinstance(value, Decimal):
        return _from_decimal(value)
    if isinstance(value, str):
        return from_text(value)
    raise MeasureError(ProblemCode.NOT_A_NUMBER, "is not a number", 'write a number, or a quoted one such as "60 1/2"')


def from_text(text: str) -> Fraction:
    """Read quoted text that is one number and nothing else. Raises MeasureError."""
    trimmed = text.strip()
    if _PLAIN.fullmatch(trimmed):
        return Fraction(trimmed)
    if not re.fullmatch(NUMBER, trimmed):
        hint = decimal_point(trimmed) if "," in text else 'write it as "60", "60.5" or "60 1/2"'
        raise MeasureError(ProblemCode.NOT_A_NUMBER, f'"{shorten(text)}" is not a number', hint)
    return _join(trimmed)


def decimal_point(text: str) -> str:
    """The mend for a decimal comma."""
    plain = re.fullmatch(r"[0-9]{0,9},[0-9]{1,9}(?: ?[a-z]{1,2})?", text.strip())
    return f'write decimals after a point: "{text.strip().replace(",", ".") if plain else "152.5"}"'


def shorten(text: str, most: int = 40) -> str:
    """Cut a text that is too long to repeat in a message."""
    return text if len(text) <= most else text[: most - 3] + "..."


def _from_decimal(value: Decimal) -> Fraction:
    if not value.is_finite():
        name = "inf" if value.is_infinite() else "nan"
        raise MeasureError(
            ProblemCode.NOT_FINITE, f"{name} is not a size anyone can measure", "write the number itself"
        )
    if value and not -DIGITS <= value.adjusted() < DIGITS:
        raise MeasureError(ProblemCode.TOO_MANY_DIGITS, "is far too large or too small", f"use at most {DIGITS} digits")
    exponent = value.as_tuple().exponent
    if isinstance(exponent, int) and exponent < -DIGITS:
        raise MeasureError(
            ProblemCode.TOO_MANY_DIGITS, "has too many digits", f"use at most {DIGITS} digits after the point"
        )
    return Fraction(value)


def _join(text: str) -> Fraction:
    """Add up the parts of a text that NUMBER has matched."""
    negative = text.startswith("-")
    total = Fraction(0)
    for part in re.findall(r"[0-9]+[/⁄][0-9]+|[0-9]*\.[0-9]+|[0-9]+|[^0-9\s./⁄-]", text):
        total += _part(part)
    return -total if negative else total


def _part(part: str) -> Fraction:
    if part in VULGAR:
        return Fraction(*VULGAR[part])
    if "/" in part or "⁄" in part:
        above, below = re.split("[/⁄]", part)
        if int(below) == 0:
            raise MeasureError(
                ProblemCode.DIVIDES_BY_ZERO, f'"{part}" divides by zero', 'write a fraction such as "1/2"'
            )
        return Fraction(int(above), int(below))
    if "." in part:
        return Fraction(Decimal(part))
    return Fraction(int(part))
