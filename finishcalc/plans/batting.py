"""The batting: a package, either way round, or a length off a roll; the cheapest that covers."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import Batting, Package, Roll
from finishcalc.model.project import BattingLayer
from finishcalc.model.section import Figure
from finishcalc.plans.cautions import Caution, hindrance
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.said import InUnit, Said, say


class BattingOption(NamedTuple):
    """A batting that covers. For a package `size` is its name; off a roll `width` is the roll's and `length` is
    what is bought, in `unit`. `price` is that of one package, or of one `unit`."""

    form: Literal["packaged", "roll"]
    size: str
    width: Length
    length: Length
    unit: str
    price: Fraction
    selling: Fraction | None
    cost: Money
    priced_by: Figure[Any]


class BattingPlan(NamedTuple):
    """The batting. `chosen` is None where nothing that is sold covers; `options` come cheapest first."""

    width: Length
    length: Length
    product: Batting
    supplied_by: Supplier
    chosen: BattingOption | None
    options: tuple[BattingOption, ...]
    working: tuple[Said, ...]
    cautions: tuple[Caution, ...]

    def supply(self, supplier: Supplier) -> BattingOption | None:
        """The chosen batting, where this supplier is the one who buys it."""
        return self.chosen if self.supplied_by == supplier else None


def plan_batting(shape: Shape, wishes: BattingLayer, currency: Currency) -> BattingPlan:
    """Plan a batting that covers the shape with its overage on every side."""
    width, length = shape.width + wishes.overage * 2, shape.length + wishes.overage * 2
    options = sorted(
        [*_packages(wishes.product.packages, width, length, currency),
         *_rolls(wishes.product.rolls, width, length, currency)],
        key=lambda option: (option.cost.minor, (option.width * option.length).mm2),
    )  # fmt: skip
    chosen = options[0] if options else None
    return BattingPlan(
        width=width,
        length=length,
        product=wishes.product,
        supplied_by=wishes.supplied_by,
        chosen=chosen,
        options=tuple(options),
        working=tuple(_working(shape, wishes, width, length, chosen)),
        cautions=() if chosen else (_nothing_covers(wishes, width, length),),
    )


def _packages(
    packages: Figure[tuple[Package, ...]], width: Length, length: Length, currency: Currency
) -> Iterator[BattingOption]:
    for package in packages.value:
        short, long = sorted((package.width, package.length))
        if short >= min(width, length) and long >= max(width, length):
            yield BattingOption(
                "packaged",
                package.size,
                package.width,
                package.length,
                "each",
                package.price,
                package.selling,
                currency.round(package.price),
                packages,
            )


def _rolls(
    rolls: Figure[tuple[Roll, ...]], width: Length, length: Length, currency: Currency
) -> Iterator[BattingOption]:
    """Off each roll, the shorter of the two ways round that it is wide enough for."""
    for roll in rolls.value:
        ways = [along for across, along in ((width, length), (length, width)) if roll.width >= across]
        if ways:
            bought = up_to_step(min(ways), roll.step)
            cost = currency.round(bought.to(roll.per) * roll.price)
            yield BattingOption("roll", "", roll.width, bought, roll.per, roll.price, roll.selling, cost, rolls)


def _working(
    shape: Shape, wishes: BattingLayer, width: Length, length: Length, chosen: BattingOption | None
) -> Iterator[Said]:
    yield say(
        "Needed: {w} + 2 x {o} = {nw} wide, {l} + 2 x {o} = {nl} long",
        w=shape.width, l=shape.length, o=wishes.overage, nw=width, nl=length,
    )  # fmt: skip
    if chosen and chosen.form == "packaged":
        yield say("Cheapest that covers: {size}, {w} x {l}", size=chosen.size, w=chosen.width, l=chosen.length)
    elif chosen:
        yield say(
            "Cheapest that covers: {length} off a roll {w} wide",
            length=InUnit(chosen.length, chosen.unit), w=chosen.width,
        )  # fmt: skip


def _nothing_covers(wishes: BattingLayer, width: Length, length: Length) -> Caution:
    return hindrance(
        "batting-too-small",
        "No {name} that is sold covers {w} x {l}: join two, take another batting, or less overage. "
        "The price is without batting.",
        name=wishes.product.name, w=width, l=length,
    )  # fmt: skip
