"""What the studio charges and how it writes its papers: the contract between intake and pricing."""

from fractions import Fraction
from typing import Literal, NamedTuple

from finishcalc.measures.money import Currency, Money


class Studio(NamedTuple):
    """Who quotes, and for how long the quote holds."""

    name: str
    contact: tuple[str, ...]
    place: str
    terms: str
    days_valid: int
    paper: Literal["letter", "A4"]


class MoneySigns(NamedTuple):
    """The currency and the signs amounts are written with. `cash_rounding` is the least coin, or none."""

    currency: Currency
    symbol: str
    symbol_place: Literal["before", "after"]
    decimal: str
    group: str
    date_order: Literal["year-month-day", "day-month-year", "month-day-year"]
    cash_rounding: Money


class Rates(NamedTuple):
    """Prices a unit, exact: `quilting` by rate class for each `quilting_per` (a unit of area), a shaped top
    by its bounding rectangle or its own area; `binding` for each
    `binding_per` (a unit of length), `seam` each. `markup` is the share put on what materials cost."""

    quilting: dict[str, Fraction]
    quilting_per: str
    shaped: Literal["bounding", "area"]
    minimum: Money
    binding: dict[str, Fraction]
    binding_per: str
    seam: Fraction
    markup: Fraction


class Extra(NamedTuple):
    """A priced extra: `label` is what the customer reads; `per` is what one of it is."""

    label: str
    price: Fraction
    per: str
    line_class: str


class Tax(NamedTuple):
    """A tax on the classes of lines named, added to the prices or included in them, rounded once for the
    invoice or for each item."""

    label: str
    percent: Fraction
    classes: tuple[str, ...]
    included: bool
    by: Literal["invoice", "item"]


class Deposit(NamedTuple):
    """Asked before the work starts: a share of the classes named, or an amount. Exactly one is given."""

    percent: Fraction | None
    amount: Money | None
    classes: tuple[str, ...]


class Shop(NamedTuple):
    """Everything pricing reads, beside the plans."""

    studio: Studio
    money: MoneySigns
    rates: Rates
    extras: dict[str, Extra]
    taxes: tuple[Tax, ...]
    deposit: Deposit
