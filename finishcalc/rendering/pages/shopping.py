"""A shopping list as a page: what to buy, what to take from the shelf, what customers bring, what it comes to, and the
cutting of every length that several projects share."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from finishcalc.measures.length import Length, Size
from finishcalc.measures.money import Money
from finishcalc.pipeline import Finishing
from finishcalc.plans.cloth import uses_words
from finishcalc.plans.cutting.layout import ClothLayout, LaidPiece
from finishcalc.plans.shopping.batting import PackagesToBuy, RollToCut
from finishcalc.plans.shopping.cloth import ClothToBuy, ForProject
from finishcalc.plans.shopping.thread import ThreadToBuy
from finishcalc.plans.shopping.together import ShoppingList
from finishcalc.plans.shopping.wants import Brings
from finishcalc.rendering.pages.page import Format, Group, Head, Line, Page, Paragraph, Part, sentences
from finishcalc.rendering.pages.shopping_cuts import cutting_groups
from finishcalc.rendering.writing import SAMPLE_MARK, notation_of, sample_note
from finishcalc.wording.notation import NO_BREAK, Notation
from finishcalc.wording.sentence import InUnit, Long
from finishcalc.wording.words import capital, counted, in_words

FEW = 4
"""So few projects are named in the title of a list."""
NAMELESS = "A customer without a name"
UNNAMED_THREAD = "thread, colour not agreed"


def shopping_notation(results: Sequence[Finishing], units: str | None) -> Notation:
    """Write a list in the units of its first project unless others are asked for, with the signs of its shop; amounts
    have its symbol where every shop's are the same money."""
    notation = notation_of(results[0])
    monies = {
        (result.quote.currency, money.symbol, money.symbol_place)
        for result in results
        for money in [result.resolved.shop.money]
    }
    symbol = notation.symbol if len(monies) == 1 else ""
    return notation._replace(units=units or notation.units, symbol=symbol, names={})


def shopping_page(
    shopping: ShoppingList, notation: Notation, paper: Literal["letter", "A4"], *, prices: bool = True
) -> Page:
    """Make the page of a list, with prices or without."""
    words = _Words(shopping, notation, prices)
    to_buy: list[Group] = [
        (Part("Cloth", tuple(words.cloth())),),
        (Part("Batting", tuple(words.batting())),),
        (Part("Thread", tuple(words.thread())),),
    ]
    if not any(isinstance(part, Part) and part.lines for (part,) in to_buy):
        to_buy = [(Paragraph("Nothing to buy."),)]
    groups = [
        (sentences("For", words.projects()),),
        *to_buy,
        (Part("Customers", tuple(words.brought())),),
        (Part("On hand", tuple(words.on_hand())),),
        (sentences("Cost", list(words.costs())),),
        (sentences("Saved", list(words.savings())),),
        (sentences("Please note", list(words.notes())),),
        *cutting_groups(shopping, notation),
    ]
    return Page(Head("To buy", words.title()), tuple(groups), Format(paper, keeps_ticks=True))


class _Words(NamedTuple):
    """A list in words, with prices or without."""

    shopping: ShoppingList
    notation: Notation
    prices: bool

    def title(self) -> str:
        """Name the projects, or count them where they are many."""
        labels = self.shopping.labels
        return self._named(labels) if len(labels) <= FEW else counted(len(labels), "project")

    def projects(self) -> list[str]:
        """Name the projects that the title only counts."""
        labels = self.shopping.labels
        return [self._named(labels)] if len(labels) > FEW else []

    # --- to buy ------------------------------------------------------------------------------------------------------

    def cloth(self) -> Iterator[Line]:
        """List each cloth that is bought."""
        for each in self.shopping.cloth:
            if each.purchase.lengths:
                details = (self._for_uses(each.projects), *self._namesake(each))
                yield self._entry(
                    self._cloth(each), each.purchase.cost, details, _mark(each.purchase.fabric.price.sample)
                )

    def _cloth(self, cloth: ClothToBuy) -> str:
        fabric, name = cloth.purchase.fabric, self.notation.show(cloth.name)
        amount, exact = self._amount(cloth.purchase.lengths, fabric.per), self.notation.exactly()
        widths = "|".join(re.escape(exact.show(InUnit(fabric.width, unit))) for unit in ("in", "cm"))
        told = re.search(rf"(?<![\w./])({widths})(?!\w)", name)
        return f"{amount} of {name}" + ("" if told else f", {exact.show(fabric.width)} wide")

    def _amount(self, lengths: Sequence[Length], unit: str) -> str:
        """Write a length, or of several their sum and each."""
        shown = [self.notation.show(InUnit(length, unit)) for length in lengths]
        if len(shown) == 1:
            return shown[0]
        first, *others = lengths
        return f"{self.notation.show(InUnit(sum(others, first), unit))} ({' + '.join(shown)})"

    def _namesake(self, cloth: ClothToBuy) -> Iterator[str]:
        """Say what one yard costs, where the list has another cloth of this name and width."""
        fabric = cloth.purchase.fabric
        alike = [
            each.purchase.fabric.price.value
            for each in self.shopping.cloth
            if (_key(each), each.purchase.fabric.width) == (_key(cloth), fabric.width)
        ]
        if self.prices and len(set(alike)) > 1:
            yield f"the one at {self.notation.rate(fabric.price.value, cloth.saved.currency)} a {fabric.per}"

    def batting(self) -> Iterator[Line]:
        """List the packages, then the lengths off rolls."""
        for packages in self.shopping.battings.packages:
            mark = _mark(packages.rests_on_sample)
            yield self._entry(self._packages(packages), packages.cost, [self._for_numbers(packages.projects)], mark)
        for roll in self.shopping.battings.rolls:
            amount, name = self._amount(roll.lengths, roll.unit), self.notation.show(roll.name)
            text = f"{amount} of {name} off a roll {self.notation.exactly().show(roll.roll.width)} wide"
            details = [self._for([label for label, _ in roll.projects]), *self._cut_off(roll)]
            yield self._entry(text, roll.cost, details, _mark(roll.rests_on_sample))

    def _packages(self, packages: PackagesToBuy) -> str:
        size = f"size{NO_BREAK}{self.notation.show(packages.size_name)}, {self._stock(packages.size)}"
        return f"{counted(packages.number, 'package')} of {self.notation.show(packages.name)}, {size}"

    def _for_numbers(self, projects: Sequence[tuple[str, int]]) -> str:
        several = any(number > 1 for _, number in projects)
        return self._for([f"{label} ({number})" if several else label for label, number in projects])

    def _cut_off(self, roll: RollToCut) -> Iterator[str]:
        """Say what is cut from each length that several projects share."""
        for layout, length in zip(roll.layouts, roll.lengths, strict=True):
            pieces = [piece for piece, *_ in layout.placed]
            if len({piece.wanted.project for piece in pieces}) > 1:
                cut = in_words([self._piece(piece) for piece in pieces])
                yield f"from {self.notation.show(InUnit(length, roll.unit))}, width by length of the roll: {cut}"

    def _piece(self, piece: LaidPiece) -> str:
        size = self.notation.measured(piece.across, piece.along)
        return f"{size} for {self.notation.show(piece.wanted.project)}"

    def thread(self) -> Iterator[Line]:
        """List the cones of each thread."""
        for each in self.shopping.thread:
            lengths = [f"{self.notation.show(label)} ({self.notation.show(Long(n))})" for label, n in each.projects]
            yield self._entry(self._thread(each), each.cost, [f"for {in_words(lengths)}"])

    def _thread(self, thread: ThreadToBuy) -> str:
        name = f"thread, {self.notation.show(thread.name)}" if thread.name.strip() else UNNAMED_THREAD
        of_each = thread.cones // thread.colours
        colours = f", {of_each} of each of {thread.colours} colours" if thread.colours > 1 else ""
        cone = self.notation.show(Long(thread.cone))
        return f"{counted(thread.cones, 'cone')} of {name}{colours}, {cone} on a cone"

    def _entry(self, text: str, cost: Money | None, details: Iterable[str], mark: str = "") -> Line:
        """Make a line to be ticked, with its cost."""
        amount = f": {self.notation.money(cost)}{mark}" if self.prices and cost is not None else ""
        return Line(text + amount, tick="everywhere", details=tuple(details))

    @property
    def _rests_on_sample(self) -> bool:
        """True where any printed cost rests on a sample price."""
        battings = self.shopping.battings
        marked = [each.purchase.fabric.price.sample for each in self.shopping.cloth if each.purchase.lengths]
        marked += [each.rests_on_sample for each in battings.packages]
        marked += [each.rests_on_sample for each in battings.rolls]
        return self.prices and any(marked)

    # --- to take, and to be brought ----------------------------------------------------------------------------------

    def on_hand(self) -> Iterator[Line]:
        """List the pieces to take from the shelf."""
        for cloth in self.shopping.cloth:
            for taken in cloth.taken_down:
                yield self._taken(taken.written, cloth.name, self._pieces_of(taken.layout))
        for batting in self.shopping.battings.on_hand:
            yield self._taken(batting.taken_down.written, batting.name, self._for(batting.projects))

    def _taken(self, size: Size, name: str, detail: str) -> Line:
        return Line(f"{self._stock(size)} of {self.notation.show(name)}", tick="everywhere", details=(detail,))

    def _pieces_of(self, layout: ClothLayout) -> str:
        counts = Counter(piece.use for piece, *_ in layout.placed)
        return "for " + "; ".join(
            f"{self.notation.show(use)}, {counted(number, 'piece')}" for use, number in sorted(counts.items())
        )

    def brought(self) -> Iterator[Line]:
        """List what customers bring, customer by customer."""
        for each in self.shopping.brought:
            customer = self.notation.show(each.customer) if each.customer.strip() else NAMELESS
            for label, brings in each.brings:
                uses = f"{uses_words(brings.uses)} for {self.notation.show(label)}"
                yield Line(f"{customer} brings {self._thing(brings)}", tick="everywhere", details=(uses,))

    def _thing(self, brings: Brings) -> str:
        sizes = in_words([self._sizes(size, number) for size, number in Counter(brings.sizes).items()])
        if brings.what == "backing":
            return f"a backing, sewn, {sizes}"
        name = self.notation.show(brings.name)
        if brings.lengths:
            return f"{self._amount([each.length for each in brings.lengths], brings.lengths[0].unit)} of {name}"
        return f"{sizes} of {name}" if sizes else f"{name}, large enough"

    def _sizes(self, size: Size, number: int) -> str:
        return (f"{number} of " if number > 1 else "") + self._stock(size)

    # --- sums, and what to know --------------------------------------------------------------------------------------

    def costs(self) -> Iterator[str]:
        """Add up what is bought in each currency."""
        if not self.prices:
            return
        unpriced = any(each.cost is None for each in self.shopping.thread)
        without = ", without the thread that has no price" if unpriced else ""
        for cost in self.shopping.costs:
            mark = _mark(self._rests_on_sample)
            yield f"{self.notation.money(cost)}{mark} in all, before any tax{without}"

    def savings(self) -> Iterator[str]:
        """Say what it saves to buy for all projects together, and what the shelf spares."""
        for cloth in self.shopping.cloth:
            if cloth.alone > cloth.joined:
                fabric, name = cloth.purchase.fabric, self.notation.show(cloth.name)
                length = self.notation.show(InUnit(cloth.alone - cloth.joined, fabric.per))
                money = f", {self.notation.money(cloth.saved_by_joining)}" if self.prices else ""
                yield f"{length} of {name}{money}, because {counted(len(cloth.projects), 'project')} share it"
        for roll in self.shopping.battings.rolls:
            if roll.alone > roll.amount:
                length = self.notation.show(InUnit(roll.alone - roll.amount, roll.unit))
                sharing = counted(len(roll.projects), "project")
                yield f"{length} of {self.notation.show(roll.name)}, because {sharing} share it"
        for saved in self.shopping.saved if self.prices else ():
            yield f"{self.notation.money(saved)}, because of what is on hand"

    def notes(self) -> Iterator[str]:
        """Say what is lacking, what to ask for in the shop, and what may be a slip of the pen."""
        for label, sentence in self.shopping.lacking:
            yield f"{self.notation.show(label)}: {self.notation.write(sentence)}"
        yield from (self.notation.write(caution.sentence) for caution in self.shopping.cautions)
        named: dict[str, list[ClothToBuy]] = {}
        for each in self.shopping.cloth:
            if each.own_name:
                named.setdefault(_key(each), []).append(each)
        for alike in named.values():
            if len(alike) > 1:
                times = f"{capital(self.notation.show(alike[-1].name))} is on the list {counted(len(alike), 'time')}"
                several = len({each.name for each in alike}) > 1
                differs = "its name is not written alike" if several else "its figures are not the same"
                yield f"{times}, because {differs} in every file."
        if self._rests_on_sample:
            yield sample_note("sample rates", "studio")

    # --- sizes, and projects -----------------------------------------------------------------------------------------

    def _stock(self, size: Size) -> str:
        """Write the size of what is sold or on hand, which no ruler makes larger."""
        return self.notation.exactly().size(*size)

    def _named(self, labels: Sequence[str]) -> str:
        return in_words([self.notation.show(label) for label in labels])

    def _for(self, labels: Sequence[str]) -> str:
        return f"for {self._named(labels)}"

    def _for_uses(self, projects: Sequence[ForProject]) -> str:
        labels: dict[tuple[str, ...], list[str]] = {}
        for project in projects:
            labels.setdefault(project.uses, []).append(project.label)
        return "; ".join(f"{uses_words(uses)} for {self._named(alike)}" for uses, alike in labels.items())


def _key(cloth: ClothToBuy) -> str:
    """Name a cloth as somebody says it, whatever letters it is written in."""
    return " ".join(cloth.name.split()).casefold()


def _mark(rests_on_sample: bool) -> str:
    return SAMPLE_MARK if rests_on_sample else ""
