"""One purchase for each cloth: all that is cut from it is laid together, and bought in one length or one a bolt."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from finishcalc.measures.length import ZERO, Length
from finishcalc.measures.money import Currency, Money
from finishcalc.model.keys import Supplier
from finishcalc.model.materials import BoughtFabric, Fabric
from finishcalc.model.shop import Sewing
from finishcalc.plans.cautions import Caution, blocking_caution, caution
from finishcalc.plans.cloth import (
    CutLength,
    buying_lengths,
    cost_of,
    fill_lengths,
    lengths_to_buy,
    unmatched_cut_lengths,
    usable_width_of,
    usable_working,
    uses_words,
    washed_length,
)
from finishcalc.plans.cutting.layout import Band, ClothLayout
from finishcalc.plans.cutting.offcuts import offcut_strips, with_offcut_strips
from finishcalc.plans.cutting.ways import Way, Weighed, weigh_cuttings
from finishcalc.plans.on_hand import OnHand, held_at_hand, on_hand
from finishcalc.wording.sentence import InUnit, Sentence, Value, say
from finishcalc.wording.words import capital


class FromOffcuts(NamedTuple):
    """The first `number` strips `width` wide that the offcuts of a cloth give, the longest first and none shorter than
    `shortest`; where `along_only`, those that lie along it."""

    use: str
    width: Length
    shortest: Length
    along_only: bool
    number: int


class Need(NamedTuple):
    """The cloth that parts of the quilt need. `fabrics` holds the cloth once for each key of the project that gives it.
    Pieces are laid in `bands` already, as those of a backing are, or each part has its `ways` to be cut, the pieces of
    which are laid with all others of the same cloth; `turnable_ways` are those of a cloth without a direction. Bands
    that come `after` leave nothing free beside them. It is a purchase `apart` where more of a cloth that is there
    already must be had."""

    uses: tuple[str, ...]
    fabrics: tuple[Fabric, ...]
    supplied_by: Supplier
    bands: tuple[Band, ...] = ()
    ways: tuple[tuple[Way, ...], ...] = ()
    turnable_ways: tuple[tuple[Way, ...], ...] = ()
    after: tuple[Band, ...] = ()
    offcuts: FromOffcuts | None = None
    apart: bool = False

    @property
    def cut_length(self) -> Length:
        """The length of the bands that it is laid in by itself."""
        return sum((band.gap + band.length for band in (*self.bands, *self.after)), ZERO)


class Purchase(NamedTuple):
    """One purchase of one cloth for the parts in `uses`, which take `cut_length` of it washed; less is bought where
    some of it is `on_hand`. `fabrics` holds the cloth once for each key of the project that gives it. Each length that
    it is `cut_from` has its layout. `weighed` is how the parts of a top are cut, and how they could be. So much more is
    needed `for_direction` than if the pieces of the top could be turned."""

    fabrics: tuple[Fabric, ...]
    uses: tuple[str, ...]
    supplied_by: Supplier
    cut_length: Length
    lengths: tuple[Length, ...]
    amount: Length
    cost: Money
    layouts: tuple[ClothLayout, ...]
    weighed: Weighed | None
    on_hand: OnHand | None
    for_direction: Length
    working: tuple[Sentence, ...]

    @property
    def fabric(self) -> Fabric:
        """The cloth."""
        return self.fabrics[0]

    @property
    def is_all_on_hand(self) -> bool:
        """Tell a purchase of nothing."""
        return self.on_hand is not None and not self.lengths

    @property
    def cut_from(self) -> tuple[InUnit, ...]:
        """The lengths that hold the pieces: those at hand first, then those bought."""
        used = self.on_hand.used if self.on_hand else ()
        return (*used, *(InUnit(length, self.fabric.per) for length in self.lengths))

    def is_at_hand(self, number: int) -> bool:
        """Tell a length that the cloth is cut from, by its number from 0 on, that is at hand already."""
        return number < len(self.layouts) - len(self.lengths)

    @property
    def tells_its_working(self) -> bool:
        """Tell a purchase whose arithmetic no single part has: of several parts, of a top, or of cloth at hand too."""
        return len(self.uses) > 1 or self.weighed is not None or self.on_hand is not None

    def is_of_same_cloth(self, other: "Purchase") -> bool:
        """Tell two purchases of one cloth and supplier for parts of a top, in two plans."""
        return (self.fabric, self.supplied_by) == (other.fabric, other.supplied_by) and bool(self.weighed)

    @property
    def washed_lengths(self) -> tuple[Length, ...]:
        """The lengths that are left once each is squared and washed."""
        return tuple(washed_length(self.fabric, length) for length in (each.length for each in self.cut_from))


def plan_cloth(needs: list[Need], currency: Currency, sewing: Sewing) -> tuple[Purchase, ...]:
    """Make one purchase for each cloth and supplier: parts of the same cloth are bought as one length, but for those
    that are bought apart. The first purchase of a cloth uses what is at hand of it."""
    groups: dict[tuple[Fabric, Supplier, bool], list[Need]] = {}
    for need in needs:
        groups.setdefault((need.fabrics[0], need.supplied_by, need.apart), []).append(need)
    first_of = {key[0]: key for key in reversed(groups)}
    return tuple(
        _purchase(group, currency, sewing, uses_on_hand=first_of[key[0]] == key) for key, group in groups.items()
    )


def lay_needs(needs: Sequence[Need], sewing: Sewing) -> tuple[ClothLayout, Weighed | None]:
    """Lay all that needs one cloth together: first the bands that are given, then the bands of the parts of a top. What
    comes after these is added last."""
    fabric = needs[0].fabrics[0]
    bands = tuple(band for need in needs for band in need.bands)
    after = tuple(band for need in needs for band in need.after)
    ways = [way for need in needs for way in need.ways]
    layout, weighed = ClothLayout(usable_width_of(fabric), bands), None
    offcuts = next((need.offcuts for need in needs if need.offcuts), None)
    if ways:
        # strips from offcuts are counted on a layout that does not know them, so what comes after is not counted either
        length_after = ZERO if offcuts else sum((band.length for band in after), ZERO)
        weighed = weigh_cuttings(fabric, ways, bands, length_after, sewing)
        layout = weighed.lead.layout
    if offcuts:
        strips = offcut_strips(layout, offcuts.width, offcuts.shortest, offcuts.along_only)[: offcuts.number]
        layout = with_offcut_strips(layout, offcuts.use, offcuts.width, strips)
    return layout._replace(bands=(*layout.bands, *after)), weighed


def _purchase(needs: list[Need], currency: Currency, sewing: Sewing, uses_on_hand: bool) -> Purchase:
    fabric = needs[0].fabrics[0]
    layout, weighed = lay_needs(needs, sewing)
    at_hand = _lay_at_hand(fabric, layout) if uses_on_hand else None
    rest = at_hand.rest if at_hand else layout
    lengths, bought = lengths_of(fabric, rest) if rest.bands or not at_hand else ((), ())
    amount = sum(lengths, ZERO)
    return Purchase(
        fabrics=tuple({fabric.price.key: fabric for need in needs for fabric in need.fabrics}.values()),
        uses=tuple(dict.fromkeys(use for need in needs for use in need.uses)),
        supplied_by=needs[0].supplied_by,
        cut_length=layout.length,
        lengths=lengths,
        amount=amount,
        cost=cost_of(fabric, amount, currency),
        layouts=(*at_hand.layouts, *bought) if at_hand else bought,
        weighed=weighed,
        on_hand=at_hand.told if at_hand else None,
        for_direction=_for_direction(needs, layout, sewing),
        working=(
            *_working(fabric, needs, layout, weighed, sewing),
            *((at_hand.told.sentence,) if at_hand else ()),
            *(buying_lengths(fabric, rest.length, lengths) if lengths else ()),
        ),
    )


def lengths_of(fabric: Fabric, layout: ClothLayout) -> tuple[tuple[Length, ...], tuple[ClothLayout, ...]]:
    """Give the lengths to buy for a layout, one or as many as bolts are too short for, each with its own layout."""
    cut_lengths = _cut_lengths(layout)
    lengths = lengths_to_buy(fabric, cut_lengths)
    layouts = tuple(_by_bolt(layout, fill_lengths(fabric, cut_lengths))) if len(lengths) > 1 else (layout,)
    return lengths, layouts


class _AtHand(NamedTuple):
    """A layout shared out among the lengths at hand that are `told` of, and the `rest` of it, which is bought."""

    told: OnHand
    layouts: tuple[ClothLayout, ...]
    rest: ClothLayout


def _lay_at_hand(fabric: Fabric, layout: ClothLayout) -> _AtHand | None:
    """Take from a layout the bands that lengths at hand hold; None where none is at hand. Where they part a print that
    must meet, each band takes as much as on a new bolt."""
    lengths, cuts = fabric.has if isinstance(fabric, BoughtFabric) else (), _cut_lengths(layout)
    if not lengths or not layout.bands:
        return None
    needed = InUnit(sum(lengths_to_buy(fabric, cuts), ZERO), fabric.per)
    apart = [max(cut.length, cut.length_on_new_bolt) for cut in cuts]
    held = held_at_hand(layout.length, apart, [washed_length(fabric, each.length) for each in lengths])
    told = on_hand(lengths, needed, [cut.length for cut in cuts], held)
    if not any(held):
        return _AtHand(told, (), layout)
    if layout.turned or any(len(numbers) == len(cuts) for numbers in held):
        return _AtHand(told, (layout,), layout._replace(bands=()))
    bands = [band._replace(gap=band.gap + max(band.new_bolt_extra, ZERO), new_bolt_extra=ZERO) for band in layout.bands]
    laid = {number for numbers in held for number in numbers}
    left = [number for number in range(len(bands)) if number not in laid]
    *at_hand, rest = (layout._replace(bands=tuple(bands[number] for number in numbers)) for numbers in (*held, left))
    return _AtHand(told, tuple(each for each in at_hand if each.bands), rest)


def _for_direction(needs: Sequence[Need], layout: ClothLayout, sewing: Sewing) -> Length:
    """Give the length more that is needed because a direction says the way that the pieces of a top lie."""
    if all(need.turnable_ways in ((), need.ways) for need in needs):
        return ZERO
    fabric = needs[0].fabrics[0]
    turnable, _ = lay_needs([need._replace(ways=need.turnable_ways, offcuts=None) for need in needs], sewing)
    needed, without = (sum(lengths_to_buy(fabric, _cut_lengths(each)), ZERO) for each in (layout, turnable))
    return max(needed - without, ZERO)


def _cut_lengths(layout: ClothLayout) -> list[CutLength]:
    """Give the lengths that the cloth may be cut apart in: its bands, unless they run along it."""
    if layout.turned and layout.bands:
        return list(unmatched_cut_lengths(layout.length))
    return [_cut_length(band) for band in layout.bands]


def _cut_length(band: Band) -> CutLength:
    length, extra = band.gap + band.length if band.gap else band.length, band.new_bolt_extra
    return CutLength(length, length + extra if extra else length)


def _by_bolt(layout: ClothLayout, bolts: Sequence[Sequence[int]]) -> Iterator[ClothLayout]:
    """Give the bands on each bolt; the first on a later one finds the place of its print anew."""
    for later, numbers in enumerate(bolts):
        first, *others = (layout.bands[number] for number in numbers)
        gap = first.gap + first.new_bolt_extra if later else first.gap
        yield layout._replace(bands=(first._replace(gap=gap), *others))


def _working(
    fabric: Fabric, needs: Sequence[Need], layout: ClothLayout, weighed: Weighed | None, sewing: Sewing
) -> Iterator[Sentence]:
    """Write out the length that is cut: of a top's cloth band by band, of parts that are planned alone as their sum."""
    if weighed:
        yield usable_working(fabric, layout.usable)
        yield bands_working(fabric, layout)
        if weighed.other:
            yield weighed.working(sewing)
    elif len(needs) > 1:
        parts = " + ".join(f"{{n{n}}} for {uses_words(need.uses)}" for n, need in enumerate(needs))
        values: dict[str, Value] = {f"n{n}": need.cut_length for n, need in enumerate(needs)}
        yield say(f"Cloth: {parts} = {{cut}}", cut=layout.length, **values)


def bands_working(fabric: Fabric, layout: ClothLayout) -> Sentence:
    """Add up the bands of a layout, alike ones together; where they run along the cloth, the longest says it."""
    if layout.turned:
        return say("Cut of {fabric}: side by side along the cloth, {cut}", fabric=fabric.name, cut=layout.length)
    if len(layout.bands) == 1:
        return say("Cut of {fabric}: one length, {cut}", fabric=fabric.name, cut=layout.length)
    counts = Counter(cut.length for cut in _cut_lengths(layout))
    values: dict[str, Value] = {}
    terms = []
    for n, (length, count) in enumerate(counts.items()):
        values |= {f"n{n}": count, f"length{n}": length}
        terms.append(f"{{n{n}}} x {{length{n}}}" if count > 1 else f"{{length{n}}}")
    text = "Cut of {fabric}: " + " + ".join(terms) + " = {cut}"
    return say(text, fabric=fabric.name, cut=layout.length, **values)


def bolt_cautions(purchases: tuple[Purchase, ...]) -> list[Caution]:
    """Warn of a cloth that comes from more than one bolt, or that no bolt is long enough for."""
    cautions = []
    for purchase in purchases:
        fabric, count = purchase.fabric, len(purchase.lengths)
        bolt = InUnit(fabric.bolt, fabric.per)
        if count > 1:
            text = "{fabric} comes in bolts of {bolt}, and {count} lengths are needed: ask for the same dye lot."
            cautions.append(caution("second-length", text, fabric=capital(fabric.name), bolt=bolt, count=count))
        if fabric.bolt and max(purchase.lengths, default=ZERO) > fabric.bolt:
            text = "No bolt of {bolt} holds a length of {length}: use another cloth, or run the seams the other way."
            longest = InUnit(max(purchase.lengths), fabric.per)
            cautions.append(blocking_caution("bolt-too-short", text, bolt=bolt, length=longest))
    return cautions
