"""The battings that a shop sells: packages, and lengths off a roll, in one piece or several joined side by side."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from finishcalc.measures.length import AREA_UNITS, Length, Size
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import unit_to_print, up, up_to_step
from finishcalc.model.materials import Batting, Charge, Package, Roll
from finishcalc.model.section import Figure
from finishcalc.model.shop import BattingSeam
from finishcalc.plans.batting.joining import Joined, join, side_by_side


class BattingOption(NamedTuple):
    """A batting that covers, of `number` packages or lengths, which are `joined` where there are several.

    `size` names a package, with its own `width` and `length`; off a roll `width` is the roll's, and `length` is all
    that is cut off, to be written in `length_unit`. What is charged is the `quantity` of `unit`s, each at a `price` to
    the studio and a `selling` price, if any, to the customer: packages, or of a roll the share that is charged. An
    `offcut` of some use lies beside the batting, on the roll's width.
    """

    form: Literal["packaged", "roll"]
    size: str
    width: Length
    length: Length
    length_unit: str
    number: int
    joined: Joined | None
    charge: Charge
    quantity: Fraction
    unit: str
    price: Fraction
    selling: Fraction | None
    cost: Money
    offcut: Size | None
    priced_by: Figure[Any]
    roll: Roll | None = None

    @property
    def studio_keeps_offcut(self) -> bool:
        """Tell an offcut that the customer does not pay, so that it is the studio's."""
        return self.offcut is not None and self.charge != "whole-width"


class _OnRoll(NamedTuple):
    """A batting as it is cut off a roll: so many lengths `along` each, beside each other `across`."""

    across: Length
    along: Length
    lengths: int


def options_in_one_piece(product: Batting, needed: Size, seam: BattingSeam, currency: Currency) -> list[BattingOption]:
    """List the packages that cover, one way round or the other, and the cheapest way to cut each roll that does."""
    packages = [
        _of_packages(package, 1, None, product.packages, currency)
        for package in product.packages.value
        if min(package.width, package.length) >= min(needed) and max(package.width, package.length) >= max(needed)
    ]
    return [*packages, *_off_rolls(product, needed, range(1, 2), seam.least_piece, currency)]


def joined_options(product: Batting, needed: Size, seam: BattingSeam, currency: Currency) -> list[BattingOption]:
    """List the packages that cover once they are joined, each in the least number, and the rolls, side by side."""
    most, packages = seam.most_seams + 1, list[BattingOption]()
    for package in product.packages.value:
        for number in range(2, most + 1):
            stock = [Size(package.width, package.length)] * number
            if found := join(needed, stock, seam.most_seams, seam.least_piece):
                packages.append(_of_packages(package, number, found, product.packages, currency))
                break
    return [*packages, *_off_rolls(product, needed, range(2, most + 1), seam.least_piece, currency)]


def _of_packages(
    package: Package, number: int, joined: Joined | None, priced_by: Figure[Any], currency: Currency
) -> BattingOption:
    return BattingOption(
        form="packaged",
        size=package.size,
        width=package.width,
        length=package.length,
        length_unit="",
        number=number,
        joined=joined,
        charge="whole-width",
        quantity=Fraction(number),
        unit="each",
        price=package.price,
        selling=package.selling,
        cost=currency.round(package.price * number),
        offcut=None,
        priced_by=priced_by,
    )


def _off_rolls(
    product: Batting, needed: Size, numbers: range, least: Length, currency: Currency
) -> Iterator[BattingOption]:
    """Cut off each roll the cheaper of the two ways round, and of two at one price the shorter."""
    for roll in product.rolls.value:
        options = []
        for across, along in (needed, (needed.length, needed.width)):
            lengths = up(across / roll.width)
            too_narrow = lengths > 1 and across - roll.width * (lengths - 1) < least
            if lengths in numbers and not too_narrow:
                option = _off_roll(roll, _OnRoll(across, along, lengths), product.rolls, currency)
                is_scrap = option.offcut and min(option.offcut) < least
                options.append(option._replace(offcut=None) if is_scrap else option)
        if options:
            yield min(options, key=lambda option: (option.cost.minor, option.length))


def _off_roll(roll: Roll, cut: _OnRoll, priced_by: Figure[Any], currency: Currency) -> BattingOption:
    bought = up_to_step(cut.along * cut.lengths, roll.step)
    charge, quantity, unit, part = _charged(roll, cut, bought)
    units = part * (1 if unit in AREA_UNITS else Length.of(1, unit).to(roll.per))
    beside = roll.width * cut.lengths - cut.across
    return BattingOption(
        form="roll",
        size="",
        width=roll.width,
        length=bought,
        length_unit=_unit_of_length(roll),
        number=cut.lengths,
        joined=side_by_side(Size(cut.across, cut.along), roll.width, cut.lengths) if cut.lengths > 1 else None,
        charge=charge,
        quantity=quantity,
        unit=unit,
        price=roll.price * units,
        selling=None if roll.selling is None else roll.selling * units,
        cost=currency.round(quantity * roll.price * units),
        offcut=Size(beside, bought if cut.lengths == 1 else cut.along) if beside else None,
        priced_by=priced_by,
        roll=roll,
    )


def _unit_of_length(roll: Roll) -> str:
    return unit_to_print(roll.step, roll.length_unit)


def _charged(roll: Roll, cut: _OnRoll, bought: Length) -> tuple[Charge, Fraction, str, Fraction]:
    """Give what is charged of a roll: the share, its quantity and unit, and the part of the roll's price that a unit of
    it has. A half width is charged for each half that the batting reaches into, and the whole where that is every
    half."""
    if roll.charged == "area":
        return "area", (cut.across * cut.along).to(roll.per), roll.per, Fraction(1)
    halves, unit = up(cut.across * 2 / roll.width), _unit_of_length(roll)
    if roll.charged == "half-width" and halves < cut.lengths * 2:
        charged = up_to_step(bought * Fraction(halves, cut.lengths), roll.step)
        return "half-width", charged.to(unit), unit, Fraction(1, 2)
    return "whole-width", bought.to(unit), unit, Fraction(1)
