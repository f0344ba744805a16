"""One purchase of each cloth for several projects: their pieces laid together where that saves, else as before."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length, Size
from finishcalc.measures.money import Currency, Money, total
from finishcalc.model.materials import Fabric
from finishcalc.plans.cloth import buying, cost_of, length_to_buy, usable_width_of, usable_working, washed_length
from finishcalc.plans.cutting.layout import Band, ClothLayout, Wanted
from finishcalc.plans.cutting.packing import lay_out, least_length
from finishcalc.plans.cutting.purchases import Purchase, bands_working, lengths_of
from finishcalc.plans.on_hand import OnHand
from finishcalc.plans.shopping.pieces import Pieces, left_over, side_by_side, wanted_of, without
from finishcalc.plans.shopping.shelf import Shelf, TakenDown
from finishcalc.plans.shopping.wants import ClothWanted, ShoppingProject, figures_of, with_marks
from finishcalc.wording.sentence import InUnit, Sentence, Value, say


class ForProject(NamedTuple):
    """The part of a purchase that is for one project: its uses, and the length `alone` that it would buy by itself,
    which would cost `cost_alone`."""

    label: str
    uses: tuple[str, ...]
    alone: Length
    cost_alone: Money


class ClothToBuy(NamedTuple):
    """One cloth of the list. `purchase` has the lengths to buy and their layouts, after those of the pieces
    `taken_down` from the shelf, each piece marked with its project. `saved` is the cost of what the shelf spares; so
    cost and saving together are that of the cloth which the projects take. `own_name` is None for a preset's cloth,
    which is one project's alone; `left` is as much as is worth keeping."""

    own_name: str | None
    purchase: Purchase
    projects: tuple[ForProject, ...]
    taken_down: tuple[TakenDown, ...]
    saved: Money
    left: tuple[Size, ...]

    @property
    def name(self) -> str:
        """The name of the cloth."""
        return self.own_name or self.purchase.fabric.name

    @property
    def alone(self) -> Length:
        """The length that the projects would buy each by itself."""
        return sum((each.alone for each in self.projects), ZERO)

    @property
    def joined(self) -> Length:
        """The length that the projects together would buy, were nothing on hand."""
        return self.purchase.on_hand.needed.length if self.purchase.on_hand else self.purchase.amount

    @property
    def saved_by_joining(self) -> Money:
        """The cost of the cloth that the projects need not buy because they buy together."""
        costs = (each.cost_alone for each in self.projects)
        return total(costs, self.saved.currency) - self.purchase.cost - self.saved


class _Bought(NamedTuple):
    """Layouts as they are bought, each as one length."""

    lengths: tuple[Length, ...]
    layouts: tuple[ClothLayout, ...]

    @property
    def amount(self) -> Length:
        """All that is bought."""
        return sum(self.lengths, ZERO)

    def cost(self, fabric: Fabric, currency: Currency) -> Money:
        """The cost of that, half up to the minor unit."""
        return cost_of(fabric, self.amount, currency)

    def rank(self, fabric: Fabric) -> tuple[int, Length, int]:
        """The order in which ways to buy are taken: none longer than a bolt, then the least cloth, then the fewest
        lengths."""
        too_long = sum(1 for length in self.lengths if fabric.bolt and length > fabric.bolt)
        return too_long, self.amount, len(self.lengths)


MOST_TURNED = 40
"""The most pieces for which a first cut along the cloth is tried: a long length seldom gains by it, and takes long."""
PANELS = ": backing"
"""The end of the marked use of a backing's panels."""
Wanting = tuple[ShoppingProject, ClothWanted]


def plan_cloths(projects: Sequence[ShoppingProject], shelf: Shelf) -> Iterator[ClothToBuy]:
    """Buy each cloth once for all projects that use it, in the order of the names. A cloth is the same only where its
    own name, its whole table and the currency agree."""
    for _, wanting in sorted(_grouped(projects).items()):
        yield _cloth_to_buy(wanting, shelf)


def _grouped(projects: Sequence[ShoppingProject]) -> dict[tuple[str, ...], list[Wanting]]:
    grouped: dict[tuple[str, ...], list[Wanting]] = {}
    for project in projects:
        for number, wanted in enumerate(project.cloth):
            fabric = wanted.purchase.fabric
            figures = figures_of(fabric, Fabric)
            key: tuple[str, ...] = (wanted.own_name or "", project.currency.code, figures)
            if wanted.own_name is None:
                key = (fabric.name, project.currency.code, figures, project.label, project.key, str(number))
            grouped.setdefault((key[0].casefold(), *key), []).append((project, wanted))
    return grouped


def _cloth_to_buy(wanting: Sequence[Wanting], shelf: Shelf) -> ClothToBuy:
    """Buy one cloth: first as if nothing were on hand, then without what the shelf holds of it."""
    (first, cloth), fabric = wanting[0], wanting[0][1].purchase.fabric
    projects = tuple(_for_project(project, [each for of, each in wanting if of is project]) for project in _of(wanting))
    own = tuple(with_marks(layout, project.label) for project, each in wanting for layout in each.layouts)
    without_shelf = _best(fabric, own) if len(wanting) > 1 else _Bought(cloth.purchase.lengths, own)
    taken = tuple(_from_shelf(cloth.own_name, fabric, own, shelf)) if cloth.own_name else ()
    bought = without_shelf
    if taken:
        gone = list(wanted_of(each.layout for each in taken))
        bought = _best(fabric, without(own, gone), without(without_shelf.layouts, gone))
    least = min(project.least_cloth for project, _ in wanting)
    working = tuple(_working(fabric, projects, taken, bought))
    return ClothToBuy(
        own_name=cloth.own_name,
        purchase=_purchase(wanting, taken, bought, without_shelf)._replace(working=working),
        projects=projects,
        taken_down=taken,
        saved=without_shelf.cost(fabric, first.currency) - bought.cost(fabric, first.currency),
        left=tuple(_left(fabric, taken, bought, least)),
    )


def _purchase(
    wanting: Sequence[Wanting], taken: tuple[TakenDown, ...], bought: _Bought, without_shelf: _Bought
) -> Purchase:
    """Write down what is bought as a purchase of one project is, so that its cutting can be drawn alike."""
    (first, cloth), fabric = wanting[0], wanting[0][1].purchase.fabric
    if cloth.own_name:
        fabric = fabric.replace(name=cloth.own_name)
    return Purchase(
        fabrics=(fabric,),
        uses=tuple(dict.fromkeys(f"{project.label}: {use}" for project, each in wanting for use in each.purchase.uses)),
        supplied_by="shop",
        cut_length=sum((layout.length for layout in bought.layouts), ZERO),
        lengths=bought.lengths,
        amount=bought.amount,
        cost=bought.cost(fabric, first.currency),
        layouts=(*(each.layout for each in taken), *bought.layouts),
        weighed=None,
        on_hand=_on_hand(fabric, taken, bought, without_shelf) if taken else None,
        for_direction=ZERO,
        working=(),
    )


def _of(wanting: Sequence[Wanting]) -> Iterator[ShoppingProject]:
    """Give each project once."""
    yield from {project.key: project for project, _ in wanting}.values()


def _for_project(project: ShoppingProject, cloths: Sequence[ClothWanted]) -> ForProject:
    uses = tuple(dict.fromkeys(use for each in cloths for use in each.purchase.uses))
    alone = sum((each.purchase.amount for each in cloths), ZERO)
    cost = total((each.purchase.cost for each in cloths), cloths[0].purchase.cost.currency)
    return ForProject(project.label, uses, alone, cost)


def _best(fabric: Fabric, own: tuple[ClothLayout, ...], known: tuple[ClothLayout, ...] = ()) -> _Bought:
    """Take the way that buys the least: as the projects lay their pieces, or as they are `known` to be laid well; the
    same behind each other in one length; or all pieces laid anew. Bands in which a print meets stay as they are."""
    if not own:
        return _Bought((), ())
    ways = [_bought(fabric, layouts) for each in (own, known) for layouts in (each, tuple(_end_to_end(each)))]
    best = min((way for way in ways if way.lengths), key=lambda way: way.rank(fabric))
    kept, pieces = _matched(fabric, own)
    least = length_to_buy(fabric, least_length(fabric, pieces.kinds, kept))
    if best.rank(fabric) > (0, least, 1):
        anew = [side_by_side(best.layouts, kept)] if fabric.bolt else []
        anew.append(pieces.take(_packed(fabric, pieces.kinds, kept)))
        best = min((best, *(_bought(fabric, (each,)) for each in anew)), key=lambda way: way.rank(fabric))
    return best


def _packed(fabric: Fabric, kinds: tuple[Wanted, ...], kept: tuple[Band, ...]) -> ClothLayout:
    """Lay all pieces anew. Bolts may be too short for a layout whose first cut runs along the cloth, and not for one
    that can be cut apart, so both are tried there."""
    turns = [True, False] if fabric.bolt else [True]
    if sum(each.number for each in kinds) > MOST_TURNED:
        turns = [False]
    layouts = [lay_out(fabric, kinds, kept, may_turn=may_turn) for may_turn in turns]
    return min(layouts, key=lambda layout: _bought(fabric, (layout,)).rank(fabric))


def _bought(fabric: Fabric, layouts: Iterable[ClothLayout]) -> _Bought:
    parts = [lengths_of(fabric, layout) for layout in layouts]
    lengths = tuple(length for lengths, _ in parts for length in lengths)
    return _Bought(lengths, tuple(layout for _, laid in parts for layout in laid))


def _end_to_end(layouts: tuple[ClothLayout, ...]) -> Iterator[ClothLayout]:
    """Lay layouts behind each other; one whose first cut runs along the cloth is a length of its own, because parting
    it from the others would be a cut more."""
    crosswise = [layout for layout in layouts if not layout.turned]
    if crosswise:
        yield crosswise[0]._replace(bands=tuple(band for layout in crosswise for band in layout.bands))
    yield from (layout for layout in layouts if layout.turned)


def _matched(fabric: Fabric, layouts: tuple[ClothLayout, ...]) -> tuple[tuple[Band, ...], Pieces]:
    """Part bands with panels on which a print must meet from all other pieces. One panel by itself meets nothing."""
    uses = Counter(wanted.use for wanted in wanted_of(layouts) if wanted.use.endswith(PANELS))
    matched = {use for use, number in uses.items() if number > 1 and fabric.repeat}
    kept, free = [], []
    for band in (band for layout in layouts for band in layout.bands):
        panels = [column for column in band.columns if any(piece.use in matched for piece in column.pieces)]
        if panels:
            kept.append(band._replace(columns=tuple(panels)))
        free += [piece.wanted for column in band.columns if column not in panels for piece in column.pieces]
    return tuple(kept), Pieces(free)


def _from_shelf(name: str, fabric: Fabric, own: tuple[ClothLayout, ...], shelf: Shelf) -> Iterator[TakenDown]:
    """Cut pieces from what is on hand. Panels on which a print must meet are cut from one length only."""
    _, pieces = _matched(fabric, own)
    yield from shelf.take_down("cloth", name, lambda size: _usable_part(fabric, size), pieces)


def _usable_part(fabric: Fabric, size: Size) -> Size:
    """Give the part of a piece on hand that can be cut: one as wide as the cloth is sold is unwashed, with its
    selvages; any other is measured as it can be cut."""
    usable = usable_width_of(fabric)
    if size.width <= usable and size.width < fabric.width:
        return size
    return Size(usable, washed_length(fabric, size.length))


def _on_hand(fabric: Fabric, taken: Sequence[TakenDown], bought: _Bought, without_shelf: _Bought) -> OnHand:
    lengths = tuple(InUnit(each.written.length, fabric.per) for each in taken)
    hold = sum((each.layout.length for each in taken), ZERO)
    short = sum((layout.length for layout in bought.layouts), ZERO)
    return OnHand(lengths, InUnit(without_shelf.amount, fabric.per), lengths, hold, short)


def _working(
    fabric: Fabric, projects: Sequence[ForProject], taken: Sequence[TakenDown], bought: _Bought
) -> Iterator[Sentence]:
    """Write out the lengths alone, what the shelf holds, and each length that is bought."""
    yield usable_working(fabric, usable_width_of(fabric))
    if len(projects) > 1:
        yield _alone_working(fabric, projects, bought)
    for each in taken:
        count = sum(1 for _ in each.layout.placed)
        text = "On hand: {w} x {l}, from which {n} " + ("piece is" if count == 1 else "pieces are") + " cut"
        yield say(text, w=each.written.width, l=each.written.length, n=count)
    for layout, length in zip(bought.layouts, bought.lengths, strict=True):
        yield bands_working(fabric, layout)
        yield buying(fabric, layout.length, length)


def _alone_working(fabric: Fabric, projects: Sequence[ForProject], bought: _Bought) -> Sentence:
    values: dict[str, Value] = {}
    terms = []
    for n, each in enumerate(projects):
        values |= {f"label{n}": each.label, f"alone{n}": InUnit(each.alone, fabric.per)}
        terms.append(f"{{alone{n}}} for {{label{n}}}")
    alone = InUnit(sum((each.alone for each in projects), ZERO), fabric.per)
    together = InUnit(bought.amount, fabric.per)
    text = "Alone: " + " + ".join(terms) + " = {alone}; bought for all: {together}"
    return say(text, alone=alone, together=together, **values)


def _left(fabric: Fabric, taken: Sequence[TakenDown], bought: _Bought, least: Length) -> Iterator[Size]:
    """Give what is left of the pieces taken down and of the lengths that are bought, washed, without selvages."""
    sizes = [size for each in taken for size in left_over(each.layout, each.usable.length)]
    for layout, length in zip(bought.layouts, bought.lengths, strict=True):
        sizes += left_over(layout, washed_length(fabric, length))
    yield from (size for size in sizes if min(size) >= least)
