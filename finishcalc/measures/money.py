"""Money in whole minor units of an ISO 4217 currency, and rates that are exact until a line is made."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from finishcalc.measures.numbers import MeasureError, shorten
from finishcalc.measures.rounding import half_up
from finishcalc.problems import ProblemCode

_NO_DECIMALS = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
_THREE_DECIMALS = "BHD IQD JOD KWD LYD OMR TND"
MINOR_DIGITS = dict.fromkeys(_NO_DECIMALS.split(), 0) | dict.fromkeys(_THREE_DECIMALS.split(), 3) | {"CLF": 4, "UYW": 4}
"""ISO 4217 currencies whose minor unit is not a hundredth (table as of January 2026); all others have 2."""

_CODES = """
AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF
CHW CLF CLP CNY COP COU CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD
HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD
MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN
PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD
TWD TZS UAH UGX USD USN UYI UYU UYW UZS VED VES VND VUV WST XAD XAF XCD XCG XOF XPF YER ZAR ZMW ZWG
"""
ACTIVE = frozenset(_CODES.split())
"""ISO 4217 currencies that money is counted in, without metals, units of account and test codes (January 2026)."""


@dataclass(frozen=True, slots=True)
class Currency:
    """An ISO 4217 currency: its three-letter code and the decimals of its minor unit."""

    code: str
    digits: int

    @classmethod
    def of(cls, code: str) -> "Currency":
        """Take a code such as "USD". Raises MeasureError unless ISO 4217 has it."""
        if code not in ACTIVE:
            raise MeasureError(
                ProblemCode.UNKNOWN_CURRENCY,
                f'"{shorten(code)}" is not a currency',
                'use the three letters of ISO 4217, as in "USD"',
            )
        return cls(code, MINOR_DIGITS.get(code, 2))

    def round(self, major: Fraction) -> "Money":
        """Round half up to the minor unit: the third rounding place."""
        return Money(half_up(major * 10**self.digits), self)

    def holds(self, major: Fraction) -> bool:
        """Test if `major` is a whole number of minor units."""
        return bool((major * 10**self.digits).denominator == 1)

    @property
    def zero(self) -> "Money":
        """No money at all."""
        return Money(0, self)


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in whole minor units. Adding another currency, or a number, is a TypeError."""

    minor: int
    currency: Currency

    @property
    def major(self) -> Fraction:
        """The exact amount in the currency's main unit."""
        return Fraction(self.minor, 10**self.currency.digits)

    def __add__(self, other: "Money") -> "Money":
        return Money(self.minor + self._same(other), self.currency)

    def __sub__(self, other: "Money") -> "Money":
        return Money(self.minor - self._same(other), self.currency)

    def __neg__(self) -> "Money":
        return Money(-self.minor, self.currency)

    def __lt__(self, other: "Money") -> bool:
        return self.minor < self._same(other)

    def __le__(self, other: "Money") -> bool:
        return self.minor <= self._same(other)

    def __bool__(self) -> bool:
        return bool(self.minor)

    def __str__(self) -> str:
        """Write the amount with its decimals and no symbol: "178.50"."""
        digits = self.currency.digits
        sign, text = ("-" if self.minor < 0 else ""), str(abs(self.minor)).rjust(digits + 1, "0")
        return f"{sign}{text[:-digits]}.{text[-digits:]}" if digits else sign + text

    def _same(self, other: "Money") -> int:
        if not isinstance(other, Money) or other.currency != self.currency:
            raise TypeError(f"cannot put {other!r} together with {self.currency.code}")
        return other.minor


def total(amounts: Iterable[Money], currency: Currency) -> Money:
    """Add up amounts of one currency; nothing adds up to zero. Raises TypeError for another currency."""
    return sum(amounts, start=currency.zero)


def share_out(amount: Money, weights: Sequence[Fraction | int]) -> list[Money]:
    """Split an amount in proportion to `weights`, in whole minor units that add up to it exactly.

    The units that are left over go to the largest remainders, the earlier first.
    """
    whole = sum(weights)
    if not whole:
        return [Money(0, amount.currency) for _ in weights]
    shares = [divmod(abs(amount.minor) * weight, whole) for weight in weights]
    left = abs(amount.minor) - sum(share for share, _ in shares)
    order = sorted(range(len(weights)), key=lambda place: -shares[place][1])
    extra = set(order[:left])
    sign = -1 if amount.minor < 0 else 1
    return [Money(sign * (share + (n in extra)), amount.currency) for n, (share, _) in enumerate(shares)]
