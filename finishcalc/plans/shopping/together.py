"""One shopping list over any number of projects: the story that cloth, battings, thread and the shelf make together."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import count
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.measures.money import Money, total
from finishcalc.model.on_hand import OnHandPieces
from finishcalc.plans.cautions import Caution
from finishcalc.plans.cutting.purchases import bolt_cautions
from finishcalc.plans.shopping.batting import Battings, currency_of, nothing_covers, plan_battings
from finishcalc.plans.shopping.cloth import ClothToBuy, plan_cloths
from finishcalc.plans.shopping.pieces import worth_keeping
from finishcalc.plans.shopping.shelf import Shelf, StockOf
from finishcalc.plans.shopping.thread import ThreadToBuy, plan_thread
from finishcalc.plans.shopping.wants import Brings, ShoppingProject
from finishcalc.wording.sentence import Sentence


class BroughtBy(NamedTuple):
    """The materials that one customer brings, each with the label of the project that it is for."""

    customer: str
    brings: tuple[tuple[str, Brings], ...]


class ShoppingList(NamedTuple):
    """All that is to be bought for the projects of these labels, and what their customers bring. `costs` is what the
    priced entries come to, one sum a currency; `saved` what the shelf spares. `lacking` names projects whose batting
    nothing covers; `left` is what is on hand afterwards."""

    labels: tuple[str, ...]
    cloth: tuple[ClothToBuy, ...]
    battings: Battings
    thread: tuple[ThreadToBuy, ...]
    brought: tuple[BroughtBy, ...]
    costs: tuple[Money, ...]
    saved: tuple[Money, ...]
    lacking: tuple[tuple[str, Sentence], ...]
    cautions: tuple[Caution, ...]
    left: tuple[OnHandPieces, ...]


def shopping_list(projects: Iterable[ShoppingProject], on_hand: Iterable[OnHandPieces], finest: Length) -> ShoppingList:
    """Make one list of all projects, each counted once, in whatever order they come. What is on hand is used before
    anything is bought. What is left over is measured down to a step of `finest`."""
    by_key = {project.key: project for project in projects}
    in_order = _labelled(
        sorted(by_key.values(), key=lambda project: (project.label.casefold(), project.label, project.key))
    )
    shelf = Shelf(on_hand)
    cloth = tuple(plan_cloths(in_order, shelf))
    battings = plan_battings(in_order, shelf)
    thread = tuple(plan_thread(in_order))
    costs = [each.purchase.cost for each in cloth]
    costs += battings.costs
    costs += [each.cost for each in thread if each.cost is not None]
    saved = [each.saved for each in cloth] + list(battings.saved)
    return ShoppingList(
        labels=tuple(project.label for project in in_order),
        cloth=cloth,
        battings=battings,
        thread=thread,
        brought=tuple(_brought(in_order)),
        costs=tuple(_totals(costs, in_order)),
        saved=tuple(each for each in _totals(saved, in_order) if each),
        lacking=tuple(nothing_covers(in_order)),
        cautions=tuple(bolt_cautions(tuple(each.purchase for each in cloth if each.purchase.fabric.bolt))),
        left=tuple(_left(cloth, battings, shelf, finest)),
    )


def _labelled(projects: Sequence[ShoppingProject]) -> list[ShoppingProject]:
    """Number the labels that several projects share, so that each label is one project's."""
    shared = Counter(project.label for project in projects)
    taken, labelled = set(shared), list[ShoppingProject]()
    for project in projects:
        label = project.label
        if shared[label] > 1:
            label = next(each for n in count(1) if (each := f"{label} ({n})") not in taken)
            taken.add(label)
        labelled.append(project._replace(label=label))
    return labelled


def _totals(amounts: Sequence[Money], projects: Sequence[ShoppingProject]) -> Iterator[Money]:
    for currency in currency_of(projects):
        yield total((amount for amount in amounts if amount.currency == currency), currency)


def _brought(projects: Sequence[ShoppingProject]) -> Iterator[BroughtBy]:
    by_customer: dict[str, list[tuple[str, Brings]]] = {}
    for project in projects:
        if project.brings:
            of_hers = by_customer.setdefault(project.customer, [])
            of_hers += [(project.label, each) for each in project.brings]
    for customer in sorted(by_customer, key=lambda name: (name.casefold(), name)):
        yield BroughtBy(customer, tuple(by_customer[customer]))


def _left(cloths: Sequence[ClothToBuy], battings: Battings, shelf: Shelf, finest: Length) -> Iterator[OnHandPieces]:
    """Count what is left, alike pieces together: what stays on the shelf as it is, and rectangles that are worth
    keeping of what is cut."""
    counts: Counter[StockOf] = shelf.left
    for cloth in cloths:
        if cloth.own_name:
            counts.update(("cloth", cloth.own_name, size) for size in worth_keeping(cloth.left, finest))
    of_battings = [(each.name, each.left) for each in battings.rolls]
    of_battings += [(each.name, each.left) for each in battings.on_hand]
    for name, sizes in of_battings:
        counts.update(("batting", name, size) for size in worth_keeping(sizes, finest))
    for (kind, name, size), number in sorted(counts.items()):
        yield OnHandPieces.new(kind=kind, name=name, width=size.width, length=size.length, number=number)
