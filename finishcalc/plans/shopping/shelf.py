"""The shelf: pieces of cloth and batting that are on hand, taken down best fit first, each once."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import Literal, NamedTuple

from finishcalc.measures.length import Size
from finishcalc.model.on_hand import OnHandPieces
from finishcalc.plans.cutting.layout import ClothLayout
from finishcalc.plans.cutting.packing import lay_on_piece
from finishcalc.plans.shopping.pieces import Pieces

Kind = Literal["cloth", "batting"]
StockOf = tuple[Kind, str, Size]
"""Alike pieces: of cloth or batting, its name, and the size of each."""


class TakenDown(NamedTuple):
    """A piece from the shelf: its size as it is `written` there, the part of it that is `usable`, and the layout of
    what is cut from that."""

    written: Size
    usable: Size
    layout: ClothLayout


class Shelf:
    """The pieces on hand of all files. What is taken down is gone for every later cloth."""

    def __init__(self, rows: Iterable[OnHandPieces]) -> None:
        self._pieces: Counter[StockOf] = Counter()
        for row in rows:
            self._pieces[row.kind, row.name, row.size] += row.count

    def take_down(
        self, kind: Kind, name: str, usable_of: Callable[[Size], Size], wanted: Pieces
    ) -> Iterator[TakenDown]:
        """Cut what the shelf holds of the pieces wanted, which are taken off these: from the smallest piece on it that
        holds them all, or else as many as each holds, from the smallest on."""
        stock = sorted(
            (key for key, number in self._pieces.items() if number and key[0] == kind and _is_named(key[1], name)),
            key=lambda key: ((key[2].width * key[2].length).mm2, key[2], key[1]),
        )
        while wanted and stock:
            best = _best_fit([(size, usable_of(size)) for _, _, size in stock], wanted)
            if best is None:
                return
            place = next(n for n, (_, _, size) in enumerate(stock) if size == best.written)
            self._pieces[stock[place]] -= 1
            stock = [key for key in stock[place:] if self._pieces[key]]  # none of the smaller ones holds anything
            yield best._replace(layout=wanted.take(best.layout))

    @property
    def left(self) -> Counter[StockOf]:
        """The number of pieces of each size that were not taken down."""
        return +self._pieces


def _is_named(written: str, name: str) -> bool:
    """Tell a piece of that name, in small letters or capitals: whoever fills the shelf may write either."""
    return written.casefold() == name.casefold()


def _best_fit(sizes: list[tuple[Size, Size]], wanted: Pieces) -> TakenDown | None:
    """Give the smallest piece that holds all that is wanted, else the smallest that holds anything."""
    kinds = wanted.kinds
    number, first = sum(each.number for each in kinds), None
    area = sum((each.width * each.length).mm2 * each.number for each in kinds)
    for written, usable in sizes:
        if first and (usable.width * usable.length).mm2 < area:
            continue
        layout = lay_on_piece(usable.width, usable.length, kinds)
        if layout.bands:
            fit = TakenDown(written, usable, layout)
            if sum(1 for _ in layout.placed) == number:
                return fit
            first = first or fit
    return first
