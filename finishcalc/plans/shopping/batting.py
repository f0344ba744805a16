"""The battings of several projects: packages counted, and lengths side by side on one roll where its width allows."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.money import Currency, Money
from finishcalc.measures.rounding import up_to_step
from finishcalc.model.materials import Batting, Fabric, Roll
from finishcalc.model.section import Figure
from finishcalc.plans.batting.plan import BattingPlan
from finishcalc.plans.batting.sold import BattingOption
from finishcalc.plans.cutting.layout import Band, ClothLayout, Column, LaidPiece, Wanted
from finishcalc.plans.cutting.packing import lay_out
from finishcalc.plans.shopping.pieces import Pieces, left_over, wanted_of, without
from finishcalc.plans.shopping.shelf import Shelf, TakenDown
from finishcalc.plans.shopping.wants import ShoppingProject, figures_of
from finishcalc.wording.sentence import InUnit, Sentence, Value, say


class PackagesToBuy(NamedTuple):
    """So many packages of one size of a batting, and the number of them that each project takes."""

    name: str
    size_name: str
    size: Size
    number: int
    projects: tuple[tuple[str, int], ...]
    cost: Money
    rests_on_sample: bool = False


class RollToCut(NamedTuple):
    """The `lengths` to cut off one roll, with their layouts, each piece marked with its project. `alone` is the length
    that each project would have cut by itself; lengths are written in `unit`."""

    name: str
    roll: Roll
    lengths: tuple[Length, ...]
    unit: str
    layouts: tuple[ClothLayout, ...]
    projects: tuple[tuple[str, Length], ...]
    cost: Money
    left: tuple[Size, ...]
    working: tuple[Sentence, ...]
    rests_on_sample: bool = False

    @property
    def amount(self) -> Length:
        """All that is cut off the roll."""
        return sum(self.lengths, ZERO)

    @property
    def alone(self) -> Length:
        """The length that the projects would have cut off each by itself."""
        return sum((alone for _, alone in self.projects), ZERO)


class BattingOnHand(NamedTuple):
    """A piece of batting from the shelf, the projects whose whole battings are cut from it, and what is left of it."""

    name: str
    taken_down: TakenDown
    projects: tuple[str, ...]
    left: tuple[Size, ...]


class Battings(NamedTuple):
    """The battings of all projects: those to buy, and those from the shelf. `saved` has the cost of what the shelf
    spares of each product."""

    packages: tuple[PackagesToBuy, ...] = ()
    rolls: tuple[RollToCut, ...] = ()
    on_hand: tuple[BattingOnHand, ...] = ()
    saved: tuple[Money, ...] = ()

    @property
    def costs(self) -> list[Money]:
        """The cost of each entry that is to be bought."""
        return [*(each.cost for each in self.packages), *(each.cost for each in self.rolls)]


class _Wanting(NamedTuple):
    """A project that wants a batting of its plan's chosen form."""

    project: ShoppingProject
    plan: BattingPlan
    option: BattingOption


def plan_battings(projects: Sequence[ShoppingProject], shelf: Shelf) -> Battings:
    """Cut whole battings from what is on hand, and buy the others in the forms that their plans chose. A batting is the
    same where its name, its whole table and the currency agree."""
    grouped: dict[tuple[str, ...], list[_Wanting]] = {}
    for project in projects:
        plan = project.batting
        if plan and plan.chosen:
            key = (plan.product.name, project.currency.code, figures_of(plan.product, Batting))
            grouped.setdefault((key[0].casefold(), *key), []).append(_Wanting(project, plan, plan.chosen))
    of_products = [_of_product(wanting, shelf) for _, wanting in sorted(grouped.items())]
    return Battings(*(tuple(chain(*entries)) for entries in zip(*of_products, strict=True)))


def _of_product(wanting: Sequence[_Wanting], shelf: Shelf) -> Battings:
    """Buy one product for all that want it, but for the battings that are cut from what is on hand."""
    without_shelf = _bought(wanting)
    on_hand = tuple(_from_shelf(wanting, shelf))
    if not on_hand:
        return without_shelf
    served = {label for each in on_hand for label in each.projects}
    bought = _bought([each for each in wanting if each.project.label not in served], without_shelf.rolls)
    zero = wanting[0].project.currency.zero
    saved = sum(without_shelf.costs, zero) - sum(bought.costs, zero)
    return bought._replace(on_hand=on_hand, saved=(saved,))


def _bought(wanting: Sequence[_Wanting], known: Sequence[RollToCut] = ()) -> Battings:
    packages = _packages([each for each in wanting if each.option.form == "packaged"])
    rolls = _rolls([each for each in wanting if each.option.form == "roll"], known)
    return Battings(tuple(packages), tuple(rolls))


def _from_shelf(wanting: Sequence[_Wanting], shelf: Shelf) -> Iterator[BattingOnHand]:
    """Cut whole battings, either way round, from pieces on hand."""
    name = wanting[0].plan.product.name
    wanted = Pieces(_piece(each.project.label, Size(each.plan.width, each.plan.length)) for each in wanting)
    least = min(each.project.least_batting for each in wanting)
    for taken in shelf.take_down("batting", name, lambda size: size, wanted):
        labels = tuple(piece.project for piece in wanted_of([taken.layout]))
        left = tuple(size for size in left_over(taken.layout, taken.usable.length) if min(size) >= least)
        yield BattingOnHand(name, taken, labels, left)


def _piece(label: str, size: Size) -> Wanted:
    short, long = sorted(size)
    return Wanted(f"{label}: batting", short, long, 1, True, True, long, project=label)


def _packages(wanting: Sequence[_Wanting]) -> Iterator[PackagesToBuy]:
    by_size: dict[tuple[str, Size, Fraction], list[_Wanting]] = {}
    for each in wanting:
        option = each.option
        by_size.setdefault((option.size, Size(option.width, option.length), option.price), []).append(each)
    for (size_name, size, price), alike in sorted(by_size.items(), key=lambda item: (*item[0][1], item[0])):
        number, currency = sum(each.option.number for each in alike), alike[0].project.currency
        projects = tuple((each.project.label, each.option.number) for each in alike)
        cost = currency.round(price * number)
        sample = any(each.option.priced_by.sample for each in alike)
        yield PackagesToBuy(alike[0].plan.product.name, size_name, size, number, projects, cost, sample)


def _rolls(wanting: Sequence[_Wanting], known: Sequence[RollToCut]) -> Iterator[RollToCut]:
    by_roll: dict[str, list[_Wanting]] = {}
    rolls: dict[str, Roll] = {}
    for each in wanting:
        if not (roll := each.option.roll):
            raise AssertionError("a length that is cut off no roll")
        key = figures_of(roll, Roll)
        rolls[key] = roll
        by_roll.setdefault(key, []).append(each)
    for key in sorted(by_roll, key=lambda key: (rolls[key].width, key)):
        before = next((each.layouts for each in known if each.roll == rolls[key]), ())
        yield _roll_to_cut(rolls[key], by_roll[key], before)


def _roll_to_cut(roll: Roll, wanting: Sequence[_Wanting], before: tuple[ClothLayout, ...]) -> RollToCut:
    """Cut the pieces of all projects from one length, side by side, where that takes less and costs no more; else those
    of each project by themselves. Layouts `before` some were cut from the shelf are one more way, without these."""
    currency, unit = wanting[0].project.currency, wanting[0].option.length_unit
    own = tuple(_own_layout(roll, each) for each in wanting)
    pieces = list(wanted_of(own))
    kept = without(before, [each for each in wanted_of(before) if each not in pieces])
    layouts = min(_ways(roll, own, kept), key=lambda layouts: _rank(roll, layouts))
    lengths = tuple(up_to_step(layout.length, roll.step) for layout in layouts)
    least = min(each.project.least_batting for each in wanting)
    left = (size for layout, length in zip(layouts, lengths, strict=True) for size in left_over(layout, length))
    projects = tuple((each.project.label, each.option.length) for each in wanting)
    return RollToCut(
        name=wanting[0].plan.product.name,
        roll=roll,
        lengths=lengths,
        unit=unit,
        layouts=layouts,
        projects=projects,
        cost=wanting[0].option.cost if len(wanting) == 1 else currency.round(_price_of_all(roll, layouts)),
        left=tuple(size for size in left if min(size) >= least),
        working=tuple(_working(roll, projects, layouts, unit)),
        rests_on_sample=any(each.option.priced_by.sample for each in wanting),
    )


def _ways(roll: Roll, own: tuple[ClothLayout, ...], kept: tuple[ClothLayout, ...]) -> Iterator[tuple[ClothLayout, ...]]:
    """Give the layouts by themselves, those that are `kept`, and as far as these cost no more, the layouts behind each
    other and all pieces laid anew."""
    yield own
    if len(own) == 1:
        return
    if kept:
        yield kept
    most = _price_of_all(roll, own)
    pieces = Pieces(wanted_of(own))
    packed = lay_out(_as_cloth(roll), pieces.kinds)
    behind = own[0]._replace(bands=tuple(band for layout in own for band in layout.bands))
    for layout in (behind, pieces.take(packed)):
        if _price(roll, layout) <= most:
            yield (layout,)


def _rank(roll: Roll, layouts: tuple[ClothLayout, ...]) -> tuple[Length, int]:
    return sum((up_to_step(layout.length, roll.step) for layout in layouts), ZERO), len(layouts)


def _own_layout(roll: Roll, wanting: _Wanting) -> ClothLayout:
    """Lay a project's batting as its plan cuts it: lengths behind each other, each a band of its own."""
    plan, option = wanting.plan, wanting.option
    ways = [(plan.width, plan.length), (plan.length, plan.width)]
    across, along = next(
        (across, along)
        for across, along in ways
        if up_to_step(along * option.number, roll.step) == option.length and across <= roll.width * option.number
    )
    bands = []
    for number in range(option.number):
        width = min(roll.width, across - roll.width * number)
        piece = LaidPiece(_piece(wanting.project.label, Size(width, along)), width, along)
        bands.append(Band(along, (Column(width, (piece,)),)))
    return ClothLayout(roll.width, tuple(bands))


def _as_cloth(roll: Roll) -> Fabric:
    """Give a roll the terms of a cloth that loses nothing, as the packer reads them."""
    nothing = Fraction(0)
    no_lengths = dict.fromkeys(("selvage", "straighten", "repeat", "bolt"), ZERO)
    no_shares = dict.fromkeys(("shrink_across", "shrink_along"), nothing)
    return Fabric.new(width=roll.width, step=roll.step, price=Figure(nothing), **no_lengths, **no_shares)


def _price_of_all(roll: Roll, layouts: Sequence[ClothLayout]) -> Fraction:
    return sum((_price(roll, layout) for layout in layouts), Fraction(0))


def _price(roll: Roll, layout: ClothLayout) -> Fraction:
    """Price a length by the share of the roll that is charged, in the currency's main unit."""
    if roll.charged == "area":
        area = sum(((piece.across * piece.along).to(roll.per) for piece, *_ in layout.placed), Fraction(0))
        return area * roll.price
    bought = up_to_step(layout.length, roll.step)
    narrow = [band.length for band in layout.bands if band.width * 2 <= roll.width and not layout.turned]
    if roll.charged == "half-width" and narrow:
        halves = up_to_step(layout.length * 2 - sum(narrow, ZERO), roll.step)
        return min(halves.to(roll.per) / 2, bought.to(roll.per)) * roll.price
    return bought.to(roll.per) * roll.price


def _working(
    roll: Roll, projects: Sequence[tuple[str, Length]], layouts: Sequence[ClothLayout], unit: str
) -> Iterator[Sentence]:
    if len(projects) > 1:
        values: dict[str, Value] = {}
        for n, (label, alone) in enumerate(projects):
            values |= {f"label{n}": label, f"alone{n}": InUnit(alone, unit)}
        terms = " + ".join(f"{{alone{n}}} for {{label{n}}}" for n in range(len(projects)))
        all_alone = InUnit(sum((alone for _, alone in projects), ZERO), unit)
        yield say("Alone: " + terms + " = {all}", all=all_alone, **values)
    for layout in layouts:
        length = InUnit(up_to_step(layout.length, roll.step), unit)
        step = InUnit(roll.step, unit)
        text = "Off a roll {w} wide: {cut}, cut by {step}: {length}"
        yield say(text, w=roll.width, cut=layout.length, step=step, length=length)


def nothing_covers(projects: Sequence[ShoppingProject]) -> Iterator[tuple[str, Sentence]]:
    """Give the label and the caution of each project whose batting nothing that is sold covers."""
    for project in projects:
        if project.batting and not project.batting.chosen and not project.batting.brought:
            for caution in project.batting.cautions:
                yield project.label, caution.sentence


def currency_of(projects: Sequence[ShoppingProject]) -> list[Currency]:
    """The currencies of projects, by their codes."""
    return sorted({project.currency for project in projects}, key=lambda currency: currency.code)
