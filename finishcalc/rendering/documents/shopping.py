"""The JSON document of a shopping list: what to buy for which project, what to take from the shelf, and what is left.

Money is a string beside its currency, all else a number; widths and lengths are in the list's `units`.
"""

from collections.abc import Iterable
from typing import NamedTuple

from finishcalc.measures.length import Length, Size
from finishcalc.measures.money import Money
from finishcalc.plans.shopping.batting import BattingOnHand, PackagesToBuy, RollToCut
from finishcalc.plans.shopping.cloth import ClothToBuy, ForProject
from finishcalc.plans.shopping.shelf import TakenDown
from finishcalc.plans.shopping.thread import ThreadToBuy
from finishcalc.plans.shopping.together import BroughtBy, ShoppingList
from finishcalc.plans.shopping.wants import Brings
from finishcalc.rendering.documents.cutting import layout_record
from finishcalc.rendering.documents.writing import (
    SCHEMA_VERSION,
    Record,
    UnitWriter,
    caution_records,
    number,
    safe_json,
    without_prices,
)
from finishcalc.wording.notation import Notation


def shopping_json(shopping: ShoppingList, notation: Notation, *, prices: bool = True) -> str:
    """Write one JSON document that ends with a line feed, with prices or without."""
    record = shopping_record(shopping, notation)
    return safe_json(record if prices else without_prices(record))


def shopping_record(shopping: ShoppingList, notation: Notation) -> Record:
    """Write a list as a record."""
    write = _Writer(UnitWriter(notation))
    return {
        "schema_version": SCHEMA_VERSION,
        "units": notation.units,
        "projects": [*shopping.labels],
        "cloth": [write.cloth(each) for each in shopping.cloth],
        "batting": {
            "packages": [write.packages(each) for each in shopping.battings.packages],
            "rolls": [write.roll(each) for each in shopping.battings.rolls],
            "on_hand": [write.batting_on_hand(each) for each in shopping.battings.on_hand],
        },
        "thread": [write.thread(each) for each in shopping.thread],
        "brought": [write.brought(each) for each in shopping.brought],
        "cost": [_money("total", each) for each in shopping.costs],
        "total_saved": [_money("total", each) for each in shopping.saved],
        "lacking": [{"project": label, "text": write.units.sentence(text)} for label, text in shopping.lacking],
        "cautions": caution_records(shopping.cautions, "studio", notation),
        "left": [
            {"kind": each.kind, "name": each.name, **write.size(each.size), "number": each.count}
            for each in shopping.left
        ],
    }


def _money(name: str, amount: Money | None) -> Record:
    """Write an amount under a name beside its currency; null where there is none."""
    return {name: str(amount), "currency": amount.currency.code} if amount is not None else {name: None}


class _Writer(NamedTuple):
    """Writes the entries of a list."""

    units: UnitWriter

    def size(self, size: Size) -> Record:
        """Write the width and the length of a piece."""
        return self.units.size(size.width, size.length)

    def cloth(self, each: ClothToBuy) -> Record:
        """Write a cloth with its lengths, each with the places of its pieces."""
        fabric, purchase = each.purchase.fabric, each.purchase
        bought = purchase.layouts[len(purchase.layouts) - len(purchase.lengths) :]
        return {
            "name": each.name,
            "width": self.units.length(fabric.width),
            "buy": {**self.units.bought(purchase.amount, fabric), **_money("cost", purchase.cost)},
            "lengths": [
                {**self.units.bought(length, fabric), "layout": layout_record(layout, self.units.length)}
                for length, layout in zip(purchase.lengths, bought, strict=True)
            ],
            "on_hand": [self._taken(taken) for taken in each.taken_down],
            "projects": [self._for(project, each) for project in each.projects],
            "joined": {"alone": number(each.alone.to(fabric.per)), "together": number(each.joined.to(fabric.per))},
            "saved_by_joining": str(each.saved_by_joining),
            "saved_by_on_hand": str(each.saved),
            "working": [self.units.exact_sentence(sentence) for sentence in purchase.working],
        }

    def _for(self, project: ForProject, cloth: ClothToBuy) -> Record:
        alone = self.units.bought(project.alone, cloth.purchase.fabric)
        return {"project": project.label, "uses": [*project.uses], "alone": {**alone, "cost": str(project.cost_alone)}}

    def _taken(self, taken: TakenDown) -> Record:
        return {**self.size(taken.written), "layout": layout_record(taken.layout, self.units.length)}

    def packages(self, each: PackagesToBuy) -> Record:
        """Write packages of one size."""
        projects = [{"project": label, "number": count} for label, count in each.projects]
        size = {"size": each.size_name, **self.size(each.size)}
        return {"name": each.name, **size, "number": each.number, **_money("cost", each.cost), "projects": projects}

    def roll(self, each: RollToCut) -> Record:
        """Write the lengths that are cut off a roll."""
        return {
            "name": each.name,
            "roll_width": self.units.length(each.roll.width),
            "buy": {"amount": number(each.amount.to(each.unit)), "unit": each.unit, **_money("cost", each.cost)},
            "lengths": [
                {
                    "amount": number(length.to(each.unit)),
                    "unit": each.unit,
                    "layout": layout_record(layout, self.units.length),
                }
                for length, layout in zip(each.lengths, each.layouts, strict=True)
            ],
            "projects": self._alone(each.projects, each.unit),
            "working": [self.units.exact_sentence(sentence) for sentence in each.working],
        }

    def _alone(self, projects: Iterable[tuple[str, Length]], unit: str) -> list[Record]:
        return [
            {"project": label, "alone": {"amount": number(length.to(unit)), "unit": unit}} for label, length in projects
        ]

    def batting_on_hand(self, each: BattingOnHand) -> Record:
        """Write a batting that is taken from the shelf."""
        return {"name": each.name, **self._taken(each.taken_down), "projects": [*each.projects]}

    def thread(self, each: ThreadToBuy) -> Record:
        """Write the cones of a thread."""
        return {
            "name": each.name,
            "colours": each.colours,
            "cones": each.cones,
            "cone": self.units.length(each.cone),
            **_money("cost", each.cost),
            "projects": [{"project": label, "length": self.units.length(length)} for label, length in each.projects],
            "working": self.units.exact_sentence(each.working),
        }

    def brought(self, each: BroughtBy) -> Record:
        """Write what a customer brings."""
        return {"customer": each.customer, "brings": [self._brings(label, brings) for label, brings in each.brings]}

    def _brings(self, label: str, brings: Brings) -> Record:
        lengths = [{"amount": number(each.length.to(each.unit)), "unit": each.unit} for each in brings.lengths]
        return {
            "project": label,
            "what": brings.what,
            "name": brings.name,
            "uses": [*brings.uses],
            "lengths": lengths,
            "sizes": [self.size(size) for size in brings.sizes],
        }
