"""A shopping list as rows for a spreadsheet: a line for each entry, its figures bare, with their units in columns."""

from collections import Counter
from collections.abc import Iterator

from finishcalc.measures.length import ZERO
from finishcalc.measures.money import Money
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.shopping.together import ShoppingList
from finishcalc.plans.shopping.wants import Brings
from finishcalc.rendering.documents.writing import exact_decimal, number
from finishcalc.rendering.tables.chart import Figure
from finishcalc.rendering.tables.csv_text import csv_lines, text_cell

COLUMNS = ("do", "what", "name", "amount", "unit", "lengths", "width", "length", "units", "customer", "for")
"""The head of the spreadsheet. `amount` is in `unit`; `width` and `length` are those of the cloth, the package or the
piece, in `units`."""
COSTS = ("cost", "currency")
"""The columns of prices. Only what is to be bought has a cost."""
Row = dict[str, Figure]


def shopping_csv(shopping: ShoppingList, units: str, *, prices: bool = True) -> str:
    """Write a list with its widths and lengths in these units, with prices or without."""
    columns = (*COLUMNS, *(COSTS if prices else ()))
    rows = [*_cloth(shopping, units), *_batting(shopping, units), *_thread(shopping, units)]
    rows += [*_on_hand(shopping, units), *_brought(shopping, units)]
    return csv_lines([columns, *([_cell(row.get(column)) for column in columns] for row in rows)])


def _cell(figure: Figure) -> Figure:
    """Make a text harmless; a figure stays one."""
    return text_cell(figure) if isinstance(figure, str) else figure


def _cost(cost: Money) -> Row:
    return {"cost": str(cost), "currency": cost.currency.code}


def _cloth(shopping: ShoppingList, units: str) -> Iterator[Row]:
    for each in shopping.cloth:
        fabric, lengths = each.purchase.fabric, each.purchase.lengths
        if lengths:
            yield {
                "do": "buy",
                "what": "cloth",
                "name": each.name,
                "amount": exact_decimal(each.purchase.amount.to(fabric.per)),
                "unit": fabric.per,
                "lengths": " + ".join(exact_decimal(length.to(fabric.per)) for length in lengths),
                "width": number(fabric.width.to(units)),
                "units": units,
                "for": "; ".join(f"{of.label}: {uses_words(of.uses)}" for of in each.projects),
                **_cost(each.purchase.cost),
            }


def _batting(shopping: ShoppingList, units: str) -> Iterator[Row]:
    for packages in shopping.battings.packages:
        yield {
            "do": "buy",
            "what": "batting",
            "name": f"{packages.name}, size {packages.size_name}",
            "amount": packages.number,
            "unit": "package",
            "width": number(packages.size.width.to(units)),
            "length": number(packages.size.length.to(units)),
            "units": units,
            "for": "; ".join(label for label, _ in packages.projects),
            **_cost(packages.cost),
        }
    for roll in shopping.battings.rolls:
        yield {
            "do": "buy",
            "what": "batting",
            "name": roll.name,
            "amount": exact_decimal(roll.amount.to(roll.unit)),
            "unit": roll.unit,
            "lengths": " + ".join(exact_decimal(length.to(roll.unit)) for length in roll.lengths),
            "width": number(roll.roll.width.to(units)),
            "units": units,
            "for": "; ".join(label for label, _ in roll.projects),
            **_cost(roll.cost),
        }


def _thread(shopping: ShoppingList, units: str) -> Iterator[Row]:
    for each in shopping.thread:
        yield {
            "do": "buy",
            "what": "thread",
            "name": each.name,
            "amount": each.cones,
            "unit": "cone",
            "length": number(each.cone.to(units)),
            "units": units,
            "for": "; ".join(label for label, _ in each.projects),
            **(_cost(each.cost) if each.cost is not None else {}),
        }


def _on_hand(shopping: ShoppingList, units: str) -> Iterator[Row]:
    taken = [
        ("cloth", cloth.name, each.written, sorted({piece.use for piece, *_ in each.layout.placed}))
        for cloth in shopping.cloth
        for each in cloth.taken_down
    ]
    taken += [("batting", each.name, each.taken_down.written, [*each.projects]) for each in shopping.battings.on_hand]
    for what, name, size, uses in taken:
        sides: Row = {"width": number(size.width.to(units)), "length": number(size.length.to(units)), "units": units}
        yield {"do": "take", "what": what, "name": name, "amount": 1, "unit": "piece", **sides, "for": "; ".join(uses)}


def _brought(shopping: ShoppingList, units: str) -> Iterator[Row]:
    for each in shopping.brought:
        for label, brings in each.brings:
            words = f"{label}: {uses_words(brings.uses)}"
            row: Row = {
                "do": "bring",
                "what": brings.what,
                "name": brings.name,
                "customer": each.customer,
                "for": words,
            }
            yield from (row | amounts for amounts in _amounts(brings, units))


def _amounts(brings: Brings, units: str) -> Iterator[Row]:
    if brings.lengths:
        unit = brings.lengths[0].unit
        lengths = [each.length for each in brings.lengths]
        each = " + ".join(exact_decimal(length.to(unit)) for length in lengths)
        yield {"amount": exact_decimal(sum(lengths, ZERO).to(unit)), "unit": unit, "lengths": each}
    for size, count in Counter(brings.sizes).items():
        sides: Row = {"width": number(size.width.to(units)), "length": number(size.length.to(units)), "units": units}
        yield {"amount": count, "unit": "piece", **sides}
    if not brings.lengths and not brings.sizes:
        yield {}
