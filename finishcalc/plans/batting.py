"""The batting: the cheapest package, either way round, or length off a roll that covers the top."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from finishcalc.measures.length import Length, Overage, Size
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import unit_to_print, up_to_step
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import Batting, Package, Roll
from finishcalc.model.project import BattingLayer
from finishcalc.model.section import Figure
from finishcalc.plans.cautions import Caution, blocking_caution
from finishcalc.plans.top.outline import Shape
from finishcalc.wording.sentence import InUnit, Sentence, say


class BattingOption(NamedTuple):
    """A batting that covers. `size` names a package; off a roll `width` is the roll's and `length` is bought in
    `unit`s. `price` is for one package, or for one `unit`."""

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
    working: tuple[Sentence, ...]
    cautions: tuple[Caution, ...]

    def supply(self, supplier: Supplier) -> BattingOption | None:
        """The chosen batting, where this supplier is the one who buys it."""
        return self.chosen if self.supplied_by == supplier else None


def plan_batting(shape: Shape, spec: BattingLayer, currency: Currency, backing: Overage | None = None) -> BattingPlan:
    """Plan a batting that covers the shape with its overage on every side, and never reaches beyond a `backing` of
    another overage."""
    overage = Overage.all_round(spec.overage)
    overage = overage.at_most(backing) if backing else overage
    needed, product = shape.with_overage(overage), spec.product
    fitting = [*_packages(product.packages, needed, currency), *_rolls(product.rolls, needed, currency)]
    options = sorted(fitting, key=lambda option: (option.cost.minor, (option.width * option.length).mm2))
    chosen = options[0] if options else None
    return BattingPlan(
        width=needed.width,
        length=needed.length,
        product=product,
        supplied_by=spec.supplied_by,
        chosen=chosen,
        options=tuple(options),
        working=(shape.overage_working(overage), *_cheapest_working(chosen)),
        cautions=() if chosen else (_nothing_covers(product.name, needed),),
    )


def _packages(packages: Figure[tuple[Package, ...]], needed: Size, currency: Currency) -> Iterator[BattingOption]:
    """Keep the packages that cover, one way round or the other."""
    for package in packages.value:
        short, long = sorted((package.width, package.length))
        if short >= min(needed) and long >= max(needed):
            yield BattingOption(
                form="packaged",
                size=package.size,
                width=package.width,
                length=package.length,
                unit="each",
                price=package.price,
                selling=package.selling,
                cost=currency.round(package.price),
                priced_by=packages,
            )


def _rolls(rolls: Figure[tuple[Roll, ...]], needed: Size, currency: Currency) -> Iterator[BattingOption]:
    """Cut off each roll the shorter of the two ways round that it is wide enough for."""
    for roll in rolls.value:
        lengths = [along for across, along in (needed, (needed.length, needed.width)) if roll.width >= across]
        if lengths:
            bought, unit = up_to_step(min(lengths), roll.step), unit_to_print(roll.step, roll.per)
            units = Length.of(1, unit).to(roll.per)
            yield BattingOption(
                form="roll",
                size="",
                width=roll.width,
                length=bought,
                unit=unit,
                price=roll.price * units,
                selling=None if roll.selling is None else roll.selling * units,
                cost=currency.round(bought.to(roll.per) * roll.price),
                priced_by=rolls,
            )


def _cheapest_working(chosen: BattingOption | None) -> Iterator[Sentence]:
    if chosen and chosen.form == "packaged":
        yield say("Cheapest that covers: {size}, {w} x {l}", size=chosen.size, w=chosen.width, l=chosen.length)
    elif chosen:
        length = InUnit(chosen.length, chosen.unit)
        yield say("Cheapest that covers: {length} off a roll {w} wide", length=length, w=chosen.width)


def _nothing_covers(name: str, needed: Size) -> Caution:
    text = "No size of {name} covers {w} x {l}: join two, use another batting, or reduce the overage. "
    text += "The price excludes batting."
    return blocking_caution("batting-too-small", text, name=name, w=needed.width, l=needed.length)
