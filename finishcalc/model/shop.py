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


class SizeStep(NamedTuple):
    """A size class: one `price` for every top whose billed area is not above `up_to`, in the unit that is billed."""

    name: str
    up_to: Fraction
    price: Fraction


class QuiltingRate(NamedTuple):
    """What a class of quilting costs: a `price` a `per`, or one of the `steps` of size, and above the last of them
    `more` for each further `each` of area. `per` is a unit of area (billed), "hour" (planned), "quilt" (flat), a unit
    of length (stitched), "tie", or "size" for the steps."""

    per: str
    steps: tuple[SizeStep, ...]
    price: Fraction | None = None
    more: Fraction | None = None
    each: Fraction | None = None


class Rates(NamedTuple):
    """Prices a unit, exact: `quilting` by rate class, areas in `quilting_per`, a shaped top by its bounding rectangle
    or its own area; `binding` for each `binding_per` (a unit of length), `seam` each; `handling` of what the customer
    brings, each. `markup` is the share put on what materials cost; `wage` and `overhead`, the other costs of the
    business, are an hour that someone stands by."""

    quilting: dict[str, QuiltingRate]
    quilting_per: str
    shaped: Literal["bounding", "area"]
    minimum: Money
    binding: dict[str, Fraction]
    binding_per: str
    seam: Fraction
    handling: dict[str, Fraction]
    markup: Fraction
    wage: Fraction
    overhead: Fraction


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
    """Asked before the work starts: a share of the classes named, an amount, or a share of each class of its own.
    Exactly one is given."""

    percent: Fraction | None
    amount: Money | None
    classes: tuple[str, ...]
    shares: dict[str, Fraction]


class OfferedExtra(NamedTuple):
    """An extra by name, and the uses of the tops for which it is offered."""

    name: str
    uses: tuple[str, ...]


class Offers(NamedTuple):
    """What a quote names under its total, priced and not added: a backing from the shop where the customer brings hers,
    one of the wider cloth, a binding finished by hand where it is not, and extras."""

    backing: bool
    by_hand: bool
    extras: tuple[OfferedExtra, ...]


class Shop(NamedTuple):
    """Everything pricing reads, beside the plans."""

    studio: Studio
    money: MoneySigns
    rates: Rates
    extras: dict[str, Extra]
    taxes: tuple[Tax, ...]
    deposit: Deposit
    offers: Offers
