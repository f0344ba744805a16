"""Proves the layouts of one cloth from the definition of cuts from edge to edge; it shares no code with the planner.

Of a layout it reads the bands, their columns and the pieces, and works out anew where each piece lies: x across the
cloth from a selvage, y along it. From the places alone, cuts across the whole cloth must part bands, cuts along each
band columns, and cuts across each column the pieces, all as wide as their column; or the same with along and across
swapped, where the layout says that its first cut runs along. Everything here is an exact number of millimetres.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from finishcalc.measures.length import Length
from finishcalc.plans.cutting.layout import ClothLayout


class Needed(NamedTuple):
    """So many alike pieces of one part, which may lie `along` the cloth, `across` it, or either way. Where they may be
    sewn from parts end to end, each join takes so much; None where each is one piece."""

    use: str
    width: Length
    length: Length
    number: int
    along: bool
    across: bool
    join: Length | None


class Cloth(NamedTuple):
    """The terms of the cloth: `usable` from selvage to selvage once washed, and the `shortest` part that is joined."""

    usable: Length
    shrink_along: Fraction
    straighten: Length
    shortest: Length


class Lying(NamedTuple):
    """A piece where it lies, in millimetres, and the strip that it is for."""

    use: str
    x: Fraction
    y: Fraction
    across: Fraction
    along: Fraction
    strip_width: Fraction
    strip_length: Fraction

    @property
    def right(self) -> Fraction:
        return self.x + self.across

    @property
    def behind(self) -> Fraction:
        return self.y + self.along

    @property
    def long(self) -> Fraction:
        """Its length in the direction of the strip: the side that is not the strip's width."""
        return self.along if self.across == self.strip_width else self.across

    @property
    def whole(self) -> bool:
        return self.long == self.strip_length

    def __str__(self) -> str:
        return f"{self.use} {Length(self.across)} x {Length(self.along)} at {Length(self.x)}, {Length(self.y)}"


def complaints(
    layouts: Sequence[ClothLayout], bought: Sequence[Length], needed: Sequence[Needed], cloth: Cloth
) -> list[str]:
    """Everything that is wrong with the layouts of the lengths bought of one cloth."""
    lying = [list(_replayed(layout)) for layout in layouts]
    found = [] if len(layouts) == len(bought) else [f"{len(layouts)} layouts for {len(bought)} lengths"]
    for layout, pieces, length in zip(layouts, lying, bought, strict=False):
        if layout.usable != cloth.usable:
            found.append(f"laid on {layout.usable}, and {cloth.usable} is usable")
        found += [
            *_off_the_cloth(pieces, layout, cloth),
            *_not_cut_in_three(pieces, layout.turned),
            *_in_wide_columns(layout),
        ]
        found += _bought_short(layout, length, cloth)
    laid = [piece for pieces in lying for piece in pieces]
    return [*found, *_wrongly_counted(laid, needed, cloth)]


# --- where the pieces lie --------------------------------------------------------------------------------------------


def _replayed(layout: ClothLayout) -> Iterator[Lying]:
    """Lay band behind band, in each column beside column, in each piece behind piece; bands beside each other, columns
    behind and pieces beside each other where the layout is turned."""
    start = Fraction(0)
    for band in layout.bands:
        start += band.gap.mm
        beside = Fraction(0)
        for column in band.columns:
            behind = start
            for piece in column.pieces:
                wanted, across, along = piece.wanted, piece.across.mm, piece.along.mm
                x, y = (behind, beside) if layout.turned else (beside, behind)
                yield Lying(wanted.use, x, y, across, along, wanted.width.mm, wanted.joined_to.mm)
                behind += across if layout.turned else along
            beside += column.width.mm
        start += band.length.mm


def _end(layout: ClothLayout) -> Fraction:
    """The length of cloth that the bands take, one behind the other or side by side."""
    if layout.turned:
        return max(sum((column.width.mm for column in band.columns), Fraction(0)) for band in layout.bands)
    return sum((band.gap.mm + band.length.mm for band in layout.bands), Fraction(0))


def _off_the_cloth(pieces: Sequence[Lying], layout: ClothLayout, cloth: Cloth) -> Iterator[str]:
    """The cloth ends where the last band does: what a band's columns need beyond it would lie in the next, or off."""
    end = _end(layout)
    for piece in pieces:
        if piece.across <= 0 or piece.along <= 0:
            yield f"{piece} has no size"
        if piece.right > cloth.usable.mm or piece.behind > end:
            yield f"{piece} lies off the cloth"
    if layout.length.mm != end:
        yield f"the layout is said to take {layout.length}, and takes {Length(end)}"


Span = Callable[[Lying], tuple[Fraction, Fraction]]


def _across(piece: Lying) -> tuple[Fraction, Fraction]:
    return piece.x, piece.right


def _along(piece: Lying) -> tuple[Fraction, Fraction]:
    return piece.y, piece.behind


def _not_cut_in_three(pieces: Sequence[Lying], turned: bool) -> Iterator[str]:
    """Cut wherever a cut from edge to edge meets no piece, in three stages. A layout that can be cut in three can be
    cut so: more cuts of a stage never join what others part. Pieces that are parted do not overlap."""
    first, second = (_across, _along) if turned else (_along, _across)
    for band in _parted(pieces, first):
        for column in _parted(band, second):
            if len({second(piece) for piece in column}) > 1:
                yield "a fourth cut is needed: " + " beside ".join(map(str, column))
            if any(len(pile) > 1 for pile in _parted(column, first)):
                yield "no cut from edge to edge parts " + " from ".join(map(str, column))


def _parted(pieces: Iterable[Lying], span: Span) -> list[list[Lying]]:
    """Part pieces wherever nothing lies over the line between them."""
    groups: list[list[Lying]] = []
    end: Fraction | None = None
    for piece in sorted(pieces, key=span):
        start, stop = span(piece)
        if end is None or start >= end:
            groups.append([])
            end = stop
        groups[-1].append(piece)
        end = max(end, stop)
    return groups


def _in_wide_columns(layout: ClothLayout) -> Iterator[str]:
    """A piece that is narrower than its column must be trimmed, with a fourth cut."""
    columns = [column for band in layout.bands for column in band.columns]
    wide = [((p.along if layout.turned else p.across), column.width) for column in columns for p in column.pieces]
    if any(width != column_width for width, column_width in wide):
        yield "a piece is not as wide as its column"


def _bought_short(layout: ClothLayout, bought: Length, cloth: Cloth) -> Iterator[str]:
    takes = _end(layout) / (1 - cloth.shrink_along) + cloth.straighten.mm
    if bought.mm < takes:
        yield f"{bought} is bought, short of {Length(takes)}"


# --- what they are ---------------------------------------------------------------------------------------------------


def _wrongly_counted(lying: Sequence[Lying], needed: Sequence[Needed], cloth: Cloth) -> Iterator[str]:
    wanted: dict[tuple[str, Fraction, Fraction], list[Needed]] = {}
    for need in needed:
        wanted.setdefault((need.use, need.width.mm, need.length.mm), []).append(need)
    laid: dict[tuple[str, Fraction, Fraction], list[Lying]] = {}
    for piece in lying:
        laid.setdefault((piece.use, piece.strip_width, piece.strip_length), []).append(piece)
    for use, width, length in laid.keys() - wanted.keys():
        yield f"{use} {Length(width)} x {Length(length)} is not needed, and cut"
    for key, needs in wanted.items():
        use, width, length = key
        yield from (
            f"{use} {Length(width)} x {Length(length)}: {why}" for why in _wrong(laid.get(key, []), needs, cloth)
        )


def _wrong(laid: Sequence[Lying], needs: Sequence[Needed], cloth: Cloth) -> Iterator[str]:
    """Pieces of one part and size, against what is needed of it: first the whole ones, then the strips to be joined."""
    number = sum(each.number for each in needs)
    need = next((each for each in needs if each.join is not None), needs[0])
    for piece in laid:
        if piece.strip_width not in (piece.across, piece.along):
            yield f"{piece} is not as wide as its strip"
    whole, parts = [piece for piece in laid if piece.whole], [piece for piece in laid if not piece.whole]
    yield from _against_the_grain(laid, needs)
    strips = number - len(whole)
    if strips < 0 or (strips == 0 and parts):
        yield f"{len(whole)} and {len(parts)} parts are cut, {number} needed"
    elif strips and not parts:
        yield f"{len(whole)} are cut, {number} needed"
    elif strips and need.join is None:
        yield "is cut in parts, and may not be joined"
    elif strips and need.join is not None:
        if any(piece.long < cloth.shortest.mm for piece in parts):
            yield f"a part is shorter than {cloth.shortest}"
        if not make_strips([piece.long for piece in parts], strips, need.length.mm, need.join.mm):
            yield f"{len(parts)} parts do not make {strips} strips"


def _against_the_grain(laid: Sequence[Lying], needs: Sequence[Needed]) -> Iterator[str]:
    """Strips whose grain is told keep it; the parts of one that is joined lie all the same way. A square has none."""
    strips = [piece for piece in laid if piece.across != piece.along]
    along = [piece for piece in strips if piece.across == piece.strip_width]
    if along and not any(need.along for need in needs):
        yield "lies along the cloth, and must not"
    if len(along) < len(strips) and not any(need.across for need in needs):
        yield "lies across the cloth, and must not"
    whole = [piece in along for piece in strips if piece.whole]
    for way, lying, may in (("along", True, [n.along for n in needs]), ("across", False, [n.across for n in needs])):
        if whole.count(lying) > sum(need.number for need, may_lie in zip(needs, may, strict=True) if may_lie):
            yield f"too many lie {way} the cloth"
    if len({piece in along for piece in strips if not piece.whole}) > 1:
        yield "is joined from parts along and across"


def make_strips(parts: Sequence[Fraction], strips: int, length: Fraction, join: Fraction) -> bool:
    """True where the parts, each used once, can be sewn into so many strips, each at least so long. A strip of n parts
    loses n - 1 joins, so each part is worth its length less a join, and a strip needs its length less one join."""
    worth = Counter(part - join for part in parts)
    return _shared_out(worth, strips, length - join)


def _shared_out(worth: Counter[Fraction], strips: int, need: Fraction) -> bool:
    """Share parts out to strips, the largest first: it must go somewhere, so all groups that hold it are tried."""
    if strips == 0:
        return True
    left = sorted(worth.elements(), reverse=True)
    if sum(left) < need * strips:
        return False
    first, *others = left
    return any(_shared_out(worth - Counter(group), strips - 1, need) for group in _groups([first], others, need))


def _groups(group: list[Fraction], others: Sequence[Fraction], need: Fraction) -> Iterator[list[Fraction]]:
    """Every least group that is worth enough, without repeating alike ones."""
    if sum(group) >= need:
        yield group
        return
    for number, part in enumerate(others):
        if number == 0 or part != others[number - 1]:
            yield from _groups([*group, part], others[number + 1 :], need)
