"""The shop file's tables of prices: what the studio charges, and the signs it writes amounts with."""

from fractions import Fraction
from typing import Annotated, Any, Literal, NamedTuple

from finishcalc.measures.length import AreaUnit, LengthUnit
from finishcalc.measures.money import Currency
from finishcalc.measures.weight import Weight
from finishcalc.model import keys as k
from finishcalc.model.extra_cuts import ExtraCut
from finishcalc.model.marks import IN_HOUSE, Per, most
from finishcalc.model.materials import Fabric
from finishcalc.model.reading import number, price, whole_number
from finishcalc.model.section import Figure, FigureOf, Section, Shorthand
from finishcalc.model.shop import EdgeWork

Rate = FigureOf[k.Price]


class Studio(Section):
    """`[studio]`: the studio's name and terms, the days for which a quote holds, and the `lead` that a job usually
    takes from its date. `logo` names a picture in the shop file's folder or below it; it is empty for none."""

    name: k.Line
    logo: k.Line
    contact: k.Lines
    place: k.Line
    terms: k.Notes
    days_valid: Annotated[int, whole_number(0, 3650)]
    lead: Annotated[FigureOf[k.Lead], IN_HOUSE]
    paper: Literal["letter", "A4"]


class MoneySigns(Section, takes_away={"currency": ("symbol",)}):
    """`[money]`: the currency and the signs amounts are written with. `cash_rounding` is the least coin, or 0."""

    currency: k.CurrencyCode
    symbol: k.Line | None = None
    symbol_place: Literal["before", "after"]
    decimal: Literal[".", ","]
    group: Literal[".", ",", "'", " ", "\u00a0", "\u202f", ""]
    date_order: Literal["year-month-day", "day-month-year", "month-day-year"]
    cash_rounding: Annotated[Fraction, price(10_000_000)]


class SizeStep(Section, whole=True):
    """A size class: one `price` for every top whose billed area is not above `up_to`, in the unit that is billed."""

    name: k.Line
    up_to: k.Area
    price: k.Price


class QuiltingRate(
    Shorthand, short="price", takes_away={"price": ("steps", "more", "each", "per"), "steps": ("price", "per")}
):
    """The price of a class of quilting: a `price` a `per`, or one of the `steps` of size, and above the last of them
    `more` for each further `each` of area. `per` is a unit of area (billed), "hour" (planned), "quilt" (flat), a unit
    of length (stitched), "tie", or "size" for the steps; the shop's `quilting_per` where the rate does not say it."""

    price: Annotated[Rate, Per(("per", "rates.quilting_per"))] | None = None
    per: k.ChargedBy
    steps: FigureOf[Annotated[tuple[SizeStep, ...], most(100)]] | None = None
    more: Rate | None = None
    each: Annotated[Fraction, number(Fraction(1), Fraction(10**9))] | None = None


EdgeRate = Annotated[Rate, Per(("rates.binding_per",))]


class EdgeRates(Section):
    """`[rates.binding]`: the price of each `binding_per` of the edge, by the kind of work."""

    make: EdgeRate
    front: EdgeRate
    machine: EdgeRate
    hand: EdgeRate
    faced: EdgeRate
    hem: EdgeRate

    def of_work(self, work: EdgeWork) -> Figure[Fraction]:
        """The price of one kind of work."""
        rate: Figure[Fraction] = getattr(self, work)
        return rate


class SeamRate(Shorthand, short="each", needs=("each",), takes_away={"each": ("along", "per")}):
    """`[rates.seam]` and `[rates.batting_seam]`: the price of a seam of the backing and of a batting: so much `each`,
    and so much `along` for each `per` of its length. A table always says `each`, so that nobody pays a sample's beside
    a price by the length."""

    each: Rate
    along: Annotated[Rate, Per(("per",))] | None = None
    per: LengthUnit | None = None

    @property
    def goes_by_length(self) -> bool:
        """Tell a price by the length of the seams."""
        return bool(self.along and self.along.value)

    @property
    def is_charged(self) -> bool:
        """Tell a price from none."""
        return self.goes_by_length or bool(self.each.value)


class ThreadRate(Section):
    """`[rates.thread]`: the price of the thread, and its `cost` to the studio, for each cone or bobbin of the plan,
    each colour, a unit of length (stitched), or of area (billed)."""

    price: Annotated[Rate, Per(("per",))]
    per: k.ThreadBy
    cost: Annotated[Rate, Per(("per",)), IN_HOUSE] | None = None


class PiecingRate(Section):
    """`[rates.piecing]`: the price of piecing the top, where a project asks for it: by the hour, as planned for its
    pieced blocks, by the pieced block, or by the billed area."""

    price: Annotated[Rate, Per(("per",))]
    per: k.PiecingBy


class Handling(Section):
    """`[rates.handling]`: the price of handling each thing that the customer brings."""

    top: Rate
    backing: Rate
    batting: Rate
    binding: Rate


class Rates(Section):
    """`[rates]`: prices a unit. A shaped top is billed by its bounding rectangle or its own area. `markup` is the share
    added to the cost of materials; `wage` and `overhead`, the other costs of the business, are an hour that someone
    stands by."""

    quilting: Annotated[dict[str, QuiltingRate], most(100)]
    quilting_per: AreaUnit
    shaped: Literal["bounding", "area"]
    minimum: Rate
    binding: EdgeRates
    binding_per: LengthUnit
    seam: SeamRate
    thread: ThreadRate
    batting_seam: SeamRate
    piecing: PiecingRate
    handling: Handling
    overhead: Annotated[Rate, IN_HOUSE]
    wage: Annotated[Rate, IN_HOUSE]
    markup: Annotated[FigureOf[k.Markup], IN_HOUSE]


class Taxing(Section):
    """`[taxing]`: the values for every tax that gives none of its own: the classes of lines it is on, added to the
    prices or included in them, rounded once for the invoice or for each item."""

    classes: k.Classes
    included: k.Flag
    by: Literal["invoice", "item"]


class Tax(Taxing, needs=("label", "percent")):
    """`[[tax]]`: a tax on some classes of lines."""

    label: k.Line
    percent: k.Share


class ClassShares(Section, whole=True):
    """`[deposit.shares]`: a share of each class of lines; of what is passed through, nothing unless it is given."""

    labour: FigureOf[k.Share]
    material: FigureOf[k.Share]
    pass_through: FigureOf[k.Share] | None = None


class RushBand(Section, whole=True):
    """`[[rush]]`: the share that is proposed for work due within so many open days."""

    within_days: Annotated[int, whole_number(1, 730)]
    share: k.Markup


class Deposit(
    Section,
    takes_away={"percent": ("amount", "shares"), "amount": ("percent", "shares"), "shares": ("percent", "amount")},
):
    """`[deposit]`: the money due before the work starts: a share of the classes named, an amount, or a share of each
    class of its own. Exactly one is given. It is due `due_days` after the job's date."""

    percent: FigureOf[k.Share] | None = None
    amount: Rate | None = None
    shares: ClassShares | None = None
    classes: k.Classes
    due_days: k.DayCount


class OfferedExtra(Shorthand, short="name", whole=True):
    """An extra by name, and the uses of the tops for which it is offered."""

    name: k.Line
    uses: k.Uses

    @classmethod
    def shorthand(cls, value: Any) -> Any:
        """An extra that is only named is offered for tops of all uses."""
        return {"name": value, "uses": list(k.TOP_USES)} if isinstance(value, str) else value


class Offers(Section):
    """`[offers]`: the offers under the total of a quote, priced and not added: a backing from the shop where the
    customer brings hers, one of the wider cloth, a binding finished by hand where it is not, and extras."""

    backing: k.Flag
    by_hand: k.Flag
    extras: Annotated[tuple[OfferedExtra, ...], most(100)]


class Extra(Section):
    """`[extras.NAME]`: a priced extra: `label` is its name for the customer, `per` its unit. Without a quantity, one
    sold by area takes the billed area, one by length the perimeter of the billed top or the side that `of` names, one
    by the seam those of the backing, and one by the hour its `minutes`. These are the attended minutes of each unit, of
    each `minutes_per` where that is given, and of the whole quilt where it is sold by the hour; `cost` is what a unit
    costs the studio, beside the cloth that is `cut` for it."""

    label: k.Line
    price: Annotated[Rate, Per(("per",))]
    per: k.SoldBy
    of: k.Measure | None = None
    minutes: Annotated[FigureOf[k.Spans], Per(("minutes_per", "per")), IN_HOUSE] | None = None
    minutes_per: Annotated[k.MeasuredBy, IN_HOUSE] | None = None
    cost: Annotated[Rate, Per(("per",)), IN_HOUSE] | None = None
    line_class: k.LineClass
    cut: ExtraCut | None = None


class Parcel(Section):
    """`[parcel]`: the weight of the packing that a quilt is posted in."""

    packing: FigureOf[k.Weight]


class PostageBand(Section, whole=True):
    """`[[postage]]`: the price of a parcel that weighs no more than `up_to`, and more than the band before."""

    up_to: k.Weight
    price: k.Price


class Shop(NamedTuple):
    """Everything pricing reads, beside the plans. `extra_cloths` are those of extras with a cloth of their own."""

    studio: Studio
    money: MoneySigns
    currency: Currency
    rates: Rates
    extras: dict[str, Extra]
    extra_cloths: dict[str, Fabric]
    taxes: Figure[tuple[Tax, ...]]
    deposit: Deposit
    rush: Figure[tuple[RushBand, ...]]
    offers: Offers
    packing: Figure[Weight]
    postage: Figure[tuple[PostageBand, ...]]
