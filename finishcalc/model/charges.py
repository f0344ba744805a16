"""The project's table of charges: changes to the price, extras that are ordered, lines of its own."""

from typing import Annotated, Literal

from finishcalc.model import keys as k
from finishcalc.model.marks import IN_HOUSE, most
from finishcalc.model.section import FigureOf, Section, Shorthand


class OrderedExtra(Shorthand, short="name", whole=True):
    """An extra of the studio's, by name, and the number of its units; without one, as `Extra` says. What is cut for it
    is of the cloth that `fabric` names, or not on the list to buy, in place of the shop's choice."""

    name: k.Line
    quantity: k.Quantity | None = None
    fabric: Literal["backing", "binding", "none"] | None = None


class OneOff(Shorthand, whole=True, filled={"per": "each", "line_class": "labour"}):
    """A line of this project alone: `quantity` of `per` at `price` each. Without a quantity it goes by the measures of
    the top, and has minutes and a cost, as an extra does. One without a unit is one piece of work."""

    label: k.Line
    price: k.Price
    quantity: k.Quantity | None = None
    per: k.SoldBy
    of: k.Measure | None = None
    minutes: Annotated[k.Spans, IN_HOUSE] | None = None
    minutes_per: Annotated[k.MeasuredBy, IN_HOUSE] | None = None
    cost: Annotated[k.Price, IN_HOUSE] | None = None
    line_class: k.LineClass


class Charges(Section, takes_away={"discount": ("discount_amount",), "discount_amount": ("discount",)}):
    """`[charges]`: changes to the price: rush and discount on the classes named, `piecing` of the top by the studio,
    extras of the shop, lines of the project's own. The discount is a share of the lines of its classes, or an amount
    off all of them together. `postage` is charged by the shop's bands of weight."""

    rush: k.Markup
    rush_classes: k.Classes
    discount: k.Share | None = None
    discount_amount: k.Price | None = None
    discount_classes: k.Classes
    piecing: k.Flag
    extras: Annotated[tuple[OrderedExtra, ...], most(100)]
    lines: FigureOf[Annotated[tuple[OneOff, ...], most(100)]]
    postage: k.Flag
