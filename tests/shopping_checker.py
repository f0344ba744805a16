"""Proves the cloth of a shopping list from the definition of its cuts; it shares no code with the packer.

The pieces that a list must hold are read from the layouts of each project by itself, which have a proof of their own:
their sizes as they lie, and which way they may. Those of the list are proved by the checker of layouts, which works out
anew where each lies, that cuts from edge to edge part them in three stages, and that each is there once.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from finishcalc.measures.length import Length
from finishcalc.model.materials import Fabric
from finishcalc.plans.cutting.layout import ClothLayout
from finishcalc.plans.shopping.cloth import ClothToBuy
from finishcalc.plans.shopping.together import ShoppingList
from finishcalc.plans.shopping.wants import ShoppingProject
from tests.cutting_checker import Cloth, Needed, complaints

Piece = tuple[str, Length, Length, bool, bool]
"""The use, the sides as it lies along the cloth, and if it may lie along it and across."""


def wrong_with(shopping: ShoppingList, projects: Iterable[ShoppingProject]) -> list[str]:
    """Everything that is wrong with the cloth of a list."""
    found = [each for cloth in shopping.cloth for each in _wrong_with_cloth(cloth)]
    needed = Counter(piece for project in projects for piece in _pieces_of(project))
    laid = Counter(piece for cloth in shopping.cloth for piece in _laid(cloth.purchase.layouts))
    found += [f"{number} of {piece} are missing" for piece, number in (needed - laid).items()]
    return found + [f"{number} of {piece} are too many" for piece, number in (laid - needed).items()]


def _wrong_with_cloth(cloth: ClothToBuy) -> Iterator[str]:
    """Pieces from the shelf lie on what is on hand, the others on what is bought. The cut pieces stand as wanted, each
    as large as it is cut: a strip that is joined later is so many pieces here."""
    purchase, fabric = cloth.purchase, cloth.purchase.fabric
    usable = (fabric.width - fabric.selvage * 2) * (1 - fabric.shrink_across)
    bought = purchase.layouts[len(cloth.taken_down) :]
    if len(bought) != len(purchase.lengths):
        yield f"{len(bought)} layouts for {len(purchase.lengths)} lengths"
    terms = Cloth(usable, fabric.shrink_along, fabric.straighten, Length.of(0, "mm"))
    yield from _wrong_on(bought, purchase.lengths, terms)
    for taken in cloth.taken_down:
        size, shrink, lost = _usable(fabric, taken.written, usable)
        terms = Cloth(size, shrink, lost, Length.of(0, "mm"))
        yield from _wrong_on([taken.layout], [taken.written.length], terms)


def _usable(fabric: Fabric, size, usable: Length):
    """A piece on hand of the full width is unwashed, with its selvages; any other is as it can be cut."""
    if size.width > usable or size.width >= fabric.width:
        return usable, fabric.shrink_along, fabric.straighten
    return size.width, fabric.shrink_along * 0, Length.of(0, "mm")


def _wrong_on(layouts: Sequence[ClothLayout], lengths: Sequence[Length], terms: Cloth) -> Iterator[str]:
    whole = [_each_whole(layout) for layout in layouts]
    needed = Counter((use, width, length, along, across) for use, width, length, along, across in _laid(whole))
    wanted = [
        Needed(use, width, length, number, along, across, None)
        for (use, width, length, along, across), number in needed.items()
    ]
    yield from complaints(whole, lengths, wanted, terms)


def _each_whole(layout: ClothLayout) -> ClothLayout:
    """A part of a strip is a piece like any other once it is to be cut."""
    bands = []
    for band in layout.bands:
        columns = []
        for column in band.columns:
            pieces = (
                piece._replace(wanted=piece.wanted._replace(joined_to=piece.wanted.length)) for piece in column.pieces
            )
            columns.append(column._replace(pieces=tuple(pieces)))
        bands.append(band._replace(columns=tuple(columns)))
    return layout._replace(bands=tuple(bands))


def _laid(layouts: Iterable[ClothLayout]) -> Iterator[Piece]:
    for layout in layouts:
        for piece, *_ in layout.placed:
            wanted = piece.wanted
            yield wanted.use, wanted.width, wanted.length, wanted.along, wanted.across


def _pieces_of(project: ShoppingProject) -> Iterator[Piece]:
    """The pieces that a project buys cloth for, as it lays them by itself. A panel of a backing is cut as wide as its
    column."""
    for cloth in project.cloth:
        purchase = cloth.purchase
        for layout in purchase.layouts[len(purchase.layouts) - len(purchase.lengths) :]:
            for piece, *_ in layout.placed:
                wanted = piece.wanted
                use = f"{project.label}: {'the backing strip' if wanted.use == 'strip' else wanted.use}"
                use = use.replace(": triangles", ": the triangles")
                lies_along = piece.along == wanted.length or not wanted.across
                sides = (piece.across, piece.along) if lies_along else (piece.along, piece.across)
                yield use, *sides, wanted.along, wanted.across
